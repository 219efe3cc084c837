//! The screen of open items: what waits on the demo job, whose move it is, and the entries that would settle it.

#[path = "live/demo.rs"]
mod demo;

use demo::{at, by_then, harrow_vale_entries};
use expect_test::{Expect, expect};
use record::kinds::KINDS;
use screen::entry::Form;
use screen::live::{OpenItems, OpenRow, open_items};

fn row(row: &OpenRow) -> String {
    let mine = if row.mine { "mine, " } else { "" };
    let steps = row.steps.iter().map(|step| {
        let known: Vec<String> =
            step.known.iter().map(|(field, text)| format!("{field}={text:.24}")).collect();
        format!("\n      {} {}: {}", step.kind, step.label, known.join(" "))
    });
    let steps: String = steps.collect();
    format!(
        "  {} {} ({mine}{})\n    {}\n    {}\n    > {}{steps}",
        row.lead, row.waits_for, row.since, row.what, row.meaning, row.next
    )
}

fn told(items: &OpenItems) -> String {
    let whom: Vec<String> = items.whom.iter().map(|(name, count)| format!("{name} {count}")).collect();
    let mut lines = vec![format!("{}; mine {}", whom.join(", "), items.mine)];
    for shaft in &items.shafts {
        let ready = if shaft.ready { ", ready" } else { "" };
        lines.push(format!(
            "{} ({}{ready}) {}{}",
            shaft.name,
            shaft.stage,
            shaft.sealed,
            shaft.lacks.join(" ")
        ));
        lines.extend(shaft.rows.iter().map(row));
    }
    lines.join("\n") + "\n"
}

#[track_caller]
fn check(moment: &str, author: &str, expected: Expect) {
    let at = at(moment);
    let record = by_then(&harrow_vale_entries(), at);
    expected.assert_eq(&told(&open_items(&record, at, author)));
}

