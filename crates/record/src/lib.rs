//! The record of a shaft: what people wrote, when, and what became of it.
//!
//! Everything that will ever be known about the foundation is in here. An entry is never altered: a
//! correction names what it replaces, a dispute shows every candidate, a blank stays a blank.
//!
//! Words: *entry* = what somebody wrote at a time; *body* = what it says, one of the kinds; *log* = what
//! the entries of a shaft add up to; *line* = one place in the log.
//! Never: know a rule or a limit, compute, serialise, read a clock, draw a random number.
//!
//! Invariants
//! - An id names one entry for ever; `(device, seq)` names one entry, and a second one is an alarm.
//! - `merge` is commutative, associative, idempotent, and all or nothing.
//! - The log is a replay: nothing in it is stored.

pub mod choices;
mod declare;
pub mod entry;
pub mod field;
pub mod kinds;
pub mod log;
pub mod merge;
pub mod plausible;
pub mod question;
pub mod rehearsal;
pub mod sealed;
pub mod value;

pub use entry::{DeviceId, Entry, EntryId, Held, Newer, Seal};
pub use field::{Defaults, Fault, FaultKind, Field, FieldSpec, Group, How, Shape, Typed, UnitSystem};
pub use kinds::{Body, Family, KindSpec};
pub use log::{Dispute, Line, Log, Standing};
pub use merge::{Alarm, MergeError, Record};
pub use question::{Question, Suspicion};
pub use sealed::{ShaftSeal, Supplement};
pub use value::Value;
