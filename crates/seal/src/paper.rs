//! A PDF as it was read: the files inside it, and one number for what its pages draw.

use crate::error::Unreadable;
use crate::walk::Walk;
use crate::{RECORD_FILE, SEAL_FILE};
use hayro_syntax::object::{Array, Dict, Object, Stream};
use hayro_syntax::{LoadPdfError, Pdf};
use record::entry::FileHash;

/// Trees of names are no deeper than this in any file a program writes.
const DEEP: usize = 16;

/// A PDF as it was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paper {
    /// SHA-256 over what the pages draw: their boxes, marks, fonts and pictures, in order.
    pub pages: FileHash,
    /// How many pages.
    pub page_count: usize,
    /// The file of entries inside.
    pub record: Option<String>,
    /// The file with the seal inside.
    pub seal: Option<String>,
}

impl Paper {
    /// Reads a PDF.
    ///
    /// # Errors
    /// It is none; it is encrypted; a file inside it that should be there cannot be unpacked.
    pub fn read(bytes: &[u8]) -> Result<Self, Unreadable> {
        let pdf = Pdf::new(bytes.to_vec()).map_err(|error| match error {
            LoadPdfError::Decryption(_) => Unreadable::Encrypted,
            LoadPdfError::Invalid => Unreadable::NoPdf,
        })?;
        let mut walk = Walk::new();
        for page in pdf.pages().iter() {
            walk.page(page)?;
        }
        let catalog: Dict<'_> = pdf.xref().get(pdf.xref().root_id()).ok_or(Unreadable::NoPdf)?;
        let mut files = Vec::new();
        if let Some(names) = catalog.get::<Dict<'_>>("Names").and_then(|names| names.get("EmbeddedFiles")) {
            files_of(&names, 0, &mut files)?;
        }
        Ok(Paper {
            pages: FileHash(walk.digest()),
            page_count: pdf.pages().len(),
            record: text_of(&files, RECORD_FILE)?,
            seal: text_of(&files, SEAL_FILE)?,
        })
    }
}

/// Every file of a tree of names: its name, and its bytes as they lie.
fn files_of<'a>(
    names: &Dict<'a>,
    depth: usize,
    files: &mut Vec<(Vec<u8>, Stream<'a>)>,
) -> Result<(), Unreadable> {
    if depth > DEEP {
        return Err(Unreadable::TooDeep);
    }
    for inner in names.get::<Array<'a>>("Kids").iter().flat_map(|kids| kids.iter::<Dict<'a>>()) {
        files_of(&inner, depth + 1, files)?;
    }
    let named: Vec<Object<'a>> =
        names.get::<Array<'a>>("Names").iter().flat_map(|names| names.iter::<Object<'a>>()).collect();
    for pair in named.chunks_exact(2) {
        let (Object::String(name), Object::Dict(file)) = (&pair[0], &pair[1]) else { continue };
        let stream = file.get::<Dict<'a>>("EF").and_then(|held| held.get::<Stream<'a>>("F"));
        files.extend(stream.map(|stream| (name.as_bytes().to_vec(), stream)));
    }
    Ok(())
}

/// The text of the file of this name; `None`: there is no such file. Two of one name are none that can be believed.
fn text_of(files: &[(Vec<u8>, Stream<'_>)], name: &'static str) -> Result<Option<String>, Unreadable> {
    let mut found = files.iter().filter(|(found, _)| found == name.as_bytes());
    let Some((_, stream)) = found.next() else { return Ok(None) };
    let damaged = || Unreadable::FileDamaged(name);
    if found.next().is_some() {
        return Err(damaged());
    }
    let bytes = stream.decoded().map_err(|_| damaged())?;
    String::from_utf8(bytes.into_owned()).map(Some).map_err(|_| damaged())
}
