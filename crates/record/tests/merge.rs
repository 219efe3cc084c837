//! Tablets meet in any order, and everybody ends with the same record.

use proptest::prelude::*;
use record::merge::{Alarm, MergeError, Record};
use record::{Entry, EntryId, Held, Log, Newer};
use std::collections::BTreeSet;
use testkit::{Tablet, at, body, record};

fn remark(text: &str) -> record::Body {
    body("remark", &[("text", text)])
}

/// Some of the entries of three tablets, one of them cloned, with a correction and a later format among them.
fn pool() -> Vec<Held> {
    let mut tablets = [Tablet::new(1), Tablet::new(2), Tablet::new(3).about(None)];
    let mut pool = Vec::new();
    for round in 0..4 {
        for (number, tablet) in tablets.iter_mut().enumerate() {
            let clock = format!("1{round}:0{number}");
            pool.push(Held::Known(tablet.write(&clock, remark(&format!("round {round} of {number}")))));
        }
    }
    let mut clone = tablets[0].clone();
    pool.push(Held::Known(tablets[0].write("15:00", remark("mine"))));
    pool.push(Held::Known(clone.write("15:00", remark("mine too"))));
    let about = pool[0].id().to_string();
    for text in ["better", "another"] {
        let mut correction = BTreeSet::from([("replaces", about.as_str()), ("reason", "slip")]);
        correction.insert(("body.kind", "remark"));
        correction.insert(("body.body.text", text));
        let fields: Vec<(&str, &str)> = correction.into_iter().collect();
        pool.push(Held::Known(tablets[1].write("16:00", body("correction", &fields))));
    }
    pool.push(Held::Newer(newer(tablets[1].device(), 99)));
    pool
}

fn newer(device: record::DeviceId, seq: u64) -> Newer {
    Newer {
        id: EntryId([9; 32]),
        format: 2,
        job: testkit::JOB.to_owned(),
        shaft: Some("S-1".to_owned()),
        device,
        seq,
        prev: None,
        observed_at: at("17:00"),
        line: "{\"as\":\"it came\"}".to_owned(),
    }
}

/// A record of part of the pool.
fn part() -> impl Strategy<Value = Record> {
    let all = pool();
    proptest::sample::subsequence(all.clone(), 0..=all.len())
        .prop_map(|held| Record::of(held).expect("one job"))
}

fn shown(record: &Record) -> String {
    format!("{:?} {:?}", Log::of(record, Some("S-1"), None).lines, record.alarms())
}

proptest! {
    #[test]
    fn it_does_not_matter_who_meets_whom_first(a in part(), b in part(), c in part()) {
        let ab = a.merge(&b).expect("one job");
        prop_assert_eq!(&ab, &b.merge(&a).expect("one job"));
        let bc = b.merge(&c).expect("one job");
        prop_assert_eq!(ab.merge(&c), a.merge(&bc));
        prop_assert_eq!(&ab.merge(&ab).expect("one job"), &ab);
        prop_assert_eq!(&ab.merge(&a).expect("one job"), &ab);
        prop_assert_eq!(&a.merge(&Record::new()).expect("one job"), &a);
    }

    #[test]
    fn a_part_and_the_rest_are_the_whole(all in part(), from in 0..4_u64) {
        let early = |held: &Held| held.place().1 <= from;
        let (one, rest) = (all.part(early), all.part(|held| !early(held)));
        prop_assert!(one.entries().all(early));
        prop_assert_eq!(one.len() + rest.len(), all.len());
        prop_assert_eq!(one.merge(&rest).expect("one job"), all);
    }

    #[test]
    fn a_union_holds_exactly_what_both_hold(a in part(), b in part()) {
        let both = a.merge(&b).expect("one job");
        let ids = |record: &Record| record.entries().map(Held::id).collect::<BTreeSet<_>>();
        let union: BTreeSet<_> = ids(&a).union(&ids(&b)).copied().collect();
        prop_assert_eq!(ids(&both), union);
        prop_assert_eq!(both.len(), both.entries().count());
    }

    #[test]
    fn the_log_does_not_know_in_which_order_entries_arrived(held in Just(pool()).prop_shuffle()) {
        let expected = Record::of(pool()).expect("one job");
        let arrived = Record::of(held).expect("one job");
        prop_assert_eq!(shown(&arrived), shown(&expected));
    }

    #[test]
    fn a_record_that_does_not_fit_changes_nothing(a in part(), b in part()) {
        let strange = Tablet::new(8).of_job("J-2").write("10:00", remark("elsewhere"));
        let elsewhere = Record::of([Held::Known(strange)]).expect("one job");
        let (before_a, before_b) = (a.clone(), b.clone());
        let joined = a.merge(&b).expect("one job");
        if !joined.is_empty() {
            let here = testkit::JOB.to_owned();
            let expected = Err(MergeError::OtherJob { here, there: "J-2".to_owned() });
            prop_assert_eq!(joined.merge(&elsewhere), expected);
        }
        prop_assert_eq!((a, b), (before_a, before_b));
    }
}

#[test]
fn one_id_with_two_contents_is_refused_as_a_whole() {
    let mut tablet = Tablet::new(1);
    let (first, second) = (tablet.write("10:00", remark("a")), tablet.write("10:01", remark("b")));
    let liar = Entry { body: remark("c"), ..second.clone() };
    let here = record([&first, &second]);
    let there = Record::of([Held::Known(liar.clone())]).expect("one job");
    assert_eq!(here.merge(&there), Err(MergeError::SameId(second.id)));
    let of = Record::of([Held::Known(second.clone()), Held::Known(liar)]);
    assert_eq!(of, Err(MergeError::SameId(second.id)));
    assert_eq!(of.expect_err("refused").to_string(), format!("two contents under the id {}", second.id));
}

