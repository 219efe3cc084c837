//! The desk's side: what a push stores and answers, what a pull hands out.
//!
//! The server and the simulation run the same functions over their own `Shelf`, so that what is tried with
//! a thousand seeds is what runs in the office.
//!
//! Never: answer "stored" before `Shelf::keep` returned.

use record::{EntryId, Held};
use wire::http::{Code, JobState, LINE_BYTES_MAX, LineAnswer, PULL_LINES_MAX, Pushed, Refusal, State};
use wire::{LineFault, Reader};

/// Where the desk keeps entries.
pub trait Shelf {
    /// Why it could not.
    type Trouble;

    /// Keeps entries durably: when this returns they are on the disk. One answer an entry, in their order.
    /// An entry that comes twice in one call is stored once and known once.
    ///
    /// # Errors
    /// When nothing of it is kept.
    fn keep(&mut self, entries: Vec<Offered>) -> Result<Vec<Taken>, Self::Trouble>;

    /// The first entries of a job after a cursor, with their arrival numbers, in the order of arrival; at
    /// most `limit`.
    ///
    /// # Errors
    /// When it cannot be read.
    fn after(&mut self, job: &str, cursor: u64, limit: usize) -> Result<Vec<(u64, String)>, Self::Trouble>;

    /// How many entries of a job there are, and the arrival number of the last; zeros for none.
    ///
    /// # Errors
    /// When it cannot be read.
    fn state(&mut self, job: &str) -> Result<JobState, Self::Trouble>;

    /// The greatest arrival number of any job; 0: none.
    ///
    /// # Errors
    /// When it cannot be read.
    fn last(&mut self) -> Result<u64, Self::Trouble>;
}

/// What became of an entry that was offered to a shelf.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Taken {
    /// It is on the disk now.
    Stored,
    /// It was there, the same byte for byte.
    Known,
    /// Another content is there under its id.
    SameId,
}

/// An entry of a push, proved.
#[derive(Debug, Clone, PartialEq)]
pub struct Offered {
    /// What it is.
    pub held: Held,
    /// Its line, byte for byte.
    pub line: String,
}

/// A page of entries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// The lines.
    pub lines: Vec<String>,
    /// The cursor to ask after next: the arrival number of the last line. With no line: the one that was
    /// asked after, or the last of the job where that is less, by which a tablet notices a desk set back.
    pub cursor: u64,
    /// There is more.
    pub more: bool,
}

/// Takes a push in: every good line or, on trouble, none; a bad line refuses that line only.
///
/// # Errors
/// The shelf's trouble; nothing is answered then, and the tablets send it again.
pub fn push<S: Shelf>(shelf: &mut S, text: &str) -> Result<Pushed, S::Trouble> {
    let (offered, mut answers) = read(text);
    let good: Vec<usize> = (0..answers.len()).filter(|at| answers[*at].refusal.is_none()).collect();
    let taken = shelf.keep(offered)?;
    assert_eq!(taken.len(), good.len(), "a shelf answers for every entry");
    for (at, taken) in good.into_iter().zip(taken) {
        answer(&mut answers[at], taken);
    }
    Ok(Pushed { answers, cursor: shelf.last()? })
}

/// Reads the lines of a push and proves each: the good ones, and an answer a line, in which the good ones
/// are called known until `answer` is told better.
pub fn read(text: &str) -> (Vec<Offered>, Vec<LineAnswer>) {
    let (mut reader, mut offered) = (Reader::default(), Vec::new());
    let mut answers = Vec::new();
    let lines = text.split('\n').map(|line| line.strip_suffix('\r').unwrap_or(line));
    for (index, line) in lines.enumerate().filter(|(_, line)| !line.trim().is_empty()) {
        let read = if line.len() > LINE_BYTES_MAX {
            Err(too_large(line))
        } else {
            reader.read(line).map_err(|fault| refusal(&fault))
        };
        let (id, refusal) = match read {
            Ok(held) => {
                let id = held.id();
                offered.push(Offered { held, line: line.to_owned() });
                (Some(id), None)
            }
            Err(refusal) => (claimed(line), Some(refusal)),
        };
        let state = if refusal.is_some() { State::Refused } else { State::Known };
        answers.push(LineAnswer { id, line: index + 1, state, refusal, notice: None });
    }
    (offered, answers)
}

/// Tells an answer what became of its entry.
pub fn answer(answer: &mut LineAnswer, taken: Taken) {
    answer.state = match taken {
        Taken::Stored => State::Stored,
        Taken::Known => State::Known,
        Taken::SameId => State::Refused,
    };
    if taken == Taken::SameId {
        let id = answer.id.map(|id| id.short()).unwrap_or_default();
        let what = format!("The desk holds another content under the id {id}.");
        answer.refusal = Some(Refusal::new(Code::SAME_ID, what));
    }
}

/// The refusal of a line that is no entry.
fn refusal(fault: &LineFault) -> Refusal {
    Refusal::new(Code::of_fault(fault), format!("This line is no entry: {fault}."))
}

fn too_large(line: &str) -> Refusal {
    let what = format!("The entry is {} bytes long; at most {LINE_BYTES_MAX} are taken in.", line.len());
    Refusal::new(Code::LINE_TOO_LARGE, what)
}

/// The id a refused line claims, so that the tablet finds the entry it sent.
fn claimed(line: &str) -> Option<EntryId> {
    let at = line.find(r#""id":""#)? + r#""id":""#.len();
    EntryId::from_hex(line.get(at..at + 64)?)
}

/// A page of a job's entries after a cursor.
///
/// # Errors
/// The shelf's trouble.
pub fn pull<S: Shelf>(shelf: &mut S, job: &str, after: u64, limit: usize) -> Result<Page, S::Trouble> {
    let limit = limit.clamp(1, PULL_LINES_MAX);
    let mut found = shelf.after(job, after, limit + 1)?;
    let more = found.len() > limit;
    found.truncate(limit);
    let cursor = match found.last() {
        Some((arrival, _)) => *arrival,
        None => after.min(shelf.state(job)?.cursor),
    };
    Ok(Page { lines: found.into_iter().map(|(_, line)| line).collect(), cursor, more })
}
