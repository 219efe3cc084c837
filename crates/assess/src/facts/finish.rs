//! Facts of the finished shaft: form, curing, bolts, as-built survey, integrity tests.

use super::Sources;
use crate::finding::{Finding, Outcome};
use crate::measure::{Measurement, Subject};
use criteria::{Conditions, Measured};
use quantity::{Fraction, Length, Moment, Pressure, Span};
use record::EntryId;
use record::choices::{CasingStay, IntegrityMethod};
use record::kinds::after::{Bolt, TubePair};
use record::kinds::{
    AnchorsPlanned, AnchorsSet, AsBuilt, BoreMeasured, ConduitSet, Curing, CylinderBroken, FormRemoved,
    IntegrityTest, TopFormed, Trimmed,
};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some(finished) = sources.pour_finished() else { return Vec::new() };
    let mut all = Vec::new();
    all.extend(form(sources, finished));
    all.extend(curing(sources, finished));
    all.extend(bolts(sources));
    all.extend(conduit(sources));
    all.extend(position(sources));
    all.extend(levels(sources));
    all.extend(diameters(sources));
    all.extend(integrity(sources, finished));
    let survey = sources.entries::<AsBuilt>();
    all.push(Measurement::of("asbuilt.tolerances_checked", Subject::Shaft, None, survey));
    all
}

/// Every tolerance of the finished shaft with a limit in force has a value; where the set limits none of them,
/// every tolerance that any shaft has. `None` when nothing was measured at all.
pub(crate) fn tolerances_measured(findings: &[Finding]) -> Option<bool> {
    let survey = |finding: &&Finding| {
        finding.fact.name.starts_with("asbuilt.") && finding.fact.name != "asbuilt.tolerances_checked"
    };
    let has_limit = |finding: &&Finding| finding.outcome() != Outcome::NoLimitSet;
    let limited: Vec<&Finding> = findings.iter().filter(survey).filter(has_limit).collect();
    let asked: Vec<&Finding> =
        if limited.is_empty() { findings.iter().filter(survey).collect() } else { limited };
    let measured = asked.iter().filter(|finding| finding.value.is_some()).count();
    (measured > 0).then_some(measured == asked.len())
}

fn form(sources: &Sources<'_, '_>, finished: Moment) -> Vec<Measurement> {
    let mut all = Vec::new();
    if let Some((line, form)) = sources.log.last::<TopFormed>() {
        let set = form.top.is_some() || form.width.is_some();
        all.push(Measurement::shaft("top.form_set", set, vec![line.entry.id]).at(line.at));
    }
    let Some((line, _)) = sources.log.last::<FormRemoved>() else { return all };
    let age = Span::minutes(line.at.minutes_since(finished));
    let known = Conditions::new().with_form_age(age);
    let one = |fact, value: Option<Measured>, evidence: Vec<EntryId>| {
        Measurement::of(fact, Subject::Shaft, value, evidence).at(line.at).when(known.clone())
    };
    all.push(one("form.age_at_removal", Some(age.into()), vec![line.entry.id]));
    let breaks = sources.log.each::<CylinderBroken>().filter(|(broken, _)| broken.at <= line.at);
    let breaks: Vec<(EntryId, Pressure)> =
        breaks.map(|(line, b)| (line.entry.id, b.strength.value())).collect();
    let strengths: Vec<Pressure> = breaks.iter().map(|(_, strength)| *strength).collect();
    let mean = calc::strength::strength_test(&strengths).ok().map(|test| test.mean.into());
    let evidence = breaks.iter().map(|(entry, _)| *entry).chain([line.entry.id]).collect();
    all.push(one("form.strength_at_removal", mean, evidence));
    all
}

fn curing(sources: &Sources<'_, '_>, finished: Moment) -> Vec<Measurement> {
    let Some((line, curing)) = sources.log.each::<Curing>().find(|(line, _)| line.at >= finished) else {
        return vec![Measurement::missing("curing.started")];
    };
    let mut all = vec![Measurement::shaft("curing.started", true, vec![line.entry.id]).at(line.at)];
    if let Some(until) = curing.until {
        let span = Span::minutes(until.minutes_since(line.at));
        all.push(Measurement::shaft("curing.duration", span, vec![line.entry.id]).at(until));
    }
    all
}

