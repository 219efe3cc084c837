//! A dialog: one question that has to be answered before the work on the screen goes on.
//!
//! The browser's own `<dialog>` keeps the focus inside and closes with Esc.

use leptos::html;
use leptos::prelude::*;

/// Shown as long as `open` is true; Esc and the close key set it to false.
#[component]
pub(crate) fn Dialog(
    /// Whether it is shown.
    open: RwSignal<bool>,
    /// Its heading.
    #[prop(into)]
    title: Signal<String>,
    /// What it says and asks.
    children: ChildrenFn,
) -> impl IntoView {
    let node: NodeRef<html::Dialog> = NodeRef::new();
    Effect::new(move |_| {
        let Some(dialog) = node.get() else { return };
        match (open.get(), dialog.open()) {
            (true, false) => {
                let _ = dialog.show_modal();
            }
            (false, true) => dialog.close(),
            _ => {}
        }
    });
    view! {
        <dialog class="dialog" node_ref=node aria-label=title on:close=move |_| open.set(false)>
            <div class="dialog-head">
                <h2 class="dialog-title">{title}</h2>
                <button type="button" class="key key-quiet dialog-close" on:click=move |_| open.set(false)>
                    "Close"
                </button>
            </div>
            <div class="dialog-body">
                {move || open.get().then(|| children())}
            </div>
        </dialog>
    }
}
