//! A tablet and the desk, one exchange after the other, told by hand.

use record::{Body, Entry, EntryId, Held, Record};
use sync::{Answer, Arrived, Ask, Doubt, Effect, FileFault, Kept, Status, Tablet, What};
use testkit::network::MemoryShelf;
use testkit::{JOB, Tablet as Pen, body};
use wire::LineFault;
use wire::http::{Code, JobState, LineAnswer, Pushed, Refusal, State};

fn remark(words: &str) -> Body {
    body("remark", &[("text", words)])
}

/// A tablet that has written so many entries.
fn tablet(entries: usize) -> (Tablet, Vec<Entry>) {
    let mut pen = Pen::new(1);
    let mut tablet = Tablet::resume(JOB, pen.device(), Kept::default(), &Record::new());
    let written: Vec<Entry> = (0..entries).map(|_| pen.write("10:41", remark("water at 12 ft"))).collect();
    for entry in &written {
        assert_eq!(tablet.wrote(&Held::Known(entry.clone())), []);
    }
    (tablet, written)
}

fn line(entry: &Entry) -> String {
    wire::write(&Held::Known(entry.clone()))
}

fn ids(entries: &[Entry]) -> Vec<EntryId> {
    entries.iter().map(|entry| entry.id).collect()
}

/// The next ask is a push of these entries; its number.
#[track_caller]
fn pushes(tablet: &mut Tablet, expected: &[Entry]) -> u64 {
    let ask = tablet.ask().expect("something to ask");
    assert_eq!(ask.what, What::Push { ids: ids(expected) });
    ask.number
}

/// The next ask is a pull after a cursor; its number.
#[track_caller]
fn pulls(tablet: &mut Tablet, expected: u64) -> u64 {
    match tablet.ask().expect("something to ask") {
        Ask { number, what: What::Pull { after, .. } } if after == expected => number,
        other => panic!("{other:?}"),
    }
}

fn answers(entries: &[Entry], state: State) -> Answer {
    let answer = |(entry, line): (&Entry, usize)| LineAnswer {
        id: Some(entry.id),
        line,
        state,
        refusal: None,
        notice: None,
    };
    Answer::Pushed(Pushed { answers: entries.iter().zip(1..).map(answer).collect(), cursor: 9 })
}

fn page(entries: &[Entry], cursor: u64, more: bool) -> Answer {
    Answer::Page { lines: entries.iter().map(line).collect(), cursor, more }
}

fn refused(code: &'static Code) -> Answer {
    Answer::Refused(Refusal::new(code, "No."))
}

#[test]
fn what_is_written_goes_first_then_the_desk_is_seen_to_its_end() {
    let (mut tablet, written) = tablet(2);
    assert_eq!(tablet.status(), Status::Behind { waiting: 2, fetching: true });
    let number = pushes(&mut tablet, &written);
    assert_eq!(tablet.ask(), None, "one ask at a time");
    let effects = tablet.heard(number, answers(&written, State::Stored));
    assert_eq!(effects, [Effect::Acknowledged { ids: ids(&written) }]);

    let other = Pen::new(2).write("10:42", remark("seen from the truck"));
    let number = pulls(&mut tablet, 0);
    let effects = tablet.heard(number, page(std::slice::from_ref(&other), 3, true));
    let arrived = Arrived { held: Held::Known(other.clone()), line: line(&other) };
    assert_eq!(effects, [Effect::Keep { entries: vec![arrived], cursor: 3 }]);
    let number = pulls(&mut tablet, 3);
    assert_eq!(tablet.heard(number, page(&[], 3, false)), [Effect::Keep { entries: vec![], cursor: 3 }]);
    assert_eq!((tablet.ask(), tablet.status()), (None, Status::InStep));
    assert_eq!(tablet.kept(), Kept { cursor: 3, ..Kept::default() });

    tablet.arrived(3);
    assert_eq!(tablet.ask(), None, "the desk told of nothing new");
    tablet.arrived(4);
    pulls(&mut tablet, 3);
}

