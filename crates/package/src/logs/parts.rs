//! Which log belongs to which part of the work.

/// A part of the work.
pub(super) struct Part {
    pub(super) title: &'static str,
    /// Its logs, in order.
    pub(super) ids: &'static [&'static str],
    /// Logs that no part names stand here.
    pub(super) takes_the_rest: bool,
}

/// Title of the appendix.
pub(super) const PAPERS: &str = "People, documents, materials, criteria";

const PAPER_IDS: &[&str] = &[
    "job_opened",
    "person_named",
    "device_named",
    "document_listed",
    "mix_approved",
    "fluid_approved",
    "criteria_chosen",
    "limit_changed",
    "notes_read",
    "seal_needs",
];

/// The parts, in the order of the work.
pub(super) static WORK: &[Part] = &[
    part(
        "Plan of the shaft",
        &[
            "shaft_planned",
            "strata_expected",
            "casing_planned",
            "cage_planned",
            "anchors_planned",
            "pour_planned",
        ],
    ),
    part(
        "Setting out and checks before drilling",
        &[
            "installation_plan",
            "meeting_held",
            "equipment_checked",
            "instrument_checked",
            "stake_out",
            "utilities_cleared",
            "reference_set",
        ],
    ),
    part("Casing", &["casing"]),
    part(
        "Excavation",
        &[
            "excavation",
            "excavation_events",
            "stratum_met",
            "obstruction",
            "groundwater",
            "sample_taken",
            "plumb",
            "bore",
        ],
    ),
    part("Drilling fluid", &["fluid_work", "fluid_levels", "fluid_tests"]),
    part("Bottom", &["cleaning", "bottom_accepted", "bottom_soundings", "sediment"]),
    part(
        "Cage and access tubes",
        &["cage_checked", "cage_set", "cage_elevation", "tubes", "tubes_filled", "tube_water"],
    ),
    part("Tremie or pump line", &["line_made_up", "line_moves"]),
    part(
        "Concrete",
        &[
            "concrete_ordered",
            "loads",
            "concrete_test",
            "water_added",
            "load_refused",
            "discharges",
            "concrete_wasted",
            "interruption",
            "over_poured",
        ],
    ),
    part("Soundings and volumes", &["concrete_soundings", "volumes"]),
    part("Lifts of the casing", &["casing_lifts"]),
    part(
        "After the pour",
        &[
            "top_formed",
            "conduit_set",
            "anchors",
            "curing",
            "temperature_read",
            "cylinders_made",
            "cylinder_broken",
            "form_removed",
            "trimmed",
            "as_built",
            "integrity",
        ],
    ),
    Part {
        title: "Remarks, notices, decisions, signatures",
        ids: &[
            "weather",
            "remark",
            "hold_placed",
            "hold_released",
            "question_asked",
            "question_answered",
            "comment",
            "finding_disposed",
            "signed",
            "shaft_sealed",
        ],
        takes_the_rest: true,
    },
];

const fn part(title: &'static str, ids: &'static [&'static str]) -> Part {
    Part { title, ids, takes_the_rest: false }
}

/// It belongs to the job and not to the shaft alone.
pub(super) fn is_paper(id: &str) -> bool {
    PAPER_IDS.contains(&id)
}

/// A part names it.
pub(super) fn is_placed(id: &str) -> bool {
    WORK.iter().any(|part| part.ids.contains(&id))
}
