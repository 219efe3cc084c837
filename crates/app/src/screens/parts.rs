//! The parts of the app that are fetched when somebody needs them, so that nobody else waits for them.
//!
//! Whatever is reached through a function below alone lies in a file of its own; the worker keeps it with the others,
//! so it opens without a connection too (docs/app.md).
//!
//! Words: *part* = what lies in such a file.
//! Never: call anything of a part from elsewhere but through here; it would come back into the first load.

use super::{compare, files, office, open_items, practice, read, schedule, sheet};
use crate::widgets::NoticeCard;
use leptos::prelude::*;
use leptos::reactive::computed::ScopedFuture;
use leptos::task::spawn_local;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use wording::Notice;

/// What is shown of a part.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    Practise,
    Hole,
    Debrief,
    ClockBar,
    Beside,
    Read,
    Files,
    Schedule,
    Sheet,
    Compare,
    OpenItems,
    Office,
}

/// The part did not come.
struct Missing;

impl From<SplitLoaderError> for Missing {
    fn from(_: SplitLoaderError) -> Self {
        Missing
    }
}

/// Practice for a trainee.
#[wasm_split(practice, wasm_split_path = leptos::wasm_split, fallible)]
fn of_practice(part: Part) -> Result<AnyView, Missing> {
    Ok(match part {
        Part::Hole => view! { <practice::HoleScreen/> }.into_any(),
        Part::Debrief => view! { <practice::DebriefPage/> }.into_any(),
        Part::ClockBar => view! { <practice::ClockBar/> }.into_any(),
        Part::Beside => view! { <practice::Beside/> }.into_any(),
        _ => view! { <practice::PractiseScreen/> }.into_any(),
    })
}

/// What comes from paper and goes to paper: files, schedules, the sheet.
#[wasm_split(papers, wasm_split_path = leptos::wasm_split, fallible)]
fn of_papers(part: Part) -> Result<AnyView, Missing> {
    Ok(match part {
        Part::Files => view! { <files::Files/> }.into_any(),
        Part::Schedule => view! { <schedule::ScheduleScreen/> }.into_any(),
        Part::Sheet => view! { <sheet::SheetScreen/> }.into_any(),
        _ => view! { <read::Read/> }.into_any(),
    })
}

/// What only many shafts show: what they took, and what waits on them.
#[wasm_split(many, wasm_split_path = leptos::wasm_split, fallible)]
fn of_many(part: Part) -> Result<AnyView, Missing> {
    Ok(match part {
        Part::OpenItems => view! { <open_items::OpenItemsScreen/> }.into_any(),
        Part::Office => view! { <office::Office/> }.into_any(),
        _ => view! { <compare::Compare/> }.into_any(),
    })
}

async fn made(part: Part) -> Result<AnyView, Missing> {
    match part {
        Part::Practise | Part::Hole | Part::Debrief | Part::ClockBar | Part::Beside => {
            of_practice(part).await
        }
        Part::Read | Part::Files | Part::Schedule | Part::Sheet => of_papers(part).await,
        Part::Compare | Part::OpenItems | Part::Office => of_many(part).await,
    }
}

/// A part, as soon as it is here.
#[component]
pub(super) fn OfPart(
    /// Which.
    part: Part,
) -> impl IntoView {
    let came = RwSignal::new_local(None::<Result<AnyView, Missing>>);
    spawn_local(ScopedFuture::new(async move {
        let view = made(part).await;
        came.try_set(Some(view));
    }));
    move || {
        came.track();
        match came.try_update_untracked(Option::take).flatten() {
            Some(Ok(view)) => view,
            Some(Err(Missing)) => view! { <NoticeCard notice=not_here()/> }.into_any(),
            None => ().into_any(),
        }
    }
}

fn not_here() -> Notice {
    Notice {
        code: "part_missing",
        what: "This part of the app is not on this device.".to_owned(),
        meaning: "No record is touched; everything else works.".to_owned(),
        next: "Open the app once with a connection, and come back.".to_owned(),
    }
}
