#!/bin/sh
# Bad input: every fault by file, line and column, and nothing changed.
#   usage: faults.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

s=demo.show
marked $s

cp $s before.show
bad marks.csv class,number,judge,item,mark '1,11,C,1,6.3' '1,11,C,1,11' '1,11,Z,1,6' '1,99,C,1,6' \
	'9,11,C,1,6' '1,11,C,77,6' '1,11,C,1,six' '1,11,C' '1,11,B,errors,x'
case_ bad-marks --show $s mark import marks.csv
bad doubled.csv class,number,judge,item,mark 1,11,C,1,6 1,11,C,1,6
case_ doubled-mark --show $s mark import doubled.csv --keying 2
bad columns.csv class,number,number,judge,itm 1,11,11,C,1
case_ bad-columns --show $s mark import columns.csv
printf 'class,number,judge,item,mark,remark\n1,11,C,1,6,sch\303\266n\n1,11,C,2,6,sch\366n\n' >latin.csv
case_ wrong-encoding --show $s mark import latin.csv
: >empty.csv
case_ empty-file --show $s mark import empty.csv
mkdir folder
case_ a-folder --show $s mark import folder
case_ no-such-file --show $s mark import nowhere.csv
bad entries2.csv class,number,driver,horses,height_cm,turnout,groom,club '1,11,X,,tall,,,' '8,0,,Y,150,,,'
case_ bad-entries --show $s entry import entries2.csv
bad capitals.csv FROM,To,Distance_m A,C,80
case_ capitals ring check --kind driven-40x80 capitals.csv
bad classes2.csv class,title,test,level,ring,rule,judges '7,T,Larsh,basic,Elm ring,driven,C C'
case_ bad-classes --show $s class import classes2.csv
# All but the header of the file, which counts who has opened it to write.
tail -c +101 $s >after.rows
tail -c +101 before.show | cmp -s after.rows - || fail "bad input changed the show file"

finish
