//! The units people write, as one table.
//!
//! A unit is one line of data: its symbol, the other ways people spell it, and the exact rational factor
//! to the SI unit of its kind. Factors are those of [NIST-SP-811], Appendix B.8, rebuilt from the exact
//! definitions (foot 0.3048 m, pound 0.453 592 37 kg, US gallon 231 in³, standard gravity 9.806 65 m/s²).
//!
//! Words: *symbol* = how we print it; *spelling* = how people write it, in lower case, without full stops
//! and without the sign of a raised digit (`cu yd` for `cu. yd.`, `yd3` for `yd³`).
//! Never: round a factor.

use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub};

use crate::kind::Kind;
use crate::number::Exact;

/// One unit of one kind.
#[derive(Debug, PartialEq, Eq)]
pub struct Unit {
    /// How we print it, for example `yd³`.
    pub symbol: &'static str,
    /// How people write it; see *spelling* in the header.
    pub spellings: &'static [&'static str],
    /// What it measures.
    pub kind: Kind,
    /// Exact factor to the SI unit, numerator.
    pub numerator: i128,
    /// Exact factor to the SI unit, denominator.
    pub denominator: i128,
    /// Added after the factor, numerator over denominator: only temperatures have one.
    pub offset: (i128, i128),
}

impl Unit {
    /// The factor to the SI unit of the kind.
    pub fn factor(&self) -> Exact {
        Exact::new(self.numerator, self.denominator)
    }

    /// The exact SI value of `number` of this unit. Panics when it does not fit into 128 bits.
    pub fn si_of(&self, number: Exact) -> Exact {
        self.checked_si_of(number).expect("a number of a unit on a site fits into 128 bits")
    }

    /// The exact SI value of `number` of this unit; `None` when it does not fit into 128 bits.
    pub fn checked_si_of(&self, number: Exact) -> Option<Exact> {
        number.checked_mul(&self.factor())?.checked_add(&self.exact_offset())
    }

    /// The exact number of this unit that an SI value is; `None` when it does not fit into 128 bits.
    pub fn checked_from_si(&self, si: Exact) -> Option<Exact> {
        si.checked_sub(&self.exact_offset())?.checked_div(&self.factor())
    }

    fn exact_offset(&self) -> Exact {
        Exact::new(self.offset.0, self.offset.1)
    }

    /// How many of this unit an SI value is.
    pub fn from_si(&self, si: f64) -> f64 {
        let offset = self.offset.0 as f64 / self.offset.1 as f64;
        (si - offset) * self.denominator as f64 / self.numerator as f64
    }
}

/// Every unit, by name.
pub mod units {
    use super::Unit;
    use crate::kind::Kind;

