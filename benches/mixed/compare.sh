#!/bin/sh
# Sets our mixed models beside lme4 on the same tables in the same sitting: time and peak memory.
# Needs GNU time, R and lme4 (Debian: time, r-cran-lme4). Usage: benches/mixed/compare.sh [TRIAL]...
# where TRIAL is small or VARIETIESxSITESxREPLICATES; without one: small, 200x6x3 and 2000x10x2.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
tables=$(mktemp -d)
trap 'rm -r "$tables"' EXIT
cd "$here/../.."
bench=$(cargo bench --profile release -p statistics --bench large_trials --no-run --message-format=json |
    sed -n 's/.*"name":"large_trials".*"executable":"\([^"]*\)".*/\1/p' | tail -n 1)
[ $# -gt 0 ] || set -- small 200x6x3 2000x10x2
for trial in "$@"; do
    LOCULE_BENCH_TABLES=$tables LOCULE_BENCH_TRIAL=$trial \
        /usr/bin/time -f "  ours: %e s with making and writing the table, %U s of processor, %M KB" "$bench"
    /usr/bin/time -f "  lme4: %e s with reading the table, %U s of processor, %M KB" \
        Rscript "$here/lme4.R" "$tables" "$trial"
done
