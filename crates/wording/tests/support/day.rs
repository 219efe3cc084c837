//! A day with some trouble on an invented shaft: 36 in, 20 ft deep, surface casing, tremie, three loads.

use super::{Site, body, list, text};
use record::{EntryId, Value};

/// The entries of the day that other tests speak of.
pub(crate) struct Day {
    pub(crate) site: Site,
    pub(crate) second_sounding: EntryId,
}

pub(crate) fn day() -> Day {
    let mut site = Site::new();
    plan(&mut site);
    excavation(&mut site);
    bottom_and_cage(&mut site);
    let second_sounding = pour(&mut site);
    Day { site, second_sounding }
}

fn flag(so: bool) -> Value {
    Value::Flag(so)
}

fn plan(site: &mut Site) {
    site.write(
        "06:30",
        "job_opened",
        &[
            ("name", text("Mill Creek signs")),
            ("time_zone", text("America/Denver")),
            ("units", text("us")),
            ("lengths", text("feet_tenths")),
        ],
    );
    site.write(
        "06:31",
        "mix_approved",
        &[
            ("mix", text("C-40")),
            ("strength", text("4000 psi")),
            ("slump_end", text("5 in")),
            ("aggregate", text("3/4 in")),
            ("w_cm", text("0.42 {}")),
            ("discharge_within", text("90 min")),
            ("trial", list(&["age=0_min slump=8.5_in", "age=120_min slump=6_in", "age=240_min slump=3_in"])),
        ],
    );
    site.write(
        "06:35",
        "shaft_planned",
        &[
            ("structure", text("sign")),
            ("ground", text("100.0 ft")),
            ("top", text("100.0 ft")),
            ("tip", text("80.0 ft")),
            ("method", text("wet")),
            ("bore", list(&["diameter=36_in"])),
            ("over_pour", text("1 ft")),
            ("mix", text("C-40")),
        ],
    );
    site.write(
        "06:36",
        "cage_planned",
        &[
            ("length", text("19 ft")),
            ("diameter", text("30 in")),
            ("bars", list(&["count=8 size=#8"])),
            ("hoops", list(&["sort=hoops size=#4 spacing=6_in"])),
        ],
    );
}

fn excavation(site: &mut Site) {
    site.write("07:00", "reference_set", &[("name", text("top of casing")), ("elevation", text("101.0 ft"))]);
    site.write(
        "07:05",
        "casing_set",
        &[
            ("name", text("surface casing")),
            ("stay", text("temporary")),
            ("outside", text("42 in")),
            ("wall", text("1/2 in")),
            ("top", text("101.0 ft")),
            ("length", text("7 ft")),
        ],
    );
    site.write(
        "07:20",
        "tool_run",
        &[
            ("out", text("2026-05-14T07:40:00-06:00")),
            ("tool", text("auger")),
            ("from", text("1.0 ft")),
            ("to", text("10.0 ft")),
            ("ground", text("clay")),
        ],
    );
    site.write_late(
        "07:45",
        "09:30",
        "tool_run",
        &[
            ("out", text("2026-05-14T08:10:00-06:00")),
            ("tool", text("auger")),
            ("from", text("10.0 ft")),
            ("to", text("21 {ft}")),
            ("ground", text("sand")),
            ("note", text("wet below 15 ft")),
        ],
    );
    site.write("07:44", "fluid_introduced", &[("product", text("Polymer A")), ("fluid", text("polymer"))]);
    site.write(
        "08:15",
        "fluid_test",
        &[
            ("place", text("hole")),
            ("depth", text("20.0 ft")),
            ("stage", text("before_concrete")),
            ("density", text("64.3 pcf")),
            ("viscosity", text("48 s/qt")),
            ("sand", text("0.5 %")),
        ],
    );
    site.write("08:16", "fluid_level", &[("depth", text("2.0 ft"))]);
    site.write("08:20", "bottom_reached", &[("depth", text("21.0 ft"))]);
}

fn bottom_and_cage(site: &mut Site) {
    site.write("08:25", "cleaning", &[("method", text("clean-out bucket"))]);
    site.write(
        "08:40",
        "bottom_sounded",
        &[
            ("purpose", text("after_cleaning")),
            ("points", list(&["place=center depth=21.0_ft", "place=north depth=21.1_ft"])),
        ],
    );
    site.write(
        "08:42",
        "sediment_measured",
        &[("points", list(&["place=center thickness=1/2_in", "place=north thickness=1_1/2_in"]))],
    );
    site.write("08:45", "bottom_accepted", &[("by", text("R. Vale"))]);
    site.write("08:50", "cage_checked", &[("bars", list(&["count=8 size=#8"])), ("tied", text("100 %"))]);
    site.write("09:05", "cage_set", &[("top", text("100.1 ft")), ("held", text("hung from the casing"))]);
}

fn pour(site: &mut Site) -> EntryId {
    site.write(
        "09:20",
        "line_made_up",
        &[
            ("name", text("tremie")),
            ("line", text("tremie")),
            ("inside", text("8 in")),
            ("pieces", list(&["length=5_ft count=4"])),
            ("tip", text("20.6 ft")),
            ("watertight", flag(true)),
        ],
    );
    load(site, ("4411", "3.0 yd³"), ["08:35", "09:25", "09:31", "09:40"]);
    site.write(
        "09:28",
        "concrete_test",
        &[("ticket", text("4411")), ("slump", text("8 in")), ("temperature", text("72 °F"))],
    );
    site.write(
        "09:45",
        "concrete_sounded",
        &[("points", list(&["place=center depth=9.6_ft"])), ("after", text("4411"))],
    );
    site.write("09:50", "pieces_removed", &[("name", text("tremie")), ("count", text("1"))]);
    load(site, ("4412", "2.0 yd³"), ["09:10", "09:55", "10:00", "10:08"]);
    let second = site.write(
        "10:12",
        "concrete_sounded",
        &[("points", list(&["place=center depth=6.2_ft"])), ("after", text("4412"))],
    );
    let points = list(&["place=center depth=2.6_ft"]);
    let new = body("concrete_sounded", &[("points", points), ("after", text("4412"))]);
    site.correct("10:20", second, "read the tape at the wrong mark", Some(new));
    site.write(
        "10:30",
        "casing_lifted",
        &[
            ("name", text("surface casing")),
            ("shoe", text("4.0 ft")),
            ("level_before", text("2.6 ft")),
            ("level_after", text("4.5 ft")),
            ("cage_rise", text("1/4 in")),
        ],
    );
    load(site, ("4413", "1.5 yd³"), ["09:40", "10:36", "", ""]);
    second
}

/// A load: ticket and volume, then batched, arrived, started, ended.
fn load(site: &mut Site, (ticket, volume): (&str, &str), times: [&str; 4]) {
    let batched = super::at(times[0]).to_string();
    site.write(
        times[1],
        "load_arrived",
        &[
            ("ticket", text(ticket)),
            ("mix", text("C-40")),
            ("volume", text(volume)),
            ("batched", text(&batched)),
            ("ticket_checked", flag(true)),
        ],
    );
    if !times[2].is_empty() {
        site.write(times[2], "discharge_started", &[("ticket", text(ticket))]);
        site.write(times[3], "discharge_ended", &[("ticket", text(ticket))]);
    }
}
