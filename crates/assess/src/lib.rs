//! What the record means: findings and forecasts at a given time.
//!
//! The only crate that knows the record, the formulas and the rules together. It turns the log of a shaft
//! into a *picture* (what stands where), reckons the pour, measures the facts the criteria ask for, judges
//! them, and says what is about to happen. The same compiled code runs at the hole and at the desk.
//!
//! Words: *picture* = the shaft as the log tells it at a time; *reckoning* = what the formulas make of it;
//! *finding* = a verdict with what it rests on; *forecast* = what will happen next if nothing changes;
//! *unjudged* = what cannot be judged, and which entry is missing.
//! Never: format text, do IO, read a clock: pure in record, criteria and time.

pub mod across;
pub mod assumed;
pub mod day;
mod dispute;
pub mod doubt;
pub mod earlier;
pub mod facts;
pub mod finding;
pub mod forecasts;
pub mod layers;
pub mod measure;
pub mod open_items;
pub mod order;
mod own_limits;
pub mod picture;
pub mod ready;
pub mod reckon;
pub mod rules;
mod run;
pub mod shape;

pub use doubt::{Doubt, Odd};
pub use earlier::Earlier;
pub use finding::{Disposition, Finding, Outcome};
pub use forecasts::{Forecast, Outlook, Urgency};
pub use measure::{Aside, Measurement, Subject};
pub use picture::Picture;
pub use reckon::Reckoning;
pub use rules::{NoRules, Rules};
pub use run::{Assessment, assess, situation_of};