#[test]
fn without_an_answer_everything_waits_and_the_wait_grows() {
    let (mut tablet, written) = tablet(1);
    for failures in 1..=4 {
        let number = pushes(&mut tablet, &written);
        tablet.lost(number);
        tablet.lost(number);
        assert_eq!(tablet.status(), Status::NoAnswer { waiting: 1, failures });
        assert_eq!(tablet.wait_ms(0), sync::wait_ms(failures, 0));
    }
    // Expected: 1 s, doubled three times, the certain half of it.
    assert_eq!(tablet.wait_ms(0), 4_000);
    let number = pushes(&mut tablet, &written);
    tablet.heard(number, answers(&written, State::Known));
    assert_eq!((tablet.wait_ms(7), tablet.waiting()), (0, 0));
}

#[test]
fn an_answer_that_comes_after_it_was_given_up_still_holds() {
    let (mut tablet, written) = tablet(1);
    let late = pushes(&mut tablet, &written);
    tablet.lost(late);
    let again = pushes(&mut tablet, &written);
    let effects = tablet.heard(late, answers(&written, State::Stored));
    assert_eq!(effects, [Effect::Acknowledged { ids: ids(&written) }]);
    assert_eq!(tablet.heard(late, answers(&written, State::Stored)), []);
    assert_eq!(tablet.heard(again, answers(&written, State::Known)), []);
    assert_eq!(tablet.heard(99, answers(&written, State::Stored)), [], "nothing was asked under 99");
}

#[test]
fn a_late_page_is_kept_and_moves_no_cursor() {
    let (mut tablet, _) = tablet(0);
    let late = pulls(&mut tablet, 0);
    tablet.lost(late);
    let other = Pen::new(2).write("10:42", remark("seen from the truck"));
    let effects = tablet.heard(late, page(std::slice::from_ref(&other), 8, false));
    assert!(
        matches!(&effects[..], [Effect::Keep { entries, cursor: 0 }] if entries.len() == 1),
        "{effects:?}"
    );
    pulls(&mut tablet, 0);
}

#[test]
fn a_doubled_answer_does_not_close_the_next_ask() {
    let (mut tablet, _) = tablet(0);
    let mut pen = Pen::new(2);
    let others = [pen.write("10:42", remark("a")), pen.write("10:43", remark("b"))];
    let first = pulls(&mut tablet, 0);
    tablet.heard(first, page(&others[..1], 1, true));
    let second = pulls(&mut tablet, 1);
    assert_eq!(tablet.heard(first, page(&others[..1], 1, true)), []);
    assert_eq!(tablet.open().map(|open| open.number), Some(second));
    let effects = tablet.heard(second, page(&others[1..], 2, false));
    assert!(
        matches!(&effects[..], [Effect::Keep { entries, cursor: 2 }] if entries.len() == 1),
        "{effects:?}"
    );
}

#[test]
fn an_own_entry_seen_at_the_desk_is_acknowledged() {
    let (mut tablet, written) = tablet(1);
    let number = pushes(&mut tablet, &written);
    // The desk kept it, its answer was lost, and its disk is full by now.
    tablet.heard(number, refused(Code::DESK_FULL));
    let number = pulls(&mut tablet, 0);
    let effects = tablet.heard(number, page(&written, 1, false));
    assert!(effects.contains(&Effect::Acknowledged { ids: ids(&written) }), "{effects:?}");
}

