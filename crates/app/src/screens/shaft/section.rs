//! The drawn section, filling as the day goes on.

use crate::widgets::Svg;
use figure::Size;
use leptos::prelude::*;
use std::sync::Arc;

/// How large it is drawn, in points: small, so that its letters come out large on the screen.
pub(super) const DRAWN: Size = Size::points(260.0, 470.0);

/// The section.
#[component]
pub(super) fn Section(
    /// The drawing; `None` while the record is being read.
    drawing: Memo<Option<Arc<String>>>,
) -> impl IntoView {
    let text = Signal::derive(move || drawing.get().map(|text| text.to_string()).unwrap_or_default());
    view! {
        <div class="shaft-section">
            <Svg text=text class="drawing-tall"/>
        </div>
    }
}
