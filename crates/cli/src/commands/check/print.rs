//! The main screen: what matters first, nothing said twice.
//!
//! Order: what fails or cannot be judged, what is coming, what people have to settle, what nobody measured.

use super::count;
use crate::screen::Screen;
use crate::view::View;
use assess::shape::{Asked, NoShape, Shape};
use assess::{Finding, Forecast, Outcome, Outlook};
use criteria::Stage;
use std::collections::BTreeSet;
use wording::Show;

/// Where the text of an item begins.
const IN: usize = 2;

pub(super) fn shaft(view: &View<'_>, all: bool, screen: &mut Screen) {
    let show = Show::of_log(&view.log).on_day_of(view.assessment.at);
    let at = view.assessment.at;
    screen.gap();
    screen.heading(&format!("Shaft {} at {} {}", view.shaft, at.date(), at.clock()));
    screen.say(&super::counts_line(view));
    if let Some(sealed) = wording::sealed_sentence(&view.seals()) {
        screen.say(&sealed);
    }
    if let Some(why) = &view.no_rules {
        screen.say(&wording::no_rules(why));
    }
    view.refused.iter().for_each(|refused| screen.say(&wording::refused(refused)));
    let print = Print { view, show: &show };
    if all {
        print.by_stage(screen)
    } else {
        print.what_matters(screen)
    }
    print.coming(screen);
    super::ahead::print(view, &show, screen);
    print.shape(screen);
    print.to_settle(screen);
    print.unmeasured(all, screen);
}

struct Print<'v, 'r> {
    view: &'v View<'r>,
    show: &'v Show,
}

impl Print<'_, '_> {
    /// Fails, and what cannot be judged.
    fn what_matters(&self, screen: &mut Screen) {
        let matters = |finding: &&Finding| matches!(finding.outcome(), Outcome::Fails | Outcome::CannotSay);
        for finding in self.judged().filter(matters) {
            screen.gap();
            self.finding(finding, screen);
        }
    }

    /// Every finding under its stage of the work.
    fn by_stage(&self, screen: &mut Screen) {
        let stages: BTreeSet<Stage> = self.judged().map(|finding| finding.fact.stage).collect();
        for stage in stages {
            screen.gap();
            screen.heading(wording::label::stage(stage));
            self.judged()
                .filter(|finding| finding.fact.stage == stage)
                .for_each(|finding| self.finding(finding, screen));
        }
    }

    fn judged(&self) -> impl Iterator<Item = &Finding> {
        self.view.assessment.findings.iter().filter(|finding| finding.criterion.is_some())
    }

    fn finding(&self, finding: &Finding, screen: &mut Screen) {
        let text = wording::finding(finding, &self.view.log, self.show);
        let style = screen.style();
        let lead = format!("{}: ", text.verdict);
        let set_off = |lead: &str| {
            if finding.outcome() == Outcome::Fails { style.bad(lead) } else { style.plain(lead) }
        };
        screen.led(IN, 2, (&lead, &text.sentence), set_off);
        if finding.outcome() == Outcome::Meets {
            return;
        }
        if !text.sure_note.is_empty() && !text.sentence.contains(text.sure_note.trim_end_matches('.')) {
            screen.set_in(IN + 2, 2, &text.sure_note);
        }
        if !text.evidence.is_empty() {
            screen.set_in(IN + 2, 2, &format!("from {}", text.evidence.join("; ")));
        }
        text.dispositions.iter().for_each(|done| screen.set_in(IN + 2, 2, &done.sentence));
        screen.set_in(IN + 2, 2, &text.criterion);
    }

    fn coming(&self, screen: &mut Screen) {
        // What is still needed is told with the order for it.
        let other = |forecast: &&Forecast| !matches!(forecast.outlook, Outlook::StillToOrder { .. });
        let forecasts: Vec<&Forecast> = self.view.assessment.forecasts.iter().filter(other).collect();
        if forecasts.is_empty() {
            return;
        }
        screen.gap();
        screen.heading("What is coming");
        for forecast in forecasts {
            let text = wording::forecast(forecast, &self.view.log, self.show);
            let style = screen.style();
            let lead = format!("{}: ", text.heading);
            screen.led(IN, 2, (&lead, &text.sentence), |lead| style.bold(lead));
            if !text.do_now.is_empty() {
                screen.set_in(IN + 2, 2, &format!("> {}", text.do_now));
            }
        }
    }

    /// The estimated shape; nothing before the first sounding of concrete.
    fn shape(&self, screen: &mut Screen) {
        let heights = wording::heights(self.show);
        let asked = Asked::of(&self.view.log, &self.view.assessment, self.view.earlier());
        let shape = match Shape::of(asked, heights) {
            Ok(shape) => shape,
            Err(NoShape::NothingSounded) => return,
            Err(why) => return screen.say(&wording::no_shape(why)),
        };
        let text = wording::shape(&shape, &self.view.assessment, self.show);
        screen.gap();
        screen.heading("What shape it probably has");
        screen.set_in(IN, 2, &text.whole);
        for told in &text.told {
            screen.set_in(IN, 2, &told.sentence);
            screen.set_in(IN + 2, 2, &format!("> {}", told.do_now));
        }
        if !text.blind_spots.is_empty() {
            screen.set_in(IN, 2, &text.blind_spots);
            screen.set_in(IN + 2, 2, &format!("> {}", text.blind_do));
        }
        if !text.next.is_empty() {
            screen.set_in(IN, 2, &text.next);
        }
        for doubt in &text.doubts {
            screen.set_in(IN, 2, &format!("{} {}", doubt.what, doubt.meaning));
            screen.set_in(IN + 2, 2, &format!("> {}", doubt.next));
        }
    }

    /// Disputes, open questions, and what could not be placed.
    fn to_settle(&self, screen: &mut Screen) {
        let log = &self.view.log;
        let disputes = log.disputes.iter().map(|dispute| wording::dispute(dispute, log, self.show));
        let open = self.view.assessment.questions.iter().filter(|question| question.answer.is_none());
        let questions = open.map(|question| wording::question(question, self.show, log));
        let loose = log.loose.iter().map(|id| wording::loose(*id, log, self.show));
        let newer = log.newer.iter().map(|entry| wording::newer(entry, self.show));
        let notices: Vec<wording::Notice> = disputes.chain(questions).chain(loose).chain(newer).collect();
        let doubts = self.doubts();
        if notices.is_empty() && doubts.is_empty() {
            return;
        }
        screen.gap();
        screen.heading("To settle");
        for (what, next) in doubts {
            screen.set_in(IN, 2, &what);
            screen.set_in(IN + 2, 2, &format!("> {next}"));
        }
        for notice in notices {
            screen.set_in(IN, 2, &format!("{} {}", notice.what, notice.meaning));
            screen.set_in(IN + 2, 2, &format!("> {}", notice.next));
        }
    }

    /// What the formulas found odd.
    fn doubts(&self) -> Vec<(String, String)> {
        let told = wording::doubts(&self.view.assessment, &self.view.log, self.show).into_iter();
        told.map(|told| (format!("{} {}", told.notice.what, told.notice.meaning), told.notice.next)).collect()
    }

    fn unmeasured(&self, all: bool, screen: &mut Screen) {
        let unmeasured = count(self.view, Outcome::NotMeasured);
        if !all && unmeasured > 0 {
            screen.gap();
            screen.say(&format!(
                "{unmeasured} not measured: --all lists them with the entries that are missing."
            ));
        }
    }
}
