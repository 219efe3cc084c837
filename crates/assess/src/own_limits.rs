//! The limits a job wrote itself: those of its mixes and its fluids.
//!
//! A set of criteria knows nothing of this job's mix; the entry that approved the mix does. Its limits are
//! judged beside those of the set, each as a criterion that stands on the job and names its entry.
//!
//! Words: *own* = written in `mix_approved` or `fluid_approved`.
//! Never: replace a limit of the set; apply the limits of one mix to another.

use crate::measure::{Measurement, Subject};
use crate::picture::Picture;
use criteria::conditions::When;
use criteria::{Criterion, Fact, InForce, Limit, LimitUnit, Printed, Recipe, Rule, Sure};
use quantity::{Entered, Exact, Quantity, Unit, units};
use record::kinds::{FluidApproved, FluidIntroduced, MixApproved};
use record::{EntryId, Log};
use std::sync::Arc;

/// The limits of the mixes and the fluid of a shaft.
#[derive(Debug, Clone, Default)]
pub(crate) struct OwnLimits {
    mixes: Vec<(String, EntryId, Vec<InForce>)>,
    fluid: Vec<InForce>,
}

impl OwnLimits {
    pub(crate) fn of(log: &Log<'_>, picture: &Picture<'_>) -> Self {
        let mixes =
            log.each::<MixApproved>().map(|(line, mix)| (mix.mix.clone(), line.entry.id, of_mix(mix)));
        OwnLimits { mixes: mixes.collect(), fluid: fluid(log, picture).map_or_else(Vec::new, of_fluid) }
    }

    /// The own limits that apply to a measurement.
    pub(crate) fn for_measurement<'o>(
        &'o self,
        picture: &Picture<'_>,
        measurement: &'o Measurement,
    ) -> impl Iterator<Item = &'o InForce> {
        let limits = match &measurement.subject {
            Subject::Load(ticket) => self.of_load(picture, ticket),
            Subject::Test(_) => self.fluid.as_slice(),
            Subject::Shaft => self.of_load(picture, picture.loads.first().map_or("", |load| load.ticket)),
            _ => &[],
        };
        limits.iter().filter(|own| own.original.fact.name == measurement.fact)
    }

    /// The limits of a load's mix; of the planned mix where the ticket names none.
    fn of_load(&self, picture: &Picture<'_>, ticket: &str) -> &[InForce] {
        let load = picture.loads.iter().find(|load| load.ticket == ticket);
        let planned = picture.plan.as_ref().and_then(|plan| plan.shaft.mix.as_deref());
        let mix = load.and_then(|load| load.arrival.mix.as_deref()).or(planned);
        let found = self.mixes.iter().rfind(|(name, ..)| Some(name.as_str()) == mix);
        found.map_or(&[], |(_, _, limits)| limits.as_slice())
    }
}

/// The approved product that went in; before that, the planned one.
fn fluid<'r>(log: &Log<'r>, picture: &Picture<'_>) -> Option<&'r FluidApproved> {
    let introduced = log.last::<FluidIntroduced>().map(|(_, fluid)| fluid.product.as_str());
    let planned = picture.plan.as_ref().and_then(|plan| plan.shaft.fluid.as_deref());
    let wanted = introduced.or(planned)?;
    log.each::<FluidApproved>().map(|(_, fluid)| fluid).rfind(|fluid| fluid.product.trim() == wanted.trim())
}

fn of_mix(mix: &MixApproved) -> Vec<InForce> {
    let about = |what: &str| (format!("job/mix/{}/{what}", plain_id(&mix.mix)), format!("mix {}", mix.mix));
    let slump = range(mix.slump_low.as_deref(), mix.slump_high.as_deref());
    let air = range(mix.air_low.as_ref(), mix.air_high.as_ref());
    let warmth = range(mix.temperature_low.as_ref(), mix.temperature_high.as_ref());
    let drum = mix.revolutions.map(|count| at_most(plain(count, "rev")));
    let own = [
        ("slump", "Slump when placed", "slump.placing", slump),
        ("slump-end", "Slump until the work is done", "slump.until_finished", low(mix.slump_end.as_deref())),
        ("air", "Air", "concrete.air", air),
        ("temperature", "Concrete temperature", "concrete.temperature", warmth),
        ("w-cm", "Water-cement ratio", "concrete.water_cement", high(mix.w_cm.as_ref())),
        (
            "discharge",
            "Batching to the end of discharge",
            "concrete.batch_to_discharge",
            high(mix.discharge_within.as_ref()),
        ),
        ("revolutions", "Drum revolutions", "concrete.revolutions", drum),
    ];
    own.into_iter()
        .filter_map(|(what, title, fact, rule)| criterion(about(what), title, fact, rule?))
        .collect()
}

