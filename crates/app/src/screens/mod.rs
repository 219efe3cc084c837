//! The screens, one file each, and the way between them.

use leptos::prelude::*;

/// The app.
#[component]
pub(crate) fn App() -> impl IntoView {
    view! { <p>"Shaftbook"</p> }
}
