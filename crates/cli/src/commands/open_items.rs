//! `open-items`: what waits for a person, shaft by shaft, with the line of notes that settles each.

use crate::args::Command;
use crate::folder::{Folder, shaft_of};
use crate::problem::Problem;
use crate::screen::Screen;
use crate::view::View;
use assess::open_items::{Open, OpenItem, open_items};
use record::kinds::HoldPlaced;
use record::log::ASKED;
use record::{EntryId, Record};
use wording::Show;

pub(crate) fn run(command: &Command, screen: &mut Screen) -> Result<(), Problem> {
    let Command::OpenItems { shaft, json, job } = command else { return Ok(()) };
    let record = Folder::open(&job.job)?.record()?;
    let shafts: Vec<String> = match shaft {
        Some(shaft) => vec![shaft_of(&record, shaft)?],
        None => record.shafts().into_iter().map(str::to_owned).collect(),
    };
    let views: Vec<View<'_>> = shafts.iter().map(|shaft| View::at(&record, shaft, None)).collect();
    let all: Vec<(&View<'_>, Vec<OpenItem>)> = views.iter().map(|view| (view, of(view, &record))).collect();
    if *json {
        let shafts = all.iter().map(|(view, items)| crate::json::open_items(view, items));
        screen.json(&serde_json::Value::Array(shafts.collect()));
        return Ok(());
    }
    super::shafts::none_yet(&views, screen);
    if !views.is_empty() && all.iter().all(|(_, items)| items.is_empty()) {
        screen.say("Nothing waits for a decision, a release, an answer or a signature.");
    }
    all.iter().filter(|(_, items)| !items.is_empty()).for_each(|(view, items)| print(view, items, screen));
    Ok(())
}

fn of(view: &View<'_>, record: &Record) -> Vec<OpenItem> {
    open_items(record, &view.shaft, &view.log, &view.assessment)
}

fn print(view: &View<'_>, items: &[OpenItem], screen: &mut Screen) {
    let show = Show::of_log(&view.log);
    screen.gap();
    let count =
        if items.len() == 1 { "1 open item".to_owned() } else { format!("{} open items", items.len()) };
    screen.heading(&format!("Shaft {}: {count}", view.shaft));
    for item in items {
        let Some(text) = wording::open_item(item, &view.assessment, &view.log, &show) else { continue };
        let style = screen.style();
        let lead = format!("{}, {}: ", text.lead, text.waits_for);
        screen.led(2, 2, (&lead, &text.notice.what), |lead| style.bold(lead));
        screen.set_in(4, 2, &text.notice.meaning);
        screen.set_in(4, 2, &format!("> {}", text.notice.next));
        screen.line(&format!("    {}", settles(&item.open, view)));
    }
}

/// The line of notes that settles it, with what a person has to fill in left open.
fn settles(open: &Open, view: &View<'_>) -> String {
    match open {
        Open::Finding(place) => decide(*place, view),
        Open::Hold(id) => {
            let placed = view.log.each::<HoldPlaced>().find(|(line, _)| line.entry.id == *id);
            let hold = placed.map_or("", |(_, placed)| placed.hold.as_str());
            notes_line("hold_released", &[("hold", hold), ("by", "")])
        }
        Open::Dispute(place) => {
            let about = view.log.disputes.get(*place).map_or_else(String::new, |one| one.about.short());
            notes_line("dispute_closed", &[("about", &about), ("keeps", ""), ("reason", "")])
        }
        Open::Asked(id) => answer(id.short(), ASKED),
        Open::Odd(place) => {
            let odd = view.assessment.questions.get(*place);
            odd.map_or_else(String::new, |odd| answer(odd.about.short(), odd.suspicion.word()))
        }
        Open::Signature { role, .. } => notes_line("signed", &[("name", ""), ("role", role.word())]),
    }
}

fn decide(place: usize, view: &View<'_>) -> String {
    let finding = view.assessment.findings.get(place);
    let criterion = finding.and_then(|finding| finding.criterion.as_ref());
    let criterion = criterion.map_or("", |criterion| &criterion.original.id);
    let about = finding.and_then(|finding| finding.evidence.last()).map(EntryId::short);
    let about = about.unwrap_or_default();
    let known = [("criterion", criterion), ("about", &about)];
    let known = known.into_iter().filter(|(_, text)| !text.is_empty());
    let fields: Vec<_> = known.chain([("decision", ""), ("reason", ""), ("by", "")]).collect();
    notes_line("finding_disposed", &fields)
}

fn answer(about: String, question: &str) -> String {
    notes_line("question_answered", &[("about", &about), ("question", question), ("answer", "")])
}

fn notes_line(kind: &str, fields: &[(&str, &str)]) -> String {
    let fields = fields.iter().map(|(name, text)| format!(", {name} = {text:?}"));
    format!("{{ at = \"\", entry = \"{kind}\"{} }},", fields.collect::<String>())
}
