//! The table of refusals: each word once, with its HTTP status, what it means and who does what.
//!
//! The sentences are here so that the same words stand on every device, whichever program answered.
//!
//! Never: name a type of the program; leave a person without a next step.

use crate::LineFault;

/// Whether asking again can help.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Again {
    /// Later, by itself: the device tries again.
    Later,
    /// After the device was paired.
    Paired,
    /// In smaller parts.
    Smaller,
    /// Never as it is: somebody has to look.
    Never,
}

/// One row of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Code {
    /// The stable word.
    pub word: &'static str,
    /// The HTTP status it comes with; 422 for a refused line, which comes inside an answer of status 200;
    /// 200 for what is only told.
    pub status: u16,
    /// Whether asking again can help.
    pub again: Again,
    /// What it means for the record.
    pub meaning: &'static str,
    /// What to do now.
    pub next: &'static str,
}

macro_rules! codes {
    ($($name:ident = $word:literal $status:literal $again:ident $meaning:literal $next:literal;)*) => {
        impl Code {
            $(
                #[doc = concat!("`", $word, "`: ", $meaning)]
                pub const $name: &'static Code = &Code {
                    word: $word,
                    status: $status,
                    again: Again::$again,
                    meaning: $meaning,
                    next: $next,
                };
            )*
        }

        /// Every code, by status and word.
        pub const CODES: &[&Code] = &[$(Code::$name),*];
    };
}

codes! {
    CLOCK_FAR = "clock-far" 200 Never
        "The entry is kept with the times as they were written; nobody corrects them silently."
        "Set the clock of the device. Where a time is wrong, strike the entry through and write it again.";
    MALFORMED = "malformed" 400 Never
        "Nothing was taken in."
        "Update the app and the desk to the same version; if it stays, send the request's name to support.";
    NOT_PAIRED = "not-paired" 401 Paired
        "Nothing was exchanged. What is written stays on the device and waits."
        "Pair the device with a code from the desk.";
    NOT_SIGNED_IN = "not-signed-in" 401 Never
        "Nothing was shown or changed."
        "Sign in, and do it again.";
    CODE_WRONG = "code-wrong" 403 Never
        "The device is not paired; its record is untouched."
        "Read the code on the desk again. A code serves once and for ten minutes; ask for a new one.";
    NOT_FROM_HERE = "not-from-here" 403 Never
        "Nothing was shown or changed."
        "Open this page on the machine the desk runs on.";
    SIGN_IN_WRONG = "sign-in-wrong" 403 Never
        "Nobody was let in; nothing was changed."
        "Check name and password. Who has lost a password asks a manager of the office for a new invitation.";
    INVITATION_WRONG = "invitation-wrong" 403 Never
        "Nobody was let in; nothing was changed."
        "An invitation serves once and for seven days. Ask whoever sent it for a new one.";
    PASSKEY_WRONG = "passkey-wrong" 403 Never
        "Nobody was let in, no passkey was added, and nothing else was changed."
        "Try once more. If it stays, sign in with the password, and look over your passkeys on your own page.";
    NO_ROLE = "no-role" 403 Never
        "Nothing was shown or changed. What was written stays where it is."
        "Ask a manager of the job for the role.";
    OTHER_PAGE = "other-page" 403 Never
        "Nothing was changed: another page may have sent this without anybody knowing."
        "Open the page of the office itself and do it there.";
    SET_ASIDE = "set-aside" 403 Never
        "The entry is kept in the office, marked, and is not part of the record; it stays on the device too."
        "A manager of the job lets it in, with a reason. A device that was let go is paired again before it writes more.";
    NOT_FOUND = "not-found" 404 Never
        "The desk has nothing under that name; nothing was changed."
        "Check the name. What a device has not yet sent cannot be here.";
    WRONG_METHOD = "wrong-method" 405 Never
        "Nothing was changed."
        "Update the app and the desk to the same version.";
    TOO_SLOW = "too-slow" 408 Later
        "Nothing was taken in; the device keeps it and sends it again."
        "Nothing to do; move to where the connection is better if it stays.";
    SAME_ID = "same-id" 409 Never
        "The desk keeps the one it has; the other stays on the device."
        "Do not erase the device. Save its record as a file and let the office compare both.";
    LAST_MANAGER = "last-manager" 409 Never
        "Nothing was changed: nobody lost a role, and nobody was let go."
        "Make somebody else manager of every job, wait until that person came in once, and do it again.";
    TOO_LARGE = "too-large" 413 Smaller
        "It was not taken in; it stays on the device."
        "Nothing to do for entries, they are sent in smaller parts. Take a photo again at a smaller size.";
    PASSWORD_WEAK = "password-weak" 422 Never
        "Nothing was changed."
        "Choose another password. A sentence only you would write is easy to keep and hard to guess.";
    BAD_HASH = "bad-hash" 422 Never
        "The file was not kept, because it is not the one that was named."
        "Send it again. If it stays, take the photo again.";
    LINE_UNREADABLE = "line-unreadable" 422 Never
        "This line was not taken in; every other line was."
        "Save the record as a file and send it to support; the file it came from may be damaged.";
    LINE_ALTERED = "line-altered" 422 Never
        "This entry was not taken in, because it is not what its device signed; every other one was."
        "Keep the device as it is and find out where the entry came from; the original may be on its device.";
    LINE_TOO_LARGE = "line-too-large" 422 Never
        "This entry was not taken in; every other one was. It stays on the device."
        "Strike it through and write it in parts.";
    PACKAGE_FAILED = "package-failed" 422 Never
        "No package was made; the record is untouched."
        "Look at what is said of the shaft and complete its record.";
    TOO_MANY = "too-many" 429 Later
        "Nothing was taken in; what is written waits on the device."
        "Wait a minute; the device tries again by itself.";
    INTERNAL = "internal" 500 Later
        "The desk could not finish this; what was acknowledged before is kept."
        "The device tries again. Look into the desk's journal under the request's name.";
    DESK_BUSY = "desk-busy" 503 Later
        "Nothing was taken in; what is written waits on the device."
        "Nothing to do; the device tries again by itself.";
    DESK_DAMAGED = "desk-damaged" 503 Later
        "The desk keeps nothing new until it is repaired; every device keeps what it has."
        "In the office: run the check command and restore the last backup; the devices then send what it lacks.";
    DESK_FULL = "desk-full" 507 Later
        "Nothing was taken in; what is written waits on the device."
        "In the office: make room on the desk's disk. The device tries again by itself.";
}

