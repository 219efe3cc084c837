//! The logs of the invented shaft.

use report::{Align, Column, LogTable, Mark, Row};

pub(crate) fn all(sideways: bool) -> Vec<LogTable> {
    vec![excavation(), fluid(), bottom(), cage(), tremie(), loads(sideways), soundings(), casing(), after()]
}

fn table(title: &str, note: &str, columns: Vec<Column>, rows: Vec<Row>) -> LogTable {
    LogTable { title: title.into(), note: note.into(), columns, rows, total: None, sideways: false }
}

fn excavation() -> LogTable {
    let columns = vec![
        Column::centered("In", 0.9),
        Column::centered("Out", 0.9),
        Column::words("Tool", 1.7),
        Column::numbers("From", "ft", 0.9),
        Column::numbers("To", "ft", 0.9),
        Column::numbers("Elevation", "ft", 1.1),
        Column::words("Material and remarks", 4.6),
        Column::numbers("Fluid level", "ft", 1.1),
    ];
    let mut rows = vec![
        Row::stands([
            "07:30",
            "08:05",
            "hand tools",
            "0.0",
            "5.0",
            "4,507.6",
            "Fill, brown; no utility met",
            "n/a",
        ]),
        Row::stands([
            "08:20",
            "08:31",
            "auger 54 in",
            "5.0",
            "8.0",
            "4,504.6",
            "Silty sand, moist; surface casing set after",
            "n/a",
        ]),
    ];
    for run in 0..22 {
        let (from, to) = (8.0 + 2.4 * f64::from(run), 10.4 + 2.4 * f64::from(run));
        let ground =
            ["Silty sand, dense", "Sand, loose, water-bearing", "Clay, stiff, grey", "Gravelly sand"]
                [run as usize / 6];
        let row = Row::stands([
            format!("{:02}:{:02}", 9 + run / 3, 20 * (run % 3)),
            format!("{:02}:{:02}", 9 + run / 3, 20 * (run % 3) + 11),
            if run < 16 { "auger 48 in".into() } else { "bucket 48 in".into() },
            format!("{from:.1}"),
            format!("{to:.1}"),
            format!("4,{:.1}", 512.6 - to),
            ground.into(),
            if run == 9 { String::new() } else { "3.0".into() },
        ]);
        rows.push(row);
    }
    let struck = Row::stands([
        "11:00",
        "11:11",
        "auger 48 in",
        "22.4",
        "27.5",
        "4,485.1",
        "Sand, loose, water-bearing",
        "3.0",
    ])
    .marked(Mark::Struck {
        by: "R. Vale, 2026-05-13 14:22".into(),
        why: "digits turned round; kelly mark read again".into(),
    });
    rows[8] = rows[8].clone().marked(Mark::Replaces { what: "tablet 1 no. 24".into() });
    rows.insert(8, struck);
    rows[14] =
        rows[14].clone().marked(Mark::Late { note: "entered 16:05, 3 h 10 min after it was seen".into() });
    rows[16] = rows[16].clone().marked(Mark::Note { text: "Boulder at 43.1 ft, 35 min lost, broken with the core barrel; counted as obstruction by agreement with the foreman.".into() });
    table(
        "Excavation",
        "Depths below the top of the surface casing, elevation 4,514.1 ft at 2026-05-13 08:40; from there every depth is measured.",
        columns,
        rows,
    )
}

