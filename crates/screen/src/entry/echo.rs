//! The echo: how what stands in a field was understood, before it is saved.
//!
//! 23-6 may be feet and inches or a slip; 12.54 may be feet or metres. Whoever types sees at once, in the
//! units of the job and in the other way of writing it, what the record will hold.
//!
//! Words: *also* = the same value in the other notation: feet and inches beside tenths, metres beside feet.
//! Units: those of the job.
//! Never: change what was typed, take a guess.

use super::time::{Clock, clock_text};
use quantity::{
    Area, Density, Entered, Exact, Force, Fraction, FunnelTime, InchFraction, Inflow, Kind, Length,
    LengthStyle, Mass, Misread, Ph, Pressure, Problem, Quantity, Reading, Slope, Span, Temperature, Volume,
    WaterCement, print, print_length,
};
use record::field::{Defaults, Scale, UnitSystem};
use wording::Show;

/// How the text in a field was understood.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Echo {
    /// Nothing is written.
    Empty,
    /// It reads.
    Understood {
        /// In the job's own way: `23.54 ft`.
        text: String,
        /// In the other way, where there is one: `23'-6 1/2"`.
        also: Option<String>,
    },
    /// It may become something: `23-`, `38` of a funnel time.
    Incomplete {
        /// What is still needed.
        hint: String,
    },
    /// It cannot be read.
    Faulty {
        /// What was found and what was expected.
        sentence: String,
        /// Texts that may have been meant, each taken with one tap; at most three.
        perhaps: Vec<String>,
    },
}

impl Echo {
    /// The text reads, or nothing is written.
    pub fn is_fine(&self) -> bool {
        matches!(self, Echo::Empty | Echo::Understood { .. })
    }

    fn understood(text: impl Into<String>) -> Echo {
        Echo::Understood { text: text.into(), also: None }
    }
}

/// How a text in a field of a quantity is understood on a job.
pub fn quantity(text: &str, kind: Kind, scale: Scale, show: &Show) -> Echo {
    let field = Field { text, scale, show, defaults: show.defaults() };
    match kind {
        Kind::Length => field.length(),
        Kind::Area => field.of::<Area>(3),
        Kind::Volume => field.of::<Volume>(3),
        Kind::Density => field.of::<Density>(3),
        Kind::Mass => field.of::<Mass>(1),
        Kind::Force => field.of::<Force>(2),
        Kind::Pressure => field.of::<Pressure>(2),
        Kind::Temperature => field.of::<Temperature>(1),
        Kind::Span => field.of::<Span>(2),
        Kind::FunnelTime => field.of::<FunnelTime>(1),
        Kind::Fraction => field.of::<Fraction>(2),
        Kind::Ph => field.of::<Ph>(2),
        Kind::Slope => field.of::<Slope>(3),
        Kind::Inflow => field.of::<Inflow>(2),
        Kind::WaterCement => field.of::<WaterCement>(3),
    }
}

/// How a text in a field of a whole number is understood.
pub fn count(text: &str) -> Echo {
    match text.trim() {
        "" => Echo::Empty,
        digits if digits.parse::<u32>().is_ok_and(|count| count <= 1_000_000) => Echo::understood(digits),
        other => Echo::Faulty {
            sentence: format!("`{other}` is no whole number from 0 to 1000000."),
            perhaps: Vec::new(),
        },
    }
}

/// How a text in a field of a clock time is understood.
pub fn time(text: &str, clock: &Clock) -> Echo {
    match (text.trim(), clock.moment(text)) {
        ("", _) => Echo::Empty,
        (_, Some(moment)) => Echo::understood(clock_text(moment, clock.now)),
        (part, None) if part.len() < 5 && part.chars().all(|sign| sign.is_ascii_digit() || sign == ':') => {
            Echo::Incomplete { hint: "Four digits, as in 10:41.".to_owned() }
        }
        (other, None) => Echo::Faulty {
            sentence: format!("`{other}` is no time; expected one such as 10:41 or 2026-05-04 10:41."),
            perhaps: Vec::new(),
        },
    }
}

struct Field<'f> {
    text: &'f str,
    scale: Scale,
    show: &'f Show,
    defaults: Defaults,
}

