//! Gathers everything a package prints, from a record and its assessment.
//!
//! The report places texts and drawings and can do nothing else; this crate hands them over, already
//! judged, rounded and worded. Nothing is left out silently: every log of the record becomes a table,
//! every correction, dispute and question a row.
//!
//! Words: *source* = what a package is made from; *standing* = how a finding is shown.
//! Never: judge, calculate, make a sentence about a finding, read a clock or a file.

mod ahead;
mod captions;
mod closing;
mod findings;
mod heading;
mod logs;
mod plan;
mod seals;
mod sources;
mod summary;

#[cfg(test)]
mod tests;

pub use seals::Sealing;
pub use sources::document;
pub use summary::job;

use assess::{Assessment, Earlier};
use criteria::SetInForce;
use quantity::Moment;
use record::{Log, Record};
use report::{Drawing, Paper, ReportInput, Room};
use wording::Show;

/// What the package of a shaft is made from.
#[derive(Clone)]
pub struct Source<'v, 'r> {
    /// Name of the shaft.
    pub shaft: &'v str,
    /// The whole record of the job: for its digest and its devices.
    pub record: &'r Record,
    /// The log of the shaft.
    pub log: &'v Log<'r>,
    /// The criteria in force.
    pub set: &'v SetInForce,
    /// What it means.
    pub assessment: &'v Assessment<'r>,
    /// The other shafts of the job.
    pub earlier: &'v Earlier,
    /// When the package is made.
    pub made: Moment,
    /// Paper.
    pub paper: Paper,
    /// The seal these pages are made for; `None`: they are not sealed with.
    pub sealing: Option<Sealing>,
}

impl<'r> Source<'_, 'r> {
    fn show(&self) -> Show {
        let show = Show::of_log(self.log);
        match self.assessment.picture.concrete_started() {
            Some(day) => show.on_day_of(day),
            None => show,
        }
    }

    fn view(&self) -> drawing::View<'_, 'r> {
        drawing::View { shaft: self.shaft, log: self.log, assessment: self.assessment, earlier: self.earlier }
    }
}

/// Everything the package of a shaft prints.
pub fn shaft(source: &Source<'_, '_>) -> ReportInput {
    let logs::Logs { logs, papers } = logs::tables(source);
    ReportInput {
        paper: source.paper,
        made: source.made,
        heading: heading::heading(source),
        verdict: findings::verdict(source),
        sheet: drawn(source, &drawing::ALL[0], Room::Sheet),
        leading: findings::leading(source),
        findings: findings::findings(source),
        no_limit: findings::unlimited(source),
        forecasts: findings::forecasts(source),
        plan: plan::groups(source),
        logs,
        drawings: drawings(source),
        corrections: closing::corrections(source),
        disputes: closing::disputes(source),
        questions: closing::questions(source),
        doubts: closing::doubts(source),
        photos: closing::photos(source),
        sources: sources::used(source),
        assumed: plan::assumed(source),
        cautions: closing::cautions(),
        signatures: closing::signatures(source),
        seals: seals::seals(source),
        digest: closing::digest_of(source),
        papers,
    }
}

/// The drawings after the logs: those that have something to show.
fn drawings(source: &Source<'_, '_>) -> Vec<Drawing> {
    let rooms = [
        ("section", Room::Page),
        ("profile", Room::Page),
        ("base", Room::Half),
        ("cage", Room::Half),
        ("slump", Room::Width),
        ("fluid", Room::Width),
        ("position", Room::Width),
    ];
    let view = source.view();
    let wanted = rooms.into_iter().filter_map(|(word, room)| Some((drawing::named(word)?, room)));
    let there = wanted.filter(|(drawing, _)| (drawing.has_content)(&view));
    there.map(|(drawing, room)| drawn(source, drawing, room)).collect()
}

fn drawn(source: &Source<'_, '_>, drawing: &drawing::Drawing, room: Room) -> Drawing {
    let (width, height) = source.paper.points(room);
    Drawing {
        title: String::new(),
        caption: captions::caption(drawing.word, source),
        alt: format!("{} of shaft {}", drawing.title, source.shaft),
        svg: (drawing.draw)(&source.view(), figure::Size::points(width, height)),
        room,
    }
}
