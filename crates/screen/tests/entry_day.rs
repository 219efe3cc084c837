//! A day at the hole, seen from the keys: at each moment what lies under the thumb, what the form offers,
//! what the plan says beside it, and what is asked before anything is saved.

use assess::Picture;
use record::kinds::ShaftPlanned;
use record::{Log, Record};
use screen::entry::stage::Stage;
use screen::entry::{Asked, Concern, Form, Trial, When, keys};
use testkit::{Tablet, at};

/// The day up to a moment, each line a clock time, a kind and its fields.
struct Day {
    tablet: Tablet,
    entries: Vec<record::Entry>,
}

impl Day {
    /// A job in feet and tenths with one planned shaft: ground +100 ft, top +98 ft, tip +48 ft, 48 in.
    fn planned() -> Day {
        let mut day = Day { tablet: Tablet::new(1).about(None), entries: Vec::new() };
        day.write(
            "06:00",
            "job_opened",
            &[
                ("name", "Test job"),
                ("time_zone", "America/Denver"),
                ("units", "us"),
                ("lengths", "feet_tenths"),
            ],
        );
        day.write(
            "06:01",
            "mix_approved",
            &[
                ("mix", "C-4000"),
                ("slump_low", "7 in"),
                ("slump_high", "9 in"),
                ("air_high", "3 %"),
                ("temperature_high", "95 °F"),
                ("discharge_within", "90 min"),
                ("strength", "4000 psi"),
                ("strength_age", "28 d"),
            ],
        );
        day.write(
            "06:02",
            "fluid_approved",
            &[
                ("product", "P-1"),
                ("fluid", "polymer"),
                ("density_high", "64 pcf"),
                ("viscosity_low", "45 s/qt"),
                ("viscosity_high", "90 s/qt"),
                ("ph_low", "8"),
                ("ph_high", "11.5"),
                ("sand_high", "1 %"),
            ],
        );
        day.tablet = day.tablet.about(Some("S-1"));
        day.write(
            "06:03",
            "shaft_planned",
            &[
                ("structure", "bridge"),
                ("ground", "100 ft"),
                ("top", "98 ft"),
                ("tip", "48 ft"),
                ("method", "temporary_casing"),
                ("bore[0].diameter", "48 in"),
                ("mix", "C-4000"),
                ("fluid", "P-1"),
            ],
        );
        day.write(
            "06:04",
            "casing_planned",
            &[
                ("casings[0].name", "surface"),
                ("casings[0].stay", "temporary"),
                ("casings[0].outside", "54 in"),
                ("casings[0].bottom", "85 ft"),
            ],
        );
        day.write(
            "06:05",
            "cage_planned",
            &[
                ("diameter", "42 in"),
                ("length", "50 ft"),
                ("top", "99.5 ft"),
                ("bars[0].count", "12"),
                ("bars[0].size", "#9"),
                ("hoops[0].sort", "hoops"),
                ("hoops[0].size", "#5"),
                ("hoops[0].spacing", "6 in"),
                ("cover", "3 in"),
            ],
        );
        day
    }

    fn write(&mut self, clock: &str, kind: &str, fields: &[(&str, &str)]) {
        let entry = self.tablet.write(clock, testkit::body(kind, fields));
        self.entries.push(entry);
    }

    fn record(&self) -> Record {
        testkit::record(&self.entries)
    }

    fn form(&self, kind: &str, clock: &str) -> Form {
        Form::new(kind, &self.record(), Some("S-1"), at(clock)).expect("a known kind")
    }

    /// `Drilling: [Tool run] New layer …`: the stage, and the first keys; the likeliest in brackets.
    fn keys(&self, clock: &str) -> String {
        let record = self.record();
        let log = Log::of(&record, Some("S-1"), Some(at(clock)));
        let picture = Picture::of(&log, at(clock));
        let keys = keys::keys(&log, &picture);
        assert_eq!(keys.iter().filter(|key| key.likely).count(), 1, "one key is the likeliest");
        assert!(keys[0].likely, "and it comes first");
        let face = |key: &keys::EntryKey| match key.likely {
            true => format!("[{}]", key.label),
            false => key.label.clone(),
        };
        let first: Vec<String> = keys.iter().take(4).map(face).collect();
        format!("{}: {}", Stage::of(&log, &picture).label(), first.join(", "))
    }

