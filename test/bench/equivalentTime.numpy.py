"""The comparator of equivalentTime.bench.mjs: the same integral in vectorised numpy, float64.

Reads times and temperatures as raw float64 from the two files named, prints one JSON line with the best
time of several runs in ns per sample: once by the logarithmic mean of the end rates (the definition of
equivalentTime without its correction for curvature, which numpy is thereby spared), once by the plain
trapezoid of the rates, which is quicker and less exact.
"""
import json
import sys
import time

import numpy as np

Q_OVER_R = 130000.0 / 8.314462618
REFERENCE_K = 177.0 + 273.15


def logarithmic_mean(time_s, temp_c):
    x = Q_OVER_R / REFERENCE_K - Q_OVER_R / (temp_c + 273.15)
    k = np.exp(x)
    dx = np.diff(x)
    near = np.abs(dx) < 0.02
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = np.where(near, 0.5 * (k[1:] + k[:-1]) * (1 - dx * dx / 12), np.diff(k) / dx)
    return float(np.dot(mean, np.diff(time_s)))


def trapezoid(time_s, temp_c):
    k = np.exp(Q_OVER_R / REFERENCE_K - Q_OVER_R / (temp_c + 273.15))
    return float(np.dot(0.5 * (k[1:] + k[:-1]), np.diff(time_s)))


def best(function, time_s, temp_c, rounds):
    shortest = float("inf")
    value = 0.0
    for _ in range(rounds):
        start = time.perf_counter()
        value = function(time_s, temp_c)
        shortest = min(shortest, time.perf_counter() - start)
    return {"nsPerSample": shortest / len(time_s) * 1e9, "value": value}


time_s = np.fromfile(sys.argv[1])
temp_c = np.fromfile(sys.argv[2])
rounds = int(sys.argv[3])
print(json.dumps({
    "numpy": np.__version__,
    "logarithmicMean": best(logarithmic_mean, time_s, temp_c, rounds),
    "trapezoid": best(trapezoid, time_s, temp_c, rounds),
}))
