//! Begin a job: its name, its units, its zone, the criteria it is judged by.
//!
//! Asked once, because every later entry is read by it. The rest (people, mixes, fluid, shafts) has forms of
//! its own on the job's screen.

use super::ask::{ChoiceAsk, SwitchAsk, TextAsk};
use super::paths;
use super::shell::PageHead;
use super::way::use_way;
use crate::device::{Device, Pending, use_device};
use crate::widgets::{Key, NoticeCard, Tone};
use criteria::SHIPPED;
use leptos::prelude::*;
use record::choices::{JobUnits, LengthStyle};
use record::entry::FileHash;
use record::kinds::{CriteriaChosen, JobOpened};
use wording::Notice;

/// What is asked.
#[derive(Clone, Copy)]
struct Answers {
    name: RwSignal<String>,
    key: RwSignal<String>,
    zone: RwSignal<String>,
    lengths: RwSignal<LengthStyle>,
    criteria: RwSignal<&'static str>,
    rehearsal: RwSignal<bool>,
}

impl Answers {
    fn new() -> Self {
        Answers {
            name: RwSignal::new(String::new()),
            key: RwSignal::new(String::new()),
            zone: RwSignal::new(zone_here()),
            lengths: RwSignal::new(LengthStyle::FeetTenths),
            criteria: RwSignal::new(SHIPPED[0].0),
            rehearsal: RwSignal::new(false),
        }
    }

    /// The short name: as written, else made of the name.
    fn key(self) -> String {
        let written = self.key.get();
        let from = if written.trim().is_empty() { self.name.get() } else { written };
        short_name(&from)
    }

    fn opened(self) -> JobOpened {
        let lengths = self.lengths.get();
        JobOpened {
            name: self.name.get().trim().to_owned(),
            number: None,
            owner: None,
            contractor: None,
            engineer: None,
            location: None,
            datum: None,
            grid: None,
            coordinate_foot: None,
            time_zone: self.zone.get().trim().to_owned(),
            units: if lengths == LengthStyle::Meters { JobUnits::Metric } else { JobUnits::Us },
            lengths,
            decimal_comma: None,
            rehearsal: self.rehearsal.get().then_some(true),
        }
    }

    /// What is wrong with the zone, in words; empty while it is known.
    fn zone_fault(self) -> String {
        match notes::Zone::named(self.zone.get().trim()) {
            Ok(_) => String::new(),
            Err(near) if near.is_empty() => "Write a zone such as America/Denver.".to_owned(),
            Err(near) => format!("No such zone. Near it: {}.", near.join(", ")),
        }
    }
}

/// The form.
#[component]
pub(super) fn Begin() -> impl IntoView {
    let answers = Answers::new();
    let refused = RwSignal::new(None::<Notice>);
    let fault = Signal::derive(move || answers.zone_fault());
    let made = Signal::derive(move || format!("In addresses and file names: {}", answers.key()));
    view! {
        <section class="page form">
            <PageHead heading="Begin a job"/>
            <TextAsk label="Name of the job" text=answers.name/>
            <TextAsk label="Short name, if another is wanted" hint=made text=answers.key/>
            <Units answers=answers/>
            <TextAsk
                label="Time zone"
                hint="The zone of the site. It says what 10:41 means, for ever."
                fault=fault
                text=answers.zone
            />
            <CriteriaAsk answers=answers/>
            <SwitchAsk
                label="A rehearsal: made up for practice, never part of a real record"
                on=answers.rehearsal
                switch=Callback::new(move |on| answers.rehearsal.set(on))
            />
            {move || refused.get().map(|notice| view! { <NoticeCard notice=notice/> })}
            <BeginKey answers=answers refused=refused/>
        </section>
    }
}

