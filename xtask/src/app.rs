//! The browser app, from Rust to the files a tablet downloads: `cargo xtask app [--quick] [--out FOLDER]`.
//!
//! Compiled for wasm, its parts put into files of their own, bound to the browser, made small, and laid out in
//! `out/app` with a hash in every name that may be kept for ever. `shaftbook` embeds that folder when it is built.
//!
//! Words: *quick* = a debug build, for people who work on the app; *first load* = everything the browser needs
//! before the first screen; *part* = what is fetched when somebody needs it, such as practice.

use crate::house::House;
use crate::notice::Notice;
use crate::tally::Tally;
use crate::toolchain::{self, WASM};
use crate::{layout, node, shell};
use std::path::{Path, PathBuf};

/// Where the app is laid out, from the top of the workspace.
pub(crate) const OUT: &str = "out/app";
/// What `wasm-opt` may use: all of it is in every browser of the last years.
const FEATURES: &[&str] = &[
    "--enable-bulk-memory",
    "--enable-bulk-memory-opt",
    "--enable-nontrapping-float-to-int",
    "--enable-sign-ext",
    "--enable-mutable-globals",
    "--enable-reference-types",
    "--enable-multivalue",
];

/// How it is built.
struct Wish {
    quick: bool,
    shrink: bool,
    out: PathBuf,
}

/// Builds the app as the words after `cargo xtask app` ask.
///
/// # Errors
/// Words that are not understood, or a stage that fails.
pub(crate) fn run(house: &House, words: &[String]) -> Result<(), Notice> {
    build(house, &wish(house, words)?)
}

/// The app as a step of `cargo xtask test` and before the demo: small, in its own folder.
///
/// # Errors
/// A stage that fails.
pub(crate) fn step(house: &House) -> Result<Tally, Notice> {
    build(house, &Wish { quick: false, shrink: true, out: house.path(OUT) }).map(|()| Tally::default())
}

/// The app before the demo: where the optimiser cannot be had, it is left larger, and that is said.
///
/// # Errors
/// A stage that fails.
pub(crate) fn before_demo(house: &House) -> Result<(), Notice> {
    let shrunk = node::ready(house);
    if let Err(notice) = &shrunk {
        println!("{notice}\n    The app is left larger than it has to be.");
    }
    build(house, &Wish { quick: false, shrink: shrunk.is_ok(), out: house.path(OUT) })
}

fn wish(house: &House, words: &[String]) -> Result<Wish, Notice> {
    let mut wish = Wish { quick: false, shrink: true, out: house.path(OUT) };
    let mut rest = words.iter().map(String::as_str);
    while let Some(word) = rest.next() {
        match (word, rest.clone().next()) {
            ("--quick", _) => wish.quick = true,
            ("--out", Some(folder)) => {
                wish.out = house.root().join(folder);
                rest.next();
            }
            _ => {
                return Err(Notice::new(
                    format!("`{word}` was not understood."),
                    "Nothing was built.",
                    "Type: cargo xtask app [--quick] [--out FOLDER]",
                ));
            }
        }
    }
    Ok(wish)
}

fn build(house: &House, wish: &Wish) -> Result<(), Notice> {
    toolchain::target(house)?;
    let wasm = compile(house, wish.quick)?;
    let bound = target(house).join(if wish.quick { "bound-quick" } else { "bound" });
    let parts = split(&wasm, &bound)?;
    bind(&bound.join(MAIN), &bound, wish.quick)?;
    if wish.shrink && !wish.quick {
        node::ready(house)?;
        let main = bound.join("app_bg.wasm");
        // The optimiser uses one core, and most of its time goes into the file that is not a part.
        std::thread::scope(|scope| {
            let all = [&main].into_iter().chain(&parts);
            let under_way: Vec<_> = all.map(|wasm| scope.spawn(|| shrink(house, wasm))).collect();
            under_way.into_iter().try_for_each(|one| one.join().expect("the optimiser is only waited for"))
        })?;
    }
    let laid = layout::lay_out(house, &bound, &wish.out, !wish.quick)?;
    println!("    {laid}");
    Ok(())
}

