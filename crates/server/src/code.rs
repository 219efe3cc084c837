//! Pairing codes: eight characters on the desk that make a tablet one of the office's.
//!
//! Whoever stands at the desk may pair. A code serves once and for ten minutes; guessing is slowed per
//! address, and too much of it from everywhere takes the codes away.
//!
//! Words: *try* = a wrong code somebody sent.
//! Never: keep a code or token in clear on the disk.

use crate::qr;
use crate::rate::Who;
use quantity::Moment;
use std::collections::BTreeMap;
use std::time::{Duration, Instant};

/// Letters and digits of which none is taken for another, printed, spoken or hand-written.
const ALPHABET: &[u8] = b"ACDEFGHJKMNPQRTVWXY34679";

/// Characters of a code: 24^8, about 10^11 codes.
const LENGTH: usize = 8;

/// How long a code serves.
const SERVES_SECONDS: i64 = 10 * 60;

/// Wrong tries an address has before it must wait.
const TRIES: u32 = 5;

/// Wrong tries from everywhere together, after which every code is taken away.
const TRIES_OF_ALL: u32 = 40;

/// The first wait, doubled with every further wrong try.
const WAIT: Duration = Duration::from_secs(60);

const WAIT_MOST: Duration = Duration::from_secs(60 * 60);

/// Addresses remembered.
const REMEMBERED: usize = 4096;

/// A pairing code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Code {
    /// Eight characters of which none is taken for another.
    pub text: String,
    /// When it no longer serves.
    pub until: Moment,
    /// What a tablet opens to pair itself: the address of this server with the code behind a `#`.
    pub link: String,
}

impl Code {
    /// A new code for an office that devices reach at `address`; whoever draws it has to keep it in the
    /// store.
    ///
    /// # Errors
    /// When the machine gives no random bytes.
    pub fn draw(address: &str, now: Moment) -> Result<Self, getrandom::Error> {
        let text = draw()?;
        let link = format!("{address}/pair#pair={text}");
        Ok(Code { text, until: now.plus_seconds(SERVES_SECONDS), link })
    }

    /// The code as people read it to each other: `K7PM-3XQF`.
    pub fn grouped(&self) -> String {
        let (first, second) = self.text.split_at(LENGTH / 2);
        format!("{first}-{second}")
    }

    /// The link as a QR code in SVG; `None` when it is too long for one.
    pub fn qr_svg(&self) -> Option<String> {
        qr::svg(&self.link)
    }

    /// The link as a QR code in block characters for a terminal; `None` when it is too long for one.
    pub fn qr_text(&self) -> Option<String> {
        qr::text(&self.link)
    }
}

/// Draws the text of a code; every code is as likely as any other.
fn draw() -> Result<String, getrandom::Error> {
    let fair = u8::MAX - u8::MAX % ALPHABET.len() as u8;
    let mut text = String::new();
    while text.len() < LENGTH {
        let mut byte = [0];
        getrandom::fill(&mut byte)?;
        if byte[0] < fair {
            text.push(char::from(ALPHABET[usize::from(byte[0]) % ALPHABET.len()]));
        }
    }
    Ok(text)
}

/// The secret of an invitation, to be kept in the store by whoever draws it: 64 hexadecimal digits.
///
/// # Errors
/// When the machine gives no random bytes.
pub fn invitation_secret() -> Result<String, getrandom::Error> {
    token()
}

/// A token: 32 bytes in hexadecimal.
pub(crate) fn token() -> Result<String, getrandom::Error> {
    let mut bytes = [0; 32];
    getrandom::fill(&mut bytes)?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

/// A code as typed: in any case, with spaces or hyphens. `None`: it cannot be one.
pub(crate) fn typed(text: &str) -> Option<String> {
    let spaced = |c: &char| c.is_whitespace() || *c == '-';
    let text: String = text.chars().filter(|c| !spaced(c)).map(|c| c.to_ascii_uppercase()).collect();
    let fits = text.len() == LENGTH && text.bytes().all(|byte| ALPHABET.contains(&byte));
    fits.then_some(text)
}

/// A name somebody tried to sign in with. From an address it signed in from before it is counted apart, so that a
/// stranger's wrong tries from elsewhere do not keep that person out.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Tried {
    /// From anywhere.
    Name(String),
    /// From an address known for it.
    From(String, Who),
}

/// The wrong tries of everybody.
#[derive(Debug)]
pub(crate) struct Tries<K> {
    of: BTreeMap<K, (u32, Instant)>,
    all: u32,
}

impl<K> Default for Tries<K> {
    fn default() -> Self {
        Tries { of: BTreeMap::new(), all: 0 }
    }
}

/// What follows from a wrong try.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Then {
    /// Nothing but the refusal.
    Refuse,
    /// Every code is to be taken away.
    TakeAway,
}

impl<K: Ord> Tries<K> {
    /// How long somebody must wait before the next try.
    pub(crate) fn wait(&self, who: &K, now: Instant) -> Option<Duration> {
        let (count, last) = self.of.get(who)?;
        let doubled = count.checked_sub(TRIES)?;
        let wait = WAIT.saturating_mul(2_u32.saturating_pow(doubled)).min(WAIT_MOST);
        wait.checked_sub(now.saturating_duration_since(*last)).filter(|left| !left.is_zero())
    }

