//! People in whatever database.

use super::{Known, Left, People, Person, Removal, Span};
use crate::error::StoreError;
use crate::office::hidden;
use crate::role::{EVERY_JOB, Role, Roles};
use crate::sql::{Columns, Sql, Told, Value, one, rows, written};

const PERSON: &str = "person.number, person.name, person.secret IS NOT NULL, person.gone, person.signs_as";

/// How many columns that are.
const COLUMNS: usize = 5;

fn person(row: &dyn Columns) -> Result<Person, StoreError> {
    let (number, name, chose) = (row.number(0)?, row.text(1)?, row.flag(2)?);
    Ok(Person { number, name, chose, gone: row.maybe_number(3)?, signs_as: row.maybe_text(4)? })
}

/// The roles of a person; one who was let go has none.
fn known(sql: &dyn Sql, person: Person) -> Result<Known, StoreError> {
    let question = "SELECT job, role FROM role WHERE person = ?1 ORDER BY job, role";
    let mut roles = Roles::default();
    sql.each(question, &[person.number.into()], &mut |row| {
        // A role of a newer program gives no right here.
        let role = Role::named(&row.text(1)?).filter(|_| person.gone.is_none());
        let job = row.text(0)?;
        roles.0.extend(role.map(|role| (job, role)));
        Ok(true)
    })?;
    Ok(Known { person, roles })
}

fn numbered(sql: &dyn Sql, number: i64) -> Result<Option<Person>, StoreError> {
    one(sql, &format!("SELECT {PERSON} FROM person WHERE number = ?1"), &[number.into()], person)
}

/// Everybody with a role on a job; of every job: everybody.
fn on(sql: &dyn Sql, job: &str) -> Result<Vec<Person>, StoreError> {
    if job.is_empty() {
        return rows(sql, &format!("SELECT {PERSON} FROM person ORDER BY name"), &[], person);
    }
    let question = format!(
        "SELECT {PERSON} FROM person WHERE number IN (SELECT person FROM role WHERE job = ?1) ORDER BY name"
    );
    rows(sql, &question, &[job.into()], person)
}

impl<D: Sql> People for D {
    fn has_people(&self) -> Result<bool, StoreError> {
        let found = one(self, "SELECT EXISTS (SELECT 1 FROM person)", &[], |row| row.flag(0))?;
        Ok(found.unwrap_or(false))
    }

    fn add_person(&mut self, name: &str, now: i64) -> Result<i64, StoreError> {
        let add = "INSERT INTO person (name, since) VALUES (?1, ?2) ON CONFLICT (name) DO NOTHING";
        self.run(add, &[name.into(), now.into()])?;
        let found =
            one(self, "SELECT number FROM person WHERE name = ?1", &[name.into()], |row| row.number(0));
        found?.ok_or_else(|| StoreError::Damaged(format!("the person {name} was added and is not there")))
    }

    fn sign_as(&mut self, person: i64, name: Option<&str>) -> Result<(), StoreError> {
        let keep = "UPDATE person SET signs_as = ?2 WHERE number = ?1";
        self.run(keep, &[person.into(), name.into()]).map(drop)
    }

    fn person(&self, number: i64) -> Result<Option<Known>, StoreError> {
        numbered(self, number)?.map(|person| known(self, person)).transpose()
    }

    fn person_named(&self, name: &str) -> Result<Option<(Person, Option<String>)>, StoreError> {
        let question = format!("SELECT {PERSON}, person.secret FROM person WHERE name = ?1");
        one(self, &question, &[name.into()], |row| Ok((person(row)?, row.maybe_text(COLUMNS)?)))
    }

    fn people_on(&self, job: &str) -> Result<Vec<Known>, StoreError> {
        on(self, job)?.into_iter().map(|person| known(self, person)).collect()
    }

    fn give_role(&mut self, person: i64, job: &str, role: Role) -> Result<(), StoreError> {
        let give = "INSERT INTO role (person, job, role) VALUES (?1, ?2, ?3) ON CONFLICT DO NOTHING";
        written(self, || {
            self.tell(Told::Rights)?;
            self.run(give, &[person.into(), job.into(), role.word().into()]).map(drop)
        })
    }

    fn take_role(&mut self, person: i64, job: &str, role: Role) -> Result<Removal, StoreError> {
        let take = "DELETE FROM role WHERE person = ?1 AND job = ?2 AND role = ?3";
        written(self, || {
            if (job, role) == (EVERY_JOB, Role::Manager) && is_last_manager(self, person)? {
                return Ok(Removal::LastManager);
            }
            self.tell(Told::Rights)?;
            Ok(removal(self.run(take, &[person.into(), job.into(), role.word().into()])?))
        })
    }

