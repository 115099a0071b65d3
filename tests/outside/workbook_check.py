#!/usr/bin/python3
# The workbook against `results`: read back by openpyxl, recalculated by LibreOffice.
# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: workbook_check.py RINGTRUE SHOWFILE CLASS...

Exports the show's workbook, drops the values its formulas carry, has LibreOffice work them out
again, and compares points, percentages, scores, penalties, places and statuses of each CLASS
with what the command says, to the last digit: on the class's sheet, on Entries and on Results,
and the values that the file itself carries too.  Then one mark is changed in the workbook and,
by an import, in a copy of the show file; both are compared again, in every class anew.

Prints what differs; exit status 1 when something does, 77 when LibreOffice is not there.
"""
import csv
import json
import os
import re
import shutil
import statistics
import subprocess
import sys
import tempfile

import openpyxl

SMALL = 1e-9  # far below the last digit of anything shown, far above a binary fraction's error
WHEN = "2026-05-02 18:00:00"
LIVE = re.compile(r"=(IF|AVERAGE|STDEV|ROUND|SUMPRODUCT|10\*SUM)\(|=\$?[A-Z]+\$?[0-9]+|='|=0$")  # ours


def recalculated(path, folder):
    """The workbook's file with every formula worked out by LibreOffice."""
    bare = os.path.join(folder, "bare.xlsx")
    out = os.path.join(folder, "recalculated")
    openpyxl.load_workbook(path).save(bare)  # openpyxl keeps the formulas, not their values
    profile = "file://" + os.path.join(folder, "profile")
    subprocess.run(
        ["soffice", "-env:UserInstallation=" + profile, "--headless", "--norestore",
         "--convert-to", "xlsx", "--outdir", out, bare],
        check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, timeout=300)
    return os.path.join(out, "bare.xlsx")


def class_sheet(book, name):
    """The sheet of marks of a class."""
    for sheet in book.worksheets:
        if str(sheet["A1"].value).startswith(name + ": "):
            return sheet
    raise SystemExit(f"no sheet for class {name}")


class Marks:
    """A class's sheet of marks: where its columns and rows are."""

    def __init__(self, sheet):
        self.sheet = sheet
        self.head_row = next(r for r in range(1, 10) if sheet.cell(r, 1).value == "No.")
        heads = [c.value for c in sheet[self.head_row]]
        self.column = {h: i + 1 for i, h in enumerate(heads) if h is not None}
        first = self.column["Judge"] + 1
        last = self.column.get("Sum", self.column["Points"])
        self.items = {str(heads[c - 1]): c for c in range(first, last)}
        self.rows = {}
        row = self.head_row + 2
        while sheet.cell(row, 1).value not in (None, ""):
            key = (int(sheet.cell(row, 1).value), sheet.cell(row, self.column["Judge"]).value)
            self.rows[key] = row
            row += 1

    def first_row(self, number):
        """The row of an entry's first judge."""
        return min(row for (n, _), row in self.rows.items() if n == number)

    def get(self, row, head):
        """A value by its column's head; an empty text is None."""
        value = self.sheet.cell(row, self.column[head]).value
        return None if value == "" else value


def same(a, b):
    """Equal to the last digit."""
    if isinstance(a, (int, float)) and isinstance(b, (int, float)):
        return abs(a - b) < SMALL
    return a == b


