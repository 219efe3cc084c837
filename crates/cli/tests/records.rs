//! Records that travel: out and in again byte for byte, merged in any order, and touched on the way.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, demo, notes, remark, sorted};

/// A job of five remarks, exported.
fn exported() -> (Desk, String) {
    let desk = Desk::new();
    let lines: String = (0..5).map(|number| remark("10:40", &format!("remark {number}"))).collect();
    desk.write("day.toml", &notes(&lines));
    desk.says("enter day.toml --job j").ends(0);
    desk.says("export record --out record.jsonl --job j").ends(0).says("9 entries written to record.jsonl.");
    let text = desk.read("record.jsonl");
    (desk, text)
}

#[test]
fn a_record_goes_out_and_in_byte_for_byte() {
    let desk = Desk::new();
    let notes = sorted(&demo("harrow-vale"), ".toml");
    let words: Vec<&str> = ["enter"].into_iter().chain(notes.iter().map(String::as_str)).collect();
    desk.run(&[&words[..], &["--job", "j"]].concat()).ends(0);
    desk.says("export record --out one.jsonl --job j").ends(0);
    desk.says("merge one.jsonl --job copy").ends(0).says("0 were here already");
    desk.says("export record --out two.jsonl --job copy").ends(0);
    assert_eq!(desk.read("one.jsonl"), desk.read("two.jsonl"));
    assert_eq!(desk.says("export record --out - --job copy").out, desk.read("one.jsonl"));
    desk.says("merge one.jsonl --job copy").ends(0).says("0 entries came in");
    assert_eq!(desk.says("check --json --job j").out, desk.says("check --json --job copy").out);
}

/// Every table of every shaft, entered into a job that holds the plans and nothing else, says the same again.
#[test]
fn tables_that_went_out_come_in_with_the_same_bodies() {
    let desk = Desk::new();
    let lines = remark("07:10", "rig, in \"place\"")
        + "  { at = \"08:00\", entry = \"tool_run\", out = \"08:12\", to = \"12'-6 1/2\\\"\", tool = \"auger\" },\n";
    desk.write("day.toml", &notes(&lines));
    desk.write("job.toml", desk::JOB);
    desk.says("enter day.toml --job j").ends(0);
    desk.says("enter job.toml --job again").ends(0);
    desk.says("export tables --out tables --job j").ends(0).says("tables written to tables.");
    desk.says("enter tables/S-1/remark.csv tables/S-1/tool_run.csv --job again").ends(0);
    let bodies = |job: &str| {
        let log = desk.run(&["log", "S-1", "--json", "--job", job]).ends(0).json();
        let lines = log.as_array().expect("a list").clone();
        let own = lines.into_iter().filter(|line| line["kind"] == "remark" || line["kind"] == "tool_run");
        own.map(|line| (line["at"].to_string(), line["author"].to_string(), line["body"].to_string()))
            .collect::<Vec<_>>()
    };
    assert_eq!(bodies("j"), bodies("again"));
    assert_eq!(bodies("j").len(), 2);
}

#[test]
fn records_merged_in_either_order_are_the_same_bytes() {
    let desk = Desk::new();
    desk.write("job.toml", desk::JOB);
    desk.says("enter job.toml --job a").ends(0);
    desk.says("merge a --job b").ends(0);
    for (job, text) in [("a", "seen by one"), ("b", "seen by the other")] {
        let day = notes(&remark("10:40", text));
        desk.write("day.toml", day.strip_prefix(desk::JOB).expect("the job comes first"));
        desk.run(&["enter", "day.toml", "--job", job]).ends(0);
    }
    for (into, order) in [("ab", ["a", "b"]), ("ba", ["b", "a"])] {
        order.iter().for_each(|from| {
            desk.run(&["merge", from, "--job", into]).ends(0);
        });
    }
    assert_eq!(desk.says("export record --job ab").out, desk.says("export record --job ba").out);
}

