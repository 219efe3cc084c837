//! Difficulties of the browser and the office as people are told them.

use super::database::Trouble;
use super::{Device, Storage};
use leptos::prelude::*;
use wire::http::Refusal;
use wording::Notice;
use wording::device::{Told, told};

/// At most so many notices wait to be read; older ones of the same kind are replaced.
const NOTICES_MOST: usize = 12;

/// The notice of a difficulty with the storage.
pub(super) fn of_trouble(trouble: &Trouble) -> Notice {
    told(&match trouble {
        Trouble::Full => Told::NoRoom,
        Trouble::Absent => Told::NoStorage,
        Trouble::Newer => Told::NewerStorage,
        Trouble::Blocked => Told::OlderTab,
        Trouble::Closed => Told::StorageClosed,
        Trouble::Other(words) => Told::NotStored(words.clone()),
    })
}

/// The notice of a refusal, in the words of the office.
pub(super) fn of_refusal(refusal: &Refusal) -> Notice {
    Notice {
        code: refusal.row().map_or("refused", |row| row.word),
        what: refusal.what.clone(),
        meaning: refusal.meaning.clone(),
        next: refusal.next.clone(),
    }
}

impl Device {
    /// Shows a notice until it is dismissed; one of the same kind about the same thing only once.
    pub(super) fn tell(self, notice: Notice) {
        self.notices.update(|notices| {
            if !notices.contains(&notice) {
                notices.push(notice);
                let over = notices.len().saturating_sub(NOTICES_MOST);
                notices.drain(..over);
            }
        });
    }

    /// Says that the storage failed, and how it stands with it from now on.
    pub(super) fn tell_trouble(self, trouble: &Trouble) -> Notice {
        let notice = of_trouble(trouble);
        match trouble {
            Trouble::Full => self.storage.set(Storage::Full(notice.clone())),
            Trouble::Absent | Trouble::Newer | Trouble::Blocked | Trouble::Closed => {
                self.storage.set(Storage::NotKept(notice.clone()));
            }
            Trouble::Other(_) => {}
        }
        self.tell(notice.clone());
        notice
    }
}
