//! The other shafts and the screens around a shaft: a metric pile with a casing withdrawn in lifts, the job,
//! what is ready, the review, the sheet.

#[path = "live/demo.rs"]
mod demo;

use demo::{at, by_then, harrow_vale_entries, lindmoor_entries, told};
use expect_test::{Expect, expect};
use figure::Size;
use record::{Held, Record};
use screen::live::{self, Before, Item, ReviewRow};

#[track_caller]
fn check(moment: &str, expected: &Expect) {
    let at = at(moment);
    let record = by_then(&lindmoor_entries(), at);
    expected.assert_eq(&told(&live::shaft(&record, "P-7", at)));
}

#[test]
fn a_metric_pile_tells_its_figures_with_a_comma() {
    check(
        "2025-06-02T17:30:00+02:00",
        &expect![[r#"
            17:30 · P-7 · bridge, Widerlager A, Pfahl 7 · 1200 mm · 25,50 m below ground · tip +387,10 m · pour
            EN 1536 style, 1 · depths from Nagel im Führungsrahmen at +412,60 m
            Nothing that was measured fails.
            FIGURES
            * Depth to concrete: 6,70 m ± 0,03 below Nagel im Führungsrahmen [no limit set] +405,90 m; lowest of 2 points; 17:14
            * Embedment of Schüttrohr: 3,70 m ± 0,03 [meets] 2,50 m at least
            * Lift at most: 1,20 m [meets] no piece may come off yet; 0,70 m after the next piece
              This interval, load 7703: 1,01 ± 0,02 [no limit set] 3,82 m³ placed, 3,80 m³ theoretical; unlike the rest of the shaft
              In all: 1,04 ± 0,01 [no limit set] 22,37 m³ placed, 21,55 m³ theoretical
              Age of the oldest concrete, load 7701: 2 h 25 min [no limit set] workable until 20:32; slump 183 mm ± 18 mm by now
              Order for 95 %: 1,50 m³ [no limit set] 1 load, 0,33 left over
              Chance to end in time: 95 % with 2 trucks [no limit set] ends about 19:36 (19:17 to 20:00)
              Concrete over shoe, casing Rohr: 4,50 m [no limit set] 3,36 m at least; lift at most 1,00 m; add 0,69 m³ before the next lift
            CLOCKS
              later Load 7704 going in: 4 min 00 s since then (17:26) 
              later Load 7704 to be in: 1 h 10 min left (18:40) 
              later Slump life of load 7701: 3 h 02 min left (20:32 ± 31 min) work planned until 19:35
            ATTENTION
              shows soon | Embedment of Schüttrohr | Embedment 3,70 m ± 0,03; required: 2,50 m. Lift at most 1,20 m; no piece may come off yet. | Place and sound before the next piece: without it the embedment would be 0,70 m, 1,80 m short.
              shows soon | Head in Rohr at the next lift | The concrete stands 4,50 m over the shoe; required: 3,36 m. Lift at most 1,00 m before the head is too small. | For a lift of 1,52 m add 0,69 m³ first; sound before and after every lift.
            NEXT
              soon discharge_ended: Enter when load 7704 is in. ticket=7704
              soon concrete_sounded: Place and sound before the next piece: without it the embedment would be 0,70 m, 1,80 m short. 
              later load_arrived: When the next truck comes: enter its ticket. 
            FindingCounts { fails: 0, open: 0, cannot_say: 0, not_measured: 0, meets: 89, no_limit_set: 104 }
            0 unsettled, 1 questions, 5 doubts, 0 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

#[test]
fn between_two_lifts_the_head_over_the_shoe_is_told() {
    check(
        "2025-06-02T18:00:00+02:00",
        &expect![[r#"
            18:00 · P-7 · bridge, Widerlager A, Pfahl 7 · 1200 mm · 25,50 m below ground · tip +387,10 m · pour
            EN 1536 style, 1 · depths from Nagel im Führungsrahmen at +412,60 m
            Nothing that was measured fails.
            FIGURES
            * Depth to concrete: 1,05 m below Nagel im Führungsrahmen [no limit set] +411,55 m; 17:56
            * Embedment of Schüttrohr: 6,35 m ± 0,03 [meets] 2,50 m at least
            * Lift at most: 3,85 m [meets] 1 piece may come off; 3,35 m after the next piece
              This interval, load 7704: 1,01 ± 0,02 [no limit set] 3,81 m³ placed, 3,77 m³ theoretical
              In all: 1,03 ± 0,01 [no limit set] 30,00 m³ placed, 29,17 m³ theoretical
              Age of the oldest concrete, load 7701: 2 h 55 min [no limit set] workable until 20:32; slump 173 mm ± 20 mm by now
              Order for 95 %: 1,50 m³ [no limit set] 1 load, 0,32 left over
              Chance to end in time: 91 % with 2 trucks [no limit set] ends about 19:48 (19:31 to 20:08)
              Concrete over shoe, casing Rohr: 8,15 m [meets] 2,52 m at least; lift at most 4,96 m
            CLOCKS
              later Gap since the last load: 13 min 00 s since then (17:47) no limit is set
              later Slump life of load 7701: 2 h 32 min left (20:32 ± 31 min) work planned until 19:35
            ATTENTION
              shows soon | Lift 1 of Rohr, 17:56 | Shoe from +401,40 m to +403,40 m. The level fell 0,63 m more than expected. 0,74 m³ ± 0,05 went behind the casing that the drawing does not know: a void, or a wall washed out. The concrete stands 8,15 m over the shoe. The cage did not move. | Sound again before the next lift and add concrete until the head is enough.
            NEXT
              later line_out: Enter when the line is out of the concrete. name=Schüttrohr
              later casing_lifted: Sound, lift, sound again: enter each lift of the casing. name=Rohr
            FindingCounts { fails: 0, open: 0, cannot_say: 0, not_measured: 0, meets: 91, no_limit_set: 112 }
            0 unsettled, 1 questions, 6 doubts, 0 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

fn job_line(row: &live::ShaftRow) -> String {
    let counts = format!("{} fail, {} open, {} waiting", row.fails, row.open, row.waiting);
    format!(
        "{} | {} | {} | {} | {counts} | {} | {}\n",
        row.name,
        row.structure,
        row.size,
        row.stage.label(),
        row.urgent,
        row.last
    )
}

#[test]
fn the_job_knows_the_stage_and_the_counts_of_each_shaft() {
    let at = at("2025-05-13T12:30:00-06:00");
    let job = live::job(&by_then(&harrow_vale_entries(), at), at);
    let head = format!("{} | {} | {} | rehearsal {}\n", job.name, job.units, job.criteria, job.rehearsal);
    let rows: String = job.shafts.iter().map(job_line).collect();
    let people: String = job.people.iter().map(|one| format!("{}, {}\n", one.name, one.role)).collect();
    let mixes: String = job.mixes.iter().chain(&job.fluids).map(|one| format!("{}\n", one.name)).collect();
    expect![[r#"
        Harrow Vale, Route 19 signs and signals | US units, feet and tenths | Small roadside shafts, common practice, 1 | rehearsal true
        S-1 | cantilever sign CS-2 | 42 in × 23.5 ft below ground | Done | 0 fail, 0 open, 0 waiting |  | 9 May 2025 11:10  As-built survey
        S-2 | sign bridge SB-1, south leg | 48 in × 59.5 ft below ground | Pour | 5 fail, 5 open, 0 waiting | Concrete still needed | 12:30  Cage elevation
        S-3 | mast arm pole MA-4 | 36 in × 18.0 ft below ground | Planned | 0 fail, 0 open, 0 waiting |  | 28 Apr 2025 00:00  Pour planned
        R. Quill, inspector
        T. Ashgrove, inspector
        I. Vane, engineer
        D. Pike, contractor quality
        A. Cray, contractor
        M. Oakes, laboratory
        DS-4000
        Poldrell P
        Mirgolit 60
    "#]].assert_eq(&format!("{head}{rows}{people}{mixes}"));
    assert_eq!(live::shaft_row(&by_then(&harrow_vale_entries(), at), "S-2", at), job.shafts[1]);
    let plan = job.plan(Size::points(480.0, 320.0), &|shaft| format!("/way/to/{shaft}"));
    assert!(plan.contains("<a href=\"/way/to/S-2\""), "{plan}");
    assert!(plan.contains("S-2 Pour") && plan.contains("var(--drawing-ink,#15202b)"), "{plan}");
}

fn item(item: &Item) -> String {
    let wants: Vec<&str> = item.wants.iter().map(|want| want.kind).collect();
    let holds = if item.holds { " (holds)" } else { "" };
    format!("{}{holds} | {} | {} | {}\n", item.ready.word(), item.title, item.sentence, wants.join(", "))
}

#[test]
fn before_concrete_the_list_begins_with_what_does_not_meet() {
    let at = at("2025-05-13T09:27:00-06:00");
    let record = by_then(&harrow_vale_entries(), at);
    let ready = live::readiness(&record, "S-2", at, Before::Concrete);
    let items: String = ready.items.iter().take(10).map(item).collect();
    expect![[r#"
        Before concrete: 1 item does not meet, 1 is missing, 30 are there.
        does_not_meet (holds) | Hold: concrete | sand 6 % at the bottom, installation plan allows 4 %. Nobody has released it. | hold_released
        missing | The line, piece by piece, and how deep its tip hangs |  | line_made_up
        there (holds) | Depth of the bottom sounded and recorded | Depth of the bottom sounded and recorded: yes, as required. Common practice, no source. | 
        there (holds) | Bottom at the required tip or deeper | Bottom at the required tip or deeper: -0.3 ft; the limit is 0 ft at most. 0.3 ft to spare. Common practice, no source. | 
        there (holds) | Sediment measured and recorded | Sediment measured and recorded: yes, as required. Common practice, no source. | 
        there (holds) | Sediment at the worst point | Sediment at the worst point: 0.75 in; the limit is 1 in at most. 0.25 in to spare. Common practice, no source. | 
        there | What the shaft should be |  | 
        there | The point depths are measured from |  | 
        there | The criteria of the job |  | 
        there | The mix, with its trial and its least slump |  | 
    "#]].assert_eq(&format!("{}\n{items}", ready.sentence));
}

#[test]
fn before_drilling_a_planned_shaft_lacks_its_reference() {
    let at = at("2025-05-12T06:30:00-06:00");
    let record = by_then(&harrow_vale_entries(), at);
    let ready = live::readiness(&record, "S-2", at, Before::Drilling);
    let items: String = ready.items.iter().map(item).collect();
    expect![[r#"
        Before drilling: 0 items do not meet, 1 is missing, 2 are there.
        missing | The point depths are measured from |  | reference_set
        there | What the shaft should be |  | 
        there | The criteria of the job |  | 
    "#]]
    .assert_eq(&format!("{}\n{items}", ready.sentence));
}

fn scar(row: &ReviewRow) -> Option<String> {
    let struck = row.struck.as_ref().map(|struck| format!("struck by {}: {}", struck.who, struck.why));
    let late = Some(&row.late).filter(|late| !late.is_empty()).map(|late| format!("late: {late}"));
    let disputed =
        Some(&row.disputed).filter(|note| !note.is_empty()).map(|note| format!("disputed: {note}"));
    let replaces =
        (!row.replaces.is_empty()).then(|| format!("replaces {}: {}", &row.replaces[..8], row.reason));
    let scars: Vec<String> = struck.into_iter().chain(late).chain(disputed).chain(replaces).collect();
    let what: String = row.what.chars().take(60).collect();
    (!scars.is_empty()).then(|| {
        format!("{} {} {} {} | {what} | {}\n", row.time, row.who, row.short, row.label, scars.join("; "))
    })
}

#[test]
fn the_review_shows_every_scar_and_leaves_no_entry_out() {
    let at = at("2025-05-13T16:00:00-06:00");
    let record = by_then(&harrow_vale_entries(), at);
    let review = live::review(&record, "S-2", at);
    expect![[r#"
        12 May 2025 12:20 R. Quill 917534f6 Remark | The sand is twice as thick as B-14 has it: 10 ft instead of  | late: noted 12 May 2025 17:35, 5 h 15 min after it was seen
        07:20 R. Quill 20ddabc1 Cage checked | bars (count 16, size #10, length 59 ft, grade 60); hoops (so | late: noted 09:30, 2 h 10 min after it was seen
        11:12 R. Quill fe4d421b Load arrived | ticket 30413; truck 11; plant Tollgate; mix DS-4000; volume  | struck by R. Quill, 11:29: typed 60, the ticket says 6.0
        11:12 R. Quill e4656c79 Load arrived | ticket 30413; truck 11; plant Tollgate; mix DS-4000; volume  | replaces fe4d421b: typed 60, the ticket says 6.0
        11:21 R. Quill ae5c3837 Concrete sounded | 26.4 ft center, 26.5 ft outside; after load 30412 | struck by R. Quill, 11:24: read the tape ten feet wrong; sounded again, 36.4 both times
        11:21 R. Quill 7abc3f0e Concrete sounded | 36.4 ft center, 36.5 ft outside; after load 30412 | replaces ae5c3837: read the tape ten feet wrong; sounded again, 36.4 both times
        12:12 R. Quill 7037b89d Interruption of the pour | until 12:58; reason load refused, waiting for the next | late: noted 12:59, 47 min after it was seen
        12:13 R. Quill 8b4d0090 Concrete sounded | 15.4 ft center, 15.5 ft outside; after load 30414 | struck by R. Quill, 12:33: sounded again from the paint mark
        12:24 R. Quill eacaf877 Correction | corrects 12:13 Concrete sounded (8b4d0090): 14.7 ft center;  | struck by R. Quill and D. Pike, 12:40: sounded a third time together from the paint mark: 14.4; Pike's tape has a kink at 10 ft; replaces 8b4d0090: tape read from the flange instead of the paint mark; 14.7 by my tape
        12:26 R. Quill e85178c1 Concrete sounded | 14.4 ft center, 14.4 ft outside; after load 30414 | replaces 8b4d0090: sounded again from the paint mark
        12:55 R. Quill 49d5281a Concrete test | ticket 30416; slump 7 in; temperature 72 F; cylinders S2-B;  | disputed: two or more corrections of 49d5281a and no decision yet
        12:55 R. Quill c18fd065 Concrete test | ticket 30416; slump 6 1/4 in; temperature 72 F; cylinders S2 | disputed: two or more corrections of 49d5281a and no decision yet; replaces 49d5281a: the tester's sheet says 6 1/4 in
        12:55 R. Quill da5bb16a Concrete test | ticket 30416; slump 7 1/2 in; temperature 72 F; cylinders S2 | disputed: two or more corrections of 49d5281a and no decision yet; replaces 49d5281a: I stood beside the cone: it was 7 1/2 in
    "#]].assert_eq(&review.rows.iter().filter_map(scar).collect::<String>());
    let ours = record.entries().filter(|held| held.shaft().is_none_or(|shaft| shaft == "S-2"));
    for entry in ours {
        assert!(review.rows.iter().any(|row| row.id == entry.id().to_string()), "{:?}", entry.id());
    }
}

#[test]
fn an_entry_dated_ahead_stands_in_the_review_and_in_no_figure() {
    let at = at("2025-05-13T10:33:00-06:00");
    let record = Record::of(harrow_vale_entries()).expect("one job");
    let review = live::review(&record, "S-2", at);
    let ahead = review.rows.iter().filter(|row| row.ahead).count();
    assert!(ahead > 80, "{ahead}");
    assert!(review.record.iter().any(|card| card.id == "dated_ahead"));
    let figures = |record: &Record| live::shaft(record, "S-2", at).figures;
    assert_eq!(figures(&record), figures(&by_then(&harrow_vale_entries(), at)));
}

#[test]
fn the_sheet_holds_every_log_and_the_digest_that_verify_prints() {
    let at = at("2025-05-22T17:00:00-06:00");
    let record = by_then(&harrow_vale_entries(), at);
    let sheet = live::sheet(&record, "S-2", at);
    let digest: String = wire::digest(&record).iter().map(|byte| format!("{byte:02x}")).collect();
    assert_eq!(sheet.digest, digest);
    let ours = record.entries().filter(|held| held.shaft().is_none_or(|shaft| shaft == "S-2"));
    let rows: Vec<&str> = sheet.days.iter().flat_map(|day| &day.rows).map(|row| row.id.as_str()).collect();
    for entry in ours {
        assert!(rows.contains(&entry.id().to_string().as_str()), "{:?}", entry.id());
    }
    let days: String = sheet.days.iter().map(|day| format!("{} {}\n", day.name, day.rows.len())).collect();
    let drawings: Vec<&str> = sheet.drawings.iter().map(|drawing| drawing.word).collect();
    expect![[r#"
        22 May 2025, 17:00
        7 findings fail; each was answered. 2 could not be judged. 1 dispute is open.
        Shaft S-2 · Harrow Vale, Route 19 signs and signals · 22 May 2025, 17:00 · 0e35a039f99571e650d59a8a932f1cc193e07238f340046a35a2664621e02fd8
        day section curve profile base cage slump fluid position
        28 Apr 2025 23
        12 May 2025 57
        13 May 2025 103
        14 May 2025 7
        20 May 2025 4
        21 May 2025 2
        22 May 2025 3
    "#]]
    .assert_eq(&format!(
        "{}\n{}\n{}\n{}\n{days}",
        sheet.moment,
        sheet.verdict,
        sheet.foot,
        drawings.join(" ")
    ));
}

#[test]
fn what_called_once_does_not_call_again_until_it_gets_worse() {
    let entries = harrow_vale_entries();
    let look = |moment: &str| live::shaft(&by_then(&entries, at(moment)), "S-2", at(moment));
    let mut known: Vec<String> = Vec::new();
    let mut told = String::new();
    for minute in
        ["10:47", "11:05", "11:20", "11:31", "11:50", "11:59", "12:05", "12:30", "12:55", "13:36", "13:50"]
    {
        let screen = look(&format!("2025-05-13T{minute}:00-06:00"));
        for new in live::newly(&known, &screen) {
            told += &format!("{minute} {} {}\n", new.haste.word(), new.title);
        }
        known = screen.attention.into_iter().map(|one| one.id).collect();
    }
    expect![[r#"
        11:20 now Slump when placed, as approved for mix DS-4000, load 30413
        11:31 now Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft)
        11:31 soon Interval against the shaft's own running ratio, from 50.1 ft to 61.0 ft deep (+5159.2 ft to +5148.2 ft)
        11:50 now Interval against the shaft's own running ratio, from 26.5 ft to 36.5 ft deep (+5182.8 ft to +5172.8 ft)
        11:59 now Embedment of tremie
        11:59 now Line never jerked to speed the discharge
        13:36 soon Interval against the shaft's own running ratio, from 2.9 ft to 14.4 ft deep (+5206.3 ft to +5194.8 ft)
        13:36 soon Slump life of load 30413
        13:50 now Head in surface at the next lift
        13:50 now Slump life of load 30413
    "#]]
    .assert_eq(&told);
}

#[test]
fn two_devices_under_one_number_call_on_every_screen() {
    let entries = harrow_vale_entries();
    let moment = at("2025-05-12T11:10:00-06:00");
    let copied =
        entries.iter().filter(|held| matches!(held, Held::Known(entry) if entry.observed_at <= moment));
    let mut all: Vec<Held> = copied.cloned().collect();
    let Some(Held::Known(last)) = all.last().cloned() else { panic!("an entry") };
    let key = wire::Key::of_secret([7; 32]);
    let before = last.prev.map(|prev| (last.seq - 1, prev));
    let mut pen = wire::Pen::new(&key, "harrow-vale", "R. Quill", before);
    let times = wire::Times { observed_at: moment, noted_at: None, entered_at: moment };
    all.push(Held::Known(pen.write(
        Some("S-2"),
        times,
        testkit::body("remark", &[("text", "from the copy")]),
    )));
    let screen = live::shaft(&Record::of(all).expect("one job"), "S-2", moment);
    let calls: Vec<&str> =
        screen.attention.iter().filter(|one| one.calls).map(|one| one.title.as_str()).collect();
    expect![[r#"
        The device “office” wrote 2 different entries under one number, 149.
        Next fluid test"#]]
    .assert_eq(&calls.join("\n"));
}

/// What to order for the whole shaft stands on the list before concrete, and no longer once concrete has come.
#[test]
fn the_list_before_concrete_tells_the_order_until_concrete_comes() {
    let ahead = |clock: &str| {
        let at = at(&format!("2025-05-13T{clock}:00-06:00"));
        let record = by_then(&harrow_vale_entries(), at);
        live::readiness(&record, "S-2", at, Before::Concrete).ahead
    };
    let before = ahead("07:00");
    assert!(before[0].contains("it will probably take"), "{before:?}");
    assert!(before[1].contains("after the first batch"), "{before:?}");
    assert_eq!(ahead("11:50"), Vec::<String>::new());
}
