#!/usr/bin/python3
"""The probability that a peg stands within tolerance, against SciPy.

rt_within integrates along the axes of the spread and across the disc by an angle; here the same is
integrated along x, with y's conditional normal distribution, by SciPy's adaptive quad; and round
spreads by SciPy's noncentral chi-square distribution.

usage: ring_disc.py LIBRINGTRUE.so
SPDX-License-Identifier: GPL-3.0-or-later
"""
import ctypes
import sys

import numpy as np
from scipy.integrate import quad
from scipy.stats import ncx2, norm

lib = ctypes.CDLL(sys.argv[1])
lib.rt_within.restype = ctypes.c_double
lib.rt_within.argtypes = [ctypes.POINTER(ctypes.c_double)] * 2 + [ctypes.c_double]


def ours(off, cov, tolerance):
    return lib.rt_within((ctypes.c_double * 2)(*off), (ctypes.c_double * 3)(*cov), tolerance)


def theirs(off, cov, tolerance):
    sx = np.sqrt(cov[0])
    sy = np.sqrt(cov[2] - cov[1] ** 2 / cov[0])

    def slice_(x):
        middle = off[1] + cov[1] / cov[0] * (x - off[0])
        half = np.sqrt(max(tolerance**2 - x**2, 0))
        inside = norm.cdf((half - middle) / sy) - norm.cdf((-half - middle) / sy)
        return norm.pdf((x - off[0]) / sx) / sx * inside

    low, high = max(-tolerance, off[0] - 10 * sx), min(tolerance, off[0] + 10 * sx)
    if low >= high:
        return 0.0
    # break where the slices' ends pass the middle of the spread, so that no step is missed
    points = np.linspace(low, high, 13)
    return sum(quad(slice_, a, b, epsabs=1e-13, limit=200)[0] for a, b in zip(points, points[1:]))


random = np.random.default_rng(11)
worst = worst_round = 0.0
for i in range(60):
    tolerance = random.choice([0.05, 0.1, 0.5])
    s1, s2 = tolerance * 10 ** random.uniform(-2.5, 0.5, 2)
    turn = random.uniform(0, np.pi)
    c, s = np.cos(turn), np.sin(turn)
    cov = (c * c * s1**2 + s * s * s2**2, c * s * (s1**2 - s2**2), s * s * s1**2 + c * c * s2**2)
    far = tolerance + random.normal() * max(s1, s2)
    way = random.uniform(0, 2 * np.pi)
    off = (far * np.cos(way), far * np.sin(way))
    worst = max(worst, abs(ours(off, cov, tolerance) - theirs(off, cov, tolerance)))
    p = ncx2.cdf((tolerance / s1) ** 2, 2, (far / s1) ** 2)
    worst_round = max(worst_round, abs(ours(off, (s1**2, 0, s1**2), tolerance) - p))
print(f"within a disc: 60 turned spreads, largest difference {worst:.1e}; "
      f"round ones, {worst_round:.1e}")
sys.exit(int(worst > 1e-8 or worst_round > 1e-9))
