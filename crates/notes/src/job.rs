//! The job of a file of notes, and its papers: people, criteria, limits, mixes, fluids, documents.

use crate::block::{Head, Reader};
use crate::context::{Context, defaults_of};
use crate::draft::Said;
use crate::mistake::Wrong;
use crate::near::nearest;
use crate::node::{Named, Node, Sort};
use crate::zone::Zone;
use quantity::InOrder;
use record::Body;
use record::field::{Defaults, UnitSystem};
use record::kinds::{Family, KINDS, KindSpec, kind_of};
use record::rehearsal::is_rehearsal_key;
use std::collections::BTreeSet;

/// The short names of the papers of a job.
pub(crate) const PAPERS: &[(&str, &str)] = &[
    ("person", "person_named"),
    ("device", "device_named"),
    ("criteria", "criteria_chosen"),
    ("limit", "limit_changed"),
    ("mix", "mix_approved"),
    ("fluid", "fluid_approved"),
    ("document", "document_listed"),
];

/// What a block of the job may carry beside its fields.
const HEAD: &[&str] = &["date", "at", "noted", "author", "device", "as"];
/// What `[job]` may say when the job is open already.
const OPEN_MAY_SAY: &[&str] = &["key", "date", "author", "device"];

/// The kind of a paper, by its short name or its word.
pub(crate) fn paper_kind(name: &str) -> Option<&'static KindSpec> {
    let word = PAPERS.iter().find(|(short, _)| *short == name).map_or(name, |(_, word)| word);
    kind_of(word).filter(|kind| kind.family == Family::Job && kind.word != "job_opened" && !kind.is_made())
}

/// The short names of the papers.
pub(crate) fn paper_names() -> impl Iterator<Item = &'static str> + Clone {
    PAPERS.iter().map(|(short, _)| *short)
}

impl Context {
    /// What is read by while the job's own words for it are missing or wrong.
    pub(crate) fn unknown() -> Self {
        Context {
            key: String::new(),
            defaults: Defaults::default(),
            zone: Zone::named("UTC").expect("the table of time zones holds UTC"),
            shafts: BTreeSet::new(),
            again: false,
        }
    }
}

/// The first thing `[job]` says beyond what it may say when the job is open already.
fn beyond_the_key(job: &Node) -> Option<Node> {
    let Sort::Group(fields) = &job.sort else { return None };
    let other = fields.iter().find(|field| !OPEN_MAY_SAY.contains(&field.name.as_str()));
    other.map(|field| Node::text(field.at.clone(), ""))
}

