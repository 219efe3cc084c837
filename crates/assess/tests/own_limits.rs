//! The limits a job approved with its mix and its fluid are judged like those of its set, and stand on the job.

mod story;

use assess::Outcome::{self, Fails, Meets};
use criteria::Sure;
use story::{Story, outcomes, roadside};

fn day() -> Story {
    let fluid = "product = \"Clearhold\"\nfluid = \"polymer\"\nwater = \"fresh\"";
    let limited = format!("{fluid}\nsand_high = \"4 %\"\nviscosity_high = \"40 s/qt\"");
    let mut story = roadside::story();
    story.head = story.head.replace(fluid, &limited);
    story
}

#[track_caller]
fn check(criterion: &str, story: Story, expected: &[Outcome]) {
    let told = story.told();
    assert_eq!(outcomes(&told.end(), criterion), expected, "{criterion}");
}

#[test]
fn a_fluid_is_held_to_the_limits_of_its_product() {
    let tank = |sand: &str| day().with("ph = 9, sand = 0 }", &format!("ph = 9, sand = {sand} }}"));
    check("job/fluid/Clearhold/sand-introduced", tank("0"), &[Meets]);
    check("job/fluid/Clearhold/sand-introduced", tank("\"4 %\""), &[Meets]);
    check("job/fluid/Clearhold/sand-introduced", tank("\"4.1 %\""), &[Fails]);
    check("job/fluid/Clearhold/viscosity-introduced", day(), &[Meets]);
}

#[test]
fn a_product_without_limits_has_none_on_the_job() {
    check("job/fluid/Clearhold/sand-introduced", roadside::story(), &[]);
}

#[test]
fn every_load_is_held_to_the_limits_of_its_mix_and_the_finding_says_whose_they_are() {
    let story = roadside::story().told();
    let assessment = story.end();
    let own: Vec<_> = assessment
        .findings
        .iter()
        .filter(|finding| finding.criterion.as_ref().is_some_and(|c| c.original.id == "job/mix/W-4000/slump"))
        .collect();
    assert!(!own.is_empty(), "the day has loads with slump tests");
    assert!(own.iter().all(|finding| finding.criterion.as_ref().map(|c| c.sure()) == Some(Sure::Job)));
    assert!(own.iter().all(|finding| finding.outcome() == Meets), "7 to 9 in, tested inside");
}
