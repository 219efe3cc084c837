//! The icons of the app as PNG, drawn from its own SVG each time the app is laid out: nothing is kept that can be
//! made, and the same drawing gives the same bytes.
//!
//! Words: *plain* = the drawing as it is, its corners round; *filled* = the ground reaches every edge, because the
//! system cuts the shape itself; *safe* = so far inside that no cut reaches it.

use crate::notice::Notice;
use resvg::{tiny_skia, usvg};

/// The ground of the drawing, for the icons that reach every edge.
const GROUND: [u8; 3] = [0x16, 0x32, 0x4a];

/// Name, width and height in pixels, whether the ground reaches the edges, the share of the width the drawing takes.
/// A maskable icon may be cut to a circle of four fifths of its width [W3C-APPMANIFEST].
const ICONS: [(&str, u32, bool, f32); 4] = [
    ("icon-192.png", 192, false, 1.0),
    ("icon-512.png", 512, false, 1.0),
    ("icon-maskable.png", 512, true, 0.8),
    ("icon-apple-touch.png", 180, true, 1.0),
];

/// Every icon by its name, made from the text of an SVG.
///
/// # Errors
/// The text is no SVG.
pub(crate) fn of(svg: &str) -> Result<Vec<(String, Vec<u8>)>, Notice> {
    let tree =
        usvg::Tree::from_str(svg, &usvg::Options::default()).map_err(|error| wrong(&error.to_string()))?;
    ICONS.iter().map(|icon| Ok((icon.0.to_owned(), drawn(&tree, *icon)?))).collect()
}

fn drawn(tree: &usvg::Tree, (name, size, filled, share): (&str, u32, bool, f32)) -> Result<Vec<u8>, Notice> {
    let mut picture = tiny_skia::Pixmap::new(size, size).ok_or_else(|| wrong(name))?;
    if filled {
        let [red, green, blue] = GROUND;
        picture.fill(tiny_skia::Color::from_rgba8(red, green, blue, 255));
    }
    // Pixels of an icon are few enough for a float to hold them exactly.
    let width = size as f32;
    let scale = width * share / tree.size().width();
    let edge = width * (1.0 - share) / 2.0;
    let place = tiny_skia::Transform::from_scale(scale, scale).post_translate(edge, edge);
    resvg::render(tree, place, &mut picture.as_mut());
    picture.encode_png().map_err(|error| wrong(&format!("{name}: {error}")))
}

fn wrong(what: &str) -> Notice {
    Notice::new(
        format!("The icons of the app could not be drawn ({what})."),
        "The app could not be put on a home screen.",
        "Look at crates/app/static/icon.svg.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    const SVG: &str = include_str!("../../crates/app/static/icon.svg");

    /// Width and height as a PNG says them in its first chunk.
    fn size(png: &[u8]) -> (u32, u32) {
        let number = |at: usize| u32::from_be_bytes([png[at], png[at + 1], png[at + 2], png[at + 3]]);
        assert_eq!(&png[..8], b"\x89PNG\r\n\x1a\n");
        (number(16), number(20))
    }

    #[test]
    fn every_icon_has_its_size_and_the_same_bytes_each_time() {
        let icons = of(SVG).expect("our own drawing");
        let sizes: Vec<_> = icons.iter().map(|(name, png)| (name.as_str(), size(png))).collect();
        assert_eq!(
            sizes,
            [
                ("icon-192.png", (192, 192)),
                ("icon-512.png", (512, 512)),
                ("icon-maskable.png", (512, 512)),
                ("icon-apple-touch.png", (180, 180)),
            ]
        );
        assert_eq!(icons, of(SVG).expect("our own drawing"));
    }

    #[test]
    fn only_what_the_system_cuts_itself_reaches_the_corners() {
        for (name, png) in of(SVG).expect("our own drawing") {
            let picture = tiny_skia::Pixmap::decode_png(&png).expect("what was just drawn");
            let corner = picture.pixel(0, 0).expect("there is a corner").alpha();
            let filled = name == "icon-maskable.png" || name == "icon-apple-touch.png";
            assert_eq!(corner, if filled { 255 } else { 0 }, "{name}");
        }
    }

    #[test]
    fn the_ground_is_that_of_the_drawing() {
        let [red, green, blue] = GROUND;
        assert!(SVG.contains(&format!("fill=\"#{red:02x}{green:02x}{blue:02x}\"")), "{SVG}");
    }

    #[test]
    fn a_text_that_is_no_drawing_is_refused() {
        assert!(of("no drawing").is_err());
    }
}
