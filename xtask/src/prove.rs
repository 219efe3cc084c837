//! The figures that show what the estimates are worth: `cargo xtask prove [PART ...] [--pours N]`.
//!
//! The proofs live in the crate `proof`, in release, over thousands of made-up pours; the tests hold a short
//! form of them. The part `speed` is the only one that lives here: it runs in a browser too.
//!
//! Never: hide a figure that does not hold; the table is printed before the chore fails.

use crate::house::House;
use crate::notice::Notice;
use crate::{shell, speed};

/// The part that says how fast the estimates are; it comes last, and alone when it is named alone.
const SPEED: &str = "speed";

/// Builds the proofs for release and prints their table, then the times.
///
/// # Errors
/// When a figure is not what it has to be, or something did not run.
pub(crate) fn run(house: &House, words: &[String]) -> Result<(), Notice> {
    let (proofs, timed) = asked(words);
    let proved = proofs.map_or(Ok(()), |words| prove(house, &words));
    if timed {
        println!("\n**speed**");
        speed::run(house)?;
    }
    proved
}

/// The words for the proofs, if any is to run, and whether times are wanted.
fn asked(words: &[String]) -> (Option<Vec<String>>, bool) {
    let rest: Vec<String> = words.iter().filter(|word| *word != SPEED).cloned().collect();
    let (named, alone) = (rest.len() < words.len(), rest.is_empty());
    let all = rest.first().is_none_or(|word| word.starts_with("--"));
    ((!named || !alone).then_some(rest), named || all)
}

fn prove(house: &House, words: &[String]) -> Result<(), Notice> {
    println!("building the proofs for release (some minutes on a fresh clone), then 5,000 pours unless told");
    let mut command =
        house.cargo(&["run", "--quiet", "--release", "--package", "proof", "--bin", "prove", "--"]);
    command.args(words);
    match shell::stream(&mut command)?.success {
        true => Ok(()),
        false => Err(Notice::new(
            format!("`{}` did not end well.", shell::spoken(&command)),
            "A figure is not what it has to be, or the proofs did not run: the estimates promise more than they keep.",
            "Read the rows that fail above, or the message beside them; `cargo xtask prove PART` runs one part alone.",
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn speed_comes_last_or_alone() {
        let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        let check = |text: &str, proofs: Option<&str>, timed: bool| {
            assert_eq!(asked(&words(text)), (proofs.map(words), timed), "{text}");
        };
        check("", Some(""), true);
        check("--pours 200", Some("--pours 200"), true);
        check("necks", Some("necks"), false);
        check("speed", None, true);
        check("necks speed --pours 9", Some("necks --pours 9"), true);
    }
}
