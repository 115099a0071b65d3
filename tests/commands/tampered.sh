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

finish
