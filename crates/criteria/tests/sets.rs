//! The shipped sets: what applies when, and that every band of a size is covered once.

use criteria::conditions::When;
use criteria::set::SHIPPED;
use criteria::{Conditions, Rule, Set, SetInForce, Sure, Topic};
use quantity::{Kind, Length, Span, Temperature};

fn shipped() -> Vec<SetInForce> {
    SHIPPED.iter().map(|(id, _)| Set::shipped(id).expect("a shipped set").in_force(&[]).0).collect()
}

fn set(id: &str) -> SetInForce {
    Set::shipped(id).expect("a shipped set").in_force(&[]).0
}

#[test]
fn a_set_is_chosen_by_the_id_inside_its_file() {
    for (id, _) in SHIPPED {
        assert_eq!(Set::shipped(id).expect("a shipped set").about.id, id);
    }
    assert!(Set::shipped("nothing-of-the-sort").is_none());
}

#[test]
fn every_criterion_says_how_sure_it_is() {
    for one in shipped().iter().flat_map(|set| &set.criteria) {
        let one = &one.original;
        assert_ne!(one.sure, Sure::Job, "{}: a shipped limit is nobody's contract", one.id);
        assert_eq!(one.sure == Sure::CommonPractice, one.source.as_deref() == Some("COMMON-PRACTICE"));
        if one.sure == Sure::FromMemory {
            let verify = one.verify.as_deref().unwrap_or_default();
            assert!(verify.contains("from memory"), "{}: {verify}", one.id);
        }
    }
}

#[test]
fn the_titles_of_a_set_differ() {
    for set in shipped() {
        let mut titles: Vec<_> = set.criteria.iter().map(|one| one.original.title.as_str()).collect();
        let count = titles.len();
        titles.sort_unstable();
        titles.dedup();
        assert_eq!(titles.len(), count, "{}", set.about.id);
    }
}

/// Conditions under which a criterion applies: the first word of each topic, an inner value of each range.
fn fulfilled(when: &When) -> Conditions {
    let mut known = Conditions::new();
    for (topic, words) in &when.words {
        known = known.with(*topic, words[0]);
    }
    for (topic, range) in &when.ranges {
        let low = range.low.as_ref().map(|edge| *edge.value.numer() as f64 / *edge.value.denom() as f64);
        let high = range.high.as_ref().map(|edge| *edge.value.numer() as f64 / *edge.value.denom() as f64);
        let inner = match (low, high) {
            (Some(low), Some(high)) => (low + high) / 2.0,
            (Some(low), None) => low * 1.5,
            (None, high) => high.expect("one end") / 2.0,
        };
        known = match topic.range_of() {
            Some(Kind::Length) => known.with_number(*topic, Length::meters(inner)),
            Some(Kind::Span) => known.with_number(*topic, Span::seconds(inner)),
            other => panic!("{other:?} is no kind of a range: {:?}", Temperature::kelvin(inner)),
        };
    }
    known
}

#[test]
fn every_criterion_can_apply_and_none_applies_by_guessing() {
    for set in shipped() {
        for one in &set.criteria {
            let (fact, when) = (one.original.fact.name, &one.original.when);
            let found = set.criteria_for(fact, &fulfilled(when));
            assert!(found.apply.contains(&one), "{} applies under its own conditions", one.original.id);
            let nothing_known = set.criteria_for(fact, &Conditions::new());
            let free = when.words.is_empty() && when.ranges.is_empty();
            assert_eq!(nothing_known.apply.contains(&one), free, "{}", one.original.id);
            let unclear = nothing_known.unclear.iter().any(|(other, _)| *other == one);
            assert_eq!(unclear, !free, "{}", one.original.id);
        }
    }
}

/// The ids that apply.
#[track_caller]
fn check(set: &SetInForce, fact: &str, conditions: Conditions, expected: &[&str]) {
    let found = set.criteria_for(fact, &conditions);
    let ids: Vec<_> = found.apply.iter().map(|one| one.original.id.as_str()).collect();
    assert_eq!(ids, expected);
    assert!(found.unclear.is_empty(), "{:?}", found.unclear.len());
}

