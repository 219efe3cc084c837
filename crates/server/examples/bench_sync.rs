//! Figures of the sync, printed: two hundred tablets that write, and a fresh one that pulls a large job.
//!
//! Desk and tablets share this machine and this process, and talk real HTTP on loopback. Beside the desk's
//! figure stands, from the same run, what the disk gives when each entry has a commit of its own.
//!
//! Never: assert a time.

#[path = "../tests/carrier/mod.rs"]
mod carrier;

use carrier::{Carrier, exchange};
use record::Held;
use server::{AppFiles, Asked, Desk, Exported, Limits, Papers, Running, SealWanted, Site};
use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};
use store::{Line, Sqlite, Store};
use testkit::network::{Device, Fate};
use testkit::{JOB, body};
use wording::Notice;

const TABLETS: u8 = 200;
/// Entries a tablet writes in a second.
const RATE: u32 = 5;
const SECONDS: u32 = 10;
/// Entries of the large job, and the devices that wrote them.
const LARGE: usize = 100_000;
const WRITERS: u8 = 20;
/// A job beside the one the tablets write in.
const LARGE_JOB: &str = "J-large";

struct NoPapers;

impl Papers for NoPapers {
    fn package_pdf(&self, _: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        unreachable!("no paper is asked for")
    }

    fn log_csv(&self, _: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        unreachable!("no paper is asked for")
    }

    fn seal(&self, _: &Desk, _: &SealWanted<'_>) -> Result<record::EntryId, Notice> {
        unreachable!("no seal is asked for")
    }

    fn sealed_pdf(&self, _: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        unreachable!("no paper is asked for")
    }

    fn time_stamp(&self, _: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        unreachable!("no time stamp is asked for")
    }

    fn export(&self, _: &record::Record, _: &str) -> Option<Exported> {
        unreachable!("no format is asked for")
    }
}

fn desk(folder: &Path) -> Running {
    let mut site = Site::new(folder, "Office", AppFiles::new(), Arc::new(NoPapers));
    site.limits = Limits { rate: 1e6, burst: 1e6, ..Limits::default() };
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).expect("a port");
    server::start(site, listener, None).expect("the desk starts")
}

fn carrier(running: &Running, number: u8) -> Carrier {
    let code = running.desk().new_code().expect("a code").text;
    Carrier::pair(&running.address().to_string(), &code, &format!("Rig {number}"))
}

/// A remark of the length of an ordinary entry.
fn write(device: &mut Device) {
    let seen = testkit::at("10:41");
    let words = "Concrete sounded beside the tremie; the tape hung straight.";
    device.write(seen, body("remark", &[("text", words)]), Fate::Keeps).expect("it is kept");
}

fn main() {
    let folder = tempfile::tempdir().expect("a folder");
    let running = desk(folder.path());
    two_hundred_write(&running);
    one_commit_an_entry();
    a_fresh_one_pulls(&running);
    running.stop();
}

fn two_hundred_write(running: &Running) {
    let mut tablets: Vec<(Device, Carrier)> =
        (1..=TABLETS).map(|number| (Device::new(number, 0), carrier(running, number))).collect();
    let begun = Instant::now();
    let spans: Vec<Duration> = std::thread::scope(|scope| {
        let days: Vec<_> = tablets
            .iter_mut()
            .zip(0_u32..)
            .map(|((device, carrier), number)| scope.spawn(move || a_day(device, carrier, number, begun)))
            .collect();
        days.into_iter().flat_map(|day| day.join().expect("no tablet fell")).collect()
    });
    let took = begun.elapsed().as_secs_f64();
    let held = tablets[0].1.state(JOB).expect("the desk answers").entries;
    assert_eq!(held as usize, spans.len(), "the desk holds what it acknowledged");
    let wanted = f64::from(u32::from(TABLETS) * RATE);
    println!("{TABLETS} tablets writing {RATE} entries/s each ({wanted:.0}/s), {SECONDS} s");
    println!("  acknowledged {} entries in {took:.1} s: {:.0}/s", spans.len(), spans.len() as f64 / took);
    println!("  from written to acknowledged: {}", quantiles(spans));
}

