//! Facts of the cage and its tubes: as found, as set, as it stood after the pour.

use super::Sources;
use crate::measure::{Measurement, Subject};
use criteria::Measured;
use quantity::{Elevation, Length, Moment, Span};
use record::EntryId;
use record::choices::CageMoment;
use record::kinds::plan::Bars;
use record::kinds::{
    CageChecked, CageElevation, CagePlanned, CageSet, CasingOut, TubeWater, TubesChecked, TubesFilled,
};

pub(super) fn measure(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((planned_entry, planned)) = sources.picture.plan.as_ref().and_then(|plan| plan.cage) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    let due = sources.concrete_started().is_some() || sources.log.last::<CageSet>().is_some();
    match sources.log.last::<CageChecked>() {
        Some((line, found)) => {
            let about = Found { found, planned, evidence: vec![line.entry.id, planned_entry], at: line.at };
            all.extend(about.steel());
            all.extend(about.spacers());
            all.extend(geometry(sources));
        }
        None if due => {
            all.extend(["cage.as_planned", "cage.ties", "cage.accepted"].map(Measurement::missing))
        }
        None => {}
    }
    all.extend(set(sources, planned));
    all.extend(later(sources, planned));
    if planned.tubes.is_some() {
        all.extend(tubes(sources, planned));
    }
    all
}

/// A cage as it was found beside the plan.
struct Found<'r> {
    found: &'r CageChecked,
    planned: &'r CagePlanned,
    evidence: Vec<EntryId>,
    at: Moment,
}

impl Found<'_> {
    fn is(&self, fact: &'static str, value: impl Into<Measured>) -> Measurement {
        Measurement::shaft(fact, value, self.evidence.clone()).at(self.at)
    }

    fn steel(&self) -> Vec<Measurement> {
        let (found, planned) = (self.found, self.planned);
        let mut all = Vec::new();
        match found.bars.is_empty() {
            true => all.push(Measurement::missing("cage.as_planned")),
            false => all.push(self.is("cage.as_planned", same_bars(&found.bars, &planned.bars))),
        }
        all.extend(self.short("cage.length_short", &planned.length, &found.length));
        all.extend(self.short("cage.lap_short", &planned.lap, &found.lap));
        let extended = found.bars_extended.as_ref().map(|part| part.value());
        all.extend(extended.map(|part| self.is("cage.bars_extended", part)));
        all.push(match &found.tied {
            Some(tied) => self.is("cage.ties", tied.value()),
            None => Measurement::missing("cage.ties"),
        });
        all
    }

    /// What is missing of a planned length; not measured where the plan has one and nobody found one.
    fn short(
        &self,
        fact: &'static str,
        planned: &Option<quantity::Entered<Length>>,
        found: &Option<quantity::Entered<Length>>,
    ) -> Option<Measurement> {
        let planned = planned.as_ref()?.value();
        Some(match found {
            Some(found) => self.is(fact, planned - found.value()),
            None => Measurement::missing(fact),
        })
    }

    fn spacers(&self) -> Vec<Measurement> {
        let found = self.found;
        let mut all = Vec::new();
        all.push(match found.spacers_per_level {
            Some(count) => self.is("cage.spacers.per_level", Measured::count(count)),
            None => Measurement::missing("cage.spacers.per_level"),
        });
        all.push(match &found.spacer_levels_every {
            Some(gap) => self.is("cage.spacers.vertical_gap", gap.value()),
            None => Measurement::missing("cage.spacers.vertical_gap"),
        });
        let around = found.spacers_per_level.filter(|count| *count > 0).map(|count| {
            let circle = std::f64::consts::PI * self.planned.diameter.value().to_meters();
            self.is("cage.spacers.arc_gap", Length::meters(circle / f64::from(count)))
        });
        all.extend(around);
        all.extend(found.spacer_end.as_ref().map(|end| self.is("cage.spacers.end_distance", end.value())));
        all
    }
}

/// The same number of each size, in whatever groups they were written.
fn same_bars(found: &[Bars], planned: &[Bars]) -> bool {
    let count = |bars: &[Bars]| {
        let mut sizes = std::collections::BTreeMap::new();
        for group in bars {
            *sizes.entry(group.size.trim().to_lowercase()).or_insert(0) += group.count;
        }
        sizes
    };
    count(found) == count(planned)
}

fn geometry(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some(cage) = &sources.reckoning.cage else { return Vec::new() };
    let one = |fact, length: Length| Measurement::shaft(fact, length, cage.entries.clone());
    let clear = cage.clear().map(|clear| one("cage.clear_spacing", clear));
    clear.into_iter().chain(cage.cover.map(|cover| one("cage.cover", cover))).collect()
}

