//! The measured value of a fact as text: beside a limit in the unit of the limit, else in the job's units.
//!
//! Never: round a value onto the other side of its limit.

use crate::number::{reading, telling_decimals, trimmed, usual_decimals, written_decimals};
use crate::show::Show;
use criteria::{Difference, Fact, LimitUnit, Limits, Measure, Measured};
use quantity::{Kind, Length, Number, Quantity, Span, System, units};

/// Lengths of this size and smaller are told as small lengths where no limit says otherwise.
const SMALL: &[&str] = &[
    "geometry.diameter",
    "equipment.tool_diameter_short",
    "dry.water_depth",
    "bottom.sediment.max",
    "bottom.sediment.mean",
    "bottom.sediment.half_area",
    "bottom.change_since_accepted",
    "cage.lap_short",
    "cage.clear_spacing",
    "cage.cover",
    "cage.spacers.arc_gap",
    "cage.stand_off",
    "cage.top_deviation.set",
    "cage.top_deviation.after_pour",
    "cage.top_deviation.after_casing",
    "cage.movement",
    "concrete.aggregate_size",
    "fluid.filter_cake.introduced",
    "fluid.filter_cake.drilling",
    "line.inner_diameter",
    "line.outer_diameter",
    "line.tip_above_bottom",
    "slump.placing",
    "slump.flow",
    "slump.flow_table",
    "slump.until_finished",
    "tubes.inner_diameter",
    "bolts.position_offset",
    "bolts.projection_deviation",
    "asbuilt.position_offset",
    "asbuilt.toe_offset",
    "asbuilt.top_deviation",
    "asbuilt.diameter_short",
    "asbuilt.diameter_over",
    "asbuilt.cover",
];

/// Speeds that are told in feet or metres an hour.
const FAST: &[&str] = &["placing.rise_rate", "line.lift_speed", "crosshole.velocity"];

fn fast_unit(show: &Show) -> &'static quantity::Unit {
    if show.style().system == System::Us { &units::FOOT_PER_HOUR } else { &units::METER_PER_HOUR }
}

/// A measured value.
pub(crate) fn measured_text(value: Measured, fact: &Fact, limits: Option<Limits>, show: &Show) -> String {
    match (value, limits) {
        (Measured::Truth(so), _) => if so { "yes" } else { "no" }.to_owned(),
        (Measured::Funnel(time), _) => {
            let number = Number::computed(time.to_seconds());
            in_unit(time.number().exact().map_or(number, Number::Exact), &[], time.basis(), show)
        }
        (_, Some(limits)) => beside(value.number().expect("a truth has no limits"), limits, show),
        (value, None) => alone(value, fact, show),
    }
}

/// In the unit of the limits, with digits enough to see the side.
fn beside(si: Number, limits: Limits, show: &Show) -> String {
    let unit = limits.unit;
    let number = reading(si, unit);
    let ends = [limits.low, limits.high].into_iter().flatten().map(|end| reading(end, unit));
    in_limit_unit(number, &ends.collect::<Vec<_>>(), unit, show)
}

/// In the units of the job.
fn alone(value: Measured, fact: &Fact, show: &Show) -> String {
    match value {
        Measured::Amount(Kind::Length, number) => length(number, fact, show),
        Measured::Amount(Kind::Span, number) => show.span(Span::seconds(number.to_f64())),
        Measured::Amount(kind, number) => {
            let unit = if FAST.contains(&fact.name) { fast_unit(show) } else { show.unit(kind) };
            in_unit(reading(number, LimitUnit::Unit(unit)), &[], unit, show)
        }
        Measured::TemperatureStep(number) => {
            let us = show.style().system == System::Us;
            let unit = LimitUnit::Step(if us { &units::FAHRENHEIT } else { &units::CELSIUS });
            in_limit_unit(reading(number, unit), &[], unit, show)
        }
        Measured::Plain(number) => {
            let counted = if let Measure::Plain(counted) = fact.measure { counted } else { "" };
            in_limit_unit(number, &[], LimitUnit::Plain(counted), show)
        }
        Measured::Funnel(_) | Measured::Truth(_) => unreachable!("told before"),
    }
}

