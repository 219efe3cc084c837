//! A number for what a page draws: every object it hangs on, in an order of their own.
//!
//! Where an object lies in the file, and under which number, says nothing about what is drawn and does not count. It only
//! names the page that differs: that nothing differs at all is proved by the bytes of the file.
//!
//! Never: follow a page up to its parent or on to another page, or into the words behind the drawings.

use crate::error::Unreadable;
use hayro_syntax::object::{Dict, Name, Object, ObjectIdentifier, Rect, Stream};
use hayro_syntax::page::Page;
use record::entry::FileHash;
use std::collections::BTreeMap;

/// Objects in objects are no deeper than this in any package.
const DEEP: usize = 64;

/// Keys that lead away from what a page draws.
const ASIDE: [&str; 4] = ["Parent", "StructParents", "StructParent", "Length"];

/// SHA-256 over what a page draws. What it inherits is part of it.
pub(crate) fn page(page: &Page<'_>) -> Result<FileHash, Unreadable> {
    let mut walk = Walk { met: Vec::new(), seen: BTreeMap::new() };
    walk.area(page.media_box());
    walk.area(page.crop_box());
    walk.dict(page.raw(), 0)?;
    Ok(FileHash(wire::sha256(&walk.met)))
}

/// What was met so far.
struct Walk {
    /// What is hashed in the end.
    met: Vec<u8>,
    seen: BTreeMap<ObjectIdentifier, usize>,
}

impl Walk {
    fn area(&mut self, area: Rect) {
        let sides = [area.x0, area.y0, area.x1, area.y1];
        self.text(b'G', &sides.map(f64::to_be_bytes).concat());
    }

    /// Bytes, told from what comes after them.
    fn text(&mut self, sign: u8, bytes: &[u8]) {
        self.met.push(sign);
        self.met.extend((bytes.len() as u64).to_be_bytes());
        self.met.extend(bytes);
    }

    fn object(&mut self, object: &Object<'_>, depth: usize) -> Result<(), Unreadable> {
        if depth > DEEP {
            return Err(Unreadable::TooDeep);
        }
        match object {
            Object::Null(_) => self.text(b'0', b""),
            Object::Boolean(value) => self.text(b'B', if *value { b"1" } else { b"0" }),
            Object::Number(number) => self.text(b'#', &number.as_f64().to_be_bytes()),
            Object::String(string) => self.text(b'"', string.as_bytes()),
            Object::Name(name) => self.text(b'/', name),
            Object::Dict(dict) => return self.dict(dict, depth),
            Object::Stream(stream) => return self.stream(stream, depth),
            Object::Array(array) => {
                self.text(b'[', b"");
                for inner in array.iter::<Object<'_>>() {
                    self.object(&inner, depth + 1)?;
                }
                self.text(b']', b"");
            }
        }
        Ok(())
    }

    fn dict(&mut self, dict: &Dict<'_>, depth: usize) -> Result<(), Unreadable> {
        let is_page = dict.get::<Name<'_>>("Type").is_some_and(|name| &*name == b"Page");
        if self.was_met(dict.obj_id()) || (depth > 0 && is_page) {
            return Ok(());
        }
        self.members(dict, depth)
    }

    /// A stream counts as it lies in the file, packed.
    fn stream(&mut self, stream: &Stream<'_>, depth: usize) -> Result<(), Unreadable> {
        if self.was_met(Some(stream.obj_id())) {
            return Ok(());
        }
        self.text(b'S', &stream.raw_data());
        self.members(stream.dict(), depth)
    }

    fn members(&mut self, dict: &Dict<'_>, depth: usize) -> Result<(), Unreadable> {
        let mut keys: Vec<Name<'_>> = dict.keys().filter(|key| !ASIDE.contains(&key.as_str())).collect();
        keys.sort_by(|one, other| one.as_ref().cmp(other.as_ref()));
        self.text(b'<', b"");
        for key in keys {
            let Some(inner) = dict.get::<Object<'_>>(&*key) else { continue };
            self.text(b'/', &key);
            self.object(&inner, depth + 1)?;
        }
        self.text(b'>', b"");
        Ok(())
    }

    /// Whether the object was met before; if so, its place stands for it.
    fn was_met(&mut self, id: Option<ObjectIdentifier>) -> bool {
        let Some(id) = id else { return false };
        let next = self.seen.len();
        let place = *self.seen.entry(id).or_insert(next);
        if place < next {
            self.text(b'=', &(place as u64).to_be_bytes());
        }
        place < next
    }
}
