//! Quantities a shaft is paid by.
//!
//! Never: know a price, or which of them a contract pays.

use super::Figure;
use crate::phrase::and;
use crate::show::Show;
use assess::Assessment;
use assess::reckon::Payment;
use calc::payment::{ConcreteTotals, PaymentIssue};
use quantity::Depth;

pub(super) fn figures(assessment: &Assessment<'_>, show: &Show) -> Vec<Figure> {
    let payment = &assessment.reckoning.payment;
    let mut all = lengths(payment, show);
    all.extend(payment.obstructions.map(|lost| {
        let how = "From when each was met until it was cleared; minutes that two share count once.";
        Figure::new("payment.obstruction", "Time lost to obstructions", show.span(lost), how)
    }));
    all.extend(payment.concrete.as_ref().map_or_else(Vec::new, |totals| concrete(totals, show)));
    all
}

/// Lengths drilled, by diameter and material.
fn lengths(payment: &Payment, show: &Show) -> Vec<Figure> {
    let doubt = format!("{}{}", doubt(&payment.issues, show), unwritten(payment, show));
    let figure = |total: &calc::payment::DrilledTotal| Figure {
        id: "payment.drilled".to_owned(),
        label: format!("Drilled, {} in {}", show.small(total.diameter), material(&total.material)),
        value: show.length(total.length),
        how: format!("Sum of the tool runs, as depths below the planned top.{doubt}"),
    };
    if payment.drilled.is_empty() && !payment.uncounted.is_empty() {
        return vec![Figure::new("payment.drilled", "Drilled", "not counted".to_owned(), doubt.trim())];
    }
    payment.drilled.iter().map(figure).collect()
}

/// Runs whose beginning nobody wrote: what was counted of them, and what was not.
fn unwritten(payment: &Payment, show: &Show) -> String {
    let begun: Vec<String> = payment
        .begun
        .iter()
        .map(|(top, bottom)| format!("{} to {}", show.depth(*top), show.depth(*bottom)))
        .collect();
    let left_out: Vec<String> = payment.uncounted.iter().map(|depth| show.depth(*depth)).collect();
    let counted = match begun.as_slice() {
        [] => String::new(),
        _ => format!(
            " Counted from where the run before ended, as nobody wrote where it began: {}.",
            and(&begun)
        ),
    };
    match left_out.as_slice() {
        [] => counted,
        _ => format!(
            "{counted} Not counted, as nobody wrote where it began and no run lies before it: the run to {}.",
            and(&left_out)
        ),
    }
}

fn material(word: &str) -> &str {
    if word == "not said" { "ground not described" } else { word }
}

fn doubt(issues: &[PaymentIssue], show: &Show) -> String {
    let reach = |top: &Depth, bottom: &Depth| format!("{} to {}", show.depth(*top), show.depth(*bottom));
    let texts: Vec<String> = issues
        .iter()
        .map(|issue| match issue {
            PaymentIssue::Overlap { top, bottom } => format!("{} counts twice", reach(top, bottom)),
            PaymentIssue::Gap { top, bottom } => format!("{} is not written down", reach(top, bottom)),
        })
        .collect();
    if texts.is_empty() { String::new() } else { format!(" Look again: {}.", and(&texts)) }
}

/// Concrete ordered, delivered, rejected, wasted, placed.
fn concrete(totals: &ConcreteTotals, show: &Show) -> Vec<Figure> {
    let mut rows = vec![
        ("payment.delivered", "Concrete delivered", totals.delivered, "On the tickets, rejected loads too."),
        ("payment.rejected", "Concrete rejected", totals.rejected, "Loads that were refused as a whole."),
        ("payment.wasted", "Concrete wasted or sent back", totals.wasted, "Entered as wasted or sent back."),
        ("payment.placed", "Concrete placed", totals.placed, "Delivered less rejected and wasted."),
    ];
    if let Some(ordered) = totals.ordered {
        rows.insert(0, ("payment.ordered", "Concrete ordered", ordered, "As the orders were entered."));
    }
    rows.into_iter()
        .map(|(id, label, volume, how)| Figure::new(id, label, show.volume(volume), how))
        .collect()
}
