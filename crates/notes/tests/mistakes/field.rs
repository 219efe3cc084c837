//! Mistakes in what a field holds: quantities and times.

use super::check_log;
use expect_test::expect;

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
