//! Making good what was written: nothing is erased, every change has its reason.

use record::choices::Decision;
use record::{Body, EntryId, Log, Record, Standing, plausible};
use screen::entry::{FieldFault, Strike, Trial, late, strike};
use testkit::{Tablet, at, body, record};
use wording::Show;

fn sounding(depth: &str) -> Body {
    body("concrete_sounded", &[("points[0].place", "center"), ("points[0].depth", depth)])
}

fn told(faults: &[FieldFault]) -> String {
    faults.iter().map(|fault| format!("{}: {}", fault.path, fault.sentence)).collect::<Vec<_>>().join("\n")
}

fn begin(record: &Record, entry: EntryId) -> Strike {
    Strike::of(record, Some("S-1"), entry).expect("it stands")
}

/// The lines of the log: what each says and how it stands.
fn lines(record: &Record) -> Vec<(String, bool)> {
    let log = Log::of(record, Some("S-1"), None);
    let show = Show::of_log(&log);
    log.lines.iter().map(|line| (wording::entry_text(line.body, &show), line.stands())).collect()
}

#[test]
fn a_slip_is_replaced_with_its_reason_and_stays_struck_through() {
    let mut tablet = Tablet::new(1);
    let slip = tablet.write("10:41", sounding("24.6 ft"));
    let before = record([&slip]);
    let mut strike = begin(&before, slip.id);
    assert_eq!(strike.said, "24.6 ft center");
    assert_eq!(strike.form.text("points[0].depth"), "24.6 ft");
    strike.form.set("points[0].depth", "42.6 ft");
    assert_eq!(
        told(&strike.replace().expect_err("no reason was given")),
        "reason: Say why; the reason stands beside the struck entry."
    );
    strike.reason = " slip of the finger ".to_owned();
    let correction = tablet.write("10:45", strike.replace().expect("it is a correction"));
    assert_eq!(
        lines(&record([&slip, &correction])),
        [("24.6 ft center".to_owned(), false), ("42.6 ft center".to_owned(), true)]
    );
}

#[test]
fn a_mended_entry_is_asked_about_in_the_place_of_the_old_one() {
    let mut tablet = Tablet::new(1);
    let load = |volume: &str| body("load_arrived", &[("ticket", "4411"), ("volume", volume)]);
    let entries =
        [tablet.write("10:30", load("9 yd³")), tablet.write("10:41", body("drilling_started", &[]))];
    let before = record(&entries);
    let mut strike = begin(&before, entries[0].id);
    let trial = Trial { record: &before, now: at("10:50"), device: None };
    let words = |strike: &Strike| -> Vec<String> {
        strike.questions(&trial).into_iter().map(|concern| concern.word).collect()
    };
    strike.form.set("volume", "9.5");
    assert!(words(&strike).is_empty(), "the ticket is the same one, not a second one");
    strike.form.set("volume", "95");
    assert_eq!(words(&strike), ["load_volume"]);
    strike.form.set("volume", "95 kg");
    assert!(words(&strike).is_empty(), "what cannot be read is told as a fault");
}

#[test]
fn a_correction_that_changes_nothing_is_no_correction() {
    let slip = Tablet::new(1).write("10:41", sounding("24.6 ft"));
    let record = record([&slip]);
    let mut strike = begin(&record, slip.id);
    strike.reason = "read again".to_owned();
    assert_eq!(
        told(&strike.replace().expect_err("nothing differs")),
        "body: Nothing differs from what was written. To take it back, strike it out."
    );
    strike.seen_at(at("10:14"));
    let Ok(Body::Correction(correction)) = strike.replace() else { panic!("another time is a correction") };
    assert_eq!(correction.observed, Some(at("10:14")));
}

#[test]
fn an_entry_is_struck_out_with_nothing_in_its_place() {
    let mut tablet = Tablet::new(1);
    let twice = tablet.write("10:41", sounding("42.6 ft"));
    let before = record([&twice]);
    let mut strike = begin(&before, twice.id);
    assert!(strike.strike_out().is_err(), "never without a reason");
    strike.reason = "entered twice".to_owned();
    // A time belongs to what takes the place; there is nothing here.
    strike.seen_at(at("10:30"));
    let Ok(Body::Correction(correction)) = strike.strike_out() else { panic!("it is struck out") };
    assert_eq!((correction.observed, correction.body.is_none()), (None, true));
    let gone = tablet.write("10:45", correction.into());
    assert_eq!(lines(&record([&twice, &gone])), [("42.6 ft center".to_owned(), false)]);
}

