#!/bin/sh
# How SQL files become C: text is kept byte by byte, and mistakes in the files are refused.
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
sql=${srcdir:-.}/sql
awk=${AWK:-awk}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
failed=0

fail() {
	echo "embed_sql.sh: $1"
	failed=1
}

# refused WORDS: the SQL on standard input is refused with these words.
refused() {
	cat >"$work/bad.sql"
	if $awk -f "$sql/embed.awk" "$work/bad.sql" >/dev/null 2>"$work/said"; then
		fail "accepted: $1"
	elif ! grep -q "$1" "$work/said"; then
		fail "instead of \"$1\": $(cat "$work/said")"
	fi
}

cat >"$work/good.sql" <<'END'
-- A comment of the file.

-- name: first_one
-- A comment of the statement.
SELECT "a", '\' -- of a line

-- of the lines between

FROM t;

-- A heading.

-- name: second
SELECT 1;
END
cat >"$work/expected" <<'END'
RT_SQL(FIRST_ONE, "good",
	"SELECT \"a\", '\\' -- of a line\n"
	"-- of the lines between\n"
	"FROM t;\n")
RT_SQL(SECOND, "good",
	"SELECT 1;\n")
END
$awk -f "$sql/embed.awk" "$work/good.sql" | sed 1d >"$work/got"
diff "$work/expected" "$work/got" || fail "the text is another"

printf 'SELECT 1;\n' | refused 'SQL without a name'
printf -- '-- name: a\n-- name: b\nSELECT 1;\n' | refused 'statement a has no text'
printf -- '-- name: a\nSELECT 1;\n-- name: a\nSELECT 2;\n' | refused 'a second statement a'
printf -- '-- name: Not-So\nSELECT 1;\n' | refused 'a name is lower-case'
{
	echo '-- name: a'
	i=0
	while [ $i -lt 120 ]; do
		echo 'SELECT 1; -- with its end, of 35 b'
		i=$((i + 1))
	done
} | refused 'longer than 4,095 bytes'

# What is made for the program has no string that C need not take, and no comment that ends or
# begins where it should not.
$awk -f "$sql/embed.awk" "$sql"/*.sql >"$work/all" || fail "the files are refused"
grep -q 'sql/\*' "$work/all" && fail "a comment begins inside a comment"
[ "$(grep -c '^RT_SQL(' "$work/all")" -eq "$(cat "$sql"/*.sql | grep -c '^-- name: ')" ] ||
	fail "a statement is missing"
exit $failed
