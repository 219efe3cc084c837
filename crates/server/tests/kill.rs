//! `kill -9` of the desk at random moments, while many tablets write over real HTTP.
//!
//! After every kill: what any tablet was told is stored is in the database. At the end: everything ever
//! written is at the desk once, and the same on every tablet, byte for byte. A killed process does not lose
//! what the system took over from it, so this tells of the order of commit and answer, and of a half-done
//! commit; that the commit waits for the disk is a setting the store's tests look at.

mod carrier;

use carrier::{Carrier, exchange};
use record::EntryId;
use std::collections::BTreeSet;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, RwLock};
use std::time::{Duration, Instant};
use store::{DATABASE, Sqlite, Store};
use sync::Status;
use testkit::network::{Device, Dice, Fate};
use testkit::{JOB, body};

const TABLETS: u8 = 16;
const KILLS: usize = 200;
/// What a test may take, whatever the machine; fewer kills then, which is printed.
const AT_MOST: Duration = Duration::from_secs(60);
/// Fewer than this is no test of it.
const KILLS_LEAST: usize = 20;
const SEED: u64 = 20_310_408;

/// The program of `examples/small_server.rs`, which `cargo test` builds beside the tests.
fn program() -> PathBuf {
    let tests = std::env::current_exe().expect("a test has a path");
    let built = tests.ancestors().nth(2).expect("tests are in a folder of the build");
    let program = built.join("examples").join(format!("small_server{}", std::env::consts::EXE_SUFFIX));
    assert!(program.exists(), "build it first: cargo build --package server --example small_server");
    program
}

/// A desk in a process of its own.
struct Desk {
    process: Child,
    address: String,
    codes: Vec<String>,
}

impl Desk {
    fn start(folder: &Path, codes: u8) -> Self {
        let process = Command::new(program())
            .arg(folder)
            .arg(codes.to_string())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the desk starts");
        let mut desk = Desk { address: String::new(), codes: Vec::new(), process };
        let out = desk.process.stdout.take().expect("it has an output");
        for line in BufReader::new(out).lines() {
            let line = line.expect("a text");
            match line.split_once(' ') {
                Some(("code", code)) => desk.codes.push(code.to_owned()),
                Some(("address", address)) => {
                    address.clone_into(&mut desk.address);
                    return desk;
                }
                _ => panic!("the desk said `{line}`"),
            }
        }
        panic!("the desk ended before it listened");
    }

    /// On unix this is SIGKILL: nothing of the process runs any more.
    fn kill(mut self) {
        self.process.kill().expect("it runs");
        self.process.wait().expect("it ended");
    }
}

/// What the tablets and the one who kills share.
struct Shared {
    address: RwLock<String>,
    stop: AtomicBool,
    acknowledged: Mutex<BTreeSet<EntryId>>,
    lost: AtomicUsize,
    /// Kills between a commit and the tablet's hearing of it.
    between: AtomicUsize,
}

/// A tablet's day: it writes, sends, pulls, until it is told to stop.
fn work(device: &mut Device, carrier: &mut Carrier, shared: &Shared, seed: u64) {
    let mut dice = Dice::of_seed(seed);
    let mut told = 0;
    while !shared.stop.load(Ordering::Relaxed) {
        if dice.percent(40) {
            let words = "seen ".repeat(1 + dice.below(20));
            device.write(testkit::at("10:41"), body("remark", &[("text", words.trim())]), Fate::Keeps);
        }
        shared.address.read().expect("nobody fell").clone_into(&mut carrier.address);
        match exchange(device, carrier, JOB) {
            Some(true) => {}
            Some(false) => drop(shared.lost.fetch_add(1, Ordering::Relaxed)),
            None => device.tablet.look(),
        }
        let acknowledged = &device.disk.told.acknowledged;
        if acknowledged.len() > told {
            told = acknowledged.len();
            shared.acknowledged.lock().expect("nobody fell").extend(acknowledged);
        }
        // A person waits a second and more; the machine under test should not.
        std::thread::sleep(Duration::from_millis(device.tablet.wait_ms(dice.roll()).clamp(2, 20)));
    }
}

