"""Every command that changes a show, eight at once and in mixed company: what each was told is in
the show afterwards.
   usage: at_once.py RINGTRUE
SPDX-License-Identifier: GPL-3.0-or-later"""
import json
import os
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
DEMO = os.path.join(HERE, "..", "share", "demo")
EIGHT = range(1, 9)

checks = 0


def check(ok, what):
    global checks
    checks += 1
    if not ok:
        sys.exit(f"FAIL {what}")


class Show:
    """A copy of the demo show to be worked on."""

    def __init__(self, ringtrue, path):
        self.ringtrue, self.path = ringtrue, path

    def start(self, words):
        return subprocess.Popen(
            [self.ringtrue, "--date", "2026-05-09 10:00", "--format", "json", "--show", self.path,
             *words], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
            text=True)

    def at_once(self, *commands, refused=0):
        """Run them all at the same time; what those that were not refused were told."""
        told = []
        for words, one in [(words, self.start(words)) for words in commands]:
            out, err = one.communicate()
            if one.returncode == 2 and refused:
                refused -= 1
                continue
            check(one.returncode in (0, 1) and not err,
                  f"{' '.join(words)}: status {one.returncode}: {err}")
            told.append(json.loads(out))
        check(refused == 0, f"{commands[0]}: {refused} more were to be refused")
        return told

    def do(self, *words):
        return self.at_once(words)[0]

    def rows(self, sql):
        db = sqlite3.connect(f"file:{self.path}?mode=ro", uri=True)
        rows = db.execute(sql).fetchall()
        db.close()
        return rows

    def count(self, table):
        return self.rows(f"SELECT count(*) FROM {table}")[0][0]

    def starts(self):
        """Where and when each entry starts."""
        return {(row["class"], row["number"]): (row["day"], row["start"], row["ring"])
                for row in self.do("times")["times"]}

    def order(self, class_name):
        """The numbers of a class as they are drawn."""
        return [row[0] for row in self.rows(
            "SELECT number FROM draw_place JOIN entry ON entry.id = draw_place.entry WHERE draw = "
            f"(SELECT max(id) FROM draw WHERE class = '{class_name}') ORDER BY place")]


def csv(show, name, *lines):
    path = os.path.join(os.path.dirname(show.path), name)
    with open(path, "w", encoding="utf-8") as out:
        out.write("\n".join(lines) + "\n")
    return path


def is_chain(links, first, last):
    """Whether the pairs (was, became), in some order, lead from first to last."""
    links = list(links)
    while links:
        link = next((link for link in links if link[0] == first), None)
        if not link:
            return False
        links.remove(link)
        first = link[1]
    return first == last


# ---- the day -------------------------------------------------------------------------------------

def version_of(told):
    return int(re.search(r"version (\d+) of the times", " ".join(told["notes"])).group(1))


def follow(show, before, told):
    """Every change of the times, in the order of versions, began where the last one ended."""
    starts = dict(before)
    versions = sorted(version_of(one) for one in told)
    check(versions == list(range(versions[0], versions[0] + len(told))),
          f"each change is a version: {versions}")
    for one in sorted(told, key=version_of):
        for row in one.get("moved", ()):
            key = row["class"], row["number"]
            check(starts[key] == (row["was_day"], row["was"], row["was_ring"]),
                  f"version {version_of(one)}: {key} was told {row['was']}, was at {starts[key]}")
            starts[key] = row["day"], row["start"], row["ring"]
        if "plan" in one:  # tells no single start
            starts = dict(planned_at(show, version_of(one), starts))
    check(show.starts() == starts, "the show has the starts that were told")


def planned_at(show, version, starts):
    """The starts as they were kept up to a version."""
    kept = {(c, n): (d, t, r) for c, n, d, t, r in show.rows(
        "SELECT class, number, 1 + at_s / 86400, at_s % 86400, ring FROM start_time JOIN entry "
        f"ON entry.id = entry WHERE version <= {version} ORDER BY version")}
    return {key: (kept[key][0], clock(kept[key][1]), kept[key][2]) for key in starts}


