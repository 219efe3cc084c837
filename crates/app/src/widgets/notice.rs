//! A notice on the screen: what happened, what it means for the record, what to do now.

use leptos::prelude::*;
use wording::Notice;

/// Three sentences; the code last and small.
#[component]
pub(crate) fn NoticeCard(
    /// What is told.
    notice: Notice,
    /// Puts it away; without it the notice stays as long as its cause.
    #[prop(optional, into)]
    dismiss: Option<Callback<()>>,
) -> impl IntoView {
    let away = dismiss.map(|dismiss| {
        view! {
            <button type="button" class="key key-quiet notice-away" on:click=move |_| dismiss.run(())>
                "Understood"
            </button>
        }
    });
    view! {
        <section class="notice" role="status">
            <p class="notice-what">{notice.what}</p>
            <p class="notice-meaning">{notice.meaning}</p>
            <p class="notice-next">{notice.next}</p>
            <p class="notice-code">{notice.code}</p>
            {away}
        </section>
    }
}
