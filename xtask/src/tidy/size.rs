//! Functions, files and parameter lists stay small.
//!
//! A function one cannot see at a glance is one nobody checks against the formula it claims to be. The
//! measures are taken from the parsed source, tests left out; what is over a limit stands in
//! `xtask/ratchet.txt`, a list that only gets shorter.

use super::ratchet;
use super::tree::{File, Finding, Tree};
use proc_macro2::Span;
use syn::spanned::Spanned;
use syn::visit::Visit;

/// What is measured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Measure {
    /// Lines of a file without its tests.
    File,
    /// Lines of a function, from its signature to its closing brace.
    Function,
    /// Parameters of a function beside `self`.
    Parameters,
}

impl Measure {
    /// The word in the list of exceptions.
    pub(crate) fn word(self) -> &'static str {
        match self {
            Measure::File => "file",
            Measure::Function => "function",
            Measure::Parameters => "parameters",
        }
    }

    /// The most that is allowed without a row in the list.
    pub(crate) fn limit(self) -> usize {
        match self {
            Measure::File => 600,
            Measure::Function => 70,
            Measure::Parameters => 4,
        }
    }
}

/// One thing measured.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Measured {
    pub(crate) measure: Measure,
    pub(crate) path: String,
    /// The function's name; `-` for a file.
    pub(crate) name: String,
    pub(crate) size: usize,
}

/// Everything over a limit that the list does not hold, and every row of the list that is not exact.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    let mut found = Vec::new();
    let mut over = Vec::new();
    for file in tree.files.iter().filter(|file| is_measured(file)) {
        match measured(file) {
            Ok(all) => over.extend(all.into_iter().filter(|one| one.size > one.measure.limit())),
            Err(error) => found.push(Finding::in_file(&file.path, format!("cannot be parsed: {error}"))),
        }
    }
    found.extend(ratchet::compare(tree.text(ratchet::LIST).unwrap_or_default(), &over));
    found
}

/// Sources that ship: not tests, nor the made-up data of examples and benches.
fn is_measured(file: &File) -> bool {
    let apart = |part: &str| matches!(part, "examples" | "benches") || part.ends_with("tests.rs");
    file.is_source() && !file.path.split('/').any(apart)
}

fn measured(file: &File) -> Result<Vec<Measured>, syn::Error> {
    let parsed = syn::parse_file(&file.text)?;
    let mut reader = Reader { path: &file.path, found: Vec::new() };
    reader.visit_file(&parsed);
    let lines = without_tests(&file.text).len();
    let whole = Measured { measure: Measure::File, path: file.path.clone(), name: "-".into(), size: lines };
    reader.found.push(whole);
    Ok(reader.found)
}

/// The lines of a source outside its tests, numbered from zero. A text that cannot be parsed is all code.
pub(crate) fn without_tests(text: &str) -> Vec<(usize, &str)> {
    let mut tests = TestLines::default();
    if let Ok(parsed) = syn::parse_file(text) {
        tests.visit_file(&parsed);
    }
    let inside = |line: usize| tests.0.iter().any(|(from, to)| (*from..=*to).contains(&(line + 1)));
    text.lines().enumerate().filter(|(line, _)| !inside(*line)).collect()
}

/// First and last line of every item that exists only in tests.
#[derive(Default)]
struct TestLines(Vec<(usize, usize)>);

impl<'ast> Visit<'ast> for TestLines {
    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        match only_tests(&item.attrs) {
            true => self.0.push(lines(item.span())),
            false => syn::visit::visit_item_mod(self, item),
        }
    }

    fn visit_item_fn(&mut self, item: &'ast syn::ItemFn) {
        if only_tests(&item.attrs) {
            self.0.push(lines(item.span()));
        }
    }
}

fn lines(span: Span) -> (usize, usize) {
    (span.start().line, span.end().line)
}

/// `#[cfg(test)]` and `#[test]`.
fn only_tests(attributes: &[syn::Attribute]) -> bool {
    attributes.iter().any(|attribute| match &attribute.meta {
        syn::Meta::List(list) => list.path.is_ident("cfg") && list.tokens.to_string() == "test",
        other => other.path().is_ident("test"),
    })
}

