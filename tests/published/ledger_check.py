#!/usr/bin/python3
"""Sums the postings of a ledger document: closing = opening + postings, pool by pool, to 1e-9.

usage: ledger_check.py LEDGER.json
"""
import json
import math
import sys


def main(path):
    with open(path, encoding="utf-8") as file:
        document = json.load(file)
    worst = 0.0
    lines = 0
    for bed in document["beds"]:
        account = bed["nitrogen"]
        for pool, opening in account["opening"].items():
            amounts = [p["kg_per_ha"] for p in account["postings"] if p["pool"] == pool]
            lines += len(amounts)
            off = opening + math.fsum(amounts) - account["closing"][pool]
            worst = max(worst, abs(off))
    print(f"{len(document['beds'])} beds, {lines} postings, worst difference {worst:.2e} kg/ha")
    return 0 if lines > 0 and worst < 1e-9 else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
