//! Where the workspace lies and how its commands are started.
//!
//! Every chore works from the top of the workspace, whichever folder it was called in.

use crate::notice::Notice;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The workspace on this machine.
#[derive(Debug)]
pub(crate) struct House {
    root: PathBuf,
}

impl House {
    /// The workspace this program was started in.
    ///
    /// # Errors
    /// When no folder from here upwards holds the workspace.
    pub(crate) fn here() -> Result<Self, Notice> {
        let start = std::env::var_os("CARGO_MANIFEST_DIR").map(PathBuf::from);
        let start = start.or_else(|| std::env::current_dir().ok()).unwrap_or_default();
        let root = start.ancestors().find(|folder| folder.join("rust-toolchain.toml").is_file());
        root.map(|root| House { root: root.to_owned() }).ok_or_else(|| {
            Notice::new(
                "The workspace was not found from this folder upwards.",
                "Nothing was done.",
                "Change into the folder of the clone and type the command again.",
            )
        })
    }

    /// A path inside the workspace.
    pub(crate) fn path(&self, inside: &str) -> PathBuf {
        self.root.join(inside)
    }

    /// The top folder.
    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// A program started at the top of the workspace.
    pub(crate) fn command(&self, program: impl AsRef<std::ffi::OsStr>) -> Command {
        let mut command = Command::new(program);
        command.current_dir(&self.root);
        command
    }

    /// The cargo that started this program, so that the pinned toolchain is kept.
    pub(crate) fn cargo(&self, words: &[&str]) -> Command {
        let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
        let mut command = self.command(cargo);
        command.args(words);
        command
    }

    /// Files directly in `folder` whose names end in `ending`, in name order; empty when there is no folder.
    pub(crate) fn files(&self, folder: &str, ending: &str) -> Vec<PathBuf> {
        let entries = std::fs::read_dir(self.path(folder)).into_iter().flatten().flatten();
        let mut found: Vec<PathBuf> = entries
            .map(|entry| entry.path())
            .filter(|path| path.is_file() && path.to_string_lossy().ends_with(ending))
            .collect();
        found.sort();
        found
    }

    /// Folders directly in `folder`, in name order.
    pub(crate) fn folders(&self, folder: &str) -> Vec<PathBuf> {
        let entries = std::fs::read_dir(self.path(folder)).into_iter().flatten().flatten();
        let mut found: Vec<PathBuf> =
            entries.map(|entry| entry.path()).filter(|path| path.is_dir()).collect();
        found.sort();
        found
    }

    /// A path as a person reads it: from the top of the workspace.
    pub(crate) fn shown(&self, path: &Path) -> String {
        path.strip_prefix(&self.root).unwrap_or(path).display().to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_workspace_is_found_and_its_files_are_listed_in_order() {
        let house = House::here().expect("the tests run inside the workspace");
        let names: Vec<String> =
            house.files("xtask/src", ".rs").iter().map(|path| house.shown(path)).collect();
        assert!(names.contains(&"xtask/src/house.rs".to_owned()), "{names:?}");
        assert!(names.is_sorted());
        assert_eq!(house.files("no such folder", ".rs"), Vec::<PathBuf>::new());
    }
}
