//! Mistakes in days and in the lines of their logs.

use super::{JOB, check, check_log};
use expect_test::expect;

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