fn bolts(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((_, planned)) = sources.log.last::<AnchorsPlanned>() else { return Vec::new() };
    let Some((line, set)) = sources.log.last::<AnchorsSet>() else {
        return vec![Measurement::missing("bolts.position_offset")];
    };
    let projection = planned.projection.as_ref().map(|size| size.value());
    let mut all: Vec<Measurement> =
        set.bolts.iter().flat_map(|bolt| one_bolt(bolt, projection, (line.at, line.entry.id))).collect();
    if set.bolts.is_empty() {
        all.push(Measurement::missing("bolts.position_offset"));
    }
    if sources.picture.casings.iter().any(|casing| casing.stay == CasingStay::Temporary) {
        let again = sources.log.each::<AnchorsSet>().find(|(_, set)| set.after_casing == Some(true));
        all.push(match again {
            Some((line, _)) => Measurement::shaft("bolts.rechecked", true, vec![line.entry.id]),
            None => Measurement::missing("bolts.rechecked"),
        });
    }
    all
}

fn one_bolt(bolt: &Bolt, planned: Option<Length>, read: (Moment, EntryId)) -> Vec<Measurement> {
    let one = |fact, value: Option<Measured>| {
        let evidence = vec![read.1];
        Measurement::of(fact, Subject::Bolt(bolt.bolt.clone()), value, evidence).at(read.0)
    };
    let sides = bolt.east.as_ref().zip(bolt.north.as_ref());
    let offset = sides.map(|(east, north)| {
        calc::axis::Offset { east: east.value(), north: north.value() }.distance().into()
    });
    let projection =
        bolt.projection.as_ref().zip(planned).map(|(found, planned)| (found.value() - planned).into());
    let mut all = vec![one("bolts.position_offset", offset)];
    all.extend(projection.map(|value| one("bolts.projection_deviation", Some(value))));
    all.extend(bolt.plumb.as_ref().map(|plumb| one("bolts.plumbness", Some(plumb.value().into()))));
    all
}

fn conduit(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let (_, planned) = sources.log.last::<AnchorsPlanned>()?;
    planned.conduits.as_ref()?;
    let Some((line, set)) = sources.log.last::<ConduitSet>() else {
        return Some(Measurement::missing("conduit.as_planned"));
    };
    Some(match set.as_planned {
        Some(so) => Measurement::shaft("conduit.as_planned", so, vec![line.entry.id]).at(line.at),
        None => Measurement::missing("conduit.as_planned"),
    })
}

fn position(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let built = &sources.reckoning.as_built;
    let mut all = Vec::new();
    all.push(match built.offset {
        Some((offset, entry)) => {
            Measurement::shaft("asbuilt.position_offset", offset.distance(), vec![entry])
        }
        None => Measurement::missing("asbuilt.position_offset"),
    });
    all.push(match &built.axis {
        Some((_, entry)) => match built.off_plan {
            Some(slope) => Measurement::shaft("asbuilt.plumbness", slope, vec![*entry]),
            None => Measurement::missing("asbuilt.plumbness"),
        },
        None => Measurement::missing("asbuilt.plumbness"),
    });
    if let (Some(toe), Some((_, survey)), Some((_, plumb))) = (built.toe, built.offset, &built.axis) {
        all.push(Measurement::shaft("asbuilt.toe_offset", toe.distance(), vec![survey, *plumb]));
    }
    if let Some(cover) = &built.cover {
        all.push(Measurement::shaft("asbuilt.cover", cover.cover, built.cover_entries.clone()));
    }
    all
}

fn levels(sources: &Sources<'_, '_>) -> Option<Measurement> {
    let plan = sources.picture.plan.as_ref()?;
    let surveyed = sources.log.last::<AsBuilt>().and_then(|(line, b)| Some((b.top.as_ref()?.value(), line)));
    let trimmed = sources.log.last::<Trimmed>().map(|(line, trimmed)| (trimmed.top.value(), line));
    Some(match surveyed.or(trimmed) {
        Some((top, line)) => {
            let off = top.above(plan.cut_off);
            Measurement::shaft("asbuilt.top_deviation", off, vec![line.entry.id, plan.entry]).at(line.at)
        }
        None => Measurement::missing("asbuilt.top_deviation"),
    })
}

