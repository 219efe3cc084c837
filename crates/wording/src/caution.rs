//! Cautions where the danger is, and what was assumed where the record is silent.
//!
//! Never: replace the law, the contract, or the judgement of a licensed person.

use crate::show::Show;
use assess::assumed;
use quantity::{Fraction, Length};

/// A caution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Caution {
    /// The danger.
    pub danger: &'static str,
    /// What to heed.
    pub text: &'static str,
}

/// What the program assumed because the record is silent.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Assumption {
    /// What it is about.
    pub about: &'static str,
    /// The value assumed.
    pub value: String,
    /// Where it comes from, and what it is used for.
    pub how: &'static str,
}

const CAUTIONS: &[Caution] = &[
    Caution {
        danger: "Whose word counts",
        text: "This record advises. The contract documents govern and the engineer decides. Local law, the \
               contract and the judgement of licensed people come before anything printed here.",
    },
    Caution {
        danger: "Open hole",
        text: "Keep the hole covered or guarded whenever nobody works at it. Stand back from an edge that may \
               give way, and be tied off where the local rules ask for it.",
    },
    Caution {
        danger: "Inside a shaft",
        text: "Nobody enters a shaft to inspect, to clean or to fetch something. Air, water and wall can kill \
               in a minute; entry is only for trained people under the local rules for confined spaces.",
    },
    Caution {
        danger: "Overhead lines",
        text: "Keep rig, crane, cage and tremie away from overhead lines by the distance the local rules and \
               the owner of the line ask for. Treat every line as live.",
    },
    Caution {
        danger: "Utilities",
        text: "Have buried lines located and marked, and dig by hand to find them before the machine drills. \
               Stop at anything unexpected.",
    },
    Caution {
        danger: "Lifting the cage",
        text: "Stand clear of a cage, a casing or a line that hangs. Nobody walks under it, nobody reaches \
               under it while it is spliced.",
    },
    Caution {
        danger: "Hoses under pressure",
        text: "A pump line can whip when it is blocked or breaks. Stay away from its end and its joints while \
               it is under pressure or being cleaned.",
    },
    Caution {
        danger: "Wet concrete and fluids",
        text: "Wet concrete burns skin and eyes, hours after it was felt. Wear gloves, boots and goggles, and \
               wash at once with clean water. Read the sheet of each drilling fluid product.",
    },
];

/// The cautions every package carries.
pub fn cautions() -> &'static [Caution] {
    CAUTIONS
}

/// Everything that was assumed, in the units of the job.
pub fn assumptions(show: &Show) -> Vec<Assumption> {
    let mut all = of_readings(show);
    all.extend(of_materials(show));
    all.extend(crate::assumed_day::of_pour(show));
    all
}

/// A row of the list.
pub(crate) fn row(about: &'static str, value: String, how: &'static str) -> Assumption {
    Assumption { about, value, how }
}

