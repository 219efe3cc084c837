//! Every sentence a person reads: findings, forecasts, questions, notices, labels, tables.
//!
//! The rest of the program holds values; here they become words, in the units of the job. A reader of the
//! record acts on these words, so each is tested by a snapshot that somebody has read.
//!
//! Words: *show* = how this job prints; *word* = a stable name for machines; *text* = what a person reads.
//! Units: those of the job; a value beside a limit is told in the unit of the limit.
//! Never: decide, compute a result, read a clock or a file.

mod number;
mod phrase;
pub mod show;
pub mod words;

pub mod label;
mod value;

pub mod device;
pub mod entry;

mod across;
pub mod advice;
mod alarm;
mod assumed_day;
mod beside;
mod caution;
mod curve;
mod day;
mod doubt;
mod figures;
mod finding;
mod forecast;
mod lift;
mod limit;
mod notice;
mod open;
mod open_item;
mod order;
mod question;
mod ready;
mod rules;
mod sand;
mod sealed;
mod shape;
mod slump;
mod wanted;

pub mod tables;

pub use across::{AcrossLine, AcrossSection, Behind, across, is_told, taken_words};
pub use alarm::alarm;
pub use assess::across::{Place, Spot};
pub use beside::{LimitBeside, limit_beside, limit_hangs_on};
pub use caution::{Assumption, Caution, assumptions, cautions};
pub use curve::curve_issue;
pub use day::{DayText, day, no_day};
pub use doubt::{DoubtText, doubt, doubts};
pub use entry::{entry_line, entry_lines, entry_reference, entry_text, said_about};
pub use figures::{Figure, figures};
pub use finding::{DispositionText, FindingText, finding};
pub use forecast::{ForecastText, forecast};
pub use lift::{LiftText, lift};
pub use limit::limit_text;
pub use notice::Notice;
pub use open::{asked, dispute, hold, late, loose, newer};
pub use open_item::{OpenItemText, open_item, waits_for};
pub use order::{OrderText, no_order, order, order_waits};
pub use question::question;
pub use ready::lack;
pub use rules::{no_rules, refused, sure_text, verdict_sentence};
pub use sand::sand_pair;
pub use sealed::{SealText, sealed_sentence, seals};
pub use shape::{ShapeText, ToldText, heights, no_shape, shape};
pub use show::Show;
pub use slump::slump_issue;
pub use tables::{Column, Mark, Row, Table, tables};
pub use wanted::{Wanted, wanted, wanted_text};
