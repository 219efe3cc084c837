//! Sheets as people keep them: read in, refused with row and column, and written out.

use expect_test::{Expect, expect};
use notes::table::{Request, Table, read};
use notes::{Context, Nothing, Source};
use record::field::{Defaults, UnitSystem};

fn job() -> Context {
    let job = include_str!("good.toml");
    let source = Source { name: "good.toml", bytes: job.as_bytes() };
    notes::read(source, None, &Nothing).expect("the example is read").context
}

fn metric() -> Context {
    let defaults = Defaults { system: UnitSystem::Metric, comma: true, survey_foot: false };
    Context { defaults, ..job() }
}

fn told(context: &Context, name: &str, text: &str) -> String {
    let table = Table::of(name.split('.').next().unwrap());
    let request = Request {
        context,
        table: table.as_ref(),
        shaft: Some("S-1"),
        date: Some("2026-05-04"),
        author: Some("M. Okafor"),
        device: None,
    };
    match read(Source { name, bytes: text.as_bytes() }, request, &Nothing) {
        Err(mistakes) => mistakes.iter().map(|mistake| format!("{mistake}\n")).collect(),
        Ok(notes) => {
            let line = |drafted: &notes::Drafted| {
                let body = drafted.body(&|_| None).expect("tables have no labels");
                format!("{} {} {:?}\n", drafted.observed_at.clock(), drafted.kind().word, body.to_group())
                    .replace("Text(\"", "(\"")
            };
            let passed =
                notes.passed_over.iter().map(|over| format!("row {}: {}\n", over.row, over.standing));
            notes.drafted.iter().map(line).chain(passed).collect()
        }
    }
}

#[track_caller]
fn check(name: &str, text: &str, expected: Expect) {
    expected.assert_eq(&told(&job(), name, text));
}

