//! The figures that show what the estimates are worth: `cargo xtask prove [PART ...] [--pours N]`.
//!
//! The proofs live in the crate `proof`, in release, over thousands of made-up pours; the tests hold a short
//! form of them.
//!
//! Never: hide a figure that does not hold; the table is printed before the chore fails.

use crate::house::House;
use crate::notice::Notice;
use crate::shell;

/// Builds the proofs for release and prints their table.
///
/// # Errors
/// When a figure is not what it has to be, or the proofs did not run.
pub(crate) fn run(house: &House, words: &[String]) -> Result<(), Notice> {
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
