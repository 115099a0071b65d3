#!/usr/bin/python3
# Plans of small shows against a general-purpose solver: the earliest last finish that a mixed
# integer program allows (HiGHS, by scipy.optimize.milp) is never later than the plan's and never
# earlier than the bound that the plan is told with; how often the plan reaches it is printed, and
# most often it must.
#
# usage: times_solver.py RINGTRUE [SHOWS [SEED]]      SHOWS 24, SEED 1
#
# SPDX-License-Identifier: GPL-3.0-or-later
import csv
import itertools
import json
import os
import random
import subprocess
import sys
import tempfile

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

RINGTRUE = os.path.abspath(sys.argv[1])
SHOWS = int(sys.argv[2]) if len(sys.argv) > 2 else 24
SEED = int(sys.argv[3]) if len(sys.argv) > 3 else 1
GAP = {"driver": 20, "horse": 40, "judge": 10}  # minutes
CHANGE, OPEN, BIG = 10, 480, 1440


def random_show(rng):
    rings = ["Ring %d" % i for i in range(rng.randint(1, 3))]
    drivers = ["Driver %d" % i for i in range(rng.randint(3, 8))]
    judges = ["Judge %d" % i for i in range(rng.randint(2, 4))]
    classes, number = [], 0
    for k in range(rng.randint(2, 5)):
        entries = []
        for _ in range(rng.randint(1, 4)):
            number += 1
            entries.append((number, rng.choice(drivers), "Horse %d" % rng.randint(1, 12)))
        classes.append({"name": "C%d" % k, "ring": rng.choice(rings + [None]), "judge": rng.choice(judges),
                        "interval": rng.choice([6, 7.5, 9]), "entries": entries,
                        "every": rng.choice([0, 2, 3]), "rest": 15})
    return rings, classes


# ---- the command ----

