//! The addresses of the screens, and names written so that they survive in one.
//!
//! A job may be called `Creek Rd / lot 2, 50%`; its address must still open from a bookmark, from the desk
//! and after a reload.
//!
//! Words: *word* = a name as it stands in an address: letters, digits, `-`, `_` and `.` as they are, any
//! other byte as `~` and two hexadecimal digits.
//! Never: an address that names a person.

use super::way;
use leptos::prelude::*;

/// All jobs on this device.
pub(crate) const JOBS: &str = "/";
/// All jobs together.
pub(crate) const OFFICE: &str = "/all";
/// Begin a job.
pub(crate) const BEGIN: &str = "/begin";
/// Read a file in.
pub(crate) const READ: &str = "/read";
/// Make this device known to a desk.
pub(crate) const PAIR: &str = "/pair";
/// What waits to be sent.
pub(crate) const OUTBOX: &str = "/outbox";
/// How the device shows, sounds and stores.
pub(crate) const SETTINGS: &str = "/settings";
/// Cautions, marks, how it stores.
pub(crate) const HELP: &str = "/help";

/// Begin a practice.
pub(crate) const PRACTICE: &str = "/practice";

/// The page of a job that lists what waits for somebody.
pub(crate) const OPEN_ITEMS: &str = "open-items";
/// Says in the address of a form which page it leads back to; no field of an entry has a hyphen in its name.
const BACK_TO: &str = "back-to";

/// A job.
pub(crate) fn job(job: &str) -> String {
    format!("/job/{}", word(job))
}

/// A page of a job: `open-items`, `compare`, `people`, `limits`, `schedule`, `files`; of a practice also `hole`, `debrief`.
pub(crate) fn job_page(name: &str, page: &str) -> String {
    format!("{}/{page}", job(name))
}

/// A shaft.
pub(crate) fn shaft(name: &str, shaft: &str) -> String {
    format!("{}/shaft/{}", job(name), word(shaft))
}

/// A page of a shaft: `drawings`, `findings`, `ready`, `log`, `sheet`.
pub(crate) fn shaft_page(name: &str, named: &str, page: &str) -> String {
    format!("{}/{page}", shaft(name, named))
}

/// A shaft, or an entry in its log: what a figure was made of.
pub(crate) fn spot(spot: &wording::Spot) -> String {
    let (job, shaft) = (&spot.place.job, &spot.place.shaft);
    match spot.entry {
        Some(entry) => format!("{}#{entry}", shaft_page(job, shaft, "log")),
        None => self::shaft(job, shaft),
    }
}

/// A file of a shaft at the desk: `sealed.pdf`.
pub(crate) fn at_desk(job: &str, shaft: &str, file: &str) -> String {
    let part = |name: &str| String::from(js_sys::encode_uri_component(name));
    format!("/api/v1/jobs/{}/shafts/{}/{file}", part(job), part(shaft))
}

/// A job at the desk in a format other programs read: `xlsx`.
pub(crate) fn export_at_desk(job: &str, format: &str) -> String {
    format!("/api/v1/jobs/{}/exports/{format}", String::from(js_sys::encode_uri_component(job)))
}

/// The form of a kind of entry, for a shaft or for the whole job.
pub(crate) fn enter(name: &str, named: Option<&str>, kind: &str) -> String {
    match named {
        Some(named) => format!("{}/enter/{kind}", shaft(name, named)),
        None => format!("{}/enter/{kind}", job(name)),
    }
}

/// The same, with fields that are known already: name and text, such as the ticket of a load.
pub(crate) fn enter_with(
    (name, named): (&str, Option<&str>),
    kind: &str,
    known: &[(&str, String)],
) -> String {
    let fields = known.iter().filter(|(_, text)| !text.is_empty());
    let fields: Vec<String> = fields.map(|(field, text)| format!("{field}={}", escaped(text, '%'))).collect();
    let question = if fields.is_empty() { "" } else { "?" };
    format!("{}{question}{}", enter(name, named, kind), fields.join("&"))
}

