//! What a service manager is told: that the office is open, and that it is being closed.
//!
//! systemd names a socket for it (`Type=notify`), and with it starts what needs the office only once it is open. Where nobody
//! named one there is nobody to tell.

#[cfg(target_os = "linux")]
use sd_notify::NotifyState;

/// It is open.
#[cfg(target_os = "linux")]
pub(super) fn open(address: &str) {
    tell(&[NotifyState::Ready, NotifyState::Status(&format!("open at {address}"))]);
}

/// It is being closed: what is under way is finished first.
#[cfg(target_os = "linux")]
pub(super) fn closing() {
    tell(&[NotifyState::Stopping]);
}

#[cfg(target_os = "linux")]
fn tell(states: &[NotifyState<'_>]) {
    if let Err(error) = sd_notify::notify(states) {
        crate::problem::warn(&format!("The service manager could not be told: {error}. The office goes on."));
    }
}

#[cfg(not(target_os = "linux"))]
pub(super) fn open(_: &str) {}

#[cfg(not(target_os = "linux"))]
pub(super) fn closing() {}
