//! The sheet of a shaft, to print from the browser without a network, and the files of the shaft.
//!
//! Never: print a figure without how it came about, or leave the digest of the record out.

use super::card::CardView;
use super::help::Cautions;
use super::shaft::{ShaftPage, Shown};
use super::signs::of_sign;
use crate::device::{Link, use_device};
use crate::widgets::{Key, MarkBadge, Svg, Tone};
use figure::Size;
use leptos::prelude::*;
use screen::live::{self, Card, Day, DrawingCard, Heading, ReviewRow, Sheet, Together};
use wording::{Figure, Mark, Row, Table};

/// The drawing that comes first: the whole day.
const DAY: &str = "day";

/// The sheet.
#[component]
pub(super) fn SheetScreen() -> impl IntoView {
    let shown = Shown::here();
    let looking = shown.looking;
    let sheet = Memo::new(move |_| {
        let record = looking.record.get()?;
        Some(live::sheet(&record, &looking.shaft.get(), looking.now()))
    });
    let place = move || (looking.job.get(), looking.shaft.get());
    let body = move || sheet.get().map(|sheet| view! { <Body sheet=sheet place=place() shown=shown/> });
    view! {
        <ShaftPage shown=shown heading="Sheet" class="page-wide sheet">
            <Files shown=shown/>
            {body}
        </ShaftPage>
    }
}

/// Print, save, and the package of the desk.
#[component]
fn Files(shown: Shown) -> impl IntoView {
    let device = use_device();
    let looking = shown.looking;
    let print = move |()| {
        if window().print().is_err() {
            leptos::logging::warn!("this browser does not print");
        }
    };
    let save = move |()| super::files::save(device, &looking.job.get_untracked());
    let at_desk = move |file: &str| super::paths::at_desk(&looking.job.get(), &looking.shaft.get(), file);
    let desk = move || {
        matches!(device.outbox().get().link, Link::InStep { .. } | Link::Sending).then(|| {
            view! {
                <a class="button" rel="external" href=at_desk("package.pdf")>"Package of the desk (PDF)"</a>
                <a class="button" rel="external" href=at_desk("log.csv")>"Log as a table (CSV)"</a>
            }
        })
    };
    view! {
        <div class="keys-row no-print">
            <Key label="Print this sheet" tone=Tone::Main press=print/>
            <Key label="Save the record as a file" press=save/>
            {desk}
        </div>
    }
}

#[component]
fn Body(sheet: Sheet, place: (String, String), shown: Shown) -> impl IntoView {
    let (day, drawings): (Vec<_>, Vec<_>) = sheet.drawings.into_iter().partition(|card| card.word == DAY);
    // The section has the volume curve beside it.
    let drawings = drawings.into_iter().filter(|card| card.word != "curve");
    let drawn = |card: DrawingCard| view! { <Drawn card=card shown=shown/> };
    let (day, drawings) = (day.into_iter().map(drawn).collect_view(), drawings.map(drawn).collect_view());
    let assumed = sheet.assumptions.into_iter().map(|row| {
        view! { <dt>{row.about}</dt><dd>{row.value} ". " {row.how}</dd> }
    });
    let assumed = assumed.collect_view();
    foot_of_pages(&sheet.foot);
    view! {
        <Head heading=sheet.heading moment=sheet.moment/>
        <p class="lead">{sheet.verdict}</p>
        {day}
        <Findings cards=sheet.findings/>
        <Meets rows=sheet.meets/>
        <Unlimited rows=sheet.unlimited/>
        <Cards heading="About the record" cards=sheet.record place=place.clone()/>
        <Cards heading="Questions" cards=sheet.questions place=place.clone()/>
        <Cards heading="Readings to look at again" cards=sheet.doubts place=place/>
        <div class="sheet-drawings">{drawings}</div>
        <Figures figures=sheet.figures/>
        {sheet.volumes.map(table)}
        <Log days=sheet.days/>
        <section class="stack sheet-assumed"><h2>"What was assumed"</h2><dl class="pairs">{assumed}</dl></section>
        <Cautions/>
        <section class="stack">
            <h2>"Digest of the record"</h2>
            <p class="num digest">{sheet.digest}</p>
            <p class="small soft">{sheet.digest_note}</p>
        </section>
    }
}

/// Under every printed page stands which shaft this is, with the digest of the record and the number of the page.
fn foot_of_pages(foot: &str) {
    let Some(root) = document().document_element() else { return };
    let style = wasm_bindgen::JsCast::unchecked_into::<web_sys::HtmlElement>(root).style();
    // As a text of a style sheet, whatever a shaft is called.
    let safe = foot.replace('\\', "\\\\").replace('"', "\\\"");
    if style.set_property("--foot", &format!("\"{safe}\"")).is_err() {
        leptos::logging::warn!("the pages get no foot");
    }
}