#[test]
fn the_record_of_another_job_is_refused() {
    let (desk, before) = exported();
    desk.write("other.toml", &notes(&remark("10:40", "elsewhere")).replace("test-job", "other-job"));
    desk.says("enter other.toml --job other").ends(0);
    desk.says("merge other --job j").ends(1).says("entries of job `other-job` in a record of `test-job`");
    assert_eq!(desk.says("export record --job j").out, before);
    desk.write("empty.jsonl", "");
    desk.says("merge empty.jsonl --job j").ends(1).says("empty.jsonl holds no entries.");
}

/// One byte in forty places: it is told, the exit code is not 0, and nothing is written anywhere.
#[test]
fn a_touched_file_is_told_and_not_taken_over() {
    let (desk, text) = exported();
    let bytes = text.as_bytes();
    for step in 0..40 {
        let mut touched = bytes.to_vec();
        let place = step * bytes.len() / 40;
        touched[place] ^= 0x04;
        std::fs::write(desk.path("touched.jsonl"), &touched).expect("written");
        refused(&desk, &format!("byte {place}"));
    }
}

/// Which entry it is, by what the line says of itself; what the other lines are worth; what to do.
#[test]
fn the_entry_that_was_touched_is_named() {
    let (desk, text) = exported();
    desk.write("touched.jsonl", &text.replace("remark 3", "remark 4"));
    let line: serde_json::Value =
        serde_json::from_str(text.lines().find(|line| line.contains("remark 3")).expect("it is there"))
            .expect("JSON");
    let named = format!(
        "touched.jsonl: line 7: the id does not follow from the content; it was altered. It says it is entry number {} \
         of the device {}: remark of S-1, seen 2026-05-04T10:40:00-06:00.",
        line["seq"],
        &line["device"].as_str().expect("digits")[..8]
    );
    let did = desk.says("verify touched.jsonl").ends(4).says(&named);
    assert!(!did.err.contains("as it was."), "nothing is told of a record that nobody touched: {}", did.err);
    did.says("The 8 other lines are each as they were signed.")
        .says("This file is not a record as it was signed")
        .says("ask for the record again");
    desk.says("merge touched.jsonl --job j").ends(4).says(&named).says("Nothing of it came in");
}

/// Whoever enters what should be merged is told the command that does it.
#[test]
fn a_record_that_is_entered_is_sent_to_merge() {
    let (desk, text) = exported();
    desk.write("notes.txt", &text);
    for name in ["record.jsonl", "notes.txt"] {
        desk.run(&["enter", name, "--job", "new"])
            .ends(3)
            .says(&format!("{name} is a record with its signatures, not field notes."))
            .says(&format!("shaftbook merge {name} --job FOLDER"));
    }
    assert!(!desk.path("new").exists());
}

#[test]
fn a_file_that_ends_in_the_middle_of_a_line_is_told() {
    let (desk, text) = exported();
    for share in 1..10 {
        let end = text.len() * share / 10;
        assert_ne!(text.as_bytes()[end - 1], b'\n', "the cut is inside a line");
        std::fs::write(desk.path("touched.jsonl"), &text.as_bytes()[..end]).expect("written");
        refused(&desk, &format!("cut at {end}"));
    }
}

#[track_caller]
fn refused(desk: &Desk, what: &str) {
    let before = desk.files();
    let verified = desk.says("verify touched.jsonl");
    assert_eq!(verified.exit, 4, "{what}: {}{}", verified.out, verified.err);
    assert!(verified.err.contains("touched.jsonl"), "{what}: the file is named");
    assert_eq!(desk.says("merge touched.jsonl --job new").exit, 4, "{what}");
    assert_eq!(desk.files(), before, "{what}: nothing was written");
}

