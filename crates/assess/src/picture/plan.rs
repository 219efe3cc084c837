//! The plan of a shaft as elevations and a bore.

use calc::geometry::{Bore, GeometryError, Part, Piece};
use quantity::{Elevation, Length};
use record::choices::Ground;
use record::kinds::plan::{Bell, BorePiece};
use record::kinds::{CagePlanned, ShaftPlanned};
use record::{EntryId, Log};

/// The plan of a shaft.
#[derive(Debug, Clone)]
pub struct Plan<'r> {
    /// The entry it stands in.
    pub entry: EntryId,
    /// As it was written.
    pub shaft: &'r ShaftPlanned,
    /// The cage as it was planned.
    pub cage: Option<(EntryId, &'r CagePlanned)>,
    /// Top of the shaft.
    pub top: Elevation,
    /// Cut-off: the top, where no other was written.
    pub cut_off: Elevation,
    /// Required tip.
    pub tip: Elevation,
    /// Ground.
    pub ground: Option<Elevation>,
    /// Groundwater expected.
    pub groundwater: Option<Elevation>,
    /// Least diameter.
    pub diameter: Option<Length>,
    /// The bore from top to tip, or why it is none.
    pub bore: Result<Bore, GeometryError>,
}

impl<'r> Plan<'r> {
    pub(super) fn of(log: &Log<'r>) -> Option<Self> {
        let (line, shaft) = log.last::<ShaftPlanned>()?;
        let (top, tip) = (shaft.top.value(), shaft.tip.value());
        Some(Plan {
            entry: line.entry.id,
            shaft,
            cage: log.last::<CagePlanned>().map(|(line, cage)| (line.entry.id, cage)),
            top,
            cut_off: shaft.cut_off.as_ref().map_or(top, |level| level.value()),
            tip,
            ground: shaft.ground.as_ref().map(|level| level.value()),
            groundwater: shaft.groundwater.as_ref().map(|level| level.value()),
            diameter: shaft.bore.iter().map(|piece| piece.diameter.value()).min(),
            bore: Bore::new(pieces(shaft)),
        })
    }

    /// Where the concrete is to end: the cut-off, and what is to be trimmed above it.
    pub fn wanted(&self) -> Elevation {
        let over = self.shaft.over_pour.as_ref().map_or(Length::ZERO, |height| height.value());
        Elevation(self.cut_off.0 + over)
    }

    /// Depth of the shaft below ground, or below its top where no ground was written.
    pub fn depth(&self) -> Length {
        self.ground.unwrap_or(self.top).above(self.tip)
    }
}

/// The pieces of the planned bore, with the bell at its foot.
fn pieces(shaft: &ShaftPlanned) -> Vec<Piece> {
    let (mut next, tip) = (shaft.top.value(), shaft.tip.value());
    let last = shaft.bore.len().saturating_sub(1);
    let mut pieces = Vec::new();
    for (index, piece) in shaft.bore.iter().enumerate() {
        let from = piece.from.as_ref().map_or(next, |level| level.value());
        let to = piece.to.as_ref().map_or(tip, |level| level.value());
        let to = if index == last { Elevation(to.0 + bell_height(shaft.bell.as_ref())) } else { to };
        pieces.push(Piece::cylinder(part(piece), piece.diameter.value(), from, to));
        next = to;
    }
    if let (Some(bell), Some(above)) = (&shaft.bell, pieces.last().copied()) {
        pieces.extend(bell_pieces(bell, &above, tip));
    }
    pieces
}

fn part(piece: &BorePiece) -> Part {
    match piece.ground {
        Some(Ground::Rock | Ground::WeatheredRock) => Part::Socket,
        _ => Part::Shaft,
    }
}

fn bell_height(bell: Option<&Bell>) -> Length {
    bell.map_or(Length::ZERO, |bell| {
        bell.height.value() + bell.toe.as_ref().map_or(Length::ZERO, |toe| toe.value())
    })
}

fn bell_pieces(bell: &Bell, above: &Piece, tip: Elevation) -> Vec<Piece> {
    let toe = bell.toe.as_ref().map_or(Length::ZERO, |toe| toe.value());
    let foot = Elevation(tip.0 + toe);
    let cone = Piece {
        part: Part::Bell,
        top: above.bottom,
        bottom: foot,
        upper_diameter: above.lower_diameter,
        lower_diameter: bell.diameter.value(),
    };
    let toe_piece = Piece::cylinder(Part::Toe, bell.diameter.value(), foot, tip);
    if toe > Length::ZERO { vec![cone, toe_piece] } else { vec![cone] }
}
