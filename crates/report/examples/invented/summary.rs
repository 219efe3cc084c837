//! The summary of the invented job.

use report::*;

use super::{closing, pictures};

pub(crate) fn summary(paper: Paper) -> SummaryInput {
    SummaryInput {
        paper,
        made: super::made(),
        heading: Heading { structure: "Bents 1 to 3".into(), ..super::heading("all shafts", "") },
        verdict: Verdict {
            standing: Standing::Fails,
            sentence: "One of nine shafts has failing criteria; two need attention; one has no concrete yet."
                .into(),
            counts: Counts { fails: 2, needs_attention: 5, not_measured: 31, meets: 214, no_limit: 9 },
        },
        leading: vec![
            "B2-3: tremie embedment fell to 3.1 ft; the engineer asks for a core.".into(),
            "B1-2: cylinders of set B are not broken yet, due 2026-06-09.".into(),
        ],
        shafts: (0..9).map(line).collect(),
        totals: vec![
            "Placed 488.2 yd³ in eight shafts, 1.12 of theoretical.".into(),
            "48 in shaft: 480.6 ft. Obstruction time 1 h 35 min.".into(),
        ],
        plan: Some(pictures::drawing("Plan of the shafts", "North is up.", &plan(), Room::Width)),
        signatures: closing::signatures(),
        digest: closing::digest(),
    }
}

fn plan() -> String {
    let shaft =
        |at: u32| format!("<circle cx='{}' cy='60' r='14' fill='none' stroke='black'/>", 60 + at * 60);
    pictures::svg((600, 120), &(0..9).map(shaft).collect::<String>())
}

fn line(at: u32) -> ShaftLine {
    let standing = match at {
        5 => Standing::Fails,
        2 | 7 => Standing::NeedsAttention,
        8 => Standing::NotMeasured,
        _ => Standing::Meets,
    };
    let later = |text: &str| if at == 8 { String::new() } else { text.to_owned() };
    ShaftLine {
        shaft: format!("B{}-{}", at / 3 + 1, at % 3 + 1),
        structure: format!("Bent {}", at / 3 + 1),
        date: later("2026-05-14"),
        planned: "48 in × 60.0 ft".into(),
        built: later("48 in × 60.4 ft"),
        theoretical: "27.9 yd³".into(),
        placed: later("31.3 yd³"),
        ratio: later("1.12"),
        counts: Counts {
            fails: 2 * u32::from(at == 5),
            needs_attention: u32::from(at % 5 == 2),
            not_measured: 3,
            meets: 28,
            no_limit: 1,
        },
        standing,
        remark: if at == 5 { "Core asked for between 30 and 40 ft.".into() } else { String::new() },
    }
}
