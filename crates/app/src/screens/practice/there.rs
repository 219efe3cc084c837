//! Whether the job in sight is a practice of this device, and then its clock bar, and what there is to read beside a
//! form. It belongs to no part.

use super::super::parts::{OfPart, Part};
use super::super::paths;
use crate::device::use_device;
use leptos::prelude::*;

/// The clock bar, where the job in sight is a practice.
#[component]
pub(in crate::screens) fn ClockBarThere() -> impl IntoView {
    view! { <There part=Part::ClockBar/> }
}

/// What there is to read, where the job in sight is a practice.
#[component]
pub(in crate::screens) fn BesideThere() -> impl IntoView {
    view! { <There part=Part::Beside/> }
}

#[component]
fn There(part: Part) -> impl IntoView {
    let (place, device) = (paths::place(), use_device());
    let is = Memo::new(move |_| place.get().job.is_some_and(|job| device.is_practice(&job)));
    view! { {move || is.get().then(|| view! { <OfPart part=part/> })} }
}
