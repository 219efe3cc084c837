//! Every kind of entry can be written in notes and read back, and goes out as a table and comes back.
//!
//! The fields are filled in from what the kinds declare, so that a kind added later is covered too.

use notes::table::{Request, Table, csv_of};
use notes::{Context, Found, Source, Surroundings};
use proptest::prelude::*;
use quantity::Moment;
use record::field::{FieldSpec, How, Shape, Typed};
use record::kinds::{KINDS, KindSpec};
use record::{Body, EntryId, Held, Log, Record, Value};
use std::collections::BTreeMap;
use wire::{Key, Pen, Times};

const JOB: &str = include_str!("good.toml");

struct Anything;

impl Surroundings for Anything {
    fn entry(&self, digits: &str) -> Found {
        EntryId::from_hex(digits).map_or(Found::None, Found::One)
    }
}

/// A chain of choices that one number settles.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % sides
    }

    fn fields(&mut self, specs: &'static [FieldSpec]) -> BTreeMap<String, Value> {
        let mut fields = BTreeMap::new();
        for spec in specs {
            if !spec.may_be_blank || self.roll(3) > 0 {
                fields.insert(spec.name.to_owned(), self.value((spec.shape)()));
            }
        }
        fields
    }

    fn value(&mut self, shape: Shape) -> Value {
        let text = match shape {
            Shape::Flag => return Value::Flag(self.roll(2) == 0),
            Shape::List(item) => {
                let count = self.roll(3) + 1;
                return Value::List((0..count).map(|_| self.value(item())).collect());
            }
            Shape::Group(fields) => return Value::Group(self.fields(fields)),
            Shape::Body => {
                let inner = [("text".to_owned(), Value::Text("as it was".to_owned()))];
                let body = [
                    ("kind".to_owned(), Value::Text("remark".to_owned())),
                    ("body".to_owned(), Value::Group(inner.into_iter().collect())),
                ];
                return Value::Group(body.into_iter().collect());
            }
            Shape::Text => self.text(),
            Shape::Count => self.roll(500).to_string(),
            Shape::Moment => format!("2026-05-04T{:02}:{:02}:00-06:00", self.roll(24), self.roll(60)),
            Shape::Quantity(kind, _) => match self.roll(3) {
                0 if !matches!(kind, quantity::Kind::Slope) => format!("0.{}", self.roll(99) + 1),
                1 if kind == quantity::Kind::Length => format!("{}'-{} 1/2\"", self.roll(90), self.roll(12)),
                _ => kind.example().to_owned(),
            },
            Shape::Choice(words) => {
                words[usize::try_from(self.roll(words.len() as u64)).expect("few words")].word.to_owned()
            }
            Shape::Entry | Shape::FileHash => format!("{:064x}", self.roll(1_000_000)),
        };
        Value::Text(text)
    }

    fn text(&mut self) -> String {
        let texts = [
            "4411",
            "Harlow, \"east\"; bank",
            "two\nlines",
            "Größe 3",
            " spaced ",
            "=1+1",
            "'12'",
            "#8",
            "yes",
        ];
        texts[usize::try_from(self.roll(texts.len() as u64)).expect("few texts")].to_owned()
    }
}

/// A value as a person writes it in notes.
fn toml_of(value: &Value) -> String {
    match value {
        Value::Text(text) => format!("{text:?}").replace("\\'", "'"),
        Value::Flag(flag) => flag.to_string(),
        Value::List(items) => format!("[{}]", items.iter().map(toml_of).collect::<Vec<_>>().join(", ")),
        Value::Group(fields) => match (fields.get("kind"), fields.get("body")) {
            (Some(Value::Text(kind)), Some(Value::Group(body))) => {
                format!("{{ entry = {kind:?}, {} }}", fields_of(body))
            }
            _ => format!("{{ {} }}", fields_of(fields)),
        },
    }
}

