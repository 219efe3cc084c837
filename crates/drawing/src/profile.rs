//! The as-built profile: the estimate with its band, what was read, and what could hide.

use crate::ground::strata;
use crate::view::View;
use assess::shape::{Asked, BlindSpots, Shape, heights};
use calc::profile::{BANDS, CellBand};
use figure::{BlindPoint, ProfileCell, ProfileSheet, ReadRatio, Size, profile_svg};
use quantity::Elevation;
use record::choices::JobUnits;

pub(crate) fn has_content(view: &View<'_, '_>) -> bool {
    view.assessment.reckoning.pour.is_some()
}

pub(crate) fn draw(view: &View<'_, '_>, size: Size) -> String {
    profile_svg(&sheet(view), size)
}

/// The estimated shape of the shaft, for losses of the heights this job thinks in; `None` when there is none.
pub(crate) fn shape(view: &View<'_, '_>) -> Option<Shape> {
    let in_feet = view.assessment.picture.job.is_some_and(|job| job.units == JobUnits::Us);
    Shape::of(Asked::of(view.log, view.assessment, view.earlier), heights(in_feet)).ok()
}

fn sheet(view: &View<'_, '_>) -> ProfileSheet {
    let scales = view.scales();
    let sheet = ProfileSheet {
        title: view.title("as-built profile"),
        depth: scales.depth,
        strata: strata(view),
        read: read(view),
        ..ProfileSheet::default()
    };
    let Some(shape) = shape(view) else { return sheet };
    ProfileSheet {
        subtitle: from(view),
        cells: shape.bands.iter().rev().filter_map(|band| cell(view, band)).collect(),
        soundings_m: view.assessment.reckoning.pour.iter().flat_map(|pour| levels(view, pour)).collect(),
        blind_spots: shape.blind_spots.iter().map(|blind_spots| hidden(view, blind_spots)).collect(),
        ..sheet
    }
}

/// `estimate from 6 soundings, the last of 13 May 2025, 13:57; …`
fn from(view: &View<'_, '_>) -> String {
    let soundings = view.assessment.reckoning.pour.iter().flat_map(|pour| &pour.soundings);
    let last = soundings.clone().next_back().map(|sounding| view.moment(sounding.at)).unwrap_or_default();
    let count = soundings.count();
    let word = if count == 1 { "sounding" } else { "soundings" };
    format!("estimate from {count} {word}, the last of {last}; the readings themselves stand in the log")
}

fn levels(view: &View<'_, '_>, pour: &assess::reckon::PourReckoning) -> Vec<f64> {
    pour.curve.intervals.iter().filter_map(|interval| view.depth_m(interval.upper)).collect()
}

fn cell(view: &View<'_, '_>, band: &CellBand) -> Option<ProfileCell> {
    let ends = |probability: f64| {
        let at = BANDS.iter().position(|one| *one == probability)?;
        Some((band.ends[at][0], band.ends[at][1]))
    };
    Some(ProfileCell {
        top_m: view.depth_m(band.cell.top)?,
        bottom_m: view.depth_m(band.cell.bottom)?,
        ratio: band.mean,
        half: ends(0.50)?,
        most: ends(0.90)?,
        cased: band.cell.cased,
    })
}

/// The plain ratios, where there are any.
fn read(view: &View<'_, '_>) -> Vec<ReadRatio> {
    let Some(pour) = &view.assessment.reckoning.pour else { return Vec::new() };
    let read = |interval: &calc::curve::Interval| {
        Some(ReadRatio {
            top_m: view.depth_m(interval.upper)?,
            bottom_m: view.depth_m(interval.lower)?,
            ratio: interval.ratio?.value,
        })
    };
    pour.curve.intervals.iter().filter_map(read).collect()
}

fn hidden(view: &View<'_, '_>, blind_spots: &BlindSpots) -> figure::BlindSpots {
    let point = |spot: &calc::profile::BlindSpot| {
        let nanometers = i64::midpoint(spot.top.0.to_nanometers(), spot.bottom.0.to_nanometers());
        let middle = Elevation(quantity::Length::nanometers(nanometers));
        Some(BlindPoint { depth_m: view.depth_m(middle)?, loss: Some(spot.loss).filter(|loss| *loss < 1.0) })
    };
    let scale = view.scales().depth;
    figure::BlindSpots {
        height: format!("a loss {} high", scale.label(blind_spots.height.to_meters())),
        points: blind_spots.spots.iter().rev().filter_map(point).collect(),
    }
}
