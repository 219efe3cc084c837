//! The criteria in force on a job: the set its record chose, with the limits its record changed.
//!
//! The record stands alone: a set that does not come with the program is kept in it as text. What was
//! refused of a change is named, and the original limit stays.
//!
//! Never: choose a set the job did not choose.

use criteria::{Change, Override, Problem, RefusedOverride, Set, SetInForce};
use record::kinds::{CriteriaChosen, JobOpened, LimitChanged};
use record::{EntryId, Log};

/// The criteria in force.
#[derive(Debug, Clone, PartialEq)]
pub struct Rules {
    /// The set with its changes.
    pub set: SetInForce,
    /// Changes that were refused.
    pub refused: Vec<RefusedOverride>,
    /// The entry that chose the set.
    pub chosen: EntryId,
}

/// Why no criteria are in force.
#[derive(Debug, Clone, PartialEq)]
pub enum NoRules {
    /// The record chooses none.
    NotChosen,
    /// The record chooses one that does not come with the program and holds no text of it.
    Unknown {
        /// Its key.
        set: String,
    },
    /// The file is not the one the record chose: its digest differs.
    OtherFile {
        /// Its key.
        set: String,
        /// The digest the record holds.
        chosen: String,
        /// The digest of the text there is.
        found: String,
    },
    /// The text has mistakes.
    Mistakes {
        /// Its key.
        set: String,
        /// All of them.
        problems: Vec<Problem>,
    },
}

impl Rules {
    /// The criteria the entries about the whole job put in force.
    ///
    /// # Errors
    /// Why none are in force.
    pub fn of(log: &Log<'_>) -> Result<Self, NoRules> {
        let (line, chosen) = log.last::<CriteriaChosen>().ok_or(NoRules::NotChosen)?;
        let set = set_of(chosen)?;
        let changes: Vec<Override> = last_changes(log);
        let (set, refused) = set.in_force(&changes);
        Ok(Rules { set, refused, chosen: line.entry.id })
    }

    /// No criteria at all, so that figures and forecasts can still be had.
    pub fn none() -> SetInForce {
        let about = criteria::set::About {
            id: "none".to_owned(),
            title: "No criteria were chosen".to_owned(),
            edition: String::new(),
            about: String::new(),
            caution: None,
        };
        SetInForce { about, sha256: String::new(), criteria: Vec::new() }
    }
}

fn set_of(chosen: &CriteriaChosen) -> Result<Set, NoRules> {
    let key = chosen.set.clone();
    let set = match &chosen.text {
        Some(text) => {
            Set::parse(text).map_err(|problems| NoRules::Mistakes { set: key.clone(), problems })?
        }
        None => Set::shipped(&key).ok_or(NoRules::Unknown { set: key.clone() })?,
    };
    let wanted = chosen.file.to_string();
    match set.sha256 == wanted {
        true => Ok(set),
        false => Err(NoRules::OtherFile { set: key, chosen: wanted, found: set.sha256 }),
    }
}

/// The last change of each criterion: a later change takes the place of an earlier one.
fn last_changes(log: &Log<'_>) -> Vec<Override> {
    let comma = log.last::<JobOpened>().is_some_and(|(_, job)| job.decimal_comma == Some(true));
    // A limit is kept as it was written; on such a job its comma is the decimal sign.
    let point = |limit: &Option<String>| {
        limit.as_ref().map(|limit| if comma { limit.replace(',', ".") } else { limit.clone() })
    };
    let mut last = std::collections::BTreeMap::new();
    for (line, change) in log.each::<LimitChanged>() {
        let by = change.by.clone().unwrap_or_else(|| line.entry.author.clone());
        let changed = Override {
            criterion: change.criterion.clone(),
            change: Change::written(point(&change.limit).as_deref(), point(&change.limit_high).as_deref()),
            reason: change.reason.clone(),
            who: by,
        };
        last.insert(change.criterion.as_str(), changed);
    }
    last.into_values().collect()
}
