//! Each question is asked where a slip is likely, and not asked where the day simply went that way.
//!
//! The ranges behind the questions are placeholders; the tests hold the behaviour at them, not the ranges.

use record::plausible::questions;
use record::{Body, Entry, Log, Suspicion};
use testkit::{Tablet, at, body, metric_body, record};

/// A day of entries: clock, kind, fields.
type Day<'d> = &'d [(&'d str, &'d str, &'d [(&'d str, &'d str)])];

fn written(day: Day<'_>) -> Vec<Entry> {
    let mut tablet = Tablet::new(1);
    day.iter().map(|(clock, kind, fields)| tablet.write(clock, body(kind, fields))).collect()
}

/// The questions of a day as `clock word`.
fn asked(entries: &[Entry]) -> Vec<String> {
    let record = record(entries);
    let log = Log::of(&record, Some("S-1"), None);
    let clock = |question: &record::Question| {
        let line = log.lines.iter().find(|line| line.entry.id == question.about).expect("it is in the log");
        format!("{} {}", line.at.clock(), question.suspicion.word())
    };
    questions(&log).iter().map(clock).collect()
}

#[track_caller]
fn check(day: Day<'_>, expected: &[&str]) {
    assert_eq!(asked(&written(day)), expected);
}

/// A pour table: depth to concrete in feet, elevation as printed, truck and yards.
fn pour(reference: &str, rows: &[(&str, &str, &str)]) -> Vec<Entry> {
    let mut tablet = Tablet::new(1);
    let fields = [("name", "top of shaft"), ("elevation", reference)];
    let mut entries = vec![tablet.write("09:00", body("reference_set", &fields))];
    for (index, (volume, depth, elevation)) in rows.iter().enumerate() {
        let ticket = (index + 1).to_string();
        let (arrived, sounded) = (format!("1{index}:00"), format!("1{index}:20"));
        let load = [("ticket", ticket.as_str()), ("volume", *volume)];
        entries.push(tablet.write(&arrived, body("load_arrived", &load)));
        let discharge = [("ticket", ticket.as_str())];
        entries.push(tablet.write(&arrived, body("discharge_started", &discharge)));
        entries.push(tablet.write(&sounded, body("discharge_ended", &discharge)));
        let sounding = [("points[0].depth", *depth), ("elevation", *elevation), ("after", ticket.as_str())];
        entries.push(tablet.write(&sounded, body("concrete_sounded", &sounding)));
    }
    entries
}

/// Source: [FHWA-INSPECTOR], chapter 9, 42-inch shaft, data collection example. Top of shaft +55.00 ft;
/// printed depths 48.7, 38.7, 26.0, 0.0 ft beside elevations +5.8, +16.3, +28.7, +55.0. Worked by hand:
/// 55.0 - 48.7 = 6.3 and 55.0 - 26.0 = 29.0, so two of the four do not follow.
#[test]
fn the_printed_pour_holds_two_elevations_that_do_not_follow() {
    let rows = [
        ("9 cy", "48.7 ft", "+5.8 ft"),
        ("9 cy", "38.7 ft", "+16.3 ft"),
        ("9 cy", "26.0 ft", "+28.7 ft"),
        ("6 cy", "0.0 ft", "+55.0 ft"),
    ];
    let entries = pour("+55.00 ft", &rows);
    let record = record(&entries);
    let log = Log::of(&record, Some("S-1"), None);
    let found: Vec<(f64, f64)> = questions(&log)
        .iter()
        .map(|question| match &question.suspicion {
            Suspicion::ElevationDisagrees { written, follows } => (written.0.to_feet(), follows.0.to_feet()),
            other => panic!("the pour raises nothing else, but {other:?}"),
        })
        .collect();
    assert_eq!(found, [(5.8, 6.3), (28.7, 29.0)]);
}

/// Source: [FHWA-INSPECTOR], chapter 9, second table, reference +58.0 ft: all four elevations follow.
#[test]
fn the_second_printed_pour_raises_no_question() {
    let rows = [
        ("9 cy", "51.2 ft", "+6.8 ft"),
        ("9 cy", "39.2 ft", "+18.8 ft"),
        ("9 cy", "22.0 ft", "+36.0 ft"),
        ("4 cy", "0.0 ft", "+58.0 ft"),
    ];
    assert_eq!(asked(&pour("+58.0 ft", &rows)), Vec::<String>::new());
}

#[test]
fn an_elevation_may_be_off_by_half_of_its_last_digit() {
    let one = |elevation: &str| asked(&pour("+55.00 ft", &[("9 cy", "48.66 ft", elevation)]));
    // 55.00 - 48.66 = 6.34
    assert_eq!(one("6.34 ft"), Vec::<String>::new());
    assert_eq!(one("6.3 ft"), Vec::<String>::new());
    assert_eq!(one("6 ft"), Vec::<String>::new());
    assert_eq!(one("6.35 ft"), ["10:20 elevation_disagrees"]);
    assert_eq!(one("6.4 ft"), ["10:20 elevation_disagrees"]);
    assert_eq!(one("7 ft"), ["10:20 elevation_disagrees"]);
}

#[test]
fn an_elevation_between_two_points_follows_and_one_without_a_reference_cannot_be_asked_about() {
    let sounding: &[(&str, &str)] =
        &[("points[0].depth", "48 ft"), ("points[1].depth", "49 ft"), ("elevation", "6.5 ft")];
    let reference: &[(&str, &str)] = &[("name", "stake"), ("elevation", "55 ft")];
    check(&[("09:00", "reference_set", reference), ("10:00", "concrete_sounded", sounding)], &[]);
    check(&[("10:00", "concrete_sounded", sounding)], &[]);
    let corrected: &[(&str, &str)] =
        &[("points[0].depth", "48.0 ft"), ("elevation", "6.5 ft"), ("tape_correction", "0.5 ft")];
    check(&[("09:00", "reference_set", reference), ("10:00", "concrete_sounded", corrected)], &[]);
    let casing: &[(&str, &str)] =
        &[("points[0].depth", "48.0 ft"), ("elevation", "10.0 ft"), ("reference", "Top of casing")];
    let top: &[(&str, &str)] = &[("name", "top of casing"), ("elevation", "58 ft")];
    let day: Day<'_> = &[
        ("09:00", "reference_set", top),
        ("09:30", "reference_set", reference),
        ("10:00", "concrete_sounded", casing),
    ];
    check(day, &[]);
}

#[test]
fn a_reading_deeper_than_the_hole() {
    let run: &[(&str, &str)] = &[("to", "40 ft")];
    let sample = |depth: &'static str| -> Vec<(&'static str, &'static str)> {
        vec![("depth", depth), ("place", "hole"), ("stage", "drilling")]
    };
    check(&[("09:00", "tool_run", run), ("10:00", "fluid_test", &sample("40.5 ft"))], &[]);
    check(
        &[("09:00", "tool_run", run), ("10:00", "fluid_test", &sample("40.6 ft"))],
        &["10:00 deeper_than_hole"],
    );
    check(&[("10:00", "fluid_test", &sample("400 ft"))], &[]);
    let tip: &[(&str, &str)] = &[("name", "T"), ("tip", "46 ft")];
    let deeper: &[(&str, &str)] = &[("to", "46 ft")];
    check(&[("09:00", "tool_run", run), ("10:00", "tip_moved", tip)], &["10:00 deeper_than_hole"]);
    check(&[("09:00", "tool_run", run), ("09:30", "tool_run", deeper), ("10:00", "tip_moved", tip)], &[]);
    check(&[("09:00", "tip_moved", tip), ("10:00", "tool_run", run)], &[]);
}

