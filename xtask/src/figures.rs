//! What an office tells a monitor, read by the library monitors are made of.
//!
//! A script serves an office with the program, works with it a little, and reads its figures before and after.

use crate::house::House;
use crate::notice::Notice;
use crate::outside::emptied;
use crate::tally::Tally;
use crate::{demo, python, reference, shell};

const SCRIPT: &str = "tests/reference/metrics_check.py";

/// The folder that is served.
const OFFICE: &str = "target/watched";

/// Builds the program and lets the script serve and read.
///
/// # Errors
/// When the program does not build, or the script counts nothing.
pub(crate) fn step(house: &House) -> Result<Tally, Notice> {
    let program = demo::build(house, &[])?;
    emptied(house, OFFICE)?;
    println!("    {SCRIPT}");
    let mut command = house.command(python::interpreter(house));
    let ran = shell::stream(command.arg(SCRIPT).arg(program).arg(OFFICE))?;
    reference::counted(ran, SCRIPT)
}