    fn drilled(mut self) -> Day {
        self.write("07:00", "reference_set", &[("name", "casing top"), ("elevation", "101 ft")]);
        self.write("07:05", "casing_set", &[("name", "surface"), ("stay", "temporary"), ("shoe", "16 ft")]);
        self.write("07:10", "drilling_started", &[("rig", "Rig 2")]);
        self.write(
            "07:30",
            "tool_run",
            &[("tool", "auger"), ("diameter", "47 in"), ("from", "0 ft"), ("to", "20 ft")],
        );
        self
    }

    fn at_the_bottom(mut self) -> Day {
        self.write("08:30", "fluid_introduced", &[("product", "P-1"), ("fluid", "polymer")]);
        self.write("09:00", "tool_run", &[("tool", "auger"), ("from", "20 ft"), ("to", "53 ft")]);
        self.write("09:05", "bottom_reached", &[("depth", "53 ft")]);
        self.write("09:20", "cleaning", &[("method", "cleanout bucket")]);
        self
    }

    fn caged(mut self) -> Day {
        self.write(
            "09:40",
            "bottom_sounded",
            &[
                ("purpose", "after_cleaning"),
                ("points[0].place", "center"),
                ("points[0].depth", "53 ft"),
                ("points[1].place", "north"),
                ("points[1].depth", "53.1 ft"),
            ],
        );
        self.write("09:50", "bottom_accepted", &[("by", "A. Inspector")]);
        self.write("10:10", "cage_set", &[("top", "99.5 ft")]);
        self
    }

    fn pouring(mut self) -> Day {
        self.write("10:20", "bottom_sounded", &[("purpose", "after_cage"), ("points[0].depth", "53 ft")]);
        self.write("10:30", "line_made_up", &[("name", "tremie 1"), ("line", "tremie"), ("tip", "52.5 ft")]);
        self.write(
            "10:40",
            "load_arrived",
            &[
                ("ticket", "4411"),
                ("plant", "Plant 3"),
                ("mix", "C-4000"),
                ("volume", "9.5 yd³"),
                ("batched", "10:05"),
            ],
        );
        self
    }
}