#[test]
fn a_bottom_sounded_deeper_is_asked_about_once() {
    let run: &[(&str, &str)] = &[("to", "40 ft")];
    let bottom: &[(&str, &str)] = &[("purpose", "after_cleaning"), ("points[0].depth", "42 ft")];
    let tip: &[(&str, &str)] = &[("name", "T"), ("tip", "42 ft")];
    let day: Day<'_> =
        &[("09:00", "tool_run", run), ("10:00", "bottom_sounded", bottom), ("11:00", "tip_moved", tip)];
    check(day, &["10:00 deeper_than_hole"]);
}

#[test]
fn depths_from_two_references_are_compared_by_elevation() {
    let ground: &[(&str, &str)] = &[("name", "ground"), ("elevation", "100 ft")];
    let casing: &[(&str, &str)] = &[("name", "casing"), ("elevation", "103 ft")];
    let run: &[(&str, &str)] = &[("to", "40 ft")];
    let sounded: &[(&str, &str)] = &[("purpose", "after_cleaning"), ("points[0].depth", "43 ft")];
    let day: Day<'_> = &[
        ("08:00", "reference_set", ground),
        ("09:00", "tool_run", run),
        ("09:30", "reference_set", casing),
        ("10:00", "bottom_sounded", sounded),
    ];
    check(day, &[]);
    check(&[day[0], day[1], day[3]], &["10:00 deeper_than_hole"]);
}

