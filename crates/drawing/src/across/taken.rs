//! What shafts took over the drawing, by what they have in common: each shaft a dot, together an interval.

use super::AcrossView;
use assess::across::{Spot, Taken, TakenPart};
use figure::{GroupPart, GroupRow, GroupSheet, Scale};
use quantity::units;

/// The words of a group of shafts.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroupWords {
    /// What it belongs to: `By ground`.
    pub heading: String,
    /// What it is: `clay`.
    pub label: String,
    /// Its value: `1.08 (1.04–1.12)`.
    pub beside: String,
}

/// The groups that are told; `None` where there are none.
pub fn taken(
    view: &AcrossView<'_>,
    groups: &[&Taken],
    words: &dyn Fn(&Taken) -> GroupWords,
) -> Option<GroupSheet> {
    let mut before = String::new();
    let row = |taken: &&Taken| {
        let words = words(taken);
        let heading = if words.heading == before { String::new() } else { words.heading.clone() };
        before = words.heading;
        GroupRow {
            heading,
            label: words.label,
            parts: taken.parts.iter().map(|one| part(view, one)).collect(),
            together: taken.together.map(|one| [one.ends[0], one.mean.value, one.ends[1]]),
            beside: words.beside,
        }
    };
    let rows: Vec<GroupRow> = groups.iter().map(row).collect();
    (!rows.is_empty()).then(|| GroupSheet {
        title: "What shafts took over the drawing".to_owned(),
        subtitle: "each dot a shaft; the bar holds the mean nine times in ten".to_owned(),
        reference: Some((1.0, "as drawn".to_owned())),
        rows,
        ..GroupSheet::default()
    })
}

/// The dot of a shaft.
pub(crate) fn part(view: &AcrossView<'_>, one: &TakenPart) -> GroupPart {
    let ratio = one.ratio.value;
    let says = || format!("{}: {}", view.name(&one.place), Scale::of(&units::PART, 2).label(ratio));
    GroupPart { value: ratio, lead: view.lead(&Spot::first(&one.place, &[]), says) }
}