class Comparison:
    """Counts what was compared and prints what differs."""

    def __init__(self):
        self.compared = 0
        self.failed = 0

    def check(self, where, found, expected):
        """One value."""
        self.compared += 1
        if not same(found, expected):
            self.failed += 1
            print(f"{where}: the workbook has {found!r}, the results {expected!r}")

    def marks(self, label, sheet, report):
        """The sheet of marks against the tables results and judges."""
        marks = Marks(sheet)
        score = "Score" if "Score" in marks.column else "Score in penalties"
        for r in report["results"]:
            row = marks.first_row(r["number"])
            where = f"{label}, number {r['number']}"
            both = "Both" if "Both" in marks.column else "Percent for errors"
            for head, key in ((score, "score"), ("Percent", "percent"), ("Place", "place"),
                              (both, "penalty_points"), ("Errors of course", "errors"),
                              ("Division", "division"), ("Outcome", "status")):
                self.check(f"{where}, {head}", marks.get(row, head), r[key])
            if r["points_off"] is not None:
                self.check(f"{where}, points off", marks.get(row, "Other points off"),
                           r["points_off"])
        judged = set()
        for j in report["judges"]:
            row = marks.rows[(j["number"], j["position"])]
            judged.add(row)
            where = f"{label}, number {j['number']} {j['position']}"
            points = marks.get(row, "Points")
            if j["filled"]:     # a ratio in the workbook, told to the nearest ten thousandth
                points = j["points"] if abs(points - j["points"]) < 0.00005001 else points
            self.check(f"{where}, Points", points, j["points"])
            self.check(f"{where}, Percent", marks.get(row, "Percent at judge"), j["percent"])
        for (number, position), row in marks.rows.items():
            if row not in judged:
                self.check(f"{label}, number {number} {position}, no sheet",
                           marks.get(row, "Points"), None)

    def results(self, label, book, name, report):
        """The sheet of results: from the class's head on, rows in the order of the report."""
        sheet = book["Results"]
        heads = {c.value: i + 1 for i, c in enumerate(sheet[2]) if c.value}
        row = next((r for r in range(3, sheet.max_row + 1)
                    if str(sheet.cell(r, 1).value).startswith(name + ": ")), None)
        self.check(f"{label}, Results has the class", row is not None, True)
        for r in report["results"] if row else []:
            row += 1
            where = f"{label}, Results, number {r['number']}"
            for head, key in (("No.", "number"), ("Place", "place"), ("Score", "score"),
                              ("Percent", "percent"), ("Status", "status"),
                              ("Driver or rider", "driver"), ("Division", "division"),
                              ("Errors and penalties", "penalty_points")):
                value = sheet.cell(row, heads[head]).value
                self.check(f"{where}, {head}", None if value == "" else value, r[key])
            if "Points off" in heads:
                self.check(f"{where}, points off", sheet.cell(row, heads["Points off"]).value,
                           r["points_off"])

    def judges(self, label, book, name, report):
        """The sheet of judges: the percentages of whole entries, their mean and spread."""
        given = {}
        for j in report["judges"]:
            given.setdefault(j["number"], {})[j["position"]] = j["percent"]
        sheet = book["Judges"] if "Judges" in book.sheetnames else None
        row = next((r for r in range(3, sheet.max_row + 1)
                    if str(sheet.cell(r, 1).value).startswith(name + ": ")), None) if sheet else None
        if row is None:
            return
        row += 1
        heads = [c.value for c in sheet[row] if c.value]
        columns = {head: [] for head in heads[2:]}
        while sheet.cell(row + 1, 1).value is not None:
            row += 1
            number = sheet.cell(row, 1).value
            for i, (position, column) in enumerate(columns.items()):
                value = sheet.cell(row, 3 + i).value
                self.check(f"{label}, Judges, number {number} {position}", value,
                           given[number][position])
                column.append(value)
        for i, (position, column) in enumerate(columns.items()):
            self.check(f"{label}, Judges, mean {position}",
                       round(sheet.cell(row + 1, 3 + i).value, 9),
                       round(statistics.mean(column), 9))
            if len(column) > 1:
                self.check(f"{label}, Judges, spread {position}",
                           round(sheet.cell(row + 2, 3 + i).value, 9),
                           round(statistics.stdev(column), 9))

    def paper(self, label, path):
        """What makes a sheet ready to print and to read on a screen; text is never a formula."""
        book = openpyxl.load_workbook(path)
        for sheet in book.worksheets:
            where = f"{label}, sheet {sheet.title}"
            self.check(where + ", landscape", sheet.page_setup.orientation, "landscape")
            self.check(where + ", to one page's width",
                       (sheet.sheet_properties.pageSetUpPr.fitToPage,
                        sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight),
                       (True, 1, 0))
            self.check(where + ", page n of m", sheet.oddFooter.right.text, "Page &P of &N")
            self.check(where + ", when it was made", sheet.oddFooter.left.text, "Made " + WHEN)
            self.check(where + ", frozen", sheet.freeze_panes is not None, True)
            self.check(where + ", text that would be a formula",
                       [c.coordinate for row in sheet for c in row
                        if c.data_type == "f" and not LIVE.match(c.value)], [])
            self.check(where + ", heads on each page", sheet.print_title_rows is not None, True)

    def book(self, label, path, reports):
        """A whole workbook against the reports of its classes."""
        book = openpyxl.load_workbook(path, data_only=True)
        for name, report in reports.items():
            self.marks(f"{label}, class {name}", class_sheet(book, name), report)
            ordered = sorted(report["results"], key=lambda r: order.get((name, r["number"]), 0))
            self.results(f"{label}, class {name}", book, name, {"results": ordered})
            self.judges(f"{label}, class {name}", book, name, report)


