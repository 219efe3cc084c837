//! Pairing codes: eight characters on the desk that make a tablet one of the office's.
//!
//! Whoever stands at the desk may pair. A code serves once and for ten minutes; guessing is slowed (`tries`), and too much of it
//! from everywhere takes the codes away.
//!
//! Never: keep a code or token in clear on the disk.

use crate::qr;
use quantity::Moment;

/// Letters and digits of which none is taken for another, printed, spoken or hand-written.
const ALPHABET: &[u8] = b"ACDEFGHJKMNPQRTVWXY34679";

/// Characters of a code: 24^8, about 10^11 codes.
const LENGTH: usize = 8;

/// How long a code serves.
const SERVES_SECONDS: i64 = 10 * 60;

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

#[cfg(test)]
mod tests {
    use super::*;

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
}
