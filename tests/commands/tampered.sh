#!/bin/sh
# A file that somebody changed with another program.
#   usage: tampered.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

RINGTRUE_SHOW=kept.show
export RINGTRUE_SHOW
marked kept.show

# what was posted has changed, though nothing says that anything did
cp kept.show posted.show
quiet 0 --show posted.show penalty add 1 11 --points 5
at='2026-05-09 19:00'
case_ tampered-post --show posted.show post 1 --by Office
at=
sqlite3 posted.show 'DROP TRIGGER penalty_no_update' 'UPDATE penalty SET points_x100 = 9000 WHERE points_x100 > 0' \
	"CREATE TRIGGER penalty_no_update BEFORE UPDATE ON penalty BEGIN
	SELECT RAISE(ABORT, 'penalty is a history: add a row, change none'); END"
case_ verify-posted --show posted.show verify

sqlite3 kept.show 'DROP TRIGGER mark_no_update' "UPDATE mark SET mark_x100 = 63 WHERE entry = 1 AND item = 1"
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

# a name that is no plain text is damage, and no command of it reaches a terminal
marked dirty.show
"$ringtrue" --show dirty.show results 1 >/dev/null || fail 'the show before'
commands=$(printf '[\001-\010\013-\037\177]\|\357\277\276\|\302\233')
# dirty WHAT FILE: FAIL where one of those is left.
dirty() {
	! LC_ALL=C grep -q "$commands" "$2" || fail "$1: a command is left"
}
quiet 2 --show dirty.show entry status 1 "$(printf 'x\033[31m\357\277\276')" withdrawn
dirty 'a word that is no number' "$work/err"
quiet 2 --show "$(printf 'no\033[31m\r.show')" show
dirty 'a file that is not there' "$work/err"
# U+FFFE, ESC [31m, CR, a stray byte, U+009B, U+FDD0, a line break
for name in EFBFBE 1B5B33316D 0D E9 C29B EFB790 0A; do
	sqlite3 dirty.show "UPDATE entry SET driver = CAST(x'41${name}42' AS TEXT) WHERE id = 1"
	for command in 'entry list' 'results 1' 'workbook x.xlsx' 'sheet results 1 --out x.svg'; do
		# shellcheck disable=SC2086 # words
		quiet 3 --show dirty.show $command
		dirty "$name $command" "$work/err"
		[ ! -s "$work/out" ] || fail "$name $command: something of it is written"
	done
done
[ ! -e x.svg ] || fail 'a sheet of damaged rows'
[ ! -e x.xlsx ] || fail 'a workbook of damaged rows'
sqlite3 dirty.show "UPDATE entry SET driver = 'Ann Ash' WHERE id = 1;
	UPDATE item SET movement = 'Halt' || char(10, 9) || 'salute' WHERE id = 1"
quiet 0 --show dirty.show workbook x.xlsx
quiet 0 --show dirty.show sheet marking 1 --out x.svg
grep -q 'Halt  salute' x.svg || fail 'a line break in a movement'

finish
