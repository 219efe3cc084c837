//! A schedule pasted from a spreadsheet: every row a planned shaft or the reason why it is none, all or
//! nothing; and the same bodies as the same table read as a file.

use record::{Body, Record};
use screen::entry::schedule::Schedule;
use testkit::{Tablet, at, record};

fn job(units: &str, lengths: &str, comma: &str) -> Record {
    let opened = testkit::body(
        "job_opened",
        &[
            ("name", "Test job"),
            ("time_zone", "America/Denver"),
            ("units", units),
            ("lengths", lengths),
            ("decimal_comma", comma),
        ],
    );
    let mut tablet = Tablet::new(1).about(None);
    let opened = tablet.write("06:00", opened);
    let mut tablet = tablet.about(Some("S-9"));
    let planned = tablet.write("06:05", testkit::body("shaft_planned", PLAN));
    record([&opened, &planned])
}

const PLAN: &[(&str, &str)] =
    &[("structure", "bridge"), ("top", "98 ft"), ("tip", "48 ft"), ("method", "dry")];

fn read(pasted: &str, record: &Record) -> Result<Schedule, String> {
    Schedule::read(pasted, record, at("08:00"))
}

fn us() -> Record {
    job("us", "feet_tenths", "no")
}

/// Every row: `S-1 taken` or its sentences.
fn preview(schedule: &Schedule) -> String {
    let mut told = String::new();
    for row in schedule.rows() {
        let left = if row.left_out { " (left out)" } else { "" };
        told = format!("{told}{} {}{left}: ", row.line, row.shaft);
        match row.outcome {
            Ok(_) => told.push_str("taken\n"),
            Err(faults) => {
                let all: Vec<String> =
                    faults.iter().map(|fault| format!("{}: {}", fault.label, fault.sentence)).collect();
                told = format!("{told}{}\n", all.join(" | "));
            }
        }
    }
    told
}

const PASTED: &str = "Shaft No.\tTop elev. (ft)\tTip elevation\tDia. (in)\tStation\tRemarks\n\
                      S-1\t98.5\t48\t48\t12+34.5\tfirst\n\
                      S-2\t98.5 ft\t45.25\t4 ft\t12+60\t\n";

