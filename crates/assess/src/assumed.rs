//! What is assumed where the record is silent, in one place, so that every report can print it.
//!
//! Each value only widens or narrows an error band or stands in for a density nobody measured; none is a
//! limit, and none changes a reading.
//!
//! Never: hold an acceptance limit.

use calc::curve::LoadError;
use calc::maturity::Activation;
use calc::pour_day::{Durations, HowLong};
use quantity::{Density, Fraction, Length, Span, Temperature, Volume};

/// Standard error of one sounding with a weighted tape: 0.1 ft, a careful reading. From memory; no
/// published figure was found.
pub fn tape_error() -> Length {
    Length::feet(0.1)
}

/// Standard error of a load's volume: 1 % each and 1 % shared by the loads of a plant and day, inside the
/// 1 to 2 % that is usual for ready-mixed concrete. [NRMCA-CIP-8], from memory.
pub fn load_error() -> LoadError {
    LoadError { each: 0.01, shared: 0.01 }
}

/// A truck where neither the plan nor a ticket says how much one holds: 9 yd³, or 7 m³ on a metric job. Common practice,
/// no source.
pub fn truck(in_yards: bool) -> Volume {
    if in_yards { Volume::cubic_yards(9.0) } else { Volume::cubic_meters(7.0) }
}

/// The step of a part load: half a cubic yard, or half a cubic metre. Common practice, no source.
pub fn truck_step(in_yards: bool) -> Volume {
    if in_yards { Volume::cubic_yards(0.5) } else { Volume::cubic_meters(0.5) }
}

/// Standard error of what stands in the lines and is lost in the end: 0.1 m³, as for a volume judged by eye.
/// Judgement.
pub fn lines_error() -> Volume {
    Volume::cubic_meters(0.1)
}

/// How long each part of a truck's round takes where nobody planned it. Common practice, no source: loading 6 min, road
/// 30, tests 7, into place 3, discharge 15, back and washed down 40, one section of the line 5, one lift of a casing
/// 10, and 30 from the last concrete until everything is in.
pub fn round() -> Durations {
    let long = |usual: f64, slow: f64| HowLong { usual: Span::minutes(usual), slow: Span::minutes(slow) };
    Durations {
        bay: long(6.0, 9.0),
        haul: long(30.0, 40.0),
        test: long(7.0, 10.0),
        position: long(3.0, 6.0),
        discharge: long(15.0, 25.0),
        back: long(40.0, 55.0),
        section: long(5.0, 8.0),
        lift: long(10.0, 15.0),
        finish: long(30.0, 45.0),
    }
}

/// How much longer than planned one time in ten takes, where the plan has one figure: by three tenths. Common practice,
/// no source.
pub fn slower() -> f64 {
    1.3
}

/// As how many of today's own loads the planned times count: four. Judgement.
pub fn plan_worth() -> f64 {
    4.0
}

/// A number of trucks is called enough from this probability on of ending in time without a gap over the limit: 0.95.
/// Judgement.
pub fn safe_from() -> f64 {
    0.95
}

/// More trucks than these are not tried: twelve. Judgement.
pub fn most_trucks() -> u32 {
    12
}

/// Intervals lower than this are too short to be read. Common practice, no source: about 3 ft.
pub fn least_rise() -> Length {
    Length::feet(3.0)
}

/// A shorter interval is read all the same where its ratio stands this many standard errors off the rest of its
/// shaft: then the readings say more than their errors can. Judgement; there is no source.
pub fn unmistakable() -> f64 {
    3.0
}

/// The share of its area that a stretch may lose before the estimate of the shape calls it a neck: 15 %.
/// Judgement; there is no source.
pub fn neck_share() -> Fraction {
    Fraction::percent(15.0)
}

/// From this probability on a neck is told as possible: 0.2. Judgement; there is no source.
pub fn neck_told_from() -> f64 {
    0.2
}

/// A stretch is told as wide when nine tenths of its band lie above the ratio of the shaft by more than this: a
/// tenth of it. Judgement; there is no source.
pub fn wide_beyond() -> f64 {
    1.1
}

/// A stretch is told as having taken less when nine tenths of its band lie below the ratio of the shaft by more than
/// this: a twentieth of it. Judgement; there is no source.
pub fn less_below() -> f64 {
    0.95
}

/// Fresh concrete where no unit weight was measured: 145 pcf. Common practice, no source.
pub fn concrete_density() -> Density {
    Density::pounds_per_cubic_foot(145.0)
}

/// Drilling fluid where no density was measured: water, 62.4 pcf.
pub fn fluid_density() -> Density {
    Density::pounds_per_cubic_foot(62.4)
}

/// Water.
pub fn water_density() -> Density {
    Density::pounds_per_cubic_foot(62.4)
}

/// Standard error of one slump test: half an inch. Common practice, no source.
pub fn slump_test_error() -> Length {
    Length::inches(0.5)
}

/// Scatter of slump from load to load of one mix: one inch. Common practice, no source.
pub fn slump_between_loads() -> Length {
    Length::inches(1.0)
}

/// Embedment a forecast looks at where the criteria in force set none: 5 ft, so that a forecast can warn.
/// From memory; the finding itself still says that no limit is set.
pub fn watched_embedment() -> Length {
    Length::feet(5.0)
}

/// The lift of a casing for which a forecast reckons the concrete to add: 5 ft. Common practice, no source.
pub fn watched_lift() -> Length {
    Length::feet(5.0)
}

/// Standard error of a mud balance: 0.01 g/cm³, its accuracy as printed. [ASTM-D4380].
pub fn balance_error() -> Density {
    calc::instrument::mud_balance_accuracy()
}

/// Standard error of a sand tube: half a percent, about a division of its scale. Common practice, no source.
pub fn sand_error() -> Fraction {
    Fraction::percent(0.5)
}

/// Voids of sand that has settled through fluid: 40 %. Common practice, no source.
pub fn sediment_porosity() -> Fraction {
    Fraction::percent(40.0)
}

/// Temperature below which concrete does not harden in a temperature-time factor: 0 °C. [ASTM-C1074], from
/// memory: a value for the mix itself has to be found by tests.
pub fn maturity_datum() -> Temperature {
    Temperature::celsius(0.0)
}

/// Constants of an equivalent age: 5000 K, 20 °C. [ASTM-C1074], from memory, suggested for Type I cement.
pub fn activation() -> Activation {
    Activation { q_kelvin: 5000.0, reference: Temperature::celsius(20.0) }
}

/// How long a fluid counts as new, and is tested by the shorter interval: the first 8 hours. From memory,
/// [FHWA-NHI-10-016]; its own wording, until samples of tank and bottom agree, needs a person.
pub fn fluid_is_new_for() -> Span {
    Span::hours(8.0)
}

/// Readings of two sensors this close together are of one time: half an hour. Ours.
pub fn same_time() -> Span {
    Span::minutes(30.0)
}
