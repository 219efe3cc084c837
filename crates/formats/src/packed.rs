//! Bytes packed: CRC-32, gzip, and the folder of files that a ZIP is.
//!
//! Written by hand because the crate that does it brings clocks, chance and files with it, and this crate has none.
//! Source: [RFC-1952] for gzip and CRC-32, [ZIP-APPNOTE] for ZIP.
//! Never: name the time of making; the same content gives the same bytes.

use miniz_oxide::deflate::compress_to_vec;

/// How hard to pack, of 10.
const LEVEL: u8 = 6;

/// The check sum of gzip and ZIP.
pub(crate) fn crc32(bytes: &[u8]) -> u32 {
    let step = |crc: u32, byte: &u8| {
        let mut crc = crc ^ u32::from(*byte);
        for _ in 0..8 {
            crc = if crc & 1 == 1 { crc >> 1 ^ 0xEDB8_8320 } else { crc >> 1 };
        }
        crc
    };
    !bytes.iter().fold(!0, step)
}

/// A gzip member without name and time.
pub(crate) fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut out = vec![0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 255];
    out.extend(compress_to_vec(bytes, LEVEL));
    out.extend(crc32(bytes).to_le_bytes());
    out.extend(size(bytes.len()).to_le_bytes());
    out
}

/// A ZIP of files by their names, in this order. Each and all of them stay below 4 GB.
pub(crate) fn zip(files: &[(String, Vec<u8>)]) -> Vec<u8> {
    let (mut out, mut directory) = (Vec::new(), Vec::new());
    for (name, bytes) in files {
        let packed = compress_to_vec(bytes, LEVEL);
        let about = about(name, bytes, &packed);
        let at = size(out.len());
        out.extend(0x0403_4b50_u32.to_le_bytes());
        out.extend(&about);
        out.extend(name.as_bytes());
        out.extend(packed);
        directory.extend(0x0201_4b50_u32.to_le_bytes());
        directory.extend(20_u16.to_le_bytes());
        directory.extend(&about);
        // No comment, disk 0, no attributes.
        directory.extend([0; 10]);
        directory.extend(at.to_le_bytes());
        directory.extend(name.as_bytes());
    }
    let (at, long) = (size(out.len()), size(directory.len()));
    out.extend(directory);
    out.extend(0x0605_4b50_u32.to_le_bytes());
    out.extend([0; 4]);
    let count = u16::try_from(files.len()).unwrap_or(u16::MAX);
    out.extend([count, count].map(u16::to_le_bytes).concat());
    out.extend([long, at].map(u32::to_le_bytes).concat());
    out.extend([0; 2]);
    out
}

/// What the head of a file and its row in the directory share: version 2.0, names in UTF-8, deflated, the first day
/// ZIP knows.
fn about(name: &str, bytes: &[u8], packed: &[u8]) -> Vec<u8> {
    let mut out: Vec<u8> = [20_u16, 0x0800, 8, 0, 0x0021].map(u16::to_le_bytes).concat();
    out.extend([crc32(bytes), size(packed.len()), size(bytes.len())].map(u32::to_le_bytes).concat());
    out.extend(u16::try_from(name.len()).unwrap_or(u16::MAX).to_le_bytes());
    out.extend([0; 2]);
    out
}

fn size(bytes: usize) -> u32 {
    u32::try_from(bytes).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_check_sum_is_the_one_everybody_has() {
        // The check value of the catalogue of CRC algorithms for CRC-32/ISO-HDLC, from memory.
        assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
        assert_eq!(crc32(b""), 0);
    }

    #[test]
    fn what_was_packed_comes_out_again() {
        let text = b"concrete ".repeat(100);
        let packed = gzip(&text);
        let inside = &packed[10..packed.len() - 8];
        assert_eq!(miniz_oxide::inflate::decompress_to_vec(inside).ok(), Some(text.clone()));
        assert!(packed.len() < text.len());
    }
}
