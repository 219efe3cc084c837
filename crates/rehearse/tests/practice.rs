//! A trainee's practice, from the first load to the debrief.

use quantity::Moment;
use record::Body;
use record::field::UnitSystem;
use rehearse::day::{Said, Which};
use rehearse::decision::{Answer, Question};
use rehearse::practice::{Practice, Sight, Warning, debrief};
use rehearse::scenario::Scenario;

fn decided(scenario: Scenario, answers: &[Answer]) -> Practice {
    let which = Which { seed: 3, scenario, system: UnitSystem::Us };
    Practice::of(which, None, answers).expect("a day can be made")
}

fn practice(scenario: Scenario) -> Practice {
    decided(scenario, &[])
}

/// The day with every question answered as somebody would who knows the truth, or the other way.
fn answered(scenario: Scenario, answer: impl Fn(&rehearse::decision::Ask) -> Answer) -> Practice {
    let mut answers = Vec::new();
    loop {
        let practice = decided(scenario, &answers);
        match practice.day().asks.get(answers.len()) {
            Some(ask) => answers.push(answer(ask)),
            None => return practice,
        }
    }
}

/// Everything the day's own inspector wrote while the practice was on.
fn all_written(practice: &Practice) -> Vec<Said> {
    let given = practice.given().count();
    practice.day().said.iter().skip(given).cloned().collect()
}

fn when(practice: &Practice, pick: impl Fn(&Body) -> bool) -> Moment {
    practice.day().said.iter().find(|said| pick(&said.body)).expect("it happens that day").observed_at
}

#[test]
fn the_hole_is_given_and_the_last_look_and_the_pour_are_to_be_read() {
    let practice = answered(Scenario::Clean, |ask| ask.wise);
    assert!(practice.given().any(|said| matches!(said.body, Body::CageSet(_))));
    assert!(!practice.given().any(|said| matches!(said.body, Body::LoadArrived(_))));
    let samples = practice.all_offers().filter(|offer| matches!(offer.sight, Sight::Sample(_))).count();
    // Two of the fluid, one of the bottom, one of the sediment, and a slump of each of five loads.
    assert_eq!(samples, 4 + 5);
    let hours = (practice.ends().seconds() - practice.begins().seconds()) as f64 / 3_600.0;
    assert!((2.0..5.0).contains(&hours), "{hours} h");
    assert!(!practice.is_over(practice.begins()) && practice.is_over(practice.ends()));
}

/// Nothing goes on without an answer, and what was seen before it stays as it was.
#[test]
fn a_question_holds_the_day_and_its_answer_leaves_the_past_alone() {
    let mut answers = Vec::new();
    loop {
        let before = decided(Scenario::WrongTicket, &answers);
        let Some(ask) = before.day().asks.get(answers.len()).cloned() else { break };
        assert_eq!(before.hold(), ask.until);
        assert_eq!(before.asked(ask.at.plus_seconds(-1)), None);
        assert_eq!(before.asked(ask.at), Some(&ask));
        assert!(!before.is_over(before.ends()));
        assert!(before.next(ask.at.plus_seconds(-1)) <= ask.at && before.next(ask.at) <= ask.until);
        for answer in ask.question.answers() {
            let after = decided(Scenario::WrongTicket, &[&answers[..], &[answer]].concat());
            let past = |practice: &Practice| -> Vec<Said> {
                let said = practice.day().said.iter();
                said.filter(|said| said.observed_at.seconds() < ask.until.seconds()).cloned().collect()
            };
            assert_eq!(past(&after), past(&before), "{ask:?}");
        }
        answers.push(ask.wise);
    }
    assert!(answers.len() > 8, "{answers:?}");
}

/// A bad load that is sent away is not in the hole; the one that comes for it is good.
#[test]
fn a_load_of_another_mix_can_be_sent_away() {
    let taken =
        answered(Scenario::WrongTicket, |ask| if ask.wise == Answer::Not { Answer::GoOn } else { ask.wise });
    let mixes = |practice: &Practice| -> Vec<String> {
        let load = |said: &Said| match &said.body {
            Body::LoadArrived(load) => load.mix.clone(),
            _ => None,
        };
        practice.day().said.iter().filter_map(load).collect()
    };
    assert_eq!(mixes(&taken).iter().filter(|mix| *mix == "W-3000").count(), 1);
    let away = answered(Scenario::WrongTicket, |ask| ask.wise);
    assert_eq!(mixes(&away).len(), mixes(&taken).len() + 1);
    let refused = when(&away, |body| matches!(body, Body::LoadRefused(_)));
    let started =
        when(&away, |body| matches!(body, Body::DischargeStarted(started) if started.ticket == "4104"));
    assert!(refused < started);
    assert!(
        !away
            .day()
            .said
            .iter()
            .any(|said| matches!(&said.body, Body::DischargeStarted(started) if started.ticket == "4103"))
    );
    let told = debrief(&away, &all_written(&away), &[]).trouble.expect("something went wrong");
    assert!(told.averted);
    assert!(!debrief(&taken, &all_written(&taken), &[]).trouble.expect("something went wrong").averted);
}

