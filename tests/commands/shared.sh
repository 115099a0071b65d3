# What the groups of commands share: a working folder with the demo's files, running and
# comparing one case, a show to start from.
#   used by: sh tests/commands/GROUP.sh RINGTRUE (UPDATE=1 writes the golden files anew)
# shellcheck shell=sh
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
tests=$(cd "$(dirname "$0")/.." && pwd)
ringtrue=$(realpath "$1")
golden=$tests/golden
share=$tests/../share
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
RINGTRUE_DATA=$share
LC_ALL=C.UTF-8
export RINGTRUE_DATA LC_ALL
unset RINGTRUE_SHOW
failed=0
ran=0

# In a build folder the command is libtool's script, which looks for the library at every call:
# that is done once, here.
built=$(dirname "$ringtrue")/.libs
if [ -x "$built/ringtrue" ]; then
	ringtrue=$built/ringtrue
	LD_LIBRARY_PATH=$built
	export LD_LIBRARY_PATH
fi

fail() {
	failed=$((failed + 1))
	echo "FAIL $*"
}

# Numbers with many decimals to ten digits and nine decimals: another processor's sixteenth digit
# is no change.
rounded() {
	awk '{
		rest = $0
		line = ""
		while (match(rest, /-?[0-9]+\.[0-9]+(e[-+]?[0-9]+)?/)) {
			number = substr(rest, RSTART, RLENGTH)
			if (length(number) > 11)
				number = sprintf("%.10g", sprintf("%.9f", number))
			if (number == "-0")
				number = 0
			line = line substr(rest, 1, RSTART - 1) number
			rest = substr(rest, RSTART + RLENGTH)
		}
		print line rest
	}' "$1"
}

# What a case wrote and how it ended, as its golden file has it: output, messages, status.
told() {
	rounded "$work/out"
	[ ! -s "$work/err" ] || {
		echo '---- messages'
		cat "$work/err"
	}
	[ "$1" -eq 0 ] || echo "---- status $1"
}

# case NAME ARGUMENTS...: run (at the date and time of $at), and compare with golden/NAME; a case that says nothing and ends
# with 0 has no such file.
case_() {
	name=$1
	shift
	ran=$((ran + 1))
	"$ringtrue" --date "${at:-2026-05-09 18:00}" "$@" >"$work/out" 2>"$work/err"
	told $? >"$work/told"
	if [ "${UPDATE:-}" = 1 ]; then
		rm -f "$golden/$name"
		[ ! -s "$work/told" ] || cp "$work/told" "$golden/$name"
	elif [ -s "$work/told" ] || [ -e "$golden/$name" ]; then
		diff -u "$golden/$name" "$work/told" || fail "$name"
	fi
}

# quiet STATUS ARGUMENTS...: run without comparing what is written.
quiet() {
	want=$1
	shift
	ran=$((ran + 1))
	"$ringtrue" --date '2026-05-09 18:00' "$@" >"$work/out" 2>"$work/err"
	got=$?
	[ $got -eq "$want" ] || {
		fail "$*: status $got, not $want"
		cat "$work/err"
	}
}

# typed NAME LINES ARGUMENTS...: a case that is typed to.
typed() {
	printf '%b' "$2" >"$work/in"
	name=$1
	shift 2
	case_ "$name" "$@" <"$work/in"
}

# A bad file made of the lines given, in the working folder.
bad() {
	file=$1
	shift
	printf '%s\n' "$@" >"$file"
}


# unmarked FILE: make the demo's show as it is before any mark.
unmarked() {
	quiet 0 create "$1" --title 'Larkfold Spring Driving Day' --day 2026-05-09
	quiet 0 --show "$1" ring add 'Oak ring' --kind driven-40x80
	quiet 0 --show "$1" ring add 'Mill ring' --kind driven-40x80
	quiet 1 --show "$1" ring check 'Oak ring' readings-oak.csv
	quiet 0 --show "$1" test import tests.csv movements.csv
	quiet 0 --show "$1" class import classes.csv
	quiet 0 --show "$1" entry import entries.csv
	quiet 0 --show "$1" entry status 1 18 withdrawn --why 'lame on the morning'
	quiet 0 --show "$1" entry status 2 38 did-not-start
}

# marked FILE: the demo's show with its marks and penalties.
marked() {
	unmarked "$1"
	quiet 0 --show "$1" mark import marks-keying1.csv --keying 1
	quiet 0 --show "$1" mark import marks-keying2.csv --keying 2
	quiet 0 --show "$1" penalty add 4 51 --points 5 --article 'groom dismounts'
	quiet 0 --show "$1" penalty add 4 54 --eliminated --why 'left the ring'
}

# The last line of a group.
finish() {
	echo "$(basename "$0" .sh): $ran cases, $failed failed"
	[ $failed -eq 0 ]
	exit
}

cp "$share"/demo/*.csv "$work"
chmod u+w "$work"/*.csv # the sources may be kept from writing
cd "$work" || exit 1