/// Writes at its rate, a little after the others, and measures from writing to the acknowledgement.
fn a_day(device: &mut Device, carrier: &Carrier, number: u32, begun: Instant) -> Vec<Duration> {
    let beat = Duration::from_secs(1) / RATE;
    let offset = beat * number / u32::from(TABLETS);
    let mut spans = Vec::new();
    for turn in 0..RATE * SECONDS {
        let due = begun + offset + beat * turn;
        std::thread::sleep(due.saturating_duration_since(Instant::now()));
        write(device);
        while device.tablet.waiting() > 0 {
            exchange(device, carrier, JOB);
        }
        // From when it was to be written: a desk that is late is not excused by the next entry's waiting.
        spans.push(due.elapsed());
    }
    spans
}

fn quantiles(mut spans: Vec<Duration>) -> String {
    spans.sort();
    let at = |percent: usize| spans[(spans.len() * percent / 100).min(spans.len() - 1)].as_secs_f64() * 1e3;
    format!("p50 {:.1} ms, p99 {:.1} ms, longest {:.1} ms", at(50), at(99), at(100))
}

/// The same disk, the same store, one commit an entry: what the desk would do without sharing commits.
fn one_commit_an_entry() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut store = Sqlite::open(&folder.path().join("alone.sqlite")).expect("a database");
    let mut pen = testkit::Tablet::new(1);
    let entry = |_| Line::of(&Held::Known(pen.write("10:41", body("remark", &[("text", "alone")]))));
    let lines: Vec<Line> = (0..1000).map(entry).collect();
    let begun = Instant::now();
    for line in &lines {
        store.add_lines(std::slice::from_ref(line)).expect("kept");
    }
    let took = begun.elapsed().as_secs_f64();
    println!("  beside it, one commit an entry, one after the other, no network: {:.0}/s", 1000.0 / took);
}

fn a_fresh_one_pulls(running: &Running) {
    fill(&running.desk());
    let mut fresh = Device::of_secret([251; 32], LARGE_JOB, 0);
    let carrier = carrier(running, 201);
    let begun = Instant::now();
    let mut pages = 0;
    while let Some((ask, lines)) = fresh.ask() {
        let answer = carrier.carry(&ask, lines, LARGE_JOB).expect("the desk answers");
        // Taken in as the app does it: every line proved; its disk is not measured here.
        pages += 1;
        let effects = fresh.tablet.heard(ask.number, answer);
        assert!(!effects.is_empty(), "each page brings something");
    }
    let took = begun.elapsed().as_secs_f64();
    println!("a fresh tablet pulled {LARGE} entries, each proved, in {took:.1} s ({pages} pages)");
    proved_alone(wire_alone(&carrier));
}

/// The same pages, taken and not looked at: their lines.
fn wire_alone(carrier: &Carrier) -> Vec<String> {
    let begun = Instant::now();
    let (mut after, mut all) = (0, Vec::new());
    loop {
        let what = sync::What::Pull { after, limit: wire::http::PULL_LINES_MAX };
        let answer = carrier.carry(&sync::Ask { number: 1, what }, String::new(), LARGE_JOB);
        let Some(sync::Answer::Page { cursor, more, lines }) = answer else { panic!("the desk hands out") };
        after = cursor;
        all.extend(lines);
        if !more {
            break;
        }
    }
    println!("  of that the desk and the wire alone: {:.1} s", begun.elapsed().as_secs_f64());
    all
}

/// What proving costs, beside proving each signature for itself and none at all.
fn proved_alone(lines: Vec<String>) {
    let spent = |proved: &mut dyn FnMut(&str) -> bool| {
        let begun = Instant::now();
        assert!(lines.iter().all(|line| proved(line)), "every line is an entry");
        begun.elapsed().as_secs_f64()
    };
    let mut reader = wire::Reader::default();
    let together = spent(&mut |line| reader.read(line).is_ok());
    let alone = spent(&mut |line| wire::read(line).is_ok());
    let kept = spent(&mut |line| wire::read_kept(line).is_ok());
    println!(
        "  of that proving: {together:.1} s; each signature for itself {alone:.1} s, {:.2} times as much",
        alone / together
    );
    println!("  the same lines without their signatures: {kept:.1} s");
}

/// Puts the large job into the desk.
fn fill(desk: &Desk) {
    let each = LARGE / usize::from(WRITERS);
    for number in 1..=WRITERS {
        let mut pen = testkit::Tablet::new(number).of_job(LARGE_JOB);
        let words = "Concrete sounded beside the tremie; the tape hung straight.";
        let entry = |_| Held::Known(pen.write("10:41", body("remark", &[("text", words)])));
        let entries: Vec<Held> = (0..each).map(entry).collect();
        desk.add(&entries).expect("kept");
    }
}
