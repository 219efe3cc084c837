//! The units of a workbook: those of the job.

use quantity::{Elevation, Length, Volume};
use record::choices::JobUnits;
use record::kinds::JobOpened;

/// Units of lengths, small lengths and volumes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Units {
    pub(super) length: &'static str,
    pub(super) small: &'static str,
    pub(super) volume: &'static str,
    us: bool,
}

impl Units {
    /// Those of the job; metric where no job was opened.
    pub(super) fn of(job: Option<&JobOpened>) -> Self {
        match job.map(|job| job.units) {
            Some(JobUnits::Us) => Units { length: "ft", small: "in", volume: "yd³", us: true },
            _ => Units { length: "m", small: "mm", volume: "m³", us: false },
        }
    }

    pub(super) fn length(self, length: Length) -> f64 {
        if self.us { length.to_feet() } else { length.to_meters() }
    }

    pub(super) fn level(self, level: Elevation) -> f64 {
        self.length(level.0)
    }

    pub(super) fn small(self, length: Length) -> f64 {
        if self.us { length.to_inches() } else { length.to_meters() * 1000.0 }
    }

    pub(super) fn volume(self, volume: Volume) -> f64 {
        if self.us { volume.to_cubic_yards() } else { volume.to_cubic_meters() }
    }
}
