//! What would become of each row of a table: taken, or why not.
//!
//! A schedule of a hundred shafts comes from somebody else's spreadsheet; whoever takes it over wants to know which rows
//! stand in the way before anything is signed.

use super::take::{File, context_of};
use crate::problem::Problem;
use crate::screen::Screen;
use notes::{Mistake, Place};
use record::Record;

/// Tells each row of every table; of notes nothing, their mistakes name the line.
pub(super) fn tell(
    files: &[File],
    mistakes: &[Mistake],
    record: &Record,
    screen: &mut Screen,
) -> Result<(), Problem> {
    let context = context_of(record)?;
    for file in files {
        let Some(bytes) = file.as_table(context.as_ref())? else { continue };
        let own: Vec<&Mistake> = mistakes.iter().filter(|mistake| mistake.file == file.name).collect();
        let rows = notes::table::rows(&bytes);
        let mut free = 0;
        for (row, first) in &rows {
            let wrong = own.iter().filter(|mistake| row_of(mistake) == Some(*row)).count();
            free += usize::from(wrong == 0);
            if wrong > 0 {
                let count = if wrong == 1 { "one mistake".to_owned() } else { format!("{wrong} mistakes") };
                screen.say(&format!("{}, row {row} ({first}): cannot be taken, {count} below.", file.name));
            }
        }
        let told = format!("{}: {free} of {} rows can be taken.", file.name, rows.len());
        screen.say(&told);
    }
    Ok(())
}

fn row_of(mistake: &Mistake) -> Option<usize> {
    match mistake.place {
        Place::Cell { row, .. } => Some(row),
        Place::Text { line, .. } => Some(line),
        Place::File => None,
    }
}
