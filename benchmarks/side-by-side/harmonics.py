"""The harmonics of one sweep taken out of one channel, with NumPy, as HarmonicsBenchmark does.

Prints the root mean square of what is left and the median time in ms.
"""

import time

import numpy as np

RATE = 48000
LOW, HIGH, SECONDS, LEAD = 15.0, 2000.0, 8.0, 0.25
L = SECONDS / np.log(HIGH / LOW)


def recording():
    n = int(round((SECONDS + 2 * LEAD) * RATE))
    t = np.arange(n) / RATE - LEAD
    on = (t >= 0) & (t <= SECONDS)
    fade = np.clip(np.minimum(t / 0.1, (SECONDS - t) / 0.01), 0, 1)
    x = np.where(on, (0.5 - 0.5 * np.cos(np.pi * fade)) * np.sin(2 * np.pi * LOW * L * np.expm1(t / L)), 0)
    return x + 0.1 * x**2 + 0.03 * x**3 + 1e-3 * np.random.default_rng(1).standard_normal(n)


def orders(f):
    return int(min(max(5, min(14, round(600 / f))), 0.45 * RATE / f))


def taken_out(x):
    first = int(np.ceil(LEAD * RATE))
    n = min(len(x), int((LEAD + SECONDS) * RATE) + 1) - first
    t = (first + np.arange(n)) / RATE - LEAD
    cycles = LOW * L * np.expm1(t / L)
    frequency = LOW * np.exp(t / L)
    turn = np.exp(2j * np.pi * (cycles % 1))
    moments = []
    at = 0.0
    while at < SECONDS:
        f = LOW * np.exp(at / L)
        width = max(4, np.ceil(0.03 * f))
        centre = LOW * L * np.expm1(at / L)
        lo, hi = np.searchsorted(cycles, [centre - width / 2, centre + width / 2])
        w = (1 + np.cos(2 * np.pi / width * (cycles[lo:hi] - centre))) * frequency[lo:hi]
        moments.append((at, orders(f), lo, hi, 2 * w / w.sum()))
        at += width / f / 4
    most = max(orders(LOW), orders(HIGH))
    left = x[first : first + n].copy()
    for _ in range(2):
        amplitude = np.zeros((len(moments), most), complex)
        for k, (_, h, lo, hi, w) in enumerate(moments):
            z = np.conj(turn[lo:hi])
            wx = w * left[lo:hi] * z
            for order in range(h):
                amplitude[k, order] = wx.sum()
                wx = wx * z
        for k in range(len(moments) - 1):
            start, end = moments[k][0], moments[k + 1][0]
            lo = int(np.ceil((LEAD + start) * RATE)) - first
            hi = n if k == len(moments) - 2 else int(np.ceil((LEAD + end) * RATE)) - first
            share = np.minimum(1, (t[lo:hi] - start) / (end - start))
            total = np.zeros(hi - lo, complex)
            for order in range(min(moments[k][1], moments[k + 1][1]) - 1, -1, -1):
                a, b = amplitude[k, order], amplitude[k + 1, order]
                total = (total + a + share * (b - a)) * turn[lo:hi]
            left[lo:hi] -= total.real
    out = x.copy()
    out[first : first + n] = left
    return out


x = recording()
left = taken_out(x)
times = []
for _ in range(9):
    begin = time.perf_counter()
    taken_out(x)
    times.append(1000 * (time.perf_counter() - begin))
print(f"{np.sqrt(np.mean(left**2)):.6e} {np.median(times):.2f}")
