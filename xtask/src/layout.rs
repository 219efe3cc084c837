//! The app's files as they are served: script, wasm and its parts, one style sheet, fonts, icons, worker.
//!
//! A file whose name carries a hash of its bytes may be kept by the browser for ever. `index.html`, `boot.js`
//! and the worker keep their names and are asked for each time; the worker holds the list of all the others,
//! so that the app works from the first load on with the server gone.
//!
//! In `static/`: `{{js}}`, `{{wasm}}`, `{{css}}` stand for the hashed names, `/*FILES*/` for the list of the
//! worker and `/*VERSION*/` for the hash of everything.

use crate::app::PARTS;
use crate::house::House;
use crate::icons;
use crate::notice::Notice;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::io::Write;
use std::path::Path;

const STATIC: &str = "crates/app/static";
/// The drawing the other icons are made from.
const ICON: &str = "/icon.svg";
const STYLE: &str = "crates/app/style";
/// The letters in the parts a browser fetches one by one.
const LETTERS: &str = "crates/figure/fonts/web";
const LICENCE: &str = "crates/figure/fonts/OFL.txt";
/// The parts that every first screen is written with; the browser tests print what was fetched for it.
const FIRST_LETTERS: &[&str] = &["Regular-Latin1.woff2", "SemiBold-Latin1.woff2"];
/// Asked for each time; everything that names other files is among them.
const WORKER: &str = "sw.js";
/// Endings that compress well.
const TEXTUAL: &[&str] = &["html", "js", "css", "svg", "json", "webmanifest", "wasm", "txt"];

/// The files by the path they are served under.
type Files = BTreeMap<String, Vec<u8>>;

/// What was laid out.
///
/// `sizes` is empty for a quick build, which is not compressed.
pub(crate) struct Laid {
    files: usize,
    raw: usize,
    sizes: Vec<Part>,
    version: String,
}

/// What one file takes on its way to a tablet, in bytes.
struct Part {
    name: String,
    bytes: usize,
}

impl std::fmt::Display for Laid {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "app {}: {} files, {} raw", self.version, self.files, kilobytes(self.raw))?;
        if self.sizes.is_empty() {
            return Ok(());
        }
        let sum = |of: &dyn Fn(&str) -> bool| {
            let named = self.sizes.iter().filter(|part| of(&part.name));
            kilobytes(named.map(|part| part.bytes).sum())
        };
        let ends = |ending: &'static str| sum(&move |name| name.ends_with(ending) && !name.starts_with(PART));
        write!(f, "; compressed: first load {} (", sum(&first))?;
        write!(f, "wasm {}, script {}, style {}, ", ends(".wasm"), ends(".js"), ends(".css"))?;
        write!(f, "letters {}); ", sum(&first_letters))?;
        write!(f, "parts for when they are needed {}; ", sum(&|name| name.starts_with(PART)))?;
        write!(f, "all that is kept for work without a connection {}", sum(&|_| true))
    }
}

fn kilobytes(bytes: usize) -> String {
    format!("{} kB", bytes.div_ceil(1000))
}

/// Lays the app out in `out`, which is emptied first; with `compress`, a `.br` and a `.gz` beside each text.
///
/// # Errors
/// A file that cannot be read or written, or a template without its marks.
pub(crate) fn lay_out(house: &House, bound: &Path, out: &Path, compress: bool) -> Result<Laid, Notice> {
    let files = gather(house, bound)?;
    let version = files[WORKER_VERSION].clone();
    let files: Files = files.into_iter().filter(|(name, _)| name != WORKER_VERSION).collect();
    if out.exists() {
        std::fs::remove_dir_all(out).map_err(|error| wrong("emptied", out, &error))?;
    }
    let mut laid = Laid {
        files: files.len(),
        raw: files.values().map(Vec::len).sum(),
        sizes: Vec::new(),
        version: String::from_utf8_lossy(&version).into_owned(),
    };
    for (name, bytes) in &files {
        write(&out.join(name), bytes)?;
        let mut sent = bytes.len();
        if compress && TEXTUAL.iter().any(|ending| name.ends_with(&format!(".{ending}"))) {
            let small = brotli(bytes);
            sent = small.len();
            write(&out.join(format!("{name}.br")), &small)?;
            write(&out.join(format!("{name}.gz")), &gzip(bytes))?;
        }
        if compress {
            laid.sizes.push(Part { name: name.clone(), bytes: sent });
        }
    }
    Ok(laid)
}

