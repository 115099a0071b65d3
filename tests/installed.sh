#!/bin/sh
# `make install` gives a command, a library, headers and a ringtrue.pc that another program can
# be built with.   usage: installed.sh BUILD_FOLDER
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
build=$(cd "$1" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
make -s -C "$build" install DESTDIR="$work" >/dev/null
prefix=$(sed -n 's/^prefix=//p' "$build/src/ringtrue.pc")
cat >"$work/user.c" <<'C'
#include <ringtrue.h>
#include <stdio.h>

int main(void)
{
	double cm;

	if (!rt_parse_height("13.2hh", &cm))
		return 1;
	printf("%.2f\n", cm);
	return 0;
}
C
PKG_CONFIG_PATH=$work$prefix/lib/pkgconfig
PKG_CONFIG_SYSROOT_DIR=$work
export PKG_CONFIG_PATH PKG_CONFIG_SYSROOT_DIR
# shellcheck disable=SC2046 # one word a flag
${CC:-cc} -std=c17 -Wall -Wextra -Werror -o "$work/user" "$work/user.c" \
	$(pkg-config --cflags --libs ringtrue)
LD_LIBRARY_PATH=$work$prefix/lib
export LD_LIBRARY_PATH
[ "$("$work/user")" = 137.16 ]
RINGTRUE_DATA=$work$prefix/share/ringtrue "$work$prefix/bin/ringtrue" ring kinds | grep -q driven-40x80
