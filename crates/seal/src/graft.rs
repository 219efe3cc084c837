//! Puts the seal into a draft without touching a byte of it.
//!
//! A seal says what the draft is, so it can only come after it. PDF allows for that: what is appended replaces an object
//! by its number, and what was there stays in the file ([ISO-32000-1] 7.5.6, incremental updates). A draft holds the
//! place of its seal with a file of the same name; the appended part replaces that file's bytes and nothing else. It
//! follows from draft and seal alone, so it can be made again and compared.

use crate::SEAL_FILE;
use crate::error::Unreadable;
use crate::paper::{file, files, open};
use hayro_syntax::object::{Dict, ObjectIdentifier, String as Text};

/// What stands in the file of the seal as long as there is none.
pub const PLACE_HELD: &str = "This package was drawn and not sealed.\n";

/// The object no file has; every table begins with it.
const FREE: &str = "0000000000 65535 f";

/// What an appended part needs to know of a draft.
struct Place {
    id: ObjectIdentifier,
    /// When the file was put in, as the draft says it.
    dated: Vec<u8>,
    /// Where the table of the draft's objects begins.
    table: usize,
    /// What stands in the draft's trailer, without the brackets.
    trailer: Vec<u8>,
}

/// The draft with the seal in it; the draft is its beginning, byte for byte.
///
/// # Errors
/// It is no PDF, or holds no place for a seal.
pub fn grafted(draft: &[u8], seal: &str) -> Result<Vec<u8>, Unreadable> {
    let place = place_in(draft)?;
    let mut whole = draft.to_vec();
    whole.push(b'\n');
    let at = whole.len();
    let ObjectIdentifier { obj_number: number, gen_number: generation } = place.id;
    whole.extend(format!("{number} {generation} obj\n<<\n  /Type /EmbeddedFile\n").bytes());
    whole.extend(b"  /Subtype /application#2Fjsonl\n");
    whole.extend(format!("  /Length {}\n  /Params <<\n    /Size {}\n", seal.len(), seal.len()).bytes());
    whole.extend([&b"    /ModDate ("[..], &place.dated, b")\n  >>\n>>\nstream\n"].concat());
    whole.extend([seal.as_bytes(), b"\nendstream\nendobj\n\n"].concat());
    let table = whole.len();
    whole.extend(
        format!("xref\n0 1\n{FREE}\r\n{number} 1\n{at:010} {generation:05} n\r\ntrailer\n<<").bytes(),
    );
    whole.extend(place.trailer);
    whole.extend(format!("  /Prev {}\n>>\nstartxref\n{table}\n%%EOF", place.table).bytes());
    Ok(whole)
}

fn place_in(draft: &[u8]) -> Result<Place, Unreadable> {
    let pdf = open(draft)?;
    let files = files(&pdf)?;
    let stream = file(&files, SEAL_FILE)?.ok_or(Unreadable::FileMissing(SEAL_FILE))?;
    let dated = stream.dict().get::<Dict<'_>>("Params").and_then(|params| params.get::<Text<'_>>("ModDate"));
    let dated = dated.map(|dated| dated.as_bytes().to_vec()).ok_or(Unreadable::FileDamaged(SEAL_FILE))?;
    let (trailer, table) = end_of(draft).ok_or(Unreadable::NoPdf)?;
    Ok(Place { id: stream.obj_id(), dated, table, trailer: trailer.to_vec() })
}

/// The inside of the last trailer, and where the last table of objects begins.
fn end_of(draft: &[u8]) -> Option<(&[u8], usize)> {
    let start = last(draft, b"startxref")?;
    let table = std::str::from_utf8(draft.get(start + b"startxref".len()..)?).ok()?;
    let table = table.trim().strip_suffix("%%EOF")?.trim().parse().ok()?;
    let trailer = &draft[last(&draft[..start], b"trailer")? + b"trailer".len()..start];
    let inside = trailer.trim_ascii().strip_prefix(b"<<")?.strip_suffix(b">>")?;
    Some((inside, table))
}

/// Where a word stands for the last time.
fn last(bytes: &[u8], word: &[u8]) -> Option<usize> {
    bytes.windows(word.len()).rposition(|window| window == word)
}
