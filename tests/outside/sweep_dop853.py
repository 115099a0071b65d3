#!/usr/bin/python3
# The sweep against scipy's DOP853 on random turnouts: through the command on one turn, through
# the library on random routes.
# SPDX-License-Identifier: GPL-3.0-or-later
"""usage: sweep_dop853.py RINGTRUE SWEEP_BATCH

DOP853 is the explicit Runge-Kutta method of order 8(5,3) of Hairer, Norsett and Wanner, here with
a relative tolerance of 1e-12; headings are integrated as angles, the distance from the route is
the smallest to any of its pieces between the axle and the fore feet. Prints the largest
differences and how the error shrinks with the step; exit status 1 over 1e-5 m."""
import json
import os
import random
import subprocess
import sys
import tempfile

import numpy as np
from scipy.integrate import solve_ivp

LIMIT_M = 1e-5
SAMPLE_M = 0.004


class Route:
    """Pieces (length, curvature) from the origin along x, straight before and after."""

    def __init__(self, pieces):
        self.pieces = []
        s, x, y, a = 0.0, 0.0, 0.0, 0.0
        for length, k in pieces:
            self.pieces.append((s, length, k, x, y, a))
            x, y, a = self.on(x, y, a, k, length)
            s += length
        self.length = s
        self.end = (x, y, a)

    @staticmethod
    def on(x, y, a, k, s):
        if k == 0.0:
            return x + s * np.cos(a), y + s * np.sin(a), a + 0.0 * s
        return (x + (np.sin(a + k * s) - np.sin(a)) / k,
                y - (np.cos(a + k * s) - np.cos(a)) / k, a + k * s)

    def at(self, s):
        """x, y and heading at every s of an array (negative: straight before the start)."""
        s = np.asarray(s, float)
        out = np.array([s, 0 * s, 0 * s])
        for begin, length, k, x, y, a in self.pieces:
            here = (s >= begin) & (s <= begin + length)
            if here.any():
                out[:, here] = np.array(self.on(x, y, a, k, s[here] - begin))
        return out

    def off(self, x, y, s, back):
        """Signed distance to the left from the nearest piece within [s - back, s], and which
        hands (bits: 1 left, 2 right) count as the inside there."""
        best = np.full(x.shape, np.inf)
        off = np.zeros(x.shape)
        hands = np.zeros(x.shape, int)
        pieces = [(-1e3, 1e3, 0.0, -1e3, 0.0, 0.0)] + self.pieces
        curves = [p[2] for p in pieces]
        for i, (begin, length, k, px, py, a) in enumerate(pieces):
            u, n = (np.cos(a), np.sin(a)), (-np.sin(a), np.cos(a))
            if k == 0.0:
                along = (x - px) * u[0] + (y - py) * u[1]
                d = (x - px) * n[0] + (y - py) * n[1]
                before = next((c for c in reversed(curves[:i]) if c), 0.0)
                after = next((c for c in curves[i + 1:] if c), 0.0)
                inside = sum({1 if c > 0 else 2 for c in (before, after) if c})
            else:
                cx, cy = px + n[0] / k, py + n[1] / k
                turn = np.arctan2(y - cy, x - cx) - np.arctan2(py - cy, px - cx)
                along = np.mod(np.sign(k) * turn, 2 * np.pi) / abs(k)
                d = np.sign(k) * (1 / abs(k) - np.hypot(x - cx, y - cy))
                inside = 1 if k > 0 else 2
            at = begin + along
            slack = 1e-9
            good = (along >= -slack) & (along <= length + slack) & (at <= s + slack) & \
                   (at >= s - back)
            nearer = good & (np.abs(d) < best)
            best[nearer], off[nearer], hands[nearer] = np.abs(d)[nearer], d[nearer], inside
        return off, hands


def follow(parts, route, two_track):
    """s of the lead, axles (x, y, heading) of every part at samples."""
    first, lag, tail = 0, 0.0, parts[0][0]
    if two_track:
        hitch = parts[1][0] if len(parts) > 1 else 0.0
        first, lag, tail = 1, max(0.0, parts[0][1] + min(hitch, 0.0)), max(hitch, 0.0)
    rolling = parts[first:]
    end = route.length - lag
    states, samples = [], []
    theta = np.zeros(len(rolling))
    for begin, length, k, _, _, a in route.pieces:
        stop = min(begin + length, end)
        if stop <= begin:
            break

        def rates(s, th, a=a, k=k, begin=begin):
            h = a + k * (s - begin)
            vx, vy = np.cos(h) + tail * k * np.sin(h), np.sin(h) - tail * k * np.cos(h)
            out = np.empty_like(th)
            for i, (_, long, _) in enumerate(rolling):
                c, n = np.cos(th[i]), np.sin(th[i])
                w = (vy * c - vx * n) / long
                ax, ay = vx + w * long * n, vy - w * long * c  # velocity of the axle
                out[i] = w
                if i + 1 < len(rolling):
                    behind = rolling[i + 1][0]
                    vx, vy = ax + behind * w * n, ay - behind * w * c
            return out

        s = np.append(np.arange(begin, stop, SAMPLE_M), stop)
        if len(rolling):
            sol = solve_ivp(rates, (begin, stop), theta, method="DOP853", rtol=1e-12, atol=1e-13,
                            dense_output=True)
            states.append(sol.sol(s))
            theta = sol.y[:, -1]
        samples.append(s)
    s = np.concatenate(samples)
    th = np.concatenate(states, axis=1) if states else np.zeros((0, s.size))
    x, y, h = route.at(s)
    axles = []
    if two_track:
        axles.append(route.at(s + lag - parts[0][1]))
    x, y = x - tail * np.cos(h), y - tail * np.sin(h)
    for i, (_, long, _) in enumerate(rolling):
        c, n = np.cos(th[i]), np.sin(th[i])
        x, y = x - long * c, y - long * n
        axles.append(np.array([x, y, th[i]]))
        if i + 1 < len(rolling):
            x, y = x - rolling[i + 1][0] * c, y - rolling[i + 1][0] * n
    return s, axles


