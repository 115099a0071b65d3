#!/bin/sh
# Help, and what is typed wrong.
#   usage: usage.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

case_ help help
case_ help-ring-check help ring check
quiet 0 mark import --help
quiet 0 --version
case_ help-ring ring --help
case_ help-entry help entry
# one page has every name, and one name has one type
"$ringtrue" --format csv help json >names.csv 2>"$work/err" || fail "help json: $(cat "$work/err")"
[ "$(grep -c '^results,driver,text,,\|^kinds,letters,list of texts,,\|^pegs,x_m,number,m,' names.csv)" -ge 3 ] ||
	fail 'names that help json lacks'
awk -F, 'NR > 1 && $2 in type && type[$2] != $3 { print $1 ": " $2 " is " $3 " here, " type[$2] " in " table[$2] }
	NR > 1 && !($2 in type) { type[$2] = $3; table[$2] = $1 }' names.csv >clashes
[ ! -s clashes ] || fail "names of two types: $(cat clashes)"
case_ help-nonsense help resluts
quiet 0 -h
quiet 0 ring -h
quiet 0 mark import -h
quiet 0 -- ring kinds
quiet 2 --
case_ no-command
case_ unknown-command resluts 1
case_ unknown-by-last-word sheets 1
case_ unknown-by-first-word teams
case_ too-many-longer times nonsense
case_ unknown-second-word ring chekc x.csv
case_ second-word-wanted ring
case_ unknown-option turns --knd driven-40x80 --level training
case_ global-option-last ring kinds --format json
case_ unknown-global --fromat json ring kinds
case_ unknown-format --format jsn ring kinds
case_ table-of-text --table kinds ring kinds
case_ raw-json --raw --format json ring kinds
case_ option-twice turns --kind a --kind b --level c
case_ option-needed turns --kind driven-40x80
case_ too-many-arguments ring kinds now please
at=2026-02-30
case_ bad-date ring kinds
at=
case_ no-show-given show
case_ flag-with-value --feet=no ring kinds
case_ short-option ring check -t
case_ short-option-none ring kinds -x
case_ value-missing turns --kind driven-40x80 --level
case_ value-empty turns --kind driven-40x80 --level ''
quiet 0 -V
quiet 0 help help
case_ help-second-word help ring chekc
[ "$("$ringtrue" 2>&1 | wc -l)" -le 24 ] || fail "the page of all commands is over 24 lines"

# what went wrong as JSON, with the faults of a file; - is standard input
case_ error-json --format JSON turns --kind driven-40x80 --level nonsense
printf 'from,to,distance_m\nA,K,x\nA,K,20,5\n' >readings.csv
case_ faults-json ring check --kind driven-40x80 readings.csv --format json
case_ faults-standard-input ring check --kind driven-40x80 - <readings.csv

finish