def clock(seconds):
    end = f":{seconds % 60:02d}" if seconds % 60 else ""
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}{end}"


def times_late(show):
    before = show.starts()
    told = show.at_once(*[("times", "late", "Oak ring", "3", "--more")] * 8)
    follow(show, before, told)
    first = min(key for key in before if before[key][2] == "Oak ring" and before[key][1] == "09:00")
    check(show.starts()[first][1] == "09:24", "eight times 3 minutes are 24")


def times_late_twice(show):
    show.at_once(*[("times", "late", "Oak ring", "3")] * 8, refused=7)
    show.at_once(*[("times", "undo")] * 4, *[("times", "back", "1")] * 4)
    check(show.count("times_change") == 10, "a delay said eight times is one; eight go back")


def times_move(show):
    before = show.starts()
    numbers = [n for c, n in before if c == "1"][:8]
    told = show.at_once(*[("times", "move", "1", str(n), "15:00") for n in numbers])
    follow(show, before, told)


def times_plan(show):
    told = show.at_once(*[("times", "plan", "--again", "--seed", str(i)) for i in EIGHT])
    versions = sorted(int(re.search(r"version (\d+)", one["notes"][-1]).group(1)) for one in told)
    check(versions == list(range(2, 10)), f"eight plans are eight versions: {versions}")
    last = max(told, key=lambda one: one["notes"][-1])["plan"][0]
    seed = show.rows("SELECT seed FROM times_setting ORDER BY version")[-1][0]
    check(last["seed"] == seed, "the last plan is the one that stays")
    check(len(show.do("times")["times"]) == last["starts"], "with all its starts")


def plan_beside_late(show):
    before = show.starts()
    told = show.at_once(*[("times", "late", "Oak ring", "3", "--more"), ("times", "plan", "1", "--again"),
                          ("times", "move", "2", "31", "16:00"), ("times", "plan", "3", "--again")] * 2)
    follow(show, before, told)


def sheet_times(show):
    out = os.path.join(os.path.dirname(show.path), "list")
    told = show.at_once(*[("sheet", "times", "--list", "gate", "--out", f"{out}{i}.svg")
                          for i in EIGHT])
    check({row["version"] for one in told for row in one["versions"]} == {1},
          "a list that is printed eight times has one version")
    check(show.count("printed_list") == len(told[0]["versions"]), "which is kept once")


def times_import(show):
    plan = csv(show, "plan.csv", "class,day,first,interval_s", "1,1,10:00,480")
    told = show.at_once(*[("times", "import", plan)] * 8)
    check([one["imported"][0]["is_new"] for one in told].count(True) == 1, "one plan file is kept")


# ---- the draw ------------------------------------------------------------------------------------

def draw(show):
    told = show.at_once(*[("draw", "3", "--again", "--seed", str(i)) for i in EIGHT])
    kept = [row["seed"] for row in show.do("draw", "history", "3")["draws"]]
    check(sorted(kept[-8:]) == list(EIGHT), f"eight draws are kept: {kept}")
    last = next(one for one in told if one["drawn"][0]["seed"] == kept[-1])
    check([row["number"] for row in last["draw"]] == show.order("3"), "the last one holds")


def add_late(show):
    """Eight more entries of class 3; their numbers."""
    return [show.do("entry", "add", "3", "--driver", f"Late {i}", "--horses", f"L{i}; M{i}")
            ["entries"][0]["number"] for i in EIGHT]


def follow_draw(show, order, told):
    for one in sorted((one["late"][0] for one in told), key=lambda late: late["of_places"]):
        order.insert(one["place"] - 1, one["number"])
        check(len(order) == one["of_places"], f"number {one['number']} is one of {one['of_places']}")
    check(show.order("3") == order, "the places are those that were told")


