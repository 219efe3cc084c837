//! A practice as it is shown: what can be read and how it is drawn, what is asked, the debrief.

use expect_test::{Expect, expect};
use record::entry::FileHash;
use record::field::UnitSystem;
use record::{Body, Held, Record};
use rehearse::day::{AUTHOR, Chosen, Said, Which, set_of};
use rehearse::decision::{Answer, Ask};
use rehearse::practice::{Practice, Sight};
use rehearse::scenario::Scenario;
use screen::practice::{self, DebriefScreen, Instrument, instruments, question, sight, tape};
use wire::{Key, Pen, Times};

/// One foot in metres.
const FOOT: f64 = 0.3048;

fn practice(scenario: Scenario, answer: impl Fn(&Ask) -> Answer) -> Practice {
    practice_in(UnitSystem::Us, scenario, answer)
}

fn practice_in(system: UnitSystem, scenario: Scenario, answer: impl Fn(&Ask) -> Answer) -> Practice {
    let set = set_of(system);
    let file = criteria::Set::shipped(set).expect("a set that comes with the program").sha256;
    let chosen = Chosen { set: set.to_owned(), file: FileHash::from_hex(&file).expect("a hash") };
    let mut answers = Vec::new();
    loop {
        let which = Which { seed: 3, scenario, system };
        let practice = Practice::of(which, Some(&chosen), &answers).expect("a day can be made");
        match practice.day().asks.get(answers.len()) {
            Some(ask) => answers.push(answer(ask)),
            None => return practice,
        }
    }
}

/// As the crew would do it, and a full truck at the end.
fn let_go(ask: &Ask) -> Answer {
    let answers = ask.question.answers();
    let last = answers[answers.len() - 1];
    answers.into_iter().find(|answer| *answer == Answer::GoOn).unwrap_or(last)
}

/// What a trainee writes who writes everything down, as the day's own inspector would.
fn record_of(practice: &Practice, keep: impl Fn(&Said) -> bool) -> Record {
    let key = Key::of_secret([9; 32]);
    let mut pen = Pen::new(&key, &practice.day().job, AUTHOR, None);
    let ends = practice.ends();
    let written = practice.day().said.iter().filter(|said| said.observed_at < ends && keep(said));
    let signed = written.map(|said| {
        let at = said.observed_at;
        Held::Known(pen.write(
            said.shaft,
            Times { observed_at: at, noted_at: None, entered_at: at },
            said.body.clone(),
        ))
    });
    Record::of(signed.collect::<Vec<_>>()).expect("one tablet, one job")
}

