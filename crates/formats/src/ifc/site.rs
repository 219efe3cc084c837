//! Project, units, grid and site: what every element stands in.
//!
//! The origin of the model is a round point of the job's grid near its shafts, so that viewers keep their
//! precision. A grid with an EPSG number makes a map conversion of that point; a grid of the job's own makes none, and
//! the place of the site then carries it.
//!
//! Never: claim a georeference for a grid nobody named.

use super::facts::Facts;
use super::guid::guid;
use super::model::{Model, label};
use super::solid::axes;
use super::step::{Ref, Step, Value};
use crate::Job;
use crate::place::{self, Place};

/// Metres to which the origin is rounded down.
const ROUND: f64 = 100.0;

/// What elements stand in.
pub(super) struct Site {
    pub(super) project: Ref,
    pub(super) site: Ref,
    pub(super) placement: Ref,
    /// The context of solids.
    pub(super) body: Ref,
    /// The point of the grid that heights and places are counted from.
    pub(super) origin: Place,
}

pub(super) fn begin(step: &mut Step, job: &Job<'_, '_>) -> Site {
    let origin = origin(job);
    let world = axes(step, [0.0, 0.0, 0.0], None);
    let named = |text: &str| Value::Text(text.to_owned());
    let context =
        [Value::Blank, named("Model"), Value::Whole(3), Value::Real(1e-6), Value::Ref(world), Value::Blank];
    let context = step.add("IFCGEOMETRICREPRESENTATIONCONTEXT", &context);
    let derived = || Value::Derived;
    let body = [named("Body"), named("Model"), derived(), derived(), derived(), derived()];
    let view = [Value::Ref(context), Value::Blank, Value::Word("MODEL_VIEW"), Value::Blank];
    let body = step.add("IFCGEOMETRICREPRESENTATIONSUBCONTEXT", &[&body[..], &view[..]].concat());
    let mapped = map(step, job, (context, origin));
    let project = project(step, job, context);
    let at = if mapped { [0.0, 0.0, 0.0] } else { [origin.east, origin.north, 0.0] };
    let place = axes(step, at, None);
    let placement = step.add("IFCLOCALPLACEMENT", &[Value::Blank, Value::Ref(place)]);
    let site = site(step, job, placement);
    let id = Value::Text(guid(&[job.key(), "aggregates"]));
    let within = [id, Value::Blank, Value::Blank, Value::Blank, Value::Ref(project), Value::refs(&[site])];
    step.add("IFCRELAGGREGATES", &within);
    Site { project, site, placement, body, origin }
}

/// A round point south-west of every shaft; zero where no shaft has coordinates.
fn origin(job: &Job<'_, '_>) -> Place {
    let places: Vec<Place> = job.shafts.iter().filter_map(place::planned).collect();
    let round = |of: fn(&Place) -> f64| {
        let least = places.iter().map(of).reduce(f64::min).unwrap_or(0.0);
        (least / ROUND).floor() * ROUND
    };
    Place { east: round(|place| place.east), north: round(|place| place.north) }
}

/// The grid of the job as a map conversion; whether there is one.
fn map(step: &mut Step, job: &Job<'_, '_>, (context, origin): (Ref, Place)) -> bool {
    let Some(number) = place::epsg(job.opened()) else { return false };
    let opened = job.opened();
    let meter = meter(step);
    let grid = [
        Value::Text(format!("EPSG:{number}")),
        Value::maybe(opened.and_then(|job| job.grid.as_deref())),
        Value::Blank,
        Value::maybe(opened.and_then(|job| job.datum.as_deref()).map(label).as_deref()),
        Value::Blank,
        Value::Blank,
        Value::Ref(meter),
    ];
    let grid = step.add("IFCPROJECTEDCRS", &grid);
    let reals = [origin.east, origin.north, 0.0, 1.0, 0.0].map(Value::Real);
    let ends = [Value::Ref(context), Value::Ref(grid)];
    step.add("IFCMAPCONVERSION", &[&ends[..], &reals[..], &[Value::Blank]].concat());
    true
}

fn meter(step: &mut Step) -> Ref {
    si(step, "LENGTHUNIT", "METRE")
}

fn si(step: &mut Step, kind: &'static str, name: &'static str) -> Ref {
    step.share("IFCSIUNIT", &[Value::Derived, Value::Word(kind), Value::Blank, Value::Word(name)])
}

fn project(step: &mut Step, job: &Job<'_, '_>, context: Ref) -> Ref {
    const UNITS: [[&str; 2]; 5] = [
        ["LENGTHUNIT", "METRE"],
        ["AREAUNIT", "SQUARE_METRE"],
        ["VOLUMEUNIT", "CUBIC_METRE"],
        ["PLANEANGLEUNIT", "RADIAN"],
        ["TIMEUNIT", "SECOND"],
    ];
    let units = UNITS.map(|[kind, name]| si(step, kind, name));
    let units = step.add("IFCUNITASSIGNMENT", &[Value::refs(&units)]);
    let opened = job.opened();
    let name = opened.map_or(job.key(), |job| &job.name);
    let number = opened.and_then(|job| job.number.as_deref()).map(label);
    let values = [
        Value::Text(guid(&[job.key(), "project"])),
        Value::Blank,
        Value::Text(label(name)),
        Value::Blank,
        Value::Blank,
        Value::maybe(number.as_deref()),
        Value::Blank,
        Value::refs(&[context]),
        Value::Ref(units),
    ];
    step.add("IFCPROJECT", &values)
}

fn site(step: &mut Step, job: &Job<'_, '_>, placement: Ref) -> Ref {
    let opened = job.opened();
    let name = opened.and_then(|job| job.location.as_deref()).unwrap_or("Site");
    let mut values = vec![Value::Text(guid(&[job.key(), "site"])), Value::Blank, Value::Text(label(name))];
    values.extend([Value::Blank, Value::Blank, Value::Ref(placement), Value::Blank, Value::Blank]);
    values.push(Value::Word("ELEMENT"));
    values.extend([const { Value::Blank }; 5]);
    step.add("IFCSITE", &values)
}

/// What the model says of job and record, and of its grid.
pub(super) fn facts(model: &mut Model<'_, '_, '_>) {
    let job = model.job;
    let opened = job.opened();
    let mut record = Facts::new("Shaftbook_Record");
    record.text("JobKey", Some(job.key()));
    record.text("Digest", Some(&job.digest()));
    record.whole("Entries", job.record.len());
    record.text("AsOf", Some(&job.as_of().to_string()));
    record.text("Program", Some(job.program));
    record.flag("Rehearsal", opened.and_then(|job| job.rehearsal).or(Some(false)));
    model.tell(model.site.project, record, &["project"]);
    let mut grid = Facts::new("Shaftbook_Grid");
    grid.text("Grid", opened.and_then(|job| job.grid.as_deref()));
    grid.text("Datum", opened.and_then(|job| job.datum.as_deref()));
    grid.flag("Georeferenced", Some(place::epsg(opened).is_some()));
    grid.length("OriginEasting", Some(model.site.origin.east));
    grid.length("OriginNorthing", Some(model.site.origin.north));
    model.tell(model.site.site, grid, &["site"]);
}

/// A point in the place of the site.
pub(super) fn within(model: &Model<'_, '_, '_>, place: Option<Place>, height: f64) -> [f64; 3] {
    let origin = model.site.origin;
    place.map_or([0.0, 0.0, height], |place| [place.east - origin.east, place.north - origin.north, height])
}
