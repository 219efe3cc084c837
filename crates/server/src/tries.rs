//! How much guessing the doors bear: wrong codes, wrong names and passwords.
//!
//! Wrong tries are counted by the database (`store::Tries`), so that several servers count as one and a new start forgets nothing.
//! Here stands what follows from the count: five are free, then whoever guesses waits a minute, and twice as long after each
//! further one.
//!
//! Words: *try* = a wrong code, or a wrong name or password, that somebody sent.
//! Never: keep a name that somebody typed (people type passwords into the wrong field).

use crate::rate::Who;
use std::time::Duration;
use store::{CODES, Database, StoreError, Tally, Tries};

/// Wrong tries somebody has before waiting.
const FREE: u32 = 5;

/// Wrong codes from everywhere together, after which every code is taken away.
const CODES_MOST: u32 = 40;

/// The first wait, seconds, doubled with every further wrong try.
const WAIT: i64 = 60;

/// The longest wait of an address, seconds. Tries that lie as far behind count no longer.
const WAIT_MOST: i64 = 60 * 60;

/// The longest a name waits, seconds, so that nobody is kept out for long by somebody else.
const NAME_WAIT_MOST: i64 = 10 * 60;

/// How long an address is known for a name that came in from it, seconds.
const KNOWN_FOR: i64 = 30 * 24 * 60 * 60;

/// Whose tries are counted together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Tried {
    /// Everybody at an address.
    At(Who),
    /// Everybody who gives a name, from wherever.
    Name(String),
    /// Whoever gives a name at an address it came in from before: counted apart, so that a stranger's wrong tries from elsewhere
    /// do not keep that person out.
    Known(String, Who),
}

impl Tried {
    /// The word the database counts under.
    fn word(&self) -> String {
        match self {
            Tried::At(who) => at(*who),
            Tried::Name(name) => named(name),
            Tried::Known(name, who) => format!("{} {}", named(name), at(*who)),
        }
    }

    /// The longest it waits, seconds.
    fn wait_most(&self) -> i64 {
        match self {
            Tried::At(_) => WAIT_MOST,
            Tried::Name(_) | Tried::Known(..) => NAME_WAIT_MOST,
        }
    }
}

fn at(who: Who) -> String {
    match who {
        Who::Device(number) => format!("device {number}"),
        Who::Address(address) => format!("at {address}"),
    }
}

/// Enough of a hash to count by, too little to tell by it what was typed.
fn named(name: &str) -> String {
    let [first, second, third, ..] = wire::sha256(name.as_bytes());
    format!("name {first:02x}{second:02x}{third:02x}")
}

/// How long somebody still has to wait at `now` before the next try, the longest of these; `None`: not at all.
pub(crate) fn wait(store: &Database, tried: &[Tried], now: i64) -> Result<Option<Duration>, StoreError> {
    let mut longest = None;
    for one in tried {
        let tally = store.tally(&one.word(), now)?;
        longest = longest.max(tally.and_then(|tally| left(tally, now, one.wait_most())));
    }
    Ok(longest)
}

fn left(Tally { tries, last }: Tally, now: i64, most: i64) -> Option<Duration> {
    let doubled = tries.checked_sub(FREE)?;
    let wait = WAIT.saturating_mul(2_i64.saturating_pow(doubled)).min(most);
    let left = wait - now.saturating_sub(last).max(0);
    u64::try_from(left).ok().filter(|left| *left > 0).map(Duration::from_secs)
}

/// Counts a wrong try of each, unless one of them has to wait: then how long, and nothing is counted.
///
/// Whoever calls this before looking whether the try is right has many at once counted too.
pub(crate) fn count(store: &mut Database, tried: &[Tried], now: i64) -> Result<Option<Duration>, StoreError> {
    let longest = wait(store, tried, now)?;
    if longest.is_none() {
        for one in tried {
            store.count_wrong(&one.word(), (now, now + WAIT_MOST), counted_most(one))?;
        }
    }
    Ok(longest)
}

/// So many tries in a row make the longest wait; more of them would make it no longer.
fn counted_most(tried: &Tried) -> u32 {
    let doublings = (0..).find(|doubled| WAIT << doubled >= tried.wait_most());
    FREE + doublings.unwrap_or(0)
}

/// Counts a wrong code. Whether there were so many from everywhere that every code has to be taken away.
pub(crate) fn wrong_code(store: &mut Database, who: Who, now: i64) -> Result<bool, StoreError> {
    count(store, &[Tried::At(who)], now)?;
    Ok(store.count_wrong(CODES, (now, now + WAIT_MOST), u32::MAX)? >= CODES_MOST)
}

/// The tries of a name at an address: apart where it came in from there before.
pub(crate) fn of_name(store: &Database, name: &str, who: Who, now: i64) -> Result<Tried, StoreError> {
    let known = Tried::Known(name.to_owned(), who);
    let is_known = store.tally(&known.word(), now)?.is_some();
    Ok(if is_known { known } else { Tried::Name(name.to_owned()) })
}

