//! A file of field notes into drafts: all of them, or every mistake of the file.

use crate::Source;
use crate::block::{Head, Reader};
use crate::context::{Context, Surroundings};
use crate::draft::Notes;
use crate::label::Labels;
use crate::mistake::{Mistake, Place, Wrong};
use crate::near::nearest;
use crate::node::{Named, Node, Sort};
use crate::syntax::Parsed;
use crate::take::Raw;
use crate::text::{Lines, text_of};
use quantity::InOrder;
use record::kinds::{Family, kind_of};
use std::collections::BTreeMap;

/// The tables of a file beside those of the job.
const TABLES: &[&str] = &["job", "shaft", "day"];

/// Reads several files that belong together; the first may open the job for the others.
///
/// # Errors
/// Every mistake of every file, in the order of files and lines. Nothing is half read.
pub fn read_all(
    sources: &[Source<'_>],
    context: Option<&Context>,
    surroundings: &dyn Surroundings,
) -> Result<Vec<Notes>, Vec<Mistake>> {
    let mut context = context.cloned();
    let (mut read_so_far, mut mistakes) = (Vec::new(), Vec::new());
    for source in sources {
        let (outcome, after) = read_one(*source, context.as_ref(), surroundings);
        context = after.or(context);
        match outcome {
            Ok(notes) => read_so_far.push(notes),
            Err(more) => mistakes.extend(more),
        }
    }
    if mistakes.is_empty() { Ok(read_so_far) } else { Err(mistakes) }
}

/// Reads one file.
///
/// # Errors
/// Every mistake of the file, in the order of its lines.
pub fn read(
    source: Source<'_>,
    context: Option<&Context>,
    surroundings: &dyn Surroundings,
) -> Result<Notes, Vec<Mistake>> {
    read_one(source, context, surroundings).0
}

type Outcome = (Result<Notes, Vec<Mistake>>, Option<Context>);

fn read_one(source: Source<'_>, open: Option<&Context>, surroundings: &dyn Surroundings) -> Outcome {
    let text = match text_of(source.bytes) {
        Ok(text) => text,
        Err(wrong) => {
            let (line, wrong) = *wrong;
            let place = if line == 0 { Place::File } else { Place::Text { line, column: 1 } };
            let mistake = Mistake { file: source.name.to_owned(), place, path: String::new(), wrong };
            return (Err(vec![mistake]), None);
        }
    };
    let lines = Lines::of(text);
    let parsed = Parsed::of(text);
    let (labels, raws) = Labels::of(&parsed.root, &lines);
    let mut reader = Reader {
        surroundings,
        lines: &lines,
        labels,
        context: open.cloned().unwrap_or_else(Context::unknown),
        planned: BTreeMap::new(),
        drafted: Vec::new(),
        raws,
    };
    let opens = reader.file(parsed.root.clone(), open.is_some());
    let (context, drafted) = (reader.context, reader.drafted);
    let mut raws: Vec<Raw> = reader.raws.into_iter().filter(|raw| !parsed.follows(raw)).collect();
    raws.extend(parsed.raws);
    if raws.is_empty() {
        let file = source.name.to_owned();
        let notes = Notes { file, opens, context: context.clone(), drafted, passed_over: Vec::new() };
        return (Ok(notes), Some(context));
    }
    (Err(placed(source.name, raws, &lines)), (opens || open.is_some()).then_some(context))
}

/// Mistakes in the order of their places.
fn placed(file: &str, mut raws: Vec<Raw>, lines: &Lines<'_>) -> Vec<Mistake> {
    raws.put_in_order_by_key(|raw| raw.span.start);
    let starts: Vec<usize> = raws.iter().map(|raw| raw.span.start).collect();
    let mistake = |(raw, (line, column)): (Raw, (usize, usize))| Mistake {
        file: file.to_owned(),
        place: if matches!(raw.wrong, Wrong::NoJob) { Place::File } else { Place::Text { line, column } },
        path: raw.path,
        wrong: raw.wrong,
    };
    raws.into_iter().zip(lines.places(&starts)).map(mistake).collect()
}

impl Reader<'_> {
    /// Reads a whole file; whether it opens the job.
    fn file(&mut self, root: Node, open: bool) -> bool {
        let Node { span, sort: Sort::Group(tables) } = root else { return false };
        let (mut job, mut papers, mut shafts, mut days) = (None, Vec::new(), Vec::new(), Vec::new());
        for table in tables {
            match table.name.as_str() {
                "job" => job = Some(table),
                "shaft" => shafts.extend(each(table.node)),
                "day" => days.extend(each(table.node)),
                name => match crate::job::paper_kind(name) {
                    Some(kind) => papers.extend(each(table.node).into_iter().map(|node| (kind, node))),
                    None => self.unknown_table(&table),
                },
            }
        }
        let (head, opens) = self.job(job, &Node::group(span, Vec::new()), open);
        self.papers(papers, &head);
        shafts.into_iter().for_each(|node| self.shaft(node, &head));
        days.into_iter().for_each(|node| self.day(node, &Head::default()));
        opens
    }

    fn unknown_table(&mut self, table: &Named) {
        let node = Node::text(table.at.clone(), "");
        let all = TABLES.iter().copied().chain(crate::job::paper_names());
        let wrong = match kind_of(&table.name) {
            Some(kind) if kind.family == Family::Plan => Wrong::KindElsewhere {
                word: kind.word,
                place: "a part of its [[shaft]], such as [shaft.cage]",
            },
            Some(kind) => Wrong::KindElsewhere { word: kind.word, place: "a line of the log of a [[day]]" },
            None => Wrong::UnknownName {
                found: table.name.clone(),
                within: "the file",
                near: nearest(&table.name, all.clone()),
                all: all.map(str::to_owned).collect(),
            },
        };
        self.wrong(&node, "", wrong);
    }
}

/// A table, or each of several.
pub(crate) fn each(node: Node) -> Vec<Node> {
    match node {
        Node { sort: Sort::List(items), .. } => items,
        one => vec![one],
    }
}
