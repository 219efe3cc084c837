//! STEP text: instances of entities, one a line, as ISO 10303-21 writes them.
//!
//! Words: *instance* = `#12=IFCPOINT(...)`; *value* = what stands between its parentheses.
//! Units: numbers are written with nine decimals: a nanometre where they are metres.
//! Source: [ISO-10303-21].

use std::collections::BTreeMap;

/// The number of an instance.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Ref(usize);

/// An attribute of an instance.
#[derive(Debug, Clone)]
pub(crate) enum Value {
    /// `$`: nothing was said.
    Blank,
    /// `*`: derived by the schema.
    Derived,
    Text(String),
    Real(f64),
    Whole(i64),
    Flag(bool),
    /// `.WORD.`
    Word(&'static str),
    Ref(Ref),
    List(Vec<Value>),
    /// `IFCLABEL('a')`
    Typed(&'static str, Box<Value>),
}

impl Value {
    /// A text, or nothing.
    pub(crate) fn maybe(text: Option<&str>) -> Self {
        text.map_or(Value::Blank, |text| Value::Text(text.to_owned()))
    }

    /// A list of instances.
    pub(crate) fn refs(refs: &[Ref]) -> Self {
        Value::List(refs.iter().map(|one| Value::Ref(*one)).collect())
    }

    /// A list of numbers.
    pub(crate) fn reals(numbers: &[f64]) -> Self {
        Value::List(numbers.iter().map(|one| Value::Real(*one)).collect())
    }

    /// A value that names its type.
    pub(crate) fn typed(name: &'static str, value: Value) -> Self {
        Value::Typed(name, Box::new(value))
    }

    fn put(&self, out: &mut String) {
        match self {
            Value::Blank => out.push('$'),
            Value::Derived => out.push('*'),
            Value::Text(text) => quoted(text, out),
            Value::Real(number) => out.push_str(&real(*number)),
            Value::Whole(number) => out.push_str(&number.to_string()),
            Value::Flag(flag) => out.push_str(if *flag { ".T." } else { ".F." }),
            Value::Word(word) => out.push_str(&format!(".{word}.")),
            Value::Ref(Ref(number)) => out.push_str(&format!("#{number}")),
            Value::List(values) => list(values, out),
            Value::Typed(name, value) => {
                out.push_str(name);
                list(std::slice::from_ref(value), out);
            }
        }
    }
}

fn list(values: &[Value], out: &mut String) {
    out.push('(');
    for (at, value) in values.iter().enumerate() {
        if at > 0 {
            out.push(',');
        }
        value.put(out);
    }
    out.push(')');
}

/// A number with a point, as the standard asks; nine decimals, no zeros at the end.
fn real(number: f64) -> String {
    let text = format!("{number:.9}");
    let text = text.trim_end_matches('0');
    if text == "-0." { "0.".to_owned() } else { text.to_owned() }
}

/// A text in quotes; what is no printable ASCII goes as UTF-16 in hexadecimal digits.
fn quoted(text: &str, out: &mut String) {
    out.push('\'');
    let mut wide = false;
    for letter in text.chars() {
        let plain = (' '..='~').contains(&letter);
        if plain == wide {
            out.push_str(if wide { "\\X0\\" } else { "\\X2\\" });
            wide = !wide;
        }
        match letter {
            '\'' => out.push_str("''"),
            '\\' => out.push_str("\\\\"),
            letter if plain => out.push(letter),
            letter => {
                letter.encode_utf16(&mut [0; 2]).iter().for_each(|unit| out.push_str(&format!("{unit:04X}")))
            }
        }
    }
    if wide {
        out.push_str("\\X0\\");
    }
    out.push('\'');
}

/// A file as it grows.
#[derive(Debug, Default)]
pub(crate) struct Step {
    lines: Vec<String>,
    same: BTreeMap<String, Ref>,
}

impl Step {
    /// A new instance.
    pub(crate) fn add(&mut self, entity: &str, values: &[Value]) -> Ref {
        let text = text(entity, values);
        self.push(text)
    }

    /// An instance that has no identity of its own: the same values are written once.
    pub(crate) fn share(&mut self, entity: &str, values: &[Value]) -> Ref {
        let text = text(entity, values);
        if let Some(known) = self.same.get(&text) {
            return *known;
        }
        let made = self.push(text.clone());
        self.same.insert(text, made);
        made
    }

    fn push(&mut self, text: String) -> Ref {
        let made = Ref(self.lines.len() + 1);
        self.lines.push(format!("#{}={text};\n", made.0));
        made
    }

    /// The whole file: `about` fills description, name and schema of its head.
    pub(crate) fn file(self, head: &Head<'_>) -> String {
        format!(
            "ISO-10303-21;\nHEADER;\n{}ENDSEC;\nDATA;\n{}ENDSEC;\nEND-ISO-10303-21;\n",
            head.text(),
            self.lines.concat()
        )
    }
}

fn text(entity: &str, values: &[Value]) -> String {
    let mut out = entity.to_owned();
    list(values, &mut out);
    out
}

/// What the head of a file says.
pub(crate) struct Head<'a> {
    pub(crate) description: &'a str,
    pub(crate) name: &'a str,
    /// Without an offset, as the standard has it.
    pub(crate) time: &'a str,
    pub(crate) organization: &'a str,
    pub(crate) program: &'a str,
    pub(crate) schema: &'a str,
}

impl Head<'_> {
    fn text(&self) -> String {
        let one = |text: &str| Value::List(vec![Value::Text(text.to_owned())]);
        let alone = |text: &str| Value::Text(text.to_owned());
        let rows = [
            text("FILE_DESCRIPTION", &[one(self.description), alone("2;1")]),
            text(
                "FILE_NAME",
                &[
                    alone(self.name),
                    alone(self.time),
                    one(""),
                    one(self.organization),
                    alone(self.program),
                    alone(self.program),
                    alone(""),
                ],
            ),
            text("FILE_SCHEMA", &[one(self.schema)]),
        ];
        rows.map(|row| row + ";\n").concat()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(value: Value, expected: &str) {
        let mut out = String::new();
        value.put(&mut out);
        assert_eq!(out, expected);
    }

    #[test]
    fn values_are_written_as_the_standard_has_them() {
        check(Value::Blank, "$");
        check(Value::Real(1.0), "1.");
        check(Value::Real(-0.0000000001), "0.");
        check(Value::Real(-12.25), "-12.25");
        check(Value::Real(1e-6), "0.000001");
        check(Value::Word("AREA"), ".AREA.");
        check(Value::Flag(false), ".F.");
        check(Value::List(vec![Value::Whole(3), Value::Derived]), "(3,*)");
        check(Value::typed("IFCREAL", Value::Real(0.5)), "IFCREAL(0.5)");
    }

    #[test]
    fn any_text_can_be_written() {
        let text = |text: &str| Value::Text(text.to_owned());
        check(text("pier 1"), "'pier 1'");
        check(text("the owner's"), "'the owner''s'");
        check(text("a\\b"), "'a\\\\b'");
        check(text("Pfähle"), "'Pf\\X2\\00E4\\X0\\hle'");
        check(text("é"), "'\\X2\\00E9\\X0\\'");
        check(text("a\nb"), "'a\\X2\\000A\\X0\\b'");
        check(text("𝒟"), "'\\X2\\D835DC9F\\X0\\'");
    }

    #[test]
    fn what_has_no_identity_is_written_once() {
        let mut step = Step::default();
        let one = step.share("IFCDIRECTION", &[Value::reals(&[0.0, 0.0, 1.0])]);
        let other = step.add("IFCDIRECTION", &[Value::reals(&[0.0, 0.0, 1.0])]);
        assert_eq!(step.share("IFCDIRECTION", &[Value::reals(&[0.0, 0.0, 1.0])]), one);
        assert_ne!(one, other);
        assert_eq!(step.lines, ["#1=IFCDIRECTION((0.,0.,1.));\n", "#2=IFCDIRECTION((0.,0.,1.));\n"]);
    }
}