#[test]
fn the_next_entry_is_one_tap_away_all_day_long() {
    let mut told = String::new();
    let mut say = |day: &Day, clock: &str| told = format!("{told}{clock}  {}\n", day.keys(clock));
    let day = Day::planned();
    say(&day, "06:30");
    let day = day.drilled();
    say(&day, "07:02");
    say(&day, "07:40");
    let day = day.at_the_bottom();
    say(&day, "09:02");
    say(&day, "09:10");
    say(&day, "09:30");
    let mut day = day.caged();
    say(&day, "09:45");
    say(&day, "09:55");
    say(&day, "10:15");
    day = day.pouring();
    say(&day, "10:25");
    say(&day, "10:35");
    say(&day, "10:41");
    day.write("10:45", "concrete_test", &[("ticket", "4411"), ("slump", "8 in")]);
    say(&day, "10:46");
    day.write("10:50", "discharge_started", &[("ticket", "4411")]);
    say(&day, "10:51");
    day.write("11:00", "discharge_ended", &[("ticket", "4411")]);
    say(&day, "11:01");
    day.write("11:03", "concrete_sounded", &[("points[0].depth", "33 ft"), ("after", "4411")]);
    say(&day, "11:04");
    day.write("12:00", "over_poured", &[("good", "yes")]);
    say(&day, "12:01");
    day.write("12:05", "line_out", &[("name", "tremie 1")]);
    say(&day, "12:06");
    day.write("12:20", "casing_out", &[("name", "surface")]);
    say(&day, "12:21");
    day.write("12:25", "cage_elevation", &[("moment", "after_casing"), ("top", "99.5 ft")]);
    day.write("12:40", "curing", &[("method", "wet burlap")]);
    say(&day, "12:41");
    day.write("15:00", "as_built", &[("top", "98 ft")]);
    say(&day, "15:01");
    expect_test::expect![[r#"
        06:30  Planned: [Stake-out], Utilities, Reference, Casing set
        07:02  Before drilling: [Utilities], Reference, Start drilling, Casing set
        07:40  Drilling: [Tool run], New layer, Fluid level, Fluid test
        09:02  Drilling: [At the bottom], Tool run, New layer, Fluid level
        09:10  Bottom: [Cleaning], Tape on bottom, Sediment, Fluid test
        09:30  Bottom: [Tape on bottom], Cleaning, Sediment, Fluid test
        09:45  Bottom: [Bottom OK], Cleaning, Tape on bottom, Sediment
        09:55  Cage: [Cage in], Cage on ground, Tape on bottom, Sediment
        10:15  Cage: [Tape on bottom], Cage in, Cage on ground, Sediment
        10:25  Cage: [Tremie in], Cage in, Cage on ground, Tape on bottom
        10:35  Pour: [Truck in], Fresh test, Discharge start, Truck empty
        10:41  Pour: [Fresh test], Truck in, Discharge start, Truck empty
        10:46  Pour: [Discharge start], Truck in, Fresh test, Truck empty
        10:51  Pour: [Truck empty], Truck in, Fresh test, Discharge start
        11:01  Pour: [Tape on concrete], Truck in, Fresh test, Discharge start
        11:04  Pour: [Truck in], Fresh test, Discharge start, Truck empty
        12:01  Pour: [Tremie out], Truck in, Fresh test, Discharge start
        12:06  Pour: [Casing out], Truck in, Fresh test, Discharge start
        12:21  After the pour: [Cage level], Anchors set, Conduit set, Top formed
        12:41  After the pour: [As-built], Cage level, Anchors set, Conduit set
        15:01  Done: [Sign], Break, Integrity, As-built
    "#]]
    .assert_eq(&told);
}

#[test]
fn work_that_was_stopped_goes_on_next() {
    let mut day = Day::planned().drilled();
    day.write("08:00", "work_stopped", &[("reason", "lightning")]);
    expect_test::expect!["Drilling: [Go on], Tool run, New layer, Fluid level"].assert_eq(&day.keys("08:10"));
    day.write("08:40", "work_resumed", &[]);
    expect_test::expect!["Drilling: [Tool run], New layer, Fluid level, Fluid test"]
        .assert_eq(&day.keys("08:41"));
}

/// What a form shows at once, a line a field: `Ticket* … | plan … | offer … (why)`.
fn shown(form: &Form) -> String {
    let lines = form.fields().into_iter().filter(|field| field.when != When::More).map(|field| line(&field));
    lines.collect::<Vec<_>>().join("\n")
}

fn line(field: &Asked) -> String {
    let star = if field.required { "*" } else { "" };
    let mut text = format!("{}{}{star}", "  ".repeat(field.level), field.label);
    if !field.text.is_empty() {
        text = format!("{text}: {}", field.text);
    }
    if let Some(planned) = &field.planned {
        text = format!("{text} | {planned}");
    }
    if let Some(offer) = &field.offer {
        text = format!("{text} | offered {} ({})", offer.text, offer.why);
    }
    text
}

#[test]
fn a_run_is_offered_its_beginning_and_shows_the_plan() {
    let day = Day::planned().drilled();
    let mut form = day.form("tool_run", "07:45");
    expect_test::expect![[r#"
        To* | plan tip 53.0 ft (+48.0 ft)
        From | offered 20 ft (end of the run of 07:30)
        Tool | offered auger (as at 07:30)
        Ground
        Out"#]]
    .assert_eq(&shown(&form));
    form.take("from");
    form.take("tool");
    form.set("to", "35");
    assert_eq!(
        form.body().expect("it reads"),
        testkit::body("tool_run", &[("from", "20 ft"), ("to", "35"), ("tool", "auger")])
    );
}

#[test]
fn a_truck_is_offered_what_the_last_one_brought() {
    let mut day = Day::planned().drilled().at_the_bottom().caged();
    day.write("10:30", "line_made_up", &[("name", "tremie 1"), ("line", "tremie")]);
    expect_test::expect![[r#"
        Ticket*
        Volume*
        Mix | plan C-4000 | offered C-4000 (from the plan)
        Plant
        Truck
        Batched
        Water allowed
        Ticket checked"#]]
    .assert_eq(&shown(&day.form("load_arrived", "10:38")));
    let day = day.pouring();
    expect_test::expect![[r#"
        Ticket*
        Volume* | offered 9.5 yd³ (as at 10:40)
        Mix | plan C-4000 | offered C-4000 (as at 10:40)
        Plant | offered Plant 3 (as at 10:40)
        Truck
        Batched
        Water allowed
        Ticket checked"#]]
    .assert_eq(&shown(&day.form("load_arrived", "10:55")));
    expect_test::expect![[r#"
        Ticket* | offered 4411 (arrived 10:40)
        Slump | limit 7 in to 9 in, approved mix
        Air | limit at most 3 %, approved mix
        Temperature | limit at most 95 °F, approved mix
        Cylinders"#]]
    .assert_eq(&shown(&day.form("concrete_test", "10:45")));
    expect_test::expect![[r#"
        Ticket* | offered 4411 (arrived 10:40)
        Line | offered tremie 1 (made up 10:30)"#]]
    .assert_eq(&shown(&day.form("discharge_started", "10:50")));
}

#[test]
fn a_sounding_is_offered_the_places_of_the_last_one() {
    let mut day = Day::planned().drilled().at_the_bottom().caged().pouring();
    day.write("10:50", "discharge_started", &[("ticket", "4411")]);
    day.write("11:00", "discharge_ended", &[("ticket", "4411")]);
    day.write(
        "11:03",
        "concrete_sounded",
        &[
            ("points[0].place", "inside"),
            ("points[0].depth", "33 ft"),
            ("points[1].place", "outside"),
            ("points[1].depth", "33.4 ft"),
            ("after", "4411"),
        ],
    );
    let mut form = day.form("concrete_sounded", "11:30");
    expect_test::expect![[r#"
        Points | offered inside, outside (same places as at 11:03)
          Point 1
            Place
            Depth* | plan cut-off 3.0 ft (+98.0 ft)
        After load | offered 4411 (in at 11:00)"#]]
    .assert_eq(&shown(&form));
    form.take("points");
    form.set("points[0].depth", "20.2");
    form.set("points[1].depth", "20.5");
    form.add("points");
    let wanted = testkit::body(
        "concrete_sounded",
        &[
            ("points[0].place", "inside"),
            ("points[0].depth", "20.2"),
            ("points[1].place", "outside"),
            ("points[1].depth", "20.5"),
        ],
    );
    assert_eq!(form.body().expect("a row nobody wrote in is left out"), wanted);
}

#[test]
fn a_choice_is_offered_and_told_by_the_words_that_stand_on_it() {
    let mut day = Day::planned().drilled();
    day.write("07:50", "fluid_test", &[("place", "hole"), ("stage", "before_concrete"), ("ph", "9")]);
    let mut form = day.form("fluid_test", "08:30");
    let stage = |form: &Form| form.fields().into_iter().find(|asked| asked.path == "stage").expect("a stage");
    assert_eq!(stage(&form).offer.expect("an offer").text, "before concrete");
    form.take("stage");
    assert_eq!((stage(&form).text.as_str(), stage(&form).shown()), ("before_concrete", "before concrete"));
}

#[test]
fn the_plan_stands_beside_what_is_measured() {
    let day = Day::planned().drilled().at_the_bottom().caged();
    let mut told = String::new();
    let kinds = ["casing_set", "bottom_reached", "cage_checked", "cage_set", "fluid_test", "cylinder_broken"];
    for kind in kinds {
        told = format!("{told}# {kind}\n");
        for field in day.form(kind, "10:15").fields() {
            if let Some(planned) = field.planned {
                told = format!("{told}{}: {planned}\n", field.path);
            }
        }
    }
    expect_test::expect![[r#"
        # casing_set
        name: plan surface
        plumb: plan vertical
        # bottom_reached
        depth: plan tip 53.0 ft (+48.0 ft)
        # cage_checked
        bars: plan 12 × #9
        bars[0].count: plan 12
        bars[0].size: plan #9
        hoops: plan #5 every 6 in
        hoops[0].sort: plan hoops
        hoops[0].size: plan #5
        hoops[0].spacing: plan 6 in
        diameter: plan 42 in
        length: plan 50 ft
        spacer_cover: plan 3 in
        # cage_set
        top: plan 99.5 ft
        # fluid_test
        density: limit at most 64 pcf, approved fluid
        viscosity: limit 45 s/qt to 90 s/qt, approved fluid
        ph: limit 8 to 11.5, approved fluid
        sand: limit at most 1 %, approved fluid
        # cylinder_broken
        strength: required 4000 psi at 28 d
    "#]]
    .assert_eq(&told);
}

#[test]
fn a_fault_points_at_the_row_a_person_sees() {
    let day = Day::planned().drilled().at_the_bottom();
    let mut form = day.form("bottom_sounded", "09:40");
    form.set("purpose", "after_cleaning");
    form.set_in_row("points[3].depth", "5e ft");
    form.set("points[1].place", "north");
    let faults = form.body().expect_err("two rows are not right");
    let told: Vec<String> =
        faults.iter().map(|fault| format!("{} ({}): {}", fault.path, fault.label, fault.sentence)).collect();
    expect_test::expect![[r#"
        points[1].depth (Depth): This is needed and blank.
        points[3].depth (Depth): `5e ft`: `e ft` is no unit known here; expected a length such as 12.54 ft."#]].assert_eq(&told.join("\n"));
}

fn asked(concerns: &[Concern]) -> String {
    let line = |concern: &Concern| {
        format!(
            "{} {}: {} {}",
            concern.word,
            concern.field.as_deref().unwrap_or("-"),
            concern.what,
            concern.next
        )
    };
    concerns.iter().map(line).collect::<Vec<_>>().join("\n")
}

#[test]
fn what_looks_odd_is_asked_before_it_is_saved() {
    let mut day = Day::planned().drilled().at_the_bottom().caged().pouring();
    day.write("10:50", "discharge_started", &[("ticket", "4411")]);
    day.write("11:00", "discharge_ended", &[("ticket", "4411")]);
    day.write("11:03", "concrete_sounded", &[("points[0].depth", "33 ft"), ("after", "4411")]);
    let record = day.record();
    let trial = Trial { record: &record, now: at("11:31"), device: None };

    let mut form = day.form("concrete_sounded", "11:30");
    assert_eq!(asked(&form.questions(&trial)), NOTHING_READ, "a sounding without a reading");
    form.set("points[0].depth", "54");
    expect_test::expect!["deeper_than_hole points: The reading of 54.0 ft lies deeper than the hole was at that time (53.1 ft). Sound again. If the hole was deeper, enter the tool run that is missing; if the reading was a slip, correct it."].assert_eq(&asked(&form.questions(&trial)));
    form.set("points[0].depth", "20.2");
    assert_eq!(asked(&form.questions(&trial)), "", "a reading like any other raises no question");

    let mut form = day.form("load_arrived", "11:30");
    form.set("ticket", "4411");
    form.set("volume", "95");
    form.set("batched", "11:40");
    expect_test::expect![[r#"
        load_volume volume: Load 4411 brings 95.00 yd³; a load here is about 14.39 yd³. Read the ticket once more. Keep the volume, or correct it.
        batched_after_arrival batched: Load 4411 was batched at 11:40, after it arrived at 11:30. Read the batch time on the ticket once more. Correct the time that was a slip.
        ticket_twice ticket: Ticket 4411 arrived twice. Compare the paper tickets. If one number was a slip, correct that entry."#]].assert_eq(&asked(&form.questions(&trial)));
    assert_eq!(record, day.record(), "the trial left no trace in the record");
}

const NOTHING_READ: &str = "nothing_read points: Nothing was read off: only the time would be kept. Write what \
                            was read, or save it as it is and add the reading by a correction.";

/// The tablet says 07:25, yet it wrote at 07:30 already: its clock went back.
#[test]
fn a_clock_that_went_back_is_asked_about_where_the_device_is_known() {
    let day = Day::planned().drilled();
    let record = day.record();
    let device = Some(day.tablet.device());
    let mut form = day.form("remark", "07:20");
    form.set("text", "boring log at hand");
    let trial = Trial { record: &record, now: at("07:25"), device };
    expect_test::expect!["time_backwards -: The entry before this one was seen at 07:30, this one at 07:20. If one of the times was a slip, correct it. A late entry needs no correction."].assert_eq(&asked(&form.questions(&trial)));
    assert_eq!(asked(&form.questions(&Trial { device: None, ..trial })), "");
}

#[test]
fn another_shaft_is_not_asked_about() {
    let mut day = Day::planned().drilled();
    day.tablet = day.tablet.clone().about(Some("S-2"));
    day.write("07:40", "load_arrived", &[("ticket", "77"), ("volume", "9 yd³")]);
    assert!(day.form("tool_run", "07:45").fields().iter().all(|field| field.path != "ticket"));
    let mut form = day.form("load_arrived", "07:50");
    form.set("ticket", "77");
    form.set("volume", "9");
    let record = day.record();
    assert_eq!(asked(&form.questions(&Trial { record: &record, now: at("07:51"), device: None })), "");
    assert!(Log::of(&record, Some("S-2"), None).last::<ShaftPlanned>().is_none());
}
