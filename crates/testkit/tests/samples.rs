//! The builders build what they say.

use record::kinds::KINDS;
use record::{Held, Value};
use testkit::{Tablet, body, full, minimal, record, tree};

#[test]
fn every_kind_has_a_smallest_and_a_full_body() {
    for kind in KINDS {
        let needed = kind.fields.iter().filter(|field| !field.may_be_blank).count();
        assert_eq!(minimal(kind).to_group().len(), needed, "{}", kind.word);
        assert_eq!(full(kind).to_group().len(), kind.fields.len(), "{}", kind.word);
        assert_eq!(full(kind).kind().word, kind.word);
    }
}

#[test]
fn a_path_reaches_into_lists_and_groups() {
    let text = |text: &str| Value::Text(text.to_owned());
    let first =
        Value::Group([("depth".to_owned(), text("41 ft")), ("place".to_owned(), text("center"))].into());
    let second = Value::Group([("depth".to_owned(), text("40.8 ft"))].into());
    let expected = [("points".to_owned(), Value::List(vec![first, second])), ("after".to_owned(), text("7"))];
    let fields = [
        ("points[0].depth", "41 ft"),
        ("points[0].place", "center"),
        ("points[1].depth", "40.8 ft"),
        ("after", "7"),
    ];
    assert_eq!(tree(&fields), expected.into());
}

#[test]
fn a_tablet_writes_a_chain_and_a_copy_of_it_is_noticed() {
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:40", body("remark", &[("text", "rain")]));
    let mut clone = tablet.clone();
    let second = tablet.write("10:41", body("remark", &[("text", "sun")]));
    let other = clone.write("10:41", body("remark", &[("text", "snow")]));
    assert_eq!((second.seq, second.prev), (2, Some(first.id)));
    assert!(record([&first, &second]).alarms().is_empty());
    assert_eq!(record([&first, &second, &other]).alarms().len(), 1);
    assert_eq!(wire::read(&wire::write(&Held::Known(first.clone()))), Ok(Held::Known(first)));
}