fn set(sources: &Sources<'_, '_>, planned: &CagePlanned) -> Vec<Measurement> {
    let begun = sources.concrete_started();
    let Some((line, set)) = sources.log.last::<CageSet>() else {
        let missing = ["cage.held", "cage.top_deviation.set"].map(Measurement::missing);
        return begun.map_or_else(Vec::new, |_| missing.to_vec());
    };
    let evidence = vec![line.entry.id];
    let mut all = vec![match &set.held {
        Some(_) => Measurement::shaft("cage.held", true, evidence.clone()).at(line.at),
        None => Measurement::missing("cage.held"),
    }];
    all.extend(
        set.stand_off
            .as_ref()
            .map(|off| Measurement::shaft("cage.stand_off", off.value(), evidence.clone()).at(line.at)),
    );
    let top = set.top.as_ref().map(|top| top.value());
    all.extend(deviation("cage.top_deviation.set", planned, top, (line.at, line.entry.id)));
    if let Some((at, entry)) = begun {
        let accepted = super::pouring::cage_accepted(sources, at);
        let evidence = [Some(entry), accepted].into_iter().flatten().collect();
        all.push(Measurement::shaft("cage.accepted", accepted.is_some(), evidence));
    }
    all
}

/// Cage top against plan; not measured where the plan has an elevation and nobody read one.
fn deviation(
    fact: &'static str,
    planned: &CagePlanned,
    top: Option<Elevation>,
    read: (Moment, EntryId),
) -> Option<Measurement> {
    let planned = planned.top.as_ref()?.value();
    Some(match top {
        Some(top) => Measurement::shaft(fact, top.above(planned), vec![read.1]).at(read.0),
        None => Measurement::missing(fact),
    })
}

fn later(sources: &Sources<'_, '_>, planned: &CagePlanned) -> Vec<Measurement> {
    let read = |wanted: CageMoment| {
        let of = sources.log.each::<CageElevation>().rfind(|(_, read)| read.moment == wanted);
        of.map(|(line, read)| (read.top.value(), (line.at, line.entry.id)))
    };
    let mut all = Vec::new();
    let cases = [
        (CageMoment::AfterPour, "cage.top_deviation.after_pour", sources.pour_finished().is_some()),
        (
            CageMoment::AfterCasing,
            "cage.top_deviation.after_casing",
            sources.log.last::<CasingOut>().is_some(),
        ),
    ];
    for (moment, fact, due) in cases {
        match read(moment) {
            Some((top, place)) => all.extend(deviation(fact, planned, Some(top), place)),
            None if due && planned.top.is_some() => all.push(Measurement::missing(fact)),
            None => {}
        }
    }
    all
}

fn tubes(sources: &Sources<'_, '_>, planned: &CagePlanned) -> Vec<Measurement> {
    let mut all = tube_steel(sources, planned);
    let Some((begun, started)) = sources.concrete_started() else { return all };
    let checked = sources.log.each::<TubesChecked>().rfind(|(line, _)| line.at <= begun);
    let filled = sources.log.each::<TubesFilled>().rfind(|(line, _)| line.at <= begun);
    let so = |fact, entry: Option<EntryId>, said: Option<bool>| match entry {
        Some(entry) => match said {
            Some(said) => Measurement::shaft(fact, said, vec![entry]),
            None => Measurement::missing(fact),
        },
        None => Measurement::shaft(fact, false, vec![started]),
    };
    let inspected = checked.map(|(line, _)| line.entry.id);
    all.push(so("tubes.inspected", inspected, Some(true)));
    all.push(match watertight(sources, begun) {
        Some((tight, entry)) => Measurement::shaft("tubes.watertight", tight, vec![entry]),
        None => Measurement::missing("tubes.watertight"),
    });
    let entry = filled.map(|(line, _)| line.entry.id);
    all.push(so("tubes.filled_before_concrete", entry, filled.map(|(_, f)| f.clean_water != Some(false))));
    all.push(so("tubes.capped_before_concrete", entry, filled.and_then(|(_, filled)| filled.capped)));
    all.extend(after(sources));
    all
}

