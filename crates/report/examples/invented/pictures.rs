//! Simple drawings that take the room real ones will take.

use report::{Drawing, Room};

pub(crate) fn sheet() -> Drawing {
    let mut body = String::new();
    for hour in 0..=11 {
        let x = 60 + hour * 60;
        body += &line((x, 20), (x, 340));
        body += &letters((x, 14), "middle", &format!("{:02}:00", 7 + hour));
    }
    for depth in 0..=6 {
        let y = 30 + depth * 50;
        body += &line((60, y), (720, y));
        body += &letters((54, y + 3), "end", &format!("{} ft", depth * 10));
    }
    body += &curve("70,30 120,70 180,140 240,200 300,260 340,330");
    body += &curve("400,330 430,250 450,230 480,200 510,205 540,120 600,40");
    body += &letters((190, 130), "start", "tool runs");
    body += &letters((545, 150), "start", "concrete");
    let caption = "Depth down, time across. Left the hole, right the surface of the concrete.";
    drawing("The day in time and depth", caption, &svg((740, 350), &body), Room::Sheet)
}

pub(crate) fn all() -> Vec<Drawing> {
    let tall = svg((500, 640), &(curve("300,620 360,420 430,200 470,20") + &line((60, 20), (60, 620))));
    let round = svg((300, 260), "<circle cx='150' cy='130' r='100' fill='none' stroke='black'/>");
    let wide = svg((700, 240), &(curve("40,60 300,110 680,170") + &letters((320, 100), "start", "life")));
    vec![
        drawing("Section and volume curve", "Error bars are one standard error.", &tall, Room::Page),
        drawing("Base", "Sediment in inches at the points sounded.", &round, Room::Half),
        drawing("Cage", "Clear spacing 6.9 in.", &round, Room::Half),
        drawing("Slump against time", "Each line is the life of one load.", &wide, Room::Width),
        drawing("Fluid tests against limits", "Filled marks lie outside.", &wide, Room::Width),
        drawing("Position and plumb", "Seen from above, ten times larger.", &round, Room::Half),
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

pub(crate) fn svg((width, height): (u32, u32), body: &str) -> String {
    format!(
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 {width} {height}' \
         font-family='IBM Plex Sans' font-size='9'>{body}</svg>"
    )
}

fn line(from: (u32, u32), to: (u32, u32)) -> String {
    format!("<line x1='{}' y1='{}' x2='{}' y2='{}' stroke='#999'/>", from.0, from.1, to.0, to.1)
}

fn curve(points: &str) -> String {
    format!("<polyline points='{points}' fill='none' stroke='black' stroke-width='2'/>")
}

fn letters(at: (u32, u32), anchor: &str, text: &str) -> String {
    format!("<text x='{}' y='{}' text-anchor='{anchor}'>{text}</text>", at.0, at.1)
}
