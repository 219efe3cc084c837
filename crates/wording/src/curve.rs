//! What is odd about a volume curve.

use crate::notice::Notice;
use crate::show::Show;
use assess::reckon::PourReckoning;
use calc::curve::Issue;

/// An issue of a volume curve, with the time of the sounding it is about.
pub fn curve_issue(issue: Issue, pour: &PourReckoning, show: &Show) -> Notice {
    let when = |at: usize| {
        pour.soundings.get(at).map_or_else(|| "unknown".to_owned(), |sounding| show.moment(sounding.at))
    };
    match issue {
        Issue::SurfaceFell { at, by } => Notice::new(
            "surface_fell",
            format!("The concrete surface went down {} by the sounding of {}.", show.length(by), when(at)),
            "Both soundings are kept, and the interval has no ratio.",
            "Sound again and add the reading; if the surface did go down, look for a void or a leak.",
        ),
        Issue::TotalFell { at, by } => Notice::new(
            "total_fell",
            format!(
                "By the sounding of {} the concrete placed is {} less than at the sounding before.",
                when(at),
                show.volume(by)
            ),
            "The readings are kept, and the interval has no ratio.",
            "Check the waste and the volume in the line that were entered before this sounding.",
        ),
        Issue::TinyInterval { at, rise } => Notice::new(
            "tiny_interval",
            format!("Up to the sounding of {} the surface rose only {}.", when(at), show.length(rise)),
            "The reading is kept; so short an interval says little, because the error of the tape is large \
             beside it.",
            "Read it together with its neighbors.",
        ),
        Issue::HardlyRose { at, rise, fills } => Notice::new(
            "hardly_rose",
            format!(
                "Up to the sounding of {} the surface rose only {}, and what was placed since the sounding before fills \
                 {} of the hole as drawn.",
                when(at),
                show.length(rise),
                show.length(fills)
            ),
            "Both soundings are kept. If one of them was misread, the interval on its other side looks wrong too, the \
             opposite way; if both are right, concrete went where the drawing has no room.",
            "Look at the tape and the reference, sound again, and correct the entry if it was misread; otherwise look \
             for a void.",
        ),
        Issue::OutsideBore { at, level } => Notice::new(
            "outside_bore",
            format!(
                "The level {} sounded at {} lies outside the hole as planned and drilled.",
                show.elevation(level),
                when(at)
            ),
            "The sounding is kept, and no theoretical volume can be told for it.",
            "Check the depth and the reference, and whether the plan or a tool run is missing.",
        ),
    }
}
