//! Where a command prints: one place that wraps, escapes and survives.
//!
//! Text of a record comes from many hands. A control character in a remark must not move the cursor of
//! whoever reads the log, a reader that stops early (`| head`) is no failure, and a full disk behind `>` is
//! one that is told.
//!
//! Words: *hanging* = how far the second and later lines of a paragraph are set in.
//! Never: let a control character of a record reach a terminal; stop the work because nobody reads.

use crate::problem::Problem;
use crate::style::Style;
use std::io::{ErrorKind, IsTerminal, Stdout, Write};

/// Columns where nobody says how many there are.
const WIDTH: usize = 100;
/// Lines longer than this are hard to read, however wide the window is.
const WIDTH_MOST: usize = 100;
/// Below this, wrapping makes text worse.
const WIDTH_LEAST: usize = 40;

/// Standard output.
pub(crate) struct Screen {
    out: Stdout,
    width: usize,
    style: Style,
    state: State,
}

/// What became of what was printed.
enum State {
    Read,
    /// Whoever read it has gone; the rest is not printed.
    Gone,
    Failed(std::io::Error),
}

impl Screen {
    /// Standard output as it stands: as wide as the terminal, 100 columns into a file.
    pub(crate) fn standard() -> Self {
        let terminal = std::io::stdout().is_terminal();
        let wide =
            if terminal { terminal_size::terminal_size().map(|(width, _)| width.0.into()) } else { None };
        let width = wide.unwrap_or(WIDTH).clamp(WIDTH_LEAST, WIDTH_MOST);
        Screen { out: std::io::stdout(), width, style: Style::of_terminal(), state: State::Read }
    }

    /// How text may be set off.
    pub(crate) fn style(&self) -> Style {
        self.style
    }

    /// An empty line.
    pub(crate) fn gap(&mut self) {
        self.raw("\n");
    }

    /// A paragraph, wrapped.
    pub(crate) fn say(&mut self, text: &str) {
        self.set_in(0, 0, text);
    }

    /// A paragraph set in by so many columns, its second line by so many more.
    pub(crate) fn set_in(&mut self, indent: usize, hanging: usize, text: &str) {
        let style = self.style;
        self.led(indent, hanging, ("", text), |lead| style.plain(lead));
    }

    /// A paragraph that begins with some words set off.
    pub(crate) fn led(
        &mut self,
        indent: usize,
        hanging: usize,
        (lead, text): (&str, &str),
        set_off: impl Fn(&str) -> String,
    ) {
        let lead = shown(lead);
        for part in text.split('\n') {
            let lines = wrapped(&format!("{lead}{}", shown(part)), self.width, (indent, hanging));
            for (index, line) in lines.iter().enumerate() {
                let line = match line.trim_start().strip_prefix(&lead) {
                    Some(rest) if index == 0 && !lead.is_empty() => {
                        format!("{:indent$}{}{rest}", "", set_off(&lead))
                    }
                    _ => line.clone(),
                };
                self.raw(&(line + "\n"));
            }
        }
    }

    /// A line as it is, not wrapped.
    pub(crate) fn line(&mut self, text: &str) {
        self.raw(&(shown(text) + "\n"));
    }

    /// A line set off, not wrapped.
    pub(crate) fn heading(&mut self, text: &str) {
        let text = self.style.bold(&shown(text));
        self.raw(&(text + "\n"));
    }

    /// JSON for a machine. What a terminal could act on is written as JSON escapes, which mean the same.
    pub(crate) fn json(&mut self, value: &serde_json::Value) {
        let text = format!("{value:#}\n");
        let escape = |c: char| {
            if is_safe(c) || c == '\n' { c.to_string() } else { format!("\\u{:04x}", u32::from(c)) }
        };
        self.raw(&text.chars().map(escape).collect::<String>());
    }

    /// Bytes as they are.
    pub(crate) fn raw(&mut self, text: &str) {
        if !matches!(self.state, State::Read) {
            return;
        }
        if let Err(error) = self.out.write_all(text.as_bytes()).and_then(|()| self.out.flush()) {
            let gone = error.kind() == ErrorKind::BrokenPipe;
            self.state = if gone { State::Gone } else { State::Failed(error) };
        }
    }

    /// Whether everything that had a reader was printed.
    pub(crate) fn finish(self) -> Result<(), Problem> {
        let State::Failed(error) = self.state else { return Ok(()) };
        let what = format!("What was to be printed could not be written: {error}.");
        Err(Problem::new(
            what,
            "The record is whole; the print is not.",
            "Make room, or print it somewhere else.",
        ))
    }
}

/// Whether a terminal shows this and does nothing else.
fn is_safe(c: char) -> bool {
    let turns = matches!(c, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    !c.is_control() && !turns
}

/// A text with what a terminal would act on spelled out: `\u{1b}`.
pub(crate) fn shown(text: &str) -> String {
    let show = |c: char| if is_safe(c) { c.to_string() } else { c.escape_unicode().to_string() };
    text.chars().map(show).collect()
}

/// A paragraph in lines of at most so many columns; a word that is longer stands alone.
fn wrapped(text: &str, width: usize, (indent, hanging): (usize, usize)) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = " ".repeat(indent);
    let mut empty = true;
    for word in text.split(' ') {
        let more = word.chars().count() + usize::from(!empty);
        if !empty && line.chars().count() + more > width {
            lines.push(std::mem::replace(&mut line, " ".repeat(indent + hanging)));
            empty = true;
        }
        if !empty {
            line.push(' ');
        }
        line.push_str(word);
        empty = false;
    }
    lines.push(line);
    lines.iter().map(|line| line.trim_end().to_owned()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, width: usize, expected: &[&str]) {
        assert_eq!(wrapped(text, width, (2, 4)), expected);
    }

    #[test]
    fn paragraphs_are_wrapped_between_words() {
        check("the tip is 2.7 ft too high", 16, &["  the tip is 2.7", "      ft too", "      high"]);
        check("short", 16, &["  short"]);
        check("", 16, &[""]);
        check(
            "a_word_longer_than_the_line stands alone",
            16,
            &["  a_word_longer_than_the_line", "      stands", "      alone"],
        );
    }

    #[test]
    fn what_a_terminal_would_act_on_is_spelled_out() {
        assert_eq!(shown("red \u{1b}[31m"), "red \\u{1b}[31m");
        assert_eq!(shown("back\u{8}, bell\u{7}, C1 \u{9b}2J"), "back\\u{8}, bell\\u{7}, C1 \\u{9b}2J");
        assert_eq!(shown("turned \u{202e}2.1"), "turned \\u{202e}2.1");
        assert_eq!(shown("9.50 yd³ ± 0.13, Müller, 杭"), "9.50 yd³ ± 0.13, Müller, 杭");
    }
}
