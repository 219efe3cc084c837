//! What goes wrong on a made-up day.
//!
//! Each scenario changes one thing of a clean day, in the truth or in what is written, so that what the
//! tool says of it can be told from what it says of a clean one.

use record::field::UnitSystem;

use crate::chance::Chance;

/// One made-up day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Scenario {
    /// Nothing goes wrong.
    Clean,
    /// Soft clay squeezes in while the hole stands: a stretch of shaft is narrower than drilled.
    NeckInSoftClay,
    /// A pocket of sand falls out before the concrete comes.
    Cavity,
    /// A foot of loose sand washes out.
    LooseSandSeam,
    /// The concrete comes hours late, and sand settles on the cleaned bottom.
    SedimentAfterWaiting,
    /// The crane takes the tremie up too far.
    TremiePulledTooFar,
    /// A truck is stuck on the road; its concrete is old and the pour stands still.
    LateTruck,
    /// The casing does not come until the first concrete is stiff.
    CasingStuck,
    /// The cage rises with the concrete.
    CageLifting,
    /// A load comes with a ticket of another mix.
    WrongTicket,
    /// The tape is read ten feet wrong, once.
    MisreadTape,
    /// The fluid carries too much sand when the concrete comes.
    FluidOutOfLimits,
}

/// A scenario with its word and its story.
struct Row {
    scenario: Scenario,
    word: &'static str,
    story: &'static str,
    /// The same of a metric day, where it names a measure.
    metric: Option<&'static str>,
}

const ROWS: &[Row] = &[
    Row { scenario: Scenario::Clean, word: "clean", story: "Nothing goes wrong.", metric: None },
    Row {
        scenario: Scenario::NeckInSoftClay,
        word: "neck",
        story: "The soft clay squeezes in before the concrete comes: a third of the section is gone over several feet.",
        metric: Some(
            "The soft clay squeezes in before the concrete comes: a third of the section is gone over two metres.",
        ),
    },
    Row {
        scenario: Scenario::Cavity,
        word: "cavity",
        story: "A pocket of sand falls out of the wall before the concrete comes.",
        metric: None,
    },
    Row {
        scenario: Scenario::LooseSandSeam,
        word: "seam",
        story: "A foot of loose sand washes out of the wall.",
        metric: Some("A thin seam of loose sand washes out of the wall, a hand or two high."),
    },
    Row {
        scenario: Scenario::SedimentAfterWaiting,
        word: "sediment",
        story: "The concrete comes hours late, and sand settles on the bottom that was cleaned and accepted.",
        metric: None,
    },
    Row {
        scenario: Scenario::TremiePulledTooFar,
        word: "tremie",
        story: "After the third load the crane takes the tremie up one piece too far.",
        metric: Some("After the third load the crane takes the tremie up two pieces too far."),
    },
    Row {
        scenario: Scenario::LateTruck,
        word: "late-truck",
        story: "The fourth truck is stuck on the road; its concrete is old when it comes, and the pour stands still.",
        metric: None,
    },
    Row {
        scenario: Scenario::CasingStuck,
        word: "casing-stuck",
        story: "The casing does not come until hours after the last load, and the first concrete is stiff by then.",
        metric: None,
    },
    Row {
        scenario: Scenario::CageLifting,
        word: "cage",
        story: "The cage rises with the concrete, eight inches.",
        metric: Some("The cage rises with the concrete, by 20 centimetres."),
    },
    Row {
        scenario: Scenario::WrongTicket,
        word: "wrong-ticket",
        story: "The third load comes with the ticket of a leaner mix.",
        metric: None,
    },
    Row {
        scenario: Scenario::MisreadTape,
        word: "misread-tape",
        story: "After the third load the tape is read ten feet wrong.",
        metric: Some("After the third load the tape is read three metres wrong."),
    },
    Row {
        scenario: Scenario::FluidOutOfLimits,
        word: "fluid",
        story: "The fluid carries three percent of sand when the concrete comes.",
        metric: Some("The fluid carries five percent of sand when the concrete comes."),
    },
];

impl Scenario {
    /// Every scenario.
    pub fn all() -> impl Iterator<Item = Scenario> {
        ROWS.iter().map(|row| row.scenario)
    }

