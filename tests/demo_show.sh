#!/bin/sh
# Make the demo show file.   usage: demo_show.sh RINGTRUE FILE
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
ringtrue=$(realpath "$1")
RINGTRUE_SHOW=$(realpath -m "$2")
export RINGTRUE_SHOW
cd "$(dirname "$0")/../share/demo"

# 1 says that something needs a person, as the demo has it on purpose.
run() {
	"$ringtrue" --date '2026-05-09 18:00' "$@" >/dev/null || [ $? -eq 1 ]
}
run create "$RINGTRUE_SHOW" --title 'Larkfold Spring Driving Day' --day 2026-05-09
run ring add 'Oak ring' --kind driven-40x80
run ring add 'Mill ring' --kind driven-40x80
run ring check 'Oak ring' readings-oak.csv
run test import tests.csv movements.csv
run class import classes.csv
run entry import entries.csv
run entry status 1 18 withdrawn --why 'lame on the morning'
run entry status 2 38 did-not-start
for class in 1 2; do
	run judge name $class C 'Una Alderwick' --scribe 'Nils Tern'
	run judge name $class B 'Gaspard Tilleul'
done
run judge name 2 E 'Henrike Moorland'
for class in 3 4; do
	run judge name $class C 'Ottokar Brandstätter'
	run judge name $class E 'Tage Lövgren'
done
run judge name 4 B 'Síle Ní Dhroma'
for class in 1 2 3 4; do
	run draw $class --seed 2026
done
run times import plan.csv wishes.csv
run times plan --seed 2026
run mark import marks-keying1.csv --keying 1
run mark import marks-keying2.csv --keying 2
run penalty add 4 51 --points 5 --article 'groom dismounts'
run championship import championships.csv
run team import teams.csv
run prize import prizes.csv
run penalty add 4 54 --eliminated --why 'the whole turnout left the ring'
