//! Notices: what happened, until somebody has read it.

use crate::device::use_device;
use crate::widgets::{NoticeCard, steady};
use leptos::prelude::*;

/// Every notice that was not put away, the newest first.
#[component]
pub(super) fn Notices() -> impl IntoView {
    let notices = use_device().notices();
    let shown = steady(move || notices.get());
    let cards = move || {
        let all = shown.get().into_iter().enumerate().rev();
        let card = |(at, notice)| {
            let dismiss = Callback::new(move |()| {
                notices.update(|all| {
                    if at < all.len() {
                        all.remove(at);
                    }
                });
            });
            view! { <NoticeCard notice=notice dismiss=dismiss/> }
        };
        all.map(card).collect_view()
    };
    view! { <div class="notices" aria-live="polite">{cards}</div> }
}