def draw_all(show):
    show.do("class", "add", "9", "--title", "Late", "--test", "Larch", "--judges", "C")
    show.do("entry", "add", "9", "--driver", "D", "--horses", "H")
    before = show.count("draw")
    told = show.at_once(*[("draw", "--all")] * 8)
    check(sum("draw" in one for one in told) == 1 and show.count("draw") == before + 1,
          "what is not drawn is drawn once")


def draw_late_take(show):
    before = show.starts()
    numbers = add_late(show)
    told = show.at_once(*[("draw", "late", "3", str(n), "--take") for n in numbers])
    starts = show.starts()
    check(all(("3", n) in starts for n in numbers), "each late one has a time")
    versions = sorted(version_of(one) for one in told)
    check(versions == list(range(versions[0], versions[0] + len(told))), "each of a version")
    check(len(starts) == len(before) + len(told), "and nobody else has")


def draw_late(show):
    numbers = add_late(show)
    order = show.order("3")
    follow_draw(show, order, show.at_once(*[("draw", "late", "3", str(n)) for n in numbers]))


def draw_beside_draw_late(show):
    add_late(show)
    show.do("draw", "3", "--again", "--seed", "1")
    more = [show.do("entry", "add", "3", "--driver", f"Later {i}", "--horses", f"N{i}; O{i}")
            ["entries"][0]["number"] for i in EIGHT[:4]]
    told = show.at_once(("draw", "4", "--again", "--seed", "2"),
                        *[("draw", "late", "3", str(n)) for n in more],
                        ("draw", "2", "--again", "--seed", "3"))
    late = [one for one in told if "late" in one]
    order = [n for n in show.order("3") if n not in more]
    follow_draw(show, order, late)
    for class_name, one in (("4", told[0]), ("2", told[-1])):
        check([row["number"] for row in one["draw"]] == show.order(class_name), "a draw beside it")


# ---- the office ----------------------------------------------------------------------------------

def entry_add(show):
    told = show.at_once(*[("entry", "add", "3", "--driver", f"New {i}", "--horses", f"P{i}; Q{i}")
                          for i in EIGHT])
    for one in told:
        row = one["entries"][0]
        check(show.rows(f"SELECT driver FROM entry WHERE class = '3' AND number = {row['number']}")
              == [(row["driver"],)], f"number {row['number']} is {row['driver']}")


def entry_change(show):
    told = show.at_once(*[("entry", "change", "3", "43", "--club", f"Club {i}") for i in EIGHT])
    links = [(row["was"], row["became"]) for one in told for row in one["changes"]]
    club = show.rows("SELECT club FROM entry WHERE class = '3' AND number = 43")[0][0]
    check(len(links) == 8 and is_chain(links, links_start(show, "entry_change"), club),
          f"eight changes follow one another: {links}")


def links_start(show, history):
    return show.rows(f"SELECT was FROM {history} ORDER BY id LIMIT 1")[0][0]


def entry_status(show):
    words = ("retired", "entered")
    told = show.at_once(*[("entry", "status", "3", "43", words[i % 2], "--why", f"word {i}")
                          for i in EIGHT])
    kept = {row[0] for row in show.rows("SELECT why FROM status_change")}
    check({one["status"][0]["why"] for one in told} <= kept and len(told) == 8,
          "eight words on a status are kept")


def entry_status_many(show):
    show.at_once(*[("entry", "status", "3", "41-44", "46", "withdrawn", "--by", f"P{i}")
                   for i in EIGHT])
    told = show.rows("SELECT number, count(*) FROM status_change JOIN entry ON entry.id = entry "
                     "WHERE class = '3' GROUP BY number ORDER BY number")
    check(told == [(n, 1) for n in (41, 42, 43, 44, 46)], f"five are withdrawn once: {told}")


def entry_move(show):
    show.do("class", "add", "5", "--title", "More", "--test", "Larch", "--judges", "C B")
    told = show.at_once(*[("entry", "move", "1", str(n), "--to", "5") for n in range(11, 15)] * 2,
                        refused=0)
    moved = {(row["number"], row["to_number"]) for one in told for row in one["moves"]}
    there = {row[0] for row in show.rows("SELECT number FROM entry WHERE class = '5'")}
    check({to for _, to in moved} == there, f"who was told to be in class 5 is: {moved}, {there}")


