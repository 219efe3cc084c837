//! The summary of a job, read back from the file that is handed in.

#[path = "../examples/invented/mod.rs"]
mod invented;
mod reader;

use expect_test::expect_file;
use reader::Reader;
use report::{Paper, job_summary};

#[test]
fn the_words_of_a_whole_summary() {
    let pdf = job_summary(&invented::summary::summary(Paper::A4), &invented::fonts()).unwrap();
    let reader = Reader::open(&pdf.bytes);
    assert_eq!((pdf.pages, reader.sizes().len()), (1, 1));
    let pages = reader.pages();
    let numbered = pages.iter().enumerate().map(|(at, page)| format!("=== page {} ===\n{page}\n", at + 1));
    expect_file!["summary.txt"].assert_eq(&numbered.collect::<String>());
}

#[test]
fn the_same_summary_gives_the_same_bytes() {
    let make = || job_summary(&invented::summary::summary(Paper::Letter), &invented::fonts()).unwrap();
    assert!(make() == make(), "two files of one input differ");
}

#[test]
fn a_job_without_shafts_says_so() {
    let input = report::SummaryInput { shafts: Vec::new(), ..invented::summary::summary(Paper::Letter) };
    let pdf = job_summary(&input, &invented::fonts()).unwrap();
    assert!(Reader::open(&pdf.bytes).packed().contains("Nonerecorded."));
}