/// How far readings are trusted.
fn of_readings(show: &Show) -> Vec<Assumption> {
    let load = assumed::load_error();
    let percent = |part: f64| show.percent(Fraction::part(part));
    vec![
        row(
            "Error of a sounding",
            one_error(assumed::tape_error(), show),
            "Standard error of one reading with a weighted tape. From memory; no published figure was found.",
        ),
        row(
            "Error of a load",
            format!("{} each, {} shared", percent(load.each), percent(load.shared)),
            "Standard error of the volume of a load, and of all loads of a plant and day together. From memory [NRMCA-CIP-8].",
        ),
        row(
            "Shortest interval that is read",
            show.length(assumed::least_rise()),
            "A shorter rise between two soundings is named. Common practice, no source.",
        ),
        row(
            "Shorter interval that is read all the same",
            format!("{} standard errors off the rest of its shaft", show.plain(assumed::unmistakable(), 0)),
            "Then no error of tape and tickets makes it so; a sounding may be misread. Judgement; there is no source.",
        ),
        row(
            "Loss of area that the estimated shape tells as a possible neck",
            format!(
                "{}, from a probability of {} on",
                show.percent(assumed::neck_share()),
                show.ratio(assumed::neck_told_from())
            ),
            "It is only told, never judged. Judgement; there is no source.",
        ),
        row(
            "Stretch that the estimated shape tells as wide",
            format!("{} times the ratio of the shaft", show.ratio(assumed::wide_beyond())),
            "It is only told, never judged, and its whole band lies beyond. Judgement; there is no source.",
        ),
        row(
            "Stretch that the estimated shape tells as having taken less",
            format!("{} times the ratio of the shaft", show.ratio(assumed::less_below())),
            "It is only told, never judged, and its whole band lies below. Judgement; there is no source.",
        ),
        row(
            "Error of a slump test",
            show.small(assumed::slump_test_error()),
            "Standard error of one test. Common practice, no source.",
        ),
        row(
            "Slump from load to load",
            show.small(assumed::slump_between_loads()),
            "Scatter of one mix. Common practice, no source.",
        ),
        row(
            "Error of a mud balance",
            format!("± {}", show.density(assumed::balance_error())),
            "Its accuracy as printed [ASTM-D4380].",
        ),
        row(
            "Error of a sand tube",
            format!("± {}", show.percent(assumed::sand_error())),
            "About a division of its scale. Common practice, no source.",
        ),
        row(
            "Readings of one time",
            show.span(assumed::same_time()),
            "Two sensors read this close together are compared. Our own choice.",
        ),
    ]
}

/// What stands in for what nobody measured, and what is looked at ahead.
fn of_materials(show: &Show) -> Vec<Assumption> {
    let (activation, porosity) = (assumed::activation(), assumed::sediment_porosity());
    vec![
        row(
            "Concrete",
            show.density(assumed::concrete_density()),
            "Where no unit weight was measured. Common practice, no source.",
        ),
        row(
            "Drilling fluid",
            show.density(assumed::fluid_density()),
            "Where no density was measured: taken as water.",
        ),
        row(
            "Embedment and head that are watched",
            show.length(assumed::watched_embedment()),
            "Only where the criteria in force set no limit, so that a forecast can warn. From memory.",
        ),
        row(
            "Lift of a casing that is reckoned ahead",
            show.length(assumed::watched_lift()),
            "For the concrete to add before the next lift. Common practice, no source.",
        ),
        row("Water", show.density(assumed::water_density()), "For heads against groundwater."),
        row(
            "Voids of settled sand",
            show.percent(porosity),
            "For the sediment that would lie on the base if all sand fell. Common practice, no source.",
        ),
        row(
            "Temperature below which concrete does not harden",
            show.temperature(assumed::maturity_datum()),
            "For the temperature-time factor. From memory [ASTM-C1074]; the mix itself has to be tested.",
        ),
        row(
            "Constants of an equivalent age",
            format!("{} K, {}", show.plain(activation.q_kelvin, 0), show.temperature(activation.reference)),
            "Suggested for Type I cement. From memory [ASTM-C1074].",
        ),
        row(
            "How long a fluid counts as new",
            show.span(assumed::fluid_is_new_for()),
            "It is tested by the shorter interval for so long. From memory [FHWA-NHI-10-016]; until samples of \
             tank and bottom agree, which needs a person.",
        ),
    ]
}

fn one_error(error: Length, show: &Show) -> String {
    format!("± {}", show.length(error))
}

#[cfg(test)]
mod tests {
    /// The source of the assumptions: each of them has to be told.
    const ASSUMED: &str = include_str!("../../assess/src/assumed.rs");

    #[test]
    fn everything_that_was_assumed_is_told() {
        let told = concat!(include_str!("caution.rs"), include_str!("assumed_day.rs"));
        let names = ASSUMED.lines().filter_map(|line| line.strip_prefix("pub fn ")?.split('(').next());
        let names: Vec<&str> = names.collect();
        assert!(names.len() > 9);
        for name in names {
            assert!(told.contains(&format!("assumed::{name}(")), "`{name}` is assumed and told nowhere");
        }
    }
}
