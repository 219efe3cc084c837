//! A made-up network: tablets with a disk each, one desk, and a wire between them that cannot be trusted.
//!
//! Everything that happens is drawn from a seed, so a run that failed happens again when its seed is given.
//!
//! Words: *disk* = what of a tablet survives its being switched off; *life* = the time between two
//! restarts; *letter* = a question or an answer on its way.
//! Never: read a clock, open a connection.

mod device;
mod dice;
mod disk;
mod shelf;
mod world;

pub use device::{Device, Fate};
pub use dice::Dice;
pub use disk::{Disk, Told};
pub use shelf::{Full, MemoryShelf};
pub use world::{Plan, World};
