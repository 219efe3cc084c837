//! The cage: clear spacing, cover, spacing of spacers and tubes, from what was found, else from the plan.

use crate::picture::Picture;
use calc::bars::{self, Bar};
use calc::cage::{BarCircle, CageOutline, Steel, Ties};
use quantity::{Fraction, Length};
use record::choices::Transverse;
use record::kinds::plan::{Bars, Hoops};
use record::kinds::{CageChecked, CagePlanned};
use record::{EntryId, Log};

/// What the formulas make of a cage.
#[derive(Debug, Clone, PartialEq)]
pub struct CageReckoning {
    /// The entries behind it.
    pub entries: Vec<EntryId>,
    /// Diameter over the transverse bars.
    pub outside: Length,
    /// Circle through the middles of the longitudinal bars; `None` when a size is unknown.
    pub bar_circle: Option<Length>,
    /// The longitudinal bars: how many, and their size as in the table.
    pub bars: Option<(u32, Bar)>,
    /// The thickest transverse bar.
    pub tie: Option<Bar>,
    /// Clear distance along the circle.
    pub clear_around: Option<Length>,
    /// Least clear distance between hoops.
    pub clear_along: Option<Length>,
    /// Cover of a centred cage in the nominal bore.
    pub cover: Option<Length>,
    /// Bars and hoops as the formulas want them; `None` when a size is unknown.
    pub steel: Option<Steel>,
    /// Steel along the shaft over the area of the bore.
    pub ratio: Option<Fraction>,
    /// Mass of one metre of cage, kilograms.
    pub kilograms_per_meter: Option<f64>,
    /// Overall length: as found, else as planned.
    pub length: Option<Length>,
    /// Inside of the hoops: what the line has to pass through.
    pub inner_width: Option<Length>,
}

impl CageReckoning {
    pub(super) fn of(log: &Log<'_>, picture: &Picture<'_>) -> Option<Self> {
        let planned = picture.plan.as_ref().and_then(|plan| plan.cage);
        let checked = log.last::<CageChecked>().map(|(line, cage)| (line.entry.id, cage));
        let outside = outside(planned, checked)?;
        let bars = longitudinal(checked, planned);
        let hoops = transverse(checked, planned);
        let tie = hoops.iter().filter_map(|hoop| bars::find(&hoop.size)).max_by_key(|bar| bar.diameter);
        let bar_circle = bars.zip(tie).and_then(|((_, bar), tie)| {
            CageOutline { outside, tie: tie.diameter, bar: bar.diameter }.bar_circle().ok()
        });
        let around = bars.zip(bar_circle).and_then(|((places, bar), circle)| {
            BarCircle { places, bars_abreast: 1, bar, circle }.clear_gap().ok()
        });
        let bore = picture.plan.as_ref().and_then(|plan| plan.diameter);
        let steel = steel(bars, bar_circle, hoops, outside);
        let inner_width = bars.zip(bar_circle).map(|((_, bar), circle)| circle - bar.diameter);
        Some(CageReckoning {
            entries: [checked.map(|(id, _)| id), planned.map(|(id, _)| id)].into_iter().flatten().collect(),
            outside,
            bar_circle,
            bars,
            tie,
            clear_around: around,
            clear_along: hoops.iter().filter_map(|hoop| along(hoop, outside)).min(),
            cover: bore.and_then(|bore| calc::cover::centred_cover(bore, outside).ok()),
            ratio: steel.as_ref().zip(bore).and_then(|(steel, bore)| steel.ratio(bore).ok()),
            kilograms_per_meter: steel.as_ref().and_then(|steel| steel.kilograms_per_meter().ok()),
            length: length(planned, checked),
            inner_width,
            steel,
        })
    }

    /// The least clear distance, around or along.
    pub fn clear(&self) -> Option<Length> {
        self.clear_around.into_iter().chain(self.clear_along).min()
    }
}

/// Bars and hoops with their circles; `None` where any size is unknown, so that nothing is left out unseen.
fn steel(
    bars: Option<(u32, Bar)>,
    circle: Option<Length>,
    hoops: &[Hoops],
    outside: Length,
) -> Option<Steel> {
    let ((places, bar), circle) = bars.zip(circle)?;
    let ties: Option<Vec<Ties>> = hoops.iter().map(|hoop| ties(hoop, outside)).collect();
    Some(Steel { bars: vec![BarCircle { places, bars_abreast: 1, bar, circle }], ties: ties? })
}

type Planned<'r> = Option<(EntryId, &'r CagePlanned)>;
type Checked<'r> = Option<(EntryId, &'r CageChecked)>;

fn outside(planned: Planned<'_>, checked: Checked<'_>) -> Option<Length> {
    let found = checked.and_then(|(_, cage)| cage.diameter.as_ref()).map(|size| size.value());
    found.or(planned.map(|(_, cage)| cage.diameter.value()))
}

/// Number and size of the longitudinal bars; `None` where sizes are mixed or unknown.
fn longitudinal(checked: Checked<'_>, planned: Planned<'_>) -> Option<(u32, Bar)> {
    let found = checked.map(|(_, cage)| cage.bars.as_slice()).filter(|bars| !bars.is_empty());
    let bars: &[Bars] = found.or(planned.map(|(_, cage)| cage.bars.as_slice()))?;
    let size = bars::find(&bars.first()?.size)?;
    bars.iter()
        .all(|group| group.size == bars[0].size)
        .then(|| (bars.iter().map(|group| group.count).sum(), size))
}

fn transverse<'r>(checked: Checked<'r>, planned: Planned<'r>) -> &'r [Hoops] {
    let found = checked.map(|(_, cage)| cage.hoops.as_slice()).filter(|hoops| !hoops.is_empty());
    found.or(planned.map(|(_, cage)| cage.hoops.as_slice())).unwrap_or(&[])
}

fn ties(hoop: &Hoops, outside: Length) -> Option<Ties> {
    let bar = bars::find(&hoop.size)?;
    let (circle, spiral) = (outside - bar.diameter, hoop.sort == Transverse::Spiral);
    Some(Ties { bar, pitch: hoop.spacing.value(), circle, spiral })
}

fn along(hoop: &Hoops, outside: Length) -> Option<Length> {
    ties(hoop, outside)?.clear_gap().ok()
}

fn length(planned: Planned<'_>, checked: Checked<'_>) -> Option<Length> {
    let found = checked.and_then(|(_, cage)| cage.length.as_ref());
    found.or(planned.and_then(|(_, cage)| cage.length.as_ref())).map(|length| length.value())
}
