//! The tables of the package as plain cells.

use crate::place::{offset, planned};
use crate::{Job, Shaft, pieces};
use quantity::{Elevation, Length, Volume};
use record::{Held, Record};

/// A table: its file, what it holds, its columns and rows.
pub(super) struct Table {
    pub(super) file: &'static str,
    pub(super) says: &'static str,
    pub(super) columns: &'static [Column],
    /// How many of the first columns tell rows apart.
    pub(super) key: usize,
    pub(super) rows: Vec<Vec<String>>,
}

/// A column.
pub(super) struct Column {
    pub(super) name: &'static str,
    /// A datatype of CSVW.
    pub(super) kind: &'static str,
    pub(super) says: &'static str,
    pub(super) needed: bool,
}

const fn needed(name: &'static str, kind: &'static str, says: &'static str) -> Column {
    Column { name, kind, says, needed: true }
}

const fn maybe(name: &'static str, kind: &'static str, says: &'static str) -> Column {
    Column { name, kind, says, needed: false }
}

impl Table {
    /// Cells separated by commas, lines ended with CR LF, quotation marks where they are needed.
    pub(super) fn csv(&self) -> String {
        let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
        // Writing to memory cannot fail, and every row has as many cells as there are columns.
        let names: Vec<&str> = self.columns.iter().map(|column| column.name).collect();
        writer.write_record(names).expect("memory takes every row");
        self.rows.iter().for_each(|row| writer.write_record(row).expect("memory takes every row"));
        String::from_utf8(writer.into_inner().expect("memory takes every row")).expect("texts are UTF-8")
    }
}

const ENTRY: &[Column] = &[
    needed("id", "string", "SHA-256 of the canonical form, hexadecimal"),
    needed("job", "string", "Key of the job"),
    maybe("shaft", "string", "Shaft; blank: the whole job"),
    needed("device", "string", "Public key of the device, hexadecimal"),
    needed("seq", "integer", "Number on the device"),
    maybe("prev", "string", "Id of the entry before it on the device"),
    maybe("kind", "string", "What it is about; blank: an entry of a newer version"),
    maybe("author", "string", "Who wrote it"),
    needed("observed_at", "dateTime", "When it was seen"),
    maybe("entered_at", "dateTime", "When it was entered on the device"),
    needed("line", "string", "The entry as it was signed: one line of JSON"),
];

const SHAFT: &[Column] = &[
    needed("shaft", "string", "Name"),
    maybe("structure", "string", "What it carries"),
    maybe("easting_m", "double", "Planned centre, in the grid of the job"),
    maybe("northing_m", "double", "Planned centre, in the grid of the job"),
    maybe("off_east_m", "double", "Surveyed centre less the planned one"),
    maybe("off_north_m", "double", "Surveyed centre less the planned one"),
    maybe("ground_m", "double", "Ground, elevation"),
    maybe("top_m", "double", "Top, elevation"),
    maybe("cut_off_m", "double", "Cut-off, elevation"),
    maybe("tip_m", "double", "Tip required, elevation"),
    maybe("least_diameter_m", "double", "Least planned diameter"),
    maybe("theoretical_m3", "double", "Theoretical volume as planned"),
    needed("findings_failing", "integer", "Findings that fail"),
    needed("findings_open", "integer", "of them without a decision"),
];

const CURVE: &[Column] = &[
    needed("shaft", "string", "Name"),
    needed("number", "integer", "Interval, from 1"),
    needed("sounded_at", "dateTime", "When its upper end was sounded"),
    needed("lower_m", "double", "Level before, elevation"),
    needed("upper_m", "double", "Level, elevation"),
    needed("placed_m3", "double", "Placed in the interval"),
    maybe("theoretical_m3", "double", "Theoretical volume of the interval"),
    maybe("ratio", "double", "Placed over theoretical"),
    maybe("ratio_error", "double", "Standard error of the ratio"),
    needed("entry", "string", "Id of the sounding"),
];

const PROFILE: &[Column] = &[
    needed("shaft", "string", "Name"),
    needed("number", "integer", "Piece, from 1 at the bottom"),
    needed("bottom_m", "double", "Lower end, elevation"),
    needed("top_m", "double", "Upper end, elevation"),
    needed("diameter_m", "double", "Circle of the estimated area"),
    needed("low_90_m", "double", "Lower end of the band that holds it with 90 %"),
    needed("high_90_m", "double", "Upper end of that band"),
];