def largest(v):
    """The top of a sampled curve, by a parabola through the three highest neighbours."""
    i = int(np.argmax(v))
    if 0 < i < len(v) - 1:
        a, b = (v[i + 1] + v[i - 1]) / 2 - v[i], (v[i + 1] - v[i - 1]) / 2
        if a < 0 and abs(b) < -2 * a:
            return v[i] - b * b / (4 * a)
    return v[i]


def cut_ins(parts, route, two_track=False):
    s, axles = follow(parts, route, two_track)
    back = 2.0 * sum(p[1] + abs(p[0]) for p in parts)  # on the inside of an arc it looks longer
    out = []
    for i, (x, y, _) in enumerate(axles):
        if two_track and i == 0:
            out.append(0.0)
            continue
        off, hands = route.off(x, y, s, back)
        inside = np.maximum(np.where(hands & 1, off, -1), np.where(hands & 2, -off, -1))
        out.append(max(0.0, largest(inside)))
    return out, axles[-1][:, -1]


def random_turnout(rng):
    """A horse and what hangs behind it, hitched before or behind the axle in front."""
    parts = [(0.0, rng.uniform(0.5, 1.6), 0.7)]
    for _ in range(rng.randint(0, 4)):
        parts.append((rng.choice([0.0, rng.uniform(-1.2, 1.2)]), rng.uniform(0.8, 3.0),
                      rng.uniform(1.0, 1.7)))
    return parts


def random_route(rng):
    pieces, hand = [(rng.uniform(0, 10), 0.0)], 1
    for _ in range(rng.randint(2, 6)):
        radius = rng.uniform(6, 12)
        hand = rng.choice([hand, -hand])
        pieces.append((radius * np.radians(rng.uniform(20, 300)), hand / radius))
        if rng.random() < 0.7:
            pieces.append((rng.uniform(0.5, 30), 0.0))
    return pieces + [(rng.uniform(1, 20), 0.0)]


def by_command(ringtrue, rng, count):
    worst, rows, cases = 0.0, ["turnout,part,hitch_m,length_m,width_m"], []
    for i in range(count):
        parts = random_turnout(rng)
        rows += [f"t{i},p{k},{h!r},{l!r},{w!r}" for k, (h, l, w) in enumerate(parts)]
        cases.append((f"t{i}", parts, rng.uniform(8, 25), rng.uniform(15, 360)))
    with tempfile.TemporaryDirectory() as folder:
        file = os.path.join(folder, "turnouts.csv")
        with open(file, "w", encoding="utf-8") as out:
            out.write("\n".join(rows) + "\n")
        for i, (name, parts, diameter, angle) in enumerate(cases):
            two_track = i % 4 == 3
            words = [ringtrue, "--format", "json", "sweep", "--turnout", name, "--turnouts", file,
                     "--diameter", repr(diameter), "--angle", repr(angle)]
            got = json.loads(subprocess.run(words + ["--two-track"] * two_track, check=True,
                                            capture_output=True, text=True).stdout)["parts"]
            arc = diameter / 2 * np.radians(angle)
            want, _ = cut_ins(parts, Route([(40, 0.0), (arc, 2 / diameter), (40, 0.0)]),
                              two_track)
            worst = max([worst] + [abs(g["cut_in_m"] - w) for g, w in zip(got, want)])
    return worst


def batch(program, cases, step):
    text = []
    for two_track, parts, pieces in cases:
        text.append(f"{int(two_track)} {len(parts)}")
        text += [f"{h!r} {l!r} {w!r}" for h, l, w in parts]
        text.append(str(len(pieces)))
        text += [f"{float(l)!r} {float(k)!r}" for l, k in pieces]
    out = subprocess.run([program, repr(step)], input="\n".join(text), check=True,
                         capture_output=True, text=True).stdout
    return [[float(v) for v in line.split()] for line in out.splitlines()]


def by_library(program, rng, count):
    cases = [(i % 4 == 3, random_turnout(rng), random_route(rng)) for i in range(count)]
    wanted = [cut_ins(parts, Route(pieces), two) for two, parts, pieces in cases]
    print("step (m)    cut-in off by (m)   last axle at the end off by (m)")
    first = None
    for step in [0.0, 0.04, 0.02, 0.01, 0.005, 0.0025]:
        cut = pose = 0.0
        for got, (want, end) in zip(batch(program, cases, step), wanted):
            cut = max([cut] + [abs(g - w) for g, w in zip(got, want)])
            pose = max(pose, float(np.hypot(got[-3] - end[0], got[-2] - end[1])))
        first = first or max(cut, pose)
        print(f"{step or 'its own':<11} {cut:<19.1e} {pose:.1e}")
    return first


def main():
    rng = random.Random(19621)
    command = by_command(sys.argv[1], rng, 40)
    print(f"40 random turnouts by the command: largest difference {command:.1e} m")
    routes = by_library(sys.argv[2], rng, 30)
    print(f"30 random routes by the library: largest difference {routes:.1e} m")
    return int(not max(command, routes) <= LIMIT_M)


sys.exit(main())
