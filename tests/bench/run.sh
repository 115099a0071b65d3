#!/bin/sh
# Build with optimisation and run every bench: ratios to a peer, printed and not asserted.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=${BUILD:-$top/build/bench}
# shellcheck source=share/debian.sh
. "$top/share/debian.sh"

# shellcheck disable=SC2086 # one word a package
need_packages $build_packages python3 python3-numpy sqlite3 time
mkdir -p "$build"
(
	cd "$top" && autoreconf -fi
	cd "$build" && "$top/configure" -q --prefix="$build/installed" CFLAGS=-O2
	make -s -j2 install benches
) >"$build/log" 2>&1 || {
	tail -n 20 "$build/log"
	exit 1
}
/usr/bin/python3 "$top/tests/bench/run.py" "$build/installed/bin/ringtrue" "$build"
exec /usr/bin/python3 "$top/tests/bench/season.py" "$build/installed/bin/ringtrue"
