//! What to order, and whether the pour will end in time, as rows of what is coming.
//!
//! Never: print either for a shaft that is full or not planned.

use crate::Source;
use assess::day::{DAYS_AT_DESK, RestOfPour};
use assess::order::ToOrder;
use assess::shape::Asked;
use report::{Forecast, Standing};
use wording::Show;

pub(crate) fn rows(source: &Source<'_, '_>, show: &Show) -> Vec<Forecast> {
    order(source, show).into_iter().chain(rest_of_pour(source, show)).collect()
}

fn order(source: &Source<'_, '_>, show: &Show) -> Option<Forecast> {
    let order = ToOrder::of(Asked::of(source.log, source.assessment, source.earlier)).ok()?;
    let text = wording::order(&order, show);
    let nothing = order.told().order.volume.to_cubic_meters() <= 0.0;
    let standing = if nothing { Standing::Meets } else { Standing::NeedsAttention };
    Some(Forecast { standing, what: text.heading.to_owned(), when: text.sentence, because: text.do_now })
}

fn rest_of_pour(source: &Source<'_, '_>, show: &Show) -> Option<Forecast> {
    let earlier = (source.earlier, DAYS_AT_DESK);
    let rest = RestOfPour::of(source.log, source.assessment, source.set, earlier).ok()?;
    let text = wording::day(&rest, show);
    let standing = if text.pressing { Standing::NeedsAttention } else { Standing::Meets };
    Some(Forecast { standing, what: text.heading.to_owned(), when: text.sentence, because: text.do_now })
}
