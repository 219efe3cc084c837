//! A clean day at a small roadside shaft: 42 in wide, 24 ft deep, drilled under polymer fluid.
//!
//! Names and places are invented.

use super::Story;

pub const HEAD: &str = r##"
[job]
key = "story"
date = 2031-05-01
author = "A. Inspector"
name = "A sign beside a road"
time_zone = "America/Denver"
units = "us"
lengths = "feet_tenths"
rehearsal = true

[criteria]
set = "roadside-common-practice-1"

[[mix]]
mix = "W-4000"
strength = 4000
strength_age = "28 d"
slump_low = 7
slump_high = 9
slump_end = 5
w_cm = 0.44
aggregate = "3/8 in"
discharge_within = "90 min"
trial = [ { age = 0, slump = 8.5 }, { age = "120 min", slump = 7 }, { age = "240 min", slump = 4 } ]

[[fluid]]
product = "Clearhold"
fluid = "polymer"
water = "fresh"

[[shaft]]
id = "S-1"
structure = "sign"
northing = 1000.00
easting = 2000.00
ground = 100.0
top = 100.0
tip = 76.0
groundwater = 90.0
method = "wet"
bore = "42 in"
over_pour = 0.0
mix = "W-4000"
fluid = "Clearhold"

[shaft.cage]
length = 23.5
diameter = "36 in"
bars = { count = 12, size = "#9" }
hoops = { sort = "hoops", size = "#4", spacing = 12 }
lap = 4
top = 99.75
stand_off = 3
tubes = { count = 4, inside = 2, material = "steel" }

[shaft.anchors]
count = 4
projection = 6
conduits = "two, 2 in"

[[day]]
date = 2031-05-07
shaft = "S-1"
author = "A. Inspector"
"##;