fn fields_of(fields: &BTreeMap<String, Value>) -> String {
    let sign = |name: &str| if name == "entry" { "_" } else { "" };
    let field = |(name, value): (&String, &Value)| format!("{name}{} = {}", sign(name), toml_of(value));
    fields.iter().map(field).collect::<Vec<_>>().join(", ")
}

fn context() -> Context {
    read_job(JOB).context
}

fn body_of(kind: &KindSpec, fields: &BTreeMap<String, Value>, context: &Context) -> Body {
    let moment = |text: &str| Moment::parse(text).ok();
    let typed = Typed { defaults: context.defaults, moment: &moment };
    Body::from_group(kind.word, fields, "", &How::Typed(&typed))
        .expect("fields made from the declared shapes")
}

/// One line of a day that says a body.
fn line_of(kind: &KindSpec, fields: &BTreeMap<String, Value>) -> String {
    let fields = fields_of(fields);
    let comma = if fields.is_empty() { "" } else { ", " };
    format!("  {{ at = \"07:10\", entry = \"{}\"{comma}{fields} }},\n", kind.word)
}

fn written_in_a_day(kind: &KindSpec) -> bool {
    kind.word != "job_opened" && !kind.is_made()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, ..ProptestConfig::default() })]

    #[test]
    fn every_kind_is_written_in_notes_and_read_back(seed in any::<u64>()) {
        let (mut dice, context) = (Dice(seed), context());
        let mut day = "[[day]]\ndate = 2026-05-04\nshaft = \"S-1\"\nauthor = \"A\"\nlog = [\n".to_owned();
        let mut expected = Vec::new();
        for kind in KINDS.iter().filter(|kind| written_in_a_day(kind)) {
            let fields = dice.fields(kind.fields);
            expected.push(body_of(kind, &fields, &context));
            day.push_str(&line_of(kind, &fields));
        }
        day.push_str("]\n");
        let notes = notes::read(Source { name: "day.toml", bytes: day.as_bytes() }, Some(&context), &Anything);
        let notes = notes.map_err(|mistakes| mistakes.iter().map(ToString::to_string).collect::<Vec<_>>());
        let drafted = notes.expect("what the kinds declare is read").drafted;
        let bodies: Vec<Body> = drafted.iter().map(|drafted| drafted.body(&|_| None).expect("no labels")).collect();
        prop_assert_eq!(bodies, expected);
    }

    #[test]
    fn every_kind_goes_out_as_a_table_and_comes_back(seed in any::<u64>()) {
        let (mut dice, context) = (Dice(seed), context());
        for table in KINDS.iter().filter_map(|kind| Table::of(kind.word)) {
            let kind = record::kinds::kind_of(table.word).expect("a table of a kind");
            let plans = kind.word == "shaft_planned";
            let rows = if plans { 1 } else { 3 };
            let context = context.clone().with_shafts((!plans).then(|| "S-2".to_owned()));
            let bodies: Vec<Body> =
                (0..rows).map(|_| body_of(kind, &dice.fields(kind.fields), &context)).collect();
            let record = record_of(&bodies, JOB);
            let text = csv_of(kind, &Log::of(&record, Some("S-2"), None));
            let request = Request { context: &context, table: Some(&table), shaft: None, date: None, author: None, device: None };
            let read = notes::table::read(Source { name: "log.csv", bytes: text.as_bytes() }, request, &Anything);
            let told = |mistakes: &Vec<notes::Mistake>| mistakes.iter().map(|one| format!("{one}\n")).collect::<String>();
            let drafted = read.map_err(|mistakes| format!("{}{text}", told(&mistakes))).expect("our own table is read").drafted;
            let back: Vec<Body> = drafted.iter().map(|one| one.body(&|_| None).expect("no labels")).collect();
            prop_assert_eq!(back, bodies, "{}", text);
            prop_assert!(drafted.iter().all(|one| one.shaft.as_deref() == Some("S-2") && one.author == "T. Lindqvist"));
        }
    }
}

