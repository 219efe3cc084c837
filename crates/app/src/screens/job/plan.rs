//! The plan of the job: where its shafts stand, and how far each is.

use super::super::paths;
use super::JobShown;
use crate::widgets::Svg;
use figure::Size;
use leptos::prelude::*;

/// Beside the list on a tablet, above it on a phone; points.
const DRAWN: Size = Size::points(420.0, 320.0);

/// The plan; nothing before the first shaft.
#[component]
pub(super) fn Plan(shown: JobShown) -> impl IntoView {
    let text = shown.part(|screen| match screen.shafts.is_empty() {
        true => String::new(),
        false => screen.plan(DRAWN, &|shaft| paths::shaft(&screen.key, shaft)),
    });
    view! { <Svg text=text/> }
}
