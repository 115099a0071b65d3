#!/bin/sh
# The shared library exports rt_ names only, and every function and constant that the
# headers declare.
#   usage: exports.sh BUILD_FOLDER
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
here=$(cd "$(dirname "$0")" && pwd)
library=$1/.libs/libringtrue.so
nm -D --defined-only "$library" | awk '{ print $3 }' | sort -u >"$1/exported.txt"
if grep -vE '^rt_[^_]' "$1/exported.txt"; then
	echo "exported, though not public"
	exit 1
fi
# the words of an enum are declared by a macro
sed 's/^RT_ENUM_WORDS(\(.*\));/RT_API extern const struct rt_words rt_words_of_\1;\
RT_API const char *rt_\1_words(enum rt_\1 code);/' "$here"/../src/ringtrue/*.h | tr '\n' ' ' | sed 's/RT_API/\
RT_API/g' | sed -n 's/^RT_API extern [^;]*[ *]\(rt_[a-z0-9_]*\)\(\[\]\)*;.*/\1/p
s/^RT_API[^(;]*[ *]\(rt_[a-z0-9_]*\)(.*/\1/p' | sort -u >"$1/declared.txt"
[ "$(wc -l <"$1/declared.txt")" -gt 50 ] || {
	echo "the headers could not be read"
	exit 1
}
if ! diff "$1/declared.txt" "$1/exported.txt"; then
	echo "declared (<) and exported (>) differ"
	exit 1
fi
