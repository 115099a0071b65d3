#!/usr/bin/python3
"""The network of ring_bench.c adjusted in numpy: seconds a call, the best of many.

Does what the library does for a network without blunders: rank and standard errors at the start,
Gauss-Newton with minimum-norm steps, covariance, redundancy numbers, w.
Prints "adjust SECONDS SIGMA0".
SPDX-License-Identifier: GPL-3.0-or-later"""
import math
import time

import numpy as np

PEGS = np.array([(0, -40), (-20, -40), (-20, -30), (-20, -15), (-20, 0), (-20, 15), (-20, 30),
                 (-20, 40), (0, 40), (20, 40), (20, 30), (20, 15), (20, 0), (20, -15), (20, -30),
                 (20, -40)], float)
FROM = np.arange(52) % 16
TO = (FROM + np.array([1, 2, 5, 8])[np.arange(52) // 16]) % 16
OBSERVED = np.hypot(*(PEGS[TO] - PEGS[FROM]).T) + 0.012 * np.sin(7.3 * np.arange(52) + 1)
SIGMA = 0.010 + 0.0002 * OBSERVED
ROUNDS = 100


def linearise(xy):
    gap = xy[TO] - xy[FROM]
    d = np.hypot(gap[:, 0], gap[:, 1])
    u = gap / d[:, None]
    design = np.zeros((52, 32))
    row = np.arange(52)
    for k in range(2):
        design[row, 2 * FROM + k] = -u[:, k]
        design[row, 2 * TO + k] = u[:, k]
    return d - OBSERVED, design / SIGMA[:, None]


def pseudo_inverse(design):
    _, s, vt = np.linalg.svd(design, full_matrices=False)
    rank = int(np.sum(s > 1e-10 * s[0]))
    half = vt[:rank].T / s[:rank]
    return half @ half.T, rank


def adjust():
    xy = PEGS.copy()
    pseudo_inverse(linearise(xy)[1])
    for _ in range(60):
        v, design = linearise(xy)
        step = np.linalg.lstsq(design, -v / SIGMA, rcond=1e-10)[0]
        xy += step.reshape(-1, 2)
        if np.abs(step).max() < 1e-11:
            break
    v, design = linearise(xy)
    covariance, rank = pseudo_inverse(design)
    redundancy = 1 - np.einsum("ij,jk,ik->i", design, covariance, design)
    w = v / (SIGMA * np.sqrt(redundancy))
    assert np.abs(w).max() < 3.29
    return math.sqrt(np.sum((v / SIGMA) ** 2) / (52 - rank))


def main():
    best = math.inf
    for _ in range(ROUNDS):
        start = time.perf_counter()
        sigma0 = adjust()
        best = min(best, time.perf_counter() - start)
    print("adjust %.9f %.9f" % (best, sigma0))


main()
