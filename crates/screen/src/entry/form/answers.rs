//! What was typed so far: texts by path, and how many rows each list has.
//!
//! Never: know what a text means.

use quantity::Gather;
use std::collections::BTreeMap;

/// More rows than this are no list that a person keeps by hand.
const ROWS_MAX: usize = 200;

/// Texts by path, and the rows of lists.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Answers {
    pub(super) texts: BTreeMap<String, String>,
    pub(super) rows: BTreeMap<String, usize>,
}

impl Answers {
    pub(super) fn text(&self, path: &str) -> &str {
        self.texts.get(path).map_or("", String::as_str)
    }

    pub(super) fn set(&mut self, path: &str, text: &str) {
        if text.is_empty() {
            self.texts.remove(path);
        } else {
            self.texts.insert(path.to_owned(), text.to_owned());
        }
    }

    pub(super) fn rows(&self, list: &str) -> usize {
        self.rows.get(list).copied().unwrap_or(0)
    }

    pub(super) fn add_row(&mut self, list: &str) {
        let rows = self.rows.entry(list.to_owned()).or_insert(0);
        *rows = (*rows + 1).min(ROWS_MAX);
    }

    /// Makes the rows a path speaks of: `points[3].place` needs four.
    pub(super) fn make_rows(&mut self, path: &str) {
        let mut from = 0;
        while let Some(open) = path[from..].find('[').map(|at| from + at) {
            let Some(close) = path[open..].find(']').map(|at| open + at) else { return };
            let Ok(index) = path[open + 1..close].parse::<usize>() else { return };
            let rows = self.rows.entry(path[..open].to_owned()).or_insert(0);
            *rows = (*rows).max(index.saturating_add(1)).min(ROWS_MAX);
            from = close;
        }
    }

    pub(super) fn remove_row(&mut self, list: &str, row: usize) {
        let rows = self.rows(list);
        if row >= rows {
            return;
        }
        self.rows.insert(list.to_owned(), rows - 1);
        self.texts = shifted(&self.texts, list, row);
        self.rows = shifted(&self.rows, list, row);
    }

    /// Nothing stands at a path or below it.
    pub(super) fn is_blank_below(&self, path: &str) -> bool {
        !self.texts.iter().any(|(at, text)| is_at_or_below(at, path) && !text.trim().is_empty())
    }

    pub(super) fn clear_below(&mut self, path: &str) {
        self.texts.retain(|at, _| !is_at_or_below(at, path));
        self.rows.retain(|at, _| !is_at_or_below(at, path));
    }

    pub(super) fn is_blank(&self) -> bool {
        self.texts.values().all(|text| text.trim().is_empty())
    }
}

fn is_at_or_below(at: &str, path: &str) -> bool {
    at.strip_prefix(path).is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
}

/// The same, without one row of a list; what stood in the rows after it moves up.
fn shifted<V: Clone>(all: &BTreeMap<String, V>, list: &str, row: usize) -> BTreeMap<String, V> {
    let moved = |(path, value): (&String, &V)| {
        let Some((index, rest)) = in_list(path, list) else { return Some((path.clone(), value.clone())) };
        match index.cmp(&row) {
            std::cmp::Ordering::Less => Some((path.clone(), value.clone())),
            std::cmp::Ordering::Equal => None,
            std::cmp::Ordering::Greater => Some((format!("{list}[{}]{rest}", index - 1), value.clone())),
        }
    };
    all.iter().filter_map(moved).into_map()
}

/// The row of a list a path lies in, and what follows.
fn in_list<'p>(path: &'p str, list: &str) -> Option<(usize, &'p str)> {
    let (index, rest) = path.strip_prefix(list)?.strip_prefix('[')?.split_once(']')?;
    Some((index.parse().ok()?, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_taken_out_moves_the_others_up() {
        let mut answers = Answers::default();
        for (path, text) in [("points[0].depth", "1"), ("points[1].depth", "2"), ("points[2].depth", "3")] {
            answers.make_rows(path);
            answers.set(path, text);
        }
        answers.set("points_note", "stays");
        answers.remove_row("points", 1);
        answers.remove_row("points", 9);
        assert_eq!(answers.rows("points"), 2);
        assert_eq!(answers.text("points[0].depth"), "1");
        assert_eq!(answers.text("points[1].depth"), "3");
        assert_eq!(answers.text("points[2].depth"), "");
        assert_eq!(answers.text("points_note"), "stays");
    }

    #[test]
    fn a_hostile_index_makes_no_endless_list() {
        let mut answers = Answers::default();
        answers.make_rows("points[18446744073709551615].depth");
        answers.make_rows("points[x].depth");
        answers.make_rows("points[3");
        assert_eq!(answers.rows("points"), ROWS_MAX);
    }
}
