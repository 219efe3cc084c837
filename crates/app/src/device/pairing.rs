//! The office that knows this device.
//!
//! The desk shows a code; with it the device hands over the public half of its pairing key and gets a cookie
//! that scripts cannot read. Losing the cookie loses nothing but the way: another code brings it back.

use super::database::Trouble;
use super::keys::pairing_key;
use super::network::{self, Ask, Body};
use super::notices::{of_refusal, of_trouble};
use super::tabs::News;
use super::time::on_window;
use super::{Device, Link, Pairing};
use leptos::prelude::*;
use wire::http::{Pair, Paired, Refusal};
use wording::Notice;
use wording::device::{Told, told};

const PAIRING: &str = "pairing";
/// What the address says before a code.
const OFFER: &str = "#pair=";

impl Device {
    /// Reads which office knows this device.
    pub(super) async fn read_pairing(self) -> Result<(), Trouble> {
        let pairing = self.setting::<Pairing>(PAIRING).await?;
        if pairing.is_none() {
            self.link(Link::NeverPaired);
        } else if self.outbox.with_untracked(|outbox| outbox.link == Link::NeverPaired) {
            self.link(Link::NotLooked);
        }
        if self.pairing.get_untracked() != pairing {
            self.pairing.set(pairing);
        }
        Ok(())
    }

    pub(super) async fn keep_pairing(self, pairing: Pairing) -> Result<(), Trouble> {
        self.set(PAIRING, &pairing).await?;
        self.pairing.set(Some(pairing));
        self.tell_tabs(&News::Pairing);
        Ok(())
    }

    /// Makes this device known to the office that showed the code; `name` is what the office calls it.
    ///
    /// # Errors
    /// The code is wrong or too old, or the office cannot be reached.
    pub(crate) async fn pair(self, code: &str, name: &str) -> Result<(), Notice> {
        let opened = self.opened().await.map_err(|trouble| of_trouble(&trouble))?;
        let device = pairing_key(&opened.secret).device().to_string();
        let pair = Pair { code: code.trim().to_owned(), name: name.trim().to_owned(), device };
        let asked = serde_json::to_string(&pair).unwrap_or_default();
        let reply = network::fetch(&Ask::post("/pair", Body::Json(asked))).await;
        let reply = reply.map_err(|_| told(&Told::OfficeSilent))?;
        if !reply.is_good() {
            let refusal = reply.json::<Refusal>();
            return Err(refusal.map_or_else(
                || told(&Told::NoDesk { status: reply.status }),
                |refusal| of_refusal(&refusal),
            ));
        }
        let paired: Paired = reply.json().ok_or_else(|| told(&Told::NoDesk { status: reply.status }))?;
        // Who has given a name already goes on under it.
        if let Some(name) = paired.signs_as
            && self.author.with_untracked(|author| author.trim().is_empty())
        {
            self.go_by(name).await.map_err(|trouble| of_trouble(&trouble))?;
        }
        let pairing = Pairing { office: paired.office, name: pair.name };
        self.keep_pairing(pairing).await.map_err(|trouble| of_trouble(&trouble))?;
        self.code_offered.set(None);
        self.link(Link::Sending);
        self.carrier().paired_anew();
        self.sync_now();
        Ok(())
    }

    /// Begins to look for a code in the address, and takes it out of there: it serves once.
    pub(super) fn start_offers(self) {
        self.look_for_code();
        on_window("hashchange", move || self.look_for_code());
    }

    fn look_for_code(self) {
        let Some(window) = web_sys::window() else { return };
        let hash = window.location().hash().unwrap_or_default();
        let Some(code) = hash.strip_prefix(OFFER).filter(|code| !code.is_empty()) else { return };
        self.code_offered.set(Some(code.to_owned()));
        let path = window.location().pathname().unwrap_or_else(|_| "/".to_owned());
        if let Ok(history) = window.history() {
            history.replace_state_with_url(&wasm_bindgen::JsValue::NULL, "", Some(&path)).ok();
        }
    }
}
