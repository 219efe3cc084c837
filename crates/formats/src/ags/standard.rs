//! The groups of the standard.

use super::group::{Group, Table, maybe, number, of};
use super::rows::{day, level};
use super::table;
use crate::layer::layers;
use crate::place::{epsg, planned};
use crate::{Job, Shaft};
use quantity::Elevation;
use record::choices::Ground;
use std::collections::BTreeSet;

const PROJ: Group = Group {
    name: "PROJ",
    says: "",
    headings: &[
        of("PROJ_ID", "ID", ""),
        of("PROJ_NAME", "X", ""),
        of("PROJ_LOC", "X", ""),
        of("PROJ_CLNT", "X", ""),
        of("PROJ_CONT", "X", ""),
        of("PROJ_ENG", "X", ""),
        of("PROJ_MEMO", "X", ""),
    ],
};

const TRAN: Group = Group {
    name: "TRAN",
    says: "",
    headings: &[
        of("TRAN_ISNO", "X", ""),
        of("TRAN_DATE", "DT", "yyyy-mm-dd"),
        of("TRAN_PROD", "X", ""),
        of("TRAN_STAT", "X", ""),
        of("TRAN_DESC", "X", ""),
        of("TRAN_AGS", "X", ""),
        of("TRAN_RECV", "X", ""),
        of("TRAN_DLIM", "X", ""),
        of("TRAN_RCON", "X", ""),
        of("TRAN_REM", "X", ""),
    ],
};

/// The dictionary of groups of our own.
pub(super) const DICT: Group = Group {
    name: "DICT",
    says: "",
    headings: &[
        of("DICT_TYPE", "PA", ""),
        of("DICT_GRP", "X", ""),
        of("DICT_HDNG", "X", ""),
        of("DICT_STAT", "PA", ""),
        of("DICT_DTYP", "PT", ""),
        of("DICT_DESC", "X", ""),
        of("DICT_UNIT", "PU", ""),
        of("DICT_EXMP", "X", ""),
        of("DICT_PGRP", "X", ""),
    ],
};

const LOCA: Group = Group {
    name: "LOCA",
    says: "",
    headings: &[
        of("LOCA_ID", "ID", ""),
        of("LOCA_TYPE", "PA", ""),
        of("LOCA_NATE", "2DP", "m"),
        of("LOCA_NATN", "2DP", "m"),
        of("LOCA_GREF", "PA", ""),
        of("LOCA_GL", "2DP", "m"),
        of("LOCA_REM", "X", ""),
        of("LOCA_FDEP", "2DP", "m"),
        of("LOCA_STAR", "DT", "yyyy-mm-dd"),
        of("LOCA_PURP", "X", ""),
        of("LOCA_ENDD", "DT", "yyyy-mm-dd"),
        of("LOCA_LOCX", "2DP", "m"),
        of("LOCA_LOCY", "2DP", "m"),
        of("LOCA_LREF", "X", ""),
        of("LOCA_DATM", "X", ""),
        of("LOCA_CNGE", "X", ""),
    ],
};

const GEOL: Group = Group {
    name: "GEOL",
    says: "",
    headings: &[
        of("LOCA_ID", "ID", ""),
        of("GEOL_TOP", "2DP", "m"),
        of("GEOL_BASE", "2DP", "m"),
        of("GEOL_DESC", "X", ""),
        of("GEOL_LEG", "PA", ""),
        of("GEOL_REM", "X", ""),
    ],
};

const ABBR: Group = Group {
    name: "ABBR",
    says: "",
    headings: &[of("ABBR_HDNG", "X", ""), of("ABBR_CODE", "X", ""), of("ABBR_DESC", "X", "")],
};

const UNIT: Group =
    Group { name: "UNIT", says: "", headings: &[of("UNIT_UNIT", "X", ""), of("UNIT_DESC", "X", "")] };

const TYPE: Group =
    Group { name: "TYPE", says: "", headings: &[of("TYPE_TYPE", "X", ""), of("TYPE_DESC", "X", "")] };

/// Words of `PA` headings that we use, with what they mean; the legend codes are those of the standard's list.
const WORDS: &[[&str; 3]] = &[
    ["LOCA_TYPE", "BPIL", "Bored pile (drilled shaft)"],
    ["DICT_TYPE", "GROUP", "Flag to indicate definition is a GROUP"],
    ["DICT_TYPE", "HEADING", "Flag to indicate definition is a HEADING"],
    ["DICT_STAT", "KEY", "Key field"],
    ["DICT_STAT", "OTHER", "Other field"],
    ["GEOL_LEG", "101", "TOPSOIL"],
    ["GEOL_LEG", "102", "MADE GROUND"],
    ["GEOL_LEG", "201", "CLAY"],
    ["GEOL_LEG", "301", "SILT"],
    ["GEOL_LEG", "401", "SAND"],
    ["GEOL_LEG", "501", "GRAVEL"],
    ["GEOL_LEG", "730", "BOULDERS"],
];

