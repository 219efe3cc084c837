//! The part of the app that only a practice needs: it is fetched when somebody practises, so that nobody else waits
//! for it.
//!
//! Whatever is reached from here alone lies in a file of its own (docs/app.md); the worker keeps it with the others,
//! so it opens without a connection too.
//!
//! Never: call anything of a practice from the other screens but through here.

use super::super::paths;
use crate::device::use_device;
use crate::widgets::NoticeCard;
use leptos::prelude::*;
use leptos::reactive::computed::ScopedFuture;
use leptos::task::spawn_local;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use wording::Notice;

/// What is shown of a practice.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::screens) enum Part {
    Begin,
    Hole,
    Debrief,
    ClockBar,
}

/// The part did not come.
struct Missing;

impl From<SplitLoaderError> for Missing {
    fn from(_: SplitLoaderError) -> Self {
        Missing
    }
}

/// Makes the view of a part; it is here once the file came.
#[wasm_split(practice, wasm_split_path = leptos::wasm_split, fallible)]
fn made(part: Part) -> Result<AnyView, Missing> {
    Ok(match part {
        Part::Begin => view! { <super::begin::PractiseScreen/> }.into_any(),
        Part::Hole => view! { <super::hole::HoleScreen/> }.into_any(),
        Part::Debrief => view! { <super::debrief::DebriefPage/> }.into_any(),
        Part::ClockBar => view! { <super::clock::ClockBar/> }.into_any(),
    })
}

/// A part, as soon as it is here.
#[component]
pub(in crate::screens) fn PartScreen(
    /// Which.
    part: Part,
) -> impl IntoView {
    let made_view = RwSignal::new_local(None::<Result<AnyView, Missing>>);
    spawn_local(ScopedFuture::new(async move {
        let view = made(part).await;
        made_view.try_set(Some(view));
    }));
    move || match made_view.try_update(Option::take).flatten() {
        Some(Ok(view)) => view,
        Some(Err(Missing)) => view! { <NoticeCard notice=not_here()/> }.into_any(),
        None => ().into_any(),
    }
}

/// The clock bar, where the job in sight is a practice of this device.
#[component]
pub(in crate::screens) fn ClockBarPart() -> impl IntoView {
    let (place, device) = (paths::place(), use_device());
    let is = Memo::new(move |_| place.get().job.is_some_and(|job| device.practice(&job).is_some()));
    view! { {move || is.get().then(|| view! { <PartScreen part=Part::ClockBar/> })} }
}

fn not_here() -> Notice {
    Notice {
        code: "part_missing",
        what: "The part of the app for practice is not on this device.".to_owned(),
        meaning: "No record is touched; everything else works.".to_owned(),
        next: "Open the app once with a connection, and come back.".to_owned(),
    }
}
