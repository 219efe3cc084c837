//! What is assumed of trucks and of the day of a pour, for the list of everything that was assumed.
//!
//! Never: leave out a figure that an order or a played day rests on.

use crate::caution::{Assumption, row};
use crate::show::Show;
use assess::assumed;
use calc::pour_day::HowLong;

/// Trucks, lines and the round of a truck.
pub(crate) fn of_pour(show: &Show) -> Vec<Assumption> {
    let in_yards = show.style().system == quantity::System::Us;
    vec![
        row(
            "A truck",
            format!(
                "{}, in steps of {}",
                show.volume(assumed::truck(in_yards)),
                show.volume(assumed::truck_step(in_yards))
            ),
            "Where neither plan nor ticket says how much one holds. Common practice, no source.",
        ),
        row(
            "Error of what stays in the lines",
            format!("± {}", show.volume(assumed::lines_error())),
            "Standard error of what is lost in lines at the end. Judgement; there is no source.",
        ),
        row(
            "A truck\u{2019}s round",
            round(show),
            "Usual, and one time in ten longer than the second figure; only where it was not planned. Today\u{2019}s own loads \
             correct it. Common practice, no source.",
        ),
        row(
            "A planned time, one time in ten",
            format!("{} times as long", show.ratio(assumed::slower())),
            "Where the plan has one figure. Common practice, no source.",
        ),
        row(
            "Weight of the plan against today",
            format!("as many as {} loads", show.plain(assumed::plan_worth(), 0)),
            "The planned times count as so many of today\u{2019}s loads. Judgement; there is no source.",
        ),
        row(
            "Enough trucks",
            format!(
                "from a probability of {} on, up to {}",
                show.ratio(assumed::safe_from()),
                assumed::most_trucks()
            ),
            "Of ending within the slump life and without a gap over the limit. Judgement; there is no source.",
        ),
    ]
}

/// `loading 6 to 9 min, road 30 to 40 min, …`.
fn round(show: &Show) -> String {
    let round = assumed::round();
    let long =
        |what: &str, long: HowLong| format!("{what} {} to {}", show.span(long.usual), show.span(long.slow));
    let all = [
        long("loading", round.bay),
        long("road", round.haul),
        long("tests", round.test),
        long("into place", round.position),
        long("discharge", round.discharge),
        long("back", round.back),
        long("a section of the line", round.section),
        long("a lift of casing", round.lift),
        long("from the last concrete to the end", round.finish),
    ];
    all.join(", ")
}
