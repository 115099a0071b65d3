#!/bin/sh
# A show's own rows, and what they change.
#   usage: rows.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

marked own.show
RINGTRUE_SHOW=own.show
export RINGTRUE_SHOW
{
	head -n 1 "$share/rings.csv"
	printf 'driven-40x80,driven,40,82,%s\n' A,a,20 C,c,20 K,left,10
	printf 'paddock,ridden,20,40,%s\n' A,a,10 C,c,10
} >kinds.csv
case_ kinds-import ring kinds import kinds.csv
bad no-c.csv "$(head -n 1 kinds.csv)" paddock,ridden,20,40,A,a,10
case_ kinds-without-c ring kinds import no-c.csv
sed -n '1p;/^driven-percent/p' "$share/rules.csv" >rules.csv
case_ rule-import rule import rules.csv
bad gaits.csv gait,speed_m_per_s,stride_m,source amble,2.2,1.9,own
case_ gait-import gait import gaits.csv
head -n 3 "$share/levels.csv" >levels.csv
case_ level-import level import levels.csv
quiet 0 turnout import "$share/turnouts.csv"
bad tests2.csv test,title,kind,level,rule,multiplier Aspen,Aspen,ridden-20x60,,driven-combined,0.64
bad movements2.csv test,item,letters,movement,figure,gait,coefficient,group 'Aspen,1,,Enter,,,24,movement'
case_ odd-multiplier-refused test import tests2.csv movements2.csv
case_ odd-multiplier test import tests2.csv movements2.csv --multiplier-as-printed
bad classes3.csv class,title,test,level,ring,rule,judges 9,Nine,Aspen,,'Oak ring',,C
case_ class-in-other-ring class import classes3.csv
case_ results-nobody results 9

finish
