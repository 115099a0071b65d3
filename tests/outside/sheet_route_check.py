#!/usr/bin/python3
# The route sheet and the practice sheet against `test route` and the tapes: SVG read by an XML
# library, PDF by poppler's pdftotext.
# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: sheet_route_check.py RINGTRUE SHARE

For every test of the demo in SHARE, from every seat, as SVG:
 - every movement has a ring to one scale, and in it one thick line, whose ends lie where the arcs
   of `test route` and the straights between them put the movement's begin and end;
 - each arc of that line has the radius and the centre of an arc of `test route`;
 - an arrowhead stands at its end.
As PDF: the wording, letters, length and time of every movement and of the whole.
Cones, of every test and of levels in every kind of ring: where the two tapes cross on the side
that is told is where the cone is drawn, and every row of the table stands in the PDF.

Prints what differs; exit status 1 when something does.
"""
import csv
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

SVG = "{http://www.w3.org/2000/svg}"
WHEN = "2026-05-02 18:00"
NEAR_MM = 0.003  # the file has three decimals
KIND = "driven-40x80"
TURNS = [("driven-40x80", "intermediate"), ("driven-40x100", "training"),
         ("ridden-20x40", "second"), ("ridden-20x60", "advanced")]
# up the page and to the right, in the ring, from each seat
SEATS = {"A": ((0, 1), (1, 0)), "C": ((0, -1), (-1, 0)), "B": ((-1, 0), (0, 1)),
         "E": ((1, 0), (0, -1))}
failures = []
sheets = 0


def fail(where, text):
    failures.append(f"{where}: {text}")


def run(ringtrue, *args):
    done = subprocess.run([ringtrue, "--date", WHEN, *args], capture_output=True, text=True)
    if done.returncode not in (0, 1):
        raise SystemExit(f"{' '.join(args)}: {done.stderr}")
    return done.stdout


def numbers(text):
    return [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", text)]


def plain(text):
    return " ".join(text.split())


class Drawing:
    """A ring on a page, and what is drawn in it."""

    def __init__(self, ring, kind, seat):
        xs, ys = ring[0::2], ring[1::2]
        self.x, self.y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        across = kind["width_m"] if seat in "AC" else kind["length_m"]
        self.scale = (max(xs) - min(xs)) / across
        self.up, self.right = SEATS[seat]
        self.shapes = {}

    def point(self, x_m, y_m):
        right = x_m * self.right[0] + y_m * self.right[1]
        up = x_m * self.up[0] + y_m * self.up[1]
        return self.x + self.scale * right, self.y - self.scale * up

    def all(self, role):
        return self.shapes.get(role, [])


def drawings(path, kind, seat):
    found = []
    for e in ET.parse(path).getroot().iter(SVG + "path"):
        role = e.get("class")
        if role == "ring":
            found.append(Drawing(numbers(e.get("d")), kind, seat))
        elif found:
            found[-1].shapes.setdefault(role, []).append(e.get("d"))
    return found


def steps(d):
    """(letter, numbers) of each step of a path's data."""
    return [(m[1], numbers(m[2])) for m in re.finditer(r"([MLAZ])([^MLAZ]*)", d)]


def place(route, s):
    """The point of the route at s, from its arcs and the straights between them alone."""
    last_s, last = 0.0, (0.0, -route["length_m"] / 2)
    for t in route["turns"]:
        begin = (t["begin_x_m"], t["begin_y_m"])
        if s <= t["from_m"]:
            part = (s - last_s) / (t["from_m"] - last_s) if t["from_m"] > last_s else 0.0
            return (last[0] + part * (begin[0] - last[0]), last[1] + part * (begin[1] - last[1]))
        if s < t["from_m"] + t["arc_m"]:
            a = math.radians(t["angle_deg"]) * (s - t["from_m"]) / t["arc_m"]
            a = a if t["hand"] == "left" else -a
            x, y = begin[0] - t["centre_x_m"], begin[1] - t["centre_y_m"]
            return (t["centre_x_m"] + math.cos(a) * x - math.sin(a) * y,
                    t["centre_y_m"] + math.sin(a) * x + math.cos(a) * y)
        last_s, last = t["from_m"] + t["arc_m"], (t["finish_x_m"], t["finish_y_m"])
    # past the last arc: straight on, along its tangent
    t = route["turns"][-1]
    side = 1 if t["hand"] == "left" else -1
    x, y = last[0] - t["centre_x_m"], last[1] - t["centre_y_m"]
    r = math.hypot(x, y)
    return (last[0] - side * y / r * (s - last_s), last[1] + side * x / r * (s - last_s))


