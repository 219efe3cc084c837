//! What to order, and whether the pour will end in time, as rows of what is coming.
//!
//! Never: print either for a shaft that is full or not planned.

use crate::Source;
use assess::day::{DAYS_AT_DESK, RestOfPour};
use assess::order::{NoOrder, ToOrder};
use assess::shape::Asked;
use report::{Forecast, Standing};
use wording::Show;

pub(crate) fn rows(source: &Source<'_, '_>, show: &Show) -> Vec<Forecast> {
    let to_order = ToOrder::of(Asked::of(source.log, source.assessment, source.earlier));
    order(&to_order, show).into_iter().chain(rest_of_pour(source, &to_order, show)).collect()
}

fn order(order: &Result<ToOrder, NoOrder>, show: &Show) -> Option<Forecast> {
    let order = order.as_ref().ok()?;
    let text = wording::order(order, show);
    let nothing = order.told().order.volume.to_cubic_meters() <= 0.0;
    let standing = if nothing { Standing::Meets } else { Standing::NeedsAttention };
    Some(Forecast { standing, what: text.heading.to_owned(), when: text.sentence, because: text.do_now })
}

fn rest_of_pour(source: &Source<'_, '_>, order: &Result<ToOrder, NoOrder>, show: &Show) -> Option<Forecast> {
    let how = (order, DAYS_AT_DESK);
    let rest = RestOfPour::of(source.log, source.assessment, source.set, how).ok()?;
    let text = wording::day(&rest, show);
    let standing = if text.pressing { Standing::NeedsAttention } else { Standing::Meets };
    Some(Forecast { standing, what: text.heading.to_owned(), when: text.sentence, because: text.do_now })
}
