//! A shaft is sealed, handed over as one file, and proved by somebody who has nothing but that file.

#[allow(dead_code, reason = "each test program uses its own part of the desk")]
mod desk;
#[path = "seal/forger.rs"]
mod forger;
#[path = "seal/job.rs"]
mod job;

use desk::{Desk, notes, remark};
use forger::Forger;
use job::{SIGNED, demo_job, seal, sealed_job};

/// A remark somebody has still to make.
fn late(text: &str) -> String {
    format!(
        "[job]\nkey = \"harrow-vale\"\n\n[[day]]\ndate = 2025-06-20\nshaft = \"S-1\"\nauthor = \"M. Oakes\"\n\
         device = \"laboratory\"\nlog = [\n{}]\n",
        remark("09:00", text)
    )
}

#[test]
fn a_shaft_is_sealed_when_all_have_signed_and_proves_itself_anywhere() {
    let desk = demo_job();
    seal(&desk, "S-1").ends(1).says("R. Quill signed as inspector before entry").says("has to sign again.");
    seal(&desk, "S-2")
        .ends(1)
        .says("The dispute about entry")
        .says("Nobody has signed as engineer.")
        .says("The shaft cannot be sealed yet; nothing was written.");
    assert!(desk.files().iter().all(|name| !name.ends_with(".pdf")));
    desk.write("signed.toml", SIGNED);
    desk.says("enter signed.toml --job j").ends(0);
    seal(&desk, "S-1").ends(0).says("Shaft S-1 is sealed: 123 entries under the root");
    // Somebody else, with the file alone.
    let stranger = Desk::new();
    std::fs::copy(desk.path("S-1-sealed.pdf"), stranger.path("package.pdf")).expect("copied");
    let told = stranger.says("verify package.pdf").ends(0);
    let told = told.says("Shaft S-1 of harrow-vale, sealed by I. Vane");
    let told = told.says(
        "Every id and signature inside is good, no entry is missing, and the pages are the sealed ones.",
    );
    told.says("Drawn again from the entries inside, the file is the same byte for byte.");
    let proof = stranger.says("verify package.pdf --json").ends(0).json();
    assert_eq!((&proof["drawn_again"], &proof["entries"]), (&"same".into(), &123.into()), "{proof}");
    assert_eq!(proof["faults"], serde_json::json!([]));
}

/// A package that was lost is made again; nothing more is entered for it.
#[test]
fn sealed_again_with_nothing_new_it_is_the_same_file() {
    let desk = sealed_job();
    let first = std::fs::read(desk.path("S-1-sealed.pdf")).expect("the package");
    let digest = desk.says("verify j --json").json()["digest"].clone();
    std::fs::remove_file(desk.path("S-1-sealed.pdf")).expect("lost");
    seal(&desk, "S-1").ends(0).says("The shaft is sealed already and nothing came after it");
    assert_eq!(std::fs::read(desk.path("S-1-sealed.pdf")).expect("the package"), first);
    assert_eq!(desk.says("verify j --json").json()["digest"], digest);
}

/// What a forger did, and a part of every sentence that has to name it.
#[track_caller]
fn caught(desk: &Desk, what: &str, forged: &Forger, named: &[&str]) {
    std::fs::write(desk.path("forged.pdf"), &forged.bytes).expect("written");
    let mut did = desk.says("verify forged.pdf");
    assert_eq!(did.exit, 4, "{what}: {}{}", did.out, did.err);
    assert!(!did.out.contains("is good"), "{what} is told to be good: {}", did.out);
    for named in named {
        did = did.says(named);
    }
    did.says("it proves nothing.");
}