impl Reader<'_> {
    /// Reads `[job]`: what later blocks take from it, and whether it opens the job.
    pub(crate) fn job(&mut self, job: Option<Named>, file: &Node, open: bool) -> (Head, bool) {
        let Some(job) = job else {
            if !open {
                self.wrong(file, "", Wrong::NoJob);
            }
            return (Head::default(), false);
        };
        let other = open.then(|| beyond_the_key(&job.node)).flatten();
        let again = self.context.again && other.is_some();
        if let Some(other) = other.filter(|_| !again) {
            self.wrong(&other, "", Wrong::OpenAlready);
        }
        let (head, rest) = self.head(job.node, HEAD);
        let (rest, key) = self.key(rest, open);
        if open && !again {
            return (head, false);
        }
        self.context.key = key;
        self.foresee(&rest);
        let before = self.drafted.len();
        let kind = kind_of("job_opened").expect("a job can be opened");
        self.paper(kind, None, &head, rest);
        if let Some(Said::Body(Body::JobOpened(opened))) =
            self.drafted.get(before).map(|drafted| &drafted.said)
        {
            self.context.defaults = defaults_of(opened);
        }
        // What is blank in [job] is told once, not again for every block that would take it from there.
        let (date_wrong, author) = (head.date.is_none(), head.author.or_else(|| Some(String::new())));
        (Head { label: None, at: None, noted: None, date_wrong, author, ..head }, true)
    }

    fn key(&mut self, node: Node, open: bool) -> (Node, String) {
        let Node { span, sort: Sort::Group(mut fields) } = node else {
            self.wrong(&node, "job", Wrong::Sort { found: node.describe(), expected: "a group of fields" });
            return (Node::group(0..0, Vec::new()), String::new());
        };
        let key = fields.iter().position(|field| field.name == "key").map(|at| fields.remove(at));
        let rest = Node::group(span, fields);
        let Some(key) = key else {
            if !open {
                self.blank(&rest, "key", "[job]", "the short name the job keeps for ever");
            }
            return (rest, String::new());
        };
        let found = key.node.as_text().unwrap_or(key.node.describe()).trim().to_owned();
        if open && found != self.context.key {
            let wrong = Wrong::OtherJob { found: found.clone(), open: self.context.key.clone() };
            self.wrong(&key.node, "key", wrong);
        } else if !is_key(&found) {
            self.wrong(&key.node, "key", Wrong::Key(found.clone()));
        } else if !open && is_rehearsal_key(&found) && !says_yes(rest.field("rehearsal")) {
            self.wrong(&key.node, "key", Wrong::RehearsalKey(found.clone()));
        }
        (rest, found)
    }

    /// Zone and units, read ahead of the rest: everything else is read by them.
    fn foresee(&mut self, job: &Node) {
        let text = |name: &str| job.field(name).and_then(|field| field.node.as_text()).unwrap_or_default();
        let metric = text("units").trim().eq_ignore_ascii_case("metric");
        self.context.defaults.system = if metric { UnitSystem::Metric } else { UnitSystem::Us };
        self.context.defaults.comma = says_yes(job.field("decimal_comma"));
        let zone = text("time_zone").to_owned();
        match (Zone::named(zone.trim()), job.field("time_zone")) {
            (Ok(zone), _) => self.context.zone = zone,
            (Err(near), Some(field)) if !zone.trim().is_empty() => {
                self.wrong(&field.node, "time_zone", Wrong::Zone { found: zone, near });
            }
            (Err(_), _) => {}
        }
    }

    /// Reads the papers of the job in the order written.
    pub(crate) fn papers(&mut self, mut papers: Vec<(&'static KindSpec, Node)>, outer: &Head) {
        papers.put_in_order_by_key(|(_, node)| node.span.start);
        for (kind, node) in papers {
            let (head, rest) = self.head(node, HEAD);
            self.paper(kind, None, &head.within(outer), rest);
        }
    }
}

/// A field that is there and says yes.
fn says_yes(field: Option<&Named>) -> bool {
    field.is_some_and(|field| match &field.node.sort {
        Sort::Flag(flag) => *flag,
        Sort::Text(text) => matches!(text.trim().to_ascii_lowercase().as_str(), "yes" | "y" | "true"),
        Sort::List(_) | Sort::Group(_) => false,
    })
}

/// Small letters, digits and hyphens, 1 to 40 of them.
fn is_key(key: &str) -> bool {
    let sign = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-';
    (1..=40).contains(&key.len()) && key.bytes().all(sign)
}

/// The kind an entry of a log names, and the mistake where it names none that stands there.
pub(crate) fn log_kind(found: &str) -> Result<&'static KindSpec, Wrong> {
    let word = crate::near::plain(found);
    match kind_of(&word) {
        Some(kind) if kind.word == "job_opened" => {
            Err(Wrong::KindElsewhere { word: kind.word, place: "the table [job]" })
        }
        Some(kind) if kind.word == "notes_read" => {
            Err(Wrong::KindElsewhere { word: kind.word, place: "an entry the import makes by itself" })
        }
        Some(kind) if kind.is_made() => {
            Err(Wrong::KindElsewhere { word: kind.word, place: "an entry `shaftbook seal` makes" })
        }
        Some(kind) => Ok(kind),
        None => {
            let near = nearest(&word, KINDS.iter().map(|kind| kind.word));
            Err(Wrong::UnknownKind { found: found.to_owned(), near })
        }
    }
}
