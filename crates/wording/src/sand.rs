//! Density and sand of one fluid sample that do not fit each other.

use crate::entry::entry_reference;
use crate::notice::Notice;
use crate::show::Show;
use assess::reckon::SandPair;
use quantity::Density;
use record::Log;

/// Two readings of a sample that cannot both be true of water and sand alone; `None` where they fit.
pub fn sand_pair(pair: &SandPair, log: &Log<'_>, show: &Show) -> Option<Notice> {
    if !pair.apart {
        return None;
    }
    let difference = pair.fit.difference.value.to_kilograms_per_cubic_meter();
    let side = if difference > 0.0 { "heavier" } else { "lighter" };
    let size = show.density(Density::kilograms_per_cubic_meter(difference.abs()));
    let what = format!(
        "By the fluid test {} the fluid is {size} {side} than its sand explains; the sand calls for {}.",
        entry_reference(pair.entry, log, show),
        show.density(pair.fit.expected)
    );
    let next = match difference > 0.0 {
        true => {
            "Test the sample again and check the balance in water. Fines in suspension would explain it too."
        }
        false => "Test the sample again and check the balance in water and the sand tube.",
    };
    Some(Notice::new(
        "density_against_sand",
        what,
        "Both readings are kept and judged as they were written.",
        next,
    ))
}
