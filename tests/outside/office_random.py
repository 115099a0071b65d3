#!/usr/bin/python3
# Random classes scored a second time, with exact fractions and written apart from the C code,
# and compared with it to the last digit: places, scores, percentages, penalties, what parted a
# tie, every judge's points (a ratio where a mean fills a box), percentage, what it counts as and
# place, and the order.
#
# usage: office_random.py [OFFICE_BATCH [CLASSES [SEED]]]
# OFFICE_BATCH is tests/outside/office_batch under this folder, CLASSES 10000, SEED 1.
# The rules are the rows of share/rules.csv under $srcdir, and variations of them.
#
# SPDX-License-Identifier: GPL-3.0-or-later
import csv
import itertools
import math
import os
import random
import subprocess
import sys
from fractions import Fraction

STATUSES = ["entered", "retired", "eliminated", "disqualified", "withdrawn", "did not start"]
COLUMNS = ["rule", "scale", "wins", "base", "judge_decimals", "percent_decimals",
           "score_decimals", "taken", "error_1", "error_2", "error_3", "error_4", "ties", "missing",
           "apart", "apart_judges", "rounding"]


def half_up(value, decimals):
    """The value as a fraction with so many decimals, halves upwards."""
    scale = 10 ** decimals
    return Fraction(math.floor(value * scale + Fraction(1, 2)), scale)


def kept(value, decimals, rule):
    """The value with so many decimals as the rule has them."""
    if rule["rounding"] != "cut":
        return half_up(value, decimals)
    return Fraction(math.trunc(value * 10 ** decimals), 10 ** decimals)


def units(value, decimals):
    scaled = value * 10 ** decimals
    assert scaled.denominator == 1
    return scaled.numerator


# ---- a class at random ----

def random_rule(rng, shipped):
    rule = dict(rng.choice(shipped))
    if rng.random() < 0.5:
        return rule
    rule["rule"] = "varied"
    rule["judge_decimals"] = rng.choice(["-1", "-1", "0", "1", "2", "3", "6", "9"])
    rule["percent_decimals"] = rng.choice("01234579")
    rule["score_decimals"] = rng.choice("012345689")
    rule["rounding"] = rng.choice(["half-up", "half-up", "cut"])
    if rule["scale"] == "percent":
        rule["scale"] = rng.choice(["percent", "percent", "points", "tenths"])
    rule["taken"] = rng.choice(["points", "percent", "score"])
    if rule["taken"] == "percent" and rule["scale"] == "penalties":
        rule["judge_decimals"] = rng.choice("0123")
    rule["ties"] = " ".join(
        step + rng.choice(["", "", ":1", ":2", ":3"])
        for step in rng.sample(["general", "artistic", "item:2", "item:x", "median", "president",
                                "judge:B", "judge:Q", "decision", "decision"], rng.randint(0, 4)))
    rule["missing"] = rng.choice(["refuse", "mean", "mean", "mean-whole"])
    rule["apart"] = "0"
    if rule["judge_decimals"] != "-1" and rng.random() < 0.5:
        rule["apart"] = rng.choice(["2", "5", "0.5", "7.25"])
        rule["apart_judges"] = rng.choice(["3", "4", "5", "7"])
    steps = [rng.choice(["0.5", "1", "2", "5", "10", "2.25"]) for _ in range(rng.randint(0, 4))]
    if steps and rng.random() < 0.6:
        steps[-1] = "eliminated"
    for i in range(4):
        rule["error_%d" % (i + 1)] = steps[i] if i < len(steps) else ""
    return rule


