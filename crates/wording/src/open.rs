//! What a person still has to settle: disputes, loose corrections, entries of a newer version, late entries.

use crate::entry::entry_reference;
use crate::notice::Notice;
use crate::phrase::and;
use crate::show::Show;
use quantity::Span;
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