#[test]
fn a_refused_entry_is_kept_shown_and_not_sent_again() {
    let (mut tablet, written) = tablet(3);
    let number = pushes(&mut tablet, &written);
    let refusal = Refusal::new(Code::LINE_ALTERED, "This line is no entry.");
    let Answer::Pushed(mut pushed) = answers(&written, State::Stored) else { panic!("a push is answered") };
    // The desk could not even read the id of the second line.
    pushed.answers[1] =
        LineAnswer { id: None, line: 2, state: State::Refused, refusal: Some(refusal.clone()), notice: None };
    let effects = tablet.heard(number, Answer::Pushed(pushed));
    let stored = vec![written[0].id, written[2].id];
    let shown = Effect::Refused { id: written[1].id, refusal: refusal.clone() };
    assert_eq!(effects, [Effect::Acknowledged { ids: stored }, shown]);
    let number = pulls(&mut tablet, 0);
    tablet.heard(number, page(&[], 0, false));
    assert_eq!(tablet.ask(), None);

    // It is refused after a restart too, and goes out when a person wants it.
    let record = testkit::record(&written);
    let kept = Kept::of_text(&tablet.kept().to_text()).expect("our own text");
    let mut tablet = Tablet::resume(JOB, written[0].device, kept, &record);
    assert_eq!(tablet.refused().get(&written[1].id), Some(&refusal));
    pulls(&mut tablet, 0);
    tablet.lost(1);
    tablet.offer_refused();
    pushes(&mut tablet, &written[1..2]);
}

#[test]
fn the_entry_a_delivery_is_refused_for_is_found_by_halving() {
    let (mut tablet, written) = tablet(5);
    let mut refused_for = |expected: &[Entry]| {
        let number = pushes(&mut tablet, expected);
        tablet.heard(number, refused(Code::MALFORMED))
    };
    assert_eq!(refused_for(&written), []);
    assert_eq!(refused_for(&written[..2]), []);
    let effects = refused_for(&written[..1]);
    assert!(matches!(&effects[..], [Effect::Refused { id, .. }] if *id == written[0].id), "{effects:?}");
    // What goes through makes the next delivery larger again.
    let number = pushes(&mut tablet, &written[1..2]);
    tablet.heard(number, answers(&written[1..2], State::Stored));
    pushes(&mut tablet, &written[2..4]);
}

#[test]
fn a_delivery_is_bounded_by_count_and_by_bytes() {
    let (mut many, written) = tablet(201);
    pushes(&mut many, &written[..200]);

    let mut pen = Pen::new(1);
    let mut large = Tablet::resume(JOB, pen.device(), Kept::default(), &Record::new());
    // Lines of about 200,000 bytes: two are within 512 KiB, three are not. One above it goes alone.
    let sizes = [200_000, 200_000, 200_000, 600_000, 10];
    let written: Vec<Entry> =
        sizes.iter().map(|size| pen.write("10:41", remark(&"x".repeat(*size)))).collect();
    for entry in &written {
        large.wrote(&Held::Known(entry.clone()));
    }
    for bundle in [0..2, 2..3, 3..4, 4..5] {
        let number = pushes(&mut large, &written[bundle.clone()]);
        large.heard(number, answers(&written[bundle], State::Stored));
    }
}

#[test]
fn an_unpaired_tablet_keeps_writing_and_asks_nothing() {
    let (mut tablet, written) = tablet(1);
    let number = pushes(&mut tablet, &written);
    assert_eq!(tablet.heard(number, refused(Code::NOT_PAIRED)), []);
    assert_eq!((tablet.ask(), tablet.status()), (None, Status::NotPaired { waiting: 1 }));
    tablet.look();
    assert_eq!(tablet.ask(), None);
    tablet.paired();
    pushes(&mut tablet, &written);
}

#[test]
fn a_desk_that_takes_nothing_in_still_hands_out() {
    let (mut tablet, written) = tablet(1);
    let number = pushes(&mut tablet, &written);
    tablet.heard(number, refused(Code::DESK_FULL));
    let status = tablet.status();
    assert!(
        matches!(status, Status::PutOff { waiting: 1, failures: 1, ref refusal } if refusal.code == "desk-full")
    );
    let number = pulls(&mut tablet, 0);
    tablet.heard(number, page(&[], 0, false));
    assert_eq!(tablet.wait_ms(0), 500, "the next push waits all the same");
    let number = pushes(&mut tablet, &written);
    tablet.heard(number, refused(Code::DESK_FULL));
    assert_eq!(tablet.wait_ms(0), 1_000, "and longer each time");
}