def random_marks(rng, cls):
    """boxes[entry][judge][item] and lines[entry][judge]: what each keying says, or None."""
    choice = rng.choice([[600, 650], [550, 600, 650, 700], [600, 625, 650],
                         list(range(0, 1001, 50)), list(range(1001))])
    gaps = rng.random() < 0.4
    one_keying = rng.random() < 0.2
    boxes, lines = [], []
    for _ in cls["entries"]:
        sheet_boxes, sheet_lines = [], []
        for _ in cls["judges"]:
            lost = gaps and rng.random() < 0.15
            row = []
            for _ in cls["items"]:
                mark = rng.choice(choice)
                box = [mark, None if one_keying else mark]
                if lost or (gaps and rng.random() < 0.03):
                    box = [None, None]
                elif gaps and rng.random() < 0.03:
                    box[1] = rng.choice(choice)
                row.append(box)
            errors = rng.choice([0, 0, 0, 0, 0, 1, 1, 2, 3, 4, 5])
            line = rng.choice([[errors, errors], [errors, None], [None, None], [0, 0], [0, 0]])
            if gaps and rng.random() < 0.05:
                line = [errors, errors + 1]
            sheet_boxes.append(row)
            sheet_lines.append(line)
        if len(sheet_boxes) > 1 and rng.random() < 0.3:
            rng.shuffle(sheet_boxes)
        boxes.append(sheet_boxes)
        lines.append(sheet_lines)
    for i in range(1, len(boxes)):          # copies, so that there are ties
        if rng.random() < 0.4:
            twin = rng.randrange(i)
            boxes[i] = [[list(b) for b in row] for row in boxes[twin]]
            lines[i] = lines[twin]
            if rng.random() < 0.5:
                rng.shuffle(boxes[i])
            if rng.random() < 0.3:
                for row in boxes[i]:
                    rng.shuffle(row)
    return boxes, lines


def random_judges(rng, cls):
    """Boxes whose judge cannot be asked, and judges who were away."""
    every = list(itertools.product(range(len(cls["entries"])), range(len(cls["judges"]))))
    cls["missing"], cls["away"] = set(), set()
    if rng.random() < 0.5:
        for e, j in every:
            for i in range(len(cls["items"])):
                if is_asked(cls, j, i) and rng.random() < 0.08:
                    cls["missing"].add((e, j, i))
                    cls["boxes"][e][j][i] = [None, None]
    if rng.random() < 0.25:
        cls["away"] = {(e, j) for e, j in every if rng.random() < 0.2}


def give_items(rng, cls):
    """Items of some judges only: some of them, or the judges judge two different halves."""
    judges, items = cls["judges"], cls["items"]
    asked = [None] * len(items)
    kind = rng.random()
    if kind < 0.15 and len(judges) > 1:
        asked = [rng.choice([None, rng.sample(judges, rng.randint(1, len(judges)))])
                 for _ in items]
        asked[0] = None
    elif kind < 0.3 and len(judges) > 1 and len(items) > 1:
        cut = rng.randint(1, len(judges) - 1)
        asked = [judges[:cut] if i % 2 else judges[cut:] for i in range(len(items))]
        cls["rule"]["apart"] = "0"
    if any(asked):
        cls["multiplier"] = 0
    cls["asked"] = [a or judges for a in asked]


def is_asked(cls, j, i):
    return cls["judges"][j] in cls["asked"][i]


def parts(cls):
    """The judges of each part of the work: those who are linked by items in common."""
    left, found = list(range(len(cls["judges"]))), []
    while left:
        part, grew = {left[0]}, True
        while grew:
            linked = {j for i in range(len(cls["items"]))
                      if any(is_asked(cls, k, i) for k in part)
                      for j in left if is_asked(cls, j, i)}
            grew = not linked <= part
            part |= linked
        found.append(sorted(part))
        left = [j for j in left if j not in part]
    return found


def random_class(rng, shipped):
    positions = rng.sample(["C", "B", "E", "H", "M", "R", "S", "V", "P"],
                           rng.choice([1, 2, 3, 3, 4, 5, 5, 7, 9]))
    president = positions.index("C") if "C" in positions else 0
    starred = rng.random() < 0.3
    if starred:
        president = rng.randrange(len(positions))
    groups = rng.choice([[0, 0, 1], [0, 0, 1, 2]])
    cls = {
        "rule": random_rule(rng, shipped),
        "judges": positions,
        "president": president,
        "judges_text": " ".join(p + ("*" if starred and i == president else "")
                                for i, p in enumerate(positions)),
        "multiplier": 0,
        "items": [(rng.choice([500, 1000, 1000, 1000, 2000, 1500]), rng.choice(groups))
                  for _ in range(rng.randint(1, 8))],
        "entries": [],
        "penalties": [],
    }
    if rng.random() < 0.3:
        cls["multiplier"] = rng.choice([640000, 667000, 1333333, 800000, 12345678])
    numbers = rng.sample(range(1, 60), rng.randint(1, 9))
    for number in numbers:
        cls["entries"].append({
            "number": number,
            "status": "entered" if rng.random() < 0.85 else rng.choice(STATUSES),
            "hc": rng.random() < 0.1,
            "division": rng.choice(["-", "-", "pairs", "ponies"]) if len(numbers) > 4 else "-",
        })
        if rng.random() < 0.1:
            cls["penalties"].append((number, rng.choice([500, 1000, 2000, -500, 125]), -1))
        if rng.random() < 0.1:
            cls["penalties"].append((number, 0, rng.choice([0, 1, 2, 3])))
    give_items(rng, cls)
    cls["boxes"], cls["lines"] = random_marks(rng, cls)
    for sheets, (j, i) in itertools.product(cls["boxes"], itertools.product(
            range(len(positions)), range(len(cls["items"])))):
        if not is_asked(cls, j, i):
            sheets[j][i] = [None, None]
    random_judges(rng, cls)
    cls["decided"] = []
    for decision in range(1, rng.choice([1, 1, 2, 4])):
        some = rng.sample(numbers, rng.randint(2, len(numbers))) if len(numbers) > 1 else []
        cls["decided"].append((decision, some))
    return cls


