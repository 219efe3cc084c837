//! A day in words: the log, the tables, the findings, the forecasts and the figures that people read.

mod support;

use assess::Assessment;
use criteria::{Change, Override, Set, SetInForce};
use expect_test::{Expect, expect};
use record::{Log, Record};
use support::day::day;
use support::{at, printed};
use wording::Show;

/// What a test looks at, at a time of the day.
struct Look<'l, 'r> {
    log: &'l Log<'r>,
    assessment: &'l Assessment<'r>,
    show: &'l Show,
}

#[track_caller]
fn look(clock: &str, told: impl Fn(Look<'_, '_>) -> String, expected: Expect) {
    let (in_force, refused) =
        Set::shipped("roadside-common-practice-1").expect("shipped").in_force(&[Override {
            criterion: "roadside/sediment-max".to_owned(),
            change: Change::Limit { value: "1.25".to_owned(), unit: "in".to_owned() },
            reason: "special provision 7".to_owned(),
            who: "A. Reed".to_owned(),
        }]);
    assert!(refused.is_empty());
    look_by(&in_force, clock, told, expected);
}

/// By the FHWA style set: most of its limits are from memory.
#[track_caller]
fn look_fhwa(clock: &str, told: impl Fn(Look<'_, '_>) -> String, expected: Expect) {
    let (in_force, _) = Set::shipped("fhwa-aashto-style-1").expect("shipped").in_force(&[]);
    look_by(&in_force, clock, told, expected);
}

#[track_caller]
fn look_by(set: &SetInForce, clock: &str, told: impl Fn(Look<'_, '_>) -> String, expected: Expect) {
    let record: Record = day().site.record();
    let log = Log::of(&record, Some("S-1"), Some(at(clock)));
    let assessment = assess::assess(&log, set, at(clock));
    let show = Show::of_log(&log);
    expected.assert_eq(&told(Look { log: &log, assessment: &assessment, show: &show }));
}

fn tables(wanted: &[&str], look: &Look<'_, '_>) -> String {
    let all = wording::tables(look.log, look.assessment, look.show);
    let some = all.iter().filter(|table| wanted.contains(&table.id));
    some.map(printed).collect::<Vec<_>>().join("\n\n")
}

