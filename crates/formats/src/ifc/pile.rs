//! A shaft as a pile: as planned, and as it was probably built.

use super::facts::Facts;
use super::frame::Frame;
use super::model::{Element, Model, Part};
use super::solid::{cylinder, turned};
use super::step::{Ref, Step, Value};
use crate::Shaft;
use crate::place::{Lean, Place, measured_lean, offset, planned, planned_lean};
use assess::Outcome;
use assess::shape::{Shape, Width};
use calc::geometry::Piece;
use quantity::{Elevation, Length, Volume};

/// What stands behind the attributes of an element: bored, cast in place.
fn bored() -> Vec<Value> {
    vec![Value::Word("BORED"), Value::Word("CAST_IN_PLACE")]
}

/// The pile as planned; nothing where the plan gives no bore.
pub(super) fn planned_pile(model: &mut Model<'_, '_, '_>, shaft: &Shaft<'_, '_>) {
    let Some(plan) = &shaft.assessment.picture.plan else { return };
    let Ok(bore) = &plan.bore else { return };
    let lean = planned_lean(shaft).unwrap_or_default();
    let frame = Frame::at(model, planned(shaft), plan.cut_off, lean);
    let solids = bore.pieces().iter().filter_map(|piece| solid(&mut model.step, frame, piece)).collect();
    let raked = plan.shaft.rake.is_some() && planned_lean(shaft).is_none();
    let plumb = " Its lean has no direction that can be read, so it is drawn plumb.";
    let facts = vec![plan_facts(shaft, bore.gross().volume()), finding_facts(shaft)];
    model.element(Element {
        part: Part::Planned,
        entity: "IFCPILE",
        id: &[shaft.name, "planned"],
        name: format!("{} as planned", shaft.name),
        description: format!("As planned, nominal.{}", if raked { plumb } else { "" }),
        object_type: None,
        frame: frame.placement,
        solids,
        last: bored(),
        facts,
    });
}

/// A piece of the plan: a cylinder, or a cone turned around the axis.
fn solid(step: &mut Step, frame: Frame, piece: &Piece) -> Option<Ref> {
    let along = frame.stretch(piece.bottom, piece.top);
    let [upper, lower] = [piece.upper_diameter, piece.lower_diameter].map(radius);
    if upper == lower {
        return Some(cylinder(step, upper, along));
    }
    turned(step, &[[lower, along.low], [upper, along.high]])
}

fn radius(diameter: Length) -> f64 {
    diameter.to_meters() / 2.0
}

fn plan_facts(shaft: &Shaft<'_, '_>, volume: Volume) -> Facts {
    let mut facts = Facts::new("Shaftbook_Plan");
    let Some(plan) = &shaft.assessment.picture.plan else { return facts };
    let level = |level: Elevation| Some(level.to_meters());
    facts.text("Shaft", Some(shaft.name));
    facts.text("Structure", Some(plan.shaft.structure.word()));
    facts.text("StructureName", plan.shaft.structure_name.as_deref());
    facts.text("Station", plan.shaft.station.as_deref());
    facts.text("Method", Some(plan.shaft.method.word()));
    facts.flag("PlaceKnown", Some(planned(shaft).is_some()));
    facts.length("Easting", planned(shaft).map(|place| place.east));
    facts.length("Northing", planned(shaft).map(|place| place.north));
    facts.length("GroundElevation", plan.ground.and_then(level));
    facts.length("TopElevation", level(plan.top));
    facts.length("CutOffElevation", level(plan.cut_off));
    facts.length("TipElevation", level(plan.tip));
    facts.length("LeastDiameter", plan.diameter.map(Length::to_meters));
    facts.volume("TheoreticalVolume", Some(volume.to_cubic_meters()));
    facts.text("Entry", Some(&plan.entry.to_string()));
    facts
}

fn finding_facts(shaft: &Shaft<'_, '_>) -> Facts {
    let findings = &shaft.assessment.findings;
    let count = |outcome: Outcome| findings.iter().filter(|finding| finding.outcome() == outcome).count();
    let mut facts = Facts::new("Shaftbook_Findings");
    facts.text("At", Some(&shaft.assessment.at.to_string()));
    facts.whole("Fails", count(Outcome::Fails));
    facts.whole("FailsWithoutDecision", findings.iter().filter(|finding| finding.is_open()).count());
    facts.whole("CannotSay", count(Outcome::CannotSay));
    facts.whole("NotMeasured", count(Outcome::NotMeasured));
    facts.whole("Meets", count(Outcome::Meets));
    facts
}

/// The pile as it was probably built; nothing where the readings give no estimate.
pub(super) fn estimated(model: &mut Model<'_, '_, '_>, shaft: &Shaft<'_, '_>) {
    let (Some(plan), Some(shape)) = (&shaft.assessment.picture.plan, &shaft.shape) else { return };
    let lean = measured_lean(shaft).or(planned_lean(shaft)).unwrap_or_default();
    let frame = Frame::at(model, built(shaft), plan.cut_off, lean);
    let widths = crate::pieces(shaft);
    let lines = whole_lines(&widths, frame);
    let solids: Vec<Ref> = lines.iter().filter_map(|line| turned(&mut model.step, line)).collect();
    if solids.is_empty() {
        return;
    }
    let facts = vec![profile_facts(&widths), pour_facts(shaft, shape, lean)];
    model.element(Element {
        part: Part::Estimated,
        entity: "IFCPILE",
        id: &[shaft.name, "estimated"],
        name: format!("{} as estimated", shaft.name),
        description:
            "Estimated from soundings and tickets: circles of the estimated area. A neck on one side \
                      has the same area as one all around."
                .to_owned(),
        object_type: None,
        frame: frame.placement,
        solids,
        last: bored(),
        facts,
    });
}

