//! Questions about times.

use crate::show::Show;
use record::Suspicion;

pub(super) fn asked(suspicion: &Suspicion, show: &Show) -> (String, String) {
    let at = |moment: &quantity::Moment| show.moment(*moment);
    match suspicion {
        Suspicion::TimeBackwards { before, at: seen } => (
            format!("The entry before this one was seen at {}, this one at {}.", at(before), at(seen)),
            "If one of the times was a slip, correct it. A late entry needs no correction.".to_owned(),
        ),
        Suspicion::EndsBeforeItBegins { begins, ends } => (
            format!("The end ({}) lies before the beginning ({}).", at(ends), at(begins)),
            "Correct the time that was a slip; after midnight the date changes too.".to_owned(),
        ),
        Suspicion::DischargedBeforeArrival { ticket, arrived, discharged } => (
            format!("Load {ticket} discharged at {}, before it arrived at {}.", at(discharged), at(arrived)),
            "Compare the ticket and the times. Correct the one that was a slip.".to_owned(),
        ),
        Suspicion::BatchedAfterArrival { ticket, batched, arrived } => (
            format!("Load {ticket} was batched at {}, after it arrived at {}.", at(batched), at(arrived)),
            "Read the batch time on the ticket once more. Correct the time that was a slip.".to_owned(),
        ),
        Suspicion::SeenAfterEntered { seen, entered } => (
            format!("Seen at {}, but entered before that, at {}.", at(seen), at(entered)),
            "Look at the clock of the device. If the time seen was a slip, correct it.".to_owned(),
        ),
        _ => unreachable!("a question about a reading"),
    }
}
