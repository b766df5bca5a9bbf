#!/usr/bin/python3
"""Imports a calendar and then the calendar of the changed plan, as a calendar program does.

usage: ics_update_check.py OLD.ics NEW.ics

An event is known by its UID: the new one replaces it if its SEQUENCE is higher, and a cancelled one
takes it off. Afterwards the program must hold exactly what the new file says, and nothing twice.
Parser: the Python package icalendar.
"""
import sys

import icalendar


def events_of(path):
    with open(path, "rb") as file:
        return icalendar.Calendar.from_ical(file.read()).walk("VEVENT")


def what(event):
    return (event["DTSTART"].dt, str(event["SUMMARY"]), str(event.get("DESCRIPTION", "")))


def imported(held, events):
    for event in events:
        uid = str(event["UID"])
        old = held.get(uid)
        if old is not None and int(event["SEQUENCE"]) < int(old["SEQUENCE"]):
            continue
        same = old is not None and int(event["SEQUENCE"]) == int(old["SEQUENCE"])
        if same and what(event) != what(old):
            continue  # a revision that does not count up is not taken
        held[uid] = event
        if str(event.get("STATUS", "")) == "CANCELLED":
            del held[uid]
    return held


def main(old_path, new_path):
    held = imported({}, events_of(old_path))
    before = len(held)
    held = imported(held, events_of(new_path))
    wanted = {str(e["UID"]): e for e in events_of(new_path)
              if str(e.get("STATUS", "")) != "CANCELLED"}
    faults = [f"{uid}: is not what the new file says" for uid in set(held) ^ set(wanted)]
    faults += [f"{uid}: an old form is kept" for uid in set(held) & set(wanted)
               if what(held[uid]) != what(wanted[uid])]
    changed = sum(1 for e in events_of(new_path) if int(e["SEQUENCE"]) > 0)
    if changed == 0:
        faults.append("nothing changed: nothing was tried")
    for fault in faults[:20]:
        print(fault)
    print(f"{before} events, {changed} changed or gone, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
