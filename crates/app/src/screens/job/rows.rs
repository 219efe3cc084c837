//! The shafts of a job as a list: stage, what fails, what waits, what is coming.

use super::super::paths;
use super::super::signs::{of_haste, of_sign};
use super::JobShown;
use crate::widgets::MarkBadge;
use leptos::prelude::*;
use screen::live::ShaftRow;

/// Every shaft.
#[component]
pub(super) fn Shafts(shown: JobShown) -> impl IntoView {
    let shafts = shown.part(|screen| screen.shafts.clone());
    let rows = move || {
        let job = shown.looking.job.get();
        shafts.get().into_iter().map(|row| shaft(row, &job)).collect_view()
    };
    let heading = move || match shafts.read().len() {
        1 => "1 shaft".to_owned(),
        many => format!("{many} shafts"),
    };
    view! {
        <section class="stack">
            <h2>{heading}</h2>
            <ul class="list">{rows}</ul>
        </section>
    }
}

fn shaft(row: ShaftRow, job: &str) -> impl IntoView + use<> {
    let counts = [
        (row.open, "to decide"),
        (row.questions, "to answer"),
        (row.disputes, "in dispute"),
        (row.waiting, "to measure"),
    ];
    let counts = counts.into_iter().filter(|(count, _)| *count > 0);
    let counts: Vec<String> = counts.map(|(count, word)| format!("{count} {word}")).collect();
    let plan = [row.structure, row.size, row.station].into_iter().filter(|part| !part.is_empty());
    let plan = plan.collect::<Vec<_>>().join(" · ");
    let urgent = row.haste.map(|haste| view! { <MarkBadge sign=of_haste(haste) word=row.urgent.clone()/> });
    let (sign, word) = (of_sign(row.sign), verdict(row.fails, row.sign));
    let to = paths::shaft(job, &row.name);
    view! {
        <li>
            <a class="list-row" href=to>
                <span class="list-main">
                    <span class="list-name">{row.name} " " <span class="tag">{row.stage.label()}</span></span>
                    <span class="small soft">{plan}</span>
                    <span class="small soft">{row.last}</span>
                    {urgent}
                </span>
                <span class="list-side stack-tight">
                    <MarkBadge sign=sign word=word/>
                    <span class="small">{counts.join(", ")}</span>
                </span>
            </a>
        </li>
    }
}

/// How many fail, else the word of the worst that was found.
fn verdict(fails: usize, sign: screen::live::Sign) -> String {
    match fails {
        0 if sign == screen::live::Sign::NoLimitSet => "nothing judged yet".to_owned(),
        0 => sign.text().to_owned(),
        1 => "1 fails".to_owned(),
        many => format!("{many} fail"),
    }
}
