//! What a person set on this device: who writes, colors, hand, sound. Kept when changed, told to other tabs.

use super::database::{Durability, Row, SETTINGS, Transaction, Trouble, text};
use super::tabs::News;
use super::{Device, Settings};
use leptos::prelude::*;
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen_futures::spawn_local;

const AUTHOR: &str = "author";
const LOOKS: &str = "looks";

impl Device {
    /// From now on keeps what is changed.
    pub(super) fn keep_settings(self) {
        Effect::new(move |before: Option<String>| {
            let author = self.author.get();
            // A name given while the storage was still being opened is kept too.
            let changed = before.map_or_else(|| !author.is_empty(), |before| before != author);
            if changed {
                self.set_later(AUTHOR, author.clone());
            }
            author
        });
        Effect::new(move |before: Option<Settings>| {
            let looks = self.settings.get();
            if before.is_some_and(|before| before != looks) {
                self.set_later(LOOKS, looks);
            }
            looks
        });
    }

    /// Reads what was set, here or in another tab.
    pub(super) async fn read_settings(self) -> Result<(), Trouble> {
        if let Some(author) = self.setting::<String>(AUTHOR).await?
            && author != self.author.get_untracked()
        {
            self.author.set(author);
        }
        if let Some(looks) = self.setting::<Settings>(LOOKS).await?
            && looks != self.settings.get_untracked()
        {
            self.settings.set(looks);
        }
        self.read_clocks().await
    }

    /// Who writes is known from now on, and kept before this returns: whoever leaves the page at once loses no name.
    pub(super) async fn go_by(self, author: String) -> Result<(), Trouble> {
        self.set(AUTHOR, &author).await?;
        self.author.set(author);
        Ok(())
    }

    /// A setting by its name; `None` where it was never set, or was set by a version that wrote it otherwise.
    pub(super) async fn setting<T: DeserializeOwned>(self, name: &str) -> Result<Option<T>, Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_read(&opened.database, &[SETTINGS])?;
        let row = transaction.get(SETTINGS, name).await?;
        Ok(row.and_then(|row| serde_json::from_str(&text(&row, "json")?).ok()))
    }

    /// Keeps a setting, where it is not what is kept.
    pub(super) async fn set<T: Serialize>(self, name: &str, value: &T) -> Result<(), Trouble> {
        let json = serde_json::to_string(value).map_err(|error| Trouble::Other(error.to_string()))?;
        let opened = self.opened().await?;
        let transaction = Transaction::to_write(&opened.database, &[SETTINGS], Durability::Strict)?;
        let kept = transaction.get(SETTINGS, name).await?.and_then(|row| text(&row, "json"));
        if kept.as_ref() == Some(&json) {
            return Ok(());
        }
        transaction.put(SETTINGS, name, &Row::new().with("json", json).into())?;
        transaction.commit().await?;
        self.tell_tabs(&News::Settings);
        Ok(())
    }

    /// Keeps a setting soon; that it could not be kept is told.
    pub(super) fn set_later<T: Serialize + 'static>(self, name: &'static str, value: T) {
        spawn_local(async move {
            if let Err(trouble) = self.set(name, &value).await {
                self.tell_trouble(&trouble);
            }
        });
    }
}
