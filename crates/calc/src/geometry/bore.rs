//! A whole hole: its pieces from the top down, and the steel in it.
//!
//! Built once from plan and soundings, asked many times during a pour.
//!
//! Never: hold pieces that do not meet, or steel that leaves no room.

use quantity::{Area, Elevation, Length};

use super::{GeometryError, Part, Piece, Steel, circle_area};

/// A hole, from its top to its bottom.
///
/// Invariant: at least one piece, in order from the top, each with positive diameters and height, each
/// beginning where the one above ends; the steel leaves room everywhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Bore {
    pieces: Vec<Piece>,
    steel: Vec<Steel>,
}

impl Bore {
    /// A hole of pieces given from the top down, without steel.
    ///
    /// # Errors
    /// When there is no piece, one has no height or diameter, or two do not meet.
    pub fn new(pieces: Vec<Piece>) -> Result<Self, GeometryError> {
        if pieces.is_empty() {
            return Err(GeometryError::NoPiece);
        }
        pieces.iter().try_for_each(check_piece)?;
        for pair in pieces.windows(2) {
            if pair[0].bottom != pair[1].top {
                return Err(GeometryError::Gap { above: pair[0].bottom, below: pair[1].top });
            }
        }
        Ok(Bore { pieces, steel: Vec::new() })
    }

    /// A hole of one diameter.
    ///
    /// # Errors
    /// When the diameter is not positive or the bottom does not lie below the top.
    pub fn cylinder(diameter: Length, top: Elevation, bottom: Elevation) -> Result<Self, GeometryError> {
        Bore::new(vec![Piece::cylinder(Part::Shaft, diameter, top, bottom)])
    }

    /// The same hole with steel standing in it. Steel above the top or below the bottom takes no room.
    ///
    /// # Errors
    /// When the steel leaves no room somewhere.
    pub fn with_steel(self, steel: Vec<Steel>) -> Result<Self, GeometryError> {
        let bore = Bore { pieces: self.pieces, steel };
        for piece in bore.slabs() {
            let narrow = piece.upper_diameter.min(piece.lower_diameter);
            let room = circle_area(narrow).to_square_meters() - bore.steel_area_m2(piece.top, piece.bottom);
            if room <= 0.0 {
                return Err(GeometryError::SteelFillsHole { at: piece.top });
            }
        }
        Ok(bore)
    }

    /// The same hole as if it held no steel.
    pub fn gross(&self) -> Self {
        Bore { pieces: self.pieces.clone(), steel: Vec::new() }
    }

    /// The pieces from the top down.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// The steel in it.
    pub fn steel(&self) -> &[Steel] {
        &self.steel
    }

    /// The top of the hole.
    pub fn top(&self) -> Elevation {
        self.pieces[0].top
    }

    /// The bottom of the hole.
    pub fn bottom(&self) -> Elevation {
        self.pieces[self.pieces.len() - 1].bottom
    }

    /// The diameter at a level; where two pieces meet, that of the lower one.
    ///
    /// # Errors
    /// When the level lies outside the hole.
    pub fn diameter_at(&self, level: Elevation) -> Result<Length, GeometryError> {
        Ok(Length::meters(self.piece_at(level)?.diameter_m(level)))
    }

    /// The area that concrete fills at a level; where two pieces meet, that of the lower one.
    ///
    /// # Errors
    /// When the level lies outside the hole.
    pub fn area_at(&self, level: Elevation) -> Result<Area, GeometryError> {
        let diameter = Length::meters(self.piece_at(level)?.diameter_m(level));
        // Just below the level, or just above it on the bottom of the hole.
        let nanometer = Length::nanometers(1);
        let low = Elevation((level.0 - nanometer).max(self.bottom().0));
        let steel_m2 = self.steel_area_m2(Elevation(low.0 + nanometer), low);
        Ok(Area::square_meters(circle_area(diameter).to_square_meters() - steel_m2))
    }

    /// Says whether a level lies in the hole, its ends included.
    ///
    /// # Errors
    /// When it does not.
    pub fn check_level(&self, level: Elevation) -> Result<(), GeometryError> {
        let (top, bottom) = (self.top(), self.bottom());
        match bottom <= level && level <= top {
            true => Ok(()),
            false => Err(GeometryError::Outside { level, top, bottom }),
        }
    }

    fn piece_at(&self, level: Elevation) -> Result<&Piece, GeometryError> {
        self.check_level(level)?;
        let last = &self.pieces[self.pieces.len() - 1];
        Ok(self.pieces.iter().find(|piece| piece.bottom < level && level <= piece.top).unwrap_or(last))
    }

    /// The pieces cut wherever steel begins or ends, from the top down: along each the steel is constant.
    pub(crate) fn slabs(&self) -> Vec<Piece> {
        let mut slabs = self.pieces.clone();
        for cut in self.steel.iter().flat_map(|steel| [steel.top, steel.bottom]) {
            slabs = super::zone::cut_at(&slabs, cut);
        }
        slabs
    }

    /// Steel that runs through the whole stretch from `top` down to `bottom`, in square metres.
    pub(crate) fn steel_area_m2(&self, top: Elevation, bottom: Elevation) -> f64 {
        let through = self.steel.iter().filter(|steel| top <= steel.top && steel.bottom <= bottom);
        through.map(|steel| steel.area.to_square_meters()).sum()
    }

    /// The same steel in another list of pieces.
    pub(crate) fn with_pieces(&self, pieces: Vec<Piece>) -> Result<Self, GeometryError> {
        Bore::new(pieces)?.with_steel(self.steel.clone())
    }
}

fn check_piece(piece: &Piece) -> Result<(), GeometryError> {
    if piece.top <= piece.bottom {
        return Err(GeometryError::Interval { top: piece.top, bottom: piece.bottom });
    }
    let narrow = piece.upper_diameter.min(piece.lower_diameter);
    match narrow > Length::ZERO {
        true => Ok(()),
        false => Err(GeometryError::Diameter { given: narrow }),
    }
}
