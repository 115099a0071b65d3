#!/bin/sh
# A file that somebody changed with another program.
#   usage: tampered.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

RINGTRUE_SHOW=kept.show
export RINGTRUE_SHOW
marked kept.show

sqlite3 kept.show 'DROP TRIGGER mark_no_update' "UPDATE mark SET mark_x10 = 63 WHERE entry = 1 AND item = 1"
case_ verify-trigger verify
sqlite3 kept.show "CREATE TRIGGER mark_no_update BEFORE UPDATE ON mark BEGIN
	SELECT RAISE(ABORT, 'mark is a history: add a row, change none'); END"
case_ verify-steps verify
sqlite3 kept.show 'DROP TRIGGER pass_no_delete' 'DELETE FROM pass WHERE id = 1' \
	"CREATE TRIGGER pass_no_delete BEFORE DELETE ON pass BEGIN
	SELECT RAISE(ABORT, 'pass is a history: add a row, change none'); END"
"$ringtrue" verify >"$work/out" 2>"$work/err"
[ $? -eq 1 ] || fail "rows without their pass are not told"
head -c 20000 kept.show >cut.show
quiet 3 --show cut.show verify
printf 'x' | dd of=kept.show bs=1 seek=40000 count=4096 conv=notrunc 2>/dev/null
head -c 4096 /dev/zero | dd of=kept.show bs=4096 seek=12 conv=notrunc 2>/dev/null
"$ringtrue" verify >"$work/out" 2>"$work/err"
got=$?
[ $got -eq 1 ] || [ $got -eq 3 ] || fail "a damaged file: status $got"
printf 'not a database' >plain.txt
quiet 3 --show plain.txt verify

# whatever stands in a name, papers come out whole and no command reaches a terminal
marked dirty.show
# Å, U+FFFE, ESC [31m, CR, B, a stray byte, U+009B; U+FDD0, a line end, Moss; tabs
sqlite3 dirty.show "UPDATE entry SET driver = CAST(x'C385EFBFBE1B5B33316D0D42E9C29B' AS TEXT),
	horses = CAST(x'EFB7900A4D6F7373' AS TEXT), club = CAST(x'09093D312B31' AS TEXT)
	WHERE class = 1 AND number = 11"
commands=$(printf '[\001-\010\013-\037\177]\|\357\277\276\|\302\233\|\357\267\220')
# dirty WHAT FILE: FAIL where one of those is left.
dirty() {
	! LC_ALL=C grep -q "$commands" "$2" || fail "$1: a command is left"
}
for format in text csv json; do
	for command in 'entry list' 'entry find moss' 'results 1' 'times plan' 'mark compare 1'; do
		# shellcheck disable=SC2086 # words
		"$ringtrue" --show dirty.show --format $format $command >"$work/out" 2>"$work/err"
		[ $? -lt 2 ] || fail "dirty $command: $(cat "$work/err")"
		dirty "$command $format" "$work/out"
		dirty "$command $format" "$work/err"
	done
done
case_ dirty-json --show dirty.show --format json entry find moss
case_ dirty-csv --show dirty.show --format csv entry find moss
quiet 2 --show dirty.show entry status 1 "$(printf 'x\033[31m\357\277\276')" withdrawn
dirty 'a word that is no number' "$work/err"
quiet 2 --show "$(printf 'no\033[31m\r.show')" show
dirty 'a file that is not there' "$work/err"
for sheet in 'results 1' 'times' 'times --list gate' 'marking 1'; do
	for kind in svg pdf; do
		# shellcheck disable=SC2086 # words
		quiet 0 --show dirty.show sheet $sheet --out dirty.$kind
	done
	dirty "sheet $sheet" dirty.svg
done
quiet 0 --show dirty.show workbook dirty.xlsx

finish
