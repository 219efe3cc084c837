//! Sets the packages of a record that was written out, for looking at pages:
//! `cargo run -p package --example pages -- record.jsonl folder`.

use assess::{Rules, assess};
use quantity::Moment;
use record::choices::JobUnits;
use record::{Log, Record};
use report::{Fonts, Paper};

fn main() {
    let mut args = std::env::args().skip(1);
    let (Some(file), Some(folder)) = (args.next(), args.next()) else {
        return eprintln!("record.jsonl, then a folder");
    };
    let text = std::fs::read_to_string(file).expect("a readable file");
    let record = Record::of(wire::read_lines(&text).expect("signed lines")).expect("a record");
    print(&record, &folder);
}

fn print(record: &Record, folder: &str) {
    let fonts = Fonts::house();
    let seen: Vec<_> = record.shafts().into_iter().map(|shaft| (shaft, look(record, shaft))).collect();
    let sources: Vec<package::Source<'_, '_>> =
        seen.iter().map(|(shaft, look)| look.source(record, shaft)).collect();
    for source in &sources {
        let pdf = report::package(&package::shaft(source), &fonts).expect("a package");
        std::fs::write(format!("{folder}/{}.pdf", source.shaft), &pdf.bytes).expect("a folder to write in");
        println!("{}: {} pages", source.shaft, pdf.pages);
    }
    if let Some(summary) = package::job(record, &sources, made(), sources[0].paper) {
        let pdf = report::job_summary(&summary, &fonts).expect("a summary");
        std::fs::write(format!("{folder}/job.pdf"), &pdf.bytes).expect("a folder to write in");
    }
}

struct Look<'r> {
    log: Log<'r>,
    set: criteria::SetInForce,
    assessment: assess::Assessment<'r>,
    earlier: assess::Earlier,
}

fn look<'r>(record: &'r Record, shaft: &str) -> Look<'r> {
    let log = Log::of(record, Some(shaft), None);
    let own = log.lines.iter().filter(|line| line.entry.shaft.as_deref() == Some(shaft));
    let at = own.map(|line| line.at).max().unwrap_or_else(made);
    let set = Rules::of(&log).map_or_else(|_| Rules::none(), |rules| rules.set);
    let assessment = assess(&log, &set, at);
    let earlier = assess::Earlier::of(record, shaft, at);
    Look { log, set, assessment, earlier }
}

impl<'r> Look<'r> {
    fn source<'v>(&'v self, record: &'r Record, shaft: &'v str) -> package::Source<'v, 'r> {
        let us = self.assessment.picture.job.is_some_and(|job| job.units == JobUnits::Us);
        package::Source {
            shaft,
            record,
            log: &self.log,
            set: &self.set,
            assessment: &self.assessment,
            earlier: &self.earlier,
            made: made(),
            sealing: None,
            paper: if us { Paper::Letter } else { Paper::A4 },
        }
    }
}

/// Pages that are compared with each other are made at one moment.
fn made() -> Moment {
    Moment::parse("2026-01-02T12:00:00Z").expect("a moment")
}
