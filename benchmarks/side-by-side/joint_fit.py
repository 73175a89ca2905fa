"""The joint fit of reference case A1-01 with SciPy least_squares: same residuals, same start as
JointFitBenchmark. Prints the weighted square sum and the faster
method's median time of many runs in microseconds."""
import sys
import time

import numpy as np
from scipy.optimize import least_squares

CASE = "bench/src/test/resources/cases/A1/A1-01/"


def curve(name):
    rows = np.array([[float(x) for x in line.split(",")]
                     for line in open(CASE + name) if not line.startswith("*")])
    return rows[:, 0], rows[:, 1] * np.exp(1j * np.radians(rows[:, 2]))


takes = [curve("free_air.txt"), curve("added_mass_1.txt")]
logs = [np.log(z) for _, z in takes]
area = np.pi * 0.1128 ** 2 / 4


def residuals(theta):
    re, fs, qms, qes, l, l2, r2, mu, mass, sd = np.exp(theta)
    parts = []
    for (f, _), log, added in zip(takes, logs, (0, mu)):
        u = f / fs
        w = 2j * np.pi * f
        z = 1j * u * (1 + added) + 1 / qms + 1 / (1j * u)
        model = re + w * l + w * l2 * r2 / (r2 + w * l2) + re / qes / z
        r = (np.log(model) - log) / 0.002
        parts += [r.real, r.imag]
    parts.append([(theta[7] + theta[8] - np.log(0.004502)) / (2e-5 / 0.004502),
                  (theta[9] - np.log(area)) / (2 * 0.00056 / 0.1128)])
    return np.concatenate(parts)


start = np.log([4.2, 65, 6, 0.6, 3e-4, 5e-4, 4, 0.4, 0.011, 0.0100])
medians = []
for method in ("lm", "trf"):
    times = []
    for _ in range(int(sys.argv[1]) if len(sys.argv) > 1 else 100):
        begin = time.perf_counter()
        solution = least_squares(residuals, start, method=method, x_scale="jac")
        times.append(time.perf_counter() - begin)
    medians.append((np.median(times), 2 * solution.cost))
took, cost = min(medians)
print(f"{cost:.6f} {took * 1e6:.1f}")
