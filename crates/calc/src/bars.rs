//! Reinforcing bars by the name people call them, with diameter, area and mass.
//!
//! Words: *nominal* = of a round bar of the same mass, not across the ribs.
//! Units: SI inside; US bars keep the printed inches and pounds.
//! Never: round a printed value.

use quantity::{Area, Length};

/// One size of bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bar {
    /// How people call it: `#11` or `32 mm`.
    pub name: &'static str,
    /// Nominal diameter.
    pub diameter: Length,
    /// Nominal area.
    pub area: Area,
    /// Kilograms of one metre.
    pub kilograms_per_meter: f64,
}

/// A row of the US table: name, diameter in thousandths of an inch, area in hundredths of a square inch,
/// thousandths of a pound per foot.
type UsRow = (&'static str, u32, u32, u32);

/// [ASTM-A615], nominal dimensions and weights as printed.
const US: [UsRow; 11] = [
    ("#3", 375, 11, 376),
    ("#4", 500, 20, 668),
    ("#5", 625, 31, 1043),
    ("#6", 750, 44, 1502),
    ("#7", 875, 60, 2044),
    ("#8", 1000, 79, 2670),
    ("#9", 1128, 100, 3400),
    ("#10", 1270, 127, 4303),
    ("#11", 1410, 156, 5313),
    ("#14", 1693, 225, 7650),
    ("#18", 2257, 400, 13_600),
];

/// [EN-10080], preferred nominal diameters in millimetres.
const METRIC: [(&str, u32); 11] = [
    ("6 mm", 6),
    ("8 mm", 8),
    ("10 mm", 10),
    ("12 mm", 12),
    ("14 mm", 14),
    ("16 mm", 16),
    ("20 mm", 20),
    ("25 mm", 25),
    ("28 mm", 28),
    ("32 mm", 32),
    ("40 mm", 40),
];

/// Mass of a metre of 1 lb/ft, exact: 0.453 592 37 kg over 0.3048 m. [NIST-SP-811], App. B.8.
const KILOGRAMS_PER_METER_OF_POUND_PER_FOOT: f64 = 0.453_592_37 / 0.3048;

/// Density of reinforcing steel, kg/m³. [EN-10080], 7.1.3.
const STEEL_KG_PER_CUBIC_METER: f64 = 7850.0;

/// All sizes, US first, each family from thin to thick.
///
/// **Source**: [ASTM-A615] as printed; [EN-10080]: `A = π d² / 4`, mass with 7850 kg/m³.
pub fn all() -> Vec<Bar> {
    US.iter().map(us_bar).chain(METRIC.iter().map(metric_bar)).collect()
}

/// The bar of a name: `#11`, `No. 11`, `no 11`, `32 mm`, `32mm`, `T32`, `Ø32`; `None` for an unknown size.
///
/// A plain number is no name: 8 is a US size and a metric one.
///
/// **Source**: as [`all`].
///
/// ```
/// let bar = calc::bars::find("No. 11").unwrap();
/// assert_eq!(format!("{:.2} in²", bar.area.to_square_inches()), "1.56 in²");
/// ```
pub fn find(name: &str) -> Option<Bar> {
    let plain: String = name.to_lowercase().chars().filter(|c| !c.is_whitespace() && *c != '.').collect();
    let number = |text: &str| text.parse::<u32>().ok().map(|number| number.to_string());
    let wanted = if let Some(size) = plain.strip_prefix('#').or_else(|| plain.strip_prefix("no")) {
        format!("#{}", number(size)?)
    } else if let Some(size) = plain.strip_suffix("mm") {
        format!("{} mm", number(size)?)
    } else {
        let size = plain.strip_prefix('t').or_else(|| plain.strip_prefix('ø'))?;
        format!("{} mm", number(size)?)
    };
    all().into_iter().find(|bar| bar.name == wanted)
}

fn us_bar(&(name, diameter, area, pounds): &UsRow) -> Bar {
    Bar {
        name,
        diameter: Length::nanometers(i64::from(diameter) * 25_400),
        area: Area::square_inches(f64::from(area) / 100.0),
        kilograms_per_meter: f64::from(pounds) / 1000.0 * KILOGRAMS_PER_METER_OF_POUND_PER_FOOT,
    }
}

fn metric_bar(&(name, millimeters): &(&'static str, u32)) -> Bar {
    let diameter = f64::from(millimeters) / 1000.0;
    let area = std::f64::consts::PI * diameter * diameter / 4.0;
    Bar {
        name,
        diameter: Length::nanometers(i64::from(millimeters) * 1_000_000),
        area: Area::square_meters(area),
        kilograms_per_meter: area * STEEL_KG_PER_CUBIC_METER,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: [EN-10080] style tables, from memory: nominal area in mm² and mass in kg/m as printed.
    /// Tolerance: half of the last printed digit.
    #[test]
    fn metric_bars_agree_with_the_usual_table() {
        let printed = [
            ("6 mm", 28.3, 0.05, 0.222),
            ("8 mm", 50.3, 0.05, 0.395),
            ("10 mm", 78.5, 0.05, 0.617),
            ("12 mm", 113.0, 0.5, 0.888),
            ("16 mm", 201.0, 0.5, 1.58),
            ("20 mm", 314.0, 0.5, 2.47),
            ("25 mm", 491.0, 0.5, 3.85),
            ("28 mm", 616.0, 0.5, 4.83),
            ("32 mm", 804.0, 0.5, 6.31),
            ("40 mm", 1257.0, 0.5, 9.86),
        ];
        for (name, area, half_digit, mass) in printed {
            let bar = find(name).expect("a size of the table");
            assert!((bar.area.to_square_millimeters() - area).abs() <= half_digit, "{name} area");
            assert!((bar.kilograms_per_meter - mass).abs() <= 0.005_1, "{name} mass");
        }
    }

    /// A round bar of the printed diameter and 490 lb/ft³ weighs what the US table prints, to 2 %: the table
    /// is consistent in itself, so no row has slipped.
    #[test]
    fn every_us_row_is_consistent_in_itself() {
        for bar in all().iter().filter(|bar| bar.name.starts_with('#')) {
            let diameter = bar.diameter.to_inches();
            let area = std::f64::consts::PI * diameter * diameter / 4.0;
            let printed = bar.area.to_square_inches();
            assert!((area / printed - 1.0).abs() < 0.02, "{} area {area} beside {printed}", bar.name);
            let pounds = printed / 144.0 * 490.0;
            let weight = bar.kilograms_per_meter / KILOGRAMS_PER_METER_OF_POUND_PER_FOOT;
            assert!((weight / pounds - 1.0).abs() < 0.02, "{} weight {weight} beside {pounds}", bar.name);
        }
    }

    #[test]
    fn names_people_write() {
        let name = |text| find(text).map(|bar| bar.name);
        assert_eq!(name("No. 11"), Some("#11"));
        assert_eq!(name("# 5"), Some("#5"));
        assert_eq!(name("32mm"), Some("32 mm"));
        assert_eq!(name("T16"), Some("16 mm"));
        assert_eq!(name("8"), None);
        assert_eq!(name("#12"), None);
        assert_eq!(name("eleven"), None);
    }
}
