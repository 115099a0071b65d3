#!/usr/bin/python3
# Papers of the show office read back: SVG by an XML library, PDF by poppler's pdftotext, against
# what `results` says.
# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: sheet_office_check.py RINGTRUE SHOW CLASS...

For every class:
 - on the results, each entry that is placed has its place, number and score on one line, its
   driver and horses whole in their columns, and every judge's points and place;
 - each entry that is not placed stands below with its status;
 - the marking sheets have every item of the test with its words, once for each entry that may
   start and each judge, and lie in the order of the start times;
 - every page says "page n of m" rightly.
Prints what differs; exit status 1 when something does.
"""
import html
import json
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET

SVG = "{http://www.w3.org/2000/svg}"
failures = []
compared = 0


def check(where, got, want):
    global compared
    compared += 1
    if got != want:
        failures.append(f"{where}: {got!r}, not {want!r}")


def run(ringtrue, show, *words):
    done = subprocess.run([ringtrue, "--show", show, "--date", "2026-05-09 18:30", *words],
                          capture_output=True, text=True)
    if done.returncode not in (0, 1):
        raise SystemExit(f"{' '.join(words)}: {done.stderr}")
    return done.stdout


def report(ringtrue, show, *words):
    return json.loads(run(ringtrue, show, "--format", "json", *words))


def plain(text):
    return " ".join(text.replace("\u00a0", " ").split())


class Paper:
    """The words of an SVG sheet: (page, y, x, role, words), in reading order."""

    def __init__(self, path):
        self.words = []
        for page, group in enumerate(g for g in ET.parse(path).getroot().iter(SVG + "g")
                                     if g.get("id", "").startswith("page-")):
            self.take(page + 1, group)
        if not self.words:
            self.take(1, ET.parse(path).getroot())
        self.words.sort(key=lambda w: (w[0], w[1], w[2]))

    def take(self, page, root):
        for text in root.iter(SVG + "text"):
            self.words.append((page, float(text.get("y")), float(text.get("x")),
                               text.get("class"), plain("".join(text.itertext()))))

    def role(self, name):
        return [w for w in self.words if w[3] == name]

    def pages(self, where):
        """Numbers of the pages run from 1 to what they say, sheet by sheet."""
        expected = 1
        for _, _, _, _, words in self.role("page"):
            page, of = map(int, re.fullmatch(r"page (\d+) of (\d+)", words).groups())
            check(f"{where}, page", page, expected)
            expected = 1 if page == of else page + 1
        check(f"{where}, the last page", expected, 1)


def number(value):
    return None if value is None else float(value)


def check_results(ringtrue, show, folder, name):
    path = os.path.join(folder, "results.svg")
    run(ringtrue, show, "sheet", "results", name, "--out", path)
    paper, of = Paper(path), report(ringtrue, show, "results", name)
    paper.pages(f"results of {name}")
    cells = paper.role("cell")
    lines = {}
    for page, y, x, _, words in cells:
        lines.setdefault((page, y), []).append((x, words))
    for r in of["results"]:
        where = f"results of {name}, number {r['number']}"
        line = [sorted(v) for v in lines.values()
                if str(r["number"]) in [w for _, w in v][:2]]
        check(where + ", lines", len(line), 1)
        if len(line) != 1:
            continue
        words = [w for _, w in line[0]]
        if r["place"]:
            check(where + ", place", words[0], str(r["place"]))
            check(where + ", score", number(words[-1]), r["score"])
        else:
            check(where + ", status", any(w.startswith(r["status"].split()[0]) for w in words),
                  True)
        for text in (r["driver"], "; ".join(r["horses"])):
            check(f"{where}, {text}", words_in(cells, line[0], text), True)
    for j in of["judges"]:
        want = f"{j['position']} {j['points']:.1f}" + (f" ({j['place']})" if j["place"] else "")
        placed = next(r["place"] for r in of["results"] if r["number"] == j["number"])
        if placed:
            check(f"results of {name}, {j['number']} {want}",
                  any(want in w[4] for w in cells), True)


def words_in(cells, line, text):
    """Whether text stands whole in a column, from the line down, over as many lines as it takes."""
    first_words = text.split()[0]
    for x, words in line:
        if not first_words.startswith(words.split()[0]) and not words.startswith(first_words):
            continue
        column = "".join(w[4] for w in cells if abs(w[2] - x) < 0.01)
        if text.replace(" ", "") in column.replace(" ", ""):
            return True
    return False


def check_marking(ringtrue, show, folder, name, items):
    path = os.path.join(folder, "marking.svg")
    run(ringtrue, show, "sheet", "marking", name, "--out", path)
    paper, of = Paper(path), report(ringtrue, show, "results", name)
    paper.pages(f"marking sheets of {name}")
    starts = sum(r["status"] not in ("withdrawn", "did not start") for r in of["results"])
    judges = len(of["summary"][0]["judges"])
    said = plain(" ".join(w[4] for w in paper.role("movement")))
    for item in items:
        check(f"marking sheets of {name}, item {item['item']}",
              said.count(plain(item["movement"])) >= starts * judges, True)
    check(f"marking sheets of {name}, boxes",
          len([w for w in paper.role("item")]), starts * judges * len(items))
    pile = [int(n) for w in paper.role("about") for n in re.findall(r"^Number (\d+):", w[4])]
    pile = list(dict.fromkeys(pile))
    asked = report(ringtrue, show, "times", "--class", name)["times"]
    order = [t["number"] for t in asked if t["number"] in pile]
    check(f"marking sheets of {name}, as they start", [n for n in pile if n in order], order)
    pdf = os.path.join(folder, "marking.pdf")
    run(ringtrue, show, "sheet", "marking", name, "--out", pdf)
    text = plain(subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True,
                                check=True).stdout)
    for r in of["results"]:
        if r["status"] not in ("withdrawn", "did not start"):
            check(f"marking sheets of {name}, number {r['number']}",
                  text.count(f"Number {r['number']}: ") >= judges, True)


def check_pile(ringtrue, show, folder, name):
    """The sheets of everybody in one PDF: poppler finds a bookmark for each, at its own page."""
    path = os.path.join(folder, "own.pdf")
    run(ringtrue, show, "sheet", "driver", name, "--all", "--no-route", "--out", path)
    told = subprocess.run(["pdftohtml", "-xml", "-i", "-stdout", path], capture_output=True,
                          text=True, check=True).stdout
    marks = re.findall(r'<item page="(\d+)">(\d+) ([^<]*)</item>', told)
    of = report(ringtrue, show, "results", name)["results"]
    want = {(r["number"], r["driver"]) for r in of if r["score"] is not None}
    check(f"own sheets of {name}, bookmarks",
          {(int(n), html.unescape(d)) for _, n, d in marks}, want)
    for page, n, _ in marks:
        text = subprocess.run(["pdftotext", "-f", page, "-l", page, path, "-"],
                              capture_output=True, text=True, check=True).stdout
        check(f"own sheets of {name}, number {n} at page {page}", f"Number {n}:" in text, True)


def main():
    ringtrue, show = os.path.realpath(sys.argv[1]), os.path.realpath(sys.argv[2])
    with tempfile.TemporaryDirectory() as folder:
        for name in sys.argv[3:]:
            judged = report(ringtrue, show, "judging", name)
            items = [{"item": m["item"], "movement": m["movement"]} for m in judged["movements"]]
            check_results(ringtrue, show, folder, name)
            check_marking(ringtrue, show, folder, name, items)
            check_pile(ringtrue, show, folder, name)
    for failure in failures[:40]:
        print(failure)
    print(f"{compared} things compared, {len(failures)} differ")
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