fn fall(between: Day<'_>, second: &str) -> Vec<String> {
    let mut tablet = Tablet::new(1);
    let load = [("ticket", "2"), ("volume", "9 cy")];
    let mut entries = vec![
        tablet.write("09:00", body("load_arrived", &load)),
        tablet.write("10:40", body("concrete_sounded", &[("points[0].depth", "41 ft")])),
    ];
    entries.extend(between.iter().map(|(clock, kind, fields)| tablet.write(clock, body(kind, fields))));
    entries.push(tablet.write("11:05", body("concrete_sounded", &[("points[0].depth", second)])));
    asked(&entries)
}

#[test]
fn the_concrete_goes_down_while_a_load_goes_in() {
    let discharge: (&str, &str, &[(&str, &str)]) = ("10:50", "discharge_ended", &[("ticket", "2")]);
    let lift: (&str, &str, &[(&str, &str)]) = ("10:55", "casing_lifted", &[("name", "C"), ("shoe", "20 ft")]);
    assert_eq!(fall(&[discharge], "43 ft"), ["11:05 concrete_fell"]);
    assert_eq!(fall(&[discharge], "41 ft"), Vec::<String>::new());
    assert_eq!(fall(&[discharge], "39 ft"), Vec::<String>::new());
    assert_eq!(fall(&[], "43 ft"), Vec::<String>::new(), "without a load it may settle");
    assert_eq!(fall(&[discharge, lift], "43 ft"), Vec::<String>::new(), "a casing was lifted");
}

#[test]
fn only_readings_at_one_place_compare() {
    let sounding = |inside: &'static str, outside: &'static str| -> Vec<(&'static str, &'static str)> {
        vec![
            ("points[0].depth", inside),
            ("points[0].place", "inside"),
            ("points[1].depth", outside),
            ("points[1].place", "outside"),
        ]
    };
    let load: &[(&str, &str)] = &[("ticket", "2"), ("volume", "9 cy")];
    let ended: &[(&str, &str)] = &[("ticket", "2")];
    let day = |second: Vec<(&'static str, &'static str)>| {
        let first = sounding("40 ft", "43 ft");
        let day: Day<'_> = &[
            ("10:00", "load_arrived", load),
            ("10:40", "concrete_sounded", &first),
            ("10:50", "discharge_ended", ended),
            ("11:05", "concrete_sounded", &second),
        ];
        asked(&written(day))
    };
    assert_eq!(day(sounding("36 ft", "41 ft")), Vec::<String>::new());
    assert_eq!(day(sounding("36 ft", "44 ft")), ["11:05 concrete_fell"]);
}

fn loads(volumes: &[&str], truck: Option<&str>) -> Vec<String> {
    let mut tablet = Tablet::new(1);
    let plan = truck.map(|truck| tablet.write("08:00", body("pour_planned", &[("truck", truck)])));
    let mut entries: Vec<Entry> = plan.into_iter().collect();
    for (index, volume) in volumes.iter().enumerate() {
        let (clock, ticket) = (format!("1{index}:00"), index.to_string());
        let fields = [("ticket", ticket.as_str()), ("volume", *volume)];
        entries.push(tablet.write(&clock, body("load_arrived", &fields)));
    }
    asked(&entries)
}

#[test]
fn a_ticket_volume_beyond_the_other_loads_or_any_truck() {
    let none = Vec::<String>::new();
    assert_eq!(loads(&["9 cy", "9 cy", "9 cy", "4 cy"], None), none);
    assert_eq!(loads(&["9 cy", "4 cy"], None), none, "one other load says nothing about what is usual");
    assert_eq!(loads(&["4 cy", "4 cy", "8 cy"], None), ["12:00 load_volume"]);
    assert_eq!(loads(&["4 cy", "4 cy", "7.9 cy"], None), none);
    assert_eq!(loads(&["90 cy"], None), ["10:00 load_volume"]);
    assert_eq!(loads(&["11 m3"], None), none);
    assert_eq!(loads(&["11.1 m3"], None), ["10:00 load_volume"]);
    assert_eq!(loads(&["10 cy"], Some("5 cy")), ["10:00 load_volume"]);
    assert_eq!(loads(&["9.9 cy"], Some("5 cy")), none);
}