#[track_caller]
fn alarms(entries: &[&Entry], expected: &[Alarm]) {
    assert_eq!(record(entries.iter().copied()).alarms(), expected);
}

#[test]
fn a_cloned_tablet_shows_and_both_chains_go_on_without_further_alarm() {
    let mut tablet = Tablet::new(1);
    let device = tablet.device();
    let first = tablet.write("10:00", remark("a"));
    let mut clone = tablet.clone();
    let mine = tablet.write("10:01", remark("mine"));
    let theirs = clone.write("10:01", remark("theirs"));
    let mut entries = vec![mine.id, theirs.id];
    entries.sort_unstable();
    alarms(&[&first, &mine, &theirs], &[Alarm::Cloned { device, seq: 2, entries }]);
    let after = tablet.write("10:02", remark("after"));
    assert_eq!(record([&first, &mine, &theirs, &after]).alarms().len(), 1, "it follows one of the two");
}

/// The answer is kept with the record it is of, and with no other.
#[test]
fn a_record_that_was_asked_answers_for_itself_alone() {
    let mut tablet = Tablet::new(1);
    let device = tablet.device();
    let [first, second, third] = ["a", "b", "c"].map(|text| tablet.write("10:00", remark(text)));
    let gap = [Alarm::Gap { device, from: 2, to: 2 }];
    let (part, rest) = (record([&first, &third]), record([&second]));
    assert_eq!((part.alarms(), part.clone().alarms()), (&gap[..], &gap[..]));
    let whole = part.merge(&rest).expect("one job");
    assert_eq!(whole.alarms(), []);
    assert_eq!(whole.part(|held| held.id() != second.id).alarms(), gap);
    assert_eq!(part, record([&first, &third]), "who was asked is no other record");
}

#[test]
fn numbers_that_are_missing_show() {
    let mut tablet = Tablet::new(1);
    let device = tablet.device();
    let entries: Vec<Entry> = (0..6).map(|_| tablet.write("10:00", remark("a"))).collect();
    let all: Vec<&Entry> = entries.iter().collect();
    alarms(&all, &[]);
    alarms(&all[1..], &[Alarm::Gap { device, from: 1, to: 1 }]);
    alarms(&[all[0], all[4]], &[Alarm::Gap { device, from: 2, to: 4 }]);
    alarms(
        &[all[2], all[5]],
        &[Alarm::Gap { device, from: 1, to: 2 }, Alarm::Gap { device, from: 4, to: 5 }],
    );
    // The last ones of a device cannot be missed by looking at the chain; the digest of the record shows it.
    alarms(&all[..4], &[]);
}

#[test]
fn a_chain_begins_at_one_and_every_entry_names_the_one_before() {
    let mut tablet = Tablet::new(1);
    let device = tablet.device();
    tablet.lose();
    let late_start = tablet.write("10:00", remark("a"));
    assert_eq!((late_start.seq, late_start.prev), (2, None));
    let gap = Alarm::Gap { device, from: 1, to: 1 };
    alarms(&[&late_start], &[gap, Alarm::Broken { device, entry: late_start.id }]);
    let mut honest = Tablet::new(2);
    let device = honest.device();
    let first = honest.write("10:00", remark("a"));
    let second = honest.write("10:01", remark("b"));
    let third = honest.write("10:02", remark("c"));
    let stray = Entry { prev: Some(first.id), ..third.clone() };
    alarms(&[&first, &second, &stray], &[Alarm::Broken { device, entry: stray.id }]);
    let orphan = Entry { prev: None, ..third };
    alarms(&[&first, &second, &orphan], &[Alarm::Broken { device, entry: orphan.id }]);
    let begins_with_prev = Entry { prev: Some(second.id), ..first.clone() };
    alarms(&[&begins_with_prev], &[Alarm::Broken { device, entry: begins_with_prev.id }]);
}

#[test]
fn one_tablet_cannot_raise_an_alarm_about_another() {
    let (mut one, mut two) = (Tablet::new(1), Tablet::new(2));
    let entries =
        [one.write("10:00", remark("a")), two.write("10:00", remark("b")), one.write("10:01", remark("c"))];
    alarms(&entries.iter().collect::<Vec<_>>(), &[]);
    let record = record(&entries);
    assert_eq!(record.head(&one.device()), Some((2, entries[2].id)));
    assert_eq!(record.head(&two.device()), Some((1, entries[1].id)));
    assert_eq!(record.head(&Tablet::new(3).device()), None);
}

#[test]
fn an_entry_of_a_later_format_has_its_place_in_the_chain() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:00", remark("a"));
    let mut carried = newer(tablet.device(), 2);
    carried.prev = Some(first.id);
    let record = Record::of([Held::Known(first), Held::Newer(carried)]).expect("one job");
    assert!(record.alarms().is_empty());
    let log = Log::of(&record, Some("S-1"), None);
    assert_eq!((log.lines.len(), log.newer.len()), (1, 1));
    assert_eq!(log.newer[0].line, "{\"as\":\"it came\"}");
    assert_eq!(record.shafts(), ["S-1"]);
}
