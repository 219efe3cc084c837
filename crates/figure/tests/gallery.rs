//! Every drawing of the gallery: sound, readable by another SVG program, and the same each time.

mod reading;
mod shafts;

use figure::*;
use reading::{check_sound, texts};
use resvg::usvg;
use shafts::{day, holes, job, profiles, tests_of_the_day as tests};

const PRINT: [Size; 4] = [
    Size::points(540.0, 640.0),
    Size::points(360.0, 300.0),
    Size::points(720.0, 440.0),
    Size::points(300.0, 560.0),
];

fn drawings(size: Size) -> Vec<(&'static str, String)> {
    vec![
        ("section", section_svg(&holes::us_section(), size)),
        ("slender section", section_svg(&holes::slender(), size)),
        ("squat section", section_svg(&holes::squat(), size)),
        ("volume curve", volume_curve_svg(&holes::us_curve(), size)),
        ("section and curve", section_and_curve_svg(&holes::us_section(), &holes::us_curve(), size)),
        ("profile", profile_svg(&profiles::us_profile(), size)),
        ("one day", time_depth_svg(&day::one_day(), size)),
        ("several days", time_depth_svg(&day::several_days(), size)),
        ("job plan", job_plan_svg(&job::bridge(), size)),
        ("base plan", base_plan_svg(&tests::base(), size)),
        ("cage section", cage_section_svg(&tests::cage(), size)),
        ("slump", slump_svg(&tests::slump(), size)),
        ("fluid tests", fluid_tests_svg(&tests::fluid(), size)),
        ("position", position_svg(&tests::position(), size)),
    ]
}

/// What is drawn when nothing was recorded.
fn empty(size: Size) -> Vec<(&'static str, String)> {
    vec![
        ("empty section", section_svg(&Section::default(), size)),
        ("empty curve", volume_curve_svg(&VolumeCurve::default(), size)),
        ("empty both", section_and_curve_svg(&Section::default(), &VolumeCurve::default(), size)),
        ("empty profile", profile_svg(&ProfileSheet::default(), size)),
        ("empty day", time_depth_svg(&TimeDepth::default(), size)),
        ("empty base", base_plan_svg(&BasePlan::default(), size)),
        ("empty cage", cage_section_svg(&CageSection::default(), size)),
        ("empty slump", slump_svg(&SlumpSheet::default(), size)),
        ("empty fluid", fluid_tests_svg(&FluidTests::default(), size)),
        ("empty position", position_svg(&Position::default(), size)),
    ]
}

#[test]
fn no_label_covers_another_and_nothing_leaves_the_page() {
    for size in PRINT {
        for (name, svg) in drawings(size).into_iter().chain(empty(size)) {
            check_sound(&format!("{name} at {} × {}", size.width, size.height), &svg);
        }
    }
}

#[test]
fn an_empty_drawing_says_that_nothing_was_recorded() {
    for (name, svg) in empty(PRINT[1]) {
        let said = texts(&svg).iter().any(|text| text.words.to_lowercase().contains("recorded"));
        assert!(said, "{name} does not say so:\n{svg}");
    }
}

#[test]
fn the_same_data_give_the_same_bytes() {
    assert_eq!(drawings(PRINT[0]), drawings(PRINT[0]));
}

#[test]
fn another_program_reads_every_drawing_with_the_shipped_fonts_only() {
    let mut options = usvg::Options::default();
    for (_, bytes) in FONTS {
        options.fontdb_mut().load_font_data(bytes.to_vec());
    }
    let families: Vec<_> = options.fontdb.faces().map(|face| face.families[0].0.clone()).collect();
    assert_eq!(families, [FAMILY; 3]);
    for (name, svg) in drawings(PRINT[2]).into_iter().chain(empty(PRINT[2])) {
        let tree = usvg::Tree::from_str(&svg, &options).unwrap_or_else(|error| panic!("{name}: {error}"));
        let drawn = count_texts(tree.root());
        assert_eq!(drawn, texts(&svg).len(), "{name}: every text was set in a shipped font");
    }
}

fn count_texts(group: &usvg::Group) -> usize {
    let of = |node: &usvg::Node| match node {
        usvg::Node::Group(group) => count_texts(group),
        usvg::Node::Text(text) => usize::from(!text.layouted().is_empty()),
        _ => 0,
    };
    group.children().iter().map(of).sum()
}

#[test]
fn every_drawing_has_a_title_and_a_description() {
    for (name, svg) in drawings(PRINT[0]) {
        let titles = ["<title>Shaft", "<title>Pile", "<title>Mill Cross bridge"];
        assert!(titles.iter().any(|title| svg.contains(title)), "{name}");
        let description =
            svg.split_once("<desc>").and_then(|rest| rest.1.split_once("</desc>")).expect("a desc").0;
        assert!(description.len() > 40, "{name}: {description}");
    }
}