order = {}  # (class, number) -> its row on Results, as it was when the workbook was written


def remember_order(reports):
    """Rows of Results stay where they were written; only what they say changes."""
    for name, report in reports.items():
        for i, r in enumerate(report["results"]):
            order[name, r["number"]] = i


def ringtrue(command, show, *words):
    """The standard output of one command; exit status 1 only means that a person is needed."""
    run = subprocess.run([command, "--show", show, "--date", WHEN, *words],
                         stdout=subprocess.PIPE, check=False)
    if run.returncode not in (0, 1):
        raise SystemExit(f"{' '.join(words)}: exit status {run.returncode}")
    return run.stdout


def reports_of(command, show, names):
    """What the command says of each class."""
    return {n: json.loads(ringtrue(command, show, "--format", "json", "results", n))
            for n in names}


def better_mark(sheet):
    """A mark that can be changed: of the last placed entry that has one, made the best."""
    marks = Marks(sheet)
    places = [(marks.get(row, "Place") or 0, number, judge, row)
              for (number, judge), row in marks.rows.items()]
    for _, number, judge, row in sorted(places, reverse=True):
        for item, column in marks.items.items():
            value = sheet.cell(row, column).value
            if isinstance(value, (int, float)) and value < 9:
                return number, judge, item, row, column
    raise SystemExit("no mark can be changed")


def change(path, changed, values, name):
    """Change one mark in the workbook; returns the row a file of marks has for it."""
    number, judge, item, row, column = better_mark(class_sheet(values, name))
    book = openpyxl.load_workbook(path)
    class_sheet(book, name).cell(row, column).value = 9.5
    book.save(changed)
    return [name, number, judge, item, "9.5"]


def check_change(comparison, command, show, folder, path, names, name):
    """One class: the same change in the workbook and in a copy of the show file."""
    copy, changed = os.path.join(folder, "copy.ringtrue"), os.path.join(folder, "changed.xlsx")
    marks = os.path.join(folder, "mark.csv")
    values = openpyxl.load_workbook(path, data_only=True)
    row = change(path, changed, values, name)
    shutil.copyfile(show, copy)
    with open(marks, "w", newline="", encoding="utf-8") as f:
        csv.writer(f).writerows([["class", "number", "judge", "item", "mark"], row])
    for keying in ("1", "2"):
        ringtrue(command, copy, "mark", "import", marks, "--keying", keying,
                 "--by", "Office " + keying, "--why", "it was misread")
    label = "with " + " ".join(str(v) for v in row)
    comparison.book(label, recalculated(changed, folder), reports_of(command, copy, names))


def main(command, show, names):
    """All comparisons."""
    if not shutil.which("soffice"):
        print("LibreOffice (soffice) is not there")
        return 77
    comparison = Comparison()
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "show.xlsx")
        ringtrue(command, show, "workbook", path)
        reports = reports_of(command, show, names)
        remember_order(reports)
        comparison.paper("as written", path)
        comparison.book("as written", path, reports)
        comparison.book("recalculated", recalculated(path, folder), reports)
        for name in names:
            check_change(comparison, command, show, folder, path, names, name)
    print(f"{comparison.compared} values compared, {comparison.failed} differ")
    return 1 if comparison.failed or not comparison.compared else 0


if __name__ == "__main__":
    if len(sys.argv) < 4:
        raise SystemExit(__doc__)
    sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3:]))
