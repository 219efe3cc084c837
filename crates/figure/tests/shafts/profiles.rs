//! An as-built profile of an invented shaft: a neck in soft clay that the plain ratios hardly show.

use super::{ft, holes};
use figure::*;

/// 62 ft, seven soundings, a neck between 33 and 38 ft.
pub fn us_profile() -> ProfileSheet {
    let cells = (0..122).map(|k| {
        let top = 1.3 + 0.5 * f64::from(k);
        let neck = if (33.0..38.0).contains(&top) { 0.16 } else { 0.0 };
        let spread = if top < 12.0 { 0.05 } else { 0.03 } + 0.6 * neck;
        let ratio = 1.08 + 0.02 * (top / 9.0).sin() - neck;
        ProfileCell {
            top_m: ft(top),
            bottom_m: ft(top + 0.5),
            ratio,
            half: (ratio - 0.7 * spread, ratio + 0.7 * spread),
            most: (ratio - 2.0 * spread, ratio + 1.6 * spread),
            cased: top < 9.0,
        }
    });
    let soundings = [53.0, 41.5, 33.0, 21.5, 10.0, 1.8].map(ft);
    let curve = holes::us_curve();
    let read = curve.intervals.iter().filter_map(|interval| {
        let (top_m, bottom_m) = (interval.top_m, interval.bottom_m);
        Some(ReadRatio { top_m, bottom_m, ratio: interval.ratio? })
    });
    let blind_spots = |height: &str, factor: f64| BlindSpots {
        height: height.to_owned(),
        points: (0..61)
            .map(|k| {
                let depth = 2.0 + f64::from(k);
                let near =
                    soundings.map(|sounded| (sounded - ft(depth)).abs()).into_iter().fold(9.0, f64::min);
                let loss = factor * (0.18 + 0.12 * near);
                BlindPoint { depth_m: ft(depth), loss: Some(loss).filter(|loss| *loss <= 1.0) }
            })
            .collect(),
    };
    ProfileSheet {
        title: "Shaft B-12: as-built profile".into(),
        subtitle: "estimate from 6 soundings and 6 loads; the readings themselves stand in the log".into(),
        depth: Scale::feet(),
        strata: holes::us_section().strata,
        cells: cells.collect(),
        read: read.collect(),
        soundings_m: soundings.to_vec(),
        blind_spots: vec![
            blind_spots("a loss 1 ft high", 3.0),
            blind_spots("a loss 2 ft high", 1.5),
            blind_spots("a loss 3 ft high", 1.0),
        ],
        blanks: vec!["volume left in the line after load 6".into()],
        words: Words::default(),
    }
}
