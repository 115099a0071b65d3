#!/bin/sh
# Papers of the office.
#   usage: papers.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

s=demo.show
marked $s

case_ sheet-results --show $s sheet results 1 --out results.pdf
case_ sheet-results-nothing --show $s sheet results 9 --out results.pdf
case_ sheet-results-ending --show $s sheet results 1 --out results.doc
case_ sheet-marking --show $s sheet marking 1 --judge C --out marking.pdf
case_ sheet-marking-figures --show $s sheet marking 4 --number 51 --figures --out marking.svg
case_ sheet-marking-judge --show $s sheet marking 1 --judge Q --out marking.pdf
case_ sheet-marking-number --show $s sheet marking 1 --number 99 --out marking.pdf
cp $s timed.show
quiet 0 --show timed.show draw 1 --seed 7
quiet 0 --show timed.show draw 2 --seed 7
quiet 0 --show timed.show times import plan.csv
"$ringtrue" --show timed.show times plan --seed 7 >/dev/null || [ $? -eq 1 ] || fail "no plan"
for list in ring driver gate announcer steward; do
	case_ sheet-times-$list --show timed.show sheet times --list $list --out $list.pdf
done
quiet 0 --show timed.show entry status 1 14 withdrawn --why 'lame'
case_ sheet-times-stale --show timed.show times --class 1
case_ sheet-times-changed --show timed.show sheet times --list gate --out gate.svg
grep -q 'Changed since version 1: 1 line, with a bar beside. Before:' gate.svg ||
	fail "the gate list does not tell what changed"
grep -q 'class="bar"' gate.svg || fail "no bar beside the line that changed"
case_ sheet-times-same --show timed.show sheet times --list gate --out gate.svg
case_ sheet-times-one --show timed.show sheet times --driver wroblew --out one.svg
case_ sheet-times-nobody --show timed.show sheet times --driver nobody --out one.svg
case_ sheet-times-list --show timed.show sheet times --list judges --out one.svg
case_ sheet-times-none --show $s sheet times --out none.pdf
case_ sheet-driver --show $s sheet driver 2 34 --out driver.pdf
case_ sheet-driver-nobody --show $s sheet driver 2 99 --out driver.pdf

# What is posted stays on paper, whatever is kept after it; a band tells.
says() {
	grep -qi "$2" "$1" || fail "$1 does not say $2"
}
cp $s posted.show
quiet 0 --show posted.show prize import prizes.csv
quiet 0 --show posted.show sheet results 1 --out provisional.svg
says provisional.svg 'provisional, not posted'
case_ sheet-prizes-provisional --show posted.show sheet prizes 1 --scale larkfold --out prizes.svg
says prizes.svg 'provisional, not posted'
quiet 0 --show posted.show post 1 --by Nia
case_ sheet-results-posted --show posted.show sheet results 1 --out posted.svg
case_ prize-money-posted --show posted.show prize money 1 --scale larkfold
quiet 0 --show posted.show penalty add 1 11 --points 20 --why 'late' --by Steward
case_ sheet-results-changed --show posted.show sheet results 1 --out changed.svg
says changed.svg 'changed since version 1'
says changed.svg '>74.583<'
case_ sheet-results-now --show posted.show sheet results 1 --now --out now.svg
says now.svg 'not posted'
says now.svg '>63.472<'
case_ sheet-driver-changed --show posted.show sheet driver 1 11 --out driver.svg
says driver.svg 'changed since version 1'
says driver.svg '74.583.%, place 1'
case_ sheet-prizes-changed --show posted.show sheet prizes 1 --scale larkfold --out prizes.svg
says prizes.svg 'changed since version 1'
case_ prize-money-changed --show posted.show prize money 1 --scale larkfold
case_ prize-money-now --show posted.show prize money 1 --scale larkfold --now
quiet 0 --show posted.show judge away 1 B --number 11 --by Office --why ill
quiet 1 --show posted.show sheet driver 1 11 --out driver.svg
says driver.svg '>away<'
says driver.svg 'away: the'

# Several classes in one file; one without anything to print is left out.
quiet 0 --show posted.show class add E --title 'Nobody yet' --test Larch --judges C
case_ sheet-results-all --show posted.show sheet results --all --out all.pdf
case_ sheet-results-two --show posted.show sheet results 2 E --out two.pdf
case_ sheet-results-none --show posted.show sheet results --out none.pdf
case_ sheet-results-all-named --show posted.show sheet results 1 --all --out none.pdf
case_ sheet-driver-all --show $s sheet driver 1 --all --out own.pdf
case_ sheet-driver-two --show $s sheet driver 1 11 12 --out own.pdf
case_ sheet-driver-none --show $s sheet driver 1 --out own.pdf
case_ sheet-driver-not-number --show $s sheet driver 1 11 twelve --out own.pdf
case_ sheet-driver-not-in --show posted.show sheet driver E --all --out own.pdf
case_ sheet-marking-all --show posted.show sheet marking --all --judge C --out marking.pdf
case_ sheet-prizes-all --show posted.show sheet prizes --all --scale larkfold --out prizes.pdf

# Points of the office beside errors in per cent are seen on every paper.
cp $s off.show
quiet 0 --show off.show class change 1 --rule ridden-rounded --why 'as the schedule says' --by Office
quiet 0 --show off.show penalty add 1 11 --points 10 --why 'late' --by Steward
case_ results-points-off --show off.show results 1
quiet 0 --show off.show sheet results 1 --out off.svg
says off.svg 'Points'
quiet 0 --show off.show sheet driver 1 11 --out off.svg
says off.svg 'points off every total 10'

finish
