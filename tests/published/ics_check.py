#!/usr/bin/python3
"""Compares an iCalendar file with the table of tasks that came from the same plan.

usage: ics_check.py TASKS.csv CALENDAR.ics

Every task must be one all-day event with the same uid, day, bed, kind and title; every day of the
list to order one event that names each thing. Lines, UIDs and stamps are checked on the bytes.
Parsers: the Python packages icalendar and vobject.
"""
import csv
import datetime
import sys

import icalendar
import vobject


def read_tasks(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def plain(cell):
    """A cell without the apostrophe that keeps spreadsheets from reading a formula."""
    return cell[1:] if len(cell) > 1 and cell[0] == "'" and cell[1] in "=+-@ " else cell


def check_bytes(raw):
    faults = []
    if not raw.endswith(b"\r\n"):
        faults.append("the file does not end with a line break")
    for number, line in enumerate(raw.split(b"\r\n"), 1):
        if len(line) > 75:
            faults.append(f"line {number} has {len(line)} octets, more than 75")
        if b"\n" in line or b"\r" in line:
            faults.append(f"line {number} holds a bare CR or LF")
        try:
            line.decode("utf-8")
        except UnicodeDecodeError:
            faults.append(f"line {number} cuts a character")
    return faults


def events_of(raw):
    calendar = icalendar.Calendar.from_ical(raw)
    events = {}
    faults = []
    for event in calendar.walk("VEVENT"):
        uid = str(event["UID"])
        if uid in events:
            faults.append(f"uid twice: {uid}")
        events[uid] = event
        for key in ("DTSTAMP", "SEQUENCE", "SUMMARY", "CATEGORIES"):
            if key not in event:
                faults.append(f"{uid}: no {key}")
    return events, faults


def compare(task, event):
    day = datetime.date.fromisoformat(task["date"])
    faults = []
    if event["DTSTART"].dt != day or event["DTEND"].dt != day + datetime.timedelta(days=1):
        faults.append(f"{task['uid']}: is on {event['DTSTART'].dt}, not on {day}")
    if [str(c) for c in event["CATEGORIES"].cats] != [task["kind"]]:
        faults.append(f"{task['uid']}: category is not {task['kind']}")
    if task["kind"] == "order":
        if plain(task["title"]) not in str(event["DESCRIPTION"]).split("\n"):
            faults.append(f"{task['uid']}: does not name {task['title']}")
        return faults
    if str(event["SUMMARY"]) != f"{plain(task['bed'])}: {plain(task['title'])}":
        faults.append(f"{task['uid']}: says {event['SUMMARY']!s}, not {task['title']}")
    told = str(event.get("DESCRIPTION", ""))
    for key in ("detail", "latest", "caution"):
        if plain(task[key]) not in told:
            faults.append(f"{task['uid']}: leaves out its {key}")
    return faults


def main(tasks_path, calendar_path):
    tasks = read_tasks(tasks_path)
    with open(calendar_path, "rb") as file:
        raw = file.read()
    faults = check_bytes(raw)
    events, more = events_of(raw)
    faults += more
    if not tasks or not events:
        faults.append("nothing to compare")
    seen = {}
    for task in tasks:
        seen[task["uid"]] = seen.get(task["uid"], 0) + 1
        if task["kind"] != "order" and seen[task["uid"]] > 1:
            faults.append(f"uid twice in the table: {task['uid']}")
        event = events.get(task["uid"])
        faults += compare(task, event) if event else [f"no event for {task['uid']}"]
    faults += [f"event without a task: {uid}" for uid in events if uid not in seen]
    for component in vobject.readComponents(raw.decode("utf-8")):
        component.validate(raiseException=True)
    for fault in faults[:40]:
        print(fault)
    print(f"{len(tasks)} rows, {len(events)} events, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
