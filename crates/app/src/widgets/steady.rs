//! What lies under a finger stays there until the finger is lifted.
//!
//! A banner that comes, or keys that change their places, between the press and the lift would lay something else under
//! the finger: the tap would be lost, or go to another key. With a glove that time is long.
//!
//! Words: *press* = from the finger or the button of the mouse going down to the click it makes.
//! Never: hold back a figure or a call; only what moves or changes the keys waits.

use leptos::ev;
use leptos::prelude::*;
use std::time::Duration;

/// A press without an end, as of a finger that leaves the window, is over after this.
const LONGEST: Duration = Duration::from_secs(2);
/// On a touch screen the click comes a moment after the lift, where it comes at all.
const CLICK: Duration = Duration::from_millis(100);

/// Whether a press is under way.
#[derive(Clone, Copy)]
pub(crate) struct Press {
    down: RwSignal<bool>,
    /// Counted, so that the end of one press is not taken for that of the next.
    number: StoredValue<u32>,
}

impl Press {
    /// Watches for presses from now on; once, above every screen, and after whoever does something at a click of the window.
    pub(crate) fn provide() {
        let press = Press { down: RwSignal::new(false), number: StoredValue::new(0) };
        window_event_listener(ev::pointerdown, move |_| press.begins());
        window_event_listener(ev::pointerup, move |_| press.ends_after(CLICK));
        window_event_listener(ev::pointercancel, move |_| press.ends());
        window_event_listener(ev::click, move |_| press.ends());
        provide_context(press);
    }

    fn begins(self) {
        self.number.update_value(|number| *number = number.wrapping_add(1));
        self.down.set(true);
        self.ends_after(LONGEST);
    }

    fn ends_after(self, wait: Duration) {
        let this = self.number.get_value();
        let end = move || {
            if self.number.get_value() == this {
                self.ends();
            }
        };
        set_timeout(end, wait);
    }

    fn ends(self) {
        if self.down.get_untracked() {
            self.down.set(false);
        }
    }
}

/// What `of` gives; while a press is under way, what it gave before.
pub(crate) fn steady<T>(of: impl Fn() -> T + Send + Sync + 'static) -> Memo<T>
where
    T: Clone + PartialEq + Send + Sync + 'static,
{
    let press: Press = expect_context();
    Memo::new(move |before: Option<&T>| match before {
        Some(before) if press.down.get() => before.clone(),
        _ => of(),
    })
}