def check_leg(where, drawing, route, leg):
    driven = drawing.all("driven")
    if len(driven) != 1:
        fail(where, f"{len(driven)} thick lines")
        return
    path = steps(driven[0])
    for name, s, got in (("begins", leg["from_m"], path[0][1]), ("ends", leg["to_m"],
                                                                 path[-1][1][-2:])):
        want = drawing.point(*place(route, s))
        if math.dist(want, got) > NEAR_MM:
            fail(where, f"{name} at {got}, not {want}")
    at = path[0][1]
    for letter, n in path[1:]:
        if letter == "A":
            check_arc(where, drawing, route, at, n)
        at = n[-2:]
    heads = [numbers(d)[:2] for d in drawing.all("arrow")]
    end = path[-1][1][-2:]
    if not any(math.dist(h, end) < 2.5 for h in heads):
        fail(where, "no arrowhead at its end")


def check_arc(where, drawing, route, begin, n):
    """An arc is part of one of the route's: its ends lie on that circle, its radius is the same."""
    for t in route["turns"]:
        centre = drawing.point(t["centre_x_m"], t["centre_y_m"])
        r = t["diameter_m"] / 2 * drawing.scale
        if abs(n[0] - r) <= NEAR_MM and abs(math.dist(centre, begin) - r) <= NEAR_MM \
                and abs(math.dist(centre, n[-2:]) - r) <= NEAR_MM:
            return
    fail(where, f"an arc from {begin} to {n[-2:]} that `test route` has not got")


def pdf_text(path):
    return plain(subprocess.run(["pdftotext", "-raw", path, "-"], check=True, capture_output=True,
                                text=True).stdout)


def check_words(where, path, route, movements):
    text = pdf_text(path)
    for leg, m in zip(route["legs"], movements):
        measure = f"{leg['length_m']:.1f} m, {leg['seconds']:.1f} s at {leg['gait']}"
        for words in (m["movement"], f"{m['item']} {m['letters']}", measure):
            if plain(words) not in text:
                fail(where, f"not in the PDF: {words}")
    total = route["total"][0]
    words = f"In all: {total['length_m']:.1f} m, {total['seconds']:.1f} s"
    if words not in text:
        fail(where, f"not in the PDF: {words}")


def check_route(ringtrue, file, kind, test, movements, folder):
    global sheets
    args = [file, "--test", test["test"], "--kind", KIND, "--level", test["level"]]
    route = json.loads(run(ringtrue, "--format", "json", "test", "route", *args))
    route["length_m"] = kind["length_m"]
    for seat in SEATS:
        where = f"{test['test']} from {seat}"
        svg, pdf = os.path.join(folder, "s.svg"), os.path.join(folder, "s.pdf")
        for path in (svg, pdf):
            run(ringtrue, "sheet", "route", *args, "--seen-from", seat, "--out", path)
        found = drawings(svg, kind, seat)
        if len(found) != len(route["legs"]):
            fail(where, f"{len(found)} rings for {len(route['legs'])} movements")
        for drawing, leg in zip(found, route["legs"]):
            check_leg(f"{where}, movement {leg['movement']}", drawing, route, leg)
        check_words(where, pdf, route, movements)
        sheets += 1


def pegs(kind):
    """Letters and corners of a kind by the rows of rings.csv."""
    w, length = kind["width_m"] / 2, kind["length_m"] / 2
    out = {"AK": (-w, -length), "HC": (-w, length), "CM": (w, length), "FA": (w, -length)}
    for name, side, offset in kind["letters"]:
        out[name] = {"left": (-w, offset - length), "right": (w, offset - length),
                     "a": (offset - w, -length), "c": (offset - w, length),
                     "centre": (0, offset - length)}[side]
    return out


