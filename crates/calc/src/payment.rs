//! Quantities that a shaft is paid by: lengths drilled, time lost to obstructions, concrete.
//!
//! Words: *ordered* = asked of the plant; *delivered* = on the tickets; *rejected* = sent back unplaced;
//! *wasted* = let go on the site; *placed* = in the shaft.
//! Units: lengths exact; volumes SI inside.
//! Never: know a price or a rule of measurement.

use quantity::{Depth, InOrder, Length, Moment, Span, Volume};
use std::collections::BTreeMap;

/// A stretch drilled with one diameter in one material.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Drilled {
    /// Its upper end.
    pub top: Depth,
    /// Its lower end.
    pub bottom: Depth,
    /// Diameter it is paid as.
    pub diameter: Length,
    /// Material it is paid as: `soil`, `rock`, or what the contract calls it.
    pub material: String,
}

/// One line of drilled length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DrilledTotal {
    /// Diameter.
    pub diameter: Length,
    /// Material.
    pub material: String,
    /// Length.
    pub length: Length,
}

/// A stretch to look at again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PaymentIssue {
    /// Drilled twice: it was counted both times.
    Overlap {
        /// Upper end.
        top: Depth,
        /// Lower end.
        bottom: Depth,
    },
    /// Nothing written down for it: it was not counted.
    Gap {
        /// Upper end.
        top: Depth,
        /// Lower end.
        bottom: Depth,
    },
}

/// A time in which work stood for an obstruction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LostTime {
    /// When it began.
    pub from: Moment,
    /// When it ended.
    pub until: Moment,
}

/// The concrete of one load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadQuantity {
    /// On the ticket.
    pub delivered: Volume,
    /// Let go on the site, of this load.
    pub wasted: Volume,
    /// Sent back as a whole.
    pub rejected: bool,
}

/// The concrete of a shaft. `delivered = rejected + wasted + left_in_lines + placed`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConcreteTotals {
    /// Asked of the plant; `None` when nobody wrote it down.
    pub ordered: Option<Volume>,
    /// On the tickets, rejected loads too.
    pub delivered: Volume,
    /// Sent back.
    pub rejected: Volume,
    /// Let go on the site.
    pub wasted: Volume,
    /// Left in hoppers and lines.
    pub left_in_lines: Volume,
    /// In the shaft.
    pub placed: Volume,
}

/// Concrete that no ticket speaks of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BesideTickets {
    /// Asked of the plant.
    pub ordered: Option<Volume>,
    /// Left in hoppers and lines at the end.
    pub left_in_lines: Volume,
}

/// Why a quantity has no answer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PaymentError {
    /// A lower end above its upper end.
    Inverted {
        /// Index of the stretch.
        stretch: usize,
    },
    /// An end before its beginning.
    Backwards {
        /// Index of the time.
        time: usize,
    },
    /// More let go than came, or a volume below zero.
    Volume {
        /// Index of the load; `None` for the lines.
        load: Option<usize>,
    },
}

impl std::fmt::Display for PaymentError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            PaymentError::Inverted { .. } => write!(f, "a lower end lies above its upper end"),
            PaymentError::Backwards { .. } => write!(f, "an end lies before its beginning"),
            PaymentError::Volume { load: Some(load) } => {
                write!(f, "load {} let go more than it brought", load + 1)
            }
            PaymentError::Volume { load: None } => write!(f, "the lines hold more than was delivered"),
        }
    }
}

impl std::error::Error for PaymentError {}

/// Lengths drilled, by diameter and material, thin before thick and then by name.
///
/// **Valid for** stretches in any order. An overlap counts twice and a gap not at all; both are named.
///
/// **Errors** when a lower end lies above its upper end.
///
/// **Source**: sums of exact lengths.
///
/// ```
/// use calc::payment::{Drilled, drilled_lengths};
/// use quantity::{Depth, Length};
/// let drilled = |top, bottom, material: &str| Drilled {
///     top: Depth(Length::feet(top)),
///     bottom: Depth(Length::feet(bottom)),
///     diameter: Length::inches(36.0),
///     material: material.to_owned(),
/// };
/// let stretches = [drilled(0.0, 22.5, "soil"), drilled(22.5, 30.0, "rock")];
/// let (totals, issues) = drilled_lengths(&stretches).unwrap();
/// assert_eq!((totals[0].material.as_str(), totals[0].length), ("rock", Length::feet(7.5)));
/// assert!(issues.is_empty());
/// ```
pub fn drilled_lengths(
    stretches: &[Drilled],
) -> Result<(Vec<DrilledTotal>, Vec<PaymentIssue>), PaymentError> {
    if let Some(stretch) = stretches.iter().position(|one| one.bottom < one.top) {
        return Err(PaymentError::Inverted { stretch });
    }
    let mut sums: BTreeMap<(Length, &str), Length> = BTreeMap::new();
    for one in stretches {
        let sum = sums.entry((one.diameter, &one.material)).or_default();
        *sum = *sum + one.bottom.below(one.top);
    }
    let total = |((diameter, material), length): ((Length, &str), Length)| DrilledTotal {
        diameter,
        material: material.to_owned(),
        length,
    };
    Ok((sums.into_iter().map(total).collect(), overlaps_and_gaps(stretches)))
}

