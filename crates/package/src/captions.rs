//! What to look at in each drawing, in one sentence.
//!
//! Never: say how a shaft stands; that is said by its findings.

use crate::Source;
use assess::shape::{Asked, Shape};

/// The caption of a drawing of this shaft: what to look at, and for the estimated shape what it says and could not say.
pub(crate) fn caption(word: &str, source: &Source<'_, '_>) -> String {
    let look = of(word).to_owned();
    if word != "profile" {
        return look;
    }
    let asked = Asked::of(source.log, source.assessment, source.earlier);
    let shape = Shape::of(asked, wording::heights(&source.show()));
    let text = match &shape {
        Ok(shape) => wording::shape(shape, source.assessment, &source.show()),
        Err(why) => return format!("{look} {}", wording::no_shape(*why)),
    };
    let told = text.told.iter().flat_map(|told| [told.sentence.as_str(), told.do_now]);
    let doubts = text.doubts.iter().flat_map(|doubt| [doubt.what.as_str(), doubt.next.as_str()]);
    let all: Vec<&str> = [look.as_str(), &text.whole]
        .into_iter()
        .chain(told)
        .chain(doubts)
        .chain([text.blind_spots.as_str(), text.blind_do])
        .collect();
    all.into_iter().filter(|one| !one.is_empty()).collect::<Vec<_>>().join("\n")
}

/// The caption of a drawing; empty for one that stands on page one, where the findings are beside it.
pub(crate) fn of(word: &str) -> &'static str {
    match word {
        "section" => {
            "Look at where an interval took more or less than the others: a bulge or a neck stands beside its \
             stratum, and the bars say how far tape and tickets can be trusted."
        }
        "curve" => {
            "Look at where the placed volume leaves the theoretical one, and at the bars of tape and tickets."
        }
        "base" => "Look at the thickest place and at whether soft bottom lies on one side.",
        "profile" => {
            "Look at where the band leaves 1.00, and beside it at how much could hide; an estimate is no reading, and the \
             engineer decides what it means."
        }
        "cage" => "Look at the clear distance between bars and at the cover on every side.",
        "slump" => {
            "Look at whether the slump of each load lasts until the casing is out and the inserts are in."
        }
        "fluid" => {
            "Look at the tests nearest to the concrete, and at readings within the accuracy of their instrument."
        }
        "position" => {
            "Look at the center at the level of the tolerance, and at which way the shaft leans below it."
        }
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    /// Page one has the day sheet; the curve stands beside the section.
    #[test]
    fn every_drawing_after_the_logs_says_what_to_look_at() {
        let silent = drawing::ALL.iter().filter(|one| super::of(one.word).is_empty()).map(|one| one.word);
        assert_eq!(silent.collect::<Vec<_>>(), ["day"]);
    }
}