/// The place the version is handed on in; no file is served under it.
const WORKER_VERSION: &str = "";

/// Whether the browser needs it before the first screen.
fn first(name: &str) -> bool {
    let program = ["html", "js", "css", "wasm"].iter().any(|ending| name.ends_with(&format!(".{ending}")));
    (program && !name.starts_with(PART)) || first_letters(name)
}

fn first_letters(name: &str) -> bool {
    FIRST_LETTERS.iter().any(|part| name.ends_with(part))
}

/// Every file under its name, templates filled in.
fn gather(house: &House, bound: &Path) -> Result<Files, Notice> {
    let mut files = Files::new();
    let wasm = read(&bound.join("app_bg.wasm"))?;
    let wasm_name = hashed("app", "wasm", &wasm);
    let js_name = scripts(house, bound, &wasm_name, &mut files)?;
    let css = style(house)?;
    let css_name = hashed("app", "css", &css);
    for path in house.files(LETTERS, ".woff2").into_iter().chain([house.path(LICENCE)]) {
        files.insert(format!("fonts/{}", name_of(&path)), read(&path)?);
    }
    let marks = [("{{js}}", &js_name), ("{{wasm}}", &wasm_name), ("{{css}}", &css_name)];
    let inner = house.folders(STATIC).into_iter().flat_map(|folder| house.files(&house.shown(&folder), ""));
    for path in house.files(STATIC, "").into_iter().chain(inner) {
        let mut bytes = read(&path)?;
        if let Ok(text) = std::str::from_utf8(&bytes) {
            bytes = marks
                .iter()
                .fold(text.to_owned(), |text, (mark, name)| text.replace(mark, name))
                .into_bytes();
        }
        let name = house.shown(&path);
        if name.ends_with(ICON) {
            files.extend(icons::of(&String::from_utf8_lossy(&bytes))?);
        }
        files.insert(name.trim_start_matches(STATIC).trim_start_matches('/').to_owned(), bytes);
    }
    files.insert(wasm_name, wasm);
    files.insert(css_name, css);
    with_worker(files)
}

/// The parts of the app under names of their own, and the two scripts; the name of the first of these. Each script
/// names the other, so that one hash stands for both.
fn scripts(house: &House, bound: &Path, wasm_name: &str, files: &mut Files) -> Result<String, Notice> {
    let text = |name: &str| Ok(String::from_utf8_lossy(&read(&bound.join(name))?).into_owned());
    let mut parts = text(PARTS)?;
    for path in house.files(&house.shown(bound), ".wasm") {
        let made = name_of(&path);
        if parts.contains(&made) {
            let bytes = read(&path)?;
            let part = made.trim_start_matches(SPLIT).trim_end_matches(".wasm");
            let name = hashed(&format!("{PART}{part}"), "wasm", &bytes);
            parts = parts.replace(&made, &name);
            files.insert(name, bytes);
        }
    }
    let script = text("app.js")?.replace("app_bg.wasm", wasm_name);
    let both = [script.as_bytes(), parts.as_bytes()].concat();
    let (script_name, parts_name) = (hashed("app", "js", &both), hashed("parts", "js", &both));
    files.insert(parts_name.clone(), parts.replace("app.js", &script_name).into_bytes());
    // The wasm knows the second script by the name it was bound with; only the browser asks for the other one.
    let script = script.replace(&format!("from \"./{PARTS}\""), &format!("from \"./{parts_name}\""));
    files.insert(script_name.clone(), script.into_bytes());
    Ok(script_name)
}

/// What the names of parts begin with: as they are made, and as they are served.
const SPLIT: &str = "split_";
const PART: &str = "part-";