fn overlaps_and_gaps(stretches: &[Drilled]) -> Vec<PaymentIssue> {
    let mut spans: Vec<(Depth, Depth)> = stretches.iter().map(|one| (one.top, one.bottom)).collect();
    spans.put_in_order();
    let mut issues = Vec::new();
    let Some(mut reached) = spans.first().map(|span| span.1) else { return issues };
    for &(top, bottom) in &spans[1..] {
        if top < reached && top < bottom {
            issues.push(PaymentIssue::Overlap { top, bottom: bottom.min(reached) });
        }
        if reached < top {
            issues.push(PaymentIssue::Gap { top: reached, bottom: top });
        }
        reached = reached.max(bottom);
    }
    issues
}

/// Time lost to obstructions; minutes that two of them share count once.
///
/// **Errors** when an end lies before its beginning.
///
/// **Source**: union of intervals.
///
/// ```
/// # use calc::payment::{LostTime, obstruction_time};
/// # use quantity::Moment;
/// # let at = |clock: &str| Moment::parse(&format!("2026-05-04T{clock}:00-06:00")).expect("a moment");
/// let lost = [
///     LostTime { from: at("09:00"), until: at("10:00") },
///     LostTime { from: at("09:30"), until: at("10:30") },
/// ];
/// assert_eq!(obstruction_time(&lost)?.to_minutes(), 90.0);
/// # Ok::<(), calc::payment::PaymentError>(())
/// ```
pub fn obstruction_time(lost: &[LostTime]) -> Result<Span, PaymentError> {
    if let Some(time) = lost.iter().position(|one| one.until < one.from) {
        return Err(PaymentError::Backwards { time });
    }
    let mut ordered: Vec<(i64, i64)> =
        lost.iter().map(|one| (one.from.seconds(), one.until.seconds())).collect();
    ordered.put_in_order();
    let mut counted_to = i64::MIN;
    let mut seconds = 0;
    for (from, until) in ordered {
        seconds += (until - from.max(counted_to)).max(0);
        counted_to = counted_to.max(until);
    }
    Ok(Span::seconds(seconds as f64))
}