def as_text(cls):
    rule = cls["rule"]
    yield "rule " + ",".join(rule[c] for c in COLUMNS) + ","
    yield "judges " + cls["judges_text"]
    yield "multiplier %d" % cls["multiplier"]
    for item, asked in zip(cls["items"], cls["asked"]):
        yield "item %d %d %s" % (*item, "" if asked == cls["judges"] else " ".join(asked))
    for e in cls["entries"]:
        yield "entry %d %s %d %s" % (e["number"], e["status"].replace(" ", "-"), e["hc"],
                                     e["division"])
    yield "sheets"
    for e, j in itertools.product(range(len(cls["entries"])), range(len(cls["judges"]))):
        for k in range(2):
            for i, box in enumerate(cls["boxes"][e][j]):
                if box[k] is not None:
                    yield "mark %d %d %d %d %d" % (e, j, i, k, box[k])
            if cls["lines"][e][j][k] is not None:
                yield "errors %d %d %d %d" % (e, j, k, cls["lines"][e][j][k])
    for missing in sorted(cls["missing"]):
        yield "missing %d %d %d" % missing
    for away in sorted(cls["away"]):
        yield "away %d %d" % away
    for decision, numbers in cls["decided"]:
        for rank, number in enumerate(numbers):
            yield "decide %d %d %d" % (decision, number, rank + 1)
    for penalty in cls["penalties"]:
        yield "penalty %d %d %d" % penalty
    yield "end"


# ---- the second scoring ----

def settled(pair):
    said = {v for v in pair if v is not None}
    return said.pop() if len(said) == 1 else None


def errors_that_count(cls, index):
    lines = [None if (index, j) in cls["away"] else settled(line)
             for j, line in enumerate(cls["lines"][index])]
    sheets = lines[cls["president"]]
    if sheets is None:
        sheets = max((v for v in lines if v is not None), default=0)
    number = cls["entries"][index]["number"]
    said = [errors for n, _, errors in cls["penalties"] if n == number and errors >= 0]
    return max([sheets] + said[-1:])


def cost_of_errors(rule, errors):
    """The cost, and whether it eliminates."""
    steps = [rule["error_%d" % i] for i in (1, 2, 3, 4) if rule["error_%d" % i]]
    reached = [steps[min(i, len(steps) - 1)] for i in range(errors)] if steps else []
    cost = sum((Fraction(s) for s in reached if s != "eliminated"), Fraction(0))
    return cost, "eliminated" in reached


def percent_digits(rule):
    each = int(rule["judge_decimals"])
    return each if each >= 0 else int(rule["percent_decimals"])


def filling(cls, row):
    """The mark that fills a missing box of a sheet, or None."""
    others = [Fraction(v, 100) for v in map(settled, row) if v is not None]
    if cls["rule"]["missing"] == "refuse" or not others:
        return None
    filled = mean(others)
    return half_up(filled, 0) if cls["rule"]["missing"] == "mean-whole" else filled


def earned_of(cls, index, j):
    """Of each item its points, its group, whether it was filled or is empty."""
    row = cls["boxes"][index][j]
    fill = filling(cls, row)
    for i, (box, (coefficient, group)) in enumerate(zip(row, cls["items"])):
        if not is_asked(cls, j, i):
            yield Fraction(0), None, False, False
            continue
        gap = box == [None, None]
        filled = gap and (index, j, i) in cls["missing"] and fill is not None
        mark = fill if filled else Fraction(settled(box) or 0, 100)
        yield mark * Fraction(coefficient, 1000), group, filled, gap and not filled


