"""Reads what an office tells a monitor with the Python library of Prometheus, which knows nothing of us.

    python tests/reference/metrics_check.py PROGRAM FOLDER

Serves an office in FOLDER with PROGRAM, pairs a device, sends lines, and asks for the figures before and after. Its reader of
OpenMetrics is strict (types, units, order, buckets that add up); the older reader has to come to the same samples. Ends with
the counts; the exit code is 1 when anything disagrees.
"""

import json
import subprocess
import sys
import urllib.error
import urllib.request

from prometheus_client.openmetrics.parser import text_string_to_metric_families as strict
from prometheus_client.parser import text_string_to_metric_families as older

import tally

# Each family with its type: what a page of a monitor is made of.
FAMILIES = {
    "shaftbook_http_requests": "counter",
    "shaftbook_http_request_duration_seconds": "histogram",
    "shaftbook_refusals": "counter",
    "shaftbook_door": "counter",
    "shaftbook_connections": "gauge",
    "shaftbook_live_lines": "gauge",
    "shaftbook_devices_syncing": "gauge",
    "shaftbook_entries": "counter",
    "shaftbook_database_write_seconds": "histogram",
    "shaftbook_database_write_failures": "counter",
    "shaftbook_database_up": "gauge",
    "shaftbook_kept_entries": "gauge",
    "shaftbook_kept_jobs": "gauge",
    "shaftbook_aside_entries": "gauge",
    "shaftbook_paired_devices": "gauge",
    "shaftbook_database_size_bytes": "gauge",
    "shaftbook_disk_free_bytes": "gauge",
    "shaftbook_start_time_seconds": "gauge",
    "shaftbook_build": "info",
}


def began(program, folder):
    """The program, and what it says once it is open."""
    words = [program, "serve", folder, "--address", "127.0.0.1:0", "--metrics", "127.0.0.1:0", "--json"]
    running = subprocess.Popen(words, stdout=subprocess.PIPE, text=True)
    said = ""
    for line in running.stdout:
        said += line
        if line == "}\n":
            return running, json.loads(said)
    raise SystemExit(f"it ended: {said}")


def asked(url, body=None, token=None):
    """Status, media type and text."""
    headers = {"Authorization": f"Bearer {token}"} if token else {}
    request = urllib.request.Request(url, data=body, headers=headers)
    try:
        with urllib.request.urlopen(request, timeout=20) as answer:
            return answer.status, answer.headers["content-type"], answer.read().decode()
    except urllib.error.HTTPError as refused:
        return refused.code, refused.headers["content-type"], refused.read().decode()


def samples(text):
    """Every sample by its name and labels."""
    return {(s.name, tuple(sorted(s.labels.items()))): s.value for f in strict(text) for s in f.samples}


def value(text, name, **labels):
    found = [v for (n, held), v in samples(text).items() if n == name and labels.items() <= dict(held).items()]
    return sum(found)


def look(text, everything):
    """What holds of every text; before the first request some families have no row, and are not told."""
    families = {family.name: family for family in strict(text)}
    told = {name: family.type for name, family in families.items()}
    as_known = told == FAMILIES if everything else told.items() <= FAMILIES.items()
    tally.check("the families and their types", as_known, f"{set(told.items()) ^ set(FAMILIES.items())}")
    for name, family in families.items():
        tally.check(f"{name} says what it is", len(family.documentation) > 8)
        unit = family.unit == "" or name.endswith("_" + family.unit)
        tally.check(f"the unit of {name} ends its name", unit, family.unit)
    plain = {(s.name, tuple(sorted(s.labels.items()))): s.value for f in older(text) for s in f.samples}
    tally.check("both readers find the same", plain == samples(text), f"{plain.keys() ^ samples(text).keys()}")


def work(office, code):
    """A device is paired and sends lines that are none; a stranger is turned away."""
    body = json.dumps({"code": code, "name": "tablet 1", "device": "ab" * 32}).encode()
    token = json.loads(asked(f"{office}/api/v1/pair", body)[2])["token"]
    for _ in range(3):
        asked(f"{office}/api/v1/entries", b"no entry\n", token)
    asked(f"{office}/api/v1/jobs", token="0" * 64)


def main():
    program, folder = sys.argv[1:]
    running, said = began(program, folder)
    try:
        office, metrics = said["address"], said["metrics"]
        status, media, before = asked(metrics)
        tally.check("it is answered", status == 200)
        tally.check("its media type", media == "application/openmetrics-text; version=1.0.0; charset=utf-8", media)
        look(before, False)
        work(office, said["code"])
        after = asked(metrics)[2]
        look(after, True)
        rows = [
            ("shaftbook_entries_total", {"kind": "refused"}, 3),
            ("shaftbook_refusals_total", {"kind": "not-paired"}, 1),
            ("shaftbook_door_total", {"kind": "device-paired"}, 1),
            ("shaftbook_http_requests_total", {"route": "/api/v1/entries", "method": "POST", "status": "200"}, 3),
            ("shaftbook_http_request_duration_seconds_count", {"route": "/api/v1/entries"}, 3),
            ("shaftbook_http_request_duration_seconds_bucket", {"route": "/api/v1/entries", "le": "+Inf"}, 3),
            ("shaftbook_paired_devices", {}, 1),
            ("shaftbook_database_up", {}, 1),
        ]
        for name, labels, expected in rows:
            found = value(after, name, **labels)
            tally.check(f"{name} {labels}", found == expected, f"is {found}, not {expected}")
        earlier, later = samples(before), samples(after)
        counted = [key for key in earlier if key[0].endswith(("_total", "_count", "_bucket"))]
        tally.check("nothing that is counted grows less", all(later[key] >= earlier[key] for key in counted))
    finally:
        running.terminate()
    tally.check("it ends well", running.wait(timeout=30) == 0)
    return tally.ended()


sys.exit(main())
