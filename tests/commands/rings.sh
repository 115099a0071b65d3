#!/bin/sh
# Rings without a show: setting out, checks, advice, footing, adjustment.
#   usage: rings.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

case_ ring-kinds ring kinds
case_ ring-kinds-json --format json ring kinds
case_ ring-kinds-csv --format csv ring kinds
case_ setout-20x40 ring setout --kind ridden-20x40
case_ setout-40x80-feet --feet ring setout --kind driven-40x80
case_ setout-json --format json ring setout --kind ridden-20x60
case_ setout-two-tapes ring setout --kind driven-40x80 --tape 50 --tapes 2
case_ setout-receiver ring setout --kind driven-40x80 --receiver --hold X=1000,2000 --bearing 47
case_ setout-hold ring setout --kind driven-40x80 --tapes 2 --hold A=312.40,87.15 \
	--hold C=371.02,141.58
case_ setout-hold-points --feet ring setout --kind ridden-20x40 --tape 50 \
	--hold gate=-16.5,-31 --hold post=15,-31.5
case_ setout-form ring setout --kind ridden-20x40 --form
case_ setout-form-csv --format csv ring setout --kind ridden-20x40 --form
case_ setout-hold-one ring setout --kind driven-40x80 --hold A=0,-40
case_ setout-hold-unread ring setout --kind driven-40x80 --hold A=0 --hold C=0,40
case_ setout-hold-far ring setout --kind driven-40x80 --hold gate=300,0 --hold post=340,0
case_ setout-tape-short ring setout --kind driven-40x80 --tape 5
case_ setout-tapes ring setout --kind driven-40x80 --tapes 3
case_ unknown-kind ring setout --kind driven-40x8
case_ check-kind ring check --kind driven-40x80 readings-oak.csv
case_ check-json --format json ring check --kind driven-40x80 readings-oak.csv
case_ check-all ring check --kind driven-40x80 readings-oak.csv --fit all --tolerance 0.2
case_ bad-fit ring check --kind driven-40x80 readings-oak.csv --fit some
case_ bad-tolerance ring check --kind driven-40x80 readings-oak.csv --tolerance wide
bad few.csv from,to,distance_m A,C,80 AK,FA,40 HC,CM,40
case_ check-not-fixed ring check --kind driven-40x80 few.csv
bad readings.csv from,to,distance_m Q,K,10 A,A,5 K,V,-1 K,V,long 'K,V,10,9'
case_ check-bad-readings ring check --kind driven-40x80 readings.csv
awk -F, -v OFS=, 'NR > 1 { $3 = sprintf("%.3f", 1.004 * $3) } 1' readings-oak.csv >long-tape.csv
bad receiver.csv point,x_m,y_m A,500.01,300 AK,480,300.01 K,479.99,310 V,480,325 E,479.96,340 \
	S,480,354.99 H,480.01,370 HC,480,380 C,499.99,379.98 CM,520.01,380 M,520,370 R,520,355.01 \
	B,519.99,340 P,520.05,324.45 F,520.02,310 FA,520,300.02
case_ check-long-tape ring check --kind driven-40x80 long-tape.csv receiver.csv
case_ check-tape-agrees ring check --kind driven-40x80 readings-oak.csv receiver.csv
case_ check-receiver-alone ring check --kind driven-40x80 receiver.csv
case_ check-long-tape-alone --feet ring check --kind driven-40x80 long-tape.csv
case_ advice ring advice --kind driven-40x80 readings-oak.csv --tape 50
case_ advice-json --format json ring advice --kind driven-40x80 readings-oak.csv
case_ advice-feet --feet ring advice --kind driven-40x80 readings-oak.csv receiver.csv
case_ advice-diagonals ring advice --kind driven-40x80 --diagonals 89.39,89.49
case_ advice-diagonals-feet --feet ring advice --kind ridden-20x60 --diagonals 63.95,63.35
case_ advice-diagonals-equal --format json ring advice --kind driven-40x80 --diagonals 89.44,89.44
case_ advice-diagonals-typed ring advice --kind driven-40x80 --diagonals 89.39
case_ advice-diagonals-other ring advice --kind ridden-20x60 --diagonals 89.39,89.49
case_ advice-no-file ring advice --kind driven-40x80
case_ advice-heights-only ring advice --kind driven-40x80 heights-oak.csv
case_ footing ring footing --kind driven-40x80 heights-oak.csv
case_ footing-json --format json ring footing --kind driven-40x80 heights-oak.csv
case_ footing-steep --feet ring footing --kind driven-40x80 heights-oak.csv --footing knhs \
	--across 0.1
case_ footing-rule ring footing --kind driven-40x80 heights-oak.csv --footing knsh
bad footing.csv footing,discipline,along_m,along_percent,across_m,across_percent,source \
	ours,driven,0.4,,,0.3,'our own'
case_ footing-own ring footing --kind driven-40x80 heights-oak.csv --footings footing.csv
case_ footing-no-heights ring footing --kind driven-40x80 readings-oak.csv
bad heights.csv point,height_m,sigma_m Q,1, K,high, F,1,0
case_ footing-bad ring footing --kind driven-40x80 heights.csv
bad two.csv point,height_m K,10.2 F,10.3
case_ footing-few ring footing --kind driven-40x80 two.csv
case_ check-heights-only ring check --kind driven-40x80 heights-oak.csv
case_ check-two-levels ring check --kind driven-40x80 readings-oak.csv heights-oak.csv two.csv
bad points.csv point,x_m,y_m,fixed 1,0,1000,yes 2,1000,1000,yes 3,0,0,no 4,1000,0,no
bad square.csv from,to,distance_m,sigma_m 1,3,1000.02,.01 1,4,1414.20,.01 2,3,1414.24,.01 \
	2,4,999.98,.01 3,4,1000.00,.01
case_ adjust adjust points.csv square.csv
bad strings.csv point,from,to,offset_m E,AK,HC,-0.02 K,AK,HC,0.01 B,FA,CM,0.03
bad angles.csv point,from,to,angle_deg AK,HC,FA,90.03 CM,FA,HC,91.50
bad fixes.csv point,x_m,y_m AK,674012.13,6580100.42 HC,673992.62,6580178.01 \
	CM,674031.42,6580187.75 FA,674050.92,6580110.16 X,674021.78,6580144.08
case_ check-mixed ring check --kind driven-40x80 readings-oak.csv strings.csv angles.csv fixes.csv
case_ check-mixed-feet --feet ring check --kind driven-40x80 readings-oak.csv strings.csv
case_ check-mixed-json --format json ring check --kind driven-40x80 readings-oak.csv fixes.csv
bad more.csv point,x_m,y_m 3,0.02,-0.01 4,1000.01,0.02
case_ adjust-mixed adjust points.csv square.csv more.csv
bad swapped.csv point,y_m,x_m AK,674012.13,6580100.42 HC,673992.62,6580178.01 \
	CM,674031.42,6580187.75
bad unknown.csv peg,height A,12
bad zero.csv point,from,to,offset_m,sigma_m E,AK,HC,0.01,0 E,E,HC,0.01,
case_ check-bad-files ring check --kind driven-40x80 swapped.csv unknown.csv zero.csv
bad feet.csv from,to,distance_m AK,HC,262.5 HC,CM,131.2 CM,FA,262.4 FA,AK,131.3 AK,CM,293.4
case_ check-feet ring check --kind driven-40x80 feet.csv

finish
