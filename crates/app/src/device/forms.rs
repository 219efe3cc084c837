//! Forms half filled in: they survive a tab that was killed in the middle of an entry.
//!
//! Written at every key, so without waiting for the disk; what is lost with the power is a few letters.

use super::Device;
use super::database::{Durability, FORMS, Row, Transaction, Trouble, text};
use super::time::now_ms;

impl Device {
    /// Keeps a form that is half filled in. A storage that fails is told by `write`, not here.
    pub(crate) async fn keep_form(self, key: &str, form: &str) {
        self.put_form(key, form).await.ok();
    }

    async fn put_form(self, key: &str, form: &str) -> Result<(), Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_write(&opened.database, &[FORMS], Durability::Relaxed)?;
        transaction.put(FORMS, key, &Row::new().with("text", form).with("at", now_ms()).into())?;
        transaction.commit().await
    }

    /// A form that was half filled in.
    pub(crate) async fn kept_form(self, key: &str) -> Option<String> {
        let opened = self.opened().await.ok()?;
        let transaction = Transaction::to_read(&opened.database, &[FORMS]).ok()?;
        text(&transaction.get(FORMS, key).await.ok()??, "text")
    }

    /// Every form kept under a key that begins so, with its key.
    pub(super) async fn kept_forms(self, beginning: &str) -> Vec<(String, String)> {
        self.forms(beginning).await.unwrap_or_default()
    }

    async fn forms(self, beginning: &str) -> Result<Vec<(String, String)>, Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_read(&opened.database, &[FORMS])?;
        let rows = transaction.all(FORMS).await?.into_iter();
        let ours = rows.filter(|(key, _)| key.starts_with(beginning));
        Ok(ours.filter_map(|(key, row)| Some((key, text(&row, "text")?))).collect())
    }

    /// Forgets a form: it was saved or given up.
    pub(crate) async fn drop_form(self, key: &str) {
        self.delete_form(key).await.ok();
    }

    async fn delete_form(self, key: &str) -> Result<(), Trouble> {
        let opened = self.opened().await?;
        let transaction = Transaction::to_write(&opened.database, &[FORMS], Durability::Relaxed)?;
        transaction.delete(FORMS, key)?;
        transaction.commit().await
    }
}
