//! A crate uses only what the crate map allows.
//!
//! The record never knows the rules, the formulas never know the site, the views never compute: one row
//! a crate holds these sentences, and `cargo metadata` tells whether they are true.

use super::tree::{Finding, Tree};
use serde_json::Value;

/// One row of the crate map.
struct Layer {
    name: &'static str,
    /// The crates of the workspace it may use.
    uses: &'static [&'static str],
    /// The crates its tests may use beside those.
    tests_use: &'static [&'static str],
}

const ALL: &[&str] = &[
    "quantity",
    "calc",
    "record",
    "criteria",
    "assess",
    "figure",
    "drawing",
    "wire",
    "notes",
    "wording",
    "report",
    "package",
    "formats",
    "store",
    "sync",
    "seal",
    "timestamp",
    "screen",
    "rehearse",
    "server",
];

/// Only in tests, for every crate.
const TEST_KIT: &str = "testkit";

/// What shows an assessment names the types `calc` gives its results in; `views` keeps it from more.
const MAP: &[Layer] = &[
    Layer { name: "quantity", uses: &[], tests_use: &[] },
    Layer { name: "calc", uses: &["quantity"], tests_use: &[] },
    Layer { name: "record", uses: &["quantity"], tests_use: &[] },
    Layer { name: "criteria", uses: &["quantity"], tests_use: &[] },
    Layer {
        name: "assess",
        uses: &["quantity", "calc", "record", "criteria"],
        tests_use: &["notes", "wire"],
    },
    Layer { name: "figure", uses: &["quantity", "calc", "assess"], tests_use: &[] },
    Layer {
        name: "drawing",
        uses: &["quantity", "calc", "record", "criteria", "assess", "figure"],
        tests_use: &["notes", "wire"],
    },
    Layer { name: "wire", uses: &["quantity", "record"], tests_use: &[] },
    Layer { name: "notes", uses: &["quantity", "record"], tests_use: &["wire"] },
    Layer {
        name: "wording",
        uses: &["quantity", "calc", "record", "criteria", "assess", "figure"],
        tests_use: &["notes", "wire"],
    },
    Layer { name: "report", uses: &["quantity", "assess", "figure", "wording"], tests_use: &[] },
    Layer {
        name: "package",
        uses: &[
            "quantity", "calc", "record", "criteria", "assess", "figure", "drawing", "wire", "wording",
            "report",
        ],
        tests_use: &["notes"],
    },
    Layer {
        name: "formats",
        uses: &["quantity", "calc", "record", "criteria", "assess", "wire", "notes", "wording"],
        tests_use: &[],
    },
    Layer { name: "seal", uses: &["record", "wire"], tests_use: &["quantity"] },
    Layer { name: "timestamp", uses: &["quantity"], tests_use: &[] },
    Layer { name: "store", uses: &["record", "wire"], tests_use: &["quantity"] },
    Layer { name: "sync", uses: &["record", "wire"], tests_use: &["quantity"] },
    Layer {
        name: "rehearse",
        uses: &["quantity", "calc", "record"],
        tests_use: &["criteria", "assess", "wire", "notes"],
    },
    Layer {
        name: "screen",
        uses: &[
            "quantity", "calc", "record", "criteria", "assess", "figure", "drawing", "wording", "rehearse",
        ],
        tests_use: &["notes", "wire"],
    },
    Layer {
        name: "server",
        uses: &["quantity", "record", "wire", "wording", "store", "sync"],
        tests_use: &["notes"],
    },
    Layer {
        name: "app",
        uses: &[
            "quantity", "record", "criteria", "assess", "figure", "drawing", "wire", "notes", "wording",
            "sync", "screen", "rehearse",
        ],
        tests_use: &[],
    },
    Layer { name: "cli", uses: ALL, tests_use: &[] },
    Layer { name: "proof", uses: &["quantity", "calc", "assess", "rehearse"], tests_use: &[] },
    Layer { name: TEST_KIT, uses: ALL, tests_use: &[] },
    Layer { name: "xtask", uses: &[], tests_use: &[] },
];

