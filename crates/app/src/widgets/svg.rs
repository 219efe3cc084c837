//! A drawing made by `figure`, placed on the screen.
//!
//! The text comes from our own program, where every label was escaped; still, a text that is not a drawing or
//! that carries anything which runs or restyles the page is not inserted. Title and description inside the
//! drawing are what a screen reader says.

use leptos::prelude::*;

/// What a drawing never holds.
const UNWANTED: &[&str] =
    &["<script", "<foreignobject", "<style", " style=", " onload=", " onclick=", "javascript:"];

/// Whether the text is a drawing and nothing else.
pub(crate) fn is_drawing(text: &str) -> bool {
    let lower = text.to_ascii_lowercase();
    lower.trim_start().starts_with("<svg") && !UNWANTED.iter().any(|part| lower.contains(part))
}

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
