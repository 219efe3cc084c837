//! The sign that stands beside a value: meets, fails, not measured, no limit, in doubt.
//!
//! The drawing judges nothing: the sign comes in with the data. Each has a shape of its own, so that it
//! can be told on a black-and-white copy.

use crate::size::Rect;
use crate::style::{BAD, DOUBT, GOOD, PAPER, Pen, SOFT};
use crate::svg::{Path, Svg};

/// What was found about a value, as the assessment said it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Mark {
    /// Within its limit: a ring with a tick.
    Meets,
    /// Outside its limit: a filled square with a cross.
    Fails,
    /// A limit stands but the value was not measured: a broken ring with a dash.
    NotMeasured,
    /// Nothing to compare with: a plain dot.
    #[default]
    NoLimit,
    /// In doubt, disputed or asked about: a triangle.
    Doubtful,
}

impl Mark {
    pub(crate) fn ink(self) -> &'static str {
        match self {
            Mark::Meets => GOOD,
            Mark::Fails => BAD,
            Mark::NotMeasured | Mark::NoLimit => SOFT,
            Mark::Doubtful => DOUBT,
        }
    }
}

/// Draws the sign with its centre at `at`; `r` is half its width in points.
pub(crate) fn draw(svg: &mut Svg, mark: Mark, at: (f64, f64), r: f64) {
    let (x, y) = at;
    svg.keep_clear(Rect::new(x - r, y - r, 2.0 * r, 2.0 * r));
    let ink = mark.ink();
    match mark {
        Mark::Meets => {
            svg.circle(at, r, &Pen::line("meets", ink, 0.9).filled(PAPER));
            let tick = Path::new()
                .to((x - 0.5 * r, y + 0.05 * r))
                .to((x - 0.1 * r, y + 0.45 * r))
                .to((x + 0.5 * r, y - 0.4 * r));
            svg.path(tick, &Pen::line("meets", ink, 1.1));
        }
        Mark::Fails => {
            svg.rect(Rect::new(x - r, y - r, 2.0 * r, 2.0 * r), &Pen::area("fails", ink));
            let d = 0.5 * r;
            let cross =
                Path::new().stroke((x - d, y - d), (x + d, y + d)).stroke((x - d, y + d), (x + d, y - d));
            svg.path(cross, &Pen::line("fails", PAPER, 1.2));
        }
        Mark::NotMeasured => {
            svg.circle(at, r, &Pen::line("not-measured", ink, 0.8).dashed("1.6 1.2").filled(PAPER));
            svg.line((x - 0.45 * r, y), (x + 0.45 * r, y), &Pen::line("not-measured", ink, 1.0));
        }
        Mark::NoLimit => svg.circle(at, 0.55 * r, &Pen::area("no-limit", ink)),
        Mark::Doubtful => {
            let corners = [(x, y - r), (x + r, y + 0.8 * r), (x - r, y + 0.8 * r)];
            svg.polygon(&corners, &Pen::line("doubtful", ink, 0.9).filled(PAPER));
            svg.line((x, y - 0.35 * r), (x, y + 0.2 * r), &Pen::line("doubtful", ink, 1.0));
            svg.circle((x, y + 0.5 * r), 0.5, &Pen::area("doubtful", ink));
        }
    }
}
