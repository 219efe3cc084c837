//! Entries while the hole is made: runs of the tool, ground, water, fluid, trouble.

use crate::choices::*;
use crate::declare::{group, kinds};
use quantity::{
    Density, Depth, Entered, Fraction, FunnelTime, Inflow, Length, Moment, Ph, Span, Temperature,
};

group! {
    /// Plumbness at one depth.
    PlumbPoint {
        /// Depth.
        depth: Entered<Depth>,
        /// Offset to the east or right; west or left is negative.
        east: Option<Small>,
        /// Offset to the north or ahead; south or back is negative.
        north: Option<Small>,
    }
    /// Diameter at one depth.
    BorePoint {
        /// Depth.
        depth: Entered<Depth>,
        /// Diameter measured.
        diameter: Small,
    }
}

kinds! { Excavation:
    /// Drilling or digging starts.
    DrillingStarted = "drilling_started" {
        /// Rig.
        rig: Option<String>,
        /// Operator.
        operator: Option<String>,
        /// When the rig came to this hole.
        rig_moved: Option<Moment>,
    }
    /// One run of the tool: in at the entry's time, out at `out`.
    ToolRun = "tool_run" {
        /// When the tool came out.
        out: Option<Moment>,
        /// Tool.
        tool: Option<String>,
        /// Tool diameter.
        diameter: Option<Small>,
        /// Depth at the start.
        from: Option<Entered<Depth>>,
        /// Depth at the end.
        to: Entered<Depth>,
        /// Ground met, in words.
        material: Option<String>,
        /// Ground met.
        ground: Option<Ground>,
        /// Dug by hand.
        by_hand: Option<bool>,
        /// In words.
        note: Option<String>,
    }
    /// A layer met in the hole.
    StratumMet = "stratum_met" {
        /// Depth of its upper boundary.
        from: Entered<Depth>,
        /// Depth of its lower boundary.
        to: Option<Entered<Depth>>,
        /// What it is.
        ground: Ground,
        /// In words: colour, moisture, strength.
        description: Option<String>,
        /// As the boring promised.
        as_expected: Option<bool>,
    }
    /// Something the tool cannot pass.
    Obstruction = "obstruction" {
        /// Depth of its top.
        from: Entered<Depth>,
        /// Depth of its foot.
        to: Option<Entered<Depth>>,
        /// What it is.
        what: String,
        /// How it was removed.
        method: Option<String>,
        /// Time lost.
        lost: Option<Entered<Span>>,
        /// When it was cleared.
        cleared: Option<Moment>,
    }
    /// Groundwater is met or has come to rest.
    Groundwater = "groundwater" {
        /// Depth where it was met, or stands.
        depth: Entered<Depth>,
        /// It has come to rest.
        at_rest: Option<bool>,
    }
    /// Water coming into a dry hole.
    InflowMeasured = "inflow_measured" {
        /// Depth of water standing on the bottom.
        standing: Option<Small>,
        /// Rise of the water.
        rise: Option<Small>,
        /// Time it took.
        over: Option<Entered<Span>>,
        /// Rate, where it was written as one.
        rate: Option<Entered<Inflow>>,
        /// Depth where it comes in.
        depth: Option<Entered<Depth>>,
    }
    /// The wall came in.
    Caving = "caving" {
        /// Upper depth.
        from: Option<Entered<Depth>>,
        /// Lower depth.
        to: Option<Entered<Depth>>,
        /// What was seen.
        seen: String,
        /// What was done.
        action: Option<String>,
    }
    /// Fluid goes into the hole.
    FluidIntroduced = "fluid_introduced" {
        /// Product.
        product: String,
        /// What it is made of.
        fluid: FluidType,
        /// Batch.
        batch: Option<String>,
        /// Delivery document.
        delivery: Option<String>,
        /// Volume.
        volume: Option<Liquid>,
        /// Depth of the hole at that time.
        hole_depth: Option<Entered<Depth>>,
        /// When it was mixed.
        mixed: Option<Moment>,
        /// Source of the water.
        water: Option<String>,
        /// The fluid is recirculated through tanks.
        recirculated: Option<bool>,
    }
    /// Where the fluid stands.
    FluidLevel = "fluid_level" {
        /// Depth of the fluid surface below the reference.
        depth: Entered<Depth>,
        /// Depth of groundwater outside, where it was read.
        groundwater: Option<Entered<Depth>>,
        /// It fell suddenly, for a reason that was not the tool leaving the hole.
        sudden_loss: Option<bool>,
    }
    /// One test of the fluid.
    FluidTest = "fluid_test" {
        /// Where the sample came from.
        place: FluidPlace,
        /// Depth of the sample.
        depth: Option<Entered<Depth>>,
        /// Stage of the work.
        stage: FluidStage,
        /// Sample mark.
        sample: Option<String>,
        /// Temperature.
        temperature: Option<Entered<Temperature>>,
        /// Density.
        density: Option<Entered<Density>>,
        /// Funnel time, with the volume it was measured for.
        viscosity: Option<Entered<FunnelTime>>,
        /// pH.
        ph: Option<Entered<Ph>>,
        /// Sand content by volume.
        sand: Option<Entered<Fraction>>,
        /// Fluid loss in 30 minutes.
        fluid_loss: Option<Liquid>,
        /// Filter cake.
        cake: Option<Small>,
        /// Gel strength.
        gel: Option<Weak>,
        /// Tester.
        by: Option<String>,
        /// What was done about it.
        action: Option<String>,
    }
    /// Fluid was cleaned, exchanged or lost.
    FluidTreated = "fluid_treated" {
        /// What was done or seen.
        what: String,
        /// Volume.
        volume: Option<Liquid>,
        /// When it was over.
        until: Option<Moment>,
    }
    /// Work stopped.
    WorkStopped = "work_stopped" {
        /// Why.
        reason: String,
        /// The hole is covered or guarded.
        covered: Option<bool>,
        /// How.
        how: Option<String>,
    }
    /// Work went on.
    WorkResumed = "work_resumed" {
        /// In words.
        note: Option<String>,
    }
    /// Drilling reached the bottom.
    BottomReached = "bottom_reached" {
        /// Depth.
        depth: Entered<Depth>,
        /// What the bottom is.
        ground: Option<Ground>,
        /// In words.
        note: Option<String>,
    }
    /// The hole was made larger or deeper than planned.
    OverExcavated = "over_excavated" {
        /// Upper depth.
        from: Option<Entered<Depth>>,
        /// Lower depth.
        to: Entered<Depth>,
        /// Diameter afterwards.
        diameter: Option<Small>,
        /// Why.
        reason: String,
    }
    /// The rock socket, as drilled.
    RockSocket = "rock_socket" {
        /// Depth where it begins.
        from: Entered<Depth>,
        /// Depth where it ends.
        to: Option<Entered<Depth>>,
        /// Diameter.
        diameter: Option<Small>,
        /// In words.
        note: Option<String>,
    }
    /// The enlarged base, as cut.
    BellCut = "bell_cut" {
        /// Depth where it begins to widen.
        from: Entered<Depth>,
        /// Depth of its foot.
        to: Entered<Depth>,
        /// Diameter at its foot.
        diameter: Option<Small>,
        /// Height of the cylinder under the cone.
        toe: Option<Entered<Length>>,
        /// Tool.
        tool: Option<String>,
        /// In words.
        note: Option<String>,
    }
    /// Plumbness of the hole or the drill string.
    PlumbMeasured = "plumb_measured" {
        /// Method.
        method: Option<String>,
        /// Readings, from the top down.
        points: Vec<PlumbPoint>,
    }
    /// Diameter of the hole, by caliper or tool.
    BoreMeasured = "bore_measured" {
        /// Method.
        method: Option<String>,
        /// Readings, from the top down.
        points: Vec<BorePoint>,
        /// Its file.
        file: Option<crate::entry::FileHash>,
    }
    /// A sample was taken.
    SampleTaken = "sample_taken" {
        /// Mark.
        sample: String,
        /// Depth.
        depth: Option<Entered<Depth>>,
        /// Length of core or sample.
        length: Option<Entered<Length>>,
        /// What it is.
        description: Option<String>,
    }
}