#[test]
fn the_five_sheets() {
    check(
        "tool_runs.csv",
        "Time in,Time out,From,To (ft),Tool,Soil,By hand\n07:10,07:22,0,4,shovel,\"fill, loose\",yes\n7:30,7:41,4,9.5,auger,clay,no\n,,,,,,\n",
        expect![[r#"
            07:10 tool_run {"by_hand": Flag(true), "from": ("0 {ft}"), "material": ("fill, loose"), "out": ("2026-05-04T07:22:00-06:00"), "to": ("4 ft"), "tool": ("shovel")}
            07:30 tool_run {"by_hand": Flag(false), "from": ("4 {ft}"), "material": ("clay"), "out": ("2026-05-04T07:41:00-06:00"), "to": ("9.5 ft"), "tool": ("auger")}
        "#]],
    );
    check(
        "fluid_tests.csv",
        "at;place;depth;stage;density;viscosity;pH;sand\n9:00;tank;;introduction;64.5;38 s/qt;8,5;0.5\n",
        expect![[r#"
            fluid_tests.csv, row 2, column 7 (`pH`): `ph`: `8,5` can be read in more than one way; expected a pH value such as 8.5; perhaps 8.5
        "#]],
    );
    check(
        "loads.csv",
        "arrived,ticket,truck,volume (yd3),batched,slump,temperature,tested,water_added,discharge_start,discharge_end,depth to concrete,center\n\
         10:02,4411,17,9.5,9:21,7.5,74,10:05,,10:10,10:34,,12.6\n\
         10:20,4412,4,9.5,9:40,,,,5,10:36,10:58,,9.1\n",
        expect![[r#"
            loads.csv, row 1, column 13 (`center`): another column fills the same field as `center`; keep one of them
        "#]],
    );
    check(
        "loads.csv",
        "arrived,ticket,volume,slump,discharge_start,discharge_end,depth to concrete\n\
         10:02,4411,9.5,7.5,10:10,10:34,12.6\n\
         10:20,4412,9.5,,10:36,10:58,9.1\n\
         11:40,4413,9.5,3,,,\n",
        expect![[r#"
            10:02 load_arrived {"ticket": ("4411"), "volume": ("9.5 {yd³}")}
            10:02 concrete_test {"slump": ("7.5 {in}"), "ticket": ("4411")}
            10:10 discharge_started {"ticket": ("4411")}
            10:20 load_arrived {"ticket": ("4412"), "volume": ("9.5 {yd³}")}
            10:34 discharge_ended {"ticket": ("4411")}
            10:34 concrete_sounded {"after": ("4411"), "points": List([Group({"depth": ("12.6 {ft}")})])}
            10:36 discharge_started {"ticket": ("4412")}
            10:58 discharge_ended {"ticket": ("4412")}
            10:58 concrete_sounded {"after": ("4412"), "points": List([Group({"depth": ("9.1 {ft}")})])}
            11:40 load_arrived {"ticket": ("4413"), "volume": ("9.5 {yd³}")}
            11:40 concrete_test {"slump": ("3 {in}"), "ticket": ("4413")}
        "#]],
    );
    check(
        "soundings.csv",
        "at\tafter\tcenter\tNorth (ft)\n10:41\t4411\t12.6\t12.4\n10:59\t4412\t\t9.1\n",
        expect![[r#"
        10:41 concrete_sounded {"after": ("4411"), "points": List([Group({"depth": ("12.6 {ft}"), "place": ("center")}), Group({"depth": ("12.4 ft"), "place": ("north")})])}
        10:59 concrete_sounded {"after": ("4412"), "points": List([Group({"depth": ("9.1 ft"), "place": ("north")})])}
    "#]],
    );
    check(
        "shaft_schedule.csv",
        "shaft,structure,top,tip,method,diameter\nS-2,sign,5280,5262,wet,48 in\nS-3,sign,5281.5,5263,wet,\"4'-0\"\"\"\n",
        expect![[r#"
            00:00 shaft_planned {"bore": List([Group({"diameter": ("48 in")})]), "method": ("wet"), "structure": ("sign"), "tip": ("5262 {ft}"), "top": ("5280 {ft}")}
            00:00 shaft_planned {"bore": List([Group({"diameter": ("4'-0\"")})]), "method": ("wet"), "structure": ("sign"), "tip": ("5263 {ft}"), "top": ("5281.5 {ft}")}
        "#]],
    );
}

#[test]
fn a_decimal_comma() {
    let text = "at;center;place\n10:41;3,82;north\n";
    expect![[r#"
        soundings.csv, row 1, column 3 (`place`): another column fills the same field as `place`; keep one of them
    "#]]
    .assert_eq(&told(&metric(), "soundings.csv", text));
    let text = "at;center\n10:41;3,82\n";
    expect![[r#"
        10:41 concrete_sounded {"points": List([Group({"depth": ("3,82 {m,}"), "place": ("center")})])}
    "#]]
    .assert_eq(&told(&metric(), "soundings.csv", text));
}

#[test]
fn rows_that_do_not_stand_are_passed_over() {
    check(
        "remark.csv",
        "at,status,text\n07:00,stands,a\n07:10,struck,b\n07:20,disputed,c\n07:30,,d\n",
        expect![[r#"
        07:00 remark {"text": ("a")}
        07:30 remark {"text": ("d")}
        row 3: struck
        row 4: disputed
    "#]],
    );
}

#[test]
fn the_table_is_known_by_its_headings() {
    check(
        "sheet1.csv",
        "time in,time out,from,to,tool,soil\n07:10,07:22,0,4,shovel,fill\n",
        expect![[r#"
        07:10 tool_run {"from": ("0 {ft}"), "material": ("fill"), "out": ("2026-05-04T07:22:00-06:00"), "to": ("4 {ft}"), "tool": ("shovel")}
    "#]],
    );
    check(
        "sheet2.csv",
        "ticket,volume,batched,arrived\n4411,9.5,9:30,10:00\n",
        expect![[r#"
        10:00 load_arrived {"batched": ("2026-05-04T09:30:00-06:00"), "ticket": ("4411"), "volume": ("9.5 {yd³}")}
    "#]],
    );
    check(
        "sheet3.csv",
        "name,phone,street\na,b,c\n",
        expect![[r#"
        sheet3.csv, row 1, column 1: the headings fit none of the tables; expected those of tool_runs, fluid_tests, loads, soundings, shaft_schedule or of one kind of entry
    "#]],
    );
}

#[test]
fn mistakes_in_tables() {
    check(
        "tool_runs.csv",
        "",
        expect![[r#"
        tool_runs.csv, row 1, column 1: nothing is written in this file
    "#]],
    );
    check("tool_runs.csv", "at,to\n", expect![[""]]);
    check(
        "tool_runs.csv",
        "at,to,dpeth,\n07:10,4,5,6\n",
        expect![[r#"
        tool_runs.csv, row 1, column 3 (`dpeth`): `dpeth` is no heading of the table tool_runs
        tool_runs.csv, row 1, column 4: something is written in this column, but the column has no heading
    "#]],
    );
    check(
        "tool_runs.csv",
        "at,to,To\n07:10,4,5\n",
        expect![[r#"
            tool_runs.csv, row 1, column 3 (`To`): another column fills the same field as `to`; keep one of them
        "#]],
    );
    check(
        "tool_runs.csv",
        "at,to\n,4\n07:10,\n7.10,4 yd3\n",
        expect![[r#"
        tool_runs.csv, row 2, column 1 (`at`): `at` is blank, and tool_run of this row needs it (the time it was seen)
        tool_runs.csv, row 3, column 2 (`to`): `to` is blank, and tool_run needs it (Depth at the end)
        tool_runs.csv, row 4, column 1 (`at`): `at`: `7.10` is no time; expected one such as `07:10`, `2:30 pm`, `+1 00:10` for the next day, or `2026-05-04 07:10`
        tool_runs.csv, row 4, column 2 (`to`): `to`: `4 yd3` is a volume, because of `yd³`; expected a length such as 12.54 ft; perhaps 4 yd
    "#]],
    );
    check(
        "tool_runs.csv",
        "at,to,material\n07:10,4,fill, loose\n",
        expect![[r#"
        tool_runs.csv, row 2, column 4: something is written beyond the last of the 3 headings; does a comma in a text stand without quotation marks?
    "#]],
    );
    check(
        "tool_runs.csv",
        "at,to,material\n07:10,4,\"fill\n07:20,5,clay\n",
        expect![[r#"
        tool_runs.csv, row 2, column 1: a quotation mark is opened here and never closed
    "#]],
    );
    check(
        "tool_runs.csv",
        "shaft,author,date,at,to\nS-9,,2026-5-4,07:10,4\n",
        expect![[r#"
        tool_runs.csv, row 2, column 1 (`shaft`): the shaft `S-9` is not planned; did you mean `S-1`?
        tool_runs.csv, row 2, column 3 (`date`): `2026-5-4` is no date; expected year, month and day such as 2026-05-04
    "#]],
    );
    check(
        "tool_runs.csv",
        "at,to (yd3)\n07:10,4\n",
        expect![[r#"
        tool_runs.csv, row 2, column 2 (`to (yd3)`): `to`: `4 yd3` is a volume, because of `yd³`; expected a length such as 12.54 ft; perhaps 4 yd
    "#]],
    );
    check(
        "soundings.csv",
        "at,points[1].depth,center\n10:41,1,2\n",
        expect![[r#"
            soundings.csv, row 1, column 3 (`center`): another column fills the same field as `center`; keep one of them
        "#]],
    );
    check(
        "soundings.csv",
        "at,points[100].depth\n10:41,1\n",
        expect![[r#"
        soundings.csv, row 1, column 2 (`points[100].depth`): a list in a table goes from 1 to 99
    "#]],
    );
    check(
        "soundings.csv",
        "at,points[3].place,points[1].depth\n10:41,center,2\n",
        expect![[r#"
        soundings.csv, row 2, column 2 (`points[3].place`): `points[2].depth` is blank, and points of concrete_sounded needs it (Depth below the reference)
    "#]],
    );
    check(
        "loads.csv",
        "arrived,volume,slump,depth\n10:02,9.5,7,12\n",
        expect![[r#"
        loads.csv, row 2, column 1: `ticket` is blank, and load_arrived needs it (Ticket number)
        loads.csv, row 2, column 1: `sounded` is blank, and concrete_sounded of this row needs it (the time it was seen)
    "#]],
    );
    check(
        "loads.csv",
        "ticket,volume,discharge_ended\n4411,9 loads,10:30\n",
        expect![[r#"
        loads.csv, row 2, column 1: `arrived` is blank, and load_arrived of this row needs it (the time it was seen)
        loads.csv, row 2, column 2 (`volume`): `volume`: `9 loads`: `loads` is no unit known here; expected a volume such as 9.5 yd³
    "#]],
    );
    check(
        "shaft_schedule.csv",
        "shaft,structure,top,tip,method\nS-1,sign,1,0,wet\nS-2,sign,1,0,wet\nS-2,sign,1,0,wet\n",
        expect![[r#"
        shaft_schedule.csv, row 2, column 1 (`shaft`): the shaft `S-1` is planned in the record already; a changed plan is a correction of that entry
        shaft_schedule.csv, row 4, column 1 (`shaft`): the shaft `S-2` is planned in line 3 already
    "#]],
    );
    check(
        "fluid_tests.csv",
        "at,place,stage,viscosity\n10:00,hole,drilling,38 {s/qt}\n10:10,hole,drilling,38 {s}\n",
        expect![[r#"
        fluid_tests.csv, row 3, column 4 (`viscosity`): `viscosity`: `38 {s}`: `s` is no unit known here; expected a Marsh funnel time with its volume such as 38 s/qt
    "#]],
    );
    check(
        "question_answered.csv",
        "at,about,question,answer\n10:00,12ab34cd,lateness,was away\n",
        expect![[r#"
        question_answered.csv, row 2, column 2 (`about`): `12ab34cd` names no entry; expected a label such as `#s3`, or the first eight digits of an entry's id
    "#]],
    );
}
