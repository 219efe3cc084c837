//! A forger who knows PDF: puts other objects in behind a package, as any PDF program would.
//!
//! [ISO-32000-1] 7.5.6. Written apart from the crate that seals, so that one mistake does not hide another.

/// A package that is tampered with.
pub(crate) struct Forger {
    pub(crate) bytes: Vec<u8>,
}

impl Forger {
    pub(crate) fn of(bytes: &[u8]) -> Self {
        Forger { bytes: bytes.to_vec() }
    }

    /// Where a text stands for the first time.
    #[track_caller]
    pub(crate) fn find(&self, text: &str) -> usize {
        let found = self.bytes.windows(text.len()).position(|window| window == text.as_bytes());
        found.unwrap_or_else(|| panic!("`{text}` is not in the file"))
    }

    /// What stands between a text and the next sign.
    #[track_caller]
    pub(crate) fn between(&self, from: &str, to: &str) -> String {
        let at = self.find(from) + from.len();
        let rest = String::from_utf8_lossy(&self.bytes[at..(at + 4000).min(self.bytes.len())]).into_owned();
        rest.split(to).next().expect("a first part").to_owned()
    }

    /// Puts another text of the same length in its place.
    #[track_caller]
    pub(crate) fn put(&mut self, old: &str, new: &str) {
        assert_eq!(old.len(), new.len());
        let at = self.find(old);
        self.bytes[at..at + new.len()].copy_from_slice(new.as_bytes());
    }

    /// Puts objects in behind the file; each replaces the one of its number.
    pub(crate) fn update(&mut self, objects: &[(u32, String)]) {
        let text = String::from_utf8_lossy(&self.bytes).into_owned();
        let before: usize = text
            .rsplit("startxref")
            .next()
            .and_then(|rest| rest.split_whitespace().next()?.parse().ok())
            .expect("a table");
        let size: u32 = self.between("<</Size ", "/").parse().expect("a size");
        let root = self.between("/Root ", "/");
        let most = objects.iter().map(|(number, _)| number + 1).max().unwrap_or(0).max(size);
        let mut table = String::from("xref\n");
        for (number, body) in objects {
            self.bytes.push(b'\n');
            table += &format!("{number} 1\n{:010} 00000 n\r\n", self.bytes.len());
            self.bytes.extend(format!("{number} 0 obj\n{body}\nendobj\n").bytes());
        }
        let start = self.bytes.len();
        self.bytes.extend(table.bytes());
        let trailer =
            format!("trailer\n<</Size {most}/Root {root}/Prev {before}>>\nstartxref\n{start}\n%%EOF");
        self.bytes.extend(trailer.bytes());
    }

    /// Puts other text into the place of a file inside.
    pub(crate) fn replace_file(&mut self, name: &str, text: &str) {
        let number = self.between(&format!("/F({name})/UF({name})/EF<</F "), " ").parse().expect("a number");
        let body = format!("<</Type/EmbeddedFile/Length {}>>\nstream\n{text}\nendstream", text.len());
        self.update(&[(number, body)]);
    }

    /// Puts one more file inside, named where a reader looks for them.
    pub(crate) fn add_file(&mut self, name: &str) {
        let catalog =
            format!("<</Type/Catalog{}>>", self.between("<</Type/Catalog", "\n").trim_end_matches(">>"));
        let number: u32 = self.between("/Root ", " ").parse().expect("a number");
        let size: u32 = self.between("<</Size ", "/").parse().expect("a size");
        let catalog = catalog.replace("(seal.jsonl)", &format!("({name}){size} 0 R(seal.jsonl)"));
        let spec = format!("<</Type/Filespec/F({name})/UF({name})/EF<</F {} 0 R>>>>", size + 1);
        let file = "<</Type/EmbeddedFile/Length 5>>\nstream\nhello\nendstream".to_owned();
        self.update(&[(number, catalog), (size, spec), (size + 1, file)]);
    }
}
