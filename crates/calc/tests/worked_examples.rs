//! Runs every page of `docs/worked-examples/`: prose for engineers whose `calc` blocks are checked.
//!
//! A page is read from top to bottom; each block begins with an empty site. A line says what is there,
//! a line with `=>` asks and says what the hand calculation gave. A figure is compared as printed: with
//! as many decimals as the page shows.

mod worked;

use std::path::Path;

#[test]
fn every_worked_example_comes_out_as_written() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/worked-examples");
    let mut problems = Vec::new();
    let mut figures = 0;
    for entry in std::fs::read_dir(&folder).expect("the folder of worked examples") {
        let path = entry.expect("a readable folder").path();
        if path.extension().is_none_or(|extension| extension != "md") {
            continue;
        }
        let name = path.file_name().expect("a file").to_string_lossy().into_owned();
        match worked::run(&std::fs::read_to_string(&path).expect("a readable page")) {
            Ok(count) => figures += count,
            Err(found) => problems.extend(found.into_iter().map(|problem| format!("{name}:{problem}"))),
        }
    }
    assert!(problems.is_empty(), "{}", problems.join("\n"));
    assert!(figures >= 120, "only {figures} figures were checked: have pages been lost?");
}

/// The runner itself: what must not pass does not pass.
mod the_runner_refuses {
    use super::worked::run;

    #[track_caller]
    fn check(block: &str, expected: &str) {
        let page = format!("# A page\n\n```calc\n{block}\n```\n");
        assert_eq!(run(&page), Err(vec![expected.to_owned()]));
    }

    #[test]
    fn what_is_not_as_written() {
        let hole = "hole 4 ft from 0 ft to 60 ft";
        assert_eq!(run(&format!("```calc\n{hole}\n=> 27.93 yd³\n```")), Ok(1));
        check(&format!("{hole}\n=> 27.92 yd³"), "5: written 27.92 yd³, comes out as 27.93 yd³");
        check(&format!("{hole}\nvolume => weight 27.93 yd³"), "5: there is no `weight` in the answer");
        check(&format!("{hole}\n=> 27.93 ft"), "5: `ft` is no unit of a volume");
        check(&format!("{hole}\n=>"), "5: nothing is expected");
        check("dig 4 ft", "4: not understood: dig 4 ft");
        check("hole 4 ft from 0 ft to 60 yd³", "4: not read: 60 yd³");
        check(hole, "5: the block asks nothing");
    }

    #[test]
    fn a_page_without_a_block() {
        assert_eq!(run("# Only words\n"), Err(vec!["1: there is no calc block".to_owned()]));
    }
}
