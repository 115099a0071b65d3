#!/bin/sh
# From a fresh clone to a marked show: install what is missing, build out of tree, run the demo
# show from the ring check to the workbook, and say where the papers are.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
build=${BUILD:-$top/build}
# shellcheck source=share/debian.sh
. "$top/share/debian.sh"

# shellcheck disable=SC2086 # one word a package
need_packages $build_packages

echo "building in $build ..."
mkdir -p "$build"
log=$build/quickstart.log
(
	cd "$top" && autoreconf -fi
	cd "$build" && "$top/configure" --prefix="$build/installed"
	make -j2 && make install
) >"$log" 2>&1 || {
	tail -n 20 "$log" >&2
	echo "the build failed: all of it is in $log" >&2
	exit 1
}
PATH=$build/installed/bin:$PATH
demo=$top/share/demo
papers=$build/demo
rm -rf "$papers"
mkdir -p "$papers"
RINGTRUE_SHOW=$papers/demo.show
export PATH RINGTRUE_SHOW

# Show a command as it would be typed, and run it.  1 says that something needs a person, as the
# demo has it on purpose.
run() {
	printf '\n$ ringtrue %s\n' "$*"
	ringtrue --date '2026-05-09 18:00' "$@" || [ $? -eq 1 ]
}
# The same, without showing what it answers.
quietly() {
	printf '$ ringtrue %s\n' "$*"
	ringtrue --date '2026-05-09 18:00' "$@" >/dev/null || [ $? -eq 1 ]
}

cd "$demo"
quietly create "$RINGTRUE_SHOW" --title 'Larkfold Spring Driving Day' --day 2026-05-09
quietly ring add 'Oak ring' --kind driven-40x80
quietly ring add 'Mill ring' --kind driven-40x80
run ring check 'Oak ring' readings-oak.csv
quietly sheet check 'Oak ring' --out "$papers/ring-check.pdf"
quietly ring check 'Oak ring' readings-oak-again.csv heights-oak.csv --by 'Ann Brook'
quietly ring history 'Oak ring'
quietly sheet certificate 'Oak ring' --out "$papers/certificate.pdf"
quietly sheet setout 'Oak ring' --tape 30 --out "$papers/set-out.pdf"
run turns --kind driven-40x80 --level intermediate
quietly sheet turns --kind driven-40x80 --level intermediate --out "$papers/turns.pdf"
quietly test import tests.csv movements.csv
quietly sheet route Hornbeam --compare --out "$papers/route.pdf"
quietly sheet cones Hornbeam --out "$papers/cones.pdf"
quietly class import classes.csv
quietly entry import entries.csv
quietly entry status 1 18 withdrawn --why 'lame on the morning'
quietly entry status 2 38 did-not-start
for class in 1 2; do
	quietly judge name "$class" C 'Una Alderwick' --scribe 'Nils Tern'
	quietly judge name "$class" B 'Gaspard Tilleul'
done
quietly judge name 2 E 'Henrike Moorland'
for class in 1 2 3 4; do
	quietly draw "$class" --seed 2026
done
quietly times import plan.csv wishes.csv
run times plan --seed 2026
quietly sheet times --out "$papers/start-list.pdf"
quietly sheet times --list gate --out "$papers/gate.pdf"
quietly sheet marking 2 --out "$papers/marking-2.pdf"
quietly mark import marks-keying1.csv --keying 1 --by 'first desk'
quietly mark import marks-keying2.csv --keying 2 --by 'second desk'
quietly penalty add 4 51 --points 5 --article 'groom dismounts'
quietly penalty add 4 54 --eliminated --why 'the whole turnout left the ring'
run results 2
quietly judging 2
quietly post 2 --by 'show office'
quietly sheet results 2 --out "$papers/results-2.pdf"
quietly sheet driver 2 34 --out "$papers/driver-34.pdf"
quietly championship import championships.csv
quietly championship results shield
quietly team import teams.csv
quietly team results --of percent
quietly prize import prizes.csv
quietly prize money 2 --scale larkfold
quietly workbook "$papers/demo.xlsx"
cat <<TXT

The command:   $build/installed/bin/ringtrue
The show file: $RINGTRUE_SHOW
The workbook:  $papers/demo.xlsx
The papers:    in $papers: set-out, ring check, certificate, turns, route, cones, start
               lists, marking sheets, results, a driver's own sheet
TXT
