//! Any bytes, taken for what an office keeps beside the record: a workbook with a schedule, a file of limits.
//!
//! Must hold: no panic, an end, and no more memory than a schedule needs; a sheet that reads is a table whose rows have one
//! width; limits that read have names.

#![no_main]

use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    for comma in [false, true] {
        sheet(bytes, comma);
    }
    if let Ok(set) = criteria::Set::parse(&String::from_utf8_lossy(bytes)) {
        assert!(!set.about.id.is_empty(), "a set has a name");
    }
});

fn sheet(bytes: &[u8], comma: bool) {
    let Ok(first) = formats::workbook::sheet_of(bytes, None, comma) else { return };
    let separator = if comma { b';' } else { b',' };
    let mut reader = csv::ReaderBuilder::new().delimiter(separator).from_reader(first.csv.as_bytes());
    let width = reader.headers().expect("a first row").len();
    assert!(reader.records().all(|row| row.is_ok_and(|row| row.len() == width)), "every row has one width");
    let named = formats::workbook::sheet_of(bytes, Some(&first.name), comma).expect("it is found by its name");
    assert_eq!(named.csv, first.csv);
}
