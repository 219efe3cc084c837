//! Entries before the drill turns: plans approved, equipment and instruments checked, set out, cleared.

use crate::choices::*;
use crate::declare::kinds;
use crate::entry::FileHash;
use quantity::{Density, Elevation, Entered, Fraction, FunnelTime, Length, Moment, Ph, Temperature};

kinds! { Before:
    /// The installation plan and what became of it.
    InstallationPlan = "installation_plan" {
        /// Document.
        document: String,
        /// When it was handed in.
        submitted: Option<Moment>,
        /// Approved.
        approved: bool,
        /// By whom.
        by: Option<String>,
        /// Its file.
        file: Option<FileHash>,
        /// Order of the work and of the shafts.
        sequence: Option<String>,
        /// How position and plumbness are held.
        position: Option<String>,
        /// How casing goes in.
        casing_in: Option<String>,
        /// How casing comes out, and how the concrete stays workable until then.
        casing_out: Option<String>,
        /// How fluid is mixed, circulated and cleaned.
        fluid: Option<String>,
        /// How the placement is watched.
        placement: Option<String>,
    }
    /// A piece of equipment against what was approved.
    EquipmentChecked = "equipment_checked" {
        /// What it is.
        item: String,
        /// Diameter measured, for drilling tools.
        diameter: Option<Small>,
        /// As approved.
        as_approved: Option<bool>,
        /// Kept ready in case another one fails.
        spare: Option<bool>,
        /// In words.
        note: Option<String>,
    }
    /// An instrument against something known.
    InstrumentChecked = "instrument_checked" {
        /// Which.
        instrument: Instrument,
        /// Serial number or mark.
        serial: Option<String>,
        /// Funnel time of fresh water.
        water_time: Option<Entered<FunnelTime>>,
        /// Balance reading in fresh water.
        water_density: Option<Entered<Density>>,
        /// Temperature of the water.
        temperature: Option<Entered<Temperature>>,
        /// Buffer reading of a pH meter.
        ph: Option<Entered<Ph>>,
        /// Known value of that buffer.
        ph_known: Option<Entered<Ph>>,
        /// Sand reading on clean fluid.
        sand: Option<Entered<Fraction>>,
        /// Length the tape reads over a known length.
        tape_reads: Option<Entered<Length>>,
        /// That known length.
        tape_known: Option<Entered<Length>>,
        /// Fit for use.
        fit: Option<bool>,
        /// Certificate of its calibration, with the date.
        certificate: Option<String>,
        /// Who checked it.
        by: Option<String>,
        /// In words.
        note: Option<String>,
    }
    /// The centre as staked.
    StakeOut = "stake_out" {
        /// Northing.
        northing: Option<Coordinate>,
        /// Easting.
        easting: Option<Coordinate>,
        /// Offset stakes, in words.
        offsets: Option<String>,
        /// Who checked it.
        checked_by: Option<String>,
    }
    /// Buried and overhead lines.
    UtilitiesCleared = "utilities_cleared" {
        /// Locate request number.
        ticket: Option<String>,
        /// Depth dug by hand.
        hand_dug: Option<Entered<Length>>,
        /// What was found.
        found: Option<String>,
        /// Overhead lines are clear of the rig's reach.
        overhead_clear: Option<bool>,
    }
    /// The point depths are measured from.
    ReferenceSet = "reference_set" {
        /// What it is called: top of casing, ground stake.
        name: String,
        /// Its elevation.
        elevation: Entered<Elevation>,
        /// How it was found.
        how: Option<String>,
    }
    /// A meeting before the work.
    MeetingHeld = "meeting_held" {
        /// Who was there, what was settled.
        about: String,
        /// Cautions gone through.
        safety: Option<bool>,
    }
}
