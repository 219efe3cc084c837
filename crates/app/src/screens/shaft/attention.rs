//! The panel that calls: what turned bad, and what to do now; heard and felt once, where that is allowed.
//!
//! What was bad already when the screen was opened is shown and does not ring.

use super::super::paths;
use super::super::signs::of_haste;
use super::Shown;
use crate::device::use_device;
use crate::widgets::{Allowed, Attention, Call, Dialog, MarkBadge};
use leptos::prelude::*;
use screen::live;
use std::collections::BTreeMap;

/// The most urgent thing that calls, and the key to all of them in full.
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
    view! {
        <div class="calls">
            <Attention call=call allowed=Signal::derive(allowed)/>
            <More all=all shown=shown/>
        </div>
    }
}

/// The key that opens all that calls. With one call it is wanted only where the screen shortens its words.
#[component]
fn More(all: Memo<Vec<live::Attention>>, shown: Shown) -> impl IntoView {
    let open = RwSignal::new(false);
    let count = Memo::new(move |_| all.with(Vec::len));
    let label = move || match count.get() {
        1 => "Whole text".to_owned(),
        many => format!("All {many} calls"),
    };
    let class = move || if count.get() == 1 { "key calls-more calls-one" } else { "key calls-more" };
    let key = move || {
        (count.get() > 0).then(|| {
            view! {
                <button type="button" class=class aria-haspopup="dialog" on:click=move |_| open.set(true)>
                    {label}
                </button>
            }
        })
    };
    let to = move || paths::shaft_page(&shown.looking.job.get(), &shown.looking.shaft.get(), "findings");
    view! {
        {key}
        <Dialog open=open title="What calls for attention">
            <ul class="calls-all">{move || all.get().into_iter().map(whole).collect_view()}</ul>
            <p><a class="button" href=to>"Findings and questions"</a></p>
        </Dialog>
    }
}

/// One call with every word.
fn whole(one: live::Attention) -> impl IntoView {
    let haste = view! { <MarkBadge sign=of_haste(one.haste) word=one.haste.word()/> };
    view! {
        <li class="stack-tight">
            <p class="attention-what">{one.title}</p>
            {haste}
            <p>{one.what}</p>
            <p class="attention-next">{one.do_now}</p>
        </li>
    }
}

/// A call as the panel says it.
fn told(one: &live::Attention) -> Call {
    Call { what: one.title.clone(), found: one.what.clone(), next: one.do_now.clone() }
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
fn rings(shown: Shown) -> Memo<Option<Call>> {
    let looks: LastLooks = expect_context();
    Memo::new(move |_| {
        let screen = shown.screen.get()?;
        let place = (shown.looking.job.get_untracked(), shown.looking.shaft.get_untracked());
        let ids = screen.attention.iter().map(|one| one.id.clone()).collect();
        let before = looks.put(place, ids)?;
        live::newly(&before, &screen).first().map(told)
    })
}