def entry_update(show):
    lines = show.rows("SELECT number, driver, horses FROM entry WHERE class = '3'")
    head = "class,number,driver,horses,height_cm,turnout,groom,club"
    files = [csv(show, f"e{i}.csv", head, *[f'3,{n},"{d}","{h}",,,,Club {i}' for n, d, h in lines])
             for i in EIGHT]
    show.at_once(*[("entry", "import", file, "--update") for file in files])
    clubs = show.rows("SELECT DISTINCT club FROM entry WHERE class = '3'")
    check(len(clubs) == 1, f"one file came last, whole: {clubs}")
    check(show.rows("SELECT count(*) FROM entry_change WHERE field = 'club'") == [(8 * len(lines),)],
          "each file changed each entry")


def class_parts(show):
    told = show.at_once(*[("class", "split", "1", "--by", "division")] * 8, refused=7)
    check(len(told) == 1, "a class is split once")
    names = [row["class"] for row in told[0]["classes"]]
    show.at_once(*[("class", "merge", names[0], "--into", names[1])] * 8, refused=7)
    there = show.rows(f"SELECT count(*) FROM entry WHERE class = '{names[1]}'")
    check(there == [(10,)], f"all ten are together again: {there}")
    show.do("class", "add", "9", "--title", "Nine", "--test", "Larch", "--judges", "C")
    show.at_once(*[("class", "remove", "9")] * 8, refused=7)


def entry_numbers(show):
    show.at_once(*[("entry", "numbers", "--lowest", "5"), ("entry", "numbers", "--highest", "500"),
                   ("entry", "numbers", "--keep", "driver"), ("entry", "numbers")] * 2)
    check(show.rows("SELECT first, last, keep FROM numbering") == [(5, 500, "driver")],
          "what each set is set")


def adds_once(show, *words):
    """The same import eight times: one adds, seven find it there."""
    told = [one["imported"][0] for one in show.at_once(*[words] * 8)]
    added = [one["added"] for one in told if one["added"]]
    check(len(added) == 1 and all(one["added"] or one["same"] == added[0] for one in told),
          f"{' '.join(words[:2])}: one of eight adds: {told}")


def imports(show):
    head = "class,number,driver,horses,height_cm,turnout,groom,club"
    adds_once(show, "entry", "import",
              csv(show, "e.csv", head, *(f"3,{200 + i},E{i},F{i},,,," for i in EIGHT)))
    adds_once(show, "test", "import",
              csv(show, "t.csv", "test,title,kind,level,rule", "Yew,Yew,,,driven-percent"),
              csv(show, "m.csv", "test,item,letters,movement,figure,gait,coefficient,group",
                  "Yew,1,A,Enter,,,1,movement"))
    adds_once(show, "class", "import", csv(show, "c.csv", "class,title,test,level,ring,rule,judges",
                                           "20,Twenty,Larch,,,,C B"))
    adds_once(show, "prize", "import",
              csv(show, "p.csv", "scale,starters,place,amount", "new,1,1,50"))
    adds_once(show, "championship", "import",
              csv(show, "h.csv", "championship,title,classes", "bowl,Bowl,1; 2"))
    adds_once(show, "team", "import", csv(show, "g.csv", "team,class,number", "Reds,3,201"))
    adds_once(show, "mark", "import",
              csv(show, "k.csv", "class,number,judge,item,mark", "3,201,C,1,6"))
    told = show.at_once(*[("entry", "import", csv(show, f"e{i}.csv", head,
                                                 f"4,{300 + i},G{i},H{i},,,,")) for i in EIGHT])
    check(all(one["imported"][0]["added"] == 1 for one in told) and show.rows(
        "SELECT count(*) FROM entry WHERE class = '4' AND number > 300")[0][0] == 8,
        "eight files are eight entries")


