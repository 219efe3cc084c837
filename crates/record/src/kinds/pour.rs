//! Entries during the pour: line, loads, tests, soundings, interruptions.

use super::bottom::DepthPoint;
use crate::choices::*;
use crate::declare::{group, kinds};
use quantity::{
    Density, Depth, Elevation, Entered, Fraction, Length, Mass, Moment, Span, Temperature, Volume,
};

group! {
    /// One piece of a tremie or pump line.
    Pipe {
        /// Length.
        length: Entered<Length>,
        /// How many of it, one after the other; blank: one.
        count: Option<u32>,
    }
}

kinds! { Pour:
    /// A tremie or pump line is made up in the hole.
    LineMadeUp = "line_made_up" {
        /// What it is called.
        name: String,
        /// Gravity, pumped or free fall.
        line: LineType,
        /// Inside diameter.
        inside: Option<Small>,
        /// Outside diameter over the joints.
        outside: Option<Small>,
        /// Pieces from the lowest to the highest.
        pieces: Vec<Pipe>,
        /// Depth of the tip.
        tip: Option<Entered<Depth>>,
        /// Height of the tip above the bottom.
        off_bottom: Option<Small>,
        /// Joints are watertight.
        watertight: Option<bool>,
        /// Material; aluminium is a caution.
        material: Option<String>,
        /// Clean and smooth, inside and outside.
        clean: Option<bool>,
        /// Centred, so that the stream stays clear of the cage.
        centered: Option<bool>,
        /// Plug, plate or valve.
        plug: Option<String>,
        /// Volume of the hopper.
        hopper: Option<Entered<Volume>>,
        /// Volume that stays in a pump line.
        line_volume: Option<Entered<Volume>>,
    }
    /// The tip was moved.
    TipMoved = "tip_moved" {
        /// Which line.
        name: String,
        /// Depth of the tip now.
        tip: Entered<Depth>,
        /// Raised or lowered slowly.
        slowly: Option<bool>,
        /// Time the move took.
        took: Option<Entered<Span>>,
        /// Why.
        note: Option<String>,
    }
    /// Pieces came off the top.
    PiecesRemoved = "pieces_removed" {
        /// Which line.
        name: String,
        /// How many.
        count: u32,
        /// Depth of the tip now.
        tip: Option<Entered<Depth>>,
    }
    /// The line is out of the concrete.
    LineOut = "line_out" {
        /// Which line.
        name: String,
        /// In words.
        note: Option<String>,
    }
    /// A load is on site.
    LoadArrived = "load_arrived" {
        /// Ticket number.
        ticket: String,
        /// Truck.
        truck: Option<String>,
        /// Plant.
        plant: Option<String>,
        /// Mix.
        mix: Option<String>,
        /// Volume on the ticket.
        volume: Entered<Volume>,
        /// When it was batched.
        batched: Option<Moment>,
        /// Drum revolutions on arrival.
        revolutions: Option<u32>,
        /// Water batched.
        water: Option<Entered<Mass>>,
        /// Water in the aggregates, free.
        moisture: Option<Entered<Mass>>,
        /// Water added on the way, on the ticket.
        transit_water: Option<Liquid>,
        /// Cementitious material batched.
        cementitious: Option<Entered<Mass>>,
        /// Mass of the whole batch.
        batch_mass: Option<Entered<Mass>>,
        /// Water the ticket still allows.
        water_allowed: Option<Liquid>,
        /// Time from batching to the end of discharge, as on the ticket.
        discharge_within: Option<Entered<Span>>,
        /// Admixtures, as on the ticket.
        admixtures: Option<String>,
        /// The ticket was read: mix, w/c, revolutions, batch time.
        ticket_checked: Option<bool>,
    }
    /// A test of fresh concrete.
    ConcreteTest = "concrete_test" {
        /// Ticket of the load.
        ticket: String,
        /// When the sample was taken; blank: at the time of the entry.
        sampled: Option<Moment>,
        /// When the slump test began.
        started: Option<Moment>,
        /// Time from its beginning to its end.
        took: Option<Entered<Span>>,
        /// Slump.
        slump: Option<Small>,
        /// Spread of a flow test.
        flow: Option<Small>,
        /// Diameter on the flow table.
        flow_table: Option<Small>,
        /// Visual stability index of the spread, as its class.
        stability: Option<u32>,
        /// Air.
        air: Option<Entered<Fraction>>,
        /// Temperature.
        temperature: Option<Entered<Temperature>>,
        /// Unit weight.
        unit_weight: Option<Entered<Density>>,
        /// Cylinders or cubes made, their set.
        cylinders: Option<String>,
        /// Tester.
        by: Option<String>,
    }
    /// Water added on site.
    WaterAdded = "water_added" {
        /// Ticket of the load.
        ticket: String,
        /// How much.
        volume: Liquid,
        /// Who asked for it.
        by: Option<String>,
        /// Revolutions at mixing speed afterwards.
        revolutions: Option<u32>,
    }
    /// A load was sent away.
    LoadRefused = "load_refused" {
        /// Ticket of the load.
        ticket: String,
        /// Why.
        reason: String,
    }
    /// A load begins to discharge.
    DischargeStarted = "discharge_started" {
        /// Ticket of the load.
        ticket: String,
        /// Line it goes into.
        line: Option<String>,
    }
    /// A load has discharged.
    DischargeEnded = "discharge_ended" {
        /// Ticket of the load.
        ticket: String,
        /// Drum revolutions at the end.
        revolutions: Option<u32>,
        /// Volume sent back.
        returned: Option<Entered<Volume>>,
    }
    /// Concrete that did not end up in the shaft.
    ConcreteWasted = "concrete_wasted" {
        /// Ticket of the load.
        ticket: Option<String>,
        /// How much.
        volume: Entered<Volume>,
        /// Where it went.
        place: Waste,
        /// In words.
        note: Option<String>,
    }
    /// Depth to the concrete.
    ConcreteSounded = "concrete_sounded" {
        /// Readings.
        points: Vec<DepthPoint>,
        /// Ticket of the load it was read after.
        after: Option<String>,
        /// Part of that load discharged, where it was not the whole.
        share: Option<Entered<Fraction>>,
        /// Elevation, where one was written beside the depth.
        elevation: Option<Entered<Elevation>>,
        /// Reference the depths are measured from; blank: the one in force.
        reference: Option<String>,
        /// Added to every reading.
        tape_correction: Option<Entered<Length>>,
    }
    /// The flow stopped.
    Interruption = "interruption" {
        /// When it went on.
        until: Option<Moment>,
        /// Why.
        reason: String,
        /// Depth to the concrete while it stood still.
        level: Option<Entered<Depth>>,
    }
    /// Concrete pushed over the top until it was good.
    OverPoured = "over_poured" {
        /// Good concrete showed at the top.
        good: bool,
        /// Height above cut-off.
        height: Option<Entered<Length>>,
        /// Volume that ran over.
        volume: Option<Entered<Volume>>,
        /// In words.
        note: Option<String>,
    }
    /// The head of the shaft was vibrated.
    Vibrated = "vibrated" {
        /// Length from the top down.
        over: Option<Entered<Length>>,
        /// In words.
        note: Option<String>,
    }
    /// Concrete ordered.
    ConcreteOrdered = "concrete_ordered" {
        /// How much more.
        volume: Entered<Volume>,
        /// When it is due.
        due: Option<Moment>,
    }
}
