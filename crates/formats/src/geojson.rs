//! The shafts of a job as points on a map (GeoJSON).
//!
//! RFC 7946 knows one grid only, degrees of WGS 84. A record holds coordinates of the job's own grid, and nobody told it
//! how to turn them into degrees; so each shaft is a feature without a geometry, which the standard allows, and its
//! coordinates stand in its properties with the name of their grid.
//!
//! Source: [RFC-7946], 3.2 (a feature without a place has a geometry of null) and 4 (the grid).
//! Never: put local coordinates where a reader expects degrees.

use crate::place::{epsg, offset, planned};
use crate::{Job, Shaft};
use assess::Outcome;
use quantity::{Elevation, Length};
use serde_json::{Value, json};

/// The features of a job. The same record gives the same bytes.
pub fn write(job: &Job<'_, '_>) -> String {
    let opened = job.opened();
    let collection = json!({
        "type": "FeatureCollection",
        "job": job.key(),
        "name": opened.map(|job| job.name.clone()),
        "as_of": job.as_of().to_string(),
        "digest": job.digest(),
        "rehearsal": opened.and_then(|job| job.rehearsal).unwrap_or(false),
        "note": NOTE,
        "features": job.shafts.iter().map(|shaft| feature(job, shaft)).collect::<Vec<Value>>(),
    });
    format!("{collection:#}\n")
}

const NOTE: &str = "No place is given in degrees: the record holds coordinates of the grid named with each shaft, and \
                    no conversion of them. They stand in the properties easting_m and northing_m.";

fn feature(job: &Job<'_, '_>, shaft: &Shaft<'_, '_>) -> Value {
    let opened = job.opened();
    let plan = shaft.assessment.picture.plan.as_ref();
    let meters = |level: Option<Elevation>| level.map(Elevation::to_meters);
    let count = |outcome: Outcome| {
        shaft.assessment.findings.iter().filter(|finding| finding.outcome() == outcome).count()
    };
    let last = shaft.assessment.reckoning.pour.as_ref().and_then(|pour| pour.curve.intervals.last());
    json!({
        "type": "Feature",
        "id": format!("{}/{}", job.key(), shaft.name),
        "geometry": null,
        "properties": {
            "shaft": shaft.name,
            "grid": opened.and_then(|job| job.grid.clone()),
            "epsg": epsg(opened),
            "datum": opened.and_then(|job| job.datum.clone()),
            "easting_m": planned(shaft).map(|place| place.east),
            "northing_m": planned(shaft).map(|place| place.north),
            "off_east_m": offset(shaft).map(|place| place.east),
            "off_north_m": offset(shaft).map(|place| place.north),
            "structure": plan.map(|plan| plan.shaft.structure.word()),
            "structure_name": plan.and_then(|plan| plan.shaft.structure_name.clone()),
            "station": plan.and_then(|plan| plan.shaft.station.clone()),
            "method": plan.map(|plan| plan.shaft.method.word()),
            "ground_m": meters(plan.and_then(|plan| plan.ground)),
            "top_m": meters(plan.map(|plan| plan.top)),
            "tip_m": meters(plan.map(|plan| plan.tip)),
            "least_diameter_m": plan.and_then(|plan| plan.diameter).map(Length::to_meters),
            "placed_m3": last.map(|last| last.cumulative.placed.value.to_cubic_meters()),
            "ratio": last.and_then(|last| last.cumulative.ratio).map(|ratio| ratio.value),
            "fails": count(Outcome::Fails),
            "meets": count(Outcome::Meets),
            "not_measured": count(Outcome::NotMeasured),
        },
    })
}
