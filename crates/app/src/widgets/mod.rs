//! Pieces of screens that know no record: keys, figures, clocks, marks, notices, dialogs, fields.
//!
//! A screen hands a widget plain values and gets presses back. The class names are those listed at the top
//! of `style/10-theme.css`.
//!
//! Never: read the record, judge, store.

mod attention;
mod clock;
mod dialog;
mod field;
mod figure;
mod key;
mod keypad;
mod mark;
mod notice;
mod pad;
mod said;
mod stamp;
mod steady;
mod svg;
mod writing;

pub(crate) use attention::{Allowed, Attention, Call};
pub(crate) use clock::Clock;
pub(crate) use dialog::Dialog;
pub(crate) use field::{Fields, Question};
pub(crate) use figure::BigFigure;
pub(crate) use key::{Key, KeyGrid, KeyLink, Tone};
pub(crate) use mark::{MarkBadge, Sign};
pub(crate) use notice::NoticeCard;
pub(crate) use pad::FormPad;
pub(crate) use said::{Said, Saying};
pub(crate) use stamp::TimeStamp;
pub(crate) use steady::{Press, steady};
pub(crate) use svg::Svg;
pub(crate) use writing::{Writing, element, field_id};