fn length(number: Number, fact: &Fact, show: &Show) -> String {
    let length = number.exact().and_then(Length::exact).unwrap_or_else(|| Length::meters(number.to_f64()));
    if SMALL.contains(&fact.name) { show.small(length) } else { show.length(length) }
}

/// How far inside or outside: `0.5 in`. Between two percentages lie points: 6 % against 4 % is half as much again.
pub(crate) fn difference_text(difference: Difference, show: &Show) -> String {
    let number = crate::number::size(difference.number, difference.unit);
    let zero = crate::show::exact(0);
    let text = in_limit_unit(number, &[zero], difference.unit, show);
    match text.strip_suffix(units::PERCENT.symbol) {
        Some("1 ") => "1 point".to_owned(),
        Some(points) => format!("{points}points"),
        None => text,
    }
}

fn in_limit_unit(number: Number, others: &[Number], unit: LimitUnit, show: &Show) -> String {
    match unit {
        LimitUnit::Unit(unit) | LimitUnit::Step(unit) => in_unit(number, others, unit, show),
        LimitUnit::Plain(counted) => {
            let text = trimmed(number, telling_decimals(number, others, 2));
            let counted = if text == "1" { one_of(counted) } else { counted };
            show.sign(format!("{text} {counted}").trim_end().to_owned())
        }
    }
}

/// `spacer` for `spacers`; `class` stays.
fn one_of(counted: &str) -> &str {
    counted.strip_suffix('s').filter(|one| !one.ends_with('s')).unwrap_or(counted)
}

fn in_unit(number: Number, others: &[Number], unit: &quantity::Unit, show: &Show) -> String {
    let decimals = written_decimals(number, usual_decimals(unit));
    let text = trimmed(number, telling_decimals(number, others, decimals));
    show.sign(format!("{text} {}", unit.symbol).trim_end().to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use criteria::facts;

    #[test]
    fn every_small_length_is_a_length_of_the_list() {
        for name in SMALL {
            let fact = facts::named(name).unwrap_or_else(|| panic!("{name}"));
            assert_eq!(fact.measure, Measure::Amount(Kind::Length), "{name}");
        }
    }

    #[track_caller]
    fn check(fact: &str, value: Measured, expected: &str) {
        let show = Show::of(None);
        assert_eq!(measured_text(value, facts::named(fact).unwrap(), None, &show), expected);
    }

    #[test]
    fn a_value_without_a_limit_is_told_in_the_units_of_the_job() {
        check("bottom.sediment.max", Length::inches(1.5).into(), "1 1/2 in");
        check("line.embedment.least", Length::feet(11.4).into(), "11.4 ft");
        check("placing.interruption", Span::minutes(85.0).into(), "1 h 25 min");
        check("tubes.inspected", true.into(), "yes");
        check("cylinders.sets", Measured::count(2), "2 sets");
        check("cylinders.sets", Measured::count(1), "1 set");
        check("volume.ratio.total", Measured::ratio(1.114), "1.11");
        check("concrete.temperature_difference", Measured::temperature_step(10.0), "18 °F");
        check("fluid.viscosity.introduced", quantity::FunnelTime::seconds_per_quart(38.0).into(), "38 s/qt");
    }

    #[test]
    fn between_two_percentages_lie_points() {
        let told = |percent: f64| {
            let number = quantity::Fraction::percent(percent).number();
            let unit = LimitUnit::Unit(&units::PERCENT);
            difference_text(Difference { number, unit }, &Show::of(None))
        };
        assert_eq!(told(22.8), "22.8 points");
        assert_eq!(told(1.0), "1 point");
    }

    #[test]
    fn a_value_beside_a_limit_is_told_in_the_unit_of_the_limit() {
        let limits = Limits {
            low: None,
            high: Some(Length::inches(1.0).number()),
            unit: LimitUnit::Unit(&units::INCH),
        };
        let told = |inches: f64| {
            let fact = facts::named("bottom.sediment.max").unwrap();
            measured_text(Length::inches(inches).into(), fact, Some(limits), &Show::of(None))
        };
        assert_eq!(told(1.5), "1.5 in");
        assert_eq!(told(1.001), "1.001 in");
    }
}
