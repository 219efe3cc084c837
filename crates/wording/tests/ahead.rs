//! What to order and how the rest of the pour may go, in words.

mod support;

use assess::Earlier;
use assess::day::{LifeTold, NoDay, RestOfPour, TrucksFrom};
use assess::order::{NoOrder, RestsOn, ToOrder, TruckSize};
use assess::shape::Asked;
use calc::estimate::Estimate;
use calc::order::OrderError;
use calc::pour_day::{DayError, DayOutlook, Spread};
use calc::profile::ProfileError;
use criteria::Set;
use expect_test::{Expect, expect};
use quantity::{Span, Volume};
use record::{Log, Record};
use support::at;
use support::day::day;
use wording::Show;

/// The order of the day at a clock time, changed as a test wants it, in words.
#[track_caller]
fn check_order(clock: &str, change: impl Fn(&mut ToOrder), expected: Expect) {
    let (set, _) = Set::shipped("roadside-common-practice-1").expect("shipped").in_force(&[]);
    let record: Record = day().site.record();
    let log = Log::of(&record, Some("S-1"), Some(at(clock)));
    let assessment = assess::assess(&log, &set, at(clock));
    let mut order = ToOrder::of(Asked::of(&log, &assessment, &Earlier::none())).expect("an order");
    change(&mut order);
    let text = wording::order(&order, &Show::of_log(&log));
    let figure = format!("{}: {} ({})", text.label, text.value, text.note);
    expected.assert_eq(&[figure, format!("{}: {}", text.heading, text.sentence), text.do_now].join("\n"));
}

