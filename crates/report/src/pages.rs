//! The small world typst sees: templates, one input, drawings and fonts. No file, no network, no clock.

use std::sync::LazyLock;

use typst::diag::{FileError, FileResult, SourceDiagnostic, Warned};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;

use crate::{Fonts, ReportError};

/// Every template by its name.
const TEMPLATES: [(&str, &str); 9] = [
    ("house.typ", include_str!("../templates/house.typ")),
    ("marks.typ", include_str!("../templates/marks.typ")),
    ("front.typ", include_str!("../templates/front.typ")),
    ("findings.typ", include_str!("../templates/findings.typ")),
    ("logs.typ", include_str!("../templates/logs.typ")),
    ("drawings.typ", include_str!("../templates/drawings.typ")),
    ("closing.typ", include_str!("../templates/closing.typ")),
    ("package.typ", include_str!("../templates/package.typ")),
    ("summary.typ", include_str!("../templates/summary.typ")),
];

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

static SOURCES: LazyLock<Vec<(FileId, Source)>> = LazyLock::new(|| {
    let source = |(name, text): &(&str, &str)| (id(name), Source::new(id(name), (*text).to_owned()));
    TEMPLATES.iter().map(source).collect()
});

/// One document on its way to paper.
pub(crate) struct Pages<'a> {
    main: FileId,
    files: Vec<(FileId, Bytes)>,
    fonts: &'a Fonts,
}

impl<'a> Pages<'a> {
    /// Pages set by the template of this name.
    pub(crate) fn new(template: &str, fonts: &'a Fonts) -> Self {
        Self { main: id(template), files: Vec::new(), fonts }
    }

    /// Lays a file where the template can read it.
    pub(crate) fn lay(&mut self, name: &str, data: Vec<u8>) {
        self.files.push((id(name), Bytes::new(data)));
    }

    /// Where in the templates an error arose, for whoever mends the template.
    fn place(&self, error: &SourceDiagnostic) -> Option<String> {
        let id = error.span.id()?;
        let start = self.range(error.span)?.start;
        let line = named(&SOURCES, id)?.lines().byte_to_line(start)? + 1;
        Some(format!(" at {}:{line}", id.vpath().get_without_slash()))
    }

    /// Sets the pages.
    pub(crate) fn set(&self) -> Result<PagedDocument, ReportError> {
        let Warned { output, .. } = typst::compile::<PagedDocument>(self);
        output.map_err(|errors| ReportError::Layout { messages: messages(&errors, self) })
    }
}

/// What typst said, each message with its place in the templates and its hints.
pub(crate) fn messages(errors: &[SourceDiagnostic], pages: &Pages) -> Vec<String> {
    let words = |error: &SourceDiagnostic| {
        let hints = error.hints.iter().map(|hint| format!(" ({})", hint.v));
        format!("{}{}{}", error.message, hints.collect::<String>(), pages.place(error).unwrap_or_default())
    };
    errors.iter().map(words).collect()
}

/// Names are fixed words of this crate, so the table of names typst keeps for ever stays small.
fn id(name: &str) -> FileId {
    let path = VirtualPath::new(name).expect("a plain file name");
    RootedPath::new(VirtualRoot::Project, path).intern()
}

/// A document has some twenty files, so looking along them is quick enough.
fn named<T: Clone>(files: &[(FileId, T)], id: FileId) -> Option<T> {
    files.iter().find(|(known, _)| *known == id).map(|(_, file)| file.clone())
}

impl World for Pages<'_> {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        self.fonts.book()
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        named(&SOURCES, id).ok_or(FileError::NotSource)
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        named(&self.files, id).ok_or(FileError::AccessDenied)
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.get(index)
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
