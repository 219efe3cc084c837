import os
def sub(p,*pairs):
    s=open(p).read()
    for a,b in pairs:
        assert a in s,(p,a)
        s=s.replace(a,b,1)
    open(p,'w').write(s)
p='crates/record/src/kinds/always.rs'
s=open(p).read().rstrip()
assert s.endswith('    }\n}')
s=s[:-2]+'''
    /// Somebody asks the one who wrote an entry about it.
    QuestionAsked = "question_asked" {
        /// The entry it is about.
        about: EntryId,
        /// What is asked.
        question: String,
        /// Who is to answer.
        to: Option<String>,
    }
    /// Somebody says something about an entry and alters nothing.
    Comment = "comment" {
        /// The entry it is about.
        about: EntryId,
        /// The words.
        text: String,
    }
}
'''
open(p,'w').write(s)
sub(p,('/// The word of the question, as in value_unusual; of one field alone: value_unusual.ph.','/// The word of the question, as in value_unusual; of one field alone: value_unusual.ph. Of a person: asked.'),
 ('    /// A question of the tool is answered.','    /// A question of the tool, or of a person, is answered.'))
sub('crates/record/src/kinds/mod.rs',(' Signed ShaftSealed',' Signed ShaftSealed QuestionAsked Comment'))
sub('crates/record/src/log.rs',('mod fold;','mod fold;\nmod open;'))
open('crates/record/src/log/open.rs','w').write('''//! What waits for a person: holds nobody released, questions of people nobody answered.

use super::{Line, Log};
use crate::kinds::{HoldPlaced, HoldReleased, QuestionAnswered, QuestionAsked};

/// What stands in an answer where the question of a person is answered, and not one of the tool.
pub const ASKED: &str = "asked";

impl<'r> Log<'r> {
    /// Holds that nobody released.
    pub fn open_holds(&self) -> Vec<(&Line<'r>, &'r HoldPlaced)> {
        self.each::<HoldPlaced>().filter(|(line, placed)| self.released(line, placed).is_none()).collect()
    }

    /// The release of a hold, at its time or later.
    pub fn released(&self, line: &Line<'r>, placed: &HoldPlaced) -> Option<(&Line<'r>, &'r HoldReleased)> {
        let mut all = self.each::<HoldReleased>();
        all.find(|(later, release)| release.hold.trim() == placed.hold.trim() && line.at <= later.at)
    }

    /// Questions of people that nobody answered. The answer names the question, or the entry it is about.
    pub fn unanswered(&self) -> Vec<(&Line<'r>, &'r QuestionAsked)> {
        let answers = |line: &Line<'r>, asked: &QuestionAsked, answer: &QuestionAnswered| {
            answer.question == ASKED && (answer.about == line.entry.id || answer.about == asked.about)
        };
        let answered = |line: &Line<'r>, asked: &QuestionAsked| {
            self.each::<QuestionAnswered>().any(|(later, answer)| line.at <= later.at && answers(line, asked, answer))
        };
        self.each::<QuestionAsked>().filter(|(line, asked)| !answered(line, asked)).collect()
    }
}
''')
sub('crates/wording/src/tables/list.rs',('    Part::Plain("question_answered"),\n','    Part::Plain("question_asked"),\n    Part::Plain("question_answered"),\n    Part::Plain("comment"),\n'))
sub('crates/package/src/logs/parts.rs',('            "question_answered",\n','            "question_asked",\n            "question_answered",\n            "comment",\n'))
sub('crates/screen/src/entry/keys/face.rs',('    ("question_answered", "Answer"),','    ("question_answered", "Answer"),\n    ("question_asked", "Ask"),'))
# screen: holds from the log
p='crates/screen/src/live/doubts.rs'
s=open(p).read()
a=s.index('/// Holds that nobody released.\npub(crate) fn open_holds'); b=s.index('fn hold(line: &Line')
s=s[:a]+s[b:]
s=s.replace('''    all.extend(open_holds(looked).into_iter().map(|(line, placed)| hold(line, placed, looked)));
''','''    all.extend(log.open_holds().into_iter().map(|(line, placed)| hold(line, placed, looked)));
    all.extend(log.unanswered().into_iter().map(|(line, question)| asked(line, question, looked)));
''')
s=s.replace('''/// A text as a sentence of its own.''','''/// What somebody asked about an entry; the answer names the question.
fn asked(line: &Line<'_>, question: &QuestionAsked, looked: &Looked<'_>) -> Card {
    let id = format!("asked:{}", line.entry.id);
    let to = question.to.as_ref().map_or_else(String::new, |to| format!(" {to}"));
    let about = wording::entry_reference(question.about, &looked.log, &looked.show);
    Card {
        at: Some(line.at.seconds()),
        sentence: format!("{} asks{to} about {about}: {}", line.entry.author, ended(&question.question)),
        next: "Answer it with “Answer”; the question stays in the record beside it.".to_owned(),
        wants: vec![want("question_answered", &["answer"])],
        criterion: record::log::ASKED.to_owned(),
        evidence: ids(&[line.entry.id, question.about]),
        ..Card::plain(CardSort::Question, id, "A question to answer".to_owned())
    }
}

/// A text as a sentence of its own.''')
s=s.replace('use record::kinds::{HoldPlaced, HoldReleased};','use record::kinds::{HoldPlaced, QuestionAsked};')
open(p,'w').write(s)
p='crates/screen/src/live/readiness.rs'
s=open(p).read()
s=s.replace('let by = released(line, placed, looked);','let by = looked.log.released(line, placed);')
open(p,'w').write(s)
p='crates/screen/src/live/next.rs'
s=open(p).read()
s=s.replace('open_holds(looked).into_iter()','looked.log.open_holds().into_iter()')
s=s.replace('''    disputes.chain(questions).collect()
''','''    let asked = looked.log.unanswered().into_iter().map(|(line, asked)| {
        let what = format!("Answer {}: {}", line.entry.author, ended(&asked.question));
        let step = Next::new(format!("asked:{}", line.entry.id), "question_answered", what);
        step.known("about", &line.entry.id.to_string()).known("question", record::log::ASKED)
    });
    disputes.chain(questions).chain(asked).collect()
''')
open(p,'w').write(s)
os.system("grep -rn 'open_holds\\|released' crates/screen/src/live/*.rs | grep use")
# seal: lacks
sub('crates/seal/src/ready.rs',('''    /// Nobody signed for this part.''','''    /// A hold nobody released, by its name.
    Held(String),
    /// A question somebody asked and nobody answered.
    NotAnswered(EntryId),
    /// Nobody signed for this part.'''),('''    lacks.extend(Signatures::of''','''    lacks.extend(log.open_holds().into_iter().map(|(_, placed)| Lack::Held(placed.hold.clone())));
    lacks.extend(log.unanswered().into_iter().map(|(line, _)| Lack::NotAnswered(line.entry.id)));
    lacks.extend(Signatures::of'''),('no dispute may be open, and each','no dispute, hold or question of a person may be open, and each'))
