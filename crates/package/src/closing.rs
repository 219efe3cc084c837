//! What closes a package: corrections, disputes, questions, photos, signatures, digest.

use crate::Source;
use crate::findings::capital;
use record::entry::FileHash;
use record::kinds::{DisputeClosed, Signed};
use record::{Body, Entry, EntryId, Line, Record, Standing};
use report::{Caution, Correction, Dispute, Doubt, Photo, Question, RecordDigest, Sealed, Signature};
use wording::{Show, entry_text};

/// Every correction: those that struck without a replacement, and those of entries that never arrived, too.
pub(crate) fn corrections(source: &Source<'_, '_>) -> Vec<Correction> {
    source.log.corrections.iter().filter_map(|entry| correction(source, entry)).collect()
}

fn correction(source: &Source<'_, '_>, entry: &Entry) -> Option<Correction> {
    let Body::Correction(correction) = &entry.body else { return None };
    let show = source.show();
    let replaced = source.log.lines.iter().find(|line| line.entry.id == correction.replaces);
    let seen = correction.observed.map_or_else(String::new, |at| format!(" Seen at {}.", show.moment(at)));
    let is = correction.body.as_deref().map(|body| entry_text(body, &show));
    Some(Correction {
        what: wording::entry_reference(correction.replaces, source.log, &show),
        was: replaced.map_or_else(
            || "the entry is not in this record".to_owned(),
            |line| entry_text(line.body, &show),
        ),
        is: format!("{}{seen}", is.unwrap_or_else(|| "struck through, nothing in its place".to_owned())),
        by: format!("{}, {} ({})", entry.author, show.moment(entry.observed_at), entry.id.short()),
        why: correction.reason.clone(),
    })
}

pub(crate) fn disputes(source: &Source<'_, '_>) -> Vec<Dispute> {
    let show = source.show();
    let open = source.log.disputes.iter().map(|dispute| Dispute {
        what: wording::entry_reference(dispute.about, source.log, &show),
        candidates: dispute.candidates.iter().map(|id| candidate(source, *id, &show)).collect(),
        closed: String::new(),
    });
    let closed = source.log.each::<DisputeClosed>().map(|(line, closed)| Dispute {
        what: wording::entry_reference(closed.about, source.log, &show),
        candidates: vec![format!("kept: {}", candidate(source, closed.keeps, &show))],
        closed: format!(
            "{}, {} ({}): {}",
            closed.by.clone().unwrap_or_else(|| line.entry.author.clone()),
            show.moment(line.at),
            line.entry.id.short(),
            closed.reason
        ),
    });
    open.chain(closed).collect()
}

fn candidate(source: &Source<'_, '_>, id: EntryId, show: &Show) -> String {
    let line = source.log.lines.iter().find(|line| line.entry.id == id);
    line.map_or_else(
        || wording::entry_reference(id, source.log, show),
        |line| format!("{} ({}): {}", line.entry.author, id.short(), entry_text(line.body, show)),
    )
}

pub(crate) fn questions(source: &Source<'_, '_>) -> Vec<Question> {
    let show = source.show();
    let question = |question: &record::Question| {
        let notice = wording::question(question, &show, source.log);
        Question {
            about: wording::entry_reference(question.about, source.log, &show),
            asked: notice.what,
            answered: question.answer.as_ref().map_or_else(String::new, |(_, answer)| answer.clone()),
        }
    };
    source.assessment.questions.iter().map(question).collect()
}

/// What the formulas found odd.
pub(crate) fn doubts(source: &Source<'_, '_>) -> Vec<Doubt> {
    let show = source.show();
    let told = wording::doubts(source.assessment, source.log, &show).into_iter().map(|told| {
        let about = told.evidence.iter().map(|id| wording::entry_reference(*id, source.log, &show));
        Doubt {
            about: about.collect::<Vec<_>>().join("; "),
            what: format!("{} {}", told.notice.what, told.notice.meaning),
            next: told.notice.next,
        }
    });
    told.collect()
}