#[test]
fn a_line_taken_out_of_the_middle_leaves_a_gap() {
    let (desk, text) = exported();
    let lines: Vec<&str> = text.lines().collect();
    let without = |taken: usize| {
        let kept = lines
            .iter()
            .enumerate()
            .filter(|(index, _)| *index != taken)
            .map(|(_, line)| format!("{line}\n"));
        kept.collect::<String>()
    };
    desk.write("touched.jsonl", &without(4));
    let did = desk.says("verify touched.jsonl").ends(4).says("Entry number 5 of the device");
    did.says("is not in this record").says("The chains of the devices are not whole.");

    // The last line of a chain leaves no gap. The digest, kept somewhere else, tells.
    let digest =
        desk.says("verify record.jsonl --json").ends(0).json()["digest"].as_str().expect("hex").to_owned();
    desk.write("touched.jsonl", &without(lines.len() - 1));
    desk.says("verify touched.jsonl").ends(0);
    desk.run(&["verify", "touched.jsonl", "--digest", &digest])
        .ends(4)
        .says("The digest of the record is not");
    desk.run(&["verify", "record.jsonl", "--digest", &digest[..8]]).ends(0);
    desk.says("verify record.jsonl --digest short").ends(2).says("`short` is no digest.");
}

#[test]
fn the_order_of_lines_means_nothing() {
    let (desk, text) = exported();
    let turned: String = text.lines().rev().map(|line| format!("{line}\n")).collect();
    desk.write("turned.jsonl", &turned);
    let digest = |name: &str| desk.run(&["verify", name, "--json"]).ends(0).json()["digest"].clone();
    assert_eq!(digest("turned.jsonl"), digest("record.jsonl"));
    desk.says("merge turned.jsonl --job copy").ends(0);
    assert_eq!(desk.says("export record --job copy").out, text);
}

#[test]
fn files_that_are_no_record_are_named() {
    let (desk, _) = exported();
    for (name, bytes) in
        [("letter.jsonl", &b"Dear office,\n"[..]), ("noise.jsonl", &[0xff, 0xfe, 0x00, 0x80][..])]
    {
        std::fs::write(desk.path(name), bytes).expect("written");
        desk.run(&["verify", name]).ends(4).says(name);
        desk.run(&["merge", name, "--job", "j"])
            .ends(4)
            .says("Nothing of it came in; the record is as it was.");
    }
}

/// One byte of the database in forty places: what is printed is the same, or the damage is named.
#[test]
fn a_damaged_database_is_named() {
    let (desk, text) = exported();
    let whole = std::fs::read(desk.path("j/record.sqlite")).expect("readable");
    let mut named = 0;
    for step in 0..40 {
        let mut damaged = whole.clone();
        damaged[step * whole.len() / 40 + 7 * step] ^= 0x5a;
        std::fs::remove_dir_all(desk.path("d")).ok();
        std::fs::create_dir(desk.path("d")).expect("made");
        std::fs::write(desk.path("d/record.sqlite"), &damaged).expect("written");
        let did = desk.says("export record --job d");
        match did.exit {
            0 => assert_eq!(did.out, text, "byte {step} changed the record in silence"),
            code => {
                assert!(code == 1 || code == 4, "{code}: {}", did.err);
                assert!(did.err.contains("record.sqlite") && did.out.is_empty(), "{}", did.err);
                named += 1;
            }
        }
    }
    assert!(named > 0, "no byte mattered");
}

#[test]
fn a_database_of_something_else_is_named() {
    let (desk, _) = exported();
    std::fs::create_dir(desk.path("d")).expect("made");
    desk.write("d/record.sqlite", &"not a database at all, only a long text. ".repeat(60));
    desk.says("check --job d").ends(4).says("the database is damaged");
    desk.says("enter day.toml --job d").ends(4).says("nothing was written");
}

