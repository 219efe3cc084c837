//! A pairing link as a QR code: a drawing for the desk page, block characters for a terminal.

use qrcode::QrCode;
use qrcode::render::{svg, unicode};

/// The link as SVG, black on white in both themes: cameras want it so. It carries no style of its own.
pub(crate) fn svg(link: &str) -> Option<String> {
    let drawing = QrCode::new(link).ok()?.render::<svg::Color<'_>>().min_dimensions(240, 240).build();
    // The XML declaration has no place inside a page.
    drawing.find("<svg").map(|start| drawing[start..].to_owned())
}

/// The link in block characters, two rows of modules a line, light on dark as terminals mostly are.
pub(crate) fn text(link: &str) -> Option<String> {
    let code = QrCode::new(link).ok()?;
    let dense = code.render::<unicode::Dense1x2>();
    Some({ dense }.dark_color(unicode::Dense1x2::Light).light_color(unicode::Dense1x2::Dark).build())
}
