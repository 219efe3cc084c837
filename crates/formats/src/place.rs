//! Where a shaft stands, as the plan and the survey say it.
//!
//! Coordinates are those of the job's own grid, in metres. No conversion to another grid is made: nobody told
//! us how.
//!
//! Never: put a shaft without coordinates anywhere.

use crate::Shaft;
use record::kinds::JobOpened;

/// A place in the grid of the job, metres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Place {
    pub(crate) east: f64,
    pub(crate) north: f64,
}

/// The planned centre; `None` where the plan gives no coordinates.
pub(crate) fn planned(shaft: &Shaft<'_, '_>) -> Option<Place> {
    let plan = shaft.assessment.picture.plan.as_ref()?.shaft;
    Some(Place {
        east: plan.easting.as_ref()?.value().to_meters(),
        north: plan.northing.as_ref()?.value().to_meters(),
    })
}

/// How far the surveyed centre is off its place, metres; `None` where nobody surveyed it.
pub(crate) fn offset(shaft: &Shaft<'_, '_>) -> Option<Place> {
    let (offset, _) = shaft.assessment.reckoning.as_built.offset.as_ref()?;
    Some(Place { east: offset.east.to_meters(), north: offset.north.to_meters() })
}

/// How an axis leans: metres toward east and north for each metre down.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Lean {
    pub(crate) east: f64,
    pub(crate) north: f64,
}

impl Lean {
    /// Length along the axis for each metre down.
    pub(crate) fn stretch(self) -> f64 {
        (1.0 + self.east * self.east + self.north * self.north).sqrt()
    }
}

/// The planned lean; none where the plan gives none, or no direction that can be read.
pub(crate) fn planned_lean(shaft: &Shaft<'_, '_>) -> Option<Lean> {
    let plan = shaft.assessment.picture.plan.as_ref()?.shaft;
    let slope = plan.rake.as_ref()?.value().to_part();
    let [east, north] = assess::reckon::as_built::direction(plan.rake_toward.as_deref()?)?;
    Some(Lean { east: slope * east, north: slope * north })
}

/// The lean that was measured.
pub(crate) fn measured_lean(shaft: &Shaft<'_, '_>) -> Option<Lean> {
    let (fitted, _) = shaft.assessment.reckoning.as_built.axis.as_ref()?;
    Some(Lean { east: fitted.axis.lean_east.to_part(), north: fitted.axis.lean_north.to_part() })
}

/// The number of the EPSG list the job's grid names, `EPSG:25832`; `None` for a grid of the job's own.
pub(crate) fn epsg(job: Option<&JobOpened>) -> Option<u32> {
    let grid = job?.grid.as_deref()?;
    let at = grid.to_ascii_uppercase().find("EPSG")?;
    let rest = grid.get(at + 4..)?.trim_start_matches([':', ' ', '-']);
    let digits: String = rest.chars().take_while(char::is_ascii_digit).collect();
    digits.parse().ok().filter(|number| (1024..=32767).contains(number))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(grid: &str, expected: Option<u32>) {
        let job = JobOpened {
            name: String::new(),
            number: None,
            owner: None,
            contractor: None,
            engineer: None,
            location: None,
            datum: None,
            grid: Some(grid.to_owned()),
            coordinate_foot: None,
            time_zone: "UTC".to_owned(),
            units: record::choices::JobUnits::Metric,
            lengths: record::choices::LengthStyle::Meters,
            decimal_comma: None,
            rehearsal: None,
        };
        assert_eq!(epsg(Some(&job)), expected, "{grid}");
    }

    #[test]
    fn a_grid_is_known_by_its_number_alone() {
        check("EPSG:25832", Some(25832));
        check("UTM zone 32, epsg 25832, heights see datum", Some(25832));
        check("local grid of the job, origin at BM-3", None);
        check("EPSG", None);
        check("EPSG:12", None);
        check("EPSG:99999999", None);
    }

    #[test]
    fn an_axis_is_longer_than_it_is_deep_when_it_leans() {
        assert_eq!(Lean::default().stretch(), 1.0);
        assert_eq!(Lean { east: 0.75, north: 0.0 }.stretch(), 1.25);
    }
}
