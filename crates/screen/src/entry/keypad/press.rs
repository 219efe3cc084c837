//! One press of a key: from the text before to the text after.
//!
//! The text is a number and, at its end, a unit. Digits go into the number wherever the unit already
//! stands; a foot mark opens inches, and the inch mark that closes them is kept at the end by itself, so
//! that every text on the way reads as a length.
//!
//! Never: leave a text that a person could not have typed.

use super::Key;

/// The text after a press.
pub fn press(text: &str, key: Key) -> String {
    let mut pieces = Pieces::of(text);
    match key {
        Key::Digit(digit) => pieces.digit(digit),
        Key::Decimal(sign) => pieces.decimal(sign),
        Key::Fraction(fraction) => pieces.fraction(fraction),
        Key::Feet => pieces.feet(),
        Key::Inches => pieces.inches(),
        Key::Unit(symbol) => pieces.unit(symbol),
        Key::Minus => pieces.minus(),
        Key::Colon => pieces.colon(),
        Key::Erase => return pieces.erased(),
        Key::Next => return text.to_owned(),
    }
    pieces.text()
}

/// Units after which a smaller part may follow: `1 h 30 min`.
const OPEN_UNITS: &[&str] = &["h", "d"];

/// A text taken apart: sign, number, unit.
#[derive(Debug, Clone, PartialEq)]
struct Pieces {
    negative: bool,
    number: String,
    suffix: String,
}

impl Pieces {
    fn of(text: &str) -> Pieces {
        let text = text.trim();
        let (negative, rest) = match text.strip_prefix(['-', '−']) {
            Some(rest) => (true, rest.trim_start()),
            None => (false, text),
        };
        let digit_or_mark = |sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ',' | '\'' | ':');
        // The unit is what follows the last sign that belongs to a number.
        let end = rest.rfind(digit_or_mark).map_or(0, |at| at + 1);
        let (number, suffix) = rest.split_at(end);
        Pieces { negative, number: number.trim().to_owned(), suffix: suffix.trim().to_owned() }
    }

    fn text(self) -> String {
        let sign = if self.negative { "-" } else { "" };
        let gap =
            if self.suffix.is_empty() || self.suffix == "\"" || self.number.is_empty() { "" } else { " " };
        format!("{sign}{}{gap}{}", self.number, self.suffix)
    }

    /// Opens the place a digit goes to: inches after a foot mark, a second part after an hour.
    fn open(&mut self) {
        if OPEN_UNITS.contains(&self.suffix.as_str()) {
            self.number = format!("{} {} ", self.number, self.suffix);
            self.suffix.clear();
        }
        if self.number.ends_with('\'') {
            self.number.push('-');
            "\"".clone_into(&mut self.suffix);
        }
    }

    fn digit(&mut self, digit: char) {
        self.open();
        // After a fraction of an inch there is nothing left to write.
        if !self.number.contains('/') {
            self.number.push(digit);
        }
    }

    fn decimal(&mut self, sign: char) {
        self.open();
        let part = self.number.rsplit([' ', '\'', '-', ':']).next().unwrap_or_default();
        if part.contains(sign) || self.number.contains('/') {
            return;
        }
        let lead = if part.is_empty() { "0" } else { "" };
        self.number = format!("{}{lead}{sign}", self.number);
    }

    fn fraction(&mut self, fraction: &str) {
        self.open();
        if let Some((whole, _)) = self.number.rsplit_once('/').map(|(before, _)| split_fraction(before)) {
            self.number = whole;
        }
        let gap = if self.number.ends_with(|sign: char| sign.is_ascii_digit()) { " " } else { "" };
        self.number = format!("{}{gap}{fraction}", self.number);
        if self.suffix.is_empty() {
            "\"".clone_into(&mut self.suffix);
        }
    }

    fn feet(&mut self) {
        if self.number.is_empty() || self.number.contains(['\'', '/', ':']) {
            return;
        }
        self.number.push('\'');
        self.suffix.clear();
    }

    fn inches(&mut self) {
        if self.number.is_empty() || self.number.contains('\'') {
            return;
        }
        self.toggle("\"");
    }

    fn unit(&mut self, symbol: &str) {
        if self.number.ends_with('\'') {
            self.number.pop();
        }
        if !self.number.is_empty() && !self.number.contains(['\'', ':']) {
            self.toggle(symbol);
        }
    }

    fn toggle(&mut self, symbol: &str) {
        if self.suffix == symbol {
            self.suffix.clear();
        } else {
            symbol.clone_into(&mut self.suffix);
        }
    }

    fn minus(&mut self) {
        self.negative = !self.negative;
    }

    fn colon(&mut self) {
        if !self.number.is_empty() && !self.number.contains(':') {
            self.number.push(':');
            self.suffix.clear();
        }
    }

    /// Takes back the last thing: a fraction or a unit as a whole, a digit alone.
    fn erased(mut self) -> String {
        let closing = self.suffix == "\"" && self.number.contains(['\'', '/']);
        if !self.suffix.is_empty() && !closing {
            self.suffix.clear();
            return self.text();
        }
        if let Some((before, _)) = self.number.rsplit_once('/') {
            self.number = split_fraction(before).0;
        } else if self.number.pop().is_none() {
            self.negative = false;
        }
        self.close_after_erase();
        self.text()
    }

    /// An opened place that is empty again is closed: `23'-` becomes `23'`, `1 h ` becomes `1 h`.
    fn close_after_erase(&mut self) {
        if self.number.ends_with("'-") {
            self.number.pop();
        }
        if self.number.ends_with('\'') || !self.number.contains(['\'', '/']) && self.suffix == "\"" {
            self.suffix.clear();
        }
        let trimmed = self.number.trim_end();
        if let Some((number, unit)) = trimmed.rsplit_once(' ').filter(|(_, unit)| OPEN_UNITS.contains(unit)) {
            (self.number, self.suffix) = (number.to_owned(), unit.to_owned());
        } else {
            self.number = trimmed.to_owned();
        }
    }
}

/// `23'-6 1` (before the stroke of a half) is `23'-6` and the `1`.
fn split_fraction(before: &str) -> (String, String) {
    let digits = before.chars().rev().take_while(char::is_ascii_digit).count();
    let (whole, top) = before.split_at(before.len() - digits);
    (whole.trim_end().to_owned(), top.to_owned())
}
