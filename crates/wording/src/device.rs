//! What a tablet tells about itself: its storage, its clock, its way to the office, the files it reads.
//!
//! The worst a tool at the hole can do is to lose an entry and not say so. Each of these says whether what
//! was written is kept, and where.
//!
//! Words: *office* = where the desk program runs; *tab* = one of several open pages of the app.
//! Never: say "saved" of anything the browser has not confirmed.

use crate::Notice;

/// Something a tablet has to tell about itself.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Told {
    /// Nobody is named who writes.
    NobodyNamed,
    /// The storage has no room for what was entered.
    NoRoom,
    /// The storage is nearly full.
    NearlyFull {
        /// Share of the room that is used, percent.
        percent: u32,
    },
    /// The browser keeps nothing for this page.
    NoStorage,
    /// The storage was written by a newer version of the app.
    NewerStorage,
    /// A tab with an older version of the app holds the storage.
    OlderTab,
    /// The storage was given to a newer version in another tab, or the browser closed it.
    StorageClosed,
    /// The browser did not store, in its own words.
    NotStored(String),
    /// Entries said to wait are no longer in the storage.
    EntriesGone {
        /// How many.
        count: usize,
    },
    /// A kept line is damaged.
    LineDamaged {
        /// The job.
        job: String,
        /// How many lines.
        count: usize,
    },
    /// This tablet's clock differs from the desk's.
    ClockOff {
        /// Seconds this one is ahead; negative: behind.
        ahead: i64,
    },
    /// The office does not answer.
    OfficeSilent,
    /// The answer did not come from a desk.
    NoDesk {
        /// HTTP status.
        status: u16,
    },
    /// An office that never knew this tablet was asked for something.
    NotPaired,
    /// Two entries of one tablet have one number.
    Cloned {
        /// Short name of the tablet.
        device: String,
        /// The number.
        seq: u64,
        /// It is this one.
        own: bool,
    },
    /// The desk lacks what it had acknowledged.
    DeskSetBack {
        /// The job.
        job: String,
        /// Entries that are offered again.
        offered: usize,
    },
    /// The desk sent a line that is not what a device signed.
    DeskLineDoubted {
        /// The job.
        job: String,
        /// What is wrong with it.
        why: String,
    },
    /// A job of that name is here already.
    JobTaken {
        /// The name.
        job: String,
    },
    /// Not the name of a job.
    JobName {
        /// As typed.
        found: String,
    },
    /// A file of entries has lines that are none.
    FileLines {
        /// The first few, each with its line number and what is wrong.
        lines: Vec<String>,
        /// How many there are in all.
        count: usize,
    },
    /// A file of entries is empty.
    FileEmpty,
    /// A file holds a content under an id that another content has here.
    SameId {
        /// First digits of the id.
        id: String,
    },
    /// The photo is too large.
    PhotoTooLarge {
        /// Its size in megabytes, rounded up.
        megabytes: usize,
        /// The most that is kept.
        most: usize,
    },
    /// The file that was taken as a photo is no picture.
    NoPicture {
        /// What it is called.
        name: String,
    },
    /// An entry speaks of a job that is not the one it was handed in for.
    OtherJob {
        /// The job.
        here: String,
        /// The other.
        there: String,
    },
}

/// What a person is told.
pub fn told(told: &Told) -> Notice {
    storage(told).or_else(|| kept(told)).or_else(|| office(told)).unwrap_or_else(|| file(told))
}

const KEPT: &str = "What you entered is still in the form; it is not saved.";

fn storage(told: &Told) -> Option<Notice> {
    let (code, what, meaning, next) = match told {
        Told::NobodyNamed => {
            let what = "Nobody is named who writes on this tablet.".to_owned();
            ("nobody_named", what, KEPT, "Put your name in under Settings, then save again.")
        }
        Told::NoRoom => {
            let what = "This tablet has no room left for the app.".to_owned();
            let next =
                "Remove files or photos from the tablet, then save again. Do not clear the browser's data.";
            ("no_room", what, KEPT, next)
        }
        Told::NearlyFull { percent } => {
            let what = format!("{percent} % of the room this tablet gives the app is used.");
            let meaning = "Everything so far is saved. Soon nothing more can be.";
            let next =
                "Make room on the tablet, and let what waits be sent. Do not clear the browser's data.";
            ("nearly_full", what, meaning, next)
        }
        Told::NoStorage => {
            let what = "The browser keeps nothing for this page, as in a private window.".to_owned();
            let meaning = "Nothing can be saved here, and nothing is lost that was saved before.";
            ("no_storage", what, meaning, "Open the app in an ordinary window, and allow it to store data.")
        }
        Told::NewerStorage => {
            let what = "The entries on this tablet were kept by a newer version of the app.".to_owned();
            let meaning = "They are safe. This older version must not touch them.";
            (
                "newer_storage",
                what,
                meaning,
                "Close every tab of the app and open it again with a connection.",
            )
        }
        Told::OlderTab => {
            let what = "Another tab has an older version of the app open.".to_owned();
            let meaning = "Nothing can be saved in this tab until that one is closed; nothing is lost.";
            ("older_tab", what, meaning, "Close the other tabs of the app, then load this one again.")
        }
        Told::StorageClosed => {
            let what =
                "The storage of this tab was closed: another tab runs a newer version, or the browser \
                        cleared it."
                    .to_owned();
            ("storage_closed", what, KEPT, "Note down what is in the form, and load this page again.")
        }
        Told::NotStored(why) => {
            let what = format!("The browser did not store it ({why}).");
            ("not_stored", what, KEPT, "Save again. If it stays, write it on paper and load the page again.")
        }
        _ => return None,
    };
    Some(Notice::new(code, what, meaning, next))
}

