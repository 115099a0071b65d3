#!/bin/sh
# The draw and start times.
#   usage: times.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

t=times.show
marked $t
case_ draw --show $t draw 3 --seed 2026 --by 'Ines Ferreira'
case_ draw-json --show $t --format json draw 1 --seed 7 --fix 14=2 --first 11 --last 16,12
bad fixed.csv number,place 33,1 35,x 36
case_ draw-fixed-bad --show $t draw 2 --seed 7 --fixed fixed.csv
bad fixed.csv number,place 33,1 35,4
case_ draw-fixed --show $t draw 2 --seed 7 --fixed fixed.csv
case_ draw-two-places --show $t draw 2 --fix 33=1,34=1
case_ draw-withdrawn --show $t draw 2 --first 38
case_ draw-fix-unread --show $t draw 2 --fix 33:1
case_ draw-seed --show $t draw 2 --seed 0
case_ draw-unknown --show $t draw 33
bad late.csv class,number,driver,horses,height_cm,turnout,groom,club '3,48,Late Lottie,Dash;Dart,,,,'
quiet 0 --show $t entry import late.csv
case_ draw-late --show $t draw late 3 48 --seed 5 --why 'paid on the day'
case_ draw-late-again --show $t draw late 3 48 --front
case_ draw-late-undrawn --show $t draw late 4 51
case_ draw-history --show $t draw history 3
case_ away-as-drawn --show $t judge away 1 B --since 14 --by Office --why 'called away'
quiet 0 --show $t judge away 1 B --all --by Office --why 'was there' --undo
case_ times-none --show $t times
bad plan.csv class,ring,day,first,interval_s,break_every,break_s,harrow_every,harrow_s,order \
	'1,,1,9:00,,5,900,,,' '2,Mill ring,,,475,,,4,600,drawn' '4,,,,,,,,,free'
bad wishes.csv about,name,class,day,not_before,over_by,after,weight \
	'driver,asa lindqvarn,,,,9:30,,3' 'class,3,,,,,4,' 'horse,Seren Wen,,,13:00,,,must'
case_ times-import --show $t times import plan.csv wishes.csv
case_ times-import-again --show $t times import plan.csv wishes.csv
bad bad-plan.csv class,ring,day,first,interval_s,break_every,break_s,harrow_every,harrow_s,order \
	'1,Oka ring,0,25:00,ten,3,,2,,random' '9,,,9:61,,,600,,60,' '2,,,,,,,,,' '2,,,,,,,,,'
bad bad-wishes.csv about,name,class,day,not_before,over_by,after,weight \
	'drivr,Nobody,,,9:00,,,' 'driver,Nobody,,,9:00,,,11' 'class,1,,,10:00,9:00,1,' \
	'entry,12,,,9:00,,,' 'horse,Seren Wen,,,,,2,' 'groom,Tove Hallbäck,,,,,,' 'class,9,,1,,,,'
case_ times-import-bad --show $t times import bad-plan.csv bad-wishes.csv
bad nobody.csv about,name,not_before 'driver,Asa Lindquist,9:00' 'judge,Nobody,9:00'
case_ times-import-nobody --show $t times import plan.csv nobody.csv
case_ times-plan-try --show $t times plan --try
case_ times-plan --show $t times plan --gap-groom off --by 'Ines Ferreira'
case_ times-plan-json --show $t --format json times plan 3 --again --why 'as before'
case_ times-plan-all-begun --show $t times plan
case_ times --show $t times
case_ times-list --show $t times list --ring 'mill RING' --driver llew
case_ times-csv --show $t --format csv times --class 4
case_ times-list-unknown --show $t times --ring 'Mall ring'
case_ times-check --show $t times check
case_ draw-again --show $t draw 3
case_ draw-again-meant --show $t draw 3 --again --seed 3 --why 'number 48 was left out'
case_ times-late-nothing --show $t times late 'Oak ring' 20 --from 19:00
case_ times-late-midnight --show $t times late 'Oak ring' 600 --from 9:00 --day 3
case_ times-late --show $t times late 'Oak ring' 20 --from 9:30 --why 'thunder'
case_ times-late-twice --show $t times late 'oak RING' 20 --from 9:30
! "$ringtrue" --show $t --date '2026-05-08 18:00' times late 'Oak ring' 20 --more 2>no-day ||
	fail "a day that is not of the show is taken for one"
grep -q '2026-05-08 is no day of the show, which is from 2026-05-09 (day 1)' no-day ||
	fail "a day that is not of the show is not told"
