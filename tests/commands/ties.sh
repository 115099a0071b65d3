#!/bin/sh
# Equal entries, and boxes that stay empty.
#   usage: ties.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

RINGTRUE_SHOW=kept.show
export RINGTRUE_SHOW
marked kept.show

bad tests4.csv test,title,kind,level,rule,multiplier 'Sorrel,Sorrel,driven-40x80,,driven-percent,' \
	'Clover,Clover,ridden-20x60,,ridden-points,'
bad movements4.csv test,item,letters,movement,figure,gait,coefficient,group 'Sorrel,1,,Enter,,,1,movement' \
	'Sorrel,2,,Circle,,,1,movement' 'Sorrel,3,,Halt,,,1,general' 'Clover,1,,Enter,,,1,movement' \
	'Clover,2,,Circle,,,1,movement' 'Clover,3,,Halt,,,2,movement'
bad classes4.csv class,title,test,level,ring,rule,judges 'T,Ties,Sorrel,,,,C B' 'M,Missing,Clover,,,,C'
bad entries4.csv class,number,driver,horses,height_cm,turnout,groom,club 'T,1,Ada,Ash,,,,' \
	'T,2,Bo,Beech,,,,' 'T,3,Cy,Cedar,,,,' 'T,4,Di,Doum,,,,' 'M,1,Ada,Ash,,,,' 'M,2,Bo,Beech,,,,'
{
	echo class,number,judge,item,mark
	for n in 1 2 3 4; do
		for j in C B; do
			printf 'T,%s,%s,1,%s\nT,%s,%s,2,6\nT,%s,%s,3,7\n' $n $j $((n == 4 ? 5 : 7)) $n $j $n $j
		done
	done
	printf 'M,1,C,%s\n' 1,6 2,7
	printf 'M,2,C,%s\n' 1,6 2,7 3,6.5
} >marks4.csv
quiet 0 test import tests4.csv movements4.csv
quiet 0 class import classes4.csv
quiet 0 entry import entries4.csv
quiet 0 mark import marks4.csv --keying 1 --by Ann
quiet 0 mark import marks4.csv --keying 2 --by ann --same-person
case_ results-empty-box results M
case_ missing mark missing M 1 --judge C --item 3 --by Office --why 'the judge has left'
case_ results-filled results M
case_ results-filled-json --format json results M
quiet 0 post M --by Office
case_ posted-missing mark missing M 1 --judge C --item 3 --by Office --why 'found' --undo
quiet 1 results M
case_ decide-not-equal tie decide T 1 4 --by 'President' --why x
case_ decide-not-all tie decide T 1 2 --by 'President' --why x
case_ decide-twice tie decide T 1 2 2 --by 'President' --why x
case_ decide-rule tie decide M 1 2 --by 'President' --why x
case_ decide tie decide T 2 1 3 --by 'Petra Novák, president' --why 'the better walk'
case_ results-decided results T
cp kept.show posted.show
case_ posted-one-person --show posted.show post T --by Office
case_ posted-decide --show posted.show tie decide T 3 1 2 --by President --why 'misread before'
quiet 0 tie decide T 3 1 2 --by 'Petra Novák, president' --why 'misread before'
quiet 0 penalty add T 1 --points 1
case_ results-decided-no-more results T
quiet 0 workbook kept.xlsx

finish
