#!/usr/bin/env bash
# The list page and its search with 100,000 varieties over loopback, beside the bare full-text query in the same run.
# Needs target/release/locule.
set -euo pipefail
cd "$(dirname "$0")/.."
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
target/release/locule demo --no-serve --in "$work/demo" >/dev/null
cargo bench --profile release --quiet -p workbench --bench list -- "$work/demo" "$work/large" "${1:-100000}" "${2:-200}"
