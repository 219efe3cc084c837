//! What to order, and how probable it is that the pour ends in time.
//!
//! While they wait for a second look, each says so in its place.
//!
//! Never: show an order without its service level; a probability without the trucks it is for.

use super::{Big, Looked, notes};
use crate::live::order::still_out;
use crate::live::sign::Haste;
use assess::{Outlook, Urgency};

/// The order, its loads and what is left over.
pub(super) fn to_order(looked: &Looked<'_>) -> Option<Big> {
    if waits(looked) {
        return Some(Big::said("to_order", "Order", wording::order_waits().value));
    }
    let order = looked.order()?;
    let text = wording::order(order, &looked.show);
    let note = notes(&[text.note, still_out(looked).unwrap_or_default()]);
    Some(Big::new("to_order", &text.label, &text.value).note(note))
}

/// The probability of ending in time with the trucks there are.
pub(super) fn in_time(looked: &Looked<'_>) -> Option<Big> {
    if waits(looked) {
        return Some(Big::said("in_time", "Chance to end in time", wording::order_waits().value));
    }
    let rest = looked.rest_of_pour()?;
    let text = wording::day(rest, &looked.show);
    let big =
        Big::said("in_time", "Chance to end in time", text.value).note(notes(&[text.note, text.trucks]));
    Some(if text.pressing { big.haste(Haste::of(Urgency::Soon)) } else { big })
}

/// Whether there is probably an order to tell, and it is not reckoned yet.
fn waits(looked: &Looked<'_>) -> bool {
    let assessment = &looked.assessment;
    let still = |forecast: &assess::Forecast| matches!(forecast.outlook, Outlook::StillToOrder { .. });
    let begins = assessment.picture.concrete_started().is_none();
    looked.estimates_wait && (begins || assessment.forecasts.iter().any(still))
}