/// Marks differ in shape: without its colours every one still looks different.
#[test]
fn a_mark_is_told_by_its_shape() {
    let point = |mark| BasePlan {
        points: vec![BasePoint { thickness_m: Some(0.01), mark, ..BasePoint::default() }],
        ..BasePlan::default()
    };
    let colourless = |mark| {
        let svg = base_plan_svg(&point(mark), PRINT[1]);
        let shapes =
            svg.lines().map(|line| line.split('"').filter(|part| !part.starts_with('#')).collect::<String>());
        shapes.collect::<Vec<_>>().join("\n")
    };
    let marks = [Mark::Meets, Mark::Fails, Mark::NotMeasured, Mark::NoLimit, Mark::Doubtful].map(colourless);
    for (k, mark) in marks.iter().enumerate() {
        assert!(!marks[..k].contains(mark), "mark {k} looks like another");
    }
}

/// A number no site can measure is not drawn, and the drawing says that it was left out.
#[test]
fn a_value_that_cannot_be_is_left_out_and_said() {
    let mut section = holes::us_section();
    section.levels[0].depth_m = f64::NAN;
    section.ground_m = Some(1e9);
    let svg = section_svg(&section, PRINT[0]);
    let said = texts(&svg).into_iter().any(|text| text.words.contains("2 values left out"));
    assert!(said, "{svg}");
    assert!(texts(&svg).iter().any(|text| text.words == "Ground: not recorded"));
}

/// Tickets that find no room side by side stand upright, and none is lost.
#[test]
fn every_ticket_of_a_crowded_pour_is_named() {
    let svg = time_depth_svg(&day::several_days(), PRINT[2]);
    for load in &day::several_days().loads {
        assert!(texts(&svg).iter().any(|text| text.words == load.ticket), "{}", load.ticket);
    }
}

/// A drawing larger than its words need keeps them; a small one names fewer levels and says how many it left out.
#[test]
fn levels_that_find_no_room_are_counted() {
    let mut section = holes::us_section();
    let many = (0..40).map(|k| Level {
        depth_m: f64::from(k) * 0.4,
        label: format!("Level {k}"),
        ..Level::default()
    });
    section.levels.extend(many);
    let svg = section_svg(&section, PRINT[1]);
    check_sound("many levels", &svg);
    assert!(texts(&svg).iter().any(|text| text.words.contains("not named")), "{svg}");
}

/// On a tablet's narrow section `Bottom sounded 60.1` lost the figure and kept the words.
#[test]
fn a_name_without_room_is_shortened_and_its_depth_stays() {
    let mut section = holes::us_section();
    let label = "Bottom sounded by the crew of the night".to_owned();
    section.levels = vec![Level { depth_m: 3.048, label, note: "mean".to_owned(), ..Level::default() }];
    let svg = section_svg(&section, PRINT[3]);
    check_sound("a long name", &svg);
    let texts = texts(&svg);
    let said = |words: &str| texts.iter().any(|text| text.words.contains(words));
    assert!(said("… 10.0") && said(", mean"), "{svg}");
}

#[test]
fn nothing_but_the_palette_stands_in_a_drawing() {
    let known: Vec<&str> = PALETTE.iter().map(|(_, color)| *color).chain(["none"]).collect();
    for (name, svg) in drawings(PRINT[0]) {
        let colors = ["fill=\"", "stroke=\""].iter().flat_map(|attribute| svg.split(attribute).skip(1));
        for color in colors.filter_map(|rest| rest.split('"').next()) {
            assert!(known.contains(&color), "{name}: {color}");
        }
    }
}

/// Found by random data: beside a curve on narrow paper the words stood over the scale of elevations.
#[test]
fn narrow_paper_keeps_the_missing_ground_off_the_scale() {
    let section = Section {
        zero_elevation_m: Some(58.0),
        drilled: vec![Bore { top_m: -1.97, bottom_m: 0.0, top_diameter_m: 0.2, bottom_diameter_m: 0.0 }],
        levels: vec![Level { depth_m: 56.787, ..Level::default() }],
        ..Section::default()
    };
    for elevation in [55.093, 20.0, 58.0, 60.0, 80.0] {
        let section = Section { zero_elevation_m: Some(elevation), ..section.clone() };
        let svg = section_and_curve_svg(&section, &VolumeCurve::default(), Size::points(240.0, 220.0));
        check_sound(&format!("depth zero at {elevation}"), &svg);
    }
}
