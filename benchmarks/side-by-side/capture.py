"""Ten seconds of sweep at 96 kHz, two channels, to impedance with NumPy: two rffts and a cross-spectrum
ratio averaged over 40 bands an octave. Prints the median time of many runs in milliseconds."""
import time

import numpy as np

rate = 96000
n = 10 * rate
t = np.arange(n) / rate - 0.5
duration = 9
l = duration / np.log(4000)
first = np.where((t > 0) & (t < duration), 0.5 * np.sin(2 * np.pi * 5 * l * (np.exp(np.clip(t, 0, duration) / l) - 1)), 0)
second = 0.6 * first + 1e-5 * np.random.default_rng(1).standard_normal(n)
f = np.fft.rfftfreq(n, 1 / rate)
edges = 10 * 2 ** (np.arange(441) / 40)
starts = np.unique(np.searchsorted(f, edges))


def impedance():
    a = np.fft.rfft(first - first.mean())
    b = np.fft.rfft(second - second.mean())
    s11 = np.add.reduceat(np.abs(a) ** 2, starts)
    s12 = np.add.reduceat(np.conj(a) * b, starts)
    s22 = np.add.reduceat(np.abs(b) ** 2, starts)
    h = s12 / s11
    coherence = np.abs(s12) ** 2 / (s11 * s22)
    return 4.7 * h / (1 - h), coherence


times = []
for _ in range(40):
    begin = time.perf_counter()
    impedance()
    times.append(time.perf_counter() - begin)
print(f"{np.median(times) * 1e3:.2f}")
