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
mod next;
mod section;
mod tabs;

use super::looking::{Looking, OfJob};
use super::shell::title;
use leptos::prelude::*;
use screen::live::{self, ShaftScreen};
use std::sync::Arc;

pub(super) use attention::LastLooks;
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
        let screen = Memo::new(move |_| {
            let record = looking.record.get()?;
            let shaft = looking.shaft.get();
            Some(Arc::new(live::shaft(&record, &shaft, looking.at())))
        });
        Shown { looking, screen }
    }

    /// A part of the screen that changes by itself only.
    pub(super) fn part<T>(self, of: impl Fn(&ShaftScreen) -> T + Send + Sync + 'static) -> Memo<T>
    where
        T: Default + PartialEq + Send + Sync + 'static,
    {
        Memo::new(move |_| self.screen.with(|screen| screen.as_deref().map(&of).unwrap_or_default()))
    }
}

/// The screen.
#[component]
pub(super) fn Shaft() -> impl IntoView {
    let shown = Shown::here();
    let shaft = shown.looking.shaft;
    title(move || format!("Shaft {}", shaft.get()));
    view! {
        <OfJob looking=shown.looking>
            <tabs::Tabs looking=shown.looking/>
            <section class="shaft">
                <Heading shown=shown/>
                <section::Section shown=shown/>
                <div class="shaft-figures" role="region" aria-label="Figures and clocks" tabindex="0">
                    <attention::Calls shown=shown/>
                    <figures::Clocks shown=shown/>
                    <figures::Figures shown=shown/>
                </div>
                <next::NextSteps shown=shown/>
                <keys::StageKeys shown=shown/>
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
