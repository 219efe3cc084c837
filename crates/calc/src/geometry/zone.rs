//! What a casing does to the hole it stands in, and what it leaves behind.
//!
//! While a casing stands, concrete fills its inside, whatever the hole behind it measures. Once it is
//! out, concrete fills the hole, which is at least as wide as the casing was outside.
//!
//! Words: *standing* = still in the ground; *pulled* = was there and is out.
//! Never: decide whether a casing is temporary; the caller names those that stand.

use quantity::{Elevation, InOrder, Length};

use super::{Bore, GeometryError, Part, Piece};

/// A casing as it stands, or as it stood.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Casing {
    /// Inside diameter, greater than zero.
    pub inside_diameter: Length,
    /// Outside diameter, not less than the inside.
    pub outside_diameter: Length,
    /// Its upper end.
    pub top: Elevation,
    /// Its lower end.
    pub shoe: Elevation,
}

impl Casing {
    /// The same casing pulled upward by `lift`.
    pub fn lifted(self, lift: Length) -> Self {
        Casing { top: Elevation(self.top.0 + lift), shoe: Elevation(self.shoe.0 + lift), ..self }
    }

    fn check(&self) -> Result<(), GeometryError> {
        let narrow = self.inside_diameter.min(self.outside_diameter);
        if narrow <= Length::ZERO || self.outside_diameter < self.inside_diameter {
            return Err(GeometryError::Diameter { given: narrow });
        }
        match self.shoe < self.top {
            true => Ok(()),
            false => Err(GeometryError::Interval { top: self.top, bottom: self.shoe }),
        }
    }
}

impl Bore {
    /// The hole with casings standing in it: their inside where they stand, the hole elsewhere.
    ///
    /// Where casings stand inside each other the narrowest counts. A casing that sticks up above the
    /// hole lengthens it upward, because concrete rises inside.
    ///
    /// **Valid for** casings that reach down to the hole; a shoe below the bottom counts to the bottom.
    ///
    /// **Errors** when a casing has no length or its diameters make no sense, when its shoe lies above
    /// the hole, or when the steel has no room inside it.
    ///
    /// **Source**: geometry of the case [GEOMETRY].
    ///
    /// ```
    /// # use calc::geometry::{Bore, Casing};
    /// # use quantity::{Elevation, Length};
    /// let at = |feet| Elevation(Length::feet(feet));
    /// let hole = Bore::cylinder(Length::inches(50.0), at(0.0), at(-25.0))?;
    /// let (inside_diameter, outside_diameter) = (Length::inches(47.0), Length::inches(48.0));
    /// let casing = Casing { inside_diameter, outside_diameter, top: at(0.0), shoe: at(-25.0) };
    /// let needed = hole.with_standing(&[casing])?.volume();
    /// assert_eq!(format!("{:.2} of {:.2} yd³", needed.to_cubic_yards(), hole.volume().to_cubic_yards()), "11.16 of 12.63 yd³");
    /// # Ok::<(), calc::geometry::GeometryError>(())
    /// ```
    pub fn with_standing(&self, casings: &[Casing]) -> Result<Bore, GeometryError> {
        let mut widest_first = casings.to_vec();
        widest_first.put_in_order_by_key(|casing| std::cmp::Reverse(casing.inside_diameter));
        let mut pieces = self.pieces().to_vec();
        for casing in &widest_first {
            casing.check()?;
            pieces = standing(pieces, casing)?;
        }
        self.with_pieces(pieces)
    }

    /// The hole after casings are out: nowhere narrower than a casing was outside.
    ///
    /// **Valid for** ground that stands where the casing stood.
    ///
    /// **Errors** when a casing has no length or its diameters make no sense.
    ///
    /// **Source**: geometry of the case [GEOMETRY].
    ///
    /// ```
    /// # use calc::geometry::{Bore, Casing};
    /// # use quantity::{Elevation, Length};
    /// let at = |feet| Elevation(Length::feet(feet));
    /// let hole = Bore::cylinder(Length::inches(42.0), at(0.0), at(-60.0))?;
    /// let (inside_diameter, outside_diameter) = (Length::inches(49.0), Length::inches(50.0));
    /// let casing = Casing { inside_diameter, outside_diameter, top: at(0.0), shoe: at(-25.0) };
    /// assert_eq!(hole.with_pulled(&[casing])?.diameter_at(at(-10.0))?, Length::inches(50.0));
    /// # Ok::<(), calc::geometry::GeometryError>(())
    /// ```
    pub fn with_pulled(&self, casings: &[Casing]) -> Result<Bore, GeometryError> {
        let mut pieces = self.pieces().to_vec();
        for casing in casings {
            casing.check()?;
            let cut = cut_at(&cut_at(&pieces, casing.top), casing.shoe);
            pieces = cut.into_iter().flat_map(|piece| widened(piece, casing)).collect();
        }
        self.with_pieces(pieces)
    }
}

/// The pieces with the inside of one casing in its place.
fn standing(pieces: Vec<Piece>, casing: &Casing) -> Result<Vec<Piece>, GeometryError> {
    let top = pieces[0].top;
    if casing.shoe > top {
        return Err(GeometryError::CasingAboveHole { shoe: casing.shoe, top });
    }
    let cut = cut_at(&cut_at(&pieces, casing.top), casing.shoe);
    let inside = |top, bottom| Piece::cylinder(Part::Casing, casing.inside_diameter, top, bottom);
    let stick_up = (casing.top > top).then(|| inside(casing.top, top));
    let below = cut.into_iter().map(|piece| match within(&piece, casing) {
        true => inside(piece.top, piece.bottom),
        false => piece,
    });
    Ok(stick_up.into_iter().chain(below).collect())
}

/// A piece made at least as wide as the casing that stood there; a cone that crosses that width is cut
/// where it does.
fn widened(piece: Piece, casing: &Casing) -> Vec<Piece> {
    let (upper, lower, least) = (piece.upper_diameter, piece.lower_diameter, casing.outside_diameter);
    if !within(&piece, casing) || least <= upper.min(lower) {
        return vec![piece];
    }
    if upper.max(lower) <= least {
        return vec![Piece { upper_diameter: least, lower_diameter: least, ..piece }];
    }
    let share = (least - lower).to_meters() / (upper - lower).to_meters();
    let crossing = Elevation(piece.bottom.0 + Length::meters(piece.height().to_meters() * share));
    let above = Piece { bottom: crossing, upper_diameter: upper.max(least), lower_diameter: least, ..piece };
    let below = Piece { top: crossing, upper_diameter: least, lower_diameter: lower.max(least), ..piece };
    [above, below].into_iter().filter(|part| part.height() > Length::ZERO).collect()
}

fn within(piece: &Piece, casing: &Casing) -> bool {
    casing.shoe <= piece.bottom && piece.top <= casing.top
}

/// The pieces with the one that crosses `level` cut in two.
pub(crate) fn cut_at(pieces: &[Piece], level: Elevation) -> Vec<Piece> {
    let cut = |piece: &Piece| -> Vec<Piece> {
        if level <= piece.bottom || piece.top <= level {
            return vec![*piece];
        }
        let diameter = Length::meters(piece.diameter_m(level));
        let above = Piece { bottom: level, lower_diameter: diameter, ..*piece };
        let below = Piece { top: level, upper_diameter: diameter, ..*piece };
        vec![above, below]
    };
    pieces.iter().flat_map(cut).collect()
}
