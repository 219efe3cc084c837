//! `verify`: every id, signature and chain.

use super::merge::record_of;
use crate::problem::{ALTERED, Problem};
use record::{Alarm, Held, Record};
use serde_json::json;
use std::path::Path;

pub(crate) fn run(path: &Path, as_json: bool) -> Result<(), Problem> {
    let record = record_of(path)?;
    let alarms = record.alarms();
    let newer = record.entries().filter(|held| matches!(held, Held::Newer(_))).count();
    let digest = record::entry::FileHash(wire::digest(&record)).to_string();
    if as_json {
        let alarms: Vec<String> = alarms.iter().map(sentence).collect();
        let told = json!({ "entries": record.len(), "newer": newer, "digest": digest, "alarms": alarms,
            "job": record.job(), "shafts": record.shafts() });
        println!("{told:#}");
    } else {
        println!("{} entries, every id and signature is good.", record.len());
        if newer > 0 {
            println!("{newer} of them were written by a newer program: they are kept, and need an update to be read.");
        }
        println!("Digest of the record: {digest}");
        tell_alarms(&record);
    }
    if alarms.is_empty() {
        return Ok(());
    }
    let next = "Find out on the devices named; the entries that are here are kept.";
    Err(Problem::new("The chains of the devices are not whole.", next)
        .meaning("Entries may be missing, or a device was cloned.")
        .exit(ALTERED))
}

/// Prints what the chains reveal.
pub(crate) fn tell_alarms(record: &Record) {
    for alarm in record.alarms() {
        println!("{}", sentence(&alarm));
    }
}

fn sentence(alarm: &Alarm) -> String {
    match alarm {
        Alarm::Cloned { device, seq, entries } => format!(
            "Device {} has {} different entries under number {seq}: it was cloned or set back.",
            device.short(),
            entries.len()
        ),
        Alarm::Gap { device, from, to } if from == to => {
            format!("Device {}: entry {from} is missing.", device.short())
        }
        Alarm::Gap { device, from, to } => format!("Device {}: entries {from} to {to} are missing.", device.short()),
        Alarm::Broken { device, entry } => {
            format!("Device {}: entry {} does not name the one before it.", device.short(), entry.short())
        }
    }
}
