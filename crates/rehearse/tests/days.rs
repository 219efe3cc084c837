//! Twelve days at a made-up shaft, and what the tool finds in what was written of them.
//!
//! The record holds what an inspector wrote, never the truth; so a test may also say that these readings
//! could not have shown it.

use assess::{Assessment, Earlier, Outcome, Rules, assess};
use criteria::Set;
use record::entry::FileHash;
use record::field::UnitSystem;
use record::kinds::{DrillingStarted, LoadArrived};
use record::{Body, Held, Log, Record};
use rehearse::day::{AUTHOR, Campaign, Chosen, Day, SHAFT, Said, Which, set_of};
use rehearse::scenario::Scenario;
use wire::{Key, Pen, Times};

fn day(scenario: Scenario, seed: u64) -> Day {
    day_in(UnitSystem::Us, scenario, seed)
}

fn day_in(system: UnitSystem, scenario: Scenario, seed: u64) -> Day {
    let set = set_of(system);
    let sha256 = &Set::shipped(set).expect("a set that comes with the program").sha256;
    let file = FileHash::from_hex(sha256).expect("a hash");
    let chosen = Chosen { set: set.to_owned(), file };
    Day::of(Which { seed, scenario, system }, Some(&chosen)).expect("a day can be made")
}

/// Signed on one tablet, each entry as soon as it was seen.
fn record_of(day: &Day) -> Record {
    record_of_said(&day.job, &day.said)
}

fn record_of_said(job: &str, said: &[Said]) -> Record {
    let key = Key::of_secret([9; 32]);
    let mut pen = Pen::new(&key, job, AUTHOR, None);
    let signed = said.iter().map(|said| {
        let at = said.observed_at;
        let times = Times { observed_at: at, noted_at: None, entered_at: at };
        Held::Known(pen.write(said.shaft, times, said.body.clone()))
    });
    Record::of(signed).expect("one tablet, one job")
}