#[test]
fn a_word_of_a_newer_desk_puts_the_delivery_off() {
    let (mut tablet, written) = tablet(1);
    let number = pushes(&mut tablet, &written);
    let refusal = Refusal { code: "on-strike".to_owned(), ..Refusal::new(Code::TOO_MANY, "No.") };
    assert_eq!(tablet.heard(number, Answer::Refused(refusal)), []);
    assert_eq!(tablet.waiting(), 1);
}

#[test]
fn a_forged_line_of_the_desk_is_asked_for_again_and_then_passed_over() {
    let (mut tablet, _) = tablet(0);
    let mut pen = Pen::new(2);
    let good = [pen.write("10:42", remark("seen")), pen.write("10:43", remark("seen again"))];
    let forged = line(&good[0]).replace("seen", "sewn");
    let bad_page = || Answer::Page { lines: vec![forged.clone(), line(&good[1])], cursor: 2, more: false };

    let number = pulls(&mut tablet, 0);
    let effects = tablet.heard(number, bad_page());
    assert!(
        matches!(&effects[..], [Effect::Keep { entries, cursor: 0 }] if entries.len() == 1),
        "{effects:?}"
    );
    assert_eq!(tablet.status(), Status::NoAnswer { waiting: 0, failures: 1 });

    let number = pulls(&mut tablet, 0);
    let doubted = Effect::Doubted { line: forged.clone(), doubt: Doubt::Fault(LineFault::IdDisagrees) };
    assert_eq!(tablet.heard(number, bad_page()), [Effect::Keep { entries: vec![], cursor: 2 }, doubted]);
    assert_eq!(tablet.status(), Status::InStep);
}

#[test]
fn an_entry_of_another_job_is_not_taken_in() {
    let (mut tablet, _) = tablet(0);
    let other = Pen::new(2).of_job("J-2").write("10:42", remark("elsewhere"));
    let number = pulls(&mut tablet, 0);
    tablet.heard(number, page(std::slice::from_ref(&other), 1, false));
    let number = pulls(&mut tablet, 0);
    let effects = tablet.heard(number, page(std::slice::from_ref(&other), 1, false));
    let doubted = Effect::Doubted { line: line(&other), doubt: Doubt::OtherJob("J-2".to_owned()) };
    assert_eq!(effects, [Effect::Keep { entries: vec![], cursor: 1 }, doubted]);
}

#[test]
fn a_page_that_leads_nowhere_is_no_answer() {
    let (mut tablet, _) = tablet(0);
    let number = pulls(&mut tablet, 0);
    assert_eq!(tablet.heard(number, page(&[], 0, true)), []);
    assert_eq!(tablet.status(), Status::NoAnswer { waiting: 0, failures: 1 });
    let number = pulls(&mut tablet, 0);
    assert_eq!(tablet.heard(number, Answer::Pushed(Pushed::default())), []);
    assert!(tablet.ask().is_some(), "an answer to something else is no answer");
}

#[test]
fn a_copied_tablet_is_noticed_by_itself_and_by_others() {
    let (mut tablet, written) = tablet(1);
    // The copy wrote its first entry at another minute.
    let copy = Pen::new(1).write("10:50", remark("from the copy"));
    let mut both = vec![written[0].id, copy.id];
    both.sort();
    let alarm = |own| Effect::Cloned { device: copy.device, seq: 1, entries: both.clone(), own };
    let number = pushes(&mut tablet, &written);
    tablet.heard(number, answers(&written, State::Stored));
    let number = pulls(&mut tablet, 0);
    let effects = tablet.heard(number, page(&[written[0].clone(), copy.clone()], 2, false));
    assert!(effects.contains(&alarm(true)), "{effects:?}");

    let mut other = Tablet::resume(JOB, testkit::key(9).device(), Kept::default(), &Record::new());
    let number = pulls(&mut other, 0);
    let effects = other.heard(number, page(&[copy.clone(), written[0].clone()], 2, false));
    assert!(effects.contains(&alarm(false)), "{effects:?}");
}