/// Bands of EN 1536, tolerances: up to 1.0 m, between, above 1.5 m. [EN-1536]
#[test]
fn every_diameter_lies_in_one_band_of_position() {
    let set = set("en1536-style-1");
    let at = |meters: f64| Conditions::new().with_diameter(Length::meters(meters));
    let check = |meters, id| check(&set, "asbuilt.position_offset", at(meters), &[id]);
    check(0.6, "en1536/position-small");
    check(1.0, "en1536/position-small");
    check(1.001, "en1536/position-middle");
    check(1.5, "en1536/position-middle");
    check(1.501, "en1536/position-large");
}

#[test]
fn every_diameter_lies_in_one_band_of_cover() {
    let set = set("fhwa-aashto-style-1");
    let at = |feet: f64| Conditions::new().with_diameter(Length::feet(feet));
    let check = |feet, id| check(&set, "cage.cover", at(feet), &[id]);
    check(3.0, "fhwa/cover-small");
    check(3.1, "fhwa/cover-middle");
    check(4.9, "fhwa/cover-middle");
    check(5.0, "fhwa/cover-large");
}

#[test]
fn a_limit_for_one_fluid_says_nothing_about_another() {
    let set = set("fhwa-aashto-style-1");
    let known = |fluid, water| Conditions::new().with(Topic::Fluid, fluid).with(Topic::Water, water);
    let density = |known, ids: &[&str]| check(&set, "fluid.density.before_concrete", known, ids);
    density(known("mineral", "fresh"), &["fhwa/mineral-density-concrete-fresh"]);
    density(known("mineral", "salt"), &["fhwa/mineral-density-concrete-salt"]);
    density(known("polymer", "fresh"), &["fhwa/polymer-density-concrete-fresh"]);
    density(known("water", "fresh"), &["fhwa/water-density"]);
    density(known("none", "fresh"), &[]);
}

#[test]
fn one_slump_limit_applies_to_each_way_of_placing() {
    let set = set("en1536-style-1");
    let holes = [("dry", &["none"][..]), ("wet", &["mineral", "polymer", "water", "none"][..])];
    for (hole, fluids) in holes {
        for placing in Topic::Placing.words() {
            for fluid in fluids {
                let known = Conditions::new().with(Topic::Hole, hole).with(Topic::Placing, placing);
                let found = set.criteria_for("slump.placing", &known.with(Topic::Fluid, fluid));
                assert_eq!(found.apply.len(), 1, "{hole}, {placing}, {fluid}");
            }
        }
    }
}

/// The practices of small roadside shafts: each of the numbers practitioners state, in the order they state
/// them. [COMMON-PRACTICE]
#[test]
fn the_roadside_set_holds_the_numbers_practitioners_state() {
    let set = set("roadside-common-practice-1");
    let limit = |id: &str| {
        let one = set.get(id).unwrap_or_else(|| panic!("{id}"));
        match one.rule().expect("a rule") {
            Rule::AtMost(limit) | Rule::AtLeast(limit) => match &limit.recipe {
                criteria::Recipe::Printed(printed) => format!("{} {}", printed.text, printed.unit.symbol()),
                other => format!("{other:?}"),
            },
            other => other.word().to_owned(),
        }
    };
    assert_eq!(limit("roadside/utilities-hand-dug"), "4 ft");
    assert_eq!(limit("roadside/surface-casing-above"), "1 ft");
    assert_eq!(limit("roadside/surface-casing-below"), "5 ft");
    assert_eq!(limit("roadside/cage-tied"), "100 %");
    assert_eq!(limit("roadside/sediment-max"), "1 in");
    assert_eq!(limit("roadside/line-tip-start"), "6 in");
    assert_eq!(limit("roadside/line-first-lift"), "10 ft");
    assert_eq!(limit("roadside/slump-until-finished"), "5 in");
    assert_eq!(limit("roadside/form-removal-strength"), "2500 psi");
}

#[test]
fn the_facts_of_a_set_come_in_the_order_of_the_work() {
    for set in shipped() {
        let facts = set.facts();
        assert!(facts.len() > 30, "{}", facts.len());
        let all: Vec<_> = criteria::facts::all().map(|fact| fact.name).collect();
        let places: Vec<_> =
            facts.iter().map(|fact| all.iter().position(|name| *name == fact.name)).collect();
        assert!(places.is_sorted());
    }
}
