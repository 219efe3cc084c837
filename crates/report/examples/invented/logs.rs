//! The logs of the invented shaft.

use report::{Align, Column, Layout, LogTable, Mark, Row};

pub(crate) fn all(sideways: bool) -> Vec<LogTable> {
    vec![
        excavation(),
        fluid(),
        bottom(),
        cage(),
        tremie(),
        loads(sideways),
        soundings(),
        casing(),
        table("After", "", "When:1.4 What<:2.4 Found<:2 Remarks_:3", Vec::new()),
    ]
}

/// A form, and a table whose rows name their entries.
pub(crate) fn papers() -> Vec<LogTable> {
    let mix = rows(
        "Mix|WA-4000 from the invented plant
         Strength|4000 psi at 28 d
         Slump|8 in ± 1 in
         Aggregate|3/8 in, rounded
         Remarks|Trial of 3 March kept 6 in for four hours at 72 °F; the plant holds the sheet of that trial.",
    );
    let people = rows("14 May 07:00|R. Vale|inspector\n14 May 07:00|T. Ochoa|laboratory");
    let named = people.into_iter().map(|row| Row { entry: "5d1f02aa".into(), ..row }).collect();
    vec![
        LogTable {
            layout: Layout::Form,
            part: "Job papers".into(),
            ..table("Mix approved", "Left blank: cement, water.", "<:1 <:2", mix)
        },
        LogTable {
            width: 0.5,
            part: "Job papers".into(),
            ..table("People", "", "Time<:1 Name<:2 Role<:2", named)
        },
    ]
}

fn table(title: &str, note: &str, columns: &str, rows: Vec<Row>) -> LogTable {
    let columns = columns.split_whitespace().map(column).collect();
    let (layout, part) = (Layout::Upright, String::new());
    LogTable { title: title.into(), note: note.into(), columns, rows, total: None, layout, width: 1.0, part }
}

/// `Title:weight` centered, `Title<:weight` words, `Title_:weight` remarks, `Title/unit:weight` numbers;
/// `~` stands for a blank.
fn column(text: &str) -> Column {
    let (head, weight) = text.split_once(':').expect("a weight");
    let (head, weight) = (head.replace('~', " "), weight.parse().expect("a number"));
    match (head.strip_suffix('<'), head.strip_suffix('_'), head.split_once('/')) {
        (Some(title), ..) => Column::words(title, weight),
        (_, Some(title), _) => Column::remarks(title, weight),
        (_, _, Some((title, unit))) => Column::numbers(title, unit, weight),
        _ => Column::centered(&head, weight),
    }
}

/// One row a line, cells between bars.
fn rows(text: &str) -> Vec<Row> {
    text.trim().lines().map(|line| Row::stands(line.split('|').map(str::trim))).collect()
}

fn mark(rows: &mut [Row], at: usize, mark: Mark) {
    rows[at].marks.push(mark);
}

fn struck(by: &str, why: &str) -> Mark {
    Mark::Struck { by: by.into(), why: why.into() }
}

fn excavation() -> LogTable {
    let mut all = rows(
        "07:30|08:05|hand tools|0.0|5.0|4,507.6|Fill, brown; no utility met|n/a
         08:20|08:31|auger 54 in|5.0|8.0|4,504.6|Silty sand, moist; surface casing set after|n/a",
    );
    let drilled = |run: u32| {
        let (from, to) = (8.0 + 2.4 * f64::from(run), 10.4 + 2.4 * f64::from(run));
        let ground =
            ["Silty sand, dense", "Sand, loose, water-bearing", "Clay, stiff, grey", "Gravelly sand"];
        let (hour, minute) = (9 + run / 3, 20 * (run % 3));
        Row::stands([
            format!("{hour:02}:{minute:02}"),
            format!("{hour:02}:{:02}", minute + 11),
            if run < 16 { "auger 48 in".into() } else { "bucket 48 in".into() },
            format!("{from:.1}"),
            format!("{to:.1}"),
            format!("4,{:.1}", 512.6 - to),
            ground[run as usize / 6].into(),
            if run == 9 { String::new() } else { "3.0".into() },
        ])
    };
    all.extend((0..22).map(drilled));
    mark(&mut all, 8, Mark::Replaces { what: "tablet 1 no. 24".into() });
    mark(&mut all, 13, Mark::Late { note: "entered 16:05, 3 h 10 min after it was seen".into() });
    let boulder = "Boulder at 43.1 ft, 35 min lost, broken with the core barrel; counted as obstruction.";
    mark(&mut all, 15, Mark::Note { text: boulder.into() });
    let wrong = rows("11:00|11:11|auger 48 in|22.4|27.5|4,485.1|Sand, loose, water-bearing|3.0").remove(0);
    let why = "digits turned round; kelly mark read again";
    all.insert(8, wrong.marked(struck("R. Vale, 2026-05-13 14:22", why)));
    table(
        "Excavation",
        "Depths below the top of the surface casing, elevation 4,514.1 ft at 2026-05-13 08:40.",
        "In:0.9 Out:0.9 Tool<:1.7 From/ft:0.9 To/ft:0.9 Elevation/ft:1.1 Material~and~remarks<:4.6 \
         Fluid~level/ft:1.1",
        all,
    )
}

