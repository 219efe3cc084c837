//! What comes by a device that was let go: kept, marked, in no record until somebody lets it in with a reason.

use crate::office::{Office, lines, pairing, remarks};
use store::Store;
use testkit::JOB;
use wire::http::{Paired, Pushed, State};

/// States and refusals of an answer, a word each.
fn words(pushed: &Pushed) -> Vec<String> {
    let word = |answer: &wire::http::LineAnswer| match (&answer.state, &answer.refusal) {
        (State::Stored, _) => "stored".to_owned(),
        (State::Known, _) => "known".to_owned(),
        (State::Refused, refusal) => refusal.as_ref().expect("a reason").code.clone(),
    };
    pushed.answers.iter().map(word).collect()
}

fn in_the_record(office: &Office) -> usize {
    office.store().record(JOB).expect("read").len()
}

/// A tablet loses its right while it is out of reach, goes on writing, and comes back.
#[test]
fn a_tablet_let_go_while_it_was_away_loses_nothing_and_merges_nothing() {
    let office = Office::open();
    let (away, other) = (office.pair(1), office.pair(2));
    let all = remarks(1, 5);
    assert_eq!(words(&office.push(&away, &lines(&all[..2]))), ["stored"; 2]);
    assert_eq!(office.ask("POST /desk/devices/1/let-go", None, b"").status, 303);

    // It meets the desk again: what is known is known, what is new is set aside, and it is told so.
    assert_eq!(
        words(&office.push(&away, &lines(&all))),
        ["known", "known", "set-aside", "set-aside", "set-aside"]
    );
    assert_eq!(words(&office.push(&away, &lines(&all[2..]))), ["set-aside"; 3], "as often as it comes");
    assert_eq!(in_the_record(&office), 2);
    let pulled = office.get(&format!("/api/v1/entries?job={JOB}"), &other).text();
    assert_eq!(pulled.lines().count(), 2, "no other tablet sees it");

    // The desk shows it, marked, and asks for a reason.
    assert!(office.ask("GET /desk", None, b"").text().contains("3 of J-1"));
    let page = office.ask("GET /desk/jobs/J-1/aside", None, b"").text();
    assert!(page.contains("Rig 1, let go") && page.matches("after it was let go").count() == 3, "{page}");
    let let_in = |body: &[u8]| office.ask("POST /desk/jobs/J-1/aside/let-in", None, body);
    assert_eq!(let_in(b"device=1&up_to=2&reason=++").refusal().code, "malformed");
    assert_eq!(in_the_record(&office), 2);
    assert_eq!(let_in(b"device=1&up_to=2&reason=Seen+with+the+crew.").status, 303);
    assert_eq!(in_the_record(&office), 4);
    let pulled = office.get(&format!("/api/v1/entries?job={JOB}"), &other).text();
    assert_eq!(
        pulled.lines().collect::<Vec<_>>(),
        lines(&all[..4]).lines().collect::<Vec<_>>(),
        "byte for byte"
    );

    // Paired again it goes on; what is still aside stays so until it is let in.
    let code = office.desk().new_code().expect("a code").text;
    let answer = office.ask("POST /api/v1/pair", None, &pairing(&code, 1));
    let back: Paired = serde_json::from_slice(&answer.bytes).expect("paired");
    assert_eq!(words(&office.push(&back.token, &lines(&all[..4]))), ["known"; 4]);
    assert_eq!(words(&office.push(&back.token, &lines(&all[4..]))), ["set-aside"], "not by pairing alone");
}

/// Its entries do not come in through another tablet either, once it named its key.
#[test]
fn what_it_wrote_is_set_aside_whoever_carries_it() {
    let office = Office::open();
    let (lost, carrier) = (office.pair(1), office.pair(2));
    let own = testkit::key(1).device();
    let all = remarks(1, 3);
    let head = format!("POST /api/v1/entries\nshaftbook-own-key: {own}");
    assert_eq!(office.ask(&head, Some(&lost), lines(&all[..1]).as_bytes()).status, 200);
    assert_eq!(office.ask("POST /desk/devices/1/let-go", None, b"").status, 303);
    let both = lines(&all) + &lines(&remarks(2, 1));
    assert_eq!(words(&office.push(&carrier, &both)), ["known", "set-aside", "set-aside", "stored"]);
    assert!(office.ask("GET /desk/jobs/J-1/aside", None, b"").text().contains("Rig 1, let go"));
}

/// The photos of what is set aside are taken in, so that nothing of it is lost.
#[test]
fn its_photos_are_kept() {
    let office = Office::open();
    let lost = office.pair(1);
    assert_eq!(office.ask("POST /desk/devices/1/let-go", None, b"").status, 303);
    let photo = b"a picture of the ticket";
    let hash = record::entry::FileHash(wire::sha256(photo));
    assert_eq!(office.ask(&format!("PUT /api/v1/photos/{hash}"), Some(&lost), photo).status, 204);
    assert_eq!(office.get(&format!("/api/v1/photos/{hash}"), &lost).refusal().code, "not-paired");
}

/// Virtual tablets that write, are let go, meet the desk and carry each other's entries, in an order drawn from a seed:
/// whatever happens, no entry is lost, and none that first came after its device was let go is in the record.
#[test]
fn whatever_happens_nothing_is_lost_and_nothing_comes_in_unasked() {
    for seed in 0..12_u64 {
        season(seed);
    }
}

/// What a season knows of a tablet.
#[derive(Clone, Copy, Default)]
struct Seen {
    sent: usize,
    named: bool,
    gone: bool,
}

fn season(seed: u64) {
    let office = Office::open();
    let mut chance = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
    let mut below = |most: u64| {
        chance ^= chance << 13;
        chance ^= chance >> 7;
        chance ^= chance << 17;
        (chance % most) as usize
    };
    let tokens: Vec<String> = (1..=3).map(|number| office.pair(number)).collect();
    let written: Vec<_> = (1..=3).map(|number| remarks(number, 8)).collect();
    let (mut seen, mut stored, mut aside) = ([Seen::default(); 3], 0, 0);
    for _ in 0..30 {
        let (tablet, carrier) = (below(3), below(3));
        if below(12) == 0 {
            seen[tablet].gone = true;
            office.ask(&format!("POST /desk/devices/{}/let-go", tablet + 1), None, b"");
        } else if seen[tablet].sent < 8 {
            let own = testkit::key(tablet as u8 + 1).device();
            let said = if tablet == carrier { format!("\nshaftbook-own-key: {own}") } else { String::new() };
            seen[tablet].named |= tablet == carrier;
            let line = lines(&written[tablet][seen[tablet].sent..=seen[tablet].sent]);
            let head = format!("POST /api/v1/entries{said}");
            let answer = office.ask(&head, Some(&tokens[carrier]), line.as_bytes());
            let word = words(&serde_json::from_slice(&answer.bytes).expect("answers")).remove(0);
            let out = seen[carrier].gone || (seen[tablet].gone && seen[tablet].named);
            assert_eq!(word, if out { "set-aside" } else { "stored" }, "seed {seed}");
            *(if out { &mut aside } else { &mut stored }) += 1;
            seen[tablet].sent += 1;
        }
    }
    let store = office.store();
    let kept = store::SetAside::aside(&store, JOB, 0, 1000).expect("asked").len();
    assert_eq!((store.record(JOB).expect("read").len(), kept), (stored, aside), "seed {seed}");
}
