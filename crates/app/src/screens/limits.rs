//! The criteria of a job: each limit in force, where it comes from, how sure it is, and what was changed.
//!
//! Never: show a limit without its source, or a changed one without who changed it and why.

use super::job::JobShown;
use super::looking::OfJob;
use super::paths;
use super::people::Add;
use super::shell::PageHead;
use crate::widgets::NoticeCard;
use assess::Rules;
use criteria::InForce;
use leptos::prelude::*;
use record::{Log, Record};
use wording::{Notice, Show};

/// One limit, in words.
#[derive(Debug, Clone, PartialEq)]
struct Row {
    id: String,
    title: String,
    limit: String,
    source: String,
    why: String,
    changed: String,
}

/// Everything the screen says.
#[derive(Debug, Clone, PartialEq, Default)]
struct Limits {
    /// Why none are in force; empty where some are.
    none: String,
    title: String,
    caution: String,
    rows: Vec<Row>,
    refused: Vec<String>,
}

fn limits(record: &Record) -> Limits {
    let log = Log::of(record, None, None);
    let show = Show::of_log(&log);
    match Rules::of(&log) {
        Err(why) => Limits { none: wording::no_rules(&why), ..Limits::default() },
        Ok(rules) => Limits {
            none: String::new(),
            title: format!("{}, {}", rules.set.about.title, rules.set.about.edition),
            caution: rules.set.about.caution.clone().unwrap_or_default(),
            rows: rules.set.criteria.iter().map(|one| row(one, &show)).collect(),
            refused: rules.refused.iter().map(wording::refused).collect(),
        },
    }
}

fn row(one: &InForce, show: &Show) -> Row {
    let limit = one
        .rule()
        .map_or_else(|| "no limit is set any more".to_owned(), |rule| wording::limit_text(rule, None, show));
    let changed =
        one.changed.as_ref().map(|changed| format!("Changed by {}: {}", changed.who, changed.reason));
    Row {
        id: one.original.id.clone(),
        title: one.original.title.clone(),
        limit,
        source: wording::sure_text(one),
        why: one.original.why.clone(),
        changed: changed.unwrap_or_default(),
    }
}

/// The limits in force.
#[component]
pub(super) fn LimitsScreen() -> impl IntoView {
    let shown = JobShown::here();
    let limits =
        Memo::new(move |_| shown.looking.record.get().map(|record| limits(&record)).unwrap_or_default());
    let rows = move || {
        let job = shown.looking.job.get();
        limits.get().rows.into_iter().map(|row| view_of(row, &job)).collect_view()
    };
    let none = move || {
        let none = limits.get().none;
        (!none.is_empty()).then(|| {
            let notice = Notice {
                code: "no_criteria",
                what: none,
                meaning: "Nothing is judged; figures, clocks and drawings are there all the same.".to_owned(),
                next: "Choose the criteria of the contract.".to_owned(),
            };
            view! { <NoticeCard notice=notice/> }
        })
    };
    view! {
        <OfJob looking=shown.looking>
            <section class="page">
                <PageHead heading="Criteria and limits"/>
                {none}
                <p class="lead">{move || limits.get().title}</p>
                <p class="soft">{move || limits.get().caution}</p>
                <Add shown=shown kind="criteria_chosen" label="Choose criteria"/>
                {move || limits.get().refused.into_iter().map(|text| view! { <p class="notice">{text}</p> }).collect_view()}
                <ul class="list">{rows}</ul>
            </section>
        </OfJob>
    }
}

fn view_of(row: Row, job: &str) -> impl IntoView + use<> {
    let to = paths::enter_with((job, None), "limit_changed", &[("criterion", row.id.clone())]);
    let about = format!("Change the limit: {}", row.title);
    view! {
        <li class="list-row">
            <span class="list-main">
                <span class="list-name">{row.title}</span>
                <span>{row.limit}</span>
                <span class="small written">{row.changed}</span>
                <span class="small soft">{row.why}</span>
                <span class="small soft">{row.source} " · " {row.id}</span>
            </span>
            <a class="list-side" href=to aria-label=about>"Change"</a>
        </li>
    }
}