#[test]
fn lengths_that_would_be_usual_in_the_other_unit() {
    check(&[("09:00", "tool_run", &[("to", "4 ft"), ("diameter", "48 ft")])], &["09:00 length_unusual"]);
    check(&[("09:00", "tool_run", &[("to", "4 ft"), ("diameter", "48 in")])], &[]);
    check(&[("09:00", "tool_run", &[("to", "4 ft"), ("diameter", "4 in")])], &["09:00 length_unusual"]);
    let slump = |slump: &'static str| -> Vec<String> {
        let load: &[(&str, &str)] = &[("ticket", "1"), ("volume", "9 cy")];
        let test: &[(&str, &str)] = &[("ticket", "1"), ("slump", slump)];
        asked(&written(&[("09:00", "load_arrived", load), ("10:00", "concrete_test", test)]))
    };
    assert_eq!(slump("8 ft"), ["10:00 length_unusual"]);
    assert_eq!(slump("11 in"), Vec::<String>::new());
    assert_eq!(slump("11 1/4 in"), ["10:00 length_unusual"]);
    check(&[("09:00", "sediment_measured", &[("points[0].thickness", "3 ft")])], &["09:00 length_unusual"]);
    check(&[("09:00", "sediment_measured", &[("points[0].thickness", "1.5 in")])], &[]);
    let two = [("points[0].thickness", "3 ft"), ("points[1].thickness", "4 ft")];
    check(&[("09:00", "sediment_measured", &two)], &["09:00 length_unusual"]);
    let plan = |tip: &'static str| -> Vec<String> {
        let fields = [
            ("structure", "sign"),
            ("method", "wet"),
            ("top", "100 ft"),
            ("tip", tip),
            ("bore[0].diameter", "48"),
        ];
        asked(&written(&[("07:00", "shaft_planned", &fields)]))
    };
    assert_eq!(plan("60 ft"), Vec::<String>::new());
    assert_eq!(plan("99 ft"), ["07:00 length_unusual"]);
    assert_eq!(plan("101 ft"), ["07:00 length_unusual"], "a tip above the top");
}

#[test]
fn numbers_outside_anything_usual() {
    let test = |field: &'static str, value: &'static str| -> Vec<String> {
        asked(&written(&[(
            "09:00",
            "fluid_test",
            &[("place", "tank"), ("stage", "introduction"), (field, value)],
        )]))
    };
    let unusual = ["09:00 value_unusual"];
    for (field, value) in [
        ("ph", "85"),
        ("density", "1.03 pcf"),
        ("sand", "35"),
        ("viscosity", "3 s/qt"),
        ("temperature", "22 F"),
    ] {
        assert_eq!(test(field, value), unusual, "{field} {value}");
    }
    for (field, value) in [
        ("ph", "8.5"),
        ("density", "64.3"),
        ("sand", "3.5"),
        ("viscosity", "40 s/L"),
        ("temperature", "22 C"),
    ] {
        assert_eq!(test(field, value), Vec::<String>::new(), "{field} {value}");
    }
    check(&[("09:00", "cylinder_broken", &[("set", "A"), ("strength", "25 psi")])], &unusual);
    check(&[("09:00", "cylinder_broken", &[("set", "A"), ("strength", "25 MPa")])], &[]);
    check(&[("09:00", "weather", &[("temperature", "720 F")])], &unusual);
    let metric = metric_body("fluid_test", &[("place", "tank"), ("stage", "reuse"), ("density", "1.12")]);
    assert_eq!(asked(&[Tablet::new(1).write("09:00", metric)]), Vec::<String>::new());
}

