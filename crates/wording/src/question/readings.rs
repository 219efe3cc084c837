//! Questions about readings.

use crate::label::field_named;
use crate::phrase::small;
use crate::show::Show;
use quantity::{Depth, Length, Volume};
use record::Suspicion;

pub(super) fn asked(suspicion: &Suspicion, show: &Show) -> (String, String) {
    match suspicion {
        Suspicion::DeeperThanHole { depth, hole } => (
            format!(
                "The reading of {} lies deeper than the hole was at that time ({}).",
                show.depth(*depth),
                show.depth(*hole)
            ),
            "Sound again. If the hole was deeper, enter the tool run that is missing; if the reading was a \
             slip, correct it."
                .to_owned(),
        ),
        Suspicion::ConcreteFell { before, after, ticket } => (
            format!(
                "The concrete surface went down from {} to {} depth{}.",
                show.depth(*before),
                show.depth(*after),
                ticket.as_ref().map_or_else(String::new, |ticket| format!(" while load {ticket} went in"))
            ),
            "Sound again and add the reading. If it did go down, say in a remark what was seen: concrete may \
             be running into a void."
                .to_owned(),
        ),
        Suspicion::LoadVolume { ticket, volume, usual } => load_volume(ticket, (*volume, *usual), show),
        Suspicion::LengthUnusual { field, length, low, high } => {
            length_unusual(field, *length, (*low, *high), show)
        }
        Suspicion::ElevationDisagrees { written, follows } => (
            format!(
                "The elevation written is {}; from the reference and the depth follows {}.",
                show.elevation(*written),
                show.elevation(*follows)
            ),
            "Look at the reference and the depth once more. The depth is what is reckoned with; correct the \
             one that was a slip."
                .to_owned(),
        ),
        Suspicion::TicketTwice { ticket } => (
            format!("Ticket {ticket} arrived twice."),
            "Compare the paper tickets. If one number was a slip, correct that entry.".to_owned(),
        ),
        Suspicion::TicketUnknown { ticket } => (
            format!("No load arrived with ticket {ticket}."),
            "Enter the arrival of that load, or correct the ticket number.".to_owned(),
        ),
        Suspicion::RunsDoNotMeet { ended, begins } => (
            format!(
                "This run begins at {}, the one before it ended at {}.",
                show.depth(*begins),
                show.depth(*ended)
            ),
            "If a run is missing, enter it. If the hole filled or was deepened in between, say so in a remark."
                .to_owned(),
        ),
        Suspicion::RunWithoutBeginning { reached, ended } => without_beginning((*reached, *ended), show),
        Suspicion::ValueUnusual { field, written, usual } => (
            format!("{} {written} is unusual here; {usual} is usual.", field_named(field)),
            "Read the instrument and the unit once more. Keep the value, or correct it.".to_owned(),
        ),
        _ => unreachable!("a question about a time"),
    }
}

fn without_beginning((reached, ended): (Depth, Option<Depth>), show: &Show) -> (String, String) {
    let (before, counted) = match ended {
        Some(ended) => (
            format!("; the one before it ended at {}", show.depth(ended)),
            "counts it from where the one before ended",
        ),
        None => (", and no run lies before it".to_owned(), "leaves it out"),
    };
    (
        format!("This run reached {} and says no depth it began at{before}.", show.depth(reached)),
        format!("Correct it with the depth it began at. Until then the drilled length {counted}."),
    )
}

fn load_volume(ticket: &str, volumes: (Volume, Volume), show: &Show) -> (String, String) {
    let (volume, usual) = volumes;
    (
        format!("Load {ticket} brings {}; a load here is about {}.", show.volume(volume), show.volume(usual)),
        "Read the ticket once more. Keep the volume, or correct it.".to_owned(),
    )
}

/// `Diameter 48.0 ft is unusual; 1.0 ft to 15.0 ft is usual. Did you mean 48 in?`
fn length_unusual(field: &str, length: Length, usual: (Length, Length), show: &Show) -> (String, String) {
    let (low, high) = usual;
    let label = field_named(field);
    let what = format!(
        "{label} {} is unusual; {} to {} is usual.",
        show.length(length),
        show.length(low),
        show.length(high)
    );
    let fits = |length: Length| low <= length && length <= high;
    let meant = other_units(length).into_iter().find(|(other, _)| fits(*other)).map(|(_, text)| text);
    let next = match meant {
        Some(meant) => format!("Did you mean {meant}? Keep the {}, or correct it.", small(&label)),
        None => format!("Read the {} once more. Keep it, or correct it.", small(&label)),
    };
    (what, next)
}

/// The same number in the units it may have been meant in.
fn other_units(length: Length) -> [(Length, String); 4] {
    let told = |number: f64, unit: &str| {
        format!("{} {unit}", crate::number::trimmed(quantity::Number::computed(number), 2))
    };
    let (feet, inches, meters) = (length.to_feet(), length.to_inches(), length.to_meters());
    [
        (Length::inches(feet), told(feet, "in")),
        (Length::feet(inches), told(inches, "ft")),
        (Length::meters(meters / 1000.0), told(meters, "mm")),
        (Length::meters(meters * 1000.0), told(meters * 1000.0, "m")),
    ]
}
