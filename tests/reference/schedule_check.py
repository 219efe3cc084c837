"""Writes shaft schedules with openpyxl and enters them with the program.

Usage: schedule_check.py PROGRAM FOLDER; the folder is one this script may fill.

Checked: a schedule written by a general library becomes the plans it holds; in a preview of one with faults each row
that cannot be taken is named, the others are counted, and nothing is written.
"""

import datetime
import json
import os
import subprocess
import sys

import openpyxl

from tally import check, ended

HEADS = ["shaft", "structure", "top (m)", "tip (m)", "method", "diameter (mm)", "author", "date"]
DAY = datetime.date(2025, 6, 3)


def book(path, rows):
    made = openpyxl.Workbook()
    sheet = made.active
    sheet.append(HEADS)
    for row in rows:
        sheet.append(row)
    made.create_sheet("another").append(["not", "read"])
    made.save(path)


def other(path, row):
    made = openpyxl.Workbook()
    made.active.append(["not", "read"])
    sheet = made.create_sheet("Bores")
    sheet.append(HEADS)
    sheet.append(row)
    made.save(path)


def run(program, *words):
    ran = subprocess.run([program, *words], capture_output=True, text=True)
    return ran.returncode, " ".join((ran.stdout + ran.stderr).split())


def plans(program, job, out):
    run(program, "export", "record", "--job", job, "--out", out)
    entries = [json.loads(line) for line in open(out, encoding="utf-8")]
    return {entry["shaft"]: entry["body"] for entry in entries if entry["kind"] == "shaft_planned"}


def main(program, folder):
    job, path, out = [os.path.join(folder, name) for name in ["job", "shaft_schedule.xlsx", "record.jsonl"]]
    before = plans(program, job, out)
    good = [["W-1", "wall", 211.9, 203.25, "wet", 900, "N. Ferrier", DAY], ["W-2", "wall", 0.1 + 211.8, 203, "dry", 750, "N. Ferrier", DAY]]
    bad = [["W-3", "wall", "high", 203.25, "wet", 900, "N. Ferrier", DAY], ["W-4", "castle", 211.9, 203, "dry", 750, "N. Ferrier", DAY]]
    book(path, [good[0], *bad, good[1]])
    code, said = run(program, "enter", path, "--job", job, "--dry-run")
    check("the preview refuses", code == 3, f"{code} {said}")
    for row, shaft in [(3, "W-3"), (4, "W-4")]:
        check(f"row {row} is named", f"row {row} ({shaft}): cannot be taken" in said, said)
    check("the others are counted", "2 of 4 rows can be taken" in said, said)
    check("each is explained", "high" in said and "castle" in said, said)
    code, said = run(program, "enter", path, "--job", job)
    check("nothing of it is entered", code == 3 and plans(program, job, out) == before, said)
    book(path, good)
    code, said = run(program, "enter", path, "--job", job, "--dry-run")
    check("the preview of a whole one", code == 0 and plans(program, job, out) == before, said)
    code, said = run(program, "enter", path, "--job", job)
    check("it is entered", code == 0, said)
    check("what was not read is told", "the sheet Sheet was read; not read: another" in said, said)
    after = plans(program, job, out)
    check("the plans are there", {"W-1", "W-2"} <= set(after), str(set(after)))
    check("a number is what was typed", after.get("W-2", {}).get("top") == "211.9 {m}" or after.get("W-2", {}).get("top") == "211.9 m", str(after.get("W-2")))
    check("a diameter", after.get("W-1", {}).get("bore", [{}])[0].get("diameter", "").startswith("900"), str(after.get("W-1")))
    other(path, ["W-5", "wall", 211.9, 203.25, "wet", 900, "N. Ferrier", DAY])
    code, said = run(program, "enter", path, "--job", job, "--sheet", "borings")
    check("a sheet that is not there is told with those that are", code == 3 and "Sheet, Bores" in said, said)
    code, said = run(program, "enter", path, "--job", job, "--sheet", "bores")
    check("a sheet is found by its name", code == 0 and "W-5" in plans(program, job, out), said)
    return ended()


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
