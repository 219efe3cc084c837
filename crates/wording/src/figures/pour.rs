//! Figures of the pour.

use super::{Figure, of_finding};
use crate::show::Show;
use assess::reckon::LoadLife;
use assess::reckon::{PourReckoning, SlumpReckoning};
use assess::{Aside, Assessment};

pub(super) fn figures(assessment: &Assessment<'_>, show: &Show) -> Vec<Figure> {
    let reckoning = &assessment.reckoning;
    let mut all = reckoning.pour.as_ref().map_or_else(Vec::new, |pour| volumes(pour, show));
    let facts = [
        ("volume.over_consumption", "Over-consumption"),
        ("line.embedment.least", "Least embedment of the line"),
        ("line.embedment.most", "Largest embedment of the line"),
        ("bottom.sediment.max", "Sediment, worst point"),
        ("bottom.sediment.mean", "Sediment, mean over the base"),
        ("placing.duration", "Duration of the pour"),
        ("placing.interruption", "Longest gap between two loads"),
    ];
    all.extend(facts.iter().filter_map(|(fact, label)| of_finding(assessment, fact, label, show)));
    let ran_over = assessment.findings.iter().find_map(|finding| match finding.aside {
        Some(Aside::RanOver(volume)) => Some(volume),
        _ => None,
    });
    all.extend(ran_over.map(|volume| {
        let how = "As entered with the over-pour; what was wasted is counted by its own entry.";
        Figure::new("placing.ran_over", "Ran over the top", show.volume(volume), how)
    }));
    all.extend(reckoning.fluid.settled.map(|settled| {
        let error = show.small(settled.standard_error);
        let value = format!("{} ± {error}", show.small(settled.value));
        let how = "Sediment on the base if all the sand of the last round of fluid tests came down.";
        Figure::new("fluid.settled", "Settling potential", value, how)
    }));
    all.extend(reckoning.slump.as_ref().map_or_else(Vec::new, |slump| lives(slump, show)));
    all
}

fn volumes(pour: &PourReckoning, show: &Show) -> Vec<Figure> {
    let Some(last) = pour.curve.intervals.last().map(|interval| &interval.cumulative) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    if let Some(theoretical) = last.theoretical {
        let how = "Nominal bore from the sounded bottom to the last sounding, casings as they stood.";
        let value = show.volume_estimate(theoretical);
        all.push(Figure::new("volume.theoretical", "Theoretical volume", value, how));
    }
    let how = "Discharged by tickets, less waste and what stands in the line, by the last sounding.";
    all.push(Figure::new("volume.placed", "Placed volume", show.volume_estimate(last.placed), how));
    if let Some(ratio) = last.ratio {
        let how = "Placed over theoretical, with the error of tape and tickets.";
        all.push(Figure::new("volume.ratio", "Ratio in all", show.ratio_estimate(ratio), how));
    }
    let how = "Ticket volumes of the loads that ended, less what was sent back; waste included.";
    all.push(Figure::new("volume.discharged", "Discharged", show.volume(pour.discharged), how));
    let how = "Entered as wasted, outside the truck.";
    all.push(Figure::new("volume.wasted", "Wasted", show.volume(pour.wasted), how));
    all
}

fn lives(slump: &SlumpReckoning, show: &Show) -> Vec<Figure> {
    slump.loads.iter().filter_map(|life| life_figure(life, slump, show)).collect()
}

fn life_figure(life: &LoadLife, slump: &SlumpReckoning, show: &Show) -> Option<Figure> {
    let label = format!("Slump life of load {}", life.ticket);
    let id = format!("slump.life.{}", life.ticket);
    let how = format!(
        "Age at which the trial of mix {}, shifted by the tests of the day, reaches the least slump.",
        slump.mix
    );
    let value = match (life.life, life.sure_until) {
        (Some(found), _) => {
            let ends = life.ends().map_or_else(String::new, |ends| format!(", until {}", show.moment(ends)));
            format!("{} ± {}{ends}", show.span(found.value), show.span(found.standard_error))
        }
        (None, Some(sure)) => format!("at least {}: the trial ends above the limit", show.span(sure)),
        (None, None) => return None,
    };
    Some(Figure { id, label, value, how })
}
