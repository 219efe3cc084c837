//! What `--help` says after the options: one example for each verb, and what else a person should know.

/// Exit codes, told with the program.
pub(crate) const PROGRAM: &str = "\
Exit codes:
  0  done
  1  could not be done: a file, the folder, the database, no such shaft
  2  the command was not understood
  3  notes, tables or a criteria file have mistakes; nothing was imported
  4  a record is not what it was: altered, forged, damaged, entries missing
  5  check --strict, seal: findings that fail have no decision yet

Each command explains itself: shaftbook check --help";

pub(crate) const BEGIN: &str = "\
Example:
  shaftbook begin elm-street

makes elm-street/ with record.sqlite (the record), keys/desk.key (signs what is
entered here; keep a copy and keep it to yourself) and notes.toml (to fill in,
with a comment beside every line).";

pub(crate) const ENTER: &str = "\
Examples:
  shaftbook enter notes.toml --job elm-street
  shaftbook enter monday.toml tuesday.toml --job elm-street
  shaftbook enter loads.csv --shaft S-1 --date 2026-05-04 --author \"M. Okafor\" --job elm-street
  shaftbook enter notes.toml --dry-run --job elm-street

Every mistake in every file is shown at once, and then nothing is taken in.
Notes that grew are entered again as a whole: lines that are in the record
already are passed over. A line that was changed after it was entered becomes a
new entry, and you are told which old one to strike through. Nothing is ever
erased.";

pub(crate) const SHAFTS: &str = "\
Example:
  shaftbook shafts --job elm-street";

pub(crate) const COMPARE: &str = "\
Examples:
  shaftbook compare elm-street
  shaftbook compare elm-street oak-road --places     with the shafts behind each line
  shaftbook compare elm-street --draw pictures       with the drawings as SVG files
  shaftbook compare elm-street --json";

pub(crate) const LOG: &str = "\
Examples:
  shaftbook log S-1 --job elm-street
  shaftbook log S-1 --at 10:40 --job elm-street      what was known at 10:40 on the day of the pour
  shaftbook log S-1 --tables --job elm-street

Corrected lines stay and say so in words; the elevation that follows from a
depth stands in brackets.";

pub(crate) const CHECK: &str = "\
Examples:
  shaftbook check --job elm-street                   every shaft
  shaftbook check S-1 --at 10:40 --job elm-street    stand at 10:40 in the pour: what is coming?
  shaftbook check S-1 --all --job elm-street         every finding, by stage of the work
  shaftbook check --strict --json --job elm-street   for scripts

First what fails or cannot be judged, then what is coming, then what people have
to settle. Not measured is not passed, and no limit set is not passed either.";

pub(crate) const DRAW: &str = "\
Examples:
  shaftbook draw S-1 --job elm-street                every figure there is something to draw for
  shaftbook draw S-1 curve --at 11:30 --out drawings --job elm-street";

pub(crate) const PACKAGE: &str = "\
Examples:
  shaftbook package --job elm-street                 a PDF for each shaft, and job.pdf
  shaftbook package S-1 --paper a4 --out handover --job elm-street

Each file is written whole or not at all; the one that was there stays until the
new one is complete.";

pub(crate) const EXPORT: &str = "\
Examples:
  shaftbook export record --out elm-street.jsonl --job elm-street
  shaftbook export tables --out tables --job elm-street
  shaftbook export figures --out figures --job elm-street
  shaftbook export ifc --out elm-street.ifc --job elm-street
  shaftbook export ags --out elm-street.ags --job elm-street
  shaftbook export xlsx --out elm-street.xlsx --job elm-street
  shaftbook export csvw --out elm-street-csvw --job elm-street

The record as signed lines can be proved by anyone (docs/record-format.md) and
merged anywhere; the same record gives the same bytes. Tables can be entered
again. What each format holds stands in docs/formats.md.";

pub(crate) const MERGE: &str = "\
Examples:
  shaftbook merge tablet-2.jsonl --job elm-street
  shaftbook merge ../elm-street-of-kim --job elm-street
  shaftbook merge elm-street-csvw --job elm-street

All of it or nothing, every line proved first. Merging twice adds nothing, and
the order does not matter. The record of another job is refused.";

pub(crate) const REHEARSE: &str = "\
Examples:
  shaftbook rehearse
  shaftbook rehearse neck --seed 7 --out practice
  shaftbook rehearse tremie --metric

Without a scenario it lists them, and what happens on each day. The same
scenario and seed make the same shaft on every machine. The record is marked
as a rehearsal in every entry and never becomes part of a job.";

pub(crate) const OPEN_ITEMS: &str = "\
Examples:
  shaftbook open-items --job elm-street
  shaftbook open-items S-2 --json --job elm-street

Findings that fail and nobody decided about, holds nobody released, disputes
nobody closed, questions nobody answered, signatures that are missing once the pour
is over; for each, whose move it is. Under each stands the line of notes that settles
it: fill in what is left open and `shaftbook enter` the file. A decision is accepted
(as it is, with the reason), repair, test, rejected or corrected.";

