//! Writes every drawing of invented shafts into a folder, as SVG and as PNG, for looking at them.
//!
//! `cargo run -p figure --example gallery -- FOLDER`

#[path = "../tests/shafts/mod.rs"]
mod shafts;

use figure::*;
use resvg::{tiny_skia, usvg};
use shafts::{day, holes, job, profiles, tests_of_the_day as tests};
use std::path::{Path, PathBuf};

fn main() -> std::io::Result<()> {
    let Some(folder) = std::env::args().nth(1).map(PathBuf::from) else {
        eprintln!("Name the folder the drawings go to: gallery FOLDER");
        std::process::exit(2);
    };
    std::fs::create_dir_all(&folder)?;
    for (name, svg) in drawings() {
        std::fs::write(folder.join(format!("{name}.svg")), &svg)?;
        picture(&svg, &folder.join(format!("{name}.png")));
    }
    Ok(())
}

fn drawings() -> Vec<(&'static str, String)> {
    let letter = Size::points(540.0, 640.0);
    let half = Size::points(360.0, 250.0);
    vec![
        ("section", section_svg(&holes::us_section(), Size::points(360.0, 560.0))),
        ("section-slender", section_svg(&holes::slender(), Size::points(300.0, 560.0))),
        ("section-squat", section_svg(&holes::squat(), Size::points(420.0, 400.0))),
        ("section-empty", section_svg(&Section::default(), Size::points(300.0, 300.0))),
        ("volume-curve", volume_curve_svg(&holes::us_curve(), Size::points(420.0, 420.0))),
        ("profile", profile_svg(&profiles::us_profile(), letter)),
        ("section-and-curve", section_and_curve_svg(&holes::us_section(), &holes::us_curve(), letter)),
        ("time-depth", time_depth_svg(&day::one_day(), Size::points(720.0, 470.0))),
        ("time-depth-portrait", time_depth_svg(&day::one_day(), Size::points(540.0, 480.0))),
        ("time-depth-days", time_depth_svg(&day::several_days(), Size::points(720.0, 440.0))),
        ("job-plan", job_plan_svg(&job::bridge(), Size::points(420.0, 320.0))),
        ("base-plan", base_plan_svg(&tests::base(), half)),
        ("cage-section", cage_section_svg(&tests::cage(), half)),
        ("slump", slump_svg(&tests::slump(), Size::points(480.0, 340.0))),
        ("fluid-tests", fluid_tests_svg(&tests::fluid(), Size::points(540.0, 360.0))),
        ("position", position_svg(&tests::position(), Size::points(440.0, 330.0))),
    ]
}

/// Twice the print size, with the shipped fonts only.
fn picture(svg: &str, path: &Path) {
    let mut options = usvg::Options::default();
    for (_, bytes) in FONTS {
        options.fontdb_mut().load_font_data(bytes.to_vec());
    }
    let tree = usvg::Tree::from_str(svg, &options).expect("a well-formed drawing");
    let (width, height) = (tree.size().width() * 1.5, tree.size().height() * 1.5);
    let mut pixels = tiny_skia::Pixmap::new(width as u32, height as u32).expect("a size");
    resvg::render(&tree, tiny_skia::Transform::from_scale(1.5, 1.5), &mut pixels.as_mut());
    pixels.save_png(path).expect("the folder can be written to");
}