#[test]
fn times_that_run_backwards_on_one_device() {
    let remark: &[(&str, &str)] = &[("text", "a")];
    check(&[("10:00", "remark", remark), ("10:00", "remark", remark), ("10:10", "remark", remark)], &[]);
    check(&[("10:00", "remark", remark), ("09:00", "remark", remark)], &["09:00 time_backwards"]);
    let mut tablet = Tablet::new(1);
    let first = tablet.write("10:00", body("remark", remark));
    let late = tablet.write_late("09:00", "10:05", body("remark", remark));
    assert_eq!(asked(&[first.clone(), late]), Vec::<String>::new(), "a late entry says so itself");
    let mut notebook = Tablet::new(3);
    let early = notebook.write("10:00", body("remark", remark));
    let noted = notebook.write_late("09:50", "10:05", body("remark", remark));
    assert_eq!(asked(&[early, noted]), Vec::<String>::new(), "noted a little later says so too");
    let other = Tablet::new(2).write("09:00", body("remark", remark));
    assert_eq!(asked(&[first, other]), Vec::<String>::new(), "two tablets have two orders");
}

/// Bug found on the demo's spreadsheets: a sheet for the tool and one for the tape both begin in the morning.
#[test]
fn another_file_may_begin_earlier_in_the_day() {
    let file = "00".repeat(32);
    let read: &[(&str, &str)] = &[("name", "tools.csv"), ("file", &file), ("entries", "1")];
    let remark: &[(&str, &str)] = &[("text", "a")];
    check(&[("10:00", "remark", remark), ("16:00", "notes_read", read), ("09:00", "remark", remark)], &[]);
}

/// Bug found on the demo's dry shaft: concrete that falls freely was asked why it starts so high.
#[test]
fn free_fall_starts_from_wherever_the_line_ends() {
    let line = |sort| [("name", "chute"), ("line", sort), ("off_bottom", "12 ft")];
    check(&[("09:00", "line_made_up", &line("free_fall"))], &[]);
    check(&[("09:00", "line_made_up", &line("tremie"))], &["09:00 length_unusual"]);
}

#[test]
fn ends_before_beginnings() {
    for (kind, fields) in [
        ("tool_run", vec![("to", "4 ft"), ("out", "08:59")]),
        ("cleaning", vec![("method", "airlift"), ("until", "08:59")]),
        ("interruption", vec![("reason", "truck late"), ("until", "08:59")]),
        ("curing", vec![("method", "wet burlap"), ("until", "08:59")]),
        ("obstruction", vec![("from", "4 ft"), ("what", "boulder"), ("cleared", "08:59")]),
        ("fluid_treated", vec![("what", "desanded"), ("until", "08:59")]),
        ("fluid_introduced", vec![("product", "B"), ("fluid", "mineral"), ("mixed", "09:01")]),
        ("installation_plan", vec![("document", "P"), ("approved", "yes"), ("submitted", "09:01")]),
    ] {
        check(&[("09:00", kind, &fields)], &["09:00 ends_before_it_begins"]);
        let mut well = fields.clone();
        well.last_mut().expect("a time").1 = "09:00";
        check(&[("09:00", kind, &well)], &[]);
    }
}

fn load(times: [&str; 4]) -> Vec<String> {
    let [batched, arrived, started, ended] = times;
    let mut tablet = Tablet::new(1);
    let fields = [("ticket", "7"), ("volume", "9 cy"), ("batched", batched)];
    let arrival = tablet.write_late(arrived, "18:00", body("load_arrived", &fields));
    let discharge = [("ticket", "7")];
    let start = tablet.write_late(started, "18:00", body("discharge_started", &discharge));
    let end = tablet.write_late(ended, "18:00", body("discharge_ended", &discharge));
    asked(&[arrival, start, end])
}

#[test]
fn loads_whose_times_cannot_follow_one_another() {
    assert_eq!(load(["09:10", "09:55", "10:00", "10:20"]), Vec::<String>::new());
    assert_eq!(load(["09:55", "09:55", "09:55", "09:55"]), Vec::<String>::new());
    assert_eq!(load(["09:56", "09:55", "10:00", "10:20"]), ["09:55 batched_after_arrival"]);
    assert_eq!(load(["09:10", "10:05", "10:00", "10:20"]), ["10:00 discharged_before_arrival"]);
    assert_eq!(load(["09:10", "09:55", "10:30", "10:20"]), ["10:20 ends_before_it_begins"]);
}