const UNITS: &[[&str; 2]] = &[
    ["m", "metre"],
    ["mm", "millimetre"],
    ["m3", "cubic metre"],
    ["kg/m3", "kilogram per cubic metre"],
    ["s", "second"],
    ["%", "percentage"],
    ["DegC", "degree Celsius"],
    ["yyyy-mm-dd", "year month day"],
    ["yyyy-mm-ddThh:mm:ss", "year month day, hours minutes seconds on the clock of the site"],
];

const TYPES: &[[&str; 2]] = &[
    ["ID", "Unique identifier"],
    ["X", "Text"],
    ["PA", "Text listed in ABBR group"],
    ["PT", "Text listed in TYPE group"],
    ["PU", "Text listed in UNIT group"],
    ["DT", "Date time in international format"],
    ["YN", "Yes or No"],
    ["0DP", "Value with zero decimal places"],
    ["1DP", "Value with one decimal place"],
    ["2DP", "Value with two decimal places"],
    ["3DP", "Value with three decimal places"],
];

/// Project and transmission.
pub(super) fn head(job: &Job<'_, '_>) -> Vec<Table> {
    let opened = job.opened();
    let rehearsal = opened.and_then(|job| job.rehearsal) == Some(true);
    let memo = if rehearsal { "Made up for practice; no part of a real record." } else { "" };
    let project = vec![
        job.key().to_owned(),
        maybe(opened.map(|job| job.name.as_str())),
        maybe(opened.and_then(|job| job.location.as_deref())),
        maybe(opened.and_then(|job| job.owner.as_deref())),
        maybe(opened.and_then(|job| job.contractor.as_deref())),
        maybe(opened.and_then(|job| job.engineer.as_deref())),
        memo.to_owned(),
    ];
    let receiver = opened.and_then(|job| job.engineer.as_deref().or(job.owner.as_deref()));
    let transmission = vec![
        "1".to_owned(),
        day(job.as_of()),
        job.program.to_owned(),
        "As recorded".to_owned(),
        format!("Bored piles; {} entries, digest of the record {}", job.record.len(), job.digest()),
        "4.1.1".to_owned(),
        receiver.unwrap_or("Not named").to_owned(),
        "|".to_owned(),
        "+".to_owned(),
        "Letters outside ASCII are written as their nearest; the record has them. A blank was not recorded."
            .to_owned(),
    ];
    vec![table(&PROJ, vec![project]), table(&TRAN, vec![transmission])]
}

/// A location for each shaft.
pub(super) fn locations(job: &Job<'_, '_>) -> Table {
    table(&LOCA, job.shafts.iter().map(|shaft| location(job, shaft)).collect())
}

fn location(job: &Job<'_, '_>, shaft: &Shaft<'_, '_>) -> Vec<String> {
    let opened = job.opened();
    let picture = &shaft.assessment.picture;
    let plan = picture.plan.as_ref();
    let place = planned(shaft);
    let [east, north] = [place.map(|place| place.east), place.map(|place| place.north)];
    let grid = opened.and_then(|job| job.grid.as_deref());
    let number = epsg(opened).filter(|_| place.is_some()).map(|number| format!("EPSG:{number}"));
    let national = |coordinate: Option<f64>| number.as_ref().and(coordinate);
    let local = |coordinate: Option<f64>| if number.is_some() { None } else { coordinate };
    let own = place.is_some() && number.is_none();
    vec![
        shaft.name.to_owned(),
        "BPIL".to_owned(),
        self::number(national(east), 2),
        self::number(national(north), 2),
        maybe(number.as_deref()),
        level(plan.and_then(|plan| plan.ground), 2),
        maybe(plan.and_then(|plan| plan.shaft.structure_name.as_deref())),
        self::number(depth_reached(shaft), 2),
        picture.hole.first().map(|step| day(step.from)).unwrap_or_default(),
        maybe(plan.map(|plan| plan.shaft.structure.word())),
        picture.hole.last().map(|step| day(step.at)).unwrap_or_default(),
        self::number(local(east), 2),
        self::number(local(north), 2),
        maybe(grid.filter(|_| own)),
        maybe(opened.and_then(|job| job.datum.as_deref())),
        maybe(plan.and_then(|plan| plan.shaft.station.as_deref())),
    ]
}

/// What depths are counted from: ground, else the planned top.
fn zero(shaft: &Shaft<'_, '_>) -> Option<Elevation> {
    let plan = shaft.assessment.picture.plan.as_ref()?;
    Some(plan.ground.unwrap_or(plan.top))
}