/// From calipers and the survey at the top; the least short of plan, the greatest over it.
fn diameters(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some(planned) = sources.picture.plan.as_ref().and_then(|plan| plan.diameter) else {
        return Vec::new();
    };
    let calipered = sources.log.each::<BoreMeasured>();
    let calipered = calipered
        .flat_map(|(line, bore)| bore.points.iter().map(move |p| (p.diameter.value(), line.entry.id)));
    let surveyed = sources
        .log
        .each::<AsBuilt>()
        .filter_map(|(line, b)| Some((b.diameter.as_ref()?.value(), line.entry.id)));
    let found: Vec<(Length, EntryId)> = calipered.chain(surveyed).collect();
    let least = found.iter().min_by_key(|(diameter, _)| *diameter);
    let most = found.iter().max_by_key(|(diameter, _)| *diameter);
    let Some(((least, least_entry), (most, most_entry))) = least.zip(most) else {
        return vec![Measurement::missing("asbuilt.diameter_short")];
    };
    vec![
        Measurement::shaft("asbuilt.diameter_short", planned - *least, vec![*least_entry]),
        Measurement::shaft("asbuilt.diameter_over", *most - planned, vec![*most_entry]),
    ]
}

fn integrity(sources: &Sources<'_, '_>, finished: Moment) -> Vec<Measurement> {
    let mut all = Vec::new();
    for (line, test) in sources.log.each::<IntegrityTest>() {
        let age = Span::minutes(line.at.minutes_since(finished));
        let fact = match test.method {
            IntegrityMethod::Crosshole | IntegrityMethod::SingleHole => "crosshole.age",
            IntegrityMethod::LowStrain => "lowstrain.age",
            IntegrityMethod::Thermal => "thermal.age",
            IntegrityMethod::Gamma => {
                all.extend(test.pairs.iter().filter_map(|pair| gamma(pair, (line.at, line.entry.id))));
                continue;
            }
            _ => continue,
        };
        all.push(Measurement::shaft(fact, age, vec![line.entry.id]).at(line.at));
        all.extend(test.pairs.iter().flat_map(|pair| one_pair(pair, (line.at, line.entry.id))));
        if test.method == IntegrityMethod::LowStrain {
            all.extend(strength_share(sources, (line.at, line.entry.id)));
        }
    }
    all
}

/// Mean of the breaks before the test over the strength of the mix.
fn strength_share(sources: &Sources<'_, '_>, read: (Moment, EntryId)) -> Option<Measurement> {
    let specified = sources.reckoning.strength.specified?.to_pascals();
    let breaks = sources.log.each::<CylinderBroken>().filter(|(line, _)| line.at <= read.0);
    let breaks: Vec<(EntryId, Pressure)> = breaks.map(|(l, b)| (l.entry.id, b.strength.value())).collect();
    let strengths: Vec<Pressure> = breaks.iter().map(|(_, strength)| *strength).collect();
    let fact = "lowstrain.strength_share";
    let Ok(test) = calc::strength::strength_test(&strengths) else { return Some(Measurement::missing(fact)) };
    let share = Fraction::part(test.mean.to_pascals() / specified);
    let evidence = breaks.into_iter().map(|(entry, _)| entry).chain([read.1]).collect();
    Some(Measurement::shaft(fact, share, evidence).at(read.0))
}

/// A plain number, with a point or a comma for its decimals: nobody groups the thousands of a decibel.
fn plain(text: Option<&str>) -> Option<f64> {
    let text = text?.trim().trim_end_matches("dB").trim().replace(',', ".");
    text.parse::<f64>().ok().filter(|number| number.is_finite())
}

fn gamma(pair: &TubePair, read: (Moment, EntryId)) -> Option<Measurement> {
    let value = Some(Measured::ratio(plain(pair.deviations.as_deref())?));
    let subject = Subject::Tube(pair.tubes.clone());
    Some(Measurement::of("gamma.deviation", subject, value, vec![read.1]).at(read.0))
}

/// Delay as written, and the velocity reduction that is the same thing said another way: `f / (1 + f)`.
fn one_pair(pair: &TubePair, read: (Moment, EntryId)) -> Vec<Measurement> {
    let one = |fact, value: Measured| {
        Measurement::of(fact, Subject::Tube(pair.tubes.clone()), Some(value), vec![read.1]).at(read.0)
    };
    let mut all = Vec::new();
    if let Some(delay) = &pair.delay {
        let delay = delay.value();
        all.push(one("crosshole.arrival_increase", delay.into()));
        let reduction = Fraction::part(delay.to_part() / (1.0 + delay.to_part()));
        all.push(one("crosshole.velocity_reduction", reduction.into()));
    }
    let energy = plain(pair.energy.as_deref());
    all.extend(energy.map(|energy| one("crosshole.energy_drop", Measured::ratio(energy))));
    all
}
