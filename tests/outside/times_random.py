#!/usr/bin/python3
# Start times of random shows, looked at by a verifier that knows only the rules and reads only
# what the command says: nobody and nothing in two places, every gap as it was asked for, breaks
# and harrowing where they were asked for, drawn order kept, musts met or told as missed, the
# bound no later than the last finish.  Then the day itself: rings that are late and starts that
# are moved, where only what must move may have moved, and every new collision must be told.
# The draw is made a second time by an independent splitmix64 and shuffle.
#
# usage: times_random.py RINGTRUE [SHOWS [SEED]]      SHOWS 12, SEED 1
#
# SPDX-License-Identifier: GPL-3.0-or-later
import csv
import json
import os
import random
import subprocess
import sys
import tempfile
import unicodedata

RINGTRUE = os.path.abspath(sys.argv[1])
SHOWS = int(sys.argv[2]) if len(sys.argv) > 2 else 12
SEED = int(sys.argv[3]) if len(sys.argv) > 3 else 1
GAPS = {"driver": 20, "horse": 40, "groom": 10, "carriage": 20, "judge": 10}
DAY = 86400


def fold(name):
    plain = unicodedata.normalize("NFKD", name).casefold()
    return " ".join("".join(c for c in plain if not unicodedata.combining(c)).split())


