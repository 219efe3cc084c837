//! The estimated shape as JSON: an estimate, beside the readings it comes from.

use super::{cubic, level, meters};
use crate::view::View;
use assess::shape::{Asked, Band, BlindSpots, Shape, Told};
use calc::profile::{BANDS, BlindSpot, CellBand, Issue};
use serde_json::{Value, json};
use wording::Show;

/// `null` while there is no estimate.
pub(super) fn shape(view: &View<'_>) -> Value {
    let heights = wording::heights(&Show::of_log(&view.log));
    let asked = Asked::of(&view.log, &view.assessment, view.earlier());
    let Ok(shape) = Shape::of(asked, heights) else { return Value::Null };
    json!({
        "whole": band(shape.whole),
        "cells": shape.bands.iter().map(cell).collect::<Vec<_>>(),
        "told": shape.told.iter().map(told).collect::<Vec<_>>(),
        "blind_spots": shape.blind_spots.iter().map(blind_spots).collect::<Vec<_>>(),
        "next_sounding": shape.next.as_ref().and_then(|next| {
            let best = next.sounding.best?;
            Some(json!({
                "load_m3": cubic(next.load), "part": best.part, "level_m": level(best.level),
                "height_m": meters(next.height), "mean_loss_without": next.sounding.without, "mean_loss_with": best.loss,
            }))
        }),
        "doubts": shape.issues.iter().filter_map(|issue| doubt(*issue)).collect::<Vec<_>>(),
    })
}

/// Mean and the ends of the 90 % band.
fn band(band: Band) -> Value {
    json!({ "ratio": band.mean, "low_90": band.ends[0], "high_90": band.ends[1] })
}

fn cell(cell: &CellBand) -> Value {
    let bands = BANDS.iter().zip(cell.ends).map(|(probability, ends)| json!([probability, ends[0], ends[1]]));
    json!({ "top_m": level(cell.cell.top), "bottom_m": level(cell.cell.bottom), "ratio": cell.mean,
        "bands": bands.collect::<Vec<_>>() })
}

fn told(told: &Told) -> Value {
    match told {
        Told::Wide { ends, ratio, whole } => json!({ "told": "wide", "top_m": level(ends[0]),
            "bottom_m": level(ends[1]), "ratio": band(*ratio), "whole": whole }),
        Told::TookLess { ends, ratio, whole, height, at_once } => json!({
            "told": "took_less", "top_m": level(ends[0]), "bottom_m": level(ends[1]), "ratio": band(*ratio),
            "whole": whole, "height_m": meters(*height), "share_in_one_place": at_once,
        }),
        Told::NeckPossible { ends, ratio, whole, height, share, probability } => json!({
            "told": "neck_possible", "top_m": level(ends[0]), "bottom_m": level(ends[1]), "ratio": band(*ratio),
            "whole": whole, "height_m": meters(*height), "share": share.to_part(), "probability": probability,
        }),
    }
}

fn blind_spots(blind_spots: &BlindSpots) -> Value {
    let spot = |spot: &BlindSpot| json!([level(spot.top), level(spot.bottom), spot.loss]);
    json!({ "height_m": meters(blind_spots.height), "spots": blind_spots.spots.iter().map(spot).collect::<Vec<_>>() })
}

fn doubt(issue: Issue) -> Option<Value> {
    match issue {
        Issue::Misread { at, probability } => {
            Some(json!({ "doubt": "misread", "sounding": at, "probability": probability }))
        }
        Issue::WrongTicket { at, probability } => {
            Some(json!({ "doubt": "wrong_ticket", "sounding": at, "probability": probability }))
        }
        Issue::LeftOut { .. } | Issue::SurfaceFell { .. } | Issue::TotalFell { .. } => None,
    }
}
