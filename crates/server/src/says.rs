//! What in an entry is somebody's word, whose it is, and who may say it.
//!
//! A signature, a decision, a release and a seal stand for a person. One that comes by a device whose holder has not the
//! role for it, or in a name that is not the holder's, is kept outside the record for a manager to look at; so is what
//! strikes such a word through without the role for it.
//!
//! Words: *word* = what an entry says that only some may say; *oversteps* = says it although somebody else would have to.
//! Never: refuse one because of it; alter one.

use crate::gate::{SEALERS, WRITERS};
use record::choices::{Decision, Role as Part};
use record::{Body, Entry, EntryId, Held};
use store::{Known, Role};

/// Corrections of corrections that are followed.
const DEEPEST: usize = 32;

/// Why an entry may not go into the record as it comes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Overstep {
    /// Another role says this.
    Role,
    /// It is said in a name that is not that of the person whose device brings it.
    Name(String),
    /// It takes the word of somebody away whose role is another.
    Struck,
}

/// What an entry says that only some may say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Word<'e> {
    /// The roles of which one is needed.
    pub(crate) roles: &'static [Role],
    /// In whose name it stands; `None`: of somebody no role stands for, who signs on the device of whoever is there.
    pub(crate) name: Option<&'e str>,
}

/// The word an entry gives, if it gives one. A correction gives the one it puts in the place of another.
pub(crate) fn word(entry: &Entry) -> Option<Word<'_>> {
    said(&entry.body, &entry.author)
}

fn said<'e>(body: &'e Body, author: &'e str) -> Option<Word<'e>> {
    match body {
        Body::Signed(signed) => {
            let (roles, is_own) = signs_as(signed.role);
            Some(Word { roles, name: is_own.then_some(signed.name.as_str()) })
        }
        Body::FindingDisposed(decided) if decided.decision != Decision::Corrected => {
            let name = decided.by.as_deref().unwrap_or(author);
            Some(Word { roles: &[Role::Reviewer], name: Some(name) })
        }
        Body::HoldReleased(released) => Some(Word { roles: &[Role::Reviewer], name: Some(&released.by) }),
        Body::ShaftSealed(_) => Some(Word { roles: SEALERS, name: Some(author) }),
        Body::Correction(correction) => said(correction.body.as_deref()?, author),
        _ => None,
    }
}

/// Who may sign for a part, and whether it is the part of a role, so that the holder of the device signs.
fn signs_as(part: Part) -> (&'static [Role], bool) {
    match part {
        Part::Inspector => (&[Role::Inspector], true),
        Part::Engineer => (&[Role::Reviewer], true),
        Part::ContractorQuality => (&[Role::Quality], true),
        Part::Contractor => (WRITERS, false),
        Part::Producer | Part::Owner | Part::Laboratory | Part::Other => {
            (&[Role::Inspector, Role::Reviewer, Role::Manager], false)
        }
    }
}

/// The entry whose standing an entry decides about.
pub(crate) fn decides_about(body: &Body) -> Option<EntryId> {
    match body {
        Body::Correction(correction) => Some(correction.replaces),
        Body::DisputeClosed(closed) => Some(closed.about),
        _ => None,
    }
}

/// What is known of an entry that another decides about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Target {
    roles: Option<&'static [Role]>,
    about: Option<EntryId>,
}

impl Target {
    /// Of an entry; of one of a newer version nothing is known.
    pub(crate) fn of(held: &Held) -> Self {
        match held {
            Held::Known(entry) => {
                let roles = word(entry).map(|word| word.roles);
                Target { roles, about: decides_about(&entry.body) }
            }
            Held::Newer(_) => Target { roles: None, about: None },
        }
    }
}

/// The roles of every word whose standing an entry decides about: of the one it strikes through or puts another in the place
/// of, and where that is itself a correction, of what that one was about.
///
/// # Errors
/// What `find` says.
pub(crate) fn struck<E>(
    held: &Held,
    mut find: impl FnMut(EntryId) -> Result<Option<Target>, E>,
) -> Result<Vec<&'static [Role]>, E> {
    let (mut next, mut roles) = (Target::of(held).about, Vec::new());
    for _ in 0..DEEPEST {
        let Some(target) = next.map(&mut find).transpose()?.flatten() else { break };
        roles.extend(target.roles);
        next = target.about;
    }
    Ok(roles)
}