def write_csv(path, head, rows):
    with open(path, "w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(head)
        writer.writerows(rows)


class Show:
    """A show at random, and the command on it."""

    def __init__(self, folder, rng):
        self.folder, self.rng = folder, rng
        self.file = os.path.join(folder, "show")
        self.days = rng.choice([1, 1, 2])
        self.rings = ["Ring %d" % (i + 1) for i in range(rng.randint(1, 4))]
        self.classes, self.entries, self.plan, self.wishes = [], [], [], []
        people = ["Örjan %d" % i for i in range(rng.randint(8, 40))]
        horses = ["Horse %d" % i for i in range(rng.randint(20, 60))]
        judges = ["Judge %d" % i for i in range(rng.randint(3, 6))]
        carriages = ["Gig %d" % i for i in range(4)]
        number = 0
        for k in range(rng.randint(2, 10)):
            name = "C%d" % (k + 1)
            ring = rng.choice(self.rings + ["", ""])
            sit = rng.sample(judges, rng.randint(1, 2))
            self.classes.append([name, name, "T", "", ring, "", " ".join("CB"[:len(sit)]), "; ".join(sit)])
            for _ in range(rng.randint(1, 14)):
                number += 1
                driver = rng.choice(people)
                team = rng.sample(horses, rng.choice([1, 1, 2]))
                groom = rng.choice(people + [""] * 10)
                self.entries.append([name, number, rng.choice([driver, driver.upper()]), ";".join(team), "",
                                     rng.choice(["gig", "pair"]), groom, "", rng.choice(carriages + [""] * 30)])
            breaks = rng.choice([("", "", ""), (rng.randint(2, 8), "", 900), ("", rng.choice([1800, 3600]), 1200)])
            harrow = rng.choice([("", ""), ("", ""), (rng.randint(3, 9), 600)])
            day = rng.choice(["", "", rng.randint(1, self.days)])
            first = rng.choice(["", "", "", "%02d:%02d" % (rng.randint(8, 12), rng.choice([0, 15, 30, 45]))])
            self.plan.append([name, "", day, first, rng.choice([360, 420, 475, 540]), *breaks, *harrow,
                              rng.choice(["drawn", "drawn", "free"])])
        for _ in range(rng.randint(0, 5)):
            e = rng.choice(self.entries)
            kind = rng.choice(["driver", "horse", "class", "entry"] + ["carriage"] * bool(e[8]))
            name = {"driver": e[2], "horse": e[3].split(";")[0], "class": e[0], "entry": e[1],
                    "carriage": e[8]}[kind]
            early = rng.choice([True, False])
            self.wishes.append([kind, name, e[0] if kind == "entry" else "", "",
                                "%02d:00" % rng.randint(9, 11) if early else "",
                                "" if early else "%02d:00" % rng.randint(11, 16),
                                rng.choice(["must", "1", "5"])])

    def run(self, *words, status=(0,), want_json=True):
        done = subprocess.run([RINGTRUE, "--date", "2026-05-09 07:00", "--show", self.file]
                              + (["--format", "json"] if want_json else []) + [str(w) for w in words],
                              capture_output=True)
        if done.returncode not in status:
            raise SystemExit("%s: status %d: %s" % (" ".join(map(str, words)), done.returncode,
                                                    done.stderr.decode()))
        return json.loads(done.stdout) if want_json and done.returncode in (0, 1) else None

    def path(self, name):
        return os.path.join(self.folder, name)

    def make(self):
        subprocess.run([RINGTRUE, "create", self.file, "--title", "S", "--day", "2026-05-09"],
                       check=True, stdout=subprocess.DEVNULL)
        for ring in self.rings:
            self.run("ring", "add", ring, "--kind", "driven-40x80")
        write_csv(self.path("tests.csv"), ["test", "title", "kind", "level", "rule"],
                  [["T", "T", "driven-40x80", "training", "driven-percent"]])
        write_csv(self.path("movements.csv"),
                  ["test", "item", "letters", "movement", "figure", "gait", "coefficient", "group"],
                  [["T", 1, "A", "Enter", "", "", 1, "movement"]])
        write_csv(self.path("classes.csv"), ["class", "title", "test", "level", "ring", "rule", "judges",
                                             "judge_names"], self.classes)
        write_csv(self.path("entries.csv"), ["class", "number", "driver", "horses", "height_cm", "turnout",
                                             "groom", "club", "carriage"], self.entries)
        write_csv(self.path("plan.csv"), ["class", "ring", "day", "first", "interval_s", "break_every",
                                          "break_after_s", "break_s", "harrow_every", "harrow_s", "order"],
                  self.plan)
        write_csv(self.path("wishes.csv"), ["about", "name", "class", "day", "not_before", "over_by", "weight"],
                  self.wishes)
        self.run("test", "import", self.path("tests.csv"), self.path("movements.csv"))
        self.run("class", "import", self.path("classes.csv"))
        self.run("entry", "import", self.path("entries.csv"))
        if self.wishes:
            self.run("times", "import", self.path("plan.csv"), self.path("wishes.csv"))
        else:
            self.run("times", "import", self.path("plan.csv"))
        self.withdrawn = set()
        for e in self.entries:
            if self.rng.random() < 0.05:
                self.run("entry", "status", e[0], e[1], "withdrawn")
                self.withdrawn.add(e[1])


# ---- the draw, a second time ----

class SplitMix64:
    MASK = (1 << 64) - 1

    def __init__(self, seed):
        self.state = seed

    def next(self):
        self.state = (self.state + 0x9E3779B97F4A7C15) & self.MASK
        z = self.state
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & self.MASK
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & self.MASK
        return z ^ (z >> 31)

    def below(self, n):
        whole = (1 << 64) // n * n
        while True:
            number = self.next()
            if number < whole:
                return number % n


def check_generator():
    # The published first numbers of splitmix64 begun with 1234567.
    random64 = SplitMix64(1234567)
    assert [random64.next() for _ in range(3)] == [6457827717110365317, 3203168211198807973,
                                                   9817491932198370423]


def shuffle(numbers, seed):
    """Place by place, the one that is drawn; the last of those that are left takes its room."""
    random64, left, order = SplitMix64(seed), list(numbers), []
    while left:
        i = random64.below(len(left))
        order.append(left[i])
        left[i] = left[-1]
        left.pop()
    return order


def check_draw(show, name):
    seed = show.rng.randint(1, 999999999)
    said = show.run("draw", name, "--seed", seed)
    order = [row["number"] for row in said["draw"]]
    entered = sorted(e[1] for e in show.entries if e[0] == name and e[1] not in show.withdrawn)
    assert sorted(order) == entered, (name, order, entered)
    driver = {e[1]: fold(e[2]) for e in show.entries}
    places = {}
    for place, number in enumerate(order):
        places.setdefault(driver[number], []).append(place)
    several = {who: at for who, at in places.items() if len(at) > 1}
    if not several:
        assert order == shuffle(entered, seed), (name, "not the draw of the seed")
        return order
    most = max(map(len, several.values()))
    bound = (len(order) - sum(len(at) == most for at in several.values())) // (most - 1)
    least = min(b - a for at in several.values() for a, b in zip(at, at[1:]))
    assert least == bound, (name, "turnouts of a driver", least, "apart, could be", bound)
    return order


# ---- the rules ----

def uses(show, number):
    """What a start takes part with: (kind, name) to how."""
    _, _, driver, horses, _, _, groom, _, carriage = show.entry[number]
    out = {("person", fold(driver)): "driver"}
    for horse in horses.split(";"):
        out[("horse", fold(horse))] = "horse"
    if groom:
        out.setdefault(("person", fold(groom)), "groom")
    if carriage:
        out[("carriage", fold(carriage))] = "carriage"
    return out


def gap_asked(a, b):
    for kind in ("judge", "groom"):
        if kind in (a, b):
            return GAPS[kind] * 60
    return GAPS[a] * 60


def collisions(show, starts):
    """Every pair of starts, and of a judge's class with anything: too near, as a set."""
    found = set()
    spans = []  # (begin, end, {use: how}, number or class, ring)
    blocks = {}
    for s in starts:
        if s["number"] in show.withdrawn:
            continue
        begin = (s["day"] - 1) * DAY + s["start_s"]
        spans.append((begin, begin + s["interval_s"], uses(show, s["number"]), s["number"], s["ring"], None))
        key = (s["class"], s["ring"], s["day"])
        old = blocks.get(key, (begin, begin))
        blocks[key] = (min(old[0], begin), max(old[1], begin + s["interval_s"]))
    for (name, ring, _), (begin, end) in blocks.items():
        sit = {("person", fold(j)): "judge" for j in show.judges[name]}
        spans.append((begin, end, sit, name, ring, name))
    for i, a in enumerate(spans):
        for b in spans[i + 1:]:
            gap = max(a[0], b[0]) - min(a[1], b[1]) if not (a[0] < b[1] and b[0] < a[1]) else -1
            if a[5] is None and b[5] is None and a[4] == b[4] and gap < 0:
                found.add(("ring", frozenset((a[3], b[3]))))
            if a[5] is not None and b[5] is not None and a[4] == b[4]:
                continue  # classes in one ring do not overlap by their starts; a judge stays there
            for who in a[2].keys() & b[2].keys():
                if gap < gap_asked(a[2][who], b[2][who]):
                    found.add((who, frozenset((a[3], b[3]))))
    return found


def own_judges(show, found):
    """Judges who drive in a class of their own cannot be helped by any plan."""
    out = set()
    for who, pair in found:
        names = [x for x in pair if isinstance(x, str)]
        numbers = [x for x in pair if not isinstance(x, str)]
        if names and numbers and show.entry[numbers[0]][0] == names[0]:
            out.add((who, pair))
    return out


def check_plan(show, said, orders):
    starts = show.run("times", status=(0, 1))["times"]
    entered = {e[1] for e in show.entries} - show.withdrawn
    assert sorted(s["number"] for s in starts) == sorted(entered)
    found = collisions(show, starts)
    assert not found - own_judges(show, found), found
    by_class = {}
    for s in starts:
        by_class.setdefault(s["class"], []).append(s)
    plan = {row[0]: row for row in show.plan}
    for name, rows in by_class.items():
        check_class(plan[name], rows, orders.get(name), show)
    check_rings(by_class)
    last = max(s["start_s"] + s["interval_s"] for s in starts)
    assert said["plan"][0]["last_finish_s"] == last
    assert said["plan"][0]["bound_s"] <= last, said["plan"]
    check_wishes(show, said, starts, by_class)
    return starts


def check_class(row, rows, order, show):
    _, _, day, first, interval, every, after, rest, harrow_every, harrow, how = row
    interval = -(-interval // 30) * 30
    assert len({(s["ring"], s["day"]) for s in rows}) == 1
    assert row[4] % 60 or not any(s["start_s"] % 60 for s in rows), "no whole minutes"
    asked = next(c for c in show.classes if c[0] == row[0])[4]
    assert not asked or rows[0]["ring"] == asked
    assert not day or rows[0]["day"] == day
    if how == "drawn" and order:
        assert [s["number"] for s in rows] == order
    if after:
        every = min(int(every or 999), -(-after // interval))
    for i, (a, b) in enumerate(zip(rows, rows[1:])):
        pause = rest if every and rest and (i + 1) % every == 0 else 0
        if harrow_every and (i + 1) % harrow_every == 0:
            pause = max(pause, harrow)
        assert a["interval_s"] == interval and a["pause_s"] == pause, (row, i, a)
        assert b["start_s"] >= a["start_s"] + interval + pause, (a, b)


def check_rings(by_class):
    blocks = {}
    for rows in by_class.values():
        blocks.setdefault((rows[0]["ring"], rows[0]["day"]), []).append(
            (rows[0]["start_s"], rows[-1]["start_s"] + rows[-1]["interval_s"]))
    for spans in blocks.values():
        spans.sort()
        for a, b in zip(spans, spans[1:]):
            assert b[0] >= a[1] + 600, "no change-over between two classes"


def seconds(time):
    return int(time[:2]) * 3600 + int(time[3:5]) * 60


def check_wishes(show, said, starts, by_class):
    """What is told as met is met, and what is told as missed is missed."""
    told = {w["wish"]: w for w in said.get("wishes", [])}
    for about, name, class_name, _, not_before, over_by, _ in show.wishes:
        if about == "class":
            rows = by_class.get(name, [])
            spans = [(rows[0]["start_s"], rows[-1]["start_s"] + rows[-1]["interval_s"])] if rows else []
        else:
            wanted = {"driver": lambda e: fold(e[2]) == fold(name), "entry": lambda e: e[1] == name,
                      "horse": lambda e: fold(name) in map(fold, e[3].split(";")),
                      "carriage": lambda e: fold(e[8]) == fold(name)}[about]
            spans = [(s["start_s"], s["start_s"] + s["interval_s"]) for s in starts
                     if wanted(show.entry[s["number"]])]
        good = all((not not_before or a >= seconds(not_before)) and (not over_by or b <= seconds(over_by))
                   for a, b in spans)
        words = "%s %s" % (about, name) + (" in class " + class_name if class_name else "")
        words += " not before " + not_before if not_before else " over by " + over_by
        assert told[words]["met"] == good, (words, told[words], spans)
    for row in show.plan:
        if row[3] and row[0] in by_class:
            good = by_class[row[0]][0]["start_s"] == seconds(row[3])
            assert told["class %s begins at %s" % (row[0], row[3])]["met"] == good


# ---- the day ----

def by_number(starts):
    return {s["number"]: s for s in starts}


def check_told(show, before, after, said):
    """Moved are those that are told; new collisions are told; nobody starts earlier unasked."""
    old, new = by_number(before), by_number(after)
    moved = {n for n in new if n not in old or
             any(old[n][k] != new[n][k] for k in ("day", "ring", "start_s"))}
    assert moved == {row["number"] for row in said["moved"]}
    fresh = collisions(show, after) - collisions(show, before)
    pairs = {frozenset((row["number"], row["other_number"])) for row in said["collisions"]}
    for who, pair in fresh:
        if all(not isinstance(x, str) for x in pair):
            assert pair in pairs, ("not told", who, pair)
        else:
            assert said["collisions"], ("not told", who, pair)
    lists = {(row["list"], row["day"]) for row in said["lists"]}
    for n in moved:
        assert (new[n]["ring"], new[n]["day"]) in lists
        assert ("class " + new[n]["class"], None) in lists
        assert n not in old or (old[n]["ring"], old[n]["day"]) in lists
    return moved


def tight(before_row, after_row):
    """Whether a row stands as near behind the one before it as it may."""
    end = before_row["start_s"] + before_row["interval_s"] + before_row["pause_s"]
    spare = after_row["start_s"] - end
    return spare <= (600 if before_row["class"] != after_row["class"] else 0)


def check_late(show, starts):
    ring, day = show.rng.choice([(s["ring"], s["day"]) for s in starts])
    minutes, clock = show.rng.choice([5, 20, 45]), show.rng.choice(["08:00", "09:10", "10:30"])
    there = [s for s in starts if (s["ring"], s["day"]) == (ring, day)
             and s["start_s"] >= seconds(clock)]
    if not there:
        return starts
    said = show.run("times", "late", ring, minutes, "--from", clock, "--day", day, "--more", status=(0, 1))
    after = show.run("times", status=(0, 1))["times"]
    moved = check_told(show, starts, after, said)
    new = by_number(after)
    first = there[0]["number"]
    assert new[first]["start_s"] == there[0]["start_s"] + minutes * 60
    run = [s["number"] for s in there]
    assert set(run[:len(moved)]) == moved, "those that moved are not the next in the ring"
    for a, b in zip(run, run[1:]):
        if b in moved:
            assert by_number(starts)[b]["start_s"] < new[b]["start_s"]
            assert tight(new[a], new[b]), "moved further than it must"
    return after


def check_move(show, starts):
    row = show.rng.choice(starts)
    clock = show.rng.randrange(8 * 3600, 16 * 3600, 300)
    words = "%02d:%02d" % (clock // 3600, clock // 60 % 60)
    inside = [s for s in starts if (s["ring"], s["day"]) == (row["ring"], row["day"]) and s is not row
              and s["number"] not in show.withdrawn
              and s["start_s"] < clock < s["start_s"] + s["interval_s"]]
    if inside:
        show.run("times", "move", row["class"], row["number"], words, status=(2,))
        return starts
    said = show.run("times", "move", row["class"], row["number"], words, status=(0, 1))
    after = show.run("times", status=(0, 1))["times"]
    moved = check_told(show, starts, after, said)
    old, new = by_number(starts), by_number(after)
    assert new[row["number"]]["start_s"] == clock
    for n in moved - {row["number"]}:
        assert new[n]["start_s"] > old[n]["start_s"], "somebody starts earlier than before"
        assert (new[n]["ring"], new[n]["day"]) == (row["ring"], row["day"])
    found = [c for c in collisions(show, after) if c[0] == "ring"]
    assert not found, found
    return after


def one_show(seed):
    rng = random.Random(seed)
    with tempfile.TemporaryDirectory() as folder:
        show = Show(folder, rng)
        show.make()
        show.entry = {e[1]: e for e in show.entries}
        show.judges = {c[0]: c[7].split("; ") for c in show.classes}
        orders = {c[0]: check_draw(show, c[0]) for c in show.classes
                  if rng.random() < 0.7 and any(e[0] == c[0] and e[1] not in show.withdrawn
                                                for e in show.entries)}
        plan = ["times", "plan", "--days", show.days, "--hours", "8:00-20:00", "--seed", 7]
        said = show.run(*plan, status=(0, 1, 2)) or {}
        if not said:
            return None
        starts = check_plan(show, said, orders)
        again = show.run(*plan, status=(0, 1))
        assert [r for r in again["plan"]] == [r for r in said["plan"]], "the same ask, another plan"
        for _ in range(2):
            starts = check_late(show, starts)
            starts = check_move(show, starts)
        return said["plan"][0]


check_generator()
gaps, planned = [], 0
for k in range(SHOWS):
    try:
        quality = one_show(SEED * 1000 + k)
    except AssertionError as failed:
        sys.exit("show %d: %s" % (SEED * 1000 + k, failed or failed.__traceback__.tb_next))
    if quality:
        planned += 1
        gaps.append(quality["above_bound_min"])
assert planned >= SHOWS * 3 // 4, "most random shows can be planned"
print("%d shows planned; last finish above the bound: mean %.1f min, largest %.1f min, none at all %d"
      % (planned, sum(gaps) / len(gaps), max(gaps), sum(g == 0 for g in gaps)))