#[test]
fn what_was_struck_through_cannot_be_corrected_again_but_its_successor_can() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:41", sounding("24.6 ft"));
    let mut strike = begin(&record([&first]), first.id);
    strike.form.set("points[0].depth", "42.6 ft");
    strike.reason = "slip of the finger".to_owned();
    let second = tablet.write("10:45", strike.replace().expect("it is a correction"));
    let both = record([&first, &second]);
    assert!(Strike::of(&both, Some("S-1"), first.id).is_none());
    let mut again = begin(&both, second.id);
    assert_eq!(again.form.text("points[0].depth"), "42.6 ft");
    again.form.set("points[0].depth", "42.4 ft");
    again.reason = "read again".to_owned();
    let third = tablet.write("10:50", again.replace().expect("it is a correction"));
    let standing: Vec<_> =
        lines(&record([&first, &second, &third])).into_iter().filter(|line| line.1).collect();
    assert_eq!(standing, [("42.4 ft center".to_owned(), true)]);
}

/// Two people correct one entry differently; a third one settles it.
fn disputed() -> (Vec<record::Entry>, EntryId) {
    let (mut one, mut two) = (Tablet::new(1), Tablet::new(2));
    let slip = one.write("10:41", sounding("24.6 ft"));
    let before = record([&slip]);
    let correction = |depth: &str, reason: &str| {
        let mut strike = begin(&before, slip.id);
        strike.form.set("points[0].depth", depth);
        strike.reason = reason.to_owned();
        strike.replace().expect("it is a correction")
    };
    let left = one.write("10:45", correction("42.6 ft", "slip of the finger"));
    let right = two.write("10:46", correction("34.6 ft", "read the tape again"));
    let id = slip.id;
    (vec![slip, left, right], id)
}

