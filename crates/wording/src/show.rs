//! How a job prints: its units, its lengths, its decimal sign, its day.
//!
//! A person who thinks in feet and inches misreads metres in the minute that counts. The job chose once;
//! everything that was computed or converted is printed that way. What somebody typed is printed as typed.
//!
//! Words: *main day* = the day most of the work happened on: its times stand without a date.
//! Units: those of the job; without a job, feet and tenths.
//! Never: print more digits than a reading on site can carry.

mod time;

pub use time::day_text;

use calc::estimate::{Estimate, Level};
use quantity::{
    CoordinateUnit, Density, Depth, Elevation, Exact, Fraction, InchFraction, Kind, Length, LengthStyle,
    Moment, Number, Pressure, Style, System, Temperature, Unit, Volume, units,
};
use record::Log;
use record::choices::{CoordinateFoot, JobUnits};
use record::kinds::JobOpened;

use crate::number::decimal;

/// How a job prints.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Show {
    style: Style,
    coordinates: CoordinateUnit,
    day: Option<String>,
}

impl Show {
    /// As the job wants it; feet and tenths where no job was opened.
    pub fn of(job: Option<&JobOpened>) -> Self {
        let Some(job) = job else {
            return Show { style: Style::US, coordinates: CoordinateUnit::InternationalFoot, day: None };
        };
        let system = match job.units {
            JobUnits::Us => System::Us,
            JobUnits::Metric => System::Si,
        };
        let style = Style { lengths: lengths(job), system, comma: job.decimal_comma == Some(true) };
        Show { style, coordinates: coordinates(job), day: None }
    }

    /// As the job of a log wants it, with the day most of its lines belong to as the main day.
    pub fn of_log(log: &Log<'_>) -> Self {
        let job = log.last::<JobOpened>().map(|(_, job)| job);
        Show { day: time::main_day(log), ..Show::of(job) }
    }

    /// The same, with the day of a moment as the main day.
    #[must_use]
    pub fn on_day_of(self, moment: Moment) -> Self {
        Show { day: Some(moment.date()), ..self }
    }

    /// The same without a main day: every moment says its date, as a page of several days needs it.
    #[must_use]
    pub fn of_no_day(self) -> Self {
        Show { day: None, ..self }
    }

    /// The style underneath.
    pub fn style(&self) -> Style {
        self.style
    }

    /// A length, depth or height: `12.5 ft`, `12'-6"`, `3.81 m`.
    pub fn length(&self, length: Length) -> String {
        self.style.length(length, self.length_decimals())
    }

    /// A small length, such as sediment, cover or slump: `1 1/2 in`, `38 mm`.
    pub fn small(&self, length: Length) -> String {
        self.style.small_length(length)
    }

    /// An elevation with its sign: `+55.0 ft`.
    pub fn elevation(&self, elevation: Elevation) -> String {
        let text = self.length(elevation.0);
        if text.starts_with('-') { text } else { format!("+{text}") }
    }

    /// A depth below the reference: `42.6 ft`.
    pub fn depth(&self, depth: Depth) -> String {
        self.length(depth.0)
    }

    /// A coordinate with its unit: `1234567.89 ft`.
    pub fn coordinate(&self, coordinate: Length) -> String {
        let unit = self.coordinates.unit();
        self.sign(format!("{} {}", self.coordinates.print(coordinate, 2), unit.symbol))
    }

    /// A volume of concrete: `9.50 yd³`.
    pub fn volume(&self, volume: Volume) -> String {
        self.style.quantity(volume, 2)
    }

    /// A volume of water or fluid: `3.5 gal`, `13 L`.
    pub fn liquid(&self, volume: Volume) -> String {
        match self.style.system {
            System::Us => self.sign(quantity::print(volume, &units::GALLON, 1)),
            System::Si => self.sign(quantity::print(volume, &units::LITER, 0)),
        }
    }

    /// A density of fluid or concrete: `64.3 pcf`, `1.03 g/cm³`.
    pub fn density(&self, density: Density) -> String {
        match self.style.system {
            System::Us => self.style.quantity(density, 1),
            System::Si => self.sign(quantity::print(density, &units::GRAM_PER_CUBIC_CENTIMETER, 2)),
        }
    }

    /// A strength: `2510 psi`, `17.3 MPa`.
    pub fn pressure(&self, pressure: Pressure) -> String {
        self.style.quantity(pressure, if self.style.system == System::Us { 0 } else { 1 })
    }

    /// A temperature: `72 °F`.
    pub fn temperature(&self, temperature: Temperature) -> String {
        self.style.quantity(temperature, 0)
    }

