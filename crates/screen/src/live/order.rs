//! The last order of concrete, as long as no load came after it.
//!
//! What was ordered a minute ago is no longer to be ordered, though no truck stands on site yet.
//!
//! Never: subtract an order from what is needed; a truck that never comes fills no shaft.

use super::looked::Looked;
use record::kinds::ConcreteOrdered;

/// `6 cy ordered 12:22, due 12:50`; `None` without one that is still out.
pub(crate) fn still_out(looked: &Looked<'_>) -> Option<String> {
    let (line, order) = looked.log.last::<ConcreteOrdered>()?;
    if looked.assessment.picture.loads.iter().any(|load| line.at <= load.arrived) {
        return None;
    }
    let due = order.due.map_or_else(String::new, |due| format!(", due {}", looked.show.moment(due)));
    Some(format!("{} ordered {}{due}", order.volume.shown(), looked.show.moment(line.at)))
}
