//! The commands and what they take.
//!
//! What help says stands here and in `help`.

mod office;

pub(crate) use office::{JournalKind, Office, PeopleVerb, Serve};

use crate::help;
use clap::{Args as Arguments, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Field record and reckoning for drilled-shaft (bored-pile) inspection.
///
/// Start a job, read your field notes in, and ask what they mean:
///
///   shaftbook begin my-job
///   shaftbook enter my-job/notes.toml --job my-job
///   shaftbook check --job my-job
///   shaftbook package --job my-job
///
/// The tool advises; the contract documents govern; the engineer decides.
#[derive(Parser)]
#[command(name = "shaftbook", version, verbatim_doc_comment, after_help = help::PROGRAM)]
#[command(subcommand_required = true, arg_required_else_help = true)]
pub(crate) struct Args {
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Command,
    /// Take this moment for now (RFC 3339): for rehearsals and tests.
    #[arg(long, global = true, hide = true, value_name = "MOMENT")]
    pub(crate) clock: Option<String>,
    /// The record is in this database: postgres://USER@HOST/NAME. A folder that was served so once says it itself.
    #[arg(long, global = true, value_name = "ADDRESS", help_heading = "In a database on a server")]
    pub(crate) database: Option<String>,
}

/// Where the job's folder is.
#[derive(Arguments, Clone)]
pub(crate) struct Job {
    /// Folder of the job.
    #[arg(long, short = 'j', value_name = "FOLDER", default_value = ".")]
    pub(crate) job: PathBuf,
}

/// Which moment is meant.
#[derive(Arguments, Clone)]
pub(crate) struct At {
    /// Stand at this moment: `10:40` on the day of the pour (else the last day), `2026-05-04 10:40`, or
    /// RFC 3339; clock times are those of the job's time zone.
    #[arg(long, value_name = "TIME")]
    pub(crate) at: Option<String>,
}

/// A verb.
#[derive(Subcommand)]
pub(crate) enum Command {
    /// Make the folder of a job, with a key for this desk and notes to fill in.
    #[command(after_help = help::BEGIN)]
    Begin {
        /// The folder to make.
        folder: PathBuf,
    },
    /// Read field notes (.toml) or tables (.csv, .xlsx) into signed entries. All of it or nothing.
    #[command(after_help = help::ENTER)]
    Enter {
        /// The files, in the order of the days.
        #[arg(required = true)]
        files: Vec<PathBuf>,
        /// For tables: what they list.
        #[arg(long, value_name = "LOG")]
        table: Option<String>,
        /// For workbooks: the sheet; the first when left out.
        #[arg(long, value_name = "NAME")]
        sheet: Option<String>,
        /// For tables: the shaft, where no column says it.
        #[arg(long)]
        shaft: Option<String>,
        /// For tables: the date, where no column says it.
        #[arg(long)]
        date: Option<String>,
        /// For tables: who wrote them.
        #[arg(long)]
        author: Option<String>,
        /// Look for mistakes only, row by row of a table; write nothing.
        #[arg(long)]
        dry_run: bool,
        #[command(flatten)]
        job: Job,
    },
    /// List the shafts of a job and how each stands.
    #[command(after_help = help::SHAFTS)]
    Shafts {
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        job: Job,
    },
    /// Say what only many shafts show: what the ground took, concrete, hours, what fails, who writes late.
    #[command(after_help = help::COMPARE)]
    Compare {
        /// Folders of jobs; the one you are in where none is named.
        #[arg(value_name = "JOB")]
        jobs: Vec<PathBuf>,
        /// The shafts behind each line too.
        #[arg(long)]
        places: bool,
        /// Write the drawings as SVG files into this folder too.
        #[arg(long, value_name = "FOLDER")]
        draw: Option<PathBuf>,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Print the log of a shaft as text, corrections struck through.
    #[command(after_help = help::LOG)]
    Log {
        /// The shaft.
        shaft: String,
        /// As tables, one for each log.
        #[arg(long)]
        tables: bool,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        at: At,
        #[command(flatten)]
        job: Job,
    },
    /// Say what the record means: findings, forecasts, questions.
    #[command(after_help = help::CHECK)]
    Check {
        /// The shaft; all of them when left out.
        shaft: Option<String>,
        /// Every finding, those that meet too.
        #[arg(long)]
        all: bool,
        /// Exit with 5 when a failing finding has no disposition.
        #[arg(long)]
        strict: bool,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        at: At,
        #[command(flatten)]
        job: Job,
    },
    /// Draw a figure as SVG.
    #[command(after_help = help::DRAW)]
    Draw {
        /// The shaft.
        shaft: String,
        /// The figure; all of them when left out.
        figure: Option<String>,
        /// Folder to write to.
        #[arg(long, short, default_value = "drawings")]
        out: PathBuf,
        #[command(flatten)]
        at: At,
        #[command(flatten)]
        job: Job,
    },
    /// Make the PDF package of a shaft, or of every shaft and the job.
    #[command(after_help = help::PACKAGE)]
    Package {
        /// The shaft; all of them and the job summary when left out.
        shaft: Option<String>,
        /// Folder to write to.
        #[arg(long, short, default_value = "package")]
        out: PathBuf,
        /// Paper.
        #[arg(long, value_enum)]
        paper: Option<Paper>,
        #[command(flatten)]
        job: Job,
    },
    /// Write the record out: signed lines, tables, figures, formats other programs read.
    #[command(after_help = help::EXPORT)]
    Export {
        /// What.
        #[arg(value_enum)]
        what: Export,
        /// File for what is one file, folder for tables, figures and csvw; `-` prints the record.
        #[arg(long, short)]
        out: Option<PathBuf>,
        #[command(flatten)]
        job: Job,
    },
    /// Bring the entries of another record (a .jsonl file, a job's folder or a csvw package) into this one.
    #[command(after_help = help::MERGE)]
    Merge {
        /// The other record.
        other: PathBuf,
        #[command(flatten)]
        job: Job,
    },
    /// Make the record of a made-up shaft whose truth is known, to learn with. No job takes it in.
    #[command(after_help = help::REHEARSE)]
    Rehearse {
        /// What goes wrong that day; lists the scenarios when left out.
        scenario: Option<String>,
        /// Another number makes another shaft.
        #[arg(long, default_value_t = 1)]
        seed: u64,
        /// In metres and cubic metres, judged in the European style, instead of in feet and yards.
        #[arg(long)]
        metric: bool,
        /// Folder to make; named after scenario and seed when left out.
        #[arg(long, short)]
        out: Option<PathBuf>,
    },
    /// List what waits for a person, and for whom: decisions, releases, answers, signatures.
    #[command(after_help = help::OPEN_ITEMS)]
    OpenItems {
        /// One shaft; all of the job when left out.
        shaft: Option<String>,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        job: Job,
    },
    /// Seal a shaft: its entries and its pages in one PDF that proves itself. All who have to must have signed.
    #[command(after_help = help::SEAL)]
    Seal {
        /// The shaft.
        shaft: String,
        /// Who seals.
        #[arg(long, value_name = "NAME")]
        by: String,
        /// The file to make; `SHAFT-sealed.pdf` when left out.
        #[arg(long, short, value_name = "FILE")]
        out: Option<PathBuf>,
        /// Paper.
        #[arg(long, value_enum)]
        paper: Option<Paper>,
        /// Seal although findings fail that nobody decided about; the pages tell them.
        #[arg(long)]
        with_open_findings: bool,
        #[command(flatten)]
        job: Job,
    },
    /// Have a time-stamp service say when a sealed package was there; its word is kept beside the package.
    #[command(after_help = help::STAMP)]
    Stamp {
        /// The sealed package (.pdf).
        package: PathBuf,
        /// The service (RFC 3161).
        #[arg(long, value_name = "URL")]
        service: String,
        /// The file to make; the name of the package, ending in `.tsr`, when left out.
        #[arg(long, short, value_name = "FILE")]
        out: Option<PathBuf>,
    },
    /// Prove a record, or a sealed package: every id, signature and chain, and that pages and entries agree.
    #[command(after_help = help::VERIFY)]
    Verify {
        /// A .jsonl file, a job's folder, or a sealed package (.pdf).
        record: PathBuf,
        /// The digest it must have, or its first digits (eight at least).
        #[arg(long, value_name = "HEX")]
        digest: Option<String>,
        /// The time stamp of a sealed package; the one beside it when left out.
        #[arg(long, value_name = "FILE")]
        time_stamp: Option<PathBuf>,
        /// The root of the time-stamp service you trust (PEM).
        #[arg(long, value_name = "FILE")]
        service_root: Option<PathBuf>,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    #[command(flatten)]
    Office(Office),
    /// List the criteria: the sets that come with the program, or the limits in force on a job.
    #[command(after_help = help::LIMITS)]
    Limits {
        /// A set by its name; the one in force on the job when left out.
        set: Option<String>,
        /// Check a criteria file of your own.
        #[arg(long, value_name = "FILE")]
        file: Option<PathBuf>,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        job: Job,
    },
    /// List the kinds of entries and their fields, for people who write notes.
    #[command(after_help = help::KINDS)]
    Kinds {
        /// One kind.
        kind: Option<String>,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
    },
    /// Print the completions of a shell.
    #[command(after_help = help::COMPLETIONS)]
    Completions {
        /// The shell.
        shell: clap_complete::Shell,
    },
}

/// What can be exported.
#[derive(Clone, Copy, ValueEnum)]
pub(crate) enum Export {
    /// The signed record, JSON Lines.
    Record,
    /// One CSV for each log of each shaft.
    Tables,
    /// Findings and computed figures of each shaft, JSON.
    Figures,
    /// The shafts as a building model, IFC 4.3.
    Ifc,
    /// The same as IFC 4, for programs that do not read 4.3 yet.
    Ifc4,
    /// Ground data and logs, AGS 4.1.1.
    Ags,
    /// The schedule and the logs as a workbook, with formulas.
    Xlsx,
    /// Every entry and its readings as CSV, what the columns hold, and check sums: a folder. It comes back with `merge`.
    Csvw,
    /// The shafts as features of a map, GeoJSON.
    Geojson,
    /// Every entry for analysis, Parquet.
    Parquet,
}

/// Paper of a package.
#[derive(Clone, Copy, ValueEnum)]
pub(crate) enum Paper {
    /// US Letter.
    Letter,
    /// A4.
    A4,
}
