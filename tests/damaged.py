"""Damaged show files: bits and bytes of copies of the demo show are changed, and values that the
schema would not let in are put; then commands read them.  None may crash, hang or end with
another status than 0 to 3.  Run it with a command that was built with sanitizers.
   usage: damaged.py RINGTRUE [FILES [SEED]]
SPDX-License-Identifier: GPL-3.0-or-later"""
import concurrent.futures
import os
import random
import shutil
import sqlite3
import subprocess
import sys
import tempfile

SEED = 20260509
FILES = 100
COMMANDS_A_FILE = 1
SECONDS = 60  # for one command: longer is a hang
HEADER = 100  # bytes; a bit of them spoilt is mostly "not a show file"
HERE = os.path.dirname(os.path.abspath(__file__))

# What the demo leaves empty: every table has a row to spoil.
MORE = """
ring check|Oak ring|{share}/demo/readings-oak-again.csv|{share}/demo/heights-oak.csv|--by|Ann Brook
entry change|1|11|--groom|Per Ask|--why|groom is ill
entry change|1|18|--number|99
entry numbers|--lowest|1|--highest|500
class change|1|--title|Another title
mark received|1|11|queried|--judge|C|--why|a box is hard to read
judge away|2|B|--number|34|--by|Ann Brook|--why|late train
prize payee|11|Hedda Lowe
post|1|--by|show office
"""

COMMANDS = """
show
verify
ring kinds
ring list
ring setout|Oak ring
ring check|Oak ring
ring history|Oak ring
ring advice|Oak ring
sheet check|Oak ring|--out|{out}.svg
sheet certificate|Oak ring|--out|{out}.svg
sheet setout|Oak ring|--out|{out}.svg
turns|--kind|driven-40x80|--level|advanced|--turnout|horse and gig
sweep|--turnout|horse and gig|--diameter|20|--angle|90
test list
test route|Larch
sheet route|Larch|--out|{out}.svg
sheet turns|--kind|driven-40x80|--level|training|--out|{out}.pdf
class list
class history|1
entry list
entry list|1|--order|driver
entry find|gwen
entry history|1|11
entry numbers
judge list|1
judge history|1
draw history|1
draw late|1|11|--front
draw|2|--again|--why|drawn twice
times
times check
times history
times plan --again
times late|Oak ring|20|--from|9:30|--day|1|--more
times undo
times back|1
times move|1|11|15:00
sheet times|--list|gate|--out|{out}.svg
sheet times|--list|driver|--out|{out}.pdf
mark compare|1
mark compare|3
mark history|1|11
mark history|3|45|--judge|E
mark sheets|1
mark sheets|3|--waiting
mark fix|3|45|6.5|--judge|E|--item|7|--by|Tove Hall|--why|read 7 for 6.5
penalty articles
results|1
results|2
results|3
results|4
post|1|--by|show office
post history|1
judging|1
judging|3
championship list
championship results|shield
team list
team results|--of|percent
prize list
prize money|1|--scale|larkfold
rule list
sheet results|2|--out|{out}.svg
sheet marking|1|--figures|--out|{out}.svg
sheet driver|2|34|--out|{out}.pdf
sheet prizes|1|--scale|larkfold|--out|{out}.pdf
workbook|{out}.xlsx
backup|{out}.show
"""

VALUES = [None, -1, 0, 3, 7, 101, 100000, 2**31, 2**63 - 1, -2**63, 0.5, -1.0, 1e-300, 1e300,
          float("inf"), "", "x", "C", "1", "no such word", "a\nb", "\x01", "w" * 5000,
          b"\xff\xfe", b"text in bytes", "2026-13-45", "99:99"]


# Values that once were places of a table in memory: they are tried every time.
KNOWN = [
    ("mark", "keying = keying + 100", "results|1"),
    ("mark", "keying = keying - (1 << 40)", "mark compare|1"),
    ("sheet_line", "keying = keying + 1000000", "results|3"),
]


def words(line, **names):
    first, *others = line.format(**names).split("|")
    return [*first.split(" "), *others]


def run(ringtrue, show, command):
    return subprocess.run([ringtrue, "--date", "2026-05-09 18:30", "--show", show, *command],
                          stdin=subprocess.DEVNULL, capture_output=True, timeout=SECONDS,
                          check=False)


def make_demo(ringtrue, show):
    subprocess.run(["sh", os.path.join(HERE, "demo_show.sh"), ringtrue, show], check=True)
    for line in MORE.split("\n"):
        if line:
            done = run(ringtrue, show, words(line, share=os.environ["RINGTRUE_DATA"]))
            if done.returncode > 1:
                sys.exit(f"{line}: status {done.returncode}\n{done.stderr.decode()}")


