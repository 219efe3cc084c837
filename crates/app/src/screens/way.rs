//! The way between the screens: what an address names, and what a tapped link does.
//!
//! A tap on a link of the app changes the address and the screen, and loads nothing; the keys of the browser
//! for back and forward do the same. A screen stays when only a name in its address changes.
//!
//! Words: *word* = as in [`paths`](super::paths); *names* = the job, the shaft, the kind and the entry that an
//! address names.
//! Never: take a link that leads out of the app.

use super::paths;
use leptos::ev::{self, MouseEvent};
use leptos::prelude::*;
use leptos::reactive::owner::Owner;
use leptos::tachys::reactive_graph::OwnedView;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{Element, HtmlAnchorElement};

/// A screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Screen {
    Jobs,
    /// All jobs together.
    Office,
    Begin,
    Read,
    Pair,
    Outbox,
    Settings,
    Help,
    /// Begin a practice.
    Practise,
    /// What is to be read and answered in a practice.
    Hole,
    /// The end of a practice: truth beside record.
    Debrief,
    Job,
    Compare,
    OpenItems,
    People,
    Limits,
    Schedule,
    Files,
    Strike,
    Shaft,
    Drawings,
    Findings,
    Ready,
    Log,
    Sheet,
    /// The list of the kinds of entry, of a shaft or of the whole job.
    Choose,
    /// The form of a kind of entry, of a shaft or of the whole job.
    Entry,
    /// None that there is.
    Unknown,
}

/// What an address names; empty where it names none.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Names {
    pub(super) job: String,
    pub(super) shaft: String,
    pub(super) kind: String,
    pub(super) entry: String,
}

/// The screen a path leads to, and what it names.
fn read(path: &str) -> (Screen, Names) {
    let path = path.strip_prefix('/').unwrap_or(path);
    let words: Vec<&str> = path.strip_suffix('/').unwrap_or(path).split('/').collect();
    let screen = match words.as_slice() {
        [""] => Screen::Jobs,
        ["all"] => Screen::Office,
        ["begin"] => Screen::Begin,
        ["read"] => Screen::Read,
        ["pair"] => Screen::Pair,
        ["outbox"] => Screen::Outbox,
        ["settings"] => Screen::Settings,
        ["help"] => Screen::Help,
        ["practice"] => Screen::Practise,
        ["job", job, rest @ ..] if !job.is_empty() => return of_job(job, rest),
        _ => Screen::Unknown,
    };
    (screen, Names::default())
}

fn of_job(job: &str, rest: &[&str]) -> (Screen, Names) {
    let mut names = Names { job: paths::named(job), ..Names::default() };
    let screen = match rest {
        [] => Screen::Job,
        ["compare"] => Screen::Compare,
        ["open-items"] => Screen::OpenItems,
        ["people"] => Screen::People,
        ["limits"] => Screen::Limits,
        ["schedule"] => Screen::Schedule,
        ["files"] => Screen::Files,
        ["hole"] => Screen::Hole,
        ["debrief"] => Screen::Debrief,
        ["strike", entry] => {
            names.entry = paths::named(entry);
            Screen::Strike
        }
        ["shaft", shaft, rest @ ..] if !shaft.is_empty() => {
            names.shaft = paths::named(shaft);
            of_shaft(&mut names, rest)
        }
        rest => enter(&mut names, rest),
    };
    (screen, names)
}

fn of_shaft(names: &mut Names, rest: &[&str]) -> Screen {
    match rest {
        [] => Screen::Shaft,
        ["drawings"] => Screen::Drawings,
        ["findings"] => Screen::Findings,
        ["ready"] => Screen::Ready,
        ["log"] => Screen::Log,
        ["sheet"] => Screen::Sheet,
        rest => enter(names, rest),
    }
}

fn enter(names: &mut Names, rest: &[&str]) -> Screen {
    match rest {
        ["enter"] => Screen::Choose,
        ["enter", kind] => {
            names.kind = paths::named(kind);
            Screen::Entry
        }
        _ => Screen::Unknown,
    }
}

/// The screen in sight, and what it is about. What it is about is its own: a screen that goes is not told what
/// the next one is about.
#[derive(Clone)]
struct Shown {
    screen: Screen,
    names: ArcRwSignal<Names>,
}

/// Where the app is, and the way elsewhere.
#[derive(Clone, Copy)]
pub(crate) struct Way {
    path: RwSignal<String>,
    shown: RwSignal<Shown>,
}

