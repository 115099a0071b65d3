#!/usr/bin/python3
# Every row of `turns`, for every shipped ring and level, against arcs drawn point by point.
# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: drive_tangent.py RINGTRUE

The lines of each turn are read from its name and from the published places of the letters; the
arc is then sampled and compared with begin, finish, length, straight and words of the row, and
the largest diameter found by trying. Nothing of this is taken from the program under test.

Letters: ridden rings, shortenyourreins.com "Arenas", US Equestrian DR126; driven rings, iFokus
Koerning "Dressyrbanan" (2011), with V P S R of 40 x 80 at 25 and 55 m from memory. Diameters:
common practice in driven dressage; ridden, USDF Connection "Geometry 3" and FEI Art. 409."""
import json
import re
import subprocess
import sys

import numpy as np

KINDS = {  # discipline, width, length, then K F D, V P L, E B X, S R I, H M G from the A end
    "ridden-20x40": ("ridden", 20, 40, [6, None, 20, None, 34]),
    "ridden-20x60": ("ridden", 20, 60, [6, 18, 30, 42, 54]),
    "driven-40x80": ("driven", 40, 80, [10, 25, 40, 55, 70]),
    "driven-40x100": ("driven", 40, 100, [10, 30, 50, 70, 90]),
}
LEVELS = {
    "driven": {"training": 20, "preliminary": 20, "intermediate": 18, "advanced": 15},
    "ridden": {"introductory": 10, "training": 10, "first": 10, "second": 10, "third": 8,
               "advanced": 6},
}
CORNERS = {"AK": (-1, -1), "HC": (-1, 1), "CM": (1, 1), "FA": (1, -1)}
TROT_M_PER_S = 3.61  # H. M. Clayton, EVJ 26:230 (1994), working trot
MM = 1e-3
SAMPLES = 4001

failures = []
checks = 0


def check(good, where, what):
    global checks
    checks += 1
    if not good:
        failures.append(f"{where}: {what}")


def rotated(u, hand):
    """A direction a right angle further to that hand."""
    return np.array([-u[1], u[0]]) if hand == "left" else np.array([u[1], -u[0]])


class Ring:
    def __init__(self, kind, track):
        _, width, length, places = KINDS[kind]
        self.w, self.l, self.quarter = width / 2 - track, length / 2 - track, width / 4
        self.letters = {"A": np.array([0, -self.l]), "C": np.array([0, self.l])}
        for names, along in zip(["KFD", "VPL", "EBX", "SRI", "HMG"], places):
            if along is not None:
                for name, x in zip(names, [-self.w, self.w, 0]):
                    self.letters[name] = np.array([x, along - length / 2])

    def corner(self, name):
        return np.array(CORNERS[name]) * [self.w, self.l]


def end_of(ring, letter):
    return np.sign(ring.letters[letter][1])


def lines_of(ring, turn, hand):
    """Where the two lines of a turn meet, their directions, and how far back and on the next
    turns of the same path stand; None for an arc of a diagonal."""
    if m := re.fullmatch(r"off the centreline at (\w)", turn):
        u = np.array([0, end_of(ring, m[1])])
        return ring.letters[m[1]], u, rotated(u, hand), 2 * ring.l, ring.w
    if m := re.fullmatch(r"onto the centreline at (\w)", turn):
        v = np.array([0, -end_of(ring, m[1])])
        back = "right" if hand == "left" else "left"
        return ring.letters[m[1]], rotated(v, back), v, ring.w, 2 * ring.l
    if m := re.fullmatch(r"corner (\w\w)(?: (after|before) (\w))?", turn):
        at = ring.corner(m[1])
        clockwise = hand == "right"
        # clockwise: HC and FA are reached along the long side, AK and CM along the short side
        by_long = (m[1] in ("HC", "FA")) == clockwise
        u = np.array([0, np.sign(at[1])]) if by_long else np.array([np.sign(at[0]), 0])
        short = ring.w if m[2] else 2 * ring.w
        check(m[2] is None or (m[2] == "before") == by_long, turn, f"{hand}: runs another way")
        return (at, u, rotated(u, hand)) + ((2 * ring.l, short) if by_long else (short, 2 * ring.l))
    if m := re.fullmatch(r"(\w) to (\w), (leave|arrive) at (\w)", turn):
        start, goal = ring.letters[m[1]], ring.letters[m[2]]
        across = (goal - start) / np.linalg.norm(goal - start)
        if m[3] == "leave":
            u = rotated(across, "right" if hand == "left" else "left")
            return start, u, across, ring.l + u[1] * start[1], 2 * ring.w
        v = rotated(across, hand)
        return goal, across, v, 2 * ring.w, ring.l - v[1] * goal[1]
    return None


def diagonal_of(ring, turn, d):
    """Both arcs of a diagonal, by turning along the first circle until its tangent touches the
    second: (begin, toward, finish, toward) of the named arc, the straight, the largest."""
    m = re.fullmatch(r"diagonal (\w)(?: X)? (\w), (leave|arrive) at (\w)", turn)
    start, goal, r = ring.letters[m[1]], ring.letters[m[2]], d / 2
    u = np.array([0, -np.sign(start[1])])
    inward = np.array([-np.sign(start[0]), 0])
    c1, c2 = start + r * inward, goal - r * inward

    def pose(angle):
        out = np.cos(angle) * u + np.sin(angle) * inward
        normal = -np.sin(angle) * u + np.cos(angle) * inward
        return c1 - r * normal, out, normal

    def beside(angle):  # how far the second circle lies from the tangent, 0 when it touches
        at, _, normal = pose(angle)
        return np.dot(c2 - at, normal) + r

    low, high = 0.0, np.pi / 2
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if beside(middle) > 0 else (low, middle)
    at, out, normal = pose(low)
    touch = c2 + r * normal
    arcs = {"leave": (start, u, at, out), "arrive": (touch, out, goal, u)}
    corner_to_letter = ring.l - abs(start[1])
    return arcs[m[3]], float(np.dot(touch - at, out)), corner_to_letter


def sampled(begin, toward, hand, r, angle):
    side = rotated(toward, hand)
    a = np.linspace(0, angle, SAMPLES)[:, None]
    return begin + r * (side + np.sin(a) * toward - np.cos(a) * side)


def check_arc(where, row, begin, toward, finish, toward_after):
    """The row's arc, drawn from its own begin, runs on to its own finish and both directions."""
    r = row["diameter_m"] / 2
    got_begin = np.array([row["begin_x_m"], row["begin_y_m"]])
    got_finish = np.array([row["finish_x_m"], row["finish_y_m"]])
    check(np.linalg.norm(got_begin - begin) < 1e-6, where, f"begins at {got_begin}, not {begin}")
    check(np.linalg.norm(got_finish - finish) < 1e-6, where, f"ends at {got_finish}, not {finish}")
    angle = row["arc_m"] / r
    points = sampled(got_begin, toward, row["hand"], r, angle)
    check(np.linalg.norm(points[-1] - got_finish) < 1e-6, where, "the arc ends elsewhere")
    last = points[-1] - points[-2]
    last /= np.linalg.norm(last)
    check(np.linalg.norm(last - toward_after) < 1e-3, where, "the arc ends in another direction")
    drawn = np.sum(np.linalg.norm(np.diff(points, axis=0), axis=1))
    check(abs(drawn - row["arc_m"]) < 1e-5, where, f"{drawn} m long, not {row['arc_m']}")
    # tangent: the arc meets each line only where it touches it, and lies on one side
    for at, along in ((got_begin, toward), (got_finish, toward_after)):
        off = (points - at) @ rotated(along, row["hand"])
        check(off.min() > -1e-9, where, "the arc crosses its line")
    check(abs(row["seconds"] - row["arc_m"] / TROT_M_PER_S) < 1e-9, where, "seconds")


