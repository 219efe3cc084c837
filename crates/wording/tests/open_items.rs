//! What waits for a person, and what is lacking before a shaft is sealed, in words that somebody has read.

mod support;

use assess::open_items::{OpenItem, WaitsFor, open_items};
use assess::ready::Lack;
use expect_test::{Expect, expect};
use record::choices::Role;
use record::{Alarm, Log};
use support::{Site, at, text};
use wording::Show;

/// A shaft on which one of each sort waits.
fn site() -> Site {
    let mut site = Site::new();
    let casing = [
        ("name", text("surface")),
        ("stay", text("temporary")),
        ("length", text("6 ft")),
        ("top", text("100.2 ft")),
    ];
    site.write(
        "06:00",
        "shaft_planned",
        &[
            ("structure", text("sign")),
            ("ground", text("100.0 ft")),
            ("top", text("100.0 ft")),
            ("tip", text("76.0 ft")),
            ("method", text("wet")),
        ],
    );
    site.write("07:00", "casing_set", &casing);
    site.write(
        "07:30",
        "hold_placed",
        &[("hold", text("concrete")), ("reason", text("the mix is not approved"))],
    );
    let remark = site.write("08:00", "remark", &[("text", text("water at 12 ft"))]);
    let asked = [("about", text(&remark.to_string())), ("question", text("which water level is meant?"))];
    site.write("09:00", "question_asked", &asked);
    site.write(
        "09:10",
        "fluid_test",
        &[("place", text("tank")), ("stage", text("drilling")), ("ph", text("85 {}"))],
    );
    let wrong = site.write("09:20", "remark", &[("text", text("dry"))]);
    site.correct("09:30", wrong, "it was wet", None);
    site.correct("09:31", wrong, "damp", Some(support::body("remark", &[("text", text("damp"))])));
    site.write("12:00", "signed", &[("name", text("R. Vale")), ("role", text("inspector"))]);
    site.write("12:30", "curing", &[("method", text("wet burlap"))]);
    site
}

fn told(item: &OpenItem, site: &Told<'_, '_>) -> String {
    let text = wording::open_item(item, &site.assessment, site.log, &site.show).expect("of this log");
    format!("{} | {}, {}\n{}", text.word, text.lead, text.waits_for, text.notice)
}

struct Told<'l, 'r> {
    log: &'l Log<'r>,
    assessment: assess::Assessment<'r>,
    show: Show,
}

#[track_caller]
fn check(expected: Expect) {
    let record = site().record();
    let log = support::log(&record);
    let set = criteria::Set::shipped("roadside-common-practice-1").expect("shipped").in_force(&[]).0;
    let assessment = assess::assess(&log, &set, at("18:00"));
    let site = Told { log: &log, assessment, show: Show::of_log(&log) };
    let items = open_items(&record, "S-1", &log, &site.assessment);
    let texts: Vec<String> = items.iter().map(|item| told(item, &site)).collect();
    expected.assert_eq(&texts.join("\n\n"));
}

