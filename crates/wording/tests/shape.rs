//! The estimated shape in words: a whole shaft, stretches that stand out, what could hide, what is doubtful.

mod support;

use assess::Earlier;
use assess::shape::{Asked, Band, NoShape, Shape, Told, heights};
use calc::profile::{Issue, ProfileError};
use criteria::Set;
use expect_test::{Expect, expect};
use quantity::{Elevation, Fraction, Length};
use record::{Log, Record};
use support::at;
use support::day::day;
use wording::Show;

/// The shape of the day at a clock time, changed as a test wants it, in words.
#[track_caller]
fn check(clock: &str, change: impl Fn(&mut Shape), expected: Expect) {
    let (set, _) = Set::shipped("roadside-common-practice-1").expect("shipped").in_force(&[]);
    let record: Record = day().site.record();
    let log = Log::of(&record, Some("S-1"), Some(at(clock)));
    let assessment = assess::assess(&log, &set, at(clock));
    let show = Show::of_log(&log);
    let mut shape =
        Shape::of(Asked::of(&log, &assessment, &Earlier::none()), heights(true)).expect("sounded");
    change(&mut shape);
    let text = wording::shape(&shape, &assessment, &show);
    let told = text.told.iter().map(|told| format!("{}: {}\n  > {}", told.word, told.sentence, told.do_now));
    let doubts = text
        .doubts
        .iter()
        .map(|doubt| format!("{}: {} {}\n  > {}", doubt.code, doubt.what, doubt.meaning, doubt.next));
    let lines = [text.whole]
        .into_iter()
        .chain(told)
        .chain([text.blind_spots, text.blind_do.to_owned(), text.next])
        .chain(doubts);
    expected.assert_eq(&lines.filter(|line| !line.is_empty()).collect::<Vec<_>>().join("\n"));
}

#[test]
fn the_shape_of_the_day() {
    check(
        "11:00",
        |_| (),
        expect![[r#"
            Estimate: as far as it was sounded the shaft took 0.98 times the volume of its nominal bore (0.95–1.00).
            A loss of area could have stayed hidden in these readings: across a height of 3.0 ft or less even all of it, as from 4.0 ft to 7.0 ft deep.
            That is no sign of one: it says how finely the concrete was sounded. Whether one is there only a test of the finished shaft can show, through its tubes or from its top; the engineer decides. On the next shaft more soundings leave less room."#]],
    );
}

#[test]
fn while_the_pour_goes_on() {
    check(
        "09:50",
        |_| (),
        expect![[r#"
            Estimate: as far as it was sounded the shaft took 0.99 times the volume of its nominal bore (0.96–1.02).
            A loss of area could have stayed hidden in these readings: across a height of 2.0 ft or less even all of it, as from 14.3 ft to 16.3 ft deep; across a height of 3.0 ft up to 89 %, from 13.8 ft to 16.8 ft deep. A larger one would have shown with a probability of 90 %.
            That is no sign of one: it says how finely the concrete was sounded. Sound after every load, and within a large one."#]],
    );
}

#[test]
fn stretches_that_stand_out() {
    let level = |feet| Elevation(Length::feet(feet));
    let band = |mean, low, high| Band { mean, ends: [low, high] };
    let ends = [level(92.0), level(86.0)];
    check(
        "11:00",
        |shape| {
            let wide = Told::Wide { ends, ratio: band(1.29, 1.22, 1.36), whole: 1.05 };
            let neck = Told::NeckPossible {
                ends,
                ratio: band(0.99, 0.93, 1.04),
                whole: 1.05,
                height: Length::feet(3.0),
                share: Fraction::percent(15.0),
                probability: 0.34,
            };
            let (height, ratio) = (Length::feet(3.0), band(0.97, 0.94, 1.0));
            let less = |at_once| Told::TookLess { ends, ratio, whole: 1.05, height, at_once };
            shape.told = vec![wide, neck, less(0.38), less(1.2)];
            shape.blind_spots.clear();
            shape.issues = vec![
                Issue::Misread { at: 1, probability: 0.62 },
                Issue::WrongTicket { at: 0, probability: 0.41 },
                Issue::SurfaceFell { at: 0, by: Length::feet(1.0) },
            ];
        },
        expect![[r#"
            Estimate: as far as it was sounded the shaft took 0.98 times the volume of its nominal bore (0.95–1.00).
            wide: From 9.0 ft to 15.0 ft deep: 1.29 times the volume of its nominal bore (1.22–1.36), this shaft 1.05 in all: over-break or a cavity.
              > Compare with what the tool runs met there, and check the tickets and the soundings at both ends.
            neck_possible: From 9.0 ft to 15.0 ft deep: 0.99 (0.93–1.04) against this shaft’s 1.05; a neck is possible. Probability that somewhere a stretch of 3.0 ft has lost more than 15 % of its area: 0.34.
              > Sound again and check the tickets; tell the engineer, who decides whether it is tested.
            took_less: From 9.0 ft to 15.0 ft deep: 0.97 times the volume of its nominal bore (0.94–1.00), less than this shaft’s 1.05 in all. A volume does not say where in it the concrete is missing: all of it in one place would be 38 % of the area across a height of 3.0 ft.
              > Compare with the ground met there, and check the tickets and the soundings at both ends; the engineer decides whether it is tested.
            took_less: From 9.0 ft to 15.0 ft deep: 0.97 times the volume of its nominal bore (0.94–1.00), less than this shaft’s 1.05 in all. A volume does not say where in it the concrete is missing: all of it in one place would be more than all of the area across a height of 3.0 ft.
              > Compare with the ground met there, and check the tickets and the soundings at both ends; the engineer decides whether it is tested.
            misread: The sounding of 10:12 may be misread: probability 0.62. The reading is kept as it was written; the estimate of the shape believes it less.
              > Look at the tape and the reference, sound again, and correct the entry if it was wrong.
            wrong_ticket: A load that went in before 09:45 may not be what its ticket says: probability 0.41. The ticket is kept as it was written; the estimate of the shape believes it less.
              > Compare the ticket with the batch record and with what stayed in the drum, and correct the entry if it was wrong."#]],
    );
}

#[test]
fn why_there_is_none() {
    let told =
        [NoShape::NothingSounded, NoShape::Unreckonable(ProfileError::Unreckonable)].map(wording::no_shape);
    expect![[r#"
        There is no estimate of the shape: the concrete was not sounded yet. Sound after every load.
        There is no estimate of the shape: the readings are too far out to be reckoned with. The readings are kept; look at the bottom, the soundings and the plan of the shaft."#]].assert_eq(&told.join("\n"));
}
