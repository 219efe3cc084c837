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
    let rings = rings(shown);
    let call =
        Memo::new(move |_| all.with(|all| all.first().map(|one| (one.what.clone(), one.do_now.clone()))));
    let allowed = move || {
        let settings = settings.get();
        let now = rings.get();
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

/// Whether the last look found something that did not call before.
fn rings(shown: Shown) -> Memo<bool> {
    let seen = Memo::new(move |before: Option<&(Vec<String>, bool)>| {
        let Some(screen) = shown.screen.get() else {
            return before.cloned().unwrap_or_default();
        };
        let ids = screen.attention.iter().map(|one| one.id.clone()).collect();
        let known = before.map(|(ids, _)| ids.clone()).unwrap_or_default();
        let first = before.is_none_or(|(ids, _)| ids.is_empty());
        (ids, !first && !live::newly(&known, &screen).is_empty())
    });
    Memo::new(move |_| seen.with(|(_, rings)| *rings))
}
