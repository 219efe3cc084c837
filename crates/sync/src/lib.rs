//! What do you lack: how two copies of a record come to be the same, without a transport.
//!
//! A tablet writes when there is no network. Later it meets the desk, or another tablet by way of a file.
//! Here stands what it asks, in which order, and what an answer changes; whoever has a network carries the
//! asks and the answers. Answers may be lost, come twice, late, or in another order.
//!
//! Words: *desk* = the program the tablets meet at; *waiting* = written or read in here and not yet
//! acknowledged; *acknowledged* = on the desk's disk; *cursor* = how far of the desk's entries was seen.
//! Never: open a connection, read a clock, draw a number, keep anything, drop an entry.
//!
//! Invariants
//! - An entry waits until the desk says it is stored, or refuses it; a refused entry is kept and shown.
//! - The cursor moves only over entries that were handed out to be kept.
//! - Every line is proved before it is handed out: its id, its signature, its job.

pub mod desk;
mod exchange;
mod kept;
mod known;
mod skew;
mod tablet;
mod talk;
mod wait;

pub use exchange::{FileFault, FileRead};
pub use kept::Kept;
pub use skew::{SKEW_NOTABLE_SECONDS, Skew};
pub use tablet::{Status, Tablet};
pub use talk::{Answer, Arrived, Ask, Doubt, Effect, What};
pub use wait::{WAIT_LONGEST_MS, wait_ms};
