#!/usr/bin/python3
"""Random networks and random rings: the command against numpy and scipy.

Adjustment: Gauss-Newton with minimum-norm steps (numpy.linalg.lstsq), covariance by the
pseudo-inverse, and scipy.optimize.least_squares for the sum of squares.  Ring check: rotation by
the singular value decomposition (W. Kabsch, 1976), standard errors by carrying the covariance
over to the datum of the fit, `fewest` by trying every set that is larger or as large.

usage: ring_random.py RINGTRUE [NETWORKS [SEED]]
SPDX-License-Identifier: GPL-3.0-or-later"""
import csv
import itertools
import json
import math
import os
import subprocess
import sys
import tempfile

import numpy as np
from scipy import optimize, stats

KIND = "driven-40x80"
TOLERANCE = 0.10
os.environ.setdefault("RINGTRUE_DATA", os.path.join(os.path.dirname(os.path.abspath(__file__)),
                                                    "..", "..", "share"))
CORNERS = ["AK", "HC", "CM", "FA"]
failures = 0


def check(what, good, detail=""):
    global failures
    if not good:
        failures += 1
        print("FAIL", what, detail)


def near(what, got, expected, within):
    check(what, got is not None and abs(got - expected) <= within, "%r, not %r" % (got, expected))


def write_csv(path, head, rows):
    with open(path, "w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(head)
        writer.writerows(rows)


def run(command, *words):
    done = subprocess.run([command, "--format", "json", *words], capture_output=True, text=True)
    return done.returncode, json.loads(done.stdout) if done.stdout else None, done.stderr


# ---- the reference ----

def lengths_and_design(xy, pairs):
    """Distances of the pairs, and their derivatives by all coordinates."""
    design = np.zeros((len(pairs), xy.size))
    d = np.empty(len(pairs))
    for row, (i, j) in enumerate(pairs):
        gap = xy[j] - xy[i]
        d[row] = math.hypot(*gap)
        design[row, 2 * i:2 * i + 2] = -gap / d[row]
        design[row, 2 * j:2 * j + 2] = gap / d[row]
    return d, design


class Restless(Exception):
    """Gauss-Newton found no place to stop: readings that pull a point onto a line."""


def adjust(start, fixed, pairs, observed, sigma):
    """Coordinates, covariance of all coordinates (0 where fixed), residuals, rank, sum."""
    free = np.repeat([not f for f in fixed], 2)
    xy = start.copy()
    for _ in range(60):
        d, design = lengths_and_design(xy, pairs)
        step = np.zeros(xy.size)
        step[free] = np.linalg.lstsq(design[:, free] / sigma[:, None], (observed - d) / sigma,
                                     rcond=1e-10)[0]
        xy += step.reshape(-1, 2)
        if np.abs(step).max() < 2e-9:  # coordinates of 5e5 m carry 6e-11
            break
    else:
        raise Restless
    d, design = lengths_and_design(xy, pairs)
    weighted = design[:, free] / sigma[:, None]
    covariance = np.zeros((xy.size, xy.size))
    covariance[np.ix_(free, free)] = np.linalg.pinv(weighted.T @ weighted, rcond=1e-12)
    v = d - observed
    return xy, covariance, v, np.linalg.matrix_rank(weighted, tol=1e-8 * np.abs(weighted).max()), \
        float(np.sum((v / sigma) ** 2)), design


def scipy_sum(start, fixed, pairs, observed, sigma):
    free = np.repeat([not f for f in fixed], 2)

    def residuals(x):
        xy = start.copy().ravel()
        xy[free] = x
        return (lengths_and_design(xy.reshape(-1, 2), pairs)[0] - observed) / sigma

    return 2 * optimize.least_squares(residuals, start.ravel()[free], xtol=1e-14, ftol=1e-14,
                                      gtol=1e-14).cost


def rigid(p, q):
    """Rotation matrix and shift that lay p on q."""
    u, _, vt = np.linalg.svd((q - q.mean(0)).T @ (p - p.mean(0)))
    rotation = u @ np.diag([1, np.linalg.det(u @ vt)]) @ vt
    return rotation, q.mean(0) - rotation @ p.mean(0)


def offsets(p, q, inside):
    """Where each q stands less where p should, in p's frame, and the sum of squares inside."""
    rotation, shift = rigid(p[inside], q[inside])
    off = (q - shift) @ rotation - p
    return off, float(np.sum(off[inside] ** 2))


# ---- adjust ----

def random_network(rng):
    n = int(rng.integers(5, 20))
    start = rng.uniform(0, 100, (n, 2)) + rng.choice([0, 5e5])
    true = start + rng.normal(0, 0.5, (n, 2))
    pairs = [pair for pair in itertools.combinations(range(n), 2) if rng.random() < 0.75]
    rng.shuffle(pairs)
    fixed = [False] * n
    for i in range(int(rng.integers(0, 3))):
        fixed[i] = True
        start[i] = true[i]
    pairs = [tuple(p) for p in pairs]
    sigma = rng.uniform(0.005, 0.03, len(pairs))
    observed = lengths_and_design(true, pairs)[0] + rng.normal(0, 0.5, len(pairs)) * sigma
    return start, fixed, pairs, observed, sigma


def well_fixed(start, fixed, pairs, sigma):
    """Before anything is measured: at the start."""
    _, covariance, _, rank, _, _ = adjust(start, fixed, pairs, lengths_and_design(start, pairs)[0],
                                          sigma)
    datum = {0: 3, 1: 1, 2: 0}[sum(fixed)]
    unknowns = 2 * (len(fixed) - sum(fixed))
    return rank == unknowns - datum and np.sqrt(np.diag(covariance)).max() < 0.15


def compare_readings(name, rows, v, sigma, redundancy):
    for k, row in enumerate(rows):
        near(name + " residual", row["residual_m"], v[k], 1e-8)
        near(name + " redundancy", row["redundancy"], redundancy[k], 1e-7)
        if redundancy[k] > 1e-6:
            near(name + " w", row["w"], v[k] / (sigma[k] * math.sqrt(redundancy[k])), 1e-5)


def check_network(command, folder, rng, number):
    start, fixed, pairs, observed, sigma = random_network(rng)
    if not well_fixed(start, fixed, pairs, sigma):
        return False
    name = "network %d" % number
    points, readings = os.path.join(folder, "points.csv"), os.path.join(folder, "readings.csv")
    write_csv(points, ["point", "x_m", "y_m", "fixed"],
              [["P%d" % i, repr(float(x)), repr(float(y)), "yes" if f else "no"]
               for i, ((x, y), f) in enumerate(zip(start, fixed))])
    write_csv(readings, ["from", "to", "distance_m", "sigma_m"],
              [["P%d" % i, "P%d" % j, repr(float(d)), repr(float(s))]
               for (i, j), d, s in zip(pairs, observed, sigma)])
    status, out, errors = run(command, "adjust", points, readings)
    try:
        xy, covariance, v, rank, total, design = adjust(start, fixed, pairs, observed, sigma)
    except Restless:
        check(name + " is told", status == 2 and "not fixed by the readings" in errors, errors)
        return False
    check(name, status in (0, 1) and out is not None, errors)
    if out is None or any(r["verdict"] == "blunder" for r in out["readings"]):
        return False
    dof = len(pairs) - rank
    sigma0 = math.sqrt(total / dof) if dof else None
    summary = out["summary"][0]
    check(name + " counts", (summary["readings"], summary["pegs"], summary["degrees_of_freedom"]) ==
          (len(pairs), len(fixed), dof), summary)
    if dof:
        near(name + " sigma0", summary["sigma0"], sigma0, 1e-8)
        other = scipy_sum(start, fixed, pairs, observed, sigma)
        check(name + " scipy", total <= other * (1 + 1e-9) and other - total < 1e-3 * (1 + total),
              "%r, not %r" % (total, other))  # a trust region stops early in weak networks
    factor = sigma0 if dof else 1
    for i, row in enumerate(out["points"]):
        near(name + " x", row["x_m"], xy[i, 0], 1e-7)
        near(name + " y", row["y_m"], xy[i, 1], 1e-7)
        near(name + " se x", row["se_x_m"], factor * math.sqrt(covariance[2 * i, 2 * i]), 1e-8)
        near(name + " se y", row["se_y_m"],
             factor * math.sqrt(covariance[2 * i + 1, 2 * i + 1]), 1e-8)
    compare_readings(name, out["readings"], v, sigma,
                     1 - np.einsum("ij,jk,ik->i", design, covariance, design) / sigma ** 2)
    return True


# ---- ring check ----

def nominal_ring(command):
    _, out, errors = run(command, "ring", "setout", "--kind", KIND)
    check("ring setout", out is not None, errors)
    return [(p["peg"], p["x_m"], p["y_m"]) for p in out["pegs"]]


def random_ring(rng, pegs):
    """Measured pegs, where they should and do stand, and readings with one wrong by a metre."""
    chosen = sorted(rng.choice(len(pegs), int(rng.integers(9, len(pegs) + 1)), replace=False))
    names = [pegs[i][0] for i in chosen]
    should = np.array([pegs[i][1:] for i in chosen], float)
    stands = should + rng.normal(0, 0.015, should.shape)
    for i in rng.choice(len(names), int(rng.integers(0, 4)), replace=False):
        stands[i] += rng.uniform(0.3, 0.6) * np.array([math.cos(i), math.sin(i)])
    pairs = [p for p in itertools.combinations(range(len(names)), 2) if rng.random() < 0.6]
    observed = lengths_and_design(stands, pairs)[0]
    sigma = 0.010 + 0.0002 * observed
    observed = observed + rng.normal(0, 0.6, len(pairs)) * sigma
    return names, should, pairs, observed


def fit_errors(stands, covariance, inside):
    """Standard error of each offset in the direction known worst."""
    count = int(np.sum(inside))
    arm = stands - stands[inside].mean(0)
    move = np.zeros((3, stands.size))  # what the fit does when pegs move: shift and turn
    for i in np.flatnonzero(inside):
        move[0, 2 * i] = move[1, 2 * i + 1] = 1 / count
        move[2, 2 * i:2 * i + 2] = np.array([-arm[i, 1], arm[i, 0]]) / np.sum(arm[inside] ** 2)
    errors = []
    for i in range(len(stands)):
        here = np.zeros((2, stands.size))
        here[0, 2 * i] = here[1, 2 * i + 1] = 1
        here -= np.array([[1, 0, -arm[i, 1]], [0, 1, arm[i, 0]]]) @ move
        errors.append(math.sqrt(np.linalg.eigvalsh(here @ covariance @ here.T)[-1]))
    return errors


def keeps(should, stands, inside):
    off, total = offsets(should, stands, inside)
    return np.hypot(*off[inside].T).max() <= TOLERANCE * (1 + 1e-8), total


def check_fewest(name, should, stands, inside):
    """No set that is larger, and none as large with a smaller sum."""
    n, size = len(should), int(np.sum(inside))
    good, total = keeps(should, stands, inside)
    check(name + " fewest keeps its own", good)
    for out in range(n - size + 1):
        for left in itertools.combinations(range(n), out):
            other = np.ones(n, bool)
            other[list(left)] = False
            fine, smaller = keeps(should, stands, other)
            better = fine and (out < n - size or smaller < total * (1 - 1e-7))
            check(name + " fewest is best", not better, "without %s" % (left,))


def check_ring(command, folder, rng, pegs, number):
    names, should, pairs, observed = random_ring(rng, pegs)
    fixed = [False] * len(names)
    sigma = 0.010 + 0.0002 * observed
    if not well_fixed(should, fixed, pairs, sigma):
        return False
    _, covariance, _, _, _, design = adjust(should, fixed, pairs, observed, sigma)
    spread = np.diag(sigma ** 2) - design @ covariance @ design.T  # of the residuals
    redundancy = np.diag(spread) / sigma ** 2
    bad = int(np.argmax(redundancy * rng.uniform(0.8, 1, len(pairs))))
    alike = np.abs(spread[bad]) / np.sqrt(spread[bad, bad] * np.maximum(np.diag(spread), 1e-12))
    if redundancy[bad] < 0.3 or np.sort(alike)[-2] > 0.9:
        return False  # no one could say which reading is wrong
    observed[bad] += 1.0
    sigma = 0.010 + 0.0002 * observed
    path = os.path.join(folder, "readings.csv")
    write_csv(path, ["from", "to", "distance_m"],
              [[names[i], names[j], repr(float(d))] for (i, j), d in zip(pairs, observed)])
    fit = ["fewest", "all", "corners"][number % 3]
    if fit == "corners" and sum(n in CORNERS for n in names) < 2:
        return False
    status, out, errors = run(command, "ring", "check", "--kind", KIND, path, "--fit", fit)
    name = "ring %d (%s)" % (number, fit)
    check(name, status in (0, 1) and out is not None, errors)
    if out is None:
        return False
    blunders = [k for k, r in enumerate(out["readings"]) if r["verdict"] == "blunder"]
    check(name + " finds the wrong reading", blunders == [bad], "%s, not %d" % (blunders, bad))
    check(name + " exit", status == 1, status)
    if blunders != [bad]:
        return False
    kept = [k for k in range(len(pairs)) if k != bad]
    stands, covariance, v, rank, total, design = adjust(
        should, fixed, [pairs[k] for k in kept], observed[kept], sigma[kept])
    sigma0 = math.sqrt(total / (len(kept) - rank))
    near(name + " sigma0", out["summary"][0]["sigma0"], sigma0, 1e-8)
    compare_readings(name, [out["readings"][k] for k in kept], v, sigma[kept],
                     1 - np.einsum("ij,jk,ik->i", design, covariance, design) / sigma[kept] ** 2)
    i, j = pairs[bad]
    near(name + " wrong by", out["readings"][bad]["residual_m"],
         math.hypot(*(stands[j] - stands[i])) - observed[bad], 1e-8)
    compare_pegs(name, out, names, should, stands, covariance, max(1, sigma0), fit)
    return True


def compare_pegs(name, out, names, should, stands, covariance, factor, fit):
    rows = {row["peg"]: row for row in out["pegs"]}
    check(name + " pegs", set(rows) == set(names))
    inside = np.array([rows[n]["in_fit"] for n in names])
    if fit == "fewest":
        check_fewest(name, should, stands, inside)
    elif fit == "corners":
        check(name + " inside", list(inside) == [n in CORNERS for n in names])
    else:
        check(name + " inside", inside.all())
    off, _ = offsets(should, stands, inside)
    errors = fit_errors(stands, covariance, inside)
    for i, n in enumerate(names):
        distance, se = math.hypot(*off[i]), factor * errors[i]
        near(name + " dx", rows[n]["dx_m"], off[i, 0], 1e-7)
        near(name + " dy", rows[n]["dy_m"], off[i, 1], 1e-7)
        near(name + " off", rows[n]["off_m"], distance, 1e-7)
        near(name + " se", rows[n]["se_m"], se, 1e-7)
        verdict = "unsure" if abs(distance - TOLERANCE) <= 2 * se else \
            "move" if distance > TOLERANCE else "good"
        check(name + " verdict", rows[n]["verdict"] == verdict, "%s %s" % (n, rows[n]))


# ---- statistics ----

def check_limits():
    """The limits that the header states, from scipy's distributions."""
    near("w critical", 3.290527, stats.norm.ppf(1 - 0.001 / 2), 1e-6)
    near("delta0", 4.132148, stats.norm.ppf(1 - 0.001 / 2) + stats.norm.ppf(0.80), 1e-6)


def main():
    command = os.path.abspath(sys.argv[1])
    wanted = int(sys.argv[2]) if len(sys.argv) > 2 else 40
    rng = np.random.default_rng(int(sys.argv[3]) if len(sys.argv) > 3 else 1)
    done = tried = 0
    check_limits()
    with tempfile.TemporaryDirectory() as folder:
        while done < wanted and tried < 10 * wanted:
            tried += 1
            done += check_network(command, folder, rng, tried)
        check("enough networks", done == wanted, done)
        pegs = nominal_ring(command)
        done = tried = 0
        while done < wanted and tried < 10 * wanted:
            tried += 1
            done += check_ring(command, folder, rng, pegs, tried)
        check("enough rings", done == wanted, done)
    print("%d networks and %d rings compared, %d failures" % (wanted, wanted, failures))
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
