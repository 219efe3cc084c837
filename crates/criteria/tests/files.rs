//! A person's own criteria file: what is read, and every mistake with its line.

use criteria::set::sha256;
use criteria::{Set, Sure, Topic};
use expect_test::{Expect, expect};

const GOOD: &str = r#"[set]
id = "example-1"
title = "Example, made up for this test"
edition = "1"
about = "Nothing real"

[[criterion]]
id = "example/sediment"
title = "Sediment"
measures = "bottom.sediment.max"
stage = "before_concrete"
rule = "at_most"
limit = "1 1/2"
unit = "in"
when = { base = ["end_bearing"], diameter = { above = "3", up_to = "5", unit = "ft" } }
holds = true
sure = "job"
why = "For the test."
if_fails = "Clean again."
"#;

/// Reads a file in which one text is replaced; the mistakes, one on a line.
#[track_caller]
fn check(from: &str, to: &str, expected: Expect) {
    assert!(GOOD.contains(from), "`{from}` stands in the good file");
    let outcome = match Set::parse(&GOOD.replacen(from, to, 1)) {
        Ok(_) => "no mistake".to_owned(),
        Err(problems) => problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"),
    };
    expected.assert_eq(&outcome);
}

#[test]
fn a_good_file_is_read() {
    let set = Set::parse(GOOD).expect("a good file");
    let one = &set.criteria[0];
    assert_eq!((one.id.as_str(), one.line, one.holds), ("example/sediment", 7, true));
    assert_eq!((one.sure, one.source.as_deref()), (Sure::Job, None));
    assert_eq!(one.when.words[&Topic::Base], ["end_bearing"]);
    assert_eq!(one.when.ranges[&Topic::Diameter].high.as_ref().map(|edge| edge.included), Some(true));
}