/// Where the shaft was found to stand; its planned place where nobody surveyed it.
fn built(shaft: &Shaft<'_, '_>) -> Option<Place> {
    let place = planned(shaft)?;
    let off = offset(shaft).unwrap_or(Place { east: 0.0, north: 0.0 });
    Some(Place { east: place.east + off.east, north: place.north + off.north })
}

/// A step in the outline that is smaller is left out, metres of radius: solid modellers lose their hold on it. Ours.
const LEAST_STEP: f64 = 0.0005;

/// The outline from the bottom up, cut where a stretch has no estimate.
fn whole_lines(widths: &[Width], frame: Frame) -> Vec<Vec<[f64; 2]>> {
    let mut lines: Vec<Vec<Disc>> = Vec::new();
    for width in widths {
        let along = frame.stretch(width.bottom, width.top);
        let disc = Disc { radius: radius(width.estimate), low: along.low, high: along.high };
        match lines.last_mut().filter(|line| line.last().is_some_and(|below| below.high == disc.low)) {
            Some(line) => add(line, disc),
            None => lines.push(vec![disc]),
        }
    }
    let outline = |discs: &Vec<Disc>| {
        discs.iter().flat_map(|disc| [disc.low, disc.high].map(|height| [disc.radius, height])).collect()
    };
    lines.iter().map(outline).collect()
}

/// A stretch of one radius.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Disc {
    radius: f64,
    low: f64,
    high: f64,
}

/// Puts a stretch on those below it; one of nearly the same radius becomes one with it, of the same volume together.
fn add(line: &mut Vec<Disc>, disc: Disc) {
    match line.last_mut().filter(|below| (below.radius - disc.radius).abs() < LEAST_STEP) {
        Some(below) => {
            let volume = |one: &Disc| one.radius * one.radius * (one.high - one.low);
            let together = volume(below) + volume(&disc);
            below.high = disc.high;
            below.radius = (together / (below.high - below.low)).sqrt();
        }
        None => line.push(disc),
    }
}

fn profile_facts(widths: &[Width]) -> Facts {
    let each = |of: fn(&Width) -> f64| widths.iter().map(of).collect::<Vec<f64>>();
    let mut facts = Facts::new("Shaftbook_Profile");
    facts.lengths(
        "Bottom",
        "Lower end of each piece, elevation, from the bottom up.",
        &each(|w| w.bottom.to_meters()),
    );
    facts.lengths("Top", "Upper end of each piece, elevation.", &each(|w| w.top.to_meters()));
    facts.lengths("Diameter", "Circle of the estimated area.", &each(|w| w.estimate.to_meters()));
    facts.lengths("DiameterLow90", "Lower end of the band of 90 %.", &each(|w| w.ends[0].to_meters()));
    facts.lengths("DiameterHigh90", "Upper end of the band of 90 %.", &each(|w| w.ends[1].to_meters()));
    facts
}

fn pour_facts(shaft: &Shaft<'_, '_>, shape: &Shape, lean: Lean) -> Facts {
    let reckoning = &shaft.assessment.reckoning;
    let hole = reckoning.hole.as_ref();
    let last = reckoning.pour.as_ref().and_then(|pour| pour.curve.intervals.last());
    let mut facts = Facts::new("Shaftbook_Pour");
    facts.length("BaseElevation", hole.map(|hole| hole.base.value.to_meters()));
    facts.length("BaseStandardError", hole.map(|hole| hole.base.standard_error.to_meters()));
    facts.length("ConcreteElevation", last.map(|last| last.upper.to_meters()));
    facts.volume("PlacedVolume", last.map(|last| last.cumulative.placed.value.to_cubic_meters()));
    let theoretical = last.and_then(|last| last.cumulative.theoretical);
    facts.volume("TheoreticalVolume", theoretical.map(|volume| volume.value.to_cubic_meters()));
    facts.number("PlacedToTheoretical", last.and_then(|last| last.cumulative.ratio).map(|ratio| ratio.value));
    facts.band("EstimatedToTheoretical", shape.whole.mean, shape.whole.ends);
    facts.flag("PlaceSurveyed", Some(offset(shaft).is_some()));
    facts.length("OffPlaceEast", offset(shaft).map(|off| off.east));
    facts.length("OffPlaceNorth", offset(shaft).map(|off| off.north));
    facts.flag("LeanMeasured", Some(measured_lean(shaft).is_some()));
    facts.number("LeanEast", Some(lean.east));
    facts.number("LeanNorth", Some(lean.north));
    facts
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_step_too_small_to_see_is_left_out_and_no_volume_with_it() {
        let disc = |radius: f64, low: f64| Disc { radius, low, high: low + 1.0 };
        let mut line = vec![disc(0.5, 0.0)];
        add(&mut line, disc(0.5002, 1.0));
        add(&mut line, disc(0.6, 2.0));
        assert_eq!(line.len(), 2);
        assert_eq!((line[0].low, line[0].high), (0.0, 2.0));
        let together = line[0].radius * line[0].radius * 2.0;
        assert!((together - (0.25 + 0.5002 * 0.5002)).abs() < 1e-12, "{together}");
    }
}
