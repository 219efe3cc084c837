//! Whether the job in sight is a practice of this device, and then its clock bar. It belongs to no part.

use super::super::parts::{OfPart, Part};
use super::super::paths;
use crate::device::use_device;
use leptos::prelude::*;

/// The clock bar, where the job in sight is a practice.
#[component]
pub(in crate::screens) fn ClockBarThere() -> impl IntoView {
    let (place, device) = (paths::place(), use_device());
    let is = Memo::new(move |_| place.get().job.is_some_and(|job| device.is_practice(&job)));
    view! { {move || is.get().then(|| view! { <OfPart part=Part::ClockBar/> })} }
}