fn compile(house: &House, quick: bool) -> Result<PathBuf, Notice> {
    let profile = if quick { "dev" } else { "app" };
    let time = if quick { "a minute or two" } else { "about 5 minutes" };
    println!("    compiling the app for the browser ({time} on a fresh clone with 2 cores)");
    let words = ["build", "--quiet", "--package", "app", "--target", WASM, "--profile", profile];
    if !shell::stream(&mut house.cargo(&words))?.success {
        return Err(Notice::new(
            "The app did not build.",
            "There is nothing a tablet could load.",
            "Read the compiler's message above.",
        ));
    }
    let folder = if quick { "debug" } else { "app" };
    Ok(target(house).join(WASM).join(folder).join("app.wasm"))
}

/// What is left of the app without its parts, before it is bound.
const MAIN: &str = "app.wasm";
/// The script that fetches the parts.
pub(crate) const PARTS: &str = "parts.js";

/// Puts the parts of the app into files of their own, beside the rest and the script that fetches them.
fn split(wasm: &Path, out: &Path) -> Result<Vec<PathBuf>, Notice> {
    let wrong = |error: String| {
        Notice::new(
            format!("The parts of the app could not be put into files of their own: {error}."),
            "There is nothing a tablet could load.",
            "`wasm_split_cli_support` in xtask has to fit the `wasm_split_helpers` of leptos in Cargo.lock.",
        )
    };
    // A part that is no longer there would be laid out with the others.
    if out.exists() {
        std::fs::remove_dir_all(out).map_err(|error| wrong(error.to_string()))?;
    }
    let input = std::fs::read(wasm).map_err(|error| wrong(error.to_string()))?;
    let (main, link) = (out.join(MAIN), format!("./{PARTS}"));
    let mut options = wasm_split_cli_support::Options::new(&input);
    (options.output_dir, options.main_out_path) = (out, &main);
    (options.main_module, options.link_name) = ("./app.js", &link);
    let done = wasm_split_cli_support::transform(options).map_err(|error| wrong(format!("{error:#}")))?;
    Ok(done.split_modules)
}

/// Writes `app.js` and `app_bg.wasm`.
fn bind(wasm: &Path, out: &Path, quick: bool) -> Result<(), Notice> {
    let mut bindgen = wasm_bindgen_cli_support::Bindgen::new();
    let bound = bindgen.input_path(wasm).web(true).map(|bindgen| {
        bindgen
            .typescript(false)
            // The parts call what the rest hands out.
            .keep_lld_exports(true)
            .out_name("app")
            .debug(quick)
            .keep_debug(quick)
            .remove_producers_section(true)
    });
    bound.and_then(|bindgen| bindgen.generate(out)).map_err(|error| {
        Notice::new(
            format!("The bindings could not be made: {error:#}."),
            "There is nothing a tablet could load.",
            "`wasm-bindgen` in crates/app and `wasm-bindgen-cli-support` in xtask must have the same version.",
        )
    })
}

fn shrink(house: &House, wasm: &Path) -> Result<(), Notice> {
    let mut command = house.command(node::program(house, "wasm-opt"));
    command.args(FEATURES).args(["-q", "-Oz"]).arg(wasm).arg("-o").arg(wasm);
    match shell::stream(&mut command)?.success {
        true => Ok(()),
        false => Err(Notice::new(
            format!("`{}` failed.", shell::spoken(&command)),
            "The app would be larger than it has to be.",
            "Read its message above.",
        )),
    }
}

/// Where cargo builds to.
pub(crate) fn target(house: &House) -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR")
        .map_or_else(|| house.path("target"), |folder| house.root().join(folder))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_after_the_chore_are_understood_or_refused() {
        let house = House::here().expect("the tests run inside the workspace");
        let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        let asked = wish(&house, &words("--quick --out out/mine")).ok();
        assert_eq!(asked.map(|wish| (wish.quick, wish.out)), Some((true, house.path("out/mine"))));
        for wrong in ["--fast", "--out", "out/mine"] {
            assert!(wish(&house, &words(wrong)).is_err(), "{wrong}");
        }
    }
}
