//! Hearing what other programs on the same database wrote.
//!
//! What is heard says only that something happened; what it was is asked. So a word that gets lost costs a moment
//! until somebody looks anyway.

use crate::address::Server;
use crate::error::StoreError;
use crate::sql::Told;
use postgres::fallible_iterator::FallibleIterator;
use postgres::{Client, NoTls};
use std::time::Duration;

/// A connection that only listens.
pub struct Listener(Client);

impl Told {
    /// The channel it is told on.
    pub(super) fn channel(self) -> &'static str {
        match self {
            Told::Arrived => "shaftbook_arrived",
            Told::Rights => "shaftbook_rights",
        }
    }

    fn on(channel: &str) -> Option<Told> {
        [Told::Arrived, Told::Rights].into_iter().find(|told| told.channel() == channel)
    }
}

impl Listener {
    /// Listens from here on.
    ///
    /// # Errors
    /// When the server does not answer.
    pub fn begin(server: &Server) -> Result<Self, StoreError> {
        let mut client = server.config.connect(NoTls)?;
        for told in [Told::Arrived, Told::Rights] {
            client.batch_execute(&format!("LISTEN {}", told.channel()))?;
        }
        Ok(Listener(client))
    }

    /// Waits for the next word, so long at most. `None`: nothing was said.
    ///
    /// # Errors
    /// When the connection ended.
    pub fn wait(&mut self, most: Duration) -> Result<Option<Told>, StoreError> {
        let heard = self.0.notifications().timeout_iter(most).next()?;
        if heard.is_none() && self.0.is_closed() {
            return Err(StoreError::Unreachable("the connection that listens ended".to_owned()));
        }
        Ok(heard.and_then(|heard| Told::on(heard.channel())))
    }
}