/// It was right: nothing counts any more.
pub(crate) fn right(store: &mut Database, tried: &[Tried]) -> Result<(), StoreError> {
    tried.iter().try_for_each(|one| store.forget_tries(&one.word()))
}

/// A name came in from an address: it is known there from now on.
pub(crate) fn came_in(store: &mut Database, name: &str, who: Who, now: i64) -> Result<(), StoreError> {
    store.know(&Tried::Known(name.to_owned(), who).word(), (now, now + KNOWN_FOR))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::net::{IpAddr, Ipv4Addr};
    use store::Address;

    const START: i64 = 1_000_000;

    fn who(last: u8) -> Who {
        Who::at(IpAddr::V4(Ipv4Addr::new(192, 0, 2, last)))
    }

    fn store(folder: &tempfile::TempDir) -> Database {
        Database::open(&Address::of_file(&folder.path().join(store::DATABASE))).expect("a store")
    }

    /// Counts wrong tries without looking whether somebody has to wait, as many at once do.
    fn wrong(store: &mut Database, tried: &Tried, times: u32) {
        for _ in 0..times {
            let most = counted_most(tried);
            store.count_wrong(&tried.word(), (START, START + WAIT_MOST), most).expect("counted");
        }
    }

    #[track_caller]
    fn check(store: &Database, tried: &Tried, after: i64, seconds: Option<u64>) {
        let waits = wait(store, std::slice::from_ref(tried), START + after);
        assert_eq!(waits.expect("read"), seconds.map(Duration::from_secs));
    }

    /// Five tries are free, the sixth waits a minute, each wrong one after that twice as long, an hour at most.
    #[test]
    fn guessing_is_slowed_more_and_more() {
        let folder = tempfile::tempdir().expect("a folder");
        let mut store = store(&folder);
        let (one, other) = (Tried::At(who(1)), Tried::At(who(2)));
        wrong(&mut store, &one, 4);
        check(&store, &one, 0, None);
        wrong(&mut store, &one, 1);
        check(&store, &one, 0, Some(60));
        check(&store, &one, 45, Some(15));
        check(&store, &one, 60, None);
        check(&store, &other, 0, None);
        wrong(&mut store, &one, 1);
        check(&store, &one, 0, Some(120));
        wrong(&mut store, &one, 40);
        check(&store, &one, 0, Some(3600));
        right(&mut store, std::slice::from_ref(&one)).expect("forgotten");
        check(&store, &one, 0, None);
    }

    #[test]
    fn whoever_waits_is_not_counted_again() {
        let folder = tempfile::tempdir().expect("a folder");
        let mut store = store(&folder);
        let both = [Tried::At(who(1)), Tried::Name("d.pike".to_owned())];
        let told: Vec<bool> =
            (0..8).map(|_| count(&mut store, &both, START).expect("counted").is_some()).collect();
        assert_eq!(told, [false, false, false, false, false, true, true, true]);
        check(&store, &both[0], 0, Some(60));
        assert_eq!(store.tally(CODES, START).expect("read"), None, "codes of devices stay");
    }

    /// 10 minutes at most, from wherever; and a stranger's tries are none of the place it came in from.
    #[test]
    fn a_name_is_never_kept_out_for_long() {
        let folder = tempfile::tempdir().expect("a folder");
        let mut store = store(&folder);
        let name = Tried::Name("d.pike".to_owned());
        wrong(&mut store, &name, 50);
        check(&store, &name, 0, Some(600));
        assert_eq!(of_name(&store, "d.pike", who(1), START).expect("read"), name);
        came_in(&mut store, "d.pike", who(1), START).expect("known");
        let here = of_name(&store, "d.pike", who(1), START).expect("read");
        assert_eq!(here, Tried::Known("d.pike".to_owned(), who(1)));
        check(&store, &here, 0, None);
        assert_eq!(of_name(&store, "d.pike", who(2), START).expect("read"), name);
    }

    #[test]
    fn what_somebody_typed_as_a_name_cannot_be_read_from_the_database() {
        let word = Tried::Known("correct horse battery".to_owned(), who(7)).word();
        assert_eq!(word.len(), "name 012345 at 192.0.2.7".len());
        assert!(!word.contains("horse"));
        assert_ne!(named("d.pike"), named("a.hall"));
    }

    #[test]
    fn guessing_from_everywhere_takes_the_codes_away() {
        let folder = tempfile::tempdir().expect("a folder");
        let mut store = store(&folder);
        let mut wrong = |last: u8| wrong_code(&mut store, who(last), START).expect("counted");
        let taken: Vec<bool> = (0..40).map(&mut wrong).collect();
        assert_eq!(taken.iter().position(|taken| *taken), Some(39));
    }
}