#[test]
fn a_tremie_that_is_stopped_in_time_stays_in_the_concrete() {
    let tip_after_third = |practice: &Practice| {
        let fourth = when(practice, |body| matches!(body, Body::LoadArrived(load) if load.ticket == "4104"));
        let moves = practice.day().said.iter().filter(|said| said.observed_at < fourth);
        moves.filter(|said| matches!(said.body, Body::TipMoved(_))).count()
    };
    let stopped = answered(Scenario::TremiePulledTooFar, |ask| ask.wise);
    let let_go = answered(Scenario::TremiePulledTooFar, |ask| match ask.question {
        Question::Order { .. } => ask.wise,
        _ => Answer::GoOn,
    });
    assert_eq!(tip_after_third(&let_go), tip_after_third(&stopped) + 1);
    assert!(debrief(&stopped, &[], &[]).trouble.expect("something went wrong").averted);
    let unwise =
        debrief(&let_go, &[], &[]).decided.into_iter().filter(rehearse::decision::Ask::is_unwise).count();
    assert_eq!(unwise, 1);
}

/// Too little in the last truck, and the pour stands still until one more comes; the hole gets full all the same.
#[test]
fn an_order_that_is_too_small_costs_a_wait_and_one_that_is_enough_costs_none() {
    let order = |tenths: u32| {
        answered(Scenario::Clean, move |ask| match ask.question {
            Question::Order { .. } => Answer::Order(tenths),
            _ => ask.wise,
        })
    };
    let [short, enough] = [20, 65].map(order);
    let loads = |practice: &Practice| {
        practice.day().said.iter().filter(|said| matches!(said.body, Body::DischargeEnded(_))).count()
    };
    assert_eq!(loads(&short), loads(&enough) + 1);
    assert!(short.ends().seconds() - enough.ends().seconds() > 50 * 60);
    let stops = |practice: &Practice| {
        practice.day().said.iter().filter(|said| matches!(said.body, Body::Interruption(_))).count()
    };
    assert_eq!([&short, &enough].map(stops), [1, 0]);
    // As high as before, and never lower than after the load before.
    assert_eq!(short.day().levels_m.last(), enough.day().levels_m.last());
    let poured = &short.day().levels_m[..short.day().levels_m.len() - 1];
    assert!(poured.windows(2).all(|pair| pair[1] < pair[0]), "{poured:?}");
    let unwise = |practice: &Practice| {
        debrief(practice, &[], &[]).decided.iter().any(rehearse::decision::Ask::is_unwise)
    };
    assert_eq!([&short, &enough].map(unwise), [true, false]);
}

#[test]
fn the_bottom_can_be_cleaned_once_more_before_concrete() {
    for scenario in [Scenario::SedimentAfterWaiting, Scenario::FluidOutOfLimits] {
        let cleaned = answered(scenario, |ask| ask.wise);
        let asked: Vec<Answer> = cleaned
            .day()
            .asks
            .iter()
            .filter(|ask| ask.question == Question::Concrete)
            .map(|ask| ask.wise)
            .collect();
        assert_eq!(asked, [Answer::Not, Answer::GoOn]);
        assert!(debrief(&cleaned, &[], &[]).trouble.expect("something went wrong").averted);
    }
}

/// What lasts is told when it is over: nobody reads at half past one that a truck will come at two.
#[test]
fn an_interruption_is_seen_when_it_is_over() {
    let practice = practice(Scenario::LateTruck);
    let stop = practice.all_offers().find(|offer| matches!(&offer.sight, Sight::Seen(Body::Interruption(_))));
    let stop = stop.expect("the pour stands still");
    let Sight::Seen(Body::Interruption(told)) = &stop.sight else { panic!("{stop:?}") };
    assert_eq!(Some(stop.since), told.until);
}

