#!/usr/bin/python3
# The turn sheet against `turns`: SVG read by an XML library, PDF by poppler's pdftotext.
# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: sheet_check.py RINGTRUE

For levels in every shipped kind of ring, seen from every seat, as SVG:
 - the ring is drawn to one scale, A, C, B and E on their sides, turned and never mirrored;
 - the arcs drawn are those of the turns that fit, no more and no fewer: both ends and the
   radius, and a tick at each end;
 - the rows of the table are turns of that ring in the words of `turns`, the straight between
   included, and every turn that fits has a row with its figures.
As PDF: one page, and the same words as the SVG, read by pdftotext.

Prints what differs; exit status 1 when something does.
"""
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET
from collections import Counter

SVG = "{http://www.w3.org/2000/svg}"
WHEN = "2026-05-02 18:00"
NEAR_MM = 0.002  # the file has three decimals
SHEETS = [  # kind, level, further options
    ("driven-40x80", "training", []),
    ("driven-40x80", "intermediate", []),
    ("driven-40x80", "advanced", ["--track", "1.25"]),
    ("driven-40x100", "preliminary", ["--height", "12.2hh"]),
    ("ridden-20x40", "second", []),
    ("ridden-20x60", "advanced", []),
    ("ridden-20x60", "first", ["--diameter", "7.3"]),
]
failures = []


def fail(where, text):
    failures.append(f"{where}: {text}")


def run(ringtrue, *args):
    return subprocess.run([ringtrue, "--date", WHEN, *args], check=True, capture_output=True,
                          text=True).stdout


def numbers(text):
    return [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", text)]


class Drawing:
    """A sheet's SVG, and the way from its page to the ring."""

    def __init__(self, path, kind, where):
        self.root = ET.parse(path).getroot()
        self.where = where
        corners = numbers(self.only("ring").get("d"))
        xs, ys = corners[0::2], corners[1::2]
        self.x, self.y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        across, down = max(xs) - min(xs), max(ys) - min(ys)
        a, c, e, b = (self.letter(n) for n in "ACEB")
        upright = abs(c[1] - a[1]) > abs(c[0] - a[0])
        self.scale = (down if upright else across) / kind["length_m"]
        other = (across if upright else down) / kind["width_m"]
        if abs(self.scale - other) > 1e-4:
            fail(where, f"drawn to two scales, {self.scale} and {other} mm a metre")
        self.up = self.direction(a, c)
        self.right = self.direction(e, b)
        if self.right[0] * self.up[1] - self.right[1] * self.up[0] != -1:
            fail(where, "the ring is mirrored, or its letters stand on the wrong sides")

    @staticmethod
    def direction(p, q):
        dx, dy = q[0] - p[0], q[1] - p[1]
        if abs(dx) > abs(dy):
            return (math.copysign(1, dx), 0)
        return (0, math.copysign(1, dy))

    def all(self, role, tag="path"):
        return [e for e in self.root.iter(SVG + tag) if e.get("class") == role]

    def only(self, role):
        found = self.all(role)
        if len(found) != 1:
            raise SystemExit(f"{self.where}: {len(found)} shapes of class {role}")
        return found[0]

    def letter(self, name):
        for e in self.all("letter", "text"):
            if e.text == name:
                return float(e.get("x")), float(e.get("y"))
        raise SystemExit(f"{self.where}: no letter {name}")

    def point(self, x_m, y_m):
        """Where a point of the ring is drawn."""
        return (self.x + self.scale * (x_m * self.right[0] + y_m * self.up[0]),
                self.y + self.scale * (x_m * self.right[1] + y_m * self.up[1]))

    def arcs(self):
        """(begin, finish, radius, clockwise) of each arc drawn."""
        for e in self.all("arc"):
            d = e.get("d")
            m = re.fullmatch(r"M(\S+) (\S+)A(\S+) (\S+) 0 0 ([01]) (\S+) (\S+)", d)
            if not m:
                fail(self.where, f"an arc that is none: {d}")
                continue
            x0, y0, r, s, sweep, x1, y1 = (float(v) for v in m.groups())
            if r != s:
                fail(self.where, f"an arc of two radii: {d}")
            yield (x0, y0), (x1, y1), r, sweep == 1

    def words(self):
        return [e.text for e in self.root.iter(SVG + "text")]


def near(p, q):
    return math.dist(p, q) <= NEAR_MM


def fitting(turns):
    """Figures of two arcs that both fit."""
    rows = turns["turns"]
    pairs = [rows[i:i + 2] for i in range(0, len(rows), 2)]
    return [p for p in pairs if p[0]["fits"] and p[1]["fits"]]


