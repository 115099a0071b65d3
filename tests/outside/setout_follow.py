#!/usr/bin/python3
"""Set-outs followed to the letter by what the command says, and checked by the command itself.

A crew of our own reads steps[] (JSON), works them in a field that is turned and shifted, and its
pegs are held against the pegs of published rings: the sides, and diagonals by Pythagoras.  With
exact tapes every peg stands within 1 mm; the reading form, filled in with what stands, is a file
of readings in which `ring check` finds a true ring, every peg of it and nothing unchecked; and
with one peg knocked over by 0.30 m it finds that peg.

usage: setout_follow.py RINGTRUE
SPDX-License-Identifier: GPL-3.0-or-later"""
import cmath
import csv
import io
import itertools
import json
import os
import subprocess
import sys
import tempfile

COMMAND = os.path.abspath(sys.argv[1])
os.environ.setdefault("RINGTRUE_DATA", os.path.join(os.path.dirname(os.path.abspath(__file__)),
                                                    "..", "..", "share"))
KINDS = {"ridden-20x40": (20, 40), "ridden-20x60": (20, 60), "driven-40x80": (40, 80),
         "driven-40x100": (40, 100)}
CREWS = ([], ["--tapes", "2"], ["--tape", "50", "--tapes", "2"], ["--tape", "12"],
         ["--hold", "AK", "--hold", "HC", "--tapes", "2"],
         ["--hold", "A=40.0,10.0", "--hold", "C=40.0,%(far)s", "--tape", "50"],
         ["--hold", "gate=-26,-62", "--hold", "post=24,-63", "--tape", "60", "--tapes", "2"])
TURN, SHIFT = cmath.rect(1, 0.7), complex(310, -92)
failures = 0


def check(what, good):
    global failures
    if not good:
        failures += 1
        print("FAIL " + what)


def ask(*words, status=(0,), form="json"):
    done = subprocess.run([COMMAND, "--format", form, *words], capture_output=True, text=True)
    if done.returncode not in status:
        sys.exit("%s: %s" % (" ".join(words), done.stderr))
    return json.loads(done.stdout) if form == "json" else done.stdout


def cross(a, ra, b, rb, hand):
    """Where circles round a and b meet, on that hand of somebody at a who looks to b."""
    d = abs(b - a)
    along = (ra * ra - rb * rb + d * d) / (2 * d)
    across = max(ra * ra - along * along, 0) ** 0.5
    return a + (b - a) / d * complex(along, across if hand == "left" else -across)


def follow(steps, place, far):
    """Work the steps; `place` holds what stands already, and the answer."""
    for s in steps:
        kind, peg = s["kind"], s["peg"]
        if kind == "stand":
            place[peg] = SHIFT
        elif kind == "sight":
            place[peg] = place[s["hold"]] + 0.6 * far * TURN * 1j
        elif kind == "run":
            a, b = place[s["line_from"]], place[s["line_to"]]
            place[peg] = place[s["hold"]] + (b - a) / abs(b - a) * s["distance_m"]
        elif kind == "cross":
            place[peg] = cross(place[s["hold"]], s["distance_m"], place[s["second"]],
                               s["second_m"], s["hand"])
    return place


def shapes(place, pegs):
    """The largest error of all distances between pegs."""
    worst = 0
    for a, b in itertools.combinations(pegs, 2):
        worst = max(worst, abs(abs(place[a] - place[b]) - abs(pegs[a] - pegs[b])))
    return worst


def judged(kind, place, status):
    """What `ring check` says of the filled-in form."""
    rows = list(csv.reader(io.StringIO(ask("ring", "setout", "--kind", kind, "--form",
                                           form="csv"))))
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "readings.csv")
        with open(path, "w", newline="", encoding="utf-8") as out:
            writer = csv.writer(out)
            writer.writerow(rows[0])
            for a, b, empty, note in rows[1:]:
                check("%s: the form is empty" % kind, empty == "")
                writer.writerow([a, b, "%.4f" % abs(place[a] - place[b]), note])
        return ask("ring", "check", "--kind", kind, path, status=status)


def main():
    for kind, (width, length) in KINDS.items():
        for crew in CREWS:
            words = [w % {"far": repr(10.0 + length)} for w in crew]
            said = ask("ring", "setout", "--kind", kind, *words)
            pegs = {p["peg"]: complex(p["x_m"], p["y_m"]) for p in said["pegs"]}
            what = "%s %s" % (kind, " ".join(words))
            x, y = width / 2, length / 2
            check(what + ": corners", [pegs[c] for c in ("AK", "HC", "CM", "FA")] ==
                  [complex(-x, -y), complex(-x, y), complex(x, y), complex(x, -y)])
            held = {"AK": pegs["AK"], "HC": pegs["HC"]} if "AK" in words else \
                {"gate": complex(-26, -62), "post": complex(24, -63)} if "gate=-26,-62" in words \
                else {"A": pegs["A"], "C": pegs["C"]} if "held" in said else {}
            place = follow(said["steps"], {n: SHIFT + TURN * p for n, p in held.items()}, length)
            check(what + ": every peg stands", all(p in place for p in pegs))
            check(what + ": true to 1 mm", shapes(place, pegs) < 0.001)
        found = judged(kind, place, (0,))
        check(kind + ": the form finds a true ring", found["summary"][0]["verdict"] == "true")
        check(kind + ": every peg is good",
              {p["peg"]: p["verdict"] for p in found["pegs"]} == dict.fromkeys(pegs, "good"))
        check(kind + ": nothing unchecked",
              all(r["verdict"] == "good" for r in found["readings"]))
        place["B"] += 0.30 * TURN
        found = judged(kind, place, (1,))
        check(kind + ": the peg that was knocked over",
              [p["peg"] for p in found["pegs"] if p["verdict"] == "move"] == ["B"])
    print("set-outs followed: %d plans, %d failed" % (len(KINDS) * len(CREWS), failures))
    sys.exit(failures != 0)


main()
