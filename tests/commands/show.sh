#!/bin/sh
# A show is made: its rings, tests, classes and entries.
#   usage: show.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

s=demo.show
case_ create create $s --title 'Larkfold Spring Driving Day' --day 2026-05-09
case_ create-again create $s --title 'Another' --day 2026-05-09
case_ create-no-name create '' --title 'Another' --day 2026-05-09
case_ create-no-title create other.show --title ' ' --day 2026-05-09
case_ create-long-title create other.show --title "$(printf '%0201d' 0)" --day 2026-05-09
case_ create-bad-date create other.show --title 'Another' --day 2026-06-31
case_ ring-add --show $s ring add 'Oak ring' --kind driven-40x80
quiet 0 --show $s ring add 'Mill ring' --kind driven-40x80
case_ ring-add-twice --show $s ring add 'Mill ring' --kind driven-40x80
case_ ring-add-alike --show $s ring add 'mîll  RING' --kind driven-40x80
case_ ring-add-empty --show $s ring add '' --kind driven-40x80
case_ ring-add-control --show $s ring add "$(printf 'Elm\033[2J')" --kind driven-40x80
case_ ring-add-latin --show $s ring add "$(printf '\304sch')" --kind driven-40x80
case_ ring-list --show $s ring list

case_ check-unknown-ring --show $s ring check 'Oak rinf' readings-oak.csv
case_ test-import --show $s test import tests.csv movements.csv
case_ test-import-again --show $s test import tests.csv movements.csv
case_ test-list --show $s test list
quiet 0 --show $s class import classes.csv
case_ class-list --show $s class list
quiet 0 --show $s entry import entries.csv
case_ entry-list --show $s entry list 3
bad entries3.csv class,number,driver,horses,height_cm,turnout,groom,club '1,11,Somebody,Else,,,,'
case_ entry-differs --show $s entry import entries3.csv
case_ entry-list-unknown --show $s entry list 77
case_ status-why --show $s entry status 1 18 withdrawn --why "$(printf 'lame\non the morning')"
quiet 0 --show $s entry status 1 18 withdrawn --why 'lame on the morning'
quiet 0 --show $s entry status 2 38 did-not-start
case_ unknown-status --show $s entry status 2 38 elimnated
case_ unknown-entry --show $s entry status 2 99 eliminated

# files that are no show files
printf 'not a database, whatever the name says' >plain.show
case_ not-a-show --show plain.show show
cp $s newer.show
sqlite3 newer.show 'pragma user_version = 99'
cp newer.show newer.copy
case_ newer-version --show newer.show show
case_ newer-version-writing --show newer.show ring add X --kind driven-40x80
cmp -s newer.show newer.copy || fail "a newer show file was changed"
case_ no-such-show --show nowhere.show show

finish