/// As the tubes were inspected in the hole, else as the cage was checked.
fn watertight(sources: &Sources<'_, '_>, begun: Moment) -> Option<(bool, EntryId)> {
    let tight = |checked: &TubesChecked| {
        let said: Vec<bool> = checked.tubes.iter().filter_map(|tube| tube.tight).collect();
        (!said.is_empty()).then(|| said.iter().all(|tight| *tight)).or(checked.good)
    };
    let inspected = sources.log.each::<TubesChecked>().filter(|(line, _)| line.at <= begun);
    let inspected =
        inspected.filter_map(|(line, checked)| Some((tight(checked)?, line.entry.id))).next_back();
    let lying = sources.log.last::<CageChecked>();
    inspected.or(lying.and_then(|(line, cage)| Some((cage.tubes_watertight?, line.entry.id))))
}

fn tube_steel(sources: &Sources<'_, '_>, planned: &CagePlanned) -> Vec<Measurement> {
    let Some(wanted) = &planned.tubes else { return Vec::new() };
    let Some((line, found)) = sources.log.last::<CageChecked>() else { return Vec::new() };
    let evidence = vec![line.entry.id];
    let Some(count) = found.tubes else { return vec![Measurement::missing("tubes.count")] };
    let material =
        wanted.material.is_none() || found.tube_material.is_none() || wanted.material == found.tube_material;
    let mut all = vec![
        Measurement::shaft("tubes.count", Measured::count(count), evidence.clone()).at(line.at),
        Measurement::shaft("tubes.as_planned", count == wanted.count && material, evidence.clone())
            .at(line.at),
    ];
    let subject = Subject::Tube("all".to_owned());
    let each = |fact, size: Length, evidence: Vec<EntryId>| {
        Measurement::of(fact, subject.clone(), Some(size.into()), evidence).at(line.at)
    };
    all.extend(
        found.tube_inside.as_ref().map(|size| each("tubes.inner_diameter", size.value(), evidence.clone())),
    );
    all.extend(
        found
            .tube_spacing
            .as_ref()
            .map(|gap| Measurement::shaft("tubes.spacing", gap.value(), evidence.clone()).at(line.at)),
    );
    all.extend(
        found
            .tubes_straight
            .map(|straight| Measurement::shaft("tubes.straight", straight, evidence.clone()).at(line.at)),
    );
    for (fact, value) in tube_ends(sources, found) {
        all.push(match value {
            Some((height, set)) => each(fact, height, vec![line.entry.id, set]),
            None => Measurement::of(fact, subject.clone(), None, evidence.clone()),
        });
    }
    all
}

/// Height of the tube feet over the bottom, and of their heads over the cut-off; due once the cage is set.
///
/// The foot of the cage hangs at its stand-off over the bottom.
fn tube_ends(
    sources: &Sources<'_, '_>,
    found: &CageChecked,
) -> Vec<(&'static str, Option<(Length, EntryId)>)> {
    let Some((line, set)) = sources.log.last::<CageSet>() else { return Vec::new() };
    let foot =
        found.tube_foot.as_ref().zip(set.stand_off.as_ref()).map(|(foot, off)| foot.value() + off.value());
    let base = sources.reckoning.hole.as_ref().map(|hole| hole.base.value);
    let cut_off = sources.picture.plan.as_ref().map(|plan| plan.cut_off);
    let head = foot
        .zip(found.tube_length.as_ref())
        .zip(base.zip(cut_off))
        .map(|((foot, length), (base, cut_off))| Elevation(base.0 + foot + length.value()).above(cut_off));
    let with_entry = |value: Option<Length>| value.map(|value| (value, line.entry.id));
    vec![("tubes.above_base", with_entry(foot)), ("tubes.above_joint", with_entry(head))]
}

fn after(sources: &Sources<'_, '_>) -> Vec<Measurement> {
    let Some((finished, last_concrete)) = sources.pour_over() else { return Vec::new() };
    let last = sources.log.last::<TubesFilled>();
    let delay = match last {
        Some((line, _)) => {
            let span = Span::minutes(line.at.minutes_since(finished));
            Measurement::shaft("tubes.fill_delay", span, vec![line.entry.id, last_concrete]).at(line.at)
        }
        None => Measurement::missing("tubes.fill_delay"),
    };
    let pulled = sources.picture.casings.iter().filter_map(|casing| casing.out).map(|(at, _)| at).max();
    let since = pulled.unwrap_or(finished).max(finished);
    let again = sources.log.each::<TubeWater>().find(|(line, _)| line.at >= since);
    let rechecked = match again {
        Some((line, _)) => {
            Measurement::shaft("tubes.rechecked_after_pour", true, vec![line.entry.id]).at(line.at)
        }
        None => Measurement::missing("tubes.rechecked_after_pour"),
    };
    vec![delay, rechecked]
}
