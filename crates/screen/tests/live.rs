//! The two long days of S-2, looked at on its screen; each snapshot was read against the notes of the day.

#[path = "live/demo.rs"]
mod demo;

use demo::{at, by_then, harrow_vale_entries, told};
use expect_test::{Expect, expect};

/// The screen as it stood at that moment: nobody had written yet what came later.
#[track_caller]
fn check(moment: &str, expected: &Expect) {
    let at = at(moment);
    let record = by_then(&harrow_vale_entries(), at);
    expected.assert_eq(&told(&screen::live::shaft(&record, "S-2", at)));
}

#[test]
fn while_drilling_depth_and_fluid_are_big_and_a_test_is_soon_due() {
    check(
        "2025-05-12T11:10:00-06:00",
        &expect![[r#"
            11:10 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · drilling
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            Nothing that was measured fails.
            FIGURES
            * Depth reached: 31.0 ft below top of casing [no limit set] +5178.2 ft, 11:02
            * To the planned tip: 29.7 ft [no limit set] planned tip +5148.5 ft at 60.7 ft below top of casing
            * Depth to fluid: 5.1 ft below top of casing [no limit set] +5204.1 ft, 11:05; 8.9 ft above groundwater as expected
              Last fluid test: 1 h 50 min ago [meets] 65.2 pcf, 38 s/qt, sand 0.6 %, pH 9.1; at 8 ft; 09:20
              Ground met last: stiff, brown over gray [no limit set] from 9.6 ft, 09:42
              Casing out of plumb: 0.5 % [no limit set] 
            CLOCKS
              soon Next fluid test: 10 min 00 s left (11:20) 
            ATTENTION
              calls soon | Next fluid test | The next fluid test is due at 11:20; 10 min left. | Take the samples near the bottom and at mid-height, and enter place and depth.
            NEXT
              soon fluid_test: Take the samples near the bottom and at mid-height, and enter place and depth. 
              later tool_run: Enter each run of the tool: in, out, depth, ground. 
            FindingCounts { fails: 0, open: 0, cannot_say: 0, not_measured: 0, meets: 13, no_limit_set: 22 }
            0 unsettled, 0 questions, 2 doubts, 0 about the record; drawings: day section cage fluid
        "#]],
    );
}

#[test]
fn in_the_evening_the_bottom_is_sounded_and_not_yet_accepted() {
    check(
        "2025-05-12T16:50:00-06:00",
        &expect![[r#"
            16:50 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · bottom
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            Nothing that was measured fails. 2 could not be judged.
            FIGURES
            * Bottom: 60.9 ft below top of casing [meets] +5148.3 ft; mean of 5 points; 16:30
            * Sediment, worst point: not measured [not measured] 
              Below the planned tip: 0.2 ft [meets] planned tip +5148.5 ft
              Last fluid test: 1 h 45 min ago [meets] 68.4 pcf, 39 s/qt, sand 3.6 %, pH 9.0; at 45 ft; 15:05
              Depth to fluid: 2.9 ft below top of casing [no limit set] +5206.3 ft, 16:40; 11.1 ft above groundwater as expected
              Bottom accepted: not yet [no limit set] 
            CLOCKS
              soon Next fluid test: 15 min 00 s left (17:05) 
            ATTENTION
              calls soon | Next fluid test | The next fluid test is due at 17:05; 15 min left. | Take the samples near the bottom and at mid-height, and enter place and depth.
            NEXT
              soon fluid_test: Take the samples near the bottom and at mid-height, and enter place and depth. 
              later sediment_measured: Measure what lies on the bottom, at its center and around it. 
              later bottom_accepted: Have the bottom accepted, and enter by whom. 
            FindingCounts { fails: 0, open: 0, cannot_say: 0, not_measured: 2, meets: 25, no_limit_set: 36 }
            2 unsettled, 0 questions, 5 doubts, 0 about the record; drawings: day section cage fluid position
        "#]],
    );
}

#[test]
fn in_the_morning_a_hold_stands_and_the_sand_has_failed() {
    check(
        "2025-05-13T09:27:00-06:00",
        &expect![[r#"
            09:27 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · bottom
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            One finding fails; nobody has answered yet.
            FIGURES
            * Bottom: 61.0 ft below top of casing [meets] +5148.2 ft; mean of 5 points; 09:22
            * Sediment, worst point: 3/4 in [meets] mean 1/2 in, 09:26
              Below the planned tip: 0.3 ft [meets] planned tip +5148.5 ft
              Last fluid test: 12 min ago [meets] 66.0 pcf, 38 s/qt, sand 1.5 %, pH 8.9; at 60 ft; 09:15
              Depth to fluid: 3.9 ft below top of casing [no limit set] +5205.3 ft, 06:52; 10.1 ft above groundwater as expected
              Bottom accepted: not yet [no limit set] 
            CLOCKS
              later Next fluid test: 1 h 48 min left (11:15) 
            ATTENTION
              calls soon | Hold: concrete | sand 6 % at the bottom, installation plan allows 4 %. Placed 07:47 by R. Quill; nobody has released it. | Settle it, then enter “Hold released” with the name of the one who released it.
            NEXT
              soon hold_released (holds): Settle the hold “concrete”, then enter who released it. hold=concrete
              later bottom_accepted: Have the bottom accepted, and enter by whom. 
              later finding_disposed: Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45. criterion=job/fluid/Mirgolit-60/sand-before_concrete
            FindingCounts { fails: 1, open: 1, cannot_say: 0, not_measured: 0, meets: 36, no_limit_set: 53 }
            1 unsettled, 0 questions, 8 doubts, 1 about the record; drawings: day section base cage fluid position
        "#]],
    );
}

#[test]
fn after_the_first_load_the_figures_of_the_pour_are_there() {
    check(
        "2025-05-13T11:05:00-06:00",
        &expect![[r#"
            11:05 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · pour
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            One finding fails; nobody has answered yet.
            FIGURES
            * Depth to concrete: 50.1 ft ± 0.1 below top of casing [no limit set] +5159.1 ft; lowest of 2 points; 11:03
            * Embedment of tremie: 10.5 ft ± 0.1 [no limit set] no limit set; 5.0 ft is watched
            * Lift at most: 5.5 ft [no limit set] 1 piece may come off; 5.5 ft after the next piece
              This interval, load 30411: 1.09 ± 0.02 [no limit set] 5.57 yd³ placed, 5.09 yd³ theoretical
              In all: 1.09 ± 0.02 [no limit set] 5.57 yd³ placed, 5.09 yd³ theoretical
              Age of the oldest concrete, load 30411: 1 h 3 min [no limit set] workable until 13:59; slump 7 7/8 in ± 1/2 in by now
              Order for 95 %: 20.50 yd³ [no limit set] 4 loads, 2.10 left over
              Chance to end in time: 45 % with 5 trucks [no limit set] ends about 14:03 (13:40 to 14:31)
            CLOCKS
              later Gap since the last load: 4 min 00 s since then (11:01) no limit is set
              later Load 30412 to be in: 46 min 00 s left (11:51) 
              later Slump life of load 30411: 2 h 54 min left (13:59 ± 47 min) work planned until 13:23
            ATTENTION
              shows soon | Concrete still to order | Estimate from 1 sounding and 1 earlier shaft: still needed 24.43 yd³ (22.30–26.45), over-pour and lines included, 0.16 yd³ of it for the room that casing leaves; 6.00 yd³ is on site and not in. For 95 % order 20.50 yd³: 3 loads of 6.00 yd³ and one of 2.50 yd³; left over about 2.10 yd³. Instead 20.00 yd³ for 90 %, or 22.00 yd³ for 99 %. | Order 20.50 yd³ more, 3 loads of 6.00 yd³ and one of 2.50 yd³, and ask the plant how soon. Sound after the next load and look again.
            NEXT
              soon concrete_ordered: Order 20.50 yd³ more, 3 loads of 6.00 yd³ and one of 2.50 yd³, and ask the plant how soon. Sound after the next load and look again. 
              later discharge_started: Enter when load 30412 starts to discharge. ticket=30412
              later load_arrived: When the next truck comes: enter its ticket. 
              later concrete_sounded: Sound once within the next load. 
              later finding_disposed: Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45. criterion=job/fluid/Mirgolit-60/sand-before_concrete
            FindingCounts { fails: 1, open: 1, cannot_say: 0, not_measured: 0, meets: 73, no_limit_set: 83 }
            1 unsettled, 0 questions, 10 doubts, 0 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

#[test]
fn a_corrected_sounding_counts_and_a_stiff_load_goes_in() {
    check(
        "2025-05-13T11:31:00-06:00",
        &expect![[r#"
            11:31 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · pour
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            4 findings fail; nobody has answered yet.
            FIGURES
            * Depth to concrete: 36.5 ft ± 0.1 below top of casing [no limit set] +5172.7 ft; lowest of 2 points; 11:21
            * Embedment of tremie: 14.1 ft ± 0.1 [no limit set] no limit set; 5.0 ft is watched
            * Lift at most: 9.1 ft [no limit set] 1 piece may come off; 9.1 ft after the next piece
              This interval, load 30412: 0.97 ± 0.02 [fails] 6.13 yd³ placed, 6.33 yd³ theoretical; unlike the rest of the shaft
              In all: 1.02 ± 0.01 [no limit set] 11.69 yd³ placed, 11.42 yd³ theoretical
              Age of what stiffens first, load 30413: 52 min [no limit set] workable until 13:41; slump 7 1/8 in ± 3/8 in by now
              Order for 95 %: 13.50 yd³ [no limit set] 3 loads, 1.94 left over
              Chance to end in time: 30 % with 6 trucks [no limit set] ends about 13:57 (13:40 to 14:20)
            CLOCKS
              later Load 30413 going in: 1 min 00 s since then (11:30) 
              later Load 30413 to be in: 38 min 00 s left (12:09) 
              later Slump life of load 30413: 2 h 10 min left (13:41 ± 43 min) work planned until 13:23
            ATTENTION
              calls now | Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft) | 11.6 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.97 times its nominal bore, the rest of the shaft 1.09: less. 6.6 points over. Common practice, no source. | Usually: the next sounding is taken earlier; tape and ticket are checked; depth and size are recorded.
              shows soon | Concrete still to order | Estimate from 2 soundings and 1 earlier shaft: still needed 17.59 yd³ (15.94–19.19), over-pour and lines included, 0.16 yd³ of it for the room that casing leaves; 6.00 yd³ is on site and not in. For 95 % order 13.50 yd³: 2 loads of 6.00 yd³ and one of 1.50 yd³; left over about 1.94 yd³. Instead 13.00 yd³ for 90 %, or 14.50 yd³ for 99 %. | Order 13.50 yd³ more, 2 loads of 6.00 yd³ and one of 1.50 yd³, and ask the plant how soon. Sound after the next load and look again.
              calls soon | Interval against the shaft's own running ratio, from 50.1 ft to 61.0 ft deep (+5159.2 ft to +5148.2 ft) | 13.1 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.09 times its nominal bore, the rest of the shaft 0.97: more. 8.1 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
            NEXT
              soon discharge_ended: Enter when load 30413 is in. ticket=30413
              soon concrete_ordered: Order 13.50 yd³ more, 2 loads of 6.00 yd³ and one of 1.50 yd³, and ask the plant how soon. Sound after the next load and look again. 
              later load_arrived: When the next truck comes: enter its ticket. 
              later concrete_sounded: Sound once within the next load. 
              later finding_disposed: Usually: the next sounding is taken earlier; tape and ticket are checked; depth and size are recorded. criterion=roadside/volume-departure
              later finding_disposed: Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45. criterion=job/fluid/Mirgolit-60/sand-before_concrete
              later finding_disposed: Have it decided: Slump when placed, as approved for mix DS-4000, load 30413. criterion=job/mix/DS-4000/slump
            FindingCounts { fails: 4, open: 4, cannot_say: 0, not_measured: 0, meets: 87, no_limit_set: 91 }
            4 unsettled, 0 questions, 10 doubts, 0 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

#[test]
fn the_line_was_pulled_too_high_and_the_screen_says_so_first() {
    check(
        "2025-05-13T11:59:00-06:00",
        &expect![[r#"
            11:59 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · pour
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            5 findings fail; nobody has answered yet.
            FIGURES
            * Depth to concrete: 26.5 ft ± 0.1 below top of casing [no limit set] +5182.7 ft; lowest of 2 points; 11:45
            * Embedment of tremie: 2.3 ft ± 0.1 [no limit set] no limit set; 5.0 ft is watched
            * Lift at most: no lift [no limit set] 2.7 ft too high already
              This interval, load 30413: 1.31 ± 0.02 [fails] 6.09 yd³ placed, 4.65 yd³ theoretical; unlike the rest of the shaft
              In all: 1.11 ± 0.01 [no limit set] 17.78 yd³ placed, 16.07 yd³ theoretical
              Age of what stiffens first, load 30413: 1 h 20 min [no limit set] workable until 13:41; slump 6 3/4 in ± 3/8 in by now
              Order for 95 %: 9.00 yd³ [no limit set] 2 loads, 1.85 left over
              Chance to end in time: 28 % with 3 trucks [no limit set] ends about 14:08 (13:53 to 14:28)
            CLOCKS
              later Load 30414 going in: 7 min 00 s since then (11:52) 
              later Load 30414 to be in: 37 min 00 s left (12:36) 
              later Slump life of load 30413: 1 h 42 min left (13:41 ± 43 min) work planned until 13:23
            ATTENTION
              calls now | Embedment of tremie | Embedment 2.3 ft ± 0.1; no limit is set, 5.0 ft is watched. The tip is 2.7 ft too high. | Do not lift the line. Lower the tip or place concrete, then sound again.
              calls now | Line never jerked to speed the discharge | no. Required: “The line was never raised or lowered rapidly to speed the discharge”. Common practice, no source. | Usually: the crew is told at once; embedment and look of the concrete are checked.
              calls now | Interval against the shaft's own running ratio, from 26.5 ft to 36.5 ft deep (+5182.8 ft to +5172.8 ft) | 27.8 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.31 times its nominal bore, the rest of the shaft 1.02: more. 22.8 points over. Common practice, no source. | Usually: the next sounding is taken earlier; tape and ticket are checked; depth and size are recorded.
              shows soon | Concrete still to order | Estimate from 3 soundings and 1 earlier shaft: still needed 13.17 yd³ (11.69–14.57), over-pour and lines included, 0.16 yd³ of it for the room that casing leaves; 6.00 yd³ is on site and not in. For 95 % order 9.00 yd³: 1 load of 6.00 yd³ and one of 3.00 yd³; left over about 1.85 yd³. Instead 8.50 yd³ for 90 %, or 9.50 yd³ for 99 %. | Order 9.00 yd³ more, 1 load of 6.00 yd³ and one of 3.00 yd³, and ask the plant how soon. Sound after the next load and look again.
              calls soon | Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft) | 19.1 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.97 times its nominal bore, the rest of the shaft 1.20: less. 14.1 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
            NEXT
              now concrete_sounded: Do not lift the line. Lower the tip or place concrete, then sound again. 
              soon discharge_ended: Enter when load 30414 is in. ticket=30414
              soon concrete_ordered: Order 9.00 yd³ more, 1 load of 6.00 yd³ and one of 3.00 yd³, and ask the plant how soon. Sound after the next load and look again. 
              later load_arrived: When the next truck comes: enter its ticket. 
              later finding_disposed: Usually: the crew is told at once; embedment and look of the concrete are checked. criterion=roadside/line-moved-slowly
              later finding_disposed: Usually: the next sounding is taken earlier; tape and ticket are checked; depth and size are recorded. criterion=roadside/volume-departure
              later finding_disposed: Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45. criterion=job/fluid/Mirgolit-60/sand-before_concrete
              later finding_disposed: Have it decided: Slump when placed, as approved for mix DS-4000, load 30413. criterion=job/mix/DS-4000/slump
            FindingCounts { fails: 5, open: 5, cannot_say: 0, not_measured: 0, meets: 97, no_limit_set: 96 }
            5 unsettled, 0 questions, 12 doubts, 0 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

#[test]
fn a_load_was_refused_another_is_ordered_and_the_gap_runs() {
    check(
        "2025-05-13T12:30:00-06:00",
        &expect![[r#"
            12:30 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · pour
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            5 findings fail; nobody has answered yet.
            FIGURES
            * Depth to concrete: 14.7 ft ± 0.1 below top of casing [no limit set] +5194.5 ft; 12:13
            * Embedment of tremie: 20.9 ft ± 0.1 [no limit set] no limit set; 5.0 ft is watched
            * Lift at most: 15.9 ft [no limit set] 1 piece may come off; 10.9 ft after the next piece
              This interval, load 30414: 1.12 ± 0.02 [meets] 6.11 yd³ placed, 5.47 yd³ theoretical
              In all: 1.11 ± 0.01 [no limit set] 23.89 yd³ placed, 21.54 yd³ theoretical
              Age of what stiffens first, load 30413: 1 h 51 min [no limit set] workable until 13:41; slump 6 1/4 in ± 5/8 in by now
              Order for 95 %: 2.50 yd³ [no limit set] 1 load, 0.93 left over; 6 cy ordered 12:22, due 12:50
              Chance to end in time: 13 % with 3 trucks [no limit set] ends about 14:34 (14:17 to 14:52)
            CLOCKS
              later Gap since the last load: 19 min 00 s since then (12:11) no limit is set
              later Slump life of load 30413: 1 h 11 min left (13:41 ± 43 min) work planned until 13:23
            ATTENTION
              calls now | Line never jerked to speed the discharge | no. Required: “The line was never raised or lowered rapidly to speed the discharge”. Common practice, no source. | Usually: the crew is told at once; embedment and look of the concrete are checked.
              shows soon | Concrete still to order | Estimate from 4 soundings and 1 earlier shaft: still needed 7.58 yd³ (7.02–8.09), over-pour and lines included, 0.16 yd³ of it for the room that casing leaves; 6.00 yd³ is ordered. For 95 % order 2.50 yd³: 1 load of 2.50 yd³; the same for 99 %; left over about 0.93 yd³. Instead 2.00 yd³ for 90 %. | Order 2.50 yd³ more, 1 load of 2.50 yd³, and ask the plant how soon. Sound after the next load and look again. Already out: 6 cy ordered 12:22, due 12:50.
              calls soon | Interval against the shaft's own running ratio, from 26.5 ft to 36.5 ft deep (+5182.8 ft to +5172.8 ft) | 24.2 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.31 times its nominal bore, the rest of the shaft 1.05: more. 19.2 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft) | 17.2 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.97 times its nominal bore, the rest of the shaft 1.17: less. 12.2 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
            NEXT
              soon concrete_ordered: Order 2.50 yd³ more, 1 load of 2.50 yd³, and ask the plant how soon. Sound after the next load and look again. Already out: 6 cy ordered 12:22, due 12:50. 
              later load_arrived: When the next truck comes: enter its ticket. 
              later finding_disposed: Usually: the crew is told at once; embedment and look of the concrete are checked. criterion=roadside/line-moved-slowly
              later finding_disposed: Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45. criterion=job/fluid/Mirgolit-60/sand-before_concrete
              later finding_disposed: Have it decided: Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft). criterion=roadside/volume-departure
              later finding_disposed: Have it decided: Slump when placed, as approved for mix DS-4000, load 30413. criterion=job/mix/DS-4000/slump
            FindingCounts { fails: 5, open: 5, cannot_say: 0, not_measured: 0, meets: 99, no_limit_set: 98 }
            5 unsettled, 0 questions, 12 doubts, 0 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

#[test]
fn no_piece_may_come_off_before_the_next_load_is_in() {
    check(
        "2025-05-13T12:55:00-06:00",
        &expect![[r#"
            12:55 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · pour
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            5 findings fail; nobody has answered yet.
            FIGURES
            * Depth to concrete: 14.4 ft ± 0.1 below top of casing [no limit set] +5194.8 ft; lowest of 2 points; 12:26
            * Embedment of tremie: 11.2 ft ± 0.1 [no limit set] no limit set; 5.0 ft is watched
            * Lift at most: 6.2 ft [no limit set] no piece may come off yet; 1.2 ft after the next piece
              This interval, load 30414: 1.09 ± 0.02 [meets] 6.11 yd³ placed, 5.61 yd³ theoretical
              In all: 1.10 ± 0.01 [no limit set] 23.90 yd³ placed, 21.68 yd³ theoretical
              Age of what stiffens first, load 30413: 2 h 16 min [no limit set] workable until 13:41; slump 5 3/4 in ± 5/8 in by now
              Order for 95 %: 2.00 yd³ [no limit set] 1 load, 0.62 left over
              Chance to end in time: 14 % with 4 trucks [no limit set] ends about 14:32 (14:19 to 14:48)
            CLOCKS
              later Gap since the last load: 44 min 00 s since then (12:11) no limit is set
              later Slump life of load 30413: 46 min 37 s left (13:41 ± 43 min) work planned until 13:23
              later Load 30416 to be in: 56 min 00 s left (13:51) 
            ATTENTION
              calls now | Line never jerked to speed the discharge | no. Required: “The line was never raised or lowered rapidly to speed the discharge”. Common practice, no source. | Usually: the crew is told at once; embedment and look of the concrete are checked.
              shows soon | Embedment of tremie | Embedment 11.2 ft ± 0.1; no limit is set, 5.0 ft is watched. Lift at most 6.2 ft; no piece may come off yet. | Place and sound before the next piece: without it the embedment would be 1.2 ft, 3.8 ft short.
              shows soon | Concrete still to order | Estimate from 4 soundings and 1 earlier shaft: still needed 7.39 yd³ (6.87–7.87), over-pour and lines included, 0.16 yd³ of it for the room that casing leaves; 6.00 yd³ is on site and not in. For 95 % order 2.00 yd³: 1 load of 2.00 yd³; the same for 90 %; left over about 0.62 yd³. Instead 2.50 yd³ for 99 %. | Order 2.00 yd³ more, 1 load of 2.00 yd³, and ask the plant how soon. Sound after the next load and look again.
              calls soon | Interval against the shaft's own running ratio, from 26.5 ft to 36.5 ft deep (+5182.8 ft to +5172.8 ft) | 25.2 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.31 times its nominal bore, the rest of the shaft 1.05: more. 20.2 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft) | 16.4 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.97 times its nominal bore, the rest of the shaft 1.16: less. 11.4 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
            NEXT
              soon concrete_sounded: Place and sound before the next piece: without it the embedment would be 1.2 ft, 3.8 ft short. 
              soon concrete_ordered: Order 2.00 yd³ more, 1 load of 2.00 yd³, and ask the plant how soon. Sound after the next load and look again. 
              later discharge_started: Enter when load 30416 starts to discharge. ticket=30416
              later load_arrived: When the next truck comes: enter its ticket. 
              later finding_disposed: Usually: the crew is told at once; embedment and look of the concrete are checked. criterion=roadside/line-moved-slowly
              later finding_disposed: Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45. criterion=job/fluid/Mirgolit-60/sand-before_concrete
              later finding_disposed: Have it decided: Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft). criterion=roadside/volume-departure
              later finding_disposed: Have it decided: Slump when placed, as approved for mix DS-4000, load 30413. criterion=job/mix/DS-4000/slump
            FindingCounts { fails: 5, open: 5, cannot_say: 0, not_measured: 0, meets: 107, no_limit_set: 101 }
            5 unsettled, 0 questions, 12 doubts, 0 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

#[test]
fn the_concrete_is_up_and_the_casing_has_to_come_out() {
    check(
        "2025-05-13T13:36:00-06:00",
        &expect![[r#"
            13:36 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · pour
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            6 findings fail; nobody has answered yet. 1 could not be judged.
            FIGURES
            * Depth to concrete: 0.1 ft ± 0.1 below top of casing [no limit set] +5209.1 ft; lowest of 2 points; 13:35
            * Embedment of tremie: 15.5 ft ± 0.1 [no limit set] no limit set; 5.0 ft is watched
            * Lift at most: 10.5 ft [no limit set] 1 piece may come off; 5.5 ft after the next piece
              This interval, load 30417: 1.05 ± 0.04 [no limit set] 1.70 yd³ placed, 1.62 yd³ theoretical
              In all: 1.09 ± 0.01 [meets] 31.70 yd³ placed, 29.17 yd³ theoretical
              Age of what stiffens first, load 30413: 2 h 57 min [no limit set] workable until 13:41; slump 5 1/8 in ± 3/4 in by now
              Chance to end in time: 25 % [no limit set] ends about 14:09 (13:59 to 14:21)
              Concrete over shoe, casing surface: 7.9 ft [no limit set] no limit set; 5.0 ft is watched; lift at most 2.8 ft; add 1.30 yd³ before the next lift
            CLOCKS
              soon Slump life of load 30413: 5 min 37 s left (13:41 ± 43 min) work planned until 13:23
            ATTENTION
              calls now | Line never jerked to speed the discharge | no. Required: “The line was never raised or lowered rapidly to speed the discharge”. Common practice, no source. | Usually: the crew is told at once; embedment and look of the concrete are checked.
              shows soon | Head in surface at the next lift | The concrete stands 7.9 ft over the shoe; no limit is set, 5.0 ft is watched. Lift at most 2.8 ft before the head is too small. | For a lift of 5.0 ft add 1.30 yd³ first; sound before and after every lift.
              shows soon | Up to the sounding of 13:35 the surface rose only 2.9 ft. | The reading is kept; so short an interval says little, because the error of the tape is large beside it. | Read it together with its neighbors.
              calls soon | Interval against the shaft's own running ratio, from 2.9 ft to 14.4 ft deep (+5206.3 ft to +5194.8 ft) | 5.4 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.04 times its nominal bore, the rest of the shaft 1.10: less. 0.4 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Interval against the shaft's own running ratio, from 26.5 ft to 36.5 ft deep (+5182.8 ft to +5172.8 ft) | 25.3 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.31 times its nominal bore, the rest of the shaft 1.04: more. 20.3 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Slump life of load 30413 | Load 30413 reaches the least slump at 13:41 ± 43 min (12:34 to 14:48 nine times in ten); 6 min left. The work is planned to end at 13:23. | Have casing out and inserts in before then; test the slump again in good time.
              calls soon | Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft) | 13.6 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.97 times its nominal bore, the rest of the shaft 1.12: less. 8.6 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
            NEXT
              soon concrete_sounded: For a lift of 5.0 ft add 1.30 yd³ first; sound before and after every lift. 
              soon concrete_test: Have casing out and inserts in before then; test the slump again in good time. ticket=30413
              later line_out: Enter when the line is out of the concrete. name=tremie
              later casing_lifted: Sound, lift, sound again: enter each lift of the casing. name=surface
              later finding_disposed: Usually: the crew is told at once; embedment and look of the concrete are checked. criterion=roadside/line-moved-slowly
              later finding_disposed: Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45. criterion=job/fluid/Mirgolit-60/sand-before_concrete
              later finding_disposed: Have it decided: Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft). criterion=roadside/volume-departure
              later finding_disposed: Have it decided: Slump when placed, as approved for mix DS-4000, load 30413. criterion=job/mix/DS-4000/slump
            FindingCounts { fails: 6, open: 6, cannot_say: 0, not_measured: 1, meets: 121, no_limit_set: 127 }
            7 unsettled, 1 questions, 13 doubts, 0 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

#[test]
fn the_head_over_the_shoe_is_too_small_and_the_slump_is_gone() {
    check(
        "2025-05-13T13:50:00-06:00",
        &expect![[r#"
            13:50 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · pour
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            6 findings fail; nobody has answered yet. 1 could not be judged.
            FIGURES
            * Depth to concrete: 0.4 ft below top of casing [no limit set] +5208.8 ft; 13:46
              This interval, load 30417: 1.05 ± 0.04 [no limit set] 1.70 yd³ placed, 1.62 yd³ theoretical
              In all: 1.09 ± 0.01 [meets] 31.70 yd³ placed, 29.17 yd³ theoretical
              Age of what stiffens first, load 30413: 3 h 11 min [no limit set] workable until 13:41; slump 4 7/8 in ± 5/8 in by now
              Chance to end in time: 25 % [no limit set] ends about 14:09 (13:59 to 14:21)
              Concrete over shoe, casing surface: 3.6 ft [no limit set] no limit set; 5.0 ft is watched; no lift until concrete is added
            CLOCKS
              now Slump life of load 30413: 8 min 23 s over (13:41 ± 43 min) work planned until 13:23
            ATTENTION
              calls now | Head in surface at the next lift | The concrete stands 3.6 ft over the shoe; no limit is set, 5.0 ft is watched. No lift until concrete is added. | Sound before and after every lift. What a lift needs cannot be reckoned: enter the diameters, top and shoe of the casing.
              calls now | Slump life of load 30413 | Load 30413 reaches the least slump at 13:41 ± 43 min (12:34 to 14:48 nine times in ten); 8 min over. The work is planned to end at 13:23. | Test the slump of what is left of this concrete, and ask the engineer before the casing or an insert moves.
              shows soon | Up to the sounding of 13:35 the surface rose only 2.9 ft. | The reading is kept; so short an interval says little, because the error of the tape is large beside it. | Read it together with its neighbors.
              calls soon | Line never jerked to speed the discharge | no. Required: “The line was never raised or lowered rapidly to speed the discharge”. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Interval against the shaft's own running ratio, from 2.9 ft to 14.4 ft deep (+5206.3 ft to +5194.8 ft) | 5.4 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.04 times its nominal bore, the rest of the shaft 1.10: less. 0.4 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Interval against the shaft's own running ratio, from 26.5 ft to 36.5 ft deep (+5182.8 ft to +5172.8 ft) | 25.3 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.31 times its nominal bore, the rest of the shaft 1.04: more. 20.3 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft) | 13.6 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.97 times its nominal bore, the rest of the shaft 1.12: less. 8.6 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
            NEXT
              now concrete_sounded: Sound before and after every lift. What a lift needs cannot be reckoned: enter the diameters, top and shoe of the casing. 
              now concrete_test: Test the slump of what is left of this concrete, and ask the engineer before the casing or an insert moves. ticket=30413
              later casing_lifted: Sound, lift, sound again: enter each lift of the casing. name=surface
              later finding_disposed: Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45. criterion=job/fluid/Mirgolit-60/sand-before_concrete
              later finding_disposed: Have it decided: Line never jerked to speed the discharge. criterion=roadside/line-moved-slowly
              later finding_disposed: Have it decided: Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft). criterion=roadside/volume-departure
              later finding_disposed: Have it decided: Slump when placed, as approved for mix DS-4000, load 30413. criterion=job/mix/DS-4000/slump
            FindingCounts { fails: 6, open: 6, cannot_say: 0, not_measured: 1, meets: 121, no_limit_set: 131 }
            7 unsettled, 1 questions, 13 doubts, 0 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

#[test]
fn in_the_evening_seven_findings_wait_for_a_decision() {
    check(
        "2025-05-13T15:35:00-06:00",
        &expect![[r#"
            15:35 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · done
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            7 findings fail; nobody has answered yet. 1 could not be judged.
            FIGURES
            * Findings to decide: 7 [no limit set] 7 fail in all
            * Depth to concrete: 0.7 ft below top of casing [no limit set] +5208.5 ft; 13:57; cut-off +5208.5 ft
              In all: 1.09 ± 0.01 [meets] 31.70 yd³ placed, 29.17 yd³ theoretical
              Top of cage: 5208.08 ft [no limit set] plan 5208.0 ft; 14:00
              Above cut-off: 0.0 ft [no limit set] 
              Duration of the pour: 2 h 46 min [no limit set] 
              Out of plumb: 0.35 % [no limit set] 
            CLOCKS
            ATTENTION
              shows soon | Entry number 273 of the device “office” is not in this record. | What is here is unchanged. The missing entries have not arrived, or were taken away; the digest changes when they come. | Bring the device to the office, or ask for its file, and merge it into this record.
              shows soon | Entries number 276 to 338 of the device “office” are not in this record. | What is here is unchanged. The missing entries have not arrived, or were taken away; the digest changes when they come. | Bring the device to the office, or ask for its file, and merge it into this record.
              calls soon | Slump until the casing is out and every insert is in | 4.23 in; the limit is 5 in at least. 0.77 in under. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Line never jerked to speed the discharge | no. Required: “The line was never raised or lowered rapidly to speed the discharge”. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Interval against the shaft's own running ratio, from 2.9 ft to 14.4 ft deep (+5206.3 ft to +5194.8 ft) | 5.4 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.04 times its nominal bore, the rest of the shaft 1.10: less. 0.4 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Interval against the shaft's own running ratio, from 26.5 ft to 36.5 ft deep (+5182.8 ft to +5172.8 ft) | 25.3 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.31 times its nominal bore, the rest of the shaft 1.04: more. 20.3 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
              calls soon | Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft) | 13.6 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.97 times its nominal bore, the rest of the shaft 1.12: less. 8.6 points over. Common practice, no source. | The work it is about is done. Left is that somebody decides about it.
            NEXT
              later finding_disposed: Have it decided: Sand, as approved for fluid Mirgolit 60, reading of 07:45. criterion=job/fluid/Mirgolit-60/sand-before_concrete
              later finding_disposed: Have it decided: Line never jerked to speed the discharge. criterion=roadside/line-moved-slowly
              later finding_disposed: Have it decided: Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft). criterion=roadside/volume-departure
              later finding_disposed: Have it decided: Slump when placed, as approved for mix DS-4000, load 30413. criterion=job/mix/DS-4000/slump
              later finding_disposed: Have it decided: Slump until the casing is out and every insert is in. criterion=roadside/slump-until-finished
              later as_built: As-built survey: All construction tolerances checked. 
            FindingCounts { fails: 7, open: 7, cannot_say: 0, not_measured: 1, meets: 121, no_limit_set: 149 }
            8 unsettled, 1 questions, 13 doubts, 2 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}

#[test]
fn after_nine_days_everything_is_answered_but_a_dispute() {
    check(
        "2025-05-22T17:00:00-06:00",
        &expect![[r#"
            17:00 · S-2 · sign bridge SB-1, south leg · 48 in · 59.5 ft below ground · tip +5148.5 ft · after
            Small roadside shafts, common practice, 1 · depths from top of casing at +5209.2 ft
            7 findings fail; each was answered. 2 could not be judged. 1 dispute is open.
            FIGURES
            * Findings to decide: 0 [no limit set] 7 fail in all
            * Depth to concrete: 0.7 ft below top of casing [no limit set] +5208.5 ft; 13 May 2025 13:57; cut-off +5208.5 ft
              In all: 1.09 ± 0.01 [meets] 31.70 yd³ placed, 29.17 yd³ theoretical
              Top of cage: 5208.08 ft [no limit set] plan 5208.0 ft; 13 May 2025 14:00
              Strength: 3610 psi [no limit set] set S2-B at 7 d
              Above cut-off: 0.0 ft [no limit set] 
              Duration of the pour: 2 h 46 min [no limit set] 
              Off its place at the top: 1 3/8 in [no limit set] 
              Out of plumb: 0.35 % [no limit set] 
            CLOCKS
            ATTENTION
              calls soon | The entry 13 May 2025 12:55 Concrete test (49d5281a) was corrected 2 times, differently: 13 May 2025 12:55 Concrete test (c18fd065) and 13 May 2025 12:55 Concrete test (da5bb16a). | Every version is kept and shown; none of them counts in the reckoning until a person decides. | Talk to those who wrote them, then enter “Dispute closed” with the version that stands and why.
            NEXT
              soon dispute_closed: Talk to those who wrote them, then enter “Dispute closed” with the version that stands and why. about=49d5281ac4b14b8970f59df1fb80e079eb4a5b948c1e1692a3374bfea935060e
              later question_answered: If one of the times was a slip, correct it. A late entry needs no correction. about=a1e06ce75fb42012d3298e977c14cec04ab89002aabe4c941edbcbd4eff3eac9 question=time_backwards
            FindingCounts { fails: 7, open: 0, cannot_say: 2, not_measured: 0, meets: 120, no_limit_set: 172 }
            9 unsettled, 2 questions, 13 doubts, 1 about the record; drawings: day section curve profile base cage slump fluid position
        "#]],
    );
}
