//! Figures of an office with many jobs in one PostgreSQL database, printed: how each grows with what is in it.
//!
//! `bench_office JOBS …`: for each number of jobs a new database is filled, then a job is opened, a shaft is found, and two
//! hundred devices bring a day, to one server process and to two. Each job has 25,000 entries about 50 shafts.
//! Without numbers: 10 jobs. Devices, servers and database share this machine.
//!
//! One job is of real entries, written in turns with those of 39 others, as jobs that run at the same time are. The rest is
//! made in the database by copying under other names and ids: it weighs what it would, and is never read as a record.
//!
//! Never: assert a time.

#[path = "../tests/carrier/mod.rs"]
mod carrier;

use carrier::{Carrier, exchange};
use record::Held;
use std::io::{BufRead, BufReader};
use std::process::{Child, Command, Stdio};
use std::time::Instant;
use store::{Address, Database, Line, Most, Store};
use testkit::network::{Device, Fate};
use testkit::postgres::{Cluster, Database as Server};
use testkit::{Tablet, body};

const ENTRIES: usize = 25_000;
const SHAFTS: usize = 50;
/// Devices that write in a job.
const DEVICES: u8 = 5;
/// Jobs that run at the same time.
const TOGETHER: usize = 40;
/// Entries of a job that come in one after the other.
const TURN: usize = 250;
/// Devices that bring a day, and the entries each wrote on it.
const FLEET: u8 = 200;
const DAY: usize = 100;
/// Jobs they write in.
const DAY_JOBS: usize = 20;
const JOB: &str = "J-1";

fn main() {
    let sizes: Vec<usize> =
        std::env::args().skip(1).map(|size| size.parse().expect("a number of jobs")).collect();
    for jobs in if sizes.is_empty() { vec![10] } else { sizes } {
        // On the disk, which is waited for at every commit.
        let server = Cluster::at(&std::env::temp_dir()).database();
        let address = Address::read(&server.address()).expect("an address");
        let mut store = Database::open(&address).expect("a store");
        fill(&mut store, &server, jobs);
        let size = hand(&server, "SELECT pg_size_pretty(pg_total_relation_size('entry'))");
        println!("{jobs} jobs, {} shafts, {} entries, {size} with indexes", jobs * SHAFTS, jobs * ENTRIES);
        opened(&store);
        found(&server, jobs);
        for processes in [1, 2] {
            a_day(&server, processes);
        }
    }
}

fn hand(server: &Server, statement: &str) -> String {
    server.by_hand(statement).expect("done").trim().to_owned()
}

/// Real entries of about 700 bytes.
fn real() -> Vec<Vec<Line>> {
    let words = "Concrete sounded beside the tremie; the tape hung straight. ".repeat(4);
    let mut pens: Vec<Tablet> = (1..=DEVICES).map(|number| Tablet::new(number).of_job(JOB)).collect();
    let mut write = |at: usize| {
        let pen = &mut pens[at % usize::from(DEVICES)];
        *pen = pen.clone().about(Some(&format!("S-{}", at * SHAFTS / ENTRIES)));
        Line::of(&Held::Known(pen.write("10:41", body("remark", &[("text", words.trim())]))))
    };
    let lines: Vec<Line> = (0..ENTRIES).map(&mut write).collect();
    println!("an entry has {} bytes", lines[0].text().len());
    lines.chunks(TURN).map(<[Line]>::to_vec).collect()
}

/// The entries of the real job after an arrival, put in again for other jobs.
fn copy(after: i64, jobs: std::ops::RangeInclusive<usize>) -> String {
    let (first, last) = jobs.into_inner();
    format!(
        "INSERT INTO entry (id, job, shaft, device, seq, line)
         SELECT encode(sha256((j || id)::bytea), 'hex'), 'J-' || j, shaft, md5(j || device) || md5(device), seq, line
         FROM entry CROSS JOIN generate_series({first}, {last}) AS j
         WHERE job = '{JOB}' AND arrival > {after} ORDER BY (seq - 1) / 50, j, arrival"
    )
}

/// What is faster made anew than kept up while millions of entries are copied.
const INDEXES: [(&str, &str); 3] = [
    ("ALTER TABLE entry DROP CONSTRAINT entry_id_key", "ALTER TABLE entry ADD UNIQUE (id)"),
    ("DROP INDEX entry_by_job", "CREATE INDEX entry_by_job ON entry (job, shaft)"),
    ("DROP INDEX entry_by_device", "CREATE INDEX entry_by_device ON entry (device, seq)"),
];

fn fill(store: &mut Database, server: &Server, jobs: usize) {
    let begun = Instant::now();
    let mut last = 0;
    for turn in real() {
        let kept = store.add_lines(&turn).expect("kept");
        assert_eq!(kept.len(), turn.len());
        hand(server, &copy(last, 2..=jobs.min(TOGETHER)));
        last = hand(server, "SELECT max(arrival) FROM entry").parse().expect("a number");
    }
    INDEXES.iter().for_each(|(drop, _)| with_room(server, drop));
    for first in (TOGETHER + 1..=jobs).step_by(TOGETHER) {
        hand(server, &copy(0, first..=jobs.min(first + TOGETHER - 1)));
    }
    INDEXES.iter().for_each(|(_, make)| with_room(server, make));
    hand(
        server,
        "INSERT INTO job_count SELECT job, count(*), max(arrival), repeat('0', 64) FROM entry
         WHERE job <> 'J-1' GROUP BY job; ANALYZE; CHECKPOINT",
    );
    println!("filled in {:.0} s", begun.elapsed().as_secs_f64());
}