#[test]
fn a_forged_package_is_refused_and_what_differs_is_named() {
    let desk = sealed_job();
    let sealed = std::fs::read(desk.path("S-1-sealed.pdf")).expect("the package");
    let forger = || Forger::of(&sealed);

    let mut one = forger();
    let contents = one.between("/StructParents 30/Tabs/S/Parent 1 0 R/Contents ", " ");
    let at = one.find(&format!("\n{contents} 0 obj"));
    let stream =
        at + one.bytes[at..].windows(7).position(|window| window == b"stream\n").expect("a stream") + 7;
    one.bytes[stream + 40] ^= 1;
    caught(&desk, "one byte of a page", &one, &["page 2 does not draw what was sealed"]);

    let mut swapped = forger();
    let pages = swapped.between("/Kids[", "]");
    let mut kids: Vec<&str> = pages.split(" R").collect();
    kids.swap(1, 2);
    swapped.put(&pages, &kids.join(" R"));
    let named = ["page 2 is the one sealed as page 3", "page 3 is the one sealed as page 2"];
    caught(&desk, "two pages swapped", &swapped, &named);

    let mut fewer = forger();
    let (pages, kids) = (fewer.between("/Kids[", "]"), fewer.between("/Kids[", " R"));
    fewer.put(&pages, &(pages.replacen(&format!("{kids} R "), "", 1) + &" ".repeat(kids.len() + 3)));
    caught(&desk, "a page taken out", &fewer, &["18 pages were sealed, 17 are there"]);

    let mut foreign = forger();
    foreign.add_file("invoice.txt");
    let named = [
        "the file \"invoice.txt\" inside was not sealed",
        "something was put into the file after it was sealed",
    ];
    caught(&desk, "a file more", &foreign, &named);

    let mut title = forger();
    title.put("Harrow Vale", "Harrow Dale");
    caught(
        &desk,
        "the title in the file's own words",
        &title,
        &["the file around them is not, byte for byte"],
    );

    let mut behind = forger();
    behind.bytes.extend(b"\n% nothing at all\n");
    caught(
        &desk,
        "a comment behind the end",
        &behind,
        &["something was put into the file after it was sealed"],
    );
}

#[test]
fn a_forged_record_inside_is_refused_and_what_differs_is_named() {
    let desk = sealed_job();
    let sealed = std::fs::read(desk.path("S-1-sealed.pdf")).expect("the package");
    desk.says("export record --out all.jsonl --job j").ends(0);
    let proof = desk.says("verify S-1-sealed.pdf --json").json();
    let whole = inside(&desk, "S-1-sealed.pdf");
    let lines: Vec<&str> = whole.lines().collect();
    assert_eq!(lines.len(), 123);
    let with = |lines: &[&str]| {
        let mut forger = Forger::of(&sealed);
        forger.replace_file("record.jsonl", &(lines.join("\n") + "\n"));
        forger
    };

    // One digit of one reading.
    let altered = whole.replacen("5110 psi", "6110 psi", 1);
    assert_ne!(altered, whole);
    let mut forger = Forger::of(&sealed);
    forger.replace_file("record.jsonl", &altered);
    caught(&desk, "one byte of an entry", &forger, &["in the record inside, line", "it was altered"]);

    // An entry fewer, from the middle of a device's chain; nothing in the chain of this part tells it.
    let fewer: Vec<&str> = lines.iter().copied().filter(|line| !line.contains("5110 psi")).collect();
    let named = [
        "123 entries were sealed, 122 are inside",
        "the entries inside are not the sealed ones: their root is",
    ];
    caught(&desk, "an entry fewer", &with(&fewer), &named);

    // A genuine entry of another shaft in the place of one that was taken out: the count is right.
    let all = desk.read("all.jsonl");
    let other =
        all.lines().find(|line| line.contains("\"shaft\":\"S-3\"") && !whole.contains(*line)).expect("one");
    let named = ["the entries inside are not the sealed ones: their root is"];
    caught(&desk, "another entry in its place", &with(&[&fewer[..], &[other]].concat()), &named);

    // No record at all, and no seal.
    let mut none = Forger::of(&sealed);
    none.put("(record.jsonl)4", "(record.jsonx)4");
    std::fs::write(desk.path("none.pdf"), &none.bytes).expect("written");
    desk.says("verify none.pdf").ends(4).says("the file record.jsonl is missing inside it");
    assert_eq!(proof["pages"], 18);
}

/// The file of entries inside a package, as a general reader of PDF takes it out.
fn inside(desk: &Desk, name: &str) -> String {
    let bytes = std::fs::read(desk.path(name)).expect("the package");
    seal::Paper::read(&bytes).expect("a package").record.expect("a record inside")
}

/// Sixty places over the whole file: whatever byte is touched, the package is refused.
#[test]
fn no_byte_can_be_touched() {
    let desk = sealed_job();
    let sealed = std::fs::read(desk.path("S-1-sealed.pdf")).expect("the package");
    for step in 0..60 {
        let mut forged = sealed.clone();
        let at = (step * sealed.len() / 60 + 97 * step) % sealed.len();
        forged[at] ^= 0x5a;
        let held = seal::prove(&forged).is_ok_and(|proof| proof.faults.is_empty());
        assert!(!held, "byte {at} of {} was touched and nobody sees it", sealed.len());
    }
    for length in [0, 1, 100, sealed.len() / 2, sealed.len() - 1] {
        let held = seal::prove(&sealed[..length]).is_ok_and(|proof| proof.faults.is_empty());
        assert!(!held, "{length} bytes of it prove themselves");
    }
}

