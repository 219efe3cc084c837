//! `people`: who may sign in to an office. The first person is added here, on the machine of the office, and the way back
//! in for one who lost a password is here too.
//!
//! Never: take a password; print a secret twice.

use super::pair::ADDRESS;
use crate::args::PeopleVerb;
use crate::folder::{is_job, no_record};
use crate::place;
use crate::problem::Problem;
use crate::screen::Screen;
use serde_json::json;
use server::invitation_secret;
use std::path::Path;
use store::{
    Database, EVERY_JOB, Known, Left, Office, People, Removal, Role, SignIn, SignIns, StoreError,
    name_of_person, name_to_sign_with,
};

/// How long an invitation serves.
const SERVES_SECONDS: i64 = 7 * 24 * 60 * 60;

/// What it means when nothing was done.
const NOBODY: &str = "Nobody was added or let go, and nothing else was changed.";

pub(crate) fn run(what: &PeopleVerb, screen: &mut Screen) -> Result<(), Problem> {
    match what {
        PeopleVerb::Add { .. } => add(what, screen),
        PeopleVerb::List { folder, json } => list(folder, *json, screen),
        PeopleVerb::LetGo { folder, name, even_the_last } => {
            let left = if *even_the_last { Left::MaybeNobody } else { Left::AManager };
            let_go(folder, (name, left), screen)
        }
    }
}

/// Opens the office, and whatever goes wrong with it is told as a problem of that record.
fn with<T>(folder: &Path, work: impl FnOnce(&mut Database) -> Result<T, StoreError>) -> Result<T, Problem> {
    if !is_job(folder) {
        return Err(no_record(folder));
    }
    let address = place::of(folder)?;
    let wrong = |error: StoreError| Problem::store(&address, &error);
    work(&mut Database::open(&address).map_err(wrong)?).map_err(wrong)
}

/// Who is added, and as what.
struct Added {
    name: String,
    role: Option<Role>,
    on: String,
    signs_as: Option<String>,
    secret: String,
    now: i64,
}

fn add(what: &PeopleVerb, screen: &mut Screen) -> Result<(), Problem> {
    let PeopleVerb::Add { folder, name, role, on, signs_as, reached_at, json } = what else { return Ok(()) };
    let role = role.as_deref().map(role_named).transpose()?;
    let added = Added {
        name: valid(name)?,
        role,
        on: on.clone().unwrap_or_default(),
        signs_as: signs_as.as_deref().map(signed).transpose()?,
        secret: drawn()?,
        now: crate::now::now(None)?.seconds(),
    };
    let (kept, first) = with(folder, |store| Ok((store.setting(ADDRESS)?, put(store, &added)?)))?;
    let address = reached_at.clone().or(kept);
    let address = address.as_deref().unwrap_or("http://127.0.0.1:7420").trim_end_matches('/');
    let link = format!("{address}/people/invited#{}", added.secret);
    if *json {
        screen.json(&json!({ "name": added.name, "link": link, "first": first }));
        return Ok(());
    }
    screen.line(&format!("Invitation of {}", screen.style().bold(&added.name)));
    screen.say(&link);
    screen.gap();
    screen.say("It serves once, for seven days: whoever opens it chooses the password of that name.");
    if first {
        let on = "People are switched on from here on. Devices paired before belong to nobody: each is paired again, \
            with a code its holder makes after signing in. What they hold waits on them.";
        screen.say(on);
    }
    Ok(())
}

/// Adds the person with the role and the invitation; whether it is the first one.
fn put(store: &mut Database, added: &Added) -> Result<bool, StoreError> {
    let first = !store.has_people()?;
    let number = store.add_person(&added.name, added.now)?;
    let role = added.role.or(first.then_some(Role::Manager));
    if let Some(role) = role {
        store.give_role(number, &added.on, role)?;
    }
    if let Some(name) = &added.signs_as {
        store.sign_as(number, Some(name))?;
    }
    store.invite(number, &added.secret, added.now + SERVES_SECONDS)?;
    store.note_sign_in(&noted(added.now, "invited", &added.name))?;
    Ok(first)
}

fn noted(at: i64, what: &str, name: &str) -> SignIn {
    let about = "on the machine of the office".to_owned();
    SignIn { at, what: what.to_owned(), person: Some(name.to_owned()), address: String::new(), about }
}