/// Every table of the package, the entries first.
pub(super) fn all(job: &Job<'_, '_>) -> Vec<Table> {
    let of_shafts = |rows: fn(&Shaft<'_, '_>) -> Vec<Vec<String>>| job.shafts.iter().flat_map(rows).collect();
    vec![
        Table {
            file: super::ENTRIES,
            says: "Every entry of the record, in the order of devices and their numbers",
            columns: ENTRY,
            key: 1,
            rows: entries(job.record),
        },
        Table { file: "shafts.csv", says: "Shafts", columns: SHAFT, key: 1, rows: of_shafts(shaft) },
        Table {
            file: "curve.csv",
            says: "Volume curves: an interval for each sounding of the concrete",
            columns: CURVE,
            key: 2,
            rows: of_shafts(curve),
        },
        Table {
            file: "profile.csv",
            says: "Profiles estimated from soundings and tickets; no survey of the hole",
            columns: PROFILE,
            key: 2,
            rows: of_shafts(profile),
        },
    ]
}

/// The lines as the record is written, each with what it says of itself.
fn entries(record: &Record) -> Vec<Vec<String>> {
    let text = wire::write_lines(record);
    let mut held: Vec<&Held> = record.entries().collect();
    held.sort_by_key(|held| (held.place(), held.id()));
    text.lines().zip(held).map(|(line, held)| entry(line, held)).collect()
}

fn entry(line: &str, held: &Held) -> Vec<String> {
    let (device, seq) = held.place();
    let (kind, author, observed, entered) = match held {
        Held::Known(entry) => (
            entry.body.kind().word,
            entry.author.as_str(),
            entry.observed_at,
            Some(entry.entered_at.to_string()),
        ),
        Held::Newer(newer) => ("", "", newer.observed_at, None),
    };
    vec![
        held.id().to_string(),
        held.job().to_owned(),
        held.shaft().unwrap_or_default().to_owned(),
        device.to_string(),
        seq.to_string(),
        held.prev().map(|id| id.to_string()).unwrap_or_default(),
        kind.to_owned(),
        author.to_owned(),
        observed.to_string(),
        entered.unwrap_or_default(),
        line.to_owned(),
    ]
}

/// A number, blank where there is none.
fn number(number: Option<f64>) -> String {
    number.filter(|number| number.is_finite()).map(|number| number.to_string()).unwrap_or_default()
}

fn level(level: Option<Elevation>) -> String {
    number(level.map(Elevation::to_meters))
}

fn shaft(shaft: &Shaft<'_, '_>) -> Vec<Vec<String>> {
    let plan = shaft.assessment.picture.plan.as_ref();
    let bore = plan.and_then(|plan| plan.bore.as_ref().ok());
    let findings = &shaft.assessment.findings;
    let fails = findings.iter().filter(|finding| finding.outcome() == assess::Outcome::Fails).count();
    vec![vec![
        shaft.name.to_owned(),
        plan.map(|plan| plan.shaft.structure.word()).unwrap_or_default().to_owned(),
        number(planned(shaft).map(|place| place.east)),
        number(planned(shaft).map(|place| place.north)),
        number(offset(shaft).map(|place| place.east)),
        number(offset(shaft).map(|place| place.north)),
        level(plan.and_then(|plan| plan.ground)),
        level(plan.map(|plan| plan.top)),
        level(plan.map(|plan| plan.cut_off)),
        level(plan.map(|plan| plan.tip)),
        number(plan.and_then(|plan| plan.diameter).map(Length::to_meters)),
        number(bore.map(|bore| bore.gross().volume().to_cubic_meters())),
        fails.to_string(),
        findings.iter().filter(|finding| finding.is_open()).count().to_string(),
    ]]
}

fn curve(shaft: &Shaft<'_, '_>) -> Vec<Vec<String>> {
    let Some(pour) = &shaft.assessment.reckoning.pour else { return Vec::new() };
    let volume = |volume: Volume| number(Some(volume.to_cubic_meters()));
    let each = pour.curve.intervals.iter().zip(&pour.soundings).enumerate();
    let rows = each.map(|(at, (one, sounding))| {
        vec![
            shaft.name.to_owned(),
            (at + 1).to_string(),
            sounding.at.to_string(),
            level(Some(one.lower)),
            level(Some(one.upper)),
            volume(one.placed.value),
            one.theoretical.map(|theoretical| volume(theoretical.value)).unwrap_or_default(),
            number(one.ratio.map(|ratio| ratio.value)),
            number(one.ratio.map(|ratio| ratio.standard_error)),
            sounding.entry.to_string(),
        ]
    });
    rows.collect()
}

fn profile(shaft: &Shaft<'_, '_>) -> Vec<Vec<String>> {
    let pieces = pieces(shaft);
    let rows = pieces.iter().enumerate().map(|(at, piece)| {
        let [low, high] = piece.ends;
        let diameters = [piece.estimate, low, high].map(|length| number(Some(length.to_meters())));
        let ends = [piece.bottom, piece.top].map(|end| level(Some(end)));
        [vec![shaft.name.to_owned(), (at + 1).to_string()], ends.to_vec(), diameters.to_vec()].concat()
    });
    rows.collect()
}