fn fluid() -> LogTable {
    let mut all = rows(
        "09:05|tank|64|63.0||9.5|0.5|fresh|
         11:10|30 ft|66|64.8|44|9.5|2.5|drilling|
         07:55|2 ft above bottom|63|68.9|48|9.5|6.5|before concrete|circulated and desanded
         08:50|2 ft above bottom|64|66.0|45|9.5|2.0|before concrete|accepted
         08:54|middle, 30 ft|64|65.2|44|9.5|1.5|before concrete|accepted",
    );
    let note = "sand 6.5 % and density 68.9 lb/ft³ agree; no answer needed";
    mark(&mut all, 2, Mark::Asked { note: note.into() });
    let columns = "Time:0.9 Where<:1.8 Temperature/°F:1.1 Density/lb~per~ft³:1 Viscosity/s~per~qt:1 pH:0.7 \
                   Sand/%:0.8 Stage<:1.5 What~was~done_:2.6";
    let note = "Polymer fluid. Funnel read 26 s in clean water, balance 62.4 lb/ft³, 2026-05-13 07:05.";
    let mut log = table("Fluid tests", note, columns, all);
    log.columns[5].align = Align::Right;
    log
}

fn bottom() -> LogTable {
    let all = rows(
        "16:50|bottom reached|60.3|60.4|60.4|60.3|60.4||
         07:20|sounded again|60.1|60.2|60.2|60.1|60.1|3|cleaned with airlift 07:30–08:40
         08:45|sounded after cleaning|60.3|60.4|60.4|60.3|60.4|3/4|accepted by R. Vale
         09:50|sounded after cage|60.3||60.3|60.3|60.4|3/4|east point behind a tube",
    );
    let columns = "Time:0.8 What<:2 North/ft:0.9 East/ft:0.9 South/ft:0.9 West/ft:0.9 Middle/ft:0.9 \
                   Sediment~worst/in:1.2 Remarks_:2.2";
    table("Bottom", "Weighted tape, 0.2 ft longer than it reads: added.", columns, all)
}

fn cage() -> LogTable {
    let all = rows(
        "15:10|Long bars|16 no. 10|16 no. 10|
         15:12|Hoops|no. 5 at 6 in|no. 5 at 6 in|every crossing tied
         15:20|Spacers|5 each, rows at 10 ft|5 each, 6 rows|
         15:24|Access tubes|4, capped|4, capped|a 1 1/2 in bar dropped to the end in each
         09:35|Set, top of long bars|4,513.0 ft|4,513.1 ft|hung from the casing on two beams
         12:40|After the pour|4,513.0 ft|4,513.1 ft|
         13:18|After the casing|4,513.0 ft|4,513.0 ft|",
    );
    table("Cage", "", "Time:0.8 What<:2.6 Planned<:1.6 Found<:1.6 Remarks_:3.2", all)
}

fn tremie() -> LogTable {
    let all = rows(
        "09:55|made up, 6 pipes of 10 ft and one of 5 ft|65.0|60.0|n/a|n/a|10 in pipe, plug in, seals seen
         10:32|tip moved|65.0|56.0|42.9|13.1|
         11:02|pipe removed|55.0|48.2|35.0|13.2|
         11:42|pipe removed|45.0|31.1|28.0|3.1|under the least embedment
         11:47|tip moved|45.0|38.2|27.4|10.8|lowered 7.1 ft at once
         12:30|out|0.0|n/a|1.8|n/a|",
    );
    let columns =
        "Time:0.8 What<:2.6 Pipe~in~hole/ft:1.1 Tip/ft:0.9 Concrete/ft:1 Embedment/ft:1.1 Remarks_:3.4";
    table("Tremie", "Depths below the top of the surface casing.", columns, all)
}