fn valid(name: &str) -> Result<String, Problem> {
    name_of_person(name).ok_or_else(|| {
        let what = format!("`{name}` is no name to sign in with.");
        Problem::new(what, NOBODY, "Use 1 to 60 letters, digits and the signs . - _ @, without spaces.")
    })
}

fn signed(name: &str) -> Result<String, Problem> {
    name_to_sign_with(name).ok_or_else(|| {
        let what = format!("`{name}` is no name to sign with.");
        Problem::new(what, NOBODY, "Use 1 to 120 characters in one line, with a letter among them.")
    })
}

fn role_named(word: &str) -> Result<Role, Problem> {
    Role::named(word).ok_or_else(|| {
        let known: Vec<&str> = Role::ALL.iter().map(|role| role.word()).collect();
        let what = format!("`{word}` is no role.");
        Problem::new(what, NOBODY, format!("Use one of {}.", known.join(", ")))
    })
}

fn drawn() -> Result<String, Problem> {
    invitation_secret().map_err(|error| {
        Problem::new(format!("This machine gave no random bytes: {error}."), NOBODY, "Try again.")
    })
}

fn list(folder: &Path, json: bool, screen: &mut Screen) -> Result<(), Problem> {
    let people = with(folder, |store| store.people_on(EVERY_JOB))?;
    if json {
        let rows: Vec<_> = people.iter().map(row).collect();
        screen.json(&json!({ "people": rows }));
        return Ok(());
    }
    if people.is_empty() {
        screen.say("There are no people: devices are paired at the desk, and nobody signs in.");
    }
    for known in &people {
        screen.line(&screen.style().bold(&known.person.known_as()));
        screen.say(state(known));
        for (job, role) in &known.roles.0 {
            let on = if job == EVERY_JOB { "every job" } else { job };
            screen.say(&format!("{} on {on}", role.spoken()));
        }
    }
    Ok(())
}

fn row(known: &Known) -> serde_json::Value {
    let roles: Vec<_> =
        known.roles.0.iter().map(|(job, role)| json!({ "job": job, "role": role.word() })).collect();
    let signs_as = known.person.signs_as.as_deref();
    json!({ "name": known.person.name, "signs_as": signs_as, "state": state(known), "roles": roles })
}

fn state(known: &Known) -> &'static str {
    match (known.person.gone.is_some(), known.person.chose) {
        (true, _) => "let go",
        (false, false) => "invited, has not come yet",
        (false, true) => "comes in",
    }
}

fn let_go(folder: &Path, (name, left): (&str, Left), screen: &mut Screen) -> Result<(), Problem> {
    let name = valid(name)?;
    let now = crate::now::now(None)?.seconds();
    let (went, managed) = with(folder, |store| {
        let Some((person, _)) = store.person_named(&name)? else { return Ok((Removal::NotThere, true)) };
        let went = store.let_person_go(person.number, now, left)?;
        if went == Removal::Done {
            store.note_sign_in(&noted(now, "person-let-go", &name))?;
        }
        Ok((went, is_managed(&store.people_on(EVERY_JOB)?)))
    })?;
    match went {
        Removal::Done => {}
        Removal::NotThere => return Err(nobody_called(&name)),
        Removal::LastManager => return Err(the_last(&name)),
    }
    screen.say(&format!("{name} is let go, with every device. What they bring from now on is set aside."));
    if !managed {
        screen.say(
            "Nobody manages the office now. shaftbook people add FOLDER NAME --role manager makes a manager.",
        );
    }
    Ok(())
}

/// Somebody manages the office and comes in.
fn is_managed(people: &[Known]) -> bool {
    people.iter().any(|known| known.person.chose && known.roles.everywhere(&[Role::Manager]))
}

fn nobody_called(name: &str) -> Problem {
    let what = format!("There is nobody called {name} to let go.");
    Problem::new(what, NOBODY, "shaftbook people list FOLDER names everybody.")
}

fn the_last(name: &str) -> Problem {
    let next = "Make another manager first, shaftbook people add FOLDER NAME --role manager, and let that person come in \
        once. Or say --even-the-last: then nobody manages the office until you make somebody.";
    Problem::new(format!("Nobody but {name} manages the office and comes in."), NOBODY, next)
}
