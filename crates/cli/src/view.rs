//! A shaft as a command looks at it: its log, the criteria in force, the assessment.

use crate::problem::Problem;
use assess::order::{NoOrder, ToOrder};
use assess::shape::Asked;
use assess::{Assessment, Earlier, NoRules, Rules, assess};
use criteria::SetInForce;
use quantity::Moment;
use record::{Log, Record, ShaftSeal, Supplement};
use std::cell::OnceCell;
use wording::{SealText, Show};

/// A shaft at a time.
pub(crate) struct View<'r> {
    /// Its name.
    pub(crate) shaft: String,
    /// Its log as far as that time.
    pub(crate) log: Log<'r>,
    /// The criteria in force.
    pub(crate) set: SetInForce,
    /// Why none are in force, where that is so.
    pub(crate) no_rules: Option<NoRules>,
    /// Changes of limits that were refused.
    pub(crate) refused: Vec<criteria::RefusedOverride>,
    /// What it means.
    pub(crate) assessment: Assessment<'r>,
    record: &'r Record,
    earlier: OnceCell<Earlier>,
    order: OnceCell<Result<ToOrder, NoOrder>>,
}

impl<'r> View<'r> {
    /// Looks at a shaft, now or at a moment a person named.
    pub(crate) fn of(record: &'r Record, shaft: &str, at: Option<&str>) -> Result<Self, Problem> {
        let whole = Log::of(record, Some(shaft), None);
        let until = crate::moment::moment_of(&whole, at, "--at")?;
        Ok(Self::at(record, shaft, until))
    }

    /// Looks at a shaft at a moment; `None`: when the last thing was seen.
    pub(crate) fn at(record: &'r Record, shaft: &str, until: Option<Moment>) -> Self {
        let log = Log::of(record, Some(shaft), until);
        let at = until.or_else(|| last_of_shaft(&log, shaft)).unwrap_or(Moment::at(0, 0));
        let (set, refused, no_rules) = match Rules::of(&log) {
            Ok(rules) => (rules.set, rules.refused, None),
            Err(why) => (Rules::none(), Vec::new(), Some(why)),
        };
        let assessment = assess(&log, &set, at);
        View {
            shaft: shaft.to_owned(),
            log,
            set,
            no_rules,
            refused,
            assessment,
            record,
            earlier: OnceCell::new(),
            order: OnceCell::new(),
        }
    }

    /// The last seal that the log shows, and what came after it; `None`: it shows none.
    pub(crate) fn supplement(&self) -> Option<Supplement<'r>> {
        let shown = |seal: &ShaftSeal<'_>| self.log.lines.iter().any(|line| line.entry.id == seal.entry.id);
        let seal = self.record.seals(&self.shaft).into_iter().rfind(shown)?;
        Some(self.record.supplement_of(&self.shaft, seal))
    }

    /// Every seal in words, and what came after each.
    pub(crate) fn seals(&self) -> Vec<SealText> {
        wording::seals(self.record, &self.shaft, &self.log, &Show::of_log(&self.log))
    }

    /// What the other shafts of the job teach, looked up when first asked for.
    pub(crate) fn earlier(&self) -> &Earlier {
        self.earlier.get_or_init(|| Earlier::of(self.record, &self.shaft, self.assessment.at))
    }

    /// What to order, or why that cannot be told, reckoned when first asked for.
    pub(crate) fn order(&self) -> &Result<ToOrder, NoOrder> {
        self.order.get_or_init(|| ToOrder::of(Asked::of(&self.log, &self.assessment, self.earlier())))
    }
}

/// When the last thing about this shaft was seen: entries about the whole job do not move it on.
fn last_of_shaft(log: &Log<'_>, shaft: &str) -> Option<Moment> {
    let own = log.lines.iter().filter(|line| line.entry.shaft.as_deref() == Some(shaft));
    own.map(|line| line.at).max().or(log.end())
}
