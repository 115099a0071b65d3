"""Desks at work: two at one sheet, many at once, a busy file, a full disk, a file that cannot be
written, a clock set back, Ctrl-C and a lost connection at a terminal.
   usage: desks.py RINGTRUE
SPDX-License-Identifier: GPL-3.0-or-later"""
import json
import os
import resource
import signal
import sqlite3
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
import desk  # noqa: E402
from desk import Desk

checks = 0


def check(ok, what):
    global checks
    checks += 1
    if not ok:
        sys.exit(f"FAIL {what}")


def values(ringtrue, show, number, judge, keying=1):
    """The latest mark of each box of a sheet that is keyed, in order."""
    latest = {}
    for row in desk.history(ringtrue, show, number, "--judge", judge):
        if row["keying"] == keying:
            latest[row["item"]] = row["mark"]
    return list(latest.values())


def stands_alone(show):
    return not any(os.path.exists(show + end) for end in ("-wal", "-shm"))


def two_at_one_sheet(ringtrue, show):
    one = Desk(ringtrue, show, 1, "C", "Ann")
    other = Desk(ringtrue, show, 1, "C", "Bob")
    one.read()
    other.read()
    check("mark:" in one.type("65\n"), "the first desk keys")
    said = other.type("7\n")
    rest, status = other.end()
    check(status == 1 and "Another desk" in said + rest and "Ann" in said + rest,
          f"the second desk at a sheet is told: {status} {said}{rest}")
    check("mark:" in one.type("8\n"), "the first desk goes on")
    one.end()
    check(values(ringtrue, show, 1, "C") == [6.5, 8.0], "only the first desk's marks are kept")


def corrected_while_keyed(ringtrue, show):
    one = Desk(ringtrue, show, 2, "C", "Ann")
    one.read()
    one.type("6\n")
    desk.run(ringtrue, show, "mark", "fix", "1", "2", "7.5", "--judge", "C", "--item", "1", "--by",
             "Bob", "--why", "read wrong")
    one.type("b\n")
    said = one.type("5\n")
    rest, status = one.end()
    check(status == 1 and "Bob" in said + rest, "a fix since the box was shown is told")
    check(values(ringtrue, show, 2, "C") == [7.5], "the fix stands")


def four_at_once(ringtrue, show):
    desks = [Desk(ringtrue, show, 3, "C", "Ann"), Desk(ringtrue, show, 3, "B", "Bob"),
             Desk(ringtrue, show, 3, "E", "Cay"), Desk(ringtrue, show, 4, "C", "Dan")]
    said = [one.read() for one in desks]
    for _ in range(desk.ITEMS):
        for one in desks:
            os.write(one.to, b"7\n")
        said = [one.read() for one in desks]
    check(all("errors:" in one for one in said), f"four desks key four sheets: {said}")
    check(all(one.type("0\n").endswith("total: ") for one in desks), "and their errors")
    check(all(one.end()[1] == 0 for one in desks), "and end")
    check(stands_alone(show), "the last desk to close leaves one file")


