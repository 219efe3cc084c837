//! `seal`: a shaft's entries and pages in one PDF that proves itself.
//!
//! The pages are drawn from the sealed entries alone, so that whoever has the PDF can draw them again. The entry that
//! seals is kept before the PDF is written: a PDF that was lost is made again from it, the same byte for byte.

use crate::args::{Command, Paper as Asked};
use crate::commands::package::{failed, house_fonts, paper_of, source};
use crate::file::{file_name, write};
use crate::folder::{DESK, Folder, shaft_of};
use crate::papers::on_site;
use crate::problem::{OPEN, Problem};
use crate::screen::Screen;
use crate::view::View;
use quantity::Moment;
use record::kinds::{Body, ShaftSealed};
use record::{Entry, Held, Record};
use report::{Attachment, Fonts, Paper, ReportInput};
use seal::{Covered, Lack};
use std::path::PathBuf;
use wire::{Pen, Times};

/// The program that draws the pages; another version may draw them otherwise.
pub(crate) const PROGRAM: &str = concat!("shaftbook ", env!("CARGO_PKG_VERSION"));

pub(crate) fn run(command: &Command, now: Moment, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Seal { shaft, by, out, paper, with_open_findings, job } = command else { return Ok(()) };
    let mut folder = Folder::open_to_write(&job.job)?;
    let record = folder.record()?;
    let shaft = shaft_of(&record, shaft)?;
    let out = out.clone().unwrap_or_else(|| PathBuf::from(format!("{}-sealed.pdf", file_name(&shaft))));
    let fonts = Fonts::new(&house_fonts()).map_err(|error| failed(&error))?;
    if let Some(entry) = standing(&record, &shaft)? {
        let pdf = made_again(&record, entry, &fonts)?;
        write(&out, &pdf)?;
        screen.say("The shaft is sealed already and nothing came after it; the same package was made again.");
        screen.line(&out.display().to_string());
        return Ok(());
    }
    refuse_unready(&record, &shaft, *with_open_findings)?;
    let covered = Covered::now(&record, &shaft);
    let view = View::at(&covered.record, &shaft, None);
    let made = on_site(&view.log, now);
    let paper = paper_of(*paper, &view);
    let draft = Draft { covered: &covered, paper, input: input(&covered.record, &view, made, paper) };
    let key = folder.key(DESK)?;
    let mut pen = Pen::new(&key, record.job().unwrap_or_default(), by, record.head(&key.device()));
    let times = Times { observed_at: made, noted_at: None, entered_at: made };
    let entry = pen.write(Some(&shaft), times, Body::ShaftSealed(draft.sealed(&fonts)?));
    let pdf = draft.pdf(Some(&entry), &fonts)?;
    prove(&pdf)?;
    folder.add(&[Held::Known(entry.clone())])?;
    write(&out, &pdf)?;
    tell(&entry, screen);
    screen.line(&out.display().to_string());
    Ok(())
}

fn tell(entry: &Entry, screen: &mut Screen) {
    let Body::ShaftSealed(sealed) = &entry.body else { return };
    let shaft = entry.shaft.as_deref().unwrap_or_default();
    screen.say(&format!(
        "Shaft {shaft} is sealed: {} entries under the root {}, {} pages.",
        sealed.entries, sealed.root, sealed.page_count
    ));
    screen.say("What comes after it is a supplement; what is sealed can no longer be altered unseen.");
}

/// The entry that seals the shaft, where nothing of it came after.
fn standing<'r>(record: &'r Record, shaft: &str) -> Result<Option<&'r Entry>, Problem> {
    let seals = record.entries().filter_map(|held| match held {
        Held::Known(entry) if entry.shaft.as_deref() == Some(shaft) => match &entry.body {
            Body::ShaftSealed(sealed) => Some((entry, sealed)),
            _ => None,
        },
        _ => None,
    });
    let Some((entry, sealed)) = seals.max_by_key(|(entry, _)| (entry.entered_at, entry.id)) else {
        return Ok(None);
    };
    let covered = Covered::by(record, shaft, sealed).map_err(|missing| gone(missing.len()))?;
    if covered.root() != sealed.root {
        return Err(gone(0));
    }
    Ok(covered.later(record, shaft).of_shaft.is_empty().then_some(entry))
}

fn gone(missing: usize) -> Problem {
    let what = match missing {
        0 => "The entries that were sealed are not the ones that are here.".to_owned(),
        _ => format!("{missing} entries that were sealed are not here."),
    };
    Problem::new(what, "Merge in the record the sealed package holds, or another device's.")
        .meaning("This folder lacks a part of what was sealed; nothing was written.")
        .exit(crate::problem::ALTERED)
}