#[test]
fn the_morning_after_the_engineer_has_to_decide() {
    check(
        "2025-05-14T08:00:00-06:00",
        "I. Vane",
        expect![[r#"
            the engineer (I. Vane) 10, the inspector (R. Quill, T. Ashgrove) 2; mine 10
            S-1 (Done) Entries number 276 to 338 of the device “office” are not in this record.
              To sign the inspector (R. Quill, T. Ashgrove) ()
                R. Quill signed as inspector before 13 May 2025 15:10 Cylinder broken (2d02fa01) was entered.
                The shaft is not sealed before.
                > Read what came after the signature, then sign again.
                  signed Sign as inspector: role=inspector
              To sign the engineer (I. Vane) (mine, )
                Nobody has signed as engineer.
                The shaft is not sealed before.
                > Read the record of the shaft, then sign it.
                  signed Sign as engineer: role=engineer
            S-2 (Done) Entries number 276 to 338 of the device “office” are not in this record.
              To decide the engineer (I. Vane) (mine, 13 May 2025 07:45)
                Sand, as approved for fluid Mirgolit 60, reading of 13 May 2025 07:45: 6 %; the limit is 4 % at most. 2 points over.
                Nobody has decided about it.
                > Accept it as it is and say why, have it repaired or tested, or reject it.
                  finding_disposed Accept as it is: criterion=job/fluid/Mirgolit-60/sa about=011673adad310043126994de decision=accepted
                  finding_disposed Repair: criterion=job/fluid/Mirgolit-60/sa about=011673adad310043126994de decision=repair
                  finding_disposed Test: criterion=job/fluid/Mirgolit-60/sa about=011673adad310043126994de decision=test
                  finding_disposed Reject: criterion=job/fluid/Mirgolit-60/sa about=011673adad310043126994de decision=rejected
              To decide the engineer (I. Vane) (mine, )
                Line never jerked to speed the discharge: no. Required: “The line was never raised or lowered rapidly to speed the discharge”. Common practice, no source.
                Nobody has decided about it.
                > Accept it as it is and say why, have it repaired or tested, or reject it.
                  finding_disposed Accept as it is: criterion=roadside/line-moved-slow about=249ed1757f66bfc4f1775b45 decision=accepted
                  finding_disposed Repair: criterion=roadside/line-moved-slow about=249ed1757f66bfc4f1775b45 decision=repair
                  finding_disposed Test: criterion=roadside/line-moved-slow about=249ed1757f66bfc4f1775b45 decision=test
                  finding_disposed Reject: criterion=roadside/line-moved-slow about=249ed1757f66bfc4f1775b45 decision=rejected
              To decide the engineer (I. Vane) (mine, 13 May 2025 11:21)
                Interval against the shaft's own running ratio, from 36.5 ft to 50.1 ft deep (+5172.8 ft to +5159.2 ft): 13.6 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 0.97 times its nominal bore, the rest of the shaft 1.12: less. 8.6 points over. Common practice, no source.
                Nobody has decided about it.
                > Accept it as it is and say why, have it repaired or tested, or reject it.
                  finding_disposed Accept as it is: criterion=roadside/volume-departur about=7abc3f0ecd76c77123f0b87c decision=accepted
                  finding_disposed Repair: criterion=roadside/volume-departur about=7abc3f0ecd76c77123f0b87c decision=repair
                  finding_disposed Test: criterion=roadside/volume-departur about=7abc3f0ecd76c77123f0b87c decision=test
                  finding_disposed Reject: criterion=roadside/volume-departur about=7abc3f0ecd76c77123f0b87c decision=rejected
              To decide the engineer (I. Vane) (mine, 13 May 2025 11:45)
                Interval against the shaft's own running ratio, from 26.5 ft to 36.5 ft deep (+5182.8 ft to +5172.8 ft): 25.3 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.31 times its nominal bore, the rest of the shaft 1.04: more. 20.3 points over. Common practice, no source.
                Nobody has decided about it.
                > Accept it as it is and say why, have it repaired or tested, or reject it.
                  finding_disposed Accept as it is: criterion=roadside/volume-departur about=3384a5cdff54912d87811432 decision=accepted
                  finding_disposed Repair: criterion=roadside/volume-departur about=3384a5cdff54912d87811432 decision=repair
                  finding_disposed Test: criterion=roadside/volume-departur about=3384a5cdff54912d87811432 decision=test
                  finding_disposed Reject: criterion=roadside/volume-departur about=3384a5cdff54912d87811432 decision=rejected
              To decide the engineer (I. Vane) (mine, 13 May 2025 13:14)
                Interval against the shaft's own running ratio, from 2.9 ft to 14.4 ft deep (+5206.3 ft to +5194.8 ft): 5.4 %; the limit is 5 % at most (the larger of 5 % and 2 times the standard error of the ratio). It took 1.04 times its nominal bore, the rest of the shaft 1.10: less. 0.4 points over. Common practice, no source.
                Nobody has decided about it.
                > Accept it as it is and say why, have it repaired or tested, or reject it.
                  finding_disposed Accept as it is: criterion=roadside/volume-departur about=506f0033f55e4d1bc84c4918 decision=accepted
                  finding_disposed Repair: criterion=roadside/volume-departur about=506f0033f55e4d1bc84c4918 decision=repair
                  finding_disposed Test: criterion=roadside/volume-departur about=506f0033f55e4d1bc84c4918 decision=test
                  finding_disposed Reject: criterion=roadside/volume-departur about=506f0033f55e4d1bc84c4918 decision=rejected
              To decide the engineer (I. Vane) (mine, 13 May 2025 11:18)
                Slump when placed, as approved for mix DS-4000, load 30413: 6.75 in; the limits are 7 to 9 in. 0.25 in under.
                Nobody has decided about it.
                > Accept it as it is and say why, have it repaired or tested, or reject it.
                  finding_disposed Accept as it is: criterion=job/mix/DS-4000/slump about=23619ddd033dd8aaa23a63cd decision=accepted
                  finding_disposed Repair: criterion=job/mix/DS-4000/slump about=23619ddd033dd8aaa23a63cd decision=repair
                  finding_disposed Test: criterion=job/mix/DS-4000/slump about=23619ddd033dd8aaa23a63cd decision=test
                  finding_disposed Reject: criterion=job/mix/DS-4000/slump about=23619ddd033dd8aaa23a63cd decision=rejected
              To decide the engineer (I. Vane) (mine, 13 May 2025 14:28)
                Slump until the casing is out and every insert is in: 4.23 in; the limit is 5 in at least. 0.77 in under. Common practice, no source.
                Nobody has decided about it.
                > Accept it as it is and say why, have it repaired or tested, or reject it.
                  finding_disposed Accept as it is: criterion=roadside/slump-until-fin about=e8406ce4ae5f8ac29bec5130 decision=accepted
                  finding_disposed Repair: criterion=roadside/slump-until-fin about=e8406ce4ae5f8ac29bec5130 decision=repair
                  finding_disposed Test: criterion=roadside/slump-until-fin about=e8406ce4ae5f8ac29bec5130 decision=test
                  finding_disposed Reject: criterion=roadside/slump-until-fin about=e8406ce4ae5f8ac29bec5130 decision=rejected
              To settle the engineer (I. Vane) (mine, 13 May 2025 15:40)
                The entry 13 May 2025 12:55 Concrete test (49d5281a) was corrected 2 times, differently: 13 May 2025 12:55 Concrete test (c18fd065) and 13 May 2025 12:55 Concrete test (da5bb16a).
                Every version is kept and shown; none of them counts in the reckoning until a person decides.
                > Talk to those who wrote them, then enter “Dispute closed” with the version that stands and why.
                  dispute_closed Settle: about=49d5281ac4b14b8970f59df1
              To sign the inspector (R. Quill, T. Ashgrove) ()
                R. Quill signed as inspector before 13 May 2025 12:55 Concrete test (c18fd065) was entered.
                The shaft is not sealed before.
                > Read what came after the signature, then sign again.
                  signed Sign as inspector: role=inspector
              To sign the engineer (I. Vane) (mine, )
                Nobody has signed as engineer.
                The shaft is not sealed before.
                > Read the record of the shaft, then sign it.
                  signed Sign as engineer: role=engineer
        "#]],
    );
}

#[test]
fn during_the_pour_a_hold_waits_and_nobody_has_to_sign() {
    check(
        "2025-05-13T09:00:00-06:00",
        "R. Quill",
        expect![[r#"
            the engineer (I. Vane) 4, the inspector (R. Quill, T. Ashgrove) 1; mine 1
            S-1 (Done) Entries number 183 to 185 of the device “office” are not in this record.
              To sign the inspector (R. Quill, T. Ashgrove) (mine, )
                R. Quill signed as inspector before 9 May 2025 11:10 As-built survey (1e0e7526) was entered.
                The shaft is not sealed before.
                > Read what came after the signature, then sign again.
                  signed Sign as inspector: role=inspector
              To sign the engineer (I. Vane) ()
                Nobody has signed as engineer.
                The shaft is not sealed before.
                > Read the record of the shaft, then sign it.
                  signed Sign as engineer: role=engineer
            S-2 (Bottom) Entries number 183 to 185 of the device “office” are not in this record.
              To decide the engineer (I. Vane) (13 May 2025 06:58)
                Bottom at the required tip or deeper: 0.5 ft; the limit is 0 ft at most. 0.5 ft too shallow. Common practice, no source.
                Nobody has decided about it.
                > Accept it as it is and say why, have it repaired or tested, or reject it.
                  finding_disposed Accept as it is: criterion=roadside/bottom-tip about=c55aa915ea77e54b992e498a decision=accepted
                  finding_disposed Repair: criterion=roadside/bottom-tip about=c55aa915ea77e54b992e498a decision=repair
                  finding_disposed Test: criterion=roadside/bottom-tip about=c55aa915ea77e54b992e498a decision=test
                  finding_disposed Reject: criterion=roadside/bottom-tip about=c55aa915ea77e54b992e498a decision=rejected
              To decide the engineer (I. Vane) (13 May 2025 07:45)
                Sand, as approved for fluid Mirgolit 60, reading of 07:45: 6 %; the limit is 4 % at most. 2 points over.
                Nobody has decided about it.
                > Accept it as it is and say why, have it repaired or tested, or reject it.
                  finding_disposed Accept as it is: criterion=job/fluid/Mirgolit-60/sa about=011673adad310043126994de decision=accepted
                  finding_disposed Repair: criterion=job/fluid/Mirgolit-60/sa about=011673adad310043126994de decision=repair
                  finding_disposed Test: criterion=job/fluid/Mirgolit-60/sa about=011673adad310043126994de decision=test
                  finding_disposed Reject: criterion=job/fluid/Mirgolit-60/sa about=011673adad310043126994de decision=rejected
              To release the engineer (I. Vane) (13 May 2025 07:47)
                Hold: concrete
                sand 6 % at the bottom, installation plan allows 4 %. Placed 07:47 by R. Quill; nobody has released it.
                > Settle it, then enter “Hold released” with the name of the one who released it.
                  hold_released Release: hold=concrete
        "#]],
    );
}

/// Every key leads to a form that takes what is known; nothing but a reason, an answer or a name is left to write.
#[test]
fn what_is_known_fits_the_form_it_is_for() {
    let moment = at("2025-05-14T08:00:00-06:00");
    let record = by_then(&harrow_vale_entries(), moment);
    let mut tried = 0;
    for shaft in open_items(&record, moment, "").shafts {
        for step in shaft.rows.iter().flat_map(|row| &row.steps) {
            let mut form = Form::new(step.kind, &record, Some(&shaft.name), moment).expect("a kind");
            step.known.iter().for_each(|(field, text)| form.set(field, text));
            let left: Vec<String> =
                form.body().err().unwrap_or_default().into_iter().map(|one| one.path).collect();
            let to_write = ["reason", "answer", "name", "by", "keeps"];
            assert!(left.iter().all(|path| to_write.contains(&path.as_str())), "{}: {left:?}", step.kind);
            assert!(KINDS.iter().any(|kind| kind.word == step.kind));
            tried += 1;
        }
    }
    assert!(tried > 10, "{tried}");
}
