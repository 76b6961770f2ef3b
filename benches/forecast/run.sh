#!/bin/sh
# The forecast's core beside numpy's, in one run. PYTHON names a Python that has numpy.
set -eu
cd "$(dirname "$0")/../.."
OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 "${PYTHON:-python3}" benches/forecast/peer.py
cargo bench --profile release --workspace --bench forecast
OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 "${PYTHON:-python3}" benches/forecast/peer.py
