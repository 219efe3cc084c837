//! What is known of a job without reading its entries: title, zone, rehearsal.

use super::database::{Row, number, text};
use record::kinds::JobOpened;
use record::{Body, Entry, Held, Log, Record};
use wasm_bindgen::JsValue;

/// What is known of a job.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Card {
    /// What people call it.
    pub(super) title: Option<String>,
    /// The time zone its clocks are in, by its name in the IANA table.
    pub(super) zone: Option<String>,
    /// Made up for practice.
    pub(super) rehearsal: bool,
}

impl Card {
    /// What the opening of a job says.
    fn of(opened: &JobOpened) -> Self {
        Card {
            title: Some(opened.name.clone()),
            zone: Some(opened.time_zone.clone()),
            rehearsal: opened.rehearsal == Some(true),
        }
    }

    /// What a whole record says; corrections of the opening count.
    pub(super) fn of_record(record: &Record) -> Option<Self> {
        let opened = Log::of(record, None, None).last::<JobOpened>().map(|(_, opened)| Card::of(opened));
        opened.map(|card| Card { rehearsal: record.is_rehearsal(), ..card })
    }

    /// What some entries say, where one of them opens the job or corrects its opening.
    pub(super) fn of_entries<'e>(entries: impl IntoIterator<Item = &'e Held>) -> Option<Self> {
        let opening = |held: &Held| match held {
            Held::Known(Entry { body: Body::JobOpened(opened), .. }) => Some(Card::of(opened)),
            _ => None,
        };
        entries.into_iter().filter_map(opening).last()
    }

    /// The card of a row.
    pub(super) fn of_row(row: &JsValue) -> Self {
        Card {
            title: text(row, "title"),
            zone: text(row, "zone"),
            rehearsal: number(row, "rehearsal") == Some(1.0),
        }
    }

    /// The row of a card.
    pub(super) fn row(&self) -> JsValue {
        let mut row = Row::new().with("rehearsal", f64::from(u8::from(self.rehearsal)));
        if let Some(title) = &self.title {
            row = row.with("title", title.as_str());
        }
        if let Some(zone) = &self.zone {
            row = row.with("zone", zone.as_str());
        }
        row.into()
    }
}
