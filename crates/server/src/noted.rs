//! What is written into the list of sign-ins, and by whom it was done.
//!
//! Never: a secret; a name nobody has.

use crate::answer::Refused;
use crate::door::Asker;
use crate::journal::{Happened, Level};
use crate::running::Shared;
use crate::time;
use axum::http::request::Parts;
use std::collections::BTreeMap;
use std::sync::{Arc, PoisonError};
use store::{Device, Office, SignIn, SignIns};
use wire::http::Code;

/// A refusal of one person at one place is noted once in this time, so that nobody fills the disk with them.
const ONCE_SECONDS: i64 = 60;

/// What is noted when somebody was turned away.
pub(crate) const REFUSED: &str = "refused";

/// Refusals remembered.
const REMEMBERED: usize = 1024;

/// Refusals by person and place, with the time each was noted.
#[derive(Debug, Default)]
pub(crate) struct Refusals(BTreeMap<(String, String), i64>);

impl Refusals {
    /// Whether this one is to be noted.
    fn is_new(&mut self, name: &str, place: &str, now: i64) -> bool {
        if self.0.len() >= REMEMBERED {
            self.0.retain(|_, at| now - *at < ONCE_SECONDS);
        }
        let at = self.0.get(&(name.to_owned(), place.to_owned())).copied();
        let new = at.is_none_or(|at| now - at >= ONCE_SECONDS) && self.0.len() < REMEMBERED;
        if new {
            self.0.insert((name.to_owned(), place.to_owned()), now);
        }
        new
    }
}

impl Shared {
    /// Notes that something happened to a person, at the hand of whoever asks.
    pub(crate) async fn note(
        &self,
        asker: &Asker,
        (what, person): (&'static str, Option<&str>),
        about: &str,
    ) {
        self.tell_of_the_door(asker, (what, person), None);
        self.keep_note(asker, (what, person), about).await;
    }

    async fn keep_note(&self, asker: &Asker, (what, person): (&str, Option<&str>), about: &str) {
        let happened = SignIn {
            at: time::now().seconds(),
            what: what.to_owned(),
            person: person.map(str::to_owned),
            address: asker.address.clone(),
            about: about.to_owned(),
        };
        // What was done is done, and told to whoever asked; that it could not be noted is told to the office.
        if let Err(error) = self.writer.ask(move |store| store.note_sign_in(&happened)).await {
            (self.site.journal)(&Happened {
                level: Level::Error,
                what: "not-noted",
                inside: Some(format!("the list of sign-ins could not be written: {error}")),
                ..Happened::default()
            });
        }
    }

    /// Counts it and writes it down. What it was about stays in the list of sign-ins: somebody may have typed it.
    fn tell_of_the_door(
        &self,
        asker: &Asker,
        (what, person): (&'static str, Option<&str>),
        device: Option<i64>,
    ) {
        self.meter.at_the_door(what);
        (self.site.journal)(&Happened {
            level: if what == REFUSED { Level::Warn } else { Level::Info },
            what,
            request: Some(asker.request.clone()),
            person: person.map(str::to_owned),
            device,
            from: Some(asker.address.clone()),
            ..Happened::default()
        });
    }

    /// Notes what happened to a device.
    pub(crate) async fn note_device(self: &Arc<Self>, asker: &Asker, what: &'static str, device: &Device) {
        let holder = match device.person {
            None => None,
            Some(number) => {
                let found = self.read(move |store| store::People::person(store, number)).await;
                found.ok().flatten().map(|known| known.person.name)
            }
        };
        let by = asker.name().map(|name| format!(", by {name}")).unwrap_or_default();
        let about = format!("device {}: {}{by}", device.number, device.name);
        self.tell_of_the_door(asker, (what, holder.as_deref()), Some(device.number));
        self.keep_note(asker, (what, holder.as_deref()), &about).await;
    }

    fn is_new_refusal(&self, name: &str, place: &str) -> bool {
        let mut refusals = self.refusals.lock().unwrap_or_else(PoisonError::into_inner);
        refusals.is_new(name, place, time::now().seconds())
    }

    /// Notes that somebody the office knows asked for what the role does not allow.
    pub(crate) async fn note_refusal(&self, asker: &Asker, parts: &Parts) {
        let Some(name) = asker.name() else { return };
        let path: String = parts.uri.path().chars().take(200).collect();
        let place = format!("{} {path}", parts.method);
        let new = self.is_new_refusal(name, &place);
        if new {
            self.note(asker, (REFUSED, Some(name)), &place).await;
        }
    }

    /// Lets a device go, notes it, and closes its line.
    pub(crate) async fn let_device_go(self: &Arc<Self>, asker: &Asker, number: i64) -> Result<(), Refused> {
        let devices = self.read(|store| store.devices()).await?;
        let device = devices.into_iter().find(|device| device.number == number);
        let now = time::now().seconds();
        let went = self.writer.ask(move |store| store.let_go(number, now)).await?;
        self.rights_changed();
        let what = || format!("No device {number} is paired.");
        let device = device.filter(|_| went).ok_or_else(|| Refused::new(Code::NOT_FOUND, what()))?;
        self.note_device(asker, "device-let-go", &device).await;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_refusal_is_noted_once_a_minute_and_no_flood_of_them_is() {
        let mut refusals = Refusals::default();
        assert!(refusals.is_new("a.hall", "GET /people/office", 1000));
        assert!(!refusals.is_new("a.hall", "GET /people/office", 1059));
        assert!(refusals.is_new("a.hall", "GET /people/office", 1060));
        assert!(refusals.is_new("d.pike", "GET /people/office", 1060));
        let noted = (0..5000).filter(|at| refusals.is_new("a.hall", &format!("GET /{at}"), 1061)).count();
        assert!(noted < REMEMBERED, "{noted}");
    }
}