/// Kills the desk again and again, and looks after each time. How many times.
fn kill_again_and_again(folder: &Path, mut desk: Desk, shared: &Shared) -> (usize, Desk) {
    let mut dice = Dice::of_seed(SEED);
    let (mut stored, mut cursor) = (BTreeSet::new(), 0);
    let begun = Instant::now();
    let mut kills = 0;
    while kills < KILLS && begun.elapsed() < AT_MOST {
        std::thread::sleep(Duration::from_millis(dice.below(150) as u64));
        desk.kill();
        kills += 1;
        let promised = shared.acknowledged.lock().expect("nobody fell").clone();
        let store = Sqlite::open(&folder.join(DATABASE)).expect("the database opens after a kill");
        for arrival in store.arrivals(cursor, usize::MAX).expect("it can be read") {
            cursor = arrival.arrival;
            assert!(stored.insert(arrival.id), "{} is there twice", arrival.id);
        }
        drop(store);
        if stored.len() > promised.len() {
            shared.between.fetch_add(1, Ordering::Relaxed);
        }
        let lost: Vec<&EntryId> = promised.difference(&stored).collect();
        assert!(lost.is_empty(), "after kill {kills} of seed {SEED}: acknowledged and gone: {lost:?}");
        desk = Desk::start(folder, 0);
        desk.address.clone_into(&mut shared.address.write().expect("nobody fell"));
    }
    (kills, desk)
}

/// Everything is sent and seen.
#[track_caller]
fn settle(device: &mut Device, carrier: &mut Carrier, address: &str) {
    address.clone_into(&mut carrier.address);
    for _ in 0..10_000 {
        if exchange(device, carrier, JOB).is_none() {
            break;
        }
    }
    let state = carrier.state(JOB).expect("the desk answers");
    device.desk_holds(&state);
    assert_eq!(device.tablet.status(), Status::InStep);
    assert_eq!(device.disk.told.set_back, 0, "a killed desk lost nothing");
}

#[test]
fn nothing_acknowledged_is_lost_and_nothing_is_doubled() {
    let folder = tempfile::tempdir().expect("a folder");
    let desk = Desk::start(folder.path(), TABLETS);
    let mut tablets: Vec<(Device, Carrier)> = (1..=TABLETS)
        .zip(&desk.codes)
        .map(|(number, code)| {
            let carrier = Carrier::pair(&desk.address, code, &format!("Rig {number}"));
            (Device::new(number, 0), carrier)
        })
        .collect();
    let shared = Shared {
        address: RwLock::new(desk.address.clone()),
        stop: AtomicBool::new(false),
        acknowledged: Mutex::default(),
        lost: AtomicUsize::new(0),
        between: AtomicUsize::new(0),
    };
    let (kills, desk) = std::thread::scope(|scope| {
        for (seed, (device, carrier)) in (SEED..).zip(&mut tablets) {
            let shared = &shared;
            scope.spawn(move || work(device, carrier, shared, seed));
        }
        let stop = StopWhenDropped(&shared.stop);
        let killed = kill_again_and_again(folder.path(), desk, &shared);
        drop(stop);
        killed
    });
    let address = desk.address.clone();
    for _ in 0..2 {
        // The first time everybody sends, the second time everybody sees what the others sent.
        tablets.iter_mut().for_each(|(device, carrier)| {
            device.tablet.look();
            settle(device, carrier, &address);
        });
    }
    desk.kill();
    check_the_end(folder.path(), &tablets, kills, &shared);
}

/// Tells the tablets to stop, also when a check fell.
struct StopWhenDropped<'a>(&'a AtomicBool);

impl Drop for StopWhenDropped<'_> {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

#[track_caller]
fn check_the_end(folder: &Path, tablets: &[(Device, Carrier)], kills: usize, shared: &Shared) {
    let store = Sqlite::open(&folder.join(DATABASE)).expect("the database opens");
    assert_eq!(store.complaint().expect("it can be asked"), None);
    // Reading the record proves every line again.
    let record = store.record(JOB).expect("every line is what it was");
    assert_eq!(record.alarms(), []);
    let expected = wire::write_lines(&record);
    for (device, _) in tablets {
        assert!(device.file() == expected, "a tablet holds another record than the desk");
        let own = record.entries().filter(|held| held.place().0 == device.name()).count();
        assert_eq!(device.disk.told.acknowledged.len(), own, "all it wrote, and nothing else");
    }
    let arrivals = store.arrivals(0, usize::MAX).expect("it can be read").len();
    assert_eq!(arrivals, record.len(), "nothing is there twice");
    let lost = shared.lost.load(Ordering::Relaxed);
    let between = shared.between.load(Ordering::Relaxed);
    println!(
        "{kills} kills, {between} between commit and answer; {arrivals} entries, {lost} asks unanswered"
    );
    assert!(kills >= KILLS_LEAST, "{kills} kills are too few to tell");
    assert!(between > 0, "some kill came when entries were stored and not yet acknowledged");
    assert!(arrivals > kills, "the tablets wrote while the desk was killed");
}