#[test]
fn the_days_to_choose_do_not_tell_what_happens_before_one_asks() {
    let all = practice::days();
    assert_eq!(all[0].word, "");
    let titles: Vec<&str> = all.iter().map(|day| day.title).collect();
    let expected = expect![[r#"
        A day nobody knows
        Nothing goes wrong
        A neck in soft clay
        A cavity in sand
        A thin seam of loose sand
        Sediment after waiting
        The tremie pulled too far
        A late truck
        The casing is stuck
        The cage rises
        A load of another mix
        Too much sand in the fluid"#]];
    expected.assert_eq(&titles.join("\n"));
    let name = practice::job_name;
    assert_eq!(name("", UnitSystem::Us, [7, 1]), "rehearsal-day-7");
    assert_eq!(name("neck", UnitSystem::Metric, [7, 2]), "rehearsal-neck-metric-7-2");
    let longest =
        Scenario::all().map(|one| name(one.word(), UnitSystem::Metric, [9_999_999, 99]).len()).max();
    assert!(longest.is_some_and(|longest| longest <= 40));
}

#[test]
fn each_question_has_its_keys() {
    let asked = asked_in(UnitSystem::Us);
    let metric = asked_in(UnitSystem::Metric);
    let expected = expect![[r#"
        Load 4101 stands at the chute. Does it go in? Look at its ticket and its slump. [Let it go in | Send it away]
        The crew is about to take 1 piece off the tremie; its tip comes to 40.5 ft. Look at the embedment and the highest safe lift on the shaft’s screen. [Let them | Stop them]
        Two loads are to come. How much is the last one to bring? Look at what is still to order on the shaft’s screen. The load before it is on its way already, full. [2.0 yd³ | 3.0 yd³ | 4.0 yd³ | 5.0 yd³ | 6.5 yd³]"#]];
    expected.assert_eq(&asked);
    let expected = expect![[r#"
        Load 4101 stands at the chute. Does it go in? Look at its ticket and its slump. [Let it go in | Send it away]
        The crew is about to take 1 piece off the tremie; its tip comes to 3.30 m. Look at the embedment and the highest safe lift on the shaft’s screen. [Let them | Stop them]
        Two loads are to come. How much is the last one to bring? Look at what is still to order on the shaft’s screen. The load before it is on its way already, full. [1.5 m³ | 2.0 m³ | 2.5 m³ | 3.0 m³ | 4.0 m³]"#]];
    expected.assert_eq(&metric);
}

/// The questions of a clean day, one of each sort.
fn asked_in(system: UnitSystem) -> String {
    let practice = practice_in(system, Scenario::Clean, let_go);
    let show = practice::show(&practice);
    let mut told = Vec::new();
    for ask in &practice.day().asks {
        let card = question(&ask.question, &show);
        let keys: Vec<String> = card.keys.iter().map(|key| key.label.clone()).collect();
        told.push(format!("{} {} [{}]", card.what, card.hint, keys.join(" | ")));
    }
    told.sort();
    told.dedup_by_key(|line| line.split(' ').next().map(str::to_owned));
    told.join("\n")
}

#[test]
fn what_can_be_read_says_what_it_is_and_not_what_it_shows() {
    let practice = practice(Scenario::WrongTicket, let_go);
    let mut told = String::new();
    for offer in practice.all_offers().take(14) {
        let Some(card) = sight(&practice, &offer) else {
            told.push_str(&format!("{} a tape\n", offer.since.clock()));
            continue;
        };
        let drawn: Vec<&str> = card.instruments.iter().map(|one| one.label.as_str()).collect();
        told.push_str(&format!("{} {} | {} | {}\n", card.clock, card.title, card.seen, drawn.join(", ")));
        for (label, text) in &card.paper {
            told.push_str(&format!("    {label}: {text}\n"));
        }
    }
    let expected = expect![[r#"
        10:32 Fluid test | From the hole, 60.0 ft deep; stage before concrete. | Mud balance, Funnel, time for a quart, Sand tube, pH meter, Thermometer
        10:32 Fluid test | From the hole, 51.0 ft deep; stage before concrete. | Mud balance, Funnel, time for a quart, Sand tube, pH meter, Thermometer
        10:35 Bottom sounded | Purpose: before concrete. | Tape, center, Tape, north, Tape, east, Tape, south, Tape, west
        10:35 Sediment measured | With plate and point. | Sediment, center, Sediment, north, Sediment, east, Sediment, south, Sediment, west
        10:43 Line made up | tremie; line tremie; inside 10 in; pieces (length 10 ft, count 6), (length 5 ft); tip 60.5 ft; tip off bottom 6 in; watertight yes; material steel; clean yes; plug foam ball; hopper 1.5 cy | 
        10:49 Load arrived, ticket 4101 |  | 
            Ticket: 4101
            Mix: R-4000
            Volume: 6.5 cy
            Batched: 2031-05-07 10:19
            Revolutions: 78
            Water: 1690 lb
            Moisture: 140 lb
            Cementitious: 4390 lb
        10:52 Concrete test, ticket 4101 |  | Slump, Thermometer
        10:55 Discharge started, ticket 4101 | ticket 4101; line tremie | 
        11:06 Discharge ended, ticket 4101 | ticket 4101; revolutions 140 | 
        11:08 a tape
        11:12 Load arrived, ticket 4102 |  | 
            Ticket: 4102
            Mix: R-4000
            Volume: 6.5 cy
            Batched: 2031-05-07 10:42
            Revolutions: 71
            Water: 1690 lb
            Moisture: 140 lb
            Cementitious: 4390 lb
        11:15 Concrete test, ticket 4102 |  | Slump, Thermometer
        11:18 Discharge started, ticket 4102 | ticket 4102; line tremie | 
        11:32 Discharge ended, ticket 4102 | ticket 4102; revolutions 140 | 
    "#]];
    expected.assert_eq(&told);
}

/// The numbers at the marks of a drawing with where they stand, and the line at which it is read.
fn geometry(svg: &str) -> (Vec<(f64, f64)>, (f64, f64)) {
    let number = |text: &str, name: &str| -> f64 {
        let from = text.find(&format!(" {name}=\"")).expect("an attribute") + name.len() + 3;
        text[from..].split('"').next().and_then(|value| value.parse().ok()).expect("a number")
    };
    let lying = svg.contains("lb/ft") || svg.contains("g/cm");
    let mark = |line: &str| {
        let value = line.split('>').nth(1)?.split('<').next()?.parse::<f64>().ok()?;
        // Letters stand beside their mark a third of their height lower.
        Some((value, if lying { number(line, "x") } else { number(line, "y") - 6.0 }))
    };
    let marks = svg.lines().filter(|line| line.contains("class=\"mark\"")).filter_map(mark).collect();
    let read = svg.lines().find(|line| line.contains("class=\"read-here\"")).expect("a line to read at");
    (
        marks,
        if lying {
            (number(read, "x1"), number(read, "x2"))
        } else {
            (number(read, "y1"), number(read, "y2"))
        },
    )
}

/// What somebody reads off a drawing: between two numbered marks, by the distance.
fn read_off(instrument: &Instrument) -> f64 {
    let (marks, (at, also)) = geometry(&instrument.svg);
    assert_eq!(at, also, "{}: the line to read at is level", instrument.label);
    let ((one, one_at), (other, other_at)) = (marks[0], marks[1]);
    one + (at - one_at) / (other_at - one_at) * (other - one)
}

/// Tolerance: the drawing is written with one decimal of a point; two numbered marks are at least 10 points apart.
#[test]
fn what_is_drawn_is_what_was_read() {
    for depth_ft in [0.4, 9.9, 37.2, 60.95] {
        let drawn = read_off(&tape("center", depth_ft * FOOT, UnitSystem::Us));
        assert!((drawn - depth_ft).abs() < 0.01, "{depth_ft}");
    }
    for depth_m in [0.05, 3.0, 11.35, 18.5] {
        let drawn = read_off(&tape("center", depth_m, UnitSystem::Metric));
        assert!((drawn - depth_m).abs() < 0.003, "{depth_m}");
    }
    for system in [UnitSystem::Us, UnitSystem::Metric] {
        for scenario in Scenario::for_practice() {
            every_sample_is_drawn(&practice_in(system, scenario, |ask| ask.wise));
        }
    }
}

fn every_sample_is_drawn(practice: &Practice) {
    let system = practice.day().system;
    for offer in practice.all_offers() {
        let Sight::Sample(body) = &offer.sight else { continue };
        let scales = instruments(body, system).into_iter().filter(|one| one.svg.contains("read-here"));
        let drawn: Vec<f64> = scales.map(|one| read_off(&one)).collect();
        let written = written(body, system);
        for (drawn, written) in drawn.iter().zip(&written) {
            let near = if written.abs() > 12.0 && system == UnitSystem::Metric { 0.5 } else { 0.02 };
            assert!((drawn - written).abs() < near, "{drawn} is drawn for {written} in {body:?}");
        }
        assert_eq!(drawn.len(), written.len(), "{body:?}");
    }
}

/// The readings of a sample that are drawn as scales, in the order of the drawings.
fn written(body: &Body, system: UnitSystem) -> Vec<f64> {
    let us = system == UnitSystem::Us;
    let small = |length: quantity::Length| length.to_inches() * if us { 1.0 } else { 25.4 };
    let tape = |depth: quantity::Depth| depth.0.to_meters() / if us { FOOT } else { 1.0 };
    let typed =
        |text: &str| text.split(' ').next().and_then(|number| number.parse::<f64>().ok()).expect("a number");
    match body {
        Body::ConcreteTest(test) => vec![
            small(test.slump.as_ref().expect("a slump").value()),
            typed(test.temperature.as_ref().expect("a temperature").typed()),
        ],
        Body::FluidTest(test) => vec![
            typed(test.density.as_ref().expect("a density").typed()),
            typed(test.sand.as_ref().expect("sand").typed()),
            typed(test.temperature.as_ref().expect("a temperature").typed()),
        ],
        Body::BottomSounded(sounded) => {
            sounded.points.iter().map(|point| tape(point.depth.value())).collect()
        }
        Body::SedimentMeasured(measured) => {
            measured.points.iter().map(|point| small(point.thickness.value())).collect()
        }
        _ => Vec::new(),
    }
}

fn told(screen: &DebriefScreen) -> String {
    let mut text = format!("{}\n{}\nDECIDED\n", screen.story, screen.shown);
    for one in &screen.decided {
        text.push_str(&format!("  {} {}: {} [{}]\n", one.clock, one.what, one.answer, one.wise));
    }
    text.push_str("READ\n");
    for one in &screen.readings {
        text.push_str(&format!(
            "  {} {} in truth {}{}\n",
            one.clock,
            one.written,
            one.truth,
            if one.off { " OFF" } else { "" }
        ));
    }
    text.push_str("STRETCHES\n");
    for one in &screen.stretches {
        text.push_str(&format!("  {}: {} in truth {}\n", one.depths, one.written, one.truth));
    }
    for (head, lines) in [("MISSED", &screen.missed), ("SHOWN BESIDE", &screen.others)] {
        text.push_str(&format!("{head}\n"));
        for line in lines {
            text.push_str(&format!("  {} {}\n", line.clock, line.what));
        }
    }
    text
}

#[track_caller]
fn check(
    scenario: Scenario,
    answer: impl Fn(&Ask) -> Answer,
    keep: impl Fn(&Said) -> bool,
    expected: &Expect,
) {
    let practice = practice(scenario, answer);
    let screen = practice::debrief(&practice, &record_of(&practice, keep));
    assert!(screen.chart.starts_with("<svg") && screen.chart.contains("polyline"));
    expected.assert_eq(&told(&screen));
}

#[test]
fn a_load_of_another_mix_that_went_in_is_told_with_when_the_tool_showed_it() {
    check(
        Scenario::WrongTicket,
        let_go,
        |_| true,
        &expect![[r#"
            The third load comes with the ticket of a leaner mix.
            The tool first showed it at 11:41.
            DECIDED
              10:35 Concrete to come: Let the concrete come []
              10:49 Load 4101: Let it go in []
              11:12 Load 4102: Let it go in []
              11:34 Tremie up by 1 piece, tip to 50.5 ft: Let them []
              11:41 Load 4103: Let it go in [Send it away]
              12:02 The last truck: 6.5 yd³ []
              12:02 Tremie up by 1 piece, tip to 40.5 ft: Let them []
              12:09 Load 4104: Let it go in []
              12:33 Tremie up by 2 pieces, tip to 20.5 ft: Let them []
              12:40 Load 4105: Let it go in []
            READ
              11:08 48.5 ft in truth 48.4 ft
              11:34 34.9 ft in truth 34.9 ft
              12:02 21.3 ft in truth 21.2 ft
              12:33 7.4 ft in truth 7.3 ft
              13:02 0.1 ft in truth 0.0 ft
            STRETCHES
              48.5 ft to 61.0 ft: 1.11 in truth 1.03
              34.9 ft to 48.5 ft: 1.03 in truth 1.05
              21.3 ft to 34.9 ft: 1.02 in truth 1.04
              7.4 ft to 21.3 ft: 1.00 in truth 1.03
              0.1 ft to 7.4 ft: 0.99 in truth 1.00
            MISSED
            SHOWN BESIDE
        "#]],
    );
}

#[test]
fn what_was_kept_out_of_the_shaft_is_told_as_that_and_what_was_not_written_is_named() {
    let keep = |said: &Said| !matches!(&said.body, Body::ConcreteSounded(sounded) if sounded.after.as_deref() == Some("4102"));
    check(
        Scenario::TremiePulledTooFar,
        |ask| ask.wise,
        keep,
        &expect![[r#"
            After the third load the crane takes the tremie up one piece too far.
            The tool first showed it at 11:36. What was decided kept it out of the shaft.
            DECIDED
              10:35 Concrete to come: Let the concrete come []
              10:49 Load 4101: Let it go in []
              11:12 Load 4102: Let it go in []
              11:34 Tremie up by 1 piece, tip to 50.5 ft: Let them []
              11:41 Load 4103: Let it go in []
              12:02 The last truck: 4.0 yd³ []
              12:02 Tremie up by 2 pieces, tip to 30.5 ft: Stop them []
              12:08 Load 4104: Let it go in []
              12:32 Tremie up by 3 pieces, tip to 20.5 ft: Let them []
              12:39 Load 4105: Let it go in []
            READ
              11:08 48.5 ft in truth 48.4 ft
              12:02 21.3 ft in truth 21.2 ft
              12:32 7.4 ft in truth 7.3 ft
              13:01 0.1 ft in truth 0.0 ft
            STRETCHES
              48.5 ft to 61.0 ft: 1.11 in truth 1.03
              21.3 ft to 48.5 ft: 1.03 in truth 1.05
              7.4 ft to 21.3 ft: 1.00 in truth 1.03
              0.1 ft to 7.4 ft: 0.99 in truth 1.00
            MISSED
              11:34 Concrete sounded, ticket 4102
            SHOWN BESIDE
              11:47 Depth to concrete after each load, load 4102
              11:47 Volume curve
        "#]],
    );
}

#[test]
fn a_clean_day_and_a_seam_nobody_can_see_say_so() {
    let practice = practice(Scenario::Clean, |ask| ask.wise);
    let screen = practice::debrief(&practice, &record_of(&practice, |_| true));
    expect!["There was nothing to find. What the tool asked for on this day it asks for on every day."]
        .assert_eq(&screen.shown);
    let practice = self::practice(Scenario::LooseSandSeam, |ask| ask.wise);
    let screen = practice::debrief(&practice, &record_of(&practice, |_| true));
    expect!["The readings of such a day cannot show it: the sand lies between two soundings."]
        .assert_eq(&screen.shown);
}

/// Who wrote nothing down was shown nothing, and is told so.
#[test]
fn an_empty_record_is_a_list_of_what_was_missed() {
    let practice = practice(Scenario::LateTruck, let_go);
    let begins = practice.begins();
    let screen = practice::debrief(&practice, &record_of(&practice, |said| said.observed_at < begins));
    assert_eq!((screen.readings.len(), screen.others.len()), (0, 0));
    assert_eq!(screen.missed.len(), practice.all_offers().count());
    expect!["The tool did not show it, by what was written down."].assert_eq(&screen.shown);
}

/// The style of a metric day leaves sediment to the papers of each job; the debrief says that nobody could be warned.
#[test]
fn a_metric_day_is_told_in_metres_and_says_where_no_limit_was() {
    let practice = practice_in(UnitSystem::Metric, Scenario::SedimentAfterWaiting, let_go);
    let screen = practice::debrief(&practice, &record_of(&practice, |_| true));
    expect![[r#"
        The concrete comes hours late, and sand settles on the bottom that was cleaned and accepted.
        The criteria of this day hold no limit for it: it was yours to see.
        DECIDED
          15:35 Concrete to come: Let the concrete come [Clean bottom and fluid first]
          15:49 Load 4101: Let it go in []
          16:14 Load 4102: Let it go in []
          16:34 Tremie up by 2 pieces, tip to 15.30 m: Let them []
          16:41 Load 4103: Let it go in []
          17:01 Tremie up by 2 pieces, tip to 12.30 m: Let them []
          17:08 Load 4104: Let it go in []
          17:29 The last truck: 4.0 m³ []
          17:29 Tremie up by 3 pieces, tip to 7.80 m: Let them []
          17:36 Load 4105: Let it go in []
          17:58 Tremie up by 2 pieces, tip to 4.80 m: Let them []
          18:05 Load 4106: Let it go in []
          18:25 Tremie up by 1 piece, tip to 3.30 m: Let them []
        READ
          16:10 15.40 m in truth 15.38 m
          16:34 11.95 m in truth 11.94 m
          17:01 8.53 m in truth 8.49 m
          17:29 5.00 m in truth 4.98 m
          17:58 1.55 m in truth 1.54 m
          18:25 0.03 m in truth 0.00 m
        STRETCHES
          15.40 m to 18.50 m: 1.14 in truth 1.03
          11.95 m to 15.40 m: 1.03 in truth 1.05
          8.53 m to 11.95 m: 1.03 in truth 1.04
          5.00 m to 8.53 m: 1.00 in truth 1.04
          1.55 m to 5.00 m: 1.01 in truth 1.03
          0.03 m to 1.55 m: 1.06 in truth 1.00
        MISSED
        SHOWN BESIDE
    "#]]
    .assert_eq(&told(&screen));
}
