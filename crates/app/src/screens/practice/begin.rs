//! Begin a practice: which day, which number, how fast.

use super::super::ask::{ChoiceAsk, TextAsk};
use super::super::paths;
use super::super::settings::Author;
use super::super::shell::PageHead;
use super::super::way::use_way;
use crate::device::{PACES, Wish, use_device};
use crate::widgets::{Key, NoticeCard, Tone};
use leptos::prelude::*;
use record::field::UnitSystem;
use wording::Notice;

/// The pace a practice begins with: a pour of three hours in half an hour.
const USUAL_PACE: u32 = 5;

/// What a trainee chooses.
#[derive(Clone, Copy)]
struct Chosen {
    word: RwSignal<&'static str>,
    number: RwSignal<String>,
    pace: RwSignal<u32>,
    system: RwSignal<UnitSystem>,
}

impl Chosen {
    fn wish(self) -> Option<Wish> {
        let number = self.number.get().trim().parse().ok().filter(|number| *number <= LARGEST)?;
        let (word, pace) = (self.word.get().to_owned(), self.pace.get());
        Some(Wish { word, number, pace, system: self.system.get() })
    }
}

/// Numbers of days end here, so that the name of the job stays short.
const LARGEST: u64 = 9_999_999;

/// What a day can be written in, and whose limits judge it.
const UNITS: [(UnitSystem, &str); 2] =
    [(UnitSystem::Us, "Feet and yards"), (UnitSystem::Metric, "Meters, European style")];

/// The form.
#[component]
pub(in crate::screens) fn PractiseScreen() -> impl IntoView {
    let chosen = Chosen {
        word: RwSignal::new(""),
        number: RwSignal::new(number_of_today()),
        pace: RwSignal::new(USUAL_PACE),
        system: RwSignal::new(UnitSystem::Us),
    };
    let refused = RwSignal::new(None::<Notice>);
    let days =
        screen::practice::days().into_iter().map(|day| (day.word, day.title.to_owned())).collect::<Vec<_>>();
    let paces = PACES.map(|pace| (pace, pace_text(pace))).to_vec();
    let fault = Signal::derive(move || match chosen.wish() {
        Some(_) => String::new(),
        None => format!("Write a whole number up to {LARGEST}."),
    });
    view! {
        <section class="page form">
            <PageHead heading="Practice"/>
            <p class="lead">
                "A made-up shaft is ready for concrete. Read the tape, the samples and the tickets, answer the crew, and \
                 write everything down as at a real hole. At the end the truth is laid beside what you wrote."
            </p>
            <p>
                "It is a record of its own, marked as a rehearsal on every screen and page. It stays on this device, and \
                 no record of a job takes it in."
            </p>
            <ChoiceAsk
                label="Which day"
                choices=days
                chosen=chosen.word
                choose=Callback::new(move |word| chosen.word.set(word))
            />
            <TextAsk
                label="Number of the day"
                hint="The same number is the same day, on every device: a class can practice one together."
                fault=fault
                text=chosen.number
            />
            <ChoiceAsk
                label="Written in"
                choices=UNITS.map(|(system, text)| (system, text.to_owned())).to_vec()
                chosen=chosen.system
                choose=Callback::new(move |system| chosen.system.set(system))
            />
            <ChoiceAsk
                label="How fast"
                choices=paces
                chosen=chosen.pace
                choose=Callback::new(move |pace| chosen.pace.set(pace))
            />
            <p class="field-hint">
                "It can be changed at any time. The clock waits for you where the crew needs an answer."
            </p>
            {move || refused.get().map(|notice| view! { <NoticeCard notice=notice/> })}
            <BeginKey chosen=chosen refused=refused/>
        </section>
    }
}

#[component]
fn BeginKey(chosen: Chosen, refused: RwSignal<Option<Notice>>) -> impl IntoView {
    let device = use_device();
    let (busy, way) = (RwSignal::new(false), use_way());
    let nobody = Memo::new(move |_| device.author().read().trim().is_empty());
    let off = move || busy.get() || nobody.get() || chosen.wish().is_none();
    let press = move |()| {
        let Some(wish) = untrack(|| chosen.wish()) else { return };
        busy.set(true);
        leptos::task::spawn_local(async move {
            match device.begin_practice(wish).await {
                Ok(job) => {
                    device.practise(&job, |one| one.run(true));
                    way.go(&paths::job_page(&job, "hole"));
                }
                Err(notice) => refused.set(Some(notice)),
            }
            busy.try_set(false);
        });
    };
    let why = move || nobody.get().then(|| view! { <p class="field-fault">"Write your name first."</p> });
    view! {
        {move || nobody.get().then(|| view! { <Author/> })}
        {why}
        <div class="row"><Key label="Begin" tone=Tone::Main off=Signal::derive(off) press=press/></div>
    }
}

/// A number to begin with: that of the day in the year, so that nobody has to think of one.
fn number_of_today() -> String {
    let today = use_device().now("");
    let day = today.local().day_of_year();
    day.to_string()
}

/// A pace in words.
pub(super) fn pace_text(pace: u32) -> String {
    match pace {
        1 => "As in life".to_owned(),
        pace => format!("{pace} times faster"),
    }
}
