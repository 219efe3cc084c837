//! One number for what pages draw: every object a page hangs on, in an order of their own.
//!
//! Where an object lies in the file, and under which number, says nothing about what is drawn and does not count. A
//! font or picture that several pages use counts where it is met first.
//!
//! Never: follow a page up to its parent, or into the words behind the drawings; those are not what is drawn.

use crate::error::Unreadable;
use hayro_syntax::object::{Dict, Object, ObjectIdentifier, Stream};
use hayro_syntax::page::Page;
use std::collections::BTreeMap;

/// Objects in objects are no deeper than this in any package.
const DEEP: usize = 64;

/// Keys that lead away from what a page draws.
const ASIDE: [&str; 4] = ["Parent", "StructParents", "StructParent", "Length"];

/// What was met so far.
pub(crate) struct Walk {
    /// What is hashed in the end.
    met: Vec<u8>,
    seen: BTreeMap<ObjectIdentifier, usize>,
}

impl Walk {
    pub(crate) fn new() -> Self {
        Walk { met: Vec::new(), seen: BTreeMap::new() }
    }

    /// Adds a page. What it inherits is part of it.
    pub(crate) fn page(&mut self, page: &Page<'_>) -> Result<(), Unreadable> {
        let area = page.media_box();
        let crop = page.crop_box();
        self.text(b'G', format!("{area:?} {crop:?} {:?}", page.rotation()).as_bytes());
        self.dict(page.raw(), 0)
    }

    /// The number.
    pub(crate) fn digest(&self) -> [u8; 32] {
        wire::sha256(&self.met)
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
        if self.was_met(dict.obj_id()) {
            return Ok(());
        }
        let mut keys: Vec<_> = dict.keys().collect();
        keys.sort();
        self.text(b'<', b"");
        for key in keys.iter().filter(|key| !ASIDE.contains(&key.as_str())) {
            let Some(inner) = dict.get::<Object<'_>>(&**key) else { continue };
            self.text(b'/', key);
            self.object(&inner, depth + 1)?;
        }
        self.text(b'>', b"");
        Ok(())
    }

    /// A stream counts as it lies in the file, packed.
    fn stream(&mut self, stream: &Stream<'_>, depth: usize) -> Result<(), Unreadable> {
        if self.was_met(Some(stream.obj_id())) {
            return Ok(());
        }
        self.text(b'S', &stream.raw_data());
        let dict = stream.dict();
        let mut keys: Vec<_> = dict.keys().collect();
        keys.sort();
        for key in keys.iter().filter(|key| !ASIDE.contains(&key.as_str())) {
            let Some(inner) = dict.get::<Object<'_>>(&**key) else { continue };
            self.text(b'/', key);
            self.object(&inner, depth + 1)?;
        }
        self.text(b's', b"");
        Ok(())
    }

    /// Whether the object was met before; if so, its place stands for it.
    fn was_met(&mut self, id: Option<ObjectIdentifier>) -> bool {
        let Some(id) = id else { return false };
        let next = self.seen.len();
        match self.seen.get(&id).copied() {
            Some(place) => {
                self.text(b'=', &(place as u64).to_be_bytes());
                true
            }
            None => {
                self.seen.insert(id, next);
                false
            }
        }
    }
}
