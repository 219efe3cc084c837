//! The panel that calls: what turned bad, and what to do now; heard and felt once, where that is allowed.
//!
//! What was bad already when the screen was opened is shown and does not ring.

use super::super::paths;
use super::Shown;
use crate::device::use_device;
use crate::widgets::{Allowed, Attention};
use leptos::prelude::*;
use screen::live;
use std::collections::BTreeMap;

/// The most urgent thing that calls, and the way to the others.
#[component]
pub(super) fn Calls(shown: Shown) -> impl IntoView {
    let settings = use_device().settings();
    let all = shown.part(|screen| screen.attention.clone());
    let rings = rings(shown);
    let first = move || all.with(|all| all.first().map(told));
    let call = Memo::new(move |_| rings.get().or_else(first));
    let allowed = move || {
        let settings = settings.get();
        let now = rings.with(Option::is_some);
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

/// What called at the last look at each shaft, as long as the page lives: whoever comes back from a form is told
/// what the new entry turned bad. After a reload there is no last look, and nothing rings twice.
#[derive(Clone, Copy)]
pub(in crate::screens) struct LastLooks(StoredValue<BTreeMap<(String, String), Vec<String>>>);

impl LastLooks {
    /// Nothing was looked at yet.
    pub(in crate::screens) fn provide() {
        provide_context(LastLooks(StoredValue::new(BTreeMap::new())));
    }

    /// Puts down what calls now and gives what called before; `None` at the first look at a shaft.
    fn put(self, place: (String, String), ids: Vec<String>) -> Option<Vec<String>> {
        self.0.try_update_value(|looks| looks.insert(place, ids)).flatten()
    }
}

/// What called at this look and did not at the last one: what happened and what to do now.
fn rings(shown: Shown) -> Memo<Option<(String, String)>> {
    let looks: LastLooks = expect_context();
    Memo::new(move |_| {
        let screen = shown.screen.get()?;
        let place = (shown.looking.job.get_untracked(), shown.looking.shaft.get_untracked());
        let ids = screen.attention.iter().map(|one| one.id.clone()).collect();
        let before = looks.put(place, ids)?;
        live::newly(&before, &screen).first().map(told)
    })
}
