//! Files that are none: empty, in another encoding, not TOML, or at odds with one another.

use super::{JOB, check, check_log};
use expect_test::expect;
use notes::{Nothing, Source, read, read_all};

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
