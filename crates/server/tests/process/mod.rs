//! A desk in a process of its own, that a test can kill; and where it keeps the record.

use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use store::{Address, DATABASE, Database};
use testkit::disk::SmallDisk;

/// The program of `examples/small_server.rs`, which `cargo test` builds beside the tests.
fn program() -> PathBuf {
    let tests = std::env::current_exe().expect("a test has a path");
    let built = tests.ancestors().nth(2).expect("tests are in a folder of the build");
    let program = built.join("examples").join(format!("small_server{}", std::env::consts::EXE_SUFFIX));
    assert!(program.exists(), "build it first: cargo build --package server --example small_server");
    program
}

/// Where desks keep the record, and how they are told.
pub(crate) struct Office {
    folder: PathBuf,
    /// Removed at the end, where it is ours.
    _own: Option<tempfile::TempDir>,
    server: Option<testkit::postgres::Database>,
}

impl Office {
    pub(crate) fn new(server: Option<testkit::postgres::Database>) -> Self {
        let own = tempfile::tempdir().expect("a folder");
        Office { folder: own.path().to_owned(), _own: Some(own), server }
    }

    /// One whose record is a file on a disk.
    pub(crate) fn on(disk: &SmallDisk) -> Self {
        Office { folder: disk.path().join("office"), _own: None, server: None }
    }

    pub(crate) fn store(&self) -> Database {
        let address = match &self.server {
            None => Address::of_file(&self.folder.join(DATABASE)),
            Some(server) => Address::read(&server.address()).expect("an address"),
        };
        Database::open(&address).expect("the database opens")
    }
}

/// A desk in a process of its own.
pub(crate) struct Desk {
    process: Child,
    pub(crate) address: String,
    pub(crate) codes: Vec<String>,
}

impl Desk {
    pub(crate) fn start(office: &Office, codes: u8) -> Self {
        let process = Command::new(program())
            .arg(&office.folder)
            .arg(codes.to_string())
            .args(office.server.as_ref().map(testkit::postgres::Database::address))
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
    pub(crate) fn kill(mut self) {
        self.process.kill().expect("it runs");
        self.process.wait().expect("it ended");
    }
}
