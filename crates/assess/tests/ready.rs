//! What a shaft lacks before it can be sealed.

use assess::ready::{Lack, lacks};
use record::choices::Role;
use record::{Entry, Record};
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

/// What somebody left open has to be settled first: a hold released, a question of a person answered.
#[test]
fn a_hold_and_a_question_stand_in_the_way_until_they_are_settled() {
    let (mut tablet, mut office) = (Tablet::new(1), Tablet::new(2).by("I. Vane"));
    let seen = tablet.write("10:00", remark("water at 12 ft"));
    let hold = tablet.write("10:10", body("hold_placed", &[("hold", "concrete"), ("reason", "no mix")]));
    let ask = [("about", &*seen.id.to_string()), ("question", "which level is meant?")];
    let asked = office.write("11:00", body("question_asked", &ask));
    let unsigned = [Lack::NotSigned(Role::Inspector), Lack::NotSigned(Role::Engineer)];
    let open = [Lack::Held("concrete".to_owned()), Lack::NotAnswered(asked.id)];
    let all = [seen, hold, asked.clone()];
    check(&all, &[&open[..], &unsigned].concat());
    let release = office.write("11:30", body("hold_released", &[("hold", "concrete"), ("by", "I. Vane")]));
    let about = asked.id.to_string();
    let answer = [("about", &*about), ("question", "asked"), ("answer", "the groundwater")];
    let answered = tablet.write("11:40", body("question_answered", &answer));
    check(&[&all[..], &[release, answered]].concat(), &unsigned);
}