/// Blank while nothing was drilled: the planned tip is no depth reached.
fn depth_reached(shaft: &Shaft<'_, '_>) -> Option<f64> {
    let plan = shaft.assessment.picture.plan.as_ref()?;
    let hole = shaft.assessment.reckoning.hole.as_ref()?;
    let reached = hole.base_from != [plan.entry];
    reached.then(|| zero(shaft).map(|zero| zero.above(hole.base.value).to_meters()))?
}

/// The layers that were met.
pub(super) fn ground(job: &Job<'_, '_>) -> Option<Table> {
    let rows = job.shafts.iter().flat_map(|shaft| {
        let zero = zero(shaft);
        let met = layers(shaft).into_iter().filter(|layer| layer.met);
        met.filter_map(move |layer| {
            let depth = |level: Elevation| zero.map(|zero| number(Some(zero.above(level).to_meters()), 2));
            let words = layer.words();
            let entry = format!("Entry {}", layer.entry);
            let legend = legend(layer.ground).to_owned();
            Some(vec![shaft.name.to_owned(), depth(layer.top)?, depth(layer.bottom)?, words, legend, entry])
        })
    });
    let rows: Vec<Vec<String>> = rows.collect();
    (!rows.is_empty()).then(|| table(&GEOL, rows))
}

/// Rock has no code in the standard's list that does not say which; it is left blank.
fn legend(ground: Ground) -> &'static str {
    match ground {
        Ground::Organic => "101",
        Ground::Fill => "102",
        Ground::Clay => "201",
        Ground::Silt => "301",
        Ground::Sand => "401",
        Ground::Gravel => "501",
        Ground::Boulders => "730",
        Ground::WeatheredRock | Ground::Rock | Ground::Other => "",
    }
}

/// The words of `PA` headings that are used.
pub(super) fn abbreviations(tables: &[Table]) -> Table {
    let used: BTreeSet<(&str, &str)> = cells(tables, "PA").collect();
    let mut rows: Vec<Vec<String>> = WORDS
        .iter()
        .filter(|[heading, word, _]| used.contains(&(heading, word)))
        .map(|row| row.map(str::to_owned).to_vec())
        .collect();
    let grids = used.iter().filter(|(heading, _)| *heading == "LOCA_GREF");
    rows.extend(grids.map(|(heading, word)| {
        vec![(*heading).to_owned(), (*word).to_owned(), "Grid of the EPSG list".to_owned()]
    }));
    table(&ABBR, rows)
}

/// Cells of one type that are not blank, with their headings.
fn cells<'t>(tables: &'t [Table], kind: &'static str) -> impl Iterator<Item = (&'t str, &'t str)> {
    tables.iter().flat_map(move |table| {
        let places = table.group.headings.iter().enumerate().filter(move |(_, heading)| heading.kind == kind);
        places.flat_map(move |(at, heading)| {
            let filled = table.rows.iter().map(move |row| (heading.name, row[at].as_str()));
            filled.filter(|(_, cell)| !cell.is_empty())
        })
    })
}

/// The units that are used.
pub(super) fn units(tables: &[Table]) -> Table {
    let headings = tables.iter().flat_map(|table| table.group.headings).map(|heading| heading.unit);
    let used: BTreeSet<&str> = headings.chain(cells(tables, "PU").map(|(_, unit)| unit)).collect();
    table(&UNIT, listed(UNITS, &used))
}

/// The types that are used.
pub(super) fn types(tables: &[Table]) -> Table {
    let headings = tables.iter().flat_map(|table| table.group.headings).map(|heading| heading.kind);
    let used: BTreeSet<&str> =
        headings.chain(cells(tables, "PT").map(|(_, kind)| kind)).chain(["X"]).collect();
    table(&TYPE, listed(TYPES, &used))
}

fn listed(rows: &[[&str; 2]], used: &BTreeSet<&str>) -> Vec<Vec<String>> {
    rows.iter().filter(|[word, _]| used.contains(word)).map(|row| row.map(str::to_owned).to_vec()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_unit_and_type_of_our_groups_has_a_meaning() {
        let own = super::super::own::GROUPS.iter().flat_map(|group| group.headings);
        let standard =
            [&PROJ, &TRAN, &DICT, &LOCA, &GEOL, &ABBR].into_iter().flat_map(|group| group.headings);
        for heading in own.chain(standard) {
            assert!(TYPES.iter().any(|[kind, _]| *kind == heading.kind), "{}", heading.name);
            let unit = heading.unit;
            assert!(unit.is_empty() || UNITS.iter().any(|[known, _]| *known == unit), "{}", heading.name);
        }
    }
}
