#!/usr/bin/python3
"""Random networks of distances, offsets, angles and a receiver's coordinates: the command against
numpy and scipy.

Written anew from the definitions: angles by the argument of a complex quotient, derivatives by
central differences, degrees as metres by the formulas for geocentric coordinates (EPSG Guidance
Note 7-2, geographic to geocentric and to topocentric), the free directions of the whole from the
singular value decomposition, carried over to the datum of the points by an S-transformation
(W. Baarda, 1973), scipy.optimize.least_squares for the sum of squares.

usage: ring_mixed.py RINGTRUE [NETWORKS [SEED]]
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
from scipy import optimize

failures = 0
A, F = 6378137.0, 1 / 298.257223563  # WGS 84


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


# ---- degrees and metres ----

def geocentric(lat, lon, height):
    e2 = F * (2 - F)
    n = A / math.sqrt(1 - e2 * math.sin(lat) ** 2)
    return np.array([(n + height) * math.cos(lat) * math.cos(lon),
                     (n + height) * math.cos(lat) * math.sin(lon),
                     (n * (1 - e2) + height) * math.sin(lat)])


def east_north(lat, lon, lat0, lon0, height, height0=None):
    gap = geocentric(lat, lon, height) - \
        geocentric(lat0, lon0, height if height0 is None else height0)
    east = np.array([-math.sin(lon0), math.cos(lon0), 0])
    north = np.array([-math.sin(lat0) * math.cos(lon0), -math.sin(lat0) * math.sin(lon0),
                      math.cos(lat0)])
    return np.array([gap @ east, gap @ north])


def check_published():
    """The worked example of EPSG Guidance Note 7-2, geographic/topocentric conversions (also in
    PROJ's own tests), so that the reference is right before anything is compared with it."""
    east, north = east_north(*np.radians([53 + 48 / 60 + 33.82 / 3600, 2 + 7 / 60 + 46.38 / 3600]),
                             *np.radians([55, 5]), 73, 200)
    near("EPSG topocentric U", east, -189013.869, 5e-4)
    near("EPSG topocentric V", north, -128642.040, 5e-4)


def degrees_of(metres, lat0, lon0, height):
    """The latitude and longitude that lie so many metres east and north."""
    guess = np.array([lat0, lon0])
    for _ in range(20):
        miss = metres - east_north(guess[0], guess[1], lat0, lon0, height)
        guess += np.array([miss[1] / (A + height), miss[0] / ((A + height) * math.cos(lat0))])
    return np.degrees(guess)


# ---- the reference ----

def tell(reading, xy, frames):
    kind, points, frame = reading[:3]
    at = [complex(*xy[p]) for p in points]
    if kind == "distance":
        return abs(at[1] - at[0])
    if kind == "offset":  # from the line from at[0] to at[1], to the right
        return -((at[2] - at[0]) / (at[1] - at[0]) * abs(at[1] - at[0])).imag
    if kind == "angle":  # clockwise
        return math.degrees(-np.angle((at[1] - at[2]) / (at[0] - at[2]))) % 360
    if frame is not None:
        turn, x, y = frames[frame]
        at[0] = at[0] * complex(math.cos(turn), math.sin(turn)) + complex(x, y)
    return at[0].real if kind == "x" else at[0].imag


def residuals(vector, n, readings):
    xy, frames = vector[:2 * n].reshape(-1, 2), vector[2 * n:].reshape(-1, 3)
    out = []
    for r in readings:
        off = tell(r, xy, frames) - r[3]
        if r[0] == "angle":
            off = (off + 180) % 360 - 180
        out.append(off / r[4])
    return np.array(out)


def design(vector, n, readings, free):
    columns = []
    for k in free:
        step = np.zeros(vector.size)
        step[k] = 1e-4
        columns.append((8 * (residuals(vector + step, n, readings) -
                             residuals(vector - step, n, readings)) -
                        residuals(vector + 2 * step, n, readings) +
                        residuals(vector - 2 * step, n, readings)) / 12e-4)
    return np.array(columns).T


def datum_free(j, of_points):
    """S that makes nothing of the free directions, as the points alone see them, and the rank."""
    _, s, vt = np.linalg.svd(j)
    rank = int(np.sum(s > 1e-8 * s[0]))
    free = vt[rank:].T
    if not free.size:
        return np.eye(j.shape[1]), rank
    d = free.T * of_points
    return np.eye(j.shape[1]) - free @ np.linalg.solve(d @ free, d), rank


def adjust(start, n, readings, free):
    vector = start.copy()
    of_points = (np.array(free) < 2 * n).astype(float)
    for _ in range(50):
        j = design(vector, n, readings, free)
        s, rank = datum_free(j, of_points)
        step = s @ np.linalg.lstsq(j, -residuals(vector, n, readings), rcond=1e-10)[0]
        vector[free] += step
        if np.abs(step).max() < 1e-9:
            break
    j = design(vector, n, readings, free)
    s, rank = datum_free(j, of_points)
    pinv = np.linalg.pinv(j, rcond=1e-9)
    covariance = np.zeros((vector.size, vector.size))
    covariance[np.ix_(free, free)] = s @ pinv @ pinv.T @ s.T
    return vector, covariance, residuals(vector, n, readings), j @ pinv, rank


# ---- random networks ----

def random_readings(rng, true, n):
    out = []
    for p in itertools.combinations(range(n), 2):
        if rng.random() < 0.5:
            out.append(["distance", list(rng.permutation(p)), None, 0, 0.015])
    for _ in range(int(rng.integers(0, 8))):
        i, j, k = rng.choice(n, 3, replace=False)
        out.append(["offset", [i, j, k], None, 0, 0.01])
    for _ in range(int(rng.integers(0, 8))):
        i, j, k = rng.choice(n, 3, replace=False)
        if min(math.dist(true[i], true[k]), math.dist(true[j], true[k])) > 15:
            out.append(["angle", [i, j, k], None, 0, 0.05])
    if rng.random() < 0.4:
        for p in rng.choice(n, int(rng.integers(1, 4)), replace=False):
            out += [["x", [p], None, 0, 0.02], ["y", [p], None, 0, 0.02]]
    for frame in range(int(rng.integers(0, 3))):
        for p in rng.choice(n, int(rng.integers(3, n + 1)), replace=False):
            out += [["x", [p], frame, 0, 0.02], ["y", [p], frame, 0, 0.02]]
    return out


def random_network(rng):
    n = int(rng.integers(5, 13))
    base = rng.choice([0, 4e5], 2)
    start = rng.uniform(0, 90, (n, 2)) + base
    true = start + rng.normal(0, 0.3, (n, 2))
    fixed = [False] * n
    for i in range(int(rng.choice([0, 0, 1, 2]))):
        fixed[i] = True
        start[i] = true[i]
    readings = random_readings(rng, true, n)
    count = len({r[2] for r in readings if r[2] is not None})
    frames = np.array([[rng.uniform(-math.pi, math.pi), 0, 0] for _ in range(count)])
    for f in frames:  # the middle of the network near that of the frame
        middle = -complex(*true.mean(0)) * complex(math.cos(f[0]), math.sin(f[0]))
        f[1], f[2] = middle.real, middle.imag
    for r in readings:
        r[3] = tell(r, true, frames) + 0.7 * rng.normal() * r[4]
    return start, fixed, readings, frames


def write_network(folder, start, fixed, readings, site):
    """The files, and the readings in their order; coordinates of frames become those that their
    degrees mean about the file's own middle."""
    name = lambda i: "P%d" % i
    paths = [os.path.join(folder, "points.csv")]
    write_csv(paths[0], ["point", "x_m", "y_m", "fixed"],
              [[name(i), repr(float(x)), repr(float(y)), "yes" if f else "no"]
               for i, ((x, y), f) in enumerate(zip(start, fixed))])
    ordered = []
    heads = {"distance": ["from", "to", "distance_m", "sigma_m"],
             "offset": ["from", "to", "point", "offset_m", "sigma_m"],
             "angle": ["from", "to", "point", "angle_deg", "sigma_deg"]}
    for kind, head in heads.items():
        rows = [r for r in readings if r[0] == kind]
        if rows:
            paths.append(os.path.join(folder, kind + ".csv"))
            write_csv(paths[-1], head, [[name(p) for p in r[1]] + [repr(float(r[3])), r[4]]
                                        for r in rows])
            ordered += rows
    for frame in [None, 0, 1]:
        xs = [r for r in readings if r[0] == "x" and r[2] == frame]
        ys = [r for r in readings if r[0] == "y" and r[2] == frame]
        if not xs:
            continue
        paths.append(os.path.join(folder, "frame%s.csv" % frame))
        places = np.array([[x[3], y[3]] for x, y in zip(xs, ys)])
        if frame is None:
            write_csv(paths[-1], ["point", "x_m", "y_m", "sigma_m"],
                      [[name(x[1][0]), repr(float(p[0])), repr(float(p[1])), x[4]]
                       for x, p in zip(xs, places)])
        else:
            degrees = np.array([degrees_of(p, *site) for p in places])
            write_csv(paths[-1], ["point", "lat_deg", "lon_deg", "height_m", "sigma_m"],
                      [[name(x[1][0]), "%.13f" % d[0], "%.13f" % d[1], site[2], x[4]]
                       for x, d in zip(xs, degrees)])
            middle = np.radians(degrees.mean(0))
            for x, y, d in zip(xs, ys, degrees):
                x[3], y[3] = east_north(*np.radians(d), *middle, site[2])
        ordered += [r for pair in zip(xs, ys) for r in pair]
    return paths, ordered


def start_frames(start, readings, count):
    """A turn and shift that the fixes have near the starting places."""
    out = np.zeros((count, 3))
    for f in range(count):
        xs = [r for r in readings if r[0] == "x" and r[2] == f]
        ys = [r for r in readings if r[0] == "y" and r[2] == f]
        p = np.array([complex(*start[r[1][0]]) for r in xs])
        q = np.array([complex(x[3], y[3]) for x, y in zip(xs, ys)])
        turn = np.angle(np.sum((q - q.mean()) * np.conj(p - p.mean())))
        shift = q.mean() - p.mean() * np.exp(1j * turn)
        out[f] = turn, shift.real, shift.imag
    return out


def compare(name, out, vector, covariance, v, hat, rank, readings, n):
    dof = len(readings) - rank
    check(name + " dof", out["summary"][0]["degrees_of_freedom"] == dof,
          "%r, not %d" % (out["summary"], dof))
    factor = math.sqrt(float(v @ v) / dof) if dof else 1
    if dof:
        near(name + " sigma0", out["summary"][0]["sigma0"], factor, 1e-6)
    # where no point is fixed the datum follows the steps, and so, a little, where frames start
    for i, row in enumerate(out["points"]):
        near(name + " x", row["x_m"], vector[2 * i], 5e-6)
        near(name + " y", row["y_m"], vector[2 * i + 1], 5e-6)
        near(name + " se x", row["se_x_m"], factor * math.sqrt(max(covariance[2 * i, 2 * i], 0)),
             1e-6)
        near(name + " se y", row["se_y_m"],
             factor * math.sqrt(max(covariance[2 * i + 1, 2 * i + 1], 0)), 1e-6)
    for k, (row, r) in enumerate(zip(out["readings"], readings)):
        check(name + " kind", row["kind"] == r[0], row)
        redundancy = 1 - hat[k, k]
        near(name + " redundancy", row["redundancy"], redundancy, 1e-6)
        near(name + " residual", row["residual_deg" if r[0] == "angle" else "residual_m"],
             v[k] * r[4], 1e-6)
        if redundancy > 1e-4:
            near(name + " w", row["w"], v[k] / math.sqrt(redundancy), 1e-3)


def motions(xy, fixed, readings):
    """How many shifts and turns of the whole nothing holds."""
    held = [(p, axis) for p, f in enumerate(fixed) if f for axis in (0, 1)]
    held += [(r[1][0], int(r[0] == "y")) for r in readings if r[0] in "xy" and r[2] is None]
    rows = [[1, 0, -xy[p, 1] / 50] if axis == 0 else [0, 1, xy[p, 0] / 50] for p, axis in held]
    return 3 - (np.linalg.matrix_rank(np.array(rows), tol=1e-6) if rows else 0)


def check_network(command, folder, rng, number):
    start, fixed, readings, frames = random_network(rng)
    site = (rng.uniform(-1, 1), rng.uniform(-3, 3), float(rng.choice([0, 500, 1800])))
    n, name = len(start), "network %d" % number
    paths, readings = write_network(folder, start, fixed, readings, site)
    free = [k for k in range(2 * n) if not fixed[k // 2]] + \
        list(range(2 * n, 2 * n + 3 * len(frames)))
    middle = start.mean(0)  # so that differences lose no digits
    shifted = [[r[0], r[1], r[2], r[3] - (middle[int(r[0] == "y")] if r[0] in "xy" and
                                          r[2] is None else 0), r[4]] for r in readings]
    vector = np.concatenate([(start - middle).ravel(),
                             start_frames(start - middle, readings, len(frames)).ravel()])
    vector, covariance, v, hat, rank = adjust(vector, n, shifted, free)
    if np.sqrt(np.abs(np.diag(covariance))[:2 * n]).max() > 0.1 or \
            len(free) - rank != motions(vector[:2 * n].reshape(-1, 2), fixed, shifted):
        return False
    done = subprocess.run([command, "--format", "json", "adjust", *paths], capture_output=True,
                          text=True)
    check(name, done.returncode in (0, 1), done.stderr)
    if done.returncode not in (0, 1):
        return False
    out = json.loads(done.stdout)
    if out["summary"][0]["set_aside"]:
        return False
    vector[:2 * n] += np.tile(middle, n)
    compare(name, out, vector, covariance, v, hat, rank, shifted, n)
    vector[:2 * n] -= np.tile(middle, n)

    def some(x):
        whole = vector.copy()
        whole[free] = x
        return residuals(whole, n, shifted)

    other = 2 * optimize.least_squares(some, vector[free], xtol=1e-14, ftol=1e-14,
                                       gtol=1e-14).cost
    check(name + " scipy", float(v @ v) <= other * (1 + 1e-6) + 1e-9, other)
    return True


def main():
    command = os.path.abspath(sys.argv[1])
    wanted = int(sys.argv[2]) if len(sys.argv) > 2 else 40
    rng = np.random.default_rng(int(sys.argv[3]) if len(sys.argv) > 3 else 1)
    done = tried = 0
    check_published()
    with tempfile.TemporaryDirectory() as folder:
        while done < wanted and tried < 10 * wanted:
            tried += 1
            done += check_network(command, folder, rng, tried)
    check("enough networks", done == wanted, done)
    print("%d mixed networks compared (%d tried), %d failures" % (done, tried, failures))
    sys.exit(1 if failures else 0)


main()