def check_arcs(drawing, turns):
    wanted = []
    for pair in fitting(turns):
        for t in pair:
            wanted.append((drawing.point(t["begin_x_m"], t["begin_y_m"]),
                           drawing.point(t["finish_x_m"], t["finish_y_m"]),
                           t["hand"] == "right", t))
    found = set()
    ticks = []
    for e in drawing.all("tick"):
        x0, y0, x1, y1 = numbers(e.get("d"))
        ticks.append(((x0 + x1) / 2, (y0 + y1) / 2))
    for begin, finish, radius, clockwise in drawing.arcs():
        mine = {i for i, (b, f, right, _) in enumerate(wanted)
                if (near(b, begin) and near(f, finish) and right == clockwise)
                or (near(b, finish) and near(f, begin) and right != clockwise)}
        if not mine:
            fail(drawing.where, f"an arc from {begin} to {finish} that `turns` has not got")
        if mine & found:
            fail(drawing.where, f"the arc from {begin} to {finish} is drawn twice")
        found |= mine
        diameter = turns["turns"][0]["diameter_m"]
        if abs(radius - diameter / 2 * drawing.scale) > NEAR_MM:
            fail(drawing.where, f"an arc of radius {radius} mm")
        for end in (begin, finish):
            if not any(near(end, t) for t in ticks):
                fail(drawing.where, f"no tick at {end}")
    for i, (_, _, _, t) in enumerate(wanted):
        if i not in found:
            fail(drawing.where, f"not drawn: {t['turn']}, {t['hand']}")


def table(drawing):
    """The rows of the table: begin and finish in words, and what stands between two rows."""
    rows, between, last = [], [], None
    for e in drawing.root.iter(SVG + "text"):
        role = e.get("class")
        if role == "key":
            rows.append({"number": e.text, "begin": [], "finish": []})
        elif role in ("begin", "finish"):
            rows[-1][role].append(e.text)
        elif role == "between":
            if last == "between":
                between[-1] += " " + e.text
            else:
                between.append(e.text)
        last = role
    for r in rows:
        r["begin"], r["finish"] = " ".join(r["begin"]), " ".join(r["finish"])
    return list(zip(rows[0::2], between, rows[1::2]))


def straight(words):
    return 0.0 if words == "nothing straight here" else numbers(words)[0]


def figures(first, second):
    """All numbers of a figure, so that mirror images have the same."""
    return sorted(numbers(" ".join((first["begin"], first["finish"], second["begin"],
                                    second["finish"]))))


def check_table(drawing, turns):
    rows = table(drawing)
    if not rows:
        fail(drawing.where, "no table")
    told = []
    for first, between, second in rows:
        same = [p for p in fitting(turns)
                if (p[0]["begin"], p[0]["finish"]) == (first["begin"], first["finish"])
                and (p[1]["begin"], p[1]["finish"]) == (second["begin"], second["finish"])]
        if not same:
            fail(drawing.where, f"a row of no turn: {first} {second}")
        elif not any(abs(p[0]["straight_m"] - straight(between)) <= 0.05001 for p in same):
            fail(drawing.where, f"{first['begin']}: {between}, not {same[0][0]['straight_m']} m")
        told.append((figures(first, second), straight(between)))
    for a, b in fitting(turns):
        if not any(f == figures(a, b) and abs(s - a["straight_m"]) <= 0.05001 for f, s in told):
            fail(drawing.where, f"not told: {a['turn']}")


def check_pdf(path, drawing):
    text = subprocess.run(["pdftotext", "-raw", "-nopgbrk", path, "-"], check=True,
                          capture_output=True, text=True).stdout
    pages = subprocess.run(["pdfinfo", path], check=True, capture_output=True, text=True).stdout
    if not re.search(r"^Pages:\s+1$", pages, re.M):
        fail(drawing.where, "the PDF has more than one page")
    if not re.search(r"^Title:\s+Turns: ", pages, re.M):
        fail(drawing.where, "the PDF has no title")
    # letters in a row may be read as one word: all letters are compared, in any order
    mine = Counter("".join("".join(drawing.words()).split()))
    its = Counter("".join(text.split()))
    if mine != its:
        fail(drawing.where, f"PDF and SVG differ in {(mine - its) + (its - mine)}")
    for first, _, second in table(drawing):
        for words in (first["begin"], first["finish"], second["begin"], second["finish"]):
            for word in words.split():
                if word not in text:
                    fail(drawing.where, f"not in the PDF: {word}")


def check_sheet(ringtrue, kinds, kind, level, options, folder):
    turn_args = ["--kind", kind, "--level", level, *options]
    turns = json.loads(run(ringtrue, "--format", "json", "turns", *turn_args))
    for seat in "ACBE":
        where = f"{kind} {level} {' '.join(options)} from {seat}"
        svg, pdf = os.path.join(folder, "s.svg"), os.path.join(folder, "s.pdf")
        for path in (svg, pdf):
            run(ringtrue, "sheet", "turns", *turn_args, "--seen-from", seat, "--out", path)
        drawing = Drawing(svg, kinds[kind], where)
        nearest = {"A": drawing.up[1] < 0, "C": drawing.up[1] > 0, "B": drawing.right[1] > 0,
                   "E": drawing.right[1] < 0}
        if not nearest[seat]:
            fail(where, "drawn from another seat")
        check_arcs(drawing, turns)
        check_table(drawing, turns)
        check_pdf(pdf, drawing)


def main():
    if len(sys.argv) != 2:
        raise SystemExit(__doc__)
    ringtrue = sys.argv[1]
    kinds = {k["kind"]: k
             for k in json.loads(run(ringtrue, "--format", "json", "ring", "kinds"))["kinds"]}
    with tempfile.TemporaryDirectory() as folder:
        for kind, level, options in SHEETS:
            check_sheet(ringtrue, kinds, kind, level, options, folder)
    for f in failures:
        print(f)
    print(f"{len(SHEETS) * 4} sheets, {len(failures)} differences")
    raise SystemExit(1 if failures else 0)


main()