#[test]
fn a_desk_that_was_set_back_gets_everything_again() {
    let (mut tablet, written) = tablet(3);
    let number = pushes(&mut tablet, &written);
    tablet.heard(number, answers(&written, State::Stored));
    let number = pulls(&mut tablet, 0);
    tablet.heard(number, page(&written, 3, false));
    let state = |entries, cursor, of: &[Entry]| {
        let sum = Some(of.iter().map(|entry| entry.id).collect());
        JobState { job: JOB.to_owned(), entries, cursor, sum }
    };
    assert_eq!(tablet.desk_holds(&state(3, 3, &written)), [], "all is well");
    // It was set back to one entry; two others came from another tablet in the meantime.
    let mut pen = Pen::new(2);
    let others = [written[0].clone(), pen.write("11:00", remark("a")), pen.write("11:01", remark("b"))];
    assert_eq!(tablet.desk_holds(&state(3, 3, &others)), [Effect::SetBack { offered: 3 }]);
    let mut in_chain = ids(&written);
    in_chain.sort_by_key(|id| written.iter().find(|entry| entry.id == *id).map(|entry| entry.seq));
    assert_eq!(tablet.kept().waiting, in_chain);
    assert_eq!(tablet.kept().cursor, 0);
}

#[test]
fn a_page_that_ends_before_the_cursor_tells_of_a_desk_set_back() {
    let (mut tablet, _) = tablet(0);
    let other = Pen::new(2).write("10:42", remark("seen"));
    let number = pulls(&mut tablet, 0);
    tablet.heard(number, page(&[other], 7, false));
    tablet.look();
    let number = pulls(&mut tablet, 7);
    assert_eq!(tablet.heard(number, page(&[], 4, false)), [Effect::SetBack { offered: 1 }]);
    // An answer to an ask of before is of a desk that is no more.
    assert_eq!(tablet.heard(number, page(&[], 7, false)), []);
}

#[test]
fn what_waits_and_is_not_on_the_disk_is_named() {
    let kept = Kept { waiting: vec![EntryId([9; 32])], ..Kept::default() };
    let tablet = Tablet::resume(JOB, testkit::key(1).device(), kept, &Record::new());
    assert_eq!((tablet.missing(), tablet.waiting()), ([EntryId([9; 32])].as_slice(), 0));
}

#[test]
fn kept_texts_of_others_are_not_read() {
    for text in ["", "{}", r#"{"cursor":1,"waiting":["9"],"refused":{}}"#] {
        assert_eq!(Kept::of_text(text), None, "{text}");
    }
}

#[test]
fn a_file_brings_what_is_new_and_it_waits_for_the_desk() {
    let (mut tablet, written) = tablet(1);
    let mut pen = Pen::new(2);
    let others = [pen.write("10:42", remark("a")), pen.write("10:43", remark("b"))];
    let text: String = [&written[0], &others[0], &others[1]].map(|entry| line(entry) + "\n").concat();
    let read = tablet.read_file(&text).expect("a record file");
    assert_eq!((read.new.len(), read.known), (2, 1));
    assert_eq!(tablet.waiting(), 3);
    let read = tablet.read_file(&text).expect("the same again");
    assert_eq!((read.new.len(), read.known, tablet.waiting()), (0, 3, 3), "a replayed file adds nothing");
}