def write_csv(folder, name, head, rows):
    path = os.path.join(folder, name)
    with open(path, "w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(head)
        writer.writerows(rows)
    return path


def plan_of(folder, rings, classes):
    show = os.path.join(folder, "show")

    def run(*words):
        done = subprocess.run([RINGTRUE, "--show", show, "--format", "json", *words], capture_output=True)
        if done.returncode not in (0, 1):
            raise SystemExit(done.stderr.decode())
        return json.loads(done.stdout)

    subprocess.run([RINGTRUE, "create", show, "--title", "S", "--day", "2026-05-09"], check=True,
                   stdout=subprocess.DEVNULL)
    for ring in rings:
        run("ring", "add", ring, "--kind", "driven-40x80")
    run("test", "import",
        write_csv(folder, "tests.csv", ["test", "title", "kind", "level", "rule"],
                  [["T", "T", "driven-40x80", "training", "driven-percent"]]),
        write_csv(folder, "movements.csv", ["test", "item", "letters", "movement", "figure", "gait",
                                            "coefficient", "group"],
                  [["T", 1, "A", "Enter", "", "", 1, "movement"]]))
    run("class", "import",
        write_csv(folder, "classes.csv", ["class", "title", "test", "level", "ring", "rule", "judges",
                                          "judge_names"],
                  [[k["name"], k["name"], "T", "", k["ring"], "", "C", k["judge"]] for k in classes]))
    run("entry", "import",
        write_csv(folder, "entries.csv", ["class", "number", "driver", "horses", "height_cm", "turnout",
                                          "groom", "club"],
                  [[k["name"], n, driver, horse, "", "gig", "", ""] for k in classes
                   for n, driver, horse in k["entries"]]))
    run("times", "import",
        write_csv(folder, "plan.csv", ["class", "interval_s", "break_every", "break_s"],
                  [[k["name"], int(k["interval"] * 60), k["every"] or "", k["rest"] * 60 if k["every"] else ""]
                   for k in classes]))
    said = run("times", "plan", "--seconds", "--hours", "8:00-23:00")
    return said["plan"][0]["last_finish_s"] / 60, said["plan"][0]["bound_s"] / 60


# ---- the program ----

class Program:
    """Minimise the last of the variables; rows are sums >= a number."""

    def __init__(self):
        self.integer, self.rows, self.least = [], [], []

    def variable(self, integer):
        self.integer.append(integer)
        return len(self.integer) - 1

    def at_least(self, terms, number):
        self.rows.append(terms)
        self.least.append(number)

    def either(self, a, b, slack=()):
        """Of two rows one holds, unless one of the slack variables (1: not needed) is set."""
        choice = self.variable(True)
        for (terms, number), sign, extra in ((a, 1, 0), (b, -1, BIG)):
            self.at_least(list(terms) + [(choice, sign * BIG)] + [(s, BIG) for s in slack], number - extra)

    def solve(self, aim):
        n = len(self.integer)
        matrix = np.zeros((len(self.rows), n))
        for i, terms in enumerate(self.rows):
            for variable, factor in terms:
                matrix[i, variable] += factor
        cost = np.zeros(n)
        cost[aim] = 1
        upper = np.where(self.integer, 1, BIG).astype(float)
        found = milp(cost, constraints=LinearConstraint(matrix, np.array(self.least), np.inf),
                     integrality=np.array(self.integer, dtype=float), bounds=Bounds(0, upper),
                     options={"time_limit": 60, "mip_rel_gap": 1e-9})
        return found


def optimum(rings, classes):
    program = Program()
    last = program.variable(False)
    starts = []  # (class, variable, driver, horse, interval)
    spans, rooms = [], []
    for k in classes:
        mine = []
        for i, (_, driver, horse) in enumerate(k["entries"]):
            t = program.variable(False)
            program.at_least([(t, 1)], OPEN)
            if mine:
                rest = k["rest"] if k["every"] and i % k["every"] == 0 else 0
                program.at_least([(t, 1), (mine[-1], -1)], k["interval"] + rest)
            mine.append(t)
            starts.append((t, driver, horse, k["interval"]))
        program.at_least([(last, 1), (mine[-1], -1)], k["interval"])
        spans.append((mine[0], mine[-1], k["interval"]))
        room = [program.variable(True) for _ in rings]
        program.at_least([(r, 1) for r in room], 1)
        program.at_least([(r, -1) for r in room], -1)
        if k["ring"]:
            program.at_least([(room[rings.index(k["ring"])], 1)], 1)
        rooms.append(room)
    for a, b in itertools.combinations(starts, 2):
        gap = max((GAP["driver"] if a[1] == b[1] else -1), (GAP["horse"] if a[2] == b[2] else -1))
        if gap >= 0:
            program.either(([(b[0], 1), (a[0], -1)], a[3] + gap), ([(a[0], 1), (b[0], -1)], b[3] + gap))
    for (i, a), (j, b) in itertools.combinations(enumerate(spans), 2):
        def apart(gap, slack=()):
            program.either(([(b[0], 1), (a[1], -1)], a[2] + gap), ([(a[0], 1), (b[1], -1)], b[2] + gap), slack)
        if classes[i]["judge"] == classes[j]["judge"]:
            apart(GAP["judge"])
        for r in range(len(rings)):
            # Not needed unless both are in this ring.
            free = program.variable(True)
            program.at_least([(free, -1), (rooms[i][r], -1), (rooms[j][r], -1)], -2)
            apart(CHANGE, (free,))
    return program.solve(last)


same, proved, worst = 0, 0, 0.0
for show_number in range(SHOWS):
    rng = random.Random(SEED * 1000 + show_number)
    rings, classes = random_show(rng)
    with tempfile.TemporaryDirectory() as folder:
        ours, bound = plan_of(folder, rings, classes)
    found = optimum(rings, classes)
    if found.x is None:
        continue
    lower = found.mip_dual_bound if found.status != 0 else found.fun
    assert ours >= lower - 1e-3, (show_number, "a plan better than the best", ours, lower)
    assert bound <= found.fun + 1e-3, (show_number, "a bound that is beaten", bound, found.fun)
    if found.status == 0:
        proved += 1
        same += ours <= found.fun + 1e-3
        worst = max(worst, ours - found.fun)
        if ours > found.fun + 1e-3:
            print("show %d: %.1f, the best is %.1f, the bound %.1f" % (show_number, ours, found.fun, bound))
print("%d shows: the solver proved %d; the plan ends as early in %d, at worst %.1f min later"
      % (SHOWS, proved, same, worst))
assert proved >= SHOWS * 3 // 4 and same >= proved * 9 // 10 and worst <= 15, "plans too far from the best"