def sheets_of(cls, index, off_points, off_percent):
    """For each judge None, or points, percentage (exact and rounded) and its boxes."""
    rule = cls["rule"]
    sheets = []
    for j, row in enumerate(cls["boxes"][index]):
        maximum = sum(Fraction(c, 100) for i, (c, _) in enumerate(cls["items"])
                      if is_asked(cls, j, i))
        if (index, j) in cls["away"] or all(v is None for box in row for v in box):
            sheets.append(None)
            continue
        earned = list(earned_of(cls, index, j))
        points = sum(e[0] for e in earned) - off_points
        exact = 100 * points / maximum - off_percent
        sheets.append({"points": points, "exact": exact, "maximum": maximum, "judge": j,
                       "percent": kept(exact, percent_digits(rule), rule),
                       "earned": earned,
                       "filled": sum(e[2] for e in earned), "empty": sum(e[3] for e in earned)})
    count_apart(rule, [s for s in sheets if s])
    return sheets


def count_apart(rule, sheets):
    """What each sheet counts as: its percentage, or the next where it is too far off."""
    limit = Fraction(rule["apart"] or 0)
    for s in sheets:
        others = [o["percent"] for o in sheets if o is not s]
        s["off"] = s["percent"] - mean(others) if others else 0
    farthest = max((abs(s["off"]) for s in sheets), default=0)
    level = [s["percent"] for s in sheets if abs(s["off"]) < farthest]
    for s in sheets:
        s["counted"] = s["percent"]
        if limit and len(sheets) >= int(rule["apart_judges"] or 7) and farthest >= limit and level \
                and abs(s["off"]) == farthest:
            s["counted"] = min(level) if s["off"] < 0 else max(level)


def mean(values):
    return Fraction(sum(values), len(values))


def convert(cls, sheets, off_percent, off_score):
    """The percentage and the score of the sheets that are in."""
    rule = cls["rule"]
    base = Fraction(rule["base"])
    percent_places, score_places = int(rule["percent_decimals"]), int(rule["score_decimals"])
    sheet = [sum(Fraction(c, 100) for i, (c, _) in enumerate(cls["items"]) if is_asked(cls, j, i))
             for j in range(len(cls["judges"]))]
    best = {"percent": 100, "tenths": 10, "points": mean(sheet), "penalties": None}[rule["scale"]]
    there = [[s for s in sheets if s["judge"] in part] for part in parts(cls)]
    there = [part for part in there if part]
    if int(rule["judge_decimals"]) >= 0:
        percent = kept(mean([mean([s["counted"] for s in part]) for part in there]),
                       percent_places, rule)
        if rule["scale"] != "penalties":
            return percent, kept(best * percent / 100 - off_score, score_places, rule)
        return percent, kept(base - base * percent / 100 + off_score, score_places, rule)
    share = mean([sum(s["points"] for s in part) / sum(s["maximum"] for s in part)
                  for part in there])
    exact = 100 * share - off_percent
    percent = kept(exact, percent_places, rule)
    if rule["scale"] != "penalties":
        return percent, kept(best * exact / 100 - off_score, score_places, rule)
    lost = base * share
    if cls["multiplier"]:
        lost = Fraction(cls["multiplier"], 10 ** 6) * mean([s["points"] for s in sheets])
    return percent, kept(base - lost + off_score, score_places, rule)


def halves(cls, sheets):
    """The technical and the artistic half in per cent; None where nothing is artistic."""
    if not any(group == 2 for _, group in cls["items"]):
        return None
    both = []
    for artistic in (False, True):
        most = sum(Fraction(c, 100) for s in sheets for i, (c, group) in enumerate(cls["items"])
                   if (group == 2) == artistic and is_asked(cls, s["judge"], i))
        got = sum(e[0] for s in sheets for e in s["earned"] if (e[1] == 2) == artistic)
        both.append(kept(100 * got / most if most else Fraction(0),
                         int(cls["rule"]["percent_decimals"]), cls["rule"]))
    return both


