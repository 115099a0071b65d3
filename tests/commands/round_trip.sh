#!/bin/sh
# What is listed as CSV is a file that its import takes, and then lists the same again; templates
# with their examples are such files too.
#   usage: round_trip.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

# list FOLDER: every list of the show of RINGTRUE_SHOW, a file each.
list() {
	mkdir "$1"
	for of in 'rings ring kinds' 'gaits gait list' 'levels level list' 'rules rule list' \
		'turnouts turnout list' 'articles article list' 'tests test list' \
		'movements --table movements test list' 'classes class list' 'entries entry list' \
		'plan times asked' 'wishes --table wishes times asked' \
		'championships championship list' 'teams team list' 'prizes prize list' \
		'marks-1 mark list 1' 'marks-2 mark list 1 --keying 2' 'marks-4 mark list 4'; do
		# shellcheck disable=SC2086 # words
		set -- "$1" $of
		folder=$1
		file=$2
		shift 2
		quiet 0 --format csv "$@"
		cp "$work/out" "$folder/$file.csv"
		set -- "$folder"
	done
}

# fill FOLDER: put its files into the show of RINGTRUE_SHOW.
fill() {
	for of in rings:ring-kinds gaits:gait levels:level rules:rule turnouts:turnout \
		articles:article; do
		name=$(echo "${of#*:}" | tr - ' ')
		# shellcheck disable=SC2086 # words
		quiet 0 $name import "$1/${of%:*}.csv"
	done
	quiet 0 test import "$1/tests.csv" "$1/movements.csv"
	for of in classes:class entries:entry championships:championship teams:team prizes:prize; do
		quiet 0 "${of#*:}" import "$1/${of%:*}.csv"
	done
	quiet 0 times import "$1/plan.csv" "$1/wishes.csv"
}

export RINGTRUE_SHOW
RINGTRUE_SHOW=first.show
quiet 0 create first.show --title 'Larkfold Spring Driving Day' --day 2026-05-09
quiet 0 ring add 'Oak ring' --kind driven-40x80
quiet 0 ring add 'Mill ring' --kind driven-40x80
{
	head -n 1 "$share/rings.csv"
	printf 'paddock,ridden,20.5,41,%s\n' A,a,10.25 C,c,10.25
} >kinds.csv
quiet 0 ring kinds import kinds.csv
quiet 0 test import tests.csv movements.csv
quiet 0 class import classes.csv
printf '%s\n' "1,99,'=Ann,'-Comet; =Ember,,'@gig,,,," >>entries.csv
quiet 0 entry import entries.csv
quiet 0 championship import championships.csv
quiet 0 team import teams.csv
quiet 0 prize import prizes.csv
quiet 0 times import plan.csv wishes.csv
quiet 0 mark import marks-keying1.csv
quiet 0 mark import marks-keying2.csv --keying 2
list first
grep -q "^1,99,'=Ann,'-Comet; =Ember,,'@gig," first/entries.csv ||
	fail 'names that a spreadsheet would run are not guarded'

RINGTRUE_SHOW=second.show
quiet 0 create second.show --title 'Larkfold Spring Driving Day' --day 2026-05-09
quiet 0 ring add 'Oak ring' --kind driven-40x80
quiet 0 ring add 'Mill ring' --kind driven-40x80
fill first
quiet 0 mark import first/marks-1.csv
quiet 0 mark import first/marks-4.csv
quiet 0 mark import first/marks-2.csv --keying 2
list second
diff -r first second || fail 'what was listed is not what was imported'

# ---- templates ----
quiet 0 --format csv --raw template
sed '1d;s/,.*//' "$work/out" >kinds
[ "$(wc -l <kinds)" -ge 25 ] || fail 'kinds of file are missing'
mkdir filled
while read -r kind; do
	quiet 0 template "$kind"
	[ "$(wc -l <"$work/out")" -eq 1 ] || fail "template $kind is no header alone"
	quiet 0 template "$kind" --example
	[ "$(wc -l <"$work/out")" -eq 3 ] || fail "template $kind has no two rows"
	cp "$work/out" "filled/$kind.csv"
done <kinds
RINGTRUE_SHOW=third.show
quiet 0 create third.show --title 'Club day' --day 2026-05-09
fill filled
quiet 0 mark import filled/marks.csv
quiet 0 draw 1 --fixed filled/fixed.csv
"$ringtrue" ring check --kind club-20x40 filled/distances.csv filled/offsets.csv \
	filled/angles.csv filled/coordinates.csv filled/latitudes.csv >out 2>err
! grep -q 'csv:' err || fail "examples of readings: $(cat err)"
quiet 0 ring footing --kind club-20x40 filled/heights.csv --footings filled/footing.csv
printf '%s\n' from,to,distance_m A,C,50 B,C,40 >p.csv
"$ringtrue" adjust filled/points.csv p.csv >out 2>err
! grep -q 'points.csv:' err || fail "examples of points: $(cat err)"
quiet 2 template entires
quiet 2 --format json template entries
case_ template-kinds template
case_ template-entry template ENTRY --example
case_ level-list level list
case_ article-list-json --format json article list
case_ mark-list --show first.show mark list 2
case_ times-asked --show first.show times asked
finish
