//! What a person still has to settle: disputes, holds, questions of people, loose corrections, entries of a newer
//! version, late entries.

use crate::entry::entry_reference;
use crate::notice::Notice;
use crate::phrase::{and, stop};
use crate::show::Show;
use quantity::Span;
use record::kinds::{HoldPlaced, QuestionAsked};
use record::{Dispute, EntryId, Line, Log, Newer};

/// Two or more corrections of one entry, and nobody has decided between them.
pub fn dispute(dispute: &Dispute, log: &Log<'_>, show: &Show) -> Notice {
    let candidates: Vec<String> =
        dispute.candidates.iter().map(|id| entry_reference(*id, log, show)).collect();
    Notice::new(
        "dispute",
        format!(
            "The entry {} was corrected {} times, differently: {}.",
            entry_reference(dispute.about, log, show),
            dispute.candidates.len(),
            and(&candidates)
        ),
        "Every version is kept and shown; none of them counts in the reckoning until a person decides.",
        "Talk to those who wrote them, then enter “Dispute closed” with the version that stands and why.",
    )
}

/// Work may not go on until somebody says so, and nobody has.
pub fn hold(line: &Line<'_>, placed: &HoldPlaced, show: &Show) -> Notice {
    let (at, by) = (show.moment(line.at), &line.entry.author);
    Notice::new(
        "hold",
        format!("Hold: {}", placed.hold),
        &format!("{} Placed {at} by {by}; nobody has released it.", stop(&placed.reason)),
        "Settle it, then enter “Hold released” with the name of the one who released it.",
    )
}

/// Somebody asks about an entry, and nobody has answered.
pub fn asked(line: &Line<'_>, asked: &QuestionAsked, log: &Log<'_>, show: &Show) -> Notice {
    let (by, about) = (&line.entry.author, entry_reference(asked.about, log, show));
    Notice::new(
        "asked",
        format!("{by} asks about {about}: {}", stop(&asked.question)),
        "The entry is kept as written; the shaft is not sealed before the question has an answer.",
        "Enter “Question answered”; it stays beside the question.",
    )
}

/// A correction of an entry that is not in this record.
pub fn loose(correction: EntryId, log: &Log<'_>, show: &Show) -> Notice {
    Notice::new(
        "loose_correction",
        format!(
            "The correction {} is about an entry that is not here.",
            entry_reference(correction, log, show)
        ),
        "The correction is kept and changes nothing until that entry arrives.",
        "Merge the record of the device that wrote the entry.",
    )
}

/// An entry of a newer version of this program.
pub fn newer(entry: &Newer, show: &Show) -> Notice {
    let (seq, device) = (entry.seq, entry.device.short());
    let at = show.moment(entry.observed_at);
    Notice::new(
        "needs_update",
        format!(
            "Entry {seq} of the device {device}, seen at {at}, was written by a newer version (format {}).",
            entry.format
        ),
        "It is kept byte for byte and travels on; this version cannot read it, so no figure counts it.",
        "Update this program, then look at the figures again.",
    )
}

/// An entry that was written down well after it was seen; `None` when it was not late.
pub fn late(line: &Line<'_>, log: &Log<'_>, show: &Show) -> Option<Notice> {
    let after = show.span(Span::minutes(line.late_minutes()?));
    let (written, at) = match line.entry.noted_at {
        Some(noted) => ("noted", noted),
        None => ("entered", line.entry.entered_at),
    };
    Some(Notice::new(
        "late_entry",
        format!(
            "The entry {} was {written} at {}, {after} after it was seen.",
            entry_reference(line.entry.id, log, show),
            show.moment(at)
        ),
        "It counts like any other and says wherever it is shown that it is late.",
        "Nothing to do; a remark on why helps whoever reads the record later.",
    ))
}
