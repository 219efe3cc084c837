//! The log of a shaft, a line a row, those that were struck through too.

use super::sheet::{Cell, Sheet, numbers, texts, times};
use crate::Shaft;
use record::{Line, Standing};
use wording::{Show, label};

pub(super) fn sheet(shaft: &Shaft<'_, '_>, name: String) -> Sheet {
    let show = Show::of_log(shaft.log);
    let columns = vec![
        times("Seen"),
        texts("Entry", 22.0),
        texts("Says", 90.0),
        texts("About", 8.0),
        texts("Author", 16.0),
        texts("Status", 10.0),
        numbers("Late", "min", 0),
        texts("Corrected because", 30.0),
        texts("Id", 68.0),
    ];
    let rows = shaft.log.lines.iter().map(|line| row(line, &show)).collect();
    Sheet { name, columns, rows }
}

fn row(line: &Line<'_>, show: &Show) -> Vec<Cell> {
    let status = match line.standing {
        Standing::Stands => "stands",
        Standing::Struck { .. } => "struck",
        Standing::Disputed { .. } => "disputed",
    };
    vec![
        Cell::Time(line.at),
        Cell::Text(label::kind(line.body.kind())),
        Cell::Text(wording::entry_text(line.body, show)),
        Cell::Text(if line.entry.shaft.is_some() { "shaft" } else { "job" }.to_owned()),
        Cell::Text(line.entry.author.clone()),
        Cell::Text(status.to_owned()),
        Cell::number(line.late_minutes()),
        Cell::text(line.reason),
        Cell::Text(line.entry.id.to_string()),
    ]
}
