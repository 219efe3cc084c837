"""Recomputes every unit of the quantity crate with pint, a library that knows nothing of us.

    python tests/reference/units_check.py TABLE.tsv

The table comes from `cargo run -p quantity --example units_table`. Each row is a number of a unit and the exact
SI value our reader gave it. A row passes when pint's value differs by at most 1e-12 of it (for lengths
by half a nanometre, which is how finely we keep one). A unit this script has no independent name for is a
failure, not a gap. Ends with the counts; the exit code is 1 when a row disagrees, 2 when nothing can be
compared.
"""

import csv
import sys
from fractions import Fraction

import pint

RELATIVE = 1e-12
HALF_A_NANOMETRE = 0.5e-9

# (kind, unit as we print it) -> the same unit in pint's words.
NAMES = {
    ("Length", "ft"): "foot",
    ("Length", "in"): "inch",
    ("Length", "yd"): "yard",
    ("Length", "US survey ft"): "survey_foot",
    ("Length", "m"): "meter",
    ("Length", "cm"): "centimeter",
    ("Length", "mm"): "millimeter",
    ("Area", "ft²"): "foot ** 2",
    ("Area", "in²"): "inch ** 2",
    ("Area", "m²"): "meter ** 2",
    ("Area", "mm²"): "millimeter ** 2",
    ("Volume", "yd³"): "yard ** 3",
    ("Volume", "ft³"): "foot ** 3",
    ("Volume", "m³"): "meter ** 3",
    ("Volume", "gal"): "US_liquid_gallon",
    ("Volume", "L"): "liter",
    ("Volume", "mL"): "milliliter",
    ("Density", "pcf"): "pound / foot ** 3",
    ("Density", "lb/yd³"): "pound / yard ** 3",
    ("Density", "g/cm³"): "gram / centimeter ** 3",
    ("Density", "kg/m³"): "kilogram / meter ** 3",
    ("Density", "lb/gal"): "pound / US_liquid_gallon",
    ("Density", "kN/m³"): "kilonewton / meter ** 3 / standard_gravity",
    ("Mass", "lb"): "pound",
    ("Mass", "kg"): "kilogram",
    ("Mass", "t"): "metric_ton",
    ("Mass", "ton"): "short_ton",
    ("Force", "kN"): "kilonewton",
    ("Force", "lbf"): "pound_force",
    ("Force", "kip"): "kip",
    ("Pressure", "psi"): "psi",
    ("Pressure", "ksi"): "ksi",
    ("Pressure", "psf"): "pound_force / foot ** 2",
    ("Pressure", "ksf"): "kip / foot ** 2",
    ("Pressure", "bar"): "bar",
    ("Pressure", "MPa"): "megapascal",
    ("Pressure", "kPa"): "kilopascal",
    ("Pressure", "Pa"): "pascal",
    ("Temperature", "°F"): "degree_Fahrenheit",
    ("Temperature", "°C"): "degree_Celsius",
    ("Temperature", "K"): "kelvin",
    ("Span", "s"): "second",
    ("Span", "min"): "minute",
    ("Span", "h"): "hour",
    ("Span", "d"): "day",
    # A funnel time is a time; the volume beside it is kept, never divided by.
    ("FunnelTime", "s/qt"): "second",
    ("FunnelTime", "s/L"): "second",
    ("Fraction", "%"): "percent",
    ("Fraction", ""): "dimensionless",
    ("Ph", ""): "dimensionless",
    ("Slope", "in/ft"): "inch / foot",
    ("Slope", "%"): "percent",
    ("Slope", "mm/m"): "millimeter / meter",
    ("Slope", "m/m"): "meter / meter",
    ("Inflow", "in/h"): "inch / hour",
    ("Inflow", "ft/h"): "foot / hour",
    ("Inflow", "mm/h"): "millimeter / hour",
    ("Inflow", "m/h"): "meter / hour",
    ("WaterCement", ""): "dimensionless",
}

SI = {
    "Length": "meter",
    "Area": "meter ** 2",
    "Volume": "meter ** 3",
    "Density": "kilogram / meter ** 3",
    "Mass": "kilogram",
    "Force": "newton",
    "Pressure": "pascal",
    "Temperature": "kelvin",
    "Span": "second",
    "FunnelTime": "second",
    "Fraction": "dimensionless",
    "Ph": "dimensionless",
    "Slope": "dimensionless",
    "Inflow": "meter / second",
    "WaterCement": "dimensionless",
}


def disagreement(registry, row):
    """What is wrong with a row, or None."""
    name = NAMES.get((row["kind"], row["unit"]))
    if name is None:
        return "this script has no independent name for the unit"
    theirs = registry.Quantity(float(row["value"]), name).to(SI[row["kind"]]).magnitude
    ours = Fraction(int(row["si_numerator"]), int(row["si_denominator"]))
    slack = abs(theirs) * RELATIVE
    if row["kind"] == "Length":
        slack += HALF_A_NANOMETRE
    difference = abs(float(ours - Fraction(theirs)))
    return None if difference <= slack else f"ours {float(ours)!r}, pint {theirs!r}"


def main(path):
    with open(path, encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE))
    seen = {(row["kind"], row["unit"]) for row in rows}
    troubles = [f"{kind} {unit!r}: named here, but not in the table" for kind, unit in set(NAMES) - seen]
    registry = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    for row in rows:
        wrong = disagreement(registry, row)
        if wrong:
            troubles.append(f"{row['kind']} {row['value']} {row['unit']!r}: {wrong}")
    for trouble in troubles:
        print(trouble)
    print(f"{len(seen)} units, {len(rows)} values compared with pint {pint.__version__}")
    failed = len(troubles)
    print(f"{max(len(rows) - failed, 0)} passed, {failed} failed")
    return 2 if not rows else 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: python tests/reference/units_check.py TABLE.tsv")
    sys.exit(main(sys.argv[1]))
