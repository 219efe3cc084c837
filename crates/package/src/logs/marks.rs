//! What has to be said about a row.

use crate::Source;
use record::{Held, Line, Standing};
use report::Mark;

/// The marks of a row, struck ones with the time the correction was seen.
pub(super) fn of(row: &wording::Row, source: &Source<'_, '_>) -> Vec<Mark> {
    row.marks.iter().map(|one| mark(one, row, source)).collect()
}

fn mark(mark: &wording::Mark, row: &wording::Row, source: &Source<'_, '_>) -> Mark {
    match mark.clone() {
        wording::Mark::Struck { by, why } => {
            Mark::Struck { by: corrected_by(row, source).unwrap_or(by), why }
        }
        wording::Mark::Replaces { what, .. } => Mark::Replaces { what },
        wording::Mark::Disputed { note } => Mark::Disputed { note },
        wording::Mark::Late { note } => Mark::Late { note },
        wording::Mark::Asked { note } => Mark::Asked { note },
    }
}

/// Author and time of the correction that struck a row.
fn corrected_by(row: &wording::Row, source: &Source<'_, '_>) -> Option<String> {
    let id = row.entry.as_ref()?;
    let of_row = |line: &&Line<'_>| line.entry.id.short() == *id;
    let struck = source.log.lines.iter().filter(of_row).find_map(|line| match line.standing {
        Standing::Struck { by } => Some(by),
        _ => None,
    })?;
    let Held::Known(entry) = source.record.get(&struck)? else { return None };
    Some(format!("{}, {} ({})", entry.author, source.show().moment(entry.observed_at), struck.short()))
}
