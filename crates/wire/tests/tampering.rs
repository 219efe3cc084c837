//! A line that was touched is refused, whatever was touched.

use record::merge::Alarm;
use record::{Body, Entry, Held, Record};
use serde_json::{Map, Value};
use testkit::{Tablet, body, key, record};
use wire::{LineFault, read, read_lines, sha256, write};

fn remark(text: &str) -> Body {
    body("remark", &[("text", text)])
}

fn entry() -> Entry {
    Tablet::new(4).write("10:41", remark("41.2 ft"))
}

fn line() -> String {
    write(&Held::Known(entry()))
}

/// The object signed anew by a key, as somebody with a device of their own could.
fn resigned(object: &Map<String, Value>, number: u8) -> String {
    let mut object = object.clone();
    object.remove("id");
    object.remove("sig");
    object.insert("device".to_owned(), key(number).device().to_string().into());
    let signed = serde_json_canonicalizer::to_string(&object).expect("it has a canonical form");
    let id: String = sha256(signed.as_bytes()).iter().map(|byte| format!("{byte:02x}")).collect();
    object.insert("id".to_owned(), id.into());
    object.insert("sig".to_owned(), key(number).seal(signed.as_bytes()).to_string().into());
    serde_json_canonicalizer::to_string(&object).expect("it has a canonical form")
}

fn parsed(line: &str) -> Map<String, Value> {
    serde_json::from_str(line).expect("a line is JSON")
}

/// The line with one member changed and signed anew: what is refused then is refused for what it says.
fn with(name: &str, value: Value) -> String {
    let mut object = parsed(&line());
    object.insert(name.to_owned(), value);
    resigned(&object, 4)
}

#[test]
fn every_change_of_one_byte_is_refused() {
    let line = line();
    let mut refused = 0;
    for place in 0..line.len() {
        for byte in 0..=u8::MAX {
            let mut bytes = line.clone().into_bytes();
            if bytes[place] == byte {
                continue;
            }
            bytes[place] = byte;
            // What is no longer text never reaches a reader of lines.
            if let Ok(text) = String::from_utf8(bytes) {
                assert!(read(&text).is_err(), "byte {place} changed to {byte} was let pass: {text}");
            }
            refused += 1;
        }
    }
    assert_eq!(refused, line.len() * 255);
}

#[test]
fn every_byte_lost_doubled_or_swapped_and_every_cut_is_refused() {
    let line = line();
    let pieces = |place: usize| (&line[..place], &line[place..=place], &line[place + 1..]);
    for place in 0..line.len() {
        let (before, byte, after) = pieces(place);
        assert!(read(&format!("{before}{after}")).is_err(), "byte {place} lost");
        assert!(read(&format!("{before}{byte}{byte}{after}")).is_err(), "byte {place} doubled");
        assert!(read(before).is_err(), "cut at {place}");
        if let Some(next) = after.chars().next().filter(|next| !byte.starts_with(*next)) {
            let swapped = format!("{before}{next}{byte}{}", &after[next.len_utf8()..]);
            assert!(read(&swapped).is_err(), "bytes swapped at {place}");
        }
    }
}

#[track_caller]
fn check(text: &str, expected: &LineFault) {
    assert_eq!(read(text).as_ref().err(), Some(expected), "{text}");
}

#[test]
fn a_line_has_one_spelling() {
    let line = line();
    check(&line.replacen("{\"author\"", "{ \"author\"", 1), &LineFault::NotCanonical);
    check(&line.replacen("A. Inspector", "\\u0041. Inspector", 1), &LineFault::NotCanonical);
    check(&line.replacen("\"seq\":1", "\"seq\":1.0", 1), &LineFault::NotCanonical);
    check(&line.replacen("\"seq\":1", "\"seq\":1e0", 1), &LineFault::NotCanonical);
    check(&line.replacen("\"format\":1", "\"format\":1,\"format\":1", 1), &LineFault::NotCanonical);
    let first_of_two = line.replacen("{\"author\"", "{\"author\":\"B. Forger\",\"author\"", 1);
    check(&first_of_two, &LineFault::NotCanonical);
    let object = parsed(&line);
    let turned: Vec<String> = object.iter().rev().map(|(name, value)| format!("{name:?}:{value}")).collect();
    check(&format!("{{{}}}", turned.join(",")), &LineFault::NotCanonical);
    check(&format!("{line} "), &LineFault::NotCanonical);
}

