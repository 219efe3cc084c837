//! Findings, forecasts, questions, doubts and what is to be said about the record, each with what to do.

use super::card::CardView;
use super::shaft::{ShaftPage, Shown};
use super::shape::ShapeNote;
use leptos::prelude::*;
use screen::live::{Card, ShaftScreen, Sign};

/// One group of cards: its heading, and which cards.
type Group = (&'static str, fn(&ShaftScreen) -> Vec<Card>);

/// In the order of what needs a person first; what meets comes last.
const GROUPS: &[Group] = &[
    ("About the record", |screen| screen.record.clone()),
    ("What happens next if nothing changes", |screen| screen.forecasts.clone()),
    ("Fails", |screen| of_sign(screen, |sign| sign == Sign::Fails)),
    ("Cannot be said", |screen| of_sign(screen, |sign| sign == Sign::CannotSay)),
    ("Questions", |screen| screen.questions.clone()),
    ("Readings to look at again", |screen| screen.doubts.clone()),
    ("Not measured", |screen| of_sign(screen, |sign| sign == Sign::NotMeasured)),
    ("Meets", |screen| of_sign(screen, |sign| sign == Sign::Meets)),
    ("No limit set", |screen| of_sign(screen, |sign| sign == Sign::NoLimitSet)),
];

fn of_sign(screen: &ShaftScreen, is: impl Fn(Sign) -> bool) -> Vec<Card> {
    screen.findings.iter().filter(|card| card.sign.is_some_and(&is)).cloned().collect()
}

/// All of it.
#[component]
pub(super) fn Findings() -> impl IntoView {
    let shown = Shown::here();
    let verdict = shown.part(|screen| screen.verdict.clone());
    view! {
        <ShaftPage shown=shown heading="Findings and questions">
            <p class="lead">{verdict}</p>
            <ShapeNote shown=shown/>
            {GROUPS.iter().map(|group| view! { <CardGroup shown=shown group=*group/> }).collect_view()}
        </ShaftPage>
    }
}

/// A group, folded away where nothing in it needs a person.
#[component]
fn CardGroup(shown: Shown, group: Group) -> impl IntoView {
    let (heading, cards) = group;
    let cards = shown.part(cards);
    let count = Memo::new(move |_| cards.read().len());
    let quiet = matches!(heading, "Meets" | "No limit set" | "Not measured");
    let all = move || {
        let place = (shown.looking.job.get(), shown.looking.shaft.get());
        let view = |card| view! { <CardView card=card job=place.0.clone() shaft=place.1.clone()/> };
        cards.get().into_iter().map(view).collect_view()
    };
    let title = move || format!("{heading} ({})", count.get());
    let group = move || {
        (count.get() > 0).then(|| {
            view! {
                <details class="group" open=!quiet>
                    <summary><h2>{title}</h2></summary>
                    <div class="stack">{all}</div>
                </details>
            }
        })
    };
    view! { {group} }
}
