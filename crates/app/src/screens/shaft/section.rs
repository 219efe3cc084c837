//! The drawn section, filling as the day goes on.

use super::Shown;
use crate::widgets::Svg;
use figure::Size;
use leptos::prelude::*;
use screen::live;

/// What is drawn, and how large in points: the letters stay readable beside the figures of a tablet.
const DRAWN: (&str, Size) = ("section", Size::points(340.0, 560.0));

/// The section.
#[component]
pub(super) fn Section(shown: Shown) -> impl IntoView {
    let looking = shown.looking;
    let text = Memo::new(move |_| {
        let record = looking.record.get()?;
        let (shaft, at) = (looking.shaft.get(), looking.at());
        live::drawing(&record, &shaft, (at, DRAWN.0), DRAWN.1)
    });
    let text = Signal::derive(move || text.get().unwrap_or_default());
    view! {
        <div class="shaft-section">
            <Svg text=text class="drawing-tall"/>
        </div>
    }
}
