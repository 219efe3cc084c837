//! What a shaft lacks before it can be sealed.

use record::choices::Role;
use record::{Entry, Held, Record};
use seal::{Lack, lacks};
use testkit::{Tablet, body, record};

fn signed(name: &str, role: &str) -> record::Body {
    body("signed", &[("name", name), ("role", role)])
}

fn remark(text: &str) -> record::Body {
    body("remark", &[("text", text)])
}

#[track_caller]
fn check(entries: &[Entry], expected: &[Lack]) {
    assert_eq!(lacks(&record(entries), "S-1"), expected);
}

fn too_early(role: Role, name: &str, after: &Entry) -> Lack {
    Lack::SignedTooEarly { role, name: name.to_owned(), after: after.id }
}

#[test]
fn inspector_and_engineer_have_to_sign() {
    let mut tablet = Tablet::new(1);
    let seen = tablet.write("10:00", remark("dry to 20 ft"));
    let both = [Lack::NotSigned(Role::Inspector), Lack::NotSigned(Role::Engineer)];
    check(std::slice::from_ref(&seen), &both);
    let own = tablet.write("15:00", signed("A. Inspector", "inspector"));
    check(&[seen.clone(), own.clone()], &both[1..]);
    let last = Tablet::new(2).by("I. Vane").write("16:00", signed("I. Vane", "engineer"));
    check(&[seen, own, last], &[]);
}

/// Each signs for what they wrote, the engineer for everything.
#[test]
fn who_signed_before_something_was_entered_signs_again() {
    let (mut tablet, mut office) = (Tablet::new(1), Tablet::new(2).by("I. Vane"));
    let mut laboratory = Tablet::new(3).by("M. Oakes");
    let own = tablet.write("15:00", signed("A. Inspector", "inspector"));
    let breaks = laboratory.write("15:30", remark("5110 psi"));
    let last = office.write("16:00", signed("I. Vane", "engineer"));
    let whole = [own, breaks, last.clone()];
    check(&whole, &[]);
    let later = tablet.write("17:00", remark("the form is off"));
    let again =
        [too_early(Role::Inspector, "A. Inspector", &later), too_early(Role::Engineer, "I. Vane", &later)];
    check(&[&whole[..], std::slice::from_ref(&later)].concat(), &again);
    let strength = laboratory.write("17:30", remark("5040 psi"));
    check(
        &[&whole[..], std::slice::from_ref(&strength)].concat(),
        &[too_early(Role::Engineer, "I. Vane", &strength)],
    );
    let signed_again = tablet.write("18:00", signed("A. Inspector", "inspector"));
    let closed = office.write("18:30", signed("I. Vane", "engineer"));
    check(&[&whole[..], &[later, strength, signed_again, closed]].concat(), &[]);
}

#[test]
fn a_job_names_who_signs() {
    let (mut tablet, mut quality) = (Tablet::new(1), Tablet::new(2).by("D. Pike"));
    let needs = Tablet::new(4).about(None).write(
        "08:00",
        body(
            "seal_needs",
            &[("roles[0]", "inspector"), ("roles[1]", "contractor_quality"), ("reason", "5.3")],
        ),
    );
    let own = tablet.write("15:00", signed("A. Inspector", "inspector"));
    check(&[needs.clone(), own.clone()], &[Lack::NotSigned(Role::ContractorQuality)]);
    let second = quality.write("15:10", signed("D. Pike", "contractor_quality"));
    check(&[needs.clone(), own.clone(), second.clone()], &[]);
    // Without an engineer the last to sign speaks for all.
    let late = Tablet::new(3).by("M. Oakes").write("15:20", remark("5110 psi"));
    let again = [too_early(Role::ContractorQuality, "D. Pike", &late)];
    check(&[needs, own, second, late], &again);
}

#[test]
fn a_gap_a_dispute_and_a_correction_of_nothing_stand_in_the_way() {
    let mut tablet = Tablet::new(1);
    let seen = tablet.write("10:00", remark("dry to 20 ft"));
    tablet.lose();
    let correct = |about: &Entry, reason: &str| {
        body("correction", &[("replaces", &about.id.to_string()), ("reason", reason)])
    };
    let (one, two) = (
        tablet.write("10:10", correct(&seen, "to 21 ft")),
        Tablet::new(2).write("10:12", correct(&seen, "to 19 ft")),
    );
    let lost = Tablet::new(5).write("09:00", remark("never arrived"));
    let loose = Tablet::new(3).write("10:20", correct(&lost, "wrong hole"));
    let record = record(&[seen.clone(), one, two, loose.clone()]);
    let found = lacks(&record, "S-1");
    assert!(matches!(found[0], Lack::Chain(record::Alarm::Gap { from: 2, to: 2, .. })), "{found:?}");
    assert!(found.contains(&Lack::Dispute(seen.id)), "{found:?}");
    assert!(found.contains(&Lack::Loose(loose.id)), "{found:?}");
}

#[test]
fn a_shaft_nobody_wrote_about_is_not_sealed() {
    assert_eq!(lacks(&Record::new(), "S-1"), [Lack::NoEntries]);
    let other = Tablet::new(1).about(Some("S-2")).write("10:00", remark("elsewhere"));
    check(&[other], &[Lack::NoEntries]);
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
        token: None,
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
