//! What was delivered and is not in the hole; what is still to order.

use calc::placed::{Delivered, Lines, balance_column, pipe_content, standing_in_pipe, volume_placed};
use quantity::{Density, Length, Volume};

use super::yards;

#[track_caller]
fn placed([delivered, wasted, left, lines]: [f64; 4], expected: &str) {
    let account = Delivered {
        delivered: yards(delivered),
        wasted: yards(wasted),
        left_in_truck: yards(left),
        in_lines: yards(lines),
    };
    let got = match volume_placed(&account) {
        Ok(volume) => format!("{:.2} yd³", volume.to_cubic_yards()),
        Err(error) => error.to_string(),
    };
    assert_eq!(got, expected);
}

#[test]
fn placed_is_what_is_left_of_the_delivered() {
    placed([9.0, 0.0, 0.0, 0.0], "9.00 yd³");
    placed([9.0, 0.25, 1.0, 0.75], "7.00 yd³");
    placed([9.0, 4.0, 4.0, 1.5], "more is wasted or in lines than was delivered");
    placed([9.0, -0.1, 0.0, 0.0], "a volume is negative");
}

/// By hand: 65/150 · 30 ft = 13 ft of a 10-in pipe at 0.5454 ft³/ft is 7.090 ft³ = 0.263 yd³; 100 ft of
/// a 5-in pump line at 0.13635 ft³/ft is 0.505 yd³.
#[test]
fn lines_hold_what_has_not_arrived() {
    let pcf = Density::pounds_per_cubic_foot;
    let column = balance_column(pcf(65.0), pcf(150.0), Length::feet(30.0)).expect("fluid is lighter");
    assert_eq!(column, Length::feet(13.0));
    let lines = Lines {
        tremie: standing_in_pipe(Length::inches(10.0), column).expect("a pipe"),
        pump_line: standing_in_pipe(Length::inches(5.0), Length::feet(100.0)).expect("a pipe"),
        ..Lines::empty()
    };
    assert_eq!(format!("{:.3}", lines.tremie.to_cubic_yards()), "0.263");
    assert_eq!(format!("{:.3}", lines.total().to_cubic_yards()), "0.768");
    assert_eq!(Lines::empty().total(), Volume::cubic_meters(0.0));
}

#[test]
fn a_column_without_sense_is_refused() {
    let pcf = Density::pounds_per_cubic_foot;
    let column = |fluid, concrete, feet| {
        balance_column(pcf(fluid), pcf(concrete), Length::feet(feet)).map_err(|error| error.to_string())
    };
    assert_eq!(column(0.0, 150.0, 30.0), Ok(Length::ZERO));
    assert_eq!(column(150.0, 150.0, 30.0), Err("the fluid is not lighter than the concrete".to_owned()));
    assert_eq!(column(65.0, 150.0, -1.0), Err("a length is too small".to_owned()));
    assert_eq!(
        pipe_content(Length::ZERO).map_err(|error| error.to_string()),
        Err("a length is too small".to_owned())
    );
    assert!(standing_in_pipe(Length::inches(10.0), Length::feet(-1.0)).is_err());
}
