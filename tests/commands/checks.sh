#!/bin/sh
# Checks of a show's ring are kept, read again and printed.
#   usage: checks.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

s=demo.show
quiet 0 create $s --title 'Larkfold Spring Driving Day' --day 2026-05-09
quiet 0 --show $s ring add 'Oak ring' --kind driven-40x80
quiet 0 --show $s ring add 'Mill ring' --kind driven-40x80
case_ check-ring --show $s ring check 'Oak ring' readings-oak.csv
cp $s ring.show
case_ certificate-refused --show ring.show sheet certificate 'Oak ring' --out oak.pdf
[ ! -e oak.pdf ] || fail "a certificate of a ring that is not true"
case_ history-none --show ring.show ring history 'Mill ring'
case_ certificate-unchecked --show ring.show sheet certificate 'Mill ring' --out oak.pdf
case_ footing-none --show ring.show ring footing 'Oak ring'
quiet 0 --show ring.show ring footing 'Oak ring' heights-oak.csv --by 'Åsa Lind'
case_ footing-kept --show ring.show ring footing 'Oak ring'
case_ footing-kept-other --show ring.show ring footing 'Oak ring' --across 0.1
case_ check-again --show ring.show ring check 'Oak ring' readings-oak-again.csv --by 'Åsa Lind'
case_ advice-kept --show ring.show ring advice 'Oak ring' --tape 30
case_ advice-never-checked --show ring.show ring advice 'Mill ring'
case_ check-by --show ring.show ring check 'Oak ring' readings-oak.csv --by "$(printf 'a\tb')"
case_ history --show ring.show ring history 'Oak ring'
case_ history-json --show ring.show --format json ring history 'Oak ring'
case_ again --show ring.show ring history 'Oak ring' --check 1
case_ again-unknown --show ring.show ring history 'Oak ring' --check 4
case_ again-file --show ring.show ring history 'Oak ring' readings-oak.csv
case_ again-tolerance --show ring.show ring history 'Oak ring' --check 1 --tolerance 0.2
case_ sheet-check-fit --show ring.show sheet check 'Oak ring' --fit all --out oak.pdf
case_ check-no-file --show ring.show ring check 'Oak ring'
case_ certificate --show ring.show sheet certificate 'Oak ring' --out oak.svg
case_ sheet-check --show ring.show sheet check 'Oak ring' --out oak.svg --seen-from B
case_ sheet-check-first --show ring.show sheet check 'Oak ring' --check 1 --out oak.pdf
case_ sheet-check-heights --show ring.show sheet check 'Oak ring' --check 2 --out oak.pdf
case_ sheet-check-files sheet check --kind driven-40x80 readings-oak.csv heights-oak.csv \
	--out oak.pdf --tolerance 0.2
case_ sheet-check-no-files sheet check --kind driven-40x80 --out oak.pdf
case_ sheet-check-both --show ring.show sheet check 'Oak ring' readings-oak.csv --out oak.pdf
cp oak.pdf first
quiet 1 sheet check --kind driven-40x80 readings-oak.csv heights-oak.csv --out oak.pdf \
	--tolerance 0.2
cmp -s first oak.pdf || fail "the same check and date give two sheets"

finish