fn fluid() -> LogTable {
    let columns = vec![
        Column::centered("Time", 0.9),
        Column::words("Where", 1.8),
        Column::numbers("Temperature", "°F", 1.1),
        Column::numbers("Density", "lb/ft³", 1.0),
        Column::numbers("Viscosity", "s/qt", 1.0),
        Column {
            title: "pH".into(),
            unit: String::new(),
            align: Align::Right,
            weight: 0.7,
            may_be_empty: false,
        },
        Column::numbers("Sand", "%", 0.8),
        Column::words("Stage", 1.5),
        Column::remarks("What was done", 2.6),
    ];
    let rows = vec![
        Row::stands(["09:05", "tank", "64", "63.0", "", "9.5", "0.5", "fresh", ""]),
        Row::stands(["11:10", "30 ft", "66", "64.8", "44", "9.5", "2.5", "drilling", ""]),
        Row::stands([
            "07:55",
            "2 ft above bottom",
            "63",
            "68.9",
            "48",
            "9.5",
            "6.5",
            "before concrete",
            "circulated and desanded",
        ])
        .marked(Mark::Asked { note: "Sand 6.5 % and density 68.9 lb/ft³ agree. No answer needed.".into() }),
        Row::stands([
            "08:50",
            "2 ft above bottom",
            "64",
            "66.0",
            "45",
            "9.5",
            "2.0",
            "before concrete",
            "accepted",
        ]),
        Row::stands([
            "08:54",
            "middle, 30 ft",
            "64",
            "65.2",
            "44",
            "9.5",
            "1.5",
            "before concrete",
            "accepted",
        ]),
    ];
    table(
        "Fluid tests",
        "Polymer fluid. Funnel read 26 s in clean water, balance 62.4 lb/ft³ in clean water, 2026-05-13 07:05.",
        columns,
        rows,
    )
}

fn bottom() -> LogTable {
    let columns = vec![
        Column::centered("Time", 0.8),
        Column::words("What", 2.0),
        Column::numbers("North", "ft", 0.9),
        Column::numbers("East", "ft", 0.9),
        Column::numbers("South", "ft", 0.9),
        Column::numbers("West", "ft", 0.9),
        Column::numbers("Middle", "ft", 0.9),
        Column::numbers("Sediment worst", "in", 1.2),
        Column::remarks("Remarks", 2.2),
    ];
    let rows = vec![
        Row::stands(["16:50", "bottom reached", "60.3", "60.4", "60.4", "60.3", "60.4", "", ""]),
        Row::stands([
            "07:20",
            "sounded again",
            "60.1",
            "60.2",
            "60.2",
            "60.1",
            "60.1",
            "3",
            "cleaned with airlift 07:30–08:40",
        ]),
        Row::stands([
            "08:45",
            "sounded after cleaning",
            "60.3",
            "60.4",
            "60.4",
            "60.3",
            "60.4",
            "3/4",
            "accepted by R. Vale",
        ]),
        Row::stands([
            "09:50",
            "sounded after cage",
            "60.3",
            "",
            "60.3",
            "60.3",
            "60.4",
            "3/4",
            "east point behind a tube",
        ]),
    ];
    table("Bottom", "Weighted tape, 0.2 ft longer than it reads: added.", columns, rows)
}

fn cage() -> LogTable {
    let columns = vec![
        Column::centered("Time", 0.8),
        Column::words("What", 2.6),
        Column::words("Planned", 1.6),
        Column::words("Found", 1.6),
        Column::remarks("Remarks", 3.2),
    ];
    let rows = vec![
        Row::stands(["15:10", "Long bars", "16 no. 10", "16 no. 10", ""]),
        Row::stands(["15:12", "Hoops", "no. 5 at 6 in", "no. 5 at 6 in", "every crossing tied"]),
        Row::stands(["15:20", "Spacers", "5 each, rows at 10 ft", "5 each, 6 rows", ""]),
        Row::stands([
            "15:24",
            "Access tubes",
            "4, capped",
            "4, capped",
            "dropped a 1 1/2 in bar to the end in each",
        ]),
        Row::stands([
            "09:35",
            "Set, top of long bars",
            "4,513.0 ft",
            "4,513.1 ft",
            "hung from the casing on two beams",
        ]),
        Row::stands(["12:40", "After the pour", "4,513.0 ft", "4,513.1 ft", ""]),
        Row::stands(["13:18", "After the casing", "4,513.0 ft", "4,513.0 ft", ""]),
    ];
    table("Cage", "", columns, rows)
}

