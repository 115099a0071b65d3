#!/bin/sh
# Rules that are more than a row of the usual kind, and items that some judges mark.
#   usage: rules.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

RINGTRUE_SHOW=rules.show
export RINGTRUE_SHOW
quiet 0 create rules.show --title Rules --day 2026-05-09

# Technique at C and M, quality in tenths at E; a freestyle beside it.
bad tests5.csv test,title,kind,level,rule,multiplier 'Split,Split,ridden-20x60,,ridden-rounded,' \
	'Free,Freestyle,ridden-20x60,,free,'
bad movements5.csv test,item,letters,movement,figure,gait,coefficient,group,mark_step,judges \
	'Split,1,,Enter,,,1,movement,,C M' 'Split,2,,Circle,,,1,movement,,C M' \
	'Split,3,,Paces,,,2,artistic,0.1,E' 'Free,1,,Enter,,,1,movement,,' \
	'Free,2,,Obedience,,,1,general,,' 'Free,3,,Music,,,1,artistic,0.1,'
bad movements6.csv test,item,letters,movement,figure,gait,coefficient,group,judges \
	'Split,1,,Enter,,,1,quality,C* M' 'Split,2,,Enter,,,1,beauty,C C'
bad classes5.csv class,title,test,level,ring,rule,judges 'S,Split,Split,,,,C M E' \
	'N,Nobody at E,Split,,,,C M' 'F,Freestyle,Free,,,,C'
bad entries5.csv class,number,driver,horses,height_cm,turnout,groom,club 'S,1,Ada,Ash,,,,' \
	'S,2,Bo,Beech,,,,' 'N,1,Ada,Ash,,,,' 'F,1,Ada,Ash,,,,' 'F,2,Bo,Beech,,,,'
bad marks5.csv class,number,judge,item,mark S,1,C,1,7 S,1,C,2,6 S,1,M,1,6 S,1,M,2,6.5 \
	S,1,C,errors,0 S,1,M,errors,0 S,1,E,errors,0 F,1,C,1,7 F,1,C,2,6 F,1,C,3,7.5 F,2,C,1,7 \
	F,2,C,2,6.5 F,2,C,3,7
bad marks6.csv class,number,judge,item,mark S,1,E,1,7 S,1,C,3,7 S,1,E,3,7.35
bad rules5.csv rule,scale,wins,base,judge_decimals,percent_decimals,score_decimals,taken,error_1,error_2,error_3,ties,missing,source \
	'free,percent,highest,0,-1,3,0,points,2,4,eliminated,artistic item:2,mean,own'
quiet 0 rule import rules5.csv
case_ items-judges-bad test import tests5.csv movements6.csv
quiet 0 test import tests5.csv movements5.csv
quiet 0 class import classes5.csv
quiet 0 entry import entries5.csv
quiet 0 mark import marks5.csv --keying 1 --by Ann
case_ split-import-bad mark import marks6.csv --keying 1 --by Ann
case_ split-waiting mark sheets S --waiting
typed split-enter '73\n0\n\n\n' mark enter S 1 --judge E --by Ann
case_ split-total-off mark total S 1 14.7 --judge E --by Bob
case_ split-total mark total S 1 14.6 --judge E --by Bob
case_ split-compare mark compare S 1
case_ split-results results S
quiet 0 sheet driver S 1 --no-route --out own.svg
grep -q 'other judges' own.svg || fail 'a box of other judges is not told'
! grep -q 'not keyed yet' own.svg || fail 'a box of other judges is taken for one that is not keyed'
case_ split-fix mark fix S 1 7 --judge E --item 1 --by Bob --why x
case_ split-nobody results N
case_ freestyle-ties results F

# A scale of ten, cut off, whose ties an official parts; points.
bad rules6.csv rule,scale,wins,base,judge_decimals,percent_decimals,score_decimals,taken,error_1,error_2,error_3,ties,rounding,source \
	'ten,tenths,highest,0,-1,9,3,points,2,4,eliminated,decision,cut,own' \
	'by-points,of points,highest,0,-1,3,1,points,2,4,eliminated,,half-up,own'
case_ rules-scale-bad rule import rules6.csv
sed 's/of points/points/' rules6.csv >rules7.csv
quiet 0 rule import rules7.csv
bad classes6.csv class,title,test,level,ring,rule,judges 'T,Of ten,Free,,,ten,C' 'P,Points,Free,,,by-points,C'
for class in T P; do
	sed -n "1p;s/^F,/$class,/p" entries5.csv >entries-$class.csv
	sed -n "1p;s/^F,/$class,/p" marks5.csv >marks-$class.csv
done
quiet 0 class import classes6.csv
for class in T P; do
	quiet 0 entry import entries-$class.csv
	quiet 0 mark import marks-$class.csv --keying 1 --by Ann
done
quiet 0 penalty add P 2 --errors 1
case_ results-of-ten results T
case_ results-points results P
case_ results-points-json --format json results P
quiet 0 rule list

finish