/// Uses the map does not allow, crates it does not know, and rows without a crate.
pub(crate) fn find(tree: &Tree) -> Vec<Finding> {
    let Ok(metadata) = serde_json::from_str::<Value>(&tree.metadata) else {
        return vec![Finding::in_file("Cargo.toml", "`cargo metadata` gave no JSON")];
    };
    let packages: Vec<&Value> = metadata["packages"].as_array().into_iter().flatten().collect();
    let names: Vec<&str> = packages.iter().filter_map(|package| package["name"].as_str()).collect();
    let absent = MAP.iter().filter(|layer| !names.contains(&layer.name));
    let mut found: Vec<Finding> = absent
        .map(|layer| {
            Finding::in_file("Cargo.toml", format!("the crate `{}` of the map does not exist", layer.name))
        })
        .collect();
    found.extend(packages.iter().flat_map(|package| of_crate(package, &names)));
    found
}

fn of_crate(package: &Value, names: &[&str]) -> Vec<Finding> {
    let name = package["name"].as_str().unwrap_or_default();
    let place = format!("crates/{name}/Cargo.toml");
    let Some(layer) = MAP.iter().find(|layer| layer.name == name) else {
        return vec![Finding::in_file(
            &place,
            format!("`{name}` has no row in the crate map (xtask/src/tidy/layers.rs)"),
        )];
    };
    let uses = package["dependencies"].as_array().into_iter().flatten();
    uses.filter_map(|used| Some((used["name"].as_str()?, used["kind"].as_str() == Some("dev"))))
        .filter(|(used, _)| names.contains(used) && *used != name)
        .filter(|(used, only_tests)| !allowed(layer, used, *only_tests))
        .map(|(used, only_tests)| {
            let whose = if only_tests { format!("the tests of `{name}`") } else { format!("`{name}`") };
            Finding::in_file(&place, format!("{whose} must not use `{used}`"))
        })
        .collect()
}

fn allowed(layer: &Layer, used: &str, only_tests: bool) -> bool {
    layer.uses.contains(&used) || (only_tests && (layer.tests_use.contains(&used) || used == TEST_KIT))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A workspace of every crate of the map, `name` using `used` as a dependency of the given kind.
    fn metadata(name: &str, used: &str, kind: &str) -> String {
        let rows: Vec<String> = MAP
            .iter()
            .map(|layer| {
                let row = format!(r#"{{"name":"{used}","kind":{kind}}}"#);
                let uses = if layer.name == name { row } else { String::new() };
                format!(r#"{{"name":"{}","dependencies":[{uses}]}}"#, layer.name)
            })
            .collect();
        format!(r#"{{"packages":[{}]}}"#, rows.join(","))
    }

    #[track_caller]
    fn check(name: &str, used: &str, kind: &str, expected: &[&str]) {
        let tree = Tree { metadata: metadata(name, used, kind), ..Tree::default() };
        let found: Vec<String> = find(&tree).into_iter().map(|finding| finding.what).collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn the_map_is_kept() {
        check("calc", "quantity", "null", &[]);
        check("calc", "record", "null", &["`calc` must not use `record`"]);
        check("record", "criteria", "null", &["`record` must not use `criteria`"]);
        check("calc", "libm", "null", &[]);
    }

    #[test]
    fn the_test_kit_is_only_for_tests() {
        check("calc", "testkit", r#""dev""#, &[]);
        check("calc", "testkit", "null", &["`calc` must not use `testkit`"]);
        check("notes", "wire", r#""dev""#, &[]);
        check("notes", "wire", "null", &["`notes` must not use `wire`"]);
        check("calc", "store", r#""dev""#, &["the tests of `calc` must not use `store`"]);
    }

    #[test]
    fn an_unknown_crate_and_an_absent_one_are_named() {
        let tree = Tree {
            metadata: r#"{"packages":[{"name":"helpers","dependencies":[]}]}"#.into(),
            ..Tree::default()
        };
        let found: Vec<String> = find(&tree).into_iter().map(|finding| finding.what).collect();
        assert_eq!(found.len(), MAP.len() + 1);
        assert!(found.contains(&"the crate `calc` of the map does not exist".to_owned()), "{found:?}");
        assert!(found.iter().any(|what| what.starts_with("`helpers` has no row")), "{found:?}");
    }

    #[test]
    fn the_map_has_no_circle() {
        for (index, layer) in MAP.iter().enumerate() {
            for used in layer.uses {
                let place = MAP.iter().position(|other| other.name == *used);
                assert!(
                    place.is_some_and(|place| place < index),
                    "`{}` uses `{used}`, which stands below it",
                    layer.name
                );
            }
        }
    }
}