fn tremie() -> LogTable {
    let columns = vec![
        Column::centered("Time", 0.8),
        Column::words("What", 2.6),
        Column::numbers("Pipe in hole", "ft", 1.1),
        Column::numbers("Tip", "ft", 0.9),
        Column::numbers("Concrete", "ft", 1.0),
        Column::numbers("Embedment", "ft", 1.1),
        Column::remarks("Remarks", 3.4),
    ];
    let rows = vec![
        Row::stands([
            "09:55",
            "made up, 6 pipes of 10 ft and one of 5 ft",
            "65.0",
            "60.0",
            "n/a",
            "n/a",
            "10 in pipe, plug in, seals looked at",
        ]),
        Row::stands(["10:32", "tip moved", "65.0", "56.0", "42.9", "13.1", ""]),
        Row::stands(["11:02", "pipe removed", "55.0", "48.2", "35.0", "13.2", ""]),
        Row::stands(["11:42", "pipe removed", "45.0", "31.1", "28.0", "3.1", "under the least embedment"]),
        Row::stands(["11:47", "tip moved", "45.0", "38.2", "27.4", "10.8", "lowered 7.1 ft at once"]),
        Row::stands(["12:30", "out", "0.0", "n/a", "1.8", "n/a", ""]),
    ];
    table("Tremie", "Depths below the top of the surface casing.", columns, rows)
}

fn loads(sideways: bool) -> LogTable {
    let columns = vec![
        Column::centered("No.", 0.5),
        Column::words("Ticket", 0.9),
        Column::words("Truck", 0.7),
        Column::centered("Batched", 0.9),
        Column::centered("Arrived", 0.9),
        Column::centered("Start", 0.8),
        Column::centered("End", 0.8),
        Column::numbers("Turns", "", 0.7),
        Column::numbers("Delivered", "yd³", 1.0),
        Column::numbers("Wasted", "yd³", 0.9),
        Column::numbers("Water added", "gal", 0.9),
        Column::numbers("Slump", "in", 0.8),
        Column::numbers("Air", "%", 0.6),
        Column::numbers("Concrete", "°F", 0.9),
        Column::numbers("Depth to concrete", "ft", 1.1),
        Column::remarks("Cylinders and remarks", 2.2),
    ];
    let load = |number: u32, ticket: &str, slump: &str, depth: &str, remark: &str| {
        let minutes =
            |after: u32| format!("{:02}:{:02}", 9 + (number * 18 + after) / 60, (number * 18 + after) % 60);
        Row::stands([
            number.to_string(),
            ticket.into(),
            format!("{}", 30 + number * 7 % 9),
            minutes(0),
            minutes(35),
            minutes(47),
            minutes(58),
            format!("{}", 95 + number * 3),
            "9.0".into(),
            "0.0".into(),
            String::new(),
            slump.into(),
            String::new(),
            "71".into(),
            depth.into(),
            remark.into(),
        ])
    };
    let mut rows = vec![
        load(1, "90210", "7 1/2", "52.9", "set A, 4 cylinders"),
        load(2, "90219", "8", "42.9", ""),
        load(3, "90214", "8", "38.8", "").marked(Mark::Struck {
            by: "R. Vale, 10:58".into(),
            why: "ticket number read from the paper ticket".into(),
        }),
        load(3, "90241", "8", "38.8", "").marked(Mark::Replaces { what: "tablet 1 no. 74".into() }),
        load(4, "90250", "8 1/4", "33.9", ""),
        load(5, "90255", "8", "34.6", "read twice"),
        load(6, "90263", "7 3/4", "28.0", "").marked(Mark::Disputed {
            note: "9.0 yd³ (R. Vale, from the ticket) or 8.0 yd³ (T. Ochoa, one yard left in the drum)"
                .into(),
        }),
        load(7, "90270", "", "19.0", "no slump test"),
        load(8, "90281", "8", "1.8", "set B, 4 cylinders; over-pour 0.8 yd³")
            .marked(Mark::Asked { note: "Discharge began before arrival; not answered.".into() })
            .marked(Mark::Late { note: "entered 14:10".into() }),
    ];
    rows[3].cells[10] = "5".into();
    let total = ["", "", "", "", "", "", "", "", "72.0", "0.0", "5", "", "", "", "", "one load in dispute"];
    LogTable {
        total: Some(total.map(String::from).to_vec()),
        sideways,
        ..table(
            "Loads",
            "Mix S-40. Water added only before discharge, by the driver, told by the inspector.",
            columns,
            rows,
        )
    }
}