def own_rows(show):
    for words in (("ring", "kinds"), ("level",), ("gait",), ("rule",), ("turnout",), ("article",)):
        name = {"ring": "rings"}.get(words[0], words[0] + "s")
        path = os.path.join(HERE, "..", "share", name + ".csv")
        told = [one["imported"][0]["rows"] for one in show.at_once(*[(*words, "import", path)] * 8)]
        check(len(set(told)) == 1, f"{name}: {told}")


def class_add(show):
    def add(name):
        return "class", "add", name, "--title", "T", "--test", "Larch", "--judges", "C B"

    before = show.count("class")
    show.at_once(*[add(f"3{i}") for i in EIGHT])
    show.at_once(*[add("50")] * 8, refused=7)
    check(show.count("class") == before + 9, "eight classes are added, and one")


def class_change(show):
    told = show.at_once(*[("class", "change", "3", "--title", f"Title {i}") for i in EIGHT])
    links = [(row["was"], row["became"]) for one in told for row in one["changes"]]
    title = show.rows("SELECT title FROM class WHERE name = '3'")[0][0]
    check(len(links) == 8 and is_chain(links, links_start(show, "class_change"), title),
          f"eight titles follow one another: {links}")


def judge_name(show):
    was = show.rows("SELECT name FROM judge_name WHERE class = '3' AND position = 'C'")[-1][0]
    told = show.at_once(*[("judge", "name", "3", "C", f"Judge {i}") for i in EIGHT])
    links = [(row["was"], row["name"]) for one in told for row in one["judge"]]
    last = show.rows("SELECT name FROM judge_name ORDER BY id")[-1][0]
    check(is_chain(links, was, last), f"eight judges follow one another: {links}")


def judge_away(show):
    numbers = [row[0] for row in show.rows("SELECT number FROM entry WHERE class = '1'")][:8]
    show.at_once(*[("judge", "away", "1", "B", "--number", str(n), "--by", "O", "--why", "ill")
                   for n in numbers])
    check(show.count("judge_away") == 8, "a judge is away eight times")


# ---- marks ---------------------------------------------------------------------------------------

BY = ("--by", "Office", "--why", "said so")


def penalty_add(show):
    before = show.count("penalty")
    show.at_once(*[("penalty", "add", "1", "14", "--points", "3")] * 8)
    check(show.rows("SELECT sum(points_x100) FROM penalty WHERE points_x100 = 300") == [(2400,)] and
          show.count("penalty") == before + 8, "eight penalties of 3 points are 24")
    told = [one["penalty"][0] for one in
            show.at_once(*[("penalty", "add", "2", "31", "--article", "groom dismounts")] * 8)]
    check(sorted(one["points"] for one in told if not one["eliminated"]) == [5, 10],
          f"the first time costs 5, the second 10, the third is the end: {told}")


def penalty_undo(show):
    show.do("penalty", "add", "1", "14", "--points", "40")
    show.at_once(*[("penalty", "add", "1", "14", "--points", "3")] * 7)
    told = show.at_once(*[("penalty", "undo", "1", "14")] * 8)
    check(len({one["penalties"][0]["id"] for one in told}) == 8 and
          not show.rows("SELECT 1 FROM penalty JOIN entry ON entry.id = entry WHERE class = '1' "
                        "AND number = 14 AND undoes IS NULL AND penalty.id NOT IN "
                        "(SELECT undoes FROM penalty WHERE undoes IS NOT NULL)"),
          "eight take eight penalties back, each another one")


def marked_class(show, rule, items):
    """Class 40: eight equal entries, keyed twice, all boxes but the first empty."""
    show.do("test", "import",
            csv(show, "t.csv", "test,title,kind,level,rule", f"Clover,Clover,,,{rule}"),
            csv(show, "m.csv", "test,item,letters,movement,figure,gait,coefficient,group",
                *(f"Clover,{i},,Move {i},,,1,movement" for i in range(1, items + 1))))
    show.do("class", "add", "40", "--title", "T", "--test", "Clover", "--judges", "C")
    show.do("entry", "import",
            csv(show, "e.csv", "class,number,driver,horses,height_cm,turnout,groom,club",
                *(f"40,{n},Driver {n},Horse {n},,,," for n in EIGHT)))
    one = csv(show, "k.csv", "class,number,judge,item,mark",
              *(f"40,{n},C,{line}" for n in EIGHT for line in ("1,6", "errors,0")))
    show.do("mark", "import", one, "--by", "Ann")
    show.do("mark", "import", one, "--by", "Bo", "--keying", "2")


