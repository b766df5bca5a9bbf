#!/usr/bin/python3
"""Compares ISO 8601 weeks with those of Python's datetime.isocalendar.

usage: week_check.py WEEKS.csv        (or a program that prints it: PROGRAM | week_check.py -)

One line a day, `date,week,weekday` such as `2027-01-01,2026-W53,5`; 200 years of days at least.
"""
import datetime
import sys


def main(path):
    lines = sys.stdin if path == "-" else open(path, encoding="ascii")
    faults = 0
    days = 0
    expected = None
    for line in lines:
        date, week, weekday = line.strip().split(",")
        day = datetime.date.fromisoformat(date)
        year, number, of_week = day.isocalendar()
        right = f"{year}-W{number:02}" == week and str(of_week) == weekday
        if not right or (expected is not None and day != expected):
            faults += 1
            print(f"{date}: {week} day {weekday}, Python says {year}-W{number:02} day {of_week}")
        expected = day + datetime.timedelta(days=1)
        days += 1
    print(f"{days} days, {faults} faults")
    return 1 if faults or days < 200 * 365 else 0


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
