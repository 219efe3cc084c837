//! What waits for a person is listed with the line that settles it, and is gone once the line was entered.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;

use desk::{Desk, notes, remark};

/// A shaft with a casing that stands too low, a hold, and a remark somebody asks about.
fn job() -> Desk {
    let desk = Desk::new();
    desk.says("begin j").ends(0);
    let lines = "  { at = \"09:00\", entry = \"casing_set\", name = \"surface\", stay = \"temporary\", length = \"6 ft\", top = \"100.2 ft\" },\n\
                 \x20 { at = \"09:30\", entry = \"hold_placed\", hold = \"concrete\", reason = \"the mix is not approved\" },\n"
        .to_owned()
        + &remark("10:00", "water at 12 ft")
        + &remark("10:05", "strong smell");
    desk.write("day.toml", &notes(&lines));
    desk.says("enter day.toml --job j").ends(0);
    let about = of_kind(&desk, "remark");
    let ask = format!(
        "  {{ at = \"11:00\", entry = \"question_asked\", about = \"{about}\", question = \"which water level is meant?\", to = \"A. Fenwick\" }},\n\
         \x20 {{ at = \"11:05\", entry = \"comment\", about = \"{about}\", text = \"our sheet says 11.5 ft\" }},\n"
    );
    enter(&desk, "ask.toml", "D. Pike", &ask);
    desk
}

/// The first digits of the first entry of a kind.
fn of_kind(desk: &Desk, kind: &str) -> String {
    let log = desk.says("log S-1 --json --job j").ends(0).json();
    let line = log.as_array().expect("a list").iter().find(|line| line["kind"] == kind).expect("one").clone();
    line["entry"].as_str().expect("an id")[..8].to_owned()
}

fn enter(desk: &Desk, name: &str, author: &str, lines: &str) {
    let head = "[job]\nkey = \"test-job\"\n\n[[day]]\ndate = 2026-05-05\nshaft = \"S-1\"\n";
    desk.write(name, &format!("{head}author = \"{author}\"\nlog = [\n{lines}]\n"));
    desk.says(&format!("enter {name} --job j")).ends(0);
}

/// The line of the list that settles a kind of thing, as it was printed, with its blanks filled in.
fn line(desk: &Desk, kind: &str, fields: &[(&str, &str)]) -> String {
    let told = desk.says("open-items --job j").ends(0).out;
    let found = told.lines().find(|line| line.contains(&format!("entry = \"{kind}\"")));
    let line = found.unwrap_or_else(|| panic!("{kind}: {told}")).trim().to_owned() + "\n";
    let filled = fields.iter().fold(line, |line, (name, text)| {
        line.replace(&format!("{name} = \"\""), &format!("{name} = \"{text}\""))
    });
    filled.replace("at = \"\"", "at = \"12:00\"")
}

#[test]
fn what_waits_is_settled_by_the_lines_that_stand_under_it() {
    let desk = job();
    let told = desk.says("open-items --job j").ends(0).says("Shaft S-1: 3 open items");
    told.says("To decide, the engineer:").says("Hold: concrete").says("which water level is meant?");
    let told = desk.says("open-items S-1 --json --job j").ends(0).json();
    let items = told[0]["items"].as_array().expect("a list").clone();
    let words: Vec<&str> = items.iter().map(|item| item["open"]["is"].as_str().expect("a word")).collect();
    assert_eq!(words, ["finding", "hold", "asked"]);
    assert_eq!(items[2]["waits_for"]["person"], "A. Fenwick");
    assert_eq!(items[0]["waits_for"]["part"], "engineer");
    let decision = [("decision", "accepted"), ("reason", "firm ground"), ("by", "I. Vane")];
    let lines = line(&desk, "finding_disposed", &decision)
        + &line(&desk, "hold_released", &[("by", "I. Vane")])
        + &line(&desk, "question_answered", &[("answer", "the groundwater")]);
    enter(&desk, "settled.toml", "I. Vane", &lines);
    desk.says("open-items --job j")
        .ends(0)
        .says("Nothing waits for a decision, a release, an answer or a signature.");
    desk.says("check --strict --job j").ends(0).says("firm ground");
}

/// Whatever was decided and asked, what the inspector wrote stands as it was.
#[test]
fn a_comment_and_a_question_alter_nothing() {
    let desk = job();
    let log = desk.says("log S-1 --json --job j").ends(0).json();
    let remarks = log.as_array().expect("a list").iter().filter(|line| line["kind"] == "remark");
    let standing: Vec<_> =
        remarks.map(|line| (line["body"]["text"].clone(), line["standing"]["is"].clone())).collect();
    let expected = ["water at 12 ft", "strong smell"].map(|text| (text.into(), "stands".into()));
    assert_eq!(standing, expected);
    desk.says("log S-1 --job j").ends(0).says("our sheet says 11.5 ft");
}

/// A seal is refused as long as a hold is not released and a question not answered.
#[test]
fn what_waits_stands_in_the_way_of_a_seal() {
    let desk = job();
    let refused = desk.run(&["seal", "S-1", "--by", "I. Vane", "--job", "j"]).ends(1);
    refused
        .says("Nobody has released the hold “concrete”.")
        .says("Nobody has answered the question in entry");
}
