//! Groups of our own, declared in the dictionary of the file.

use super::group::{Group, Table, key, maybe, number, own};
use super::rows::{level, moment};
use super::table;
use crate::{Job, Shaft};
use calc::geometry::Part;
use quantity::{Elevation, Length};
use record::choices::FluidPlace;
use record::kinds::FluidTest;
use wording::words;

const ID: super::group::Heading = key("LOCA_ID", "ID", "Shaft");

const PLAN: Group = Group {
    name: "SBPL",
    says: "Pieces of the planned bore, from the top down",
    headings: &[
        ID,
        key("SBPL_NUM", "0DP", "Number of the piece"),
        own("SBPL_PART", "X", "", "Shaft, socket, bell, toe or casing"),
        own("SBPL_TOP", "3DP", "m", "Upper end, elevation"),
        own("SBPL_BASE", "3DP", "m", "Lower end, elevation"),
        own("SBPL_DTOP", "3DP", "m", "Diameter at the upper end"),
        own("SBPL_DBAS", "3DP", "m", "Diameter at the lower end"),
        own("SBPL_METH", "X", "", "How the hole is kept open"),
        own("SBPL_CUT", "3DP", "m", "Cut-off of the shaft, elevation"),
        own("SBPL_TVOL", "3DP", "m3", "Theoretical volume of the whole bore"),
    ],
};

const EXPECTED: Group = Group {
    name: "SBEX",
    says: "Layers the borings promise, before the hole was drilled",
    headings: &[
        ID,
        key("SBEX_NUM", "0DP", "Number of the layer"),
        own("SBEX_TOP", "3DP", "m", "Upper boundary, elevation"),
        own("SBEX_BASE", "3DP", "m", "Lower boundary, elevation"),
        own("SBEX_DESC", "X", "", "What it is"),
    ],
};

const FLUID: Group = Group {
    name: "SBFT",
    says: "Tests of the drilling fluid",
    headings: &[
        ID,
        key("SBFT_NUM", "0DP", "Number of the test"),
        own("SBFT_TIME", "DT", "yyyy-mm-ddThh:mm:ss", "When"),
        own("SBFT_PLAC", "X", "", "Tank or hole"),
        own("SBFT_DPTH", "2DP", "m", "Depth of the sample below the reference in force"),
        own("SBFT_DENS", "1DP", "kg/m3", "Density"),
        own("SBFT_MRSH", "1DP", "s", "Marsh funnel time"),
        own("SBFT_MVOL", "X", "", "Volume the funnel time is for"),
        own("SBFT_PH", "1DP", "", "pH"),
        own("SBFT_SAND", "2DP", "%", "Sand content by volume"),
        own("SBFT_ENTY", "X", "", "Entry"),
    ],
};

const LOADS: Group = Group {
    name: "SBLD",
    says: "Loads of concrete",
    headings: &[
        ID,
        key("SBLD_NUM", "0DP", "Number of the load"),
        own("SBLD_TICK", "X", "", "Ticket"),
        own("SBLD_VOL", "3DP", "m3", "Volume on the ticket"),
        own("SBLD_RETN", "3DP", "m3", "Volume sent back"),
        own("SBLD_BTCH", "DT", "yyyy-mm-ddThh:mm:ss", "Batched"),
        own("SBLD_ARRV", "DT", "yyyy-mm-ddThh:mm:ss", "Arrived"),
        own("SBLD_STAR", "DT", "yyyy-mm-ddThh:mm:ss", "Discharge begun"),
        own("SBLD_ENDD", "DT", "yyyy-mm-ddThh:mm:ss", "Discharge ended"),
        own("SBLD_REFU", "X", "", "Refused, and why"),
        own("SBLD_ENTY", "X", "", "Entry of its arrival"),
    ],
};