/// What is wrong with what was kept, or with the clock it was dated by.
fn kept(told: &Told) -> Option<Notice> {
    let (code, what, meaning, next) = match told {
        Told::EntriesGone { count } => {
            let what = format!("Entries that waited to be sent and are no longer on this tablet: {count}.");
            let meaning = "The browser lost them, and the office has not got them.";
            ("entries_gone", what, meaning, "Enter them again from paper, and have the tablet looked at.")
        }
        Told::LineDamaged { job, count } => {
            let what = format!("Damaged entries of job {job} on this tablet: {count}.");
            let meaning = "They are left as they are and not shown; every other entry is whole.";
            ("line_damaged", what, meaning, "Read the record in from another tablet or from the office.")
        }
        Told::ClockOff { ahead } => {
            let (minutes, side) =
                (ahead.unsigned_abs().div_ceil(60), if *ahead < 0 { "behind" } else { "ahead of" });
            let what =
                format!("The clock of this tablet is about {} {side} that of the office.", span(minutes));
            let meaning =
                "Entries keep the times this tablet gave them; ages of concrete may be wrong by that.";
            ("clock_off", what, meaning, "Set the tablet's clock, and check the times of the last entries.")
        }
        _ => return None,
    };
    Some(Notice::new(code, what, meaning, next))
}

fn office(told: &Told) -> Option<Notice> {
    let (code, what, meaning, next) = match told {
        Told::OfficeSilent => {
            let what = "The office does not answer.".to_owned();
            let next = "Check the connection. What waits is sent by itself as soon as there is one.";
            ("office_silent", what, "Everything is kept on this tablet.", next)
        }
        Told::NoDesk { status } => {
            let what = format!("Something answered that is not the desk program (status {status}).");
            let next = "Check the address, and whether this network wants a sign-in of its own.";
            ("no_desk", what, "Nothing was sent; everything is kept on this tablet.", next)
        }
        Told::NotPaired => {
            let what = "The office does not know this tablet.".to_owned();
            let meaning = "Everything is kept here and waits; nothing was sent.";
            ("not_paired", what, meaning, "Have a code shown at the desk, and enter it under Pair.")
        }
        Told::Cloned { device, seq, own: true } => {
            let what = format!("This tablet ({device}) has written two entries under number {seq}.");
            let meaning = "It was copied or set back to an earlier state. Both entries are kept and shown.";
            ("cloned_here", what, meaning, "Write on another tablet, and tell the office today.")
        }
        Told::Cloned { device, seq, own: false } => {
            let what = format!("Tablet {device} has written two entries under number {seq}.");
            let meaning = "It was copied or set back to an earlier state. Both entries are kept and shown.";
            ("cloned", what, meaning, "Ask whoever holds that tablet, and tell the office.")
        }
        Told::DeskSetBack { job, offered } => {
            let what = format!("The desk lacks entries of job {job} that it had before.");
            let meaning = format!(
                "It was set back, as by a backup. {} on this tablet are sent again.",
                entries(*offered)
            );
            let next = "Keep this tablet as it is until all is sent, and tell the office.";
            return Some(Notice::new("desk_set_back", what, &meaning, next));
        }
        Told::DeskLineDoubted { job, why } => {
            let what = format!("The desk sent a line of job {job} that is not what a device signed: {why}.");
            let meaning = "It was not taken in; every other line was.";
            ("desk_line_doubted", what, meaning, "Tell the office to run the check of the desk's database.")
        }
        _ => return None,
    };
    Some(Notice::new(code, what, meaning, next))
}

