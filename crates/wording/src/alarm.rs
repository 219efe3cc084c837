//! Alarms: what the chains of the devices reveal about a record.
//!
//! A copied tablet or a missing entry is nobody's fault at the hole, and it must be seen by everyone.
//!
//! Never: resolve one silently.

use crate::notice::Notice;
use crate::phrase::capital;
use record::kinds::DeviceNamed;
use record::{Alarm, Body, DeviceId, Held, Record};

/// An alarm as a notice.
pub fn alarm(alarm: &Alarm, record: &Record) -> Notice {
    match alarm {
        Alarm::Cloned { device, seq, entries } => Notice::new(
            "cloned_device",
            capital(&format!(
                "{} wrote {} different entries under one number, {seq}.",
                device_text(device, record),
                entries.len()
            )),
            "All of them are unchanged in this record. A copy of the device was used, or it was set back to an \
             earlier state.",
            "Keep recording on another device. Have the copies compared before the record is handed in.",
        ),
        Alarm::Gap { device, from, to } => Notice::new(
            "gap",
            missing_text(*from, *to, &device_text(device, record)),
            "What is here is unchanged. The missing entries have not arrived, or were taken away; the digest \
             changes when they come.",
            "Bring the device to the office, or ask for its file, and merge it into this record.",
        ),
        Alarm::Broken { device, entry } => Notice::new(
            "broken_chain",
            format!(
                "Entry {} of {} does not name the entry before it.",
                entry.short(),
                device_text(device, record)
            ),
            "Every entry is kept and its signature holds; the order on that device cannot be proven at this \
             place.",
            "Have the device looked at, and keep its own file beside this record.",
        ),
    }
}

fn missing_text(from: u64, to: u64, device: &str) -> String {
    if from == to {
        format!("Entry number {from} of {device} is not in this record.")
    } else {
        format!("Entries number {from} to {to} of {device} are not in this record.")
    }
}

/// What people call a device, or its short key.
fn device_text(device: &DeviceId, record: &Record) -> String {
    let named = record.entries().filter_map(|held| match held {
        Held::Known(entry) if entry.device == *device => match &entry.body {
            Body::DeviceNamed(DeviceNamed { name, .. }) => Some((entry.seq, name)),
            _ => None,
        },
        _ => None,
    });
    match named.max_by_key(|(seq, _)| *seq) {
        Some((_, name)) => format!("the device “{name}”"),
        None => format!("the device {}", device.short()),
    }
}
