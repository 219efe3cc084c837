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
    check_questions(suspicions_of_readings(), None, expect![[""]]);
}

#[test]
fn questions_about_times() {
    check_questions(suspicions_of_times(), None, expect![[""]]);
}

#[test]
fn an_answered_question_leaves_nothing_to_do() {
    let asked = vec![Suspicion::TicketTwice { ticket: "4411".to_owned() }];
    check_questions(asked, Some("two trucks had one ticket book"), expect![[""]]);
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
        expect![[""]],
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
    check(&notices, expect![[""]]);
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
                told(Issue::OutsideBore { at: 1, level: Elevation(Length::feet(103.0)) }),
            ],
            expect![[""]],
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
            expect![[""]],
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
    let life = |left: f64, end: Option<&str>| Outlook::SlumpLife {
        ticket: "4411".to_owned(),
        ends: at("12:30"),
        error: Span::minutes(12.0),
        left: Span::minutes(left),
        planned_end: end.map(at),
    };
    let outlooks = vec![
        embedment(11.4, 0, Some(1.4)),
        embedment(25.0, 1, Some(15.0)),
        embedment(8.5, 0, None),
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
        },
        life(50.0, Some("13:05")),
        life(-5.0, Some("12:10")),
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
        expect![[""]].assert_eq(&told.collect::<Vec<_>>().join("\n"));
    });
}

#[test]
fn what_was_assumed() {
    let told = wording::assumptions(&Show::of(None));
    let lines: Vec<String> =
        told.iter().map(|one| format!("{}: {} {}", one.about, one.value, one.how)).collect();
    expect![[""]].assert_eq(&lines.join("\n"));
}

#[test]
fn cautions_defer_to_law_contract_and_licensed_people() {
    let told: Vec<String> =
        wording::cautions().iter().map(|one| format!("{}: {}", one.danger, one.text)).collect();
    expect![[""]].assert_eq(&told.join("\n"));
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