impl Field<'_> {
    fn read<Q: Quantity>(&self) -> Result<Entered<Q>, Echo> {
        if self.text.trim().is_empty() {
            return Err(Echo::Empty);
        }
        let unit = self.defaults.unit(Q::KIND, self.scale);
        let reading = Reading { unit, comma: self.defaults.comma };
        Entered::parse(self.text, reading).map_err(|misread| self.drawn(unread(self.text, &misread)))
    }

    /// Offers feet and inches for `23-6 1/2`, the way people say and write a depth in a hurry.
    fn drawn(&self, echo: Echo) -> Echo {
        let Echo::Faulty { sentence, perhaps } = echo else { return echo };
        let us = self.defaults.system == UnitSystem::Us && self.scale == Scale::Usual;
        let marked = marked(self.text).filter(|_| us && perhaps.is_empty());
        Echo::Faulty { sentence, perhaps: marked.map_or(perhaps, |text| vec![text]) }
    }

    /// A quantity in the unit a bare number of its field has.
    fn of<Q: Quantity>(&self, decimals: u8) -> Echo {
        let entered = match self.read::<Q>() {
            Ok(entered) => entered,
            Err(echo) => return echo,
        };
        let Some(unit) = self.defaults.unit(Q::KIND, self.scale) else {
            return Echo::understood(entered.shown());
        };
        let text = self.signed(short(&print(entered.value(), unit, decimals)));
        let typed = entered.shown();
        let also = entered.assumed().is_none().then_some(typed).filter(|typed| !same_text(typed, &text));
        Echo::Understood { text, also }
    }

    fn length(&self) -> Echo {
        let entered = match self.read::<Length>() {
            Ok(entered) => entered,
            Err(echo) => return echo,
        };
        let (text, also) = match self.scale {
            Scale::Small => self.small(entered.value()),
            Scale::Coordinate => (self.show.coordinate(entered.value()), None),
            _ => self.usual(entered.value()),
        };
        // A person who wrote another unit than the job's wants to see that it was seen.
        let foreign = entered.assumed().is_none().then(|| entered.shown());
        let also = match self.defaults.system {
            UnitSystem::Us => also,
            UnitSystem::Metric => foreign.filter(|typed| !same_text(typed, &text)),
        };
        Echo::Understood { text, also }
    }

    fn usual(&self, length: Length) -> (String, Option<String>) {
        let tenths = || self.signed(short(&print_length(length, LengthStyle::FeetTenths, 2)));
        let inches = || feet_inches(length);
        match self.show.style().lengths {
            LengthStyle::FeetInches(_) | LengthStyle::Inches(_) => (inches(), Some(tenths())),
            LengthStyle::FeetTenths => (tenths(), Some(inches())),
            _ => (self.signed(short(&print_length(length, LengthStyle::Meters, 3))), None),
        }
    }

    fn small(&self, length: Length) -> (String, Option<String>) {
        let decimal = self.signed(short(&print(length, self.show.small_unit(), 2)));
        if self.defaults.system == UnitSystem::Metric || !whole_eighths(length) {
            return (decimal, None);
        }
        let eighths = print_length(length, LengthStyle::Inches(InchFraction::Eighth), 0);
        let also = Some(decimal).filter(|decimal| *decimal != eighths);
        (eighths, also)
    }

    fn signed(&self, text: String) -> String {
        if self.defaults.comma { text.replacen('.', ",", 1) } else { text }
    }
}

/// `23-6 1/2` with its marks; `None` for what is no feet and inches.
fn marked(text: &str) -> Option<String> {
    let (feet, inches) = text.trim().split_once(['-', ' '])?;
    let text = format!("{}'-{}\"", feet.trim(), inches.trim().trim_end_matches('"'));
    let digits = !feet.is_empty() && feet.trim().chars().all(|sign| sign.is_ascii_digit());
    (digits && Entered::<Length>::parse(&text, Reading::default()).is_ok()).then_some(text)
}

/// To the eighth of an inch; a value between two of them says that it was rounded.
fn feet_inches(length: Length) -> String {
    let text = print_length(length, LengthStyle::FeetInches(InchFraction::Eighth), 0);
    if whole_eighths(length) { text } else { format!("about {text}") }
}

fn whole_eighths(length: Length) -> bool {
    (length.number().exact()).is_some_and(|si| (si / Exact::new(254, 80_000)).is_integer())
}

/// `12.50 ft` as `12.5 ft`.
fn short(text: &str) -> String {
    let (number, unit) = text.split_once(' ').map_or((text, None), |(number, unit)| (number, Some(unit)));
    let plain = match number.contains('.') {
        true => number.trim_end_matches('0').trim_end_matches('.'),
        false => number,
    };
    unit.map_or_else(|| plain.to_owned(), |unit| format!("{plain} {unit}"))
}

/// The same number and unit, however they are spaced.
fn same_text(typed: &str, text: &str) -> bool {
    let bare = |text: &str| text.chars().filter(|sign| !sign.is_whitespace()).collect::<String>();
    bare(typed) == bare(text)
}

/// What to say about a text that does not read: not yet, or not at all.
fn unread(text: &str, misread: &Misread) -> Echo {
    let kind = misread.expected;
    let dangling = text.trim().ends_with(['-', '/', ':', '.', ',', '−']) || text.trim().ends_with("'-\"");
    if dangling {
        return Echo::Incomplete { hint: format!("Goes on: {} such as {}.", kind.noun(), kind.example()) };
    }
    if misread.problem == Problem::NoUnit {
        let units = misread.perhaps.join(" or ");
        return Echo::Incomplete { hint: format!("Needs its unit: {units}.") };
    }
    Echo::Faulty { sentence: super::sentence::misread(misread), perhaps: misread.perhaps.clone() }
}
