//! Entries about what a shaft should be: the plan, before anything is drilled.

use crate::choices::*;
use crate::declare::{group, kinds};
use quantity::{Elevation, Entered, Length, Pressure, Slope, Span, Volume};

group! {
    /// One piece of the planned bore, from the top down.
    BorePiece {
        /// Diameter of the hole.
        diameter: Small,
        /// Elevation of its upper end; blank: the end of the piece above, or the top.
        from: Option<Entered<Elevation>>,
        /// Elevation of its lower end; blank: the tip.
        to: Option<Entered<Elevation>>,
        /// Soil or rock, for payment and tolerances.
        ground: Option<Ground>,
    }
    /// An enlarged base.
    Bell {
        /// Diameter at its foot.
        diameter: Small,
        /// Height of the cone.
        height: Entered<Length>,
        /// Height of the cylinder under the cone.
        toe: Option<Entered<Length>>,
    }
    /// A layer expected or met.
    Stratum {
        /// Elevation of its upper boundary.
        from: Entered<Elevation>,
        /// Elevation of its lower boundary.
        to: Entered<Elevation>,
        /// What it is.
        ground: Ground,
        /// In words.
        description: Option<String>,
    }
    /// A casing the plan asks for.
    CasingPiece {
        /// What it is called.
        name: String,
        /// How long it stays.
        stay: CasingStay,
        /// Outside diameter.
        outside: Option<Small>,
        /// Wall thickness.
        wall: Option<Small>,
        /// Elevation of its top.
        top: Option<Entered<Elevation>>,
        /// Elevation of its bottom.
        bottom: Option<Entered<Elevation>>,
    }
    /// Bars of one size.
    Bars {
        /// How many.
        count: u32,
        /// Size as on the drawing: #8, 25 mm.
        size: String,
        /// Length of each.
        length: Option<Entered<Length>>,
        /// Grade.
        grade: Option<String>,
    }
    /// Transverse bars over a stretch.
    Hoops {
        /// Sort.
        sort: Transverse,
        /// Size as on the drawing.
        size: String,
        /// Spacing or pitch.
        spacing: Small,
        /// Length of the stretch, from the top of the cage down; blank: all of it.
        over: Option<Entered<Length>>,
    }
    /// Access tubes.
    Tubes {
        /// How many.
        count: u32,
        /// Inside diameter.
        inside: Option<Small>,
        /// Material.
        material: Option<TubeMaterial>,
        /// Length of each.
        length: Option<Entered<Length>>,
    }
}

kinds! { Plan:
    /// What the shaft should be.
    ShaftPlanned = "shaft_planned" {
        /// What it carries.
        structure: Structure,
        /// Structure number or name.
        structure_name: Option<String>,
        /// Station and offset, or another way to find it.
        station: Option<String>,
        /// Northing of the centre.
        northing: Option<Coordinate>,
        /// Easting of the centre.
        easting: Option<Coordinate>,
        /// Planned lean from the vertical; blank: vertical.
        rake: Option<Entered<Slope>>,
        /// Toward which side it leans.
        rake_toward: Option<String>,
        /// Ground or working elevation.
        ground: Option<Entered<Elevation>>,
        /// Top of shaft.
        top: Entered<Elevation>,
        /// Cut-off, where it differs from the top.
        cut_off: Option<Entered<Elevation>>,
        /// Tip required.
        tip: Entered<Elevation>,
        /// Groundwater expected.
        groundwater: Option<Entered<Elevation>>,
        /// The shaft stands in open water whose surface is at this elevation.
        open_water: Option<Entered<Elevation>>,
        /// How the hole is kept open.
        method: Method,
        /// The plans allow the dry method.
        dry_allowed: Option<bool>,
        /// The bore from the top down.
        bore: Vec<BorePiece>,
        /// Enlarged base.
        bell: Option<Bell>,
        /// Concrete to be placed above the cut-off and trimmed.
        over_pour: Option<Entered<Length>>,
        /// Volume ordered or planned, where the plan gives one.
        volume: Option<Entered<Volume>>,
        /// The base carries load.
        end_bearing: Option<bool>,
        /// Mix to be used.
        mix: Option<String>,
        /// Fluid to be used.
        fluid: Option<String>,
        /// Theoretical volumes leave out the room that bars and tubes take up; blank: they do not.
        deduct_steel: Option<bool>,
    }
    /// The layers the borings promise.
    StrataExpected = "strata_expected" {
        /// From the top down.
        layers: Vec<Stratum>,
        /// Boring they come from.
        boring: Option<String>,
    }
    /// The casings the plan asks for.
    CasingPlanned = "casing_planned" {
        /// Each of them.
        casings: Vec<CasingPiece>,
    }
    /// The cage the plan asks for.
    CagePlanned = "cage_planned" {
        /// Overall length.
        length: Option<Entered<Length>>,
        /// Diameter over the transverse bars.
        diameter: Small,
        /// Longitudinal bars.
        bars: Vec<Bars>,
        /// Transverse bars.
        hoops: Vec<Hoops>,
        /// Lap length.
        lap: Option<Entered<Length>>,
        /// Cover required.
        cover: Option<Small>,
        /// Elevation of its top.
        top: Option<Entered<Elevation>>,
        /// Distance of its foot from the bottom.
        stand_off: Option<Small>,
        /// Access tubes.
        tubes: Option<Tubes>,
        /// Spacers per level.
        spacers_per_level: Option<u32>,
        /// Distance of spacer levels.
        spacer_levels_every: Option<Entered<Length>>,
    }
    /// The anchor bolts and conduits the plan asks for.
    AnchorsPlanned = "anchors_planned" {
        /// How many bolts.
        count: u32,
        /// Bolt diameter.
        diameter: Option<Small>,
        /// Bolt circle.
        circle: Option<Small>,
        /// Projection above the top.
        projection: Option<Small>,
        /// Conduits, in words.
        conduits: Option<String>,
    }
    /// When the work is meant to end: what slump life is held against.
    PourPlanned = "pour_planned" {
        /// Time between loads.
        headway: Option<Entered<Span>>,
        /// Time for the whole pour.
        duration: Option<Entered<Span>>,
        /// Time from the end of the pour until casing is out and inserts are in.
        after: Option<Entered<Span>>,
        /// Volume of a full truck.
        truck: Option<Entered<Volume>>,
        /// Time from plant to site.
        haul: Option<Entered<Span>>,
        /// Strength at which forms may come off before their time.
        form_strength: Option<Entered<Pressure>>,
    }
}
