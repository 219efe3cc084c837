//! Mistakes in labels, and in the corrections that speak of them.

use super::check_log;
use expect_test::expect;

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
