//! Entries about the job: who, where, in which units, judged by what, with which materials.

use crate::choices::*;
use crate::declare::{group, kinds};
use quantity::{
    Density, Entered, Fraction, FunnelTime, Length, Ph, Pressure, Span, Temperature, WaterCement,
};

group! {
    /// One point of a slump-loss trial.
    TrialPoint {
        /// Time since batching.
        age: Entered<Span>,
        /// Slump at that age.
        slump: Small,
    }
}

kinds! { Job:
    /// The job is opened: what every later entry is read by.
    JobOpened = "job_opened" {
        /// Name of the job.
        name: String,
        /// Contract or job number.
        number: Option<String>,
        /// Owner.
        owner: Option<String>,
        /// Contractor.
        contractor: Option<String>,
        /// Engineer.
        engineer: Option<String>,
        /// Where it is.
        location: Option<String>,
        /// What elevations are measured from.
        datum: Option<String>,
        /// What coordinates are measured in.
        grid: Option<String>,
        /// Which foot coordinates use.
        coordinate_foot: Option<CoordinateFoot>,
        /// Time zone, as in the IANA table, for example America/Denver.
        time_zone: String,
        /// Units of bare numbers.
        units: JobUnits,
        /// How lengths are printed.
        lengths: LengthStyle,
        /// The comma is the decimal sign.
        decimal_comma: Option<bool>,
        /// Made up for practice; never part of a real record.
        rehearsal: Option<bool>,
    }
    /// A person with a part in the job.
    PersonNamed = "person_named" {
        /// Full name.
        name: String,
        /// The part they play.
        role: Role,
        /// Whom they work for.
        organization: Option<String>,
        /// Certificate or licence.
        certificate: Option<String>,
    }
    /// A device whose key signs entries.
    DeviceNamed = "device_named" {
        /// What people call it.
        name: String,
        /// Who holds it.
        holder: Option<String>,
    }
    /// The criteria the job is judged by.
    CriteriaChosen = "criteria_chosen" {
        /// Key of the set.
        set: String,
        /// SHA-256 of its file.
        file: FileHash,
        /// The whole text of the file, when it is not one that comes with the program.
        text: Option<String>,
    }
    /// One limit is replaced or switched off, with a reason.
    LimitChanged = "limit_changed" {
        /// Id of the criterion.
        criterion: String,
        /// The limit in force, with its unit; blank: no limit is set any more.
        limit: Option<String>,
        /// Upper limit, where the criterion has two.
        limit_high: Option<String>,
        /// Why.
        reason: String,
        /// Who decided.
        by: Option<String>,
    }
    /// A concrete mix and its limits.
    MixApproved = "mix_approved" {
        /// Mix id, as on the tickets.
        mix: String,
        /// Producer and plant.
        producer: Option<String>,
        /// Cement: type and source.
        cement: Option<String>,
        /// Additions: fly ash, slag, silica fume, with their share.
        additions: Option<String>,
        /// Admixtures with their dose.
        admixtures: Option<String>,
        /// Aggregates: kind and source.
        aggregates: Option<String>,
        /// Strength required.
        strength: Option<Entered<Pressure>>,
        /// Age at which it is required.
        strength_age: Option<Entered<Span>>,
        /// Least slump when placed.
        slump_low: Option<Small>,
        /// Greatest slump when placed.
        slump_high: Option<Small>,
        /// Least slump until casing is out and inserts are in.
        slump_end: Option<Small>,
        /// Least spread of a flow test.
        flow_low: Option<Small>,
        /// Greatest spread of a flow test.
        flow_high: Option<Small>,
        /// Greatest water-cementitious ratio.
        w_cm: Option<Entered<WaterCement>>,
        /// Cementitious material.
        cementitious: Option<Content>,
        /// Fines, cement included.
        fines: Option<Content>,
        /// Design water.
        water: Option<Content>,
        /// Greatest aggregate size.
        aggregate: Option<Small>,
        /// Least air.
        air_low: Option<Entered<Fraction>>,
        /// Greatest air.
        air_high: Option<Entered<Fraction>>,
        /// Least concrete temperature.
        temperature_low: Option<Entered<Temperature>>,
        /// Greatest concrete temperature.
        temperature_high: Option<Entered<Temperature>>,
        /// Fresh unit weight.
        unit_weight: Option<Entered<Density>>,
        /// Time allowed from batching to the end of discharge.
        discharge_within: Option<Entered<Span>>,
        /// Drum revolutions allowed.
        revolutions: Option<u32>,
        /// Slump-loss trial, from the first reading to the last.
        trial: Vec<TrialPoint>,
        /// Concrete temperature during the trial.
        trial_temperature: Option<Entered<Temperature>>,
        /// Strength development class as in EN 1992: R, N or S.
        cement_class: Option<String>,
    }
    /// A drilling fluid product and its limits.
    FluidApproved = "fluid_approved" {
        /// Product, as on the delivery.
        product: String,
        /// What it is made of.
        fluid: FluidType,
        /// The water it meets.
        water: Option<WaterType>,
        /// A trial hole showed that it keeps this ground open.
        trial_hole: Option<bool>,
        /// Least density, where the product has its own limits.
        density_low: Option<Entered<Density>>,
        /// Greatest density.
        density_high: Option<Entered<Density>>,
        /// Least funnel time.
        viscosity_low: Option<Entered<FunnelTime>>,
        /// Greatest funnel time.
        viscosity_high: Option<Entered<FunnelTime>>,
        /// Least pH.
        ph_low: Option<Entered<Ph>>,
        /// Greatest pH.
        ph_high: Option<Entered<Ph>>,
        /// Greatest sand content.
        sand_high: Option<Entered<Fraction>>,
        /// Greatest fluid loss in 30 minutes.
        fluid_loss_high: Option<Liquid>,
        /// Greatest filter cake.
        cake_high: Option<Small>,
        /// Least gel strength.
        gel_low: Option<Weak>,
        /// Greatest gel strength.
        gel_high: Option<Weak>,
        /// Least height above groundwater.
        head: Option<Entered<Length>>,
        /// Time between tests.
        test_every: Option<Entered<Span>>,
    }
    /// A document the work is done by.
    DocumentListed = "document_listed" {
        /// Title or drawing number.
        title: String,
        /// Revision.
        revision: Option<String>,
        /// Its file.
        file: Option<FileHash>,
    }
    /// Field notes were read in from a file.
    NotesRead = "notes_read" {
        /// Name of the file, without its folder.
        name: String,
        /// SHA-256 of the file.
        file: FileHash,
        /// How many entries it gave.
        entries: u32,
    }
    /// Who has to sign before a shaft of this job can be sealed; without such an entry inspector and engineer.
    SealNeeds = "seal_needs" {
        /// The parts, each of which has to sign.
        roles: Vec<Role>,
        /// Why, or by which clause.
        reason: Option<String>,
    }
}

use crate::entry::FileHash;
