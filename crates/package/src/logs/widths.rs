//! How wide each column of a log has to be.
//!
//! Numbers and times keep their line; long words share what is left.

use wording::Table;

/// So many letters of the size of logs go across a page.
const ACROSS: usize = 122;
/// Columns stand this much looser than they need.
const LOOSE: f64 = 1.25;
/// No log is set narrower, so that its heading and note stand over it.
const NARROWEST: f64 = 0.4;
/// A cell up to this long stays on one line.
const LINE: usize = 14;
/// Letters' worth of margin in each cell.
const MARGIN: usize = 3;
/// A word longer than this may be broken.
const LONGEST: usize = 20;
/// The least a column of words gets.
const LEAST: usize = 10;

/// A weight for each column of a log.
pub(super) fn of(table: &Table) -> Vec<f64> {
    let text = |at: usize| {
        let cells = table.rows.iter().filter_map(move |row| row.cells[at].as_deref());
        cells.collect::<Vec<_>>()
    };
    let head = |at: usize| [table.columns[at].title.as_str(), table.columns[at].unit.as_str()];
    weights(&(0..table.columns.len()).map(|at| (head(at).to_vec(), text(at))).collect::<Vec<_>>())
}

/// The share of the page a log of such columns needs: a few numbers far apart are read wrongly.
pub(super) fn share(weights: &[f64]) -> f64 {
    (weights.iter().sum::<f64>() * LOOSE / letters(ACROSS)).clamp(NARROWEST, 1.0)
}

/// A weight for each column of rows whose heads are short.
pub(super) fn of_rows(rows: &[report::Row]) -> Vec<f64> {
    let columns = rows.first().map_or(0, |row| row.cells.len());
    let text = |at: usize| rows.iter().map(|row| row.cells[at].as_str()).collect::<Vec<_>>();
    weights(&(0..columns).map(|at| (Vec::new(), text(at))).collect::<Vec<_>>())
}

/// From the words of the head and the cells of each column.
fn weights(columns: &[(Vec<&str>, Vec<&str>)]) -> Vec<f64> {
    let longest: Vec<usize> = columns.iter().map(|(_, cells)| longest_cell(cells)).collect();
    let words: Vec<usize> = columns.iter().map(|(head, cells)| longest_word(head, cells)).collect();
    let short = |at: usize| longest[at] <= LINE;
    let taken: usize =
        (0..longest.len()).filter(|at| short(*at)).map(|at| longest[at].max(words[at]) + MARGIN).sum();
    let roots: f64 = (0..longest.len()).filter(|at| !short(*at)).map(|at| root(longest[at])).sum();
    let left = letters(ACROSS.saturating_sub(taken)).max(roots);
    let weight = |at: usize| match short(at) {
        true => letters(longest[at].max(words[at]) + MARGIN),
        false => (left * root(longest[at]) / roots).max(letters(words[at].max(least(longest[at])) + MARGIN)),
    };
    (0..longest.len()).map(weight).collect()
}

fn longest_cell(cells: &[&str]) -> usize {
    cells.iter().map(|cell| cell.chars().count()).max().unwrap_or_default()
}

/// The longest word of head and cells; one longer than any column, such as a digest, may be broken.
fn longest_word(head: &[&str], cells: &[&str]) -> usize {
    let words = head.iter().chain(cells).flat_map(|text| text.split([' ', '-', '–']));
    words.map(|word| word.chars().count()).max().unwrap_or(1).min(LONGEST)
}

/// A sentence gets more room than a few words.
fn least(longest: usize) -> usize {
    if longest > 2 * LEAST { 2 * LEAST } else { LEAST }
}

fn root(length: usize) -> f64 {
    letters(length).sqrt()
}

fn letters(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::from(u32::MAX), f64::from)
}
