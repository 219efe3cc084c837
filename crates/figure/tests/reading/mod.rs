//! Reads a drawing back, without the code that wrote it: shapes as points, texts as boxes.
//!
//! Widths of texts come from the font files through `ttf-parser`, not from our own table.

#![allow(dead_code, unreachable_pub, missing_docs, reason = "shared by several tests, each uses a part")]

use figure::FONTS;

/// One text of a drawing and the room it takes.
#[derive(Debug, Clone)]
pub struct Text {
    pub words: String,
    pub class: String,
    pub size: f64,
    pub room: [f64; 4],
}

impl Text {
    pub fn overlaps(&self, other: &Text) -> bool {
        let slack = 0.3;
        let ([ax, ay, ar, ab], [bx, by, br, bb]) = (self.room, other.room);
        ax + slack < br && bx + slack < ar && ay + slack < bb && by + slack < ab
    }
}

/// Width and height of the page.
pub fn page(svg: &str) -> (f64, f64) {
    let numbers = numbers(attribute(svg.lines().next().expect("a line"), "viewBox").expect("a view box"));
    (numbers[2], numbers[3])
}

/// Every text with its room.
pub fn texts(svg: &str) -> Vec<Text> {
    svg.lines().filter(|line| line.starts_with("<text ")).map(text).collect()
}

fn text(line: &str) -> Text {
    let number = |name: &str| attribute(line, name).expect("the attribute").parse::<f64>().expect("a number");
    let (x, y, size) = (number("x"), number("y"), number("font-size"));
    let words = line.split_once('>').expect("an end").1.trim_end_matches("</text>");
    let words = words.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&");
    let width = width(&words, line) * size;
    let shift = match attribute(line, "text-anchor") {
        Some("middle") => width / 2.0,
        Some("end") => width,
        _ => 0.0,
    };
    let flat = [x - shift, y - 0.7 * size, x - shift + width, y + 0.2 * size];
    let upward = attribute(line, "transform").is_some();
    let room = if upward { [x - 0.7 * size, y - width + shift, x + 0.2 * size, y + shift] } else { flat };
    Text { words, class: attribute(line, "class").unwrap_or_default().to_owned(), size, room }
}

/// Width in ems, from the font file the attributes of the text name.
fn width(words: &str, line: &str) -> f64 {
    let file = match (attribute(line, "font-weight"), attribute(line, "font-style")) {
        (Some(_), _) => 1,
        (_, Some(_)) => 2,
        _ => 0,
    };
    let face = ttf_parser::Face::parse(FONTS[file].1, 0).expect("a font");
    let advance = |c: char| face.glyph_index(c).and_then(|g| face.glyph_hor_advance(g)).unwrap_or(1000);
    words.chars().map(|c| f64::from(advance(c))).sum::<f64>() / 1000.0
}

/// Every point of every shape.
pub fn points(svg: &str) -> Vec<(f64, f64)> {
    svg.lines().flat_map(shape).collect()
}

fn shape(line: &str) -> Vec<(f64, f64)> {
    let number = |name: &str| attribute(line, name).and_then(|text| text.parse::<f64>().ok());
    if line.starts_with("<rect") {
        let (x, y) = (number("x").expect("x"), number("y").expect("y"));
        return vec![(x, y), (x + number("width").expect("w"), y + number("height").expect("h"))];
    }
    if line.starts_with("<circle") {
        let (x, y, r) = (number("cx").expect("x"), number("cy").expect("y"), number("r").expect("r"));
        return vec![(x - r, y - r), (x + r, y + r)];
    }
    attribute(line, "d").map(path).unwrap_or_default()
}

/// Ends of the strokes of a path of `M`, `L`, `A`, `h` and `Z`.
fn path(data: &str) -> Vec<(f64, f64)> {
    let mut points = Vec::new();
    for part in data.split_inclusive(|c: char| c.is_ascii_alphabetic()).collect::<Vec<_>>().windows(2) {
        let (command, arguments) =
            (part[0].chars().last(), numbers(part[1].trim_end_matches(char::is_alphabetic)));
        match command {
            Some('M' | 'L') => points.push((arguments[0], arguments[1])),
            Some('A') => points.push((arguments[5], arguments[6])),
            _ => {}
        }
    }
    points.extend(last_point(data));
    points
}

fn last_point(data: &str) -> Option<(f64, f64)> {
    let at = data.rfind(['M', 'L'])?;
    let tail = numbers(data[at + 1..].split(|c: char| c.is_alphabetic()).next()?);
    Some((tail[0], tail[1]))
}

fn numbers(text: &str) -> Vec<f64> {
    text.split_whitespace().map(|part| part.parse().unwrap_or_else(|_| panic!("no number: {part}"))).collect()
}

pub fn attribute<'a>(line: &'a str, name: &str) -> Option<&'a str> {
    let start = line.find(&format!(" {name}=\""))? + name.len() + 3;
    line[start..].split('"').next()
}

/// Fails when the drawing has a flaw.
#[track_caller]
pub fn check_sound(name: &str, svg: &str) {
    if let Some(flaw) = flaw(svg) {
        panic!("{name}: {flaw}");
    }
}

/// The first thing that runs, number that is none, point off the page, or label over another; nothing when the drawing is sound.
pub fn flaw(svg: &str) -> Option<String> {
    let alive = (!figure::is_drawing(svg)).then(|| "something in it runs, or restyles a page".to_owned());
    alive.or_else(|| no_number(svg)).or_else(|| off_the_page(svg)).or_else(|| bad_text(svg))
}

fn no_number(svg: &str) -> Option<String> {
    let shapes = svg
        .lines()
        .filter(|line| line.starts_with('<') && !line.starts_with("<t") && !line.starts_with("<d"));
    let bad =
        |line: &&str| line.split('"').skip(1).step_by(2).any(|v| v.contains("NaN") || v.contains("inf"));
    shapes.into_iter().find(bad).map(str::to_owned)
}

fn off_the_page(svg: &str) -> Option<String> {
    let (width, height) = page(svg);
    let inside =
        |(x, y): &(f64, f64)| (-0.11..=width + 0.11).contains(x) && (-0.11..=height + 0.11).contains(y);
    let line = svg.lines().find(|line| !shape(line).iter().all(inside))?;
    Some(format!("a point lies outside {width} × {height}: {line}"))
}

fn bad_text(svg: &str) -> Option<String> {
    let (width, height) = page(svg);
    let texts = texts(svg);
    for (k, text) in texts.iter().enumerate() {
        let [left, top, right, bottom] = text.room;
        if left < -0.5 || top < -0.5 || right > width + 0.5 || bottom > height + 0.5 {
            return Some(format!("`{}` leaves the page {width} × {height}: {:?}", text.words, text.room));
        }
        if text.size < 7.0 {
            return Some(format!("`{}` is set smaller than 7 points", text.words));
        }
        if let Some(other) = texts[..k].iter().find(|other| other.overlaps(text)) {
            return Some(format!(
                "`{}` {:?} covers `{}` {:?}",
                text.words, text.room, other.words, other.room
            ));
        }
    }
    None
}
