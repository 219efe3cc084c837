//! Files out of a ZIP, within limits: a workbook may come from anybody.

use miniz_oxide::inflate::decompress_to_vec_with_limit;
use std::collections::BTreeMap;

/// Bytes that all files together may unpack to; a schedule of ten thousand shafts has less than a tenth of it.
const BYTES_MOST: usize = 64 * 1024 * 1024;
/// Files a workbook may hold.
const FILES_MOST: usize = 4096;

/// The files of a ZIP that `wanted` names, unpacked; `None` when it is no ZIP, is packed in another way, or unpacks to
/// more than anybody's schedule.
pub(super) fn unzip(bytes: &[u8], wanted: impl Fn(&str) -> bool) -> Option<BTreeMap<String, Vec<u8>>> {
    within(BYTES_MOST, bytes, wanted)
}

fn within(room: usize, bytes: &[u8], wanted: impl Fn(&str) -> bool) -> Option<BTreeMap<String, Vec<u8>>> {
    let end = end_of_directory(bytes)?;
    let (count, mut at) = (usize::from(short(bytes, end + 10)?), long(bytes, end + 16)?);
    let mut files = BTreeMap::new();
    let mut room = room;
    for _ in 0..count.min(FILES_MOST) {
        (long(bytes, at)? == 0x0201_4b50).then_some(())?;
        let [name, extra, comment] = [28, 30, 32].map(|from| short(bytes, at + from).map(usize::from));
        let (name, after) = (name?, extra? + comment?);
        let named = String::from_utf8_lossy(bytes.get(at + 46..at + 46 + name)?).into_owned();
        if wanted(&named) {
            let file = unpacked(bytes, at, room)?;
            room = room.checked_sub(file.len())?;
            files.insert(named, file);
        }
        at = at.checked_add(46 + name + after)?;
    }
    Some(files)
}

fn unpacked(bytes: &[u8], row: usize, room: usize) -> Option<Vec<u8>> {
    let (method, packed, at) = (short(bytes, row + 10)?, long(bytes, row + 20)?, long(bytes, row + 42)?);
    let head = 30 + usize::from(short(bytes, at + 26)?) + usize::from(short(bytes, at + 28)?);
    let from = at.checked_add(head)?;
    let inside = bytes.get(from..from.checked_add(packed)?)?;
    match method {
        0 => Some(inside.to_vec()).filter(|inside| inside.len() <= room),
        8 => decompress_to_vec_with_limit(inside, room).ok(),
        _ => None,
    }
}

/// It stands at the end, before a comment of 65,535 bytes at most.
fn end_of_directory(bytes: &[u8]) -> Option<usize> {
    let last = bytes.len().checked_sub(22)?;
    (last.saturating_sub(0xFFFF)..=last).rev().find(|at| long(bytes, *at) == Some(0x0605_4b50))
}

fn short(bytes: &[u8], at: usize) -> Option<u16> {
    let two = bytes.get(at..at.checked_add(2)?)?;
    Some(u16::from_le_bytes(two.try_into().ok()?))
}

fn long(bytes: &[u8], at: usize) -> Option<usize> {
    let four = bytes.get(at..at.checked_add(4)?)?;
    usize::try_from(u32::from_le_bytes(four.try_into().ok()?)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::packed::zip;

    #[test]
    fn what_was_packed_comes_out() {
        let files = [("a.xml".to_owned(), b"one".to_vec()), ("b/c.xml".to_owned(), b"two".repeat(100))];
        let found = unzip(&zip(&files), |name| name != "a.xml");
        assert_eq!(found, Some(BTreeMap::from([("b/c.xml".to_owned(), b"two".repeat(100))])));
    }

    #[test]
    fn what_is_no_zip_or_a_bomb_is_none() {
        assert_eq!(unzip(b"PK", |_| true), None);
        assert_eq!(unzip(&[0; 100], |_| true), None);
        let bomb = zip(&[("a".to_owned(), vec![0; 100_000]), ("b".to_owned(), vec![0; 100_000])]);
        assert!(bomb.len() < 1000, "{}", bomb.len());
        assert_eq!(within(199_999, &bomb, |_| true), None);
        assert_eq!(within(200_000, &bomb, |_| true).map(|files| files.len()), Some(2));
    }

    #[test]
    fn a_zip_cut_or_altered_anywhere_does_not_stop_the_program() {
        let whole = zip(&[("a.xml".to_owned(), b"one two three".to_vec())]);
        for at in 0..whole.len() {
            let _ = unzip(&whole[..at], |_| true);
            let mut altered = whole.clone();
            altered[at] ^= 0xFF;
            let _ = unzip(&altered, |_| true);
        }
    }
}
