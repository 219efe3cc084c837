//! `kill -9` of a desk at random moments, while many tablets write over real HTTP: of the only one, and of one of two that
//! share a database on a server.
//!
//! After every kill: what any tablet was told is stored is in the database. At the end: everything ever
//! written is at the desk once, and the same on every tablet, byte for byte. A killed process does not lose
//! what the system took over from it, so this tells of the order of commit and answer, and of a half-done
//! commit; that the commit waits for the disk is a setting the store's tests look at.

mod carrier;
#[allow(dead_code, reason = "each test program uses its own part of it")]
mod process;

use carrier::{Carrier, exchange};
use process::{Desk, Office};
use record::EntryId;
use std::collections::BTreeSet;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Mutex, RwLock};
use std::time::{Duration, Instant};
use store::Store;
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

/// What the tablets and the one who kills share.
struct Shared {
    /// Where each desk listens at the moment.
    addresses: RwLock<Vec<String>>,
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
    // Which of the desks it goes to; to the next one when no answer comes.
    let mut desk = seed as usize;
    while !shared.stop.load(Ordering::Relaxed) {
        if dice.percent(40) {
            let words = "seen ".repeat(1 + dice.below(20));
            device.write(testkit::at("10:41"), body("remark", &[("text", words.trim())]), Fate::Keeps);
        }
        let addresses = shared.addresses.read().expect("nobody fell");
        addresses[desk % addresses.len()].clone_into(&mut carrier.address);
        drop(addresses);
        match exchange(device, carrier, JOB) {
            Some(true) => {}
            Some(false) => {
                shared.lost.fetch_add(1, Ordering::Relaxed);
                desk += 1;
            }
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

/// Kills one desk after the other again and again, and looks after each time. How many times.
fn kill_again_and_again(office: &Office, mut desks: Vec<Desk>, shared: &Shared) -> (usize, Vec<Desk>) {
    let mut dice = Dice::of_seed(SEED);
    let (mut stored, mut cursor) = (BTreeSet::new(), 0);
    let begun = Instant::now();
    let mut kills = 0;
    // With two desks each kill is followed by a look at more; a third of the time is enough.
    let at_most = AT_MOST / (2 * desks.len() as u32 - 1);
    while kills < KILLS && begun.elapsed() < at_most {
        std::thread::sleep(Duration::from_millis(dice.below(150) as u64));
        let which = kills % desks.len();
        desks.remove(which).kill();
        kills += 1;
        let promised = shared.acknowledged.lock().expect("nobody fell").clone();
        let store = office.store();
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
        let desk = Desk::start(office, 0);
        desk.address.clone_into(&mut shared.addresses.write().expect("nobody fell")[which]);
        desks.insert(which, desk);
    }
    (kills, desks)
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
    killed_under_load(&Office::new(None), 1);
}

/// The tablets of the desk that is killed go on with the other one.
#[test]
fn nothing_acknowledged_by_two_desks_on_one_database_is_lost_when_one_is_killed() {
    killed_under_load(&Office::new(Some(testkit::postgres::database())), 2);
}

fn killed_under_load(office: &Office, desks: usize) {
    let desks: Vec<Desk> =
        (0..desks).map(|number| Desk::start(office, if number == 0 { TABLETS } else { 0 })).collect();
    let mut tablets: Vec<(Device, Carrier)> = (1..=TABLETS)
        .zip(&desks[0].codes)
        .map(|(number, code)| {
            let carrier = Carrier::pair(&desks[0].address, code, &format!("Rig {number}"));
            (Device::new(number, 0), carrier)
        })
        .collect();
    let shared = Shared {
        addresses: RwLock::new(desks.iter().map(|desk| desk.address.clone()).collect()),
        stop: AtomicBool::new(false),
        acknowledged: Mutex::default(),
        lost: AtomicUsize::new(0),
        between: AtomicUsize::new(0),
    };
    let (kills, desks) = std::thread::scope(|scope| {
        for (seed, (device, carrier)) in (SEED..).zip(&mut tablets) {
            let shared = &shared;
            scope.spawn(move || work(device, carrier, shared, seed));
        }
        let stop = StopWhenDropped(&shared.stop);
        let killed = kill_again_and_again(office, desks, &shared);
        drop(stop);
        killed
    });
    // Every tablet goes to every desk, so that both tell the same.
    for round in 0..2 {
        // The first time everybody sends, the second time everybody sees what the others sent.
        for (number, (device, carrier)) in tablets.iter_mut().enumerate() {
            device.tablet.look();
            settle(device, carrier, &desks[(number + round) % desks.len()].address);
        }
    }
    desks.into_iter().for_each(Desk::kill);
    check_the_end(office, &tablets, kills, &shared);
}

/// Tells the tablets to stop, also when a check fell.
struct StopWhenDropped<'a>(&'a AtomicBool);

impl Drop for StopWhenDropped<'_> {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

#[track_caller]
fn check_the_end(office: &Office, tablets: &[(Device, Carrier)], kills: usize, shared: &Shared) {
    let store = office.store();
    assert_eq!(store.whole_complaint().expect("it can be asked"), None);
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
