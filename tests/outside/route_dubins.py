#!/usr/bin/python3
# Arc, straight, arc of `test route` against the four tangent paths found by brute force.
# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: route_dubins.py RINGTRUE

Made-up tests that leave the track at one letter and come back to it at another (diagonals, with
one diameter and with two), that come back from half a circle, and that drive a shallow loop. For
each, the four tangent paths (L. E. Dubins, American Journal of Mathematics 79, 1957) are searched
for by turning along the first circle in small steps until the line ahead touches the second
circle, then by halving; the shortest is compared with the movement's length. Where its arcs turn
by more than half a circle, a problem is expected too. Nothing of this is
taken from the program under test.

Places of letters: as in drive_tangent.py, from published rings."""
import json
import os
import random
import subprocess
import sys
import tempfile

import numpy as np

KINDS = {  # width, length, K F, V P, E B, S R, H M from the A end
    "ridden-20x60": (20, 60, [6, 18, 30, 42, 54], {"training": 10, "third": 8, "advanced": 6}),
    "driven-40x80": (40, 80, [10, 25, 40, 55, 70],
                     {"training": 20, "intermediate": 18, "advanced": 15}),
    "driven-40x100": (40, 100, [10, 30, 50, 70, 90], {"training": 20, "advanced": 15}),
}
STEPS = 3600
TURN = 2 * np.pi
RUNS = 240

failures = []
checks = 0
compared = 0  # lengths


def check(good, where, what):
    global checks
    checks += 1
    if not good:
        failures.append(f"{where}: {what}")


def unit(angle):
    return np.array([np.cos(angle), np.sin(angle)])


def normal(angle):
    return np.array([-np.sin(angle), np.cos(angle)])


def tangent_paths(start, heading, r1, goal, goal_heading, r2):
    """Every arc, straight, arc: (length, first angle, second angle)."""
    found = []
    for h1 in (1, -1):
        c1 = start + h1 * r1 * normal(heading)
        for h2 in (1, -1):
            c2 = goal + h2 * r2 * normal(goal_heading)

            def beside(turned):
                """How far the second circle is from touching the line ahead, on its side."""
                toward = heading + h1 * turned
                x, y = -np.sin(toward), np.cos(toward)  # to the left of it
                return ((c2[0] - c1[0]) * x + (c2[1] - c1[1]) * y) + h1 * r1 - h2 * r2

            grid = np.linspace(-1e-7, TURN - 1e-7, STEPS)
            values = beside(grid)
            for i in np.nonzero(values[:-1] * values[1:] <= 0)[0]:
                low, high = grid[i], grid[i + 1]
                for _ in range(60):
                    middle = (low + high) / 2
                    if beside(low) * beside(middle) <= 0:
                        high = middle
                    else:
                        low = middle
                toward = heading + h1 * low
                at = c1 - h1 * r1 * normal(toward)
                straight = np.dot(c2 - at, unit(toward))
                if straight < -1e-6:
                    continue
                second = (h2 * (goal_heading - toward) + 1e-6) % TURN - 1e-6
                first, second = max(low, 0), max(second, 0)
                found.append((first * r1 + straight + second * r2, first, second))
    return found


def route(command, kind, level, figures):
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "movements.csv")
        with open(path, "w", encoding="utf-8") as out:
            out.write("test,item,letters,movement,figure,gait,coefficient,group\n")
            for i, figure in enumerate(figures):
                out.write(f"Made up,{i + 1},,driven,{figure},trot,1,movement\n")
        run = subprocess.run([command, "--format", "json", "test", "route", path, "--kind", kind,
                              "--level", level], capture_output=True, check=False)
    if run.returncode not in (0, 1):
        sys.exit(f"{figures}: exit {run.returncode}: {run.stderr.decode()}")
    return run.returncode, json.loads(run.stdout)


def compare(command, kind, level, figures, movement, stretches, extra=0.0):
    """Compare one made-up test.
    stretches: poses (start, heading, r, goal, heading, r) whose shortest ways, and extra,
    make the movement's length."""
    global compared
    code, report = route(command, kind, level, figures)
    where = f"{kind} {level} {' | '.join(figures)}"
    length, over = extra, False
    for stretch in stretches:
        best = min(tangent_paths(*stretch), key=lambda path: path[0])
        length += best[0]
        over = over or max(best[1], best[2]) > np.pi + 1e-6
    row = report["legs"][movement - 1]
    check(len(report["total"]) == 1, where, "no total")
    check(over == any("half a circle" in p["problem"] for p in report["problems"]), where,
          f"more than half a circle: {over}, problems {report['problems']}")
    if code == 0 or over:
        compared += 1
        check(row["length_m"] is not None and abs(row["length_m"] - length) < 1e-6, where,
              f"{row['length_m']} m, not {length}")
    check(code == (1 if report["problems"] else 0), where, f"exit {code}")