def crossings(p, d, q, e):
    between = math.dist(p, q)
    ux, uy = (q[0] - p[0]) / between, (q[1] - p[1]) / between
    a = (between ** 2 + d ** 2 - e ** 2) / (2 * between)
    h = math.sqrt(max(0, d * d - a * a))
    return [(p[0] + a * ux - s * h * uy, p[1] + a * uy + s * h * ux) for s in (1, -1)]


def told(kind, cone):
    where = pegs(kind)
    p, q = where[cone["letter_1"]], where[cone["letter_2"]]
    both = crossings(p, cone["distance_1_m"], q, cone["distance_2_m"])
    if cone["side"] == "at the letter":
        return p
    if cone["side"] == "inside the ring":
        inside = [c for c in both if abs(c[0]) < kind["width_m"] / 2 + 0.05
                  and abs(c[1]) < kind["length_m"] / 2 + 0.05]
        return inside[0] if len(inside) == 1 else (math.inf, math.inf)
    third = where[cone["side"].split()[-1]]

    def off(c):
        return (q[0] - p[0]) * (c[1] - p[1]) - (q[1] - p[1]) * (c[0] - p[0])
    return next(c for c in both if off(c) * off(third) > 0)


def check_cones(ringtrue, kind, where, args, folder):
    global sheets
    svg, pdf = os.path.join(folder, "c.svg"), os.path.join(folder, "c.pdf")
    cones = json.loads(run(ringtrue, "--format", "json", "sheet", "cones", *args, "--out",
                           svg))["cones"]
    run(ringtrue, "sheet", "cones", *args, "--out", pdf)
    text = pdf_text(pdf)
    dots = []
    for drawing in drawings(svg, kind, "A"):
        for d in drawing.all("cone"):
            n = numbers(d)
            dots.append((drawing, (n[0] - n[2], n[1])))  # it begins a radius to the right
    for cone in cones:
        name = f"{where}, cone {cone['cone']}"
        if not cone["letter_1"]:
            fail(name, "no tapes")
            continue
        at = told(kind, cone)
        if not any(math.dist(drawing.point(*at), dot) < 0.02 for drawing, dot in dots):
            fail(name, f"tapes cross at {at}, where no cone is drawn")
        words = plain(f"{cone['where']}")
        tapes = [f"{cone[f'letter_{i}']} {cone[f'distance_{i}_m']:.2f} m" for i in (1, 2)]
        for w in (words, *tapes):
            if w not in text:
                fail(name, f"not in the PDF: {w}")
    sheets += 1


def main():
    if len(sys.argv) != 3:
        raise SystemExit(__doc__)
    ringtrue, share = sys.argv[1:]
    kinds = {}
    with open(os.path.join(share, "rings.csv"), encoding="utf-8") as f:
        for row in csv.DictReader(f):
            kind = kinds.setdefault(row["kind"], {"width_m": float(row["width_m"]),
                                                  "length_m": float(row["length_m"]),
                                                  "letters": []})
            kind["letters"].append((row["peg"], row["side"], float(row["offset_m"])))
    with open(os.path.join(share, "demo", "tests.csv"), encoding="utf-8") as f:
        tests = list(csv.DictReader(f))
    file = os.path.join(share, "demo", "movements.csv")
    with open(file, encoding="utf-8") as f:
        movements = [m for m in csv.DictReader(f) if m["group"] == "movement"]
    with tempfile.TemporaryDirectory() as folder:
        for test in tests:
            check_route(ringtrue, file, kinds[KIND], test,
                        [m for m in movements if m["test"] == test["test"]], folder)
            check_cones(ringtrue, kinds[KIND], test["test"],
                        [file, "--test", test["test"], "--kind", KIND, "--level", test["level"]],
                        folder)
        for kind, level in TURNS:
            check_cones(ringtrue, kinds[kind], f"{kind} {level}",
                        ["--turns", "--kind", kind, "--level", level], folder)
    for f in failures:
        print(f)
    print(f"{sheets} sheets, {len(failures)} differences")
    raise SystemExit(1 if failures else 0)


main()
