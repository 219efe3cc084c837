"""Opens the CSVW packages, Parquet files and maps of exported jobs with general libraries.

Usage: tables_check.py FOLDER ...; in each folder csvw/, entries.parquet, shafts.geojson, back.jsonl, record.jsonl and
figures/*.json. `back.jsonl` is the record of a job that was merged from the package and nothing else.

Checked: csvw reads every table by its metadata, types, keys and references between tables; the check sums; the
column of signed lines is the record byte for byte, and so is what came back; pyarrow reads the same lines, moments and
kinds from Parquet; the map is GeoJSON by the library geojson, without a place in degrees. Packages that were touched are
refused.
"""

import datetime
import glob
import hashlib
import json
import os
import shutil
import sys
import tempfile
import warnings

import csvw
import geojson
import pyarrow.parquet

from tally import check, ended


def package(folder):
    """The tables of a package as the library reads them; an exception where it refuses one."""
    group = csvw.TableGroup.from_file(os.path.join(folder, "csv-metadata.json"))
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        tables = {str(table.url): list(table.iterdicts(strict=True)) for table in group.tables}
    group.check_referential_integrity()
    return group, tables


def sums_hold(folder):
    rows = [line.rstrip("\n").split("  ") for line in open(os.path.join(folder, "SHA256SUMS"), encoding="utf-8")]
    here = sorted(set(os.listdir(folder)) - {"SHA256SUMS"})
    return sorted(name for _, name in rows) == here and all(
        hashlib.sha256(open(os.path.join(folder, name), "rb").read()).hexdigest() == sum_ for sum_, name in rows
    )


def of_csvw(folder, record):
    place = os.path.join(folder, "csvw")
    group, tables = package(place)
    check(f"{folder}: check sums", sums_hold(place))
    lines = "".join(row["line"] + "\n" for row in tables["entries.csv"])
    check(f"{folder}: the signed lines, byte for byte", lines.encode() == record)
    back = open(os.path.join(folder, "back.jsonl"), "rb").read()
    check(f"{folder}: the record that came back, byte for byte", back == record)
    for row, line in zip(tables["entries.csv"], record.decode().splitlines()):
        entry = json.loads(line)
        same = all(row[name] == entry.get(name) for name in ["id", "job", "device", "seq", "kind", "author", "shaft", "prev"])
        same &= row["observed_at"] == datetime.datetime.fromisoformat(entry["observed_at"])
        check(f"{folder}: {entry['id'][:8]} beside its line", same, str(row))
    for file in glob.glob(os.path.join(folder, "figures", "*.json")):
        told = json.load(open(file, encoding="utf-8"))
        rows = [row for row in tables["curve.csv"] if row["shaft"] == told["shaft"]]
        curve = told["figures"]["curve"]
        check(f"{folder} {told['shaft']}: curve", len(rows) == len(curve) and all(row[name] == one[name] for row, one in zip(rows, curve) for name in ["placed_m3", "theoretical_m3", "ratio", "upper_m"]))


def of_parquet(folder, record):
    table = pyarrow.parquet.read_table(os.path.join(folder, "entries.parquet"))
    rows = table.to_pylist()
    check(f"{folder}: Parquet holds the signed lines", "".join(row["line"] + "\n" for row in rows).encode() == record)
    for row in rows:
        entry = json.loads(row["line"])
        same = all(row[name] == entry.get(name) for name in ["id", "job", "device", "seq", "kind", "author", "shaft", "prev"])
        for name in ["observed_at", "noted_at", "entered_at"]:
            same &= row[name] == (datetime.datetime.fromisoformat(entry[name]) if name in entry else None)
        same &= datetime.datetime.fromisoformat(entry["observed_at"]).utcoffset().total_seconds() == row["offset_s"]
        check(f"{folder}: Parquet {entry['id'][:8]}", same, str(row))
    struck = {json.loads(row["line"])["body"].get("replaces") for row in rows if row["kind"] == "correction"}
    check(f"{folder}: Parquet says what was struck out", struck == {row["id"] for row in rows if row["standing"] == "struck"} | (struck & {row["id"] for row in rows if row["standing"] == "disputed"}))


def of_map(folder, entries):
    found = geojson.load(open(os.path.join(folder, "shafts.geojson"), encoding="utf-8"))
    check(f"{folder}: GeoJSON", isinstance(found, geojson.FeatureCollection) and found.is_valid, str(found.errors()))
    check(f"{folder}: no grid but degrees may be named", "crs" not in found)
    check(f"{folder}: no place in degrees is made up", all(one["geometry"] is None for one in found["features"]))
    planned = {entry["shaft"]: entry["body"] for entry in entries if entry["kind"] == "shaft_planned"}
    check(f"{folder}: a feature for each shaft", {one["properties"]["shaft"] for one in found["features"]} == set(planned))
    for one in found["features"]:
        said = one["properties"]
        check(f"{folder} {said['shaft']}: coordinates only where the plan has them", (said["easting_m"] is not None) == ("easting" in planned[said["shaft"]]))


def spoilt(folder):
    """Packages with one fault each; the library has to refuse every one."""
    faults = {
        "a number that is none": ("curve.csv", lambda text: text.replace(",1,", ",one,", 1)),
        "a shaft nobody planned": ("curve.csv", lambda text: text.replace("\nA-3,", "\nA-9,", 1)),
        "an entry without its line": ("entries.csv", lambda text: text.rsplit(",\"{", 1)[0] + ",\r\n"),
    }
    for what, (name, spoil) in faults.items():
        with tempfile.TemporaryDirectory() as place:
            copy = os.path.join(place, "csvw")
            shutil.copytree(os.path.join(folder, "csvw"), copy)
            path = os.path.join(copy, name)
            text = open(path, encoding="utf-8", newline="").read()
            check(f"spoilt: {what} was made", spoil(text) != text)
            open(path, "w", encoding="utf-8", newline="").write(spoil(text))
            check(f"spoilt: {what}: the check sums say so", not sums_hold(copy))
            try:
                package(copy)
                refused = False
            except Exception:  # whatever the library calls it
                refused = True
            check(f"spoilt: {what} is refused", refused)


def main(folders):
    for folder in folders:
        record = open(os.path.join(folder, "record.jsonl"), "rb").read()
        of_csvw(folder, record)
        of_parquet(folder, record)
        of_map(folder, [json.loads(line) for line in record.decode().splitlines()])
    if folders:
        spoilt(folders[0])
    return ended()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
