//! Every sort of mistake in a file of notes, as the person who made it reads it.

use expect_test::{Expect, expect};
use notes::{Nothing, Source, read, read_all};

const JOB: &str = r#"[job]
key = "harlow-creek"
date = 2026-05-01
author = "M. Okafor"
name = "Harlow Creek Interchange"
time_zone = "America/Denver"
units = "us"
lengths = "feet_tenths"

[[shaft]]
id = "S-1"
structure = "sign"
top = "5280.0 ft"
tip = "5262 ft"
method = "wet"
bore = "4 ft"
"#;

fn told(name: &str, text: &str) -> String {
    match read(Source { name, bytes: text.as_bytes() }, None, &Nothing) {
        Ok(notes) => format!("{} drafts", notes.drafted.len()),
        Err(mistakes) => mistakes.iter().map(|mistake| format!("{mistake}\n")).collect(),
    }
}

/// A whole file.
#[track_caller]
fn check(text: &str, expected: Expect) {
    expected.assert_eq(&told("notes.toml", text));
}

/// Lines of one day of one shaft; the first of them is line 20.
#[track_caller]
fn check_log(log: &str, expected: Expect) {
    let day = "[[day]]\ndate = 2026-05-04\nshaft = \"S-1\"\nauthor = \"M. Okafor\"\nlog = [\n";
    let job = JOB;
    let job = job.trim_end();
    check(&format!("{job}\n{day}{log}\n]\n"), expected);
}

/// A job with one line replaced.
#[track_caller]
fn check_job(from: &str, to: &str, expected: Expect) {
    assert!(JOB.contains(from), "the line to be replaced is there");
    check(&JOB.replace(from, to), expected);
}