fn assessed<R>(record: &Record, look: impl Fn(&Assessment<'_>) -> R) -> R {
    let whole = Log::of(record, Some(SHAFT), None);
    let at = whole.end().expect("the day has entries");
    let rules = Rules::of(&whole).expect("the criteria of the day");
    look(&assess(&whole, &rules.set, at))
}

/// What the tool found: the failed criteria, each once; then the questions; then the doubts.
fn found(scenario: Scenario, seed: u64) -> Vec<String> {
    found_in(UnitSystem::Us, scenario, seed)
}

fn found_in(system: UnitSystem, scenario: Scenario, seed: u64) -> Vec<String> {
    let record = record_of(&day_in(system, scenario, seed));
    assessed(&record, |assessment| {
        let failed = assessment.findings.iter().filter(|finding| finding.outcome() == Outcome::Fails);
        let id = |finding: &assess::Finding| {
            finding
                .criterion
                .as_ref()
                .map_or(finding.fact.name.to_owned(), |criterion| criterion.original.id.clone())
        };
        let asked = assessment.questions.iter().map(|question| format!("? {}", question.suspicion.word()));
        let odd = assessment.issues.iter().map(|doubt| {
            let name = format!("{:?}", doubt.odd);
            format!("~ {}", name.split([' ', '(', '{']).next().unwrap_or_default())
        });
        let mut all: Vec<String> = failed.map(id).chain(asked).chain(odd).collect();
        all.dedup();
        all
    })
}

/// What a scenario raises, in three days of different seeds. What a clean day raises is taken off.
#[track_caller]
fn check(scenario: Scenario, expected: &[&str]) {
    for seed in SEEDS {
        let mut all = found(scenario, seed);
        let before = all.len();
        all.retain(|name| name != SAND_LEFT);
        assert_eq!(before - all.len(), 1, "the sand in the fluid is reckoned on every day");
        assert_eq!(all, expected, "{} {seed}", scenario.word());
    }
}

const SEEDS: [u64; 3] = [0, 1, 2];

/// No finding: what the little sand of a good fluid would make, with a standard error larger than itself.
const SAND_LEFT: &str = "~ SandLeft";

/// A day as one wishes them, again and again: nothing fails, nothing is asked, nothing looks odd.
#[test]
fn a_clean_day_raises_nothing() {
    for seed in 0..25 {
        assert_eq!(found(Scenario::Clean, seed), [SAND_LEFT], "seed {seed}");
    }
}

/// A third of the section is gone over eight feet of soft clay. On this day the cumulative ratio stays above one; the
/// load that filled the stretch rose too far, and its interval stands off the rest of the shaft.
#[test]
fn a_neck_in_soft_clay_shows_as_an_interval_that_took_too_little() {
    check(Scenario::NeckInSoftClay, &["fhwa/volume-departure"]);
    let day = day(Scenario::NeckInSoftClay, 0);
    let neck = day.readings.hole.features[0];
    assert!((-0.40..=-0.33).contains(&neck.change), "{neck:?}");
    let record = record_of(&day);
    assessed(&record, |assessment| {
        let curve = &assessment.reckoning.pour.as_ref().expect("a pour").curve;
        let ratios = curve.intervals.iter().filter_map(|interval| Some(interval.ratio?.value));
        let lowest = ratios.fold(f64::INFINITY, f64::min);
        let all = curve.intervals[curve.intervals.len() - 1].cumulative.ratio.expect("a ratio").value;
        assert!(lowest < 0.99 && all > 1.0, "lowest {lowest}, in all {all}");
    });
}

#[test]
fn a_cavity_shows_as_an_interval_that_took_too_much() {
    check(Scenario::Cavity, &["fhwa/volume-departure"]);
}

/// One foot of sand a quarter wider is three percent of a load. One sounding a load cannot show that, and
/// nothing is said; a test that asked for more would ask for luck.
#[test]
fn a_thin_seam_could_not_be_shown_by_one_sounding_a_load() {
    check(Scenario::LooseSandSeam, &[]);
    let hole = day(Scenario::LooseSandSeam, 0).readings.hole;
    let seam = hole.features[0];
    let [top_m, bottom_m] = seam.ends_m();
    let around_m = [top_m - 1.8, bottom_m + 1.8];
    let gain = -hole.wall.loss(around_m).expect("a stretch");
    assert!((0.005..0.03).contains(&gain), "a load's rise of 4 m takes {gain} more");
}

#[test]
fn sand_that_settles_while_the_concrete_is_late_fails_at_the_last_look() {
    check(Scenario::SedimentAfterWaiting, &["fhwa/sediment-max", "fhwa/sediment-half-area"]);
}

#[test]
fn a_tremie_pulled_too_far_fails_by_its_embedment() {
    check(Scenario::TremiePulledTooFar, &["fhwa/embedment"]);
}

#[test]
fn a_late_truck_is_too_old_and_too_stiff() {
    check(Scenario::LateTruck, &["fhwa/slump-wet", "fhwa/discharge-time"]);
}

#[test]
fn a_stuck_casing_outlasts_the_slump_of_the_first_load() {
    check(Scenario::CasingStuck, &["fhwa/slump-until-finished"]);
}

#[test]
fn a_cage_that_rose_eight_inches_is_found() {
    check(Scenario::CageLifting, &["fhwa/cage-top-after-pour"]);
}

/// The set has no criterion for the name of a mix; what the ticket says of water and cement gives it away.
#[test]
fn a_ticket_of_another_mix_is_found_by_what_it_says_of_water_and_cement() {
    check(Scenario::WrongTicket, &["fhwa/cement-content", "fhwa/water-cement"]);
}

/// Ten feet too deep: one interval took far too much and the next far too little, and by the record the
/// tremie was nearly out.
#[test]
fn a_tape_read_ten_feet_wrong_cannot_be_right_twice() {
    check(Scenario::MisreadTape, MISREAD);
}
const MISREAD: &[&str] = &["fhwa/embedment", "fhwa/volume-departure"];

#[test]
fn a_fluid_full_of_sand_fails_before_the_concrete() {
    check(
        Scenario::FluidOutOfLimits,
        &["fhwa/polymer-density-concrete-fresh", "fhwa/polymer-sand", "fhwa/fluid-within-limits"],
    );
}

/// The same days in metres and cubic metres, by the criteria of that style.
#[track_caller]
fn check_metric(scenario: Scenario, expected: &[&str]) {
    for seed in SEEDS {
        let mut all = found_in(UnitSystem::Metric, scenario, seed);
        all.retain(|name| name != SAND_LEFT);
        assert_eq!(all, expected, "{} {seed}", scenario.word());
    }
}

#[test]
fn a_clean_metric_day_raises_nothing() {
    for seed in 0..25 {
        let mut all = found_in(UnitSystem::Metric, Scenario::Clean, seed);
        all.retain(|name| name != SAND_LEFT);
        assert_eq!(all, Vec::<String>::new(), "seed {seed}");
    }
}

#[test]
fn each_trouble_shows_on_its_metric_day_by_the_limits_of_that_style() {
    check_metric(Scenario::NeckInSoftClay, &["en1536/volume-departure"]);
    check_metric(Scenario::Cavity, &["en1536/volume-departure"]);
    check_metric(Scenario::LooseSandSeam, &[]);
    check_metric(Scenario::TremiePulledTooFar, &["en1536/immersion-large"]);
    let late = ["en1536/slump-fluid", "job/mix/BP-30/slump", "job/mix/BP-30/discharge"];
    check_metric(Scenario::LateTruck, &late);
    check_metric(Scenario::CasingStuck, &["en1536/slump-until-finished"]);
    check_metric(Scenario::WrongTicket, &["en1536/cement-submerged", "en1536/water-cement"]);
    check_metric(Scenario::FluidOutOfLimits, &["en1536/bentonite-sand"]);
}

/// That style leaves sediment and the rise of the cage to the papers of each job: the tool says nothing of them, and
/// the trainee is told so at the end.
#[test]
fn what_the_style_holds_no_limit_for_is_not_shown() {
    check_metric(Scenario::SedimentAfterWaiting, &[]);
    check_metric(Scenario::CageLifting, &[]);
}

/// A metric day is written in metric units alone: no feet, inches, yards, pounds or degrees Fahrenheit.
#[test]
fn nothing_of_a_metric_day_is_written_in_other_units() {
    for scenario in Scenario::all() {
        let day = day_in(UnitSystem::Metric, scenario, 1);
        for said in &day.said {
            let text = format!("{:?}", said.body.to_group());
            let odd = [" ft\"", " in\"", " cy\"", " lb\"", " F\"", "pcf", "s/qt", "yd", "psi"];
            assert!(!odd.iter().any(|unit| text.contains(unit)), "{text}");
        }
    }
}

/// What the trainee is told at the end is what the tool can show: each sign is a fact that fails that day.
#[test]
fn the_signs_of_every_scenario_are_facts_that_fail_on_its_day() {
    for (system, scenario) in [UnitSystem::Us, UnitSystem::Metric]
        .into_iter()
        .flat_map(|system| Scenario::all().map(move |scenario| (system, scenario)))
    {
        let record = record_of(&day_in(system, scenario, 0));
        let mut failed: Vec<&str> = assessed(&record, |assessment| {
            let fails = assessment.findings.iter().filter(|finding| finding.outcome() == Outcome::Fails);
            fails.map(|finding| finding.fact.name).collect()
        });
        failed.sort_unstable();
        failed.dedup();
        for sign in scenario.signs(system) {
            assert!(failed.contains(sign), "{}: {sign} is not among {failed:?}", scenario.word());
        }
        assert_eq!(scenario.signs(system).is_empty(), failed.is_empty(), "{} {failed:?}", scenario.word());
    }
}

/// Same seed, same day, to the last letter; another seed, another day.
#[test]
fn a_seed_and_a_scenario_name_their_day() {
    assert_eq!(day(Scenario::Cavity, 5), day(Scenario::Cavity, 5));
    assert_ne!(day(Scenario::Cavity, 5).said, day(Scenario::Cavity, 6).said);
    let metric = day_in(UnitSystem::Metric, Scenario::Cavity, 5);
    assert_eq!(
        [&day(Scenario::Cavity, 5).job, &metric.job],
        ["rehearsal-cavity-5", "rehearsal-cavity-metric-5"]
    );
}

/// Every entry carries the mark, and what is written is in order of time.
#[test]
fn the_day_is_a_rehearsal_by_every_entry_and_in_order_of_time() {
    for scenario in Scenario::all() {
        let day = day(scenario, 1);
        let record = record_of(&day);
        assert!(record.is_rehearsal());
        assert!(record.entries().all(|held| record::rehearsal::is_rehearsal_key(held.job())));
        assert_eq!(record.alarms(), []);
        assert!(day.said.is_sorted_by_key(|said| said.observed_at.seconds()));
    }
}

/// The shaft of a day is the third of its job: two clean ones stand in the same ground, a day apart, their papers are
/// the job's, and the day is the day it would have been alone.
#[test]
fn a_campaign_is_two_clean_shafts_and_the_day() {
    let which = Which { seed: 0, scenario: Scenario::NeckInSoftClay, system: UnitSystem::Us };
    let campaign = Campaign::of(which, None).expect("a job can be made");
    assert_eq!(campaign.job, "rehearsal-neck-third-0");
    assert_eq!(campaign.day.readings, Day::of(which, None).expect("a day").readings);
    let record = record_of_said(&campaign.job, &campaign.said);
    assert_eq!(record.shafts(), ["R-1", "R-2", "R-3"]);
    let opened = record.entries().filter(|held| held.shaft().is_none() && is_opening(held)).count();
    assert_eq!(opened, 1, "the papers of the job are written once");
    let drilled = ["R-1", "R-2", "R-3"].map(|shaft| {
        let log = Log::of(&record, Some(shaft), None);
        log.each::<DrillingStarted>().next().map(|(line, _)| line.at.date()).expect("a shaft is drilled")
    });
    assert_eq!(drilled.map(|date| date.to_string()), ["2031-05-05", "2031-05-06", "2031-05-07"]);
}

/// Before its first load the third shaft has two earlier ones to learn from, by what they took of the same ground.
#[test]
fn the_third_shaft_learns_from_the_two_before() {
    let which = Which { seed: 0, scenario: Scenario::NeckInSoftClay, system: UnitSystem::Us };
    let campaign = Campaign::of(which, None).expect("a job can be made");
    let record = record_of_said(&campaign.job, &campaign.said);
    let log = Log::of(&record, Some(campaign.shaft), None);
    let first = log.each::<LoadArrived>().map(|(line, _)| line.at).min().expect("a load comes");
    let earlier = Earlier::of(&record, campaign.shaft, first);
    let names: Vec<&str> = earlier.shafts().iter().map(|shaft| shaft.name.as_str()).collect();
    assert_eq!(names, ["R-1", "R-2"]);
    // The layers of a clean day take three to five percent more than drawn.
    for shaft in earlier.shafts() {
        let whole = shaft.whole.expect("a sounded pour");
        assert!((1.0..1.1).contains(&whole.value), "{}: {whole:?}", shaft.name);
    }
    assert_ne!(earlier.shafts()[0].whole, earlier.shafts()[1].whole, "no two holes are alike");
}

fn is_opening(held: &Held) -> bool {
    matches!(held, Held::Known(entry) if matches!(entry.body, Body::JobOpened(_)))
}