fn with_room(server: &Server, statement: &str) {
    hand(server, &format!("SET maintenance_work_mem = '1GB'; {statement}"));
}

fn ms(begun: Instant) -> f64 {
    begun.elapsed().as_secs_f64() * 1e3
}

fn opened(store: &Database) {
    for time in ["the first time", "again"] {
        let begun = Instant::now();
        let record = store.record(JOB).expect("every line proved");
        println!(
            "  a job opened, {} entries, every signature proved, {time}: {:.0} ms",
            record.len(),
            ms(begun)
        );
    }
    let begun = Instant::now();
    let page = store.after(JOB, 0, Most { lines: 5000, bytes: 4 << 20 }).expect("a page");
    println!("  its first page, {} entries, as a fresh tablet asks for it: {:.0} ms", page.count, ms(begun));
    let begun = Instant::now();
    let counts = store.counts().expect("counted");
    println!("  the list of all {} jobs with their counts: {:.1} ms", counts.len(), ms(begun));
}

/// A hundred shafts of jobs all over the office, each by the index that is there for it.
fn found(server: &Server, jobs: usize) {
    let find = format!(
        "SELECT sum(found) FROM (SELECT (SELECT count(*) FROM entry
            WHERE job = 'J-' || 1 + (n * 7919) % {jobs} AND shaft = 'S-' || n % {SHAFTS}) AS found
         FROM generate_series(1, 100) AS n) AS each"
    );
    for time in ["the first time", "again"] {
        let plan = hand(server, &format!("EXPLAIN (ANALYZE, TIMING OFF) {find}"));
        let took = plan.lines().find_map(|line| line.strip_prefix("Execution Time: ")).unwrap_or("?");
        println!("  100 shafts found in jobs all over the office, all their entries counted, {time}: {took}");
    }
}

/// A server in a process of its own, ended when it is dropped.
struct Desk {
    process: Child,
    address: String,
    codes: Vec<String>,
}

impl Desk {
    fn start(folder: &std::path::Path, codes: u8, server: &Server) -> Self {
        let mut program = std::env::current_exe().expect("a path");
        program.set_file_name(format!("small_server{}", std::env::consts::EXE_SUFFIX));
        let mut process = Command::new(program)
            .args([folder.to_str().expect("a name"), &codes.to_string(), &server.address()])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("built before: cargo build --release --package server --example small_server");
        let (mut address, mut codes) = (String::new(), Vec::new());
        for line in BufReader::new(process.stdout.take().expect("its output")).lines() {
            match line.expect("a text").split_once(' ') {
                Some(("code", code)) => codes.push(code.to_owned()),
                Some((_, listens)) => {
                    listens.clone_into(&mut address);
                    break;
                }
                None => panic!("the desk said something else"),
            }
        }
        Desk { process, address, codes }
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        drop(self.process.stdin.take());
        let _ = self.process.wait();
    }
}

/// The job a device of the fleet writes in.
fn day(processes: usize, number: u8) -> String {
    format!("day-{processes}-{}", usize::from(number) % DAY_JOBS)
}

fn a_day(server: &Server, processes: usize) {
    let folder = tempfile::tempdir().expect("a folder");
    let desks: Vec<Desk> = (0..processes)
        .map(|number| Desk::start(folder.path(), if number == 0 { FLEET } else { 0 }, server))
        .collect();
    let mut fleet: Vec<(Device, Carrier)> = (1..=FLEET)
        .zip(&desks[0].codes)
        .map(|(number, code)| {
            let mut carrier = Carrier::pair(&desks[0].address, code, &format!("Rig {number}"));
            desks[usize::from(number) % processes].address.clone_into(&mut carrier.address);
            // Another day in each turn: the secret differs.
            let mut secret = [number; 32];
            secret[0] = processes as u8;
            let mut device = Device::of_secret(secret, &day(processes, number), 0);
            let words = "Concrete sounded beside the tremie; the tape hung straight. ".repeat(4);
            for _ in 0..DAY {
                let body = body("remark", &[("text", words.trim())]);
                device.write(testkit::at("10:41"), body, Fate::Keeps).expect("it is kept");
            }
            (device, carrier)
        })
        .collect();
    let begun = Instant::now();
    let mut spans: Vec<f64> = std::thread::scope(|scope| {
        let days: Vec<_> = fleet
            .iter_mut()
            .map(|(device, carrier)| {
                scope.spawn(move || {
                    let begun = Instant::now();
                    while device.tablet.waiting() > 0 {
                        if exchange(device, carrier, "a day is only sent") != Some(true) {
                            // No answer came in time: a tablet rests before it asks again.
                            std::thread::sleep(std::time::Duration::from_millis(100));
                            device.tablet.look();
                        }
                    }
                    begun.elapsed().as_secs_f64()
                })
            })
            .collect();
        days.into_iter().map(|day| day.join().expect("no device fell")).collect()
    });
    let took = begun.elapsed().as_secs_f64();
    spans.sort_by(f64::total_cmp);
    let entries = usize::from(FLEET) * DAY;
    let held = fleet[0].1.state(&day(processes, 1)).expect("the desk answers").entries;
    assert_eq!(held as usize, entries / DAY_JOBS, "the desk holds what it acknowledged");
    println!(
        "  {FLEET} devices bring a day of {DAY} entries each, {processes} server processes: {took:.1} s, {:.0} entries/s; \
         a device is done after {:.1} s (half of them), {:.1} s (the last)",
        entries as f64 / took,
        spans[spans.len() / 2],
        spans[spans.len() - 1],
    );
}