fn file(told: &Told) -> Notice {
    const NOTHING: &str = "Nothing was read in; the record is as it was.";
    let (code, what, meaning, next) = match told {
        Told::JobTaken { job } => {
            let what = format!("A job {job} is on this tablet already.");
            ("job_taken", what, "No job was begun.", "Choose another short name, or open that job.")
        }
        Told::JobName { found } => {
            let what = format!("“{found}” is not the short name of a job.");
            (
                "job_name",
                what,
                "No job was begun.",
                "Use small letters, digits and hyphens, such as creek-road-2.",
            )
        }
        Told::FileLines { lines, count } => {
            let lines = lines.join("; ");
            let what = format!("Lines of the file that are no entries, or were altered: {count} ({lines}).");
            ("file_lines", what, NOTHING, "Get the file again from where it was made.")
        }
        Told::SameId { id } => {
            let what = format!("The file has another content under the id {id} than this tablet.");
            ("same_id", what, NOTHING, "Keep both, and let the office compare them.")
        }
        Told::PhotoTooLarge { megabytes, most } => {
            let what = format!("The photo has {megabytes} MB; at most {most} MB are kept.");
            ("photo_too_large", what, "The photo was not kept.", "Take it again at a smaller size.")
        }
        Told::NoPicture { name } => {
            let what = format!("{name} is no picture that a camera makes.");
            let next = "Take a photo, or choose a picture (JPEG, PNG, WebP, HEIC).";
            ("no_picture", what, "It was not kept; the rest of the form stands as it was.", next)
        }
        Told::OtherJob { here, there } => {
            let what = format!("An entry of job {there} was handed in with those of job {here}.");
            ("other_job", what, NOTHING, "Open that job and read it in there.")
        }
        _ => {
            let what = "There is no entry in the file.".to_owned();
            ("file_empty", what, NOTHING, "Choose the file that was saved as a record.")
        }
    };
    Notice::new(code, what, meaning, next)
}

fn entries(count: usize) -> String {
    if count == 1 { "1 entry".to_owned() } else { format!("{count} entries") }
}

