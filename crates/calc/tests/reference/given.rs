//! What a case gives: texts by name, read as quantities.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use quantity::{Entered, Quantity, Reading};

/// The given values of one case; it remembers which of them were used.
pub(crate) struct Given {
    texts: BTreeMap<String, String>,
    used: RefCell<BTreeSet<String>>,
}

impl Given {
    pub(crate) fn new(texts: BTreeMap<String, String>) -> Self {
        Given { texts, used: RefCell::default() }
    }

    /// The names nobody asked for.
    pub(crate) fn unused(&self) -> Vec<String> {
        let used = self.used.borrow();
        self.texts.keys().filter(|name| !used.contains(*name)).cloned().collect()
    }

    /// The text under a name.
    pub(crate) fn text(&self, name: &str) -> Result<&str, String> {
        self.used.borrow_mut().insert(name.to_owned());
        self.texts.get(name).map(String::as_str).ok_or_else(|| format!("`{name}` is not given"))
    }

    /// Whether there is a text under a name.
    #[allow(dead_code, reason = "for checks with optional values")]
    pub(crate) fn has(&self, name: &str) -> bool {
        self.texts.contains_key(name)
    }

    /// A quantity with its unit, as a person writes it.
    pub(crate) fn quantity<Q: Quantity>(&self, name: &str) -> Result<Q, String> {
        read(self.text(name)?, name)
    }

    /// Quantities separated by commas.
    pub(crate) fn quantities<Q: Quantity>(&self, name: &str) -> Result<Vec<Q>, String> {
        self.text(name)?.split(',').map(|part| read(part.trim(), name)).collect()
    }

    /// A plain number.
    pub(crate) fn number(&self, name: &str) -> Result<f64, String> {
        self.text(name)?.parse().map_err(|_| format!("`{name}` is not a number"))
    }
}

fn read<Q: Quantity>(text: &str, name: &str) -> Result<Q, String> {
    let entered = Entered::<Q>::parse(text, Reading::default());
    entered.map(|entered| entered.value()).map_err(|misread| format!("`{name}`: {misread:?}"))
}
