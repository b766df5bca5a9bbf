#!/usr/bin/env bash
# The page and the picture in a real browser; tables in a real spreadsheet program.
# usage: page.sh AFTERCROP SOURCE_DIR MODULES   (MODULES: a folder where `npm ci` was run)
set -euo pipefail
aftercrop=$1
root=$2
modules=$3
if [ ! -d "$modules/node_modules" ]; then
  echo "no node_modules in $modules; tools/test puts them there (npm ci)"
  exit 77
fi
if [ ! -x /usr/bin/chromium-headless-shell ] && [ ! -x /usr/bin/chromium ]; then
  echo "no chromium here"
  exit 77
fi
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp "$root"/tests/emit/every_kind/*.yaml "$folder"
cd "$folder"
"$aftercrop" calendar garden.yaml plan.yaml -q -o page.html -o picture.svg -o tasks.csv
"$aftercrop" calendar garden.yaml plan.yaml -q -o as-of.html --as-of 2027-05-12
"$aftercrop" calendar garden.yaml plan.yaml -q -o bed.html --bed A.1
"$aftercrop" plan "$root/seasons/ferry-street/garden.yaml" -o ferry.yaml --within 5s -q || [ $? -eq 1 ]
"$aftercrop" calendar "$root/seasons/ferry-street/garden.yaml" ferry.yaml -q -o ferry.html -o ferry.svg
"$aftercrop" calendar "$root/seasons/ferry-street/garden.yaml" ferry.yaml -q -o ferry-bed.html --bed N1
cp "$root/tests/browser/checks.js" "$root/tests/browser/.htmlvalidate.json" .
ln -s "$modules/node_modules" node_modules
node checks.js .
