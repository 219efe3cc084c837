//! The fonts a document is set in, and which characters they can draw.
//!
//! A package that fails because somebody wrote a character no font has would lose an evening's work; a
//! character that silently vanishes would change the record. So the fonts know what they can draw.
//!
//! Words: *given* fonts = the house font, first choice; *spare* fonts = those that come with typst, which
//! draw what the house font lacks (Greek, Cyrillic, Hebrew, Arabic, marks).

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::text::{Font, FontBook, FontInfo};
use typst::utils::LazyHash;

use crate::ReportError;

/// The families kept from those that come with typst, in the order in which they are asked.
const SPARE_FAMILIES: [&str; 2] = ["Libertinus Serif", "DejaVu Sans Mono"];

static SPARE: LazyLock<Vec<Font>> = LazyLock::new(|| {
    let all = typst_assets::fonts().flat_map(|data| Font::iter(Bytes::new(data)));
    all.filter(|font| SPARE_FAMILIES.contains(&font.info().family.as_str())).collect()
});

/// Fonts that were read once and serve many documents.
#[derive(Debug)]
pub struct Fonts {
    families: Vec<String>,
    fonts: Vec<Font>,
    book: LazyHash<FontBook>,
}

impl Fonts {
    /// Reads the fonts; the family of the first is the one the text is set in. None gives a document in the
    /// spare fonts alone.
    ///
    /// # Errors
    /// [`ReportError::Font`] when one of them is no OpenType or TrueType font.
    pub fn new(given: &[&'static [u8]]) -> Result<Self, ReportError> {
        let mut fonts = Vec::new();
        for (index, data) in given.iter().enumerate() {
            let before = fonts.len();
            fonts.extend(Font::iter(Bytes::new(*data)));
            if fonts.len() == before {
                return Err(ReportError::Font { number: index + 1 });
            }
        }
        fonts.extend(SPARE.iter().cloned());
        let infos = infos(&fonts);
        let families = families(&infos);
        let book = LazyHash::new(FontBook::from_infos(infos));
        Ok(Self { families, fonts, book })
    }

    /// The house font, the one the drawings are lettered in.
    pub fn house() -> Self {
        let given: Vec<&'static [u8]> = figure::FONTS.iter().map(|(_, bytes)| *bytes).collect();
        Self::new(&given).expect("the fonts that travel with the program are fonts")
    }

    /// The families in the order in which they are asked for a character.
    pub(crate) fn families(&self) -> &[String] {
        &self.families
    }

    /// Whether any font draws this character.
    pub(crate) fn draw(&self, character: char) -> bool {
        self.fonts.iter().any(|font| font.info().coverage.contains(u32::from(character)))
    }

    pub(crate) fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    pub(crate) fn get(&self, index: usize) -> Option<Font> {
        self.fonts.get(index).cloned()
    }
}

/// What each font says of itself. A heavier cut names itself a family of its own (`… SmBld`), and text asked
/// for in a heavier weight would not find it; it is filed under the house family again.
fn infos(fonts: &[Font]) -> Vec<FontInfo> {
    let house = fonts.first().map(|font| font.info().family.clone()).unwrap_or_default();
    let filed = |font: &Font| {
        let mut info = font.info().clone();
        if info.family.starts_with(&house) {
            info.family.clone_from(&house);
        }
        info
    };
    fonts.iter().map(filed).collect()
}

fn families(infos: &[FontInfo]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for info in infos {
        if !names.contains(&info.family) {
            names.push(info.family.clone());
        }
    }
    names
}