    macro_rules! units {
        (@offset) => { (0, 1) };
        (@offset $off:expr) => { $off };
        ($(
            $(#[$doc:meta])*
            $name:ident: $kind:ident $symbol:literal [$($spelling:literal),*] = $num:expr, $den:expr $(, $off:expr)?;
        )*) => {
            $($(#[$doc])* pub static $name: Unit = Unit {
                symbol: $symbol, spellings: &[$($spelling),*], kind: Kind::$kind,
                numerator: $num, denominator: $den, offset: units!(@offset $($off)?),
            };)*
            /// All of them, in the order of the table.
            pub static ALL: &[&Unit] = &[$(&$name),*];
        };
    }

    units! {
        /// International foot, exact. [NIST-SP-811], App. B.8.
        FOOT: Length "ft" ["ft", "foot", "feet", "'", "ift", "int ft"] = 3048, 10_000;
        /// Inch, exact. [NIST-SP-811], App. B.8.
        INCH: Length "in" ["in", "inch", "inches", "\""] = 254, 10_000;
        /// Yard, exact.
        YARD: Length "yd" ["yd", "yard", "yards"] = 9144, 10_000;
        /// US survey foot, exact ratio; for coordinates only. [NIST-SP-811], App. B.6.
        SURVEY_FOOT: Length "US survey ft" ["us survey ft", "survey ft", "us ft", "ftus", "usft", "sft"]
            = 1200, 3937;
        /// Metre.
        METER: Length "m" ["m", "meter", "meters", "metre", "metres"] = 1, 1;
        /// Centimetre.
        CENTIMETER: Length "cm" ["cm", "centimeter", "centimeters", "centimetre", "centimetres"] = 1, 100;
        /// Millimetre.
        MILLIMETER: Length "mm" ["mm", "millimeter", "millimeters", "millimetre", "millimetres"] = 1, 1000;
        /// Square foot.
        SQUARE_FOOT: Area "ft²" ["ft2", "sf", "sq ft", "square feet"] = 9_290_304, 100_000_000;
        /// Square inch.
        SQUARE_INCH: Area "in²" ["in2", "sq in", "square inches"] = 64_516, 100_000_000;
        /// Square metre.
        SQUARE_METER: Area "m²" ["m2", "sq m", "square meters", "square metres"] = 1, 1;
        /// Square millimetre.
        SQUARE_MILLIMETER: Area "mm²" ["mm2", "sq mm"] = 1, 1_000_000;
        /// Cubic yard, exact, the cube of 0.9144 m. [NIST-SP-811], App. B.8.
        CUBIC_YARD: Volume "yd³" [
            "yd3", "cy", "cu yd", "cuyd", "cu yds", "cubic yard", "cubic yards", "yards", "yard", "yds",
            "yd"] = 764_554_857_984, 1_000_000_000_000;
        /// Cubic foot, exact.
        CUBIC_FOOT: Volume "ft³" ["ft3", "cf", "cu ft", "cuft", "cubic foot", "cubic feet"]
            = 28_316_846_592, 1_000_000_000_000;
        /// Cubic metre.
        CUBIC_METER: Volume "m³" [
            "m3", "cu m", "cum", "cubic meter", "cubic meters", "cubic metre", "cubic metres"] = 1, 1;
        /// US liquid gallon, 231 in³ exact.
        GALLON: Volume "gal" ["gal", "gals", "gallon", "gallons", "us gal"]
            = 3_785_411_784, 1_000_000_000_000;
        /// Litre.
        LITER: Volume "L" ["l", "liter", "liters", "litre", "litres"] = 1, 1000;
        /// Millilitre.
        MILLILITER: Volume "mL" ["ml", "milliliter", "milliliters", "millilitre", "millilitres"] = 1, 1_000_000;
        /// Pound per cubic foot.
        POUND_PER_CUBIC_FOOT: Density "pcf" ["pcf", "lb/ft3", "lbs/ft3", "lb/cf", "lb/cu ft", "lbs/cu ft"]
            = 45_359_237 * 10_000, 28_316_846_592;
        /// Pound per cubic yard: cement contents.
        POUND_PER_CUBIC_YARD: Density "lb/yd³" ["lb/yd3", "lbs/yd3", "lb/cy", "lbs/cy", "lb/cu yd", "pcy"]
            = 45_359_237 * 10_000, 764_554_857_984;
        /// Gram per cubic centimetre.
        GRAM_PER_CUBIC_CENTIMETER: Density "g/cm³" ["g/cm3", "g/cc", "g/ml", "sg", "t/m3", "kg/l"] = 1000, 1;
        /// Kilogram per cubic metre.
        KILOGRAM_PER_CUBIC_METER: Density "kg/m³" ["kg/m3"] = 1, 1;
        /// Pound per US gallon.
        POUND_PER_GALLON: Density "lb/gal" ["lb/gal", "lbs/gal", "ppg"] = 45_359_237 * 10_000, 3_785_411_784;
        /// Kilonewton per cubic metre at standard gravity.
        KILONEWTON_PER_CUBIC_METER: Density "kN/m³" ["kn/m3"] = 100_000_000, 980_665;
        /// Pound, exact.
        POUND: Mass "lb" ["lb", "lbs", "pound", "pounds"] = 45_359_237, 100_000_000;
        /// Kilogram.
        KILOGRAM: Mass "kg" ["kg"] = 1, 1;
        /// Metric tonne.
        TONNE: Mass "t" ["t", "tonne", "tonnes"] = 1000, 1;
        /// Short ton, 2000 lb.
        SHORT_TON: Mass "ton" ["ton", "tons"] = 45_359_237 * 2000, 100_000_000;
        /// Kilonewton.
        KILONEWTON: Force "kN" ["kn"] = 1000, 1;
        /// Pound-force, exact.
        POUND_FORCE: Force "lbf" ["lbf"] = 45_359_237 * 980_665, 10_000_000_000_000;
        /// Thousand pounds-force.
        KIP: Force "kip" ["kip", "kips"] = 45_359_237 * 980_665, 10_000_000_000;
        /// Pound-force per square inch.
        PSI: Pressure "psi" ["psi", "lb/in2", "lbf/in2"] = 45_359_237 * 980_665, 100_000 * 64_516;
        /// Thousand pounds-force per square inch.
        KSI: Pressure "ksi" ["ksi"] = 45_359_237 * 980_665, 100 * 64_516;
        /// Pound-force per square foot.
        PSF: Pressure "psf" ["psf", "lb/ft2", "lbf/ft2"] = 45_359_237 * 980_665, 100_000 * 9_290_304;
        /// Thousand pounds-force per square foot.
        KSF: Pressure "ksf" ["ksf"] = 45_359_237 * 980_665, 100 * 9_290_304;
        /// Megapascal.
        MEGAPASCAL: Pressure "MPa" ["mpa", "n/mm2", "mn/m2"] = 1_000_000, 1;
        /// Bar, exact; grout and pump pressures.
        BAR: Pressure "bar" ["bar", "bars"] = 100_000, 1;
        /// Kilopascal.
        KILOPASCAL: Pressure "kPa" ["kpa", "kn/m2"] = 1000, 1;
        /// Newton per square metre.
        PASCAL: Pressure "Pa" ["pa", "n/m2"] = 1, 1;
        /// Degree Fahrenheit: K = 5/9 F + 255.372 2…, kept as 5/9 (F + 459.67).
        FAHRENHEIT: Temperature "°F" ["°f", "f", "degf", "deg f", "degrees f", "fahrenheit"]
            = 5, 9, (5 * 45_967, 900);
        /// Degree Celsius.
        CELSIUS: Temperature "°C" ["°c", "c", "degc", "deg c", "degrees c", "celsius"] = 1, 1, (27_315, 100);
        /// Kelvin.
        KELVIN: Temperature "K" ["k"] = 1, 1;
        /// Second.
        SECOND: Span "s" ["s", "sec", "second", "seconds"] = 1, 1;
        /// Minute.
        MINUTE: Span "min" ["min", "minute", "minutes", "mins"] = 60, 1;
        /// Hour.
        HOUR: Span "h" ["h", "hr", "hrs", "hour", "hours"] = 3600, 1;
        /// Day of 24 hours.
        DAY: Span "d" ["d", "day", "days"] = 86_400, 1;
        /// Seconds for one US quart (946 mL).
        SECOND_PER_QUART: FunnelTime "s/qt" [
            "s/qt", "sec/qt", "seconds/qt", "s/quart", "sec/quart", "s/946ml", "s/946 ml", "s/1qt", "s/1 qt"] = 1, 1;
        /// Seconds for one litre. Not a multiple of the quart time: the head falls while it runs.
        SECOND_PER_LITER: FunnelTime "s/L" [
            "s/l", "sec/l", "seconds/l", "s/liter", "s/litre", "s/1000ml", "s/1000 ml", "s/1l", "s/1 l"] = 1, 1;
        /// Percent.
        PERCENT: Fraction "%" ["%", "percent", "pct"] = 1, 100;
        /// Part of one, written as a plain number.
        PART: Fraction "" [] = 1, 1;
        /// pH unit, written as a plain number.
        PH: Ph "" ["ph"] = 1, 1;
        /// Inch per foot.
        INCH_PER_FOOT: Slope "in/ft" ["in/ft", "inch/foot", "inches/foot", "\"/ft", "\"/'"] = 1, 12;
        /// Percent of the height.
        PERCENT_SLOPE: Slope "%" ["%", "percent", "pct"] = 1, 100;
        /// Millimetre per metre.
        MILLIMETER_PER_METER: Slope "mm/m" ["mm/m"] = 1, 1000;
        /// Metre per metre.
        METER_PER_METER: Slope "m/m" ["m/m"] = 1, 1;
        /// Inch per hour.
        INCH_PER_HOUR: Inflow "in/h" ["in/h", "in/hr", "inch/hour", "inches/hour"] = 254, 10_000 * 3600;
        /// Foot per hour.
        FOOT_PER_HOUR: Inflow "ft/h" ["ft/h", "ft/hr"] = 3048, 10_000 * 3600;
        /// Millimetre per hour.
        MILLIMETER_PER_HOUR: Inflow "mm/h" ["mm/h", "mm/hr"] = 1, 1000 * 3600;
        /// Metre per hour.
        METER_PER_HOUR: Inflow "m/h" ["m/h", "m/hr"] = 1, 3600;
        /// Mass of water per mass of cementitious material, a plain number.
        WATER_CEMENT: WaterCement "" ["w/c", "w/cm"] = 1, 1;
    }
}
