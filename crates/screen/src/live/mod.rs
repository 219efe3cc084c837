//! What a person is shown: the shaft as it stands, the job, what is missing, the review.
//!
//! Each function takes the record, looks at it at one moment and gives owned plain data; a screen places
//! them and calculates nothing.
//!
//! Words: *sign* = meets, fails, not measured, no limit set; *haste* = now, soon, later; *card* = one
//! finding, forecast, question or doubt with everything a person needs to act on it.
//! Never: read a clock; say anything twice in different words.

mod across;
mod advice;
mod attention;
mod big;
mod card;
mod clock;
mod counts;
mod doubts;
mod drawing;
mod figures;
mod heading;
mod job;
mod look;
mod looked;
mod next;
mod office;
mod open_items;
mod order;
mod people;
mod readiness;
mod review;
mod shaft;
mod shape;
mod sheet;
mod sign;

pub use across::{AcrossScreen, Reckoned, across, touched};
pub use attention::{Attention, newly};
pub use big::Big;
pub use card::{Card, CardSort, Want};
pub use clock::{Clock, Counts, Face};
pub use counts::FindingCounts;
pub use drawing::{DrawingCard, NIGHT, drawing};
pub use heading::Heading;
pub use job::{JobScreen, ShaftRow, job, shaft_row};
pub use look::Look;
pub(crate) use looked::Looked;
pub use next::Next;
pub use office::{OfficeJob, OfficeRow, OfficeScreen, ReckonedJob};
pub use open_items::{OpenItems, OpenRow, OpenShaft, Step, open_items};
pub use people::{MixRow, PersonRow};
pub use readiness::{Before, Item, Readiness, Ready, readiness};
pub use review::{Review, ReviewRow, Struck, review};
pub use shaft::{ShaftScreen, findings, shaft, shaft_drawn};
pub use sheet::{Day, Sheet, Together, sheet};
pub use sign::{Haste, Sign};