fn loads(sideways: bool) -> LogTable {
    let mut all = rows(
        "1|90210|37|09:18|09:53|10:05|10:16|98|9.0|0.0||7 1/2||71|52.9|set A, 4 cylinders
         2|90219|35|09:36|10:11|10:23|10:34|101|9.0|0.0||8||71|42.9|
         3|90214|33|09:54|10:29|10:41|10:52|104|9.0|0.0||8||71|38.8|
         3|90241|33|09:54|10:29|10:41|10:52|104|9.0|0.0|5|8||71|38.8|
         4|90250|31|10:12|10:47|10:59|11:10|107|9.0|0.0||8 1/4||71|33.9|
         5|90255|38|10:30|11:05|11:17|11:28|110|9.0|0.0||8||71|34.6|read twice
         6|90263|36|10:48|11:23|11:35|11:46|113|9.0|0.0||7 3/4||71|28.0|
         7|90270|34|11:06|11:41|11:53|12:04|116|9.0|0.0||||71|19.0|no slump test
         8|90281|32|11:24|12:06|12:04|12:22|119|9.0|0.0||8||71|1.8|set B, 4 cylinders; over-pour 0.8 yd³",
    );
    mark(&mut all, 2, struck("R. Vale, 10:58", "ticket number read from the paper ticket"));
    mark(&mut all, 3, Mark::Replaces { what: "tablet 1 no. 74".into() });
    let candidates = "9.0 yd³ (R. Vale, from the ticket) or 8.0 yd³ (T. Ochoa, one yard left in the drum)";
    mark(&mut all, 6, Mark::Disputed { note: candidates.into() });
    mark(&mut all, 8, Mark::Asked { note: "discharge began before arrival; not answered".into() });
    mark(&mut all, 8, Mark::Late { note: "entered 14:10".into() });
    let columns = "No.:0.5 Ticket<:0.9 Truck<:0.7 Batched:0.9 Arrived:0.9 Start:0.8 End:0.8 Turns/:0.7 \
                   Delivered/yd³:1 Wasted/yd³:0.9 Water~added/gal:0.9 Slump/in:0.8 Air/%:0.6 Concrete/°F:0.9 \
                   Depth~to~concrete/ft:1.1 Cylinders~and~remarks_:2.2";
    let total = "||||||||72.0|0.0|5|||||one load in dispute".split('|').map(String::from).collect();
    let note = "Mix S-40. Water added only before discharge, by the driver, told by the inspector.";
    let layout = if sideways { Layout::Sideways } else { Layout::Upright };
    LogTable { total: Some(total), layout, ..table("Loads", note, columns, all) }
}

fn soundings() -> LogTable {
    let mut all = rows(
        "10:16|load 1|52.9|4,461.2|8.6|3.49|8.6|1.13|0.08|1.10|51.0
         10:34|load 2|42.9|4,471.2|17.6|8.14|9.0|1.93|0.09|1.41|66.7
         10:52|load 3|38.8|4,475.3|26.6|10.05|9.0|4.71|0.24|1.90|104.2
         11:10|load 4|33.9|4,480.2|35.6|12.33|9.0|3.95|0.20|2.29|95.4
         11:20|load 5|34.6|4,479.5|44.6|12.01|9.0||||",
    );
    mark(
        &mut all,
        4,
        Mark::Asked { note: "concrete fell while a load went in: read twice (R. Vale, 11:23)".into() },
    );
    let columns = "Time:0.8 After<:1.1 Depth/ft:0.9 Elevation/ft:1.1 Placed/yd³:0.9 Theory/yd³:0.9 \
                   This~step/yd³:0.9 Ratio~of~step/:1 Standard~error/:1 Ratio~so~far/:1 Diameter/in:0.9";
    let note = "Placed is delivered less what stood in the tremie and what was wasted; theory is for 48 in. \
                The standard error comes from a tape error of 0.1 ft and a load error of 2 %.";
    table("Soundings of concrete and volumes", note, columns, all)
}

fn casing() -> LogTable {
    let all = rows(
        "08:31|set, 54 in, 3/8 in wall|8.0|n/a|n/a|n/a|n/a|plumb by level, two sides
         13:05|pulled|4.0|0.6|1.4|1.3|2.6|
         13:16|out|0.0|1.4|1.9|1.8|n/a|0.3 yd³ topped up",
    );
    let columns = "Time:0.8 What<:2 Shoe/ft:0.9 Level~before/ft:1.1 Level~after/ft:1.1 Expected/ft:1 \
                   Head~over~shoe/ft:1.2 Remarks_:2.4";
    table("Casing", "", columns, all)
}
