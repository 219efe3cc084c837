//! A sheet before it is written: columns, and rows of cells.

use quantity::Moment;

/// A sheet.
pub(super) struct Sheet {
    pub(super) name: String,
    pub(super) columns: Vec<Column>,
    pub(super) rows: Vec<Vec<Cell>>,
}

/// A column.
pub(super) struct Column {
    pub(super) title: String,
    pub(super) width: f64,
    pub(super) form: Form,
}

/// How the numbers of a column are shown; the cell holds them unrounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    Plain,
    /// With so many decimals.
    Decimals(usize),
    /// A day and a time.
    Time,
}

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Cell {
    Blank,
    Text(String),
    Number(f64),
    Time(Moment),
    /// A formula, and the value of the log beside it.
    Formula(String, f64),
}

impl Cell {
    pub(super) fn text(text: Option<&str>) -> Self {
        text.filter(|text| !text.is_empty()).map_or(Cell::Blank, |text| Cell::Text(text.to_owned()))
    }

    pub(super) fn number(number: Option<f64>) -> Self {
        number.filter(|number| number.is_finite()).map_or(Cell::Blank, Cell::Number)
    }

    pub(super) fn count(count: usize) -> Self {
        Cell::Number(count as f64)
    }

    pub(super) fn time(at: Option<Moment>) -> Self {
        at.map_or(Cell::Blank, Cell::Time)
    }

    /// A formula where the log has a value; blank where it has none.
    pub(super) fn formula(text: String, value: Option<f64>) -> Self {
        value.filter(|value| value.is_finite()).map_or(Cell::Blank, |value| Cell::Formula(text, value))
    }
}

/// A column of texts.
pub(super) fn texts(title: &str, width: f64) -> Column {
    Column { title: title.to_owned(), width, form: Form::Plain }
}

/// A column of numbers in a unit; no unit for ratios.
pub(super) fn numbers(title: &str, unit: &str, decimals: usize) -> Column {
    let title = if unit.is_empty() { title.to_owned() } else { format!("{title} ({unit})") };
    let width = (title.chars().count() as f64 * 0.9).max(10.0);
    Column { title, width, form: Form::Decimals(decimals) }
}

/// A column of times.
pub(super) fn times(title: &str) -> Column {
    Column { title: title.to_owned(), width: 17.0, form: Form::Time }
}

/// The row of a sheet that holds the `at`-th of its rows, as formulas count: headings are row 1.
pub(super) fn line(at: usize) -> usize {
    at + 2
}