    fn let_person_go(&mut self, person: i64, now: i64, left: Left) -> Result<Removal, StoreError> {
        let go = "UPDATE person SET gone = ?2 WHERE number = ?1 AND gone IS NULL";
        let devices = "UPDATE device SET gone = ?2 WHERE person = ?1 AND gone IS NULL";
        written(self, || {
            if left == Left::AManager && is_last_manager(self, person)? {
                return Ok(Removal::LastManager);
            }
            let went = removal(self.run(go, &[person.into(), now.into()])?);
            self.run("DELETE FROM session WHERE person = ?1", &[person.into()])?;
            self.run("DELETE FROM invitation WHERE person = ?1", &[person.into()])?;
            self.run("DELETE FROM pairing_code WHERE person = ?1", &[person.into()])?;
            self.run("DELETE FROM passkey WHERE person = ?1", &[person.into()])?;
            self.run(devices, &[person.into(), now.into()])?;
            self.tell(Told::Rights)?;
            Ok(went)
        })
    }

    fn invite(&mut self, person: i64, code: &str, until: i64) -> Result<(), StoreError> {
        let code = hidden(code);
        let keep = "INSERT INTO invitation (code, person, until) VALUES (?1, ?2, ?3)";
        written(self, || {
            self.run("DELETE FROM invitation WHERE person = ?1", &[person.into()])?;
            self.run(keep, &[Value::from(&code), person.into(), until.into()])?;
            self.run("UPDATE person SET gone = NULL WHERE number = ?1", &[person.into()]).map(drop)
        })
    }

    fn use_invitation(&mut self, code: &str, secret: &str, now: i64) -> Result<Option<Person>, StoreError> {
        let code = hidden(code);
        let used = "DELETE FROM invitation WHERE code = ?1 AND until > ?2 RETURNING person";
        written(self, || {
            let found = one(self, used, &[Value::from(&code), now.into()], |row| row.number(0))?;
            let Some(number) = found else { return Ok(None) };
            new_secret(self, number, secret)?;
            self.run("DELETE FROM passkey WHERE person = ?1", &[number.into()])?;
            numbered(self, number)
        })
    }

    fn set_secret(&mut self, person: i64, secret: &str) -> Result<(), StoreError> {
        written(self, || new_secret(self, person, secret))
    }

    fn begin_session(&mut self, person: i64, token: &str, span: Span) -> Result<(), StoreError> {
        let token = hidden(token);
        let keep = "INSERT INTO session (token, person, seen, until) VALUES (?1, ?2, ?3, ?4)";
        written(self, || {
            self.run("DELETE FROM session WHERE until <= ?1", &[span.from.into()])?;
            let values = [Value::from(&token), person.into(), span.from.into(), span.until.into()];
            self.run(keep, &values).map(drop)
        })
    }

    fn session(&self, token: &str, idle: i64, now: i64) -> Result<Option<(Known, i64)>, StoreError> {
        let question = format!(
            "SELECT {PERSON}, session.seen FROM session JOIN person ON person.number = session.person
             WHERE token = ?1 AND seen > ?2 AND until > ?3 AND gone IS NULL"
        );
        let token = hidden(token);
        let values = [Value::from(&token), idle.into(), now.into()];
        let found = one(self, &question, &values, |row| Ok((person(row)?, row.number(COLUMNS)?)))?;
        found.map(|(person, seen)| Ok((known(self, person)?, seen))).transpose()
    }

    fn see_session(&mut self, token: &str, now: i64) -> Result<(), StoreError> {
        let see = "UPDATE session SET seen = ?2 WHERE token = ?1";
        self.run(see, &[Value::from(&hidden(token)), now.into()]).map(drop)
    }

    fn end_session(&mut self, token: &str) -> Result<(), StoreError> {
        self.run("DELETE FROM session WHERE token = ?1", &[Value::from(&hidden(token))]).map(drop)
    }
}

/// Keeps what is kept of a new password; open sessions of that person end.
fn new_secret(sql: &dyn Sql, person: i64, secret: &str) -> Result<(), StoreError> {
    sql.run("UPDATE person SET secret = ?2 WHERE number = ?1", &[person.into(), secret.into()])?;
    sql.run("DELETE FROM session WHERE person = ?1", &[person.into()]).map(drop)
}

fn removal(rows: u64) -> Removal {
    if rows > 0 { Removal::Done } else { Removal::NotThere }
}

/// Whether a person manages the office, and nobody else does who comes in. One who was invited and has not come yet may
/// never come, and is nobody here.
fn is_last_manager(sql: &dyn Sql, number: i64) -> Result<bool, StoreError> {
    let question = format!(
        "SELECT {PERSON} FROM role JOIN person ON person.number = role.person
         WHERE role.job = ?1 AND role.role = ?2 AND person.gone IS NULL"
    );
    let managers = rows(sql, &question, &[EVERY_JOB.into(), Role::Manager.word().into()], person)?;
    let other = managers.iter().any(|manager| manager.number != number && manager.chose);
    Ok(!other && managers.iter().any(|manager| manager.number == number))
}
