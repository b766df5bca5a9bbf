#!/usr/bin/python3
"""Compares a table of plantings with a table of tasks that came from the same plan.

usage: csv_check.py PLANTINGS.csv TASKS.csv

Both must be RFC 4180 as Python's csv module reads it (strict), free of formulas, with weeks that
are the ISO weeks of their days; every planting must be started at most once, end exactly once and
be harvested exactly once if it has a harvest.
"""
import csv
import datetime
import sys

STARTS = ("sow", "plant-out")
ENDS = ("cut", "chop-and-dig-in", "clear", "frost-kills")


def read(path):
    with open(path, "rb") as file:
        raw = file.read()
    faults = []
    if not raw.endswith(b"\r\n"):
        faults.append(f"{path}: does not end with CRLF")
    rows = list(csv.reader(raw.decode("utf-8").splitlines(keepends=True), strict=True))
    for number, row in enumerate(rows, 1):
        if len(row) != len(rows[0]):
            faults.append(f"{path}: row {number} has {len(row)} cells, not {len(rows[0])}")
        faults += [f"{path}: row {number}: a formula: {cell}" for cell in row
                   if cell[:1] in ("=", "+", "-", "@", "\t", "\r") and cell]
    return [dict(zip(rows[0], row)) for row in rows[1:]], faults


def day(text):
    return datetime.date.fromisoformat(text)


def week_of(date):
    year, week, _ = date.isocalendar()
    return f"{year}-W{week:02}"


def check_planting(planting, tasks):
    last = max(day(planting["to"]) - datetime.timedelta(days=1), day(planting["from"]))
    own = [t for t in tasks if t["bed"] == planting["bed"] and t["crop"] == planting["name"]]
    label = f"{planting['crop']} in {planting['bed']} from {planting['from']}"
    faults = []
    starts = [t for t in own if t["kind"] in STARTS and t["date"] == planting["from"]]
    if len(starts) > 1:
        faults.append(f"{label}: started {len(starts)} times")
    latest = [(t["latest"], t["latest_why"]) for t in starts] or [("", "")]
    if latest[0] != (planting["latest_start"], planting["latest_why"]):
        faults.append(f"{label}: latest start {planting['latest_start']}, not {latest[0][0]}")
    ends = [t for t in own if t["kind"] in ENDS and day(t["date"]) == last]
    if len(ends) != 1:
        faults.append(f"{label}: ended {len(ends)} times")
    if planting["harvest_from"]:
        for kind, wanted in (("harvest-start", day(planting["harvest_from"])),
                             ("harvest-end", max(day(planting["harvest_from"]),
                                                 day(planting["harvest_to"])
                                                 - datetime.timedelta(days=1)))):
            found = [t for t in own if t["kind"] == kind and day(t["date"]) == wanted]
            if len(found) != 1:
                faults.append(f"{label}: {kind} {len(found)} times")
    return faults


def main(plantings_path, tasks_path):
    plantings, faults = read(plantings_path)
    tasks, more = read(tasks_path)
    faults += more
    if not plantings or not tasks:
        faults.append("nothing to compare")
    for row in plantings:
        if week_of(day(row["from"])) != row["week"]:
            faults.append(f"{row['from']} is not in {row['week']}")
        faults += check_planting(row, tasks)
    for row in tasks:
        if week_of(day(row["date"])) != row["week"]:
            faults.append(f"{row['date']} is not in {row['week']}")
        if row["latest"] and day(row["latest"]) < day(row["date"]):
            faults.append(f"{row['uid']}: latest day before its day")
    for fault in faults[:40]:
        print(fault)
    print(f"{len(plantings)} plantings, {len(tasks)} tasks, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