#[test]
fn a_ticket_can_be_read_from_when_the_truck_is_there_for_twenty_minutes() {
    let practice = practice(Scenario::Clean);
    let arrived = when(&practice, |body| matches!(body, Body::LoadArrived(_)));
    let tickets = |at: Moment| {
        let offers = practice.offers(at);
        offers.into_iter().filter(|offer| matches!(offer.sight, Sight::Ticket(_))).count()
    };
    assert_eq!([-1, 0, 19 * 60, 20 * 60].map(|seconds| tickets(arrived.plus_seconds(seconds))), [0, 1, 1, 0]);
}

/// Tolerance: the tape of the site is off by 2 cm a reading, 1 cm all day, and rounded to 3 cm.
#[test]
fn the_dial_follows_the_concrete_and_shows_the_same_twice() {
    let practice = practice(Scenario::Clean);
    let begun = when(&practice, |body| matches!(body, Body::DischargeStarted(_)));
    let ended = when(&practice, |body| matches!(body, Body::DischargeEnded(_)));
    assert_eq!(practice.dial(begun.plus_seconds(-1), 0), None);
    let hole = &practice.day().readings.hole;
    let first = practice.day().readings.soundings[0].true_m;
    let middle = begun.plus_seconds((ended.seconds() - begun.seconds()) / 2);
    for (at, depth_m) in [(begun, hole.length_m()), (middle, (hole.length_m() + first) / 2.0), (ended, first)]
    {
        let read_m = practice.dial(at, 0).expect("concrete is in");
        assert!((read_m - depth_m).abs() < 0.12, "{read_m} is not {depth_m}");
        assert_eq!(practice.dial(at, 0), Some(read_m));
    }
}

#[test]
fn who_wrote_everything_missed_nothing() {
    let practice = practice(Scenario::Clean);
    let told = debrief(&practice, &all_written(&practice), &[]);
    assert_eq!(told.missed, []);
    assert_eq!(told.trouble, None);
    assert!(
        told.readings.len() > 4 && told.readings.iter().all(|reading| !reading.off),
        "{:?}",
        told.readings
    );
    // Lines are not counted and loads are off by a percent or so: five percent is allowed, and more for
    // the first stretch, whose load also fills the tremie, and the last one, which ends inside the casing.
    for stretch in &told.stretches[1..told.stretches.len() - 1] {
        let (written, truth) = stretch.written.zip(stretch.truth).expect("both are known");
        assert!((written / truth - 1.0).abs() < 0.06, "{stretch:?}");
    }
}

#[test]
fn what_was_not_written_is_told_with_its_ticket() {
    let practice = practice(Scenario::Clean);
    let forgot = |said: &Said| match &said.body {
        Body::ConcreteSounded(sounding) => sounding.after.as_deref() != Some("4102"),
        Body::CageElevation(_) => false,
        _ => true,
    };
    let written: Vec<Said> = all_written(&practice).into_iter().filter(forgot).collect();
    let told = debrief(&practice, &written, &[]);
    let missed: Vec<_> = told.missed.iter().map(|missed| (missed.kind, missed.ticket.as_deref())).collect();
    assert_eq!(missed, [("concrete_sounded", Some("4102")), ("cage_elevation", None)]);
}

#[test]
fn a_tape_read_ten_feet_wrong_is_laid_beside_the_truth() {
    let practice = practice(Scenario::MisreadTape);
    let told = debrief(&practice, &all_written(&practice), &[]);
    let off: Vec<String> = told
        .readings
        .iter()
        .filter(|reading| reading.off)
        .map(|reading| format!("{:.0} ft", (reading.written_m - reading.true_m) / 0.3048))
        .collect();
    assert_eq!(off, ["10 ft"]);
}

#[test]
fn the_trouble_is_told_with_the_moment_the_tool_first_showed_it() {
    let practice = practice(Scenario::CageLifting);
    let at = when(&practice, |body| matches!(body, Body::CageElevation(_)));
    let warn = |seconds: i64, fact: &str| Warning { at: at.plus_seconds(seconds), fact: fact.to_owned() };
    let warnings = [
        warn(90, "cage.top_deviation.after_pour"),
        warn(30, "cage.top_deviation.after_pour"),
        warn(0, "slump.placing"),
    ];
    let told = debrief(&practice, &all_written(&practice), &warnings);
    let trouble = told.trouble.expect("something went wrong");
    assert_eq!(trouble.scenario, Scenario::CageLifting);
    assert_eq!(trouble.warned, Some(at.plus_seconds(30)));
    assert_eq!(told.other_warnings, warnings[2..]);
    let silent = debrief(&practice, &[], &[]).trouble.expect("something went wrong");
    assert_eq!(silent.warned, None);
}