#[component]
fn Head(heading: Heading, moment: String) -> impl IntoView {
    let rows = [
        ("Job", heading.job),
        ("Shaft", heading.shaft),
        ("Carries", heading.structure),
        ("Diameter", heading.diameter),
        ("Depth", heading.depth),
        ("Tip", heading.tip),
        ("Cut-off", heading.cut_off),
        ("Method", heading.method),
        ("Depths from", heading.reference),
        ("Criteria", heading.criteria),
        ("As of", moment),
    ];
    let rows = rows.into_iter().filter(|(_, text)| !text.is_empty());
    let rows = rows.map(|(name, text)| view! { <dt>{name}</dt><dd>{text}</dd> }).collect_view();
    let made_up =
        heading.rehearsal.then(|| view! { <p class="tag tag-late">"Rehearsal: made up for practice"</p> });
    view! { {made_up}<dl class="pairs">{rows}</dl> }
}

#[component]
fn Cards(heading: &'static str, cards: Vec<Card>, place: (String, String)) -> impl IntoView {
    (!cards.is_empty()).then(|| {
        let view = |card| view! { <CardView card=card job=place.0.clone() shaft=place.1.clone()/> };
        let cards = cards.into_iter().map(view).collect_view();
        view! { <section class="stack"><h2>{heading}</h2>{cards}</section> }
    })
}

/// Every finding on a line, with its source: nothing that has to be unfolded is printed.
#[component]
fn Findings(cards: Vec<Card>) -> impl IntoView {
    let rows = cards.into_iter().map(|card| {
        let sign = card.sign.unwrap_or_default();
        let decided = card.decided.join(" ");
        view! {
            <tr>
                <td><MarkBadge sign=of_sign(sign) word=sign.text()/></td>
                <th scope="row">{card.title}</th>
                <td>{card.value}</td>
                <td>{card.limit}</td>
                <td class="small">{card.source} " " <span class="written">{decided}</span></td>
            </tr>
        }
    });
    let heads = ["Verdict", "Finding", "Value", "Limit", "Source, and what was decided"];
    let heads = heads.map(|head| view! { <th scope="col">{head}</th> }).collect_view();
    view! {
        <div class="table-wide" tabindex="0" role="region" aria-label="Findings">
            <table class="table sheet-findings">
                <caption>"Findings"</caption>
                <thead><tr>{heads}</tr></thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        </div>
    }
}

/// What meets, a row for each criterion.
#[component]
fn Meets(rows: Vec<Together>) -> impl IntoView {
    let rows = rows.into_iter().map(|row| {
        let source = row.source;
        view! {
            <tr>
                <th scope="row">{row.title}</th>
                <td>{row.values.join("; ")}</td>
                <td>{row.limit}</td>
                <td class="small">{source}</td>
            </tr>
        }
    });
    let heads = ["What meets", "Values", "Limit", "Source"];
    let heads = heads.map(|head| view! { <th scope="col">{head}</th> }).collect_view();
    view! {
        <div class="table-wide" tabindex="0" role="region" aria-label="What meets">
            <table class="table sheet-meets">
                <caption>"What meets"</caption>
                <thead><tr>{heads}</tr></thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        </div>
    }
}

/// What was measured and no limit judges, in as few lines as it takes.
#[component]
fn Unlimited(rows: Vec<Together>) -> impl IntoView {
    (!rows.is_empty()).then(|| {
        let rows = rows.into_iter().map(|row| {
            view! { <div><dt>{row.title}": "</dt><dd>{row.values.join("; ")}</dd></div> }
        });
        view! {
            <section class="stack">
                <h2>"Measured, no limit set"</h2>
                <dl class="sheet-unlimited">{rows.collect_view()}</dl>
            </section>
        }
    })
}

#[component]
fn Figures(figures: Vec<Figure>) -> impl IntoView {
    let rows = figures.into_iter().map(|figure| {
        view! { <tr><th scope="row">{figure.label}</th><td class="num">{figure.value}</td><td>{figure.how}</td></tr> }
    });
    view! {
        <div class="table-wide" tabindex="0" role="region" aria-label="Figures">
            <table class="table">
                <caption>"Figures"</caption>
                <thead><tr><th scope="col">"What"</th><th scope="col">"Value"</th><th scope="col">"How"</th></tr></thead>
                <tbody>{rows.collect_view()}</tbody>
            </table>
        </div>
    }
}

