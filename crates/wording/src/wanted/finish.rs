//! Entries that settle the facts of the finished shaft and its tests.

use super::{REMARK, Row, want};

pub(super) const ROWS: &[Row] = &[
    ("top.form_set", &[want("top_formed", &["width", "top"])]),
    ("form.strength_at_removal", &[want("form_removed", &[]), want("cylinder_broken", &["set", "strength"])]),
    ("form.age_at_removal", &[want("form_removed", &[])]),
    ("curing.started", &[want("curing", &["method"])]),
    ("curing.duration", &[want("curing", &["until"])]),
    ("loading.strength_share", &[REMARK]),
    ("loading.age", &[REMARK]),
    ("bolts.position_offset", &[want("anchors_set", &["bolts"])]),
    (
        "bolts.projection_deviation",
        &[want("anchors_set", &["bolts"]), want("anchors_planned", &["projection"])],
    ),
    ("bolts.plumbness", &[want("anchors_set", &["bolts"])]),
    ("bolts.rechecked", &[want("anchors_set", &["after_casing"])]),
    ("conduit.as_planned", &[want("conduit_set", &["as_planned"])]),
    ("asbuilt.position_offset", &[want("as_built", &["northing", "easting"])]),
    ("asbuilt.plumbness", &[want("plumb_measured", &["points"])]),
    (
        "asbuilt.toe_offset",
        &[want("as_built", &["northing", "easting"]), want("plumb_measured", &["points"])],
    ),
    ("asbuilt.top_deviation", &[want("as_built", &["top"])]),
    ("asbuilt.diameter_short", &[want("bore_measured", &["points"])]),
    ("asbuilt.diameter_over", &[want("bore_measured", &["points"])]),
    ("asbuilt.cover", &[want("plumb_measured", &["points"]), want("cage_set", &["east", "north"])]),
    ("asbuilt.tolerances_checked", &[want("as_built", &["top", "northing", "easting"])]),
    ("crosshole.age", &[want("integrity_test", &["method"])]),
    ("crosshole.velocity_reduction", &[want("integrity_test", &["pairs"])]),
    ("crosshole.arrival_increase", &[want("integrity_test", &["pairs"])]),
    ("crosshole.energy_drop", &[want("integrity_test", &["pairs"])]),
    ("crosshole.velocity", &[REMARK]),
    ("lowstrain.age", &[want("integrity_test", &["method"])]),
    ("lowstrain.strength_share", &[REMARK]),
    ("thermal.age", &[want("integrity_test", &["method"])]),
    ("gamma.deviation", &[REMARK]),
];
