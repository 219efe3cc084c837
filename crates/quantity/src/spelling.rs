//! From what people write to a unit of the table.
//!
//! Only units of the field's own kind are taken: `yd` is a cubic yard in a volume field and a yard in a
//! length field, and `m` in a temperature field is a slip.
//!
//! Never: convert from one kind to another.

use crate::entered::Reading;
use crate::kind::Kind;
use crate::misread::Problem;
use crate::unit::{Unit, units};

/// Spellings that mean the international foot even where coordinates are in survey feet.
const INTERNATIONAL: &[&str] = &["ift", "int ft"];

/// A spelling as the table holds it.
pub(crate) fn canonical(spelled: &str) -> String {
    let bare: String = spelled.to_lowercase().chars().filter(|sign| !matches!(sign, '.' | '^')).collect();
    bare.split_whitespace().collect::<Vec<_>>().join(" ").replace(" per ", "/")
}

/// The unit of `kind` spelled like that, and the unit the field had to supply for it, if any.
pub(crate) fn named(
    spelled: &str,
    kind: Kind,
    reading: Reading,
) -> Result<(&'static Unit, Option<&'static Unit>), Problem> {
    let spelling = canonical(spelled);
    if spelling.is_empty() {
        let unit = reading.unit.filter(|unit| unit.kind == kind).ok_or(Problem::NoUnit)?;
        return Ok((unit, Some(unit)));
    }
    let unit = of_kind(&spelling, kind).ok_or_else(|| stranger(spelled, &spelling, kind))?;
    let survey = reading.unit == Some(&units::SURVEY_FOOT) && *unit == units::FOOT;
    if survey && !INTERNATIONAL.contains(&spelling.as_str()) {
        return Ok((&units::SURVEY_FOOT, Some(&units::SURVEY_FOOT)));
    }
    Ok((unit, None))
}

fn of_kind(spelling: &str, kind: Kind) -> Option<&'static Unit> {
    let mut all = units::ALL.iter().copied();
    all.find(|unit| unit.kind == kind && unit.spellings.contains(&spelling))
}

/// Why a spelling is no unit of `kind`.
fn stranger(spelled: &str, spelling: &str, kind: Kind) -> Problem {
    let seconds = units::SECOND.spellings.contains(&spelling);
    if kind == Kind::FunnelTime && seconds {
        return Problem::NoUnit;
    }
    if kind == Kind::Temperature && ["°", "deg", "degrees"].contains(&spelling) {
        return Problem::NoUnit;
    }
    match units::ALL.iter().find(|unit| unit.spellings.contains(&spelling)) {
        Some(unit) => Problem::OtherKind(unit),
        None => Problem::UnknownUnit(spelled.to_owned()),
    }
}

/// The units of `kind` whose spelling is one slip away from `spelled`, or begins with it. Survey feet are
/// never offered: they are the job's choice.
pub(crate) fn near(spelled: &str, kind: Kind) -> Vec<&'static Unit> {
    let spelling = canonical(spelled);
    let close =
        |known: &&str| one_slip(&spelling, known) || (!spelling.is_empty() && known.starts_with(&spelling));
    let of_kind = units::ALL.iter().copied().filter(|unit| unit.kind == kind && **unit != units::SURVEY_FOOT);
    of_kind.filter(|unit| unit.spellings.iter().any(close)).collect()
}

/// One sign more, less, other, or two neighbours swapped.
fn one_slip(typed: &str, known: &str) -> bool {
    let (typed, known): (Vec<char>, Vec<char>) = (typed.chars().collect(), known.chars().collect());
    if known.len() < 2 || typed.len().abs_diff(known.len()) > 1 {
        return false;
    }
    let same = typed.iter().zip(&known).take_while(|(a, b)| a == b).count();
    let (left, right) = (&typed[same..], &known[same..]);
    let after = |signs: &[char], count: usize| signs.get(count..).map(<[char]>::to_vec);
    let swapped = left.len() > 1 && right.len() > 1 && left[0] == right[1] && left[1] == right[0];
    after(left, 1).as_deref() == Some(right)
        || after(right, 1).as_deref() == Some(left)
        || (after(left, 1).is_some() && after(left, 1) == after(right, 1))
        || (swapped && left[2..] == right[2..])
}

#[cfg(test)]
mod tests {
    use super::{canonical, near, one_slip};
    use crate::kind::Kind;
    use crate::text::plain;
    use crate::unit::units;

    #[test]
    fn every_spelling_of_the_table_is_canonical_and_unique_in_its_kind() {
        for unit in units::ALL {
            for spelling in unit.spellings {
                assert_eq!(
                    &canonical(&plain(spelling)),
                    spelling,
                    "the table holds canonical spellings only"
                );
                let owners: Vec<&str> = units::ALL
                    .iter()
                    .filter(|other| other.kind == unit.kind && other.spellings.contains(spelling))
                    .map(|other| other.symbol)
                    .collect();
                assert_eq!(owners, [unit.symbol], "`{spelling}` names one unit of its kind");
            }
        }
    }

    #[test]
    fn every_symbol_reads_as_its_own_unit() {
        for unit in units::ALL.iter().filter(|unit| !unit.symbol.is_empty()) {
            let spelling = canonical(&plain(unit.symbol));
            assert!(unit.spellings.contains(&spelling.as_str()), "`{}` is printed but not read", unit.symbol);
        }
    }

    #[test]
    fn one_slip_of_a_finger() {
        for typed in ["fete", "fet", "feeet", "feat"] {
            assert!(one_slip(typed, "feet"), "{typed}");
        }
        assert!(!one_slip("feet", "feet m"));
        assert!(!one_slip("meter", "feet"));
        assert!(!one_slip("x", "m"), "a unit of one letter has no neighbours");
        assert_eq!(near("fete", Kind::Length), [&units::FOOT]);
    }
}
