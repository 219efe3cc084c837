//! The browser app: what an inspector holds in a gloved hand beside the rig.
//!
//! Everything is stored on the device before it is shown as saved, and reckoned on the device. Screens read
//! plain data made by `screen`; only `device` appends entries and talks to the browser's storage.
//!
//! Words: *screen* = what fills the tablet; *widget* = a piece of a screen that knows no record.
//! Never: calculate; show as saved what is not stored.

#![expect(
    unreachable_pub,
    reason = "a component is declared again by its macro, which takes `pub(crate)` for `pub`"
)]

mod device;
mod screens;
mod widgets;

fn main() {
    console_error_panic_hook::set_once();
    leptos::mount::mount_to_body(screens::App);
}