#[test]
fn a_ticket_twice_and_a_ticket_nobody_brought() {
    let load: &[(&str, &str)] = &[("ticket", "7"), ("volume", "9 cy")];
    check(&[("09:00", "load_arrived", load), ("10:00", "load_arrived", load)], &["10:00 ticket_twice"]);
    let padded: &[(&str, &str)] = &[("ticket", " 7 "), ("slump", "8 in")];
    check(&[("09:00", "load_arrived", load), ("10:00", "concrete_test", padded)], &[]);
    for (kind, fields) in [
        ("concrete_test", vec![("ticket", "1"), ("slump", "8 in")]),
        ("water_added", vec![("ticket", "1"), ("volume", "5 gal")]),
        ("load_refused", vec![("ticket", "1"), ("reason", "too stiff")]),
        ("discharge_started", vec![("ticket", "1")]),
        ("discharge_ended", vec![("ticket", "1")]),
        ("concrete_wasted", vec![("ticket", "1"), ("volume", "1 cy"), ("place", "spilled")]),
        ("concrete_sounded", vec![("after", "1"), ("points[0].depth", "9 ft")]),
        ("cylinders_made", vec![("set", "A"), ("ticket", "1"), ("count", "4")]),
    ] {
        check(&[("09:00", "load_arrived", load), ("10:00", kind, &fields)], &["10:00 ticket_unknown"]);
    }
    check(&[("10:00", "concrete_wasted", &[("volume", "1 cy"), ("place", "line")])], &[]);
}

#[test]
fn runs_that_do_not_meet() {
    let run =
        |from: &'static str, to: &'static str, diameter: &'static str| -> Vec<(&'static str, &'static str)> {
            vec![("from", from), ("to", to), ("diameter", diameter)]
        };
    let two = |second: Vec<(&'static str, &'static str)>| {
        let first = run("0 ft", "10 ft", "48 in");
        asked(&written(&[("09:00", "tool_run", &first), ("09:30", "tool_run", &second)]))
    };
    assert_eq!(two(run("10 ft", "14 ft", "48 in")), Vec::<String>::new());
    assert_eq!(two(run("10.5 ft", "14 ft", "48 in")), Vec::<String>::new());
    assert_eq!(two(run("10.6 ft", "14 ft", "48 in")), ["09:30 runs_do_not_meet"]);
    assert_eq!(two(run("9.4 ft", "14 ft", "48 in")), ["09:30 runs_do_not_meet"]);
    assert_eq!(two(run("0 ft", "10 ft", "54 in")), Vec::<String>::new(), "a wider tool reams");
    let (first, second) = (run("0 ft", "10 ft", "48 in"), run("7 ft", "14 ft", "48 in"));
    let caved: &[(&str, &str)] = &[("seen", "sand ran in")];
    check(&[("09:00", "tool_run", &first), ("09:10", "caving", caved), ("09:30", "tool_run", &second)], &[]);
}

#[test]
fn a_clock_ten_years_behind_is_asked_about_once() {
    let mut tablet = Tablet::new(1);
    let mut wrong = |seen: &str, entered: &str| {
        tablet.enter(at(seen), None, at(entered), body("remark", &[("text", "a")]))
    };
    let entries = [wrong("10:00", "2021-04-08 10:01"), wrong("10:10", "2021-04-08 10:11")];
    assert_eq!(asked(&entries), ["10:00 seen_after_entered"]);
    let well = [wrong("10:20", "10:10"), wrong("10:30", "10:31")];
    assert_eq!(asked(&well), Vec::<String>::new(), "two watches may differ by ten minutes");
}

#[test]
fn an_answer_stands_beside_its_question() {
    let mut tablet = Tablet::new(1);
    let fields = [("place", "tank"), ("stage", "introduction"), ("ph", "3"), ("sand", "40")];
    let test = tablet.write("09:00", body("fluid_test", &fields));
    let id = test.id.to_string();
    let mut answer = |question: &str, answer: &str| {
        let fields = [("about", id.as_str()), ("question", question), ("answer", answer)];
        tablet.write("09:05", body("question_answered", &fields))
    };
    let (both, one) = (answer("value_unusual", "read twice"), answer("value_unusual.ph", "new paper: 8"));
    let other = answer("length_unusual", "no such question");
    let answers = |entries: &[&Entry]| -> Vec<Option<String>> {
        let record = record(entries.iter().copied());
        let log = Log::of(&record, Some("S-1"), None);
        questions(&log).into_iter().map(|question| question.answer.map(|(_, answer)| answer)).collect()
    };
    let read_twice = Some("read twice".to_owned());
    assert_eq!(answers(&[&test]), [None, None]);
    assert_eq!(answers(&[&test, &other]), [None, None]);
    assert_eq!(answers(&[&test, &both]), [read_twice.clone(), read_twice.clone()]);
    assert_eq!(answers(&[&test, &both, &one]), [Some("new paper: 8".to_owned()), read_twice]);
}

