//! From an input to the bytes of an archival PDF.
//!
//! The package is kept for the life of the structure: PDF/A-2a (archival, with reading order and the words
//! behind each drawing) and PDF/UA-1 are asked for, and the export stops rather than write less. A sealed package
//! carries files inside; that takes PDF/A-3a.

use serde::Serialize;
use typst::foundations::{Datetime, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use crate::pages::{Pages, messages};
use crate::{Drawing, Fonts, ReportError, ReportInput, SummaryInput, check, literal};
use quantity::Moment;

/// A document ready to be handed in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pdf {
    /// The file.
    pub bytes: Vec<u8>,
    /// How many pages it has.
    pub pages: usize,
    /// How many characters no font could draw; they are printed as their number, like `‹U+1F44D›`.
    pub numbered_characters: usize,
}

/// A file that travels inside a PDF.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Attachment {
    /// Its name, a plain file name.
    pub name: &'static str,
    /// Its media type.
    pub media: &'static str,
    /// What it is, in a few words.
    pub what: &'static str,
    /// The file.
    pub bytes: Vec<u8>,
}

/// One document to be set.
struct Order<'a, T> {
    template: &'static str,
    input: &'a T,
    /// Each drawing under the name the template calls it by.
    drawings: Vec<(String, &'a Drawing)>,
    made: Moment,
    fonts: &'a Fonts,
    attached: &'a [Attachment],
}

/// What the template reads.
#[derive(Serialize)]
struct Laid<'a, T> {
    input: &'a T,
    families: &'a [String],
    attached: Vec<Attached>,
}

/// What the template reads of a file inside.
#[derive(Serialize)]
struct Attached {
    name: &'static str,
    media: &'static str,
    what: &'static str,
}

/// The package of one shaft.
///
/// # Errors
/// When a table or a drawing of the input cannot be placed, named by its title; see [`ReportError`].
pub fn package(input: &ReportInput, fonts: &Fonts) -> Result<Pdf, ReportError> {
    sealed_package(input, &[], fonts)
}

/// The package of one shaft with files inside it. The pages are the same as without.
///
/// # Errors
/// As [`package`].
pub fn sealed_package(
    input: &ReportInput,
    attached: &[Attachment],
    fonts: &Fonts,
) -> Result<Pdf, ReportError> {
    check::package(input)?;
    let mut drawings = vec![("sheet.svg".to_owned(), &input.sheet)];
    drawings.extend(input.drawings.iter().enumerate().map(|(at, one)| (format!("drawing-{at}.svg"), one)));
    render(&Order { template: "package.typ", input, drawings, made: input.made, fonts, attached })
}

/// The summary of a job.
///
/// # Errors
/// As [`package`].
pub fn job_summary(input: &SummaryInput, fonts: &Fonts) -> Result<Pdf, ReportError> {
    check::summary(input)?;
    let drawings = input.plan.iter().map(|plan| ("plan.svg".to_owned(), plan)).collect();
    render(&Order { template: "summary.typ", input, drawings, made: input.made, fonts, attached: &[] })
}

fn render<T: Serialize>(order: &Order<T>) -> Result<Pdf, ReportError> {
    let (pages, numbered_characters) = lay(order);
    let drawings = || order.drawings.iter().map(|(_, drawing)| *drawing);
    let document = pages.set().map_err(|error| check::unreadable(drawings()).unwrap_or(error))?;
    let bytes = export(&document, order, &pages)?;
    // The cache serves the next shaft of the same evening and forgets what three documents did not ask for.
    comemo::evict(3);
    Ok(Pdf { bytes, pages: document.pages().len(), numbered_characters })
}

/// Everything the template may read, and how many characters of it are printed as their number.
fn lay<'a, T: Serialize>(order: &Order<'a, T>) -> (Pages<'a>, usize) {
    let mut pages = Pages::new(order.template, order.fonts);
    let mut numbered = 0;
    for (name, drawing) in &order.drawings {
        let (svg, count) = literal::drawable(&drawing.svg, order.fonts);
        numbered += count;
        pages.lay(name, svg.into_bytes());
    }
    for file in order.attached {
        pages.lay(file.name, file.bytes.clone());
    }
    let attached =
        order.attached.iter().map(|file| Attached { name: file.name, media: file.media, what: file.what });
    let laid = Laid { input: order.input, families: order.fonts.families(), attached: attached.collect() };
    let mut value = serde_json::to_value(laid).expect("an input is texts, numbers and lists");
    numbered += literal::make_drawable(&mut value, order.fonts);
    value["numbered"] = numbered.into();
    pages.lay("input.json", value.to_string().into_bytes());
    (pages, numbered)
}

fn export<T>(document: &PagedDocument, order: &Order<'_, T>, pages: &Pages) -> Result<Vec<u8>, ReportError> {
    let archival = if order.attached.is_empty() { PdfStandard::A_2a } else { PdfStandard::A_3a };
    let standards = PdfStandards::new(&[archival, PdfStandard::Ua_1])
        .map_err(|error| ReportError::Export { messages: vec![error.message().to_string()] })?;
    let options = PdfOptions {
        creator: Smart::Custom(Some("Shaftbook".to_owned())),
        timestamp: timestamp(order.made),
        standards,
        ..PdfOptions::default()
    };
    typst_pdf::pdf(document, &options)
        .map_err(|errors| ReportError::Export { messages: messages(&errors, pages) })
}

/// The moment as the metadata of a PDF writes it.
fn timestamp(made: Moment) -> Option<Timestamp> {
    let local = made.local();
    let [month, day, hour] = [local.month(), local.day(), local.hour()].map(i8::unsigned_abs);
    let [minute, second] = [local.minute(), local.second()].map(i8::unsigned_abs);
    let datetime = Datetime::from_ymd_hms(i32::from(local.year()), month, day, hour, minute, second)?;
    Timestamp::new_local(datetime, made.offset_seconds() / 60)
}