def mark_missing(show):
    marked_class(show, "ridden-points", 2)
    show.at_once(*[("mark", "missing", "40", str(n), "--judge", "C", "--item", "2", *BY)
                   for n in EIGHT])
    check(show.count("missing_mark") == 8, "eight boxes are missing")


def mark_fix(show):
    was = show.do("mark", "history", "1", "11", "--judge", "C", "--item", "3")["history"][-1]["mark"]
    told = [one["fixed"][0] for one in
            show.at_once(*[("mark", "fix", "1", "11", f"{i}.5", "--judge", "C", "--item", "3", *BY)
                           for i in EIGHT])]
    now = show.do("mark", "history", "1", "11", "--judge", "C", "--item", "3")["history"][-1]
    links = [(float(one["was"]), float(one["became"])) for one in told]
    check(is_chain(links, was, now["mark"]), f"eight fixes follow one another: {links}")


def mark_total(show):
    before = show.count("sheet_line")
    show.at_once(*[("mark", "total", "1", "11", f"{100 + i}", "--judge", "C", "--by", f"P{i}")
                   for i in EIGHT])
    check(show.count("sheet_line") == before + 8, "eight totals are kept")


def mark_sheet(show):
    before = show.count("sheet_event")
    show.at_once(*[("mark", "received", "1", "11", "--judge", "C", "--by", f"P{i}")
                   for i in EIGHT])
    check(show.count("sheet_event") == before + 8, "eight words on a sheet are kept")


def mark_move(show):
    show.do("entry", "add", "1", "--driver", "Late", "--horses", "Fen", "--number", "97")
    there = show.rows("SELECT count(*) FROM mark JOIN entry ON entry.id = entry JOIN judge ON "
                      "judge.id = judge WHERE entry.class = '1' AND number = 11 AND "
                      "position = 'C'")[0][0]
    told = show.at_once(*[("mark", "move", "1", "11", "--judge", "C", "--to", "97", *BY)] * 8,
                        refused=7)
    check(told[0]["moved_sheet"][0]["boxes"] >= there > 0, f"one of eight moves a sheet: {told}")


def post_and_prizes(show):
    told = show.at_once(*[("post", "1", "--by", "Office")] * 8)
    check(show.count("posting") == 1, "a class is posted once")
    check(sum("nothing was posted anew" in " ".join(one.get("notes", ())) for one in told) == 7,
          "and seven are told so")
    show.at_once(*[("prize", "payee", "13", f"Payee {i}") for i in EIGHT])
    check(show.count("payee") == 8, "eight payees are kept")


def tie_decide(show):
    marked_class(show, "driven-percent", 1)
    show.at_once(*[("tie", "decide", "40", *(str(1 + (n + i) % 8) for n in EIGHT), *BY)
                   for i in EIGHT])
    check(show.count("decision") == 8, "eight decisions are kept")


# ---- rings ---------------------------------------------------------------------------------------

def rings(show):
    before, checked = show.count("ring"), show.count("ring_check")
    show.at_once(*[("ring", "add", f"Ring {i}", "--kind", "driven-40x80") for i in EIGHT])
    show.at_once(*[("ring", "add", "Elm ring", "--kind", "driven-40x80")] * 8, refused=7)
    check(show.count("ring") == before + 9, "eight rings are added, and one")
    show.at_once(*[("ring", "check", "Oak ring", os.path.join(DEMO, "readings-oak.csv")),
                   ("ring", "footing", "Oak ring", os.path.join(DEMO, "heights-oak.csv"))] * 4)
    check(show.count("ring_check") == checked + 8, "eight checks are kept")


