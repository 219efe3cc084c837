//! A small disk for the tests to fill, where this machine lets one be mounted.

use std::process::{Command, Stdio};

/// Tells the tests that there is none, and that a person was told so.
const NONE_HERE: &str = "SHAFTBOOK_NO_SMALL_DISK";

/// Looks whether one can be mounted; where not, says so and gives what tells the tests.
pub(crate) fn small() -> Option<(&'static str, &'static str)> {
    if mounts() {
        return None;
    }
    println!(
        "    No small disk can be mounted here (it takes root): what a full disk does to an office is not tried."
    );
    Some((NONE_HERE, "1"))
}

fn mounts() -> bool {
    let folder = std::env::temp_dir().join(format!("shaftbook-small-disk-{}", std::process::id()));
    if std::fs::create_dir(&folder).is_err() {
        return false;
    }
    let quiet = |program: &str, words: &[&str]| {
        let mut command = Command::new(program);
        command.args(words).arg(&folder).stderr(Stdio::null());
        command.status().is_ok_and(|status| status.success())
    };
    let mounted = quiet("mount", &["-t", "tmpfs", "-o", "size=1m", "none"]);
    if mounted {
        quiet("umount", &["-l"]);
    }
    let _ = std::fs::remove_dir(&folder);
    mounted
}
