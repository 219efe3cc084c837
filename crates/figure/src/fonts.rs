//! The one family of letters every drawing, page and screen is set in.
//!
//! A label that is wider on the office printer than on the tablet covers its neighbour; so the fonts
//! travel with the program, unchanged, under the SIL Open Font License 1.1 (`fonts/OFL.txt`).
//!
//! Never: a font of the machine the program happens to run on.

/// The family name that the drawings write, and that the files below carry.
pub const FAMILY: &str = "IBM Plex Sans";

/// File name and bytes of each shipped font: regular, semibold (weight 600) and italic.
pub const FONTS: &[(&str, &[u8])] = &[
    ("IBMPlexSans-Regular.ttf", include_bytes!("../fonts/IBMPlexSans-Regular.ttf")),
    ("IBMPlexSans-SemiBold.ttf", include_bytes!("../fonts/IBMPlexSans-SemiBold.ttf")),
    ("IBMPlexSans-Italic.ttf", include_bytes!("../fonts/IBMPlexSans-Italic.ttf")),
];

/// The licence that has to travel with them.
pub const LICENCE: &str = include_str!("../fonts/OFL.txt");