case_ times-undo --show $t times undo --why 'the thunder passed' --by 'Ines Ferreira'
quiet 0 --show $t times late 'Oak ring' 10 --from 9:30
case_ times-late-more --show $t times late 'Oak ring' 10 --from 9:30 --more
case_ times-back --show $t times back 2
case_ times-back-none --show $t times back 99
case_ times-move --show $t times move 1 20 9:00
case_ times-move-inside --show $t times move 1 20 9:10
case_ times-move-midnight --show $t times move 1 20 23:58
case_ times-move-time --show $t times move 1 20 9.2
bad shared.csv class,number,driver,horses,height_cm,turnout,groom,club \
	'1,61,Two Rings,Alpha,,,,' '4,62,Two Rings,Beta,,,,'
quiet 0 --show $t entry import shared.csv
case_ times-untimed --show $t times check
quiet 0 --show $t times move 1 61 14:00
case_ times-collide --show $t times move 4 62 14:10 --ring 'Oak ring'
quiet 0 --show $t sheet times --list gate --out gate.svg
quiet 0 --show $t sheet times --list announcer --ring 'Mill ring' --out announcer.svg
case_ times-stale-none --show $t entry change 4 54 --club 'Hill Club'
case_ times-stale-status --show $t entry status 4 53 withdrawn
case_ times-stale-judge --show $t judge name 3 C 'Una Alder'
case_ times-judges --show $t times --class 3
case_ times-stale-late --show $t times late 'Oak ring' 5 --from 9:00
case_ away-as-timed --show $t judge away 1 B --since 14 --by Office --why 'called away'
case_ times-history --show $t times history
bad tight.csv class,first,interval_s 1,9:00,600 2,9:30,600
case_ times-overlap --show $t times import tight.csv --by
quiet 0 --show $t times import tight.csv
case_ times-overlap-plan --show $t times plan --again
case_ times-hours --show $t times plan --again --hours 18:00-8:00
case_ times-outside-day --show $t times plan --again --hours 9:10-18:00
bad tight.csv class,interval_s 1,600 2,600
quiet 0 --show $t times import tight.csv
bad wishes.csv about,name,class,over_by 'driver,Myfanwy Llewellin,,8:20' 'entry,31,2,8:05'
quiet 0 --show $t times import tight.csv wishes.csv
case_ times-cannot --show $t times plan --again --seed 4

# The day under way: what has begun stays, and what was said of a ring.
d=day.show
unmarked $d
bad plan.csv class,day,first,interval_s,break_every,break_s '1,1,9:15,480,5,900' '2,1,8:00,480,,' '3,1,,600,,' '4,1,,600,,'
quiet 0 --show $d times import plan.csv
for shared in '1 11' '3 41'; do
	# shellcheck disable=SC2086 # a class and a number
	quiet 0 --show $d entry change $shared --carriage 'club gig' --turnout gig
done
quiet 0 --show $d entry change 1 12 --turnout gig
quiet 0 --show $d draw 2 --seed 4
case_ draw-all --show $d draw --all --seed 999999999 --by Office
case_ draw-all-again --show $d draw --all
case_ draw-all-one --show $d draw 1 --all
case_ draw-all-first --show $d draw --all --first 12
case_ draw-which --show $d draw
quiet 0 --show $d entry add 4 --number 71 --driver 'Late Lena' --horses Dash
case_ draw-late-untimed --show $d draw late 4 71 --take
case_ draw-late-no-time --show $d draw late 4 71 --seed 3
quiet 0 --show $d times plan
at='2026-05-09 08:30'
case_ times-plan-begun --show $d times plan 2
case_ times-plan-under-way --show $d times plan --seed 2 --hours 8:00-16:00
quiet 0 --show $d times late 'Oak ring' 20 --day 1 --from 9:10
case_ times-plan-delayed --show $d times plan 1
quiet 0 --show $d times undo
case_ times-plan-undone --show $d times plan 1 --try
quiet 0 --show $d times undo
quiet 0 --show $d entry add 1 --number 70 --driver 'Late Larry' --horses Dot
case_ times-plan-stays --show $d times plan --seed 3
case_ draw-late-take --show $d draw late 1 70 --seed 11 --take --by Office
quiet 0 --show $d entry add 4 --number 72 --driver 'Late Liam' --horses Dusk
case_ draw-late-last --show $d draw late 4 72 --seed 5
case_ times-plan-again --show $d times plan --again
quiet 0 --show $d judge name 1 C 'Una Alder'
quiet 0 --show $d judge name 3 C 'Una Alder'
bad plan.csv class,first,interval_s 1,9:00,480 3,9:30,600
quiet 0 --show $d times import plan.csv
case_ times-plan-judge --show $d times plan --again
at=

finish
