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
printf 'class,number,judge,item,mark\n1,11,C,1,9.5\n1,11,C,errors,1\n' >changed.csv
case_ mark-import-changed --show $s mark import changed.csv --why misread
cp $s changed.show
case_ mark-import-why --show changed.show mark import changed.csv --why misread --by Tove
quiet 0 --show changed.show entry status 1 12 withdrawn
printf 'class,number,judge,item,mark\n1,12,C,1,9.5\n' >withdrawn.csv
case_ mark-import-withdrawn --show changed.show mark import withdrawn.csv
case_ mark-import-unexpected --show changed.show mark import withdrawn.csv --unexpected --why both --by Tove
case_ mark-import-again --show $s mark import marks-keying2.csv --keying 2
case_ penalty-points --show $s penalty add 4 51 --points 5 --article 'groom dismounts'
case_ penalty-elimination --show $s penalty add 4 54 --eliminated --why 'left the ring'
case_ penalty-taken-back --show $s penalty add 4 51 --points -50
case_ penalty-taken-off --show $s penalty add 4 51 --points -2
cp $s undone.show
case_ penalty-undo-less --show undone.show penalty undo 4 51 1
quiet 0 --show undone.show penalty add 4 52 --article 'groom dismounts' --by Kim
case_ penalty-undo --show undone.show penalty undo 4 52 --why 'it was 53' --by Tove
case_ penalty-undo-again --show undone.show penalty undo 4 52 4
case_ penalty-undo-none --show undone.show penalty undo 4 52
case_ penalty-undo-other --show undone.show penalty undo 4 53 3
case_ penalty-first-again --show undone.show penalty add 4 52 --article 'groom dismounts'
quiet 0 --show undone.show penalty add 4 52 --eliminated --why 'fall'
case_ penalty-undo-elimination --show undone.show penalty undo 4 52 --why 'it was 53'
case_ penalty-undo-status --show undone.show entry history 4 52
case_ penalty-list --show undone.show penalty list 4
case_ penalty-list-csv --show undone.show --format csv penalty list 4 52
case_ penalty-list-none --show undone.show penalty list 1
case_ penalty-list-nobody --show undone.show penalty list 4 99
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
