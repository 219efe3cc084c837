//! A text as a tree, with everything in it that is not TOML.
//!
//! The reader goes on after a slip, so that the next one is found as well. What follows from a slip alone
//! is not told: one forgotten bracket makes one mistake and not forty.

use crate::mistake::Wrong;
use crate::node::{Node, Sort};
use crate::take::Raw;
use quantity::InOrder;
use std::ops::Range;
use toml::de::DeTable;

/// More dots than this in one line are no notes, and would be read as deep as they are long.
const DOTS_MAX: usize = 200;

/// So many slips are looked at; what has more is no file of notes.
const SLIPS_MAX: usize = 200;

/// A text as a tree.
pub(crate) struct Parsed {
    pub(crate) root: Node,
    pub(crate) raws: Vec<Raw>,
    doubts: Doubts,
}

/// What of a text could not be read as meant.
#[derive(Default)]
struct Doubts {
    /// Lines that lost a field or a whole line of notes.
    lines: Vec<Range<usize>>,
    /// Texts and numbers that are not written right.
    scalars: Vec<Range<usize>>,
    /// Where the thread is lost.
    from: Option<usize>,
}

impl Parsed {
    pub(crate) fn of(text: &str) -> Self {
        if let Some(at) = too_deep(text) {
            let says = "one line goes too deep".to_owned();
            let raw = Raw { span: at..at, path: String::new(), wrong: Wrong::Syntax { says, hint: None } };
            let doubts = Doubts { from: Some(0), ..Doubts::default() };
            return Parsed { root: Node::group(0..0, Vec::new()), raws: vec![raw], doubts };
        }
        let (table, errors) = DeTable::parse_recoverable(text);
        let root = Node::of_table(table.get_ref(), 0..text.len(), text);
        let mut slips: Vec<(Range<usize>, String)> =
            errors.iter().map(|error| (error.span().unwrap_or(0..0), error.message().to_owned())).collect();
        slips.put_in_order_by_key(|(span, _)| span.start);
        let (raws, doubts) = sift(&root, slips, text);
        Parsed { root, raws, doubts }
    }

    /// Whether a mistake only follows from what could not be read.
    pub(crate) fn follows(&self, raw: &Raw) -> bool {
        let lost = self.doubts.from.is_some_and(|from| raw.span.end >= from);
        let touches = |line: &Range<usize>| {
            raw.span.start < line.end && line.start < raw.span.end.max(raw.span.start + 1)
        };
        let told = |scalar: &Range<usize>| scalar.contains(&raw.span.start);
        lost || self.doubts.lines.iter().any(touches) || self.doubts.scalars.iter().any(told)
    }
}

/// The offset of a line with too many dots outside of any use a person has for them.
fn too_deep(text: &str) -> Option<usize> {
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let key = line.split(['=', '"', '\'', '#']).next().unwrap_or_default();
        if key.bytes().filter(|byte| *byte == b'.').count() > DOTS_MAX {
            return Some(start);
        }
        start += line.len();
    }
    None
}

/// One slip a line, nothing after the first that loses the thread, and what they spoil.
fn sift(root: &Node, slips: Vec<(Range<usize>, String)>, text: &str) -> (Vec<Raw>, Doubts) {
    let (mut raws, mut doubts, mut last_line) = (Vec::new(), Doubts::default(), None);
    for (number, (span, says)) in slips.into_iter().enumerate() {
        let line = line_of(text, span.start);
        let heading = is_heading(&text[line.clone()]);
        let slip =
            if heading || number == SLIPS_MAX { Slip::Hard } else { Slip::of(root, text, &span, &says) };
        match &slip {
            Slip::Scalar(scalar) => doubts.scalars.push(scalar.clone()),
            Slip::Soft => doubts.lines.push(line.clone()),
            Slip::Hard => doubts.from = Some(if heading { line.start } else { span.start }),
        }
        if last_line.as_ref() != Some(&line) {
            let hint = if heading { Some(OPEN_LIST) } else { hint(text, &span, &says) };
            let start = if heading { line.start..line.start } else { span };
            let at =
                if says.starts_with("unclosed") || heading { opening(root, &start, &says) } else { start };
            raws.push(Raw { span: at, path: String::new(), wrong: Wrong::Syntax { says, hint } });
            last_line = Some(line);
        }
        if doubts.from.is_some() {
            break;
        }
    }
    (raws, doubts)
}

/// How much a slip spoils.
enum Slip {
    /// The text or number it lies in, nothing else.
    Scalar(Range<usize>),
    /// Its line.
    Soft,
    /// Everything after it.
    Hard,
}

impl Slip {
    fn of(root: &Node, text: &str, span: &Range<usize>, says: &str) -> Self {
        let open = says.starts_with("unclosed")
            || says.starts_with("invalid basic")
            || says.starts_with("invalid literal");
        match scalar_at(root, span) {
            _ if open => Slip::Hard,
            _ if says.starts_with("duplicate key") => Slip::Soft,
            _ if says.starts_with("missing comma") && begins_a_field(text, span.start) => Slip::Soft,
            Some(scalar) if !says.starts_with("missing comma") => Slip::Scalar(scalar),
            _ => Slip::Hard,
        }
    }
}