fn span(minutes: u64) -> String {
    match minutes {
        0..=1 => "1 minute".to_owned(),
        2..=119 => format!("{minutes} minutes"),
        120..=2879 => format!("{} hours", minutes / 60),
        _ => format!("{} days", minutes / 1440),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use expect_test::{Expect, expect};

    #[track_caller]
    fn check(said: &[Told], expected: Expect) {
        let text: Vec<String> = said.iter().map(|said| told(said).to_string()).collect();
        expected.assert_eq(&text.join("\n\n"));
    }

    #[test]
    fn storage_says_whether_what_was_entered_is_kept() {
        check(
            &[
                Told::NobodyNamed,
                Told::NoRoom,
                Told::NearlyFull { percent: 93 },
                Told::NoStorage,
                Told::NewerStorage,
                Told::OlderTab,
                Told::StorageClosed,
                Told::NotStored("UnknownError: disk".into()),
                Told::EntriesGone { count: 1 },
                Told::LineDamaged { job: "creek-road".into(), count: 2 },
            ],
            expect![[r#"
                Nobody is named who writes on this tablet.
                What you entered is still in the form; it is not saved.
                Put your name in under Settings, then save again.
                (nobody_named)

                This tablet has no room left for the app.
                What you entered is still in the form; it is not saved.
                Remove files or photos from the tablet, then save again. Do not clear the browser's data.
                (no_room)

                93 % of the room this tablet gives the app is used.
                Everything so far is saved. Soon nothing more can be.
                Make room on the tablet, and let what waits be sent. Do not clear the browser's data.
                (nearly_full)

                The browser keeps nothing for this page, as in a private window.
                Nothing can be saved here, and nothing is lost that was saved before.
                Open the app in an ordinary window, and allow it to store data.
                (no_storage)

                The entries on this tablet were kept by a newer version of the app.
                They are safe. This older version must not touch them.
                Close every tab of the app and open it again with a connection.
                (newer_storage)

                Another tab has an older version of the app open.
                Nothing can be saved in this tab until that one is closed; nothing is lost.
                Close the other tabs of the app, then load this one again.
                (older_tab)

                The storage of this tab was closed: another tab runs a newer version, or the browser cleared it.
                What you entered is still in the form; it is not saved.
                Note down what is in the form, and load this page again.
                (storage_closed)

                The browser did not store it (UnknownError: disk).
                What you entered is still in the form; it is not saved.
                Save again. If it stays, write it on paper and load the page again.
                (not_stored)

                Entries that waited to be sent and are no longer on this tablet: 1.
                The browser lost them, and the office has not got them.
                Enter them again from paper, and have the tablet looked at.
                (entries_gone)

                Damaged entries of job creek-road on this tablet: 2.
                They are left as they are and not shown; every other entry is whole.
                Read the record in from another tablet or from the office.
                (line_damaged)"#]],
        );
    }

    #[test]
    fn a_clock_that_is_off_is_told_in_words_people_use() {
        check(
            &[
                Told::ClockOff { ahead: -130 },
                Told::ClockOff { ahead: 7_200 },
                Told::ClockOff { ahead: 315_360_000 },
            ],
            expect![[r#"
                The clock of this tablet is about 3 minutes behind that of the office.
                Entries keep the times this tablet gave them; ages of concrete may be wrong by that.
                Set the tablet's clock, and check the times of the last entries.
                (clock_off)

                The clock of this tablet is about 2 hours ahead of that of the office.
                Entries keep the times this tablet gave them; ages of concrete may be wrong by that.
                Set the tablet's clock, and check the times of the last entries.
                (clock_off)

                The clock of this tablet is about 3650 days ahead of that of the office.
                Entries keep the times this tablet gave them; ages of concrete may be wrong by that.
                Set the tablet's clock, and check the times of the last entries.
                (clock_off)"#]],
        );
    }

    #[test]
    fn the_way_to_the_office() {
        check(
            &[
                Told::OfficeSilent,
                Told::NoDesk { status: 511 },
                Told::NotPaired,
                Told::Cloned { device: "3f9a01bc".into(), seq: 41, own: true },
                Told::Cloned { device: "3f9a01bc".into(), seq: 41, own: false },
                Told::DeskSetBack { job: "creek-road".into(), offered: 212 },
                Told::DeskLineDoubted {
                    job: "creek-road".into(),
                    why: "the id does not follow from the content; it was altered".into(),
                },
            ],
            expect![[r#"
                The office does not answer.
                Everything is kept on this tablet.
                Check the connection. What waits is sent by itself as soon as there is one.
                (office_silent)

                Something answered that is not the desk program (status 511).
                Nothing was sent; everything is kept on this tablet.
                Check the address, and whether this network wants a sign-in of its own.
                (no_desk)

                The office does not know this tablet.
                Everything is kept here and waits; nothing was sent.
                Have a code shown at the desk, and enter it under Pair.
                (not_paired)

                This tablet (3f9a01bc) has written two entries under number 41.
                It was copied or set back to an earlier state. Both entries are kept and shown.
                Write on another tablet, and tell the office today.
                (cloned_here)

                Tablet 3f9a01bc has written two entries under number 41.
                It was copied or set back to an earlier state. Both entries are kept and shown.
                Ask whoever holds that tablet, and tell the office.
                (cloned)

                The desk lacks entries of job creek-road that it had before.
                It was set back, as by a backup. 212 entries on this tablet are sent again.
                Keep this tablet as it is until all is sent, and tell the office.
                (desk_set_back)

                The desk sent a line of job creek-road that is not what a device signed: the id does not follow from the content; it was altered.
                It was not taken in; every other line was.
                Tell the office to run the check of the desk's database.
                (desk_line_doubted)"#]],
        );
    }

    #[test]
    fn jobs_and_files() {
        check(
            &[
                Told::JobTaken { job: "creek-road".into() },
                Told::JobName { found: "Creek Road".into() },
                Told::FileLines { lines: vec!["line 3: this is not JSON".into()], count: 1 },
                Told::FileEmpty,
                Told::SameId { id: "00ff3a51".into() },
                Told::PhotoTooLarge { megabytes: 31, most: 20 },
                Told::NoPicture { name: "tickets.pdf".into() },
                Told::OtherJob { here: "creek-road".into(), there: "hill-street".into() },
            ],
            expect![[r#"
                A job creek-road is on this tablet already.
                No job was begun.
                Choose another short name, or open that job.
                (job_taken)

                “Creek Road” is not the short name of a job.
                No job was begun.
                Use small letters, digits and hyphens, such as creek-road-2.
                (job_name)

                Lines of the file that are no entries, or were altered: 1 (line 3: this is not JSON).
                Nothing was read in; the record is as it was.
                Get the file again from where it was made.
                (file_lines)

                There is no entry in the file.
                Nothing was read in; the record is as it was.
                Choose the file that was saved as a record.
                (file_empty)

                The file has another content under the id 00ff3a51 than this tablet.
                Nothing was read in; the record is as it was.
                Keep both, and let the office compare them.
                (same_id)

                The photo has 31 MB; at most 20 MB are kept.
                The photo was not kept.
                Take it again at a smaller size.
                (photo_too_large)

                tickets.pdf is no picture that a camera makes.
                It was not kept; the rest of the form stands as it was.
                Take a photo, or choose a picture (JPEG, PNG, WebP, HEIC).
                (no_picture)

                An entry of job hill-street was handed in with those of job creek-road.
                Nothing was read in; the record is as it was.
                Open that job and read it in there.
                (other_job)"#]],
        );
    }
}
