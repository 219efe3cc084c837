//! The drawn section of a shaft: what stands in the hole at one moment, depth down.
//!
//! One look tells where the concrete stands, how deep the tremie reaches into it, where water and fluid
//! are and what the ground is. Widths are drawn larger than depths, and the drawing says by how much.
//!
//! Words: *planned* = from the plans; *profile* = the estimated width of the hole; *level* = a labelled depth.
//! Units: metres below the reference point of the shaft.
//! Never: draw a measured thing that was not recorded.

mod bore;
mod fittings;
mod labels;
mod layout;
mod strata;

pub(crate) use layout::{Layout, depth_range};
pub(crate) use strata::{Column, blank};

use crate::ground::Ground;
use crate::mark::Mark;
use crate::scale::Scale;
use crate::sheet;
use crate::size::{Rect, Size};
use crate::svg::Svg;
use crate::words::Words;

/// Everything the section shows. `Section::default()` is an empty drawing in metres.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Section {
    /// Name of the shaft and what is shown, `Shaft B-12: section`.
    pub title: String,
    /// The moment it stands for, `4 May 2031, 14:10, after load 3`.
    pub subtitle: String,
    /// Unit of depths and elevations.
    pub depth: Scale,
    /// Unit of diameters and thicknesses.
    pub width: Scale,
    /// Where depths begin, `top of casing`.
    pub zero_label: String,
    /// Elevation of depth zero, metres above the datum; without it no elevation is written.
    pub zero_elevation_m: Option<f64>,
    /// Depth of the ground surface, metres; may be negative when the reference lies below it.
    pub ground_m: Option<f64>,
    /// The ground met, from the top down.
    pub strata: Vec<Stratum>,
    /// The hole as planned, from the top down.
    pub planned: Vec<Bore>,
    /// The hole as measured so far (nominal widths of what was drilled), from the top down.
    pub drilled: Vec<Bore>,
    /// The estimated width of the hole with its band, from the top down.
    pub profile: Vec<ProfilePoint>,
    /// Casings standing at this moment.
    pub casings: Vec<Casing>,
    /// The cage, once it is in the hole (or planned).
    pub cage: Option<Cage>,
    /// The tremie or pump line, while it is in the hole.
    pub tremie: Option<Tremie>,
    /// Sediment found on the base.
    pub sediment: Option<Sediment>,
    /// Labelled levels; those of kind `Fluid` and `Concrete` also fill the hole.
    pub levels: Vec<Level>,
    /// What a reader would look for and was not recorded, one short name each.
    pub blanks: Vec<String>,
    /// Captions.
    pub words: Words,
}

/// A layer of ground.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stratum {
    /// Depth of its top, metres.
    pub top_m: f64,
    /// Depth of its bottom, metres; `None` when nobody wrote where it ends.
    pub bottom_m: Option<f64>,
    /// Which hatching it is drawn with.
    pub ground: Ground,
    /// The description as written.
    pub label: String,
}

/// A length of hole of one diameter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Bore {
    /// Depth of its top, metres.
    pub top_m: f64,
    /// Depth of its bottom, metres.
    pub bottom_m: f64,
    /// Diameter at the top, metres.
    pub top_diameter_m: f64,
    /// Diameter at the bottom, metres; differs from the top in a bell.
    pub bottom_diameter_m: f64,
}

/// The estimated diameter at one depth.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ProfilePoint {
    /// Depth, metres.
    pub depth_m: f64,
    /// Lower end of the band, metres.
    pub low_m: f64,
    /// The estimate, metres.
    pub estimate_m: f64,
    /// Upper end of the band, metres.
    pub high_m: f64,
}

/// A casing in the ground.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Casing {
    /// Depth of its top, metres; negative when it stands above the reference.
    pub top_m: f64,
    /// Depth of its shoe, metres.
    pub shoe_m: f64,
    /// Outer diameter, metres.
    pub diameter_m: f64,
    /// Stays in the ground: drawn solid; a temporary one is drawn hollow.
    pub permanent: bool,
    /// How it is called, `temporary casing 48 in`.
    pub label: String,
}

/// The reinforcing cage.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cage {
    /// Depth of the top of the bars, metres.
    pub top_m: f64,
    /// Depth of the lower end of the bars, metres.
    pub bottom_m: f64,
    /// Outer diameter of the cage, metres.
    pub diameter_m: f64,
    /// Pitch of the hoops or the spiral, metres; `None` draws no hoops.
    pub hoop_spacing_m: Option<f64>,
    /// Depths of the spacers, metres.
    pub spacers_m: Vec<f64>,
    /// Number of access tubes.
    pub tubes: u32,
    /// How it is called, `cage 12 #9`.
    pub label: String,
}