impl Code {
    /// The row of a word.
    pub fn named(word: &str) -> Option<&'static Code> {
        CODES.iter().copied().find(|code| code.word == word)
    }

    /// The row for a line that is no entry.
    pub fn of_fault(fault: &LineFault) -> &'static Code {
        match fault {
            LineFault::NotJson(_) | LineFault::Member(_) | LineFault::Body(_) => Code::LINE_UNREADABLE,
            LineFault::NotCanonical | LineFault::IdDisagrees | LineFault::NotSealed => Code::LINE_ALTERED,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_stands_once_in_the_order_of_its_status() {
        let statuses: Vec<u16> = CODES.iter().map(|code| code.status).collect();
        assert!(statuses.is_sorted(), "{statuses:?}");
        let words: std::collections::BTreeSet<&str> = CODES.iter().map(|code| code.word).collect();
        assert_eq!(words.len(), CODES.len());
        for code in CODES {
            assert_eq!(Code::named(code.word), Some(*code));
            assert!(code.meaning.ends_with('.') && code.next.ends_with('.'), "{}", code.word);
        }
        assert_eq!(Code::named("line-lost"), None);
    }

    #[test]
    fn what_passes_by_itself_has_a_status_that_says_so() {
        for code in CODES {
            let passing = matches!(code.status, 408 | 429 | 500..=599);
            assert_eq!(code.again == Again::Later, passing, "{}", code.word);
        }
    }

    /// The table of docs/sync.md is this one.
    #[test]
    fn the_manual_names_every_code() {
        let manual = include_str!("../../../../docs/sync.md");
        let named = manual.lines().filter(|line| line.starts_with("| `") && line.matches('|').count() == 4);
        let named: Vec<String> =
            named.map(|line| line.split('|').take(3).collect::<Vec<_>>().join("|")).collect();
        let expected: Vec<String> =
            CODES.iter().map(|code| format!("| `{}` | {} ", code.word, code.status)).collect();
        assert_eq!(named, expected);
    }
}
