"""Opens the workbooks of exported jobs with openpyxl and reckons every formula anew with formulas.

Usage: xlsx_check.py FOLDER ...; in each folder book.xlsx, record.jsonl and figures/*.json.

Checked: what a spreadsheet program reckons for each formula is the value of the log beside it; the values of the volume
curve are those of the figures, in the unit of the heading; every line of the log is there; what a person typed is no
formula. A workbook in which a reading was altered has to reckon something else.
"""

import contextlib
import glob
import io
import json
import os
import sys
import tempfile
import warnings

import formulas
import openpyxl

from tally import check, ended

WITHIN = 1e-9
CUBIC = {"yd³": 0.764554857984, "m³": 1.0}


def near(one, other):
    return abs(one - other) <= WITHIN * max(1.0, abs(other))


def reckoned(path):
    """Every formula of a workbook, by its sheet and cell, as the library reckons it."""
    with contextlib.redirect_stderr(io.StringIO()), warnings.catch_warnings():
        warnings.simplefilter("ignore")
        solution = formulas.ExcelModel().loads(path).finish().calculate()
    found = {}
    for name, cell in solution.items():
        if not isinstance(name, str) or "!" not in name or ":" in name.rsplit("!", 1)[1]:
            continue
        sheet, place = name.rsplit("!", 1)
        found[(sheet.strip("'").split("]", 1)[1].upper(), place.upper())] = cell.value[0, 0]
    return found


def of_formulas(path):
    """The formulas, and the values that stand beside them in the file."""
    typed, told = openpyxl.load_workbook(path), openpyxl.load_workbook(path, data_only=True)
    for sheet in typed:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "f":
                    yield sheet.title, cell.coordinate, told[sheet.title][cell.coordinate].value


def column(sheet, title):
    """The cells of a column below its heading, and the unit in it."""
    for cells in sheet.iter_cols(values_only=True):
        name, _, unit = cells[0].partition(" (")
        if name == title:
            return list(cells[1:]), unit.rstrip(")")
    raise KeyError(title)


def one_folder(folder):
    path = os.path.join(folder, "book.xlsx")
    values, count = reckoned(path), 0
    for sheet, place, beside in of_formulas(path):
        count += 1
        anew = values.get((sheet.upper(), place))
        check(f"{folder} {sheet}!{place}", anew is not None and near(float(anew), float(beside)), f"{anew} {beside}")
    print(f"    {folder}: {count} formulas reckoned anew")
    book = openpyxl.load_workbook(path, data_only=True)
    entries = [json.loads(line) for line in open(os.path.join(folder, "record.jsonl"), encoding="utf-8")]
    known = {entry["id"] for entry in entries}
    curves = {sheet.title: sheet for sheet in book if sheet.title.endswith(" pour")}
    told = [json.load(open(file, encoding="utf-8")) for file in glob.glob(os.path.join(folder, "figures", "*.json"))]
    check(f"{folder}: a sheet for each curve", len(curves) == sum(bool(one["figures"]["curve"]) for one in told))
    for figures in (one for one in told if one["figures"]["curve"]):
        sheet, intervals = curves[f"{figures['shaft']} pour"], figures["figures"]["curve"]
        for title, name in [("Placed", "placed_m3"), ("Placed so far", "cumulative_placed_m3"), ("Theoretical so far", "cumulative_theoretical_m3")]:
            cells, unit = column(sheet, title)
            check(f"{sheet.title}: {title}", len(cells) == len(intervals) and all(near(cell * CUBIC[unit], one[name]) for cell, one in zip(cells, intervals)))
        ratios, _ = column(sheet, "Ratio so far")
        check(f"{sheet.title}: ratio so far", all(near(cell, one["cumulative_ratio"]) for cell, one in zip(ratios, intervals)))
    logged = {row[8] for sheet in book if sheet.title.endswith(" log") for row in sheet.iter_rows(min_row=2, values_only=True)}
    standing = {entry["id"] for entry in entries if entry["kind"] not in ("dispute_closed",)}
    check(f"{folder}: every line of the logs is an entry", logged <= known)
    missing = [entry["kind"] for entry in entries if entry["id"] in standing - logged]
    check(f"{folder}: every entry is a line but corrections that strike out", all(kind == "correction" for kind in missing), str(missing))
    shafts = [row[0] for row in book["Schedule"].iter_rows(min_row=2, values_only=True)]
    planned = {entry["shaft"] for entry in entries if entry["kind"] == "shaft_planned"}
    check(f"{folder}: a row for each shaft", planned <= set(shafts), str(shafts))


def spoilt(folder):
    """A reading altered by hand: the formulas have to say so."""
    path = os.path.join(folder, "book.xlsx")
    book = openpyxl.load_workbook(path)
    sheet = next(sheet for sheet in book if sheet.title.endswith(" pour"))
    beside = openpyxl.load_workbook(path, data_only=True)[sheet.title]["J2"].value
    sheet["G2"] = sheet["G2"].value + 1
    with tempfile.TemporaryDirectory() as place:
        altered = os.path.join(place, "book.xlsx")
        book.save(altered)
        anew = reckoned(altered)[(sheet.title.upper(), "J2")]
    check("spoilt: an altered reading is seen in what follows from it", near(float(anew), beside + 1))


def main(folders):
    for folder in folders:
        one_folder(folder)
    if folders:
        spoilt(folders[0])
    return ended()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
