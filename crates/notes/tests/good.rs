//! Notes as people write them, into drafts, signed entries and the log they make.

use expect_test::expect;
use notes::{Criteria, Found, Notes, Nothing, Source, Surroundings, read, read_all};
use record::entry::FileHash;
use record::kinds::{ConcreteSounded, Correction, EntryKind};
use record::{Body, EntryId, Held, Log, Record, Standing};
use std::collections::BTreeMap;
use wire::{Key, Pen, Times};

const GOOD: &str = include_str!("good.toml");

fn good() -> Notes {
    read(Source { name: "good.toml", bytes: GOOD.as_bytes() }, None, &Nothing).expect("the example is good")
}

/// Signs notes with one key for each device, as a command does, and gives the record.
fn sign(notes: &Notes) -> (Record, Vec<EntryId>) {
    let key_of = |device: Option<&str>| Key::of_secret([device.map_or(1, |name| name.len() as u8); 32]);
    let keys: BTreeMap<Option<&str>, Key> =
        notes.drafted.iter().map(|one| (one.device.as_deref(), key_of(one.device.as_deref()))).collect();
    let mut pens: BTreeMap<Option<&str>, Pen<'_>> =
        keys.iter().map(|(device, key)| (*device, Pen::new(key, "job", "", None))).collect();
    let mut held = Vec::new();
    let ids = notes.write(|drafted, body| {
        let pen = pens.get_mut(&drafted.device.as_deref()).expect("every device has a pen");
        pen.author(&drafted.author);
        let (observed_at, noted_at) = (drafted.observed_at, drafted.noted_at);
        let entered_at = notes.drafted.last().expect("there are drafts").observed_at;
        let entry = pen.write(drafted.shaft.as_deref(), Times { observed_at, noted_at, entered_at }, body);
        let id = entry.id;
        held.push(Held::Known(entry));
        id
    });
    (Record::of(held).expect("every chain is whole"), ids)
}

