//! The panel that calls: what turned bad, and what to do now; heard and felt once, where that is allowed.
//!
//! What was bad already when the screen was opened is shown and does not ring.

use super::super::paths;
use super::Shown;
use crate::device::use_device;
use crate::widgets::{Allowed, Attention};
use leptos::prelude::*;
use screen::live;

/// The most urgent thing that calls, and the way to the others.
#[component]
pub(super) fn Calls(shown: Shown) -> impl IntoView {
    let settings = use_device().settings();
    let all = shown.part(|screen| screen.attention.clone());
    let seen = seen(shown);
    let rings = move || seen.with(|seen| seen.as_ref().and_then(|seen| seen.rings.clone()));
    let first = move || all.with(|all| all.first().map(told));
    let call = Memo::new(move |_| rings().or_else(first));
    let allowed = move || {
        let settings = settings.get();
        let now = rings().is_some();
        Allowed { sound: now && settings.sound, vibrate: now && settings.vibrate }
    };
    let others = move || {
        let more = all.with(Vec::len).saturating_sub(1);
        let to = paths::shaft_page(&shown.looking.job.get(), &shown.looking.shaft.get(), "findings");
        let text = if more == 1 {
            "1 more calls for attention".to_owned()
        } else {
            format!("{more} more call for attention")
        };
        (more > 0).then(|| view! { <a class="calls-more" href=to>{text}</a> })
    };
    view! {
        <div class="calls">
            <Attention call=call allowed=Signal::derive(allowed)/>
            {others}
        </div>
    }
}

/// What happened in a few words, then what to do now, then the whole.
fn told(one: &live::Attention) -> (String, String) {
    (one.title.clone(), format!("{} {}", one.do_now, one.what))
}

/// What was seen of a shaft at the last look.
#[derive(Debug, Clone, PartialEq)]
struct Seen {
    shaft: String,
    ids: Vec<String>,
    /// What called at this look and did not before: what happened and what to do now.
    rings: Option<(String, String)>,
}

/// The last look; nothing rings at the first look at a shaft.
fn seen(shown: Shown) -> Memo<Option<Seen>> {
    Memo::new(move |before: Option<&Option<Seen>>| {
        let shaft = shown.looking.shaft.get();
        let screen = shown.screen.get()?;
        let known = before.and_then(Option::as_ref).filter(|seen| seen.shaft == shaft);
        let newly = known.map_or_else(Vec::new, |seen| live::newly(&seen.ids, &screen));
        let rings = newly.first().map(told);
        Some(Seen { shaft, ids: screen.attention.iter().map(|one| one.id.clone()).collect(), rings })
    })
}
