//! What people said of an entry: questions with their answers, comments.
//!
//! Never: put it in the place of what the entry says.

use crate::phrase::stop;
use crate::show::Show;
use quantity::{InOrder, Moment};
use record::kinds::{Comment, QuestionAsked};
use record::{EntryId, Line, Log};

/// What was asked about an entry and answered, and what was said of it, in the order it was written.
pub fn said_about(line: &Line<'_>, log: &Log<'_>, show: &Show) -> Vec<String> {
    let about = |id: EntryId| id == line.entry.id || id == line.origin;
    let questions = log.each::<QuestionAsked>().filter(|(_, asked)| about(asked.about));
    let questions = questions.map(|(line, asked)| (line.at, question(line, asked, log, show)));
    let comments = log.each::<Comment>().filter(|(_, comment)| about(comment.about));
    let comments = comments.map(|(line, comment)| (line.at, by(line, "says", &comment.text, show)));
    let mut said: Vec<(Moment, String)> = questions.chain(comments).collect();
    said.put_in_order_by_key(|(at, _)| *at);
    said.into_iter().map(|(_, text)| text).collect()
}

fn question(line: &Line<'_>, asked: &QuestionAsked, log: &Log<'_>, show: &Show) -> String {
    let answer = match log.answer_of(line) {
        Some((line, answer)) => by(line, "answers", &answer.answer, show),
        None => "Nobody has answered.".to_owned(),
    };
    format!("{} {answer}", by(line, "asks", &asked.question, show))
}

fn by(line: &Line<'_>, does: &str, text: &str, show: &Show) -> String {
    format!("{} {does} ({}): {}", line.entry.author, show.moment(line.at), stop(text))
}
