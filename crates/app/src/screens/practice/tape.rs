//! The weighted tape: let down at a place, at a moment, and read.

use super::super::paths;
use super::Played;
use super::sights::instrument;
use crate::widgets::{Key, KeyLink, Tone};
use leptos::prelude::*;
use quantity::Moment;
use rehearse::day::SHAFT;
use rehearse::practice::PLACES;
use screen::practice::{last_ticket, tape};

/// The tape, from the first concrete on; at the hole with the way to the form of a sounding.
#[component]
pub(super) fn TapeCard(
    played: Played,
    /// It stands at the hole, not beside the form.
    #[prop(optional)]
    at_hole: bool,
) -> impl IntoView {
    let there = played.part(|one| one.practice.dial(one.now(), 0).is_some());
    let down = RwSignal::new(None::<(usize, Moment)>);
    let drop = move |place: usize| down.set(Some((place, played.now())));
    let drawn = move || {
        let (place, at) = down.get()?;
        let one = played.device.practice(&played.job.get_untracked())?;
        let depth_m = one.practice.dial(at, place)?;
        let drawn = instrument(tape(PLACES[place], depth_m, one.practice.day().system));
        Some(view! { <p class="num">{format!("Let down at {}.", at.clock_to_the_second())}</p>{drawn} })
    };
    let to = move || {
        down.track();
        let one = played.device.practice(&played.job.get())?;
        let after = last_ticket(&one.practice, played.now());
        Some(paths::enter_with((&played.job.get(), Some(SHAFT)), "concrete_sounded", &[("after", after)]))
    };
    let to = Signal::derive(move || to().unwrap_or_default());
    let card = move || {
        view! {
            <section class="card stack" aria-labelledby="tape-title">
                <h2 id="tape-title">"The tape"</h2>
                <div class="keys-row">
                    <Key label="Let it down at the center" tone=Tone::Likely press=move |()| drop(0)/>
                    <Key label="Let it down outside the cage" press=move |()| drop(1)/>
                </div>
                <div class="stack" aria-live="polite">{drawn}</div>
                {at_hole.then(|| view! { <div class="row"><KeyLink to=to label="Write the sounding"/></div> })}
            </section>
        }
    };
    view! { {move || there.get().then(card)} }
}