/// `entry = …`, or the next line of a log.
fn begins_a_field(text: &str, at: usize) -> bool {
    let text = text.get(at..).unwrap_or_default();
    let name =
        text.trim_start_matches(|sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '_' | '-'));
    text.starts_with('{') || (name.len() < text.len() && name.trim_start().starts_with('='))
}

/// A line that opens a table: `[[day]]`. Where a slip lies in one, a list before it is not closed.
fn is_heading(line: &str) -> bool {
    let line = line.split('#').next().unwrap_or_default().trim();
    let name = line.trim_start_matches('[').trim_end_matches(']');
    let plain = |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '_' | '.' | '-');
    line.starts_with('[')
        && line.ends_with(']')
        && !name.is_empty()
        && name.chars().all(plain)
        && name.starts_with(|sign: char| sign.is_ascii_alphabetic())
}

fn line_of(text: &str, at: usize) -> Range<usize> {
    let bytes = text.as_bytes();
    let at = at.min(bytes.len());
    let start = bytes[..at].iter().rposition(|byte| *byte == b'\n').map_or(0, |before| before + 1);
    let end = bytes[at..].iter().position(|byte| *byte == b'\n').map_or(bytes.len(), |after| at + after);
    start..end
}

/// The text or number a slip lies in, so that nothing around it is in doubt.
fn scalar_at(node: &Node, slip: &Range<usize>) -> Option<Range<usize>> {
    match &node.sort {
        Sort::Text(_) | Sort::Flag(_) => {
            (node.span.start <= slip.start && slip.end <= node.span.end).then(|| node.span.clone())
        }
        Sort::List(items) => items.iter().find_map(|item| scalar_at(item, slip)),
        Sort::Group(fields) => fields.iter().find_map(|field| scalar_at(&field.node, slip)),
    }
}

/// Where the list or group begins that is not closed.
fn opening(root: &Node, slip: &Range<usize>, says: &str) -> Range<usize> {
    let mut found = slip.clone();
    find_opening(root, slip, !says.contains("inline table"), &mut found);
    found
}

fn find_opening(node: &Node, slip: &Range<usize>, list: bool, found: &mut Range<usize>) {
    let reaches = |node: &Node| node.span.start < slip.start && node.span.end >= slip.start;
    let mut look = |inner: &Node| {
        if reaches(inner)
            && matches!(inner.sort, Sort::List(_)) == list
            && !matches!(inner.sort, Sort::Text(_))
        {
            *found = inner.span.start..inner.span.start + 1;
        }
        find_opening(inner, slip, list, found);
    };
    match &node.sort {
        Sort::List(items) => items.iter().for_each(&mut look),
        Sort::Group(fields) => fields.iter().for_each(|field| look(&field.node)),
        Sort::Text(_) | Sort::Flag(_) => {}
    }
}

const QUOTE: &str = "a text ends before this; a text with marks of feet and inches in it stands between \
     three single marks, as in '''12'-6\"'''";
const OPEN_LIST: &str = "a list is opened here and never closed with ]";

/// How the usual slips are put right.
fn hint(text: &str, span: &Range<usize>, says: &str) -> Option<&'static str> {
    const HINTS: &[(&str, &str)] = &[
        (
            "string values must be quoted",
            "a text, a time or a quantity stands in quotation marks, as in to = \"4 ft\"",
        ),
        (
            "unexpected leading zero",
            "a time or number that begins with 0 stands in quotation marks, as in at = \"0710\"",
        ),
        ("invalid time", "a time of one digit stands in quotation marks, as in at = \"7:10\""),
        ("duplicate key", "the same name is written twice"),
        ("missing comma", "a comma is missing before this"),
        ("missing opening quote", QUOTE),
        ("unexpected key or value", QUOTE),
        ("invalid date", "this is no date; expected year, month and day such as 2026-05-04"),
        ("key with no value", "a name stands here without = and a value"),
        ("unclosed table", "the name of a table is not closed with ]"),
        ("missing key for inline table element", "the line before this is not closed with }"),
        ("invalid basic string", "a quotation mark is opened and not closed on the same line"),
        ("invalid literal string", "a quotation mark is opened and not closed on the same line"),
        ("unclosed array", OPEN_LIST),
        ("unclosed inline table", "a line is opened here with { and never closed with }"),
        ("unexpected `=` in array", "a list further up is not closed with ] before this"),
        (
            "missing escaped value",
            "a backslash in a text is written twice, or the text stands in single quotation marks",
        ),
    ];
    if says.starts_with("missing comma") && !begins_a_field(text, span.start) {
        return Some(QUOTE);
    }
    HINTS.iter().find(|(begins, _)| says.starts_with(begins)).map(|(_, hint)| *hint)
}