#[test]
fn what_is_no_json_is_said_to_be_none() {
    for text in
        ["", "{", "[]", "1", "null", "{\"seq\":NaN}", "{\"seq\":1e999}", "{\"a\":\"\\ud800\"}", "\u{feff}{}"]
    {
        assert!(matches!(read(text), Err(LineFault::NotJson(_))), "{text}: {:?}", read(text));
    }
    let deep = format!("{{\"body\":{}{}}}", "[".repeat(100_000), "]".repeat(100_000));
    assert!(matches!(read(&deep), Err(LineFault::NotJson(_))), "it is refused, not followed to the bottom");
}

#[test]
fn members_that_are_missing_odd_or_unknown_are_named() {
    for name in ["author", "body", "entered_at", "format", "job", "kind", "observed_at", "seq"] {
        let mut object = parsed(&line());
        object.remove(name);
        check(&resigned(&object, 4), &LineFault::Member(name));
        check(&with(name, Value::Null), &LineFault::Member(name));
    }
    for name in ["prev", "shaft", "noted_at"] {
        check(&with(name, Value::from(7)), &LineFault::Member(name));
    }
    check(&with("seq", Value::from(0)), &LineFault::Member("seq"));
    check(&with("seq", Value::from(-1)), &LineFault::Member("seq"));
    check(&with("seq", Value::from("1")), &LineFault::Member("seq"));
    check(&with("seq", Value::from(9_007_199_254_740_993_u64)), &LineFault::Member("seq"));
    check(&with("seq", Value::from(u64::MAX)), &LineFault::Member("seq"));
    check(&with("prev", "0F".repeat(32).into()), &LineFault::Member("prev"));
    check(&with("observed_at", "2031-04-08T10:41:00Z".into()), &LineFault::Member("observed_at"));
    check(&with("observed_at", "2031-02-30T10:41:00-06:00".into()), &LineFault::Member("observed_at"));
    check(&with("mood", "cheerful".into()), &LineFault::Member("an unknown member"));
}

#[test]
fn identity_and_seal_have_to_fit() {
    let own = parsed(&line());
    let put = |name: &str, value: &str| {
        let mut object = own.clone();
        object.insert(name.to_owned(), value.into());
        serde_json_canonicalizer::to_string(&object).expect("it has a canonical form")
    };
    let other = parsed(&write(&Held::Known(Tablet::new(5).write("10:41", remark("41.2 ft")))));
    let text = |object: &Map<String, Value>, name: &str| object[name].as_str().expect("a text").to_owned();
    check(&put("sig", &text(&other, "sig")), &LineFault::NotSealed);
    check(&put("id", &text(&other, "id")), &LineFault::IdDisagrees);
    check(&put("device", &text(&other, "device")), &LineFault::IdDisagrees);
    check(&put("sig", &text(&own, "sig").to_uppercase()), &LineFault::Member("sig"));
    check(&put("id", &text(&own, "id")[..62]), &LineFault::Member("id"));
    check(&put("author", "B. Forger"), &LineFault::IdDisagrees);
    // Signed by another key under the first one's name: the id fits, the signature does not.
    let mut forged = own.clone();
    forged.insert("author".to_owned(), "B. Forger".into());
    let forged = parsed(&resigned(&forged, 4));
    let mut stolen = forged.clone();
    stolen.insert("sig".to_owned(), key(9).seal(b"anything").to_string().into());
    let stolen = serde_json_canonicalizer::to_string(&stolen).expect("it has a canonical form");
    check(&stolen, &LineFault::NotSealed);
    assert!(read(&line()).is_ok() && read(&resigned(&own, 4)).is_ok(), "the untouched line reads");
}

