//! Times as a log prints them: the day where it changes, then the clock.

use crate::Source;
use quantity::Moment;
use wording::Table;

/// `2025-05-12`.
const DATE: usize = 10;

const MONTHS: [&str; 12] =
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// Rewrites every cell that is a time: `12 May 07:12`, or `07:12` on the day of the time before it.
pub(super) fn with_days(tables: &mut [Table], source: &Source<'_, '_>) {
    let Some(main) = main_day(tables, source) else { return };
    for table in tables {
        let mut above = String::new();
        for row in &mut table.rows {
            let mut day = above.clone();
            for cell in row.cells.iter_mut().flatten() {
                if let Some((date, clock)) = time_of(cell, &main) {
                    *cell = if date == day {
                        clock.to_owned()
                    } else {
                        format!("{} {clock}", spoken(&date, &main))
                    };
                    day = date;
                }
            }
            above = day;
        }
    }
}

/// The day whose times stand without a date.
fn main_day(tables: &[Table], source: &Source<'_, '_>) -> Option<String> {
    let poured = source.assessment.picture.concrete_started().map(Moment::date);
    let rows = tables.iter().flat_map(|table| &table.rows);
    let bare = |row: &wording::Row| {
        let time = row.time?;
        let first = row.cells.first()?.as_ref()?;
        (*first == time.clock()).then(|| time.date())
    };
    poured
        .or_else(|| rows.clone().find_map(bare))
        .or_else(|| rows.clone().find_map(|row| Some(row.time?.date())))
}

/// Date and clock of a cell that is nothing but a time.
fn time_of<'c>(cell: &'c str, main: &str) -> Option<(String, &'c str)> {
    match cell.split_once(' ') {
        Some((date, clock)) if is_date(date) && is_clock(clock) => Some((date.to_owned(), clock)),
        None if is_clock(cell) => Some((main.to_owned(), cell)),
        _ => None,
    }
}

fn is_date(text: &str) -> bool {
    text.len() == DATE
        && text
            .chars()
            .enumerate()
            .all(|(at, c)| if at == 4 || at == 7 { c == '-' } else { c.is_ascii_digit() })
}

fn is_clock(text: &str) -> bool {
    text.len() == 5
        && text.chars().enumerate().all(|(at, c)| if at == 2 { c == ':' } else { c.is_ascii_digit() })
}

/// `12 May`, with the year when it is not the one of the main day.
fn spoken(date: &str, main: &str) -> String {
    let month = date[5..7].parse::<usize>().ok().and_then(|month| MONTHS.get(month.checked_sub(1)?));
    let day = date[8..].trim_start_matches('0');
    match month {
        Some(month) if date[..4] == main[..4] => format!("{day} {month}"),
        Some(month) => format!("{day} {month} {}", &date[..4]),
        None => date.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(cell: &str, expected: Option<(&str, &str)>) {
        let found = time_of(cell, "2025-05-13");
        assert_eq!(found.as_ref().map(|(date, clock)| (date.as_str(), *clock)), expected);
    }

    #[test]
    fn only_a_cell_that_is_nothing_but_a_time_is_one() {
        check("07:12", Some(("2025-05-13", "07:12")));
        check("2025-05-12 07:12", Some(("2025-05-12", "07:12")));
        check("0.42", None);
        check("2025-05-12", None);
        check("07:12 by tape", None);
    }

    #[test]
    fn another_year_is_said() {
        assert_eq!(spoken("2025-05-02", "2025-05-13"), "2 May");
        assert_eq!(spoken("2024-12-31", "2025-05-13"), "31 Dec 2024");
    }
}
