//! The big figures of the stage and the clocks that run.

use super::super::paths;
use super::super::signs::{of_haste, of_sign};
use super::Shown;
use crate::device::use_device;
use crate::widgets::{self, BigFigure};
use leptos::prelude::*;
use screen::live::{Big, Clock, Counts};

/// The big figures.
#[component]
pub(super) fn Figures(shown: Shown) -> impl IntoView {
    let figures = shown.part(|screen| screen.figures.clone());
    let all = move || figures.get().into_iter().map(figure).collect_view();
    view! { <div class="figures">{all}</div> }
}

fn figure(big: Big) -> impl IntoView {
    let note = [big.uncertainty, big.note].into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>();
    // A value that is the sign's own word already needs it no second time.
    let word = if big.value == big.sign.text() { "" } else { big.sign.text() };
    let sign = (big.sign != screen::live::Sign::NoLimitSet).then(|| (of_sign(big.sign), word.to_owned()));
    let words = !big.value.chars().any(|letter| letter.is_ascii_digit());
    let class = match (big.main, words) {
        (true, _) => "figure-cell figure-first",
        (false, true) => "figure-cell figure-words",
        (false, false) => "figure-cell",
    };
    view! {
        <div class=class>
            <BigFigure label=big.label value=big.value unit=big.unit zero=big.zero note=note.join(" · ") sign=sign/>
        </div>
    }
}

/// The clocks that matter now, the most urgent first.
#[component]
pub(super) fn Clocks(shown: Shown) -> impl IntoView {
    let clocks = shown.part(|screen| screen.clocks.clone());
    let all = move || clocks.get().into_iter().map(|clock| view! { <Running clock=clock/> }).collect_view();
    view! { <div class="clocks">{all}</div> }
}

#[component]
fn Running(clock: Clock) -> impl IntoView {
    let (device, job) = (use_device(), paths::job_here());
    let tick = Memo::new(move |_| {
        device.tick().track();
        device.now(&job.get()).seconds()
    });
    let (up, at) = match clock.counts {
        Counts::DownTo(at) => (false, at),
        Counts::UpFrom(at) => (true, at),
    };
    let note = [clock.moment.clone(), clock.limit.clone()];
    let note = note.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ");
    let label = clock.label.clone();
    let sign = move || {
        let haste = clock.reads(tick.get()).haste;
        (of_haste(haste), haste.word().to_owned())
    };
    view! {
        <widgets::Clock label=label at=at now=tick up=up sign=Signal::derive(sign) note=note/>
    }
}
