//! The seal of a shaft, made at the desk, which has the pages.
//!
//! Never: write a seal here; it comes back as an entry of the record like every other.

use super::Device;
use super::network::{self, Ask, Body, in_address};
use super::notices::of_refusal;
use leptos::prelude::*;
use wire::http::{Refusal, SealAsked};
use wording::Notice;
use wording::device::{Told, told};

/// Pages are drawn, the file is proved: allow for a slow machine.
const PATIENCE_MS: u32 = 60_000;

impl Device {
    /// Has the desk seal a shaft, and fetches the entry that says so.
    ///
    /// # Errors
    /// Something is lacking, or the desk does not answer.
    pub(crate) async fn seal(self, job: &str, shaft: &str) -> Result<(), Notice> {
        let path = format!("/jobs/{}/shafts/{}/seal", in_address(job), in_address(shaft));
        let asked = SealAsked { by: self.author.get_untracked(), with_open_findings: false };
        let body = Body::Json(serde_json::to_string(&asked).unwrap_or_default());
        let reply = network::fetch(&Ask::post(&path, body).patient(PATIENCE_MS)).await;
        let reply = reply.map_err(|_| told(&Told::OfficeSilent))?;
        if !reply.is_good() {
            let refusal = reply.json::<Refusal>().map(|refusal| of_refusal(&refusal));
            return Err(refusal.unwrap_or_else(|| told(&Told::NoDesk { status: reply.status })));
        }
        self.sync_now();
        Ok(())
    }
}
