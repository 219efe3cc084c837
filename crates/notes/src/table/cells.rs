//! The cells of a table, whatever sign stands between them.

use csv::{ReaderBuilder, StringRecord};

/// A table as it is written.
pub(crate) struct Sheet {
    /// Line of the headings.
    pub(crate) heading_row: usize,
    pub(crate) headings: Vec<String>,
    pub(crate) rows: Vec<Row>,
}

/// A row with something in it.
pub(crate) struct Row {
    /// Line of the file it begins in.
    pub(crate) line: usize,
    pub(crate) cells: StringRecord,
}

impl Sheet {
    pub(crate) fn of(text: &str) -> Self {
        let mut reader = ReaderBuilder::new()
            .delimiter(separator(text))
            .has_headers(false)
            .flexible(true)
            .from_reader(text.as_bytes());
        let line = |cells: &StringRecord| cells.position().map_or(1, |at| line_of(text, at));
        let filled = |cells: &StringRecord| cells.iter().any(|cell| !cell.trim().is_empty());
        // The bytes are UTF-8 and rows may differ in length, so that no row can fail.
        let mut records = reader.records().filter_map(Result::ok).filter(filled);
        let Some(first) = records.next() else {
            return Sheet { heading_row: 1, headings: Vec::new(), rows: Vec::new() };
        };
        let headings = first.iter().map(|cell| cell.trim().to_owned()).collect();
        let rows = records.map(|cells| Row { line: line(&cells), cells }).collect();
        Sheet { heading_row: line(&first), headings, rows }
    }
}

/// The line a row begins in: the reader counts from where it went on, before the empty lines it passes over.
fn line_of(text: &str, at: &csv::Position) -> usize {
    let rest = usize::try_from(at.byte()).ok().and_then(|from| text.as_bytes().get(from..));
    let empty = rest.unwrap_or_default().iter().take_while(|byte| matches!(byte, b'\r' | b'\n'));
    usize::try_from(at.line()).unwrap_or(1) + empty.filter(|byte| **byte == b'\n').count()
}

/// The sign that stands most often between the headings: tab, semicolon or comma.
fn separator(text: &str) -> u8 {
    let headings = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
    let mut counts = [(b'\t', 0), (b';', 0), (b',', 0)];
    let mut quoted = false;
    for byte in headings.bytes() {
        quoted ^= byte == b'"';
        if let Some(count) = counts.iter_mut().find(|count| count.0 == byte && !quoted) {
            count.1 += 1;
        }
    }
    let more = |best: (u8, usize), count: (u8, usize)| if count.1 > best.1 { count } else { best };
    counts.into_iter().fold((b',', 0), more).0
}

/// The line of a quotation mark that opens a cell and is never closed: the rest of the file would be one
/// cell.
pub(crate) fn open_quote(text: &str) -> Option<usize> {
    let separator = separator(text);
    let (mut line, mut opened, mut begins) = (1, None, true);
    let mut bytes = text.bytes().peekable();
    while let Some(byte) = bytes.next() {
        match byte {
            b'"' if opened.is_some() && bytes.peek() == Some(&b'"') => {
                bytes.next();
            }
            b'"' if opened.is_some() => opened = None,
            b'"' if begins => opened = Some(line),
            _ => {}
        }
        begins = byte == separator || byte == b'\n' || byte == b'\r';
        line += usize::from(byte == b'\n');
    }
    opened
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sign_between_cells_is_seen() {
        assert_eq!(separator("a;b,c;d"), b';');
        assert_eq!(separator("a\tb, c\td"), b'\t');
        assert_eq!(separator("\n\"a;b;c\",d"), b',');
        assert_eq!(separator("alone"), b',');
    }

    #[test]
    fn a_row_below_empty_lines_keeps_its_number() {
        let lines = |text: &str| Sheet::of(text).rows.iter().map(|row| row.line).collect::<Vec<usize>>();
        assert_eq!(lines("a,b\n1,2\n\n\n3,4\n"), [2, 5]);
        assert_eq!(lines("a,b\r\n1,2\r\n\r\n3,4"), [2, 4]);
        assert_eq!(lines("\n\na,b\n\"1\n1\",2\n3,4\n"), [4, 6]);
        assert_eq!(Sheet::of("\n\na,b\n").heading_row, 3);
    }

    #[test]
    fn an_open_quote_is_found_and_inches_are_none() {
        assert_eq!(open_quote("a,b\n1,\"2\n3,4\n"), Some(2));
        assert_eq!(open_quote("a,b\n12'-6\",\"say \"\"4\"\"\"\n"), None);
    }
}