#[test]
fn every_line_becomes_a_draft() {
    let notes = good();
    assert!(notes.opens);
    let line = |one: &notes::Drafted| {
        let (shaft, device) = (one.shaft.as_deref().unwrap_or("-"), one.device.as_deref().unwrap_or("-"));
        let noted = one.noted_at.map(|noted| format!(" noted {}", noted.clock())).unwrap_or_default();
        let (line, at, word) = (one.line, one.observed_at, one.kind().word);
        format!("{line} {at}{noted} {shaft} {device} {} {word}\n", one.author)
    };
    expect![[r#"
        2 2026-05-01T00:00:00-06:00 - - M. Okafor job_opened
        13 2026-05-01T00:00:00-06:00 - - M. Okafor person_named
        17 2026-05-01T00:00:00-06:00 - - M. Okafor mix_approved
        24 2026-05-01T00:00:00-06:00 S-1 - M. Okafor shaft_planned
        32 2026-05-01T00:00:00-06:00 S-1 - M. Okafor strata_expected
        42 2026-05-01T00:00:00-06:00 S-1 - M. Okafor cage_planned
        53 2026-05-04T07:10:00-06:00 S-1 tablet 1 M. Okafor tool_run
        54 2026-05-04T07:30:00-06:00 S-1 tablet 1 M. Okafor tool_run
        55 2026-05-04T09:05:00-06:00 S-1 tablet 1 M. Okafor sediment_measured
        56 2026-05-04T10:41:00-06:00 S-1 tablet 1 M. Okafor concrete_sounded
        57 2026-05-04T10:52:00-06:00 S-1 tablet 1 M. Okafor concrete_sounded
        58 2026-05-04T10:55:00-06:00 noted 16:30 S-1 tablet 1 M. Okafor remark
        59 2026-05-04T11:00:00-06:00 S-1 tablet 1 M. Okafor correction
        61 2026-05-05T00:10:00-06:00 S-1 tablet 1 M. Okafor work_stopped
        69 2026-05-05T07:00:00-06:00 S-1 office T. Lindqvist correction
        70 2026-05-05T07:05:00-06:00 S-1 office T. Lindqvist dispute_closed
        71 2026-05-05T07:10:00-06:00 - office T. Lindqvist weather
    "#]]
    .assert_eq(&notes.drafted.iter().map(line).collect::<String>());
}

#[test]
fn what_people_wrote_is_kept_to_the_character() {
    let notes = good();
    let id = |_: &str| Some(EntryId([7; 32]));
    let fields = |one: &notes::Drafted| {
        format!("{:?}\n", one.body(&id).expect("every label resolves").to_group())
            .replace("Text(\"", "(\"")
            .replace(&"07".repeat(32), "07…07")
    };
    expect![[r##"
        {"lengths": ("feet_tenths"), "name": ("Harlow Creek Interchange"), "number": ("4711"), "time_zone": ("America/Denver"), "units": ("us")}
        {"name": ("M. Okafor"), "role": ("inspector")}
        {"mix": ("D-40"), "slump_high": ("9 in"), "slump_low": ("7 {in}"), "strength": ("4000 {psi}"), "trial": List([Group({"age": ("0 {min}"), "slump": ("8 1/2 in")}), Group({"age": ("90 min"), "slump": ("6.5 {in}")})])}
        {"bore": List([Group({"diameter": ("4 ft")})]), "method": ("temporary_casing"), "structure": ("sign"), "tip": ("5262 ft"), "top": ("5280.0 ft")}
        {"layers": List([Group({"from": ("5280 {ft}"), "ground": ("clay"), "to": ("5270 {ft}")}), Group({"from": ("5270 {ft}"), "ground": ("sand"), "to": ("5250 {ft}")})])}
        {"bars": List([Group({"count": ("12"), "size": ("#9")})]), "diameter": ("42 {in}"), "hoops": List([Group({"size": ("#4"), "sort": ("ties"), "spacing": ("12 {in}")})])}
        {"by_hand": Flag(true), "out": ("2026-05-04T07:22:00-06:00"), "to": ("4 ft"), "tool": ("shovel")}
        {"by_hand": Flag(false), "from": ("4 {ft}"), "out": ("2026-05-04T07:41:00-06:00"), "to": ("9.5 {ft}")}
        {"points": List([Group({"thickness": ("1/2 in")})])}
        {"after": ("4411"), "points": List([Group({"depth": ("12.6 {ft}"), "place": ("center")}), Group({"depth": ("12.4 {ft}"), "place": ("north")})])}
        {"points": List([Group({"depth": ("9.0 {ft}"), "place": ("outside")})])}
        {"text": ("Rain since noon")}
        {"body": Group({"body": Group({"after": ("4411"), "points": List([Group({"depth": ("11.6 {ft}")})])}), "kind": ("concrete_sounded")}), "reason": ("misread the tape"), "replaces": ("07…07")}
        {"reason": ("night")}
        {"observed": ("2026-05-04T10:40:00-06:00"), "reason": ("slack tape"), "replaces": ("07…07")}
        {"about": ("07…07"), "keeps": ("07…07"), "reason": ("read again")}
        {"temperature": ("52 F")}
    "##]].assert_eq(&notes.drafted.iter().map(fields).collect::<String>());
}

#[test]
fn a_mark_at_the_beginning_and_other_line_ends_change_nothing() {
    let other = format!("\u{feff}{}", GOOD.replace('\n', "\r\n"));
    let again = read(Source { name: "good.toml", bytes: other.as_bytes() }, None, &Nothing);
    assert_eq!(again, Ok(good()));
}

#[test]
fn signed_notes_make_a_log_with_its_dispute_closed() {
    let (record, ids) = sign(&good());
    assert_eq!(record.len(), ids.len());
    let log = Log::of(&record, Some("S-1"), None);
    let corrections = record.entries().filter(|held| match held {
        Held::Known(entry) => Correction::of(&entry.body).is_some(),
        Held::Newer(_) => false,
    });
    assert_eq!(corrections.count(), 2);
    assert!(log.disputes.is_empty() && log.loose.is_empty(), "a person closed it");
    let soundings: Vec<String> = log
        .each::<ConcreteSounded>()
        .map(|(line, sounding)| format!("{} {}", line.at.clock(), sounding.points[0].depth.shown()))
        .collect();
    assert_eq!(soundings, ["10:41 12.6 ft", "10:52 9.0 ft"], "the first reading was kept");
}

#[test]
fn two_notebooks_disagree_until_a_person_decides() {
    let open = GOOD.lines().filter(|line| !line.contains("dispute_closed")).collect::<Vec<_>>().join("\n");
    let notes = read(Source { name: "open.toml", bytes: open.as_bytes() }, None, &Nothing).expect("good too");
    let (record, _) = sign(&notes);
    let log = Log::of(&record, Some("S-1"), None);
    assert_eq!(log.disputes.len(), 1);
    assert_eq!(log.disputes[0].candidates.len(), 2);
    let disputed = log.lines.iter().filter(|line| matches!(line.standing, Standing::Disputed { .. }));
    assert!(disputed.count() >= 2);
}

/// A record with one entry, a criteria set and a photo beside the notes.
struct Site;

impl Surroundings for Site {
    fn entry(&self, digits: &str) -> Found {
        match digits {
            "1a2b3c4d" => Found::One(EntryId([0x1a; 32])),
            "1a" => Found::Several,
            _ => Found::None,
        }
    }
    fn file(&self, name: &str) -> Option<FileHash> {
        (name == "base.jpg").then_some(FileHash([0xb; 32]))
    }
    fn criteria(&self, key: &str) -> Option<Criteria> {
        (key == "own").then_some(Criteria { file: FileHash([0xc; 32]), text: Some("limits".to_owned()) })
    }
}

#[test]
fn what_lies_beside_the_notes_is_asked_for() {
    let day = r#"
[job]
key = "harlow-creek"
date = 2026-05-06
author = "A"
[criteria]
set = "own"
[shaft.cage]
diameter = "3 ft"
[shaft]
id = "S-1"
[[day]]
date = 2026-05-06
shaft = "S-1"
author = "A"
log = [
  { at = "7:00", entry = "photo", file = "base.jpg", caption = "the base" },
  { at = "7:05", entry = "correction", replaces = "1a2b3c4d", reason = "not my shaft" },
  { at = "7:06", entry = "notice_given", to = "Engineer", about = "cave-in", entry_ = "1a2b3c4d" },
]
"#;
    let context = good().context;
    let read_day =
        |text: &str| read(Source { name: "day.toml", bytes: text.as_bytes() }, Some(&context), &Site);
    let notes = read_day(day).expect("everything is found");
    let body = |index: usize| notes.drafted[index].body(&|_| None).expect("there are no labels");
    assert!(!notes.opens);
    assert!(matches!(body(0), Body::CriteriaChosen(chosen) if chosen.text.as_deref() == Some("limits")));
    assert!(matches!(body(1), Body::CagePlanned(_)));
    assert!(matches!(body(2), Body::Photo(photo) if photo.file == FileHash([0xb; 32])));
    assert!(matches!(body(3), Body::Correction(correction) if correction.replaces == EntryId([0x1a; 32])));
    assert!(matches!(body(4), Body::NoticeGiven(notice) if notice.entry == Some(EntryId([0x1a; 32]))));
    let unclear = read_day(&day.replace("\"1a2b3c4d\", reason", "\"1a\", reason")).expect_err("two begin so");
    expect!["day.toml, line 18, column 51: more than one entry begins with `1a`; write more of its digits"]
        .assert_eq(&unclear[0].to_string());
}

#[test]
fn a_second_file_is_read_by_the_job_of_the_first() {
    let day = "[[day]]\ndate = 2026-05-06\nshaft = \"S-1\"\nauthor = \"A\"\nlog = [\n\
               { at = \"7:00\", entry = \"tool_run\", to = 9 } ]\n";
    let sources = [
        Source { name: "good.toml", bytes: GOOD.as_bytes() },
        Source { name: "day.toml", bytes: day.as_bytes() },
    ];
    let read = read_all(&sources, None, &Nothing).expect("both are good");
    assert_eq!(read[1].drafted[0].observed_at.to_string(), "2026-05-06T07:00:00-06:00");
    assert_eq!(read[1].context, read[0].context);
}
