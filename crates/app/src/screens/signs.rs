//! The signs of `screen` in the shapes the widgets draw.

use crate::widgets;
use screen::live::{Haste, Ready, Sign};

/// The shape of a verdict.
pub(super) fn of_sign(sign: Sign) -> widgets::Sign {
    match sign {
        Sign::Fails => widgets::Sign::Fails,
        Sign::CannotSay => widgets::Sign::Doubtful,
        Sign::NotMeasured => widgets::Sign::NotMeasured,
        Sign::Meets => widgets::Sign::Meets,
        Sign::NoLimitSet => widgets::Sign::NoLimit,
    }
}

/// The shape of a haste.
pub(super) fn of_haste(haste: Haste) -> widgets::Sign {
    match haste {
        Haste::Now => widgets::Sign::Now,
        Haste::Soon => widgets::Sign::Soon,
        Haste::Later => widgets::Sign::Later,
    }
}

/// The shape and the word of an item that has to be there before the work goes on.
pub(super) fn of_ready(ready: Ready) -> (widgets::Sign, &'static str) {
    match ready {
        Ready::DoesNotMeet => (widgets::Sign::Fails, "does not meet"),
        Ready::Missing => (widgets::Sign::NotMeasured, "missing"),
        Ready::There => (widgets::Sign::Meets, "in the record"),
    }
}
