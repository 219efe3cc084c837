//! The papers of the made-up job, field by field, in feet and yards and in metres.

/// Fields of an entry: path and text.
pub(super) type Fields = &'static [(&'static str, &'static str)];

/// The mix: on a day in feet and yards, and on one in metres.
pub(super) const MIX: [Fields; 2] = [
    &[
        ("mix", "R-4000"),
        ("strength", "4000 psi"),
        ("strength_age", "28 d"),
        ("slump_low", "7 in"),
        ("slump_high", "9 in"),
        ("slump_end", "4 in"),
        ("w_cm", "0.44"),
        ("cementitious", "675 lb/yd3"),
        ("aggregate", "3/8 in"),
        ("temperature_low", "50 F"),
        ("temperature_high", "90 F"),
        ("discharge_within", "90 min"),
        ("revolutions", "300"),
        ("trial.0.age", "0 min"),
        ("trial.0.slump", "8 1/2 in"),
        ("trial.1.age", "120 min"),
        ("trial.1.slump", "7 1/2 in"),
        ("trial.2.age", "240 min"),
        ("trial.2.slump", "6 in"),
        ("trial.3.age", "360 min"),
        ("trial.3.slump", "3 1/2 in"),
        ("trial.4.age", "480 min"),
        ("trial.4.slump", "2 in"),
    ],
    &[
        ("mix", "BP-30"),
        ("strength", "38 MPa"),
        ("strength_age", "28 d"),
        ("slump_low", "180 mm"),
        ("slump_high", "220 mm"),
        ("slump_end", "100 mm"),
        ("w_cm", "0.50"),
        ("cementitious", "390 kg/m3"),
        ("water", "190 kg/m3"),
        ("aggregate", "16 mm"),
        ("fines", "440 kg/m3"),
        ("temperature_low", "5 C"),
        ("temperature_high", "30 C"),
        ("unit_weight", "2380 kg/m3"),
        ("discharge_within", "120 min"),
        ("trial.0.age", "0 min"),
        ("trial.0.slump", "215 mm"),
        ("trial.1.age", "120 min"),
        ("trial.1.slump", "190 mm"),
        ("trial.2.age", "240 min"),
        ("trial.2.slump", "150 mm"),
        ("trial.3.age", "360 min"),
        ("trial.3.slump", "90 mm"),
        ("trial.4.age", "480 min"),
        ("trial.4.slump", "50 mm"),
    ],
];

/// The fluid.
pub(super) const FLUID: [Fields; 2] = [
    &[("product", "Stillwater R"), ("fluid", "polymer"), ("water", "fresh"), ("trial_hole", "yes")],
    &[
        ("product", "Stillwater B"),
        ("fluid", "mineral"),
        ("water", "fresh"),
        ("density_high", "1.15 g/cm3"),
        ("viscosity_low", "32 s/946 ml"),
        ("viscosity_high", "50 s/946 ml"),
        ("ph_low", "7"),
        ("ph_high", "11"),
        ("sand_high", "4 %"),
        ("head", "1.5 m"),
    ],
];

/// Where the shaft stands, its bore and what goes into it; the levels are those of the drawing.
pub(super) const PLAN: [Fields; 2] = [
    &[
        ("northing", "1000.00 ft"),
        ("groundwater", "85.0 ft"),
        ("bore.0.diameter", "48 in"),
        ("mix", "R-4000"),
        ("fluid", "Stillwater R"),
    ],
    &[
        ("northing", "1000.00 m"),
        ("cut_off", "50.00 m"),
        ("groundwater", "47.10 m"),
        ("bore.0.diameter", "1200 mm"),
        ("mix", "BP-30"),
        ("fluid", "Stillwater B"),
    ],
];

/// The cage.
pub(super) const CAGE: [Fields; 2] = [
    &[
        ("length", "59.5 ft"),
        ("diameter", "40 in"),
        ("bars.0.count", "12"),
        ("bars.0.size", "#9"),
        ("hoops.0.sort", "hoops"),
        ("hoops.0.size", "#4"),
        ("hoops.0.spacing", "12 in"),
        ("cover", "4 in"),
        ("top", "99.8 ft"),
        ("stand_off", "4 in"),
    ],
    &[
        ("length", "17.30 m"),
        ("diameter", "1040 mm"),
        ("bars.0.count", "12"),
        ("bars.0.size", "25 mm"),
        ("hoops.0.sort", "spiral"),
        ("hoops.0.size", "12 mm"),
        ("hoops.0.spacing", "200 mm"),
        ("cover", "80 mm"),
        ("top", "50.90 m"),
        ("stand_off", "100 mm"),
    ],
];

