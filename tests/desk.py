"""A desk for tests: an invented class, and `mark enter` driven over pipes or a terminal.
SPDX-License-Identifier: GPL-3.0-or-later"""
import json
import os
import pty
import re
import select
import subprocess
import sys

DATE = "2026-05-09 10:00"
ITEMS = 20
JUDGES = ["C", "B", "E"]
PROMPT = re.compile(rb"(?:mark|errors|total)(?: \[[0-9.]+\])?: $|to go back: $")
# The prompt of an item, whose movement is called after it.
ITEM = re.compile(r"Movement (\d+), coefficient \d\n    .* so far; mark(?: \[[0-9.]+\])?: ")


def run(ringtrue, show, *words, status=0, **more):
    """Run a command to its end; its standard output."""
    done = subprocess.run([ringtrue, "--date", DATE, "--show", show, *words],
                          stdin=subprocess.DEVNULL, capture_output=True, text=True, **more)
    if done.returncode != status:
        sys.exit(f"{words}: status {done.returncode}, not {status}\n{done.stdout}{done.stderr}")
    return done.stdout


def make_show(ringtrue, folder, entries):
    """A show with one class of invented entries, numbers from 1."""
    def write(name, *lines):
        path = os.path.join(folder, name)
        with open(path, "w", encoding="utf-8") as out:
            out.write("\n".join(lines) + "\n")
        return path

    show = os.path.join(folder, "desk.show")
    run(ringtrue, show, "create", show, "--title", "Desks", "--day", "2026-05-09")
    run(ringtrue, show, "test", "import",
        write("tests.csv", "test,title,kind,level,rule", "Elm,Elm,,,driven-percent"),
        write("movements.csv", "test,item,letters,movement,figure,gait,coefficient,group",
              *(f"Elm,{i},A,Movement {i},,,{1 + i % 2},movement" for i in range(1, ITEMS + 1))))
    run(ringtrue, show, "class", "import",
        write("classes.csv", "class,title,test,level,ring,rule,judges",
              f"1,One,Elm,,,,{' '.join(JUDGES)}"))
    run(ringtrue, show, "entry", "import",
        write("entries.csv", "class,number,driver,horses,height_cm,turnout,groom,club",
              *(f"1,{n},Driver {n},Horse {n},,,," for n in range(1, entries + 1))))
    return show


def history(ringtrue, show, number, *words):
    """Every version of the marks of an entry, as rows."""
    out = run(ringtrue, show, "--format", "json", "mark", "history", "1", str(number), *words)
    return json.loads(out)["history"]


def enter_words(ringtrue, show, number, judge, by, *more, date=DATE):
    return [ringtrue, "--date", date, "--show", show, "mark", "enter", "1", str(number), "--judge",
            judge, "--by", by, *more]


class Desk:
    """A `mark enter` that is under way, over pipes or over a terminal of its own."""

    def __init__(self, ringtrue, show, number, judge, by, *more, terminal=False, date=DATE,
                 prepare=None):
        words = enter_words(ringtrue, show, number, judge, by, *more, date=date)
        self.errors = b""
        if terminal:
            self.near, far = pty.openpty()
            self.child = subprocess.Popen(words, stdin=far, stdout=far, stderr=far,
                                          start_new_session=True, preexec_fn=take_terminal)
            os.close(far)
            self.to = self.back = self.near
        else:
            self.child = subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                                          stderr=subprocess.PIPE, preexec_fn=prepare)
            self.to, self.back = self.child.stdin.fileno(), self.child.stdout.fileno()

    def read(self):
        """What is written up to the next prompt, or the end."""
        said = b""
        while not PROMPT.search(said):
            if not select.select([self.back], [], [], 60)[0]:
                sys.exit(f"no answer within a minute: {said!r}")
            try:
                got = os.read(self.back, 65536)
            except OSError:  # the far end of a terminal is closed
                got = b""
            if not got:
                break
            said += got
        return said.decode()

    def type(self, text):
        """Type, and read the answer."""
        os.write(self.to, text.encode())
        return self.read()

    def end(self):
        """End of input; the rest of what is written, and the exit status."""
        if not self.child.stdin:
            os.close(self.near)
            return "", self.child.wait(60)
        out, err = self.child.communicate(timeout=60)
        self.errors = err.decode()
        return out.decode() + self.errors, self.child.returncode


def take_terminal():
    """In the child: make its standard input the terminal that Ctrl-C comes from."""
    import fcntl
    import termios

    fcntl.ioctl(0, termios.TIOCSCTTY, 0)
