//! A made-up job of several shafts: earlier ones in the same ground, poured without trouble on the days before, and the
//! shaft of the day.
//!
//! A first shaft has nothing to learn from. Whoever wants to see what a job's earlier shafts say of the next order
//! needs some.
//!
//! Words: *campaign* = shafts of one job in the order they are poured.
//! Never: let a trouble of the day reach the shafts before it.

use record::rehearsal::key_of;

use super::{Chosen, Day, Place, Said, Unmade, Which, day_word};
use crate::scenario::Scenario;

/// The shafts before the one of the day.
const EARLIER: [Place; 2] =
    [Place { shaft: "R-1", east: 0, days_before: 2 }, Place { shaft: "R-2", east: 1, days_before: 1 }];

/// The shaft of the day.
const LAST: Place = Place { shaft: "R-3", east: 2, days_before: 0 };

/// What the seed of an earlier shaft is off by, so that no two holes are alike.
const SEED_STEP: u64 = 1_000_003;

/// A made-up job of several shafts.
#[derive(Debug, Clone, PartialEq)]
pub struct Campaign {
    /// The key of the job: a rehearsal by its form, and another than that of the day alone.
    pub job: String,
    /// The shaft of the day.
    pub shaft: &'static str,
    /// Everything written, of all shafts, in order of time.
    pub said: Vec<Said>,
    /// The day and its truth.
    pub day: Day,
}

impl Campaign {
    /// A day, after two clean ones in the same ground. The papers of the job are written once, on the first day.
    ///
    /// # Errors
    /// As for [`Day::of`].
    pub fn of(which: Which, chosen: Option<&Chosen>) -> Result<Self, Unmade> {
        let Which { seed, scenario, system } = which;
        let mut said = Vec::new();
        for (place, step) in EARLIER.into_iter().zip(1_u64..) {
            let seed = seed.wrapping_add(step.wrapping_mul(SEED_STEP));
            let clean = Which { seed, scenario: Scenario::Clean, system };
            let day = Day::at(place, clean, chosen, &[])?;
            let first = said.is_empty();
            said.extend(day.said.into_iter().filter(|one| first || one.shaft.is_some()));
        }
        let day = Day::at(LAST, which, chosen, &[])?;
        said.extend(day.said.iter().filter(|one| one.shaft.is_some()).cloned());
        // What was written at one time stays in the order written.
        said.sort_by_key(|one| one.observed_at.seconds());
        let job = key_of(&format!("{}-third", day_word(scenario.word(), system)), seed);
        Ok(Campaign { job, shaft: LAST.shaft, said, day })
    }
}
