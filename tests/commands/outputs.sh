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
quiet 2 --show $s workbook /dev/full
[ -c /dev/full ] || fail "a device was written over"

# what is there: its own kind is replaced, anything else is not touched
quiet 0 --show $s sheet results 4 --out kept.pdf
ln $s hard.show
ln -s keep.xlsx link.xlsx
touch empty.xlsx
cp $s other.show
sha256sum $s classes.csv kept.pdf other.show >sums
for out in $s hard.show ./$s-wal classes.csv kept.pdf other.show; do
	quiet 2 --show $s workbook "$out"
	quiet 2 --show $s sheet results 4 --as svg --out "$out"
	[ "$out" = other.show ] || quiet 2 --show $s backup --replace "$out"
done
quiet 2 --show $s backup keep.xlsx
sha256sum --quiet --check sums || fail "an output replaced what it may not"
case_ output-over-csv --show $s workbook classes.csv
case_ output-over-show --show $s sheet results 4 --as pdf --out hard.show
case_ output-over-log --show $s backup $s-wal
case_ output-as-other --show $s sheet results 4 --as svg --out kept.pdf
case_ output-as-unknown --show $s sheet results 4 --as png --out -
quiet 0 --show $s workbook link.xlsx
[ -L link.xlsx ] || fail "a link was replaced, not what it leads to"
cmp -s keep.xlsx one.xlsx || fail "what a link leads to was not replaced"
quiet 0 --show $s workbook empty.xlsx

# to standard output, with the report on standard error
case_ output-standard --show $s sheet turns --kind driven-40x80 --level training --out - --as svg
quiet 0 --show $s workbook -
cmp -s out one.xlsx || fail "the workbook on standard output is another"
quiet 0 --show $s sheet results 4 --out -
cmp -s out kept.pdf || fail "the PDF on standard output is another"
"$ringtrue" --show $s workbook - >/dev/full 2>err
[ $? -eq 3 ] || fail "a full standard output is not told"
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
# stopped at any moment: what was there stays, or the new one is there whole; nothing else is left
mkdir temporary
stopped=0
for moment in $(seq 50); do
	case $((moment % 3)) in
	0) out='workbook killed.xlsx' stop=INT ;;
	1) out='backup killed.show' stop=TERM ;;
	2) out='sheet marking 1 --out killed.pdf' stop=HUP ;;
	esac
	# shellcheck disable=SC2086,SC2094 # a command and its arguments
	TMPDIR=$work/temporary timeout -s $stop "0.$(printf %03d $((4 * moment)))" \
		"$ringtrue" --date '2026-05-09 18:00' --show $s $out >out 2>err
	[ $? -ne 124 ] || stopped=$((stopped + 1))
done
[ $stopped -ge 10 ] || fail "only $stopped of 50 commands were stopped"
[ ! -e killed.xlsx ] || cmp -s killed.xlsx one.xlsx || fail "a stopped workbook is another"
[ ! -e killed.show ] || quiet 0 --show killed.show verify
for left in .ringtrue-* killed.show?* temporary/*; do
	[ ! -e "$left" ] || fail "a stopped command left $left"
done
# a locale with a decimal comma, made here: whatever the machine has, none of this is skipped
localedef -i de_DE -f UTF-8 ./de_DE.UTF-8 || fail "no locale can be made (Debian package locales)"
LOCPATH=$work
export LOCPATH
"$ringtrue" --date '2026-05-09 18:00' --show $s results 4 >"$work/plain"
for locale in de_DE.UTF-8 C; do
	LC_ALL=$locale "$ringtrue" --date '2026-05-09 18:00' --show $s --format json results 4 \
		>"$work/$locale.json"
	LC_ALL=$locale "$ringtrue" --date '2026-05-09 18:00' --show $s workbook three.xlsx >/dev/null
	cmp -s one.xlsx three.xlsx || fail "the workbook follows the locale $locale"
	LC_ALL=$locale "$ringtrue" --date '2026-05-09 18:00' --show $s results 4 >"$work/text"
	cmp -s "$work/text" "$work/plain" || fail "text follows the locale $locale"
done
cmp -s "$work/de_DE.UTF-8.json" "$work/C.json" || fail "JSON follows the locale"

# marks through a pipe, which can be read only once
mkfifo pipe.csv
cat marks-keying2.csv >pipe.csv &
quiet 0 --show $s mark import pipe.csv --keying 2
wait

finish
