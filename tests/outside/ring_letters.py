#!/usr/bin/python3
"""The shipped kinds of ring against published ring rules, by what the command says.

Letters, metres from the A end:
 - ridden 20x40: shortenyourreins.com "Arenas"; tipps-zum-pferd.de
 - ridden 20x60: the same; US Equestrian DR126
 - driven 40x80: K F H M and D G iFokus Koerning "Dressyrbanan" (2011), Fjord Herald "Setting up a
   driving dressage arena 40x80"; V P S R and L I from memory: check the rulebook in force
 - driven 40x100: iFokus Koerning (2011)
Squaring by 15, 20 and 25 m: iFokus.  Strings of 44.72 and 63.25 m: Gauteng Smallholder, November
2015.  Diagonals and 4 m boards: computed from the sizes.

usage: ring_letters.py RINGTRUE
SPDX-License-Identifier: GPL-3.0-or-later"""
import json
import os
import subprocess
import sys

COMMAND = os.path.abspath(sys.argv[1])
os.environ.setdefault("RINGTRUE_DATA", os.path.join(os.path.dirname(os.path.abspath(__file__)),
                                                    "..", "..", "share"))
LEFT, RIGHT, CENTRE = "KVESH", "FPBRM", "DLXIG"  # facing each other, and level with them
KINDS = {
    "ridden-20x40": ("ridden", 20, 40, {"K": 6, "E": 20, "H": 34}, 44.721, 30),
    "ridden-20x60": ("ridden", 20, 60, {"K": 6, "V": 18, "E": 30, "S": 42, "H": 54}, 63.246, 40),
    "driven-40x80": ("driven", 40, 80, {"K": 10, "V": 25, "E": 40, "S": 55, "H": 70}, 89.443, 60),
    "driven-40x100": ("driven", 40, 100, {"K": 10, "V": 30, "E": 50, "S": 70, "H": 90}, 107.703, 70),
}
failures = 0


def check(what, got, expected):
    global failures
    if got != expected:
        failures += 1
        print("FAIL %s: %r, not %r" % (what, got, expected))


def ask(*words):
    done = subprocess.run([COMMAND, "--format", "json", *words], capture_output=True, text=True)
    if done.returncode:
        sys.exit(done.stderr)
    return json.loads(done.stdout)


def expected_pegs(width, length, letters):
    """Name -> (x, y, side, along) of every peg."""
    x, y = width / 2, length / 2
    pegs = {"A": (0, -y, "a", x), "C": (0, y, "c", x),
            "AK": (-x, -y, "left", 0), "HC": (-x, y, "left", length),
            "FA": (x, -y, "right", 0), "CM": (x, y, "right", length)}
    for letter, along in letters.items():
        i = LEFT.index(letter)
        pegs[letter] = (-x, along - y, "left", along)
        pegs[RIGHT[i]] = (x, along - y, "right", along)
        pegs[CENTRE[i]] = (0, along - y, "centre", along)
    return pegs


def main():
    kinds = {row["kind"]: row for row in ask("ring", "kinds")["kinds"]}
    check("kinds", sorted(kinds), sorted(KINDS))
    for kind, (discipline, width, length, letters, diagonal, boards) in KINDS.items():
        row, setout = kinds[kind], ask("ring", "setout", "--kind", kind)
        pegs = expected_pegs(width, length, letters)
        check(kind, (row["discipline"], row["width_m"], row["length_m"]),
              (discipline, width, length))
        check(kind + " letters", sorted(row["letters"]),
              sorted(p for p in pegs if len(p) == 1))
        check(kind + " pegs", {p["peg"]: (p["x_m"], p["y_m"], p["side"], p["along_m"])
                               for p in setout["pegs"]}, pegs)
        check(kind + " diagonals", sorted((c["from"], c["to"], round(c["distance_m"], 3))
                                          for c in setout["checks"] if c["what"] == "diagonal"),
              [("AK", "CM", diagonal), ("FA", "HC", diagonal)])
        check(kind + " right angles", [(c["from"].split()[0], c["to"].split()[0], c["distance_m"])
                                       for c in setout["checks"] if "right angle" in c["what"]],
              [("15", "20", 25)] * 4)
        check(kind + " boards", [b["boards"] for b in setout["boards"] if b["side"] == "all"],
              [boards])
        doubtful = {p["peg"] for p in setout["pegs"] if "rulebook" in (p["note"] or "")}
        check(kind + " to be checked", doubtful,
              set("VPSR") if kind == "driven-40x80" else set())
    print("%d kinds compared, %d failures" % (len(KINDS), failures))
    sys.exit(1 if failures else 0)


main()