/// Fills the list of files and the version into the worker.
fn with_worker(mut files: Files) -> Result<Files, Notice> {
    let worker = files.remove(WORKER).map(|bytes| String::from_utf8_lossy(&bytes).into_owned());
    let worker = worker.filter(|text| text.contains("/*FILES*/") && text.contains("/*VERSION*/"));
    let Some(worker) = worker else {
        return Err(Notice::new(
            format!("{STATIC}/{WORKER} does not hold the marks /*FILES*/ and /*VERSION*/."),
            "The app would not work without a connection.",
            "Put the marks back where the list of files and the version belong.",
        ));
    };
    let mut all = Sha256::new();
    all.update(worker.as_bytes());
    for (name, bytes) in &files {
        all.update(name.as_bytes());
        all.update(bytes);
    }
    let version = hexadecimal(&all.finalize());
    let list: Vec<String> = files.keys().map(|name| format!("\"/{name}\"")).collect();
    let worker = worker.replace("/*FILES*/", &list.join(", ")).replace("/*VERSION*/", &version);
    files.insert(WORKER.to_owned(), worker.into_bytes());
    files.insert(WORKER_VERSION.to_owned(), version.into_bytes());
    Ok(files)
}

/// The style sheets one after the other, in the order of their names, without what only people read.
fn style(house: &House) -> Result<Vec<u8>, Notice> {
    let mut all = String::new();
    for path in house.files(STYLE, ".css") {
        all.push_str(&plain(&String::from_utf8_lossy(&read(&path)?)));
    }
    Ok(all.into_bytes())
}

/// A style sheet without its comments, indents and empty lines.
fn plain(sheet: &str) -> String {
    let mut parts = sheet.split("/*");
    let mut text = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        text.push_str(part.split_once("*/").map_or("", |(_, rest)| rest));
    }
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    lines.map(|line| format!("{line}\n")).collect()
}

fn hashed(name: &str, ending: &str, bytes: &[u8]) -> String {
    format!("{name}-{}.{ending}", hexadecimal(&Sha256::digest(bytes)))
}

/// The first 12 digits of a hash.
fn hexadecimal(hash: &[u8]) -> String {
    hash.iter().take(6).map(|byte| format!("{byte:02x}")).collect()
}

fn name_of(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

fn brotli(bytes: &[u8]) -> Vec<u8> {
    let mut small = Vec::new();
    let settings = brotli::enc::BrotliEncoderParams { quality: 11, lgwin: 24, ..Default::default() };
    brotli::BrotliCompress(&mut &bytes[..], &mut small, &settings).expect("memory takes every byte");
    small
}

fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::best());
    encoder.write_all(bytes).and_then(|()| encoder.finish()).expect("memory takes every byte")
}

fn read(path: &Path) -> Result<Vec<u8>, Notice> {
    std::fs::read(path).map_err(|error| wrong("read", path, &error))
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), Notice> {
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder).map_err(|error| wrong("made", folder, &error))?;
    }
    std::fs::write(path, bytes).map_err(|error| wrong("written", path, &error))
}

