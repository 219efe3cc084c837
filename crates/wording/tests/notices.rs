//! What a person is told about difficulties: each notice once, read by somebody.

mod support;

use assess::{Forecast, Outlook, Urgency};
use calc::curve::Issue;
use calc::slump::SlumpIssue;
use expect_test::{Expect, expect};
use quantity::{Depth, Elevation, Length, Span, Volume};
use record::{Alarm, EntryId, Log, Newer, Question, Suspicion};
use support::day::day;
use support::{Site, at, body, list, text};
use wording::{Notice, Show};

/// Notices as one text.
#[track_caller]
fn check(notices: &[Notice], expected: Expect) {
    let texts: Vec<String> = notices.iter().map(ToString::to_string).collect();
    expected.assert_eq(&texts.join("\n\n"));
}

fn depth(feet: f64) -> Depth {
    Depth(Length::feet(feet))
}

fn suspicions_of_readings() -> Vec<Suspicion> {
    let length = |length: Length| Suspicion::LengthUnusual {
        field: "diameter",
        length,
        low: Length::feet(1.0),
        high: Length::feet(15.0),
    };
    vec![
        Suspicion::DeeperThanHole { depth: depth(43.0), hole: depth(41.0) },
        Suspicion::ConcreteFell { before: depth(41.0), after: depth(43.0), ticket: Some("4411".to_owned()) },
        Suspicion::LoadVolume {
            ticket: "4411".to_owned(),
            volume: Volume::cubic_yards(19.0),
            usual: Volume::cubic_yards(9.5),
        },
        length(Length::feet(48.0)),
        length(Length::inches(4.0)),
        length(Length::feet(700.0)),
        Suspicion::ElevationDisagrees {
            written: Elevation(Length::feet(-15.4)),
            follows: Elevation(Length::feet(-14.5)),
        },
        Suspicion::TicketTwice { ticket: "4411".to_owned() },
        Suspicion::TicketUnknown { ticket: "4414".to_owned() },
        Suspicion::RunsDoNotMeet { ended: depth(10.0), begins: depth(12.0) },
        Suspicion::RunWithoutBeginning { reached: depth(12.0), ended: Some(depth(10.0)) },
        Suspicion::RunWithoutBeginning { reached: depth(12.0), ended: None },
        Suspicion::ValueUnusual { field: "ph", written: "85".to_owned(), usual: "6 to 12" },
    ]
}

fn suspicions_of_times() -> Vec<Suspicion> {
    let ticket = "4411".to_owned();
    vec![
        Suspicion::TimeBackwards { before: at("10:40"), at: at("10:05") },
        Suspicion::EndsBeforeItBegins { begins: at("10:40"), ends: at("10:05") },
        Suspicion::DischargedBeforeArrival {
            ticket: ticket.clone(),
            arrived: at("10:40"),
            discharged: at("10:05"),
        },
        Suspicion::BatchedAfterArrival { ticket, batched: at("10:40"), arrived: at("10:05") },
        Suspicion::SeenAfterEntered { seen: at("10:40"), entered: at("10:05") },
    ]
}

#[track_caller]
fn check_questions(suspicions: Vec<Suspicion>, answer: Option<&str>, expected: Expect) {
    let day = day();
    let record = day.site.record();
    let log = support::log(&record);
    let show = Show::of_log(&log);
    let asked = |suspicion| {
        let answer = answer.map(|answer| (day.second_sounding, answer.to_owned()));
        let question = Question { about: day.second_sounding, suspicion, answer };
        wording::question(&question, &show, &log)
    };
    check(&suspicions.into_iter().map(asked).collect::<Vec<_>>(), expected);
}