#[test]
fn a_bad_file_is_refused_whole() {
    let (mut tablet, _) = tablet(0);
    let mut pen = Pen::new(2);
    let [good, other] = [pen.write("10:42", remark("a")), pen.write("10:43", remark("b"))];
    let forged = line(&other).replace(r#""text":"b""#, r#""text":"c""#);
    let fault = tablet.read_file(&format!("{}\n{forged}\n", line(&good)));
    let Err(FileFault::Lines(errors)) = fault else { panic!("{fault:?}") };
    assert_eq!(
        errors.iter().map(|error| (error.line, &error.fault)).collect::<Vec<_>>(),
        [(2, &LineFault::IdDisagrees)]
    );
    let elsewhere = Pen::new(2).of_job("J-2").write("10:42", remark("elsewhere"));
    let expected = FileFault::OtherJob { here: JOB.to_owned(), there: "J-2".to_owned() };
    assert_eq!(tablet.read_file(&line(&elsewhere)), Err(expected));
    assert_eq!(tablet.read_file("\n\n"), Err(FileFault::Empty));
    assert_eq!(tablet.waiting(), 0, "nothing of them was taken in");
}

/// What a desk answers to some lines: the states, and the code of a refusal.
#[track_caller]
fn desk(shelf: &mut MemoryShelf, text: &str, expected: &[(usize, State, &str)]) {
    let pushed = sync::desk::push(shelf, text).expect("the shelf is not full");
    let said: Vec<(usize, State, &str)> = pushed
        .answers
        .iter()
        .map(|answer| {
            let code = answer.refusal.as_ref().map_or("", |refusal| refusal.code.as_str());
            (answer.line, answer.state, code)
        })
        .collect();
    assert_eq!(said, expected);
}

#[test]
fn the_desk_refuses_a_bad_line_and_that_line_only() {
    use State::{Known, Refused, Stored};
    let mut pen = Pen::new(1);
    let [one, two] = [pen.write("10:41", remark("a")), pen.write("10:42", remark("b"))];
    let forged = line(&two).replace(r#""text":"b""#, r#""text":"c""#);
    let seal = line(&two).replace(&two.seal.to_string(), &one.seal.to_string());
    let spaced = line(&one).replacen(',', ", ", 1);
    let huge = line(&Pen::new(3).write("10:41", remark(&"x".repeat(wire::http::LINE_BYTES_MAX))));
    let good = line(&one);
    let text = format!("{good}\n\n{forged}\n{seal}\nhello\n{spaced}\n{huge}\n{good}\n{{}}\n");
    let mut shelf = MemoryShelf::default();
    let expected = [
        (1, Stored, ""),
        (3, Refused, "line-altered"),
        (4, Refused, "line-altered"),
        (5, Refused, "line-unreadable"),
        (6, Refused, "line-altered"),
        (7, Refused, "line-too-large"),
        (8, Known, ""),
        (9, Refused, "line-unreadable"),
    ];
    desk(&mut shelf, &text, &expected);
    assert_eq!(shelf.lines().collect::<Vec<_>>(), [good.as_str()]);

    // A replayed chain adds nothing.
    desk(&mut shelf, &format!("{}\n{good}\n", line(&two)), &[(1, Stored, ""), (2, Known, "")]);
    desk(&mut shelf, &format!("{good}\r\n{}", line(&two)), &[(1, Known, ""), (2, Known, "")]);
    assert_eq!(shelf.len(), 2);
    desk(&mut shelf, "", &[]);
}

#[test]
fn the_desk_names_the_entry_whose_line_it_refuses() {
    let entry = Pen::new(1).write("10:41", remark("a"));
    let altered = line(&entry).replace(r#""text":"a""#, r#""text":"b""#);
    let (_, answers) = sync::desk::read(&altered);
    assert_eq!(answers[0].id, Some(entry.id));
}

#[test]
fn the_desk_hands_out_pages_that_join() {
    let mut shelf = MemoryShelf::default();
    let mut pen = Pen::new(1);
    let mut elsewhere = Pen::new(2).of_job("J-2");
    let mut text = String::new();
    for _ in 0..5 {
        text += &(line(&pen.write("10:41", remark("here"))) + "\n");
        text += &(line(&elsewhere.write("10:41", remark("elsewhere"))) + "\n");
    }
    sync::desk::push(&mut shelf, &text).expect("kept");
    let mut page = |after, limit| {
        let page = sync::desk::pull(&mut shelf, JOB, after, limit).expect("read");
        (page.lines.len(), page.cursor, page.more)
    };
    assert_eq!(page(0, 2), (2, 3, true));
    assert_eq!(page(3, 2), (2, 7, true));
    assert_eq!(page(7, 2), (1, 9, false));
    assert_eq!(page(9, 2), (0, 9, false));
    assert_eq!(page(0, 0), (1, 1, true), "a page has room for one line");
    assert_eq!(page(12, 2), (0, 9, false), "who asks beyond the end is told where it is");
}
