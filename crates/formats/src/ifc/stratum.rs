//! The layers of the ground, a ring around the hole for each.
//!
//! Never: draw a layer away from where it was seen.

use super::Schema;
use super::facts::Facts;
use super::frame::Frame;
use super::model::{Element, Model, Part};
use super::solid::ring;
use super::step::Value;
use crate::Shaft;
use crate::layer::{Layer, layers};
use crate::place::{planned, planned_lean};
use quantity::Length;

/// The thickness of a ring as a share of the hole's radius: enough to be seen. Ours.
const THICK: f64 = 0.5;

/// A ring for each layer; nothing where the shaft has no plan or nobody wrote of the ground.
pub(super) fn rings(model: &mut Model<'_, '_, '_>, shaft: &Shaft<'_, '_>) {
    let Some(plan) = &shaft.assessment.picture.plan else { return };
    let widest = plan.bore.as_ref().ok().map(|bore| {
        let each = bore.pieces().iter().map(|piece| piece.upper_diameter.max(piece.lower_diameter));
        each.max().unwrap_or(Length::ZERO).to_meters() / 2.0
    });
    let Some(radius) = widest.filter(|radius| *radius > 0.0) else { return };
    let layers = layers(shaft);
    if layers.is_empty() {
        return;
    }
    let frame = Frame::at(model, planned(shaft), plan.cut_off, planned_lean(shaft).unwrap_or_default());
    for (at, layer) in layers.iter().enumerate() {
        let number = format!("layer {}", at + 1);
        let along = frame.stretch(layer.bottom, layer.top);
        let solids = vec![ring(&mut model.step, [radius, radius * (1.0 + THICK)], along)];
        let (entity, last) = entity(model.schema);
        model.element(Element {
            part: Part::Stratum,
            entity,
            id: &[shaft.name, &number],
            name: format!("{} {}", shaft.name, layer.ground.word().replace('_', " ")),
            description: layer.words(),
            object_type: Some("Stratum"),
            frame: frame.placement,
            solids,
            last,
            facts: vec![facts(shaft, layer)],
        });
    }
}

/// IFC 4 has no word for a stratum yet.
fn entity(schema: Schema) -> (&'static str, Vec<Value>) {
    match schema {
        Schema::Ifc43 => ("IFCGEOTECHNICALSTRATUM", vec![Value::Word("SOLID")]),
        Schema::Ifc4 => ("IFCGEOGRAPHICELEMENT", vec![Value::Word("USERDEFINED")]),
    }
}

fn facts(shaft: &Shaft<'_, '_>, layer: &Layer) -> Facts {
    let mut facts = Facts::new("Shaftbook_Stratum");
    facts.text("Shaft", Some(shaft.name));
    facts.text("Ground", Some(layer.ground.word()));
    facts.text("Description", layer.description.as_deref());
    facts.length("TopElevation", Some(layer.top.to_meters()));
    facts.length("BottomElevation", Some(layer.bottom.to_meters()));
    facts.flag("Met", Some(layer.met));
    facts.text("Entry", Some(&layer.entry.to_string()));
    facts
}