/// The same, leading back to the open items of the job once it is saved.
pub(crate) fn enter_from_open_items(
    place: (&str, Option<&str>),
    kind: &str,
    known: &[(&str, String)],
) -> String {
    let known: Vec<(&str, String)> =
        known.iter().cloned().chain([(BACK_TO, OPEN_ITEMS.to_owned())]).collect();
    enter_with(place, kind, &known)
}

/// Where an entry is corrected or struck through.
pub(crate) fn strike(name: &str, entry: &str) -> String {
    format!("{}/strike/{entry}", job(name))
}

/// A name as a word of an address.
pub(crate) fn word(name: &str) -> String {
    escaped(name, '~')
}

/// The text with `mark` and two hexadecimal digits for every byte that could mean something in an address.
fn escaped(text: &str, mark: char) -> String {
    let only_dots = text.bytes().all(|byte| byte == b'.');
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_');
    let each = text.bytes().map(|byte| match plain(byte) || (byte == b'.' && !only_dots) {
        true => char::from(byte).to_string(),
        false => format!("{mark}{byte:02x}"),
    });
    each.collect()
}

/// The name behind a word; what is no escape stays as it is.
pub(crate) fn name(word: &str) -> String {
    unescaped(word, b'~')
}

/// The name behind a word as the browser shows it in the address.
pub(super) fn named(shown: &str) -> String {
    name(&unescaped(shown, b'%'))
}

fn unescaped(text: &str, mark: u8) -> String {
    let bytes = text.as_bytes();
    let mut read = Vec::with_capacity(bytes.len());
    let mut at = 0;
    while let Some(byte) = bytes.get(at) {
        let digits = text.get(at + 1..at + 3).and_then(|two| u8::from_str_radix(two, 16).ok());
        let escaped = digits.filter(|_| *byte == mark);
        read.push(escaped.unwrap_or(*byte));
        at += if escaped.is_some() { 3 } else { 1 };
    }
    String::from_utf8_lossy(&read).into_owned()
}

/// What [`enter_with`] put into the address now shown: name and text of fields that are known already.
pub(super) fn known() -> Vec<(String, String)> {
    asked().into_iter().filter(|(field, _)| field != BACK_TO).collect()
}

/// Whether the form now shown leads back to the open items of its job.
pub(super) fn from_open_items() -> bool {
    asked().iter().any(|(field, page)| field == BACK_TO && page == OPEN_ITEMS)
}

/// What stands behind the question mark of the address now shown.
fn asked() -> Vec<(String, String)> {
    let search = location().search().unwrap_or_default();
    let fields = search.trim_start_matches('?').split('&').filter_map(|field| field.split_once('='));
    fields.map(|(field, text)| (field.to_owned(), unescaped(&text.replace('+', " "), b'%'))).collect()
}

/// The job of this screen; empty where its address names none.
pub(crate) fn job_here() -> Memo<String> {
    here(|names| &names.job)
}

/// The shaft of this screen; empty where its address names none.
pub(crate) fn shaft_here() -> Memo<String> {
    here(|names| &names.shaft)
}

/// The kind of entry of this screen; empty where its address names none.
pub(crate) fn kind_here() -> Memo<String> {
    here(|names| &names.kind)
}

/// The entry of this screen; empty where its address names none.
pub(crate) fn entry_here() -> Memo<String> {
    here(|names| &names.entry)
}

fn here(part: fn(&way::Names) -> &String) -> Memo<String> {
    let names = way::use_names();
    Memo::new(move |_| names.with(|names| part(names).clone()))
}

/// What the address now shown is about.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Place {
    /// The job, where there is one.
    pub(crate) job: Option<String>,
    /// The shaft, where there is one.
    pub(crate) shaft: Option<String>,
}

/// What a path is about.
pub(crate) fn place_of(path: &str) -> Place {
    let mut words = path.split('/').skip(1);
    let named = |word: Option<&str>| word.filter(|word| !word.is_empty()).map(named);
    let job = if words.next() == Some("job") { named(words.next()) } else { None };
    let shaft = if words.next() == Some("shaft") { named(words.next()) } else { None };
    Place { shaft: shaft.filter(|_| job.is_some()), job }
}

/// What the screen now shown is about.
pub(crate) fn place() -> Memo<Place> {
    let path = way::use_way().path();
    Memo::new(move |_| path.with(|path| place_of(path)))
}
