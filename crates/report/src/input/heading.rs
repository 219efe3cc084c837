//! Who, where and when.
//!
//! A page that is torn out of its package must still say which shaft of which job it belongs to.

use quantity::Moment;
use serde::{Serialize, Serializer};

use super::Room;

/// The size of the pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Paper {
    /// 8.5 in × 11 in.
    Letter,
    /// 210 mm × 297 mm.
    A4,
}

impl Paper {
    /// Width and height in points at which a drawing is printed at its own size, so that its letters come
    /// out as large as they were drawn. Another size is placed too, larger or smaller.
    pub const fn points(self, room: Room) -> (f64, f64) {
        let (width, page, sheet) = match self {
            Self::Letter => (515.0, 600.0, 460.0),
            Self::A4 => (498.0, 640.0, 500.0),
        };
        match room {
            Room::Sheet => (width, sheet),
            Room::Page => (width, page),
            Room::Width => (width, 300.0),
            Room::Half => ((width - 15.0) / 2.0, 240.0),
        }
    }
}

/// The band at the top of page one and the foot of every page.
///
/// Empty texts print as *not recorded*; `job` and `shaft` must not be empty because every page carries them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Heading {
    /// The job as people call it, for example `Mill Creek bridge`.
    pub job: String,
    /// The shaft as the plans call it, for example `P2-3`. In a job summary: `all shafts`.
    pub shaft: String,
    /// The structure or bent.
    pub structure: String,
    /// The owner.
    pub owner: String,
    /// The drilling contractor.
    pub contractor: String,
    /// The inspector or inspectors.
    pub inspector: String,
    /// First and last day of work on this shaft.
    pub dates: String,
    /// The criteria set in force with its edition.
    pub criteria: String,
    /// The moment up to which the record was judged, for example `2026-05-14 18:20 -06:00`.
    pub judged_at: String,
    /// The program and its version.
    pub made_by: String,
}

/// How many criteria stand how.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
pub struct Counts {
    /// Fails.
    pub fails: u32,
    /// Meets, but disputed, late, close to the limit or resting on a limit from memory.
    pub needs_attention: u32,
    /// A limit is set and nothing was measured against it.
    pub not_measured: u32,
    /// Meets.
    pub meets: u32,
    /// No limit is set.
    pub no_limit: u32,
}

/// A group of labelled values, for example everything the plans say about the cage.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FactGroup {
    /// What the group is about.
    pub title: String,
    /// The values.
    pub facts: Vec<Fact>,
}

/// One labelled value.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fact {
    /// What it is.
    pub label: String,
    /// As it was typed; empty means not recorded.
    pub value: String,
}

impl Fact {
    /// A label and its value; an empty value means not recorded.
    pub fn new(label: impl Into<String>, value: impl Into<String>) -> Self {
        Self { label: label.into(), value: value.into() }
    }
}

/// `2026-05-14 18:20 (UTC-06:00)`: the local clock first, because that is what people on the site saw.
pub(super) fn moment_as_text<S: Serializer>(moment: &Moment, serializer: S) -> Result<S::Ok, S::Error> {
    let full = moment.to_string();
    let offset = full.get(full.len().saturating_sub(6)..).unwrap_or_default();
    serializer.collect_str(&format_args!("{} {} (UTC{offset})", moment.date(), moment.clock()))
}
