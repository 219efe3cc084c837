//! The drawn section, filling as the day goes on.
//!
//! It comes one frame after the figures: laying out its letters takes a tablet as long as everything else on the screen.
//! Its place is kept, so that nothing moves when it comes.

use super::looks::after_paint;
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
    let text = RwSignal::new(String::new());
    Effect::new(move |_| {
        let drawn = drawing.get().map(|text| text.to_string()).unwrap_or_default();
        after_paint(move || {
            text.try_set(drawn);
        });
    });
    view! {
        <div class="shaft-section">
            <Svg text=text class="drawing-tall"/>
        </div>
    }
}