#[test]
fn the_order_before_concrete() {
    check_order(
        "08:00",
        |_| (),
        expect![[r#"
            Order for 95 %: 9.00 yd³ (1 load, 2.26 left over)
            Concrete to order for the whole shaft: Estimate from the drawing and a usual ratio of 1.10 ± 0.15, as no earlier shaft of the job tells more: it will probably take 6.78 yd³ (4.76–8.79), over-pour and lines included. For 95 % order 9.00 yd³: 1 load of 9.00 yd³ (a truck is assumed to hold that); left over about 2.26 yd³. Instead 8.50 yd³ for 90 %, or 10.50 yd³ for 99 %.
            Ask the plant for 9.00 yd³, 1 load of 9.00 yd³ (a truck is assumed to hold that); order the last of it late. Look again after the first soundings of this shaft."#]],
    );
    check_order(
        "08:00",
        |order| order.from = RestsOn::Earlier { shafts: 3, known: 2, layers: 4 },
        expect![[r#"
            Order for 95 %: 9.00 yd³ (1 load, 2.26 left over)
            Concrete to order for the whole shaft: Estimate from 3 earlier shafts, which met 2 of 4 layers: it will probably take 6.78 yd³ (4.76–8.79), over-pour and lines included. For 95 % order 9.00 yd³: 1 load of 9.00 yd³ (a truck is assumed to hold that); left over about 2.26 yd³. Instead 8.50 yd³ for 90 %, or 10.50 yd³ for 99 %.
            Ask the plant for 9.00 yd³, 1 load of 9.00 yd³ (a truck is assumed to hold that); order the last of it late. Look again after the first soundings of this shaft."#]],
    );
}

#[test]
fn the_order_while_the_pour_goes_on() {
    check_order(
        "09:50",
        |_| (),
        expect![[r#"
            Order for 95 %: 3.50 yd³ (2 loads, 0.36 left over)
            Concrete still to order: Estimate from 1 sounding: still needed 3.14 yd³ (2.88–3.39), over-pour and lines included, 0.12 yd³ of it for the room that casing leaves. For 95 % order 3.50 yd³: 1 load of 3.00 yd³ and one of 0.50 yd³; the same for 90 %; left over about 0.36 yd³. Instead 4.00 yd³ for 99 %.
            Order 3.50 yd³ more, 1 load of 3.00 yd³ and one of 0.50 yd³, and ask the plant how soon. Sound after the next load and look again."#]],
    );
    let more = |order: &mut ToOrder| {
        order.from = RestsOn::ThisShaft { soundings: 1, earlier: 1 };
        order.casing = Volume::cubic_yards(1.2);
        order.ordered = Volume::cubic_yards(4.0);
        order.truck = TruckSize::Planned;
        order.trucks.full = Volume::cubic_yards(9.0);
        order.orders[1].order.volume = Volume::cubic_yards(21.5);
        order.orders[1].order.full_loads = 2;
        order.orders[1].order.part_load = Volume::cubic_yards(3.5);
    };
    check_order(
        "09:50",
        more,
        expect![[r#"
            Order for 95 %: 21.50 yd³ (3 loads, 0.36 left over)
            Concrete still to order: Estimate from 1 sounding and 1 earlier shaft: still needed 3.14 yd³ (2.88–3.39), over-pour and lines included, 1.20 yd³ of it for the room that casing leaves; 4.00 yd³ is ordered. For 95 % order 21.50 yd³: 2 loads of 9.00 yd³ and one of 3.50 yd³; left over about 0.36 yd³. Instead 3.50 yd³ for 90 %, or 4.00 yd³ for 99 %.
            Order 21.50 yd³ more, 2 loads of 9.00 yd³ and one of 3.50 yd³, and ask the plant how soon. Sound after the next load and look again."#]],
    );
    let one_and_a_part = |order: &mut ToOrder| {
        more(order);
        order.orders[1].order.full_loads = 1;
    };
    check_order(
        "09:50",
        one_and_a_part,
        expect![[r#"
            Order for 95 %: 21.50 yd³ (2 loads, 0.36 left over)
            Concrete still to order: Estimate from 1 sounding and 1 earlier shaft: still needed 3.14 yd³ (2.88–3.39), over-pour and lines included, 1.20 yd³ of it for the room that casing leaves; 4.00 yd³ is ordered. For 95 % order 21.50 yd³: 1 load of 9.00 yd³ and one of 3.50 yd³; left over about 0.36 yd³. Instead 3.50 yd³ for 90 %, or 4.00 yd³ for 99 %.
            Order 21.50 yd³ more, 1 load of 9.00 yd³ and one of 3.50 yd³, and ask the plant how soon. Sound after the next load and look again."#]],
    );
    let nothing = |order: &mut ToOrder| {
        order.orders[1].order.volume = Volume::cubic_yards(0.0);
        order.orders[1].order.full_loads = 0;
        order.orders[1].order.part_load = Volume::cubic_yards(0.0);
    };
    check_order(
        "09:50",
        nothing,
        expect![[r#"
            Order for 95 %: 0.00 yd³ (enough comes, 0.36 left over)
            Concrete still to order: Estimate from 1 sounding: still needed 3.14 yd³ (2.88–3.39), over-pour and lines included, 0.12 yd³ of it for the room that casing leaves. For 95 % nothing more is needed; left over about 0.36 yd³. Instead 3.50 yd³ for 90 %, or 4.00 yd³ for 99 %.
            Order nothing more now: what comes is enough with a probability of 0.99. Sound after the next load and look again."#]],
    );
}

#[test]
fn why_there_is_no_order() {
    let told = [
        NoOrder::NoPlan,
        NoOrder::Full,
        NoOrder::Unreckonable(ProfileError::Unreckonable),
        NoOrder::NoOrder(OrderError::NeverEnough),
    ];
    let told: Vec<String> = told.map(|why| wording::no_order(why).unwrap_or("(nothing)".to_owned())).to_vec();
    expect![[r#"
        (nothing)
        (nothing)
        What to order cannot be told: the readings are too far out to be reckoned with. The readings are kept; look at the bottom, the soundings and the plan of the shaft.
        What to order cannot be told: what comes is too uncertain for any order to be enough. The readings are kept; look at the bottom, the soundings and the plan of the shaft."#]].assert_eq(&told.join("\n"));
}

fn outlook(safe: f64) -> DayOutlook {
    let minutes = |value: f64| Estimate::new(Span::minutes(value), Span::minutes(1.0));
    let spread =
        |half: f64| Spread { early: minutes(half - 20.0), half: minutes(half), late: minutes(half + 35.0) };
    let share = |value: f64| Estimate::new(value, 0.01);
    DayOutlook {
        days: 4_000,
        in_time: share(safe + 0.01),
        gap_over: share(0.02),
        safe: share(safe),
        finish: spread(150.0),
        oldest: spread(240.0),
        longest_gap: spread(28.0),
    }
}

fn rest() -> RestOfPour {
    RestOfPour {
        now: at("09:40"),
        begun: true,
        days: 4_000,
        loads_left: 5,
        under_way: 1,
        running: Some((4, TrucksFrom::Named, outlook(0.88))),
        tried: vec![(4, outlook(0.88)), (5, outlook(0.97))],
        enough: Some(5),
        life: Some(LifeTold { life: Span::minutes(255.0), error: Span::minutes(12.0), at_least: false }),
        gap_limit: Some(Span::minutes(60.0)),
        assumed_round: false,
        evidence: Vec::new(),
    }
}

#[track_caller]
fn check_day(change: impl Fn(&mut RestOfPour), expected: Expect) {
    let mut rest = rest();
    change(&mut rest);
    let text = wording::day(&rest, &Show::of(None).on_day_of(at("09:40")));
    let pressing = if text.pressing { "pressing" } else { "calm" };
    let figure = format!("{} ({}; {}) {pressing}", text.value, text.note, text.trucks);
    expected.assert_eq(&[figure, format!("{}: {}", text.heading, text.sentence), text.do_now].join("\n"));
}

#[test]
fn too_few_trucks() {
    check_day(
        |_| (),
        expect![[r#"
            88 % with 4 trucks (ends about 12:10 (11:50 to 12:45); 5 trucks would do: 97 %) pressing
            Will the pour end in time: Played 4000 times with 5 loads to come and 1 on the way or on site: everything in at about 12:10 (11:50 to 12:45 eight times in ten). Probability of ending within the slump life of its concrete, 4 h 15 min ± 12 min after the first batch, without a gap over 1 h: 88 % with the 4 trucks of today (in time 89 %, a longer gap 2 %; longest gap 28 min half of the times).
            Ask for 5 trucks: with them the probability is 97 %. Look again after the next load."#]],
    );
}

#[test]
fn enough_trucks_by_the_planned_headway() {
    let change = |rest: &mut RestOfPour| {
        rest.running = Some((5, TrucksFrom::Headway, outlook(0.97)));
        rest.assumed_round = true;
        rest.gap_limit = None;
        rest.life = Some(LifeTold { life: Span::minutes(240.0), error: Span::minutes(0.0), at_least: true });
    };
    check_day(
        change,
        expect![[r#"
            97 % with 5 trucks (ends about 12:10 (11:50 to 12:45); ) calm
            Will the pour end in time: Played 4000 times with 5 loads to come and 1 on the way or on site: everything in at about 12:10 (11:50 to 12:45 eight times in ten). Probability of ending within the slump life of its concrete, 4 h at least after the first batch: 97 % with 5 trucks, as many as keep the time between loads (longest gap 28 min half of the times). The road or the end of the work was not planned: usual times are assumed.
            5 trucks would do with a probability of 97 %. Look again after the next load."#]],
    );
}

#[test]
fn before_the_first_batch() {
    let change = |rest: &mut RestOfPour| {
        rest.begun = false;
        rest.under_way = 0;
        rest.running = None;
        rest.tried = vec![(1, outlook(0.0)), (2, outlook(0.9999))];
        rest.enough = Some(2);
        rest.life = None;
    };
    check_day(
        change,
        expect![[r#"
            over 99 % with 2 trucks (takes about 2 h 30 min (2 h 10 min to 3 h 5 min); ) calm
            Will the pour end in time: Played 4000 times with 5 loads to come: everything in about 2 h 30 min after the first batch (2 h 10 min to 3 h 5 min eight times in ten). Probability of ending without a gap over 1 h: over 99 % with 2 trucks (longest gap 28 min half of the times).
            2 trucks would do with a probability of over 99 %. Look again after the next load."#]],
    );
}

#[test]
fn no_number_of_trucks_is_enough() {
    let change = |rest: &mut RestOfPour| {
        rest.tried = vec![(11, outlook(0.60)), (12, outlook(0.61))];
        rest.enough = None;
        rest.under_way = 0;
    };
    check_day(
        change,
        expect![[r#"
            88 % with 4 trucks (ends about 12:10 (11:50 to 12:45); ) pressing
            Will the pour end in time: Played 4000 times with 5 loads to come: everything in at about 12:10 (11:50 to 12:45 eight times in ten). Probability of ending within the slump life of its concrete, 4 h 15 min ± 12 min after the first batch, without a gap over 1 h: 88 % with the 4 trucks of today (in time 89 %, a longer gap 2 %; longest gap 28 min half of the times).
            More trucks are not enough: with 12 the probability is 61 %. Shorten what follows the last load, or ask the engineer, before the next load is batched."#]],
    );
    let last_load = |rest: &mut RestOfPour| {
        change(rest);
        rest.tried = vec![(1, outlook(0.80))];
    };
    check_day(
        last_load,
        expect![[r#"
            88 % with 4 trucks (ends about 12:10 (11:50 to 12:45); ) pressing
            Will the pour end in time: Played 4000 times with 5 loads to come: everything in at about 12:10 (11:50 to 12:45 eight times in ten). Probability of ending within the slump life of its concrete, 4 h 15 min ± 12 min after the first batch, without a gap over 1 h: 88 % with the 4 trucks of today (in time 89 %, a longer gap 2 %; longest gap 28 min half of the times).
            More trucks bring nothing. Shorten what follows the last load, or ask the engineer, before the next load is batched."#]],
    );
    let doubtful = |rest: &mut RestOfPour| {
        change(rest);
        rest.life =
            Some(LifeTold { life: Span::minutes(240.0), error: Span::minutes(80.0), at_least: false });
    };
    check_day(
        doubtful,
        expect![[r#"
            88 % with 4 trucks (ends about 12:10 (11:50 to 12:45); ) pressing
            Will the pour end in time: Played 4000 times with 5 loads to come: everything in at about 12:10 (11:50 to 12:45 eight times in ten). Probability of ending within the slump life of its concrete, 4 h ± 1 h 20 min after the first batch, without a gap over 1 h: 88 % with the 4 trucks of today (in time 89 %, a longer gap 2 %; longest gap 28 min half of the times).
            More trucks are not enough: with 12 the probability is 61 %. How long the concrete lives is not known well: test the slump of the next load, late if you can, and look again."#]],
    );
}

#[test]
fn nothing_left_to_bring() {
    let last = |safe: f64, under_way: u32| {
        move |rest: &mut RestOfPour| {
            (rest.loads_left, rest.under_way) = (0, under_way);
            rest.running = Some((4, TrucksFrom::Named, outlook(safe)));
            rest.tried = vec![(under_way, outlook(safe))];
        }
    };
    check_day(
        last(0.97, 1),
        expect![[r#"
            97 % (ends about 12:10 (11:50 to 12:45); ) calm
            Will the pour end in time: Played 4000 times with 1 load on its way or on site and none to come: everything in at about 12:10 (11:50 to 12:45 eight times in ten). Probability of ending within the slump life of its concrete, 4 h 15 min ± 12 min after the first batch, without a gap over 1 h: 97 % (in time 98 %, a longer gap 2 %; longest gap 28 min half of the times).
            Go on as planned, and look again after each lift."#]],
    );
    check_day(
        last(0.5, 0),
        expect![[r#"
            50 % (ends about 12:10 (11:50 to 12:45); ) pressing
            Will the pour end in time: Played 4000 times with every load in: everything in at about 12:10 (11:50 to 12:45 eight times in ten). Probability of ending within the slump life of its concrete, 4 h 15 min ± 12 min after the first batch, without a gap over 1 h: 50 % (in time 51 %, a longer gap 2 %; longest gap 28 min half of the times).
            Shorten what follows the last load, or ask the engineer, before the next load is batched."#]],
    );
}

#[test]
fn why_no_day_is_played() {
    let told = [
        NoDay::Over,
        NoDay::NotPlanned,
        NoDay::NoOrder(NoOrder::NoPlan),
        NoDay::NoLimit,
        NoDay::Unplayable(DayError::Backwards { load: 1 }),
    ];
    let told: Vec<String> =
        told.iter().map(|why| wording::no_day(why).unwrap_or("(nothing)".to_owned())).collect();
    expect![[r#"
        (nothing)
        (nothing)
        (nothing)
        Whether the pour ends in time cannot be told: enter the mix with its slump trial and its least slump.
        Whether the pour ends in time cannot be told: the times of load 2 do not follow each other. The entries are kept; correct the times of the loads."#]].assert_eq(&told.join("\n"));
}
