//! Add shafts: a schedule pasted from a spreadsheet, looked at row by row before anything is entered.
//!
//! Never: enter half a schedule.

use super::ask::{File, FilesAsk, LinesAsk};
use super::looking::{Looking, OfJob};
use super::paths;
use super::shell::PageHead;
use super::way::use_way;
use crate::device::{Pending, use_device};
use crate::widgets::{Key, KeyLink, MarkBadge, NoticeCard, Sign, Tone};
use leptos::prelude::*;
use screen::entry::form::{Ask, Asked};
use screen::entry::schedule::{Row, Schedule};
use wording::Notice;

/// What stands between the paste and the record.
#[derive(Clone, Copy)]
struct Table {
    looking: Looking,
    read: RwSignal<Option<Result<Schedule, String>>>,
    refused: RwSignal<Option<Notice>>,
}

impl Table {
    /// Changes the schedule that was read.
    fn change(self, change: impl FnOnce(&mut Schedule)) {
        self.read.update(|read| {
            if let Some(Ok(schedule)) = read {
                change(schedule);
            }
        });
    }
}

/// Paste, look, enter.
#[component]
pub(super) fn ScheduleScreen() -> impl IntoView {
    let looking = Looking::here();
    let table = Table { looking, read: RwSignal::new(None), refused: RwSignal::new(None) };
    view! {
        <OfJob looking=looking>
            <section class="page page-wide form">
                <PageHead heading="Add shafts"/>
                <ByHand/>
                <Paste table=table/>
                {move || table.refused.get().map(|notice| view! { <NoticeCard notice=notice/> })}
                <Preview table=table/>
            </section>
        </OfJob>
    }
}

/// One shaft, by its name, in the form of a planned shaft.
#[component]
fn ByHand() -> impl IntoView {
    let job = paths::job_here();
    let name = RwSignal::new(String::new());
    let form = Signal::derive(move || paths::enter(&job.get(), Some(name.read().trim()), "shaft_planned"));
    let named = move || !name.read().trim().is_empty();
    let key = move || named().then(|| view! { <KeyLink to=form label="Plan this shaft" tone=Tone::Plain/> });
    view! {
        <section class="stack">
            <h2>"One shaft"</h2>
            <super::ask::TextAsk label="Name of the shaft, as on the drawings" text=name/>
            <div class="row">{key}</div>
        </section>
    }
}

#[component]
fn Paste(table: Table) -> impl IntoView {
    let text = RwSignal::new(String::new());
    let device = use_device();
    let look = move |()| {
        let Some(record) = table.looking.record.get_untracked() else { return };
        let now = device.now(&table.looking.job.get_untracked());
        let read = Schedule::read(&text.get_untracked(), &record, now);
        table.read.set(Some(read));
    };
    let off = Signal::derive(move || text.read().trim().is_empty());
    // A table out of a file is looked at like one that was pasted.
    let taken = Callback::new(move |files: Vec<File>| {
        let texts = files
            .iter()
            .map(|(_, bytes)| String::from_utf8_lossy(bytes).trim_start_matches('\u{feff}').to_owned());
        text.set(texts.collect::<Vec<_>>().join("\n"));
        look(());
    });
    view! {
        <section class="stack">
            <h2>"A schedule"</h2>
            <LinesAsk
                label="Paste the schedule, with its heading row"
                hint="From a spreadsheet or a CSV file: a row a shaft. Nothing is entered before you have looked."
                text=text
            />
            <div class="row"><Key label="Look at the rows" off=off press=look/></div>
            <FilesAsk
                label="Or choose the file"
                hint="A table saved as text (.csv, .tsv, .txt)."
                accept=".csv,.tsv,.txt"
                taken=taken
            />
        </section>
    }
}

/// What the rows would become.
#[component]
fn Preview(table: Table) -> impl IntoView {
    let body = move || match table.read.get() {
        None => ().into_any(),
        Some(Err(sentence)) => view! { <p class="field-fault" role="alert">{sentence}</p> }.into_any(),
        Some(Ok(schedule)) => view! {
            <Columns schedule=schedule.clone()/>
            <Lacking table=table lacking=schedule.lacking()/>
            <ul class="list">{schedule.rows().into_iter().map(|row| row_view(row, table)).collect_view()}</ul>
            <Enter table=table schedule=schedule/>
        }
        .into_any(),
    };
    view! { <div class="stack" aria-live="polite">{body}</div> }
}

