//! Headings of a schedule: which field of a planned shaft a column fills.
//!
//! A heading is the field's name, however it is spelt with blanks, hyphens and capitals, or one of the
//! usual words of schedules; a unit in parentheses is the unit of the bare numbers below it.
//!
//! Never: guess from the numbers.

use record::field::FieldSpec;
use record::kinds::{ShaftPlanned, kind_of};
use record::{Group, Shape};
use wording::label;

/// What a column fills.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Fills {
    /// The name of the shaft.
    Shaft,
    /// A field, by its path.
    Field(String),
}

impl Fills {
    /// What it is called on the screen.
    pub(super) fn label(&self) -> String {
        match self {
            Fills::Shaft => "Shaft".to_owned(),
            Fills::Field(path) => label::field_named(path.rsplit('.').next().unwrap_or(path)),
        }
    }
}

/// The usual words of schedules.
const OTHER_WORDS: &[(&str, &str)] = &[
    ("shaft", "shaft"),
    ("shaft_id", "shaft"),
    ("shaft_no", "shaft"),
    ("shaft_number", "shaft"),
    ("shaft_name", "shaft"),
    ("id", "shaft"),
    ("mark", "shaft"),
    ("pile", "shaft"),
    ("pile_no", "shaft"),
    ("foundation", "shaft"),
    ("top_elevation", "top"),
    ("elevation_of_top", "top"),
    ("top_of_shaft", "top"),
    ("top_of_shaft_elevation", "top"),
    ("top_elev", "top"),
    ("top_el", "top"),
    ("tip_elevation", "tip"),
    ("tip_elev", "tip"),
    ("tip_el", "tip"),
    ("bottom_elevation", "tip"),
    ("toe_elevation", "tip"),
    ("toe_level", "tip"),
    ("ground_elevation", "ground"),
    ("ground_elev", "ground"),
    ("ground_level", "ground"),
    ("cut_off_elevation", "cut_off"),
    ("cutoff", "cut_off"),
    ("cutoff_elevation", "cut_off"),
    ("cut_off_level", "cut_off"),
    ("groundwater_elevation", "groundwater"),
    ("water_elevation", "groundwater"),
    ("n", "northing"),
    ("e", "easting"),
    ("north", "northing"),
    ("east", "easting"),
    ("diameter", "bore[0].diameter"),
    ("dia", "bore[0].diameter"),
    ("shaft_diameter", "bore[0].diameter"),
    ("bore_diameter", "bore[0].diameter"),
    ("structure_no", "structure_name"),
    ("structure_number", "structure_name"),
    ("station_and_offset", "station"),
    ("sta", "station"),
    ("concrete_volume", "volume"),
    ("planned_volume", "volume"),
    ("mix_id", "mix"),
    ("batter", "rake"),
];

/// What a heading fills; `None` when it is no heading of a schedule.
pub(super) fn fills(heading: &str) -> Option<Fills> {
    let name = plain(name_and_unit(heading).0);
    let other = OTHER_WORDS.iter().find(|row| row.0 == name).map(|row| row.1);
    match other.unwrap_or(&name) {
        "shaft" => Some(Fills::Shaft),
        path if leads(path) => Some(Fills::Field(path.to_owned())),
        _ => None,
    }
}

/// The unit a heading names in parentheses.
pub(super) fn unit(heading: &str) -> Option<&str> {
    name_and_unit(heading).1
}

/// A bare number with the unit its heading names.
pub(super) fn with_unit(cell: &str, unit: Option<&str>, quantity: bool) -> String {
    let bare = |sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ',' | '-' | '+' | ' ' | '/');
    let cell = cell.trim();
    match unit {
        Some(unit) if quantity && cell.chars().all(bare) => format!("{cell} {unit}"),
        _ => cell.to_owned(),
    }
}

fn name_and_unit(heading: &str) -> (&str, Option<&str>) {
    match heading.trim().strip_suffix(')').and_then(|rest| rest.rsplit_once('(')) {
        Some((name, unit)) if !name.trim().is_empty() => (name, Some(unit.trim())),
        _ => (heading, None),
    }
}

/// `Top Elev.` is `top_elev`.
fn plain(name: &str) -> String {
    let signs =
        name.trim().to_lowercase().replace(|sign: char| !sign.is_alphanumeric() && !"[]".contains(sign), " ");
    signs.split_whitespace().collect::<Vec<_>>().join("_")
}

/// A field that fits into one cell.
fn leads(path: &str) -> bool {
    let fields: &[FieldSpec] = <ShaftPlanned as Group>::FIELDS;
    if path == "bore[0].diameter" {
        return kind_of("shaft_planned").is_some();
    }
    let shape = fields.iter().find(|field| field.name == path).map(|field| (field.shape)());
    shape.is_some_and(|shape| !matches!(shape, Shape::List(_) | Shape::Group(_) | Shape::Body))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(heading: &str, expected: &str) {
        let found = match fills(heading) {
            Some(Fills::Shaft) => "shaft".to_owned(),
            Some(Fills::Field(path)) => path,
            None => String::new(),
        };
        assert_eq!(found, expected, "{heading}");
    }

    #[test]
    fn headings_of_schedules_are_known_however_they_are_spelt() {
        check("Shaft No.", "shaft");
        check("TOP ELEV. (ft)", "top");
        check("Tip Elevation", "tip");
        check("Dia. (in)", "bore[0].diameter");
        check("Cut-off", "cut_off");
        check("structure", "structure");
        check("Remarks", "");
        check("bore", "");
        check("bell", "");
    }

    #[test]
    fn every_usual_word_leads_somewhere() {
        for (word, path) in OTHER_WORDS {
            assert!(*path == "shaft" || leads(path), "{word} leads to {path}");
        }
    }

    #[test]
    fn a_unit_of_the_heading_goes_to_bare_numbers_only() {
        assert_eq!(with_unit(" 48 ", unit("Dia (in)"), true), "48 in");
        assert_eq!(with_unit("4 ft", unit("Dia (in)"), true), "4 ft");
        assert_eq!(with_unit("12+34", unit("Station (ft)"), false), "12+34");
    }
}
