//! Why the browser did not keep or give something, told apart as far as a person can act on it.

use wasm_bindgen::{JsCast, JsValue};
use web_sys::DomException;

/// Why the browser did not do it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::device) enum Trouble {
    /// There is no room.
    Full,
    /// There is no database: private browsing, or storage switched off.
    Absent,
    /// The database is that of a newer version of the app.
    Newer,
    /// Another tab holds the database of an older version open.
    Blocked,
    /// The database was closed: another tab runs a newer version, or the browser cleared it.
    Closed,
    /// Anything else, in the browser's words.
    Other(String),
}

impl Trouble {
    /// What the browser threw or reported.
    pub(super) fn of(thrown: &JsValue) -> Self {
        let Some(exception) = thrown.dyn_ref::<DomException>() else {
            let error = thrown.dyn_ref::<js_sys::Error>().map(|error| String::from(error.message()));
            return Trouble::Other(error.unwrap_or_else(|| format!("{thrown:?}")));
        };
        Trouble::of_exception(exception)
    }

    /// An exception of the browser, by its standard name. [IndexedDB-3]
    pub(super) fn of_exception(exception: &DomException) -> Self {
        match exception.name().as_str() {
            "QuotaExceededError" => Trouble::Full,
            "VersionError" => Trouble::Newer,
            "InvalidStateError" | "AbortError" | "TransactionInactiveError" => Trouble::Closed,
            "SecurityError" | "NotAllowedError" => Trouble::Absent,
            name => Trouble::Other(format!("{name}: {}", exception.message())),
        }
    }
}
