//! The drawn section, filling as the day goes on.

use super::Shown;
use crate::widgets::Svg;
use figure::Size;
use leptos::prelude::*;
use screen::live;

/// How large it is drawn, in points: small, so that its letters come out large on the screen.
const DRAWN: Size = Size::points(240.0, 440.0);

/// The section.
#[component]
pub(super) fn Section(shown: Shown) -> impl IntoView {
    let looking = shown.looking;
    let text = Memo::new(move |_| {
        let record = looking.record.get()?;
        let (shaft, at) = (looking.shaft.get(), looking.at());
        Some(live::section(&record, &shaft, at, DRAWN))
    });
    let text = Signal::derive(move || text.get().unwrap_or_default());
    view! {
        <div class="shaft-section">
            <Svg text=text class="drawing-tall"/>
        </div>
    }
}
