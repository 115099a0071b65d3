#!/usr/bin/python3
"""Footing and check sheet against numpy.

Random heights: the plane by numpy.linalg.lstsq with its covariance from the inverse of the normal
matrix, the falls of every line by trying all pairs of its pegs.  Check sheets, read back from SVG:
pegs as found, tolerance circles and error ellipses (two standard errors) by the covariance of the
offsets, from the adjustment of ring_random.py.

usage: footing_check.py RINGTRUE [RINGS [SEED]]
SPDX-License-Identifier: GPL-3.0-or-later"""
import itertools
import math
import os
import re
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

import numpy as np

import ring_random as ring

check, near = ring.check, ring.near
SIGMA = 0.005


# ---- footing ----

def lines_of(pegs, width, length):
    """Name, across, and the pegs on each line of a ring of 40 x 80 m, by their coordinates."""
    w, l = width / 2, length / 2
    ends = [("left long side", False, (-w, -l), (-w, l)), ("right long side", False, (w, -l), (w, l)),
            ("centreline", False, (0, -l), (0, l)), ("diagonal AK-CM", False, (-w, -l), (w, l)),
            ("diagonal FA-HC", False, (w, -l), (-w, l)),
            ("short side at A", True, (-w, -l), (w, -l)), ("short side at C", True, (-w, l), (w, l))]
    for a, b in ["KF", "VP", "EB", "SR", "HM"]:
        ends.append(("line %s-%s" % (a, b), True, pegs[a], pegs[b]))
    for name, across, a, b in ends:
        on = [p for p, (x, y) in pegs.items()
              if abs((x - a[0]) * (b[1] - a[1]) - (y - a[1]) * (b[0] - a[0])) < 1e-6]
        yield name, across, on


def check_falls(name, out, pegs, heights, limits):
    rows = {row["what"]: row for row in out["footing"]}
    for what, across, on in lines_of(pegs, 40, 80):
        pairs = list(itertools.combinations([p for p in on if p in heights], 2))
        check("%s %s is told" % (name, what), (what in rows) == bool(pairs))
        if not pairs:
            continue
        row = rows[what]
        fall = max(abs(heights[p][0] - heights[q][0]) for p, q in pairs)
        se = math.hypot(heights[row["from"]][1], heights[row["to"]][1])
        near(name + " fall", row["fall_m"], fall, 1e-9)
        near(name + " from less to", heights[row["from"]][0] - heights[row["to"]][0], fall, 1e-9)
        near(name + " per cent", row["fall_percent"],
             100 * fall / math.dist(pegs[row["from"]], pegs[row["to"]]), 1e-9)
        limit = limits[across]
        near(name + " limit", row["limit_m"], limit, 1e-12)
        verdict = "unsure" if abs(fall - limit) <= 2 * se else \
            "too steep" if fall > limit else "good"
        check("%s %s verdict" % (name, what), row["verdict"] == verdict, row)
    return any(row["verdict"] != "good" for row in rows.values())


def check_plane(name, out, pegs, heights):
    names = list(heights)
    design = np.array([[1, *pegs[p]] for p in names])
    h = np.array([heights[p][0] for p in names])
    weight = 1 / np.array([heights[p][1] for p in names])
    if len(names) < 3 or np.linalg.matrix_rank(design) < 3:
        check(name + " has no plane", "plane" not in out)
        return
    row = out["plane"][0]
    x = np.linalg.lstsq(design * weight[:, None], h * weight, rcond=None)[0]
    off = h - design @ x
    covariance = np.linalg.inv((design * weight[:, None]).T @ (design * weight[:, None]))
    if len(names) > 3:
        covariance *= np.sum((off * weight) ** 2) / (len(names) - 3)
    slope = math.hypot(x[1], x[2])
    down = -x[1:] / slope
    near(name + " at X", row["height_m"], x[0], 1e-8)
    near(name + " right", row["right_percent"], 100 * x[1], 1e-7)
    near(name + " ahead", row["ahead_percent"], 100 * x[2], 1e-7)
    near(name + " se right", row["se_right_percent"], 100 * math.sqrt(covariance[1, 1]), 1e-7)
    near(name + " se ahead", row["se_ahead_percent"], 100 * math.sqrt(covariance[2, 2]), 1e-7)
    near(name + " slope", row["fall_percent"], 100 * slope, 1e-7)
    near(name + " se slope", row["se_percent"],
         100 * math.sqrt(down @ covariance[1:, 1:] @ down), 1e-7)
    turned = (row["direction_deg"] - math.degrees(math.atan2(down[0], down[1]))) % 360
    near(name + " direction", min(turned, 360 - turned), 0, 1e-5)
    edge = [p for p, (px, py) in pegs.items() if abs(px) > 19.9 or abs(py) > 39.9]
    best = max(np.dot(down, pegs[p]) / math.hypot(*pegs[p]) for p in edge)
    near(name + " towards", np.dot(down, pegs[row["towards"]]) / math.hypot(*pegs[row["towards"]]),
         best, 1e-9)
    for told in out["heights"]:
        near(name + " off", told["off_plane_m"], off[names.index(told["peg"])], 1e-8)
        far = abs(off[names.index(told["peg"])])
        uneven = far > 0.03 and far > 2 * heights[told["peg"]][1]
        check(name + " lies", (told["lies"] != "even") == uneven, told)


