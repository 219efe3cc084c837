//! The database of the browser: stores of rows, one transaction a change.
//!
//! What is said to be kept here has been written to the disk: a transaction of entries asks for strict
//! durability, and only its `complete` counts. Two tabs cannot write at once; the browser lets one
//! transaction finish before the next begins.
//!
//! Words: *store* = rows under a key; *trouble* = why the browser did not keep or give something.
//! Never: know what an entry says; leave a transaction open across a wait for anything but itself.

mod open;
mod request;
mod row;
mod transaction;
mod trouble;

pub(super) use open::{Database, Heard, open};
pub(super) use row::{Row, bytes, bytes_of, number, text};
pub(super) use transaction::{Durability, Transaction};
pub(super) use trouble::Trouble;

/// Every entry kept here: id → job, line, arrival.
pub(super) const ENTRIES: &str = "entries";
/// Entries the office has not acknowledged: id → job, order, when it was entered.
pub(super) const OUTBOX: &str = "outbox";
/// The last entry of this device in each job: job → number, id.
pub(super) const HEADS: &str = "heads";
/// What a list of jobs shows: job → title, zone, rehearsal.
pub(super) const JOBS: &str = "jobs";
/// How far each job was read from the office: job → number.
pub(super) const CURSORS: &str = "cursors";
/// Entries the office refused: id → why.
pub(super) const REFUSED: &str = "refused";
/// Photos: hash → bytes, sort.
pub(super) const PHOTOS: &str = "photos";
/// Photos the office has not acknowledged: hash → nothing more.
pub(super) const PHOTOS_OUT: &str = "photos_out";
/// Forms half filled in: key → text.
pub(super) const FORMS: &str = "forms";
/// Settings, author, pairing: name → text.
pub(super) const SETTINGS: &str = "settings";
/// The secret of this device.
pub(super) const SECRETS: &str = "secrets";

/// The stores of the first version, in the order they are made.
const FIRST: &[&str] =
    &[ENTRIES, OUTBOX, HEADS, JOBS, CURSORS, REFUSED, PHOTOS, PHOTOS_OUT, FORMS, SETTINGS, SECRETS];
/// The index of a store by job.
pub(super) const BY_JOB: &str = "by_job";
/// The index of what waits by the order it came in.
pub(super) const BY_ORDER: &str = "by_order";
