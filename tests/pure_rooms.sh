#!/bin/sh
# The pure rooms can do no input or output: every symbol their archives need from outside is on
# tests/pure_symbols.txt.   usage: pure_rooms.sh BUILD_FOLDER
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
here=$(cd "$(dirname "$0")" && pwd)
build=$1
failed=0
for room in base ring drive office; do
	archive=$build/.libs/librt_$room.a
	[ -f "$archive" ] || {
		echo "no $archive"
		exit 1
	}
	nm -u "$archive" | awk '$1 == "U" { print $2 }' | sort -u |
		grep -vxE 'rt_.*|__stack_chk_fail|__(asan|ubsan|gcov).*|_GLOBAL_OFFSET_TABLE_' |
		while read -r symbol; do
			grep -qx "$symbol" "$here/pure_symbols.txt" || echo "$room needs $symbol"
		done >"$build/pure-$room.txt"
	if [ -s "$build/pure-$room.txt" ]; then
		cat "$build/pure-$room.txt"
		failed=1
	fi
done
exit $failed