#[component]
fn Units(answers: Answers) -> impl IntoView {
    let styles = [
        (LengthStyle::FeetTenths, "Feet and tenths: 12.5 ft"),
        (LengthStyle::FeetInches, "Feet and inches: 12'-6\""),
        (LengthStyle::Meters, "Meters: 3.81 m"),
    ];
    view! {
        <ChoiceAsk
            label="Units of the job"
            choices=styles.map(|(style, words)| (style, words.to_owned())).to_vec()
            chosen=answers.lengths
            choose=Callback::new(move |style| answers.lengths.set(style))
        />
        <p class="field-hint">
            "A number without a unit is read so. Every field also reads the other units when they are written."
        </p>
    }
}

#[component]
fn CriteriaAsk(answers: Answers) -> impl IntoView {
    let title = |id: &str| criteria::Set::shipped(id).map_or_else(|| id.to_owned(), |set| set.about.title);
    let mut choices: Vec<(&'static str, String)> = SHIPPED.iter().map(|(id, _)| (*id, title(id))).collect();
    choices.push(("", "None yet: nothing is judged".to_owned()));
    let about = move || criteria::Set::shipped(answers.criteria.get()).map(|set| set.about.about);
    view! {
        <ChoiceAsk
            label="Criteria the job is judged by"
            choices=choices
            chosen=answers.criteria
            choose=Callback::new(move |id| answers.criteria.set(id))
        />
        <p class="field-hint">{about}</p>
    }
}

#[component]
fn BeginKey(answers: Answers, refused: RwSignal<Option<Notice>>) -> impl IntoView {
    let device = use_device();
    let busy = RwSignal::new(false);
    let way = use_way();
    let off = move || {
        let incomplete = answers.name.get().trim().is_empty() || answers.key().is_empty();
        busy.get()
            || incomplete
            || !answers.zone_fault().is_empty()
            || device.author().read().trim().is_empty()
    };
    let press = move |()| {
        busy.set(true);
        refused.set(None);
        let (key, opened) = untrack(|| (answers.key(), answers.opened()));
        let set = answers.criteria.get_untracked();
        leptos::task::spawn_local(async move {
            let begun = begin(device, &key, opened, set).await;
            busy.set(false);
            match begun {
                Ok(()) => way.go(&paths::job(&key)),
                Err(notice) => refused.set(Some(notice)),
            }
        });
    };
    let nobody =
        move || device.author().read().trim().is_empty().then(|| view! { <super::settings::Author/> });
    view! {
        {nobody}
        <div class="row"><Key label="Begin the job" tone=Tone::Main off=Signal::derive(off) press=press/></div>
    }
}

/// Opens the job and, where a set was chosen, writes that too.
async fn begin(device: Device, key: &str, opened: JobOpened, set: &str) -> Result<(), Notice> {
    device.begin_job(key, opened).await?;
    let Some(hash) = criteria::Set::shipped(set).and_then(|set| FileHash::from_hex(&set.sha256)) else {
        return Ok(());
    };
    let body = CriteriaChosen { set: set.to_owned(), file: hash, text: None }.into();
    let observed_at = device.now(key);
    let pending = Pending { job: key.to_owned(), shaft: None, observed_at, noted_at: None, body };
    device.write(pending).await.map(drop)
}

/// The zone this device is set to; empty where the browser does not say.
fn zone_here() -> String {
    let format = js_sys::Intl::DateTimeFormat::new(&js_sys::Array::new(), &js_sys::Object::new());
    let zone = js_sys::Reflect::get(&format.resolved_options(), &"timeZone".into());
    zone.ok().and_then(|zone| zone.as_string()).unwrap_or_default()
}

/// Small letters, digits and hyphens, at most 40 of them.
fn short_name(text: &str) -> String {
    let plain = |letter: char| if letter.is_ascii_alphanumeric() { letter.to_ascii_lowercase() } else { ' ' };
    let spaced: String = text.chars().map(plain).collect();
    let joined = spaced.split_whitespace().collect::<Vec<_>>().join("-");
    joined.chars().take(40).collect::<String>().trim_end_matches('-').to_owned()
}