#[test]
fn each_sort_of_open_item() {
    check(expect![[r#"
        finding | To decide, the engineer
        Surface casing above ground: 0.2 ft; the limit is 1 ft at least. 0.8 ft under. Common practice, no source.
        Nobody has decided about it.
        Accept it as it is and say why, have it repaired or tested, or reject it.
        (to_decide)

        hold | To release, the engineer
        Hold: concrete
        the mix is not approved. Placed 07:30 by R. Vale; nobody has released it.
        Settle it, then enter “Hold released” with the name of the one who released it.
        (hold)

        dispute | To settle, the engineer
        The entry 09:20 Remark (7ae0280f) was corrected 2 times, differently: 09:20 Remark (3d82468d) and 09:30 Correction (4160c8dd).
        Every version is kept and shown; none of them counts in the reckoning until a person decides.
        Talk to those who wrote them, then enter “Dispute closed” with the version that stands and why.
        (dispute)

        asked | To answer, R. Vale
        R. Vale asks about 08:00 Remark (bae50b39): which water level is meant?
        The entry is kept as written; the shaft is not sealed before the question has an answer.
        Enter “Question answered”; it stays beside the question.
        (asked)

        odd | To look at, R. Vale
        pH 85 is unusual here; 5 to 13 is usual.
        The entry 09:10 Fluid test (89baf886) is kept as written.
        Read the instrument and the unit once more. Keep the value, or correct it.
        (value_unusual)

        signature | To sign, the inspector
        R. Vale signed as inspector before 12:30 Curing (08a260f1) was entered.
        The shaft is not sealed before.
        Read what came after the signature, then sign again.
        (to_sign)

        signature | To sign, the engineer
        Nobody has signed as engineer.
        The shaft is not sealed before.
        Read the record of the shaft, then sign it.
        (to_sign)"#]]);
}

#[test]
fn for_whom_it_waits() {
    let parts = [Role::Engineer, Role::ContractorQuality, Role::Producer, Role::Other];
    let mut told: Vec<String> = parts.map(|part| wording::waits_for(&WaitsFor::Part(part))).to_vec();
    told.push(wording::waits_for(&WaitsFor::Person("R. Vale".to_owned())));
    let expected = expect![[r#"
        the engineer
        the contractor's quality staff
        the producer
        somebody else
        R. Vale"#]];
    expected.assert_eq(&told.join("\n"));
}

/// An item of another record than the one at hand has no words here.
#[test]
fn an_item_of_another_record_is_not_told() {
    let record = site().record();
    let log = support::log(&record);
    let set = criteria::Set::shipped("roadside-common-practice-1").expect("shipped").in_force(&[]).0;
    let assessment = assess::assess(&log, &set, at("18:00"));
    let items = open_items(&record, "S-1", &log, &assessment);
    let other = Site::new().record();
    let empty = support::log(&other);
    let nothing = assess::assess(&empty, &set, at("18:00"));
    let told =
        items.iter().filter_map(|item| wording::open_item(item, &nothing, &empty, &Show::of_log(&empty)));
    let words: Vec<&str> = told.map(|text| text.word).collect();
    assert_eq!(words, ["signature", "signature"], "a signature is missing in any record");
}

#[test]
fn what_is_lacking_before_a_seal() {
    let record = site().record();
    let log = support::log(&record);
    let ids: Vec<_> = log.lines.iter().map(|line| line.entry.id).collect();
    let device = log.lines[0].entry.device;
    let lacks = [
        Lack::NoEntries,
        Lack::Chain(Alarm::Gap { device, from: 3, to: 4 }),
        Lack::Dispute(ids[0]),
        Lack::Loose(ids[1]),
        Lack::Newer(ids[2]),
        Lack::Held("concrete".to_owned()),
        Lack::NotAnswered(ids[3]),
        Lack::NotSigned(Role::ContractorQuality),
        Lack::SignedTooEarly { role: Role::Engineer, name: "I. Vane".to_owned(), after: ids[4] },
    ];
    let told: Vec<String> = lacks.iter().map(|lack| wording::lack(lack, &record)).collect();
    let expected = expect![[r#"
        No entry is about this shaft.
        Entries number 3 to 4 of the device ea4a6c63 are not in this record.
        The dispute about entry d6683038 is not closed.
        Entry 7c303723 corrects an entry that is not here.
        Entry e263e1a0 was written by a newer program: update this one first.
        Nobody has released the hold “concrete”.
        Nobody has answered the question in entry bae50b39.
        Nobody has signed as contractor quality.
        I. Vane signed as engineer before entry dc2952f6 was made, and has to sign again."#]];
    expected.assert_eq(&told.join("\n"));
}

/// What was said of an entry stands beside it and never in its place.
#[test]
fn what_people_said_of_an_entry() {
    let mut site = Site::new();
    let remark = site.write("08:00", "remark", &[("text", text("water at 12 ft"))]);
    let about = || ("about", text(&remark.to_string()));
    let asked =
        site.write("09:00", "question_asked", &[about(), ("question", text("which water level is meant?"))]);
    site.write("09:05", "comment", &[about(), ("text", text("our sheet says 11.5 ft"))]);
    site.write("09:10", "question_asked", &[about(), ("question", text("who read it"))]);
    let answer = [
        ("about", text(&asked.to_string())),
        ("question", text("asked")),
        ("answer", text("the groundwater")),
    ];
    site.write("09:20", "question_answered", &answer);
    let record = site.record();
    let log = support::log(&record);
    let said = wording::said_about(&log.lines[0], &log, &Show::of_log(&log));
    let expected = expect![[r#"
        R. Vale asks (09:00): which water level is meant? R. Vale answers (09:20): the groundwater.
        R. Vale says (09:05): our sheet says 11.5 ft.
        R. Vale asks (09:10): who read it. Nobody has answered."#]];
    expected.assert_eq(&said.join("\n"));
}