fn wrong(verb: &str, path: &Path, error: &std::io::Error) -> Notice {
    Notice::new(
        format!("{} could not be {verb} ({error}).", path.display()),
        "The app was not laid out.",
        "Look at the file and at the room on the disk, and type the command again.",
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn the_worker_lists_every_other_file_and_its_version_changes_with_them() {
        let of = |css: &[u8]| {
            let worker = b"const files = [/*FILES*/]; const version = '/*VERSION*/';".to_vec();
            let files = [("index.html".to_owned(), b"<p>".to_vec()), ("a.css".to_owned(), css.to_vec())];
            let files = files.into_iter().chain([(WORKER.to_owned(), worker)]).collect();
            with_worker(files).map(|files| String::from_utf8_lossy(&files[WORKER]).into_owned())
        };
        let (one, other) = (of(b"p{}").unwrap_or_default(), of(b"q{}").unwrap_or_default());
        assert!(one.contains("[\"/a.css\", \"/index.html\"]"), "{one}");
        assert_ne!(one, other);
    }

    #[test]
    fn a_style_sheet_loses_what_only_people_read() {
        let sheet = "/* Head\n of it. */\n\np {\n  color: red; /* why */\n}\n";
        assert_eq!(plain(sheet), "p {\ncolor: red;\n}\n");
    }

    #[test]
    fn the_style_sheet_names_every_part_of_the_letters_and_no_other() {
        let house = House::here().expect("the tests run inside the workspace");
        let css = String::from_utf8(style(&house).unwrap_or_default()).expect("style sheets are text");
        let named: BTreeSet<&str> =
            css.split("/fonts/").skip(1).filter_map(|rest| rest.split('"').next()).collect();
        let files = house.files(LETTERS, ".woff2");
        let there: BTreeSet<String> = files.iter().map(|path| name_of(path)).collect();
        assert_eq!(named, there.iter().map(String::as_str).collect());
        assert_eq!(there.iter().filter(|name| first_letters(name)).count(), FIRST_LETTERS.len(), "{there:?}");
    }

    #[test]
    fn the_sizes_of_the_parts_are_told_and_add_up() {
        let part = |name: &str, bytes| Part { name: name.to_owned(), bytes };
        let names = [
            "app-1.wasm",
            "app-1.js",
            "app-1.css",
            "index.html",
            "fonts/A-Regular-Latin1.woff2",
            "fonts/A-Greek.woff2",
            "part-practice-1.wasm",
        ];
        let sizes = names.iter().zip(1..).map(|(name, size)| part(name, size * 1000)).collect();
        let laid = Laid { files: 7, raw: 30_000, sizes, version: "1".to_owned() };
        assert_eq!(
            laid.to_string(),
            "app 1: 7 files, 30 kB raw; compressed: first load 15 kB (wasm 1 kB, script 2 kB, style 3 kB, \
             letters 5 kB); parts for when they are needed 7 kB; all that is kept for work without a connection 28 kB"
        );
        let quick = Laid { sizes: Vec::new(), ..laid };
        assert_eq!(quick.to_string(), "app 1: 7 files, 30 kB raw");
    }

    #[test]
    fn each_script_names_the_other_and_every_part_by_the_name_it_is_served_under() {
        let house = House::here().expect("the tests run inside the workspace");
        let bound = std::env::temp_dir().join(format!("shaftbook-layout-{}", std::process::id()));
        let made = [
            (
                "app.js",
                "import * as parts from \"./parts.js\"; fetch(\"app_bg.wasm\", { \"./parts.js\": parts });",
            ),
            (PARTS, "import { initSync } from \"./app.js\"; fetch(\"./split_practice.wasm\");"),
            ("split_practice.wasm", "practice"),
            ("app.wasm", "what is left before it is bound"),
        ];
        for (name, text) in made {
            write(&bound.join(name), text.as_bytes()).ok();
        }
        let mut files = Files::new();
        let script = scripts(&house, &bound, "app-1.wasm", &mut files).unwrap_or_default();
        let _ = std::fs::remove_dir_all(&bound);
        let text = |name: &str| String::from_utf8_lossy(&files[name]).into_owned();
        let parts = files.keys().find(|name| name.starts_with("parts-")).expect("the second script");
        let named = "fetch(\"app-1.wasm\", { \"./parts.js\": parts });";
        assert_eq!(text(&script), format!("import * as parts from \"./{parts}\"; {named}"));
        let part = files.keys().find(|name| name.starts_with("part-practice-")).expect("the part");
        assert_eq!(text(parts), format!("import {{ initSync }} from \"./{script}\"; fetch(\"./{part}\");"));
        assert_eq!((first(part), first(&script), first(parts)), (false, true, true));
        assert_eq!(files.len(), 3);
    }

    #[test]
    fn a_worker_without_its_marks_is_refused() {
        assert!(with_worker(Files::from([(WORKER.to_owned(), b"//".to_vec())])).is_err());
        assert!(with_worker(Files::new()).is_err());
    }
}
