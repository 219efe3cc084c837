//! Reads the words back out of a PDF, so that the tests look at the file that is handed in.

#![allow(dead_code, reason = "each user of this file takes its own part")]

use std::collections::BTreeMap;

use lopdf::{Document, Object, ObjectId, content::Content};

/// A PDF opened again.
pub(crate) struct Reader(Document);

/// Glyph number → text, for one font.
type Glyphs = BTreeMap<u16, String>;

impl Reader {
    pub(crate) fn open(bytes: &[u8]) -> Self {
        Reader(Document::load_mem(bytes).expect("a PDF"))
    }

    /// Width and height of every page in points.
    pub(crate) fn sizes(&self) -> Vec<(f32, f32)> {
        let number = |object: &Object| object.as_float().expect("a number");
        let size = |id: ObjectId| {
            let sides = self.0.get_dictionary(id).and_then(|page| page.get(b"MediaBox"));
            let sides = sides.and_then(Object::as_array).expect("a media box");
            (number(&sides[2]), number(&sides[3]))
        };
        self.0.get_pages().into_values().map(size).collect()
    }

    /// The words of every page, a new line wherever the text moves up or down.
    pub(crate) fn pages(&self) -> Vec<String> {
        self.0.get_pages().into_values().map(|id| self.words(id)).collect()
    }

    /// The words of the whole document without any blank, for looking something up across broken lines.
    pub(crate) fn packed(&self) -> String {
        packed(&self.pages().concat())
    }

    /// The words behind every drawing, for readers who cannot see it.
    pub(crate) fn words_behind_drawings(&self) -> Vec<String> {
        let alt = |object: &Object| object.as_dict().ok()?.get(b"Alt").ok().map(lopdf::decode_text_string);
        self.0.objects.values().filter_map(alt).map(|words| words.expect("a text")).collect()
    }

    /// How often a stroke is drawn on the page: ruled and struck lines.
    pub(crate) fn strokes(&self, page: usize) -> usize {
        let id = *self.0.get_pages().get(&(page as u32)).expect("that page");
        let content = Content::decode(&self.0.get_page_content(id).expect("content")).expect("content");
        content.operations.iter().filter(|operation| operation.operator == "S").count()
    }

    /// An entry of the document's catalog or metadata, as raw bytes of the metadata stream.
    pub(crate) fn metadata(&self) -> String {
        let catalog = self.0.catalog().expect("a catalog");
        let id = catalog.get(b"Metadata").and_then(Object::as_reference).expect("metadata");
        let stream = self.0.get_object(id).and_then(Object::as_stream).expect("a stream");
        String::from_utf8_lossy(&stream.get_plain_content().expect("readable")).into_owned()
    }

    fn words(&self, page: ObjectId) -> String {
        let content = Content::decode(&self.0.get_page_content(page).expect("content")).expect("content");
        let fonts = self.fonts(page);
        let (mut lines, mut font) = (Vec::new(), Vec::new());
        for operation in content.operations {
            match (operation.operator.as_str(), operation.operands.as_slice()) {
                ("Tf", [Object::Name(name), _]) => font.clone_from(name),
                ("cm", [.., height]) => {
                    lines.push((height.as_float().expect("a number"), String::new()));
                }
                ("Tj" | "TJ", operands) => {
                    put(&mut lines.last_mut().expect("a place").1, operands, fonts.get(&font));
                }
                _ => {}
            }
        }
        gathered(&lines)
    }

    fn fonts(&self, page: ObjectId) -> BTreeMap<Vec<u8>, Glyphs> {
        let fonts = self.0.get_page_fonts(page).expect("fonts");
        let glyphs = |font: &lopdf::Dictionary| {
            let id = font.get(b"ToUnicode").and_then(Object::as_reference).expect("a way back to letters");
            let stream = self.0.get_object(id).and_then(Object::as_stream).expect("a stream");
            glyphs(&String::from_utf8_lossy(&stream.get_plain_content().expect("readable")))
        };
        fonts.into_iter().map(|(name, font)| (name, glyphs(font))).collect()
    }
}

/// A text without its blanks.
pub(crate) fn packed(text: &str) -> String {
    text.chars().filter(|character| !character.is_whitespace()).collect()
}

/// One line for each run of text; the letters of a drawing, which stand one by one, are joined by height.
fn gathered(runs: &[(f32, String)]) -> String {
    let (mut out, mut before) = (String::new(), None);
    for (height, text) in runs.iter().filter(|(_, text)| !text.trim().is_empty()) {
        let letter = text.trim().chars().nth(1).is_none().then_some(*height);
        if !out.is_empty() && (letter.is_none() || letter != before) {
            out.push('\n');
        }
        out.push_str(text.trim());
        before = letter;
    }
    out
}

fn put(out: &mut String, operands: &[Object], glyphs: Option<&Glyphs>) {
    for operand in operands {
        match operand {
            Object::Array(items) => put(out, items, glyphs),
            Object::String(codes, _) => {
                for code in codes.chunks_exact(2) {
                    let text = glyphs.and_then(|map| map.get(&u16::from_be_bytes([code[0], code[1]])));
                    out.push_str(text.map_or("\u{FFFD}", String::as_str));
                }
            }
            _ => {}
        }
    }
}

/// Reads the lines `<0041> <0061>` of a ToUnicode table; ranges are not written by the exporter in use.
fn glyphs(table: &str) -> Glyphs {
    assert!(!table.contains("beginbfrange"), "this reader has to learn ranges");
    table.lines().filter_map(glyph).collect()
}

fn glyph(line: &str) -> Option<(u16, String)> {
    let (code, text) = line.trim().strip_prefix('<')?.strip_suffix('>')?.split_once("> <")?;
    let units = (0..text.len()).step_by(4).map(|at| u16::from_str_radix(text.get(at..at + 4)?, 16).ok());
    let units: Option<Vec<u16>> = units.collect();
    Some((u16::from_str_radix(code, 16).ok()?, String::from_utf16(&units?).ok()?))
}
