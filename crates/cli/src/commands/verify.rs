//! `verify`: every id, signature and chain.

mod sealed;
mod stamped;

use super::merge::record_of;
use crate::args::Command;
use crate::problem::{ALTERED, MISUNDERSTOOD, Problem};
use crate::screen::Screen;
use record::{Alarm, Held, Record};
pub(super) use sealed::proved;
use serde_json::{Value, json};
use stamped::Asked;

/// Fewer digits of a digest prove nothing.
const DIGITS_LEAST: usize = 8;

pub(crate) fn run(command: &Command, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Verify { record, digest, time_stamp, service_root, json } = command else { return Ok(()) };
    let (time_stamp, service_root) = (time_stamp.as_deref(), service_root.as_deref());
    if sealed::is_pdf(record) {
        return sealed::run(&Asked { package: record, time_stamp, service_root }, *json, screen);
    }
    let wanted = digest.as_deref().map(wanted).transpose()?;
    let record = record_of(record)?;
    let digest = digest_of(&record);
    if *json {
        screen.json(&json_of(&record, &digest));
    } else {
        tell(&record, &digest, screen);
    }
    if let Some(wanted) = wanted.filter(|wanted| !digest.starts_with(wanted)) {
        let what = format!("The digest of the record is not {wanted}; it is {digest}.");
        let next = "Ask for the whole record, or merge in what the other device holds.";
        let meaning = "Entries are missing, or there are more than then.";
        return Err(Problem::new(what, meaning, next).exit(ALTERED));
    }
    if record.alarms().is_empty() { Ok(()) } else { Err(not_whole()) }
}

/// The digest of a record, 64 hexadecimal digits.
pub(super) fn digest_of(record: &Record) -> String {
    record::entry::FileHash(wire::digest(record)).to_string()
}

/// The digits of a digest as a person typed them.
fn wanted(text: &str) -> Result<String, Problem> {
    let digits = text.trim().to_ascii_lowercase();
    let form = digits.len() >= DIGITS_LEAST && digits.bytes().all(|byte| byte.is_ascii_hexdigit());
    let what = format!("`{text}` is no digest.");
    let next = "Give all of its hexadecimal digits, or the first eight.";
    form.then_some(digits)
        .ok_or_else(|| Problem::new(what, "Nothing was compared.", next).exit(MISUNDERSTOOD))
}

fn newer(record: &Record) -> usize {
    record.entries().filter(|held| matches!(held, Held::Newer(_))).count()
}

pub(super) fn tell(record: &Record, digest: &str, screen: &mut Screen) {
    screen.say(&format!("{} entries, every id and signature is good.", record.len()));
    if newer(record) > 0 {
        let newer = newer(record);
        screen.say(&format!(
            "{newer} of them were written by a newer program: they are kept, and need an update to be read."
        ));
    }
    screen.say(&format!("Digest of the record: {digest}"));
    tell_alarms(record, screen);
}

pub(super) fn json_of(record: &Record, digest: &str) -> Value {
    let alarms: Vec<Value> = record.alarms().iter().map(alarm).collect();
    json!({ "entries": record.len(), "newer": newer(record), "digest": digest, "alarms": alarms,
        "job": record.job(), "shafts": record.shafts() })
}

fn alarm(alarm: &Alarm) -> Value {
    match alarm {
        Alarm::Cloned { device, seq, entries } => {
            let entries: Vec<String> = entries.iter().map(ToString::to_string).collect();
            json!({ "alarm": "cloned", "device": device.to_string(), "seq": seq, "entries": entries })
        }
        Alarm::Gap { device, from, to } => {
            json!({ "alarm": "gap", "device": device.to_string(), "from": from, "to": to })
        }
        Alarm::Broken { device, entry } => {
            json!({ "alarm": "broken", "device": device.to_string(), "entry": entry.to_string() })
        }
    }
}

pub(super) fn not_whole() -> Problem {
    let next = "Find out on the devices named; the entries that are here are kept.";
    let meaning = "Entries may be missing, or a device was cloned.";
    Problem::new("The chains of the devices are not whole.", meaning, next).exit(ALTERED)
}

/// Prints what the chains reveal.
pub(crate) fn tell_alarms(record: &Record, screen: &mut Screen) {
    for alarm in record.alarms() {
        screen.gap();
        screen.say(&wording::alarm(alarm, record).paragraph());
    }
}