sub('crates/cli/src/commands/seal/refused.rs',('''        Lack::NotSigned(role) =>''','''        Lack::Held(hold) => format!("Nobody has released the hold “{hold}”."),
        Lack::NotAnswered(id) => format!("Nobody has answered the question in entry {}.", id.short()),
        Lack::NotSigned(role) =>'''),('"Let the engineer decide (finding_disposed), or seal --with-open-findings: the pages tell them."','"See what waits: shaftbook waiting. Let the engineer decide, or seal --with-open-findings."'))
# cli waiting
sub('crates/cli/src/commands/mod.rs',('mod verify;','mod verify;\nmod waiting;'),('        Command::Verify { .. } =>','        Command::Waiting { .. } => waiting::run(&args.command, screen),\n        Command::Verify { .. } =>'))
sub('crates/cli/src/args.rs',('''    /// Seal a shaft: its entries''','''    /// What waits for a person: findings nobody decided about, holds, disputes, questions to answer.
    #[command(after_help = help::WAITING)]
    Waiting {
        /// One shaft; all of the job when left out.
        shaft: Option<String>,
        /// Documented JSON instead of text.
        #[arg(long)]
        json: bool,
        #[command(flatten)]
        job: Job,
    },
    /// Seal a shaft: its entries'''))
sub('crates/cli/src/help.rs',('pub(crate) const SEAL: &str','''pub(crate) const WAITING: &str = "\\
Examples:
  shaftbook waiting --job elm-street
  shaftbook waiting S-2 --json --job elm-street

Findings that fail and nobody decided about, holds nobody released, disputes
nobody closed, questions nobody answered. Under each stands the line of notes that
settles it: fill in what is left open and `shaftbook enter` the file. A decision is
accepted (as it is, with the reason), repair, test, rejected or corrected.";

pub(crate) const SEAL: &str'''))
open('crates/cli/src/commands/waiting.rs','w').write('''//! `waiting`: what waits for a person, with the line of notes that settles each.

use crate::args::Command;
use crate::folder::{Folder, shaft_of};
use crate::problem::Problem;
use crate::screen::Screen;
use crate::view::View;
use assess::Finding;
use record::log::ASKED;
use serde_json::{Value, json};
use wording::Show;

/// One thing that waits.
struct Item {
    /// What kind of thing, as on a list.
    lead: &'static str,
    sentence: String,
    /// The line of notes that settles it.
    line: String,
}

pub(crate) fn run(command: &Command, screen: &mut Screen) -> Result<(), Problem> {
    let Command::Waiting { shaft, json, job } = command else { return Ok(()) };
    let record = Folder::open(&job.job)?.record()?;
    let shafts: Vec<String> = match shaft {
        Some(shaft) => vec![shaft_of(&record, shaft)?],
        None => record.shafts().into_iter().map(str::to_owned).collect(),
    };
    let views: Vec<View<'_>> = shafts.iter().map(|shaft| View::at(&record, shaft, None)).collect();
    if *json {
        screen.json(&Value::Array(views.iter().map(json_of).collect()));
        return Ok(());
    }
    super::shafts::none_yet(&views, screen);
    let mut any = false;
    for view in &views {
        let items = items(view);
        any |= !items.is_empty();
        print(view, &items, screen);
    }
    if !any && !views.is_empty() {
        screen.say("Nothing waits for a decision, a release or an answer.");
    }
    Ok(())
}

fn print(view: &View<'_>, items: &[Item], screen: &mut Screen) {
    if items.is_empty() {
        return;
    }
    screen.gap();
    screen.heading(&format!("Shaft {}: {} waiting", view.shaft, items.len()));
    for item in items {
        let style = screen.style();
        screen.led(2, 2, (item.lead, &item.sentence), |lead| style.bold(lead));
        screen.line(&format!("    {}", item.line));
    }
}

/// Findings first, as they are ordered; then holds, disputes, questions.
fn items(view: &View<'_>) -> Vec<Item> {
    let show = Show::of_log(&view.log);
    let findings = open(view).map(|finding| decide(finding, view, &show));
    let holds = view.log.open_holds().into_iter().map(|(line, placed)| Item {
        lead: "Hold: ",
        sentence: format!("{}, placed {}. {}", placed.hold, show.moment(line.at), placed.reason),
        line: notes_line("hold_released", &[("hold", &placed.hold), ("by", "")]),
    });
    let disputes = view.log.disputes.iter().map(|dispute| Item {
        lead: "Dispute: ",
        sentence: wording::dispute(dispute, &view.log, &show).what,
        line: notes_line("dispute_closed", &[("about", &dispute.about.short()), ("keeps", ""), ("reason", "")]),
    });
    let asked = view.log.unanswered().into_iter().map(|(line, asked)| Item {
        lead: "Question: ",
        sentence: format!(
            "{} about {}: {}",
            line.entry.author,
            wording::entry_reference(asked.about, &view.log, &show),
            asked.question
        ),
        line: notes_line(
            "question_answered",
            &[("about", &line.entry.id.short()), ("question", ASKED), ("answer", "")],
        ),
    });
    findings.chain(holds).chain(disputes).chain(asked).collect()
}

fn open<'v>(view: &'v View<'_>) -> impl Iterator<Item = &'v Finding> {
    view.assessment.findings.iter().filter(|finding| finding.is_open())
}

fn decide(finding: &Finding, view: &View<'_>, show: &Show) -> Item {
    let text = wording::finding(finding, &view.log, show);
    let about = finding.evidence.last().map_or_else(String::new, record::EntryId::short);
    let criterion = finding.criterion.as_ref().map_or("", |criterion| &criterion.original.id);
    let fields = [("criterion", criterion), ("about", &about), ("decision", ""), ("reason", ""), ("by", "")];
    Item { lead: "Finding: ", sentence: text.sentence, line: notes_line("finding_disposed", &fields) }
}

/// A line of notes with the shaft's own time left open; what a person has to fill in is an empty text.
fn notes_line(kind: &str, fields: &[(&str, &str)]) -> String {
    let fields = fields.iter().map(|(name, text)| format!(", {name} = {text:?}"));
    format!("{{ at = \\"\\", entry = \\"{kind}\\"{} }},", fields.collect::<String>())
}

fn json_of(view: &View<'_>) -> Value {
    let id = |line: &record::Line<'_>| line.entry.id.to_string();
    json!({
        "shaft": view.shaft,
        "findings": open(view).map(crate::json::finding_of).collect::<Vec<_>>(),
        "holds": view.log.open_holds().into_iter().map(|(line, placed)| json!({
            "entry": id(line), "hold": placed.hold, "reason": placed.reason,
        })).collect::<Vec<_>>(),
        "disputes": view.log.disputes.iter().map(crate::json::dispute).collect::<Vec<_>>(),
        "asked": view.log.unanswered().into_iter().map(|(line, asked)| json!({
            "entry": id(line), "about": asked.about.to_string(), "question": asked.question, "to": asked.to,
        })).collect::<Vec<_>>(),
    })
}
''')
sub('crates/cli/src/json.rs',('use crate::view::View;','pub(crate) use finding::finding as finding_of;\n\nuse crate::view::View;'),('\nfn dispute(','\npub(crate) fn dispute('))
sub('crates/cli/src/json/finding.rs',('pub(super) fn finding(','pub(crate) fn finding('))
sub('docs/json.md',('- `shaftbook log SHAFT --json`','''- `shaftbook waiting --json`: a list of `shaft`, `findings`, `holds` (`entry`, `hold`, `reason`), `disputes`, `asked`
  (`entry`, `about`, `question`, `to`).
- `shaftbook log SHAFT --json`'''))
sub('docs/coverage.md',('| a doubt about a reading and its answer |','''| a question of a person about an entry | `question_asked.about` `question_asked.question` `question_asked.to` | | |
| what somebody says of an entry without altering it | `comment.about` `comment.text` | | |
| a doubt about a reading and its answer |'''),('**186 items listed, 186 covered, by 608 fields of 100 kinds of entries.**','**188 items listed, 188 covered, by 613 fields of 102 kinds of entries.**'))
sub('docs/words.md',('| released | of a hold','| waiting | for a person: a finding to decide about, a hold, a dispute, a question to answer | pending |\n| comment | what somebody says of an entry; alters nothing | |\n| released | of a hold'))
sub('README.md',('7. `shaftbook seal','7. `shaftbook waiting --job my-job` lists what waits for a decision, a release or an answer, with the line that gives it.\n8. `shaftbook seal'))
sub('crates/cli/tests/commands.rs',('"kinds", "seal", "completions"','"kinds", "waiting", "seal", "completions"'))