impl Way {
    /// Begins at the address of the page, and follows every link and every step back from there.
    pub(super) fn provide() {
        let path = here().0;
        let (screen, names) = read(&path);
        let shown = Shown { screen, names: ArcRwSignal::new(names) };
        let way = Way { path: RwSignal::new(path), shown: RwSignal::new(shown) };
        window_event_listener(ev::click, move |event| way.tapped(&event));
        window_event_listener(ev::popstate, move |_| way.follow());
        provide_context(way);
    }

    /// The path of the address.
    pub(crate) fn path(self) -> Signal<String> {
        self.path.into()
    }

    /// Goes to an address of the app.
    pub(crate) fn go(self, address: &str) {
        let (path, rest) = here();
        let kept = path + &rest == address
            || window()
                .history()
                .is_ok_and(|history| history.push_state_with_url(&JsValue::NULL, "", Some(address)).is_ok());
        if !kept && location().set_href(address).is_err() {
            leptos::logging::warn!("the browser does not go to {address}");
        }
        self.follow();
        // With the next frame: at once, the browser would lay out the screen that goes.
        request_animation_frame(|| window().scroll_to_with_x_and_y(0.0, 0.0));
    }

    /// Shows what the address of the page names.
    fn follow(self) {
        let path = here().0;
        if self.path.with_untracked(|before| *before == path) {
            return;
        }
        let (screen, names) = read(&path);
        let stays = self.shown.with_untracked(|shown| {
            let of_shaft = !shown.names.read_untracked().shaft.is_empty();
            (shown.screen == screen && of_shaft != names.shaft.is_empty()).then(|| shown.names.clone())
        });
        self.path.set(path);
        match stays {
            Some(known) => known.set(names),
            None => self.shown.set(Shown { screen, names: ArcRwSignal::new(names) }),
        }
    }

    /// A tap on a link of the app leads through the app; any other is left to the browser.
    fn tapped(self, event: &MouseEvent) {
        let keys = event.meta_key() || event.alt_key() || event.ctrl_key() || event.shift_key();
        if event.default_prevented() || event.button() != 0 || keys {
            return;
        }
        let tapped = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        let Some(link) = tapped.and_then(|tapped| tapped.closest("a[href]").ok().flatten()) else { return };
        if let Some(address) = in_drawing(&link) {
            event.prevent_default();
            self.go(&address);
            return;
        }
        let Ok(link) = link.dyn_into::<HtmlAnchorElement>() else { return };
        if leads_out(&link) {
            return;
        }
        event.prevent_default();
        self.go(&(link.pathname() + &link.search() + &link.hash()));
    }
}

/// The address a mark of a drawing leads to: a link that is none of HTML, and leads to a screen.
fn in_drawing(link: &Element) -> Option<String> {
    let address = link.get_attribute("href")?;
    let between = address.starts_with('/') && !address.starts_with("//");
    (between && link.dyn_ref::<HtmlAnchorElement>().is_none()).then_some(address)
}

/// Whether a link is not one between screens.
fn leads_out(link: &HtmlAnchorElement) -> bool {
    let external = link.rel().split_ascii_whitespace().any(|word| word == "external");
    let elsewhere = location().origin().is_ok_and(|origin| origin != link.origin());
    external || elsewhere || !link.target().is_empty() || link.has_attribute("download")
}

/// The address of the page: the path, and what follows it.
fn here() -> (String, String) {
    let location = location();
    let path = location.pathname().unwrap_or_else(|_| paths::JOBS.to_owned());
    (path, location.search().unwrap_or_default() + &location.hash().unwrap_or_default())
}

/// The way, inside the app.
pub(crate) fn use_way() -> Way {
    expect_context()
}

/// What the address of this screen names.
pub(super) fn use_names() -> ArcRwSignal<Names> {
    expect_context()
}

/// The screen in sight, made by `view`.
pub(super) fn outlet(view: fn(Screen) -> AnyView) -> impl IntoView {
    let way = use_way();
    let outside = Owner::current().unwrap_or_default();
    move || {
        let Shown { screen, names } = way.shown.get();
        // The screen before lives until this one stands.
        let inside = outside.child();
        let view = inside.with(|| {
            provide_context(names);
            view(screen)
        });
        OwnedView::new_with_owner(view, inside)
    }
}
