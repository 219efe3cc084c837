//! What many shafts show, as the plain data of the figures: trends, hours, concrete.
//!
//! Every mark carries the way to the entry it was made of, in the words of whoever asks: the app gives addresses of its
//! screens, a file on disk gives none.
//!
//! Never: leave a shaft out without saying how many; add up what nobody wrote.

mod bars;
mod taken;
mod trends;

pub use bars::{concrete, hours};
pub use taken::{GroupWords, taken};
pub use trends::{fluid, fresh};

use crate::view::Scales;
use assess::across::{Across, Place, Spot};
use figure::Lead;
use std::collections::BTreeSet;

/// Many shafts as the drawings look at them.
#[derive(Clone, Copy)]
pub struct AcrossView<'v> {
    /// What they show together.
    pub across: &'v Across,
    scales: Scales,
    /// The address of an entry or a shaft; empty where it leads nowhere.
    leads: &'v dyn Fn(&Spot) -> String,
    /// They are of several jobs, so a shaft is named with its job.
    several: bool,
}

impl<'v> AcrossView<'v> {
    /// Looks at many shafts in the units of a job.
    pub fn new(across: &'v Across, scales: Scales, leads: &'v dyn Fn(&Spot) -> String) -> Self {
        let jobs: BTreeSet<&str> = across.shafts.iter().map(|shaft| shaft.job.as_str()).collect();
        AcrossView { across, scales, leads, several: jobs.len() > 1 }
    }

    /// A shaft by its name, and by its job where there are several.
    pub fn name(&self, place: &Place) -> String {
        if self.several { format!("{} {}", place.job, place.shaft) } else { place.shaft.clone() }
    }

    /// Where a mark leads, and what it says.
    pub fn lead(&self, spot: &Spot, says: impl FnOnce() -> String) -> Lead {
        let to = (self.leads)(spot);
        let says = if to.is_empty() { String::new() } else { says() };
        Lead { to, says }
    }

    /// Where the name of a shaft leads.
    fn lead_to_shaft(&self, place: &Place) -> Lead {
        let spot = Spot { place: place.clone(), entry: None };
        self.lead(&spot, || format!("Shaft {}", self.name(place)))
    }
}
