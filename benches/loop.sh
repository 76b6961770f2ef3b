#!/usr/bin/env bash
# The loop at full size, beside the sqlite3 shell in the same run: taking a million fruit, calling ten
# thousand varieties, printing the demo's catalogue, and the help. Prints seconds, peak memory and ratios.
# Needs target/release/locule and demo-house, sqlite3 and GNU time.
set -euo pipefail
cd "$(dirname "$0")/.."
locule=$PWD/target/release/locule
rows=${1:-1000000} varieties=${2:-10000}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# measure NAME COMMAND...: runs it on one core and keeps its seconds and peak memory in NAME_s and NAME_kb.
measure() {
  local name=$1 cores=$2; shift 2
  taskset -c "$cores" /usr/bin/time -f '%e %M' -o "$work/time" "$@" >"$work/out" 2>"$work/err" ||
    { cat "$work/err" >&2; exit 1; }
  read -r seconds kilobytes <"$work/time"
  printf -v "${name}_s" %s "$seconds"
  printf '%-44s %8.2f s  %6.0f MB\n' "$name" "$seconds" "$((kilobytes / 1000))"
}

target/release/demo-house scale --fruit "$rows" --varieties "$varieties" "$work/raw"
"$locule" new "$work/house" >/dev/null
export LOCULE_HOUSE=$work/house
"$locule" take "$work/raw/varieties.csv" "$work/raw/plots.csv" >/dev/null

echo "-- taking $rows fruit samples, durably, on one core"
measure take 0 "$locule" take "$work/raw/fruit.csv"
cat >"$work/import.sql" <<SQL
PRAGMA journal_mode = WAL;
PRAGMA synchronous = FULL;
.mode csv
.import $work/raw/fruit.csv fruit
SQL
measure sqlite3_import 0 sqlite3 "$work/plain.db" ".read $work/import.sql"
awk -v rows="$rows" -v ours="$take_s" -v theirs="$sqlite3_import_s" \
  'BEGIN { printf "%.0f rows a second; %.2f times the sqlite3 shell\n", rows / ours, ours / theirs }'

echo "-- the same on two cores"
"$locule" new "$work/again" >/dev/null
"$locule" --house "$work/again" take "$work/raw/varieties.csv" "$work/raw/plots.csv" >/dev/null
rm -f "$work/plain.db"*
measure take_on_two 0,1 "$locule" --house "$work/again" take "$work/raw/fruit.csv"
measure import_on_two 0,1 sqlite3 "$work/plain.db" ".read $work/import.sql"
awk -v ours="$take_on_two_s" -v theirs="$import_on_two_s" 'BEGIN { printf "%.2f times the sqlite3 shell\n", ours / theirs }'

echo "-- calling $varieties varieties with $rows fruit, on two cores"
measure call 0,1 "$locule" call
measure call_again 0,1 "$locule" call

echo "-- the demo's catalogue and the help"
unset LOCULE_HOUSE
"$locule" demo --no-serve --in "$work/demo" >/dev/null
measure catalogue 0,1 "$locule" --house "$work/demo" print catalogue --to "$work/catalogue.pdf"
measure help 0,1 "$locule" --help
