//! The figures: `cargo xtask bench`.
//!
//! Release build. Every program named `bench_…` among the benches and examples of the crates prints its
//! own figures; beside them a headless spreadsheet does the same one-shaft pour log, in the same run, so
//! that the figure is a ratio and not a boast about a machine.
//!
//! Never: assert a time; a figure is printed and read.

use crate::house::House;
use crate::notice::Notice;
use crate::{demo, shell, spreadsheet};
use serde_json::Value;

/// A program that prints figures.
#[derive(Debug, PartialEq)]
struct Bench {
    package: String,
    kind: String,
    name: String,
}

/// Runs every bench and the comparison.
///
/// # Errors
/// When there is no bench, or one fails.
pub(crate) fn run(house: &House, _: &[String]) -> Result<(), Notice> {
    let metadata = shell::output_of(&mut house.cargo(&["metadata", "--no-deps", "--format-version", "1"]))?;
    let benches = benches(&String::from_utf8_lossy(&metadata));
    if benches.is_empty() {
        return Err(Notice::new(
            "No crate has a bench or example named `bench_…`.",
            "There is no figure to print.",
            "Write one; it prints its figures as lines of text.",
        ));
    }
    println!("building for release (10 minutes and more on a fresh clone with 2 cores)");
    let program = demo::build(house, &["--release"])?;
    for bench in &benches {
        println!("\n== {} of {}", bench.name, bench.package);
        let (word, flag) = if bench.kind == "bench" { ("bench", "--bench") } else { ("run", "--example") };
        let mut command = house.cargo(&[word, "--quiet", "--package", &bench.package, flag, &bench.name]);
        if bench.kind == "example" {
            command.arg("--release");
        }
        if !shell::stream(&mut command)?.success {
            let what = format!("`{}` failed.", shell::spoken(&command));
            return Err(Notice::new(what, "Its figures are missing.", "Read its message above."));
        }
    }
    println!("\n== one shaft's pour log to PDF, beside a spreadsheet");
    spreadsheet::compare(house, &program)
}

/// Benches and examples named `bench_…` in what cargo says.
fn benches(metadata: &str) -> Vec<Bench> {
    let metadata: Value = serde_json::from_str(metadata).unwrap_or_default();
    let mut found = Vec::new();
    for package in metadata["packages"].as_array().into_iter().flatten() {
        for target in package["targets"].as_array().into_iter().flatten() {
            let (kind, name) = (target["kind"][0].as_str(), target["name"].as_str());
            if let (Some(kind @ ("bench" | "example")), Some(name)) = (kind, name)
                && name.starts_with("bench_")
            {
                let package = package["name"].as_str().unwrap_or_default().to_owned();
                found.push(Bench { package, kind: kind.to_owned(), name: name.to_owned() });
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn benches_are_found_by_their_name() {
        let metadata = r#"{"packages":[{"name":"assess","targets":[
            {"kind":["lib"],"name":"bench_lib"},
            {"kind":["bench"],"name":"bench_assess"},
            {"kind":["example"],"name":"show"}]}]}"#;
        let bench = Bench { package: "assess".into(), kind: "bench".into(), name: "bench_assess".into() };
        assert_eq!(benches(metadata), [bench]);
        assert_eq!(benches("no json"), []);
    }
}
