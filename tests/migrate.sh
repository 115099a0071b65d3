#!/bin/sh
# Show files of older versions (tests/shows/version-N.sql, as the program of that version wrote
# them): brought up to date they have the tables of a new file, and every row they had.
#   usage: migrate.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
here=$(cd "$(dirname "$0")" && pwd)
ringtrue=$(realpath "$1")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

die() {
	echo "FAIL $*"
	exit 1
}

# What a file is made of: every column, index and trigger, but not the words it was made with.
shape() {
	sqlite3 "$1" "SELECT type, name, tbl_name FROM sqlite_schema
		WHERE name NOT LIKE 'sqlite_%' ORDER BY 1, 2" \
		"SELECT m.name, c.* FROM sqlite_schema AS m, pragma_table_xinfo(m.name) AS c
		WHERE m.type = 'table' ORDER BY 1, 2" \
		"SELECT m.name, f.* FROM sqlite_schema AS m, pragma_foreign_key_list(m.name) AS f
		WHERE m.type = 'table' ORDER BY 1, 2, 3" \
		"SELECT name, strict, wr FROM pragma_table_list ORDER BY 1" 'PRAGMA user_version'
}

"$ringtrue" --date '2026-05-09 18:00' create new.show --title 'New' --date 2026-05-09 >/dev/null
shape new.show >new.shape
for dump in "$here"/shows/version-*.sql; do
	rm -f old.show
	sqlite3 old.show <"$dump"
	if "$ringtrue" --show old.show results 1 >/dev/null 2>said; then
		die "$dump: read without being brought up to date"
	fi
	grep -q 'older ringtrue' said || die "$dump: $(cat said)"
	"$ringtrue" --show old.show entry status 1 8 entered >/dev/null
	shape old.show >old.shape
	diff -u new.shape old.shape || die "$dump: not the tables of a new file"
	[ "$(sqlite3 old.show 'PRAGMA integrity_check' 'PRAGMA foreign_key_check')" = ok ] ||
		die "$dump: not whole"
	[ "$(sqlite3 old.show "SELECT from_peg, to_peg, value, sigma, note FROM ring_reading
		WHERE kind = 'distance' AND seq = 5")" = 'AK|CM|89.45|0.02|windy' ] ||
		die "$dump: a reading is lost"
	"$ringtrue" --format csv --show old.show results 1 >said || true
	grep -q 'Åsa Lind' said || die "$dump: an entry is lost"
	if sqlite3 old.show 'DELETE FROM ring_reading' 2>/dev/null; then
		die "$dump: a history that lets go"
	fi
done
echo "$0: passed"
