//! What the other shafts of the job teach: how much more than the drawing they took, in all and in each stratum.
//!
//! Only shafts count whose pour was over at the time asked for, so that the same record gives the same answer when a day
//! is lived again. They come from their own logs; nothing of them is kept.
//!
//! Words: *earlier* = a shaft of the same job that was full by then.
//! Never: count this shaft for itself; take one shaft's ratio for the ground's; take what a pipe holds for what ground takes.

use crate::facts::pour_over;
use crate::layers::{Layer, is_in_ground, layers, within};
use crate::picture::Picture;
use crate::reckon::{PourReckoning, Reckoning};
use calc::curve::VolumeCurve;
use calc::estimate::Estimate;
use calc::geometry::Bore;
use calc::order::{Ahead, Beliefs, EarlierRatio, USUAL_BELIEFS, from_earlier, ratio_within};
use calc::profile::{EarlierInterval, Prior};
use quantity::{InOrder, Moment, Volume};
use record::{Body, Held, Log, Record};
use std::collections::BTreeMap;

/// More shafts than these teach nothing new: those poured last count. Ours, so that a job of two hundred shafts is
/// looked at as fast as one of twelve.
const MOST_SHAFTS: usize = 12;

/// The earlier shafts of a job, the one poured last at the end.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Earlier {
    shafts: Vec<EarlierShaft>,
}

/// One of them.
#[derive(Debug, Clone, PartialEq)]
pub struct EarlierShaft {
    /// Its name.
    pub name: String,
    /// When its pour was over.
    pub over: Moment,
    /// Its intervals, for what is usual on this job.
    pub intervals: Vec<EarlierInterval>,
    /// Its layers, with what each took.
    pub layers: Vec<(Layer, Estimate<f64>)>,
    /// What the whole took, from the first sounding to the last.
    pub whole: Option<Estimate<f64>>,
}

impl Earlier {
    /// No other shaft.
    pub fn none() -> Self {
        Earlier::default()
    }

    /// The shafts of a record that were full by a moment, other than one. Only those poured last are reckoned.
    pub fn of(record: &Record, shaft: &str, at: Moment) -> Self {
        let poured = poured_last_first(record, shaft, at);
        let told = poured.into_iter().filter_map(|other| of_shaft(record, other, at));
        let mut shafts: Vec<EarlierShaft> = told.take(MOST_SHAFTS).collect();
        shafts.put_in_order_by_key(|shaft| shaft.over);
        Earlier { shafts }
    }

    /// The shafts.
    pub fn shafts(&self) -> &[EarlierShaft] {
        &self.shafts
    }

    /// What a shaft of this job is taken to be like before its own readings.
    pub fn prior(&self) -> Prior {
        let intervals: Vec<Vec<EarlierInterval>> =
            self.shafts.iter().map(|shaft| shaft.intervals.clone()).collect();
        Prior::default().learned(&intervals)
    }

    /// What the earlier shafts took in each of some layers. Of a shaft counts the layer of the same words, else those of
    /// the same ground; where there is no layer at all, the whole of it.
    pub(crate) fn ratios(&self, layers: &[Layer]) -> Vec<EarlierRatio> {
        let of_layer = |stratum: usize| {
            let shafts = self.shafts.iter().enumerate();
            shafts.filter_map(move |(shaft, one)| {
                Some(EarlierRatio { shaft, stratum, ratio: one.ratio_like(layers.get(stratum))? })
            })
        };
        (0..layers.len().max(1)).flat_map(of_layer).collect()
    }

    /// The ratio to be expected in one layer, with its spread from shaft to shaft; `None` when no earlier shaft met it.
    /// Believed before them is what the estimate of the shape believes, so that a single shaft never makes it wider.
    pub(crate) fn expected(&self, layer: &Layer) -> Option<Estimate<f64>> {
        let ratios = self.ratios(std::slice::from_ref(layer));
        if ratios.is_empty() {
            return None;
        }
        let usual = Prior::default();
        let beliefs = Beliefs {
            ratio: Estimate::new(usual.ratio, usual.stratum_spread),
            apart: usual.shaft_spread,
            ..USUAL_BELIEFS
        };
        let ahead = [Ahead { stratum: 0, theoretical: Volume::cubic_meters(1.0) }];
        let told = from_earlier(&ratios, &ahead, &beliefs).ok()?;
        // Half of the band that holds two thirds: how far shafts may lie apart has a long tail, which is no spread.
        let [low, high] = told.band(ONE_DEVIATION).ok()?;
        Some(Estimate::new(told.mean(), (high - low) / 2.0))
    }
}

