#!/usr/bin/python3
# The workbook of random shows under every shipped rule against `results`, by LibreOffice.
# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: workbook_random.py RINGTRUE [SHOWS [SEED]]

Makes shows with a class a shipped rule: odd coefficients, a printed multiplier or none, marks so
even that many scores are equal, missing sheets and boxes, boxes that the rule fills, judges who
were away or far from the others, ties decided by an official or a judge, keyings that differ,
errors, penalties, divisions that differ in a capital only, entries hors concours and of every
status.  Each is
compared as workbook_check.py does it, also after a change in every class.
"""
import csv
import os
import random
import shutil
import subprocess
import sys
import tempfile

import workbook_check

RULES = ["driven-percent", "driven-combined", "ridden-points", "ridden-rounded", "ridden-eventing",
         "ridden-championship", "own", "split", "split-points", "ten", "by-points", "points-of-ten"]
OWN = ["own", "percent", "highest", "0", "2", "2", "2", "points", "1", "3", "eliminated",
       "item:2 artistic judge:B decision", "mean", "3", "3", "own"]
SPLIT = [["split", "percent", "highest", "0", "3", "2", "3", "percent", "0.5", "1", "eliminated",
          "artistic", "mean", "0", "7", "own"],
         ["split-points", "penalties", "lowest", "100", "-1", "2", "2", "points", "2", "4",
          "eliminated", "item:1 general", "mean-whole", "0", "7", "own"]]
SCALES = [["ten", "tenths", "highest", "0", "-1", "3", "4", "percent", "0.5", "1", "eliminated",
           "general", "mean", "0", "7", "cut", "own"],
          ["by-points", "points", "highest", "0", "-1", "2", "2", "points", "2", "4", "eliminated",
           "judge:C", "mean", "0", "7", "cut", "own"],
          ["points-of-ten", "tenths", "highest", "0", "2", "4", "5", "score", "0.5", "1",
           "eliminated", "median", "mean", "0", "7", "half-up", "own"]]
STATUSES = ["retired", "eliminated", "disqualified", "withdrawn", "did-not-start"]
DRIVERS = ["Åsa Öberg", "=SUM(A1:A3)", "+1", "-Zoë O'Hara", "@home", "Łucja Dąb"]


def write(path, head, rows):
    """A CSV file."""
    with open(path, "w", newline="", encoding="utf-8") as out:
        csv.writer(out, lineterminator="\n").writerows([head.split(","), *rows])


class Show:
    """One random show: its files, and the commands that bring them in."""

    def __init__(self, command, folder, rng):
        self.command, self.folder, self.rng = command, folder, rng
        self.file = os.path.join(folder, "random.show")
        self.items = {r: rng.randint(4, 9) for r in RULES}
        self.judges = {r: "CBEHM"[:rng.randint(1, 5)] for r in RULES}
        self.judges["ridden-championship"] = "CBEHMKF"
        self.judges["own"] = "CBE"
        self.judges["split"] = self.judges["split-points"] = "CME"
        self.empty = []
        self.entries = {r: range(1, rng.randint(6, 14)) for r in RULES}

    def path(self, name):
        """A file of the show's folder."""
        return os.path.join(self.folder, name)

    def run(self, *words, expected=(0, 1)):
        """One command on the show file."""
        done = subprocess.run([self.command, "--show", self.file, *words], check=False,
                              stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
        if done.returncode not in expected:
            raise SystemExit(f"{' '.join(words)}: {done.stderr.decode()}")

    def rule(self):
        """A rule of the show's own, with the columns in the order of the shipped rows."""
        write(self.path("rules.csv"), "rule,scale,wins,base,judge_decimals,percent_decimals,"
              "score_decimals,taken,error_1,error_2,error_3,ties,missing,apart,apart_judges,rounding,source",
              [[*row[:-1], "half-up", row[-1]] for row in [OWN, *SPLIT]] + SCALES)
        self.run("rule", "import", self.path("rules.csv"))

    def tests(self):
        """A test a rule."""
        coefficients = self.rng.choice([["1", "2"], ["1", "1.5"], ["0.333", "1.125", "2"]])
        write(self.path("tests.csv"), "test,title,kind,level,rule,multiplier",
              [[r, "Test " + r, "driven-40x80", "training", r,
                "" if r.startswith("split") else self.rng.choice(["", "0.64"])]
               for r in RULES])
        write(self.path("movements.csv"),
              "test,item,letters,movement,figure,gait,coefficient,group,judges",
              [[r, i + 1, "", f"Movement {i + 1}", "", "", self.rng.choice(coefficients),
                (["movement"] * (self.items[r] - 2) + self.rng.choice(
                    [["general", "general"], ["general", "artistic"]]))[i], self.asked(r, i)]
               for r in RULES for i in range(self.items[r])])
        self.run("test", "import", self.path("tests.csv"), self.path("movements.csv"),
                 "--multiplier-as-printed")

    def asked(self, rule, item):
        """Who marks an item: "" for all."""
        if not rule.startswith("split"):
            return ""
        return "C M" if item < self.items[rule] - 2 else "E"

    def classes(self):
        """A class a rule, and who is in it."""
        write(self.path("classes.csv"), "class,title,test,level,ring,rule,judges",
              [[r, "Class " + r, r, "", "", r, " ".join(self.judges[r])] for r in RULES])
        write(self.path("entries.csv"), "class,number,driver,horses,height_cm,turnout,groom,club,"
              "division,hors_concours",
              [[r, n, self.rng.choice(DRIVERS), "Blesk; Ráj", "", "", "", "",
                self.rng.choice(["", "", "pony", "Pony"]),
                "yes" if self.rng.random() < .1 else "no"]
               for r in RULES for n in self.entries[r]])
        self.run("class", "import", self.path("classes.csv"))
        self.run("entry", "import", self.path("entries.csv"))

    def marks(self):
        """Sheets that are nearly the same, keyed twice."""
        rows = [[], []]
        for r in RULES:
            for n in self.entries[r]:
                for j in self.judges[r]:
                    if self.rng.random() < .06:
                        continue
                    far = self.rng.random() < .1
                    for item in range(self.items[r]):
                        if j not in (self.asked(r, item) or j):
                            continue
                        mark = 4 if far else self.rng.choice([6, 6, 6, 6.5, 7])
                        if self.rng.random() < .03:
                            self.empty.append((r, n, j, item + 1))
                        else:
                            rows[0].append([r, n, j, item + 1, mark])
                            rows[1].append([r, n, j, item + 1,
                                            mark + (self.rng.random() < .02) * .5])
        for keying in (0, 1):
            path = self.path(f"marks-{keying + 1}.csv")
            write(path, "class,number,judge,item,mark", rows[keying])
            self.run("mark", "import", path, "--keying", str(keying + 1))

    def rest(self):
        """Errors of course, penalties and statuses."""
        for r in RULES:
            for n in self.entries[r]:
                chance = self.rng.random()
                if chance < .15:
                    self.run("penalty", "add", r, str(n), "--errors", str(self.rng.randint(1, 3)))
                elif chance < .3:
                    self.run("penalty", "add", r, str(n), "--points",
                             self.rng.choice(["5", "0.5", "10"]))
                elif chance < .4:
                    self.run("entry", "status", r, str(n), self.rng.choice(STATUSES))

    def said(self):
        """Boxes that nobody can be asked about, judges who were away, ties decided."""
        why = ["--by", "Office", "--why", "so it was"]
        for r, n, j, item in self.empty:
            if self.rng.random() < .8:
                self.run("mark", "missing", r, str(n), "--judge", j, "--item", str(item), *why,
                         expected=(0, 2))
        for r in RULES:
            for n in self.entries[r]:
                if self.rng.random() < .1:
                    self.run("judge", "away", r, self.rng.choice(self.judges[r]), "--number",
                             str(n), *why)
            for a, b in zip(self.entries[r], self.entries[r][1:]):
                self.run("tie", "decide", r, str(b), str(a), *why, expected=(0, 2))

    def make(self):
        """All of it; returns the file."""
        subprocess.run([self.command, "create", self.file, "--title", "Random & even",
                        "--day", "2026-05-02"], check=True, stdout=subprocess.DEVNULL)
        self.rule()
        self.tests()
        self.classes()
        self.marks()
        self.rest()
        self.said()
        return self.file


def main(command, shows=2, seed=1):
    """Random shows, one after the other."""
    if not shutil.which("soffice"):
        print("LibreOffice (soffice) is not there")
        return 77
    for i in range(shows):
        with tempfile.TemporaryDirectory() as folder:
            show = Show(command, folder, random.Random(seed + i)).make()
            if workbook_check.main(command, show, RULES):
                print(f"seed {seed + i}")
                return 1
    return 0


if __name__ == "__main__":
    if not 2 <= len(sys.argv) <= 4:
        raise SystemExit(__doc__)
    sys.exit(main(sys.argv[1], *map(int, sys.argv[2:])))