/// One log as a table.
fn table(table: Table) -> impl IntoView {
    let heads = table.columns.iter().map(|column| {
        let unit = (!column.unit.is_empty()).then(|| format!(", {}", column.unit));
        view! { <th scope="col" class:num=column.numeric>{column.title.clone()}{unit}</th> }
    });
    let heads = heads.collect_view();
    let numeric: Vec<bool> = table.columns.iter().map(|column| column.numeric).collect();
    let rows = table.rows.into_iter().map(|one| row(one, &numeric)).collect_view();
    let name = table.title.clone();
    view! {
        <div class="table-wide" tabindex="0" role="region" aria-label=name>
            <table class="table">
                <caption>{table.title}</caption>
                <thead><tr>{heads}</tr></thead>
                <tbody>{rows}</tbody>
            </table>
            <p class="small soft">{table.note}</p>
        </div>
    }
}

fn row(row: Row, numeric: &[bool]) -> impl IntoView + use<> {
    let struck = !row.stands();
    let notes: Vec<String> = row.marks.iter().map(mark_text).collect();
    let cells = row.cells.into_iter().zip(numeric.iter().copied()).map(|(cell, numeric)| {
        view! { <td class:num=numeric class:struck=struck>{cell.unwrap_or_else(|| "–".to_owned())}</td> }
    });
    let (cells, width) = (cells.collect_view(), numeric.len().to_string());
    let notes = (!notes.is_empty()).then(|| {
        view! { <tr class="table-note"><td colspan=width>{notes.join(" · ")}</td></tr> }
    });
    view! { <tr>{cells}</tr>{notes} }
}

fn mark_text(mark: &Mark) -> String {
    match mark {
        Mark::Struck { by, why } => format!("struck through by {by}: {why}"),
        Mark::Replaces { what, why } => format!("replaces {what}: {why}"),
        Mark::Disputed { note } => format!("in dispute: {note}"),
        Mark::Late { note } => format!("late: {note}"),
        Mark::Asked { note } => note.clone(),
    }
}

/// Every entry on a line, a day after the other.
#[component]
fn Log(days: Vec<Day>) -> impl IntoView {
    let day = |day: Day| {
        view! {
            <tbody>
                <tr class="table-day"><th colspan="4" scope="rowgroup">{day.name}</th></tr>
                {day.rows.into_iter().map(entry).collect_view()}
            </tbody>
        }
    };
    let heads = ["Seen", "Entry", "What was written", "By, device, number, id"];
    let heads = heads.map(|head| view! { <th scope="col">{head}</th> }).collect_view();
    view! {
        <div class="table-wide" tabindex="0" role="region" aria-label="Every entry">
            <table class="table sheet-log">
                <caption>"Every entry"</caption>
                <thead><tr>{heads}</tr></thead>
                {days.into_iter().map(day).collect_view()}
            </table>
        </div>
    }
}

fn entry(row: ReviewRow) -> impl IntoView {
    let said = |words: &str, text: &str| (!text.is_empty()).then(|| format!("{words}{text}"));
    let struck = row.struck.as_ref().map(|by| format!("struck through by {}: {}", by.who, by.why));
    let marks = [
        struck,
        said("replaces another entry: ", &row.reason),
        said("late: ", &row.late),
        said("in dispute: ", &row.disputed),
        row.ahead.then(|| "dated ahead; no figure counts it yet".to_owned()),
        row.newer.then(|| "written by a newer version".to_owned()),
        said("SHA-256 of the photo ", &row.photo),
    ];
    let marks = marks.into_iter().flatten().collect::<Vec<_>>().join(" · ");
    let elevation = (!row.elevation.is_empty()).then(|| format!(" ({})", row.elevation));
    let marks = (!marks.is_empty()).then(|| view! { <span class="sheet-mark">{marks}</span> });
    view! {
        <tr>
            <td class="num">{row.clock}</td>
            <th scope="row">{row.label}</th>
            <td><span class:struck=row.struck.is_some()>{row.what}{elevation}</span>{marks}</td>
            <td class="small">{row.who} ", " {row.device} " " {row.seq} ", " {row.short}</td>
        </tr>
    }
}

/// One drawing at its size on the page.
#[component]
fn Drawn(card: DrawingCard, shown: Shown) -> impl IntoView {
    let looking = shown.looking;
    let (word, class) = (card.word, format!("stack sheet-drawing sheet-drawing-{}", card.word));
    let text = Memo::new(move |_| {
        let record = looking.record.get()?;
        live::drawing(&record, &looking.shaft.get(), (looking.now(), word), printed(word))
    });
    let text = Signal::derive(move || text.get().unwrap_or_default());
    view! { <section class=class><h2>{card.title}</h2><Svg text=text/></section> }
}

/// The size on paper: what is read across the whole day or depth is wide, the others stand two in a row.
fn printed(word: &str) -> Size {
    match word {
        DAY => Size::points(520.0, 400.0),
        "section" => Size::points(520.0, 600.0),
        _ => Size::points(255.0, 255.0),
    }
}
