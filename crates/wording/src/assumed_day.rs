//! What is assumed of trucks and of the day of a pour, for the list of everything that was assumed.
//!
//! Never: leave out a figure that an order or a played day rests on.

use crate::caution::{Assumption, row};
use crate::show::Show;
use assess::assumed;
use calc::pour_day::HowLong;

/// Trucks, lines and the round of a truck.
pub(crate) fn of_pour(show: &Show) -> Vec<Assumption> {
    [of_trucks(show), of_round(show), of_plan(show)].concat()
}

fn of_trucks(show: &Show) -> Vec<Assumption> {
    let in_yards = show.style().system == quantity::System::Us;
    let (truck, step) = (assumed::truck(in_yards), assumed::truck_step(in_yards));
    vec![
        row(
            "A truck",
            format!("{}, in steps of {}", show.volume(truck), show.volume(step)),
            "Where neither plan nor ticket says how much one holds. Common practice, no source.",
        ),
        row(
            "Error of what stays in the lines",
            format!("± {}", show.volume(assumed::lines_error())),
            "Standard error of what is lost in lines at the end. Judgement; there is no source.",
        ),
    ]
}

/// One row a part of the round, so that each figure stands where it is looked for.
fn of_round(show: &Show) -> Vec<Assumption> {
    let round = assumed::round();
    let part = |about: &'static str, long: HowLong| {
        let figures = format!("{}; slow {}", show.span(long.usual), show.span(long.slow));
        row(
            about,
            figures,
            "Usual, and longer than the slow figure one time in ten. Common practice, no source.",
        )
    };
    vec![
        part("A truck: loading at the plant", round.bay),
        part("A truck: road to the site", round.haul),
        part("A truck: tests", round.test),
        part("A truck: into place", round.position),
        part("A truck: discharge", round.discharge),
        part("A truck: back to the plant", round.back),
        part("A section off the line", round.section),
        part("A lift of casing", round.lift),
        part("From the last concrete to the end", round.finish),
    ]
}

fn of_plan(show: &Show) -> Vec<Assumption> {
    vec![
        row(
            "A planned time, one time in ten",
            format!("{} times as long", show.ratio(assumed::slower())),
            "Where the plan has one figure. Today\u{2019}s own loads correct it. Common practice, no source.",
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
