//! A line that was proved, with the columns it is found by.
//!
//! A tablet's line is kept as the bytes it came in: proved once, never written anew. The only ways to make
//! a `Line` start from an entry that was proved.

use record::Held;
use wire::LineFault;

/// One entry as the line it is. Invariant: the columns follow from the line, and the line was proved.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    pub(crate) id: String,
    pub(crate) job: String,
    pub(crate) shaft: Option<String>,
    pub(crate) device: String,
    pub(crate) seq: i64,
    pub(crate) text: String,
}

impl Line {
    /// Proves a line as it came, and gives the entry beside it.
    ///
    /// # Errors
    /// Why it is not an entry.
    pub fn read(text: &str) -> Result<(Self, Held), LineFault> {
        let held = wire::read(text)?;
        Ok((Self::with(&held, text.to_owned()), held))
    }

    /// The line somebody else proved by `wire::read`, which gave the entry.
    pub fn proved(held: &Held, text: String) -> Self {
        Self::with(held, text)
    }

    /// The line of an entry.
    pub fn of(held: &Held) -> Self {
        Self::with(held, wire::write(held))
    }

    fn with(held: &Held, text: String) -> Self {
        let (device, seq) = held.place();
        Line {
            id: held.id().to_string(),
            job: held.job().to_owned(),
            shaft: held.shaft().map(str::to_owned),
            device: device.to_string(),
            // `wire` reads no number above 2^53.
            seq: seq as i64,
            text,
        }
    }

    /// The id, 64 hexadecimal digits.
    pub fn id(&self) -> &str {
        &self.id
    }

    /// The job.
    pub fn job(&self) -> &str {
        &self.job
    }

    /// The line itself, without the line feed.
    pub fn text(&self) -> &str {
        &self.text
    }
}

/// Whether a kept line still is what its id says, without taking it apart: the hash of its canonical
/// spelling without id and signature. `None`: it cannot be told so quickly.
pub(crate) fn still_itself(id: &str, text: &str) -> Option<()> {
    let own = format!("\"id\":\"{id}\",");
    let at = text.find(&own)?;
    let sig = text.rfind(",\"sig\":\"")?;
    // The signature closes every line of a format known here.
    let closes = text.len() == sig + SIGNATURE && text.ends_with("\"}");
    let rest =
        (closes && at + own.len() <= sig).then(|| [&text[..at], &text[at + own.len()..sig], "}"].concat())?;
    let hash = record::EntryId(wire::sha256(rest.as_bytes()));
    (hash.to_string() == id).then_some(())
}

/// Length of `,"sig":"…"}` with its 128 digits.
const SIGNATURE: usize = 8 + 128 + 2;

#[cfg(test)]
mod tests {
    use super::*;
    use testkit::{Tablet, body};

    fn entry() -> Line {
        let mut tablet = Tablet::new(1).about(Some("S-1"));
        Line::of(&Held::Known(tablet.write("10:41", body("remark", &[("text", "water at 12 ft")]))))
    }

    #[test]
    fn a_line_is_kept_as_it_came() {
        let line = entry();
        let (read, held) = Line::read(line.text()).expect("a line");
        assert_eq!(read, line);
        assert_eq!(Line::of(&held), line);
    }

    #[test]
    fn a_whole_line_is_itself() {
        let line = entry();
        assert_eq!(still_itself(line.id(), line.text()), Some(()));
    }

    /// Every byte but those of the signature, which only the device's key can vouch for.
    #[test]
    fn a_line_with_any_byte_changed_is_not_itself() {
        let line = entry();
        for place in 0..line.text().len() - SIGNATURE {
            let mut bytes = line.text().as_bytes().to_vec();
            bytes[place] ^= 1;
            let text = String::from_utf8(bytes).expect("ASCII stays ASCII");
            assert_eq!(still_itself(line.id(), &text), None, "byte {place}");
        }
    }
}