def letters(kind):
    width, length, places, _ = KINDS[kind]
    at = {}
    for names, along in zip(["KF", "VP", "EB", "SR", "HM"], places):
        for name, x in zip(names, [-width / 2, width / 2]):
            at[name] = np.array([x, along - length / 2])
    return at


def diagonal(command, kind, level, d, dice):
    """Down the right side to a letter, over to one of the left side, and on down the track."""
    at = letters(kind)
    start, goal = dice.choice("MRBP"), dice.choice("SEVK")
    line = at[goal] - at[start]
    if line[1] >= 0 or abs(np.arctan2(line[0], -line[1])) > np.radians(60):
        return False
    diameters, numbers = [d, d], ["", ""]
    if dice.random() < 0.6:  # two of their own
        diameters = [dice.randint(3, d), dice.randint(3, d)]
        numbers = [f"/{number}" for number in diameters]
    figures = [("X C M" if start == "M" else "X C M " + start) + numbers[0], goal + numbers[1],
               "A" if goal == "K" else "K A"]
    down = -np.pi / 2
    compare(command, kind, level, figures, 2,
            [(at[start], down, diameters[0] / 2, at[goal], down, diameters[1] / 2)])
    return True


def half_circle(command, kind, level, d, dice):
    """Down the left side to K, half a circle of any size, and back to the track further up."""
    at = letters(kind)
    width = KINDS[kind][0]
    size, goal = dice.randint(3, width - 2), dice.choice("VES")
    begin = at["K"] + np.array([size, 0])
    line = at[goal] - begin
    if abs(np.arctan2(line[0], line[1])) > np.radians(60):
        return False
    up = np.pi / 2
    compare(command, kind, level, ["X C H", f"K half:{size}:left", goal, "H"], 3,
            [(begin, up, d / 2, at[goal], up, d / 2)])
    return True


def loop(command, kind, level, d, dice):
    at = letters(kind)
    start, goal = dice.choice(["MF", "MB", "RF", "MP", "RP"])
    depth = dice.randint(2, KINDS[kind][0] // 2)
    middle = (at[start] + at[goal]) / 2 - np.array([depth, 0])
    down, r = -np.pi / 2, d / 2
    compare(command, kind, level, ["X C M" if start == "M" else "X C M R", f"loop:{depth} {goal}",
                                   "A"], 2,
            [(at[start], down, r, middle, down, r), (middle, down, r, at[goal], down, r)])
    return True


def main():
    command = sys.argv[1]
    dice = random.Random(7)
    done = 0
    while done < RUNS:
        kind = dice.choice(list(KINDS))
        level = dice.choice(list(KINDS[kind][3]))
        made = dice.choice([diagonal, half_circle, loop])
        done += made(command, kind, level, KINDS[kind][3][level], dice)
    check(compared > RUNS / 2, "in all", f"only {compared} lengths compared")
    for failure in failures[:50]:
        print(failure)
    print(f"{checks - len(failures)} passed, {len(failures)} failed")
    return bool(failures)


sys.exit(main())
