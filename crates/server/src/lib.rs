//! The program the tablets sync with: one writer, and nothing acknowledged that is not on the disk.
//!
//! An office starts it in a folder; tablets are paired by a code shown on its desk and then bring what
//! they wrote. It keeps, hands out and tells; what an entry means is worked out elsewhere.
//!
//! Words: *site* = what a server is given to serve; *desk* = the machine it runs on and who sits there;
//! *token* = what a paired device shows instead of a code.
//! Never: interpret an entry, make a page itself, answer before the disk has.

mod answer;
mod answered;
mod body;
mod code;
mod connection;
mod desk;
mod door;
mod end;
mod gate;
mod handed;
mod health;
mod journal;
mod live;
mod meter;
mod monitor;
mod noted;
mod page;
mod passkeys;
mod qr;
mod rate;
mod reader;
mod routes;
mod running;
mod says;
mod session;
mod site;
mod tally;
mod time;
mod tls;
mod tries;
mod writer;

pub use code::{Code, invitation_secret};
pub use desk::Desk;
pub use end::End;
pub use journal::{Field, Happened, Journal, Level};
pub use routes::{Declared, declared};
pub use running::{Running, StartError, start};
pub use site::{AppFile, AppFiles, Asked, Clock, Exported, Limits, Papers, SealWanted, Site};
pub use tls::{Tls, TlsError};
pub use writer::NotWritten;