    /// A share as percent: `3.5 %`.
    pub fn percent(&self, share: Fraction) -> String {
        self.style.quantity(share, 1)
    }

    /// A ratio: `1.11`.
    pub fn ratio(&self, ratio: f64) -> String {
        self.plain(ratio, 2)
    }

    /// A plain number with so many digits after the point.
    pub fn plain(&self, number: f64, decimals: u8) -> String {
        self.sign(decimal(Number::computed(number), decimals))
    }

    /// `11.4 ft ± 0.1`; alone where the value is taken as known.
    pub fn length_estimate(&self, estimate: Estimate<Length>) -> String {
        let error = estimate.standard_error;
        self.with_error(self.length(estimate.value), error != Length::ZERO, self.bare(self.length(error)))
    }

    /// `+55.0 ft ± 0.1`.
    pub fn level(&self, level: Level) -> String {
        let error = level.standard_error;
        self.with_error(self.elevation(level.value), error != Length::ZERO, self.bare(self.length(error)))
    }

    /// `9.50 yd³ ± 0.13`.
    pub fn volume_estimate(&self, estimate: Estimate<Volume>) -> String {
        let error = estimate.standard_error;
        let known = error.to_cubic_meters() == 0.0;
        self.with_error(self.volume(estimate.value), !known, self.bare(self.volume(error)))
    }

    /// `1.11 ± 0.03`.
    pub fn ratio_estimate(&self, estimate: Estimate<f64>) -> String {
        let error = estimate.standard_error;
        self.with_error(self.ratio(estimate.value), error != 0.0, self.ratio(error))
    }

    /// The units a bare number means in a field of this job.
    pub fn defaults(&self) -> record::Defaults {
        let system = match self.style.system {
            System::Us => record::UnitSystem::Us,
            System::Si => record::UnitSystem::Metric,
        };
        let survey_foot = self.coordinates == CoordinateUnit::SurveyFoot;
        record::Defaults { system, comma: self.style.comma, survey_foot }
    }

    /// The unit lengths are printed in; empty for feet and inches, whose marks stand in the text.
    pub fn length_unit(&self) -> &'static str {
        match self.style.lengths {
            LengthStyle::FeetInches(_) => "",
            _ => self.style.unit(Kind::Length).symbol,
        }
    }

    /// The unit of small lengths: `in` or `mm`.
    pub fn small_unit(&self) -> &'static Unit {
        if self.style.system == System::Us { &units::INCH } else { &units::MILLIMETER }
    }

    /// The unit a kind of quantity is usually told in.
    pub fn unit(&self, kind: Kind) -> &'static Unit {
        match (kind, self.style.system) {
            (Kind::Density, System::Si) => &units::GRAM_PER_CUBIC_CENTIMETER,
            _ => self.style.unit(kind),
        }
    }

    /// A printed value without its unit, for a column whose head names it: `42.6`.
    pub fn bare(&self, text: String) -> String {
        match text.rsplit_once(' ') {
            Some((number, unit)) if !unit.starts_with(|sign: char| sign.is_ascii_digit()) => {
                number.to_owned()
            }
            _ => text,
        }
    }

    /// A text of ours with the decimal sign of the job; it must hold one number.
    pub(crate) fn sign(&self, text: String) -> String {
        if self.style.comma { text.replacen('.', ",", 1) } else { text }
    }

    fn with_error(&self, value: String, known_error: bool, error: String) -> String {
        if known_error { format!("{value} ± {error}") } else { value }
    }

    fn length_decimals(&self) -> u8 {
        if self.style.lengths == LengthStyle::Meters { 2 } else { 1 }
    }
}

/// A count as an exact number.
pub(crate) fn exact(count: i128) -> Number {
    Number::Exact(Exact::from_integer(count))
}

/// How lengths of a job are printed; feet and inches to the half inch, as a weighted tape is read.
fn lengths(job: &JobOpened) -> LengthStyle {
    match job.lengths {
        record::choices::LengthStyle::FeetTenths => LengthStyle::FeetTenths,
        record::choices::LengthStyle::FeetInches => LengthStyle::FeetInches(InchFraction::Half),
        record::choices::LengthStyle::Meters => LengthStyle::Meters,
    }
}

fn coordinates(job: &JobOpened) -> CoordinateUnit {
    match (job.units, job.coordinate_foot) {
        (JobUnits::Metric, _) => CoordinateUnit::Meter,
        (JobUnits::Us, Some(CoordinateFoot::Survey)) => CoordinateUnit::SurveyFoot,
        (JobUnits::Us, _) => CoordinateUnit::InternationalFoot,
    }
}

#[cfg(test)]
mod tests;
