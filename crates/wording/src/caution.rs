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
    let load = assumed::load_error();
    let percent = |part: f64| show.percent(Fraction::part(part));
    let row = |about, value, how| Assumption { about, value, how };
    vec![
        row(
            "Error of a sounding",
            one_error(assumed::tape_error(), show),
            "Standard error of one reading with a weighted tape. From memory; no published figure was found.",
        ),
        row(
            "Error of a load",
            format!("{} each, {} shared", percent(load.each), percent(load.shared)),
            "Standard error of the volume of a load, and of all loads of a plant and day together. From memory [NRMCA-CIP8].",
        ),
        row(
            "Shortest interval that is read",
            show.length(assumed::least_rise()),
            "A shorter rise between two soundings is named. Common practice, no source.",
        ),
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
        row("Water", show.density(assumed::water_density()), "For heads against groundwater."),
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
            "Embedment and head that are watched",
            show.length(assumed::watched_embedment()),
            "Only where the criteria in force set no limit, so that a forecast can warn. From memory.",
        ),
    ]
}

fn one_error(error: Length, show: &Show) -> String {
    format!("± {}", show.length(error))
}