def score_entry(cls, index):
    rule, entry = cls["rule"], cls["entries"][index]
    errors = errors_that_count(cls, index)
    cost, out = cost_of_errors(rule, errors)
    office = sum((Fraction(points, 100) for n, points, e in cls["penalties"]
                  if n == entry["number"] and e < 0), Fraction(0))
    off = {"points": (cost + office, 0, 0), "percent": (office, cost, 0),
           "score": (0, 0, cost + office)}[rule["taken"]]
    sheets = sheets_of(cls, index, off[0], off[1])
    present = [s for s in sheets if s]
    status = entry["status"]
    if status == "entered" and out:
        status = "eliminated"
    result = {"index": index, "number": entry["number"], "status": status, "errors": errors,
              "division": "" if entry["division"] == "-" else entry["division"],
              "hc": entry["hc"], "sheets": sheets, "penalty": cost + office,
              "scored": status == "entered" and bool(present), "place": 0, "by": "-",
              "judge_place": [0] * len(sheets), "sheets_in": len(present),
              "expected": sum((index, j) not in cls["away"] for j in range(len(sheets))),
              "empty": sum(s["empty"] for s in present),
              "filled": sum(s["filled"] for s in present)}
    if result["scored"]:
        result["percent"], result["score"] = convert(cls, present, off[1], off[2])
        result["halves"] = halves(cls, present)
        result["better"] = result["score"] * (1 if rule["wins"] == "highest" else -1)
    return result


def median(values):
    values = sorted(values)
    middle = len(values) // 2
    if len(values) % 2:
        return values[middle]
    return Fraction(values[middle - 1] + values[middle], 2)


def tie_key(cls, step, result):
    present = [s for s in result["sheets"] if s]
    if step in ("general", "artistic"):
        group = ("general", "artistic").index(step) + 1
        return sum(e[0] for s in present for e in s["earned"] if e[1] == group)
    if step.startswith("item:"):
        item = int(step[5:].replace("x", "99")) - 1
        return sum(e[0] for s in present for e in s["earned"][item:item + 1])
    if step == "median":
        return median([s["counted"] for s in present])
    judge = cls["president"]
    if step.startswith("judge:"):
        if step[6:] not in cls["judges"]:
            return 0
        judge = cls["judges"].index(step[6:])
    sheet = result["sheets"][judge]
    return sheet["percent"] if sheet else Fraction(-10 ** 9)


def decided(cls, tied):
    """What the latest decision about all of these says of each; 0 where there is none."""
    numbers = {r["number"] for r in tied}
    for _, order_ in reversed(cls["decided"]):
        if numbers <= set(order_):
            return {n: -order_.index(n) for n in numbers}
    return dict.fromkeys(numbers, 0)


def give_places(cls, tied, place, steps):
    """Places from `place` on for equal ones, parted by the first step that applies."""
    if len(tied) > 1 and steps:
        parts = steps[0].split(":")
        named = parts[0] in ("judge", "item")
        limit = parts.pop() if len(parts) > 1 + named else ""
        name = ":".join(parts)
        if limit and place > int(limit):
            return give_places(cls, tied, place, steps[1:])
        keys = decided(cls, tied) if name == "decision" else \
            {r["number"]: tie_key(cls, name, r) for r in tied}
        distinct = sorted(set(keys.values()), reverse=True)
        for value in distinct:
            equal = [r for r in tied if keys[r["number"]] == value]
            if len(distinct) > 1:
                for r in equal:
                    r["by"] = parts[0]
            give_places(cls, equal, place, steps[1:])
            place += len(equal)
        return None
    for r in tied:
        r["place"] = place
    return None


def place_division(cls, results):
    ranked = [r for r in results if r["scored"] and not r["hc"]]
    place = 1
    for better in sorted({r["better"] for r in ranked}, reverse=True):
        tied = [r for r in ranked if r["better"] == better]
        give_places(cls, tied, place, cls["rule"]["ties"].split())
        place += len(tied)
    for j in range(len(cls["judges"])):
        seen = [r for r in ranked if r["sheets"][j]]
        for r in seen:
            r["judge_place"][j] = 1 + sum(o["sheets"][j]["exact"] > r["sheets"][j]["exact"]
                                          for o in seen)


def order(result):
    if result["place"]:
        return (result["division"], 0, result["place"], result["number"])
    if result["scored"]:
        return (result["division"], 1, -result["better"], result["number"])
    return (result["division"], 2 + STATUSES.index(result["status"]), 0, result["number"])