/// Every photo, struck ones too; the file is named by its digest alone.
pub(crate) fn photos(source: &Source<'_, '_>) -> Vec<Photo> {
    source.log.lines.iter().filter_map(|line| photo(source, line)).collect()
}

fn photo(source: &Source<'_, '_>, line: &Line<'_>) -> Option<Photo> {
    let Body::Photo(taken) = line.body else { return None };
    let depth = taken.depth.as_ref().map_or_else(String::new, |depth| format!(", at {}", depth.shown()));
    let struck = match line.standing {
        Standing::Struck { .. } => ". Struck through: see the corrections",
        Standing::Disputed { .. } => ". In dispute",
        Standing::Stands => "",
    };
    Some(Photo {
        taken: source.show().moment(line.at),
        shows: format!("{}{depth}{struck}", taken.caption),
        file: format!("{}, {}", line.entry.author, line.entry.id.short()),
        digest: taken.file.to_string(),
    })
}

pub(crate) fn cautions() -> Vec<Caution> {
    wording::cautions()
        .iter()
        .map(|c| Caution { danger: c.danger.to_owned(), text: c.text.to_owned() })
        .collect()
}

/// Every signature that stands in the record, and a line to write on for inspector and engineer where nobody signed
/// in that role.
pub(crate) fn signatures(source: &Source<'_, '_>) -> Vec<Signature> {
    let show = source.show();
    let signed = source.log.each::<Signed>().map(|(line, signed)| Signature {
        role: capital(&wording::label::choice(signed.role.word())),
        name: signed.name.clone(),
        sealed: Some(Sealed {
            at: show.moment(line.at),
            key: line.entry.device.short(),
            over: signed
                .statement
                .clone()
                .unwrap_or_else(|| "The record up to this entry; the signature is good.".to_owned()),
        }),
    });
    let signed: Vec<Signature> = signed.collect();
    let blank = |role: &str| Signature { role: role.to_owned(), name: String::new(), sealed: None };
    let unsigned =
        ["Inspector", "Engineer"].into_iter().filter(|role| !signed.iter().any(|one| is_role(one, role)));
    let lines: Vec<Signature> = unsigned.map(blank).collect();
    signed.into_iter().chain(lines).collect()
}

fn is_role(signature: &Signature, role: &str) -> bool {
    signature.role.eq_ignore_ascii_case(role)
}

/// The digest of what a package was made from. A sealed set is a part of the record; that the chains of the whole were
/// good was seen before it was sealed.
pub(crate) fn digest_of(source: &Source<'_, '_>) -> RecordDigest {
    let digest = digest(source.record);
    match source.sealing {
        None => digest,
        Some(_) => RecordDigest {
            covers: format!(
                "{} They are the sealed ones: of this shaft and of the whole job.",
                digest.covers
            ),
            checked: "Every id, signature and chain of the record was good when the shaft was sealed."
                .to_owned(),
            ..digest
        },
    }
}

/// The digest of the record, with what a stranger does to check it.
pub(crate) fn digest(record: &Record) -> RecordDigest {
    let devices: std::collections::BTreeSet<_> = record.entries().map(|held| held.place().0).collect();
    let alarms = record.alarms();
    RecordDigest {
        sha256: FileHash(wire::digest(record)).to_string(),
        covers: format!(
            "{} entries of {} {}.",
            record.len(),
            devices.len(),
            if devices.len() == 1 { "device" } else { "devices" }
        ),
        how_to_check:
            "Export the record, take the ids of all lines in ascending order, each followed by a line feed, \
                       and hash them with SHA-256; “shaftbook verify” does it and proves every signature."
                .to_owned(),
        checked: match alarms.is_empty() {
            true => "Every id, signature and chain was good when this package was made.".to_owned(),
            false => {
                alarms.iter().map(|alarm| wording::alarm(alarm, record).what).collect::<Vec<_>>().join(" ")
            }
        },
    }
}