def check_footing(command, folder, rng, pegs, number):
    chosen = rng.choice(list(pegs), int(rng.integers(2, len(pegs) + 1)), replace=False)
    slope = rng.uniform(-0.01, 0.01, 2)
    heights, rows = {}, []
    for p in chosen:
        sigma = float(rng.choice([SIGMA, 0.002, 0.05]))
        height = float(50 + np.dot(slope, pegs[p])
                       + rng.normal(0, 0.03))
        heights[str(p)] = (height, sigma)
        rows.append([p, repr(height), "" if sigma == SIGMA else repr(sigma)])
    path = os.path.join(folder, "heights.csv")
    ring.write_csv(path, ["point", "height_m", "sigma_m"], rows)
    status, out, errors = ring.run(command, "ring", "footing", "--kind", ring.KIND, path)
    name = "footing %d" % number
    check(name, out is not None, errors)
    if out is None:
        return
    needs = check_falls(name, out, pegs, heights, {False: 0.64, True: 0.40})
    check(name + " exit", status == (1 if needs else 0), status)
    check_plane(name, out, pegs, heights)


# ---- the check sheet ----

def numbers(text):
    return [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", text)]


def box(path):
    """Left, top, right, bottom of the corners of a path of straight lines."""
    at = np.array(numbers(path)).reshape(-1, 2)
    return at.min(0), at.max(0)


def shapes(svg, role):
    return [e.attrib["d"] for e in svg.iter() if e.tag.endswith("path")
            and e.attrib.get("class") == role]


def check_sheet(command, folder, rng, pegs, number):
    names, should, pairs, observed = ring.random_ring(rng, [(p, *at) for p, at in pegs.items()])
    sigma = 0.010 + 0.0002 * observed
    if not ring.well_fixed(should, [False] * len(names), pairs, sigma):
        return False
    readings, target = os.path.join(folder, "readings.csv"), os.path.join(folder, "check.svg")
    ring.write_csv(readings, ["from", "to", "distance_m"],
                   [[names[i], names[j], repr(float(d))] for (i, j), d in zip(pairs, observed)])
    words = ["--kind", ring.KIND, readings, "--fit", "all"]
    _, out, errors = ring.run(command, "ring", "check", *words)
    check("sheet %d" % number, out is not None, errors)
    if out is None or out["summary"][0]["set_aside"]:
        return False
    ring.run(command, "sheet", "check", *words, "--out", target)
    svg = ElementTree.parse(target).getroot()
    stands, covariance, _, rank, total, _ = ring.adjust(should, [False] * len(names), pairs,
                                                        observed, sigma)
    factor = max(1, math.sqrt(total / (len(pairs) - rank)))
    off, _ = ring.offsets(should, stands, np.ones(len(names), bool))
    compare_sheet("sheet %d" % number, svg, {
        n: (should[i], off[i], factor ** 2 * c)
        for i, (n, c) in enumerate(zip(names, offset_covariances(stands, covariance)))},
        [row["peg"] for row in out["pegs"]])
    return True


def offset_covariances(stands, covariance):
    """Of each offset when the layout is laid on all pegs, by small moves of each coordinate."""
    n = stands.size
    everyone = np.ones(len(stands), bool)
    jacobian = np.empty((n, n))
    for k in range(n):
        moved = stands.copy().ravel()
        moved[k] += 1e-4
        back = stands.copy().ravel()
        back[k] -= 1e-4
        plus, _ = ring.offsets(stands, moved.reshape(-1, 2), everyone)
        minus, _ = ring.offsets(stands, back.reshape(-1, 2), everyone)
        jacobian[:, k] = ((plus - minus) / 2e-4).ravel()
    whole = jacobian @ covariance @ jacobian.T
    return [whole[2 * i:2 * i + 2, 2 * i:2 * i + 2] for i in range(len(stands))]


def compare_sheet(name, svg, found, order):
    text = " ".join("".join(e.itertext()) for e in svg.iter() if e.tag.endswith("text"))
    times = float(re.search(r"drawn ([0-9.]+) times larger", text).group(1))
    low, high = box(shapes(svg, "ring")[0])
    scale, middle = (high[1] - low[1]) / 80, (low + high) / 2
    ellipses = shapes(svg, "ellipse")
    check(name + " ellipses", len(ellipses) == len(order) + 1)  # one in the key
    for peg, path in zip(order, ellipses):
        should, off, covariance = found[peg]
        at = middle + scale * np.array([should[0], -should[1]]) \
            + times * scale * np.array([off[0], -off[1]])
        low, high = box(path)
        half = 2 * times * scale * np.sqrt(np.diag(covariance))
        for axis in range(2):
            near(name + " middle", (low[axis] + high[axis]) / 2, at[axis], 0.02)
            # a polygon of 48 corners lies up to 0.2 % inside its ellipse
            near(name + " size", (high[axis] - low[axis]) / 2, half[axis],
                 0.005 + 0.003 * half[axis])
        corners = np.array(numbers(path)).reshape(-1, 2) - at
        corners[:, 1] *= -1
        inverse = np.linalg.inv(covariance) / (2 * times * scale) ** 2
        reach = np.einsum("ij,jk,ik->i", corners, inverse, corners)
        check(name + " is the ellipse", np.abs(np.sqrt(reach) - 1).max() < 0.02 + 0.01 / half.min(),
              np.abs(np.sqrt(reach) - 1).max())


def main():
    command = sys.argv[1]
    rings = int(sys.argv[2]) if len(sys.argv) > 2 else 150
    rng = np.random.default_rng(int(sys.argv[3]) if len(sys.argv) > 3 else 20260509)
    pegs = {name: (x, y) for name, x, y in ring.nominal_ring(command)}
    drawn = 0
    with tempfile.TemporaryDirectory() as folder:
        for number in range(rings):
            check_footing(command, folder, rng, pegs, number)
        for number in range(rings // 3):
            drawn += check_sheet(command, folder, rng, pegs, number)
    check("sheets were compared", drawn >= rings // 6, drawn)
    print("%d footings, %d check sheets, %d failures" % (rings, drawn, ring.failures))
    sys.exit(1 if ring.failures else 0)


if __name__ == "__main__":
    main()