fn of_fluid(fluid: &FluidApproved) -> Vec<InForce> {
    let about = |what: &str| {
        (format!("job/fluid/{}/{what}", plain_id(&fluid.product)), format!("fluid {}", fluid.product))
    };
    let density = range(fluid.density_low.as_ref(), fluid.density_high.as_ref());
    let viscosity = range(fluid.viscosity_low.as_ref(), fluid.viscosity_high.as_ref());
    let ph = range(fluid.ph_low.as_ref(), fluid.ph_high.as_ref());
    let sand = high(fluid.sand_high.as_ref());
    let mut own = Vec::new();
    for stage in ["introduced", "drilling", "before_concrete"] {
        let properties = [
            ("density", "Density", density.clone()),
            ("viscosity", "Funnel time", viscosity.clone()),
            ("ph", "pH", ph.clone()),
            // Sand settles out of what stands still: a product's sand limit is for fresh fluid and for concrete.
            ("sand", "Sand", sand.clone().filter(|_| stage != "drilling")),
        ];
        own.extend(properties.into_iter().filter_map(|(property, title, rule)| {
            let fact = criteria::facts::named(&format!("fluid.{property}.{stage}"))?.name;
            criterion(about(&format!("{property}-{stage}")), title, fact, rule?)
        }));
    }
    own
}

/// A name as a part of an id: no blanks, so that it can be typed.
fn plain_id(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join("-")
}

/// A criterion that stands on the job.
fn criterion(about: (String, String), title: &str, fact: &'static str, rule: Rule) -> Option<InForce> {
    let (id, thing) = about;
    let fact: &'static Fact = criteria::facts::named(fact)?;
    let original = Criterion {
        id,
        title: format!("{title}, as approved for {thing}"),
        fact,
        rule,
        when: When::default(),
        accuracy: None,
        holds: false,
        sure: Sure::Job,
        source: None,
        clause: None,
        verify: None,
        note: None,
        why: format!("The job approved {thing} with this limit."),
        if_fails: "The engineer decides; the load or the fluid waits.".to_owned(),
        line: usize::MAX,
    };
    Some(InForce { original: Arc::new(original), changed: None })
}

fn range<Q: Quantity>(low: Option<&Entered<Q>>, high_end: Option<&Entered<Q>>) -> Option<Rule> {
    match (low.and_then(printed), high_end.and_then(printed)) {
        (Some(low), Some(high)) if low.value <= high.value => Some(Rule::Between { low, high }),
        (Some(low), None) => Some(Rule::AtLeast(limit(low))),
        (None, Some(high)) => Some(at_most(high)),
        _ => None,
    }
}

fn high<Q: Quantity>(high_end: Option<&Entered<Q>>) -> Option<Rule> {
    high_end.and_then(printed).map(at_most)
}

fn low<Q: Quantity>(low_end: Option<&Entered<Q>>) -> Option<Rule> {
    low_end.and_then(printed).map(|printed| Rule::AtLeast(limit(printed)))
}

fn at_most(printed: Printed) -> Rule {
    Rule::AtMost(limit(printed))
}

fn limit(printed: Printed) -> Limit {
    Limit { unit: printed.unit, recipe: Recipe::Printed(printed) }
}

fn plain(count: u32, unit: &'static str) -> Printed {
    let value = Exact::from_integer(count.into());
    Printed { text: count.to_string(), unit: LimitUnit::Plain(unit), value }
}

/// What was typed as a limit is printed: its number and its unit apart.
///
/// `None` for what is not exact or is written in two units, `7'-6"`: the reading is then not judged by it.
fn printed<Q: Quantity>(entered: &Entered<Q>) -> Option<Printed> {
    let value = entered.value().number().exact()?;
    let (text, unit) = match entered.assumed() {
        Some(unit) => (entered.typed().trim().to_owned(), unit),
        None => number_and_unit::<Q>(entered.typed().trim())?,
    };
    Some(Printed { text, unit: LimitUnit::Unit(unit), value })
}

fn number_and_unit<Q: Quantity>(typed: &str) -> Option<(String, &'static Unit)> {
    let small = typed.to_lowercase();
    let spelled = |unit: &&'static Unit| {
        let spellings =
            unit.spellings.iter().copied().chain([unit.symbol]).filter(|spelling| !spelling.is_empty());
        let ends = spellings.filter(|spelling| small.ends_with(&spelling.to_lowercase())).map(str::len);
        ends.max().map(|length| (length, *unit))
    };
    let of_kind = units::ALL.iter().filter(|unit| unit.kind == Q::KIND);
    let (length, unit) = of_kind.filter_map(spelled).max_by_key(|(length, _)| *length)?;
    let number = typed.get(..typed.len().checked_sub(length)?)?.trim();
    let is_number = number.chars().all(|c| c.is_ascii_digit() || "+-.,/ ".contains(c)) && !number.is_empty();
    is_number.then(|| (number.to_owned(), unit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Density, Fraction, FunnelTime, Length, Reading};

    #[track_caller]
    fn check<Q: Quantity>(typed: &str, reading: Reading, expected: Option<(&str, &str)>) {
        let entered = Entered::<Q>::parse(typed, reading).expect("the tests write what can be read");
        let found = printed(&entered).map(|printed| (printed.text, printed.unit.symbol()));
        assert_eq!(found, expected.map(|(text, unit)| (text.to_owned(), unit)));
    }

    #[test]
    fn a_limit_is_printed_as_it_was_typed() {
        check::<Fraction>("4 %", Reading::default(), Some(("4", "%")));
        check::<Length>("7 1/2 in", Reading::default(), Some(("7 1/2", "in")));
        check::<Length>("8", Reading::unit(&units::INCH), Some(("8", "in")));
        check::<Density>("64.3 pcf", Reading::default(), Some(("64.3", "pcf")));
        check::<FunnelTime>("45 s/qt", Reading::default(), Some(("45", "s/qt")));
        check::<Length>("7'-6\"", Reading::default(), None);
    }
}
