//! The screen of a shaft: the section as it fills, the clocks that matter, what to do next, the big figures,
//! the entry keys of the stage.
//!
//! On a tablet all of it stands on one screen; on a phone it stands in the order of what is needed first,
//! with the keys under the thumb.
//!
//! Never: reckon; every figure comes from one look at the record.

mod attention;
mod figures;
mod keys;
mod looks;
mod next;
mod section;
mod tabs;

use super::looking::{Looking, OfJob};
use super::shell::title;
use crate::device::{Work, timed};
use leptos::prelude::*;
use screen::live::{Look, ShaftScreen};
use std::sync::Arc;

pub(super) use attention::LastLooks;
pub(super) use looks::LookAhead;
pub(super) use tabs::ShaftPage;

/// What the parts of the screen read from.
#[derive(Clone, Copy)]
pub(super) struct Shown {
    /// What is looked at.
    pub(super) looking: Looking,
    /// The last look; `None` while the record is being read.
    pub(super) screen: Memo<Option<Arc<ShaftScreen>>>,
}

impl Shown {
    /// Looks at the shaft of the address, again whenever the record changes or the turn comes.
    pub(super) fn here() -> Self {
        let looking = Looking::here();
        Shown { looking, screen: looked(looking, |look| Arc::new(timed(Work::Words, || look.screen()))) }
    }

    /// A part of the screen that changes by itself only.
    pub(super) fn part<T>(self, of: impl Fn(&ShaftScreen) -> T + Send + Sync + 'static) -> Memo<T>
    where
        T: Default + PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.screen.with(|screen| screen.as_deref().map(&of).unwrap_or_default()))
    }
}

/// What is taken from a look at the shaft of the address, whenever the record changes or the turn comes.
fn looked<T>(looking: Looking, take: fn(&Look<'_>) -> T) -> Memo<Option<T>>
where
    T: PartialEq + Send + Sync + 'static,
{
    Memo::new(move |_| {
        let record = looking.record.get()?;
        let (shaft, at) = (looking.shaft.get(), looking.at());
        Some(take(&timed(Work::Assessment, || Look::at(&record, &shaft, at))))
    })
}

/// The screen.
#[component]
pub(super) fn Shaft() -> impl IntoView {
    let looking = Looking::here();
    let whole = looks::whole(looking);
    let screen = Memo::new(move |_| whole.with(|whole| Some(Arc::clone(&whole.as_ref()?.screen))));
    let keys = Memo::new(move |_| whole.with(|whole| Some(whole.as_ref()?.keys.clone())));
    let shown = Shown { looking, screen };
    let shaft = looking.shaft;
    title(move || format!("Shaft {}", shaft.get()));
    view! {
        <OfJob looking=looking>
            <tabs::Tabs looking=looking/>
            <section class="shaft">
                <Heading shown=shown/>
                <section::Section looking=looking whole=whole/>
                <attention::Calls shown=shown/>
                <div class="shaft-figures" role="region" aria-label="Figures and clocks" tabindex="0">
                    <figures::Clocks shown=shown/>
                    <figures::Figures shown=shown/>
                </div>
                <next::NextSteps shown=shown/>
                <keys::StageKeys looking=looking keys=keys/>
            </section>
        </OfJob>
    }
}

/// Which shaft, what it should be, where the work stands.
#[component]
fn Heading(shown: Shown) -> impl IntoView {
    let heading = shown.part(|screen| screen.heading.clone());
    let stage = shown.part(|screen| screen.stage.label());
    let plan = move || {
        let heading = heading.get();
        let parts = [heading.structure, heading.diameter, heading.depth, heading.method];
        parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
    };
    view! {
        <header class="shaft-head">
            <h1>{move || shown.looking.shaft.get()} " " <span class="shaft-stage">{stage}</span></h1>
            <p class="soft">{plan}</p>
        </header>
    }
}
