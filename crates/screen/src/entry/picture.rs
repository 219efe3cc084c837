//! Is a file a picture, by how its bytes begin: names and sorts given by a device are not relied on.

/// How pictures of the sorts a camera or a browser makes begin.
const BEGINNINGS: [(usize, &[u8]); 5] =
    [(0, b"\xff\xd8\xff"), (0, b"\x89PNG\r\n\x1a\n"), (0, b"GIF8"), (8, b"WEBP"), (4, b"ftyp")];

/// Whether the bytes begin like a JPEG, PNG, GIF, WebP, HEIC or AVIF picture.
pub fn is_picture(bytes: &[u8]) -> bool {
    BEGINNINGS.iter().any(|(at, sign)| bytes.get(*at..at + sign.len()) == Some(*sign))
}

#[cfg(test)]
mod tests {
    use super::is_picture;

    #[test]
    fn a_picture_is_known_by_its_first_bytes() {
        let pictures: [&[u8]; 4] =
            [b"\xff\xd8\xff\xe0..JFIF", b"\x89PNG\r\n\x1a\n....", b"RIFF....WEBPVP8 ", b"\0\0\0\x18ftypheic"];
        assert!(pictures.into_iter().all(is_picture));
        let others: [&[u8]; 5] =
            [b"", b"\xff\xd8", b"%PDF-1.7", b"ticket 4411, 9.5 yd3", b"RIFF....WAVEfmt "];
        assert!(!others.into_iter().any(is_picture));
    }
}
