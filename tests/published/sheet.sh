#!/usr/bin/env bash
# Tables in a spreadsheet program (Gnumeric's converter): every cell is text, a crop named "=1+1"
# does not become 2, and as many rows come out as went in.
# usage: sheet.sh AFTERCROP SOURCE_DIR
set -euo pipefail
aftercrop=$1
root=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp "$root"/tests/emit/every_kind/*.yaml "$folder"
cd "$folder"
"$aftercrop" calendar garden.yaml plan.yaml -q -o tasks.csv
"$aftercrop" calendar garden.yaml plan.yaml -q -o plantings.csv --plantings
for table in tasks plantings; do
  ssconvert "$table.csv" "$table.xlsx" 2> convert.log || { cat convert.log; exit 1; }
  ssconvert "$table.xlsx" "$table.back.csv" 2> convert.log || { cat convert.log; exit 1; }
  /usr/bin/python3 "$root/tests/published/sheet_check.py" "$table.csv" "$table.back.csv"
done
