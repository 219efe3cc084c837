//! Plan data, changes, questions, photos, sources, cautions, signatures and digest of the invented shaft.

use report::*;

/// The texts of each line, between bars.
fn lines<const N: usize>(text: &str) -> Vec<[String; N]> {
    let cells = |line: &str| line.split('|').map(|cell| cell.trim().to_owned()).collect::<Vec<_>>();
    let exact = |line| <[String; N]>::try_from(cells(line)).expect("so many texts a line");
    text.trim().lines().map(exact).collect()
}

pub(crate) fn plan() -> Vec<FactGroup> {
    let group = |title: &str, facts: &str| FactGroup {
        title: title.into(),
        facts: lines(facts).into_iter().map(|[label, value]| Fact { label, value }).collect(),
    };
    vec![
        group(
            "Place",
            "Station and offset | 12+40.5, 18.0 ft left
             Ground elevation | 4,512.6 ft
             Datum | job bench mark 3
             Groundwater | 14.0 ft down, 2026-05-13",
        ),
        group(
            "Hole",
            "Diameter | 48 in
             Top of concrete | 4,511.0 ft
             Tip elevation | 4,452.6 ft
             Rock socket | n/a
             Method | under polymer fluid",
        ),
        group(
            "Cage",
            "Long bars | 16 no. 10
             Hoops | no. 5 at 6 in
             Outside diameter | 42 in
             Cover | 3 in
             Access tubes | 4, steel, 2 in",
        ),
        group(
            "Concrete",
            "Mix | S-40 slump 8 in
             Largest w/cm | 0.45
             Slump-loss trial | 8 in to 5 in in 135 min
             Strength | 4,000 psi at 28 days",
        ),
        group(
            "People",
            "Inspector | R. Vale
             Second inspector | T. Ochoa
             Foreman |
             Engineer | N. Imai",
        ),
    ]
}

pub(crate) fn corrections() -> Vec<Correction> {
    let text = "
        Excavation run 7 · tablet 1 no. 24|out at 27.5 ft|out at 25.7 ft|R. Vale, 05-13 14:22|Digits turned
        Load 3 · tablet 1 no. 74|ticket 90214|ticket 90241|R. Vale, 10:58|Read from the paper ticket";
    lines(text).into_iter().map(|[what, was, is, by, why]| Correction { what, was, is, by, why }).collect()
}

pub(crate) fn disputes() -> Vec<Dispute> {
    vec![Dispute {
        what: "Load 6, delivered · tablet 1 no. 84".into(),
        candidates: vec![
            "9.0 yd³ – R. Vale, 11:31, from the ticket".into(),
            "8.0 yd³ – T. Ochoa, 11:50, one yard left in the drum".into(),
        ],
        closed: String::new(),
    }]
}

pub(crate) fn questions() -> Vec<Question> {
    let text = "
        Sounding 11:20|Concrete fell from 33.9 ft to 34.6 ft while load 5 went in. Is it so?|Yes (R. Vale)
        Load 8|Discharge began 12:04, before arrival at 12:06. Which time is right?|";
    lines(text).into_iter().map(|[about, asked, answered]| Question { about, asked, answered }).collect()
}

pub(crate) fn photos() -> Vec<Photo> {
    let photo = |taken: &str, shows: &str, file: &str, digit: &str| Photo {
        taken: taken.into(),
        shows: shows.into(),
        file: file.into(),
        digest: digit.repeat(8),
    };
    vec![
        photo("2026-05-13 09:12", "Sand seam on the auger, 32 ft", "IMG_0113.jpg", "9f86d081"),
        photo("2026-05-14 08:10", "Cage at the hole, spacers seen from above", "IMG_0140.jpg", "60303ae2"),
        photo("", "Top of concrete after trimming", "", "fd61a03a"),
    ]
}

pub(crate) fn sources() -> Vec<SourceOfLimit> {
    let source = |key: &str, document: &str, certainty, used: &str| SourceOfLimit {
        key: key.into(),
        document: document.into(),
        certainty,
        used: used.into(),
    };
    let practice = "Common practice of small roadside shafts, as practitioners state it";
    let job = "Least ratio of an interval against the running ratio, reason: sand expected";
    vec![
        source("small roadside shafts", practice, Certainty::CommonPractice, "24 limits"),
        source("FHWA-GEC-10", "FHWA-NHI-18-024, Drilled Shafts (2018)", Certainty::FromMemory, "2 limits"),
        source(
            "contract drawing S-4",
            "Drawing S-4, revision 2, of this contract",
            Certainty::Read,
            "1 limit",
        ),
        source("job", job, Certainty::SetByJob, "1 limit"),
    ]
}

pub(crate) fn cautions() -> Vec<Caution> {
    let text = "
        Open hole | Cover or guard it whenever nobody works at it. Nobody enters a shaft. Local law governs.
        Overhead lines | Keep the distance local law asks for from booms, kelly bars and cages.
        Cage lifts | Stand clear of a hanging cage; the lift plan is the contractor's.
        Hoses under pressure | A pump line can whip; stay away from its free end while it is blown out.
        Wet concrete | Burns skin and eyes; wash at once.";
    lines(text).into_iter().map(|[danger, text]| Caution { danger, text }).collect()
}

pub(crate) fn seals() -> Vec<ShaftSeal> {
    let seal = |what: &str, digit: &str, later: &[&str]| ShaftSeal {
        what: what.into(),
        root: digit.repeat(64),
        later: later.iter().map(|text| (*text).to_owned()).collect(),
    };
    vec![
        seal(
            "Sealed 2026-05-20 09:00 by N. Imai with the key 7c1f09aa: 118 entries.",
            "4",
            &["2026-05-28 10:00, T. Ochoa, cylinder broken: A, 28 d, 4650 psi (19af02c1)"],
        ),
        seal("Sealed 2026-05-29 08:10 by N. Imai with the key 7c1f09aa: 120 entries.", "7", &[]),
    ]
}

pub(crate) fn signatures() -> Vec<Signature> {
    let sealed = Sealed {
        at: "2026-05-14 18:02".into(),
        key: "ed25519 7c1f 09aa 52e4 b310".into(),
        over: "Signs the 118 entries of this record up to 18:01; the signature verifies.".into(),
    };
    let line = |role: &str, name: &str, sealed| Signature { role: role.into(), name: name.into(), sealed };
    vec![
        line("Inspector", "R. Vale", Some(sealed)),
        line("Contractor's quality staff", "", None),
        line("Engineer", "N. Imai", None),
    ]
}

pub(crate) fn digest() -> RecordDigest {
    RecordDigest {
        sha256: "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855".into(),
        covers: "118 entries of 2 devices.".into(),
        how_to_check: "SHA-256 over the ids of all entries in order, one a line. The documentation of the \
                       record format has a script of thirty lines that checks it."
            .into(),
        checked: "Every entry carries a valid signature and every chain is unbroken.".into(),
    }
}

pub(crate) fn doubts() -> Vec<Doubt> {
    let text = "
        11:04 Concrete sounded (4d22) | Up to the sounding of 11:04 the surface rose only 0.4 ft. | Sound again.";
    lines(text).into_iter().map(|[about, what, next]| Doubt { about, what, next }).collect()
}

pub(crate) fn assumed() -> Vec<Assumed> {
    let text = "
        Error of a sounding | ± 0.1 ft | Standard error of one reading with a weighted tape. From memory.
        Error of a load | 1.0 % each | Standard error of the volume of a load. From memory.";
    lines(text).into_iter().map(|[about, value, how]| Assumed { about, value, how }).collect()
}
