#!/usr/bin/python3
"""Make the files of a show of many starts: 4 rings, 2 days, drivers and horses that start several
times, judges by name.

usage: times_show.py RINGTRUE SHOW_FILE [STARTS]     STARTS 300
SPDX-License-Identifier: GPL-3.0-or-later"""
import csv
import os
import random
import subprocess
import sys
import tempfile


def write_csv(path, head, rows):
    with open(path, "w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(head)
        writer.writerows(rows)
    return path


def make(ringtrue, show, starts=300):
    rng = random.Random(5)
    per_class = 15
    classes = ["C%d" % k for k in range(starts // per_class)]
    run = lambda *words: subprocess.run([ringtrue, "--show", show, *words], check=True,
                                        stdout=subprocess.DEVNULL)
    subprocess.run([ringtrue, "create", show, "--title", "Bench", "--day", "2026-05-09"], check=True,
                   stdout=subprocess.DEVNULL)
    for ring in range(4):
        run("ring", "add", "Ring %d" % (ring + 1), "--kind", "driven-40x80")
    with tempfile.TemporaryDirectory() as folder:
        path = lambda name: os.path.join(folder, name)
        run("test", "import",
            write_csv(path("tests.csv"), ["test", "title", "kind", "level", "rule"],
                      [["T", "T", "driven-40x80", "training", "driven-percent"]]),
            write_csv(path("movements.csv"), ["test", "item", "letters", "movement", "figure", "gait",
                                              "coefficient", "group"], [["T", 1, "A", "Enter", "", "", 1, "movement"]]))
        run("class", "import",
            write_csv(path("classes.csv"), ["class", "title", "test", "level", "ring", "rule", "judges",
                                            "judge_names"],
                      [[k, k, "T", "", "", "", "C B", "; ".join(rng.sample(["Judge %d" % j for j in range(10)], 2))]
                       for k in classes]))
        run("entry", "import",
            write_csv(path("entries.csv"), ["class", "number", "driver", "horses", "height_cm", "turnout",
                                            "groom", "club"],
                      [[classes[i // per_class], i + 1, "Driver %d" % rng.randrange(starts * 2 // 3),
                        "Horse %d" % rng.randrange(starts), "", "", "Groom %d" % rng.randrange(starts // 3), ""]
                       for i in range(len(classes) * per_class)]))
        run("times", "import", write_csv(path("plan.csv"), ["class", "interval_s", "break_every", "break_s"],
                                         [[k, 480, 8, 600] for k in classes]))


if __name__ == "__main__":
    make(os.path.abspath(sys.argv[1]), sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 300)