#[test]
fn a_spreadsheet_becomes_planned_shafts() {
    let record = us();
    let mut schedule = read(PASTED, &record).expect("it has headings");
    let columns: Vec<String> = schedule
        .columns
        .iter()
        .map(|column| format!("{} -> {}", column.heading, column.takes.as_deref().unwrap_or("nothing")))
        .collect();
    expect_test::expect![[r#"
        Shaft No. -> Shaft
        Top elev. (ft) -> Top
        Tip elevation -> Tip
        Dia. (in) -> Diameter
        Station -> Station
        Remarks -> nothing"#]]
    .assert_eq(&columns.join("\n"));

    let lacking = |schedule: &Schedule| -> Vec<String> {
        schedule.lacking().into_iter().map(|field| format!("{}: {}", field.path, field.text)).collect()
    };
    assert_eq!(lacking(&schedule), ["structure: ", "method: "]);
    assert!(schedule.bodies().is_none(), "what a shaft carries is not guessed");
    schedule.set_for_all("structure", "bridge");
    schedule.set_for_all("method", "wet");
    assert_eq!(lacking(&schedule), ["structure: bridge", "method: wet"]);
    let wanted = |shaft: &str, top: &str, tip: &str, diameter: &str, station: &str| {
        let fields = [
            ("structure", "bridge"),
            ("method", "wet"),
            ("top", top),
            ("tip", tip),
            ("bore[0].diameter", diameter),
            ("station", station),
        ];
        (shaft.to_owned(), testkit::body("shaft_planned", &fields))
    };
    assert_eq!(
        schedule.bodies().expect("every row can be taken"),
        [
            wanted("S-1", "98.5 ft", "48", "48 in", "12+34.5"),
            wanted("S-2", "98.5 ft", "45.25", "4 ft", "12+60"),
        ]
    );
}

#[test]
fn one_bad_row_keeps_all_of_them_out_until_it_is_mended_or_left_out() {
    let record = us();
    let pasted = "Shaft,Top,Tip,Structure,Method,Diameter\n\
                  S-1,98,48,bridge,wet,48\n\
                  S-1,98,48,bridge,wet,48\n\
                  ,98,48,bridge,wet,48\n\
                  S-9,98,48,bridge,wet,48\n\
                  S-3,98,,bridge,damp,48 kg\n\
                  S-4,98,48,bridge,wet,48,beyond\n\
                  Total,,,,,,\n";
    let mut schedule = read(pasted, &record).expect("it has headings");
    expect_test::expect![[r#"
        2 S-1: taken
        3 S-1: Shaft: `S-1` stands in line 2 already.
        4 : Shaft: The row names no shaft.
        5 S-9: Shaft: `S-9` is planned in the record already; correct that entry instead.
        6 S-3: Tip: This is needed and blank. | Method: `damp` is none of the words here: dry, wet, temporary_casing or permanent_casing. | Diameter: `48 kg` is a mass, because of `kg`; expected a length such as 12.54 ft.
        7 S-4: Row: `beyond` stands beyond the last heading.
        8 Total: Structure: This is needed and blank. | Top: This is needed and blank. | Tip: This is needed and blank. | Method: This is needed and blank.
    "#]].assert_eq(&preview(&schedule));
    assert!(schedule.bodies().is_none());
    for line in 3..=8 {
        schedule.leave_out(line, true);
    }
    assert_eq!(schedule.bodies().expect("the one that is left").len(), 1);
    schedule.leave_out(3, false);
    assert!(schedule.bodies().is_none(), "the row is in again");
    for line in 2..=8 {
        schedule.leave_out(line, true);
    }
    assert!(schedule.bodies().is_none(), "no row at all is no schedule");
}

#[test]
fn a_job_in_metres_with_a_decimal_comma_pastes_semicolons() {
    let record = job("metric", "meters", "yes");
    let mut schedule = read("Shaft;Top;Tip;Dia (mm)\r\nP 1;30,5;12,25;1200\r\n", &record).expect("headings");
    schedule.set_for_all("structure", "building");
    schedule.set_for_all("method", "wet");
    let bodies = schedule.bodies().expect("it can be taken");
    let Body::ShaftPlanned(plan) = &bodies[0].1 else { panic!("a planned shaft") };
    assert_eq!(plan.top.stored(), "30,5 {m,}");
    assert_eq!(plan.tip.stored(), "12,25 {m,}");
    assert_eq!(plan.bore[0].diameter.stored(), "1200 mm");
}

#[track_caller]
fn refused(pasted: &str, expected: &str) {
    assert_eq!(read(pasted, &us()).expect_err("it is no schedule"), expected);
}

#[test]
fn what_is_no_schedule_is_told_in_a_sentence() {
    refused("", "Nothing was pasted. Copy the schedule with its heading row and paste it here.");
    refused("Shaft,Top\n", "Only a heading row was pasted. Copy the rows of the shafts as well.");
    refused("Top,Tip\n98,48\n", "No column names the shafts. One heading must be “Shaft”.");
    refused(
        "S-1,98,48\nS-2,98,48\n",
        "The first row holds no headings that are known here, such as Shaft, Top elevation, Tip elevation, \
         Diameter. Copy the heading row as well.",
    );
    refused(
        "Shaft,Top,Top elevation\nS-1,98,98\n",
        "Two columns fill the same as `Top elevation`. Keep one of them.",
    );
    refused("Shaft,Top\n\"S-1,98\n", "A quotation mark is opened in line 2 and never closed.");
}

/// The same table as a file is read by `notes`, which was written by other hands: both give the same.
#[test]
fn what_is_pasted_gives_what_the_same_file_gives() {
    let tables = [
        "shaft,top,tip,structure,method,station,northing,mix\n\
         S-1,98.5 ft,45'-6\",bridge,wet,12+34.5,1204.5,C-4000\n\
         S-2,-12.25,-60,wall,dry,,,\n",
        "Shaft ID\tTop Elevation (m)\tTip elevation\tStructure\tMethod\tGround elevation\n\
         A 1\t30.5\t12.25 m\tsign\ttemporary casing\t31\n",
        "shaft;top;tip;structure;method;volume\nB/7;98;48;pole;permanent-casing;\"12.5\"\n",
    ];
    let record = us();
    let opened = record.entries().find_map(|held| match held {
        record::Held::Known(record::Entry { body: Body::JobOpened(job), .. }) => Some(job.clone()),
        _ => None,
    });
    let context = notes::Context::of("j-1", &opened.expect("the job is open")).expect("a known zone");
    for pasted in tables {
        let sheet = notes::table::Table::of("shaft_schedule").expect("it is a table");
        let request = notes::table::Request {
            context: &context,
            table: Some(&sheet),
            shaft: None,
            date: Some("2031-04-08"),
            author: Some("A. Inspector"),
            device: None,
        };
        let with_times = at_column(pasted);
        let source = notes::Source { name: "schedule.csv", bytes: with_times.as_bytes() };
        let read = notes::table::read(source, request, &notes::Nothing).expect("the file is read");
        let of_file: Vec<(String, Body)> = read
            .drafted
            .iter()
            .map(|drafted| {
                let body = drafted.body(&|_: &str| None).expect("it names no other line");
                (drafted.shaft.clone().expect("a shaft"), body)
            })
            .collect();
        let of_paste = Schedule::read(pasted, &record, at("08:00")).expect("it has headings").bodies();
        assert_eq!(of_paste.expect("every row can be taken"), of_file);
    }
}

/// The table with the column of times a file needs.
fn at_column(pasted: &str) -> String {
    let separator = ['\t', ';', ','].into_iter().find(|sign| pasted.contains(*sign)).expect("it has columns");
    let cell = |row: usize| if row == 0 { "at" } else { "08:00" };
    let lines = pasted.lines().enumerate().map(|(row, line)| format!("{line}{separator}{}", cell(row)));
    lines.collect::<Vec<_>>().join("\n")
}