#[test]
fn questions_about_readings() {
    check_questions(
        suspicions_of_readings(),
        None,
        expect![[r#"
        The reading of 43.0 ft lies deeper than the hole was at that time (41.0 ft).
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Sound again. If the hole was deeper, enter the tool run that is missing; if the reading was a slip, correct it.
        (deeper_than_hole)

        The concrete surface went down from 41.0 ft to 43.0 ft depth while load 4411 went in.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Sound again and add the reading. If it did go down, say in a remark what was seen: concrete may be running into a void.
        (concrete_fell)

        Load 4411 brings 19.00 yd³; a load here is about 9.50 yd³.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Read the ticket once more. Keep the volume, or correct it.
        (load_volume)

        Diameter 48.0 ft is unusual; 1.0 ft to 15.0 ft is usual.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Did you mean 48 in? Keep the diameter, or correct it.
        (length_unusual)

        Diameter 0.3 ft is unusual; 1.0 ft to 15.0 ft is usual.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Did you mean 4 ft? Keep the diameter, or correct it.
        (length_unusual)

        Diameter 700.0 ft is unusual; 1.0 ft to 15.0 ft is usual.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Read the diameter once more. Keep it, or correct it.
        (length_unusual)

        The elevation written is -15.4 ft; from the reference and the depth follows -14.5 ft.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Look at the reference and the depth once more. The depth is what is reckoned with; correct the one that was a slip.
        (elevation_disagrees)

        Ticket 4411 arrived twice.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Compare the paper tickets. If one number was a slip, correct that entry.
        (ticket_twice)

        No load arrived with ticket 4414.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Enter the arrival of that load, or correct the ticket number.
        (ticket_unknown)

        This run begins at 12.0 ft, the one before it ended at 10.0 ft.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        If a run is missing, enter it. If the hole filled or was deepened in between, say so in a remark.
        (runs_do_not_meet)

        This run reached 12.0 ft and says no depth it began at; the one before it ended at 10.0 ft.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Correct it with the depth it began at. Until then the drilled length counts it from where the one before ended.
        (run_without_beginning)

        This run reached 12.0 ft and says no depth it began at, and no run lies before it.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Correct it with the depth it began at. Until then the drilled length leaves it out.
        (run_without_beginning)

        pH 85 is unusual here; 6 to 12 is usual.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Read the instrument and the unit once more. Keep the value, or correct it.
        (value_unusual)"#]],
    );
}

#[test]
fn questions_about_times() {
    check_questions(
        suspicions_of_times(),
        None,
        expect![[r#"
        The entry before this one was seen at 10:40, this one at 10:05.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        If one of the times was a slip, correct it. A late entry needs no correction.
        (time_backwards)

        The end (10:05) lies before the beginning (10:40).
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Correct the time that was a slip; after midnight the date changes too.
        (ends_before_it_begins)

        Load 4411 discharged at 10:05, before it arrived at 10:40.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Compare the ticket and the times. Correct the one that was a slip.
        (discharged_before_arrival)

        Load 4411 was batched at 10:40, after it arrived at 10:05.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Read the batch time on the ticket once more. Correct the time that was a slip.
        (batched_after_arrival)

        Seen at 10:40, but entered before that, at 10:05.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written.
        Look at the clock of the device. If the time seen was a slip, correct it.
        (seen_after_entered)"#]],
    );
}

#[test]
fn an_answered_question_leaves_nothing_to_do() {
    let asked = vec![Suspicion::TicketTwice { ticket: "4411".to_owned() }];
    check_questions(
        asked,
        Some("two trucks had one ticket book"),
        expect![[r#"
        Ticket 4411 arrived twice.
        The entry 10:12 Concrete sounded (e4c528b2) is kept as written. Answered: two trucks had one ticket book.
        Nothing to do.
        (ticket_twice)"#]],
    );
}

#[test]
fn alarms_name_the_device_as_people_do() {
    let mut site = Site::new();
    let first = site.write("07:00", "remark", &[("text", text("clear"))]);
    let record = site.record();
    let device = record.entries().next().expect("an entry").place().0;
    site.write("07:01", "device_named", &[("name", text("Rig 2"))]);
    let named = site.record();
    let other = EntryId([9; 32]);
    check(
        &[
            wording::alarm(&Alarm::Cloned { device, seq: 41, entries: vec![first, other] }, &named),
            wording::alarm(&Alarm::Gap { device, from: 4, to: 9 }, &named),
            wording::alarm(&Alarm::Gap { device, from: 4, to: 4 }, &record),
            wording::alarm(&Alarm::Broken { device, entry: first }, &named),
        ],
        expect![[r#"
            The device “Rig 2” wrote 2 different entries under one number, 41.
            All of them are unchanged in this record. A copy of the device was used, or it was set back to an earlier state.
            Keep recording on another device. Have the copies compared before the record is handed in.
            (cloned_device)

            Entries number 4 to 9 of the device “Rig 2” are not in this record.
            What is here is unchanged. The missing entries have not arrived, or were taken away; the digest changes when they come.
            Bring the device to the office, or ask for its file, and merge it into this record.
            (gap)

            Entry number 4 of the device ea4a6c63 is not in this record.
            What is here is unchanged. The missing entries have not arrived, or were taken away; the digest changes when they come.
            Bring the device to the office, or ask for its file, and merge it into this record.
            (gap)

            Entry 74c95c22 of the device “Rig 2” does not name the entry before it.
            Every entry is kept and its signature holds; the order on that device cannot be proven at this place.
            Have the device looked at, and keep its own file beside this record.
            (broken_chain)"#]],
    );
}

#[test]
fn what_is_open_in_a_record() {
    let day = day();
    let mut site = day.site;
    let again = body("concrete_sounded", &[("points", list(&["place=center depth=3.4_ft"]))]);
    site.correct("10:25", day.second_sounding, "checked the photo of the tape", Some(again));
    let loose = site.correct("10:26", EntryId([9; 32]), "belongs to the other tablet", None);
    let record = site.record();
    let log = support::log(&record);
    let show = Show::of_log(&log);
    let device = record.entries().next().expect("an entry").place().0;
    let newer = Newer {
        id: EntryId([8; 32]),
        format: 3,
        job: "job-1".to_owned(),
        shaft: None,
        device,
        seq: 60,
        prev: None,
        observed_at: at("10:50"),
        line: String::new(),
    };
    let mut notices: Vec<Notice> =
        log.disputes.iter().map(|dispute| wording::dispute(dispute, &log, &show)).collect();
    notices.push(wording::loose(loose, &log, &show));
    notices.push(wording::newer(&newer, &show));
    notices.extend(log.lines.iter().filter_map(|line| wording::late(line, &log, &show)));
    check(
        &notices,
        expect![[r#"
        The entry 10:12 Concrete sounded (e4c528b2) was corrected 2 times, differently: 10:12 Concrete sounded (01a4d569) and 10:12 Concrete sounded (d579f27a).
        Every version is kept and shown; none of them counts in the reckoning until a person decides.
        Talk to those who wrote them, then enter “Dispute closed” with the version that stands and why.
        (dispute)

        The correction 10:26 Correction (2ab6fc5b) is about an entry that is not here.
        The correction is kept and changes nothing until that entry arrives.
        Merge the record of the device that wrote the entry.
        (loose_correction)

        Entry 60 of the device ea4a6c63, seen at 10:50, was written by a newer version (format 3).
        It is kept byte for byte and travels on; this version cannot read it, so no figure counts it.
        Update this program, then look at the figures again.
        (needs_update)

        The entry 07:45 Tool run (10621be8) was entered at 09:30, 1 h 45 min after it was seen.
        It counts like any other and says wherever it is shown that it is late.
        Nothing to do; a remark on why helps whoever reads the record later.
        (late_entry)"#]],
    );
}

/// The assessment of the day, handed to a test.
fn with_day(test: impl Fn(&Log<'_>, &assess::Assessment<'_>, &Show)) {
    let record = day().site.record();
    let log = support::log(&record);
    let (set, _) = criteria::Set::shipped("roadside-common-practice-1").expect("shipped").in_force(&[]);
    let assessment = assess::assess(&log, &set, at("11:00"));
    test(&log, &assessment, &Show::of_log(&log));
}

#[test]
fn issues_of_the_volume_curve() {
    with_day(|_, assessment, show| {
        let pour = assessment.reckoning.pour.as_ref().expect("concrete was sounded");
        let told = |issue| wording::curve_issue(issue, pour, show);
        check(
            &[
                told(Issue::SurfaceFell { at: 1, by: Length::feet(2.0) }),
                told(Issue::TotalFell { at: 1, by: Volume::cubic_yards(0.4) }),
                told(Issue::TinyInterval { at: 1, rise: Length::feet(0.6) }),
                told(Issue::HardlyRose { at: 1, rise: Length::feet(0.5), fills: Length::feet(10.2) }),
                told(Issue::OutsideBore { at: 1, level: Elevation(Length::feet(103.0)) }),
            ],
            expect![[r#"
                The concrete surface went down 2.0 ft by the sounding of 10:12.
                Both soundings are kept, and the interval has no ratio.
                Sound again and add the reading; if the surface did go down, look for a void or a leak.
                (surface_fell)

                By the sounding of 10:12 the concrete placed is 0.40 yd³ less than at the sounding before.
                The readings are kept, and the interval has no ratio.
                Check the waste and the volume in the line that were entered before this sounding.
                (total_fell)

                Up to the sounding of 10:12 the surface rose only 0.6 ft.
                The reading is kept; so short an interval says little, because the error of the tape is large beside it.
                Read it together with its neighbors.
                (tiny_interval)

                Up to the sounding of 10:12 the surface rose only 0.5 ft, and what was placed since the sounding before fills 10.2 ft of the hole as drawn.
                Both soundings are kept. If one of them was misread, the interval on its other side looks wrong too, the opposite way; if both are right, concrete went where the drawing has no room.
                Look at the tape and the reference, sound again, and correct the entry if it was misread; otherwise look for a void.
                (hardly_rose)

                The level +103.0 ft sounded at 10:12 lies outside the hole as planned and drilled.
                The sounding is kept, and no theoretical volume can be told for it.
                Check the depth and the reference, and whether the plan or a tool run is missing.
                (outside_bore)"#]],
        );
    });
}

#[test]
fn issues_of_slump_life() {
    with_day(|_, assessment, show| {
        let slump = assessment.reckoning.slump.as_ref().expect("the mix has a trial");
        let told = |issue| wording::slump_issue(issue, slump, show);
        check(
            &[
                told(SlumpIssue::TrialRises { at: 1 }),
                told(SlumpIssue::TestOutsideTrial { load: 0, test: 0 }),
            ],
            expect![[r#"
                In the slump-loss trial of mix C-40 the slump rises at point 2.
                The trial is used as it was entered.
                Compare it with the trial sheet; a slip there would change every slump life.
                (trial_rises)

                The slump test of load 4411 (8 in at an age of 53 min) is outside the ages of the trial.
                The test is kept; the slump life was reckoned without it.
                A trial that runs longer would let it count.
                (test_outside_trial)"#]],
        );
    });
}

#[test]
fn forecasts_of_every_sort() {
    let line = "tremie".to_owned();
    let embedment = |now: f64, pieces, after: Option<f64>| Outlook::Embedment {
        line: line.clone(),
        now: Length::feet(now),
        error: Length::feet(0.1),
        required: Length::feet(10.0),
        limit_set: true,
        safe_lift: Length::feet(now - 10.0),
        pieces,
        after_next: after.map(Length::feet),
    };
    let limit = |ticket: Option<&str>, left: f64| Outlook::TimeLimit {
        fact: "time.open_hole",
        ticket: ticket.map(str::to_owned),
        ends: at("10:41"),
        left: Span::minutes(left),
    };
    let life = |left: f64, between: [Option<&str>; 2], end: Option<&str>| Outlook::SlumpLife {
        ticket: "4411".to_owned(),
        ends: at("12:30"),
        error: Span::minutes(12.0),
        between: between.map(|end| end.map(at)),
        left: Span::minutes(left),
        planned_end: end.map(at),
    };
    let outlooks = vec![
        embedment(11.4, 0, Some(1.4)),
        embedment(25.0, 1, Some(15.0)),
        embedment(8.5, 0, None),
        embedment(-0.5, 0, None),
        Outlook::HeadAtNextLift {
            casing: "surface casing".to_owned(),
            now: Length::feet(9.0),
            required: Length::feet(5.0),
            limit_set: true,
            safe_lift: Length::feet(3.2),
            add: None,
        },
        Outlook::StillToOrder {
            volume: Volume::cubic_yards(6.4),
            error: Volume::cubic_yards(0.5),
            on_the_way: Volume::cubic_yards(9.0),
            ordered: Volume::cubic_yards(0.0),
        },
        Outlook::StillToOrder {
            volume: Volume::cubic_yards(6.4),
            error: Volume::cubic_yards(0.5),
            on_the_way: Volume::cubic_yards(0.0),
            ordered: Volume::cubic_yards(4.0),
        },
        life(50.0, [Some("12:11"), Some("12:52")], Some("13:05")),
        life(-5.0, [Some("12:11"), None], Some("12:10")),
        life(50.0, [None, Some("12:52")], None),
        Outlook::Gap { since: at("10:08"), lasted: Span::minutes(52.0), allowed: Some(Span::minutes(60.0)) },
        limit(None, 25.0),
        limit(None, -85.0),
        limit(Some("4411"), -5.0),
    ];
    with_day(|log, _, show| {
        let told = outlooks.iter().map(|outlook| {
            let forecast = Forecast { urgency: Urgency::Now, outlook: outlook.clone(), evidence: Vec::new() };
            let text = wording::forecast(&forecast, log, show);
            format!("{}\n  {}\n  {}", text.heading, text.sentence, text.do_now)
        });
        expect![[r#"
            Embedment of tremie
              Embedment 11.4 ft ± 0.1; required: 10.0 ft. Lift at most 1.4 ft; no piece may come off yet.
              Place and sound before the next piece: without it the embedment would be 1.4 ft, 8.6 ft short.
            Embedment of tremie
              Embedment 25.0 ft ± 0.1; required: 10.0 ft. Lift at most 15.0 ft; 1 piece may come off.
              Sound before each piece; after the next one the embedment is 15.0 ft.
            Embedment of tremie
              Embedment 8.5 ft ± 0.1; required: 10.0 ft. The tip is 1.5 ft too high.
              Do not lift the line. Lower the tip or place concrete, then sound again.
            Embedment of tremie
              Embedment -0.5 ft ± 0.1; required: 10.0 ft. By these readings the tip stands 0.5 ft above the concrete.
              Stop the discharge, sound again, and ask the engineer before the line goes on; enter what was seen and decided.
            Head in surface casing at the next lift
              The concrete stands 9.0 ft over the shoe; required: 5.0 ft. Lift at most 3.2 ft before the head is too small.
              Sound before and after every lift. What a lift needs cannot be reckoned: enter the diameters, top and shoe of the casing.
            Concrete still needed
              Still needed from the last sounding: 6.40 yd³ ± 0.50; 9.00 yd³ is on site and has not gone in.
              Order nothing more yet; sound after the next load and look again.
            Concrete still needed
              Still needed from the last sounding: 6.40 yd³ ± 0.50; nothing is on site that has not gone in, and 4.00 yd³ is ordered.
              Order 2.40 yd³ more, and ask the plant how soon; this counts the shaft's own ratio and the over-pour.
            Slump life of load 4411
              Load 4411 reaches the least slump at 12:30 ± 12 min (12:11 to 12:52 nine times in ten); 50 min left. The work is planned to end at 13:05, 35 min too late.
              Shorten what is left of the pour or begin pulling earlier, and test the slump again.
            Slump life of load 4411
              Load 4411 reaches the least slump at 12:30 ± 12 min (not before 12:11, nineteen times in twenty; the trial ends too soon to say more); 5 min over. The work is planned to end at 12:10.
              Test the slump of what is left of this concrete, and ask the engineer before the casing or an insert moves.
            Slump life of load 4411
              Load 4411 reaches the least slump at 12:30 ± 12 min (before 12:52, nineteen times in twenty); 50 min left. Nobody entered when the work is to end.
              Have casing out and inserts in before then; test the slump again in good time.
            Gap since the last load
              No concrete has gone in since 10:08, 52 min; allowed: 1 h.
              Ask where the next truck is. If the pour stopped, enter “Interruption of the pour” with its reason.
            Time limit
              Time from the machine's first run to the first concrete: the limit is reached at 10:41; 25 min left.
              Have concrete start before then.
            Time limit
              Time from the machine's first run to the first concrete: the limit is reached at 10:41; 1 h 25 min over.
              Ask the engineer what has to be done again before concrete; enter what was decided.
            Time limit of load 4411
              Time from the machine's first run to the first concrete: the limit of load 4411 is reached at 10:41; 5 min over.
              Ask the engineer before load 4411 is used; enter what was decided."#]].assert_eq(&told.collect::<Vec<_>>().join("\n"));
    });
}

#[test]
fn readings_of_a_sample_that_do_not_fit() {
    use calc::estimate::Estimate;
    use quantity::{Density, Fraction};
    let pcf = Density::pounds_per_cubic_foot;
    let pair = |difference: f64, apart| assess::reckon::SandPair {
        entry: EntryId([1; 32]),
        fit: calc::fluid_density::PairFit {
            expected: pcf(62.9),
            difference: Estimate::new(pcf(difference), pcf(0.6)),
            sand_implied: Fraction::percent(0.0),
            fines: Fraction::percent(0.0),
        },
        apart,
    };
    let show = Show::of(None);
    let told = |pair| wording::sand_pair(&pair, &Log::default(), &show);
    assert_eq!(told(pair(0.4, false)), None);
    let notices = [told(pair(4.1, true)), told(pair(-2.0, true))];
    check(
        &notices.into_iter().flatten().collect::<Vec<_>>(),
        expect![[r#"
        By the fluid test 01010101 the fluid is 4.1 pcf heavier than its sand explains; the sand calls for 62.9 pcf.
        Both readings are kept and judged as they were written.
        Test the sample again and check the balance in water. Fines in suspension would explain it too.
        (density_against_sand)

        By the fluid test 01010101 the fluid is 2.0 pcf lighter than its sand explains; the sand calls for 62.9 pcf.
        Both readings are kept and judged as they were written.
        Test the sample again and check the balance in water and the sand tube.
        (density_against_sand)"#]],
    );
}

#[test]
fn what_was_assumed() {
    let told = wording::assumptions(&Show::of(None));
    let lines: Vec<String> =
        told.iter().map(|one| format!("{}: {} {}", one.about, one.value, one.how)).collect();
    expect![[r#"
        Error of a sounding: ± 0.1 ft Standard error of one reading with a weighted tape. From memory; no published figure was found.
        Error of a load: 1.0 % each, 1.0 % shared Standard error of the volume of a load, and of all loads of a plant and day together. From memory [NRMCA-CIP-8].
        Shortest interval that is read: 3.0 ft A shorter rise between two soundings is named. Common practice, no source.
        Shorter interval that is read all the same: 3 standard errors off the rest of its shaft Then no error of tape and tickets makes it so; a sounding may be misread. Judgement; there is no source.
        Loss of area that the estimated shape tells as a possible neck: 15.0 %, from a probability of 0.20 on It is only told, never judged. Judgement; there is no source.
        Stretch that the estimated shape tells as wide: 1.10 times the ratio of the shaft It is only told, never judged, and its whole band lies beyond. Judgement; there is no source.
        Stretch that the estimated shape tells as having taken less: 0.95 times the ratio of the shaft It is only told, never judged, and its whole band lies below. Judgement; there is no source.
        Error of a slump test: 1/2 in Standard error of one test. Common practice, no source.
        Slump from load to load: 1 in Scatter of one mix. Common practice, no source.
        Error of a mud balance: ± 0.6 pcf Its accuracy as printed [ASTM-D4380].
        Error of a sand tube: ± 0.5 % About a division of its scale. Common practice, no source.
        Readings of one time: 30 min Two sensors read this close together are compared. Our own choice.
        Concrete: 145.0 pcf Where no unit weight was measured. Common practice, no source.
        Drilling fluid: 62.4 pcf Where no density was measured: taken as water.
        Embedment and head that are watched: 5.0 ft Only where the criteria in force set no limit, so that a forecast can warn. From memory.
        Lift of a casing that is reckoned ahead: 5.0 ft For the concrete to add before the next lift. Common practice, no source.
        Water: 62.4 pcf For heads against groundwater.
        Voids of settled sand: 40.0 % For the sediment that would lie on the base if all sand fell. Common practice, no source.
        Temperature below which concrete does not harden: 32 °F For the temperature-time factor. From memory [ASTM-C1074]; the mix itself has to be tested.
        Constants of an equivalent age: 5000 K, 68 °F Suggested for Type I cement. From memory [ASTM-C1074].
        How long a fluid counts as new: 8 h It is tested by the shorter interval for so long. From memory [FHWA-NHI-10-016]; until samples of tank and bottom agree, which needs a person.
        A truck: 9.00 yd³, in steps of 0.50 yd³ Where neither plan nor ticket says how much one holds. Common practice, no source.
        Error of what stays in the lines: ± 0.13 yd³ Standard error of what is lost in lines at the end. Judgement; there is no source.
        A truck: loading at the plant: 6 min; slow 9 min Usual, and longer than the slow figure one time in ten. Common practice, no source.
        A truck: road to the site: 30 min; slow 40 min Usual, and longer than the slow figure one time in ten. Common practice, no source.
        A truck: tests: 7 min; slow 10 min Usual, and longer than the slow figure one time in ten. Common practice, no source.
        A truck: into place: 3 min; slow 6 min Usual, and longer than the slow figure one time in ten. Common practice, no source.
        A truck: discharge: 15 min; slow 25 min Usual, and longer than the slow figure one time in ten. Common practice, no source.
        A truck: back to the plant: 40 min; slow 55 min Usual, and longer than the slow figure one time in ten. Common practice, no source.
        A section off the line: 5 min; slow 8 min Usual, and longer than the slow figure one time in ten. Common practice, no source.
        A lift of casing: 10 min; slow 15 min Usual, and longer than the slow figure one time in ten. Common practice, no source.
        From the last concrete to the end: 30 min; slow 45 min Usual, and longer than the slow figure one time in ten. Common practice, no source.
        A planned time, one time in ten: 1.30 times as long Where the plan has one figure. Today’s own loads correct it. Common practice, no source.
        Weight of the plan against today: as many as 4 loads The planned times count as so many of today’s loads. Judgement; there is no source.
        Enough trucks: from a probability of 0.95 on, up to 12 Of ending within the slump life and without a gap over the limit. Judgement; there is no source."#]].assert_eq(&lines.join("\n"));
}

#[test]
fn cautions_defer_to_law_contract_and_licensed_people() {
    let told: Vec<String> =
        wording::cautions().iter().map(|one| format!("{}: {}", one.danger, one.text)).collect();
    expect![[r#"
        Whose word counts: This record advises. The contract documents govern and the engineer decides. Local law, the contract and the judgement of licensed people come before anything printed here.
        Open hole: Keep the hole covered or guarded whenever nobody works at it. Stand back from an edge that may give way, and be tied off where the local rules ask for it.
        Inside a shaft: Nobody enters a shaft to inspect, to clean or to fetch something. Air, water and wall can kill in a minute; entry is only for trained people under the local rules for confined spaces.
        Overhead lines: Keep rig, crane, cage and tremie away from overhead lines by the distance the local rules and the owner of the line ask for. Treat every line as live.
        Utilities: Have buried lines located and marked, and dig by hand to find them before the machine drills. Stop at anything unexpected.
        Lifting the cage: Stand clear of a cage, a casing or a line that hangs. Nobody walks under it, nobody reaches under it while it is spliced.
        Hoses under pressure: A pump line can whip when it is blocked or breaks. Stay away from its end and its joints while it is under pressure or being cleaned.
        Wet concrete and fluids: Wet concrete burns skin and eyes, hours after it was felt. Wear gloves, boots and goggles, and wash at once with clean water. Read the sheet of each drilling fluid product."#]].assert_eq(&told.join("\n"));
}

#[test]
fn no_notice_shouts_or_names_a_type() {
    let day = day();
    let record = day.site.record();
    let log = support::log(&record);
    let show = Show::of_log(&log);
    for suspicion in suspicions_of_readings().into_iter().chain(suspicions_of_times()) {
        let question = Question { about: day.second_sounding, suspicion, answer: None };
        let text = wording::question(&question, &show, &log).paragraph();
        assert!(!text.contains('!') && !text.contains("::") && !text.contains("Some("), "{text}");
        assert!(text.contains("kept as written"), "{text}");
    }
}
