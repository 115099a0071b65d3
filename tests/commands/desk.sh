#!/bin/sh
# At the desk that keys marks.
#   usage: desk.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

unmarked desk.show
RINGTRUE_SHOW=desk.show
export RINGTRUE_SHOW
sevens='7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n' # all boxes but two
case_ sheet-in mark received 1 11 --judge C --by Tove
case_ sheet-state mark received 1 11 keyed --judge C
case_ sheet-why mark received 1 11 queried --judge C
typed enter '65\n8 late at E\n66\n6 5\nb\n75\n?\np\n' mark enter 1 11 --judge C --by Ann
typed enter-resumed '7\n75\n' mark enter 1 11 --judge C --by Åsa
typed enter-boxes "$sevens"'7\n7\n' mark enter 1 12 --judge C --by Ann
typed enter-lines '1\n126.5\nt 126.5\nb\nt 126\n\n' mark enter 1 12 --judge C --by Ann
printf 'class,number,judge,item,mark\n1,12,C,1,7\n1,12,C,2,7\n1,13,C,1,6\n' >own.csv
case_ import-same-person mark import own.csv --keying 2 --by ann
typed enter-total-off 'b\nt127\n\n' mark enter 1 12 --judge C --by Ann --keying 1
typed enter-total-right 'b\nt 126\n\n' mark enter 1 12 --judge C --by Ann --keying 1
typed enter-row '6570\n657066\nb\n6\n' mark enter 1 17 --judge B --by Ann
typed enter-anew 'h\n65\ne\n\n' mark enter 1 12 --judge C --by Ann --keying 1
typed enter-anew-back 'h\n7\ne\n\n' mark enter 1 12 --judge C --by Ann --keying 1
typed enter-same-person '' mark enter 1 12 --judge C --by ' ANN'
typed enter-forced '7\n7\n' mark enter 1 12 --judge C --by Ann --same-person
typed enter-second "$sevens"'0\n\n\n' mark enter 1 12 --judge C --by Bob
typed enter-json '6\n' --format json mark enter 1 13 --judge C --by Ann
typed enter-withdrawn '' mark enter 1 18 --judge C --by Ann
quiet 0 entry status 1 14 retired
typed enter-retired '6\n5\n--\n0\n\n\n' mark enter 1 14 --judge C --by Ann
typed enter-unfinished '6\n-\n--\n0\n\n\n' mark enter 1 15 --judge C --by Ann --unfinished
typed enter-empty '\n-\n' mark enter 1 15 --judge B --by Ann
typed enter-no-judge '' mark enter 1 11 --judge D --by Ann
typed enter-nobody '' mark enter 1 11 --judge C --by ' '
typed enter-keying '' mark enter 1 11 --judge C --by Ann --keying 3
quiet 0 judge away 1 B --number 20 --by Tove --why 'called home'
typed enter-away '' mark enter 1 20 --judge B --by Ann
case_ compare mark compare 1
case_ compare-json --format json mark compare 1 12
case_ compare-nothing mark compare 2
case_ fix mark fix 1 12 65 --judge C --item 1 --by Bob --why 'read 7 for 6.5' --was 7
case_ fix-stale mark fix 1 12 6 --judge C --item 1 --by Cay --why 'read 7 for 6' --was 7
case_ fix-fixed mark fix 1 12 6 --judge C --item 1 --by Cay --why 'read 7 for 6'
case_ fix-same mark fix 1 12 6.5 --judge C --item 1 --by Cay --why 'looked again' --was 65/65
case_ fix-errors mark fix 1 12 1 --judge C --item errors --by Bob --why 'one on the sheet'
case_ fix-bad mark fix 1 12 66 --judge C --item 1 --by Bob --why no
case_ fix-item mark fix 1 12 6 --judge C --item 77 --by Bob --why no
case_ fix-unkeyed mark fix 1 16 6 --judge C --item 1 --by Bob --why no
case_ fix-no-total mark fix 1 16 60 --judge C --item total --by Bob --why no
case_ mark-history mark history 1 12 --judge C --item 1
case_ mark-history-errors mark history 1 12 --item errors
case_ mark-history-json --format json mark history 1 11
quiet 0 mark total 1 12 125.5 --judge C --by Eve
typed enter-once "$sevens"'7\n65\n0\n\n\n' mark enter 1 16 --judge C --by Ann
case_ total-same-person mark total 1 16 125.5 --judge C --by Ann
case_ total-off mark total 1 16 126 --judge C --by Bob
case_ total mark total 1 16 125.5 --judge C --by Bob --why 'added up anew' --errors 0
case_ total-bad mark total 1 16 1260 --judge C --by Bob
case_ total-errors-twice mark total 1 16 125.5 --judge C --by Bob --errors 1
quiet 0 mark total 1 17 120 --judge C --by Eve
case_ sheet-total-only mark received 1 17 queried --judge B --why 'where is it?'
case_ sheet-returned-unkeyed mark received 1 17 returned --judge C
case_ sheet-returned mark received 1 12 returned --judge C --by Tove
cp desk.show left.show
printf 'class,number,judge,item,mark\n2,31,C,1,7\n' >left.csv
quiet 0 --show left.show mark import left.csv
quiet 0 --show left.show entry status 2 31 eliminated
case_ results-left-only --show left.show results 2
case_ sheet-queried mark received 1 16 queried --judge C --by Tove --why 'is 3 a 5 or a 6?'
case_ sheets mark sheets 1
case_ sheets-waiting mark sheets 1 --waiting
case_ sheets-json --format json mark sheets 4
case_ results-by-total results 1

