#!/bin/sh
# Marks, penalties, results, and how the judges agreed.
#   usage: marks.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

s=demo.show
unmarked $s

case_ judging-nothing --show $s judging 2
case_ mark-import --show $s mark import marks-keying1.csv --keying 1
case_ results-one-keying --show $s results 2
quiet 0 --show $s mark import marks-keying2.csv --keying 2
case_ mark-import-again --show $s mark import marks-keying2.csv --keying 2
case_ penalty-points --show $s penalty add 4 51 --points 5 --article 'groom dismounts'
case_ penalty-elimination --show $s penalty add 4 54 --eliminated --why 'left the ring'
case_ penalty-taken-back --show $s penalty add 4 51 --points -50
case_ penalty-too-many --show $s penalty add 4 51 --points 500
case_ penalty-unbounded --show $s penalty add 4 51 --points 1000
case_ penalty-decimals --show $s penalty add 4 51 --points 3.333
cp $s third.show
case_ penalty-third-error --show third.show penalty add 4 51 --errors 9
case_ penalty-second-error --show third.show penalty add 4 52 --errors 2
case_ penalty-by --show $s penalty add 4 51 --points 5 --by "$(printf 'a\tb')"
case_ penalty-nothing --show $s penalty add 4 54
case_ show --show $s show
for class in 1 2 4; do
	case_ results-$class --show $s results $class
done
case_ results-3 --show $s results 3
case_ results-json --show $s --format json results 3
case_ results-csv --show $s --format csv results 4
case_ results-csv-judges --show $s --format csv --table judges results 4
case_ unknown-table --show $s --format csv --table juges results 4
case_ unknown-class --show $s results 9
case_ judging --show $s judging 2
case_ judging-json --show $s --format json judging 4 --gap 2.5 --judges-apart 6
case_ judging-bad-gap --show $s judging 2 --gap wide

finish
