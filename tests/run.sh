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
need_packages $build_packages check clang libclang-rt-14-dev valgrind shellcheck xz-utils sqlite3 \
	locales python3 python3-numpy python3-scipy python3-openpyxl libreoffice-calc-nogui \
	poppler-utils unzip binutils || exit 1

mkdir -p "$build/logs" "$build/locales"
CK_FORK=no
LC_ALL=C.UTF-8
LOCPATH=$build/locales
TZ=UTC
RINGTRUE_DATA=$top/share
LSAN_OPTIONS=suppressions=$top/tests/lsan.supp:print_suppressions=0
export CK_FORK LC_ALL LOCPATH TZ RINGTRUE_DATA LSAN_OPTIONS
unset RINGTRUE_SHOW
passed=0
failed=0

# step NAME COMMAND...: run it; its output is shown only when it fails.
step() {
	name=$1
	shift
	log=$build/logs/$(echo "$name" | tr ' /' '--').log
	if "$@" >"$log" 2>&1; then
		passed=$((passed + 1))
		echo "ok    $name"
	else
		failed=$((failed + 1))
		echo "FAIL  $name"
		tail -n 40 "$log"
	fi
}

# configured FOLDER OPTIONS...: configure and build there, warnings as errors.
configured() {
	folder=$build/$1
	shift
	mkdir -p "$folder" && cd "$folder" &&
		"$top/configure" -q --prefix="$folder/installed" --enable-werror "$@" &&
		make -s -j2 all
}

under_valgrind() {
	srcdir=$top valgrind -q --error-exitcode=9 --leak-check=full --errors-for-leak-kinds=definite \
		--suppressions="$top/tests/valgrind.supp" "$@"
}

german_locale() {
	[ -d "$LOCPATH/de_DE.UTF-8" ] || localedef -i de_DE -f UTF-8 "$LOCPATH/de_DE.UTF-8"
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
step "a locale with a decimal comma" german_locale

gcc=$build/gcc
step "build with gcc" configured gcc CC=gcc CFLAGS='-O2 -g'
step "build with clang" configured clang CC=clang CFLAGS='-O1 -g'
step "build with sanitizers" configured sanitizers CC=gcc CFLAGS='-O1 -g' --enable-sanitizers
step "make check" make -s -C "$gcc" check
step "make check under sanitizers" make -s -C "$build/sanitizers" check
step "make check with clang" make -s -C "$build/clang" check
step "make install" make -s -C "$gcc" install
ringtrue=$gcc/installed/bin/ringtrue

for suite in base ring adjust blunder mixed judgement advice footing setout drive route \
	sweep cones judging series office entries office_judges office_keying office_sheets \
	office_places intake readings store store_file store_keying store_posting paper workbook \
	times; do
	step "valgrind $suite" under_valgrind "$gcc/check_$suite"
done
step "four threads under helgrind" env srcdir="$top" valgrind -q --tool=helgrind \
	--error-exitcode=9 "$gcc/check_threads"
step "commands on real files" sh "$top/tests/commands.sh" "$ringtrue"
step "commands under sanitizers" sh "$top/tests/commands.sh" "$build/sanitizers/ringtrue"
step "show files of older versions" sh "$top/tests/migrate.sh" "$ringtrue"
step "desks at work" $python "$top/tests/desks.py" "$ringtrue"
step "killed 500 times while keying" $python "$top/tests/kill_keying.py" "$ringtrue"
step "rooms use only what they may" sh "$top/tests/rooms.sh" "$gcc"
step "exported names" sh "$top/tests/exports.sh" "$gcc"
step "installed library" sh "$top/tests/installed.sh" "$gcc"
step "make distcheck" make -s -C "$gcc" distcheck

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
step "outside: the workbook recalculated" $python "$top/tests/outside/workbook_check.py" \
	"$ringtrue" "$build/demo.show" 1 2 3 4
step "outside: papers of the office read back" $python "$top/tests/outside/sheet_office_check.py" \
	"$ringtrue" "$build/demo.show" 1 2 3 4
step "outside: workbooks of random shows" $python "$top/tests/outside/workbook_random.py" "$ringtrue"

echo
echo "$passed passed, $failed failed"
[ $failed -eq 0 ]