/// Which columns were recognised; what nobody takes is said.
#[component]
fn Columns(schedule: Schedule) -> impl IntoView {
    let line = |column: &screen::entry::schedule::Column| {
        let takes = column.takes.clone().unwrap_or_else(|| "not taken".to_owned());
        view! { <dt>{column.heading.clone()}</dt><dd>{takes}</dd> }
    };
    view! {
        <h2>"What is taken from each column"</h2>
        <dl class="pairs">{schedule.columns.iter().map(line).collect_view()}</dl>
    }
}

/// What no column holds, asked once.
#[component]
fn Lacking(table: Table, lacking: Vec<Asked>) -> impl IntoView {
    let ask = |asked: Asked| {
        let path = asked.path.clone();
        match asked.ask {
            Ask::Choice(words) => {
                let options = words.into_iter().map(|word| {
                    let selected = word.word == asked.text;
                    view! { <option value=word.word.clone() selected=selected>{word.label}</option> }
                });
                let options = options.collect_view();
                let pick =
                    move |event| table.change(|all| all.set_for_all(&path, &event_target_value(&event)));
                view! {
                    <label class="field">
                        <span class="field-label">{asked.label}</span>
                        <select on:change=pick><option value="">"Choose"</option>{options}</select>
                    </label>
                }
                .into_any()
            }
            _ => {
                let set =
                    move |event| table.change(|all| all.set_for_all(&path, &event_target_value(&event)));
                view! {
                    <label class="field">
                        <span class="field-label">{asked.label}</span>
                        <input type="text" class="field-input" value=asked.text autocomplete="off" on:change=set/>
                        <span class="field-hint">{asked.hint}</span>
                    </label>
                }
                .into_any()
            }
        }
    };
    (!lacking.is_empty()).then(|| {
        view! { <h2>"For all rows"</h2>{lacking.into_iter().map(ask).collect_view()} }
    })
}

fn row_view(row: Row, table: Table) -> impl IntoView {
    let (line, out) = (row.line, row.left_out);
    let (sign, text) = match &row.outcome {
        _ if out => (Sign::NoLimit, "left out".to_owned()),
        Ok(_) => (Sign::Meets, "can be planned".to_owned()),
        Err(faults) => {
            let told = faults.iter().map(|fault| format!("{}: {}", fault.label, fault.sentence));
            (Sign::Fails, told.collect::<Vec<_>>().join(" "))
        }
    };
    let key = if out { "Take it in" } else { "Leave it out" };
    view! {
        <li class="list-row">
            <span class="list-main">
                <span class="list-name" class:struck=out>{row.shaft}</span>
                <span class="small soft">"Row " {line}</span>
                <MarkBadge sign=sign word=text/>
            </span>
            <span class="list-side">
                <Key label=key tone=Tone::Quiet press=move |()| table.change(|all| all.leave_out(line, !out))/>
            </span>
        </li>
    }
}

/// All rows or none.
#[component]
fn Enter(table: Table, schedule: Schedule) -> impl IntoView {
    let device = use_device();
    let way = use_way();
    let bodies = schedule.bodies();
    let label = match &bodies {
        Some(bodies) if bodies.len() == 1 => "Plan 1 shaft".to_owned(),
        Some(bodies) => format!("Plan {} shafts", bodies.len()),
        None => "Mend or leave out what cannot be planned".to_owned(),
    };
    let off = bodies.is_none();
    let press = move |()| {
        let (job, bodies) = (table.looking.job.get_untracked(), bodies.clone().unwrap_or_default());
        let observed_at = table.looking.now();
        let pending = bodies.into_iter().map(|(shaft, body)| Pending {
            job: job.clone(),
            shaft: Some(shaft),
            observed_at,
            noted_at: None,
            body,
        });
        let pending = pending.collect();
        leptos::task::spawn_local(async move {
            match device.write_all(&job, pending).await {
                Ok(_) => way.go(&paths::job(&job)),
                Err(notice) => table.refused.set(Some(notice)),
            }
        });
    };
    view! { <div class="row"><Key label=label tone=Tone::Main off=Signal::derive(move || off) press=press/></div> }
}