fn soundings() -> LogTable {
    let columns = vec![
        Column::centered("Time", 0.8),
        Column::words("After", 1.1),
        Column::numbers("Depth", "ft", 0.9),
        Column::numbers("Elevation", "ft", 1.1),
        Column::numbers("Placed", "yd³", 0.9),
        Column::numbers("Theory", "yd³", 0.9),
        Column::numbers("This step", "yd³", 0.9),
        Column::numbers("Ratio of step", "", 1.0),
        Column::numbers("Standard error", "", 1.0),
        Column::numbers("Ratio so far", "", 1.0),
        Column::numbers("Diameter", "in", 0.9),
    ];
    let steps = [
        ("10:16", "load 1", "52.9", "4,461.2", "8.6", "3.49"),
        ("10:34", "load 2", "42.9", "4,471.2", "17.6", "8.14"),
        ("10:52", "load 3", "38.8", "4,475.3", "26.6", "10.05"),
        ("11:10", "load 4", "33.9", "4,480.2", "35.6", "12.33"),
        ("11:20", "load 5", "34.6", "4,479.5", "44.6", "12.01"),
    ];
    let mut rows: Vec<Row> = steps
        .iter()
        .map(|(time, after, depth, elevation, placed, theory)| {
            Row::stands([
                *time, *after, *depth, *elevation, *placed, *theory, "9.0", "1.13", "0.08", "1.10", "51.0",
            ])
        })
        .collect();
    rows[4] = rows[4].clone().marked(Mark::Asked {
        note: "Concrete went down while a load went in: read twice (R. Vale, 11:23).".into(),
    });
    table(
        "Soundings of concrete and volumes",
        "Placed is delivered less what stood in the tremie and what was wasted; theory is for 48 in. The standard error comes from a tape error of 0.1 ft and a load error of 2 %.",
        columns,
        rows,
    )
}

fn casing() -> LogTable {
    let columns = vec![
        Column::centered("Time", 0.8),
        Column::words("What", 2.0),
        Column::numbers("Shoe", "ft", 0.9),
        Column::numbers("Level before", "ft", 1.1),
        Column::numbers("Level after", "ft", 1.1),
        Column::numbers("Expected", "ft", 1.0),
        Column::numbers("Head over shoe", "ft", 1.2),
        Column::remarks("Remarks", 2.4),
    ];
    table(
        "Casing",
        "",
        columns,
        vec![
            Row::stands([
                "08:31",
                "set, 54 in, 3/8 in wall",
                "8.0",
                "n/a",
                "n/a",
                "n/a",
                "n/a",
                "plumb by level, two sides",
            ]),
            Row::stands(["13:05", "pulled", "4.0", "0.6", "1.4", "1.3", "2.6", ""]),
            Row::stands(["13:16", "out", "0.0", "1.4", "1.9", "1.8", "n/a", "0.3 yd³ topped up"]),
        ],
    )
}

fn after() -> LogTable {
    let columns = vec![
        Column::centered("When", 1.4),
        Column::words("What", 2.4),
        Column::words("Found", 2.0),
        Column::remarks("Remarks", 3.0),
    ];
    table("After", "", columns, Vec::new())
}
