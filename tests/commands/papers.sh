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

finish
