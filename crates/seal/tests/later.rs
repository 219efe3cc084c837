//! What comes after a seal is beside what it covers, and never in it.

use record::{Entry, Held};
use testkit::{Tablet, body, record};

fn remark(text: &str) -> record::Body {
    body("remark", &[("text", text)])
}

/// Entries that come later are a supplement, whatever they correct; the sealed set stays what it was.
#[test]
fn what_comes_later_never_changes_the_sealed_set() {
    let (mut tablet, mut other) = (Tablet::new(1), Tablet::new(2).about(Some("S-2")));
    let (first, elsewhere) = (tablet.write("10:00", remark("dry")), other.write("10:05", remark("wet")));
    let before = record(&[first.clone(), elsewhere.clone()]);
    let set = before.of_shaft_and_job("S-1");
    assert_eq!(set.len(), 1, "the other shaft is not in it");
    let said = record::kinds::ShaftSealed {
        root: seal::root_of(&set),
        entries: 1,
        heads: set.heads(),
        file: record::entry::FileHash([7; 32]),
        pages: Vec::new(),
        paper: "a4".to_owned(),
        program: "shaftbook 0".to_owned(),
    };
    let sealed = Tablet::new(9).write("12:00", said.clone().into());
    let strike = |entry: &Entry| body("correction", &[("replaces", &entry.id.to_string()), ("reason", "no")]);
    // The entry, the seal, and a device nobody knew at the time.
    let later = [
        tablet.write("13:00", strike(&first)),
        tablet.write("13:05", strike(&sealed)),
        Tablet::new(6).write_late("09:00", "14:00", remark("seen before, entered after")),
    ];
    let after = before.merge(&record(&[&[sealed.clone()][..], &later].concat())).expect("one job");
    assert_eq!(after.sealed_set("S-1", &said).expect("all here"), set);
    assert_eq!(seal::root_of(&after.sealed_set("S-1", &said).expect("all here")), said.root);
    let supplement = after.supplement("S-1").expect("it is sealed");
    let found: Vec<_> = supplement.entries.iter().map(|held: &&Held| held.id()).collect();
    assert_eq!(found, later.map(|entry| entry.id));
    assert_eq!(after.seals("S-2"), []);
    let missing = record(&[sealed]).sealed_set("S-1", &said).expect_err("nothing is here");
    assert_eq!(missing, [first.id]);
}
