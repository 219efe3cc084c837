//! The pages of a shaft beside each other, and the frame they share.

use super::super::looking::{Looking, OfJob};
use super::super::paths;
use super::super::shell::title;
use super::super::way::use_way;
use super::Shown;
use leptos::html;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// The pages of a shaft: word of the address, name.
const PAGES: &[(&str, &str)] = &[
    ("", "Now"),
    ("drawings", "Drawings"),
    ("findings", "Findings"),
    ("ready", "Missing"),
    ("log", "Log"),
    ("sheet", "Sheet"),
];

/// Links to every page of the shaft.
#[component]
pub(super) fn Tabs(looking: Looking) -> impl IntoView {
    let path = use_way().path();
    let tab = move |page: &'static str, name: &'static str| {
        let to = Memo::new(move |_| {
            let (job, shaft) = (looking.job.get(), looking.shaft.get());
            if page.is_empty() { paths::shaft(&job, &shaft) } else { paths::shaft_page(&job, &shaft, page) }
        });
        let here = move || (path.get() == to.get()).then_some("page");
        view! { <a href=to aria-current=here>{name}</a> }
    };
    let strip: NodeRef<html::Nav> = NodeRef::new();
    Effect::new(move |_| {
        path.track();
        if let Some(strip) = strip.get() {
            request_animation_frame(move || show_active(&strip));
        }
    });
    let tabs = PAGES.iter().map(|(page, name)| tab(page, name)).collect_view();
    view! { <nav class="tabs no-print" aria-label="Pages of this shaft" node_ref=strip>{tabs}</nav> }
}

/// Moves the strip, and nothing else, so that the page in sight is named in its middle.
fn show_active(strip: &web_sys::HtmlElement) {
    let active = strip.query_selector("[aria-current]").ok().flatten();
    if let Some(active) = active.and_then(|active| active.dyn_into::<web_sys::HtmlElement>().ok()) {
        let middle = active.offset_left() - strip.offset_left() + active.offset_width() / 2;
        strip.set_scroll_left(middle - strip.client_width() / 2);
    }
}

/// A page of a shaft: its links, its heading, what it holds.
#[component]
pub(crate) fn ShaftPage(
    /// What is looked at.
    shown: Shown,
    /// What the page is: stands after the name of the shaft.
    heading: &'static str,
    /// A class beside `page`.
    #[prop(optional)]
    class: &'static str,
    /// What it holds.
    children: ChildrenFn,
) -> impl IntoView {
    let shaft = shown.looking.shaft;
    title(move || format!("{heading}, shaft {}", shaft.get()));
    let children = StoredValue::new(children);
    view! {
        <OfJob looking=shown.looking>
            <Tabs looking=shown.looking/>
            <section class=format!("page {class}")>
                <h1>{move || shaft.get()} " " <span class="shaft-stage">{heading}</span></h1>
                {children.with_value(|children| children())}
            </section>
        </OfJob>
    }
}
