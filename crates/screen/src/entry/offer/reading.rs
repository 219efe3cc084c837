//! Offers of rows: the same points of the section as the last time, with the readings left blank.
//!
//! Never: offer a reading.

use super::{Offer, Source};
use record::choices::Place;
use record::kinds::*;
use wording::label;

/// The places of the last readings, as blank rows.
pub(super) fn offer(kind: &str, field: &str, source: &Source<'_, '_>) -> Option<Offer> {
    if field != "points" {
        return None;
    }
    let log = source.log;
    let (at, places): (_, Vec<Option<Place>>) = match kind {
        "concrete_sounded" => {
            let (line, sounded) = log.last::<ConcreteSounded>()?;
            (line.at, sounded.points.iter().map(|point| point.place).collect())
        }
        "bottom_sounded" => {
            let (line, sounded) = log.last::<BottomSounded>()?;
            (line.at, sounded.points.iter().map(|point| point.place).collect())
        }
        "sediment_measured" => {
            let (line, measured) = log.last::<SedimentMeasured>()?;
            (line.at, measured.points.iter().map(|point| point.place).collect())
        }
        _ => return None,
    };
    let fill = |(row, place): (usize, &Option<Place>)| {
        place.map(|place| (format!("points[{row}].place"), place.word().to_owned()))
    };
    let fills: Vec<(String, String)> = places.iter().enumerate().filter_map(fill).collect();
    let names: Vec<String> = places.iter().flatten().map(|place| label::choice(place.word())).collect();
    let why = format!("same places as at {}", source.show.moment(at));
    (!fills.is_empty()).then(|| Offer { text: names.join(", "), why, fills })
}
