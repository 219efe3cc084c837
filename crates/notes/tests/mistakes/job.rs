//! Mistakes in the head of a file: the job and its shafts.

use super::{JOB, check, check_job};
use expect_test::expect;

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
