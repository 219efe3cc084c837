//! What the shafts of a job show together: lines to read, and a drawing of what they took.
//!
//! Never: compare crews in a drawing without their intervals.

use super::drawing::changeable;
use super::looked::Looked;
use assess::across::{Across, Taken};
use figure::{GroupRow, GroupSheet, groups_svg};
use quantity::Moment;
use record::Record;
use wording::AcrossSection;

/// What the shafts of a job show together, at a moment.
#[derive(Debug, Clone, PartialEq)]
pub struct AcrossScreen {
    /// Lines under headings.
    pub sections: Vec<AcrossSection>,
    taken: GroupSheet,
}

/// What the shafts of a job show together, at a moment.
pub fn across(record: &Record, at: Moment) -> AcrossScreen {
    let whole = Looked::at(record, "", at);
    let across = Across::of(&[record], at);
    let sections = wording::across(&across, &whole.show);
    AcrossScreen { taken: sheet(&across, &sections), sections }
}

impl AcrossScreen {
    /// What was taken, drawn as wide as asked; empty where nothing was.
    pub fn drawing(&self, width: f64) -> String {
        if self.taken.rows.is_empty() {
            return String::new();
        }
        changeable(&groups_svg(&self.taken, self.taken.size(width)))
    }
}

fn sheet(across: &Across, sections: &[AcrossSection]) -> GroupSheet {
    let lines =
        sections.iter().find(|section| section.word == "taken").map_or(&[][..], |section| &section.lines);
    let mut group = "";
    let row = |(taken, line): (&Taken, &wording::AcrossLine)| {
        let heading = if line.group == group { String::new() } else { line.group.to_owned() };
        group = line.group;
        GroupRow {
            heading,
            label: line.label.clone(),
            parts: taken.parts.iter().map(|part| part.ratio.value).collect(),
            together: taken.together.map(|one| [one.ends[0], one.mean.value, one.ends[1]]),
            beside: line.value.clone(),
        }
    };
    GroupSheet {
        title: "What shafts took over the drawing".to_owned(),
        subtitle: "each shaft a dot; the bar holds the mean of such shafts nine times in ten".to_owned(),
        reference: Some((1.0, "as drawn".to_owned())),
        rows: across.taken.iter().filter(|one| wording::is_told(one)).zip(lines).map(row).collect(),
        ..GroupSheet::default()
    }
}
