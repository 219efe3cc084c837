//! What there is to read, beside the form it is written into.

use super::super::paths;
use super::Played;
use super::sights::{left, open, seen};
use super::tape::TapeCard;
use leptos::prelude::*;
use screen::practice::{SightCard, known, sight};

/// The tape of a sounding, the paper or the drawings of anything else; nothing where the form is about nothing that can
/// be read now.
#[component]
pub(in crate::screens) fn Beside() -> impl IntoView {
    let (played, kind) = (Played::here(), paths::kind_here());
    let tape = Memo::new(move |_| kind.get() == "concrete_sounded");
    let ticket = paths::known().into_iter().find(|(field, _)| field == "ticket").map(|(_, ticket)| ticket);
    let number = number(played, kind, ticket);
    let card = move || card(played, number.get()?);
    view! {
        {move || tape.get().then(|| view! { <TapeCard played=played/> })}
        {move || card().map(strip)}
    }
}

/// The offer the form is about: the first that is not written down. Once found it stays, however long somebody writes.
fn number(played: Played, kind: Memo<String>, ticket: Option<String>) -> Memo<Option<usize>> {
    let (open, left) = (open(played), left(played));
    Memo::new(move |found: Option<&Option<usize>>| {
        let kind = kind.get();
        let fits = |number: &usize| {
            let one = played.device.practice(&played.job.get_untracked())?;
            let offer = one.practice.all_offers().find(|offer| offer.number == *number)?;
            let own = known(&one.practice, *number).into_iter().find(|(field, _)| *field == "ticket");
            let about = ticket.is_none() || own.map(|(_, ticket)| ticket) == ticket;
            sight(&one.practice, &offer).filter(|card| card.kind == kind && about)
        };
        if let Some(Some(before)) = found {
            return fits(before).map(|_| *before);
        }
        let left = left.read();
        open.get().into_iter().find(|number| left.contains(number) && fits(number).is_some())
    })
}

fn card(played: Played, number: usize) -> Option<SightCard> {
    let one = played.device.practice(&played.job.get_untracked())?;
    let offer = one.practice.all_offers().find(|offer| offer.number == number)?;
    sight(&one.practice, &offer)
}

/// Paper and drawings side by side, low enough that the form is in sight.
fn strip(card: SightCard) -> impl IntoView {
    let heading = format!("{}, {}", card.clock, card.title);
    view! {
        <section class="beside" tabindex="0" role="region" aria-label=heading>
            <h2>{heading.clone()}</h2>
            {seen(card)}
        </section>
    }
}
