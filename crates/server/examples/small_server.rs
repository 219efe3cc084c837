//! A desk without an app and without papers, quick to start and to kill: what the tests of `kill -9` run.
//!
//! `small_server FOLDER CODES [DATABASE]` prints its address, then so many pairing codes, then serves until its input
//! ends, so that it never outlives a test that failed.

use record::{EntryId, Record};
use server::{AppFiles, Asked, Desk, Exported, Limits, Papers, SealWanted, Site};
use std::io::{Read, Write};
use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;
use std::sync::Arc;
use wording::Notice;

struct NoPapers;

impl Papers for NoPapers {
    fn package_pdf(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        Err(none(asked.shaft))
    }

    fn log_csv(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        Err(none(asked.shaft))
    }

    fn seal(&self, _: &Desk, wanted: &SealWanted<'_>) -> Result<EntryId, Notice> {
        Err(none(wanted.shaft))
    }

    fn sealed_pdf(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        Err(none(asked.shaft))
    }

    fn time_stamp(&self, asked: &Asked<'_>) -> Result<Vec<u8>, Notice> {
        Err(none(asked.shaft))
    }

    fn export(&self, _: &Record, _: &str) -> Option<Exported> {
        None
    }
}

fn none(shaft: &str) -> Notice {
    Notice {
        code: "no-papers",
        what: format!("No paper is made of {shaft} here."),
        meaning: "The record is untouched.".to_owned(),
        next: "Ask the whole program.".to_owned(),
    }
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().collect();
    let [_, folder, codes, database @ ..] = &arguments[..] else {
        return Err("small_server FOLDER CODES [DATABASE]".into());
    };
    let mut site = Site::new(Path::new(folder), "Office", AppFiles::new(), Arc::new(NoPapers));
    site.database = database.first().map(|address| store::Address::read(address)).transpose()?;
    // The virtual tablets are faster than people.
    site.limits = Limits { rate: 1e6, burst: 1e6, ..Limits::default() };
    let running = server::start(site, TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?, None)?;
    let mut out = std::io::stdout();
    for _ in 0..codes.parse()? {
        writeln!(out, "code {}", running.desk().new_code()?.text)?;
    }
    writeln!(out, "address {}", running.address())?;
    out.flush()?;
    std::io::stdin().read_to_end(&mut Vec::new())?;
    running.stop();
    Ok(())
}