/// What lies within one standard deviation of a normal distribution.
const ONE_DEVIATION: f64 = 0.682_689_492_137_086;

impl EarlierShaft {
    fn ratio_like(&self, layer: Option<&Layer>) -> Option<Estimate<f64>> {
        let Some(layer) = layer.filter(|_| !self.layers.is_empty()) else { return self.whole };
        let same = |other: &&(Layer, Estimate<f64>)| other.0.ground == layer.ground;
        let of_ground: Vec<_> = self.layers.iter().filter(same).collect();
        let named = of_ground.iter().find(|other| other.0.words == layer.words);
        named.map(|found| found.1).or_else(|| mean(&of_ground))
    }
}

/// Layers of one sort of ground together; their errors may go together.
pub(crate) fn mean(layers: &[&(Layer, Estimate<f64>)]) -> Option<Estimate<f64>> {
    let count = layers.len() as f64;
    let sum = |of: fn(&Estimate<f64>) -> f64| layers.iter().map(|(_, ratio)| of(ratio)).sum::<f64>();
    let mean = Estimate::new(sum(|one| one.value) / count, sum(|one| one.standard_error) / count);
    (!layers.is_empty()).then_some(mean)
}

/// The other shafts with concrete in them by a moment, the one that was sounded last first.
fn poured_last_first<'r>(record: &'r Record, shaft: &str, at: Moment) -> Vec<&'r str> {
    let mut last: BTreeMap<&str, Moment> = BTreeMap::new();
    for held in record.entries() {
        let Held::Known(entry) = held else { continue };
        let Some(other) = entry.shaft.as_deref().filter(|other| *other != shaft) else { continue };
        if entry.observed_at <= at && matches!(entry.body, Body::ConcreteSounded(_)) {
            let seen = last.entry(other).or_insert(entry.observed_at);
            *seen = entry.observed_at.max(*seen);
        }
    }
    let mut poured: Vec<_> = last.into_iter().collect();
    poured.put_in_order_by_key(|(_, seen)| std::cmp::Reverse(*seen));
    poured.into_iter().map(|(shaft, _)| shaft).collect()
}

fn of_shaft(record: &Record, shaft: &str, at: Moment) -> Option<EarlierShaft> {
    let log = Log::of(record, Some(shaft), Some(at));
    let picture = Picture::of(&log, at);
    let (over, _) = pour_over(&log, &picture)?;
    let (hole, pour) = Reckoning::pour_of(&log, &picture)?;
    let bore = hole.drawn(at);
    Some(EarlierShaft {
        name: shaft.to_owned(),
        over,
        intervals: intervals(&pour.curve, &bore),
        layers: of_layers(&log, &picture, &bore, &pour),
        whole: whole(&pour.curve, &bore),
    })
}

/// From the first sounding to the last; `None` where a pipe stood there.
pub(crate) fn whole(curve: &VolumeCurve, bore: &Bore) -> Option<Estimate<f64>> {
    let (first, last) = (curve.intervals.first()?, curve.intervals.last()?);
    last.cumulative.ratio.filter(|_| is_in_ground(bore, last.upper, first.lower))
}

fn intervals(curve: &VolumeCurve, bore: &Bore) -> Vec<EarlierInterval> {
    let interval = |interval: &calc::curve::Interval| {
        let size = interval.theoretical?.value.to_cubic_meters();
        Some(EarlierInterval { ratio: interval.ratio?, size }).filter(|_| size > 0.0)
    };
    let in_ground = curve.intervals.iter().filter(|one| is_in_ground(bore, one.upper, one.lower));
    in_ground.filter_map(interval).collect()
}

pub(crate) fn of_layers(
    log: &Log<'_>,
    picture: &Picture<'_>,
    bore: &Bore,
    pour: &PourReckoning,
) -> Vec<(Layer, Estimate<f64>)> {
    let layers = layers(log, picture);
    let cut = within(&layers, bore.top(), bore.bottom());
    let in_ground = cut.into_iter().filter(|(_, [top, bottom])| is_in_ground(bore, *top, *bottom));
    let told = in_ground.filter_map(|(at, [top, bottom])| {
        // Above the last sounding nothing was read; the part below has to be half of the layer.
        Some((layers.get(at)?.clone(), ratio_within(&pour.curve, top, bottom)?.ratio))
    });
    told.collect()
}
