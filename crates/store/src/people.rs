//! Who may come in: people, their roles, invitations, sessions.
//!
//! Of everything that lets somebody in (password, invitation, session) only a hash is kept.
//!
//! Words: *person* = somebody who signs in; *invitation* = a secret that lets a person choose a password once;
//! *session* = a signed-in browser; *let go* = no longer let in, with everything written kept.
//! Never: draw a secret, read a clock, keep a secret as it was given out.

mod kept;

use crate::error::StoreError;
use crate::role::{Role, Roles};

/// Characters a name may have.
const NAME_MOST: usize = 60;

/// A person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Person {
    /// Its number here, from 1; never used twice.
    pub number: i64,
    /// The name it signs in with.
    pub name: String,
    /// A password was chosen.
    pub chose: bool,
    /// When it was let go, seconds since 1970; `None`: it may come in.
    pub gone: Option<i64>,
    /// The name it signs with, where that is another.
    pub signs_as: Option<String>,
}

impl Person {
    /// Whether a name under an entry is this person's: the one it signs with, or the one it signs in with, also without
    /// what stands behind an `@`. Only letters and digits count, in any case, so `A. Hall` is `a.hall`.
    pub fn signs(&self, typed: &str) -> bool {
        let letters = |text: &str| -> String {
            text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
        };
        let before = self.name.split('@').next();
        let own = [Some(self.name.as_str()), before, self.signs_as.as_deref()];
        let typed = letters(typed);
        !typed.is_empty() && own.into_iter().flatten().any(|own| letters(own) == typed)
    }

    /// Both names, for people to read.
    pub fn known_as(&self) -> String {
        match &self.signs_as {
            Some(name) => format!("{} ({name})", self.name),
            None => self.name.clone(),
        }
    }
}

/// Somebody who asks, as the store knows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Known {
    /// Who.
    pub person: Person,
    /// What it is on which job; nothing for one who was let go.
    pub roles: Roles,
}

/// What became of taking something from a person.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Removal {
    /// It is done.
    Done,
    /// There was nothing to take.
    NotThere,
    /// Nobody else manages the office and comes in, so it was left as it is.
    LastManager,
}

/// Who has to be left when a person is let go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Left {
    /// Somebody who manages the office and comes in.
    AManager,
    /// Nobody: the console makes a new manager at any time.
    MaybeNobody,
}

/// How long a session lasts, in seconds since 1970.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// When it began.
    pub from: i64,
    /// When it ends, however busy it is.
    pub until: i64,
}

/// A name as it is kept: trimmed, in small letters, 1 to 60 letters, digits and `.` `-` `_` `@`. `None`: it cannot be
/// one.
pub fn name_of_person(text: &str) -> Option<String> {
    let name = text.trim().to_lowercase();
    let plain = |c: char| c.is_alphanumeric() || matches!(c, '.' | '-' | '_' | '@');
    ((1..=NAME_MOST).contains(&name.chars().count()) && name.chars().all(plain)).then_some(name)
}

/// Characters a name to sign with may have.
const SIGNED_MOST: usize = 120;

/// A name somebody signs with, as it is kept: trimmed, 1 to 120 characters with a letter or digit among them and no control
/// character. `None`: it cannot be one.
pub fn name_to_sign_with(text: &str) -> Option<String> {
    let name = text.trim();
    let fits = (1..=SIGNED_MOST).contains(&name.chars().count()) && !name.chars().any(char::is_control);
    (fits && name.chars().any(char::is_alphanumeric)).then(|| name.to_owned())
}

/// A place that knows people.
pub trait People {
    /// Whether there is anybody, let go or not: from the first on, roles decide who may do what.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn has_people(&self) -> Result<bool, StoreError>;

    /// Adds a person by a name out of `name_of_person`, and says its number; one who is there already stays as it is.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn add_person(&mut self, name: &str, now: i64) -> Result<i64, StoreError>;

    /// Keeps the name a person signs with; `None`: the one it signs in with.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn sign_as(&mut self, person: i64, name: Option<&str>) -> Result<(), StoreError>;

    /// A person by number, with its roles.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn person(&self, number: i64) -> Result<Option<Known>, StoreError>;

    /// A person by name, with what is kept of its password.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn person_named(&self, name: &str) -> Result<Option<(Person, Option<String>)>, StoreError>;

