//! What tests of every crate are built from: fixed keys, a fixed day, tablets that write, bodies from texts.
//!
//! A test reads as a story when its first line is a tablet and its second what somebody saw at 10:41.
//! Nothing in here is real: the keys are published, the day is made up.
//!
//! Words: *tablet* = a device that writes entries one after the other; *sample* = a body made from the
//! declared fields alone, so that a kind added later has one too.
//! Never: be a normal dependency of a crate; draw a key, read a clock.

pub mod any;
mod body;
pub mod disk;
mod moment;
pub mod network;
pub mod postgres;
mod sample;
mod tablet;

pub use body::{body, faults, metric_body, tree};
pub use moment::at;
pub use sample::{full, minimal};
pub use tablet::{JOB, Tablet, key, record};
