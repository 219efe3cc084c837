//! A big figure: one number that is read at arm's length, with its unit, its name and its sign.

use super::mark::{MarkBadge, Sign};
use leptos::prelude::*;

/// One number read at arm's length.
#[component]
pub(crate) fn BigFigure(
    /// What it is.
    #[prop(into)]
    label: Signal<String>,
    /// The number as shown; a dash for a blank.
    #[prop(into)]
    value: Signal<String>,
    /// Its unit.
    #[prop(optional, into)]
    unit: MaybeProp<String>,
    /// What it is measured from, where it is a depth.
    #[prop(optional, into)]
    zero: MaybeProp<String>,
    /// What stands under it: uncertainty, plan value, what is missing.
    #[prop(optional, into)]
    note: MaybeProp<String>,
    /// Sign and word of its verdict.
    #[prop(optional, into)]
    sign: MaybeProp<(Sign, String)>,
) -> impl IntoView {
    let some = |text: MaybeProp<String>| move || text.get().filter(|text| !text.is_empty());
    let (unit, zero, note) = (some(unit), some(zero), some(note));
    let badge = move |(sign, word): (Sign, String)| view! { <MarkBadge sign=sign word=word/> };
    view! {
        <div class="figure" role="group" aria-label=label>
            <span class="figure-label">{label}</span>
            <span class="figure-value">
                <span class="figure-number">{value}</span>
                {move || unit().map(|unit| view! { " " <span class="figure-unit">{unit}</span> })}
                {move || zero().map(|zero| view! { " " <span class="figure-zero">{zero}</span> })}
            </span>
            {move || sign.get().map(badge)}
            {move || note().map(|note| view! { <span class="figure-note">{note}</span> })}
        </div>
    }
}
