//! What is odd in a day, each in the words a person reads; the words of advice and of an order that come too late or
//! too early for a value.

mod support;

use assess::{Assessment, Doubt, Odd, assess};
use calc::curve::Issue;
use calc::estimate::Estimate;
use calc::fluid_density::PairFit;
use calc::payment::PaymentIssue;
use expect_test::{Expect, expect};
use quantity::{Density, Depth, Fraction, Length, Volume};
use record::{EntryId, Log};
use support::at;
use support::day::day;
use wording::{Notice, Show};

/// The assessment of the day, handed to a test.
fn with_day(test: impl FnOnce(&Log<'_>, Assessment<'_>, &Show)) {
    let record = day().site.record();
    let log = support::log(&record);
    let (set, _) = criteria::Set::shipped("roadside-common-practice-1").expect("shipped").in_force(&[]);
    let assessment = assess(&log, &set, at("11:00"));
    test(&log, assessment, &Show::of_log(&log));
}

/// Each thing that is odd, told of the day.
#[track_caller]
fn check(odd: &[Odd], expected: Expect) {
    with_day(|log, assessment, show| {
        let told = |odd: &Odd| {
            let doubt = Doubt { odd: odd.clone(), evidence: vec![EntryId([1; 32])] };
            wording::doubt(&doubt, &assessment, log, show)
                .map_or_else(|| "nothing is told".to_owned(), |notice: Notice| notice.to_string())
        };
        expected.assert_eq(&odd.iter().map(told).collect::<Vec<_>>().join("\n\n"));
    });
}

fn depth(feet: f64) -> Depth {
    Depth(Length::feet(feet))
}

fn pair() -> PairFit {
    let pcf = Density::pounds_per_cubic_foot;
    PairFit {
        expected: pcf(62.9),
        difference: Estimate::new(pcf(4.1), pcf(0.6)),
        sand_implied: Fraction::percent(0.0),
        fines: Fraction::percent(0.0),
    }
}

#[test]
fn what_is_odd_in_the_bottom_the_runs_and_the_soundings() {
    check(
        &[
            Odd::SandLeft(Estimate::new(Length::inches(2.5), Length::inches(0.5))),
            Odd::SoundedDuringDischarge,
            Odd::Runs(PaymentIssue::Overlap { top: depth(9.0), bottom: depth(10.0) }),
            Odd::Runs(PaymentIssue::Gap { top: depth(10.0), bottom: depth(12.0) }),
        ],
        expect![[r#"
            The sand left in the fluid would make 2 1/2 in of sediment if all of it came down.
            It is no measurement; the last samples say how much sand there was, not where it is.
            Sound the bottom again right before concrete.
            (sand_left)

            The surface was sounded while a load was going in, and nobody wrote how much of it was in.
            The reading is kept and used for the embedment; the volume curve leaves it out.
            Correct the sounding with the load it was read after and the share that was in.
            (sounded_during_discharge)

            Two tool runs overlap between 9.0 ft and 10.0 ft.
            Every run is kept as written.
            Look at the depths of the runs, and correct the one that is wrong.
            (tool_runs)

            No tool run covers the depth between 10.0 ft and 12.0 ft.
            Every run is kept as written.
            Look at the depths of the runs, and correct the one that is wrong.
            (tool_runs)"#]],
    );
}

#[test]
fn what_is_odd_in_the_curve_and_in_a_lift() {
    let volume = Estimate::new(Volume::cubic_yards(0.6), Volume::cubic_yards(0.05));
    check(
        &[
            Odd::Curve(Issue::SurfaceFell { at: 1, by: Length::feet(2.0) }),
            Odd::LiftUnexplained { lift: 1, volume },
        ],
        expect![[r#"
            The concrete surface went down 2.0 ft by the sounding of 10:12.
            Both soundings are kept, and the interval has no ratio.
            Sound again and add the reading; if the surface did go down, look for a void or a leak.
            (surface_fell)

            Lift 1 of surface casing, 10:30: Shoe from +94.0 ft to +97.0 ft. The level fell 1.8 ft more than expected. 0.60 yd³ ± 0.05 went behind the casing that the drawing does not know: a void, or a wall washed out. The concrete stands 0.5 ft below the shoe. The cage rose 1/4 in.
            Every reading is kept as written.
            Sound again before the next lift and add concrete until the head is enough.
            (lift_unexplained)"#]],
    );
}

#[test]
fn a_doubt_about_what_is_no_longer_reckoned_is_not_told() {
    let volume = Estimate::new(Volume::cubic_yards(0.6), Volume::cubic_yards(0.05));
    check(
        &[Odd::LiftUnexplained { lift: 7, volume }, Odd::SandAgainstDensity(pair())],
        expect![["nothing is told\n\nnothing is told"]],
    );
}

#[test]
fn samples_that_do_not_fit_are_told_together_and_sand_only_until_concrete_comes() {
    with_day(|log, mut assessment, show| {
        let sample =
            |number| Doubt { odd: Odd::SandAgainstDensity(pair()), evidence: vec![EntryId([number; 32])] };
        let left = Odd::SandLeft(Estimate::new(Length::inches(2.5), Length::inches(0.5)));
        assessment.issues = vec![sample(1), Doubt { odd: left, evidence: Vec::new() }, sample(2)];
        let told = wording::doubts(&assessment, log, show);
        let told: Vec<String> =
            told.iter().map(|one| format!("{} ({} entries)", one.notice, one.evidence.len())).collect();
        expect![[r#"
            2 fluid tests find a density that their sand does not explain.
            Every reading is kept and judged as it was written.
            Check the balance in water and the sand tube. Fines in suspension would explain a heavier fluid too.
            (density_against_sand) (2 entries)"#]].assert_eq(&told.join("\n\n"));
    });
}

#[test]
fn advice_that_comes_too_late_says_what_is_left() {
    with_day(|log, assessment, show| {
        let measured = assessment.findings.iter().find(|one| one.fact.name == "bottom.sediment.max");
        let again = wording::advice::measured_again(measured.expect("the base was sounded"), log, show);
        expect![[r#"
            Measured again 08:42: 1.5 in, which meets. Left is that somebody decides about it.
            The work it is about is done. Left is that somebody decides about it."#]]
        .assert_eq(&format!("{again}\n{}", wording::advice::too_late()));
    });
}

#[test]
fn an_order_that_is_being_reckoned_says_so() {
    let text = wording::order_waits();
    expect![[r#"
        Order: being reckoned
        The order is being reckoned from the newest readings.
        Wait a moment for the order."#]]
    .assert_eq(&format!("{}: {}\n{}\n{}", text.label, text.value, text.sentence, text.do_now));
}
