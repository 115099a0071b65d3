#!/usr/bin/python3
"""The office's two days of a show, played as its people live them: 76 entries in an office's own
workbook, six classes, two rings, 144 sheets keyed twice, withdrawals, a horse that is swapped, a
ring that is late.  Counts commands, keys and pages, and scores every class a second time.
   usage: day.py RINGTRUE [FOLDER]   (everything is left in FOLDER)
SPDX-License-Identifier: GPL-3.0-or-later"""
import csv
import fractions
import json
import math
import os
import random
import re
import subprocess
import sys
import tempfile

import openpyxl

COMMANDS_MOST = 120
KEYS_MOST = 60  # for a sheet of 20 boxes
ITEMS = 20
PANELS = ["Una Elmstad; Tage Haselrode", "Ivo Larkham; Runa Oakes"]
JUDGES = ["C", "E"]
SIZES = {1: 12, 2: 12, 3: 13, 4: 13, 5: 13, 6: 13}
HEADS = {"class": "Prüfung", "number": "Nr", "driver": "Fahrer", "horses": "Pferde",
         "height_cm": "Stockmaß", "turnout": "Gespannart", "groom": "Beifahrer",
         "club": "Verein"}
COLUMNS = "; ".join(f"{theirs}={ours}" for ours, theirs in HEADS.items())
OFFICE_FILE = "entries.xlsx"
FIRST = "Ada Bo Cleo Dov Edda Finn Gerd Hild Ivo Jule Kaja Lars Mina Nils Odo Pia".split()
LAST = "Ashgrove Birkholm Calderfeld Dornby Elmstad Farnholt Glenhove Haselrode".split()
HORSES = "Amber Bracken Cinder Drift Ember Flint Gorse Heather Iris Juniper".split()


class Day:
    """Runs commands as they are typed, and counts."""

    def __init__(self, ringtrue, folder):
        self.ringtrue, self.folder = ringtrue, folder
        self.show = os.path.join(folder, "day.show")
        self.commands, self.keys, self.pages, self.keys_of_sheets = 0, 0, 0, []
        self.penalties = {}  # points taken off by class and number
        self.clock = "2026-05-08 17:00"

    def path(self, name):
        return os.path.join(self.folder, name)

    def look(self, *words):
        """What a command answers, as data: the test looks, nobody types it."""
        done = subprocess.run([self.ringtrue, "--show", self.show, "--date", self.clock,
                               "--format", "json", *words], capture_output=True, text=True)
        if done.returncode > 1:
            sys.exit(f"FAIL {' '.join(words)}: {done.stderr}")
        return json.loads(done.stdout)

    def type(self, *words, keyed=None, status=(0,)):
        self.commands += 1
        done = subprocess.run([self.ringtrue, "--show", self.show, "--date", self.clock, *words],
                              input=keyed or "", capture_output=True, text=True,
                              cwd=self.folder)
        if done.returncode not in status:
            sys.exit(f"FAIL {' '.join(words)}: status {done.returncode}\n{done.stdout[-2000:]}"
                     f"{done.stderr}")
        return done.stdout

    def paper(self, *words, out, status=(0,)):
        self.type("sheet", *words, "--out", out, status=status)
        told = subprocess.run(["pdfinfo", self.path(out)], capture_output=True, text=True).stdout
        pages = int(re.search(r"^Pages: +(\d+)", told, re.M).group(1))
        self.pages += pages
        return pages


def write_csv(path, rows, delimiter=","):
    with open(path, "w", newline="", encoding="utf-8") as out:
        csv.writer(out, delimiter=delimiter).writerows(rows)


def tests_of(day):
    """Two tests of twenty boxes, the last three of them general impressions."""
    write_csv(day.path("tests.csv"), [["test", "title", "kind", "level", "rule"],
                                      ["Alder", "Alder", "driven-40x80", "training",
                                       "driven-percent"],
                                      ["Willow", "Willow", "driven-40x80", "intermediate",
                                       "driven-percent"]])
    write_csv(day.path("movements.csv"),
              [["test", "item", "letters", "movement", "figure", "gait", "coefficient", "group"]] +
              [[test, item, "", f"Movement {item}", "", "", 1 + (item % 4 == 0),
                "movement" if item <= ITEMS - 3 else "general"]
               for test in ("Alder", "Willow") for item in range(1, ITEMS + 1)])
    write_csv(day.path("classes.csv"),
              [["class", "title", "test", "level", "ring", "rule", "judges", "judge_names"]] +
              [[number, f"Class {number}", "Alder" if number <= 3 else "Willow",
                "", "Oak ring" if number % 2 else "Mill ring", "", " ".join(JUDGES),
                PANELS[number % 2]]
               for number in SIZES], delimiter=";")
    write_csv(day.path("plan.csv"),
              [["class", "ring", "day", "first", "interval_s", "break_every", "break_after_s",
                "break_s", "harrow_every", "harrow_s", "order"]] +
              [[number, "", 1 if number <= 4 else 2, "9:00" if number in (1, 2, 5, 6) else "", 480,
                "", "", "", "", "", "drawn"]
               for number in SIZES])


