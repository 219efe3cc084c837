//! Any bytes, taken for what is handed over and proved later: a sealed package, the time stamp beside it.
//!
//! Must hold: no panic and an end; a package that proves itself holds a record and a seal; a time stamp that reads tells a
//! time, and the same each time.

#![no_main]

use libfuzzer_sys::fuzz_target;
use timestamp::{Roots, Token};

fuzz_target!(|bytes: &[u8]| {
    package(bytes);
    time_stamp(bytes);
    let _ = Roots::from_pem(bytes);
});

fn package(bytes: &[u8]) {
    let Ok(proof) = seal::prove(bytes) else { return };
    if proof.faults.is_empty() {
        assert!(proof.seal.is_some() && proof.record.is_some(), "nothing is proved of nothing");
    }
    for fault in &proof.faults {
        assert!(!fault.to_string().is_empty(), "a fault says what it is");
    }
}

fn time_stamp(bytes: &[u8]) {
    match Token::read(bytes) {
        Ok(token) => {
            let again = Token::read(bytes).expect("it reads again");
            assert_eq!((token.time(), token.number()), (again.time(), again.number()));
            let _ = token.covers(bytes);
            let _ = token.service();
        }
        Err(doubt) => assert!(!doubt.to_string().is_empty(), "a doubt says what it is"),
    }
}
