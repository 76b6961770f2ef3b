#!/bin/sh
# Holds taking a million fruit samples into a ledger against the sqlite3 shell importing the same rows into one
# plain table, in one run. The shell parses its CSV and the ledger here does not, so the ratio of the whole
# taking is measured again through the command line.
#
#   crates/ledger/benches/import_ratio.sh [ROWS]
set -eu
rows=${1:-1000000}
cd "$(dirname "$0")/../../.."
cargo build --quiet --release -p ledger --example adds
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

for run in 1 2 3; do
    rm -f "$folder"/ledger.db* "$folder"/plain.db*
    target/release/examples/adds "$folder/ledger.db" "$rows" "$folder/rows.csv" | tee "$folder/said"
    taken=$(awk '/^take_seconds/ { print $2 }' "$folder/said")
    begun=$(date +%s.%N)
    sqlite3 "$folder/plain.db" >/dev/null <<SQL
PRAGMA journal_mode = WAL;
PRAGMA synchronous = FULL;
CREATE TABLE fruit (variety TEXT, season INTEGER, plot TEXT, plant INTEGER, date TEXT, weight_g REAL,
    length_mm REAL, width_mm REAL, locules INTEGER, brix REAL, colour TEXT);
.import --csv --skip 1 $folder/rows.csv fruit
SQL
    ended=$(date +%s.%N)
    awk -v a="$begun" -v b="$ended" -v t="$taken" -v run="$run" \
        'BEGIN { printf "run %d: ledger %.2f s, sqlite3 shell %.2f s, ratio %.2f\n", run, t, b - a, t / (b - a) }'
    ls -l "$folder/ledger.db" "$folder/plain.db" | awk '{ print $5, $NF }'
done