    /// Everybody with a role on a job, by name; with `EVERY_JOB` everybody there is.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn people_on(&self, job: &str) -> Result<Vec<Known>, StoreError>;

    /// Gives a role on a job; `EVERY_JOB` is every job.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn give_role(&mut self, person: i64, job: &str, role: Role) -> Result<(), StoreError>;

    /// Takes a role on a job away, but not the last one by which somebody manages the office. Looked at and taken in one
    /// commit, so that two managers cannot take it from each other.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn take_role(&mut self, person: i64, job: &str, role: Role) -> Result<Removal, StoreError>;

    /// Lets a person go at a time: sessions end, invitations lapse, its passkeys are removed, its devices are let go, and it
    /// may not come in. What it wrote stays.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn let_person_go(&mut self, person: i64, now: i64, left: Left) -> Result<Removal, StoreError>;

    /// Keeps an invitation of a person until a time; earlier ones of that person lapse, and one who was let go may come
    /// in again.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn invite(&mut self, person: i64, code: &str, until: i64) -> Result<(), StoreError>;

    /// Uses an invitation up and keeps what is kept of the password, both or neither; open sessions of that person end, and
    /// its passkeys are removed: who needs an invitation begins anew.
    /// `None`: there is no such invitation at `now`.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn use_invitation(&mut self, code: &str, secret: &str, now: i64) -> Result<Option<Person>, StoreError>;

    /// Keeps what is kept of a new password; open sessions of that person end.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn set_secret(&mut self, person: i64, secret: &str) -> Result<(), StoreError>;

    /// Begins a session; those whose time is over are dropped.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn begin_session(&mut self, person: i64, token: &str, span: Span) -> Result<(), StoreError>;

    /// Who a session belongs to, and when it was last seen; nobody when it was not seen since `idle`, or its time is
    /// over at `now`, or the person was let go.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn session(&self, token: &str, idle: i64, now: i64) -> Result<Option<(Known, i64)>, StoreError>;

    /// A session was seen.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn see_session(&mut self, token: &str, now: i64) -> Result<(), StoreError>;

    /// Ends a session.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn end_session(&mut self, token: &str) -> Result<(), StoreError>;
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, expected: Option<&str>) {
        assert_eq!(name_of_person(text).as_deref(), expected, "{text:?}");
    }

    #[test]
    fn a_name_is_small_letters_and_nothing_that_could_be_markup() {
        check(" D.Pike ", Some("d.pike"));
        check("d.pike@office.example", Some("d.pike@office.example"));
        check("Łukasz", Some("łukasz"));
        check("", None);
        check("d pike", None);
        check("<b>", None);
        check("d'pike", None);
        check(&"a".repeat(61), None);
    }

    #[track_caller]
    fn check_signs(signs_as: Option<&str>, typed: &str, expected: bool) {
        let signs_as = signs_as.map(str::to_owned);
        let person =
            Person { number: 1, name: "a.hall@office.example".into(), chose: true, gone: None, signs_as };
        assert_eq!(person.signs(typed), expected, "{typed:?}");
    }

    #[test]
    fn a_person_signs_with_its_names_however_they_are_spelt_and_with_no_other() {
        check_signs(None, "a.hall", true);
        check_signs(None, "A. Hall", true);
        check_signs(None, "a.hall@office.example", true);
        check_signs(None, "Anna Hall", false);
        check_signs(Some("Anna Hall"), "anna  HALL", true);
        check_signs(Some("Anna Hall"), "A. Hall", true);
        check_signs(Some("Anna Hall"), "Anna Hallam", false);
        check_signs(Some("Łucja Żak"), "łucja żak", true);
        check_signs(None, "", false);
        check_signs(Some("Anna Hall"), " . ", false);
    }

    #[test]
    fn a_name_to_sign_with_has_letters_and_no_second_line() {
        let check = |text: &str, expected: Option<&str>| {
            assert_eq!(name_to_sign_with(text).as_deref(), expected, "{text:?}");
        };
        check("  Anna Hall, P.E. ", Some("Anna Hall, P.E."));
        check("  ", None);
        check("--", None);
        check("Anna\nHall", None);
        check(&"a".repeat(121), None);
    }
}
