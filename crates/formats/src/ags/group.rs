//! A group: its headings with their types and units, and its rows as text.

use super::ascii::ascii;

/// A group of the standard or of our own.
#[derive(Debug)]
pub(super) struct Group {
    pub(super) name: &'static str,
    pub(super) says: &'static str,
    pub(super) headings: &'static [Heading],
}

/// A heading.
#[derive(Debug)]
pub(super) struct Heading {
    pub(super) name: &'static str,
    /// What it holds: `2DP` two decimals, `X` text, `DT` a date, `PA` a word from the list of abbreviations …
    pub(super) kind: &'static str,
    pub(super) unit: &'static str,
    pub(super) says: &'static str,
    pub(super) key: bool,
}

/// A heading of a group of the standard: what it means is not ours to say.
pub(super) const fn of(name: &'static str, kind: &'static str, unit: &'static str) -> Heading {
    Heading { name, kind, unit, says: "", key: false }
}

/// A heading of our own.
pub(super) const fn own(
    name: &'static str,
    kind: &'static str,
    unit: &'static str,
    says: &'static str,
) -> Heading {
    Heading { name, kind, unit, says, key: false }
}

/// A heading of our own that tells rows apart.
pub(super) const fn key(name: &'static str, kind: &'static str, says: &'static str) -> Heading {
    Heading { name, kind, unit: "", says, key: true }
}

/// A group with its rows.
#[derive(Debug)]
pub(super) struct Table {
    pub(super) group: &'static Group,
    pub(super) rows: Vec<Vec<String>>,
}

impl Table {
    pub(super) fn text(&self) -> String {
        let each = |of: fn(&Heading) -> &str| self.group.headings.iter().map(of).collect::<Vec<&str>>();
        let mut lines = vec![line("GROUP", &[self.group.name])];
        lines.push(line("HEADING", &each(|heading| heading.name)));
        lines.push(line("UNIT", &each(|heading| heading.unit)));
        lines.push(line("TYPE", &each(|heading| heading.kind)));
        lines.extend(self.rows.iter().map(|row| {
            let cells: Vec<&str> = row.iter().map(String::as_str).collect();
            line("DATA", &cells)
        }));
        lines.concat()
    }
}

/// Every cell in quotation marks, those in it doubled; no line breaks, no letters outside ASCII.
fn line(word: &str, cells: &[&str]) -> String {
    let cell = |cell: &&str| format!(",\"{}\"", ascii(cell).replace('"', "\"\""));
    format!("\"{word}\"{}\r\n", cells.iter().map(cell).collect::<String>())
}

/// A number with so many decimals; blank where there is none.
pub(super) fn number(value: Option<f64>, decimals: usize) -> String {
    let text = value.filter(|value| value.is_finite()).map(|value| format!("{value:.decimals$}"));
    let text = text.unwrap_or_default();
    let zero = text.starts_with('-') && text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.');
    if zero { text.trim_start_matches('-').to_owned() } else { text }
}

/// A text; blank where there is none.
pub(super) fn maybe(text: Option<&str>) -> String {
    text.unwrap_or_default().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_quoted_and_numbers_have_their_decimals() {
        assert_eq!(
            line("DATA", &["a \"b\"", "", "Ø 1,2\nm"]),
            "\"DATA\",\"a \"\"b\"\"\",\"\",\"O 1,2 m\"\r\n"
        );
        assert_eq!(number(Some(1.005), 1), "1.0");
        assert_eq!(number(Some(-0.001), 2), "0.00");
        assert_eq!(number(Some(-0.5), 1), "-0.5");
        assert_eq!(number(None, 2), "");
        assert_eq!(number(Some(f64::NAN), 2), "");
    }
}
