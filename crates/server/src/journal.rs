//! The journal: what happened in the office, one thing a line, for whoever keeps the machine.
//!
//! What a line can hold is the list of fields below, so nothing that was sent (a token, a code, a password, a question of an
//! address, an entry) can come into one. How a line is written down is the business of whoever takes it.
//!
//! Words: *what* = one word for what happened; *route* = an address as it is declared, with `{names}` in it.
//! Never: hold an address as it was asked for, or what somebody typed.

use std::sync::Arc;

/// Takes one thing that happened at a time.
pub type Journal = Arc<dyn Fn(&Happened) + Send + Sync>;

/// How much it matters.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// As it should be.
    #[default]
    Info,
    /// Somebody was turned away, or something was not what it should be, and the office goes on.
    Warn,
    /// The office could not do what it is for.
    Error,
}

impl Level {
    /// As it is written down.
    pub fn word(self) -> &'static str {
        match self {
            Level::Info => "info",
            Level::Warn => "warn",
            Level::Error => "error",
        }
    }
}

/// Something that happened.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Happened {
    /// How much it matters.
    pub level: Level,
    /// What it was: `request`, `signed-in`, `refused`, `started` …
    pub what: &'static str,
    /// The name of the request, as a refusal tells it.
    pub request: Option<String>,
    /// The method of a request.
    pub method: Option<&'static str>,
    /// Where it went.
    pub route: Option<&'static str>,
    /// How it was answered.
    pub status: Option<u16>,
    /// After how many milliseconds the answer began.
    pub ms: Option<u64>,
    /// The word of the refusal.
    pub refusal: Option<&'static str>,
    /// The person it is about, by a name the office knows.
    pub person: Option<String>,
    /// The device it is about, by its number.
    pub device: Option<i64>,
    /// The address it came from.
    pub from: Option<String>,
    /// What the program says of itself, or what went wrong inside.
    pub inside: Option<String>,
}

/// What a field holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Field<'a> {
    /// A number.
    Number(i64),
    /// A text.
    Text(&'a str),
}

impl Happened {
    /// The fields that are there, with their names, in the order they are written.
    pub fn fields(&self) -> Vec<(&'static str, Field<'_>)> {
        let ms = self.ms.and_then(|ms| i64::try_from(ms).ok());
        [
            text("request", self.request.as_deref()),
            text("method", self.method),
            text("route", self.route),
            self.status.map(|status| ("status", Field::Number(status.into()))),
            ms.map(|ms| ("ms", Field::Number(ms))),
            text("refusal", self.refusal),
            text("person", self.person.as_deref()),
            self.device.map(|device| ("device", Field::Number(device))),
            text("from", self.from.as_deref()),
            text("inside", self.inside.as_deref()),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}

fn text<'a>(name: &'static str, text: Option<&'a str>) -> Option<(&'static str, Field<'a>)> {
    text.map(|text| (name, Field::Text(text)))
}
