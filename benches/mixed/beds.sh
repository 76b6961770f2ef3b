#!/bin/sh
# Sets our trends in a bed beside mgcv and nlme on the same plots in the same sitting: time and peak memory.
# Needs GNU time, R, mgcv and nlme (Debian: time, r-cran-mgcv, r-cran-nlme). Usage: benches/mixed/beds.sh [ROWSxCOLUMNS]...
set -eu
here=$(cd "$(dirname "$0")" && pwd)
tables=$(mktemp -d)
trap 'rm -r "$tables"' EXIT
cd "$here/../.."
bench=$(cargo bench --profile release -p statistics --bench beds --no-run --message-format=json |
    sed -n 's/.*"name":"beds".*"executable":"\([^"]*\)".*/\1/p' | tail -n 1)
[ $# -gt 0 ] || set -- 22x15 60x30
for bed in "$@"; do
    LOCULE_BENCH_TABLES=$tables LOCULE_BENCH_BED=$bed \
        /usr/bin/time -f "  ours, all three: %e s, %U s of processor, %M KB" "$bench"
    /usr/bin/time -f "  R: %e s with reading the table, %U s of processor, %M KB" \
        Rscript "$here/beds.R" "$tables" "$bed"
done
