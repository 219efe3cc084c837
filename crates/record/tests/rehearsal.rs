//! A rehearsal is known by every entry of it, and no record takes it in.

use record::rehearsal::{is_rehearsal_key, key_of};
use record::{Entry, MergeError};
use testkit::{Tablet, body, record};

fn opened(rehearsal: &str) -> record::Body {
    let fields = [
        ("name", "Harrow Vale"),
        ("time_zone", "America/Denver"),
        ("units", "us"),
        ("lengths", "feet_tenths"),
        ("rehearsal", rehearsal),
    ];
    body("job_opened", &fields)
}

fn remark(job: &str) -> Entry {
    Tablet::new(1).of_job(job).write("10:00", body("remark", &[("text", "Level stands.")]))
}

#[test]
fn the_mark_stands_in_the_key_of_every_entry() {
    let key = key_of("casing-stuck", u64::MAX);
    assert_eq!(key, "rehearsal-casing-stuck-ffffffffffffffff");
    assert!(key.len() <= 40 && is_rehearsal_key(&key));
    assert!(!is_rehearsal_key("harrow-vale"));
    assert!(!is_rehearsal_key("full-rehearsal-1"));
    // One entry alone, without the one that opened the job, is known.
    assert!(record(&[remark(&key)]).is_rehearsal());
    assert!(!record(&[remark("harrow-vale")]).is_rehearsal());
}

#[test]
fn a_rehearsal_and_a_job_never_become_one_record() {
    let (job, made_up) = (record(&[remark("harrow-vale")]), record(&[remark("rehearsal-neck-7")]));
    let (here, there) = ("harrow-vale".to_owned(), "rehearsal-neck-7".to_owned());
    let error = MergeError::OtherJob { here, there };
    assert_eq!(
        error.to_string(),
        "a rehearsal never becomes part of a record: `rehearsal-neck-7` and `harrow-vale`"
    );
    assert_eq!(job.merge(&made_up), Err(error));
    assert!(made_up.merge(&job).is_err());
    let other = record(&[remark("rehearsal-neck-8")]);
    assert_eq!(
        made_up.merge(&other).map_err(|error| error.to_string()),
        Err("entries of job `rehearsal-neck-8` in a record of `rehearsal-neck-7`".to_owned())
    );
}

#[test]
fn a_job_opened_as_a_rehearsal_stays_one_whatever_is_corrected() {
    let mut tablet = Tablet::new(1).about(None);
    let first = tablet.write("08:00", opened("yes"));
    assert!(record(std::slice::from_ref(&first)).is_rehearsal());
    let real = record::kinds::Correction {
        replaces: first.id,
        reason: "it was a job".to_owned(),
        observed: None,
        body: Some(Box::new(opened("no"))),
    };
    let second = tablet.write("08:10", real.into());
    assert!(record(&[first, second]).is_rehearsal());
    let job = Tablet::new(2).about(None).write("08:00", opened("no"));
    assert!(!record(&[job]).is_rehearsal());
}