def create(show):
    path = os.path.join(os.path.dirname(show.path), "new.show")
    show.at_once(*[("create", path, "--title", f"Show {i}", "--day", "2026-05-09")
                   for i in EIGHT], refused=7)


# ---- output that is lost -------------------------------------------------------------------------

def lost_output(show):
    """A report that cannot be written leaves nothing in the show."""
    new = csv(show, "x.csv", "class,number,driver,horses,height_cm,turnout,groom,club",
              "3,201,E,F,,,,")
    for words in (("penalty", "add", "1", "14", "--points", "3"), ("draw", "3", "--again"),
                  ("times", "late", "Oak ring", "3", "--day", "1"), ("times", "plan", "--again"), ("post", "1", "--by", "O"),
                  ("entry", "import", new), ("entry", "add", "3", "--driver", "D", "--horses", "H"),
                  ("mark", "received", "1", "11", "--judge", "C", "--by", "P"),
                  ("ring", "add", "Elm ring", "--kind", "driven-40x80")):
        before = dump(show)
        with open("/dev/full", "w", encoding="utf-8") as full:
            done = subprocess.run([show.ringtrue, "--show", show.path, *words], stdout=full,
                                  stderr=subprocess.PIPE, text=True, check=False)
        check(done.returncode == 3 and "nothing was kept" in done.stderr,
              f"{' '.join(words)}: status {done.returncode}: {done.stderr}")
        check(dump(show) == before, f"{' '.join(words)}: nothing is kept")


def dump(show):
    db = sqlite3.connect(f"file:{show.path}?mode=ro", uri=True)
    lines = list(db.iterdump())
    db.close()
    return lines


def all_mixed(show):
    """One of each at the same time, and readers between."""
    before = show.starts()
    told = show.at_once(
        ("times", "late", "Oak ring", "3", "--more"), ("entry", "change", "3", "43", "--club", "Hill"),
        ("draw", "2", "--again"), ("penalty", "add", "1", "14", "--points", "3"),
        ("results", "1"), ("times", "late", "Oak ring", "2", "--more"), ("times", "check"),
        ("entry", "add", "3", "--driver", "New", "--horses", "P; Q"), ("verify",),
        ("mark", "fix", "1", "11", "5", "--judge", "C", "--item", "3", *BY),
        ("times", "late", "Mill ring", "4"), ("judge", "name", "3", "C", "Judge"), ("show",))
    follow(show, before, [one for one in told if "moved" in one])


ALL = (times_late, times_late_twice, times_move, times_plan, plan_beside_late, sheet_times, times_import,
       draw, draw_all, draw_late, draw_late_take,
       draw_beside_draw_late, entry_add, entry_change, entry_status, entry_status_many,
       entry_move, entry_update, class_parts, entry_numbers, imports,
       own_rows, class_add, class_change, judge_name, judge_away, penalty_add, penalty_undo,
       mark_missing,
       mark_fix, mark_total, mark_sheet, mark_move, post_and_prizes, tie_decide, rings, create, lost_output,
       all_mixed)


def main():
    ringtrue = os.path.abspath(sys.argv[1])
    os.environ["RINGTRUE_DATA"] = os.path.join(HERE, "..", "share")
    with tempfile.TemporaryDirectory() as folder:
        demo = os.path.join(folder, "demo.show")
        subprocess.run(["sh", os.path.join(HERE, "demo_show.sh"), ringtrue, demo], check=True)
        for one in ALL:
            show = Show(ringtrue, os.path.join(folder, "work", "a.show"))
            os.mkdir(os.path.dirname(show.path))
            shutil.copy(demo, show.path)
            one(show)
            show.do("verify")
            check(not os.path.exists(show.path + "-wal"), f"{one.__name__}: one file is left")
            shutil.rmtree(os.path.dirname(show.path))
    print(f"at once: {checks} checks passed")


main()
