//! A shaft as one screen looks at it: its log, the criteria in force, one assessment shared by all parts.
//!
//! Everything on a screen comes from the same moment and the same reckoning, so no two figures on it can
//! contradict each other.
//!
//! Never: assess twice for one screen.

use crate::entry::stage::Stage;
use assess::day::{DAYS_LIVE, RestOfPour};
use assess::order::{NoOrder, ToOrder};
use assess::shape::{Asked, Shape};
use assess::{Assessment, Earlier, Finding, NoRules, Rules, Subject, assess};
use criteria::{RefusedOverride, SetInForce};
use quantity::{Gather, Moment};
use record::{EntryId, Held, Log, Record};
use std::cell::OnceCell;
use std::collections::BTreeMap;
use wording::Show;

/// Entries dated ahead by more than this are told of. Our own choice.
const AHEAD_SECONDS: i64 = 5 * 60;

/// A shaft at a moment.
pub(crate) struct Looked<'r> {
    pub(crate) record: &'r Record,
    pub(crate) shaft: &'r str,
    pub(crate) at: Moment,
    pub(crate) log: Log<'r>,
    pub(crate) set: SetInForce,
    pub(crate) no_rules: Option<NoRules>,
    pub(crate) refused: Vec<RefusedOverride>,
    pub(crate) show: Show,
    pub(crate) assessment: Assessment<'r>,
    /// Shape, order and the played day are left for a second look, and the other shafts of the job with them.
    pub(crate) estimates_wait: bool,
    times: BTreeMap<EntryId, Moment>,
    earlier: OnceCell<Earlier>,
    order: OnceCell<Result<ToOrder, NoOrder>>,
    rest: OnceCell<Option<RestOfPour>>,
    shape: OnceCell<Option<Shape>>,
}

impl<'r> Looked<'r> {
    /// Looks at a shaft at a moment.
    pub(crate) fn at(record: &'r Record, shaft: &'r str, at: Moment) -> Self {
        let log = Log::of(record, Some(shaft), Some(at));
        let (set, refused, no_rules) = match Rules::of(&log) {
            Ok(rules) => (rules.set, rules.refused, None),
            Err(why) => (Rules::none(), Vec::new(), Some(why)),
        };
        let assessment = assess(&log, &set, at);
        let show = Show::of_log(&log).on_day_of(at);
        let times = log.lines.iter().map(|line| (line.entry.id, line.at)).into_map();
        Looked {
            times,
            record,
            shaft,
            at,
            log,
            set,
            no_rules,
            refused,
            show,
            assessment,
            estimates_wait: false,
            earlier: OnceCell::new(),
            order: OnceCell::new(),
            rest: OnceCell::new(),
            shape: OnceCell::new(),
        }
    }

    /// The same without the estimates, which take longer than all the rest.
    pub(crate) fn briefly(self) -> Self {
        Looked { estimates_wait: true, ..self }
    }

    /// What the other shafts of the job teach, looked up when first asked for.
    pub(crate) fn earlier(&self) -> &Earlier {
        let earlier = || Earlier::of(self.record, self.shaft, self.at);
        self.earlier.get_or_init(|| if self.estimates_wait { Earlier::none() } else { earlier() })
    }

    /// What to order, reckoned when first asked for; `None` when nothing is to be ordered or it cannot be told.
    pub(crate) fn order(&self) -> Option<&ToOrder> {
        if self.estimates_wait { None } else { self.order_or_why().as_ref().ok() }
    }

    fn order_or_why(&self) -> &Result<ToOrder, NoOrder> {
        self.order.get_or_init(|| ToOrder::of(Asked::of(&self.log, &self.assessment, self.earlier())))
    }

    /// How the rest of the pour may go, played when first asked for.
    pub(crate) fn rest_of_pour(&self) -> Option<&RestOfPour> {
        if self.estimates_wait {
            return None;
        }
        let how = (self.order_or_why(), DAYS_LIVE);
        let rest = || RestOfPour::of(&self.log, &self.assessment, &self.set, how).ok();
        self.rest.get_or_init(rest).as_ref()
    }

    /// The estimated shape, for losses of the heights this job thinks in, reckoned when first asked for.
    pub(crate) fn shape(&self) -> Option<&Shape> {
        let asked = || Asked::of(&self.log, &self.assessment, self.earlier());
        let shape = || Shape::of(asked(), wording::heights(&self.show)).ok();
        self.shape.get_or_init(|| if self.estimates_wait { None } else { shape() }).as_ref()
    }

    /// The findings of a fact.
    pub(crate) fn findings(&self, fact: &str) -> impl Iterator<Item = &Finding> {
        self.assessment.findings.iter().filter(move |finding| finding.fact.name == fact)
    }

    /// The findings of a fact about one subject.
    pub(crate) fn findings_of(&self, fact: &str, subject: &Subject) -> impl Iterator<Item = &Finding> {
        self.findings(fact).filter(move |finding| finding.subject == *subject)
    }

    /// When the last of some entries was seen.
    pub(crate) fn last_of(&self, entries: &[EntryId]) -> Option<i64> {
        entries.iter().filter_map(|id| self.times.get(id)).max().map(|at| at.seconds())
    }

    /// The stage of the work.
    pub(crate) fn stage(&self) -> Stage {
        Stage::of(&self.log, &self.assessment.picture)
    }

    /// Entries that are dated well after the moment looked at, and so stand nowhere on the screen. Clocks of
    /// two devices may differ by a little; that is no news.
    pub(crate) fn ahead(&self) -> usize {
        let ours = |held: &&Held| held.shaft().is_none_or(|shaft| shaft == self.shaft);
        let limit = self.at.plus_seconds(AHEAD_SECONDS);
        let later = |held: &&Held| matches!(held, Held::Known(entry) if entry.observed_at > limit);
        self.record.entries().filter(ours).filter(later).count()
    }
}

/// Entry ids as a screen keeps them: the whole id, so that an entry can be opened by it.
pub(crate) fn ids(entries: &[EntryId]) -> Vec<String> {
    entries.iter().map(ToString::to_string).collect()
}
