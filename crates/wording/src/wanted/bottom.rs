//! Entries that settle the facts of the bottom.

use super::{Row, want};

pub(super) const ROWS: &[Row] = &[
    ("bottom.sounded", &[want("bottom_sounded", &["points"])]),
    ("bottom.weighted_tape", &[want("bottom_sounded", &["purpose", "points"])]),
    ("bottom.points", &[want("bottom_sounded", &["points"])]),
    ("bottom.resounded", &[want("bottom_sounded", &["purpose", "points"])]),
    (
        "bottom.change_since_accepted",
        &[want("bottom_accepted", &["by"]), want("bottom_sounded", &["points"])],
    ),
    ("bottom.sediment_recorded", &[want("sediment_measured", &["points"])]),
    ("bottom.sediment.max", &[want("sediment_measured", &["points"])]),
    ("bottom.sediment.mean", &[want("sediment_measured", &["points"])]),
    ("bottom.sediment.half_area", &[want("sediment_measured", &["points"])]),
    ("bottom.levelness", &[want("bottom_sounded", &["points"])]),
    ("bottom.tip_above_plan", &[want("bottom_sounded", &["points"])]),
    ("bottom.accepted", &[want("bottom_accepted", &["by"])]),
    ("socket.length_short", &[want("stratum_met", &["from", "ground"]), want("bottom_reached", &["depth"])]),
];
