//! The cross section of the cage.

use crate::view::View;
use figure::{CageSection, Mark, Size, cage_section_svg};
use quantity::Length;
use record::kinds::CageChecked;

pub(crate) fn has_content(view: &View<'_, '_>) -> bool {
    view.assessment.reckoning.cage.is_some()
}

pub(crate) fn draw(view: &View<'_, '_>, size: Size) -> String {
    cage_section_svg(&section(view), size)
}

fn section(view: &View<'_, '_>) -> CageSection {
    let cage = view.assessment.reckoning.cage.as_ref();
    let plan = view.assessment.picture.plan.as_ref();
    let planned = plan.and_then(|plan| plan.cage).map(|(_, cage)| cage);
    let checked = view.log.last::<CageChecked>().map(|(_, cage)| cage);
    let tie = cage.and_then(|cage| cage.tie);
    let tube = planned.and_then(|cage| cage.tubes.as_ref()).and_then(|tubes| tubes.inside.as_ref());
    CageSection {
        title: view.title("cage"),
        subtitle: if checked.is_some() { "as checked".to_owned() } else { "as planned".to_owned() },
        width: view.scales().small,
        hole_diameter_m: plan.and_then(|plan| plan.diameter).map(Length::to_meters),
        casing_diameter_m: None,
        cage_diameter_m: cage.map(|cage| cage.outside.to_meters()),
        bars: cage.and_then(|cage| cage.bars).map_or(0, |(count, _)| count),
        bar_diameter_m: cage.and_then(|cage| cage.bars).map_or(0.0, |(_, bar)| bar.diameter.to_meters()),
        hoop_diameter_m: tie.map_or(0.0, |bar| bar.diameter.to_meters()),
        tubes: checked
            .and_then(|c| c.tubes)
            .or(planned.and_then(|c| Some(c.tubes.as_ref()?.count)))
            .unwrap_or(0),
        tube_diameter_m: tube.map_or(0.05, |inside| inside.value().to_meters() * 1.15),
        spacers: checked.and_then(|cage| cage.spacers_per_level).unwrap_or(0),
        clear_spacing_m: cage.and_then(|cage| cage.clear_around).map(Length::to_meters),
        clear_spacing_mark: view.mark("cage.clear_spacing"),
        cover_m: cage.and_then(|cage| cage.cover).map(Length::to_meters),
        cover_mark: view.mark("cage.cover"),
        statements: statements(view),
        blanks: Vec::new(),
        words: figure::Words::default(),
    }
}

/// Bars and hoops as written, with the mark of the comparison with the plan.
fn statements(view: &View<'_, '_>) -> Vec<(Mark, String)> {
    let planned = view.assessment.picture.plan.as_ref().and_then(|plan| plan.cage).map(|(_, cage)| cage);
    let checked = view.log.last::<CageChecked>().map(|(_, cage)| cage);
    let bars = checked.map(|cage| cage.bars.as_slice()).filter(|bars| !bars.is_empty());
    let bars = bars.or(planned.map(|cage| cage.bars.as_slice())).unwrap_or(&[]);
    let hoops = checked.map(|cage| cage.hoops.as_slice()).filter(|hoops| !hoops.is_empty());
    let hoops = hoops.or(planned.map(|cage| cage.hoops.as_slice())).unwrap_or(&[]);
    let mark = view.mark("cage.as_planned");
    let bars = bars.iter().map(|bars| (mark, format!("{} {}", bars.count, bars.size)));
    let hoops = hoops.iter().map(|hoop| {
        (Mark::NoLimit, format!("{} {} at {}", hoop.size, hoop.sort.word(), hoop.spacing.shown()))
    });
    bars.chain(hoops).collect()
}