/// Adds up the concrete of a shaft.
///
/// `placed = Σ delivered − rejected − wasted − left in lines`
///
/// **Valid for** waste given by load. A rejected load counts as rejected as a whole.
///
/// **Errors** when a load let go more than it brought, the lines hold more than was left, or a volume is
/// below zero.
///
/// **Source**: sums; the items are those of the form [FHWA-CONVOL].
///
/// ```
/// # use calc::payment::{BesideTickets, LoadQuantity, concrete_totals};
/// # use quantity::Volume;
/// # let yards = Volume::cubic_yards;
/// let load = |delivered, wasted, rejected| LoadQuantity {
///     delivered: yards(delivered),
///     wasted: yards(wasted),
///     rejected,
/// };
/// let loads = [load(9.0, 0.0, false), load(9.0, 0.0, true), load(4.0, 0.5, false)];
/// let beside = BesideTickets { ordered: None, left_in_lines: yards(0.75) };
/// let totals = concrete_totals(&loads, beside)?;
/// assert_eq!(format!("{:.2} yd³", totals.placed.to_cubic_yards()), "11.75 yd³");
/// # Ok::<(), calc::payment::PaymentError>(())
/// ```
pub fn concrete_totals(
    loads: &[LoadQuantity],
    beside: BesideTickets,
) -> Result<ConcreteTotals, PaymentError> {
    let (mut delivered, mut rejected, mut wasted) = (0.0, 0.0, 0.0);
    for (index, load) in loads.iter().enumerate() {
        let (brought, let_go) = (load.delivered.to_cubic_meters(), load.wasted.to_cubic_meters());
        if let_go < 0.0 || brought < let_go {
            return Err(PaymentError::Volume { load: Some(index) });
        }
        delivered += brought;
        if load.rejected { rejected += brought } else { wasted += let_go }
    }
    let lines = beside.left_in_lines.to_cubic_meters();
    let placed = delivered - rejected - wasted - lines;
    if lines < 0.0 || placed < 0.0 {
        return Err(PaymentError::Volume { load: None });
    }
    Ok(ConcreteTotals {
        ordered: beside.ordered,
        delivered: Volume::cubic_meters(delivered),
        rejected: Volume::cubic_meters(rejected),
        wasted: Volume::cubic_meters(wasted),
        left_in_lines: beside.left_in_lines,
        placed: Volume::cubic_meters(placed),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn depth(feet: f64) -> Depth {
        Depth(Length::feet(feet))
    }

    fn drilled(top: f64, bottom: f64, diameter_in: f64, material: &str) -> Drilled {
        let (top, bottom, diameter) = (depth(top), depth(bottom), Length::inches(diameter_in));
        Drilled { top, bottom, diameter, material: material.to_owned() }
    }

    #[test]
    fn lengths_by_diameter_and_material() {
        let stretches = [
            drilled(0.0, 10.0, 42.0, "soil"),
            drilled(10.0, 22.5, 36.0, "soil"),
            drilled(22.5, 30.0, 36.0, "rock"),
            drilled(30.0, 31.0, 36.0, "soil"),
        ];
        let (totals, issues) = drilled_lengths(&stretches).unwrap();
        let told: Vec<_> = totals
            .iter()
            .map(|total| {
                format!("{} in {} {} ft", total.diameter.to_inches(), total.material, total.length.to_feet())
            })
            .collect();
        assert_eq!(told, ["36 in rock 7.5 ft", "36 in soil 13.5 ft", "42 in soil 10 ft"]);
        assert_eq!(issues, []);
    }

    #[test]
    fn overlaps_and_gaps_are_named() {
        let stretches = [
            drilled(12.0, 20.0, 36.0, "soil"),
            drilled(0.0, 10.0, 36.0, "soil"),
            drilled(18.0, 25.0, 36.0, "rock"),
        ];
        let (totals, issues) = drilled_lengths(&stretches).unwrap();
        assert_eq!(totals.iter().map(|total| total.length).sum::<Length>(), Length::feet(25.0));
        assert_eq!(
            issues,
            [
                PaymentIssue::Gap { top: depth(10.0), bottom: depth(12.0) },
                PaymentIssue::Overlap { top: depth(18.0), bottom: depth(20.0) },
            ]
        );
        let inverted = drilled_lengths(&[drilled(5.0, 4.0, 36.0, "soil")]);
        assert_eq!(inverted, Err(PaymentError::Inverted { stretch: 0 }));
    }

    #[test]
    fn minutes_lost_count_once() {
        let at = |clock: &str| Moment::parse(&format!("2026-05-04T{clock}:00-06:00")).expect("a moment");
        let lost = |from, until| LostTime { from: at(from), until: at(until) };
        let times = [lost("09:00", "10:00"), lost("09:30", "10:30"), lost("13:00", "13:20")];
        assert_eq!(obstruction_time(&times).unwrap().to_minutes(), 110.0);
        assert_eq!(obstruction_time(&[lost("10:00", "09:00")]), Err(PaymentError::Backwards { time: 0 }));
        assert_eq!(obstruction_time(&[]).unwrap().to_minutes(), 0.0);
    }

    fn load(delivered: f64, wasted: f64, rejected: bool) -> LoadQuantity {
        let (delivered, wasted) = (Volume::cubic_yards(delivered), Volume::cubic_yards(wasted));
        LoadQuantity { delivered, wasted, rejected }
    }

    #[track_caller]
    fn check_concrete(loads: &[LoadQuantity], lines: f64, expected: &str) {
        let beside = BesideTickets { ordered: None, left_in_lines: Volume::cubic_yards(lines) };
        let got = match concrete_totals(loads, beside) {
            Ok(totals) => [totals.delivered, totals.rejected, totals.wasted, totals.placed]
                .map(|volume| format!("{:.2}", volume.to_cubic_yards()))
                .join(" "),
            Err(error) => error.to_string(),
        };
        assert_eq!(got, expected);
    }

    /// 9 + 9 + 9 + 4 = 31 delivered, 9 sent back, 0.5 wasted, 0.75 in the line: 20.75 placed.
    #[test]
    fn concrete_delivered_and_placed() {
        let loads =
            [load(9.0, 0.0, false), load(9.0, 0.0, true), load(9.0, 0.0, false), load(4.0, 0.5, false)];
        check_concrete(&loads, 0.75, "31.00 9.00 0.50 20.75");
        check_concrete(&[load(4.0, 4.5, false)], 0.0, "load 1 let go more than it brought");
        check_concrete(&[load(4.0, 0.0, false)], 4.5, "the lines hold more than was delivered");
        check_concrete(&[], 0.0, "0.00 0.00 0.00 0.00");
    }
}