def a_busy_file(ringtrue, show):
    one = Desk(ringtrue, show, 4, "B", "Ann")
    one.read()
    one.type("6\n")
    other = sqlite3.connect(show, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    said = one.type("7\n")
    check("busy" in said and said.endswith("mark: "), f"a busy file is told: {said}")
    other.execute("ROLLBACK")
    other.close()
    one.type("7\n")
    one.end()
    check(values(ringtrue, show, 4, "B") == [6.0, 7.0], "the mark can be typed again")


def little_room():
    """In the child: no file may grow beyond some ten marks' worth of log."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (40000, 40000))


def a_full_disk(ringtrue, show):
    """The log beside the file grows with every mark until there is no room for it."""
    one = Desk(ringtrue, show, 5, "C", "Ann", prepare=little_room)
    one.read()
    acknowledged = 0
    while acknowledged < desk.ITEMS and one.type("65\n").endswith(": "):
        acknowledged += 1
    rest, status = one.end()
    check(0 < acknowledged < desk.ITEMS, f"the room ends in the middle, not at {acknowledged}")
    check(status == 3 and "not full" in rest, f"a full disk is told: {status} {rest}")
    check(len(values(ringtrue, show, 5, "C")) == acknowledged,
          "every acknowledged mark is there, and no other")
    one = Desk(ringtrue, show, 5, "C", "Ann")
    check(f"Movement {acknowledged + 1}," in one.read(), "with room again the keying goes on")
    one.end()


def no_place_to_write(ringtrue, show):
    """As a user who may read the file only; root may do all, so it becomes another."""
    def prepare():
        if os.geteuid() == 0:
            os.setgid(65534)
            os.setuid(65534)

    folder = os.path.dirname(show)
    os.chmod(folder, 0o555)
    os.chmod(show, 0o444)
    words = desk.enter_words(ringtrue, show, 1, "B", "Ann")
    try:
        subprocess.run([ringtrue, "--version"], preexec_fn=prepare, capture_output=True, check=True)
        done = subprocess.run(words, input="7\n", capture_output=True, text=True,
                              preexec_fn=prepare, check=False)
        check(done.returncode == 3 and "cannot be written" in done.stderr and "mark:" not in
              done.stdout, f"a file that cannot be written is told before a mark is asked for: "
              f"{done.returncode} {done.stderr}")
    except (PermissionError, subprocess.CalledProcessError):
        print("a file that cannot be written: not tried, another user cannot run the program")
    finally:
        os.chmod(folder, 0o755)
        os.chmod(show, 0o644)


def a_clock_set_back(ringtrue, show):
    for date, mark in (("2026-05-09 12:00", "6\n"), ("2026-05-09 08:00", "b\n7\n"),
                       ("2026-05-09 10:00", "b\n8\n")):
        one = Desk(ringtrue, show, 6, "C", "Ann", date=date)
        one.read()
        for line in mark.splitlines(keepends=True):
            one.type(line)
        one.end()
    rows = desk.history(ringtrue, show, 6, "--judge", "C")
    check([row["mark"] for row in rows] == [6.0, 7.0, 8.0], "marks are in the order they came")
    check([row["at"] for row in rows] == ["2026-05-09 12:00:00", "2026-05-09 08:00:00",
                                          "2026-05-09 10:00:00"], "with the times as they were")


def half_a_line(ringtrue, show):
    one = Desk(ringtrue, show, 6, "B", "Ann")
    one.read()
    one.type("7\n")
    os.write(one.to, b"6")
    check(one.end()[1] == 1, "the end of input pauses")
    check(values(ringtrue, show, 6, "B") == [7.0], "half a mark is no mark")


def at_a_terminal(ringtrue, show):
    one = Desk(ringtrue, show, 7, "C", "Ann", terminal=True)
    check("Movement 1" in one.read(), "a terminal is asked")
    one.type("65 late at E\n")
    one.type("7\n")
    said = one.type("\x03")
    check(one.child.wait(60) == 1 and "paused" in said, f"Ctrl-C pauses: {said}")
    check(stands_alone(show), "and leaves one file")
    one.end()
    one = Desk(ringtrue, show, 7, "C", "Ann", terminal=True)
    check("Movement 3" in one.read(), "the same command goes on")
    one.type("8\n")
    one.end()  # the line drops
    check(values(ringtrue, show, 7, "C") == [6.5, 7.0, 8.0], "a lost connection loses nothing")
    check(stands_alone(show), "and leaves one file too")
    rows = desk.history(ringtrue, show, 7, "--judge", "C", "--item", "1")
    check(rows[0]["remark"] == "late at E", "the remark is kept")


def keys_at_a_terminal(ringtrue, show):
    """Arrows, Home, End and the page keys, however a terminal sends them; and one that erases."""
    one = Desk(ringtrue, show, 8, "C", "Ann", terminal=True)
    one.read()
    for mark in ("65\n", "7\n", "8\n"):
        one.type(mark)
    for keys, movement, mark in (("\x1b[A", 3, "8.0"), ("\x1bOD", 2, "7.0"), ("\x1b[B", 3, "8.0"),
                                 ("\x1b[H", 1, "6.5"), ("75\n", 2, "7.0"), ("\x1b[F", 4, None),
                                 ("\x1b[5~", 1, "7.5"), ("\x1b[6~", 4, None), ("\x1b[1~", 1, "7.5"),
                                 ("\x1b[4~", 4, None), ("9\x7f6\x1b[A\n", 5, None),
                                 ("\x1b[A", 4, "6.0"), ("77\x155\n", 5, None)):
        said = one.type(keys)
        kept = f"mark [{mark}]: " if mark else "mark: "
        check(f"Movement {movement}," in said and said.endswith(kept), f"{keys!r}: {said}")
    one.type("\x04")
    check(one.child.wait(60) == 1, "Ctrl-D pauses")
    one.end()
    check(values(ringtrue, show, 8, "C") == [7.5, 7.0, 8.0, 5.0], "what was typed is kept")


MARKS = [65, 70, 75, 60, 55, 80, 65, 70, 50, 65] * 2


def feed(ringtrue, show, text, *words, status=0):
    """A pile keyed from a pipe; what it says in JSON."""
    done = subprocess.run(
        [ringtrue, "--date", desk.DATE, "--format", "json", "--show", show, "mark", "enter", "1",
         *words], input=text, capture_output=True, text=True)
    check(done.returncode == status, f"a pile ends with {status}: {done.stderr}")
    return json.loads(done.stdout)


def keys_of_a_pile(ringtrue, show):
    """What a sheet of 20 boxes costs in a pile, number, errors and hand total with it: at most 60
    keys in rows, whatever the marks are; and as many mark by mark, where half of them are whole."""
    folder = os.path.join(os.path.dirname(show), "pile")
    os.mkdir(folder)
    show = desk.make_show(ringtrue, folder, 3)
    row = "n\n" + "".join(str(mark) for mark in MARKS) + "\n\n\n"
    five = "n\n" + "".join(
        "".join(map(str, MARKS[i:i + 5])) + "\n" for i in range(0, 20, 5)) + "\n\n"
    one = "n\n" + "".join(f"{m if m % 10 else m // 10}\n" for m in MARKS) + "\n\n"
    for sheet in (row, five, one):
        check(len(sheet) <= 60, f"{len(sheet)} keys for {sheet!r}")
    told = feed(ringtrue, show, row + five + one + "\n", "--judge", "E", "--by", "Ann")
    check([(r["number"], r["points"], r["state"]) for r in told["sheet"]] ==
          [(n, told["sheet"][0]["points"], "keyed") for n in (1, 2, 3)], f"three sheets: {told}")
    check(values(ringtrue, show, 2, "E")[:20] == [m / 10 for m in MARKS], "with all their marks")
    second = (row + five + one).replace("n\n65", "n\n60", 1) + "\n2\n"
    told = feed(ringtrue, show, second, "--judge", "E", "--by", "Bob", "--keying", "2")
    check([(r["item"], r["settled"]) for r in told["settled"]] == [("1", 6.0)],
          f"a difference costs one key: {told}")
    check(values(ringtrue, show, 1, "E")[0] == 6.0, "and is settled in both keyings")


def main():
    signal.signal(signal.SIGINT, signal.default_int_handler)  # also where it came ignored
    ringtrue = sys.argv[1]
    with tempfile.TemporaryDirectory() as folder:
        os.chmod(folder, 0o755)
        show = desk.make_show(ringtrue, folder, 8)
        for one in (two_at_one_sheet, corrected_while_keyed, four_at_once, a_busy_file, a_full_disk,
                    no_place_to_write, a_clock_set_back, half_a_line, at_a_terminal,
                    keys_at_a_terminal, keys_of_a_pile):
            one(ringtrue, show)
    print(f"desks: {checks} checks")


if __name__ == "__main__":
    main()