/// The digest of the file is what other programs compute: FIPS 180-4 gives this value for "abc". [FIPS-180-4]
#[test]
fn a_file_is_known_by_its_digest() {
    assert_eq!(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    assert_eq!(Set::parse(GOOD).expect("a good file").sha256, sha256(GOOD));
    assert_ne!(sha256(GOOD), sha256(&GOOD.replace("1 1/2", "1 1/4")));
}

#[test]
fn a_misspelt_word_is_named_with_the_one_that_was_meant() {
    check(
        "limit = ",
        "limt = ",
        expect![[r#"
            line 7, example/sediment, `limit`: found nothing, expected one of limit, smaller_of, larger_of, sum_of
            line 13, example/sediment, `limt`: found a key nobody reads here, expected `limit`"#]],
    );
    check(
        "bottom.sediment.max",
        "bottom.sediment_max",
        expect![[
            r#"line 10, example/sediment, `measures`: found "bottom.sediment_max", expected perhaps "bottom.sediment.max""#
        ]],
    );
    check(
        "at_most",
        "atmost",
        expect![[
            r#"line 12, example/sediment, `rule`: found "atmost", expected at_most, at_least, below, above, between, within, yes, no, report"#
        ]],
    );
    check(
        "end_bearing",
        "endbearing",
        expect![[
            r#"line 15, example/sediment, `when`, `base`: found "endbearing", expected a list of end_bearing, side_friction"#
        ]],
    );
    check(
        "base = ",
        "bases = ",
        expect!["line 15, example/sediment, `when`, `bases`: found a key nobody reads here, expected `base`"],
    );
}

#[test]
fn a_limit_has_to_be_a_number_in_quotes_in_a_unit_of_what_is_measured() {
    check(
        "\"1 1/2\"",
        "1.5",
        expect![
            "line 13, example/sediment, `limit`: found the bare number 1.5, expected a text in quotes that is not empty"
        ],
    );
    check(
        "1 1/2",
        "1,5",
        expect![[
            r#"line 13, example/sediment, `limit`: found "1,5", expected the number as printed, in quotes: "1.5", "1/24" or "1 1/2""#
        ]],
    );
    check(
        "unit = \"in\"",
        "unit = \"pcf\"",
        expect![[
            r#"line 14, example/sediment, `unit`: found "pcf", expected ft, in, yd, US survey ft, m, cm, mm"#
        ]],
    );
    check(
        "unit = \"in\"\n",
        "",
        expect![
            "line 7, example/sediment, `unit`: found no unit, expected ft, in, yd, US survey ft, m, cm, mm"
        ],
    );
    check(
        "limit = \"1 1/2\"",
        "limit = \"1 1/2\"\nsum_of = [{ value = \"1\" }]",
        expect![
            "line 7, example/sediment, `limit`: found more than one, expected one of limit, smaller_of, larger_of, sum_of"
        ],
    );
    check(
        "limit = \"1 1/2\"",
        "sum_of = []",
        expect!["line 13, example/sediment, `sum_of`: found an empty list, expected at least one term"],
    );
    check(
        "limit = \"1 1/2\"",
        "sum_of = [{ times = \"2\", of = \"first_charge_needed\" }]",
        expect![[
            r#"line 13, example/sediment, `sum_of`, `of`: found "first_charge_needed", expected a dimension of the kind that is measured (a number of things needs `per`)"#
        ]],
    );
    check(
        "limit = \"1 1/2\"",
        "larger_of = [{ times = \"2\", of = \"size\" }, \"3\"]",
        expect![[r#"
        line 13, example/sediment, `larger_of`: found a bare value, expected { value = "3" } or { times = "1/24", of = "diameter" }
        line 13, example/sediment, `larger_of`, `of`: found "size", expected diameter, depth, cutoff_depth, casing_length, cage_inner_width, tremie_inner_diameter, aggregate_size, bar_diameter, balancing_head, first_charge_needed, specified_strength, ratio_error, slump_life, ticket_time_limit, mix_water_cement"#]],
    );
}

#[test]
fn a_rule_has_to_fit_what_is_measured() {
    check(
        "at_most",
        "yes",
        expect![[r#"line 12, example/sediment, `rule`: found "yes", expected a rule for numbers"#]],
    );
    check(
        "bottom.sediment.max",
        "bottom.accepted",
        expect![[r#"line 12, example/sediment, `rule`: found "at_most", expected yes, no or report"#]],
    );
    check(
        "at_most",
        "between",
        expect![[r#"
            line 7, example/sediment, `high`: found nothing, expected the number as printed, in quotes: "1.5", "1/24" or "1 1/2"
            line 7, example/sediment, `low`: found nothing, expected the number as printed, in quotes: "1.5", "1/24" or "1 1/2""#]],
    );
}

#[test]
fn where_a_limit_comes_from_has_to_be_said() {
    check(
        "sure = \"job\"",
        "sure = \"read\"",
        expect![[r#"
        line 7, example/sediment, `clause`: found nothing, expected the place in the document that was read
        line 7, example/sediment, `source`: found nothing, expected the key of the document"#]],
    );
    check(
        "sure = \"job\"",
        "sure = \"from_memory\"",
        expect![[r#"
        line 7, example/sediment, `source`: found nothing, expected the key of the document
        line 7, example/sediment, `verify`: found nothing, expected what has to be verified before use"#]],
    );
    check(
        "sure = \"job\"",
        "sure = \"probably\"",
        expect![[
            r#"line 17, example/sediment, `sure`: found "probably", expected read, from_memory, common_practice or job"#
        ]],
    );
    check(
        "sure = \"job\"\n",
        "",
        expect![
            "line 7, example/sediment, `sure`: found nothing, expected read, from_memory, common_practice or job"
        ],
    );
}

#[test]
fn an_id_is_used_once() {
    let again = GOOD.split("\n\n").nth(1).expect("the criterion").to_owned();
    check(
        "if_fails = \"Clean again.\"\n",
        &format!("if_fails = \"Clean again.\"\n\n{again}"),
        expect![
            "line 21, example/sediment, `id`: found an id already used on line 7, expected an id of its own for each criterion"
        ],
    );
    check(
        "example/sediment",
        "Sediment",
        expect![[
            r#"line 8, Sediment, `id`: found "Sediment", expected small letters, digits, `-`, `.` and one `/` after the name of the set"#
        ]],
    );
}

#[test]
fn every_mistake_is_told_at_once() {
    let broken = GOOD
        .replace("at_most", "atmost")
        .replace("before_concrete", "placing")
        .replace("holds = true", "holds = \"x\"")
        .replace("why = \"For the test.\"\n", "");
    let problems = Set::parse(&broken).expect_err("four mistakes");
    let lines: Vec<_> = problems.iter().map(|problem| problem.line).collect();
    assert_eq!(lines, [7, 11, 12, 16]);
}

#[test]
fn what_is_no_toml_or_no_set_is_told_with_its_line() {
    check(
        "title = \"Sediment\"",
        "title = Sediment",
        expect![
            "line 9, the file: found text that is not TOML (string values must be quoted, expected literal string), expected TOML 1.0"
        ],
    );
    check(
        "[set]",
        "[sets]",
        expect![[r#"
            line 1, `set`: found nothing, expected a table [set] with id, title, edition and about
            line 1, `sets`: found a key nobody reads here, expected `set`"#]],
    );
    check(
        "[[criterion]]",
        "[criterion]",
        expect![
            "line 7, `criterion`: found a table, expected a list: [ … ], or [[name]] before each table of it"
        ],
    );
    check(
        GOOD,
        "",
        expect![[r#"
        line 1, `criterion`: found nothing, expected at least one [[criterion]]
        line 1, `set`: found nothing, expected a table [set] with id, title, edition and about"#]],
    );
}

/// The example a person starts from is a file that is read.
#[test]
fn the_example_of_the_documentation_is_read() {
    let page = include_str!("../../../criteria/README.md");
    let example = page.split("```toml\n").nth(1).and_then(|rest| rest.split("```").next());
    let set = Set::parse(example.expect("an example")).expect("a good file");
    assert_eq!(set.criteria.len(), 1);
    assert_eq!(set.criteria[0].id, "our-contract/sediment");
}

/// The recipes of the documentation, put where `limit` stands.
#[test]
fn the_recipes_of_the_documentation_are_read() {
    let page = include_str!("../../../criteria/README.md");
    let recipes = page.split("```text\n").nth(1).and_then(|rest| rest.split("```").next());
    let mut read = 0;
    for line in recipes.expect("recipes").lines() {
        let recipe = &line[..=line.find(']').expect("a list")];
        let text = GOOD.replace("limit = \"1 1/2\"", recipe);
        let counted = text.replace("bottom.sediment.max", "tubes.count").replace("\"in\"", "\"tubes\"");
        let text = if recipe.contains("per") { counted } else { text };
        assert!(Set::parse(&text).is_ok(), "{recipe}: {:?}", Set::parse(&text).err());
        read += 1;
    }
    assert_eq!(read, 3);
}