/// The tremie or the pump line in the hole.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Tremie {
    /// Depth of the lower end, metres.
    pub tip_m: f64,
    /// Depth of the upper end, metres; mostly negative.
    pub top_m: f64,
    /// Outer diameter, metres; `None` when not recorded (drawn as a single line).
    pub diameter_m: Option<f64>,
    /// Depths of the joints, metres.
    pub joints_m: Vec<f64>,
    /// What the assessment said about the embedment.
    pub embedment_mark: Mark,
}

/// Sediment on the base.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sediment {
    /// Thickness, metres.
    pub thickness_m: f64,
    /// What the assessment said about it.
    pub mark: Mark,
}

/// A labelled depth.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Level {
    /// What it is; decides how it is drawn.
    pub kind: LevelKind,
    /// Depth, metres.
    pub depth_m: f64,
    /// How it is called, `Concrete after load 3`; the depth is printed behind it.
    pub label: String,
    /// What else is said of it, behind its elevation: `mean`.
    pub note: String,
    /// What the assessment said about it; `Mark::NoLimit` draws no sign.
    pub mark: Mark,
}

/// What a level is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum LevelKind {
    /// Where concrete stands; fills the hole below it.
    Concrete,
    /// Where the drilling fluid or water in the hole stands; fills the hole below it.
    Fluid,
    /// Groundwater outside the hole.
    Groundwater,
    /// A level of the plans: cut-off, planned tip, over-pour.
    Planned,
    /// Any measured level: bottom of the hole, top of the cage, a seam.
    #[default]
    Measured,
}

impl Default for Scale {
    /// Metres to the centimetre.
    fn default() -> Self {
        Scale::meters()
    }
}

impl Section {
    /// Depth of the first level of a kind.
    pub(crate) fn level(&self, kind: LevelKind) -> Option<f64> {
        self.levels.iter().find(|level| level.kind == kind).map(|l| l.depth_m)
    }

    /// Depth of the bottom of the hole as drilled.
    pub(crate) fn bottom(&self) -> Option<f64> {
        self.drilled.iter().map(|bore| bore.bottom_m).reduce(f64::max)
    }
}

/// Draws the section.
pub fn section_svg(section: &Section, size: Size) -> String {
    let section = &section.usable();
    let size = size.usable();
    let mut svg = Svg::new(size);
    let foot = sheet::blanks_height(&section.blanks, size);
    let room = sheet::title(&mut svg, size, &section.title, &section.subtitle).inset(0.0, 0.0, 0.0, foot);
    sheet::blanks(&mut svg, size, &section.blanks, &section.words);
    let below = sheet::legend_height(&legend(section), room.width);
    match depth_range(section) {
        Some(range) => {
            draw(&mut svg, section, room.inset(0.0, 0.0, 0.0, below), range);
            sheet::legend(&mut svg, &legend(section), room.inset(0.0, room.height - below, 0.0, 0.0));
        }
        None => sheet::nothing(&mut svg, room, &section.words),
    }
    svg.finish("section", &section.title, &description(section))
}

/// The lines that no label names.
pub(crate) fn legend(section: &Section) -> Vec<(sheet::Sample, &str)> {
    let planned: (sheet::Sample, &str) = (bore::sample_planned, &section.words.planned);
    let profile: (sheet::Sample, &str) = (bore::sample_profile, &section.words.estimated_band);
    let planned = (!section.planned.is_empty()).then_some(planned);
    planned.into_iter().chain((!section.profile.is_empty()).then_some(profile)).collect()
}

/// Draws the section into a part of a sheet, over a given range of depths.
pub(crate) fn draw(svg: &mut Svg, section: &Section, room: Rect, range: (f64, f64)) {
    let layout = Layout::of(section, room, range);
    svg.open("shaft-section");
    strata::draw(svg, section, &layout);
    bore::draw(svg, section, &layout);
    fittings::draw(svg, section, &layout);
    labels::draw(svg, section, &layout);
    svg.close();
}

/// What a screen reader says: every level with its depth.
pub(crate) fn description(section: &Section) -> String {
    let levels = section.levels.iter().map(|l| format!("{} {}", l.label, section.depth.label(l.depth_m)));
    let strata = section.strata.iter().map(|s| format!("{} {}", s.label, section.depth.label(s.top_m)));
    [section.subtitle.clone()].into_iter().chain(levels).chain(strata).collect::<Vec<_>>().join("; ")
}