def entries(rng):
    """The rows of the office's workbook, in the order of the class."""
    rows, number, names = [], 10, [f"{a} {b}" for b in LAST for a in FIRST]
    rng.shuffle(names)
    for number_of_class, size in SIZES.items():
        for _ in range(size):
            number += 1
            pair = rng.random() < 0.4
            horses = [f"{rng.choice(HORSES)} {number}"] + ([f"{rng.choice(HORSES)} II {number}"]
                                                           if pair else [])
            rows.append({"class": number_of_class, "number": number, "driver": names[number],
                         "horses": " + ".join(horses), "height_cm": rng.randint(120, 168),
                         "turnout": "", "groom": names[-number], "club": "Dornby Whips"})
    return rows


def write_office_file(path, rows):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append([HEADS[name] for name in rows[0]] + ["Bemerkung"])
    for row in rows:
        sheet.append(list(row.values()) + ["bezahlt"])
    sheet.append([None] * 9)
    book.save(path)


def marks_of(rng, rows):
    """What the judges gave: {(class, number, judge): the twenty marks in tenths}."""
    return {(row["class"], row["number"], judge): [rng.randrange(40, 95, 5) for _ in range(ITEMS)]
            for row in rows for judge in JUDGES}


def total_of(sheet):
    """The points of a sheet, as its judge adds them up."""
    return sum(mark * (1 + (item % 4 == 0)) for item, mark in enumerate(sheet, 1)) / 10


def pile(day, number_of_class, judge, by, numbers, marks, wrong=None, settle=0):
    """Key the sheets of a class and a judge as one pile; wrong: where a mark is misread."""
    keyed = []
    for number in numbers:
        sheet = list(marks[number_of_class, number, judge])
        total = total_of(sheet)
        if wrong == number:
            sheet[6] = sheet[6] - 5 if sheet[6] > 40 else sheet[6] + 5
        lines = [str(number), "".join(f"{mark:02d}" for mark in sheet), "", f"t {total:g}"]
        keyed.append("\n".join(lines) + "\n")
    day.keys_of_sheets.extend(len(one) for one in keyed)
    text = "".join(keyed) + "\n" + "2\n" * settle
    day.keys += len(text)
    return day.type("mark", "enter", str(number_of_class), "--judge", judge, "--by", by,
                    keyed=text, status=(0, 1))


def friday(day):
    """The show is made, drawn and planned, and its papers are printed."""
    day.clock = "2026-05-08 17:00"
    day.type("create", day.show, "--title", "Dornby Driving Days", "--day", "2026-05-09")
    for ring in ("Oak ring", "Mill ring"):
        day.type("ring", "add", ring, "--kind", "driven-40x80")
    day.type("test", "import", "tests.csv", "movements.csv")
    day.type("class", "import", "classes.csv")
    day.type("entry", "import", OFFICE_FILE, "--columns", COLUMNS, "--try")
    day.type("entry", "import", OFFICE_FILE, "--columns", COLUMNS)
    day.type("draw", "--all", "--seed", "2026")
    day.type("times", "import", "plan.csv")
    day.type("times", "plan", status=(0, 1))
    lists(day)
    day.paper("marking", "--all", out="marking.pdf")
    day.type("backup", "friday.show")


def lists(day):
    for kind in ("ring", "driver", "gate", "announcer", "steward"):
        day.paper("times", "--list", kind, out=f"times-{kind}.pdf", status=(0, 1))


def starters(day, number_of_class):
    """The numbers that start, in their order, as the office's screen has them."""
    return [row["number"] for row in day.look("times")["times"]
            if row["class"] == str(number_of_class) and row["status"] == "entered"]


def evening_changes(day, rows):
    """The office's file comes again: two grooms, one driver fewer."""
    gone = rows.pop(next(i for i, row in enumerate(rows) if row["class"] == 3))
    for row in rows[:2]:
        row["groom"] = "Odo Calderfeld"
    write_office_file(day.path(OFFICE_FILE), rows)
    day.type("entry", "import", OFFICE_FILE, "--update", "--withdraw-missing", "--by",
             "Ada Dornby", "--why", "the office's list of Friday evening", status=(0, 1))
    return gone


def a_class_is_over(day, number, marks, penalties=()):
    """Both piles of both judges, penalties, results, papers."""
    numbers = starters(day, number)
    for judge in JUDGES:
        pile(day, number, judge, "Mina Farnholt", numbers, marks, wrong=numbers[2])
        pile(day, number, judge, "Lars Ashgrove", numbers, marks, settle=1)
    for entry, points in penalties:
        day.penalties[number, entry] = points
        day.type("penalty", "add", str(number), str(entry), "--points", str(points), "--why",
                 "late", "--by", "Ada Dornby")
    day.type("mark", "sheets", str(number), "--waiting")
    day.type("results", str(number))
    day.type("post", str(number), "--by", "Ada Dornby")
    day.paper("results", str(number), out=f"results-{number}.pdf")
    day.paper("driver", str(number), "--all", out=f"driver-{number}.pdf")


