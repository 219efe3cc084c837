//! Wrong tries: how they are counted, when they lapse, and what a server finds that another one counted.

mod kinds;

use kinds::each_kind;
use store::{CODES, Database, Office, Tally, Tries};

const HOUR: i64 = 3600;

#[test]
fn tries_are_counted_until_they_lapse() {
    each_kind(|mut store| {
        let mut wrong =
            |now: i64| store.count_wrong("from 192.0.2.1", (now, now + HOUR), 40).expect("counted");
        assert_eq!([wrong(1000), wrong(1001), wrong(1001)], [1, 2, 3]);
        assert_eq!(wrong(1001 + HOUR), 1, "an hour later nothing is left of them");
        let tally = |now| store.tally("from 192.0.2.1", now).expect("read");
        assert_eq!(tally(1002 + HOUR), Some(Tally { tries: 1, last: 1001 + HOUR }));
        assert_eq!(tally(1001 + 2 * HOUR), None);
        assert_eq!(store.tally("from 192.0.2.2", 1000).expect("read"), None);
    });
}

#[test]
fn somebody_waits_no_longer_for_more_tries_than_are_counted() {
    each_kind(|mut store| {
        for _ in 0..5 {
            store.count_wrong("name 3fa9c1", (1000, 1000 + HOUR), 3).expect("counted");
        }
        let tally = store.tally("name 3fa9c1", 1000).expect("read");
        assert_eq!(tally, Some(Tally { tries: 3, last: 1000 }));
        store.forget_tries("name 3fa9c1").expect("forgotten");
        assert_eq!(store.tally("name 3fa9c1", 1000).expect("read"), None);
    });
}

#[test]
fn who_is_known_stays_known_through_wrong_tries() {
    each_kind(|mut store| {
        let (who, month) = ("name 3fa9c1 from 192.0.2.1", 30 * 24 * HOUR);
        store.know(who, (1000, 1000 + month)).expect("kept");
        assert_eq!(store.tally(who, 1000).expect("read"), Some(Tally { tries: 0, last: 1000 }));
        let wrong =
            |store: &mut Database, now| store.count_wrong(who, (now, now + HOUR), 8).expect("counted");
        assert_eq!([wrong(&mut store, 1010), wrong(&mut store, 1020)], [1, 2]);
        assert_eq!(wrong(&mut store, 1020 + 2 * HOUR), 1, "what lies hours behind does not count on");
        assert!(store.tally(who, 1020 + 9 * HOUR).expect("read").is_some());
        assert_eq!(store.tally(who, 1000 + month).expect("read"), None);
    });
}

#[test]
fn a_new_code_begins_the_count_of_codes_anew() {
    each_kind(|mut store| {
        let wrong =
            |store: &mut Database| store.count_wrong(CODES, (1000, 1000 + HOUR), 99).expect("counted");
        assert_eq!([wrong(&mut store), wrong(&mut store)], [1, 2]);
        store.count_wrong("from 192.0.2.1", (1000, 1000 + HOUR), 99).expect("counted");
        store.add_code("K7PM3XQF", 1600, 1000).expect("kept");
        assert_eq!(wrong(&mut store), 1);
        assert!(store.tally("from 192.0.2.1", 1000).expect("read").is_some(), "an address is not let off");
    });
}

#[test]
fn another_server_goes_on_counting_and_so_does_one_started_again() {
    each_kind(|mut store| {
        store.count_wrong("name 3fa9c1", (1000, 1000 + HOUR), 9).expect("counted");
        let mut other = Database::open(&store.address).expect("the same database");
        assert_eq!(other.count_wrong("name 3fa9c1", (1001, 1001 + HOUR), 9).expect("counted"), 2);
        let tally = store.tally("name 3fa9c1", 1001).expect("read");
        assert_eq!(tally, Some(Tally { tries: 2, last: 1001 }));
    });
}
