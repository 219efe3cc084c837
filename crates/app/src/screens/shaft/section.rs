//! The drawn section, filling as the day goes on.
//!
//! It comes one frame after the figures: drawing it and laying out its letters takes a tablet as long as everything else on
//! the screen.
//! Its place is kept, so that nothing moves when it comes.

use super::super::looking::Looking;
use super::looks::{Whole, after_paint, section_briefly};
use crate::device::use_device;
use crate::widgets::Svg;
use figure::Size;
use leptos::prelude::*;
use std::sync::Arc;

/// How large it is drawn, in points: small, so that its letters come out large on the screen.
pub(super) const DRAWN: Size = Size::points(260.0, 470.0);

/// The section.
#[component]
pub(super) fn Section(
    /// What is looked at.
    looking: Looking,
    /// The look whose section is wanted; `None` while the record is being read.
    whole: Memo<Option<Whole>>,
) -> impl IntoView {
    let text = RwSignal::new(String::new());
    let device = use_device();
    Effect::new(move |_| {
        let Some(wanted) = whole.get() else { return text.set(String::new()) };
        after_paint(move || {
            // Another look may have come meanwhile, and draws its own.
            let is_wanted = |now: &Whole| Arc::ptr_eq(&now.screen, &wanted.screen);
            if !whole.try_with_untracked(|now| now.as_ref().is_some_and(is_wanted)).unwrap_or(false) {
                return;
            }
            let drawn = wanted.section.map(|text| text.to_string());
            text.try_set(drawn.or_else(|| section_briefly(looking, device)).unwrap_or_default());
        });
    });
    view! {
        <div class="shaft-section">
            <Svg text=text class="drawing-tall"/>
        </div>
    }
}
