//! People in SQLite.

use super::{Known, People, Person, Span};
use crate::error::StoreError;
use crate::office::hidden;
use crate::role::{Role, Roles};
use crate::sqlite::Sqlite;
use rusqlite::{Connection, OptionalExtension, Row, TransactionBehavior, params};

const PERSON: &str = "person.number, person.name, person.secret IS NOT NULL, person.gone";

fn person(row: &Row<'_>) -> rusqlite::Result<Person> {
    Ok(Person { number: row.get(0)?, name: row.get(1)?, chose: row.get(2)?, gone: row.get(3)? })
}

/// The roles of a person; one who was let go has none.
fn known(connection: &Connection, person: Person) -> Result<Known, StoreError> {
    let question = "SELECT job, role FROM role WHERE person = ?1 ORDER BY job, role";
    let mut statement = connection.prepare_cached(question)?;
    let mut rows = statement.query([person.number])?;
    let mut roles = Roles::default();
    while let Some(row) = rows.next()? {
        // A role of a newer program gives no right here.
        let role = Role::named(&row.get::<_, String>(1)?).filter(|_| person.gone.is_none());
        let job: String = row.get(0)?;
        roles.0.extend(role.map(|role| (job, role)));
    }
    Ok(Known { person, roles })
}

impl People for Sqlite {
    fn has_people(&self) -> Result<bool, StoreError> {
        let mut statement = self.connection.prepare_cached("SELECT EXISTS (SELECT 1 FROM person)")?;
        Ok(statement.query_row([], |row| row.get(0))?)
    }

    fn add_person(&mut self, name: &str, now: i64) -> Result<i64, StoreError> {
        let add = "INSERT INTO person (name, since) VALUES (?1, ?2) ON CONFLICT (name) DO NOTHING";
        self.connection.execute(add, params![name, now])?;
        let question = "SELECT number FROM person WHERE name = ?1";
        Ok(self.connection.query_row(question, [name], |row| row.get(0))?)
    }

    fn person(&self, number: i64) -> Result<Option<Known>, StoreError> {
        let question = format!("SELECT {PERSON} FROM person WHERE number = ?1");
        let found = self.connection.prepare_cached(&question)?.query_row([number], person).optional()?;
        found.map(|person| known(&self.connection, person)).transpose()
    }

    fn person_named(&self, name: &str) -> Result<Option<(Person, Option<String>)>, StoreError> {
        let question = format!("SELECT {PERSON}, person.secret FROM person WHERE name = ?1");
        let mut statement = self.connection.prepare_cached(&question)?;
        Ok(statement.query_row([name], |row| Ok((person(row)?, row.get(4)?))).optional()?)
    }

    fn people_on(&self, job: &str) -> Result<Vec<Known>, StoreError> {
        let question = format!(
            "SELECT {PERSON} FROM person WHERE ?1 = '' OR number IN (SELECT person FROM role WHERE job = ?1)
             ORDER BY name"
        );
        let mut statement = self.connection.prepare_cached(&question)?;
        let found: Vec<Person> = statement.query_map([job], person)?.collect::<Result<_, _>>()?;
        found.into_iter().map(|person| known(&self.connection, person)).collect()
    }

    fn give_role(&mut self, person: i64, job: &str, role: Role) -> Result<(), StoreError> {
        let give = "INSERT INTO role (person, job, role) VALUES (?1, ?2, ?3) ON CONFLICT DO NOTHING";
        self.connection.execute(give, params![person, job, role.word()])?;
        Ok(())
    }

    fn take_role(&mut self, person: i64, job: &str, role: Role) -> Result<bool, StoreError> {
        let take = "DELETE FROM role WHERE person = ?1 AND job = ?2 AND role = ?3";
        Ok(self.connection.execute(take, params![person, job, role.word()])? > 0)
    }

    fn let_person_go(&mut self, person: i64, now: i64) -> Result<bool, StoreError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let go = "UPDATE person SET gone = ?2 WHERE number = ?1 AND gone IS NULL";
        let went = transaction.execute(go, params![person, now])? > 0;
        transaction.execute("DELETE FROM session WHERE person = ?1", [person])?;
        transaction.execute("DELETE FROM invitation WHERE person = ?1", [person])?;
        transaction.execute("DELETE FROM pairing_code WHERE person = ?1", [person])?;
        let devices = "UPDATE device SET gone = ?2 WHERE person = ?1 AND gone IS NULL";
        transaction.execute(devices, params![person, now])?;
        transaction.commit()?;
        Ok(went)
    }

    fn invite(&mut self, person: i64, code: &str, until: i64) -> Result<(), StoreError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute("DELETE FROM invitation WHERE person = ?1", [person])?;
        let keep = "INSERT INTO invitation (code, person, until) VALUES (?1, ?2, ?3)";
        transaction.execute(keep, params![hidden(code), person, until])?;
        transaction.execute("UPDATE person SET gone = NULL WHERE number = ?1", [person])?;
        Ok(transaction.commit()?)
    }

    fn use_invitation(&mut self, code: &str, secret: &str, now: i64) -> Result<Option<Person>, StoreError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let used = "DELETE FROM invitation WHERE code = ?1 AND until > ?2 RETURNING person";
        let found: Option<i64> =
            transaction.query_row(used, params![hidden(code), now], |row| row.get(0)).optional()?;
        let Some(number) = found else { return Ok(None) };
        transaction.execute("UPDATE person SET secret = ?2 WHERE number = ?1", params![number, secret])?;
        transaction.execute("DELETE FROM session WHERE person = ?1", [number])?;
        let question = format!("SELECT {PERSON} FROM person WHERE number = ?1");
        let invited = transaction.query_row(&question, [number], person)?;
        transaction.commit()?;
        Ok(Some(invited))
    }

    fn set_secret(&mut self, person: i64, secret: &str) -> Result<(), StoreError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute("UPDATE person SET secret = ?2 WHERE number = ?1", params![person, secret])?;
        transaction.execute("DELETE FROM session WHERE person = ?1", [person])?;
        Ok(transaction.commit()?)
    }

    fn begin_session(&mut self, person: i64, token: &str, span: Span) -> Result<(), StoreError> {
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        transaction.execute("DELETE FROM session WHERE until <= ?1", [span.from])?;
        let keep = "INSERT INTO session (token, person, seen, until) VALUES (?1, ?2, ?3, ?4)";
        transaction.execute(keep, params![hidden(token), person, span.from, span.until])?;
        Ok(transaction.commit()?)
    }

    fn session(&self, token: &str, idle: i64, now: i64) -> Result<Option<(Known, i64)>, StoreError> {
        let question = format!(
            "SELECT {PERSON}, session.seen FROM session JOIN person ON person.number = session.person
             WHERE token = ?1 AND seen > ?2 AND until > ?3 AND gone IS NULL"
        );
        let mut statement = self.connection.prepare_cached(&question)?;
        let values = params![hidden(token), idle, now];
        let found: Option<(Person, i64)> =
            statement.query_row(values, |row| Ok((person(row)?, row.get(4)?))).optional()?;
        found.map(|(person, seen)| Ok((known(&self.connection, person)?, seen))).transpose()
    }

    fn see_session(&mut self, token: &str, now: i64) -> Result<(), StoreError> {
        self.connection
            .execute("UPDATE session SET seen = ?2 WHERE token = ?1", params![hidden(token), now])?;
        Ok(())
    }

    fn end_session(&mut self, token: &str) -> Result<(), StoreError> {
        self.connection.execute("DELETE FROM session WHERE token = ?1", [hidden(token)])?;
        Ok(())
    }
}
