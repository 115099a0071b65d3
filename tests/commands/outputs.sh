#!/bin/sh
# Outputs: no room for them, the same twice, any locale.
#   usage: outputs.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

s=demo.show
marked $s

"$ringtrue" ring kinds >/dev/full 2>"$work/err"
[ $? -eq 3 ] || fail "a full disk is not told"
quiet 0 --show $s workbook one.xlsx
quiet 0 --show $s workbook two.xlsx
cmp -s one.xlsx two.xlsx || fail "the same show and date give two workbooks"
cp one.xlsx keep.xlsx
quiet 3 --show $s workbook nowhere/one.xlsx
case_ workbook-name --show $s workbook one.txt
quiet 3 --show $s workbook /dev/full
[ -c /dev/full ] || fail "a device was written over"
for out in 'workbook full.xlsx' 'sheet results 4 --out full.pdf' 'backup full.show'; do
	(
		ulimit -f 4
		# shellcheck disable=SC2086 # a command and its arguments
		exec "$ringtrue" --show $s $out >"$work/out" 2>"$work/err"
	)
	[ $? -eq 3 ] || fail "no room for $out is not told"
	for left in full.*; do
		[ ! -e "$left" ] || fail "$out leaves $left behind where there is no room"
	done
done
# a locale with a decimal comma, made here: whatever the machine has, none of this is skipped
localedef -i de_DE -f UTF-8 ./de_DE.UTF-8 || fail "no locale can be made (Debian package locales)"
LOCPATH=$work
export LOCPATH
for locale in de_DE.UTF-8 C; do
	LC_ALL=$locale "$ringtrue" --date '2026-05-09 18:00' --show $s --format json results 4 \
		>"$work/$locale.json"
	LC_ALL=$locale "$ringtrue" --date '2026-05-09 18:00' --show $s workbook three.xlsx >/dev/null
	cmp -s one.xlsx three.xlsx || fail "the workbook follows the locale $locale"
	LC_ALL=$locale "$ringtrue" --date '2026-05-09 18:00' --show $s results 4 >"$work/text"
	cmp -s "$work/text" "$golden/results-4" || fail "text follows the locale $locale"
done
cmp -s "$work/de_DE.UTF-8.json" "$work/C.json" || fail "JSON follows the locale"

# marks through a pipe, which can be read only once
mkfifo pipe.csv
cat marks-keying2.csv >pipe.csv &
quiet 0 --show $s mark import pipe.csv --keying 2
wait

finish