def find_largest(room):
    """The largest whole decimetre whose arcs have room, by trying."""
    tenths = 0
    while room((tenths + 1) / 10):
        tenths += 1
    return tenths / 10


def places(ring, words, toward):
    """The points that words may mean, for somebody travelling in that direction."""
    m = re.fullmatch(r"(?:([\d.]+) m (past|before) (?:the )?)?([\w ]+?)(?:, ([\d.]+) m inside)?",
                     words)
    on = float(m[1] or 0) * (1 if m[2] == "past" else -1)
    if m[4]:
        at = ring.letters[m[3]]
        down = np.array([0, np.sign(toward[1])])
        return [at + on * down - float(m[4]) * np.array([np.sign(at[0]), 0])], False
    if m[3] in ring.letters:
        return [ring.letters[m[3]] + on * toward], False
    lines = [-ring.quarter, ring.quarter] if m[3] == "quarter line" else [0]
    return [np.array([x + on * toward[0], np.nan]) for x in lines], True


def check_words(where, ring, words, at, toward):
    candidates, line = places(ring, words, toward)
    off = min(np.nanmax(np.abs(c - at)) for c in candidates)
    check(off < 0.006, where, f"{words!r} is not where {at} is")
    check(not line or abs(toward[1]) < 1e-9, where, f"{words!r} on a line that is not across")


