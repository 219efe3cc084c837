//! Moments: what reads, what does not, and what is printed.
//!
//! Seconds since 1970 were worked out with the civil calendar: 1970-01-01 is day 0, 2000-03-01 day 11017,
//! and `date -u -d … +%s` of GNU coreutils agrees with each.

use proptest::prelude::*;
use quantity::Moment;

#[track_caller]
fn reads(text: &str, seconds: i64, offset_seconds: i32, printed: &str) {
    let moment = Moment::parse(text).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!((moment.seconds(), moment.offset_seconds()), (seconds, offset_seconds), "for `{text}`");
    assert_eq!(moment.to_string(), printed);
    assert_eq!(Moment::parse(printed), Ok(moment), "the printed form reads back");
}

#[track_caller]
fn refused(text: &str) {
    let error = Moment::parse(text).expect_err("names no moment");
    assert_eq!(
        error.to_string(),
        format!(
            "`{text}` names no moment; expected a date, a time and the offset of the clock from UTC \
             such as 2026-05-04T07:10:00-06:00"
        )
    );
}

#[test]
fn ordinary_days() {
    reads("2026-05-04T07:10:00-06:00", 1_777_900_200, -21_600, "2026-05-04T07:10:00-06:00");
    reads("2026-05-04T13:10:00Z", 1_777_900_200, 0, "2026-05-04T13:10:00+00:00");
    reads("2026-05-04 18:40+05:30", 1_777_900_200, 19_800, "2026-05-04T18:40:00+05:30");
    reads(" 2026-05-04t13:10:00z ", 1_777_900_200, 0, "2026-05-04T13:10:00+00:00");
    reads("1970-01-01T00:00:00+00:00", 0, 0, "1970-01-01T00:00:00+00:00");
    reads("1969-12-31T23:59:59Z", -1, 0, "1969-12-31T23:59:59+00:00");
}

#[test]
fn a_moment_is_told_in_the_pieces_people_say() {
    let said = |text: &str| {
        let moment = Moment::parse(text).unwrap_or_else(|error| panic!("{error}"));
        [moment.date(), moment.day(), moment.clock(), moment.clock_to_the_second()].join(" | ")
    };
    assert_eq!(said("2026-05-04T07:10:09-06:00"), "2026-05-04 | 4 May | 07:10 | 07:10:09");
    assert_eq!(said("2025-12-31T23:59:59+13:00"), "2025-12-31 | 31 Dec | 23:59 | 23:59:59");
    assert_eq!(said("0999-01-01T00:00:00Z"), "0999-01-01 | 1 Jan | 00:00 | 00:00:00");
}

#[test]
fn leap_days_and_edges_of_the_calendar() {
    reads("2000-02-29T00:00:00Z", 951_782_400, 0, "2000-02-29T00:00:00+00:00");
    reads("2024-02-29T23:59:59-12:00", 1_709_294_399, -43_200, "2024-02-29T23:59:59-12:00");
    refused("2023-02-29T00:00:00Z");
    refused("1900-02-29T00:00:00Z");
    refused("2026-04-31T00:00:00Z");
    refused("2026-00-10T00:00:00Z");
    refused("2026-05-04T24:00:00Z");
    refused("2026-05-04T07:60:00Z");
    refused("2016-12-31T23:59:60Z");
    refused("9999-12-31T23:59:59-23:59");
    refused("0000-01-01T00:00:00Z");
    reads("9999-12-30T12:00:00Z", 253_402_171_200, 0, "9999-12-30T12:00:00+00:00");
    reads("0000-01-02T00:00:00Z", -62_167_132_800, 0, "0000-01-02T00:00:00+00:00");
}

#[test]
fn a_clock_without_a_plain_offset_names_no_moment() {
    for text in [
        "",
        "Z",
        "2026-05-04",
        "2026-05-04T07:10:00",
        "2026-05-04T07:10:00-06",
        "2026-05-04T07:10:00-0600",
        "2026-05-04T07:10:00-06:00:30",
        "2026-05-04T07:10:00+24:00",
        "2026-05-04T07:10:00+05:60",
        "2026-05-04T07:10:00-00:00",
        "2026-05-04T07:10:00.5-06:00",
        "2026-05-04T07:10:00,5Z",
        "26-05-04T07:10:00Z",
        "2026-5-4T07:10:00Z",
        "+2026-05-04T07:10:00Z",
        "2026-05-04T07:10:00-+6:00",
        "2026-05-04T+7:10:00Z",
        "2026/05/04T07:10:00Z",
        "2026-05-04T07.10:00Z",
        "2026-05-04T07:10:0éZ",
        "２026-05-04T07:10:00Z",
    ] {
        refused(text);
    }
}

#[test]
fn moments_compare_by_the_instant_they_name() {
    let summer = Moment::parse("2026-11-01T01:50:00-05:00").unwrap();
    let winter = Moment::parse("2026-11-01T01:10:00-06:00").unwrap();
    assert!(summer < winter, "the hour that comes twice keeps its order");
    assert_eq!(winter.minutes_since(summer), 20.0);
    assert_eq!(summer.minutes_since(winter), -20.0);
    let same = Moment::parse("2026-11-01T06:50:00Z").unwrap();
    assert_eq!(same.minutes_since(summer), 0.0);
    assert_ne!(same, summer, "another clock showed it");
}

#[test]
fn what_a_log_prints() {
    let moment = Moment::parse("2026-05-04T07:09:59-06:00").unwrap();
    assert_eq!((moment.clock().as_str(), moment.date().as_str()), ("07:09", "2026-05-04"));
    assert_eq!(moment.plus_seconds(61).to_string(), "2026-05-04T07:11:00-06:00");
    assert_eq!(moment.plus_seconds(-8 * 3600).date(), "2026-05-03");
}

#[test]
fn what_cannot_be_written_is_brought_into_range() {
    assert_eq!(Moment::at(0, 30).offset_seconds(), 60, "half a minute away from zero");
    assert_eq!(Moment::at(0, 90_000).to_string(), "1970-01-01T23:59:00+23:59");
    assert_eq!(Moment::at(i64::MIN, -90_000).to_string(), "0000-01-01T00:01:00-23:59");
    assert!(Moment::at(i64::MAX, 90_000).to_string().starts_with("9999-12-31T"));
    assert_eq!(Moment::at(5, 0).plus_seconds(i64::MAX), Moment::at(i64::MAX, 0));
}

proptest! {
    #[test]
    fn every_moment_reads_back_as_printed(seconds in any::<i64>(), offset in any::<i32>()) {
        let moment = Moment::at(seconds, offset);
        prop_assert_eq!(Moment::parse(&moment.to_string()), Ok(moment));
    }

    #[test]
    fn every_moment_of_our_century_reads_back(seconds in 0i64..4_102_444_800, minutes in -840i32..=840) {
        let moment = Moment::at(seconds, minutes * 60);
        prop_assert_eq!((moment.seconds(), moment.offset_seconds()), (seconds, minutes * 60));
        prop_assert_eq!(Moment::parse(&moment.to_string()), Ok(moment));
    }

    #[test]
    fn no_text_makes_the_reader_stumble(text in "\\PC{0,40}") {
        let _ = Moment::parse(&text);
    }

    #[test]
    fn nearly_right_texts_do_not_either(text in "[0-9TZtz:+\\-. ]{15,27}") {
        if let Ok(moment) = Moment::parse(&text) {
            prop_assert_eq!(Moment::parse(&moment.to_string()), Ok(moment));
        }
    }
}
