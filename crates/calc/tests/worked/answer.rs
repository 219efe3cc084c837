//! What a line answers, and whether it is what the page says.

use quantity::{Quantity, Unit, units};

/// One figure of an answer, in SI, with its standard error where it has one.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Figure {
    value: f64,
    error: Option<f64>,
    kind: Option<quantity::Kind>,
}

impl Figure {
    pub(crate) fn of<Q: Quantity>(value: Q) -> Self {
        Figure { value: value.number().to_f64(), error: None, kind: Some(Q::KIND) }
    }

    pub(crate) fn plain(value: f64) -> Self {
        Figure { value, error: None, kind: None }
    }

    pub(crate) fn doubted<Q: Quantity>(value: Q, error: Q) -> Self {
        Figure { error: Some(error.number().to_f64()), ..Figure::of(value) }
    }

    pub(crate) fn plain_doubted(value: f64, error: f64) -> Self {
        Figure { error: Some(error), ..Figure::plain(value) }
    }
}

/// The figures of an answer by name; the first one may be meant without its name.
#[derive(Debug, Default)]
pub(crate) struct Answer(Vec<(&'static str, Figure)>);

impl Answer {
    /// A line that only says what is there.
    pub(crate) fn nothing() -> Self {
        Answer::default()
    }

    pub(crate) fn of<const N: usize>(figures: [(&'static str, Figure); N]) -> Self {
        Answer(figures.to_vec())
    }

    /// How many figures the page states, if all of them are right.
    pub(crate) fn agrees(&self, expected: &str) -> Result<usize, String> {
        if expected.is_empty() {
            return Err("nothing is expected".to_owned());
        }
        let parts: Vec<&str> = expected.split(',').map(str::trim).collect();
        parts.iter().try_for_each(|part| self.part_agrees(part))?;
        Ok(parts.len())
    }

    fn part_agrees(&self, part: &str) -> Result<(), String> {
        let digit =
            part.find(|c: char| c.is_ascii_digit()).ok_or_else(|| format!("no number in `{part}`"))?;
        let start = if part[..digit].ends_with('-') { digit - 1 } else { digit };
        let (name, written) = (part[..start].trim(), &part[start..]);
        let figure = match name {
            "" => self.0.first().map(|(_, figure)| figure),
            name => self.0.iter().find(|(known, _)| *known == name).map(|(_, figure)| figure),
        };
        let figure = figure.ok_or_else(|| format!("there is no `{name}` in the answer"))?;
        let (value, error) = match written.split_once('±') {
            Some((value, error)) => (value.trim(), Some(error.trim())),
            None => (written, None),
        };
        compare(value, figure.value, figure.kind)?;
        match (error, figure.error) {
            (Some(written), Some(error)) => compare(written, error, figure.kind),
            (Some(_), None) => Err(format!("`{name}` has no standard error")),
            (None, _) => Ok(()),
        }
    }
}

/// Compares as printed: with as many decimals as were written.
fn compare(written: &str, value: f64, kind: Option<quantity::Kind>) -> Result<(), String> {
    let (number, symbol) = written.split_once(' ').unwrap_or((written, ""));
    let decimals = number.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let shown = format!("{:.decimals$}", in_unit(value, symbol, kind)?);
    match shown == number {
        true => Ok(()),
        false => Err(format!("written {written}, comes out as {}", format!("{shown} {symbol}").trim_end())),
    }
}

fn in_unit(value: f64, symbol: &str, kind: Option<quantity::Kind>) -> Result<f64, String> {
    match (kind, symbol) {
        (None, "") => Ok(value),
        (None, "%") => Ok(value * 100.0),
        (None, _) => Err(format!("`{symbol}` is no unit of a plain number")),
        (Some(kind), _) => {
            let fits = |unit: &&&Unit| unit.kind == kind && unit.symbol == symbol;
            let unit = units::ALL.iter().find(fits);
            let named = format!("{kind:?}").to_lowercase();
            unit.map(|unit| unit.from_si(value)).ok_or_else(|| format!("`{symbol}` is no unit of a {named}"))
        }
    }
}
