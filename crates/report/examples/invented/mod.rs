//! An invented shaft and an invented job, for looking at pages. No person, company or place of it exists.

// Each example and test uses its own part of this.
#![allow(dead_code)]

pub(crate) mod logs;
pub(crate) mod pictures;
pub(crate) mod summary;

use quantity::Moment;
use report::*;

pub(crate) fn fonts() -> Fonts {
    Fonts::house()
}

pub(crate) fn made() -> Moment {
    Moment::parse("2026-05-14T18:20:00-06:00").expect("a moment")
}

/// A shaft with trouble: every kind of mark, finding and list appears.
pub(crate) fn package(paper: Paper) -> ReportInput {
    ReportInput {
        paper,
        made: made(),
        heading: heading("B2-3", "Bent 2, third shaft from the left"),
        verdict: verdict(),
        sheet: pictures::sheet(),
        leading: leading(),
        findings: findings(),
        forecasts: forecasts(),
        plan: plan(),
        logs: logs::all(paper == Paper::A4),
        drawings: pictures::all(),
        corrections: corrections(),
        disputes: disputes(),
        questions: questions(),
        photos: photos(),
        sources: sources(),
        cautions: cautions(),
        signatures: signatures(),
        digest: digest(),
    }
}

/// A shaft of which nothing is recorded.
pub(crate) fn bare(paper: Paper) -> ReportInput {
    ReportInput {
        leading: Vec::new(),
        findings: Vec::new(),
        forecasts: Vec::new(),
        plan: Vec::new(),
        logs: Vec::new(),
        drawings: Vec::new(),
        corrections: Vec::new(),
        disputes: Vec::new(),
        questions: Vec::new(),
        photos: Vec::new(),
        sources: Vec::new(),
        cautions: Vec::new(),
        signatures: Vec::new(),
        ..package(paper)
    }
}

pub(crate) fn heading(shaft: &str, structure: &str) -> Heading {
    Heading {
        job: "Juniper Wash overcrossing".into(),
        shaft: shaft.into(),
        structure: structure.into(),
        owner: "County of Example, road office".into(),
        contractor: "Invented Drilling".into(),
        inspector: "R. Vale, T. Ochoa".into(),
        dates: "2026-05-13 to 2026-05-14".into(),
        criteria: "Small roadside shafts, common practice, edition 1".into(),
        judged_at: "2026-05-14 18:05".into(),
        made_by: "Shaftbook 0.1.0".into(),
    }
}

fn verdict() -> Verdict {
    Verdict {
        standing: Standing::Fails,
        sentence: "Two criteria fail, one of them answered by the engineer; three need attention; \
                   four were not measured."
            .into(),
        counts: Counts { fails: 2, needs_attention: 3, not_measured: 4, meets: 27, no_limit: 2 },
    }
}

fn leading() -> Vec<String> {
    [
        "Tremie embedment fell to 3.1 ft at 11:42, 6.9 ft under the least embedment of 10 ft; the pour went \
         on after the pipe was lowered at 11:47.",
        "Sand content of the fluid 2 ft above the bottom was 6.5 % at 07:55, limit 4 %; the re-test at 08:50 \
         read 2.0 %.",
        "Between 31.5 ft and 36.0 ft the shaft took 1.62 times its theoretical volume (± 0.21): a sand seam \
         gives way there.",
        "Between 22.0 ft and 26.5 ft it took 0.71 (± 0.18): a neck of up to 4 in cannot be ruled out.",
        "Slump life of the oldest concrete ended at 13:05, eleven minutes before the casing was out.",
        "Two readings of load 6 are in dispute; nobody has decided between them.",
    ]
    .map(String::from)
    .to_vec()
}

