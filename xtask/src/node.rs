//! Packages from npm that the build of the app and the tests in the browser need.
//!
//! Four of them, at exact versions in `browser/package.json`: the optimiser of the wasm file, the driver of
//! the browser, the checker of accessibility, and what lets a bench print from within a page. None is part of
//! what a tablet downloads.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;
use std::path::PathBuf;

/// The folder of the packages and of the tests that use them.
pub(crate) const FOLDER: &str = "browser";
/// A copy of the lock file as it was installed; when it differs, the packages are installed again.
const INSTALLED: &str = "browser/node_modules/installed-lock.json";

/// Installs the packages where they are missing or others.
///
/// # Errors
/// No Node.js, no npm, or packages that could not be fetched.
pub(crate) fn ready(house: &House) -> Result<(), Notice> {
    let wanted = std::fs::read(house.path("browser/package-lock.json")).unwrap_or_default();
    if !wanted.is_empty() && std::fs::read(house.path(INSTALLED)).is_ok_and(|there| there == wanted) {
        return Ok(());
    }
    println!("    installing the packages of browser/package-lock.json: npm ci");
    let ran = shell::stream(house.command("npm").args(["ci", "--silent", "--prefix", FOLDER]));
    match ran {
        Ok(ran) if ran.success => std::fs::write(house.path(INSTALLED), wanted).map_err(|error| {
            Notice::new(
                format!("{INSTALLED} could not be written ({error})."),
                "The packages would be installed again every time.",
                "Make the folder browser writable.",
            )
        }),
        failed => Err(Notice::new(
            failed.err().map_or_else(|| "`npm ci` failed.".to_owned(), |notice| notice.what),
            "The app cannot be made small, and nothing can be tried in a browser.",
            "Install Node.js 20 or newer with npm (Debian: apt-get install nodejs npm), look at the connection, \
             and type the command again.",
        )),
    }
}

/// A program of the packages.
pub(crate) fn program(house: &House, name: &str) -> PathBuf {
    house.path(&format!("{FOLDER}/node_modules/.bin/{name}"))
}
