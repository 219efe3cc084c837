"""Checks the AGS files of exported jobs with python-ags4 and holds them against the signed record.

Usage: ags_check.py FOLDER ...; in each folder ground.ags, record.jsonl and figures/*.json.

Checked: no error by the rules of AGS4 with the dictionary of 4.1.1; a location for each planned shaft; as many rows
of loads, intervals and findings as the figures have, with the same values to the last decimal written; the layers
met. A file that was spoilt has to be refused.
"""

import glob
import json
import os
import sys
import tempfile

from python_ags4 import AGS4

from tally import check, ended


def errors_of(path):
    """Rules broken; what the library only remarks is no error."""
    found = AGS4.check_file(path, standard_AGS4_dictionary="4.1.1")
    rules = {rule: told for rule, told in found.items() if rule.startswith("AGS Format Rule")}
    return {rule: [(one["line"], one["group"], one["desc"]) for one in told][:3] for rule, told in rules.items()}


def rows_of(tables, group, shaft):
    if group not in tables:
        return []
    return [row for row in tables[group].to_dict("records") if row["HEADING"] == "DATA" and row["LOCA_ID"] == shaft]


def same(cell, number, decimals):
    return (cell == "") == (number is None) and (number is None or abs(float(cell) - number) <= 0.5001 * 10**-decimals)


def plain(name):
    """As the file writes a name: ASCII only."""
    return name.translate(str.maketrans({"ö": "oe"}))


def one_folder(folder):
    path = os.path.join(folder, "ground.ags")
    broken = errors_of(path)
    check(f"{folder}: rules of AGS4", not broken, str(broken))
    tables, _ = AGS4.AGS4_to_dataframe(path)
    entries = [json.loads(line) for line in open(os.path.join(folder, "record.jsonl"), encoding="utf-8")]
    planned = {entry["shaft"] for entry in entries if entry["kind"] == "shaft_planned"}
    located = [row["LOCA_ID"] for row in tables["LOCA"].to_dict("records") if row["HEADING"] == "DATA"]
    check(f"{folder}: a location for each shaft", sorted(located) == sorted(map(plain, planned)), str(located))
    for file in glob.glob(os.path.join(folder, "figures", "*.json")):
        told = json.load(open(file, encoding="utf-8"))
        shaft = plain(told["shaft"])
        curve, intervals = rows_of(tables, "SBVC", shaft), told["figures"]["curve"]
        check(f"{folder} {shaft}: an interval a sounding", len(curve) == len(intervals))
        pairs = [("PLAC", "placed_m3"), ("THEO", "theoretical_m3"), ("RATO", "ratio"), ("HIGH", "upper_m"), ("CRAT", "cumulative_ratio")]
        for row, interval in zip(curve, intervals):
            for heading, name in pairs:
                check(f"{folder} {shaft}: {heading}", same(row[f"SBVC_{heading}"], interval[name], 3), f"{row} {interval[name]}")
        loads = rows_of(tables, "SBLD", shaft)
        arrived = [entry for entry in entries if entry["kind"] == "load_arrived" and entry["shaft"] == told["shaft"]]
        check(f"{folder} {shaft}: loads", {row["SBLD_TICK"] for row in loads} <= {entry["body"]["ticket"] for entry in arrived} and bool(loads) == bool(arrived))
        fails = [row for row in rows_of(tables, "SBFN", shaft) if row["SBFN_OUT"] == "fails"]
        check(f"{folder} {shaft}: findings that fail", len(fails) == told["counts"]["fails"])
        open_ = [row for row in rows_of(tables, "SBFN", shaft) if row["SBFN_OPEN"] == "Y"]
        check(f"{folder} {shaft}: findings without a decision", len(open_) == told["counts"]["open"])
        corrected = {entry["body"].get("replaces") for entry in entries if entry["kind"] == "correction"}
        met = [entry for entry in entries if entry["kind"] == "stratum_met" and entry["shaft"] == told["shaft"] and entry["id"] not in corrected]
        written = {row["GEOL_REM"].removeprefix("Entry ") for row in rows_of(tables, "GEOL", shaft)}
        check(f"{folder} {shaft}: layers met", {entry["id"] for entry in met} <= written, f"{len(met)} {len(written)}")


def spoilt(folder):
    """Files with one fault each; every one has to be refused."""
    text = open(os.path.join(folder, "ground.ags"), encoding="utf-8", newline="").read()
    faults = {
        "a group that no dictionary knows": text.replace('"SBPL"', '"SBPX"', 1) if '"GROUP","SBPL"' in text else text,
        "a number with a decimal too many": text.replace('"212.000"', '"212.0000"', 1),
        "a letter outside ASCII": text.replace("PROJ_NAME", "PROJ_NÄME", 1),
        "a shaft without a location": text.replace('"A-1"', '"A-9"', 1),
    }
    for what, broken in faults.items():
        check(f"spoilt: {what} was made", broken != text)
        with tempfile.TemporaryDirectory() as place:
            path = os.path.join(place, "spoilt.ags")
            open(path, "w", encoding="utf-8", newline="").write(broken)
            check(f"spoilt: {what} is refused", bool(errors_of(path)))


def main(folders):
    for folder in folders:
        one_folder(folder)
    if folders:
        spoilt(folders[0])
    return ended()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
