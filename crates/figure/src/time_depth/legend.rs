//! The legend of the sheet: only what is drawn on it.

use super::TimeDepth;
use crate::mark::{self, Mark};
use crate::sheet::{Sample, sample_area, sample_line};
use crate::style::{CONCRETE, EARTH, FLUID, INK, PAPER, Pen, STEEL};
use crate::svg::{Path, Svg};

pub(super) fn entries(data: &TimeDepth) -> Vec<(Sample, &str)> {
    let words = &data.words;
    let tests = || data.fluid_tests.iter().chain(&data.base_soundings);
    let loads = |mark: Mark| data.loads.iter().any(|load| load.mark == mark && mark != Mark::Meets);
    let marked = |mark: Mark| tests().any(|test| test.mark == mark) || loads(mark);
    let all: [(bool, Sample, &str); 11] = [
        (!data.runs.is_empty(), |svg, at| sample_area(svg, at, EARTH), &words.ground),
        (!data.fluid_level.is_empty(), |svg, at| sample_area(svg, at, FLUID), &words.fluid),
        (!data.concrete.is_empty(), |svg, at| sample_area(svg, at, CONCRETE), &words.concrete),
        (!data.cages.is_empty(), cage, &words.cage),
        (!data.cleaning.is_empty(), cleaning, &words.cleaning),
        (!data.interruptions.is_empty(), curtain, &words.interruption),
        (!data.base_soundings.is_empty(), bob, &words.sounding),
        (marked(Mark::Meets), |svg, at| mark::draw(svg, Mark::Meets, at, 3.2), &words.meets),
        (marked(Mark::Fails), |svg, at| mark::draw(svg, Mark::Fails, at, 3.2), &words.fails),
        (
            marked(Mark::NotMeasured),
            |svg, at| mark::draw(svg, Mark::NotMeasured, at, 3.2),
            &words.not_measured,
        ),
        (marked(Mark::Doubtful), |svg, at| mark::draw(svg, Mark::Doubtful, at, 3.2), &words.doubtful),
    ];
    all.into_iter().filter(|entry| entry.0).map(|(_, sample, word)| (sample, word)).collect()
}

fn cage(svg: &mut Svg, at: (f64, f64)) {
    let (x, y) = at;
    sample_line(svg, (x, y - 2.5), &Pen::line("cage", STEEL, 0.9));
    sample_line(svg, (x, y + 2.5), &Pen::line("cage", STEEL, 0.9));
    let rungs = (-2..=2).fold(Path::new(), |p, k| {
        let x = x + f64::from(k) * 3.5;
        p.stroke((x, y - 2.5), (x, y + 2.5))
    });
    svg.path(rungs, &Pen::line("cage-hoop", STEEL, 0.5));
}

fn cleaning(svg: &mut Svg, at: (f64, f64)) {
    let teeth = (-4..=4).fold(Path::new(), |path, k| {
        path.to((at.0 + f64::from(k) * 2.0, at.1 + if k % 2 == 0 { 2.0 } else { -2.0 }))
    });
    svg.path(teeth, &Pen::line("cleaning", INK, 0.8));
}

fn bob(svg: &mut Svg, at: (f64, f64)) {
    let (x, y) = at;
    svg.line((x, y - 4.0), (x, y - 1.0), &Pen::line("sounding", INK, 0.8));
    svg.polygon(
        &[(x - 2.2, y - 1.0), (x + 2.2, y - 1.0), (x, y + 4.0)],
        &Pen::line("sounding", INK, 0.8).filled(PAPER),
    );
}

fn curtain(svg: &mut Svg, at: (f64, f64)) {
    let strokes = (-1..=1).fold(Path::new(), |path, k| {
        let x = at.0 + f64::from(k) * 6.0;
        path.stroke((x - 3.0, at.1 - 3.0), (x + 3.0, at.1 + 3.0))
    });
    svg.path(strokes, &Pen::line("interruption", INK, 0.4));
}