    /// Counts a wrong try.
    pub(crate) fn wrong(&mut self, who: K, now: Instant) -> Then {
        if self.of.len() >= REMEMBERED {
            self.of.retain(|_, (_, last)| now.saturating_duration_since(*last) < WAIT_MOST);
        }
        let (count, last) = self.of.entry(who).or_insert((0, now));
        if now.saturating_duration_since(*last) >= WAIT_MOST {
            *count = 0;
        }
        (*count, *last) = (*count + 1, now);
        self.all += 1;
        if self.all < TRIES_OF_ALL { Then::Refuse } else { Then::TakeAway }
    }

    /// Counts a wrong try that is none at a code, so the codes stay.
    pub(crate) fn wrong_alone(&mut self, who: K, now: Instant) {
        let all = self.all;
        self.wrong(who, now);
        self.all = all;
    }

    /// The same for somebody who waits `most` at most: more tries in a row do not make it longer.
    pub(crate) fn wrong_capped(&mut self, who: K, now: Instant, most: Duration)
    where
        K: Clone,
    {
        self.wrong_alone(who.clone(), now);
        let longest = most.as_secs().div_ceil(WAIT.as_secs()).ilog2() + TRIES;
        if let Some((count, _)) = self.of.get_mut(&who) {
            *count = (*count).min(longest);
        }
    }

    /// Somebody who had it right from here before; nothing counts against it.
    pub(crate) fn know(&mut self, who: K, now: Instant) {
        self.of.insert(who, (0, now));
    }

    /// Whether somebody is counted at all, wrong tries or none.
    pub(crate) fn knows(&self, who: &K) -> bool {
        self.of.contains_key(who)
    }

    /// A new code is on the desk: the tries against the old ones no longer count together.
    pub(crate) fn begin(&mut self) {
        self.all = 0;
    }

    /// Somebody had it right.
    pub(crate) fn right(&mut self, who: &K) {
        self.of.remove(who);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::net::{IpAddr, Ipv4Addr};

    fn who(last: u8) -> Who {
        Who::at(IpAddr::V4(Ipv4Addr::new(192, 0, 2, last)))
    }

    #[test]
    fn a_code_has_eight_characters_none_like_another() {
        let code = draw().expect("chance");
        assert_eq!(code.len(), 8);
        assert!(code.bytes().all(|byte| ALPHABET.contains(&byte)), "{code}");
        for alike in "0O1IL2Z5S8BUV".chars().filter(|c| *c != 'V') {
            assert!(!ALPHABET.contains(&(alike as u8)), "{alike} is taken for another");
        }
        assert_ne!(draw().expect("chance"), code);
    }

    #[test]
    fn a_code_is_read_as_people_type_it() {
        assert_eq!(typed(" k7pm-3xqf ").as_deref(), Some("K7PM3XQF"));
        assert_eq!(typed("K7PM 3XQF").as_deref(), Some("K7PM3XQF"));
        assert_eq!(typed("K7PM3XQ"), None);
        assert_eq!(typed("K7PM3XQ0"), None);
        assert_eq!(typed("K7PM3XQé"), None);
        assert_eq!(typed(""), None);
    }

    /// Five tries are free, the sixth waits a minute, each wrong one after that twice as long, an hour at
    /// most.
    #[test]
    fn guessing_is_slowed_more_and_more() {
        let (mut tries, start) = (Tries::default(), Instant::now());
        for _ in 0..4 {
            tries.wrong(who(1), start);
            assert_eq!(tries.wait(&who(1), start), None);
        }
        tries.wrong(who(1), start);
        assert_eq!(tries.wait(&who(1), start), Some(Duration::from_secs(60)));
        assert_eq!(tries.wait(&who(1), start + Duration::from_secs(45)), Some(Duration::from_secs(15)));
        assert_eq!(tries.wait(&who(1), start + Duration::from_secs(60)), None);
        assert_eq!(tries.wait(&who(2), start), None);
        tries.wrong(who(1), start);
        assert_eq!(tries.wait(&who(1), start), Some(Duration::from_secs(120)));
        for _ in 0..40 {
            tries.wrong(who(1), start);
        }
        assert_eq!(tries.wait(&who(1), start), Some(Duration::from_secs(3600)));
        tries.right(&who(1));
        assert_eq!(tries.wait(&who(1), start), None);
    }

    /// 10 minutes at most: 60 s doubled three times is 480 s, and it stays at that.
    #[test]
    fn a_name_is_never_kept_out_for_long() {
        let (mut tries, start) = (Tries::default(), Instant::now());
        let name = || Tried::Name("d.pike".to_owned());
        for _ in 0..50 {
            tries.wrong_capped(name(), start, Duration::from_secs(600));
        }
        assert_eq!(tries.wait(&name(), start), Some(Duration::from_secs(480)));
        let here = Tried::From("d.pike".to_owned(), who(1));
        assert!(!tries.knows(&here));
        tries.know(here.clone(), start);
        assert_eq!((tries.knows(&here), tries.wait(&here, start)), (true, None));
        assert_eq!(tries.all, 0, "codes of devices stay");
    }

    #[test]
    fn guessing_from_everywhere_takes_the_codes_away() {
        let (mut tries, now) = (Tries::default(), Instant::now());
        let then: Vec<Then> = (0..40).map(|last| tries.wrong(who(last), now)).collect();
        assert_eq!(then.iter().position(|then| *then == Then::TakeAway), Some(39));
        tries.begin();
        assert_eq!(tries.wrong(who(1), now), Then::Refuse);
    }
}
