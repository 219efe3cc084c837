//! The figures that were reckoned, each with how it came about.
//!
//! Words: *figure* = a number that is reported.
//! Never: give a figure without the way it was made.

mod built;
mod payment;
mod pour;
mod strength;

use crate::show::Show;
use crate::value::measured_text;
use assess::{Assessment, Finding, Subject};

/// One figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// Stable word, for machines.
    pub id: String,
    /// What it is.
    pub label: String,
    /// Its value with unit, and its standard error where the readings have one.
    pub value: String,
    /// How it came about.
    pub how: String,
}

impl Figure {
    fn new(id: &str, label: &str, value: String, how: &str) -> Self {
        Figure { id: id.to_owned(), label: label.to_owned(), value, how: how.to_owned() }
    }
}

/// Every figure there is, in the order of the work; what cannot be reckoned is left out, and the findings
/// say which entry is missing.
pub fn figures(assessment: &Assessment<'_>, show: &Show) -> Vec<Figure> {
    let mut all = pour::figures(assessment, show);
    all.extend(built::figures(assessment, show));
    all.extend(strength::figures(assessment, show));
    all.extend(payment::figures(assessment, show));
    all
}

/// The figure a finding already holds, where there is one for the whole shaft.
fn of_finding(assessment: &Assessment<'_>, fact: &str, label: &str, show: &Show) -> Option<Figure> {
    let of_shaft = |finding: &&Finding| finding.fact.name == fact && finding.subject == Subject::Shaft;
    let finding = assessment.findings.iter().find(of_shaft)?;
    let value = measured_text(finding.value?, finding.fact, None, show);
    Some(Figure::new(fact, label, value, finding.fact.meaning))
}
