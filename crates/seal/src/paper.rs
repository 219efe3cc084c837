//! A PDF as it was read: the files inside it, and a number for what each of its pages draws.

use crate::error::Unreadable;
use crate::walk;
use crate::{RECORD_FILE, SEAL_FILE};
use hayro_syntax::object::{Array, Dict, Object, Stream};
use hayro_syntax::{LoadPdfError, Pdf};
use record::entry::FileHash;

/// Trees of names are no deeper than this in any file a program writes.
const DEEP: usize = 16;

/// A PDF as it was read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Paper {
    /// SHA-256 over what each page draws: its boxes, marks, fonts and pictures.
    pub pages: Vec<FileHash>,
    /// The file of entries inside.
    pub record: Option<String>,
    /// The file with the seal inside.
    pub seal: Option<String>,
    /// The names of all other files inside.
    pub others: Vec<String>,
}

impl Paper {
    /// Reads a PDF.
    ///
    /// # Errors
    /// It is none; it is encrypted; a file inside it that should be there is there twice or cannot be unpacked.
    pub fn read(bytes: &[u8]) -> Result<Self, Unreadable> {
        let pdf = open(bytes)?;
        let pages = pdf.pages().iter().map(walk::page).collect::<Result<Vec<_>, _>>()?;
        let files = files(&pdf)?;
        let known = |name: &[u8]| [RECORD_FILE, SEAL_FILE].iter().any(|known| known.as_bytes() == name);
        let others = files.iter().filter(|(name, _)| !known(name));
        Ok(Paper {
            pages,
            record: text_of(&files, RECORD_FILE)?,
            seal: text_of(&files, SEAL_FILE)?,
            others: others.map(|(name, _)| String::from_utf8_lossy(name).into_owned()).collect(),
        })
    }
}

/// Opens a PDF.
pub(crate) fn open(bytes: &[u8]) -> Result<Pdf, Unreadable> {
    Pdf::new(bytes.to_vec()).map_err(|error| match error {
        LoadPdfError::Decryption(_) => Unreadable::Encrypted,
        LoadPdfError::Invalid => Unreadable::NoPdf,
    })
}

type File<'a> = (Vec<u8>, Stream<'a>);

/// Every file inside: its name, and its bytes as they lie.
pub(crate) fn files(pdf: &Pdf) -> Result<Vec<File<'_>>, Unreadable> {
    let catalog: Dict<'_> = pdf.xref().get(pdf.xref().root_id()).ok_or(Unreadable::NoPdf)?;
    let mut files = Vec::new();
    if let Some(names) = catalog.get::<Dict<'_>>("Names").and_then(|names| names.get("EmbeddedFiles")) {
        files_of(&names, 0, &mut files)?;
    }
    Ok(files)
}

fn files_of<'a>(names: &Dict<'a>, depth: usize, files: &mut Vec<File<'a>>) -> Result<(), Unreadable> {
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

/// The file of this name; `None`: there is none. Two of one name are none that can be believed.
pub(crate) fn file<'f, 'a>(
    files: &'f [File<'a>],
    name: &'static str,
) -> Result<Option<&'f Stream<'a>>, Unreadable> {
    let mut found = files.iter().filter(|(found, _)| found == name.as_bytes());
    let first = found.next().map(|(_, stream)| stream);
    if found.next().is_some() { Err(Unreadable::FileTwice(name)) } else { Ok(first) }
}

fn text_of(files: &[File<'_>], name: &'static str) -> Result<Option<String>, Unreadable> {
    let Some(stream) = file(files, name)? else { return Ok(None) };
    let bytes = stream.decoded().map_err(|_| Unreadable::FileDamaged(name))?;
    String::from_utf8(bytes.into_owned()).map(Some).map_err(|_| Unreadable::FileDamaged(name))
}