/// The cage as it came.
pub(super) const CAGE_CAME: [Fields; 2] = [
    &[
        ("bars.0.count", "12"),
        ("bars.0.size", "#9"),
        ("hoops.0.sort", "hoops"),
        ("hoops.0.size", "#4"),
        ("hoops.0.spacing", "12 in"),
        ("diameter", "40 in"),
        ("length", "59.5 ft"),
        ("spacer_levels_every", "5 ft"),
        ("spacer_end", "24 in"),
        ("spacer_cover", "4 in"),
    ],
    &[
        ("bars.0.count", "12"),
        ("bars.0.size", "25 mm"),
        ("hoops.0.sort", "spiral"),
        ("hoops.0.size", "12 mm"),
        ("hoops.0.spacing", "200 mm"),
        ("diameter", "1040 mm"),
        ("length", "17.30 m"),
        ("spacer_levels_every", "1.5 m"),
        ("spacer_end", "0.6 m"),
        ("spacer_cover", "80 mm"),
    ],
];

/// The casing.
pub(super) const CASING: [Fields; 2] = [
    &[("outside", "50 in"), ("wall", "1/2 in"), ("length", "8 ft"), ("top", "101.0 ft")],
    &[("outside", "1250 mm"), ("wall", "12 mm"), ("length", "2.50 m"), ("top", "52.00 m")],
];

/// The tremie.
pub(super) const TREMIE: [Fields; 2] = [
    &[
        ("inside", "10 in"),
        ("pieces.0.length", "10 ft"),
        ("pieces.0.count", "6"),
        ("pieces.1.length", "5 ft"),
        ("off_bottom", "6 in"),
        ("hopper", "1.5 cy"),
    ],
    &[
        ("inside", "250 mm"),
        ("outside", "298 mm"),
        ("pieces.0.length", "1.5 m"),
        ("pieces.0.count", "12"),
        ("pieces.1.length", "1 m"),
        ("off_bottom", "200 mm"),
        ("hopper", "1.2 m3"),
    ],
];

/// How the instruments were checked in the morning.
pub(super) const CHECKS: [[Fields; 3]; 2] = [
    [
        &[("instrument", "funnel"), ("water_time", "26.0 s/qt"), ("temperature", "70 F")],
        &[("instrument", "balance"), ("water_density", "62.4 pcf"), ("temperature", "70 F")],
        &[("instrument", "tape"), ("tape_reads", "25.0 ft"), ("tape_known", "25.0 ft"), ("fit", "yes")],
    ],
    [
        &[("instrument", "funnel"), ("water_time", "26 s/946 ml"), ("temperature", "21 C")],
        &[("instrument", "balance"), ("water_density", "1.00 g/cm3"), ("temperature", "21 C")],
        &[("instrument", "tape"), ("tape_reads", "10.00 m"), ("tape_known", "10.00 m"), ("fit", "yes")],
    ],
];

/// What the finished shaft was surveyed with, days later; its top is that of the drawing.
pub(super) const AS_BUILT: [Fields; 2] = [
    &[("east", "1/2 in"), ("north", "0 in"), ("diameter", "50 in")],
    &[("east", "15 mm"), ("north", "0 mm"), ("diameter", "1250 mm")],
];

/// Sediment at five points: after cleaning, right before concrete, and after the hole stood for hours.
pub(super) const SEDIMENT: [[[&str; 5]; 3]; 2] = [
    [
        ["1/4 in", "1/4 in", "3/8 in", "1/4 in", "1/4 in"],
        ["1/4 in", "1/4 in", "3/8 in", "3/8 in", "1/4 in"],
        ["3 in", "2 1/2 in", "3 in", "2 1/2 in", "3 in"],
    ],
    [
        ["5 mm", "5 mm", "10 mm", "5 mm", "5 mm"],
        ["5 mm", "5 mm", "10 mm", "10 mm", "5 mm"],
        ["70 mm", "60 mm", "70 mm", "60 mm", "70 mm"],
    ],
];