pub(crate) const SEAL: &str = "\
Example:
  shaftbook seal S-1 --by \"R. Quill\" --out S-1-sealed.pdf --job elm-street

Inspector and engineer have to have signed (`signed` in the notes or in the app),
after the last entry they answer for; a job may name others (`seal_needs`). The
PDF holds the signed entries as a file inside it: `shaftbook verify S-1-sealed.pdf`
proves on any machine that pages and entries agree and that nothing is missing.
What is entered later is a supplement, named on every page made after it; seal
again to hand it in. Sealed again with nothing new, it is the same file.";

pub(crate) const STAMP: &str = "\
Example:
  shaftbook stamp S-1-sealed.pdf --service https://stamps.example/tsa

Needs a network, at any time after sealing: the earlier, the more it says. The
service is sent a SHA-256 and nothing of the package. Its answer is kept as it
came (S-1-sealed.tsr); `verify` proves it, and so does `openssl ts -verify`
with the file seal.jsonl of the package.";

pub(crate) const VERIFY: &str = "\
Examples:
  shaftbook verify elm-street.jsonl
  shaftbook verify S-1-sealed.pdf
  shaftbook verify S-1-sealed.pdf --service-root stamps-root.pem
  shaftbook verify elm-street --digest 3f9a62c1

Proves every id and signature, and that no chain has a gap. Lines cut off at the
end of a chain leave no gap: give the digest that was printed or handed in to
notice them too. Exit code 4 when anything is not as it was.";

pub(crate) const SERVE: &str = "\
Examples:
  shaftbook serve office                             this machine only: http://127.0.0.1:7420
  shaftbook serve office --address 0.0.0.0:7420 --certificate cert.pem --key key.pem
  shaftbook serve office --address 10.0.0.5:7420 --behind-proxy --reached-at https://site.example
  shaftbook serve trial --relive day.toml --shaft S-1 --from 11:40 --speed 30
  shaftbook serve class --rehearse neck --speed 10   a made-up pour for a class to watch
  shaftbook serve office --database postgres:///office   the record in PostgreSQL, for several servers
  shaftbook serve office --journal json --metrics 127.0.0.1:7421   watched by other programs

Prints the address and a pairing code, which lets one device in within ten
minutes; more codes stand on the page /desk of this machine. An entry is
acknowledged once it is on the disk. Stop with Ctrl-C: what is under way is
finished first. Over a network tablets need HTTPS: browsers keep an app for work
without a network, and give it the camera, only over a connection nobody can read.
More in docs/serve.md; docs/operate.md takes an office from nothing to running.";

pub(crate) const PAIR: &str = "\
Example:
  shaftbook pair office

The code lets one device in, once, within ten minutes. While the office is served
its page /desk shows the code too, as text and as a QR code.";

pub(crate) const PEOPLE: &str = "\
Examples:
  shaftbook people add office d.pike
  shaftbook people add office a.hall --role inspector --on elm-street --signs-as \"Anna Hall\"
  shaftbook people list office
  shaftbook people let-go office a.hall

The first person switches people on, for good: devices paired before belong to
nobody and have to be paired again. What they hold waits on them. The invitation is
used in a browser, once, within seven days; no password is typed here. docs/access.md
says who may do what.";

pub(crate) const BACKUP: &str = "\
Example:
  shaftbook backup office --to backups/office-2026-06-01.sqlite

The office may go on being served meanwhile. The copy is proved line by line
before it gets its name, and nothing is ever written over. Photos are copied to
backups/photos, once for all backups in that folder. Keys are not copied.";

pub(crate) const RESTORE: &str = "\
Examples:
  shaftbook restore backups/office-2026-06-01.sqlite --to office-again
  shaftbook inspect office-again
  shaftbook serve office-again
  shaftbook restore backups/office-2026-06-01.sqlite --to third --database postgres:///third

With --database the record goes on from the folder into that database, which has to be empty.";

pub(crate) const MOVE: &str = "\
Examples:
  shaftbook move office --to postgres:///office      the office outgrew one machine
  shaftbook move office --to file                    and back

Every table is compared row by row afterwards and every line proved. The place it
comes from is kept as it is, says where the record went, and takes nothing in any
more. Tablets notice nothing. Keys and photos stay in the folder. More in
docs/serve.md.";

pub(crate) const INSPECT: &str = "\
Examples:
  shaftbook inspect office
  shaftbook inspect backups/office-2026-06-01.sqlite --json

Exit code 4 when anything is not as it was: a database that is damaged, a line
that was altered, a chain with a gap, a photo that is not what was taken.";

pub(crate) const LIMITS: &str = "\
Examples:
  shaftbook limits                                   the sets that come with the program
  shaftbook limits roadside-common-practice-1
  shaftbook limits --job elm-street                  the limits in force on a job
  shaftbook limits --file our-limits.toml            check a file of your own";

pub(crate) const KINDS: &str = "\
Examples:
  shaftbook kinds                                    every kind of entry
  shaftbook kinds tool_run                           one, with its fields";

pub(crate) const COMPLETIONS: &str = "\
Example:
  shaftbook completions bash > ~/.local/share/bash-completion/completions/shaftbook";
