//! The few words a field may hold, and quantities whose bare number has a unit of its own.
//!
//! Each word is the trade's own where it has one. `other` is always there: what does not fit is written
//! in the remark beside it rather than forced.

use crate::declare::{choice, scaled};

scaled! {
    /// A small length: inches or millimetres.
    Small(Length, Small);
    /// A coordinate: feet (the job says which) or metres.
    Coordinate(Length, Coordinate);
    /// Mass in a volume of concrete: lb/yd³ or kg/m³.
    Content(Density, Content);
    /// A volume of liquid: gallons or litres.
    Liquid(Volume, Liquid);
    /// A small stress: psf or Pa.
    Weak(Pressure, Weak);
}

choice! {
    /// The units a job is written in.
    JobUnits {
        /// Feet, inches, cubic yards, pounds.
        Us = "us",
        /// Meters, millimeters, cubic meters, kilograms.
        Metric = "metric",
    }
    /// How lengths of the job are printed.
    LengthStyle {
        /// Feet and tenths: 12.5 ft.
        FeetTenths = "feet_tenths",
        /// Feet and inches: 12'-6".
        FeetInches = "feet_inches",
        /// Meters: 3.81 m.
        Meters = "meters",
    }
    /// Which foot the coordinates of the job use.
    CoordinateFoot {
        /// 0.3048 m exactly.
        International = "international",
        /// 1200/3937 m exactly.
        Survey = "survey",
    }
    /// What the shaft carries.
    Structure {
        /// Overhead sign structure.
        Sign = "sign",
        /// Signal or lighting mast arm.
        MastArm = "mast_arm",
        /// Light or camera pole.
        Pole = "pole",
        /// Bridge pier, bent or abutment.
        Bridge = "bridge",
        /// Retaining or noise wall.
        Wall = "wall",
        /// Building column.
        Building = "building",
        /// Trial shaft, not used in the work.
        Trial = "trial",
        /// Something else.
        Other = "other",
    }
    /// How the hole is kept open.
    Method {
        /// No water in the hole.
        Dry = "dry",
        /// Under water or drilling fluid.
        Wet = "wet",
        /// Inside temporary casing that is withdrawn.
        TemporaryCasing = "temporary_casing",
        /// Inside casing that stays.
        PermanentCasing = "permanent_casing",
    }
    /// What stands in the way of the tool.
    Ground {
        /// Made ground.
        Fill = "fill",
        /// Topsoil or organic soil.
        Organic = "organic",
        /// Clay.
        Clay = "clay",
        /// Silt.
        Silt = "silt",
        /// Sand.
        Sand = "sand",
        /// Gravel.
        Gravel = "gravel",
        /// Cobbles and boulders.
        Boulders = "boulders",
        /// Weathered rock.
        WeatheredRock = "weathered_rock",
        /// Rock.
        Rock = "rock",
        /// Something else, described in words.
        Other = "other",
    }
    /// How long a casing stays.
    CasingStay {
        /// Withdrawn during or after the pour.
        Temporary = "temporary",
        /// Left in the ground.
        Permanent = "permanent",
    }
    /// What a drilling fluid is made of.
    FluidType {
        /// Bentonite or another mineral.
        Mineral = "mineral",
        /// Polymer.
        Polymer = "polymer",
        /// Plain water.
        Water = "water",
    }
    /// The water a fluid meets.
    WaterType {
        /// Fresh.
        Fresh = "fresh",
        /// Salt or brackish.
        Salt = "salt",
    }
    /// At what stage of the work a fluid test was made.
    FluidStage {
        /// Before it goes into the hole.
        Introduction = "introduction",
        /// While drilling.
        Drilling = "drilling",
        /// Before the final cleaning.
        Cleaning = "cleaning",
        /// Immediately before concrete.
        BeforeConcrete = "before_concrete",
        /// Before it is used again.
        Reuse = "reuse",
    }
    /// Where a fluid sample came from.
    FluidPlace {
        /// Mixing or storage tank.
        Tank = "tank",
        /// The hole, at a depth.
        Hole = "hole",
    }
    /// Where in the section a reading was taken.
    Place {
        /// Centre.
        Center = "center",
        /// North quadrant.
        North = "north",
        /// East quadrant.
        East = "east",
        /// South quadrant.
        South = "south",
        /// West quadrant.
        West = "west",
        /// Inside the cage.
        Inside = "inside",
        /// Outside the cage, in the cover.
        Outside = "outside",
        /// Somewhere else, described in words.
        Other = "other",
    }
    /// Why the bottom was sounded.
    SoundingPurpose {
        /// After drilling.
        AfterDrilling = "after_drilling",
        /// After cleaning.
        AfterCleaning = "after_cleaning",
        /// After the cage was set.
        AfterCage = "after_cage",
        /// After a wait.
        AfterWait = "after_wait",
        /// Immediately before concrete.
        BeforeConcrete = "before_concrete",
    }
    /// An instrument that is checked.
    Instrument {
        /// Marsh funnel.
        Funnel = "funnel",
        /// Mud balance.
        Balance = "balance",
        /// Sand content set.
        SandSet = "sand_set",
        /// pH meter or paper.
        PhMeter = "ph_meter",
        /// Thermometer.
        Thermometer = "thermometer",
        /// Weighted tape.
        Tape = "tape",
        /// Slump cone.
        SlumpCone = "slump_cone",
        /// Air meter.
        AirMeter = "air_meter",
        /// Level or total station.
        Level = "level",
        /// Something else.
        Other = "other",
    }
    /// The sort of transverse bars.
    Transverse {
        /// Spiral.
        Spiral = "spiral",
        /// Closed hoops.
        Hoops = "hoops",
        /// Lapped ties.
        Ties = "ties",
    }
    /// Tube material.
    TubeMaterial {
        /// Steel.
        Steel = "steel",
        /// Plastic.
        Plastic = "plastic",
    }
    /// How concrete gets to the bottom.
    LineType {
        /// Gravity tremie.
        Tremie = "tremie",
        /// Pump line.
        Pump = "pump",
        /// Free fall in a dry hole.
        FreeFall = "free_fall",
    }
    /// Where wasted concrete went.
    Waste {
        /// Left in a line or hopper.
        Line = "line",
        /// Left in or sent back with the truck.
        Truck = "truck",
        /// Spilled.
        Spilled = "spilled",
        /// Flowed over the top.
        Overflow = "overflow",
        /// Used for tests.
        Tests = "tests",
    }
    /// When a cage elevation was read.
    CageMoment {
        /// When it was set.
        Set = "set",
        /// During the pour.
        Pour = "pour",
        /// After the pour.
        AfterPour = "after_pour",
        /// After the casing was withdrawn.
        AfterCasing = "after_casing",
    }
    /// What was decided about a finding.
    Decision {
        /// Accepted as it is, with a reason.
        Accepted = "accepted",
        /// To be repaired.
        Repair = "repair",
        /// To be tested further.
        Test = "test",
        /// Rejected.
        Rejected = "rejected",
        /// Corrected on site at once.
        Corrected = "corrected",
    }
    /// The part a person plays.
    Role {
        /// Inspector for the owner.
        Inspector = "inspector",
        /// Engineer who decides.
        Engineer = "engineer",
        /// Contractor's quality staff.
        ContractorQuality = "contractor_quality",
        /// Contractor's foreman or driller.
        Contractor = "contractor",
        /// Concrete producer.
        Producer = "producer",
        /// Owner.
        Owner = "owner",
        /// Testing laboratory.
        Laboratory = "laboratory",
        /// Another part.
        Other = "other",
    }
    /// An integrity test method, by its trade name.
    IntegrityMethod {
        /// Crosshole sonic.
        Crosshole = "crosshole",
        /// Single hole sonic.
        SingleHole = "single_hole",
        /// Thermal profile.
        Thermal = "thermal",
        /// Gamma-gamma density.
        Gamma = "gamma",
        /// Low strain impact.
        LowStrain = "low_strain",
        /// Core boring.
        Coring = "coring",
        /// Camera or probe at the base.
        Camera = "camera",
        /// Caliper of the bore.
        Caliper = "caliper",
        /// Something else.
        Other = "other",
    }
}
