//! Bytes into text, and places in it.
//!
//! Files come from editors and spreadsheets of every age: with a byte order mark, with the line ends of
//! another system, in an encoding that is not UTF-8. The first two are taken as they are; the third is
//! said plainly, because guessing an encoding would change what was written.

use crate::mistake::Wrong;

/// The text of a file, without a byte order mark.
pub(crate) fn text_of(bytes: &[u8]) -> Result<&str, Box<(usize, Wrong)>> {
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(Box::new((0, Wrong::Utf16)));
    }
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let line = bytes[..error.valid_up_to()].iter().filter(|byte| **byte == b'\n').count() + 1;
        Box::new((line, Wrong::NotUtf8 { byte: bytes[error.valid_up_to()] }))
    })?;
    if text.trim().is_empty() { Err(Box::new((1, Wrong::Empty))) } else { Ok(text) }
}

/// Where the lines of a text begin.
pub(crate) struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    pub(crate) fn of(text: &'t str) -> Self {
        let after = text.match_indices('\n').map(|(at, _)| at + 1);
        Lines { text, starts: std::iter::once(0).chain(after).collect() }
    }

    /// The number of the line an offset lies in, from 1.
    pub(crate) fn line(&self, offset: usize) -> usize {
        self.starts.partition_point(|start| *start <= offset)
    }

    /// Lines and columns of some offsets, which must ascend; columns count characters from 1.
    ///
    /// One walk along the text however many places are asked for: a line may be ten megabytes long.
    pub(crate) fn places(&self, offsets: &[usize]) -> Vec<(usize, usize)> {
        let (mut seen, mut characters, mut line_seen) = (0, 0, 0);
        let place = |offset: &usize| {
            let line = self.line(*offset);
            let start = self.starts[line - 1];
            if line != line_seen {
                (seen, characters, line_seen) = (start, 0, line);
            }
            let until = self.floor(*offset).max(seen);
            characters += self.text[seen..until].chars().count();
            seen = until;
            (line, characters + 1)
        };
        offsets.iter().map(place).collect()
    }

    fn floor(&self, offset: usize) -> usize {
        let offset = offset.min(self.text.len());
        (0..=offset).rev().find(|at| self.text.is_char_boundary(*at)).unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_count_characters_and_lines_of_either_ending() {
        let lines = Lines::of("ab\r\ncä d\nx");
        assert_eq!(
            lines.places(&[0, 1, 4, 5, 7, 8, 10]),
            [(1, 1), (1, 2), (2, 1), (2, 2), (2, 3), (2, 4), (3, 1)]
        );
        assert_eq!(lines.places(&[99]), [(3, 2)]);
    }

    #[test]
    fn a_mark_is_passed_over_and_other_encodings_are_named() {
        assert_eq!(text_of(b"\xef\xbb\xbfa").ok(), Some("a"));
        let wrong = |bytes: &[u8]| text_of(bytes).err().map(|wrong| *wrong);
        assert_eq!(wrong(b"a\n\xe4"), Some((2, Wrong::NotUtf8 { byte: 0xe4 })));
        assert_eq!(wrong(b"\xff\xfea\0"), Some((0, Wrong::Utf16)));
        assert_eq!(wrong(b" \n"), Some((1, Wrong::Empty)));
    }
}
