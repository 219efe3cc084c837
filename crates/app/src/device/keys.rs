//! The keys of this device, all made from one secret that never leaves it.
//!
//! Each job has a key of its own, so that a job's chain of entries begins at number 1 and can be handed over
//! whole, and nobody sees from two records that one device wrote both.
//!
//! Never: write the secret anywhere but into the store of this browser.

use super::database::{Database, Durability, SECRETS, Transaction, Trouble, bytes, bytes_of};
use wire::{Key, sha256};

/// The key of the row of the secret.
const MASTER: &str = "master";

/// The secret of this device.
pub(super) type Secret = [u8; 32];

/// The key that signs entries of a job.
pub(super) fn job_key(secret: &Secret, job: &str) -> Key {
    let seed: Vec<u8> = secret.iter().copied().chain([0]).chain(job.bytes()).collect();
    Key::of_secret(sha256(&seed))
}

/// The key whose public half names this device to the office.
pub(super) fn pairing_key(secret: &Secret) -> Key {
    let seed: Vec<u8> = secret.iter().copied().chain([1]).collect();
    Key::of_secret(sha256(&seed))
}

/// The secret that is kept; drawn and kept when there is none. Two tabs that begin at once get the same.
pub(super) async fn secret(database: &Database) -> Result<Secret, Trouble> {
    let transaction = Transaction::to_write(database, &[SECRETS], Durability::Strict)?;
    if let Some(row) = transaction.get(SECRETS, MASTER).await? {
        let kept = bytes_of(&row).and_then(|kept| kept.try_into().ok());
        return kept.ok_or_else(|| Trouble::Other("the secret of this device is damaged".to_owned()));
    }
    let mut drawn = [0; 32];
    getrandom::fill(&mut drawn).map_err(|error| Trouble::Other(error.to_string()))?;
    transaction.put(SECRETS, MASTER, &bytes(&drawn))?;
    transaction.commit().await?;
    Ok(drawn)
}
