//! Opening a large job, printed: where the time goes.
//!
//! Never: assert a time.

use record::{Held, Record};
use std::time::Instant;
use store::{Line, Most, Sqlite, Store};
use testkit::{Tablet, body};

/// Entries, of so many devices about so many shafts.
const ENTRIES: usize = 50_000;
const DEVICES: u8 = 10;
const SHAFTS: usize = 100;

fn main() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut store = Sqlite::open(&folder.path().join(store::DATABASE)).expect("a database");
    fill(&mut store);
    println!(
        "a job of {ENTRIES} entries, {DEVICES} devices, {SHAFTS} shafts; for 500,000 take ten times as long"
    );
    let (record, whole) = timed(|| store.record(testkit::JOB).expect("read"));
    let (complaint, asked) = timed(|| store.complaint().expect("asked"));
    assert!(complaint.is_none() && record.len() == ENTRIES);
    let (lines, read) = timed(|| lines(&store));
    let (_, canonical) = timed(|| lines.iter().filter(|line| wire::read_kept(line).is_ok()).count());
    let (held, alone) =
        timed(|| lines.iter().map(|line| wire::read(line).expect("an entry")).collect::<Vec<_>>());
    let (_, joined) = timed(|| Record::of(held).expect("a record"));
    println!("  opened, every line and every signature proved: {whole:.2} s");
    println!("  of that reading the lines, each compared with its id:  {read:.2} s");
    println!("          taking them apart, without signatures:         {canonical:.2} s");
    println!("          making the record of the entries:              {joined:.2} s");
    println!("  each signature for itself, in place of by device:      {alone:.2} s");
    println!("  beside it, whether the database is whole:              {asked:.2} s");
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let begun = Instant::now();
    let done = work();
    (done, begun.elapsed().as_secs_f64())
}

fn fill(store: &mut Sqlite) {
    for device in 1..=DEVICES {
        let (mut pen, mut lines) = (Tablet::new(device), Vec::new());
        for number in 0..ENTRIES / usize::from(DEVICES) {
            pen = pen.about(Some(&format!("S-{}", number % SHAFTS)));
            let words = "Concrete sounded beside the tremie; the tape hung straight.";
            lines.push(Line::of(&Held::Known(pen.write("10:41", body("remark", &[("text", words)])))));
        }
        store.add_lines(&lines).expect("kept");
    }
}

fn lines(store: &Sqlite) -> Vec<String> {
    let (mut all, mut cursor) = (Vec::new(), 0);
    loop {
        let page = store.after(testkit::JOB, cursor, Most { lines: 5000, bytes: 4 << 20 }).expect("a page");
        all.extend(page.lines.lines().map(str::to_owned));
        if !page.more {
            return all;
        }
        cursor = page.cursor;
    }
}
