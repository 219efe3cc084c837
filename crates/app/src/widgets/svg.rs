//! A drawing made by `figure`, placed on the screen.
//!
//! The text comes from our own program, where every label was escaped; still, a text that is not a drawing or
//! that carries anything which runs or restyles the page is not inserted. Title and description inside the
//! drawing are what a screen reader says.

use figure::is_drawing;
use leptos::prelude::*;

/// A drawing, as wide as its place.
#[component]
pub(crate) fn Svg(
    /// The drawing's text; empty: nothing is drawn.
    #[prop(into)]
    text: Signal<String>,
    /// A further class beside `drawing`.
    #[prop(optional)]
    class: &'static str,
) -> impl IntoView {
    let safe = move || text.with(|text| if is_drawing(text) { text.clone() } else { String::new() });
    view! { <div class=format!("drawing {class}") inner_html=safe></div> }
}