def check_row(where, ring, row, follower):
    d = row["diameter_m"]
    lines = lines_of(ring, row["turn"], row["hand"])
    if lines:
        at, u, v, before, after = lines
        expected = (at - d / 2 * u, u, at + d / 2 * v, v)
        straight = None
        largest = find_largest(lambda x: x / 2 + x / 2 <= min(before, after) + MM)
    else:
        expected, straight, gap = diagonal_of(ring, row["turn"], d)
        largest = find_largest(lambda x: x / 2 <= gap + MM / 2)
    check_arc(where, row, *expected)
    check_words(where, ring, row["begin"], expected[0], expected[1])
    check_words(where, ring, row["finish"], expected[2], expected[3])
    check(abs(row["largest_m"] - largest) < 1e-9, where, f"{row['largest_m']}, not {largest}")
    check(row["fits"] == (d <= largest + MM), where, f"fits {row['fits']}, largest {largest}")
    if row["straight_m"] is not None:
        gap = np.hypot(follower["begin_x_m"] - row["finish_x_m"],
                       follower["begin_y_m"] - row["finish_y_m"])
        check(abs(gap - row["straight_m"]) < 1e-6, where, f"{row['straight_m']}, not {gap}")
        check(straight is None or abs(straight - gap) < 1e-6, where, f"straight not {straight}")


def report(command, *words):
    run = subprocess.run([command, "--format", "json", *words], capture_output=True, check=False)
    if run.returncode != 0:
        sys.exit(f"{' '.join(words)}: exit {run.returncode}: {run.stderr.decode()}")
    return json.loads(run.stdout)


def check_table(command, kind, level, track):
    ring = Ring(kind, track)
    discipline = KINDS[kind][0]
    rows = report(command, "turns", "--kind", kind, "--level", level,
                  "--track", str(track))["turns"]
    pairs = sum(along is not None for along in KINDS[kind][3])
    check(len(rows) == 8 + 8 + 8 + 8 * pairs + 8, f"{kind} {level}", f"{len(rows)} rows")
    for row, follower in zip(rows, rows[1:] + [None]):
        where = f"{kind} {level} track {track}: {row['turn']}, {row['hand']}"
        check(row["diameter_m"] == LEVELS[discipline][level], where, "not the level's diameter")
        check_row(where, ring, row, follower)


def main():
    command = sys.argv[1]
    shipped = {row["kind"] for row in report(command, "ring", "kinds")["kinds"]}
    check(shipped == set(KINDS), "ring kinds", f"{sorted(shipped)} are shipped")
    for kind, (discipline, *_) in KINDS.items():
        for level in LEVELS[discipline]:
            for track in (0, 0.75):
                check_table(command, kind, level, track)
    for failure in failures[:50]:
        print(failure)
    print(f"{checks - len(failures)} passed, {len(failures)} failed")
    return bool(failures)


sys.exit(main())
