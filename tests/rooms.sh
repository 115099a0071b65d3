#!/bin/sh
# How the rooms lean on each other, read from their archives.  A room takes rt_ names only from
# the rooms it may use; and the pure rooms can do no input or output: every other symbol they
# need is on tests/pure_symbols.txt.   usage: rooms.sh BUILD_FOLDER
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
here=$(cd "$(dirname "$0")" && pwd)
build=$1
failed=0

archive() {
	[ -f "$build/.libs/librt_$1.a" ] || {
		echo "no $build/.libs/librt_$1.a" >&2
		exit 1
	}
	echo "$build/.libs/librt_$1.a"
}

# needed ROOM: the symbols it takes from outside itself.
needed() {
	nm "$(archive "$1")" | awk '
		NF == 2 && $1 == "U" { needed[$2] }
		NF == 3 && $2 ~ /[A-TV-Z]/ { defined[$3] }
		END { for (name in needed) if (!(name in defined)) print name }' | sort
}

# defined ROOM...: the symbols that these rooms give.
defined() {
	for one in "$@"; do
		nm --defined-only "$(archive "$one")" | awk 'NF == 3 && $2 ~ /[A-Z]/ { print $3 }'
	done | sort -u
}

# may_use ROOM OTHER...: its rt_ names come from the others.
may_use() {
	room=$1
	shift
	defined "$@" >"$build/defined.txt"
	needed "$room" | grep '^rt_' | comm -23 - "$build/defined.txt" >"$build/beyond.txt" || true
	if [ -s "$build/beyond.txt" ]; then
		sed "s/^/$room may not use /" "$build/beyond.txt"
		failed=1
	fi
}

LC_ALL=C
export LC_ALL
may_use base
may_use ring base
may_use survey base ring
may_use check base ring survey
may_use setout base ring survey check
may_use footing base ring survey
may_use drive base ring
may_use office base
may_use keying base office
may_use scoring base office keying
may_use series base office keying scoring
may_use times base office
pure="base ring survey check setout footing drive office keying scoring series times"
# shellcheck disable=SC2086 # one word a room
{
	may_use intake $pure
	may_use store $pure
	may_use paper $pure
	may_use sheet $pure paper
}

for room in $pure; do
	needed "$room" |
		grep -vxE 'rt_.*|__stack_chk_fail|__(asan|ubsan|gcov).*|_GLOBAL_OFFSET_TABLE_' |
		grep -vxFf "$here/pure_symbols.txt" >"$build/beyond.txt" || true
	if [ -s "$build/beyond.txt" ]; then
		sed "s/^/$room is pure and needs /" "$build/beyond.txt"
		failed=1
	fi
done
exit $failed
