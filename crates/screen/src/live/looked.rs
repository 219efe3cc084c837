//! A shaft as one screen looks at it: its log, the criteria in force, one assessment shared by all parts.
//!
//! Everything on a screen comes from the same moment and the same reckoning, so no two figures on it can
//! contradict each other.
//!
//! Never: assess twice for one screen.

use crate::entry::stage::Stage;
use assess::day::{DAYS_LIVE, RestOfPour};
use assess::order::{NoOrder, ToOrder};
use assess::shape::Asked;
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
    times: BTreeMap<EntryId, Moment>,
    earlier: OnceCell<Earlier>,
    order: OnceCell<Result<ToOrder, NoOrder>>,
    rest: OnceCell<Option<RestOfPour>>,
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
            earlier: OnceCell::new(),
            order: OnceCell::new(),
            rest: OnceCell::new(),
        }
    }

    /// What the other shafts of the job teach, looked up when first asked for.
    pub(crate) fn earlier(&self) -> &Earlier {
        self.earlier.get_or_init(|| Earlier::of(self.record, self.shaft, self.at))
    }

    /// What to order, reckoned when first asked for; `None` when nothing is to be ordered or it cannot be told.
    pub(crate) fn order(&self) -> Option<&ToOrder> {
        self.order_or_why().as_ref().ok()
    }

    fn order_or_why(&self) -> &Result<ToOrder, NoOrder> {
        self.order.get_or_init(|| ToOrder::of(Asked::of(&self.log, &self.assessment, self.earlier())))
    }

    /// How the rest of the pour may go, played when first asked for.
    pub(crate) fn rest_of_pour(&self) -> Option<&RestOfPour> {
        let how = (self.order_or_why(), DAYS_LIVE);
        let rest = || RestOfPour::of(&self.log, &self.assessment, &self.set, how).ok();
        self.rest.get_or_init(rest).as_ref()
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