/// A signed record of one device: the job as a file opens it, and these bodies about one shaft.
fn record_of(bodies: &[Body], job: &str) -> Record {
    let key = Key::of_secret([7; 32]);
    let mut pen = Pen::new(&key, "job", "T. Lindqvist", None);
    let time = |minute: i64| {
        let at = Moment::parse("2026-05-04T07:00:00-06:00").expect("a moment").plus_seconds(60 * minute);
        Times { observed_at: at, noted_at: None, entered_at: at }
    };
    let opened = read_job(job).drafted[0].body(&|_| None).expect("no labels");
    let mut held = vec![Held::Known(pen.write(None, time(0), opened))];
    for (minute, body) in bodies.iter().enumerate() {
        held.push(Held::Known(pen.write(Some("S-2"), time(minute as i64 + 1), body.clone())));
    }
    Record::of(held).expect("one chain of one device")
}

fn read_job(job: &str) -> notes::Notes {
    notes::read(Source { name: "job", bytes: job.as_bytes() }, None, &Anything).expect("the job is read")
}

/// A job with the decimal comma: the same numbers come back, with semicolons between the cells.
#[test]
fn a_decimal_comma_goes_out_and_comes_back() {
    let job = "job = { key = \"a\", date = 2026-05-01, author = \"A\", name = \"A\", time_zone = \"Europe/Berlin\", \
               units = \"metric\", lengths = \"meters\", decimal_comma = true }";
    let context = read_job(job).context.with_shafts(["S-2".to_owned()]);
    let kind = record::kinds::kind_of("concrete_sounded").expect("a kind");
    let sounded = |depth: &str| {
        let point = [("depth".to_owned(), Value::Text(depth.to_owned()))];
        let points = Value::List(vec![Value::Group(point.into_iter().collect())]);
        body_of(kind, &[("points".to_owned(), points)].into_iter().collect(), &context)
    };
    let bodies: Vec<Body> = ["3,82", "4", "4,10 m", "12 ft"].map(sounded).into();
    let text = csv_of(kind, &Log::of(&record_of(&bodies, job), Some("S-2"), None));
    let headings = text.lines().next().expect("there are headings");
    assert!(headings.contains(";points[1].place;points[1].depth;"), "{headings}");
    assert!(text.contains(";3,82;") && text.contains(";4;") && !text.contains('{'), "{text}");
    let table = Table::of(kind.word).expect("a table");
    let request = Request {
        context: &context,
        table: Some(&table),
        shaft: None,
        date: None,
        author: None,
        device: None,
    };
    let read = notes::table::read(Source { name: "log.csv", bytes: text.as_bytes() }, request, &Anything);
    let drafted = read.expect("our own table is read").drafted;
    let back: Vec<Body> = drafted.iter().map(|one| one.body(&|_| None).expect("no labels")).collect();
    assert_eq!(back, bodies);
}

/// Where the job reads bare numbers in another unit today, the unit they were read in goes with them.
#[test]
fn a_number_read_in_another_unit_takes_its_unit_along() {
    let metric = JOB.replace("units = \"us\"", "units = \"metric\"");
    let kind = record::kinds::kind_of("tool_run").expect("a kind");
    let run =
        body_of(kind, &[("to".to_owned(), Value::Text("12.5".to_owned()))].into_iter().collect(), &context());
    let text = csv_of(kind, &Log::of(&record_of(std::slice::from_ref(&run), &metric), Some("S-2"), None));
    assert!(text.contains("12.5 {ft}"), "{text}");
    let context = read_job(JOB).context.with_shafts(["S-2".to_owned()]);
    let context =
        Context { defaults: read_job(&metric.replace("slump_low = 7\n", "")).context.defaults, ..context };
    let table = Table::of(kind.word).expect("a table");
    let request = Request {
        context: &context,
        table: Some(&table),
        shaft: None,
        date: None,
        author: None,
        device: None,
    };
    let read = notes::table::read(Source { name: "log.csv", bytes: text.as_bytes() }, request, &Anything);
    let back = read.expect("our own table is read").drafted[0].body(&|_| None).expect("no labels");
    assert_eq!(back, run);
}
