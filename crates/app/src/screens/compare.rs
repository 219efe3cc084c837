//! What only many shafts show: what they took, where concrete and hours went, what fails again, who writes late.
//!
//! Each line opens to the shafts behind it, and each shaft to its own record.

use super::job::JobShown;
use super::looking::OfJob;
use super::paths;
use super::shell::title;
use crate::widgets::Svg;
use leptos::prelude::*;
use screen::live::{self, AcrossScreen};
use wording::{AcrossLine, AcrossSection, Place};

/// As wide as a tablet held upright, in points.
const WIDE: f64 = 640.0;

/// All of it.
#[component]
pub(super) fn Compare() -> impl IntoView {
    let shown = JobShown::here();
    let looking = shown.looking;
    let across: Memo<Option<AcrossScreen>> =
        Memo::new(move |_| looking.record.get().map(|record| live::across(&record, looking.now())));
    let drawing = Memo::new(move |_| across.get().map(|across| across.drawing(WIDE)).unwrap_or_default());
    let drawn = move || {
        (!drawing.read().is_empty()).then(|| {
            view! { <div class="drawing-scroll" tabindex="0" role="region" aria-label="Drawing"><Svg text=drawing/></div> }
        })
    };
    let sections = move || {
        let all = across.get().map(|across| across.sections).unwrap_or_default();
        all.into_iter().map(section).collect_view()
    };
    let none = move || across.get().is_some_and(|across| across.sections.is_empty());
    title(|| "Shafts compared".to_owned());
    view! {
        <OfJob looking=looking>
            <section class="page page-wide">
                <h1>"Shafts compared"</h1>
                {move || none().then(|| view! { <p class="empty">"Nothing was poured or judged on this job yet."</p> })}
                {drawn}
                {sections}
            </section>
        </OfJob>
    }
}

fn section(section: AcrossSection) -> impl IntoView {
    let id = format!("across-{}", section.word);
    let groups = groups(section.lines).into_iter().map(group).collect_view();
    view! {
        <section class="stack" aria-labelledby=id.clone()>
            <h2 id=id.clone()>{section.heading}</h2>
            <p class="soft">{section.lead}</p>
            {groups}
        </section>
    }
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
    view! { <h3>{name}</h3><ul class="list">{lines}</ul> }
}

fn line(line: AcrossLine) -> impl IntoView {
    let behind = behind(line.places);
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

/// The shafts behind a line, behind a fold.
fn behind(places: Vec<(Place, String)>) -> Option<impl IntoView> {
    let which = match places.len() {
        0 => return None,
        1 => "The shaft behind it".to_owned(),
        many => format!("The {many} shafts behind it"),
    };
    let place = |(place, value): (Place, String)| {
        let to = paths::shaft(&place.job, &place.shaft);
        view! { <li class="list-row"><a class="list-main" href=to>"Shaft " {place.shaft}</a><span>{value}</span></li> }
    };
    let places = places.into_iter().map(place).collect_view();
    Some(view! { <details class="more"><summary>{which}</summary><ul class="list">{places}</ul></details> })
}