#[test]
fn a_struck_line_raises_no_question_and_the_one_in_its_place_does() {
    let mut tablet = Tablet::new(1);
    let wrong = tablet.write("09:00", body("tool_run", &[("to", "4 ft"), ("diameter", "48 ft")]));
    let id = wrong.id.to_string();
    let mut instead = |diameter: &str| {
        let fields = [
            ("replaces", id.as_str()),
            ("reason", "inches were meant"),
            ("body.kind", "tool_run"),
            ("body.body.to", "4 ft"),
            ("body.body.diameter", diameter),
        ];
        tablet.write("09:30", body("correction", &fields))
    };
    let (right, still) = (instead("48 in"), instead("480 in"));
    assert_eq!(asked(&[wrong.clone(), right]), Vec::<String>::new());
    let record = record([&wrong, &still]);
    let found = questions(&Log::of(&record, Some("S-1"), None));
    assert_eq!(found.iter().map(|question| question.about).collect::<Vec<_>>(), [still.id]);
}

/// The longest lengths that can be read at all: the rules ask or they do not, and never stop.
#[test]
fn a_depth_no_hole_has_does_not_stop_the_questions() {
    let huge = "19000000 m";
    let day: Day<'_> = &[
        ("08:00", "reference_set", &[("name", "r"), ("elevation", "-19000000 m")]),
        ("09:00", "tool_run", &[("from", huge), ("to", huge), ("diameter", huge)]),
        (
            "10:00",
            "bottom_sounded",
            &[("purpose", "after_cage"), ("points[0].depth", huge), ("tape_correction", huge)],
        ),
        ("10:10", "concrete_sounded", &[("points[0].depth", huge), ("elevation", huge)]),
        (
            "10:20",
            "shaft_planned",
            &[("structure", "sign"), ("method", "dry"), ("top", huge), ("tip", "-19000000 m")],
        ),
    ];
    let asked = asked(&written(day));
    assert!(asked.contains(&"10:10 elevation_disagrees".to_owned()), "{asked:?}");
}

/// Questions come in the order of the lines they are about, whichever rule asked.
#[test]
fn questions_stand_in_the_order_of_the_log() {
    let run: &[(&str, &str)] = &[("to", "40 ft"), ("diameter", "48 ft")];
    let sample: &[(&str, &str)] =
        &[("place", "hole"), ("stage", "drilling"), ("depth", "60 ft"), ("ph", "80")];
    let load: &[(&str, &str)] = &[("ticket", "1"), ("volume", "90 cy")];
    let day: Day<'_> =
        &[("09:00", "tool_run", run), ("10:00", "fluid_test", sample), ("11:00", "load_arrived", load)];
    let expected =
        ["09:00 length_unusual", "10:00 deeper_than_hole", "10:00 value_unusual", "11:00 load_volume"];
    check(day, &expected);
    let entries = written(day);
    let backwards: Vec<Entry> = entries.iter().rev().cloned().collect();
    assert_eq!(asked(&backwards), expected);
    let body: &Body = &entries[0].body;
    assert_eq!(body.kind().word, "tool_run");
}

/// A log of depths reached asks nothing; one missing beginning among others is asked about.
#[test]
fn a_run_that_says_no_depth_it_began_at() {
    let (first, second) = ([("from", "0 ft"), ("to", "10 ft")], [("to", "20 ft")]);
    check(&[("09:00", "tool_run", &first), ("09:30", "tool_run", &second)], &["09:30 run_without_beginning"]);
    check(
        &[("09:00", "tool_run", &second), ("09:30", "tool_run", &[("from", "20 ft"), ("to", "30 ft")])],
        &["09:00 run_without_beginning"],
    );
    check(&[("09:00", "tool_run", &second), ("09:30", "tool_run", &[("to", "30 ft")])], &[]);
}