fn refuse_unready(record: &Record, shaft: &str, with_open_findings: bool) -> Result<(), Problem> {
    let lacks: Vec<String> = seal::lacks(record, shaft).iter().map(|lack| lack_text(lack, record)).collect();
    if !lacks.is_empty() {
        return Err(Problem::new(lacks.join("\n"), "Enter what is missing, then seal.")
            .meaning("The shaft cannot be sealed yet; nothing was written."));
    }
    let view = View::at(record, shaft, None);
    let open = view.assessment.findings.iter().filter(|finding| finding.is_open()).count();
    if open > 0 && !with_open_findings {
        let what = match open {
            1 => "One finding fails and nobody has decided about it.".to_owned(),
            many => format!("{many} findings fail and nobody has decided about them."),
        };
        let next =
            "Let the engineer decide (finding_disposed), or seal --with-open-findings: the pages tell them.";
        let meaning = "The shaft cannot be sealed like this; nothing was written.";
        return Err(Problem::new(what, next).meaning(meaning).exit(OPEN));
    }
    Ok(())
}

fn lack_text(lack: &Lack, record: &Record) -> String {
    let role = |role: &record::choices::Role| wording::label::choice(role.word()).to_lowercase();
    match lack {
        Lack::NoEntries => "No entry is about this shaft.".to_owned(),
        Lack::Chain(alarm) => wording::alarm(alarm, record).what,
        Lack::Dispute(about) => format!("The dispute about entry {} is not closed.", about.short()),
        Lack::Loose(id) => format!("An entry corrects {}, which is not here.", id.short()),
        Lack::Newer(id) => {
            format!("Entry {} was written by a newer program: update this one first.", id.short())
        }
        Lack::NotSigned(part) => format!("Nobody has signed as {}.", role(part)),
        Lack::SignedTooEarly { role: part, name, after } => format!(
            "{name} signed as {} before entry {} was made, and has to sign again.",
            role(part),
            after.short()
        ),
    }
}

/// The pages of a sealed set, as anybody who has the set can draw them.
struct Draft<'a> {
    covered: &'a Covered,
    paper: Paper,
    input: ReportInput,
}

fn input(record: &Record, view: &View<'_>, made: Moment, paper: Paper) -> ReportInput {
    package::shaft(&source(record, view, made, paper))
}

impl Draft<'_> {
    /// What the seal says of entries and pages.
    fn sealed(&self, fonts: &Fonts) -> Result<ShaftSealed, Problem> {
        let drawn = seal::Paper::read(&self.pdf(None, fonts)?).map_err(|error| unreadable(&error))?;
        let count = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
        Ok(ShaftSealed {
            root: self.covered.root(),
            entries: count(self.covered.record.len()),
            heads: self.covered.heads.clone(),
            pages: drawn.pages,
            page_count: count(drawn.page_count),
            paper: paper_word(self.paper).to_owned(),
            program: PROGRAM.to_owned(),
        })
    }

    fn pdf(&self, seal: Option<&Entry>, fonts: &Fonts) -> Result<Vec<u8>, Problem> {
        let mut files = vec![Attachment {
            name: seal::RECORD_FILE,
            media: "application/jsonl",
            what: "The sealed entries, one a line, each with its signature",
            bytes: wire::write_lines(&self.covered.record).into_bytes(),
        }];
        files.extend(seal.map(|entry| Attachment {
            name: seal::SEAL_FILE,
            media: "application/jsonl",
            what: "The entry that seals them",
            bytes: (wire::write(&Held::Known(entry.clone())) + "\n").into_bytes(),
        }));
        let pdf = report::sealed_package(&self.input, &files, fonts).map_err(|error| failed(&error))?;
        Ok(pdf.bytes)
    }
}

/// The package of a seal that stands, drawn again from what it covers.
pub(crate) fn made_again(record: &Record, entry: &Entry, fonts: &Fonts) -> Result<Vec<u8>, Problem> {
    let (Some(shaft), Body::ShaftSealed(sealed)) = (entry.shaft.as_deref(), &entry.body) else {
        return Err(gone(0));
    };
    let covered = Covered::by(record, shaft, sealed).map_err(|missing| gone(missing.len()))?;
    let view = View::at(&covered.record, shaft, None);
    let paper = if sealed.paper == paper_word(Paper::Letter) { Paper::Letter } else { Paper::A4 };
    let draft =
        Draft { covered: &covered, paper, input: input(&covered.record, &view, entry.observed_at, paper) };
    draft.pdf(Some(entry), fonts)
}

fn paper_word(paper: Paper) -> &'static str {
    match paper {
        Paper::Letter => "letter",
        Paper::A4 => "a4",
    }
}

/// What is handed out is proved first.
fn prove(pdf: &[u8]) -> Result<(), Problem> {
    let proof = seal::prove(pdf).map_err(|error| unreadable(&error))?;
    if proof.faults.is_empty() {
        return Ok(());
    }
    let what = format!("The package does not prove itself: {:?}.", proof.faults);
    Err(Problem::new(what, "Keep the record and report what was printed here.")
        .meaning("The shaft was not sealed; nothing was written."))
}

fn unreadable(error: &seal::Unreadable) -> Problem {
    let what = format!("The pages that were made cannot be read: {error}.");
    Problem::new(what, "Keep the record and report what was printed here.")
        .meaning("The shaft was not sealed; nothing was written.")
}
