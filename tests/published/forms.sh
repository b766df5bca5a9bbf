#!/usr/bin/env bash
# The files of a real plan against readers of other people's making: iCalendar by icalendar and
# vobject, CSV by Python's reader, ISO weeks by Python's calendar.
# usage: forms.sh AFTERCROP PRINT_WEEKS SOURCE_DIR
set -euo pipefail
aftercrop=$1
print_weeks=$2
root=$3
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp "$root/seasons/harbour-roof/garden.yaml" "$folder/garden.yaml"
cd "$folder"
"$aftercrop" plan garden.yaml --within 3s --quiet > summary.txt || [ $? -eq 1 ]
"$aftercrop" calendar garden.yaml plan.yaml -o tasks.csv -o calendar.ics --quiet
"$aftercrop" calendar garden.yaml plan.yaml --plantings -o plantings.csv --quiet
/usr/bin/python3 "$root/tests/published/ics_check.py" tasks.csv calendar.ics
cp calendar.ics old.ics
sed '0,/ending: harvested/s/to: [0-9-]*, ending: harvested/to: 2027-11-30, ending: harvested/' plan.yaml | sed '/^# written/d' | sed '$d' > changed.yaml
"$aftercrop" calendar garden.yaml changed.yaml -o calendar.ics --quiet
/usr/bin/python3 "$root/tests/published/ics_update_check.py" old.ics calendar.ics
/usr/bin/python3 "$root/tests/published/csv_check.py" plantings.csv tasks.csv
"$print_weeks" > weeks.csv
/usr/bin/python3 "$root/tests/published/week_check.py" weeks.csv
"$aftercrop" ledger garden.yaml plan.yaml --format json > ledger.json
/usr/bin/python3 "$root/tests/published/ledger_check.py" ledger.json
