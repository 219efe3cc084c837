//! Simple drawings that take the room real ones will take.

use report::{Drawing, Room};

pub(crate) fn sheet() -> Drawing {
    let mut lines = String::new();
    for hour in 0..=11 {
        let x = 60 + hour * 60;
        lines += &format!(
            "<line x1='{x}' y1='20' x2='{x}' y2='340' stroke='#999' stroke-width='0.5'/><text x='{x}' y='14' font-size='9' text-anchor='middle'>{:02}:00</text>",
            7 + hour
        );
    }
    for depth in 0..=6 {
        let y = 30 + depth * 50;
        lines += &format!(
            "<line x1='60' y1='{y}' x2='720' y2='{y}' stroke='#999' stroke-width='0.5'/><text x='54' y='{}' font-size='9' text-anchor='end'>{} ft</text>",
            y + 3,
            depth * 10
        );
    }
    let curve = "<polyline points='70,30 120,70 180,140 240,200 300,260 340,330' fill='none' stroke='black' stroke-width='2'/><polyline points='400,330 430,250 450,230 480,200 510,205 540,120 600,40' fill='none' stroke='black' stroke-width='2' stroke-dasharray='6 3'/><text x='190' y='130' font-size='10'>tool runs</text><text x='545' y='150' font-size='10'>concrete</text>";
    drawing(
        "The day in time and depth",
        "Depth down, time across. Solid: the hole. Dashed: the surface of the concrete.",
        &format!(
            "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 740 350' font-family='IBM Plex Sans'>{lines}{curve}</svg>"
        ),
        Room::Width,
    )
}

pub(crate) fn all() -> Vec<Drawing> {
    let tall = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 500 640' font-family='IBM Plex Sans'><rect x='60' y='20' width='120' height='600' fill='none' stroke='black'/><polyline points='300,620 360,420 430,200 470,20' fill='none' stroke='black' stroke-width='2'/><text x='80' y='60' font-size='12'>sand seam</text></svg>";
    let round = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 300 260' font-family='IBM Plex Sans'><circle cx='150' cy='130' r='100' fill='none' stroke='black' stroke-width='2'/><circle cx='150' cy='130' r='86' fill='none' stroke='black' stroke-dasharray='4 3'/><text x='150' y='26' font-size='11' text-anchor='middle'>N</text></svg>";
    let wide = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 700 240' font-family='IBM Plex Sans'><line x1='40' y1='200' x2='680' y2='200' stroke='black'/><polyline points='40,60 300,110 680,170' fill='none' stroke='black' stroke-width='2'/><text x='320' y='100' font-size='11'>life of load 1</text></svg>";
    vec![
        drawing(
            "Section and volume curve",
            "One depth axis. Error bars are one standard error.",
            tall,
            Room::Page,
        ),
        drawing("Base", "Sediment in inches at the points sounded.", round, Room::Half),
        drawing("Cage", "Clear spacing 6.9 in.", round, Room::Half),
        drawing("Slump against time", "Each line is the life of one load.", wide, Room::Width),
        drawing("Fluid tests against limits", "Filled marks lie outside.", wide, Room::Width),
        drawing("Position and plumb", "Seen from above, ten times larger.", round, Room::Half),
    ]
}

pub(crate) fn drawing(title: &str, caption: &str, svg: &str, room: Room) -> Drawing {
    Drawing {
        title: title.into(),
        caption: caption.into(),
        alt: format!("{title}. {caption}"),
        svg: svg.into(),
        room,
    }
}