/// Both bodies stopped the fuzzer once: a second spelling of one entry would have had a second id.
#[test]
fn a_blank_field_or_an_empty_list_is_left_out_and_not_written() {
    let cases = [
        ("tool_run", r#"{"to":"9.5 {ft}","material":""}"#, "material"),
        ("tool_run", r#"{"to":"9.5 {ft}","material":"  "}"#, "material"),
        ("concrete_sounded", r#"{"after":"4711","points":[]}"#, "points"),
        ("tool_run", r#"{"to":"9.5 ft {ft}"}"#, "to"),
        ("tool_run", r#"{"to":"9.5"}"#, "to"),
        (
            "line_made_up",
            r#"{"name":"T","line":"tremie","pieces":[{"length":"10 ft","count":"03"}]}"#,
            "pieces[0].count",
        ),
        ("remark", r#"{"text":"a","mood":"b"}"#, "mood"),
        ("nonsense", "{}", ""),
    ];
    for (kind, body, path) in cases {
        let mut object = parsed(&line());
        object.insert("kind".to_owned(), kind.into());
        object.insert("body".to_owned(), serde_json::from_str(body).expect("the case is JSON"));
        let fault = read(&resigned(&object, 4)).expect_err(body);
        let LineFault::Body(faults) = fault else { panic!("{body}: {fault:?}") };
        assert_eq!(faults.iter().map(|fault| fault.path.as_str()).collect::<Vec<_>>(), [path], "{body}");
    }
    check(&with("body", serde_json::json!({ "text": 41.2 })), &LineFault::Member("body"));
}

#[test]
fn a_correction_carries_a_whole_body_and_never_another_correction() {
    let put = |inside: &str| {
        let mut object = parsed(&line());
        object.insert("kind".to_owned(), "correction".into());
        let body = format!(r#"{{"body":{inside},"reason":"r","replaces":"{}"}}"#, "0f".repeat(32));
        object.insert("body".to_owned(), serde_json::from_str(&body).expect("the case is JSON"));
        read(&resigned(&object, 4))
    };
    assert!(put(r#"{"kind":"remark","body":{"text":"a"}}"#).is_ok());
    for wrong in [
        r#"{"kind":"remark"}"#,
        r#"{"kind":"remark","body":{"text":""}}"#,
        r#"{"kind":"remark","body":{"text":"a"},"more":"b"}"#,
        r#"{"kind":"correction","body":{"reason":"r","replaces":"0f"}}"#,
    ] {
        assert!(matches!(put(wrong), Err(LineFault::Body(_))), "{wrong}");
    }
}

#[test]
fn a_file_with_a_fault_is_not_half_read_and_every_fault_is_told() {
    let mut tablet = Tablet::new(4);
    let lines = ["a", "b", "c"].map(|text| write(&Held::Known(tablet.write("10:41", remark(text)))));
    let text = format!("{}\n{}\n\n{}x\n", lines[0], &lines[1][..40], lines[2]);
    let errors = read_lines(&text).expect_err("two lines are no entries");
    assert_eq!(errors.iter().map(|error| error.line).collect::<Vec<_>>(), [2, 4]);
    assert!(errors[0].to_string().starts_with("line 2: this is not JSON"), "{}", errors[0]);
}

#[test]
fn a_replayed_or_rewritten_chain_shows() {
    let mut tablet = Tablet::new(4);
    let first = tablet.write("10:00", remark("41 ft"));
    let before = tablet.clone();
    let second = tablet.write("10:10", remark("40 ft"));
    let third = tablet.write("10:20", remark("39 ft"));
    let whole = record([&first, &second, &third]);
    assert!(whole.alarms().is_empty());
    // The same entries sent again add nothing.
    assert_eq!(whole.merge(&record([&first, &second])), Ok(whole.clone()));
    // One taken away.
    let device = tablet.device();
    assert_eq!(record([&first, &third]).alarms(), [Alarm::Gap { device, from: 2, to: 2 }]);
    // The owner of the key writes the second one anew: nothing points to it any more.
    let mut forger = before;
    let rewritten = forger.write("10:10", remark("43 ft"));
    assert_eq!(record([&first, &rewritten, &third]).alarms(), [Alarm::Broken { device, entry: third.id }]);
    let both = record([&first, &second, &rewritten, &third]).alarms().to_vec();
    assert!(matches!(both[..], [Alarm::Cloned { seq: 2, .. }]), "{both:?}");
    // Another device continues a chain that is not its own.
    let mut object = parsed(&write(&Held::Known(second)));
    object.insert("seq".to_owned(), 1.into());
    let Ok(Held::Known(stolen)) = read(&resigned(&object, 9)) else { panic!("it is an entry of device 9") };
    let device = stolen.device;
    let alarms = Record::of([Held::Known(stolen.clone())]).expect("one job").alarms().to_vec();
    assert_eq!(alarms, [Alarm::Broken { device, entry: stolen.id }]);
}