#[test]
fn nothing_to_read() {
    check(
        "",
        expect![[r#"
        notes.toml, line 1, column 1: nothing is written in this file
    "#]],
    );
    check(
        "  \n\t\r\n",
        expect![[r#"
        notes.toml, line 1, column 1: nothing is written in this file
    "#]],
    );
    check(
        "# only a remark\n",
        expect![[r#"
        notes.toml: no job is open and no [job] stands in the file; expected [job] with key, date, author, name, time_zone, units and lengths
    "#]],
    );
    check(
        "[[day]]\ndate = 2026-05-04\n",
        expect![[r#"
        notes.toml: no job is open and no [job] stands in the file; expected [job] with key, date, author, name, time_zone, units and lengths
    "#]],
    );
    let latin = read(Source { name: "a.toml", bytes: b"a = 1\nb = \"caf\xe9\"\n" }, None, &Nothing);
    expect!["a.toml, line 2, column 1: the byte 0xe9 is not UTF-8; save the file again with the encoding UTF-8 and try once more"].assert_eq(&latin.unwrap_err()[0].to_string());
    let wide = read(Source { name: "a.toml", bytes: b"\xff\xfea\0" }, None, &Nothing);
    expect!["a.toml: this looks like UTF-16; save the file again with the encoding UTF-8 and try once more"]
        .assert_eq(&wide.unwrap_err()[0].to_string());
}

#[test]
fn the_job() {
    check_job(
        "key = \"harlow-creek\"",
        "",
        expect![[r#"
        notes.toml, line 1, column 1: `key` is blank, and [job] needs it (the short name the job keeps for ever)
    "#]],
    );
    check_job(
        "\"harlow-creek\"",
        "\"Harlow Creek\"",
        expect![[r#"
        notes.toml, line 2, column 7: `Harlow Creek` is no key; expected 1 to 40 small letters, digits and hyphens such as `harlow-creek`
    "#]],
    );
    check_job(
        "\"harlow-creek\"",
        "\"rehearsal-neck-7\"",
        expect![[r#"
        notes.toml, line 2, column 7: `rehearsal-neck-7` is a key of rehearsals, and no job may have one; choose another, or say `rehearsal = true`
    "#]],
    );
    check_job("\"harlow-creek\"", "\"rehearsal-neck-7\"\nrehearsal = true", expect!["2 drafts"]);
    check_job(
        "\"America/Denver\"",
        "\"Denver\"",
        expect![[r#"
        notes.toml, line 6, column 13: `Denver` is no time zone of the IANA table; expected one such as `America/Denver`; did you mean `America/Denver`?
    "#]],
    );
    check_job(
        "\"America/Denver\"",
        "\"Mountain\"",
        expect![[r#"
        notes.toml, line 6, column 13: `Mountain` is no time zone of the IANA table; expected one such as `America/Denver`; did you mean `Canada/Mountain` or `US/Mountain`?
    "#]],
    );
    check_job(
        "time_zone = \"America/Denver\"",
        "",
        expect![[r#"
        notes.toml, line 1, column 1: `time_zone` is blank, and job_opened needs it (Time zone, as in the IANA table, for example America/Denver)
    "#]],
    );
    check_job(
        "units = \"us\"",
        "units = \"imperial\"",
        expect![[r#"
        notes.toml, line 7, column 9: `units`: `imperial` is none of the words here; expected `us` or `metric`
    "#]],
    );
    check_job(
        "lengths = \"feet_tenths\"",
        "length = \"feet_tenths\"",
        expect![[r#"
        notes.toml, line 1, column 1: `lengths` is blank, and job_opened needs it (How lengths are printed)
        notes.toml, line 8, column 1: `length` is no field of job_opened; did you mean `lengths`?
    "#]],
    );
    check_job(
        "date = 2026-05-01",
        "date = \"5/1/2026\"",
        expect![[r#"
        notes.toml, line 3, column 8: `5/1/2026` is no date; expected year, month and day such as 2026-05-04
    "#]],
    );
    check_job(
        "date = 2026-05-01",
        "",
        expect![[r#"
        notes.toml, line 1, column 1: `date` is blank, and job_opened needs it (the day it was written)
    "#]],
    );
    check_job(
        "author = \"M. Okafor\"",
        "",
        expect![[r#"
        notes.toml, line 1, column 1: `author` is blank, and job_opened needs it (who wrote it)
    "#]],
    );
    check_job(
        "[[shaft]]",
        "[[shafts]]",
        expect![[r#"
        notes.toml, line 10, column 3: `shafts` has no place in the file; did you mean `shaft`?
    "#]],
    );
    check_job(
        "[[shaft]]",
        "[[concrete_test]]\n[[shaft]]",
        expect![[r#"
        notes.toml, line 10, column 3: `concrete_test` is not written here but as a line of the log of a [[day]]
    "#]],
    );
    check_job(
        "[[shaft]]",
        "[[cage_planned]]\n[[shaft]]",
        expect![[r#"
        notes.toml, line 10, column 3: `cage_planned` is not written here but as a part of its [[shaft]], such as [shaft.cage]
    "#]],
    );
    check_job(
        "[[shaft]]",
        "[criteria]\nset = \"small\"\n[[shaft]]",
        expect![[r#"
        notes.toml, line 11, column 7: `small` is no criteria set that can be found here
    "#]],
    );
}

#[test]
fn the_shaft() {
    check(JOB, expect!["2 drafts"]);
    check_job(
        "id = \"S-1\"",
        "",
        expect![[r#"
        notes.toml, line 10, column 1: `id` is blank, and [[shaft]] needs it (the name of the shaft, as on the plans)
    "#]],
    );
    check_job(
        "[[shaft]]",
        "[[shaft]]\nid = \"S-1\"\nstructure = \"sign\"\ntop = 1\ntip = 0\nmethod = \"dry\"\n[[shaft]]",
        expect![[r#"
        notes.toml, line 17, column 6: the shaft `S-1` is planned in line 10 already
    "#]],
    );
    check_job(
        "structure = \"sign\"",
        "structure = \"gantry\"",
        expect![[r#"
        notes.toml, line 12, column 13: `structure`: `gantry` is none of the words here; expected `sign`, `mast_arm`, `pole`, `bridge`, `wall`, `building`, `trial` or `other`
    "#]],
    );
    check_job(
        "tip = \"5262 ft\"\n",
        "",
        expect![[r#"
        notes.toml, line 10, column 1: `tip` is blank, and shaft_planned needs it (Tip required)
    "#]],
    );
    check_job(
        "bore = \"4 ft\"",
        "bore = [ { diametr = \"4 ft\" }, { diameter = \"4 yd3\" } ]",
        expect![[r#"
        notes.toml, line 16, column 10: `bore[1].diameter` is blank, and bore of shaft_planned needs it (Diameter of the hole)
        notes.toml, line 16, column 12: `diametr` is no field of bore of shaft_planned; did you mean `diameter`?
        notes.toml, line 16, column 45: `bore[2].diameter`: `4 yd3` is a volume, because of `yd³`; expected a length such as 12.54 ft; perhaps 4 yd
    "#]],
    );
    check_job(
        "bore = \"4 ft\"",
        "[shaft.cage]\nbars = [ { count = \"ten\", size = \"#8\" } ]",
        expect![[r#"
        notes.toml, line 16, column 1: `diameter` is blank, and cage_planned needs it (Diameter over the transverse bars)
        notes.toml, line 17, column 20: `bars[1].count`: `ten` is no whole number; expected one from 0 to 1000000
    "#]],
    );
}

#[test]
fn the_day() {
    let day = |head: &str| format!("{}\n[[day]]\n{head}\n", JOB);
    let log = "log = [ { at = \"07:10\", entry = \"remark\", text = \"x\" } ]";
    check(
        &day(&format!("shaft = \"S-1\"\nauthor = \"A\"\n{log}")),
        expect![[r#"
        notes.toml, line 18, column 1: `date` is blank, and [[day]] needs it (the day of these lines, such as 2026-05-04)
    "#]],
    );
    check(
        &day(&format!("date = 2026-05-04\nshaft = \"S-1\"\n{log}")),
        expect![[r#"
        notes.toml, line 18, column 1: `author` is blank, and [[day]] needs it (who wrote these lines)
    "#]],
    );
    check(
        &day(&format!("date = 2026-13-04\nshaft = \"S-1\"\nauthor = \"A\"\n{log}")),
        expect![[r#"
            notes.toml, line 19, column 8: this is no date; expected year, month and day such as 2026-05-04
        "#]],
    );
    check(
        &day(&format!("date = 2026-05-04\nshaft = \"S1\"\nauthor = \"A\"\n{log}")),
        expect![[r#"
        notes.toml, line 20, column 9: the shaft `S1` is not planned; did you mean `S-1`?
    "#]],
    );
    check(
        &day(&format!("date = 2026-05-04\nshaft = \"P-22\"\nauthor = \"A\"\n{log}")),
        expect![[r#"
        notes.toml, line 20, column 9: the shaft `P-22` is not planned; planned are `S-1`
    "#]],
    );
    check(
        &day(&format!("date = 2026-05-04\nshaft = [1]\nauthor = \"A\"\nwheather = \"fine\"\n{log}")),
        expect![[r#"
        notes.toml, line 20, column 9: `shaft`: found a list, expected a text
        notes.toml, line 22, column 1: `wheather` has no place in a [[day]]; expected `date`, `shaft`, `author`, `device`, `noted` or `log`
    "#]],
    );
    check(
        &day("date = 2026-05-04\nauthor = \"A\"\nlog = \"nothing\""),
        expect![[r#"
        notes.toml, line 21, column 7: `log`: found a text, expected a line such as { at = "07:10", entry = "tool_run", to = "4 ft" }
    "#]],
    );
}

#[test]
fn lines_of_a_log() {
    check_log(
        "  { entry = \"remark\", text = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 3: `at` is blank, and a line of the log needs it (the time it was seen, such as 07:10)
    "#]],
    );
    check_log(
        "  { at = \"07:10\", text = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 3: `entry` is blank, and a line of the log needs it (the kind of entry, such as tool_run)
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tol_run\", to = 4 },",
        expect![[r#"
        notes.toml, line 22, column 27: `tol_run` is no kind of entry; did you mean `tool_run`?
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"coffee\" },",
        expect![[r#"
        notes.toml, line 22, column 27: `coffee` is no kind of entry; what fits none of them is written as `remark`
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"job_opened\", name = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 27: `job_opened` is not written here but as the table [job]
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\" },",
        expect![[r#"
        notes.toml, line 22, column 3: `to` is blank, and tool_run needs it (Depth at the end)
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", too = \"4 ft\" },",
        expect![[r#"
        notes.toml, line 22, column 3: `to` is blank, and tool_run needs it (Depth at the end)
        notes.toml, line 22, column 39: `too` is no field of tool_run; did you mean `to` or `tool`?
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"4 ft\", slump = \"7 in\" },",
        expect![[r#"
        notes.toml, line 22, column 52: `slump` is no field of tool_run; it belongs to `concrete_test`
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"4 ft\", zzz = 1 },",
        expect![[r#"
        notes.toml, line 22, column 52: `zzz` is no field of tool_run; its fields are `out`, `tool`, `diameter`, `from`, `to`, `material`, `ground`, `by_hand` or `note`
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = [\"4 ft\"] },",
        expect![[r#"
        notes.toml, line 22, column 44: `to`: found a list, expected a text
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"4 ft\", by_hand = \"perhaps\" },",
        expect![[r#"
        notes.toml, line 22, column 62: `by_hand`: `perhaps` is none of the words here; expected `yes` or `no`
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"4 ft\", ground = \"sandy\" },",
        expect![[r#"
        notes.toml, line 22, column 61: `ground`: `sandy` is none of the words here; did you mean `sand`?
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"cage_set\", splices = 1.5 },",
        expect![[r#"
        notes.toml, line 22, column 49: `splices`: `1.5` is no whole number; expected one from 0 to 1000000
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"photo\", file = \"a.jpg\", caption = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 43: `file`: `a.jpg` is neither a file beside the notes nor the 64 hexadecimal digits of a SHA-256
    "#]],
    );
}

#[test]
fn quantities() {
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"9.5 yd3\" },",
        expect![[r#"
        notes.toml, line 22, column 44: `to`: `9.5 yd3` is a volume, because of `yd³`; expected a length such as 12.54 ft; perhaps 9.5 yd
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"4 f\" },",
        expect![[r#"
        notes.toml, line 22, column 44: `to`: `4 f` is a temperature, because of `°F`; expected a length such as 12.54 ft; perhaps 4 ft
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"4'-14\\\"\" },",
        expect![[r#"
        notes.toml, line 22, column 44: `to`: `4'-14"` cannot be right as it is written; expected a length such as 12.54 ft; perhaps 5'-2", 4 ft or 14 ft
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"about four\" },",
        expect![[r#"
        notes.toml, line 22, column 44: `to`: `about four` does not begin with a number; expected a length such as 12.54 ft
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"fluid_test\", place = \"hole\", stage = \"drilling\", viscosity = \"38 s\" },",
        expect![[r#"
            notes.toml, line 22, column 89: `viscosity`: `38 s` does not say for which volume; expected a Marsh funnel time with its volume such as 38 s/qt; perhaps 38 s/qt or 38 s/L
        "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"concrete_sounded\", points = [ { place = \"center\", depth = \"42.6\" }, { place = \"middle\", depth = \"42..4\" } ] },",
        expect![[r#"
        notes.toml, line 22, column 106: `points[2].place`: `middle` is none of the words here; expected `center`, `north`, `east`, `south`, `west`, `inside`, `outside` or `other`
        notes.toml, line 22, column 124: `points[2].depth`: `42..4` can be read in more than one way; expected a length such as 12.54 ft; perhaps 42.4 or 42'-4"
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"concrete_sounded\", points = { center = \"42.6\", nort = \"42.4\" } },",
        expect![[r#"
        notes.toml, line 22, column 75: `points[2].place`: `nort` is none of the words here; did you mean `north`?
    "#]],
    );
    let long = "9".repeat(5000);
    check_log(
        &format!("  {{ at = \"07:10\", entry = \"tool_run\", to = \"{long}\" }},"),
        expect![[r#"
        notes.toml, line 22, column 44: `to`: 5000 characters are written here, far more than such a field holds
    "#]],
    );
}

#[test]
fn times() {
    check_log(
        "  { at = \"7.10\", entry = \"remark\", text = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 10: `at`: `7.10` is no time; expected one such as `07:10`, `2:30 pm`, `+1 00:10` for the next day, or `2026-05-04 07:10`
    "#]],
    );
    check_log(
        "  { at = \"07:10\", noted = \"25:10\", entry = \"remark\", text = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 27: `noted`: `25:10` is no time; expected one such as `07:10`, `2:30 pm`, `+1 00:10` for the next day, or `2026-05-04 07:10`
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = 4, out = \"later\" },",
        expect![[r#"
        notes.toml, line 22, column 53: `out`: `later` is no time; expected one such as `07:10`, `2:30 pm`, `+1 00:10` for the next day, or `2026-05-04 07:10`
    "#]],
    );
    check_log(
        "  { at = \"2026-03-08 02:30\", entry = \"remark\", text = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 10: `at`: `2026-03-08 02:30` never was: on 2026-03-08 02:30 the clocks were put forward over it; which time was meant?
    "#]],
    );
    check_log(
        "  { at = \"2026-11-01 01:30\", entry = \"tool_run\", to = 4, out = \"2026-11-01 01:40\" },",
        expect![[r#"
        notes.toml, line 22, column 10: `at`: `2026-11-01 01:30` came twice: at 2026-11-01 01:30 the clocks were put back; write `01:30 -06:00` for the first or `01:30 -07:00` for the second
        notes.toml, line 22, column 64: `out`: `2026-11-01 01:40` came twice: at 2026-11-01 01:40 the clocks were put back; write `01:40 -06:00` for the first or `01:40 -07:00` for the second
    "#]],
    );
    check_log(
        "  { at = \"07:10 -05:00\", entry = \"remark\", text = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 10: `at`: `07:10 -05:00` says -05:00 from UTC, but the clocks of the job stood at -06:00
    "#]],
    );
}

#[test]
fn labels_and_corrections() {
    check_log(
        "  { at = \"07:10\", entry = \"correction\", replaces = \"#s3\", reason = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 52: no line of this file is labelled `s3`
    "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"correction\", replaces = \"#s3\", reason = \"x\" },\n  \
         { at = \"07:20\", as = \"s3\", entry = \"remark\", text = \"x\" },\n  \
         { at = \"07:30\", as = \"s3\", entry = \"remark\", text = \"x\" },",
        expect![[r#"
            notes.toml, line 22, column 52: `s3` is the label of line 23, which is written later; only lines further up can be spoken of
            notes.toml, line 24, column 24: the label `s3` is given to line 23 already
        "#]],
    );
    check_log(
        "  { at = \"07:20\", as = \"s3\", entry = \"remark\", text = \"x\" },\n  \
         { at = \"07:30\", entry = \"correction\", replaces = \"#s33\", reason = \"x\" },",
        expect![[r#"
            notes.toml, line 23, column 52: no line of this file is labelled `s33`; did you mean `s3`?
        "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"correction\", replaces = \"1a2b3c4d\", reason = \"x\" },",
        expect![[r#"
        notes.toml, line 22, column 52: `1a2b3c4d` names no entry; expected a label such as `#s3`, or the first eight digits of an entry's id
    "#]],
    );
    check_log(
        "  { at = \"07:20\", as = \"s3\", entry = \"remark\", text = \"x\" },\n  \
         { at = \"07:30\", entry = \"correction\", replaces = \"#s3\", reason = \"x\", body = { entry = \"concrete_sounded\", points = [ { place = \"up\" } ], hight = 3 } },",
        expect![[r#"
            notes.toml, line 23, column 121: `body.points[1].depth` is blank, and points of concrete_sounded needs it (Depth below the reference)
            notes.toml, line 23, column 131: `body.points[1].place`: `up` is none of the words here; expected `center`, `north`, `east`, `south`, `west`, `inside`, `outside` or `other`
            notes.toml, line 23, column 141: `hight` is no field of concrete_sounded; its fields are `points`, `after`, `share`, `elevation`, `reference` or `tape_correction`
        "#]],
    );
    check_log(
        "  { at = \"07:20\", as = \"s3\", entry = \"remark\", text = \"x\" },\n  \
         { at = \"07:30\", entry = \"correction\", replaces = \"#s3\", reason = \"x\", body = { entry = \"remarc\", text = \"y\" } },\n  \
         { at = \"07:30\", entry = \"correction\", replaces = \"#s3\", body = { text = \"y\" } },",
        expect![[r#"
            notes.toml, line 23, column 80: `remarc` is no kind of entry; did you mean `remark`?
            notes.toml, line 24, column 3: `reason` is blank, and correction needs it (Why)
            notes.toml, line 24, column 66: `body.entry` is blank, and correction needs it
        "#]],
    );
}

#[test]
fn what_is_not_toml() {
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = 4 ft },",
        expect![[r#"
            notes.toml, line 22, column 44: a text, a time or a quantity stands in quotation marks, as in to = "4 ft"
        "#]],
    );
    check_log(
        "  { at = 0710, entry = \"tool_run\", to = \"4 ft\" },",
        expect![[r#"
            notes.toml, line 22, column 10: a time or number that begins with 0 stands in quotation marks, as in at = "0710"
        "#]],
    );
    check_log(
        "  { at = 7:10, entry = \"tool_run\", to = \"4 ft\" },",
        expect![[r#"
            notes.toml, line 22, column 10: a time of one digit stands in quotation marks, as in at = "7:10"
        "#]],
    );
    check_log(
        "  { at = \"07:10\" entry = \"tool_run\", to = \"4 ft\" },",
        expect![[r#"
            notes.toml, line 22, column 18: a comma is missing before this
        "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"4 ft },\n  { at = \"08:10\", entry = \"remark\" },",
        expect![[r#"
            notes.toml, line 22, column 52: a quotation mark is opened and not closed on the same line
        "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"12'-6 1/2\"\" },",
        expect![[r#"
            notes.toml, line 22, column 55: a text ends before this; a text with marks of feet and inches in it stands between three single marks, as in '''12'-6"'''
        "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = '12'-6 1/2\"' },",
        expect![[r#"
            notes.toml, line 22, column 48: a text ends before this; a text with marks of feet and inches in it stands between three single marks, as in '''12'-6"'''
        "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tool_run\", to = \"4 ft\" ,\n  { at = \"08:10\", entry = \"remark\" },",
        expect![[r#"
            notes.toml, line 23, column 3: the line before this is not closed with }
        "#]],
    );
    check_log(
        "  { at = \"07:10\", at = \"07:11\", entry = \"remark\", text = \"x\" },",
        expect![[r#"
            notes.toml, line 22, column 19: the same name is written twice
        "#]],
    );
    check_log(
        "  { at = \"07:10\", entry = \"tol_run\", to = 4 ft },\n  { at = \"7h\", entry = \"tool_run\", to = \"5 ft\" },",
        expect![[r#"
            notes.toml, line 22, column 27: `tol_run` is no kind of entry; did you mean `tool_run`?
            notes.toml, line 22, column 43: a text, a time or a quantity stands in quotation marks, as in to = "4 ft"
            notes.toml, line 23, column 10: `at`: `7h` is no time; expected one such as `07:10`, `2:30 pm`, `+1 00:10` for the next day, or `2026-05-04 07:10`
        "#]],
    );
    check(
        "[job]\nkey = \"a\"\n[[day]]\nlog = [\n  { at = \"07:10\", entry = \"remark\", text = \"x\" },\n\n[[day]]\ndate = 2026-05-05\nlog = [\n]\n",
        expect![[r#"
            notes.toml, line 1, column 1: `date` is blank, and job_opened needs it (the day it was written)
            notes.toml, line 1, column 1: `author` is blank, and job_opened needs it (who wrote it)
            notes.toml, line 1, column 1: `name` is blank, and job_opened needs it (Name of the job)
            notes.toml, line 1, column 1: `time_zone` is blank, and job_opened needs it (Time zone, as in the IANA table, for example America/Denver)
            notes.toml, line 1, column 1: `units` is blank, and job_opened needs it (Units of bare numbers)
            notes.toml, line 1, column 1: `lengths` is blank, and job_opened needs it (How lengths are printed)
            notes.toml, line 3, column 1: `date` is blank, and [[day]] needs it (the day of these lines, such as 2026-05-04)
            notes.toml, line 3, column 1: `author` is blank, and [[day]] needs it (who wrote these lines)
            notes.toml, line 4, column 7: a list is opened here and never closed with ]
        "#]],
    );
    check(
        "just some words\nand more of them\n",
        expect![[r#"
            notes.toml, line 1, column 6: a name stands here without = and a value
        "#]],
    );
    check(
        "[job\nname = \"x\"\n",
        expect![[r#"
            notes.toml, line 1, column 5: the name of a table is not closed with ]
        "#]],
    );
}

#[test]
fn several_files_at_once() {
    let second = "[[day]]\ndate = 2026-05-05\nauthor = \"A\"\nshaft = \"S-1\"\nlog = [ { at = \"7\", entry = \"remark\", text = \"x\" } ]\n";
    let job = JOB;
    let sources = [
        Source { name: "job.toml", bytes: job.as_bytes() },
        Source { name: "day.toml", bytes: second.as_bytes() },
        Source { name: "again.toml", bytes: job.as_bytes() },
        Source { name: "other.toml", bytes: b"[job]\nkey = \"other\"\n" },
    ];
    let mistakes = read_all(&sources, None, &Nothing).unwrap_err();
    let told: String = mistakes.iter().map(|mistake| format!("{mistake}\n")).collect();
    expect![[r#"
        day.toml, line 5, column 16: `at`: `7` is no time; expected one such as `07:10`, `2:30 pm`, `+1 00:10` for the next day, or `2026-05-04 07:10`
        again.toml, line 5, column 1: the job is open already, so [job] may hold its key and nothing else; what was written of it is changed by a correction
        again.toml, line 11, column 6: the shaft `S-1` is planned in the record already; a changed plan is a correction of that entry
        other.toml, line 2, column 7: these notes are for the job `other`, but `harlow-creek` is open
    "#]].assert_eq(&told);
}