def gaps(cls, results):
    starters = [r for r in results if r["status"] == "entered"]
    here = [(r["index"], j) for r in starters for j in range(len(cls["judges"]))
            if (r["index"], j) not in cls["away"]]
    pairs = [p for e, j in here for p in cls["boxes"][e][j] + [cls["lines"][e][j]]]
    differ = any(None not in p and p[0] != p[1] for p in pairs)
    missing = any(r["empty"] or r["sheets_in"] < r["expected"] or not r["expected"]
                  for r in starters)
    single = any((p[0] is None) != (p[1] is None) for p in pairs)
    return "differ %d missing %d single %d complete %d" % (
        differ, missing, single, not (differ or missing or single))


def expected(cls):
    rule = cls["rule"]
    results = [score_entry(cls, i) for i in range(len(cls["entries"]))]
    for division in {r["division"] for r in results}:
        place_division(cls, [r for r in results if r["division"] == division])
    for r in sorted(results, key=order):
        words = ["%d %d %s %d" % (r["number"], r["place"], r["status"], r["errors"])]
        words.append("sheets %d of %d empty %d filled %d" % (
            r["sheets_in"], r["expected"], r["empty"], r["filled"]))
        if r["scored"]:
            words.append("score %d percent %d penalty %d" % (
                units(r["score"], int(rule["score_decimals"])),
                units(r["percent"], int(rule["percent_decimals"])), units(r["penalty"], 2)))
            words += ["halves %d %d" % tuple(units(h, int(rule["percent_decimals"]))
                                              for h in r["halves"])] if r["halves"] else []
        words.append("by " + r["by"])
        for position, sheet, place in zip(cls["judges"], r["sheets"], r["judge_place"]):
            if sheet:
                points = sheet["points"] * 100000
                whole = math.floor(points)
                words.append("%s %d+%d/%d %d as %d %d" % (
                    position, whole, (points - whole).numerator, (points - whole).denominator,
                    units(sheet["percent"], percent_digits(rule)),
                    units(sheet["counted"], percent_digits(rule)), place))
        yield " ".join(words)
    yield gaps(cls, results)


def main():
    batch = sys.argv[1] if len(sys.argv) > 1 else os.path.join("tests", "outside", "office_batch")
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 10000
    rng = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 1)
    path = os.path.join(os.environ.get("srcdir", "."), "share", "rules.csv")
    with open(path, encoding="utf-8", newline="") as f:
        shipped = [{c: row[c] for c in COLUMNS} for row in csv.DictReader(f)]
    classes = [random_class(rng, shipped) for _ in range(count)]
    text = "".join(line + "\n" for cls in classes for line in as_text(cls))
    run = subprocess.run([batch], input=text, capture_output=True, text=True, check=False)
    if run.returncode:
        sys.exit("office_random: %s failed: %s" % (batch, run.stderr))
    told = iter(run.stdout.splitlines())
    wrong = ties = entries = filled = moved = decisions = groups = 0
    for n, cls in enumerate(classes):
        right = list(expected(cls))
        got = list(itertools.islice(told, len(right)))
        entries += len(right) - 1
        ties += sum(" by -" not in line for line in right[:-1])
        filled += sum(" filled 0" not in line for line in right[:-1])
        decisions += sum(" by decision" in line for line in right[:-1])
        groups += sum(" by artistic" in line or " by item" in line for line in right[:-1])
        moved += sum(w[i - 1] != w[i + 1] for w in (line.split() for line in right[:-1])
                     for i, word in enumerate(w) if word == "as")
        if got != right:
            wrong += 1
            print("class %d, rule %s:" % (n, cls["rule"]))
            for a, b in itertools.zip_longest(right, got):
                print("  %s expected: %s\n    computed: %s" % ("  " if a == b else "!!", a, b))
    if next(told, None) is not None:
        wrong += 1
        print("more results than classes")
    print("office_random: %d classes, %d entries, %d parted ties (%d by decision, %d by artistic"
          " marks or an item), %d with filled boxes, %d judges moved, %d classes wrong"
          % (count, entries, ties, decisions, groups, filled, moved, wrong))
    return 1 if wrong or 0 in (ties, filled, moved, decisions, groups) else 0


if __name__ == "__main__":
    sys.exit(main())
