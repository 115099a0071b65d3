"""Kill `mark enter` 500 times at random moments while a pipe feeds it marks: every mark that was
acknowledged (the next prompt was seen) is in the show, and nothing that was not typed.
   usage: kill_keying.py RINGTRUE [KILLS]
SPDX-License-Identifier: GPL-3.0-or-later"""
import os
import random
import subprocess
import sys
import tempfile
import time

sys.dont_write_bytecode = True
import desk  # noqa: E402

SEED = 20260509


class Sheet:
    """What was typed for one sheet, and how much of it was acknowledged."""

    def __init__(self, number, judge, chance):
        self.number, self.judge = number, judge
        self.marks = [chance.randrange(0, 21) * 5 for _ in range(desk.ITEMS)]
        self.acknowledged = 0
        self.unseen = 0  # kept, though a kill came before the next prompt

    def typed(self, first):
        return "".join(f"{mark / 10:.1f}\n" for mark in self.marks[first:]).encode()


def sheets(chance):
    number = 0
    while True:
        number += 1
        for judge in desk.JUDGES:
            yield Sheet(number, judge, chance)


def prompts(said):
    """The items that were asked for, in order; the line of errors is one more."""
    asked = [int(name) - 1 for name in desk.ITEM.findall(said)]
    return asked + [desk.ITEMS] * said.count("; errors: ")


def whole_sheet(ringtrue, show, sheet):
    """How long a sheet takes that is fed without a kill, in seconds."""
    begin = time.monotonic()
    done = subprocess.run(desk.enter_words(ringtrue, show, sheet.number, sheet.judge, "Ann"),
                          input=sheet.typed(0), capture_output=True, check=False)
    sheet.acknowledged = desk.ITEMS
    if done.returncode != 1:  # paused: the errors of course are wanting
        sys.exit(f"an undisturbed keying: status {done.returncode}")
    return time.monotonic() - begin


def kill_once(ringtrue, show, sheet, wait, keying):
    """Feed a sheet, kill so long after the first prompt (keying) or the start, and take what was acknowledged into account."""
    child = subprocess.Popen(desk.enter_words(ringtrue, show, sheet.number, sheet.judge, "Ann"),
                             stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                             stderr=subprocess.PIPE)
    # The first prompt may be one mark further than what was acknowledged: that mark was kept,
    # and the kill came before its prompt.  The feed begins there when it is known.
    begin = time.monotonic()
    latest = begin + 60
    said = b""
    fed = False
    os.set_blocking(child.stdout.fileno(), False)
    while time.monotonic() - begin < wait:
        said += child.stdout.read() or b""
        asked = prompts(said.decode())
        if not asked and keying:
            begin = time.monotonic()
            if begin > latest:
                sys.exit(f"no prompt within a minute: {said!r}")
        if asked and not fed and asked[0] < desk.ITEMS:
            child.stdin.write(sheet.typed(asked[0]))
            child.stdin.flush()
            fed = True
        time.sleep(0.0005)
    child.kill()
    os.set_blocking(child.stdout.fileno(), True)
    said += child.stdout.read() or b""
    errors = child.stderr.read().decode()
    child.stdin.close()
    child.wait()
    asked = prompts(said.decode())
    if errors:
        sys.exit(f"number {sheet.number} {sheet.judge}: {errors}")
    if asked and asked[0] < sheet.acknowledged:
        sys.exit(f"number {sheet.number} {sheet.judge}: {sheet.acknowledged} marks were "
                 f"acknowledged, but the keying goes on at {asked[0]}")
    if asked and asked != list(range(asked[0], asked[-1] + 1)):
        sys.exit(f"number {sheet.number} {sheet.judge}: asked for {asked}")
    if asked:
        sheet.unseen += asked[0] - sheet.acknowledged
        sheet.acknowledged = asked[-1]
    return bool(asked)


def check(ringtrue, show, all_sheets):
    """Every acknowledged mark is there as it was typed; returns how many."""
    there = 0
    for number in sorted({sheet.number for sheet in all_sheets}):
        rows = desk.history(ringtrue, show, number)
        for sheet in (one for one in all_sheets if one.number == number):
            kept = {int(row["item"]): row for row in rows if row["judge"] == sheet.judge}
            if sorted(kept) != list(range(1, len(kept) + 1)):
                sys.exit(f"number {number} {sheet.judge}: kept are {sorted(kept)}")
            for item, row in kept.items():
                if row["version"] != 1 or round(row["mark"] * 10) != sheet.marks[item - 1]:
                    sys.exit(f"number {number} {sheet.judge}: typed "
                             f"{sheet.marks[item - 1] / 10}, kept {row}")
            if len(kept) < sheet.acknowledged:
                sys.exit(f"number {number} {sheet.judge}: {sheet.acknowledged} acknowledged, "
                         f"{len(kept)} kept")
            there += sheet.acknowledged
    return there


def main():
    ringtrue = sys.argv[1]
    kills = int(sys.argv[2]) if len(sys.argv) > 2 else 500
    chance = random.Random(SEED)
    begin = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        show = desk.make_show(ringtrue, folder, kills // len(desk.JUDGES) + 1)
        source, waiting, between = sheets(chance), 0, 0
        done = [next(source)]
        longest = whole_sheet(ringtrue, show, done[0])
        for _ in range(kills):
            if done[-1].acknowledged == desk.ITEMS:
                done.append(next(source))
            # From its first prompt on a sheet takes less than the whole run of the program.
            waiting += kill_once(ringtrue, show, done[-1], longest / 4 * chance.random(),
                                 chance.random() < 0.8)
            between += 0 < done[-1].acknowledged < desk.ITEMS
        there = check(ringtrue, show, done)
        desk.run(ringtrue, show, "verify")
    print(f"{kills} kills in {time.monotonic() - begin:.0f} s, {waiting} after the first prompt, "
          f"{between} with a sheet half keyed: {there} marks acknowledged, all kept; "
          f"{sum(sheet.unseen for sheet in done)} of them killed before their prompt")
    if between < kills // 10 or waiting == kills:
        sys.exit("the kills did not fall into the keying")


if __name__ == "__main__":
    main()