/// A failed export leaves the file that was there, and nothing beside it.
#[test]
fn an_export_that_fails_leaves_what_was_there() {
    let (desk, _) = exported();
    std::fs::create_dir_all(desk.path("taken/S-1.json")).expect("made");
    desk.says("export figures --out taken --job j").ends(1).says("taken/S-1.json");
    desk.says("export figures --out record.jsonl/figures --job j").ends(1).says("no entry was changed");
    assert!(!desk.files().iter().any(|name| name.ends_with(".part")));
}

#[test]
fn the_same_record_gives_the_same_building_model_and_another_moment_changes_nothing() {
    let desk = Desk::new();
    let notes = sorted(&demo("lindmoor"), ".toml");
    let words: Vec<&str> = ["enter"].into_iter().chain(notes.iter().map(String::as_str)).collect();
    desk.run(&[&words[..], &["--job", "j"]].concat()).ends(0);
    desk.says("export ifc --job j").ends(0).says("lindmoor.ifc");
    desk.says("export ifc4 --job j").ends(0).says("lindmoor-ifc4.ifc");
    desk.says("export ifc --job j --out again.ifc --clock 2031-01-01T00:00:00Z").ends(0);
    let model = desk.read("lindmoor.ifc");
    assert_eq!(model, desk.read("again.ifc"));
    assert!(model.contains("FILE_SCHEMA(('IFC4X3_ADD2'))"), "{model:.400}");
    assert!(model.contains("'P-7 as estimated'"), "an estimate");
    assert!(desk.read("lindmoor-ifc4.ifc").contains("FILE_SCHEMA(('IFC4'))"), "the older schema");
}

#[test]
fn a_package_of_tables_comes_back_as_the_same_record_and_a_touched_one_does_not() {
    let (desk, before) = exported();
    desk.says("export csvw --job j --out package").ends(0).says("package/SHA256SUMS");
    desk.says("merge package --job copy").ends(0).says("9 entries came in");
    assert_eq!(desk.says("export record --job copy").out, before);
    let entries = desk.read("package/entries.csv");
    desk.write("package/entries.csv", &entries.replace("remark 3", "remark 8"));
    desk.says("merge package --job touched").ends(4).says("entries.csv is not what SHA256SUMS names");
    desk.says("export record --job touched").ends(1);
}

#[test]
fn every_format_is_written_of_a_job_without_a_single_pour() {
    let (desk, _) = exported();
    for (word, file) in [
        ("ifc", "a.ifc"),
        ("ags", "a.ags"),
        ("xlsx", "a.xlsx"),
        ("geojson", "a.geojson"),
        ("parquet", "a.parquet"),
    ] {
        desk.run(&["export", word, "--job", "j", "--out", file]).ends(0).says(file);
    }
    assert!(desk.read("a.geojson").contains("\"geometry\": null"), "no place is made up");
    assert!(desk.read("a.ags").starts_with("\"GROUP\",\"PROJ\"\r\n"), "a project first");
}

#[test]
fn a_preview_names_each_row_of_a_schedule_that_cannot_be_taken() {
    let desk = Desk::new();
    desk.write("job.toml", desk::JOB);
    desk.says("enter job.toml --job j").ends(0);
    let before = desk.says("export record --job j").ends(0).out;
    let schedule = "shaft,structure,top,tip,method,diameter,author,date\n\
                    W-1,wall,100,80,wet,36 in,A. Fenwick,2026-05-04\n\n\
                    W-2,castle,high,80,wet,36 in,A. Fenwick,2026-05-04\n";
    desk.write("shaft_schedule.csv", schedule);
    desk.says("enter shaft_schedule.csv --job j --dry-run")
        .ends(3)
        .says("shaft_schedule.csv, row 4 (W-2): cannot be taken, 2 mistakes below.")
        .says("shaft_schedule.csv: 1 of 2 rows can be taken.");
    desk.write("shaft_schedule.xlsx", schedule);
    desk.says("enter shaft_schedule.xlsx --job j").ends(3).says("it is no workbook (.xlsx) that can be read");
    assert_eq!(desk.says("export record --job j").out, before);
}
