#!/usr/bin/python3
"""Does a suite notice when the code is wrong?  One constant, comparison, operator or sign of a pure
room is changed at a time in a copy of the sources, the room's suites are built and run, and what
they let pass is listed.

    usage: mutate.py [ROOM...] [--sample N] [--seed N] [--minutes M] [--only TEXT]

The rooms are those of PURE_LIBS in Makefile.am; tests/mutants.txt says which suites a room has, and
names the survivors that change nothing anybody could see, each with its reason.  Whether a change
is in the sample of a seed depends on its line alone: what is written elsewhere in the room hardly
moves the sample.  No suite runs out of memory: a condition or an expression that does nothing but
lead to rt_fail_nomem is left as it is.  Ends with 1 when a survivor is not named.
SPDX-License-Identifier: GPL-3.0-or-later"""
import argparse
import collections
import concurrent.futures
import hashlib
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
import time

TOP = pathlib.Path(__file__).resolve().parent.parent
TREE = TOP / "build" / "mutants"
SLOW = 10  # a suite that takes so many times its usual time has been sent into a circle

SWAPS = {"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "==", "+": "-", "-": "+",
         "*": "/", "/": "*", "&&": "||", "||": "&&", "+=": "-=", "-=": "+=", "++": "--",
         "--": "++", "%": "/"}
HIDDEN = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|^#\s*include[^\n]*', re.S | re.M)
NUMBER = re.compile(r"(?<![\w.])(\d+\.\d*(?:e[-+]?\d+)?|\d+)(?![\w.])")
BINARY = re.compile(r"(?<=[\w)\]] )(<=|>=|==|!=|&&|\|\||\+=|-=|[-+*/%<>])(?= [^=])")
STEP = re.compile(r"(?<=\w)(\+\+|--)|(\+\+|--)(?=\w)")
SIGN = re.compile(r"(?<=[ (\[])-(?=[\w(])")
NOT = re.compile(r"(?<=[( ])!(?=[\w(])")
NO_MEMORY = re.compile(r"(?:\bif \(|\breturn |= )(?:(?!\bif \()[^;{}])*\brt_fail_nomem\(")


def plain(text):
    """The text with comments, strings and includes blanked, every character at its place."""
    return HIDDEN.sub(lambda m: re.sub(r"[^\n]", " ", m.group()), text)


def changed_number(number):
    if "." in number or "e" in number:
        return [repr(float(number) * 4), repr(float(number) / 4)] if float(number) else ["1.0"]
    return [str(int(number) + 1)] + ([f"{int(number)}00"] if number not in "012" else [])


def mutants(path):
    """Each as where it begins and ends in the file and what stands there instead."""
    text = plain((TREE / path).read_text())
    found = [(m.start(), m.end(), other) for m in NUMBER.finditer(text)
             for other in changed_number(m.group())]
    for pattern in (BINARY, STEP):
        found += [(m.start(), m.end(), SWAPS[m.group()]) for m in pattern.finditer(text)]
    found += [(m.start(), m.end(), "") for p in (SIGN, NOT) for m in p.finditer(text)]
    left = [m.span() for m in NO_MEMORY.finditer(text)]
    return [(path, *one) for one in sorted(found)
            if not any(begin <= one[0] < end for begin, end in left)]


def named():
    """Of mutants.txt: the suites of each room, and the survivors that have a reason."""
    suites, reasons = {}, set()
    for line in (TOP / "tests" / "mutants.txt").read_text().splitlines():
        words = line.split()
        if line.startswith("suites "):
            suites[words[1]] = words[2:]
        elif line.startswith("src/"):
            reasons.add(" ".join(line.split(" -- ")[0].split()))
    return suites, reasons


def pure_rooms():
    lines = (TOP / "Makefile.am").read_text().replace("\\\n", " ")
    libraries = re.search(r"^PURE_LIBS = (.*)$", lines, re.M).group(1)
    return re.findall(r"librt_(\w+)\.la", libraries)[::-1]


def quietly(command, **more):
    return subprocess.run(command, cwd=TREE, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, text=True, **more)


