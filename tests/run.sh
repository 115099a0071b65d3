#!/bin/sh
# Every test, from a clean clone: install what is missing, build, run, and close with one line
# "N passed, N failed".
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
top=$(cd "$(dirname "$0")/.." && pwd)
build=${BUILD:-$top/build/tests}
python=/usr/bin/python3 # Debian's, which has the packages below
# shellcheck source=share/debian.sh
. "$top/share/debian.sh"

# shellcheck disable=SC2086 # one word a package
need_packages $build_packages check clang clang-tidy libclang-rt-14-dev valgrind shellcheck \
	xz-utils sqlite3 locales python3 python3-numpy python3-scipy python3-openpyxl \
	libreoffice-calc-nogui poppler-utils unzip binutils || exit 1

mkdir -p "$build/logs"
rm -f "$build"/logs/*
CK_FORK=no
LC_ALL=C.UTF-8
TZ=UTC
RINGTRUE_DATA=$top/share
LSAN_OPTIONS=suppressions=$top/tests/lsan.supp:print_suppressions=0
VERBOSE=yes # make check tells what failed
CONFIG_SHELL=/bin/sh # of libtool, which is slower than the compiler when bash runs it
export CONFIG_SHELL CK_FORK LC_ALL TZ RINGTRUE_DATA LSAN_OPTIONS VERBOSE
unset RINGTRUE_SHOW
passed=0
failed=0
queued=0
shown=0

# Two steps run at a time: each takes a line from this pipe before it begins and puts one back.
rm -f "$build/turns"
mkfifo "$build/turns" && exec 3<>"$build/turns" && echo >&3 && echo >&3 || exit 1

# step NAME COMMAND...: run it beside one other, as soon as one of them is done.
step() {
	queued=$((queued + 1))
	log=$build/logs/$queued
	echo "$1" >"$log.name"
	shift
	read -r _ <&3
	(
		"$@" >"$log" 2>&1 3>&-
		echo $? >"$log.status"
		times >"$log.times"
		echo >&3
	) &
}

# seconds FILE: of processor time, of which `times` tells the shell's own and its children's, as
# minutes and seconds in the program and in the system.
seconds() {
	awk -F '[ms ]+' '{ all += 60 * ($1 + $3) + $2 + $4 } END { printf "%.0f", all }' "$1"
}

# Wait for the steps so far; each is told with its processor time, in the order above, and what it
# wrote when it failed.
settle() {
	wait
	while [ $shown -lt $queued ]; do
		shown=$((shown + 1))
		log=$build/logs/$shown
		if [ "$(cat "$log.status")" = 0 ]; then
			passed=$((passed + 1))
			word=ok
		else
			failed=$((failed + 1))
			word=FAIL
		fi
		printf '%-4s  %4s s  %s\n' $word "$(seconds "$log.times")" "$(cat "$log.name")"
		[ $word = ok ] || tail -n 40 "$log"
	done
}

# configured FOLDER OPTIONS...: configure and build there, warnings as errors.
configured() {
	folder=$build/$1
	shift
	mkdir -p "$folder" && cd "$folder" &&
		"$top/configure" -q --prefix="$folder/installed" --enable-werror "$@" &&
		make -s -j2 all && make -s -j2 check TESTS=
}

under_valgrind() {
	srcdir=$top LOCPATH=$gcc/tests/locales valgrind -q --error-exitcode=9 --leak-check=full --errors-for-leak-kinds=definite \
		--suppressions="$top/tests/valgrind.supp" "$@"
}

scripts() {
	cd "$top" && shellcheck -x share/*.sh tests/*.sh tests/commands/*.sh tests/bench/*.sh .ci/run
}

# show_of_demo FILE: the demo show as the quickstart makes it.
show_of_demo() {
	sh "$top/tests/demo_show.sh" "$ringtrue" "$1"
}

cd "$top" || exit 1
step "scripts" scripts
step "autoreconf" autoreconf -fi
settle

gcc=$build/gcc
step "build with gcc" configured gcc CC=gcc CFLAGS='-O2 -g'
step "build with clang and sanitizers" configured clang CC=clang CFLAGS='-O1 -g' --enable-sanitizers
settle
step "make install" make -s -C "$gcc" install
settle
ringtrue=$gcc/installed/bin/ringtrue

# The longest first: the suites and the commands as anybody builds them, from a folder that cannot
# be written; then the suites with another compiler and every access looked at, and of the commands
# the examples of each and the desk.  The damaged files below go to every command that reads.
step "make distcheck" make -s -C "$gcc" distcheck DISTCHECK_CONFIGURE_FLAGS=CFLAGS=-O0
step "make check with clang and sanitizers" env COMMAND_GROUPS='examples desk' \
	make -s -C "$build/clang" check
step "analysis" sh "$top/tests/analyze.sh" "$gcc"

# What the sanitizers cannot find is a value that nobody set.  Suites that adjust simulated rings by
# the thousand, and the one that writes a workbook under 130 limits, are left out: others run the
# same code, and one workbook of the demo show is looked at below.
valgrind_suites() {
	program=$1
	shift
	step "valgrind $program $*" under_valgrind "$gcc/suites_$program" "$@"
}
valgrind_suites store
valgrind_suites drive drive route sweep cones
valgrind_suites office office office_judges office_keying office_places office_sheets series judging
valgrind_suites survey adjust blunder mixed
valgrind_suites ring ring advice
valgrind_suites intake
valgrind_suites times
valgrind_suites paper paper
valgrind_suites base base
step "four threads under helgrind" env srcdir="$top" valgrind -q --tool=helgrind \
	--error-exitcode=9 "$gcc/suites_threads"
step "damaged show files" $python "$top/tests/damaged.py" \
	"$build/clang/ringtrue"
step "two days of a show office" $python "$top/tests/day.py" "$ringtrue"
step "desks at work" $python "$top/tests/desks.py" "$ringtrue"
step "every command eight at once" $python "$top/tests/at_once.py" "$ringtrue"
step "killed 500 times while keying" $python "$top/tests/kill_keying.py" "$ringtrue"
step "rooms use only what they may" sh "$top/tests/rooms.sh" "$gcc"
step "exported names" sh "$top/tests/exports.sh" "$gcc"
step "installed library" sh "$top/tests/installed.sh" "$gcc"

# ---- against something outside the project ----
step "outside: ring against scipy" $python "$top/tests/outside/ring_random.py" "$ringtrue"
step "outside: footing and check sheets against numpy" $python \
	"$top/tests/outside/footing_check.py" "$ringtrue"
step "outside: most pegs within tolerance against scipy" $python \
	"$top/tests/outside/ring_disc.py" \
	"$gcc/.libs/libringtrue.so"
step "outside: rates of simulated rings" "$gcc/ring_rates"
step "outside: mixed readings against numpy" $python "$top/tests/outside/ring_mixed.py" \
	"$ringtrue"
step "outside: letters of the standard rings" $python "$top/tests/outside/ring_letters.py" \
	"$ringtrue"
step "outside: set-outs followed to the letter" $python "$top/tests/outside/setout_follow.py" \
	"$ringtrue"
step "outside: turns by brute force" $python "$top/tests/outside/drive_tangent.py" "$ringtrue"
step "outside: routes by brute force" $python "$top/tests/outside/route_dubins.py" "$ringtrue"
step "outside: sweeps against another integrator" $python "$top/tests/outside/sweep_dop853.py" \
	"$ringtrue" "$gcc/sweep_batch"
step "outside: the turn sheet read back" $python "$top/tests/outside/sheet_check.py" "$ringtrue"
step "outside: the route sheets read back" $python "$top/tests/outside/sheet_route_check.py" \
	"$ringtrue" "$top/share"
step "outside: scores of random classes" env srcdir="$top" $python \
	"$top/tests/outside/office_random.py" "$gcc/office_batch"
step "outside: how judges agree, against scipy" $python "$top/tests/outside/judging_scipy.py" \
	"$ringtrue"
step "outside: start times of random shows" $python "$top/tests/outside/times_random.py" "$ringtrue"
step "outside: start times against a solver" $python "$top/tests/outside/times_solver.py" "$ringtrue"
rm -f "$build/demo.show"
step "the demo show" show_of_demo "$build/demo.show"
settle
step "valgrind the demo's workbook" under_valgrind "$ringtrue" --show "$build/demo.show" \
	workbook "$build/demo.xlsx"
step "outside: the workbook recalculated" $python "$top/tests/outside/workbook_check.py" \
	"$ringtrue" "$build/demo.show" 1 2 3 4
step "outside: papers of the office read back" $python "$top/tests/outside/sheet_office_check.py" \
	"$ringtrue" "$build/demo.show" 1 2 3 4
step "outside: workbooks of random shows" $python "$top/tests/outside/workbook_random.py" "$ringtrue"
settle

echo
echo "$passed passed, $failed failed"
[ $failed -eq 0 ]
