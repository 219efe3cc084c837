//! The app as it was built into this program (build.rs).

use server::{AppFile, AppFiles};

/// One file of the app.
struct Embedded {
    path: &'static str,
    bytes: &'static [u8],
    brotli: Option<&'static [u8]>,
    gzip: Option<&'static [u8]>,
    content_type: &'static str,
    immutable: bool,
}

/// Every file, in the order of the paths.
const FILES: &[Embedded] = include!(concat!(env!("OUT_DIR"), "/embedded.rs"));

/// The app's files as the server hands them out.
pub(crate) fn app() -> AppFiles {
    let file = |embedded: &Embedded| {
        let file = AppFile {
            bytes: embedded.bytes.into(),
            media: embedded.content_type.into(),
            immutable: embedded.immutable,
            brotli: embedded.brotli.map(Into::into),
            gzip: embedded.gzip.map(Into::into),
        };
        (embedded.path.to_owned(), file)
    };
    FILES.iter().map(file).collect()
}
