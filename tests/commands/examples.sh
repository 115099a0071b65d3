#!/bin/sh
# What the README and the help show is run.
#   usage: examples.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

# examples FOLDER: the lines on standard input, one after another, where the demo's files are.
examples() {
	ran=$((ran + 1))
	mkdir "$1"
	cp "$share"/demo/*.csv "$1"
	cp "$share"/demo/readings-oak.csv "$1/readings.csv"
	chmod u+w "$1"/*.csv
	(
		cd "$1" || exit 1
		# shellcheck disable=SC2317 # by the lines that are run
		ringtrue() {
			"$ringtrue" "$@"
		}
		lines=0
		while read -r line; do
			lines=$((lines + 1))
			eval "$line" >"$work/out" 2>"$work/err" </dev/null || [ $? -eq 1 ] || {
				echo "$line"
				cat "$work/err"
				exit 1
			}
		done
		[ $lines -gt 12 ]
	) || fail "the examples of $1"
}

sed -n 's/^    \(ringtrue .*\|export .*\)/\1/p' "$tests/../README.md" | sed 's/  *#.*//' >"$work/lines"
examples README <"$work/lines"
"$ringtrue" help | sed -n 's/^  \([a-z][a-z ]*[a-z]\)  .*/\1/p' | while read -r command; do
	# shellcheck disable=SC2086 # one word a part of the name
	"$ringtrue" help $command | sed -n 's/^Example: //p'
done | sed "/ create /a\\
ringtrue --show spring.show ring add 'Oak ring' --kind driven-40x80
/ draw 3 /a\\
ringtrue --show spring.show entry add 3 --driver Late --horses Dash --number 8
/ entry status 3 47 /a\\
ringtrue --show spring.show entry status 3 47 entered
/ mark move 1 /i\\
ringtrue --show spring.show entry add 1 --driver Nobody --horses Worn --number 10
/ class add 9 /a\\
ringtrue --show spring.show entry add 9 --driver Nobody --horses Torn --number 7" >"$work/lines"
examples help <"$work/lines"

finish
