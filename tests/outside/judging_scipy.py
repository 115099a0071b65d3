#!/usr/bin/python3
# How judges agreed against scipy: Spearman's coefficient, Kendall's tau-b, means and spreads.
# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: judging_scipy.py RINGTRUE [CLASSES [SEED]]

Random classes of 3 to 40 entries and 2 to 7 judges with many equal percentages; the percentages
that `results` gives are compared again by scipy.stats.
"""
import csv
import json
import math
import os
import random
import subprocess
import sys
import tempfile

import numpy
from scipy import stats

ITEMS = 6


def write(path, rows):
    """A CSV file."""
    with open(path, "w", newline="", encoding="utf-8") as out:
        csv.writer(out, lineterminator="\n").writerows(rows)
    return path


def run(command, show, *words):
    """A command's JSON."""
    done = subprocess.run([command, "--show", show, "--format", "json", *words], check=False,
                          stdout=subprocess.PIPE)
    if done.returncode > 1:
        raise SystemExit(f"{words}: status {done.returncode}")
    return json.loads(done.stdout)


def make(command, folder, classes, rng):
    """A show with so many classes."""
    show = os.path.join(folder, "judging.show")
    entries, marks, rows = [], [], []
    for c in range(1, classes + 1):
        judges = "CBEHMKR"[:rng.randint(2, 7)]
        rows.append([c, f"Class {c}", "T", "training", "", "driven-percent", " ".join(judges)])
        for number in range(1, rng.randint(3, 40) + 1):
            entries.append([c, number, f"Driver {number}", "Horse", "", "", "", ""])
            skill = rng.choice([50, 60, 65, 70, 75])
            for judge in judges:
                if rng.random() < 0.05:
                    continue
                for item in range(1, ITEMS + 1):
                    mark = min(100, max(0, skill + 5 * rng.randint(-2, 2)))
                    marks.append([c, number, judge, item, mark / 10])
    subprocess.run([command, "create", show, "--title", "Judging", "--day", "2026-05-09"],
                   check=True, stdout=subprocess.DEVNULL)
    head = "test,item,letters,movement,figure,gait,coefficient,group".split(",")
    run(command, show, "test", "import",
        write(os.path.join(folder, "t.csv"), [["test", "title", "kind", "level", "rule"],
                                              ["T", "Test", "driven-40x80", "training", ""]]),
        write(os.path.join(folder, "m.csv"),
              [head] + [["T", i, "", f"Movement {i}", "", "", 1, "movement"]
                        for i in range(1, ITEMS + 1)]))
    run(command, show, "class", "import",
        write(os.path.join(folder, "c.csv"),
              [["class", "title", "test", "level", "ring", "rule", "judges"]] + rows))
    run(command, show, "entry", "import",
        write(os.path.join(folder, "e.csv"),
              [["class", "number", "driver", "horses", "height_cm", "turnout", "groom", "club"]]
              + entries))
    run(command, show, "mark", "import",
        write(os.path.join(folder, "k.csv"), [["class", "number", "judge", "item", "mark"]]
              + marks))
    return show


def views(results):
    """Percentages: {judge: {number: percent}}."""
    out = {}
    for row in results["judges"]:
        out.setdefault(row["position"], {})[row["number"]] = row["percent"]
    return out


def expect(name, got, want):
    """Compare a figure; None stands for not a number."""
    if want is None or math.isnan(want):
        assert got is None, f"{name}: {got}, not nothing"
    else:
        assert got is not None and abs(got - want) < 1e-9, f"{name}: {got}, not {want}"


def correlation(of, x, y):
    """A coefficient of scipy, None where it says nothing."""
    if len(x) < 3 or len(set(x)) == 1 or len(set(y)) == 1:
        return None
    return float(of(x, y)[0])


def compare(row, x, y):
    """A row of a table against the two views."""
    expect("sheets", row["sheets"], len(x))
    if not x:
        return 1
    expect("spearman", row["spearman"], correlation(stats.spearmanr, x, y))
    expect("kendall", row["kendall"], correlation(stats.kendalltau, x, y))
    expect("above", row["above_percent"], numpy.mean(x) - numpy.mean(y))
    expect("widest", row["widest_percent"], max(abs(a - b) for a, b in zip(x, y)))
    return 5


def main():
    """Every class of a random show."""
    command = os.path.realpath(sys.argv[1])
    classes = int(sys.argv[2]) if len(sys.argv) > 2 else 60
    rng = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 20260509)
    figures = 0
    with tempfile.TemporaryDirectory() as folder:
        show = make(command, folder, classes, rng)
        for c in range(1, classes + 1):
            seen = views(run(command, show, "results", str(c)))
            judging = run(command, show, "judging", str(c))
            for row in judging["panel"]:
                own = seen.get(row["position"], {})
                x, y = [], []
                for number, percent in own.items():
                    others = [v[number] for p, v in seen.items()
                              if p != row["position"] and number in v]
                    if others:
                        x.append(percent)
                        # whole thousandths are added, so that equal means are equal
                        y.append(sum(round(o * 1000) for o in others) / (1000 * len(others)))
                figures += compare(row, x, y)
                if len(x) > 1:
                    expect("mean", row["mean_percent"], numpy.mean(x))
                    expect("spread", row["spread_percent"], numpy.std(x, ddof=1))
            for row in judging["pairs"]:
                a, b = seen.get(row["position"], {}), seen.get(row["other"], {})
                both = [n for n in a if n in b]
                figures += compare(row, [a[n] for n in both], [b[n] for n in both])
    print(f"{classes} classes, {figures} figures compared, 0 differ")


if __name__ == "__main__":
    main()
