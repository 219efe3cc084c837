//! Tokens of time-stamp services ([RFC-3161]): a stranger's word that some bytes were there by a certain time.
//!
//! The query names the SHA-256 of the bytes and nothing else of them. The answer holds a token: the same hash and a time,
//! signed with a key whose certificate lies in the token. Anybody can prove it later with the bytes, the token and the
//! root of the service, and with nothing of this program (`openssl ts -verify`).
//!
//! Words: *service* = who gives tokens; *answer* = what it sends, as it is kept in a file; *root* = a certificate that is
//! trusted because somebody says so.
//! Never: open a connection; read a file or a clock; choose whom to trust. Whether a certificate was taken back since is
//! not asked: that takes a network.

mod doubt;
mod hash;
mod query;
mod signed;
mod token;
mod trust;

pub use doubt::Doubt;
pub use query::query;
pub use token::Token;
pub use trust::{Roots, Trust};
