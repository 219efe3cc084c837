//! A half-filled form as a text, so that it survives a tab that is killed.
//!
//! One line a field: its path, a tab, what was typed. A text of a form that has changed since is still
//! taken: fields that are no more are left out.
//!
//! Never: be sent or signed; it is nobody's entry yet.

use super::Form;
use quantity::Moment;
use record::Record;

const HEAD: &str = "form 1";

impl Form {
    /// The form as a text.
    pub fn to_text(&self) -> String {
        let mut lines =
            vec![HEAD.to_owned(), format!("kind\t{}", self.kind.word), format!("at\t{}", self.at)];
        lines.extend(self.shaft.iter().map(|shaft| format!("shaft\t{}", escaped(shaft))));
        lines.extend(self.answers.rows.iter().map(|(list, rows)| format!("#{list}\t{rows}")));
        lines.extend(self.answers.texts.iter().map(|(path, text)| format!("={path}\t{}", escaped(text))));
        lines.join("\n")
    }

    /// The form a text kept; `None` when it is none of ours.
    pub fn from_text(text: &str, record: &Record) -> Option<Form> {
        let mut lines = text.lines();
        if lines.next()? != HEAD {
            return None;
        }
        let rows: Vec<(&str, &str)> = lines.filter_map(|line| line.split_once('\t')).collect();
        let of = |name: &str| rows.iter().find(|row| row.0 == name).map(|row| row.1);
        let shaft = of("shaft").map(plain);
        let at = Moment::parse(of("at")?).ok()?;
        let mut form = Form::new(of("kind")?, record, shaft.as_deref(), at)?;
        for (name, value) in &rows {
            if let (Some(list), Ok(count)) = (name.strip_prefix('#'), value.parse::<usize>()) {
                form.answers.rows.remove(list);
                if let Some(last) = count.checked_sub(1) {
                    form.answers.make_rows(&format!("{list}[{last}]"));
                }
            }
            if let Some(path) = name.strip_prefix('=') {
                form.answers.set(path, &plain(value));
            }
        }
        Some(form)
    }
}

/// A text in one line.
fn escaped(text: &str) -> String {
    text.replace('\\', "\\\\").replace('\n', "\\n").replace('\r', "\\r").replace('\t', "\\t")
}

fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    let mut signs = text.chars();
    while let Some(sign) = signs.next() {
        match (sign, sign == '\\') {
            (_, true) => plain.extend(signs.next().map(|escaped| match escaped {
                'n' => '\n',
                'r' => '\r',
                't' => '\t',
                other => other,
            })),
            (sign, _) => plain.push(sign),
        }
    }
    plain
}
