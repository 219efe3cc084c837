//! What a person is asked for: keys, keypad, forms, corrections.
//!
//! Everything a gloved hand taps is decided here and tested without a browser; the app only places it.
//!
//! Words: *key* = what is tapped to begin an entry; *form* = an entry half written; *echo* = how a typed
//! text was understood.
//! Never: write an entry, read a clock, judge a reading.

pub mod drafts;
pub mod echo;
pub mod form;
pub mod keypad;
pub mod keys;
pub mod late;
mod limits;
pub mod offer;
pub mod picture;
mod plan;
pub mod schedule;
pub mod sentence;
pub mod stage;
pub mod strike;
pub mod time;

pub use echo::Echo;
pub use form::{Ask, Asked, Candidate, ChoiceWord, Concern, FieldFault, Form, Trial, When};
pub use keypad::{Cap, Key, Keypad};
pub use keys::{EntryKey, KeyGroup};
pub use offer::Offer;
pub use schedule::Schedule;
pub use stage::Stage;
pub use strike::Strike;
