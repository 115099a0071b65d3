#!/bin/sh
# What can be found without running anything: clang-tidy as .clang-tidy has it, and clang's
# analyzer for values that are kept and never read, as a dropped error is.  Two files at a time;
# whatever is told is a failure.
#   usage: analyze.sh BUILD_FOLDER [FILE...]   (of src, all when none is named)
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
build=$(cd "$1" && pwd)
shift
cd "$(dirname "$0")/.." || exit 1
[ $# -gt 0 ] || set -- src/*/*.c src/*/*/*.c

flags="-std=c17 -DHAVE_CONFIG_H -DRT_DATA_FOLDER=\"\" -Isrc -I$build -I$build/src
	$(pkg-config --cflags gsl libutf8proc sqlite3 xlsxwriter minizip expat jansson smartcols cairo \
		pangocairo proj)"
# Its checkers that follow values from call to call stay out: all they told here was false, as they
# take each list that was filled without an error for one that may be empty.
analyzer='--analyze --analyzer-no-default-checks -Xclang -analyzer-checker=deadcode'

# shellcheck disable=SC2016 # for the inner shell
printf '%s\n' "$@" |
	xargs -P 2 -n 12 sh -c 'flags=$1 analyzer=$2; shift 2
		clang-tidy -quiet "$@" -- $flags 2>/dev/null
		for file; do clang $analyzer $flags "$file" -o /dev/null 2>&1; done' \
		sh "$flags" "$analyzer" >"$build/analysis.txt"
grep -E '(warning|error): ' "$build/analysis.txt" | sort -u >"$build/found.txt"
[ ! -s "$build/found.txt" ] || {
	cat "$build/found.txt"
	exit 1
}
