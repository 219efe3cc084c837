//! Pulling a casing out of wet concrete, lift by lift.
//!
//! The concrete that stood inside has to fill the wider hole behind, so its surface drops and the head
//! over the shoe shrinks twice: from above and from below. Too little head and water or soil comes in
//! under the shoe. What the surface does beyond the reckoned drop tells what is behind the casing.
//!
//! Words: *lift* = the casing pulled up by some length; *head* = concrete over the shoe; *void* = room
//! behind the casing that the drawing does not know.
//! Units: elevations above the datum.
//! Never: say how much head is enough; the rule in force comes as an argument.

mod pressure;
mod withdrawal;

pub use pressure::{Outside, ShoeHeads, least_head, shoe_margin};
pub use withdrawal::{
    CasingError, HeadRule, Lifted, Withdrawal, concrete_to_keep_head, concrete_to_keep_level,
    drop_per_length, highest_lift, lift, lifts, unexplained_volume,
};
