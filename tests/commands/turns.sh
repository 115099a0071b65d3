#!/bin/sh
# Turns, sweeps, routes, and their sheets.
#   usage: turns.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

case_ turns-training turns --kind driven-40x80 --level training
case_ turns-no-show --show nosuch.show turns --kind driven-40x80 --level training
case_ turns-feet --feet turns --kind driven-40x80 --level advanced
case_ turns-json --format json turns --kind driven-40x80 --level intermediate
case_ turns-pony turns --kind driven-40x80 --level training --height 12.2hh
# words as people type them
case_ turns-capitals turns --kind DRIVEN-40X80 --level Training
case_ turns-small-ring turns --kind ridden-20x40 --level training --diameter 15
case_ turns-track turns --kind ridden-20x60 --level first --track 1
case_ unknown-level turns --kind driven-40x80 --level advnced
case_ bad-height turns --kind driven-40x80 --level advanced --height 13.5hh

# ---- routes, sweeps and sheets ----
case_ turns-turnout turns --kind driven-40x80 --level advanced --turnout 'horse and gig'
case_ sweep sweep --turnout 'horse and gig' --diameter 20 --angle 90
case_ sweep-json --format json sweep --turnout 'horse and gig' --diameter 15 --angle 90 --two-track
case_ unknown-turnout sweep --turnout 'horse and gog' --diameter 20 --angle 90
case_ no-circle sweep --turnout 'horse and gig' --diameter 0 --angle 90
bad turnouts.csv turnout,part,hitch_m,length_m,width_m own,horse,0,0,0.6 own,cart,-1,two,1.4
case_ bad-turnouts sweep --turnout own --turnouts turnouts.csv --diameter 20 --angle 90
for test in Larch:training Rowan:preliminary Hornbeam:intermediate Juniper:advanced; do
	case_ route-${test%:*} test route movements.csv --test ${test%:*} --kind driven-40x80 \
		--level ${test#*:}
done
case_ route-json --format json test route movements.csv --test Larch --kind driven-40x80 \
	--level training
case_ route-no-show test route Larch --kind driven-40x80 --level training
case_ route-no-test test route movements.csv --test Lrach --kind driven-40x80 --level training
case_ route-which test route movements.csv --kind driven-40x80 --level training
head='test,item,letters,movement,figure,gait,coefficient,group'
bad wrong.csv "$head" 'T,1,,Enter,X halt:10,trot,1,movement' 'T,2,,Turn,C B,trot,1,movement' \
	'T,3,,Go,Q,trot,1,movement' 'T,4,,Circle,B circle:60:left,trot,1,movement'
case_ route-problems test route wrong.csv --kind driven-40x80 --level training
bad unread.csv "$head" 'T,1,,Enter,X halt:soon circle:20:up,trot,1,movement'
case_ figure-unread test route unread.csv --kind driven-40x80 --level training
for out in turns.pdf turns.svg; do
	case_ sheet-${out#*.} sheet turns --kind driven-40x80 --level training --out $out
	cp $out first
	quiet 0 sheet turns --kind driven-40x80 --level training --out $out
	cmp -s first $out || fail "the same input and date give two sheets: $out"
done
case_ route-turnout test route movements.csv --test Juniper --kind driven-40x80 \
	--level advanced --turnout 'horse and gig'
case_ route-turnout-gap test route wrong.csv --kind driven-40x80 --level training \
	--turnout 'horse and gig'
case_ sheet-route sheet route movements.csv --test Juniper --kind driven-40x80 \
	--level advanced --turnout 'horse and gig' --compare --out route.pdf
case_ sheet-route-problems sheet route wrong.csv --kind driven-40x80 --level training \
	--out route.svg
case_ sheet-cones sheet cones --turns --kind driven-40x80 --level intermediate --out cones.svg
case_ sheet-cones-test --format json sheet cones movements.csv --test Larch \
	--kind driven-40x80 --level training --out cones.pdf
case_ sheet-cones-which sheet cones --out cones.pdf
case_ sheet-setout sheet setout --kind driven-40x80 --tape 50 --tapes 2 --out setout.pdf
case_ sheet-setout-form --feet sheet setout --kind ridden-20x40 --form --paper letter \
	--out setout.svg
case_ sheet-setout-which sheet setout --out setout.pdf
quiet 3 sheet turns --kind driven-40x80 --level training --out nowhere/turns.pdf
case_ sheet-ending sheet turns --kind driven-40x80 --level training --out turns.docx
[ ! -e turns.docx ] || fail "a sheet that failed left a file"

finish