#[test]
fn a_dispute_shows_every_version_and_ends_with_a_person() {
    let (mut entries, about) = disputed();
    let both = record(&entries);
    assert!(Strike::of(&both, Some("S-1"), about).is_none(), "a dispute is settled, not corrected");
    let log = Log::of(&both, Some("S-1"), None);
    let show = Show::of_log(&log);
    let disputes = strike::disputes(&log, &show);
    assert_eq!(disputes.len(), 1);
    let mut versions: Vec<String> =
        disputes[0].versions.iter().map(|version| format!("{} ({})", version.text, version.by)).collect();
    versions.sort();
    expect_test::expect![[r#"
        Concrete sounded 24.6 ft center (A. Inspector, 10:41, as first written)
        Concrete sounded 34.6 ft center (A. Inspector, 10:47: read the tape again)
        Concrete sounded 42.6 ft center (A. Inspector, 10:46: slip of the finger)"#]]
    .assert_eq(&versions.join("\n"));

    let kept = disputes[0].versions.iter().find(|version| version.text.contains("42.6")).expect("it is one");
    assert!(strike::keep(about, kept.keeps, "  ", "").is_err(), "never without a reason");
    let closing = strike::keep(about, kept.keeps, "tape and volume agree", "R. Vale").expect("it has one");
    entries.push(Tablet::new(3).write("11:00", closing));
    let settled = record(&entries);
    let log = Log::of(&settled, Some("S-1"), None);
    assert!(strike::disputes(&log, &show).is_empty());
    let standing: Vec<_> = log.lines.iter().filter(|line| line.stands()).collect();
    assert!(standing.iter().any(|line| line.body == &sounding("42.6 ft")));
}

#[test]
fn a_question_is_answered_by_its_word_and_field() {
    let mut tablet = Tablet::new(1);
    let mut entries = vec![
        tablet.write("09:00", body("fluid_test", &[("place", "tank"), ("stage", "drilling"), ("ph", "1.1")])),
    ];
    let asked = {
        let record = record(&entries);
        plausible::questions(&Log::of(&record, Some("S-1"), None))
    };
    let about_ph =
        asked.iter().find(|question| question.suspicion.field() == Some("ph")).expect("pH 1.1 is odd");
    assert!(strike::answer(about_ph, "").is_err());
    entries.push(
        tablet.write("09:05", strike::answer(about_ph, "acid spill, meter checked").expect("an answer")),
    );
    let record = record(&entries);
    let after = plausible::questions(&Log::of(&record, Some("S-1"), None));
    let answered =
        after.iter().find(|question| question.suspicion.field() == Some("ph")).expect("still shown");
    assert_eq!(answered.answer.as_ref().expect("and answered").1, "acid spill, meter checked");
}

#[test]
fn a_hold_stands_until_somebody_releases_it() {
    let mut tablet = Tablet::new(1);
    let mut entries =
        vec![tablet.write("09:00", body("hold_placed", &[("hold", "no concrete"), ("reason", "sediment")]))];
    let open = |entries: &[record::Entry]| {
        let record = record(entries);
        let log = Log::of(&record, Some("S-1"), None);
        strike::holds(&log).iter().map(|hold| hold.0.to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(open(&entries), ["no concrete"]);
    assert!(strike::release("no concrete", " ").is_err());
    entries.push(tablet.write("09:30", strike::release("no concrete", "R. Vale").expect("by a person")));
    assert!(open(&entries).is_empty());
    entries.push(tablet.write("10:00", body("hold_placed", &[("hold", "no concrete"), ("reason", "again")])));
    assert_eq!(open(&entries), ["no concrete"]);
}

#[test]
fn a_decision_needs_its_reason() {
    let mut decide = strike::Decide {
        criterion: "base.sediment.thickness".to_owned(),
        about: None,
        decision: Decision::Corrected,
        reason: String::new(),
        by: "R. Vale".to_owned(),
    };
    assert_eq!(told(&decide.body().expect_err("no reason")), "reason: Say why, or how it was made good.");
    decide.reason = "cleaned again, 1/4 in left".to_owned();
    let wanted = body(
        "finding_disposed",
        &[
            ("criterion", "base.sediment.thickness"),
            ("decision", "corrected"),
            ("reason", "cleaned again, 1/4 in left"),
            ("by", "R. Vale"),
        ],
    );
    assert_eq!(decide.body().expect("it has one"), wanted);
}

#[test]
fn every_standing_says_whether_it_may_be_corrected() {
    let (entries, _) = disputed();
    let record = record(&entries);
    let log = Log::of(&record, Some("S-1"), None);
    for line in &log.lines {
        let disputed = matches!(line.standing, Standing::Disputed { .. });
        assert_eq!(strike::may_correct(line).is_err(), disputed);
    }
}

#[track_caller]
fn check_late(typed: &str, now: &str, expected: &str) {
    let show = Show::of(None);
    let found = late::typed(typed, at(now), &show).map(|seen| (seen.sentence, seen.late, seen.ahead));
    let found = found.map_or_else(
        || "none".to_owned(),
        |(text, late, ahead)| {
            format!("{text}{}{}", if late { " [late]" } else { "" }, if ahead { " [ahead]" } else { "" })
        },
    );
    assert_eq!(found, expected);
}

#[test]
fn a_time_that_is_set_back_says_what_it_means() {
    check_late("11:20", "11:20", "seen and entered 11:20");
    check_late("11:05", "11:20", "seen 11:05, entered 11:20: 15 min later");
    check_late(
        "10:41",
        "11:20",
        "seen 10:41, entered 11:20: late by 39 min, and marked so wherever it is shown [late]",
    );
    check_late(
        "23:50",
        "2031-04-09 00:25",
        "seen 8 Apr 2031 23:50, entered 00:25: late by 35 min, and marked so wherever it is shown [late]",
    );
    check_late(
        "11:30",
        "11:20",
        "seen 11:30, entered 11:20: 10 min ahead of the clock; is the time right? [ahead]",
    );
    check_late("soon", "11:20", "none");
    assert_eq!(late::minutes_ago(5, at("11:20"), &Show::of(None)).at, at("11:15"));
}
