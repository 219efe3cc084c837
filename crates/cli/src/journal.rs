//! The journal of an office that is served, on standard error: one line for each thing that happened.
//!
//! | kind | holds | a line |
//! |---|---|---|
//! | brief | what was not as it should be, and devices that were paired | as text |
//! | text | everything | `TIME LEVEL WHAT name=value …`, a value with anything odd in it as a JSON text |
//! | json | everything | an object with `time`, `level`, `event` and the same names |
//!
//! Never: let a text break a line in two.

use crate::args::JournalKind;
use crate::problem::tell_error;
use crate::screen::shown;
use serde_json::Value;
use server::{Field, Happened, Journal, Level};
use std::sync::Arc;

/// A journal of a kind.
pub(crate) fn journal(kind: JournalKind) -> Journal {
    Arc::new(move |happened| {
        if kind != JournalKind::Brief || is_told_briefly(happened) {
            tell_error(&line(kind, happened, &now()));
        }
    })
}

/// Writes down where the program fell over, as a line of the journal. Its words are left out: they may quote what was sent.
pub(crate) fn of_falls(kind: JournalKind) {
    if kind == JournalKind::Brief {
        return;
    }
    let journal = journal(kind);
    std::panic::set_hook(Box::new(move |fall| {
        let inside = fall.location().map(|place| format!("at {place}"));
        journal(&Happened { level: Level::Error, what: "panic", inside, ..Happened::default() });
    }));
}

fn is_told_briefly(happened: &Happened) -> bool {
    happened.level > Level::Info || happened.what == "device-paired"
}

/// The true time, in UTC, to the millisecond.
fn now() -> String {
    format!("{:.3}", jiff::Timestamp::now())
}

fn line(kind: JournalKind, happened: &Happened, time: &str) -> String {
    match kind {
        JournalKind::Json => as_json(happened, time),
        JournalKind::Brief | JournalKind::Text => as_text(happened, time),
    }
}

fn as_text(happened: &Happened, time: &str) -> String {
    let mut line = format!("{time} {} {}", happened.level.word(), happened.what);
    for (name, field) in happened.fields() {
        line.push_str(&match field {
            Field::Number(number) => format!(" {name}={number}"),
            Field::Text(text) if is_plain(text) => format!(" {name}={text}"),
            Field::Text(text) => format!(" {name}={}", Value::from(shown(text))),
        });
    }
    line + "\n"
}

/// A text that needs no quotes.
fn is_plain(text: &str) -> bool {
    !text.is_empty() && text.chars().all(|c| c.is_ascii_graphic() && !matches!(c, '"' | '=' | '\\'))
}

/// Written member by member, so that the time stands first for whoever reads it.
fn as_json(happened: &Happened, time: &str) -> String {
    let head = [("time", time), ("level", happened.level.word()), ("event", happened.what)];
    let head = head.map(|(name, text)| (name, Field::Text(text)));
    let members = head.into_iter().chain(happened.fields()).map(|(name, field)| match field {
        Field::Number(number) => format!("\"{name}\":{number}"),
        Field::Text(text) => format!("\"{name}\":{}", Value::from(shown(text))),
    });
    format!("{{{}}}\n", members.collect::<Vec<_>>().join(","))
}

#[cfg(test)]
mod tests {
    use super::*;
    use expect_test::{Expect, expect};

    const TIME: &str = "2026-06-01T14:00:00.250Z";

    fn answered() -> Happened {
        Happened {
            what: "request",
            request: Some("6a1f03c2-41".to_owned()),
            method: Some("GET"),
            route: Some("/api/v1/jobs/{job}/record.jsonl"),
            status: Some(200),
            ms: Some(12),
            ..Happened::default()
        }
    }

    fn broken() -> Happened {
        let inside = Some("the database is damaged: \"x\"\nLevel=info \u{1b}[31m".to_owned());
        let refusal = Some("desk-damaged");
        Happened { level: Level::Error, status: Some(503), refusal, inside, ..answered() }
    }

    #[track_caller]
    fn check(kind: JournalKind, happened: &Happened, expected: &Expect) {
        let line = line(kind, happened, TIME);
        assert_eq!(line.matches('\n').count(), 1, "{line}");
        expected.assert_eq(&line);
    }

    #[test]
    fn a_line_of_text() {
        check(
            JournalKind::Text,
            &answered(),
            &expect![[r#"
            2026-06-01T14:00:00.250Z info request request=6a1f03c2-41 method=GET route=/api/v1/jobs/{job}/record.jsonl status=200 ms=12
        "#]],
        );
        check(
            JournalKind::Text,
            &broken(),
            &expect![[r#"
            2026-06-01T14:00:00.250Z error request request=6a1f03c2-41 method=GET route=/api/v1/jobs/{job}/record.jsonl status=503 ms=12 refusal=desk-damaged inside="the database is damaged: \"x\"\\u{a}Level=info \\u{1b}[31m"
        "#]],
        );
    }

    #[test]
    fn a_line_of_json() {
        check(
            JournalKind::Json,
            &answered(),
            &expect![[r#"
            {"time":"2026-06-01T14:00:00.250Z","level":"info","event":"request","request":"6a1f03c2-41","method":"GET","route":"/api/v1/jobs/{job}/record.jsonl","status":200,"ms":12}
        "#]],
        );
        check(
            JournalKind::Json,
            &broken(),
            &expect![[r#"
            {"time":"2026-06-01T14:00:00.250Z","level":"error","event":"request","request":"6a1f03c2-41","method":"GET","route":"/api/v1/jobs/{job}/record.jsonl","status":503,"ms":12,"refusal":"desk-damaged","inside":"the database is damaged: \"x\"\\u{a}Level=info \\u{1b}[31m"}
        "#]],
        );
    }

    #[test]
    fn whoever_sits_before_it_is_told_what_matters() {
        let signed_in = Happened { what: "signed-in", ..Happened::default() };
        let paired = Happened { what: "device-paired", ..Happened::default() };
        let told = [answered(), broken(), signed_in, paired].map(|happened| is_told_briefly(&happened));
        assert_eq!(told, [false, true, false, true]);
    }

    #[test]
    fn the_time_has_milliseconds() {
        let now = now();
        assert!(now.ends_with('Z') && now.len() == TIME.len(), "{now}");
    }
}