    /// The word it is asked for by.
    pub fn word(self) -> &'static str {
        self.row().word
    }

    /// What happens, in one sentence: the truth, not for the eyes of a trainee.
    pub fn story(self, system: UnitSystem) -> &'static str {
        let row = self.row();
        row.metric.filter(|_| system == UnitSystem::Metric).unwrap_or(row.story)
    }

    /// The scenario of a word; `None` when there is none.
    pub fn of_word(word: &str) -> Option<Scenario> {
        ROWS.iter().find(|row| row.word == word).map(|row| row.scenario)
    }

    /// Every scenario a trainee can be given. Who reads the tape alone misreads it alone: that day has
    /// nothing to practise on.
    pub fn for_practice() -> impl Iterator<Item = Scenario> {
        Scenario::all().filter(|scenario| *scenario != Scenario::MisreadTape)
    }

    /// The scenario that a day of a number has, where nobody chose one.
    pub fn of_number(number: u64) -> Scenario {
        let all: Vec<Scenario> = Scenario::for_practice().collect();
        all[Chance::of_topic(number, "scenario").whole([0, all.len() - 1])]
    }

    /// The facts by which an assessment can show it, by their names; none where nothing goes wrong, the readings
    /// of the day cannot show it, or the criteria of the day hold no limit for it.
    pub fn signs(self, system: UnitSystem) -> &'static [&'static str] {
        match system {
            UnitSystem::Us => self.signs_us(),
            UnitSystem::Metric => self.signs_metric(),
        }
    }

    /// Whether no criterion of a metric day is about it: its limits stand in the papers of each job.
    pub fn has_no_limit(self, system: UnitSystem) -> bool {
        let unlimited = matches!(self, Scenario::SedimentAfterWaiting | Scenario::CageLifting);
        unlimited && system == UnitSystem::Metric
    }

    fn signs_metric(self) -> &'static [&'static str] {
        match self {
            Scenario::FluidOutOfLimits => &["fluid.sand.before_concrete"],
            one if one.has_no_limit(UnitSystem::Metric) => &[],
            one => one.signs_us(),
        }
    }

    fn signs_us(self) -> &'static [&'static str] {
        match self {
            Scenario::Clean | Scenario::LooseSandSeam => &[],
            Scenario::NeckInSoftClay | Scenario::Cavity => &["volume.departure"],
            Scenario::MisreadTape => &["volume.departure", "line.embedment.least"],
            Scenario::SedimentAfterWaiting => &["bottom.sediment.max", "bottom.sediment.half_area"],
            Scenario::TremiePulledTooFar => &["line.embedment.least"],
            Scenario::LateTruck => &["concrete.batch_to_discharge", "slump.placing"],
            Scenario::CasingStuck => &["slump.until_finished"],
            Scenario::CageLifting => &["cage.top_deviation.after_pour"],
            Scenario::WrongTicket => &["concrete.water_cement", "concrete.cement_content"],
            Scenario::FluidOutOfLimits => &["fluid.sand.before_concrete", "fluid.within_limits_for_concrete"],
        }
    }

    fn row(self) -> &'static Row {
        ROWS.iter().find(|row| row.scenario == self).unwrap_or(&ROWS[0])
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_days_of_forty_numbers_have_every_scenario_of_practice() {
        let drawn: std::collections::BTreeSet<Scenario> = (1..=40).map(Scenario::of_number).collect();
        assert_eq!(drawn, Scenario::for_practice().collect());
        assert!(!drawn.contains(&Scenario::MisreadTape));
    }

    #[test]
    fn every_scenario_has_a_word_of_its_own() {
        for scenario in Scenario::all() {
            assert_eq!(Scenario::of_word(scenario.word()), Some(scenario));
            let stories = [UnitSystem::Us, UnitSystem::Metric].map(|system| scenario.story(system));
            assert!(stories.iter().all(|story| !story.is_empty()));
            assert!(
                ![" feet", " inch", " foot"].iter().any(|us| stories[1].contains(us))
                    || stories[1] == stories[0],
                "{stories:?}"
            );
        }
        assert_eq!(Scenario::all().count(), 12);
        assert_eq!(Scenario::of_word("earthquake"), None);
    }
}
