#!/usr/bin/python3
"""A season in one show file: 2,000 classes of 30, three judges, 25 items, 4.5 million marks; and a
class of it scored, the whole of it looked at and copied.  Nothing is asserted.

usage: season.py RINGTRUE [CLASSES]
SPDX-License-Identifier: GPL-3.0-or-later"""
import csv
import os
import sqlite3
import subprocess
import sys
import tempfile
import time

RINGTRUE = os.path.abspath(sys.argv[1])
CLASSES = int(sys.argv[2]) if len(sys.argv) > 2 else 2000
STARTS, JUDGES, ITEMS, DRIVERS = 30, "CBE", 25, 3000
HERE = os.path.dirname(os.path.abspath(__file__))
os.environ["RINGTRUE_DATA"] = os.path.join(HERE, "..", "..", "share")


def run(*words, status=(0, 1)):
    done = subprocess.run(words, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, check=False)
    if done.returncode not in status:
        sys.exit("%s: %s" % (" ".join(words), done.stderr.decode()))


def peak_mib(*words):
    """Peak memory of one command, as GNU time has it from the kernel."""
    done = subprocess.run(["/usr/bin/time", "-f", "%M", *words], stdout=subprocess.DEVNULL,
                          stderr=subprocess.PIPE, check=False)
    return int(done.stderr.split()[-1]) / 1024


def seconds(*words):
    start = time.perf_counter()
    run(*words)
    return time.perf_counter() - start


def write_csv(path, head, rows):
    with open(path, "w", newline="", encoding="utf-8") as out:
        csv.writer(out, lineterminator="\n").writerows([head.split(","), *rows])


def make_show(folder):
    """The file, its rows put straight into the tables: the import is timed elsewhere."""
    show = os.path.join(folder, "season.show")
    run(RINGTRUE, "create", show, "--title", "Season", "--day", "2026-05-09")
    tests, items = os.path.join(folder, "tests.csv"), os.path.join(folder, "movements.csv")
    write_csv(tests, "test,title,kind,level,rule",
              [["T", "Season", "driven-40x80", "training", "driven-percent"]])
    write_csv(items, "test,item,letters,movement,figure,gait,coefficient,group",
              [["T", i + 1, "A", "Movement", "", "", 1 + i % 2,
                "general" if i > ITEMS - 4 else "movement"] for i in range(ITEMS)])
    run(RINGTRUE, "--show", show, "test", "import", tests, items)
    with sqlite3.connect(show) as db:
        db.execute("INSERT INTO pass (keying, at) VALUES (1, '2026-05-09 18:00:00')")
        db.executemany("INSERT INTO class (id, name, title, test) VALUES (?, ?, 'Season', 'T')",
                       [(c + 1, str(c + 1)) for c in range(CLASSES)])
        db.executemany("INSERT INTO judge (class, seq, position, president) VALUES (?, ?, ?, ?)",
                       [(str(c + 1), j + 1, p, p == "C") for c in range(CLASSES)
                        for j, p in enumerate(JUDGES)])
        db.executemany("INSERT INTO entry (class, number, driver, horses, hors_concours)"
                       " VALUES (?, ?, ?, ?, 0)",
                       [(str(c + 1), n + 1, "Driver %d" % ((37 * c + n) % DRIVERS), "Horse %d" % n)
                        for c in range(CLASSES) for n in range(STARTS)])
        db.execute("INSERT INTO mark (entry, judge, item, keying, version, mark_x100, pass)"
                   " SELECT entry.id, judge.id, item.id, 1, 1,"
                   " (entry.id * 7 + judge.id * 5 + item.id * 3 + entry.id * item.id) % 21 * 5, 1"
                   " FROM entry JOIN judge ON judge.class = entry.class JOIN item"
                   " ORDER BY entry.id, judge.id, item.id")
        db.execute("INSERT INTO championship (name, title, classes, tally, taken_of, competitor,"
                   " ties, dropped) VALUES ('all', 'All', ?, 'sum', 'percent', 'driver', 'best', ?)",
                   ("; ".join(str(c + 1) for c in range(CLASSES)), min(CLASSES - 10, 1000)))
        marks = db.execute("SELECT count(*) FROM mark").fetchone()[0]
    db.close()
    return show, marks


def main():
    with tempfile.TemporaryDirectory() as folder:
        show, marks = make_show(folder)
        print("season: %d classes, %d starts, %d marks, %.0f MiB"
              % (CLASSES, CLASSES * STARTS, marks, os.path.getsize(show) / 2 ** 20), flush=True)
        middle = str(CLASSES // 2)
        results = (RINGTRUE, "--show", show, "results", middle)
        print("results of a class          %9.2f ms, %5.1f MiB"
              % (min(seconds(*results) for _ in range(20)) * 1e3, peak_mib(*results)), flush=True)
        start = min(seconds(RINGTRUE, "--version") for _ in range(20))
        print("  of which the program's start %6.2f ms" % (start * 1e3), flush=True)
        words = (RINGTRUE, "--show", show, "championship", "results", "all")
        print("championship over all       %9.2f ms, %5.1f MiB"
              % (min(seconds(*words) for _ in range(3)) * 1e3, peak_mib(*words)), flush=True)
        copy = os.path.join(folder, "copy.show")
        words = (RINGTRUE, "--show", show, "backup", copy)
        print("backup                      %9.2f ms, %5.1f MiB"
              % (seconds(*words) * 1e3, peak_mib(*words)), flush=True)
        words = (RINGTRUE, "--show", show, "verify")
        print("verify                      %9.2f ms, %5.1f MiB"
              % (seconds(*words) * 1e3, peak_mib(*words)), flush=True)


main()
