#!/bin/sh
# The command on real files: standard output, standard error and exit status, compared with
# tests/golden.  The cases stand in tests/commands/, a file a subject; two files run at a time.
# UPDATE=1 writes the golden files anew; COMMAND_GROUPS names the groups where the arguments do not.
#   usage: commands.sh [RINGTRUE [GROUP...]]   (./ringtrue)
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
ringtrue=$(realpath "${1:-./ringtrue}")
[ $# -eq 0 ] || shift
for program in sqlite3 localedef; do
	command -v $program >/dev/null || {
		echo "$program is missing (Debian packages sqlite3 and locales)"
		exit 1
	}
done
cd "$(dirname "$0")/commands" || exit 1
logs=$(mktemp -d)
trap 'rm -rf "$logs"' EXIT
# the longest first, so that neither process waits long for the other
everything='examples desk entries times rulings rules checks ties papers series outputs marks
	tampered round_trip faults files rows rings turns show usage'
# shellcheck disable=SC2086 # one word a group
[ $# -gt 0 ] || set -- ${COMMAND_GROUPS:-$everything}

# shellcheck disable=SC2016 # for the inner shell
printf '%s\n' "$@" |
	xargs -P 2 -I{} sh -c 'sh {}.sh "$1" >"$2/{}" 2>&1; echo $? >"$2/{}.status"' \
		sh "$ringtrue" "$logs"
bad=0
for group; do
	cat "$logs/$group"
	[ "$(cat "$logs/$group.status")" -eq 0 ] || bad=$((bad + 1))
done
awk -v bad=$bad '/: [0-9]+ cases, [0-9]+ failed$/ { cases += $2; failed += $4 }
	END { printf "commands: %d cases, %d failed; %d groups failed\n", cases, failed, bad }' "$logs"/*
[ $bad -eq 0 ]