def spoil_bytes(chance, path):
    """Bits flipped, a byte or a run of them changed: between one place and a few."""
    with open(path, "r+b") as file:
        size = os.path.getsize(path)
        for _ in range(chance.choice([1, 1, 3, 20])):
            at = chance.randrange(0 if chance.random() < 0.02 else HEADER, size)
            file.seek(at)
            old = file.read(1)
            file.seek(at)
            file.write(chance.choice([bytes([old[0] ^ 1 << chance.randrange(8)]),
                                      bytes([chance.randrange(256)]), b"\xff" * 4, b"\0" * 4]))


def spoil_values(chance, path):
    """Values of a few rows changed, in tables that check nothing any more or only the types."""
    show = sqlite3.connect(path, isolation_level=None)
    show.execute("PRAGMA ignore_check_constraints = ON")
    show.execute("PRAGMA legacy_alter_table = ON")
    tables = [name for name, in show.execute(
        "SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY 1").fetchall()]
    for (name,) in show.execute("SELECT name FROM sqlite_schema WHERE type = 'trigger'").fetchall():
        show.execute(f"DROP TRIGGER {name}")
    for table in chance.sample(tables, chance.choice([1, 1, 3])):
        columns = [row[1] for row in show.execute(f"PRAGMA table_info({table})")]
        if chance.random() < 0.7:  # the same rows in a table without any guard
            show.execute(f"CREATE TABLE bare AS SELECT {', '.join('+' + c for c in columns)}"
                         f" FROM {table}".replace("+", ""))
            types = ", ".join(columns)
            show.execute(f"CREATE TABLE barer ({types})")
            show.execute("INSERT INTO barer SELECT * FROM bare")
            show.execute(f"DROP TABLE {table}")
            show.execute("DROP TABLE bare")
            show.execute(f"ALTER TABLE barer RENAME TO {table}")
        rows = show.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
        for column in chance.sample(columns, min(len(columns), chance.choice([1, 1, 2, 4]))):
            value = chance.choice(VALUES)
            spoilt = "CAST(? AS TEXT)" if isinstance(value, bytes) and chance.random() < 0.5 else "?"
            every = chance.random() < 0.5
            try:
                show.execute(f"UPDATE {table} SET {column} = {spoilt} WHERE ({columns[0]}, "
                             f"{columns[-1]}) IS (SELECT {columns[0]}, {columns[-1]} FROM {table} "
                             "LIMIT 1 OFFSET ?) OR ?",
                             (value, chance.randrange(max(rows, 1)), every))
            except (sqlite3.IntegrityError, OverflowError):
                pass  # the type or a key is still guarded
    show.close()


def spoil_known(path, table, change):
    show = sqlite3.connect(path, isolation_level=None)
    show.execute("PRAGMA ignore_check_constraints = ON")
    show.execute(f"DROP TRIGGER {table}_no_update")
    show.execute(f"UPDATE {table} SET {change}")
    show.close()


def try_file(ringtrue, demo, folder, number, seed):
    """Spoil a copy and read it; what went wrong, each with how to see it again."""
    chance = random.Random(seed * 1000003 + number)
    show = os.path.join(folder, f"{number}.show")
    out = os.path.join(folder, f"{number}")
    shutil.copy(demo, show)
    if number < len(KNOWN):
        *what, line = KNOWN[number]
        spoil_known(show, *what)
        lines = [line]
    else:
        (spoil_bytes if number % 3 == 0 else spoil_values)(chance, show)
        lines = chance.sample([c for c in COMMANDS.split("\n") if c], COMMANDS_A_FILE)
    wrong = []
    for line in lines:
        command = words(line, out=out)
        if os.environ.get("DAMAGED_FORMAT"):
            command = ["--format", os.environ["DAMAGED_FORMAT"], *command]
        try:
            done = run(ringtrue, show, command)
        except subprocess.TimeoutExpired:
            wrong.append(f"file {number}, {line}: no end")
            continue
        if done.returncode not in (0, 1, 2, 3) or b"runtime error" in done.stderr \
                or b"Sanitizer" in done.stderr:
            wrong.append(f"file {number}, {line}: status {done.returncode}\n"
                         + done.stderr.decode(errors="replace")[:3000])
    for name in os.listdir(folder):
        if name.split(".")[0] == str(number):
            os.unlink(os.path.join(folder, name))
    return wrong


def main():
    ringtrue = os.path.abspath(sys.argv[1])
    files = int(sys.argv[2]) if len(sys.argv) > 2 else FILES
    seed = int(sys.argv[3]) if len(sys.argv) > 3 else SEED
    wrong = []
    with tempfile.TemporaryDirectory() as folder:
        demo = os.path.join(folder, "demo.show")
        make_demo(ringtrue, demo)
        with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
            for said in pool.map(lambda i: try_file(ringtrue, demo, folder, i, seed), range(files)):
                wrong += said
    for said in wrong:
        print(said)
    print(f"damaged.py: {files} files, {len(wrong)} wrong")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
