//! What to order, and whether the pour will end in time.

use crate::screen::Screen;
use crate::view::View;
use assess::day::{DAYS_AT_DESK, RestOfPour};
use wording::Show;

/// Where the text of an item begins.
const IN: usize = 2;

/// Nothing for a shaft that is full, or that nobody planned.
pub(super) fn print(view: &View<'_>, show: &Show, screen: &mut Screen) {
    let order = order(view, show);
    let rest = rest_of_pour(view, show);
    if order.is_none() && rest.is_none() {
        return;
    }
    screen.gap();
    screen.heading("What is still to be poured");
    for said in order.into_iter().chain(rest) {
        let style = screen.style();
        let lead = if said.heading.is_empty() { String::new() } else { format!("{}: ", said.heading) };
        screen.led(IN, 2, (&lead, &said.sentence), |lead| style.bold(lead));
        if !said.do_now.is_empty() {
            screen.set_in(IN + 2, 2, &format!("> {}", said.do_now));
        }
    }
}

struct Said {
    heading: &'static str,
    sentence: String,
    do_now: String,
}

fn order(view: &View<'_>, show: &Show) -> Option<Said> {
    match view.order() {
        Ok(order) => {
            let text = wording::order(order, show);
            Some(Said { heading: text.heading, sentence: text.sentence, do_now: text.do_now })
        }
        Err(why) => without(wording::no_order(*why)),
    }
}

fn rest_of_pour(view: &View<'_>, show: &Show) -> Option<Said> {
    match RestOfPour::of(&view.log, &view.assessment, &view.set, (view.order(), DAYS_AT_DESK)) {
        Ok(rest) => {
            let text = wording::day(&rest, show);
            Some(Said { heading: text.heading, sentence: text.sentence, do_now: text.do_now })
        }
        Err(why) => without(wording::no_day(&why)),
    }
}

fn without(sentence: Option<String>) -> Option<Said> {
    sentence.map(|sentence| Said { heading: "", sentence, do_now: String::new() })
}
