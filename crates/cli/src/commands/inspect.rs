//! `inspect`: a folder or a backup looked over, the database, every line, every chain, every photo.
//!
//! A damaged database is named, never papered over: what is wrong is told with what it means and what to do,
//! and a script is told by the exit code.

use super::verify;
use crate::folder::{is_job, no_record};
use crate::place;
use crate::problem::Problem;
use crate::screen::Screen;
use record::entry::FileHash;
use record::{Body, Held, Record};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::path::Path;
use store::{Address, Database, Office, Photos, Proved, Sqlite, Store, StoreError};

/// What was found.
struct Found {
    records: Vec<(String, Record)>,
    devices: usize,
    photos: usize,
    /// Photos that entries name and that are not here.
    missing: BTreeSet<FileHash>,
}

pub(crate) fn run(place: &Path, json: bool, screen: &mut Screen) -> Result<(), Problem> {
    let (record, photos) = if place.is_file() {
        (Address::of_file(place), place.with_file_name(store::PHOTOS))
    } else if is_job(place) {
        (place::of(place)?, place.join(store::PHOTOS))
    } else {
        return Err(no_record(place));
    };
    let found = look(&record, &photos)?;
    if json {
        screen.json(&json_of(&found));
    } else {
        tell(&found, screen);
    }
    let whole = found.records.iter().all(|(_, record)| record.alarms().is_empty());
    if whole { Ok(()) } else { Err(verify::not_whole()) }
}

/// A backup is left as it is: not even a lock is made beside it.
fn opened(record: &Address) -> Result<Database, StoreError> {
    match record {
        Address::File(file) => {
            Sqlite::open_untouched(file).map(Database::Sqlite).or_else(|_| Database::open_to_read(record))
        }
        Address::Server(_) => Database::open_to_read(record),
    }
}

fn look(record: &Address, photos: &Path) -> Result<Found, Problem> {
    let wrong = |error: StoreError| Problem::store(record, &error);
    let store = opened(record).map_err(wrong)?;
    store.check().map_err(wrong)?;
    let jobs = store.jobs().map_err(wrong)?;
    let records: Vec<(String, Record)> = jobs
        .into_iter()
        .map(|job| Ok((job.clone(), store.record(&job)?)))
        .collect::<Result<_, _>>()
        .map_err(wrong)?;
    let wanted: BTreeSet<FileHash> = records.iter().flat_map(|(_, record)| photos_of(record)).collect();
    let kept = if photos.is_dir() { Some(Photos::at(photos)) } else { None };
    let there = kept
        .as_ref()
        .map_or(Ok(0), Photos::check)
        .map_err(|error| Problem::store(photos.display(), &error))?;
    let missing = wanted.into_iter().filter(|hash| !kept.as_ref().is_some_and(|kept| kept.holds(hash)));
    let missing = missing.collect();
    // A database of an earlier version that may only be read has no devices yet.
    let devices = store.devices().map_or(0, |devices| devices.len());
    Ok(Found { records, devices, photos: there, missing })
}

/// The photos a record names.
fn photos_of(record: &Record) -> impl Iterator<Item = FileHash> {
    record.entries().filter_map(|held| match held {
        Held::Known(entry) => match &entry.body {
            Body::Photo(photo) => Some(photo.file),
            _ => None,
        },
        Held::Newer(_) => None,
    })
}

fn tell(found: &Found, screen: &mut Screen) {
    screen.say("The database is whole.");
    for (job, record) in &found.records {
        screen.gap();
        screen.heading(job);
        verify::tell(record, &verify::digest_of(record), screen);
    }
    screen.gap();
    screen.say(&format!("{} devices are paired.", found.devices));
    screen.say(&format!("{} photos are here, each as it was taken.", found.photos));
    if !found.missing.is_empty() {
        screen.say(&format!(
            "{} photos that entries name are not here: the devices that took them have not brought them.",
            found.missing.len()
        ));
    }
}

fn json_of(found: &Found) -> Value {
    let jobs: Vec<Value> =
        found.records.iter().map(|(_, record)| verify::json_of(record, &verify::digest_of(record))).collect();
    let missing: Vec<String> = found.missing.iter().map(ToString::to_string).collect();
    json!({ "jobs": jobs, "devices": found.devices, "photos": found.photos, "photos_missing": missing })
}
