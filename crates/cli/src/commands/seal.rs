//! `seal`: a shaft's entries and pages in one PDF that proves itself.
//!
//! The pages are drawn from the sealed entries alone, so that whoever has the PDF can draw them again. The entry that
//! seals is kept before the PDF is written: a PDF that was lost is made again from it, the same byte for byte.

mod draft;
mod refused;

pub(crate) use draft::{PROGRAM, made_again};
pub(crate) use refused::not_sealed;

use crate::args::Command;
use crate::commands::package::{failed, house_fonts, paper_of};
use crate::file::{file_name, write};
use crate::folder::{DESK, Folder, shaft_of};
use crate::papers::on_site;
use crate::problem::Problem;
use crate::screen::Screen;
use crate::view::View;
use draft::Draft;
use quantity::Moment;
use record::kinds::Body;
use record::{Entry, Held, Record};
use refused::{gone, refuse_unready, unproved};
use report::Fonts;
use std::path::PathBuf;
use wire::{Key, Pen, Times};

pub(crate) fn run(command: &Command, now: Moment, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Seal { shaft, by, out, paper, with_open_findings, job } = command else { return Ok(()) };
    let mut folder = Folder::open_to_write(&job.job)?;
    let record = folder.record()?;
    let shaft = shaft_of(&record, shaft)?;
    let out = out.clone().unwrap_or_else(|| PathBuf::from(format!("{}-sealed.pdf", file_name(&shaft))));
    let fonts = Fonts::new(&house_fonts()).map_err(|error| failed(&error))?;
    if let Some(entry) = standing(&record, &shaft)? {
        write(&out, &made_again(&record, entry, &fonts)?)?;
        screen.say("The shaft is sealed already and nothing came after it; the same package was made again.");
        screen.line(&out.display().to_string());
        return Ok(());
    }
    let asked = Asked { shaft: &shaft, by, paper: *paper, with_open_findings: *with_open_findings, now };
    let (entry, pdf) = sealed(&record, &asked, &folder.key(DESK)?, &fonts)?;
    folder.add(&[Held::Known(entry.clone())])?;
    write(&out, &pdf)?;
    tell(&entry, screen);
    screen.line(&out.display().to_string());
    Ok(())
}

/// What is to be sealed, and how.
pub(crate) struct Asked<'a> {
    pub(crate) shaft: &'a str,
    /// Who seals.
    pub(crate) by: &'a str,
    /// As the job's other papers when left out.
    pub(crate) paper: Option<crate::args::Paper>,
    pub(crate) with_open_findings: bool,
    pub(crate) now: Moment,
}

/// The entry that seals a shaft, and its package, which was proved. Nothing is kept yet.
pub(crate) fn sealed(
    record: &Record,
    asked: &Asked<'_>,
    key: &Key,
    fonts: &Fonts,
) -> Result<(Entry, Vec<u8>), Problem> {
    refuse_unready(record, asked.shaft, asked.with_open_findings)?;
    let set = record.of_shaft_and_job(asked.shaft);
    let view = View::at(&set, asked.shaft, None);
    let (made, paper) = (on_site(&view.log, asked.now), paper_of(asked.paper, &view));
    let draft = Draft { set: &set, made, by: asked.by, paper };
    let drawn = draft.drawn(&view, fonts)?;
    let job = record.job().unwrap_or_default();
    let mut pen = Pen::new(key, job, asked.by, record.head(&key.device()));
    let times = Times { observed_at: made, noted_at: None, entered_at: made };
    let entry = pen.write(Some(asked.shaft), times, Body::ShaftSealed(draft.sealed(&drawn)?));
    let pdf = draft::with_seal(&drawn, &entry)?;
    prove(&pdf)?;
    Ok((entry, pdf))
}

fn tell(entry: &Entry, screen: &mut Screen) {
    let Body::ShaftSealed(sealed) = &entry.body else { return };
    let shaft = entry.shaft.as_deref().unwrap_or_default();
    screen.say(&format!(
        "Shaft {shaft} is sealed: {} entries under the root {}, {} pages.",
        sealed.entries,
        sealed.root,
        sealed.pages.len()
    ));
    screen.say("What comes after it is a supplement; what is sealed can no longer be altered unseen.");
}

/// The entry that seals the shaft, where nothing of it came after.
pub(crate) fn standing<'r>(record: &'r Record, shaft: &str) -> Result<Option<&'r Entry>, Problem> {
    let Some(supplement) = record.supplement(shaft) else { return Ok(None) };
    let said = supplement.seal.said;
    let set = record.sealed_set(shaft, said).map_err(|missing| gone(missing.len()))?;
    if seal::root_of(&set) != said.root {
        return Err(gone(0));
    }
    Ok(supplement.entries.is_empty().then_some(supplement.seal.entry))
}

/// What is handed out is proved first.
fn prove(pdf: &[u8]) -> Result<(), Problem> {
    let proof = seal::prove(pdf).map_err(|error| unproved(&error.to_string()))?;
    let faults: Vec<String> = proof.faults.iter().map(ToString::to_string).collect();
    if faults.is_empty() { Ok(()) } else { Err(unproved(&faults.join("; "))) }
}
