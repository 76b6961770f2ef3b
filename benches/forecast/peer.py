"""The forecast's core sums in numpy, for comparison: one hump through 40 years, 30 weeks and 200 draws.

Run by benches/forecast/run.sh beside the bench of the same sums. One thread, single precision as ours; the normal curve is
the rational approximation 7.1.26 of Abramowitz and Stegun, since numpy has none of its own.
"""

import time

import numpy as np

YEARS, WEEKS, DRAWS = 40, 30, 200
draws = np.random.default_rng(5)
heat = np.cumsum(draws.uniform(40, 110, (YEARS, WEEKS)), axis=1).astype(np.float32)
log_heat = np.log(heat)
fruit_set = draws.uniform(0.5, 1, (YEARS, WEEKS)).astype(np.float32)
middle = draws.normal(6.8, 0.1, DRAWS).astype(np.float32)
by_spread = np.full(DRAWS, 1 / 0.14, np.float32)
kilograms = np.exp(draws.normal(1.4, 0.4, DRAWS)).astype(np.float32)


def below(z):
    """Chance that a standard normal draw falls below z."""
    x = np.abs(z) * np.float32(0.70710678)
    t = 1 / (1 + np.float32(0.3275911) * x)
    tail = t * (
        np.float32(0.254829592)
        + t
        * (
            np.float32(-0.284496736)
            + t * (np.float32(1.421413741) + t * (np.float32(-1.453152027) + t * np.float32(1.061405429)))
        )
    )
    tail *= np.exp(-x * x)
    return np.where(z < 0, 0.5 * tail, 1 - 0.5 * tail)


def weekly():
    come = below((log_heat[:, :, None] - middle) * by_spread)
    return kilograms * fruit_set[:, :, None] * np.diff(come, axis=1, prepend=np.float32(0))


times = []
for _ in range(100):
    start = time.perf_counter()
    weekly()
    times.append(time.perf_counter() - start)
times.sort()
best, middle_time = times[0], times[len(times) // 2]
print(f"numpy {np.__version__}: core of one hump {best * 1e3:.2f} ms at best, {middle_time * 1e3:.2f} ms at the middle")
