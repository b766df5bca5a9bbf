#!/usr/bin/python3
"""Compares a table with what a spreadsheet program made of it.

usage: sheet_check.py WRITTEN.csv BACK.csv

Dates may be written in another form; every other cell must be the same text.
"""
import csv
import re
import sys


def read(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def main(written_path, back_path):
    written, back = read(written_path), read(back_path)
    faults = []
    if len(written) != len(back):
        faults.append(f"{len(written)} rows became {len(back)}")
    formulas = 0
    for number, (row, other) in enumerate(zip(written, back), 1):
        for cell, seen in zip(row, other):
            formulas += cell.startswith("'=")
            if re.fullmatch(r"\d{4}-\d\d-\d\d", cell):
                continue
            # The apostrophe says "text" and is not part of it.
            if seen not in (cell, cell[1:] if cell.startswith("'") else cell):
                faults.append(f"row {number}: {cell!r} became {seen!r}")
    if formulas == 0:
        faults.append("no cell would be a formula: nothing was tried")
    for fault in faults[:20]:
        print(fault)
    print(f"{written_path}: {len(written)} rows, {formulas} would-be formulas, {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(*sys.argv[1:]))