#[test]
fn the_log_as_lines() {
    let told = |look: Look<'_, '_>| {
        let line = |line| wording::entry_line(line, look.log, Some(&look.assessment.picture), look.show);
        look.log.lines.iter().map(line).collect::<Vec<_>>().join("\n")
    };
    look(
        "11:00",
        told,
        expect![[r#"
            06:30  Job opened  Mill Creek signs; time zone America/Denver; units US units; lengths feet and tenths
            06:31  Mix approved  mix C-40; strength 4000 psi; slump at least until all is in 5 in; w/cm at most 0.42; aggregate 3/4 in; discharge within 90 min; trial (age 0 min, slump 8.5 in), (age 120 min, slump 6 in), (age 240 min, slump 3 in)
            06:35  Shaft planned  structure sign; ground 100.0 ft; top 100.0 ft; tip 80.0 ft; method wet; bore (diameter 36 in); over-pour 1 ft; mix C-40
            06:36  Cage planned  length 19 ft; diameter 30 in; bars (count 8, size #8); hoops (sort hoops, size #4, spacing 6 in)
            07:00  Reference set  top of casing; elevation 101.0 ft
            07:05  Casing set  surface casing; stay temporary; outside 42 in; wall 1/2 in; length 7 ft; top 101.0 ft
            07:20  Tool run  out 07:40; tool auger; from 1.0 ft; to 10.0 ft; ground clay (+91.0 ft)
            07:44  Fluid introduced  product Polymer A; fluid polymer
            07:45  Tool run  out 08:10; tool auger; from 10.0 ft; to 21 ft; ground sand; wet below 15 ft (+80.0 ft) [late: entered 09:30, 1 h 45 min after it was seen]
            08:15  Fluid test  hole; depth 20.0 ft; stage before concrete; density 64.3 pcf; funnel time 48 s/qt; sand 0.5 %
            08:16  Fluid level  depth 2.0 ft (+99.0 ft)
            08:20  Bottom reached  depth 21.0 ft (+80.0 ft)
            08:25  Cleaning  method clean-out bucket
            08:40  Bottom sounded  purpose after cleaning; 21.0 ft center, 21.1 ft north (+80.0 ft)
            08:42  Sediment measured  1/2 in center, 1 1/2 in north
            08:45  Bottom accepted  by R. Vale
            08:50  Cage checked  bars (count 8, size #8); tied 100 %
            09:05  Cage set  top 100.1 ft; held hung from the casing
            09:20  Line made up  tremie; line tremie; inside 8 in; pieces (length 5 ft, count 4); tip 20.6 ft; watertight yes
            09:25  Load arrived  ticket 4411; mix C-40; volume 3.0 yd³; batched 08:35; ticket checked yes
            09:28  Concrete test  ticket 4411; slump 8 in; temperature 72 °F
            09:31  Discharge started  ticket 4411
            09:40  Discharge ended  ticket 4411
            09:45  Concrete sounded  9.6 ft center; after load 4411 (+91.4 ft)
            09:50  Pieces removed  tremie; count 1
            09:55  Load arrived  ticket 4412; mix C-40; volume 2.0 yd³; batched 09:10; ticket checked yes
            10:00  Discharge started  ticket 4412
            10:08  Discharge ended  ticket 4412
            10:12  Concrete sounded  6.2 ft center; after load 4412 [struck through by R. Vale, 10:20: read the tape at the wrong mark]
            10:12  Concrete sounded  2.6 ft center; after load 4412 (+98.4 ft) [replaces e4c528b2: read the tape at the wrong mark]
            10:30  Casing lifted  surface casing; shoe 4.0 ft; level before 2.6 ft; level after 4.5 ft; cage rise 1/4 in
            10:36  Load arrived  ticket 4413; mix C-40; volume 1.5 yd³; batched 09:40; ticket checked yes"#]],
    );
}

#[test]
fn the_tables_of_the_hole() {
    let wanted = [
        "shaft_planned",
        "casing",
        "excavation",
        "fluid_tests",
        "fluid_levels",
        "bottom_soundings",
        "sediment",
    ];
    look(
        "11:00",
        |look| tables(&wanted, &look),
        expect![[r#"
            == Shaft planned
            Item | As written
            Entered | 06:35, R. Vale
            Structure | sign
            Structure name | –
            Station | –
            Northing | –
            Easting | –
            Rake | –
            Rake toward | –
            Ground | 100.0 ft
            Top | 100.0 ft
            Cut-off | –
            Tip | 80.0 ft
            Groundwater | –
            Open water | –
            Method | wet
            Dry allowed | –
            Bore 1 | diameter 36 in
            Bell | –
            Over-pour | 1 ft
            Volume | –
            End bearing | –
            Mix | C-40
            Fluid | –
            Deduct steel | –

            == Casing
            Time | What | Name | Stay | Outside in | Wall in | Length ft | Top elevation ft | Shoe depth ft | Shoe elevation ft | Plumb | Entered by
            07:05 | Casing set | surface casing | temporary | 42 | 1/2 | 7 | 101.0 | – | – | – | R. Vale

            == Excavation
            In | Out | Tool | Diameter in | From ft | To ft | Elevation ft | Ground | Material | Note | Entered by
            07:20 | 07:40 | auger | – | 1.0 | 10.0 | +91.0 | clay | – | – | R. Vale
            07:45 | 08:10 | auger | – | 10.0 | 21 | +80.0 | sand | – | wet below 15 ft | R. Vale
                [late: entered 09:30, 1 h 45 min after it was seen]

            == Fluid levels
            Time | Depth ft | Fluid elevation ft | Groundwater ft | Groundwater elevation ft | Entered by
            08:16 | 2.0 | +99.0 | – | – | R. Vale

            == Fluid tests
            Time | Place | Depth ft | Stage | Temperature °F | Density pcf | Funnel time s/qt | pH | Sand % | By
            08:15 | hole | 20.0 | before concrete | – | 64.3 | 48 | – | 0.5 | –

            == Soundings of the bottom
            Time | Purpose | Place | Depth ft | Elevation ft | Tape correction ft | Feel of the bottom | Entered by
            08:40 | after cleaning | center | 21.0 | +80.0 | – | – | R. Vale
            08:40 | after cleaning | north | 21.1 | +79.9 | – | – | R. Vale

            == Sediment on the bottom
            Time | Place | Thickness in | Method | Entered by
            08:42 | center | 1/2 | – | R. Vale
            08:42 | north | 1 1/2 | – | R. Vale"#]],
    );
}

#[test]
fn the_tables_of_the_pour() {
    let wanted = [
        "line_made_up",
        "line_moves",
        "loads",
        "concrete_soundings",
        "volumes",
        "casing_lifts",
        "corrections",
    ];
    look(
        "11:00",
        |look| tables(&wanted, &look),
        expect![[r#"
            == Line made up: tremie
            Item | As written
            Entered | 09:20, R. Vale
            Name | tremie
            Line | tremie
            Inside | 8 in
            Outside | –
            Pieces 1 | length 5 ft, count 4
            Tip | 20.6 ft
            Tip off bottom | –
            Watertight | yes
            Material | –
            Clean | –
            Centered | –
            Plug | –
            Hopper | –
            Line volume | –

            == Moves of the line
            Time | What | Name | Count | Tip depth ft | Tip elevation ft | Embedment ft | Slowly | Note | Entered by
            09:50 | Pieces removed | tremie | 1 | – | – | 6.0 ± 0.1 | – | – | R. Vale

            == Loads of concrete
            Ticket | Truck | Mix | Volume yd³ | Batched | Arrived | Start | End | Slump | Air | Temperature | Water added | w/cm | State | Further
            4411 | – | C-40 | 3.0 | 08:35 | 09:25 | 09:31 | 09:40 | 8 in | – | 72 °F | – | – | placed | ticket checked yes
            4412 | – | C-40 | 2.0 | 09:10 | 09:55 | 10:00 | 10:08 | – | – | – | – | – | placed | ticket checked yes
            4413 | – | C-40 | 1.5 | 09:40 | 10:36 | – | – | – | – | – | – | – | waiting | ticket checked yes

            == Soundings of the concrete
            Time | After load | Share % | Place | Depth ft | Elevation ft | Elevation as written ft | Entered by
            09:45 | 4411 | – | center | 9.6 | +91.4 | – | R. Vale
            10:12 | 4412 | – | center | 6.2 | +94.8 | – | R. Vale
                [struck through by R. Vale, 10:20: read the tape at the wrong mark]
            10:12 | 4412 | – | center | 2.6 | +98.4 | – | R. Vale
                [replaces e4c528b2: read the tape at the wrong mark]

            == Volumes
            Time | Loads | Elevation ft | Rise ft | Theoretical yd³ | Placed yd³ | Ratio | Others | Diameter in | Theoretical in all yd³ | Placed in all yd³ | Ratio in all
            09:45 | 4411 | +91.4 | 11.5 | 3.00 | 2.96 | 0.99 ± 0.02 | 0.94 | 36 | 3.00 | 2.96 | 0.99 ± 0.02
            10:12 | 4412 | +98.4 | 7.0 | 2.17 | 2.04 | 0.94 ± 0.02 | 0.99 | 38 | 5.17 | 5.00 | 0.97 ± 0.01
                [replaces e4c528b2: read the tape at the wrong mark]

            == Lifts of the casing
            Time | Name | Shoe depth ft | Shoe elevation ft | Before ft | After ft | Expected elevation ft | Measured elevation ft | Over the shoe ft | Unexplained yd³ | Added yd³ | Cage rise in | Entered by
            10:30 | surface casing | 4.0 | +97.0 | 2.6 | 4.5 | +98.3 | +96.5 | -0.5 | 0.60 ± 0.05 | – | 1/4 | R. Vale

            == Corrections
            Corrected at | By | Entry | Was | Is | Observed | Why
            10:20 | R. Vale | 10:12 Concrete sounded (e4c528b2) | 6.2 ft center; after load 4412 | Concrete sounded: 2.6 ft center; after load 4412 | – | read the tape at the wrong mark"#]],
    );
}

#[test]
fn the_findings() {
    let told = |look: Look<'_, '_>| {
        let judged = look.assessment.findings.iter().filter(|one| one.criterion.is_some());
        let all = judged.map(|one| wording::finding(one, look.log, look.show));
        all.map(|one| format!("{}: {}", one.verdict, one.sentence)).collect::<Vec<_>>().join("\n")
    };
    look(
        "11:00",
        told,
        expect![[r#"
            fails: Fluid before drilling passes the surface casing: no. Required: “Fluid stood in the hole before drilling passed the bottom of the surface casing”. Common practice, no source.
            fails: Sediment at the worst point: 1.5 in; the limit is 1.25 in at most. 0.25 in over. Changed for this job to 1.25 in at most by A. Reed: special provision 7. Before: 1 in at most (common practice, no source).
            fails: Fluid sampled and tested at the time of concreting: no. Required: “The fluid was sampled and tested between final cleaning and the first concrete”. Common practice, no source.
            fails: Interval against the shaft's own running ratio, from 9.6 ft to 21.1 ft deep (+91.4 ft to +80.0 ft): 5.1 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.99 times its nominal bore, the rest of the shaft 0.94: more. 0.1 points over. Common practice, no source.
            not measured: First feet dug by hand: not measured; the limit is 4 ft at least. To settle it, enter “Utilities cleared” (hand dug). Common practice, no source.
            not measured: Cage not shorter than the plans: not measured; the limit is 0 in at most. To settle it, enter “Cage checked” (length). Common practice, no source.
            not measured: Fluid within its limits at the time of concreting: not measured. To settle it, enter “Fluid test” (density, funnel time, pH and sand). Common practice, no source.
            not measured: Line never jerked to speed the discharge: not measured. To settle it, enter “Tip moved” (slowly). Common practice, no source.
            not measured: Water-cement ratio, as approved for mix C-40, load 4411: not measured; the limit is 0.42 at most. To settle it, enter “Load arrived” (water, moisture and cementitious).
            not measured: Water-cement ratio, as approved for mix C-40, load 4412: not measured; the limit is 0.42 at most. To settle it, enter “Load arrived” (water, moisture and cementitious).
            not measured: Water-cement ratio, as approved for mix C-40, load 4413: not measured; the limit is 0.42 at most. To settle it, enter “Load arrived” (water, moisture and cementitious).
            meets: Surface casing above ground: 1 ft; the limit is 1 ft at least. On the limit. Common practice, no source.
            meets: Surface casing below ground: 6 ft; the limit is 5 ft at least. 1 ft to spare. Common practice, no source.
            meets: Reference elevation known: yes, as required. Common practice, no source.
            meets: No dry method unless the plans say so: yes, as required. Common practice, no source.
            meets: Depth checks from a reference of known elevation: yes, as required. Common practice, no source.
            meets: Every intersection of cage steel tied: 100 %; the limit is 100 % at least. On the limit. Common practice, no source.
            meets: Depth of the bottom sounded and recorded: yes, as required. Common practice, no source.
            meets: Bottom at the required tip or deeper: 0 ft; the limit is 0 ft at most. On the limit. Common practice, no source.
            meets: Sediment measured and recorded: yes, as required. Common practice, no source.
            meets: Tremie or pump line watertight: yes, as required. Common practice, no source.
            meets: Discharge end never out of the concrete: no, as required. Common practice, no source.
            meets: Discharge end near the bottom at the start: 5.4 in; the limit is 6 in at most. 0.6 in to spare. Common practice, no source.
            meets: Concrete placed before the discharge end is raised: 11.5 ft; the limit is 10 ft at least. 1.5 ft to spare. Common practice, no source.
            meets: Ticket checked: mix, load 4411: yes, as required. Common practice, no source.
            meets: Ticket checked: mix, load 4412: yes, as required. Common practice, no source.
            meets: Ticket checked: mix, load 4413: yes, as required. Common practice, no source.
            meets: Ticket checked: water-cement ratio, load 4411: yes, as required. Common practice, no source.
            meets: Ticket checked: water-cement ratio, load 4412: yes, as required. Common practice, no source.
            meets: Ticket checked: water-cement ratio, load 4413: yes, as required. Common practice, no source.
            meets: Ticket checked: revolutions, load 4411: yes, as required. Common practice, no source.
            meets: Ticket checked: revolutions, load 4412: yes, as required. Common practice, no source.
            meets: Ticket checked: revolutions, load 4413: yes, as required. Common practice, no source.
            meets: Ticket checked: batch time, load 4411: yes, as required. Common practice, no source.
            meets: Ticket checked: batch time, load 4412: yes, as required. Common practice, no source.
            meets: Ticket checked: batch time, load 4413: yes, as required. Common practice, no source.
            meets: Concrete only after cage and bottom are accepted: yes, as required. Common practice, no source.
            meets: Depth to concrete after each load, load 4411: yes, as required. Common practice, no source.
            meets: Depth to concrete after each load, load 4412: yes, as required. Common practice, no source.
            meets: Actual volume curve against theoretical: yes, as required. Common practice, no source.
            meets: Batching to the end of discharge, as approved for mix C-40, load 4411: 65 min; the limit is 90 min at most. 25 min to spare.
            meets: Batching to the end of discharge, as approved for mix C-40, load 4412: 58 min; the limit is 90 min at most. 32 min to spare.
            no limit set: Concrete as soon as cage and bottom are accepted: 26 min; the criterion asks for the value and names no limit. Common practice, no source."#]],
    );
}

#[test]
fn every_part_of_a_finding() {
    let told = |look: Look<'_, '_>| {
        let finding = look.assessment.findings.iter().find(|one| one.fact.name == "bottom.sediment.max");
        format!("{:#?}", wording::finding(finding.expect("sediment was measured"), look.log, look.show))
    };
    look(
        "11:00",
        told,
        expect![[r#"
            FindingText {
                outcome: "fails",
                verdict: "fails",
                heading: "Sediment at the worst point",
                sentence: "Sediment at the worst point: 1.5 in; the limit is 1.25 in at most. 0.25 in over. Changed for this job to 1.25 in at most by A. Reed: special provision 7. Before: 1 in at most (common practice, no source).",
                value: "1.5 in",
                made_of: "",
                limit: "1.25 in at most",
                margin: "0.25 in over",
                subject: "",
                stage: "Before concrete",
                criterion: "roadside/sediment-max",
                source: "set for this job",
                sure_note: "Changed for this job to 1.25 in at most by A. Reed: special provision 7. Before: 1 in at most (common practice, no source).",
                holds: true,
                evidence: [
                    "08:42 Sediment measured (0bec5343)",
                ],
                dispositions: [],
                why: "Loose material under the toe is a cushion that settles under load, and it rides up into the concrete.",
                if_fails: "Usually: the bottom is cleaned again, sounded again and accepted again.",
            }"#]],
    );
}

#[test]
fn findings_by_limits_from_memory() {
    let told = |look: Look<'_, '_>| {
        let judged = look.assessment.findings.iter().filter(|one| one.criterion.is_some());
        let all = judged.map(|one| wording::finding(one, look.log, look.show));
        all.map(|one| format!("{}: {}", one.verdict, one.sentence)).collect::<Vec<_>>().join("\n")
    };
    look_fhwa(
        "11:00",
        told,
        expect![[r#"
            fails: Fluid passed in the tank before use: no. Required: “Fluid from the tank was tested and met its limits before it entered the hole”.
            fails: Fluid tested just before concrete: no. Required: “The fluid was sampled and tested between final cleaning and the first concrete”.
            fails: Points of the bottom sounding: 2 points; the limit is 5 points at least. 3 points under. From memory: verify before use.
            fails: Sediment over half of the base: 0.5 in; the limit is less than 1/2 in. On the limit, which does not meet. From memory: verify before use.
            fails: Inner diameter of a gravity tremie: 8 in; the limit is 10 in at least. 2 in under.
            fails: Embedment of the discharge end: 6 ft; the limit is 10 ft at least. 4 ft under.
            fails: Interval against the shaft's own running ratio, from 9.6 ft to 21.1 ft deep (+91.4 ft to +80.0 ft): 5.1 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.99 times its nominal bore, the rest of the shaft 0.94: more. 0.1 points over. Common practice, no source.
            cannot say: Tests per shift of recirculated fluid: 1 test; whether that meets cannot be said. The record does not say whether the fluid is recirculated. To settle it, enter “Fluid introduced” (recirculated).
            cannot say: Polymer fluid density before concrete, fresh water, reading of 08:15: 64.3 pcf; whether that meets cannot be said. The record does not say whether the water is fresh or salt. To settle it, enter “Fluid approved” (water). From memory: verify before use.
            cannot say: Polymer fluid density before concrete, salt water, reading of 08:15: 64.3 pcf; whether that meets cannot be said. The record does not say whether the water is fresh or salt. To settle it, enter “Fluid approved” (water). From memory: verify before use.
            cannot say: Concrete above the casing shoe, lift 1: -0.5 ft; whether that meets cannot be said. The limit hangs on the head that balances water and fluid outside, which the record does not hold. To settle it, enter “Fluid level” (depth and groundwater).
            not measured: Trial hole for polymer fluid: not measured. To settle it, enter “Fluid approved” (trial hole).
            not measured: Polymer fluid above groundwater: not measured; the limit is 10 ft at least. To settle it, enter “Fluid level” (depth and groundwater). From memory: verify before use.
            not measured: Polymer fluid pH before concrete, reading of 08:15: not measured; the limits are 8 to 11.5. To settle it, enter “Fluid test” (stage and pH). From memory: verify before use.
            not measured: Fluid within its limits before concrete: not measured. To settle it, enter “Fluid test” (density, funnel time, pH and sand).
            not measured: Spacers along the cage: not measured; the limit is 5 ft at most. To settle it, enter “Cage checked” (spacer levels every). From memory: verify before use.
            not measured: Spacers at each level: not measured; the limit is 3 spacers at least. To settle it, enter “Cage checked” (spacers per level). From memory: verify before use.
            not measured: Line smooth, clean, no aluminum: not measured. To settle it, enter “Line made up” (material and clean).
            not measured: Concrete kept apart until the line is charged: not measured. To settle it, enter “Line made up” (plug).
            not measured: Slump under fluid or water, load 4412: not measured; the limits are 7 to 9 in. To settle it, enter “Concrete test” (slump).
            not measured: Water-cement ratio, load 4411: not measured; the limit is 0.44 at most. To settle it, enter “Load arrived” (water, moisture and cementitious).
            not measured: Water-cement ratio, load 4412: not measured; the limit is 0.44 at most. To settle it, enter “Load arrived” (water, moisture and cementitious).
            not measured: Water-cement ratio, load 4413: not measured; the limit is 0.44 at most. To settle it, enter “Load arrived” (water, moisture and cementitious).
            not measured: Drum revolutions, load 4411: not measured; the limit is 300 rev at most. To settle it, enter “Discharge ended” (revolutions).
            not measured: Drum revolutions, load 4412: not measured; the limit is 300 rev at most. To settle it, enter “Discharge ended” (revolutions).
            not measured: Water-cement ratio, as approved for mix C-40, load 4411: not measured; the limit is 0.42 at most. To settle it, enter “Load arrived” (water, moisture and cementitious).
            not measured: Water-cement ratio, as approved for mix C-40, load 4412: not measured; the limit is 0.42 at most. To settle it, enter “Load arrived” (water, moisture and cementitious).
            not measured: Water-cement ratio, as approved for mix C-40, load 4413: not measured; the limit is 0.42 at most. To settle it, enter “Load arrived” (water, moisture and cementitious).
            not measured: Casing pulled slowly and in line: not measured. To settle it, enter “Casing lifted” (steadily).
            meets: Not left unfilled overnight unless cased: yes, as required.
            meets: Sudden loss of fluid: no, as required.
            meets: Time between tests until the fluid is steady: 1.3 h; the limit is 2 h at most. 0.7 h to spare.
            meets: Polymer fluid viscosity before concrete, reading of 08:15: 48 s/qt; the limits are 32 to 135 s/qt. 16 s/qt to spare. From memory: verify before use.
            meets: Polymer fluid sand content before concrete, reading of 08:15: 0.5 %; the limit is 1.0 % at most. 0.5 points to spare. From memory: verify before use.
            meets: Final depth by weighted tape: yes, as required.
            meets: Sediment at the worst point: 1.5 in; the limit is 1 1/2 in at most. On the limit. From memory: verify before use.
            meets: Level base: 0.4 in/ft; the limit is 3/4 in/ft at most. 0.35 in/ft to spare. From memory: verify before use.
            meets: Cover of a small shaft: 3 in; the limit is 3 in at least. On the limit. From memory: verify before use.
            meets: Clear distance between bars: 5.5 in; the limit is 5 in at least (the larger of 5 in and 5 times the aggregate size). 0.5 in to spare. From memory: verify before use.
            meets: Line watertight: yes, as required.
            meets: Tip within one tremie diameter of the base: 5.4 in; the limit is 8 in at most (the inner diameter of the tremie). 2.6 in to spare.
            meets: Enough concrete on site for the first charge: 3 yd³; the limit is 2.91 yd³ at least (the concrete needed for the first charge). 0.09 yd³ to spare. Common practice, no source.
            meets: No loss of seal: no, as required.
            meets: Depth to concrete after each load, load 4411: yes, as required.
            meets: Depth to concrete after each load, load 4412: yes, as required.
            meets: Slump under fluid or water, load 4411: 8 in; the limits are 7 to 9 in. 1 in to spare.
            meets: Temperature of the fresh concrete, load 4411: 72 °F; the limits are 50 to 90 °F. 18 °F to spare. From memory: verify before use.
            meets: Batch to end of discharge, load 4411: 65 min; the limit is 90 min at most. 25 min to spare.
            meets: Batch to end of discharge, load 4412: 58 min; the limit is 90 min at most. 32 min to spare.
            meets: Volume curve: yes, as required.
            no limit set: Time from the bottom to concrete: 1 h 11 min; the criterion asks for the value and names no limit. Common practice, no source.
            no limit set: Ratio of each interval, from 9.6 ft to 21.1 ft deep (+91.4 ft to +80.0 ft): 0.99; the criterion asks for the value and names no limit.
            no limit set: Ratio of each interval, from 2.6 ft to 9.6 ft deep (+98.4 ft to +91.4 ft): 0.94; the criterion asks for the value and names no limit."#]],
    );
}

fn forecasts(look: Look<'_, '_>) -> String {
    let all = look.assessment.forecasts.iter().map(|one| wording::forecast(one, look.log, look.show));
    all.map(|one| format!("{} ({})\n  {}\n  {}", one.heading, one.when, one.sentence, one.do_now))
        .collect::<Vec<_>>()
        .join("\n")
}

#[test]
fn the_forecasts_in_the_pour() {
    look(
        "10:14",
        forecasts,
        expect![[r#"
            Head in surface casing at the next lift (now)
              The concrete stands 0.8 ft over the shoe; no limit is set, 5.0 ft is watched. No lift until concrete is added.
              For a lift of 5.0 ft add 3.21 yd³ first; sound before and after every lift.
            Embedment of tremie (within half an hour, or with the next move)
              Embedment 9.4 ft ± 0.1; no limit is set, 5.0 ft is watched. Lift at most 4.4 ft; no piece may come off yet.
              Place and sound before the next piece: without it the embedment would be 4.4 ft, 0.6 ft short.
            Concrete still needed (within half an hour, or with the next move)
              Still needed from the last sounding: 2.65 yd³ ± 1.40; nothing is on site that has not gone in.
              Order 2.65 yd³ more, and ask the plant how soon; this counts the shaft's own ratio and the over-pour.
            Slump life of load 4411 (later)
              Load 4411 reaches the least slump at 11:39 ± 25 min (10:59 to 12:30 nine times in ten); 1 h 25 min left. Nobody entered when the work is to end.
              Have casing out and inserts in before then; test the slump again in good time.
            Gap since the last load (later)
              No concrete has gone in since 10:08, 6 min; no limit is set.
              Ask where the next truck is. If the pour stopped, enter “Interruption of the pour” with its reason."#]],
    );
}

#[test]
fn the_forecasts_before_the_pour() {
    look_fhwa(
        "09:27",
        forecasts,
        expect![[r#"
        Next fluid test (later)
          The next fluid test is due at 10:15; 48 min left.
          Take the samples near the bottom and at mid-height, and enter place and depth.
        Time limit of load 4411 (later)
          Time from batching to the end of discharge: the limit of load 4411 is reached at 10:05; 38 min left.
          Discharge load 4411 before then, or send it away."#]],
    );
}

#[test]
fn the_figures() {
    let told = |look: Look<'_, '_>| {
        let all = wording::figures(look.assessment, look.show);
        all.iter()
            .map(|one| format!("{}: {} [{}] {}", one.label, one.value, one.id, one.how))
            .collect::<Vec<_>>()
            .join("\n")
    };
    look(
        "11:00",
        told,
        expect![[r#"
            Theoretical volume: 5.17 yd³ ± 0.04 [volume.theoretical] Nominal bore from the sounded bottom to the last sounding, casings as they stood.
            Placed volume: 5.00 yd³ ± 0.06 [volume.placed] Discharged by tickets, less waste and what stands in the line, by the last sounding.
            Ratio in all: 0.97 ± 0.01 [volume.ratio] Placed over theoretical, with the error of tape and tickets.
            Discharged: 5.00 yd³ [volume.discharged] Ticket volumes of the loads that ended, less what was sent back; waste included.
            Wasted: 0.00 yd³ [volume.wasted] Entered as wasted, outside the truck.
            Least embedment of the line: 6.0 ft [line.embedment.least] Least embedment of the discharge end once it was embedded; negative when out of the concrete.
            Largest embedment of the line: 13.0 ft [line.embedment.most] Largest embedment of the discharge end in concrete.
            Sediment, worst point: 1 1/2 in [bottom.sediment.max] Thickness of sediment at the worst point.
            Sediment, mean over the base: 1 in [bottom.sediment.mean] Mean thickness of sediment over the area of the base.
            Longest gap between two loads: 20 min [placing.interruption] Longest time between two loads, end of discharge to start of the next.
            Slump life of load 4411: 3 h 4 min ± 25 min, until 11:39 [slump.life.4411] Age at which the trial of mix C-40, shifted by the tests of the day, reaches the least slump.
            Slump life of load 4412: 3 h 4 min ± 1 h 2 min, until 12:14 [slump.life.4412] Age at which the trial of mix C-40, shifted by the tests of the day, reaches the least slump.
            Longitudinal bars: 8 × #8 [cage.bars] As found on the cage, else as planned.
            Circle of the longitudinal bars: 28 in [cage.circle] Outside diameter less transverse bar and one longitudinal bar.
            Clear distance between longitudinal bars: 9 3/4 in [cage.clear_around] Chord along that circle less one bar.
            Clear distance between hoops: 5 1/2 in [cage.clear_along] Least spacing or pitch less one bar.
            Cover of a centered cage: 3 in [cage.cover] Half of nominal bore less cage.
            Drilled, 36 in in soil: 20.0 ft [payment.drilled] Sum of the tool runs, as depths below the planned top.
            Concrete delivered: 5.00 yd³ [payment.delivered] On the tickets, rejected loads too.
            Concrete rejected: 0.00 yd³ [payment.rejected] Loads that were refused as a whole.
            Concrete wasted or sent back: 0.00 yd³ [payment.wasted] Entered as wasted or sent back.
            Concrete placed: 5.00 yd³ [payment.placed] Delivered less rejected and wasted."#]],
    );
}

#[test]
fn the_lift() {
    let told = |look: Look<'_, '_>| {
        let lifts = look.assessment.reckoning.lifts.iter().enumerate();
        let texts = lifts.map(|(index, lift)| wording::lift(index + 1, lift, look.log, look.show));
        texts.map(|one| format!("{one:#?}")).collect::<Vec<_>>().join("\n")
    };
    look(
        "11:00",
        told,
        expect![[r#"
            LiftText {
                heading: "Lift 1 of surface casing, 10:30",
                sentence: "Shoe from +94.0 ft to +97.0 ft. The level fell 1.8 ft more than expected. 0.60 yd³ ± 0.05 went behind the casing that the drawing does not know: a void, or a wall washed out. The concrete stands 0.5 ft below the shoe. The cage rose 1/4 in.",
                unexplained: "0.60 yd³ ± 0.05 went behind the casing that the drawing does not know: a void, or a wall washed out.",
                do_now: "Sound again before the next lift and add concrete until the head is enough.",
                evidence: [
                    "10:30 Casing lifted (56e215d9)",
                ],
            }"#]],
    );
}