fn findings() -> Vec<Finding> {
    use Certainty::*;
    use Standing::*;
    let all = [
        (
            Fails,
            "Tremie embedment, least while concrete is placed",
            "tremie_embedment",
            "at least 10 ft",
            "FHWA-GEC-10, 9.4",
            FromMemory,
            "3.1 ft",
            "6.9 ft short",
            "Pipe lowered 5 ft at 11:47; engineer: core the depth 30 to 40 ft (N. Imai, 2026-05-14 17:30)",
            "tablet 1 no. 88, 91, 93",
        ),
        (
            Fails,
            "Sand content before concrete, near the bottom",
            "fluid_sand_before_concrete",
            "at most 4 %",
            "small roadside shafts",
            CommonPractice,
            "6.5 %",
            "2.5 % over",
            "Circulated 50 min, re-test 2.0 % at 08:50",
            "tablet 1 no. 47, 52",
        ),
        (
            NeedsAttention,
            "Concrete taken between two soundings, against this shaft's own ratio",
            "interval_ratio",
            "",
            "",
            SetByJob,
            "0.71 ± 0.18",
            "",
            "",
            "tablet 1 no. 79, 82",
        ),
        (
            NeedsAttention,
            "Slump of the oldest concrete when the casing is out",
            "slump_life",
            "at least 5 in",
            "small roadside shafts",
            CommonPractice,
            "4.75 in (estimated)",
            "1/4 in short",
            "Casing out at 13:16 without lifting the cage",
            "tablet 1 no. 101, 102",
        ),
        (
            NeedsAttention,
            "Delivered volume of load 6",
            "ticket_volume",
            "",
            "",
            Read,
            "9.0 or 8.0 yd³",
            "",
            "In dispute",
            "tablet 1 no. 84, tablet 2 no. 12, 13",
        ),
        (
            NotMeasured,
            "Viscosity of the fluid in the tank",
            "fluid_viscosity_tank",
            "32 to 60 s/qt",
            "small roadside shafts",
            CommonPractice,
            "",
            "",
            "",
            "",
        ),
        (
            NotMeasured,
            "Plumbness of the hole",
            "plumbness",
            "at most 1/4 in/ft",
            "FHWA-GEC-10, 7.7",
            FromMemory,
            "",
            "",
            "",
            "",
        ),
        (
            NotMeasured,
            "Cylinder strength at 28 days",
            "strength_28",
            "at least 4,000 psi",
            "contract drawing S-4",
            Read,
            "",
            "",
            "Breaks due 2026-06-11",
            "",
        ),
        (
            NotMeasured,
            "Water in access tubes after concrete",
            "tube_water_after",
            "full",
            "small roadside shafts",
            CommonPractice,
            "",
            "",
            "",
            "",
        ),
    ];
    let meets = [
        (
            "Sediment over the bottom, thickest place",
            "sediment_worst",
            "at most 1 in",
            "3/4 in",
            "1/4 in inside",
        ),
        ("First 4 ft dug by hand", "hand_dug", "4 ft", "5 ft", "1 ft inside"),
        ("Surface casing above ground", "casing_above", "at least 1 ft", "1.5 ft", "0.5 ft inside"),
        ("Surface casing below ground", "casing_below", "at least 5 ft", "8 ft", "3 ft inside"),
        ("Every intersection of the cage tied", "cage_ties", "every one", "every one", ""),
        ("Tubes filled and capped before concrete", "tubes_filled", "4 of 4", "4 of 4", ""),
        (
            "Discharge end above the bottom at the start",
            "tremie_start",
            "at most 6 in",
            "4 in",
            "2 in inside",
        ),
        (
            "Density of the fluid before concrete",
            "fluid_density",
            "64.3 to 69.1 lb/ft³",
            "66.0 lb/ft³",
            "1.7 lb/ft³ inside",
        ),
        ("pH of the fluid", "fluid_ph", "8 to 11", "9.5", "1.5 inside"),
        ("Slump at arrival, lowest of all loads", "slump_arrival", "7 to 9 in", "7 1/2 in", "1/2 in inside"),
        ("Batch to discharge, longest", "batch_discharge", "at most 90 min", "74 min", "16 min inside"),
        ("Final depth against plan", "depth_final", "at least 60.0 ft", "60.4 ft", "0.4 ft inside"),
    ];
    let row = |(standing, criterion, id, limit, source, certainty, value, margin, done, evidence): (
        Standing,
        &str,
        &str,
        &str,
        &str,
        Certainty,
        &str,
        &str,
        &str,
        &str,
    )| Finding {
        standing,
        criterion: criterion.into(),
        id: id.into(),
        limit: limit.into(),
        source: source.into(),
        certainty,
        value: value.into(),
        margin: margin.into(),
        done: done.into(),
        evidence: evidence.into(),
    };
    let met = meets.into_iter().map(|(criterion, id, limit, value, margin)| {
        row((
            Meets,
            criterion,
            id,
            limit,
            "small roadside shafts",
            CommonPractice,
            value,
            margin,
            "",
            "tablet 1 no. 31",
        ))
    });
    all.into_iter()
        .map(row)
        .chain(met)
        .chain([row((
            NoLimit,
            "Time the hole stood open",
            "open_hole",
            "",
            "",
            SetByJob,
            "26.4 h",
            "",
            "",
            "tablet 1 no. 9, 70",
        ))])
        .collect()
}

