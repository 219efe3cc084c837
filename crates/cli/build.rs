//! Puts the files of the app into the program, so that one file serves a whole site.
//!
//! A tablet that loads the app once works without a network from then on; what it loads has to be the app
//! this program was built with, not whatever lies in a folder beside it.
//!
//! Words: *variant* = the same file compressed beforehand, lying beside it as `x.br` or `x.gz`; *immutable* =
//! a file whose name carries a hash of what is in it, which a browser may keep for ever.
//! Never: build a program without the app without saying so.

use std::fmt::Write;
use std::path::{Path, PathBuf};

/// The page every other file of the app hangs on.
const PAGE: &str = "index.html";

/// Endings of variants: as the header of HTTP names each, and as the file is named.
const VARIANTS: [&str; 2] = ["br", "gz"];

/// Fewer hexadecimal digits in a name may be a word or a number.
const DIGITS_LEAST: usize = 8;

fn main() {
    println!("cargo::rerun-if-env-changed=SHAFTBOOK_APP");
    let folder = app_folder();
    println!("cargo::rerun-if-changed={}", folder.display());
    if let Err(told) = look_for_page(&folder) {
        panic!("{told}");
    }
    let out = PathBuf::from(std::env::var_os("OUT_DIR").expect("cargo names a folder to build in"));
    std::fs::write(out.join("embedded.rs"), table(&folder)).expect("the build folder can be written");
}

/// The folder named in the environment, else where `cargo xtask app` leaves the app.
fn app_folder() -> PathBuf {
    let named = std::env::var_os("SHAFTBOOK_APP").filter(|name| !name.is_empty());
    let beside = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../out/app");
    named.map_or(beside, PathBuf::from)
}

/// What is wrong with the folder, in three sentences.
pub(crate) fn look_for_page(folder: &Path) -> Result<(), String> {
    if folder.join(PAGE).is_file() {
        return Ok(());
    }
    Err(format!(
        "The app is not built: {} holds no {PAGE}.\nThe program serves the app to tablets and is not built \
         without it.\nRun `cargo xtask app`, or name a folder that holds the app in SHAFTBOOK_APP.",
        folder.display()
    ))
}

/// A table of every file, as Rust.
pub(crate) fn table(folder: &Path) -> String {
    let mut files = Vec::new();
    walk(folder, folder, &mut files);
    files.sort();
    let mut text = String::from("&[\n");
    for file in files.iter().filter(|file| !is_variant(file, &files)) {
        let [br, gz] = VARIANTS.map(|ending| variant(folder, &files, &format!("{file}.{ending}")));
        writeln!(
            text,
            "    Embedded {{ path: {file:?}, bytes: {}, brotli: {br}, gzip: {gz}, content_type: {:?}, \
             immutable: {} }},",
            bytes(folder, file),
            content_type(file),
            carries_hash(file)
        )
        .expect("a text takes what is written to it");
    }
    text + "]\n"
}

/// Every file below a folder, named from the top with `/` on every system. What is hidden stays out.
fn walk(top: &Path, here: &Path, files: &mut Vec<String>) {
    for entry in std::fs::read_dir(here).expect("the folder of the app can be read").flatten() {
        let path = entry.path();
        let hidden = entry.file_name().to_string_lossy().starts_with('.');
        if path.is_dir() && !hidden {
            walk(top, &path, files);
        } else if !hidden {
            let parts = path.strip_prefix(top).expect("it lies below the top").components();
            let parts: Vec<String> =
                parts.map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
            files.push(parts.join("/"));
        }
    }
}

fn is_variant(file: &str, files: &[String]) -> bool {
    let whole = VARIANTS.iter().find_map(|ending| file.strip_suffix(&format!(".{ending}")));
    whole.is_some_and(|whole| files.iter().any(|other| other == whole))
}

fn variant(folder: &Path, files: &[String], name: &str) -> String {
    let there = files.iter().any(|file| file == name);
    if there { format!("Some({})", bytes(folder, name)) } else { "None".to_owned() }
}

fn bytes(folder: &Path, file: &str) -> String {
    let path = folder.join(file).canonicalize().expect("the file is there");
    format!("include_bytes!({:?})", path.to_string_lossy())
}

/// What a browser is told a file is, by its ending. With `nosniff` it believes nothing else.
pub(crate) fn content_type(file: &str) -> &'static str {
    match file.rsplit('.').next().unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "ttf" => "font/ttf",
        "otf" => "font/otf",
        "toml" | "txt" => "text/plain; charset=utf-8",
        "mp3" => "audio/mpeg",
        "wav" => "audio/wav",
        _ => "application/octet-stream",
    }
}

/// Whether the name of a file carries a hash of what is in it: `app-3f9a62c1d0e4.js`.
pub(crate) fn carries_hash(file: &str) -> bool {
    let name = file.rsplit('/').next().unwrap_or(file);
    let digits = |part: &str| part.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f'));
    name.split(['-', '.', '_']).any(|part| part.len() >= DIGITS_LEAST && digits(part))
}
