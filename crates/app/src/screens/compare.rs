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
use wording::{AcrossLine, AcrossSection};

/// As wide as a tablet held upright, in points.
const WIDE: f64 = 640.0;

/// All of it.
#[component]
pub(super) fn Compare() -> impl IntoView {
    let shown = JobShown::here();
    let looking = shown.looking;
    let across: Memo<Option<AcrossScreen>> =
        Memo::new(move |_| looking.record.get().map(|record| live::across(&record, looking.now())));
    let drawing = Signal::derive(move || across.get().map(|across| across.drawing(WIDE)).unwrap_or_default());
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
                <div class="drawing-scroll" tabindex="0" role="region" aria-label="Drawing"><Svg text=drawing/></div>
                {sections}
            </section>
        </OfJob>
    }
}

fn section(section: AcrossSection) -> impl IntoView {
    let id = format!("across-{}", section.word);
    let lines = section.lines.into_iter().map(line).collect_view();
    view! {
        <section class="stack" aria-labelledby=id.clone()>
            <h2 id=id>{section.heading}</h2>
            <p class="soft">{section.lead}</p>
            <ul class="list">{lines}</ul>
        </section>
    }
}

fn line(line: AcrossLine) -> impl IntoView {
    let count = line.places.len();
    let places = line.places.into_iter().map(|(place, value)| {
        let to = paths::shaft(&place.job, &place.shaft);
        view! { <li class="list-row"><a class="list-main" href=to>"Shaft " {place.shaft}</a><span>{value}</span></li> }
    });
    let places = places.collect_view();
    let behind = (count > 0).then(|| {
        let which = if count == 1 {
            "The shaft behind it".to_owned()
        } else {
            format!("The {count} shafts behind it")
        };
        view! { <details class="more"><summary>{which}</summary><ul class="list">{places}</ul></details> }
    });
    view! {
        <li class="list-row">
            <div class="list-main">
                <span class="small soft">{line.group}</span>
                <span class="list-name">{line.label}</span>
                <span>{line.value}</span>
                <span class="small soft">{line.note}</span>
                {behind}
            </div>
        </li>
    }
}