/// Whether an entry is for somebody else to say than these people. `struck`: the roles of the words it decides about.
pub(crate) fn oversteps(people: &[&Known], held: &Held, struck: &[&'static [Role]]) -> Option<Overstep> {
    let Held::Known(entry) = held else { return None };
    let word = word(entry).and_then(|word| oversteps_by_word(people, &entry.job, word));
    let has = |roles: &&[Role]| people.iter().any(|known| known.roles.on(&entry.job, roles));
    word.or_else(|| (!struck.iter().all(has)).then_some(Overstep::Struck))
}

/// Whether none of these people may give a word: the role and the name have to be of the same one.
fn oversteps_by_word(people: &[&Known], job: &str, word: Word<'_>) -> Option<Overstep> {
    let mut with_role = people.iter().filter(|known| known.roles.on(job, word.roles)).peekable();
    if with_role.peek().is_none() {
        return Some(Overstep::Role);
    }
    let name = word.name?;
    let own = with_role.any(|known| known.person.signs(name));
    (!own).then(|| Overstep::Name(name.to_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;
    use store::{Person, Roles};
    use testkit::{JOB, Tablet, body};

    fn somebody(name: &str, role: Role) -> Known {
        let person = Person { number: 1, name: name.into(), chose: true, gone: None, signs_as: None };
        Known { person, roles: Roles(vec![(JOB.to_owned(), role)]) }
    }

    fn signed(name: &str, role: &str) -> Entry {
        Tablet::new(1).write("10:41", body("signed", &[("name", name), ("role", role)]))
    }

    #[track_caller]
    fn check(people: &[Known], entry: &Entry, expected: Option<Overstep>) {
        let people: Vec<&Known> = people.iter().collect();
        let found = word(entry).and_then(|word| oversteps_by_word(&people, &entry.job, word));
        assert_eq!(found, expected);
    }

    #[test]
    fn a_signature_is_taken_from_the_one_in_whose_name_it_stands() {
        let hall = || somebody("a.hall", Role::Inspector);
        check(&[hall()], &signed("A. Hall", "inspector"), None);
        check(&[hall()], &signed("B. Vane", "inspector"), Some(Overstep::Name("B. Vane".into())));
        check(&[hall()], &signed("A. Hall", "engineer"), Some(Overstep::Role));
        // The foreman has no name at the office and signs on the tablet of whoever is there.
        check(&[hall()], &signed("F. Reman", "contractor"), None);
    }

    /// The role of one and the name of another make no signature.
    #[test]
    fn role_and_name_are_of_the_same_person() {
        let both = [somebody("a.hall", Role::Inspector), somebody("i.vane", Role::Reviewer)];
        check(&both, &signed("A. Hall", "engineer"), Some(Overstep::Name("A. Hall".into())));
        check(&both, &signed("I. Vane", "engineer"), None);
    }

    /// Where no name stands in it, the author's counts.
    #[test]
    fn a_decision_is_of_whom_it_names_or_of_its_author() {
        let vane = || [somebody("i.vane", Role::Reviewer)];
        let decided = |by: Option<&str>, author: &str| {
            let mut fields = vec![("criterion", "c"), ("decision", "accepted"), ("reason", "r")];
            fields.extend(by.map(|by| ("by", by)));
            Tablet::new(1).by(author).write("10:41", body("finding_disposed", &fields))
        };
        check(&vane(), &decided(None, "I. Vane"), None);
        check(&vane(), &decided(None, "A. Hall"), Some(Overstep::Name("A. Hall".into())));
        check(&vane(), &decided(Some("I. Vane"), "A. Hall"), None);
        check(&vane(), &decided(Some("A. Hall"), "I. Vane"), Some(Overstep::Name("A. Hall".into())));
    }

    /// A signature, its strike-through, and the strike-through of that.
    #[test]
    fn who_strikes_a_word_through_needs_the_role_for_it_however_deep_it_lies() {
        let mut tablet = Tablet::new(1);
        let mut strike = |id: EntryId| {
            let id = id.to_string();
            tablet.write("10:50", body("correction", &[("replaces", &id), ("reason", "not so")]))
        };
        let signature = signed("I. Vane", "engineer");
        let once = strike(signature.id);
        let twice = strike(once.id);
        let held: BTreeMap<EntryId, Held> =
            [&signature, &once].map(|entry| (entry.id, Held::Known(entry.clone()))).into();
        let roles = |entry: &Entry| {
            let find = |id| Ok::<_, ()>(held.get(&id).map(Target::of));
            struck(&Held::Known(entry.clone()), find).expect("found")
        };
        let reviewer: &[Role] = &[Role::Reviewer];
        assert_eq!(roles(&signature), Vec::<&[Role]>::new());
        assert_eq!(roles(&once), [reviewer]);
        assert_eq!(roles(&twice), [reviewer]);
        let unknown = strike(EntryId([7; 32]));
        assert_eq!(roles(&unknown), Vec::<&[Role]>::new(), "what is not here cannot be judged");
    }
}