unmarked pile.show
row=65706570657065706570657065706570
typed pile "18\n99\nx\nn\n$row\n1\nt 110\nb\nt 121.5\nn\n$row\n\n\n12\n13\n6570\np\n\n" \
	--show pile.show mark enter 1 --judge C --by Ann
typed pile-second "11\n7575${row#????}\n\n\n12\n7065${row#????}\n2\nt 100\n\n1\n2\n9\n8\ns\n2\n" \
	--show pile.show mark enter 1 --judge C --by Bob
typed pile-anew '11\nf\n6\ne\n\n' --show pile.show mark enter 1 --judge C --by Ann --keying 1
typed pile-left '11\n\ne\n\n' --show pile.show mark enter 1 --judge C --by Bob --keying 2
case_ pile-compare --show pile.show mark compare 1
case_ pile-history --show pile.show mark history 1 11 --item 2
typed pile-no-judge '' --show pile.show mark enter 1 --judge Q --by Ann
typed pile-json '' --show pile.show --format json mark enter 1 --judge C --by Ann

unmarked moved.show
typed move-keyed "11\n$row\n1\nt 121.5\n\n" --show moved.show mark enter 1 --judge C --by Ann
quiet 0 --show moved.show mark enter 1 12 --judge C --by Bob --keying 2 <<END
$row
1


END
case_ move-nothing --show moved.show mark move 1 13 --judge C --to 12 --by Tove --why 'read 13 for 12'
case_ move-withdrawn --show moved.show mark move 1 11 --judge C --to 18 --by Tove --why 'read 11 for 18'
case_ move-itself --show moved.show mark move 1 11 --judge C --to 11 --by Tove --why no
case_ move --show moved.show mark move 1 11 --judge C --to 12 --by Tove --why 'read 11 for 12'
case_ move-again --show moved.show mark move 1 11 --judge C --to 12 --by Tove --why 'read 11 for 12'
case_ move-compare --show moved.show mark compare 1
case_ move-history-from --show moved.show mark history 1 11 --item 1
case_ move-history-to --show moved.show mark history 1 12 --item 1
case_ move-list --show moved.show --format csv mark list 1
typed move-keyed-anew "7\n75${row#????????}\np\n" --show moved.show mark enter 1 11 --judge C --by Ann
case_ move-other --show moved.show mark move 1 12 --judge C --to 11 --by Tove --why no --keying 1
case_ move-verify --show moved.show verify
case_ move-fix --show moved.show mark fix 1 11 8 --judge C --item 16 --by Bob --why 'looked'

finish
