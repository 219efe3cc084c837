//! An invented shaft and an invented job, for looking at pages. No person, company or place of it exists.

#![allow(dead_code, reason = "each user of this file takes its own part")]

pub(crate) mod closing;
pub(crate) mod findings;
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
        findings: findings::findings(),
        no_limit: findings::no_limit(),
        forecasts: findings::forecasts(),
        plan: closing::plan(),
        logs: logs::all(paper == Paper::A4),
        drawings: pictures::all(),
        corrections: closing::corrections(),
        disputes: closing::disputes(),
        questions: closing::questions(),
        doubts: closing::doubts(),
        photos: closing::photos(),
        sources: closing::sources(),
        assumed: closing::assumed(),
        cautions: closing::cautions(),
        signatures: closing::signatures(),
        seals: closing::seals(),
        digest: closing::digest(),
        papers: logs::papers(),
    }
}

/// A shaft of which nothing is recorded.
pub(crate) fn bare(paper: Paper) -> ReportInput {
    ReportInput {
        leading: Vec::new(),
        findings: Vec::new(),
        no_limit: Vec::new(),
        forecasts: Vec::new(),
        plan: Vec::new(),
        logs: Vec::new(),
        drawings: Vec::new(),
        corrections: Vec::new(),
        disputes: Vec::new(),
        questions: Vec::new(),
        doubts: Vec::new(),
        photos: Vec::new(),
        sources: Vec::new(),
        assumed: Vec::new(),
        papers: Vec::new(),
        cautions: Vec::new(),
        signatures: Vec::new(),
        seals: Vec::new(),
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
        counts: Counts { fails: 2, needs_attention: 3, not_measured: 4, meets: 12, no_limit: 1 },
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
