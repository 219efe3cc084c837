//! The demo jobs as records, and screens as text that a person can read.

#![allow(dead_code, unreachable_pub, reason = "each test looks at the part it needs")]

use notes::{Criteria, Source, Surroundings};
use quantity::Moment;
use record::entry::FileHash;
use record::{Held, Record};
use screen::live::{Big, Card, Clock, Next, ShaftScreen};
use wire::{Key, Pen, Times};

macro_rules! notes_of {
    ($($name:literal),*) => {
        &[$(($name, include_str!(concat!("../../../../demo/", $name)))),*]
    };
}

const HARROW_VALE: &[(&str, &str)] = notes_of![
    "harrow-vale/1-job.toml",
    "harrow-vale/2-shaft-s1.toml",
    "harrow-vale/3-shaft-s2.toml",
    "harrow-vale/4-shaft-s3.toml",
    "harrow-vale/5-afterwards.toml"
];
const LINDMOOR: &[(&str, &str)] = notes_of!["lindmoor/1-auftrag.toml", "lindmoor/2-pfahl-p7.toml"];

/// What was written by a moment.
pub fn by_then(entries: &[Held], at: Moment) -> Record {
    let known = |held: &&Held| matches!(held, Held::Known(entry) if entry.observed_at <= at);
    Record::of(entries.iter().filter(known).cloned()).expect("one job")
}

/// The entries of the US job in the order they were written down.
pub fn harrow_vale_entries() -> Vec<Held> {
    entries("harrow-vale", HARROW_VALE)
}

/// The entries of the metric job in the order they were written down.
pub fn lindmoor_entries() -> Vec<Held> {
    entries("lindmoor", LINDMOOR)
}

struct Shipped;

impl Surroundings for Shipped {
    fn criteria(&self, key: &str) -> Option<Criteria> {
        let file = FileHash::from_hex(&criteria::Set::shipped(key)?.sha256)?;
        Some(Criteria { file, text: None })
    }
}

fn entries(job: &str, files: &[(&str, &str)]) -> Vec<Held> {
    let sources: Vec<Source<'_>> =
        files.iter().map(|(name, text)| Source { name, bytes: text.as_bytes() }).collect();
    let all = notes::read_all(&sources, None, &Shipped);
    let all = all.unwrap_or_else(|mistakes| panic!("{}", mistakes[0]));
    let key = Key::of_secret([7; 32]);
    let mut pen = Pen::new(&key, job, "R. Quill", None);
    let mut entries = Vec::new();
    for notes in all {
        notes.write(|drafted, body| {
            // As on a tablet: written down twenty seconds after it was seen, or when it was noted.
            let entered_at = drafted.noted_at.unwrap_or(drafted.observed_at).plus_seconds(20);
            let times = Times { observed_at: drafted.observed_at, noted_at: drafted.noted_at, entered_at };
            let entry = pen.write(drafted.shaft.as_deref(), times, body);
            let id = entry.id;
            entries.push(Held::Known(entry));
            id
        });
    }
    entries
}

/// A moment on site.
#[track_caller]
pub fn at(text: &str) -> Moment {
    Moment::parse(text).expect("a moment")
}

/// A shaft screen as text: heading, figures, clocks, attention, next.
pub fn told(screen: &ShaftScreen) -> String {
    let heading = &screen.heading;
    let mut lines = vec![
        format!(
            "{} · {} · {} · {} · {} · tip {} · {}",
            screen.moment,
            heading.shaft,
            heading.structure,
            heading.diameter,
            heading.depth,
            heading.tip,
            screen.stage.word()
        ),
        format!("{} · depths from {}", heading.criteria, heading.reference),
        screen.verdict.clone(),
    ];
    lines.push("FIGURES".to_owned());
    lines.extend(screen.figures.iter().map(figure));
    lines.push("CLOCKS".to_owned());
    lines.extend(screen.clocks.iter().map(|clock| clock_line(clock, screen.at)));
    lines.push("ATTENTION".to_owned());
    lines.extend(screen.attention.iter().map(|one| {
        let bell = if one.calls { "calls" } else { "shows" };
        format!("  {bell} {} | {} | {} | {}", one.haste.word(), one.title, one.what, one.do_now)
    }));
    lines.push("NEXT".to_owned());
    lines.extend(screen.next.iter().take(8).map(next));
    lines.push(format!(
        "{:?}\n{} unsettled, {} questions, {} doubts, {} about the record; drawings: {}",
        screen.counts,
        screen.findings.len(),
        screen.questions.len(),
        screen.doubts.len(),
        screen.record.len(),
        screen
            .drawings
            .iter()
            .filter(|one| one.has_content)
            .map(|one| one.word)
            .collect::<Vec<_>>()
            .join(" ")
    ));
    lines.join("\n") + "\n"
}

/// One figure as a line.
pub fn figure(big: &Big) -> String {
    let value: Vec<&str> = [big.value.as_str(), &big.unit, &big.uncertainty, &big.zero]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect();
    let main = if big.main { "*" } else { " " };
    format!("{main} {}: {} [{}] {}", big.label, value.join(" "), big.sign.text(), big.note)
}

fn clock_line(clock: &Clock, now: i64) -> String {
    let face = clock.reads(now);
    format!(
        "  {} {}: {} {} ({}) {}",
        face.haste.word(),
        clock.label,
        face.text,
        face.word,
        clock.moment,
        clock.limit
    )
}

fn next(next: &Next) -> String {
    let known: Vec<String> = next.known.iter().map(|(field, text)| format!("{field}={text}")).collect();
    let holds = if next.holds { " (holds)" } else { "" };
    format!("  {} {}{holds}: {} {}", next.haste.word(), next.kind, next.what, known.join(" "))
}

/// A card as a line.
pub fn card(card: &Card) -> String {
    let sign = card.sign.map_or("", |sign| sign.text());
    format!("  {sign} | {} | {} | {} | {}", card.title, card.sentence, card.next, card.source)
}
