//! The verbs of an office: the folder several devices sync with.
//!
//! What help says stands here and in `help`.

use crate::help;
use clap::{Args as Arguments, Subcommand, ValueEnum};
use std::path::PathBuf;

/// A verb of an office.
#[derive(Subcommand)]
pub(crate) enum Office {
    /// Serve the app and a folder of records to tablets and desks.
    #[command(after_help = help::SERVE)]
    Serve(Box<Serve>),
    /// Make a code that lets one more device in. Works while the office is served.
    #[command(after_help = help::PAIR)]
    Pair {
        /// The folder of the office.
        folder: PathBuf,
        /// How tablets reach the office, for the QR code: https://office.example:7420.
        #[arg(long, value_name = "URL")]
        reached_at: Option<String>,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// The people of an office: from the first one on, people sign in and roles decide.
    #[command(after_help = help::PEOPLE)]
    People {
        /// What to do.
        #[command(subcommand)]
        what: PeopleVerb,
    },
    /// Copy everything a folder holds into one file. Works while the office is served.
    #[command(after_help = help::BACKUP)]
    Backup {
        /// The folder of an office or of a job.
        folder: PathBuf,
        /// The file to write.
        #[arg(long, value_name = "FILE")]
        to: PathBuf,
    },
    /// Make a folder of a backup, every line of it proved first.
    #[command(after_help = help::RESTORE)]
    Restore {
        /// The backup.
        file: PathBuf,
        /// The folder to make; it must not hold a record yet.
        #[arg(long, value_name = "FOLDER")]
        to: PathBuf,
    },
    /// Bring the record of an office into a database on a server, or back into a file, all of it or nothing.
    #[command(after_help = help::MOVE)]
    Move {
        /// The folder of the office; it must not be served meanwhile.
        folder: PathBuf,
        /// Where to: postgres://USER@HOST/NAME of an empty database, or `file` for record.sqlite in the folder.
        #[arg(long, value_name = "ADDRESS")]
        to: String,
    },
    /// Look a folder or a backup over: the database, every line, every chain, every photo.
    #[command(after_help = help::INSPECT)]
    Inspect {
        /// The folder of an office or of a job, or a backup.
        folder: PathBuf,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
    },
}

/// What `serve` takes.
#[derive(Arguments)]
pub(crate) struct Serve {
    /// The folder of the office; made where there is none. The folder of a job serves that job.
    pub(crate) folder: PathBuf,
    /// Where to listen.
    #[arg(long, value_name = "ADDRESS:PORT", default_value = "127.0.0.1:7420")]
    pub(crate) address: String,
    /// What the office is called on every device; the name of the folder when left out.
    #[arg(long, value_name = "OFFICE")]
    pub(crate) name: Option<String>,
    /// The certificate, and those it hangs on, as PEM.
    #[arg(long, value_name = "FILE", requires = "key", help_heading = "Over a network")]
    pub(crate) certificate: Option<PathBuf>,
    /// The private key of the certificate, as PEM.
    #[arg(long, value_name = "FILE", requires = "certificate", help_heading = "Over a network")]
    pub(crate) key: Option<PathBuf>,
    /// A reverse proxy stands before this address and speaks HTTPS to the tablets. It is believed when it says in
    /// X-Forwarded-For whose a request is, so let nobody but the proxy reach the address.
    #[arg(long, conflicts_with = "certificate", help_heading = "Over a network")]
    pub(crate) behind_proxy: bool,
    /// How tablets reach the office, for the pairing link: https://office.example:7420.
    #[arg(long, value_name = "URL", help_heading = "Over a network")]
    pub(crate) reached_at: Option<String>,
    /// What is written on standard error while it is served, a line each. With text or json nothing that lets somebody in is
    /// printed either: a code is made with `shaftbook pair`.
    #[arg(long, value_name = "KIND", value_enum, default_value_t = JournalKind::Brief, help_heading = "Kept running")]
    pub(crate) journal: JournalKind,
    /// Where a monitor reads figures, such as 127.0.0.1:7421: http://ADDRESS:PORT/metrics. Whoever reaches it may
    /// read them; nothing is there when it is left out.
    #[arg(long, value_name = "ADDRESS:PORT", help_heading = "Kept running")]
    pub(crate) metrics: Option<String>,
    /// A time-stamp service (RFC 3161): each seal made here is stamped by it, at once or when it can be reached.
    #[arg(long, value_name = "URL")]
    pub(crate) time_stamps: Option<String>,
    /// Open the app in the browser of this machine.
    #[arg(long)]
    pub(crate) open: bool,
    /// Documented JSON instead of text, once it listens.
    #[arg(long)]
    pub(crate) json: bool,
    /// Live a day through again: notes whose lines come as the clock on site passes them.
    #[arg(long, value_name = "NOTES", num_args = 1.., requires = "shaft", group = "day", help_heading = "A day again")]
    pub(crate) relive: Vec<PathBuf>,
    /// Let a made-up day come instead, whose truth is known: one of the scenarios of `shaftbook rehearse`.
    #[arg(long, value_name = "SCENARIO", group = "day", help_heading = "A day again")]
    pub(crate) rehearse: Option<String>,
    /// Another number makes another made-up shaft.
    #[arg(long, default_value_t = 1, requires = "rehearse", help_heading = "A day again")]
    pub(crate) seed: u64,
    /// The made-up day in metres and cubic metres.
    #[arg(long, requires = "rehearse", help_heading = "A day again")]
    pub(crate) metric: bool,
    /// The shaft whose day it is.
    #[arg(long, requires = "relive", help_heading = "A day again")]
    pub(crate) shaft: Option<String>,
    /// When to begin, such as `10:30` on the day of the pour; ten minutes before the first load when left out.
    #[arg(long, value_name = "TIME", requires = "day", help_heading = "A day again")]
    pub(crate) from: Option<String>,
    /// How many times faster than ours the clock on site runs, until the last line of that day.
    #[arg(long, default_value_t = 30, requires = "day", help_heading = "A day again",
        value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub(crate) speed: u32,
}

/// What is written on standard error while an office is served.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum JournalKind {
    /// What was not as it should be, and devices that were paired.
    Brief,
    /// Everything that happens.
    Text,
    /// The same, a JSON object a line.
    Json,
}

/// A verb of the people of an office.
#[derive(Subcommand)]
pub(crate) enum PeopleVerb {
    /// Add a person and print an invitation; for one who is there already, a new invitation.
    Add {
        /// The folder of the office.
        folder: PathBuf,
        /// The name to sign in with: letters, digits and . - _ @
        name: String,
        /// What the person is: inspector, reviewer, contractor_quality, reader, manager. The first person is a manager
        /// when it is left out.
        #[arg(long, value_name = "ROLE")]
        role: Option<String>,
        /// On which job; on every job of the office when left out.
        #[arg(long, value_name = "JOB", requires = "role")]
        on: Option<String>,
        /// The name the person signs with, where that is another: "Anna Hall".
        #[arg(long, value_name = "NAME")]
        signs_as: Option<String>,
        /// How people reach the office, for the link: https://office.example:7420.
        #[arg(long, value_name = "URL")]
        reached_at: Option<String>,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// List the people and their roles.
    List {
        /// The folder of the office.
        folder: PathBuf,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Let a person go: signed out everywhere, and every device of that person let go too.
    LetGo {
        /// The folder of the office.
        folder: PathBuf,
        /// The name.
        name: String,
        /// Although nobody is left who manages the office and comes in.
        #[arg(long)]
        even_the_last: bool,
    },
}
