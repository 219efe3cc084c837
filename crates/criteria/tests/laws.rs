//! Laws that hold for every value, and for every file however damaged.

use criteria::{Measure, Measured, Override, Set, Situation, Verdict};
use proptest::prelude::*;
use quantity::{Kind, Number};

fn set(rule: &str, limit: &str) -> criteria::SetInForce {
    let text = format!(
        "[set]\nid = \"x\"\ntitle = \"x\"\nedition = \"1\"\nabout = \"x\"\n[[criterion]]\nid = \"x/one\"\n\
         title = \"x\"\nmeasures = \"bottom.sediment.max\"\nstage = \"before_concrete\"\nrule = \"{rule}\"\n\
         limit = \"{limit}\"\nunit = \"mm\"\nsure = \"job\"\nwhy = \"x\"\nif_fails = \"x\"\n"
    );
    Set::parse(&text).expect("the file of the test").in_force(&[]).0
}

fn judged(rule: &str, limit: &str, value: Measured) -> Verdict {
    set(rule, limit).judge("bottom.sediment.max", Some(value), &Situation::default())[0].1.verdict.clone()
}

fn millimeters(thousandths: i64) -> String {
    let sign = if thousandths < 0 { "-" } else { "" };
    format!("{sign}{}.{:03}", thousandths.abs() / 1000, thousandths.abs() % 1000)
}

fn meets(verdict: &Verdict) -> bool {
    matches!(verdict, Verdict::Meets { .. })
}

/// How far the value lies from the limit, in thousandths of a millimetre.
fn gap(verdict: &Verdict) -> Option<i64> {
    match verdict {
        Verdict::Meets { margin: Some(gap) } | Verdict::Fails { excess: Some(gap), .. } => {
            Some((gap.in_unit() * 1000.0).round() as i64)
        }
        _ => None,
    }
}

proptest! {
    #[test]
    fn what_was_typed_is_compared_as_whole_numbers_are(limit in 0..1_000_000_i64, value in 0..1_000_000_i64) {
        let typed = Measured::read(Measure::Amount(Kind::Length), &millimeters(value), "mm").unwrap();
        let most = judged("at_most", &millimeters(limit), typed);
        let least = judged("at_least", &millimeters(limit), typed);
        prop_assert_eq!(meets(&most), value <= limit);
        prop_assert_eq!(meets(&least), value >= limit);
        prop_assert_eq!(gap(&most), Some((value - limit).abs()));
        prop_assert_eq!(meets(&judged("below", &millimeters(limit), typed)), value < limit);
        prop_assert_eq!(meets(&judged("above", &millimeters(limit), typed)), value > limit);
    }

    #[test]
    fn a_computed_value_decides_like_a_typed_one_away_from_the_limit(
        limit in 1..1_000_000_i64,
        value in 1..1_000_000_i64,
    ) {
        prop_assume!(limit != value);
        let computed = Measured::Amount(Kind::Length, Number::computed(value as f64 / 1e6));
        prop_assert_eq!(meets(&judged("at_most", &millimeters(limit), computed)), value < limit);
    }

    #[test]
    fn the_order_of_overrides_of_different_criteria_does_not_matter(turned in any::<[bool; 37]>()) {
        let set = Set::shipped("roadside-common-practice-1").unwrap();
        let mut changes: Vec<_> = set.criteria.iter().zip(turned).filter(|(_, off)| *off).map(|(one, _)| Override {
            criterion: one.id.clone(),
            change: criteria::Change::TurnedOff,
            reason: "not in this contract".to_owned(),
            who: "R. Okafor".to_owned(),
        }).collect();
        let forward = set.in_force(&changes);
        changes.reverse();
        prop_assert_eq!(forward, set.in_force(&changes));
    }

    #[test]
    fn a_damaged_file_is_an_error_with_a_line_and_never_a_panic(
        at in 0..4000_usize,
        cut in 0..40_usize,
        put in "[\"=\\[\\]{}#a-z0-9/ .\n-]{0,12}",
    ) {
        let (_, text) = criteria::SHIPPED[2];
        let good: String = text.chars().take(4000).collect();
        let mut damaged: Vec<char> = good.chars().collect();
        let at = at.min(damaged.len());
        let end = (at + cut).min(damaged.len());
        damaged.splice(at..end, put.chars());
        let damaged: String = damaged.into_iter().collect();
        let lines = damaged.lines().count() + 1;
        if let Err(problems) = Set::parse(&damaged) {
            prop_assert!(!problems.is_empty());
            for problem in problems {
                prop_assert!(problem.line >= 1 && problem.line <= lines, "{problem}");
                prop_assert!(!problem.expected.is_empty(), "{problem}");
            }
        }
    }
}
