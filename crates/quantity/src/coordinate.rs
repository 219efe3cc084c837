//! Which foot the coordinates of a job are in.
//!
//! State plane coordinates run to millions of feet. There the US survey foot and the international foot,
//! two parts in a million apart, part by feet: 2 000 000 ft of one and of the other end 4 ft from each
//! other. A depth or a diameter never shows the difference; a stake does. A job says which one it uses.
//!
//! Words: *survey foot* = 1200/3937 m; *international foot* = 0.3048 m, both exact. [NIST-SP-811], B.6.
//! Units: a survey foot is no whole number of nanometres, so a coordinate is right to half a nanometre.
//! Never: choose a foot for the job.

use crate::entered::{Entered, Reading};
use crate::length::Length;
use crate::misread::Misread;
use crate::print::print_number;
use crate::unit::{Unit, units};

/// The unit of a job's coordinates. There is no default.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoordinateUnit {
    /// 0.3048 m, exact.
    InternationalFoot,
    /// 1200/3937 m, exact.
    SurveyFoot,
    /// Metre.
    Meter,
}

impl CoordinateUnit {
    /// The unit itself.
    pub fn unit(self) -> &'static Unit {
        match self {
            CoordinateUnit::InternationalFoot => &units::FOOT,
            CoordinateUnit::SurveyFoot => &units::SURVEY_FOOT,
            CoordinateUnit::Meter => &units::METER,
        }
    }

    /// Reads a northing or easting. A bare number, and the word `ft`, mean the foot of the job; `m`,
    /// `ift` and `sft` mean what they say.
    ///
    /// # Errors
    /// A [`Misread`] as for [`Entered::parse`].
    pub fn parse(self, typed: &str, comma: bool) -> Result<Entered<Length>, Misread> {
        Entered::parse(typed, Reading { unit: Some(self.unit()), comma })
    }

    /// A northing or easting without its unit, which the head of the table names.
    pub fn print(self, coordinate: Length, decimals: u8) -> String {
        print_number(coordinate, self.unit(), decimals)
    }
}