fn forecasts() -> Vec<Forecast> {
    let forecast = |standing, what: &str, when: &str, because: &str| Forecast {
        standing,
        what: what.into(),
        when: when.into(),
        because: because.into(),
    };
    vec![
        forecast(
            Standing::Fails,
            "Slump of the oldest concrete under 5 in",
            "13:05 (± 10 min)",
            "trial mix loses 1 in in 45 min; load 1 read 7 1/2 in at 10:05",
        ),
        forecast(
            Standing::NeedsAttention,
            "Embedment under 10 ft if one more pipe comes off",
            "next pipe",
            "tip at 38.2 ft, concrete at 24.0 ft (± 0.3 ft), pipe 10 ft",
        ),
        forecast(
            Standing::NotMeasured,
            "Concrete still to order",
            "6.4 yd³ (± 1.1)",
            "this shaft took 1.13 of theoretical so far",
        ),
    ]
}

fn plan() -> Vec<FactGroup> {
    let group = |title: &str, facts: &[(&str, &str)]| FactGroup {
        title: title.into(),
        facts: facts.iter().map(|(label, value)| Fact::new(*label, *value)).collect(),
    };
    vec![
        group(
            "Place",
            &[
                ("Station and offset", "12+40.5, 18.0 ft left"),
                ("Ground elevation", "4,512.6 ft"),
                ("Datum", "job bench mark 3"),
                ("Groundwater", "14.0 ft down, 2026-05-13"),
            ],
        ),
        group(
            "Hole",
            &[
                ("Diameter", "48 in"),
                ("Top of concrete", "4,511.0 ft"),
                ("Tip elevation", "4,452.6 ft"),
                ("Rock socket", "n/a"),
                ("Method", "under polymer fluid"),
            ],
        ),
        group(
            "Cage",
            &[
                ("Long bars", "16 no. 10"),
                ("Hoops", "no. 5 at 6 in"),
                ("Outside diameter", "42 in"),
                ("Cover", "3 in"),
                ("Access tubes", "4, steel, 2 in"),
            ],
        ),
        group(
            "Concrete",
            &[
                ("Mix", "S-40 slump 8 in"),
                ("Largest w/cm", "0.45"),
                ("Slump-loss trial", "8 in to 5 in in 135 min"),
                ("Strength", "4,000 psi at 28 days"),
            ],
        ),
        group(
            "People",
            &[
                ("Inspector", "R. Vale"),
                ("Second inspector", "T. Ochoa"),
                ("Foreman", ""),
                ("Engineer", "N. Imai"),
            ],
        ),
    ]
}

fn corrections() -> Vec<Correction> {
    vec![
        Correction {
            what: "Excavation run 7 · tablet 1 no. 24".into(),
            was: "out at 27.5 ft".into(),
            is: "out at 25.7 ft".into(),
            by: "R. Vale, 2026-05-13 14:22".into(),
            why: "Digits turned round; kelly mark read again".into(),
        },
        Correction {
            what: "Load 3 · tablet 1 no. 74".into(),
            was: "ticket 90214".into(),
            is: "ticket 90241".into(),
            by: "R. Vale, 10:58".into(),
            why: "Read from the paper ticket".into(),
        },
    ]
}

fn disputes() -> Vec<Dispute> {
    vec![Dispute {
        what: "Load 6, delivered · tablet 1 no. 84".into(),
        candidates: vec![
            "9.0 yd³ – R. Vale, 11:31, from the ticket".into(),
            "8.0 yd³ – T. Ochoa, 11:50, one yard left in the drum".into(),
        ],
        closed: String::new(),
    }]
}

