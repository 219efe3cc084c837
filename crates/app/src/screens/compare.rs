//! What only many shafts show: what they took, where concrete and hours went, how fluid and slump run, what fails again,
//! who writes late.
//!
//! Each line opens to the shafts and entries behind it, and each mark of a drawing leads to its own.

use super::job::JobShown;
use super::looking::OfJob;
use super::paths;
use super::reckoning::{Far, FarView, Whole};
use super::shell::{PageHead, bring_into_sight, sought};
use crate::device::use_device;
use crate::widgets::Svg;
use leptos::prelude::*;
use leptos::task::spawn_local;
use screen::live::{AcrossScreen, Reckoned};
use std::sync::Arc;
use wording::{AcrossLine, AcrossSection, Behind};

/// As wide as a tablet held upright, and as a phone, in points.
const WIDE: f64 = 640.0;
const NARROW: f64 = 272.0;
/// A phone is narrower than this, in pixels.
const PHONE: f64 = 600.0;

/// All of it.
#[component]
pub(super) fn Compare() -> impl IntoView {
    let shown = JobShown::here();
    let looking = shown.looking;
    let (screen, far) = shaft_by_shaft(shown);
    let none = move || screen.with(|screen| screen.as_ref().is_some_and(|screen| screen.sections.is_empty()));
    view! {
        <OfJob looking=looking>
            <section class="page page-wide">
                <PageHead heading="Shafts compared"/>
                <FarView far=far.into()/>
                {move || none().then(|| view! { <p class="empty">"Nothing was poured or judged on this job yet."</p> })}
                <Sections screen=screen.into()/>
            </section>
        </OfJob>
    }
}

/// Reckons the job of the address whenever its record changes; what is shown is always of the newest record.
fn shaft_by_shaft(shown: JobShown) -> (RwSignal<Option<Arc<AcrossScreen>>>, RwSignal<Option<Far>>) {
    let (looking, device) = (shown.looking, use_device());
    let (screen, far) = (RwSignal::new(None), RwSignal::new(None));
    let kept = StoredValue::new_local(None::<Whole>);
    Effect::new(move |_| {
        let (Some(record), job) = (looking.record.get(), looking.job.get()) else { return };
        let own = Arc::clone(&record);
        let newest = move || {
            let now = looking.record.try_get_untracked().flatten();
            now.is_some_and(|now| Arc::ptr_eq(&now, &own))
        };
        spawn_local(async move {
            let before = kept.try_get_value().flatten().filter(|before| before.record.job() == record.job());
            let turn = |done: Far| {
                far.try_set(Some(done));
                newest()
            };
            let Some(whole) = Whole::of((device, &job), record, before, turn).await else { return };
            let reckoned: Vec<&Reckoned> = whole.shafts.iter().collect();
            let together = AcrossScreen::together(&[&whole.record], &reckoned, device.now(&job));
            screen.try_set(Some(Arc::new(together)));
            far.try_set(None);
            if kept.try_with_value(Option::is_none).unwrap_or(false) {
                bring_into_sight(sought());
            }
            kept.try_set_value(Some(whole));
        });
    });
    (screen, far)
}

/// Every section with its drawings.
#[component]
pub(super) fn Sections(
    /// What is shown; `None` while it is being reckoned.
    screen: Signal<Option<Arc<AcrossScreen>>>,
) -> impl IntoView {
    move || {
        let screen = screen.get()?;
        let each = screen.sections.iter().map(|one| section(one.clone(), &screen));
        Some(each.collect_view())
    }
}

fn section(section: AcrossSection, screen: &AcrossScreen) -> impl IntoView + use<> {
    let id = format!("across-{}", section.word);
    let drawings = screen.drawings(section.word, width(), &paths::spot);
    let drawings =
        drawings.into_iter().map(|text| view! { <Svg text=Signal::stored(text) class="drawing-across"/> });
    let drawings = drawings.collect_view();
    let groups = groups(section.lines).into_iter().map(group).collect_view();
    view! {
        <section class="stack across" aria-labelledby=id.clone()>
            <h2 id=id.clone()>{section.heading}</h2>
            <p class="soft">{section.lead}</p>
            {drawings}
            <div class="across-lines">{groups}</div>
        </section>
    }
}

/// How wide drawings are made, in points: letters of a drawing made for a tablet could not be read on a phone.
pub(super) fn width() -> f64 {
    let screen = window().inner_width().ok().and_then(|width| width.as_f64()).unwrap_or(PHONE);
    if screen < PHONE { NARROW } else { WIDE }
}

/// Lines that follow each other under one name.
fn groups(lines: Vec<AcrossLine>) -> Vec<(&'static str, Vec<AcrossLine>)> {
    let mut groups: Vec<(&'static str, Vec<AcrossLine>)> = Vec::new();
    for line in lines {
        match groups.last_mut() {
            Some((name, same)) if *name == line.group => same.push(line),
            _ => groups.push((line.group, vec![line])),
        }
    }
    groups
}

fn group((name, lines): (&'static str, Vec<AcrossLine>)) -> impl IntoView {
    let lines = lines.into_iter().map(line).collect_view();
    view! { <div class="stack"><h3>{name}</h3><ul class="list">{lines}</ul></div> }
}

fn line(line: AcrossLine) -> impl IntoView {
    let behind = behind(line.behind);
    view! {
        <li class="list-row">
            <div class="list-main">
                <span class="list-name">{line.label}</span>
                <span class="small soft">{line.note}</span>
                {behind}
            </div>
            <strong class="list-value">{line.value}</strong>
        </li>
    }
}

/// What a line was made of, behind a fold; its rows are made when somebody opens it.
fn behind(all: Vec<Behind>) -> Option<impl IntoView> {
    let which = match all.len() {
        0 => return None,
        1 => "Behind it".to_owned(),
        many => format!("The {many} behind it"),
    };
    let open = RwSignal::new(false);
    let all = StoredValue::new(all);
    let row = |one: Behind| {
        let to = paths::spot(&one.spot);
        view! { <li><a class="list-row" href=to><span class="list-main">"Shaft " {one.spot.place.shaft}</span><span>{one.value}</span></a></li> }
    };
    let rows = move || open.get().then(|| all.get_value().into_iter().map(row).collect_view());
    Some(view! {
        <details class="more" on:toggle=move |_| open.set(true)>
            <summary>{which}</summary>
            <ul class="list">{rows}</ul>
        </details>
    })
}
