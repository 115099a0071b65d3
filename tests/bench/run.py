#!/usr/bin/python3
"""Speed and memory, printed as ratios to a peer measured in the same run; nothing is asserted.

usage: run.py RINGTRUE BUILD_FOLDER     (BUILD_FOLDER holds the bench programs)
SPDX-License-Identifier: GPL-3.0-or-later"""
import csv
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time
import unicodedata

import times_show

RINGTRUE, BUILD = os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2])
HERE = os.path.dirname(os.path.abspath(__file__))
DEMO = os.path.join(HERE, "..", "..", "share", "demo")
os.environ["RINGTRUE_DATA"] = os.path.join(HERE, "..", "..", "share")
PYTHON = "/usr/bin/python3"


def run(*words, status=(0, 1)):
    done = subprocess.run(words, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    if done.returncode not in status:
        sys.exit("%s: %s" % (" ".join(words), done.stderr.decode()))


def best_of(times, work):
    """The shortest of some runs, in seconds: the one the machine disturbed least."""
    best = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return best


def peak_kib(*words):
    """Peak memory of one command, as GNU time has it from the kernel."""
    done = subprocess.run(["/usr/bin/time", "-f", "%M", *words], stdout=subprocess.DEVNULL,
                          stderr=subprocess.PIPE)
    return int(done.stderr.split()[-1])


def say(what, ours, peer=None, peer_name=""):
    line = "%-44s %9.2f ms" % (what, ours * 1e3)
    if peer is not None:
        line += "   %-22s %9.2f ms   ratio %.2f" % (peer_name, peer * 1e3, ours / peer)
    print(line, flush=True)


def write_csv(path, head, rows):
    with open(path, "w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(head)
        writer.writerows(rows)


def make_show(folder, judges, items, entries):
    """A show of one class without marks; the path of its file."""
    show = os.path.join(folder, "bench.show")
    path = lambda name: os.path.join(folder, name)
    write_csv(path("tests.csv"), ["test", "title", "kind", "level", "rule"],
              [["T", "Bench", "driven-40x80", "training", "driven-percent"]])
    write_csv(path("movements.csv"),
              ["test", "item", "letters", "movement", "figure", "gait", "coefficient", "group"],
              [["T", i + 1, "A", "Movement %d" % (i + 1), "", "", 1 + i % 2,
                "general" if i > items - 4 else "movement"] for i in range(items)])
    write_csv(path("classes.csv"), ["class", "title", "test", "level", "ring", "rule", "judges"],
              [["1", "Bench", "T", "", "", "", " ".join(judges)]])
    write_csv(path("entries.csv"),
              ["class", "number", "driver", "horses", "height_cm", "turnout", "groom", "club"],
              [["1", n + 1, "Driver %d" % n, "Horse %d" % n, "", "", "", ""] for n in range(entries)])
    run(RINGTRUE, "create", show, "--title", "Bench", "--day", "2026-05-09")
    run(RINGTRUE, "--show", show, "test", "import", path("tests.csv"), path("movements.csv"))
    run(RINGTRUE, "--show", show, "class", "import", path("classes.csv"))
    run(RINGTRUE, "--show", show, "entry", "import", path("entries.csv"))
    write_csv(path("marks.csv"), ["class", "number", "judge", "item", "mark", "remark"],
              [["1", n + 1, j, i + 1, "%g" % (((7 * n + 3 * i + k) % 21) / 2), "r"]
               for n in range(entries) for k, j in enumerate(judges) for i in range(items)])
    return show


def bench_adjust():
    """Sixteen pegs and 52 readings, through the library and in numpy: the same network."""
    ours = subprocess.check_output([os.path.join(BUILD, "ring_bench")]).split()
    peer = subprocess.check_output([PYTHON, os.path.join(HERE, "ring_bench.py")]).split()
    say("adjust: 16 pegs, 52 readings", float(ours[1]), float(peer[1]), "numpy")


def bench_program(name):
    """A bench that prints its own lines."""
    sys.stdout.flush()
    subprocess.run([os.path.join(BUILD, name)], check=True)


def bench_results():
    with tempfile.TemporaryDirectory() as folder:
        show = make_show(folder, "CBEHM", 30, 60)
        for keying in "12":
            run(RINGTRUE, "--show", show, "mark", "import", os.path.join(folder, "marks.csv"),
                "--keying", keying)
        ours = best_of(20, lambda: run(RINGTRUE, "--show", show, "results", "1"))
        peer = best_of(20, lambda: run("sqlite3", show, "select count(*), sum(mark_x100) from mark"))
        say("results: 60 entries, 5 judges, 30 items", ours, peer, "sqlite3 shell, one sum")


def shell_import(base, rows, folder):
    """The sqlite3 shell imports the same rows into the same table of a copy of the show."""
    copy = os.path.join(folder, "shell.show")
    shutil.copy(base, copy)
    script = ("pragma journal_mode=wal;\npragma synchronous=full;\npragma foreign_keys=on;\n"
              "insert into pass (keying, at) values (1, '2026-05-09 18:00:00');\n"
              ".import --csv %s mark\n" % rows)
    start = time.perf_counter()
    subprocess.run(["sqlite3", copy], input=script.encode(), check=True,
                   stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def bench_setout():
    """The whole command, process and PDF included; the peer is a process that does nothing."""
    with tempfile.TemporaryDirectory() as folder:
        nothing = best_of(20, lambda: run(RINGTRUE, "--version"))
        for words in (["ring", "setout", "--kind", "driven-40x80"],
                      ["ring", "setout", "--kind", "driven-40x100", "--hold", "A", "--hold", "C"],
                      ["sheet", "setout", "--kind", "driven-40x80", "--out",
                       os.path.join(folder, "setout.pdf")]):
            say(" ".join(w for w in words[:6] if "/" not in w), best_of(20, lambda: run(RINGTRUE, *words)),
                nothing, "ringtrue --version")


def bench_import():
    with tempfile.TemporaryDirectory() as folder:
        base = make_show(folder, "CBEHM", 40, 500)
        marks, rows = os.path.join(folder, "marks.csv"), os.path.join(folder, "rows.csv")
        ours = float("inf")
        for _ in range(3):
            show = os.path.join(folder, "ours.show")
            shutil.copy(base, show)
            ours = min(ours, best_of(1, lambda: run(RINGTRUE, "--show", show, "mark", "import", marks)))
        with sqlite3.connect(show) as db:
            stored = db.execute("select entry, judge, item, keying, version, mark_x100, pass,"
                                " remark from mark").fetchall()
        with open(rows, "w", newline="") as out:
            csv.writer(out, lineterminator="\n").writerows(stored)
        peer = min(shell_import(base, rows, folder) for _ in range(3))
        say("mark import: %d marks" % len(stored), ours, peer, "sqlite3 shell .import")


def folded(text):
    return "".join(c for c in unicodedata.normalize("NFKD", text.casefold())
                   if not unicodedata.combining(c))


def bench_entries():
    """60,000 entries in 2,000 classes, half of the names with accents; the peer reads the same
    rows with Python's sqlite3 and folds them with unicodedata."""
    with tempfile.TemporaryDirectory() as folder:
        show = make_show(folder, "C", 5, 1)
        classes, entries = os.path.join(folder, "classes.csv"), os.path.join(folder, "entries.csv")
        names = ["Åsa Björk", "Ann Smith", "Jürgen Öhl", "Carl Hill", "Łucja Wrona", "Ivy West"]
        write_csv(classes, ["class", "title", "test", "level", "ring", "rule", "judges"],
                  [["k%d" % k, "Bench", "T", "", "", "", "C"] for k in range(2000)])
        write_csv(entries, ["class", "number", "driver", "horses", "height_cm", "turnout", "groom",
                            "club"],
                  [["k%d" % (n // 30), n % 9000 + 1, "%s %d" % (names[n % 6], n % 5000),
                    "Réaltín %d; Moss" % (n % 7919), "150cm", "gig", names[n % 5], "Club"]
                   for n in range(60000)])
        run(RINGTRUE, "--show", show, "class", "import", classes)
        run(RINGTRUE, "--show", show, "entry", "import", entries)

        def peer():
            with sqlite3.connect(show) as db:
                return [row for row in db.execute("select driver, horses, groom, club, turnout"
                                                  " from entry")
                        if {"bjork", "4711"} <= set(folded(" ".join(map(str, row))).split())]

        words = [RINGTRUE, "--show", show, "entry"]
        find = lambda: run(*words, "find", "bjork", "4711")
        say("entry find: two words in 60,000 entries", best_of(5, find), best_of(3, peer),
            "Python, unicodedata")
        say("entry list of one class of 2,000", best_of(5, lambda: run(*words, "list", "k77")))
        by_driver = lambda: run(RINGTRUE, "--show", show, "--format", "csv", "entry", "list",
                                "--order", "driver")
        say("entry list --order driver of 60,000, CSV", best_of(3, by_driver))
        say("entry add, number given out", best_of(1, lambda: run(
            *words, "add", "k77", "--driver", "Ann Ash", "--horses", "Fen")))
        print("peak memory of entry find %6.1f MiB" % (peak_kib(*words, "find", "bjork") / 1024))


def bench_memory():
    with tempfile.TemporaryDirectory() as folder:
        show = os.path.join(folder, "demo.show")
        run("sh", os.path.join(HERE, "..", "demo_show.sh"), RINGTRUE, show)
        marks = os.path.join(DEMO, "marks-keying1.csv")
        for words in (["ring", "check", "--kind", "driven-40x80", os.path.join(DEMO, "readings-oak.csv")],
                      ["turns", "--kind", "driven-40x80", "--level", "training"],
                      ["--show", show, "mark", "import", marks],
                      ["--show", show, "results", "1"],
                      ["--show", show, "workbook", os.path.join(folder, "demo.xlsx")]):
            print("peak memory of %-30s %6.1f MiB" % (" ".join(w for w in words if "/" not in w)[:30],
                                                     peak_kib(RINGTRUE, *words) / 1024))


def bench_times():
    """A plan of 300 starts in 4 rings on 2 days, beside what reading the show alone takes."""
    with tempfile.TemporaryDirectory() as folder:
        show = os.path.join(folder, "times.show")
        times_show.make(RINGTRUE, show)
        plan = best_of(3, lambda: run(RINGTRUE, "--show", show, "times", "plan", "--days", "2", "--try"))
        read = best_of(3, lambda: run(RINGTRUE, "--show", show, "times"))
        say("times plan: 300 starts, 4 rings, 2 days", plan, read, "times (reading)")
        run(RINGTRUE, "--show", show, "times", "plan", "--days", "2")
        late = best_of(3, lambda: run(RINGTRUE, "--show", show, "times", "late", "Ring 1", "5", "--day", "1", "--more"))
        check = best_of(3, lambda: run(RINGTRUE, "--show", show, "times", "check"))
        say("times late: 300 starts", late)
        say("times check: 300 starts", check)


def main():
    for tool, package in (("sqlite3", "sqlite3"), ("/usr/bin/time", "time")):
        if shutil.which(tool) is None:
            sys.exit("%s is needed (Debian package %s)" % (tool, package))
    bench_adjust()
    bench_setout()
    bench_program("ring_mixed")
    bench_program("ring_blunders")
    bench_results()
    bench_import()
    bench_entries()
    bench_program("workbook_bench")
    bench_program("sweep_bench")
    bench_times()
    bench_memory()


main()
