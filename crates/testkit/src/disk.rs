//! A small disk that can really be filled: a file system of its own, in memory, of so many megabytes.
//!
//! Mounting one takes the rights of root. Where that cannot be, the test says so and fails, unless whoever runs it was told
//! before: `cargo xtask test` looks first, says that a full disk is not tried, and sets [`NONE_HERE`].
//!
//! Never: fill a disk that somebody else uses.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use tempfile::TempDir;

/// Set where no small disk can be mounted and a person was told so.
pub const NONE_HERE: &str = "SHAFTBOOK_NO_SMALL_DISK";

const BLOCK: [u8; 4096] = [0x5a; 4096];

/// A disk that is taken away when the test leaves it.
pub struct SmallDisk {
    folder: TempDir,
}

impl SmallDisk {
    /// A disk of so many megabytes; `None` where none can be had and a person was told so.
    ///
    /// # Panics
    /// Where none can be had and nobody was told.
    pub fn new(megabytes: u32) -> Option<Self> {
        let folder = tempfile::tempdir().expect("a folder");
        let size = format!("size={megabytes}m,mode=0777");
        let mut mount = Command::new("mount");
        mount.args(["-t", "tmpfs", "-o", &size, "none"]).arg(folder.path()).stderr(Stdio::null());
        if mount.status().is_ok_and(|status| status.success()) {
            return Some(SmallDisk { folder });
        }
        let told = std::env::var_os(NONE_HERE).is_some();
        assert!(told, "no small disk can be mounted (it takes root): what a full one does was not tried");
        None
    }

    /// Where it is.
    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Fills it with something else until so many kilobytes are free.
    ///
    /// # Panics
    /// When it cannot be filled.
    pub fn fill(&self, kilobytes_left: usize) {
        let mut file = std::fs::File::create(self.filling()).expect("a file");
        while file.write_all(&BLOCK).is_ok() {}
        let length = file.metadata().expect("a file").len();
        file.set_len(length.saturating_sub(kilobytes_left as u64 * 1024)).expect("made shorter");
    }

    /// Takes away what filled it.
    ///
    /// # Panics
    /// When nothing did.
    pub fn clear(&self) {
        std::fs::remove_file(self.filling()).expect("it was filled");
    }

    fn filling(&self) -> PathBuf {
        self.path().join("something-else")
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        // What still uses it keeps it until it lets go.
        let _ = Command::new("umount").arg("-l").arg(self.path()).status();
    }
}
