//! What every drawing starts from: the assessment, the units of the job, the zero of depths.

use assess::{Assessment, Earlier, Finding, Outcome, Subject};
use figure::{Mark, Scale};
use quantity::{Elevation, Moment, units};
use record::choices::JobUnits;
use record::{EntryId, Log};

/// The units of the drawings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scales {
    /// Depths and elevations.
    pub depth: Scale,
    /// Diameters, thicknesses, slumps, offsets.
    pub small: Scale,
    /// Volumes.
    pub volume: Scale,
    /// Densities.
    pub density: Scale,
}

impl Scales {
    /// Feet, inches, cubic yards, pounds.
    pub const US: Scales = Scales {
        depth: Scale::feet(),
        small: Scale::inches(),
        volume: Scale::cubic_yards(),
        density: Scale::of(&units::POUND_PER_CUBIC_FOOT, 1),
    };
    /// Metres, millimetres, cubic metres.
    pub const METRIC: Scales = Scales {
        depth: Scale::meters(),
        small: Scale::millimeters(),
        volume: Scale::cubic_meters(),
        density: Scale::of(&units::GRAM_PER_CUBIC_CENTIMETER, 3),
    };
}

/// A shaft as the drawings look at it.
#[derive(Clone, Copy)]
pub struct View<'v, 'r> {
    /// Name of the shaft.
    pub shaft: &'v str,
    /// Its log.
    pub log: &'v Log<'r>,
    /// What it means.
    pub assessment: &'v Assessment<'r>,
    /// The other shafts of the job, for the estimated shape.
    pub earlier: &'v Earlier,
}

impl<'v> View<'v, '_> {
    /// The units of the job; metric where no job was opened.
    pub fn scales(&self) -> Scales {
        match self.assessment.picture.job.map(|job| job.units) {
            Some(JobUnits::Us) => Scales::US,
            _ => Scales::METRIC,
        }
    }

    /// The elevation depths are measured from: the reference in force at the end, else ground or top.
    pub(crate) fn zero(&self) -> Option<Elevation> {
        self.assessment.picture.references.in_force(None, self.assessment.at).map(|(level, _)| level)
    }

    /// What depth zero is called.
    pub(crate) fn zero_label(&self) -> String {
        self.assessment.picture.references.name(self.assessment.at).unwrap_or("ground").to_owned()
    }

    /// A level as metres below zero.
    pub(crate) fn depth_m(&self, level: Elevation) -> Option<f64> {
        Some(self.zero()?.above(level).to_meters())
    }

    /// `Shaft S-2: section`.
    pub(crate) fn title(&self, what: &str) -> String {
        format!("Shaft {}: {what}", self.shaft)
    }

    /// `4 May 2026, 14:10`.
    pub(crate) fn moment(&self, at: Moment) -> String {
        format!("{} {}, {}", at.day(), at.local().year(), at.clock())
    }

    /// The findings of a fact.
    pub(crate) fn findings(&self, fact: &'static str) -> impl Iterator<Item = &'v Finding> {
        self.assessment.findings.iter().filter(move |finding| finding.fact.name == fact)
    }

    /// The mark of a fact of the whole shaft.
    pub(crate) fn mark(&self, fact: &'static str) -> Mark {
        worst(self.findings(fact))
    }

    /// The mark of a fact for one subject.
    pub(crate) fn mark_of(&self, fact: &'static str, subject: &Subject) -> Mark {
        worst(self.findings(fact).filter(|finding| finding.subject == *subject))
    }

    /// The mark of everything that rests on an entry.
    pub(crate) fn mark_on(&self, entry: EntryId, facts: impl Fn(&str) -> bool) -> Mark {
        worst(self.assessment.findings.iter().filter(|f| facts(f.fact.name) && f.evidence.contains(&entry)))
    }

    /// The strictest limits of a fact, in SI: low and high.
    pub(crate) fn limits(&self, fact: impl Fn(&str) -> bool) -> (Option<f64>, Option<f64>) {
        let of = self.assessment.findings.iter().filter(|finding| fact(finding.fact.name));
        let limits: Vec<_> = of.filter_map(|finding| finding.judgement.limits).collect();
        let low =
            limits.iter().filter_map(|limits| limits.low).map(quantity::Number::to_f64).reduce(f64::max);
        let high =
            limits.iter().filter_map(|limits| limits.high).map(quantity::Number::to_f64).reduce(f64::min);
        (low, high)
    }
}

/// The mark of the outcome that matters most.
pub(crate) fn worst<'f>(findings: impl Iterator<Item = &'f Finding>) -> Mark {
    findings.min_by_key(|finding| finding.outcome()).map_or(Mark::NoLimit, mark)
}

/// The mark of a finding.
pub(crate) fn mark(finding: &Finding) -> Mark {
    match finding.outcome() {
        _ if finding.disputed => Mark::Doubtful,
        Outcome::Fails => Mark::Fails,
        Outcome::CannotSay => Mark::Doubtful,
        Outcome::NotMeasured => Mark::NotMeasured,
        Outcome::Meets => Mark::Meets,
        Outcome::NoLimitSet => Mark::NoLimit,
    }
}