const CURVE: Group = Group {
    name: "SBVC",
    says: "Volume curve: an interval for each sounding of the concrete",
    headings: &[
        ID,
        key("SBVC_NUM", "0DP", "Number of the interval"),
        own("SBVC_TIME", "DT", "yyyy-mm-ddThh:mm:ss", "When it was sounded"),
        own("SBVC_LOW", "3DP", "m", "Level at the sounding before, elevation"),
        own("SBVC_HIGH", "3DP", "m", "Level sounded, elevation"),
        own("SBVC_PLAC", "3DP", "m3", "Placed in the interval"),
        own("SBVC_THEO", "3DP", "m3", "Theoretical volume of the interval"),
        own("SBVC_RATO", "3DP", "", "Placed over theoretical"),
        own("SBVC_RTSE", "3DP", "", "Standard error of the ratio"),
        own("SBVC_CPLC", "3DP", "m3", "Placed so far"),
        own("SBVC_CTHE", "3DP", "m3", "Theoretical volume so far"),
        own("SBVC_CRAT", "3DP", "", "Ratio so far"),
        own("SBVC_ENTY", "X", "", "Entry of the sounding"),
    ],
};

const PROFILE: Group = Group {
    name: "SBEP",
    says: "Profile estimated from soundings and tickets; no survey of the hole",
    headings: &[
        ID,
        key("SBEP_NUM", "0DP", "Number of the piece, from the bottom up"),
        own("SBEP_TOP", "3DP", "m", "Upper end, elevation"),
        own("SBEP_BASE", "3DP", "m", "Lower end, elevation"),
        own("SBEP_DIA", "3DP", "m", "Circle of the estimated area, diameter"),
        own("SBEP_LOW", "3DP", "m", "Lower end of the band that holds it with 90 per cent"),
        own("SBEP_HIGH", "3DP", "m", "Upper end of that band"),
    ],
};

const FINDINGS: Group = Group {
    name: "SBFN",
    says: "Findings: criteria held against the record",
    headings: &[
        ID,
        key("SBFN_NUM", "0DP", "Number of the finding"),
        own("SBFN_CRIT", "X", "", "Criterion"),
        own("SBFN_TITL", "X", "", "What it asks"),
        own("SBFN_OUT", "X", "", "fails, cannot_say, not_measured, meets or no_limit_set"),
        own("SBFN_OPEN", "YN", "", "Fails without a decision"),
    ],
};

#[cfg(test)]
pub(super) const GROUPS: &[&Group] = &[&PLAN, &EXPECTED, &FLUID, &LOADS, &CURVE, &PROFILE, &FINDINGS];

/// A row without the name of its shaft and its number.
type Cells = Vec<String>;

/// Every group of our own with its rows; those without a row are not written.
pub(super) fn tables(job: &Job<'_, '_>) -> Vec<Table> {
    let each = |group: &'static Group, rows: fn(&Shaft<'_, '_>) -> Vec<Cells>| {
        let numbered = job.shafts.iter().flat_map(|shaft| {
            let named = |(at, cells): (usize, Cells)| {
                [vec![shaft.name.to_owned(), (at + 1).to_string()], cells].concat()
            };
            rows(shaft).into_iter().enumerate().map(named).collect::<Vec<Cells>>()
        });
        table(group, numbered.collect())
    };
    vec![
        each(&PLAN, plan),
        each(&EXPECTED, expected),
        each(&FLUID, fluid),
        each(&LOADS, loads),
        each(&CURVE, curve),
        each(&PROFILE, profile),
        each(&FINDINGS, findings),
    ]
}

fn length(length: Length) -> String {
    number(Some(length.to_meters()), 3)
}

fn elevation(elevation: Elevation) -> String {
    level(Some(elevation), 3)
}

fn plan(shaft: &Shaft<'_, '_>) -> Vec<Cells> {
    let Some(plan) = &shaft.assessment.picture.plan else { return Vec::new() };
    let Ok(bore) = &plan.bore else { return Vec::new() };
    let piece = |piece: &calc::geometry::Piece| {
        vec![
            part(piece.part).to_owned(),
            elevation(piece.top),
            elevation(piece.bottom),
            length(piece.upper_diameter),
            length(piece.lower_diameter),
            plan.shaft.method.word().to_owned(),
            elevation(plan.cut_off),
            number(Some(bore.gross().volume().to_cubic_meters()), 3),
        ]
    };
    bore.pieces().iter().map(piece).collect()
}