fn questions() -> Vec<Question> {
    vec![
        Question { about: "Sounding 11:20".into(), asked: "Concrete went down from 33.9 ft to 34.6 ft while load 5 went in. Is 34.6 ft what the tape read?".into(), answered: "Yes, read twice (R. Vale, 11:23)".into() },
        Question { about: "Load 8".into(), asked: "Discharge began 12:04, before arrival at 12:06. Which time is right?".into(), answered: String::new() },
    ]
}

fn photos() -> Vec<Photo> {
    let photo = |taken: &str, shows: &str, file: &str, digest: &str| Photo {
        taken: taken.into(),
        shows: shows.into(),
        file: file.into(),
        digest: digest.into(),
    };
    vec![
        photo(
            "2026-05-13 09:12",
            "Sand seam on the auger, 32 ft",
            "IMG_0113.jpg",
            "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08",
        ),
        photo(
            "2026-05-14 08:10",
            "Cage at the hole, spacers seen from above",
            "IMG_0140.jpg",
            "60303ae22b998861bce3b28f33eec1be758a213c86c93c076dbe9f558c11c752",
        ),
        photo(
            "",
            "Top of concrete after trimming",
            "",
            "fd61a03af4f77d870fc21e05e7e80678095c92d808cfb3b5c279ee04c74aca13",
        ),
    ]
}

fn sources() -> Vec<SourceOfLimit> {
    let source = |key: &str, document: &str, certainty, used: &str| SourceOfLimit {
        key: key.into(),
        document: document.into(),
        certainty,
        used: used.into(),
    };
    vec![
        source(
            "small roadside shafts",
            "Common practice of small roadside shafts, as practitioners state it; criteria file small-roadside-1",
            Certainty::CommonPractice,
            "24 limits",
        ),
        source("FHWA-GEC-10", "FHWA-NHI-18-024, Drilled Shafts (2018)", Certainty::FromMemory, "2 limits"),
        source(
            "contract drawing S-4",
            "Drawing S-4, revision 2, of this contract",
            Certainty::Read,
            "1 limit",
        ),
        source(
            "job",
            "Set for this job: least ratio of an interval against the running ratio, reason: sand expected",
            Certainty::SetByJob,
            "1 limit",
        ),
    ]
}

fn cautions() -> Vec<Caution> {
    let caution = |danger: &str, text: &str| Caution { danger: danger.into(), text: text.into() };
    vec![
        caution(
            "Open hole",
            "Cover or guard it whenever nobody works at it. Nobody enters a shaft. Local law and the contractor's safety plan govern.",
        ),
        caution("Overhead lines", "Keep the distance local law asks for from booms, kelly bars and cages."),
        caution("Cage lifts", "Stand clear of a hanging cage; the lift plan is the contractor's."),
        caution(
            "Hoses under pressure",
            "A pump line can whip; stay away from its free end while it is primed or blown out.",
        ),
        caution("Wet concrete", "Burns skin and eyes; wash at once."),
    ]
}

pub(crate) fn signatures() -> Vec<Signature> {
    vec![
        Signature {
            role: "Inspector".into(),
            name: "R. Vale".into(),
            sealed: Some(Sealed {
                at: "2026-05-14 18:02".into(),
                key: "ed25519 7c1f 09aa 52e4 b310".into(),
                over: "Signs the 118 entries of this record up to 18:01; the signature verifies.".into(),
            }),
        },
        Signature { role: "Contractor's quality staff".into(), name: String::new(), sealed: None },
        Signature { role: "Engineer".into(), name: "N. Imai".into(), sealed: None },
    ]
}

pub(crate) fn digest() -> RecordDigest {
    RecordDigest {
        sha256: "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855".into(),
        covers: "118 entries of 2 devices.".into(),
        how_to_check: "SHA-256 over the ids of all entries in order, one a line. The script in the documentation of the record format checks it in thirty lines.".into(),
        checked: "Every entry carries a valid signature and every chain is unbroken.".into(),
    }
}