/// What arrives after the seal is a supplement wherever the shaft is shown, and the sealed package stays what it was.
#[test]
fn late_entries_open_a_visible_supplement() {
    let desk = sealed_job();
    let sealed = std::fs::read(desk.path("S-1-sealed.pdf")).expect("the package");
    let nothing = "nothing came after it.";
    desk.says("check S-1 --job j").ends(0).says("Sealed").says(nothing);
    desk.write("late.toml", &late("one cylinder was kept for 90 d"));
    desk.says("enter late.toml --job j").ends(0);
    let supplement = "1 entry came after it and is a supplement, not under the seal.";
    desk.says("check S-1 --job j").ends(0).says(supplement);
    let log = desk.says("log S-1 --job j").ends(0).says("Supplement, not under this seal:");
    log.says("M. Oakes, remark: one cylinder was kept for 90 d");
    let told = desk.says("check S-1 --json --job j").json();
    assert_eq!(told["sealed"]["supplement"].as_array().map(Vec::len), Some(1), "{}", told["sealed"]);
    assert_eq!(told["sealed"]["entries"], 123);
    // The sealed file proves itself as before; another shaft knows nothing of it.
    desk.says("verify S-1-sealed.pdf").ends(0);
    assert!(desk.says("check S-3 --json --job j").json()["sealed"].is_null());
    // The engineer did not sign for it: it is not sealed until somebody does.
    seal(&desk, "S-1").ends(1).says("I. Vane signed as engineer before entry");
    desk.write(
        "again.toml",
        &late("x")
            .replace(
                &remark("09:00", "x"),
                "  { at = \"11:00\", entry = \"signed\", name = \"I. Vane\", role = \"engineer\" },\n",
            )
            .replace("M. Oakes", "I. Vane")
            .replace("laboratory", "office"),
    );
    desk.says("enter again.toml --job j").ends(0);
    desk.run(&["seal", "S-1", "--by", "I. Vane", "--job", "j", "--out", "second.pdf"]).ends(0);
    desk.says("verify second.pdf").ends(0).says("Root over 128 entries");
    desk.says("check S-1 --job j").says(nothing);
    assert_eq!(std::fs::read(desk.path("S-1-sealed.pdf")).expect("the package"), sealed);
    desk.says("verify S-1-sealed.pdf").ends(0).says("Root over 123 entries");
}

#[test]
fn a_package_that_was_not_sealed_and_a_file_that_is_none_say_so() {
    let desk = demo_job();
    desk.says("package S-3 --out pages --job j").ends(0);
    desk.says("verify pages/S-3.pdf")
        .ends(1)
        .says("it holds no record and no seal")
        .says("it proves nothing");
    desk.write("notes.pdf", "this is no PDF");
    desk.says("verify notes.pdf").ends(4).says("it is no PDF, or too damaged to be read");
}

/// A finding that fails and waits for a decision is not sealed over by mistake.
#[test]
fn open_findings_stand_in_the_way_unless_they_are_meant_to() {
    let desk = Desk::new();
    let lines = "  { at = \"09:00\", entry = \"casing_set\", name = \"surface\", stay = \"temporary\", length = \"6 ft\", top = \"100.2 ft\" },\n\
                 \x20 { at = \"10:00\", entry = \"signed\", name = \"A. Fenwick\", role = \"inspector\" },\n\
                 \x20 { at = \"10:05\", entry = \"signed\", name = \"A. Fenwick\", role = \"engineer\" },\n";
    desk.write("day.toml", &notes(lines));
    desk.says("enter day.toml --job j").ends(0);
    seal(&desk, "S-1").ends(5).says("nobody has decided about").says("nothing was written");
    desk.run(&["seal", "S-1", "--by", "I. Vane", "--with-open-findings", "--job", "j"]).ends(0);
    desk.says("verify S-1-sealed.pdf").ends(0);
}

/// Nobody types a seal: it is made of what was sealed.
#[test]
fn a_seal_cannot_be_written_by_hand() {
    let desk = Desk::new();
    let line =
        "  { at = \"08:00\", entry = \"shaft_sealed\", paper = \"a4\", program = \"p\", entries = 3 },\n";
    desk.write("day.toml", &notes(line));
    desk.says("enter day.toml --job j").ends(3).says("shaftbook seal");
}
