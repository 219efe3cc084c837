//! An entry while it is being written: the form, the field the pad is open for, faults and questions.
//!
//! Words: *open* = of a field: the keypad writes into it; *accepted* = of a question: the person says that
//! it is as written.
//! Never: keep the form on the device, save the entry; that is the screen's work.

use leptos::prelude::*;
use screen::entry::form::{Ask, Asked, Concern, FieldFault, Form, When};
use screen::entry::{Echo, Key, keypad};
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// A handle that every field of a form holds.
#[derive(Clone, Copy)]
pub(crate) struct Writing {
    /// What was typed so far.
    pub(crate) form: RwSignal<Form>,
    /// Every field as it is asked now.
    pub(crate) fields: Memo<Vec<Asked>>,
    /// The field the keypad writes into.
    pub(crate) open: RwSignal<Option<String>>,
    /// What cannot be taken in, found by the last try to save.
    pub(crate) faults: RwSignal<Vec<FieldFault>>,
    /// What looks odd.
    pub(crate) concerns: RwSignal<Vec<Concern>>,
    /// What a person said is as written.
    pub(crate) accepted: RwSignal<Vec<Concern>>,
    /// Counts how often a field was left: then the form is looked over.
    pub(crate) left: RwSignal<u32>,
}

impl Writing {
    /// Begins with a form.
    pub(crate) fn new(form: Form) -> Writing {
        let form = RwSignal::new(form);
        Writing {
            form,
            fields: Memo::new(move |_| form.with(Form::fields)),
            open: RwSignal::new(None),
            faults: RwSignal::new(Vec::new()),
            concerns: RwSignal::new(Vec::new()),
            accepted: RwSignal::new(Vec::new()),
            left: RwSignal::new(0),
        }
    }

    /// A field as it is asked now; `None` once its row was taken out.
    pub(crate) fn asked(self, path: &str) -> Memo<Option<Asked>> {
        let path = path.to_owned();
        Memo::new(move |_| self.fields.with(|all| all.iter().find(|asked| asked.path == path).cloned()))
    }

    /// What stands in a field.
    pub(crate) fn text(self, path: &str) -> Memo<String> {
        let path = path.to_owned();
        Memo::new(move |_| self.form.with(|form| form.text(&path).to_owned()))
    }

    /// How it was understood.
    pub(crate) fn echo(self, path: &str) -> Memo<Echo> {
        let path = path.to_owned();
        Memo::new(move |_| self.form.with(|form| form.echo(&path)))
    }

    /// Writes into a field.
    pub(crate) fn set(self, path: &str, text: &str) {
        self.form.update(|form| form.set(path, text));
        self.faults.update(|faults| faults.retain(|fault| fault.path != path));
    }

    /// Takes what is offered for a field.
    pub(crate) fn take(self, path: &str) {
        self.form.update(|form| form.take(path));
        self.faults.update(|faults| faults.retain(|fault| fault.path != path));
        self.leave();
    }

    /// A key of the pad was pressed.
    pub(crate) fn press(self, key: Key) {
        let Some(path) = self.open.get_untracked() else { return };
        if key == Key::Next {
            return self.next(&path);
        }
        let text = self.form.with_untracked(|form| keypad::press(form.text(&path), key));
        self.set(&path, &text);
    }

    /// A field was left: whoever looks the form over is called.
    pub(crate) fn leave(self) {
        self.left.update(|left| *left = left.wrapping_add(1));
    }

    /// Puts the pad away.
    pub(crate) fn put_away(self) {
        if let Some(path) = self.open.get_untracked()
            && let Some(field) = element(&field_id(&path))
        {
            let _ = field.blur();
        }
        self.open.set(None);
        self.leave();
    }

    /// Puts the pad away and leaves the focus where it is: for whoever works with a keyboard.
    pub(crate) fn close_pad(self) {
        self.open.set(None);
        self.leave();
    }

    /// On to the next field that is asked for at once; after the last one the pad is put away.
    fn next(self, path: &str) {
        self.leave();
        let next = self.fields.with_untracked(|all| {
            let after = all.iter().skip_while(|asked| asked.path != path).skip(1);
            let mut writable = after.filter(|asked| asked.when != When::More && is_written(&asked.ask));
            writable.next().map(|asked| asked.path.clone())
        });
        match next.and_then(|path| element(&field_id(&path))) {
            Some(field) => {
                let _ = field.focus();
            }
            None => self.put_away(),
        }
    }

    /// What was found wrong with a field; empty while nothing was.
    pub(crate) fn fault(self, path: &str) -> Memo<String> {
        let path = path.to_owned();
        let sentence = move |fault: &FieldFault| (fault.path == path).then(|| fault.sentence.clone());
        Memo::new(move |_| self.faults.with(|all| all.iter().find_map(&sentence)).unwrap_or_default())
    }

    /// Questions nobody has said yes to.
    pub(crate) fn open_concerns(self) -> Vec<Concern> {
        let accepted = self.accepted.get();
        self.concerns.with(|all| all.iter().filter(|one| !accepted.contains(one)).cloned().collect())
    }
}

/// Whether a field is written into, rather than a head of others.
fn is_written(ask: &Ask) -> bool {
    !matches!(ask, Ask::List { .. } | Ask::Row { .. } | Ask::Group)
}

/// The id of the element a field is written in.
pub(crate) fn field_id(path: &str) -> String {
    let plain = |sign: char| if sign.is_ascii_alphanumeric() || sign == '_' { sign } else { '-' };
    format!("field-{}", path.chars().map(plain).collect::<String>())
}

/// An element of the page.
pub(crate) fn element(id: &str) -> Option<HtmlElement> {
    document().get_element_by_id(id)?.dyn_into().ok()
}
