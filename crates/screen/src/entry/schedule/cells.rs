//! The cells of what was pasted, whatever sign stands between them.
//!
//! A spreadsheet pastes tabs, a file may hold semicolons or commas; a cell in quotation marks may hold
//! any of them, and lines of its own.
//!
//! Never: drop a cell.

/// Lines with something in them, by their number from 1, cut into cells.
///
/// # Errors
/// A sentence when a quotation mark is opened and never closed.
pub(super) fn cells(pasted: &str) -> Result<Vec<(usize, Vec<String>)>, String> {
    let mut reader = Reader::new(separator(pasted));
    pasted.trim_start_matches('\u{feff}').chars().for_each(|sign| reader.sign(sign));
    reader.finish()
}

/// The sign that stands most often between the headings.
fn separator(pasted: &str) -> char {
    let headings = pasted.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let count = |separator: char| {
        let mut quoted = false;
        let counts = |sign: &char| {
            quoted ^= *sign == '"';
            *sign == separator && !quoted
        };
        headings.chars().filter(counts).count()
    };
    let best = ['\t', ';', ','].into_iter().rev().max_by_key(|separator| count(*separator));
    best.unwrap_or(',')
}

struct Reader {
    separator: char,
    line: usize,
    begun: usize,
    rows: Vec<(usize, Vec<String>)>,
    row: Vec<String>,
    cell: String,
    quote: Quote,
}

/// Where a cell stands with its quotation marks.
#[derive(Clone, Copy, PartialEq)]
enum Quote {
    /// None was opened.
    None,
    /// Inside them.
    Open,
    /// One was met inside: the end, or the first of two.
    Met,
}

impl Reader {
    fn new(separator: char) -> Reader {
        let (rows, row, cell) = (Vec::new(), Vec::new(), String::new());
        Reader { separator, line: 1, begun: 1, rows, row, cell, quote: Quote::None }
    }

    fn sign(&mut self, sign: char) {
        self.line += usize::from(sign == '\n');
        match (self.quote, sign) {
            (Quote::Open, '"') => self.quote = Quote::Met,
            (Quote::Open, sign) => self.cell.push(sign),
            (Quote::Met, '"') => {
                self.cell.push('"');
                self.quote = Quote::Open;
            }
            (Quote::None, '"') if self.cell.is_empty() => self.quote = Quote::Open,
            (_, '\n') => self.end_row(),
            (_, '\r') => {}
            (_, sign) if sign == self.separator => self.end_cell(),
            (_, sign) => self.cell.push(sign),
        }
    }

    fn end_cell(&mut self) {
        self.row.push(std::mem::take(&mut self.cell));
        self.quote = Quote::None;
    }

    fn end_row(&mut self) {
        self.end_cell();
        let row = std::mem::take(&mut self.row);
        if row.iter().any(|cell| !cell.trim().is_empty()) {
            self.rows.push((self.begun, row));
        }
        self.begun = self.line;
    }

    fn finish(mut self) -> Result<Vec<(usize, Vec<String>)>, String> {
        if self.quote == Quote::Open {
            let begun = self.begun;
            return Err(format!("A quotation mark is opened in line {begun} and never closed."));
        }
        self.end_row();
        Ok(self.rows)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(pasted: &str, expected: &[&[&str]]) {
        let rows: Vec<Vec<String>> =
            cells(pasted).expect("the quotes are closed").into_iter().map(|row| row.1).collect();
        assert_eq!(rows, expected);
    }

    #[test]
    fn every_usual_sign_between_cells_is_seen() {
        check("Shaft\tTop\nS-1\t12,5\n", &[&["Shaft", "Top"], &["S-1", "12,5"]]);
        check("Shaft;Top\r\nS-1;12,5\r\n", &[&["Shaft", "Top"], &["S-1", "12,5"]]);
        check("Shaft,Top\nS-1,12.5", &[&["Shaft", "Top"], &["S-1", "12.5"]]);
    }

    #[test]
    fn quotes_hold_separators_lines_and_inch_marks() {
        check("a,b\n\"1,2\",\"x\ny\"\n", &[&["a", "b"], &["1,2", "x\ny"]]);
        check("a\tb\n\"12'-6\"\"\"\t12'-6\"\n", &[&["a", "b"], &["12'-6\"", "12'-6\""]]);
    }

    #[test]
    fn blank_lines_are_passed_over_and_lines_are_counted() {
        let rows = cells("\n\na,b\n,\n1,2\n").expect("no quotes");
        assert_eq!(rows.iter().map(|row| row.0).collect::<Vec<_>>(), [3, 5]);
    }

    #[test]
    fn an_open_quote_is_named() {
        assert_eq!(
            cells("a,b\n1,\"2\n3,4").expect_err("it is open"),
            "A quotation mark is opened in line 2 and never closed."
        );
    }
}