fn part(part: Part) -> &'static str {
    match part {
        Part::Shaft => "shaft",
        Part::Socket => "socket",
        Part::Bell => "bell",
        Part::Toe => "toe",
        Part::Casing => "casing",
    }
}

fn expected(shaft: &Shaft<'_, '_>) -> Vec<Cells> {
    let promised = crate::layer::expected(shaft);
    promised.iter().map(|layer| vec![elevation(layer.top), elevation(layer.bottom), layer.words()]).collect()
}

fn fluid(shaft: &Shaft<'_, '_>) -> Vec<Cells> {
    let tests = shaft.log.each::<FluidTest>().map(|(line, test)| {
        let funnel = test.viscosity.as_ref().map(|time| time.value());
        vec![
            moment(line.at),
            match test.place {
                FluidPlace::Tank => "tank",
                FluidPlace::Hole => "hole",
            }
            .to_owned(),
            number(test.depth.as_ref().map(|depth| depth.value().to_meters()), 2),
            number(test.density.as_ref().map(|one| one.value().to_kilograms_per_cubic_meter()), 1),
            number(funnel.map(|time| time.to_seconds()), 1),
            maybe(funnel.map(|time| time.basis().symbol)),
            number(test.ph.as_ref().map(|ph| ph.value().to_units()), 1),
            number(test.sand.as_ref().map(|sand| 100.0 * sand.value().to_part()), 2),
            line.entry.id.to_string(),
        ]
    });
    tests.collect()
}

fn loads(shaft: &Shaft<'_, '_>) -> Vec<Cells> {
    let loads = shaft.assessment.picture.loads.iter().map(|load| {
        let at = |at: Option<quantity::Moment>| at.map(moment).unwrap_or_default();
        vec![
            load.ticket.to_owned(),
            number(Some(load.volume.to_cubic_meters()), 3),
            number(Some(load.returned.to_cubic_meters()), 3),
            at(load.batched),
            at(Some(load.arrived)),
            at(load.started),
            at(load.ended),
            maybe(load.refused.map(|(_, why)| why)),
            load.entries.first().map(ToString::to_string).unwrap_or_default(),
        ]
    });
    loads.collect()
}

fn curve(shaft: &Shaft<'_, '_>) -> Vec<Cells> {
    let Some(pour) = &shaft.assessment.reckoning.pour else { return Vec::new() };
    let interval = |(one, sounding): (&calc::curve::Interval, &assess::reckon::PourSounding)| {
        let volume = |volume: quantity::Volume| number(Some(volume.to_cubic_meters()), 3);
        vec![
            moment(sounding.at),
            elevation(one.lower),
            elevation(one.upper),
            volume(one.placed.value),
            one.theoretical.map(|theoretical| volume(theoretical.value)).unwrap_or_default(),
            number(one.ratio.map(|ratio| ratio.value), 3),
            number(one.ratio.map(|ratio| ratio.standard_error), 3),
            volume(one.cumulative.placed.value),
            one.cumulative.theoretical.map(|theoretical| volume(theoretical.value)).unwrap_or_default(),
            number(one.cumulative.ratio.map(|ratio| ratio.value), 3),
            sounding.entry.to_string(),
        ]
    };
    pour.curve.intervals.iter().zip(&pour.soundings).map(interval).collect()
}

fn profile(shaft: &Shaft<'_, '_>) -> Vec<Cells> {
    let pieces = crate::pieces(shaft);
    let piece = |one: &assess::shape::Width| {
        let [low, high] = one.ends;
        vec![elevation(one.top), elevation(one.bottom), length(one.estimate), length(low), length(high)]
    };
    pieces.iter().map(piece).collect()
}

fn findings(shaft: &Shaft<'_, '_>) -> Vec<Cells> {
    let finding = |finding: &assess::Finding| {
        let criterion = finding.criterion.as_ref();
        vec![
            maybe(criterion.map(|criterion| criterion.original.id.as_str())),
            criterion.map_or_else(|| finding.fact.name.to_owned(), |one| one.original.title.clone()),
            words::outcome(finding.outcome()).to_owned(),
            if finding.is_open() { "Y" } else { "N" }.to_owned(),
        ]
    };
    shaft.assessment.findings.iter().map(finding).collect()
}
