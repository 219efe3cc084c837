//! Offers of what was written the last time: the same tool, plant, tester, casing.
//!
//! Never: offer a reading; only what stays the same from one entry to the next.

use super::{Offer, Source};
use crate::entry::form::typed;
use record::field::{FieldSpec, Shape};
use record::{Line, Value};

/// Fields that are usually the same as in the last entry of the same kind.
const SAME: &[(&str, &[&str])] = &[
    ("drilling_started", &["rig", "operator"]),
    ("tool_run", &["tool", "diameter", "ground", "material"]),
    ("fluid_introduced", &["product", "fluid", "batch", "water"]),
    ("fluid_test", &["place", "stage", "by"]),
    ("fluid_level", &["groundwater"]),
    ("inflow_measured", &["over"]),
    ("instrument_checked", &["by"]),
    ("equipment_checked", &["as_approved"]),
    ("cleaning", &["method"]),
    ("bottom_sounded", &["purpose", "reference", "tape_correction"]),
    ("sediment_measured", &["method"]),
    ("plumb_measured", &["method"]),
    ("bore_measured", &["method"]),
    ("concrete_sounded", &["reference", "tape_correction"]),
    ("load_arrived", &["plant", "mix", "volume", "water_allowed", "discharge_within", "admixtures"]),
    ("concrete_test", &["by"]),
    ("water_added", &["by"]),
    ("cylinders_made", &["count", "size", "storage"]),
    ("cylinder_broken", &["set", "age"]),
    ("curing", &["method"]),
    ("temperature_read", &["sensor"]),
    ("person_named", &["organization"]),
    ("signed", &["name", "role"]),
    ("notice_given", &["to", "how"]),
    ("finding_disposed", &["by"]),
];

/// What stood in a field the last time.
pub(super) fn offer(kind: &str, field: &FieldSpec, source: &Source<'_, '_>) -> Option<Offer> {
    let row = SAME.iter().find(|row| row.0 == kind)?;
    if !row.1.contains(&field.name) {
        return None;
    }
    let of_kind = |line: &&Line<'_>| line.stands() && line.body.kind().word == kind;
    let mut lines = source.log.lines.iter().rev().filter(of_kind);
    let (line, text) = lines.find_map(|line| Some((line, text_of(line, field, source)?)))?;
    Some(Offer::one(field.name, text, format!("as at {}", source.show.moment(line.at))))
}

fn text_of(line: &Line<'_>, field: &FieldSpec, source: &Source<'_, '_>) -> Option<String> {
    match (line.body.to_group().get(field.name)?, (field.shape)()) {
        (Value::Text(stored), Shape::Quantity(kind, scale)) => {
            Some(typed(stored, kind, scale, source.show.defaults()))
        }
        (Value::Text(text), _) => Some(text.clone()),
        (Value::Flag(flag), _) => Some(if *flag { "yes" } else { "no" }.to_owned()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::SAME;
    use record::kinds::kind_of;

    #[test]
    fn every_row_names_fields_of_a_kind() {
        for (word, fields) in SAME {
            let kind = kind_of(word).unwrap_or_else(|| panic!("{word} is no kind"));
            for name in *fields {
                assert!(kind.fields.iter().any(|field| field.name == *name), "{word} has no {name}");
            }
        }
    }
}