def prepare(suites):
    """A copy of the sources, built; how one file is compiled and a suite linked with it, and how
    long each suite takes."""
    programs = sorted({program(suite) for suite in suites})
    shutil.rmtree(TREE, ignore_errors=True)
    shutil.copytree(TOP, TREE, ignore=shutil.ignore_patterns("build", ".git", "autom4te.cache"))
    for command in (["autoreconf", "-fi"],
                    ["./configure", "-q", "--disable-shared", "CFLAGS=-O0 -w"],
                    ["make", "-s", "src/store/sql_text.h", "tests/locales/de_DE.UTF-8"],
                    ["make", "-s", "-j2", *programs],
                    ["sh", "-c", "ar rcs rooms.a src/*/*.o"]):
        done = quietly(command)
        if done.returncode:
            sys.exit(f"{' '.join(command)}:\n{done.stdout[-3000:]}")
    build = {"compile": made("$(COMPILE)"), "libs": made("$(OUTSIDE_LIBS) $(CHECK_LIBS)")}
    for name in programs:
        build[name] = made(f"$({name}_OBJECTS)")
    seconds = {}
    for suite in suites:
        begun = time.monotonic()
        if quietly([f"./{program(suite)}", suite.split("/")[1]]).returncode:
            sys.exit(f"{suite} fails before anything is changed")
        seconds[suite] = time.monotonic() - begun
    return build, seconds


def program(suite):
    return "suites_" + suite.split("/")[0]


def made(variables):
    """What make puts for the variables, as words of a command."""
    done = quietly(["make", "-s", f"--eval=told: ; @echo '{variables}'", "told"])
    return shlex.split(done.stdout)


def survives(path, begin, end, other, build, seconds):
    """True when every suite passes with it, None when it cannot be compiled."""
    text = (TREE / path).read_text()
    with tempfile.TemporaryDirectory(dir=TREE) as folder:
        mutant, changed = pathlib.Path(folder, path.name), pathlib.Path(folder, "mutant.o")
        mutant.write_text(text[:begin] + other + text[end:])
        if quietly([*build["compile"], f"-I{path.parent}", "-c", "-o", changed,
                    mutant]).returncode:
            return None
        for suite, usual in sorted(seconds.items(), key=lambda one: one[1]):
            target = pathlib.Path(folder, program(suite))
            if not target.exists() and quietly(
                    ["cc", "-pthread", "-o", target, *build[program(suite)], changed, "rooms.a",
                     *build["libs"]]).returncode:
                return None
            try:
                if quietly([target, suite.split("/")[1]],
                           timeout=2 + SLOW * usual).returncode:
                    return False
            except subprocess.TimeoutExpired:
                return False
    return True


def told(path, begin, end, other):
    """The line as it was changed: what mutants.txt names it by."""
    text = (TREE / path).read_text()
    first, last = text.rfind("\n", 0, begin) + 1, text.find("\n", end)
    return " ".join(f"{path}: {text[first:begin]}{other}{text[end:last]}".split())


def sample(possible, size, seed):
    """Those whose lines have the lowest hashes; lines that read alike are numbered."""
    alike, ranked = collections.Counter(), []
    for one in possible:
        line = told(*one)
        alike[line] += 1
        ranked.append((hashlib.sha256(f"{seed} {alike[line]} {line}".encode()).digest(), one))
    return sorted(one for _, one in sorted(ranked)[:size])


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("room", nargs="*")
    parser.add_argument("--sample", type=int, default=40, help="so many of each room")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--minutes", type=float, default=30, help="no new one after so long")
    parser.add_argument("--only", default="", help="changes of lines with this text only")
    args = parser.parse_args()
    suites, reasons = named()
    rooms = args.room or pure_rooms()
    for room in rooms:
        if room not in suites:
            sys.exit(f"tests/mutants.txt names no suites of {room}")
    os.environ.update(CK_FORK="no", LC_ALL="C.UTF-8", TZ="UTC", RINGTRUE_DATA=str(TREE / "share"),
                      srcdir=str(TREE), LOCPATH=str(TREE / "tests" / "locales"))
    build, usual = prepare(sorted({suite for room in rooms for suite in suites[room]}))
    until = time.monotonic() + 60 * args.minutes
    unnamed = 0

    def tried(one):
        if time.monotonic() > until:
            return "late"
        result = survives(*one, build, {suite: usual[suite] for suite in suites[one[0].parts[1]]})
        if result and told(*one) in reasons:
            return "named"
        if result:
            print(f"survived  {told(*one)}", flush=True)
        return result

    for room in rooms:
        possible = [one for path in sorted(TREE.glob(f"src/{room}/*.c"))
                    for one in mutants(path.relative_to(TREE)) if args.only in told(*one)]
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as workers:
            results = [one for one in workers.map(tried, sample(possible, args.sample, args.seed))
                       if one != "late"]
        killed, survived = results.count(False), results.count(True)
        unnamed += survived
        print(f"{room}: {len(results)} of {len(possible)} changes tried: {killed} killed, "
              f"{survived} survived, {results.count('named')} survive for a reason, "
              f"{results.count(None)} do not compile", flush=True)
    return unnamed > 0


if __name__ == "__main__":
    sys.exit(main())