struct Reader<'a> {
    path: &'a str,
    found: Vec<Measured>,
}

impl Reader<'_> {
    fn note(&mut self, attributes: &[syn::Attribute], signature: &syn::Signature, end: Span) {
        let length = end.end().line - signature.span().start().line + 1;
        let receivers = usize::from(signature.receiver().is_some());
        // The parameters of a component are named where it is used, as the fields of a struct are.
        let named = attributes.iter().any(|attribute| attribute.path().is_ident("component"));
        let parameters = if named { 0 } else { signature.inputs.len() - receivers };
        for (measure, size) in [(Measure::Function, length), (Measure::Parameters, parameters)] {
            let name = signature.ident.to_string();
            self.found.push(Measured { measure, path: self.path.to_owned(), name, size });
        }
    }
}

impl<'ast> Visit<'ast> for Reader<'_> {
    fn visit_item_mod(&mut self, item: &'ast syn::ItemMod) {
        if !only_tests(&item.attrs) {
            syn::visit::visit_item_mod(self, item);
        }
    }

    fn visit_item_fn(&mut self, item: &'ast syn::ItemFn) {
        if !only_tests(&item.attrs) {
            self.note(&item.attrs, &item.sig, item.block.span());
            syn::visit::visit_item_fn(self, item);
        }
    }

    fn visit_impl_item_fn(&mut self, item: &'ast syn::ImplItemFn) {
        if !only_tests(&item.attrs) {
            self.note(&item.attrs, &item.sig, item.block.span());
            syn::visit::visit_impl_item_fn(self, item);
        }
    }

    fn visit_trait_item_fn(&mut self, item: &'ast syn::TraitItemFn) {
        self.note(&item.attrs, &item.sig, item.span());
        syn::visit::visit_trait_item_fn(self, item);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sizes(text: &str) -> Vec<(Measure, String, usize)> {
        let file = File { path: "a.rs".into(), text: text.into() };
        let all = measured(&file).expect("the sample parses");
        all.into_iter().map(|one| (one.measure, one.name, one.size)).collect()
    }

    #[test]
    fn a_function_is_measured_from_its_signature_to_its_brace() {
        let text = "/// Doc.\n#[must_use]\nfn f(\n    a: u8,\n) -> u8 {\n    a\n}\n";
        assert_eq!(
            sizes(text),
            [
                (Measure::Function, "f".to_owned(), 5),
                (Measure::Parameters, "f".to_owned(), 1),
                (Measure::File, "-".to_owned(), 7),
            ]
        );
    }

    #[test]
    fn methods_count_without_self_and_tests_do_not_count() {
        let text =
            "impl A {\n    fn f(&self, a: u8, b: u8) {}\n}\n\n#[cfg(test)]\nmod tests {\n    fn g() {}\n}\n";
        assert_eq!(
            sizes(text),
            [
                (Measure::Function, "f".to_owned(), 1),
                (Measure::Parameters, "f".to_owned(), 2),
                (Measure::File, "-".to_owned(), 4),
            ]
        );
    }

    #[test]
    fn a_long_function_a_long_file_and_many_parameters_are_found() {
        let long = format!("fn f() {{\n{}}}\n", "    g();\n".repeat(69));
        let exact = format!("fn f() {{\n{}}}\n", "    g();\n".repeat(68));
        let file = "const A: u8 = 1;\n".repeat(601);
        let many = "fn f(a: u8, b: u8, c: u8, d: u8, e: u8) {}\n".to_owned();
        for (text, found) in [
            (long, 1),
            (exact, 0),
            (file, 1),
            (many.clone(), 1),
            (format!("#[component]\n{many}"), 0),
            ("not rust".to_owned(), 1),
        ] {
            assert_eq!(find(&Tree::of(&[("crates/a/src/lib.rs", &text)])).len(), found, "{text:.60}");
        }
    }
}