pub const LOG: &[&str] = &[
    r#"{ at = "06:30", entry = "stake_out", northing = 1000.00, easting = 2000.00, checked_by = "R. Ferrow" }"#,
    r#"{ at = "06:35", entry = "utilities_cleared", ticket = "A-100", hand_dug = 4 }"#,
    r#"{ at = "06:40", entry = "reference_set", name = "top of casing", elevation = 101.0, how = "level" }"#,
    r#"{ at = "06:45", entry = "drilling_started", rig = "one" }"#,
    r#"{ at = "06:50", entry = "tool_run", out = "07:10", from = 1, to = 5, by_hand = true, material = "fill" }"#,
    r#"{ at = "07:20", entry = "casing_set", name = "surface", stay = "temporary", outside = 44, wall = "1/2 in", length = 6, top = 101.0, shoe = 6 }"#,
    r#"{ at = "07:25", entry = "fluid_test", place = "tank", stage = "introduction", density = "63.0 pcf", viscosity = "40 s/qt", ph = 9, sand = 0 }"#,
    r#"{ at = "07:30", entry = "fluid_introduced", product = "Clearhold", fluid = "polymer" }"#,
    r#"{ at = "07:35", entry = "tool_run", out = "08:10", from = 5, to = 15, material = "silty sand" }"#,
    r#"{ at = "08:15", entry = "tool_run", out = "08:50", from = 15, to = 25, material = "clay" }"#,
    r#"{ at = "08:20", entry = "fluid_level", depth = 3 }"#,
    r#"{ at = "08:55", entry = "bottom_reached", depth = 25 }"#,
    r#"{ at = "09:00", entry = "cleaning", method = "bucket", until = "09:20" }"#,
    r#"{ at = "09:25", entry = "bottom_sounded", purpose = "after_cleaning", points = { center = 25.0, north = 25.0, south = 25.0 } }"#,
    r#"{ at = "09:27", entry = "sediment_measured", points = { center = "1/2 in", north = "1/2 in", south = "1/4 in" } }"#,
    r#"{ at = "09:30", entry = "bottom_accepted", by = "R. Ferrow" }"#,
    r##"{ at = "08:30", entry = "cage_checked", bars = { count = 12, size = "#9" }, hoops = { sort = "hoops", size = "#4", spacing = 12 }, diameter = "36 in", length = 23.5, tied = 100, lap = 4, spacers_per_level = 6, spacer_levels_every = 8, tubes = 4, tube_inside = 2, tube_material = "steel" }"##,
    r#"{ at = "09:40", entry = "tubes_checked", good = true }"#,
    r#"{ at = "09:45", entry = "cage_set", top = 99.75, stand_off = 3, held = "hung from the casing", east = 0, north = 0 }"#,
    r#"{ at = "09:50", entry = "tubes_filled", clean_water = true, capped = true }"#,
    r#"{ at = "09:55", entry = "fluid_test", place = "hole", depth = 24.5, stage = "before_concrete", density = "63.2 pcf", viscosity = "42 s/qt", ph = 9, sand = 0.3 }"#,
    r#"{ at = "09:56", entry = "fluid_test", place = "hole", depth = 13, stage = "before_concrete", density = "63.0 pcf", viscosity = "42 s/qt", ph = 9, sand = 0.2 }"#,
    r#"{ at = "09:57", entry = "fluid_level", depth = 3 }"#,
    r#"{ at = "10:00", entry = "bottom_sounded", purpose = "before_concrete", points = { center = 25.0, north = 25.0, south = 25.0 } }"#,
    r#"{ at = "10:05", entry = "line_made_up", name = "tremie", line = "tremie", inside = 10, pieces = [ { length = 10, count = 2 }, { length = 5, count = 2 } ], tip = 24.75, watertight = true, plug = "foam ball" }"#,
    r#"{ at = "10:10", entry = "load_arrived", ticket = 1, mix = "W-4000", volume = 5, batched = "09:40", revolutions = 90, water = 1300, cementitious = 3300, ticket_checked = true }"#,
    r#"{ at = "10:12", entry = "concrete_test", ticket = 1, slump = 8.25 }"#,
    r#"{ at = "10:15", entry = "discharge_started", ticket = 1, line = "tremie" }"#,
    r#"{ at = "10:30", entry = "discharge_ended", ticket = 1, revolutions = 120 }"#,
    r#"{ at = "10:32", entry = "concrete_sounded", after = 1, depth = 12.0 }"#,
    r#"{ at = "10:34", entry = "tip_moved", name = "tremie", tip = 20.0, slowly = true }"#,
    r#"{ at = "10:25", entry = "load_arrived", ticket = 2, mix = "W-4000", volume = 5, batched = "09:55", revolutions = 80, water = 1300, cementitious = 3300, ticket_checked = true }"#,
    r#"{ at = "10:36", entry = "concrete_test", ticket = 2, slump = 8 }"#,
    r#"{ at = "10:40", entry = "discharge_started", ticket = 2, line = "tremie" }"#,
    r#"{ at = "10:55", entry = "discharge_ended", ticket = 2, revolutions = 110, returned = "0.6 yd3" }"#,
    r#"{ at = "10:56", entry = "concrete_sounded", after = 2, depth = 0.4 }"#,
    r#"{ at = "10:57", entry = "over_poured", good = true }"#,
    r#"{ at = "11:00", entry = "line_out", name = "tremie" }"#,
    r#"{ at = "11:05", entry = "casing_out", name = "surface", level_before = 0.4, level_after = 0.7, cage_rise = 0 }"#,
    r#"{ at = "11:10", entry = "top_formed", shape = "square", width = 48, top = 100.0 }"#,
    r#"{ at = "11:15", entry = "anchors_set", count = 4, template = true, after_casing = true, bolts = [ { bolt = "A", east = "1/8 in", north = 0, projection = 6 }, { bolt = "B", east = 0, north = 0, projection = 6 } ] }"#,
    r#"{ at = "11:16", entry = "conduit_set", what = "two, 2 in", as_planned = true }"#,
    r#"{ at = "11:20", entry = "curing", method = "wet burlap" }"#,
    r#"{ at = "11:25", entry = "cylinders_made", set = "C1", ticket = 1, count = 4 }"#,
    r#"{ at = "+3 08:00", entry = "cylinder_broken", set = "C1", specimen = "a", age = "3 d", strength = 2700 }"#,
    r#"{ at = "+3 08:05", entry = "cylinder_broken", set = "C1", specimen = "b", age = "3 d", strength = 2500 }"#,
    r#"{ at = "+3 09:00", entry = "form_removed", note = "square form" }"#,
    r#"{ at = "+4 09:00", entry = "plumb_measured", method = "caliper", points = [ { depth = 1, east = 0, north = 0 }, { depth = 11, east = "1/2 in", north = 0 }, { depth = 21, east = 1, north = 0 } ] }"#,
    r#"{ at = "+4 09:10", entry = "as_built", east = 1, north = 0, top = 100.0, diameter = 42 }"#,
];

pub fn story() -> Story {
    Story::new("S-1", HEAD, LOG)
}