def score_again(day, marks):
    """Every percentage of every class once more, by exact fractions."""
    compared = 0
    maximum = sum(10 * (1 + (item % 4 == 0)) for item in range(1, ITEMS + 1))
    for number in SIZES:
        for row in day.look("results", str(number))["results"]:
            key = number, row["number"]
            if row["score"] is None:
                continue
            parts = [fractions.Fraction(round(10 * total_of(marks[*key, judge])), 10 * maximum)
                     for judge in JUDGES]
            percent = 100 * (sum(parts) / len(parts) -
                             fractions.Fraction(day.penalties.get(key, 0), maximum))
            if round(1000 * row["score"]) != math.floor(1000 * percent + fractions.Fraction(1, 2)):
                sys.exit(f"FAIL class {number}, number {row['number']}: {row['score']}, "
                         f"not {float(percent)}")
            compared += 1
    return compared


def saturday(day, rows, marks):
    day.clock = "2026-05-09 08:00"
    gone = evening_changes(day, rows)["number"]
    first, second = starters(day, 1), starters(day, 2)
    day.type("entry", "status", "1", str(first[-1]), str(first[-2]), "withdrawn", "--by",
             "Ada Dornby", "--why", "lame on the morning", status=(0, 1))
    day.type("entry", "status", "2", str(second[-1]), "withdrawn", status=(0, 1))
    lists(day)
    day.clock = "2026-05-09 09:40"
    day.type("times", "late", "Oak ring", "12", "--from", "10:00", "--by", "Odo Birkholm",
             status=(0, 1))
    for number in (1, 2):
        day.clock = f"2026-05-09 1{number}:30"
        a_class_is_over(day, number, marks, [(starters(day, number)[0], 2)] if number == 1 else [])
        if number == 1:
            swapped = starters(day, 3)[5]
            day.type("entry", "change", "3", str(swapped), "--horses", "Thunder", "--by",
                     "Ada Dornby", "--why", "cast a shoe", status=(0, 1))
    day.paper("times", "--list", "gate", out="times-gate.pdf", status=(0, 1))
    for number in (3, 4):
        day.clock = f"2026-05-09 1{number + 2}:30"
        a_class_is_over(day, number, marks)
    day.type("backup", "saturday.show")
    return gone, swapped


def sunday(day, marks):
    day.clock = "2026-05-10 08:00"
    day.type("entry", "add", "5", "--driver", "Kaja Elmstad", "--horses", "Quill", "--late",
             status=(0, 1))
    late = max(row["number"] for row in day.look("entry", "list", "5")["entries"])
    for judge in JUDGES:
        marks[5, late, judge] = [65] * ITEMS
    day.type("draw", "late", "5", str(late), "--take", "--seed", "3", status=(0, 1))
    lists(day)
    for number in (5, 6):
        day.clock = f"2026-05-10 1{number - 2}:30"
        a_class_is_over(day, number, marks)
    write_csv(day.path("championships.csv"),
              [["championship", "title", "classes", "tally", "of", "competitor", "ties", "dropped"],
               ["cup", "The cup", "1; 2; 3; 4; 5; 6", "sum", "percent", "driver", "best", "5"]])
    write_csv(day.path("prizes.csv"), [["scale", "starters", "place", "amount"]] +
              [["usual", starters_at_least, place, 90 / place]
               for starters_at_least in (3, 8) for place in (1, 2, 3)])
    day.type("championship", "import", "championships.csv")
    day.type("championship", "results", "cup")
    day.type("prize", "import", "prizes.csv")
    for number in SIZES:
        day.type("prize", "money", str(number), "--scale", "usual")
    day.type("workbook", "show.xlsx")
    day.type("verify")
    day.type("backup", "sunday.show")


def main():
    ringtrue = os.path.abspath(sys.argv[1])
    with tempfile.TemporaryDirectory() as temporary:
        folder = sys.argv[2] if len(sys.argv) > 2 else temporary
        os.makedirs(folder, exist_ok=True)
        day, rng = Day(ringtrue, os.path.abspath(folder)), random.Random(76)
        rows = entries(rng)
        marks = marks_of(rng, rows)
        tests_of(day)
        write_office_file(day.path(OFFICE_FILE), rows)
        friday(day)
        gone, swapped = saturday(day, rows, marks)
        sunday(day, marks)
        third = {row["number"]: row for row in day.look("entry", "list", "3")["entries"]}
        if third[gone]["status"] != "withdrawn" or third[swapped]["horses"] != ["Thunder"]:
            sys.exit("FAIL what was changed of class 3 is not so")
        scored = score_again(day, marks)
    most = max(day.keys_of_sheets)
    print(f"{day.commands} commands, {day.pages} pages, {len(day.keys_of_sheets)} sheets keyed "
          f"with {day.keys} keys, at most {most} a sheet; {scored} scores by exact fractions, "
          "0 differ")
    if day.commands > COMMANDS_MOST or most > KEYS_MOST:
        sys.exit("FAIL the day is longer than it was")


if __name__ == "__main__":
    main()
