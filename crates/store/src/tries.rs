//! Wrong tries at a door: how often and when last, under a word for who tried.
//!
//! They stand here and not in the memory of a program: several servers may share a database, and one that is started again does
//! not forget.
//!
//! Words: *who* = whatever is counted together, a word made by whoever counts; *tally* = what was counted of it.
//! Never: know how long somebody has to wait.

use crate::error::StoreError;
use crate::sql::{Sql, Value, one, written};

/// Under this word the tries at pairing codes are counted together. A new code begins the count anew.
pub const CODES: &str = "codes";

/// What was counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tally {
    /// Wrong tries in a row.
    pub tries: u32,
    /// When the last one was, seconds since 1970.
    pub last: i64,
}

/// A place that counts.
pub trait Tries {
    /// What was counted of somebody; `None`: nothing, or it lapsed before `now`.
    ///
    /// # Errors
    /// When the store cannot be read.
    fn tally(&self, who: &str, now: i64) -> Result<Option<Tally>, StoreError>;

    /// Counts a wrong try, to `most` in all. `span` is now, and until when it is remembered; one that lies as far behind counts no
    /// longer. How many there are.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn count_wrong(&mut self, who: &str, span: (i64, i64), most: u32) -> Result<u32, StoreError>;

    /// Somebody is known, with no wrong try. `span` is now, and until when.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn know(&mut self, who: &str, span: (i64, i64)) -> Result<(), StoreError>;

    /// Nothing counts against somebody any more.
    ///
    /// # Errors
    /// When the store cannot be written.
    fn forget_tries(&mut self, who: &str) -> Result<(), StoreError>;
}

impl<D: Sql> Tries for D {
    fn tally(&self, who: &str, now: i64) -> Result<Option<Tally>, StoreError> {
        let question = "SELECT tries, last FROM wrong_try WHERE who = ?1 AND until > ?2";
        one(self, question, &[who.into(), now.into()], |row| {
            Ok(Tally { tries: row.number(0)?.try_into().unwrap_or(u32::MAX), last: row.number(1)? })
        })
    }

    fn count_wrong(&mut self, who: &str, (now, until): (i64, i64), most: u32) -> Result<u32, StoreError> {
        let count = "INSERT INTO wrong_try (who, tries, last, until) VALUES (?1, 1, ?2, ?3)
            ON CONFLICT (who) DO UPDATE SET last = ?2,
                until = CASE WHEN wrong_try.until > ?3 THEN wrong_try.until ELSE ?3 END,
                tries = CASE WHEN wrong_try.last <= ?4 THEN 1 WHEN wrong_try.tries < ?5 THEN wrong_try.tries + 1
                    ELSE wrong_try.tries END
            RETURNING tries";
        written(self, || {
            self.run("DELETE FROM wrong_try WHERE until <= ?1", &[now.into()])?;
            let lapsed = now.saturating_sub(until.saturating_sub(now));
            let values = [Value::from(who), now.into(), until.into(), lapsed.into(), i64::from(most).into()];
            let tries = one(self, count, &values, |row| row.number(0))?;
            Ok(tries.and_then(|tries| tries.try_into().ok()).unwrap_or(u32::MAX))
        })
    }

    fn know(&mut self, who: &str, (now, until): (i64, i64)) -> Result<(), StoreError> {
        let know = "INSERT INTO wrong_try (who, tries, last, until) VALUES (?1, 0, ?2, ?3)
            ON CONFLICT (who) DO UPDATE SET tries = 0, last = ?2, until = ?3";
        self.run(know, &[who.into(), now.into(), until.into()]).map(drop)
    }

    fn forget_tries(&mut self, who: &str) -> Result<(), StoreError> {
        self.run("DELETE FROM wrong_try WHERE who = ?1", &[who.into()]).map(drop)
    }
}
