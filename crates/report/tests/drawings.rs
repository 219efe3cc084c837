//! Drawings keep their proportions, their words and their place.

#[path = "../examples/invented/mod.rs"]
mod invented;
mod reader;

use reader::Reader;
use report::{Paper, Room, package};

#[test]
fn every_drawing_has_words_for_a_reader_who_cannot_see_it() {
    let input = invented::package(Paper::Letter);
    let file = package(&input, &invented::fonts()).unwrap();
    let words = Reader::open(&file.bytes).words_behind_drawings();
    for drawing in std::iter::once(&input.sheet).chain(&input.drawings) {
        assert!(words.contains(&drawing.alt), "`{}` is not behind its drawing", drawing.alt);
    }
}

#[test]
fn a_drawing_taller_than_the_page_still_ends_on_it() {
    let tall = &invented::pictures::svg((100, 4000), "<rect width='100' height='4000'/>");
    let mut input = invented::bare(Paper::Letter);
    input.drawings = vec![invented::pictures::drawing("Tall", "", tall, Room::Page)];
    let with = package(&input, &invented::fonts()).unwrap();
    input.drawings[0].svg = tall.replace("4000", "100");
    let without = package(&input, &invented::fonts()).unwrap();
    assert!(with.pages <= without.pages + 1, "{} pages against {}", with.pages, without.pages);
}

#[test]
fn too_many_words_on_page_one_push_the_sheet_to_the_next_page_and_lose_nothing() {
    let mut input = invented::bare(Paper::Letter);
    input.leading = (0..5).map(|at| format!("finding {at} ").repeat(120)).collect();
    let pages = Reader::open(&package(&input, &invented::fonts()).unwrap().bytes).pages();
    assert!(pages[0].contains("finding 4") && !pages[0].contains("toolruns"), "{}", pages[0]);
    assert!(pages[1].contains("toolruns"), "{}", pages[1]);
}
