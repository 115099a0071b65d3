#!/bin/sh
# The command on real files: standard output, standard error and exit status, compared with
# tests/golden.  Each case is a line below; UPDATE=1 writes the golden files anew.
#   usage: commands.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
here=$(cd "$(dirname "$0")" && pwd)
ringtrue=$(realpath "$1")
golden=$here/golden
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
RINGTRUE_DATA=$here/../share
LC_ALL=C.UTF-8
export RINGTRUE_DATA LC_ALL
unset RINGTRUE_SHOW
failed=0
ran=0

fail() {
	failed=$((failed + 1))
	echo "FAIL $*"
}

# Numbers with many decimals to ten digits, and what is nothing but rounding to 0: another
# processor's sixteenth digit is no change.
rounded() {
	awk '{
		rest = $0
		line = ""
		while (match(rest, /-?[0-9]+\.[0-9]+(e[-+]?[0-9]+)?/)) {
			number = substr(rest, RSTART, RLENGTH)
			if (length(number) > 11)
				number = number < 1e-9 && number > -1e-9 ? 0 : sprintf("%.10g", number)
			line = line substr(rest, 1, RSTART - 1) number
			rest = substr(rest, RSTART + RLENGTH)
		}
		print line rest
	}' "$1"
}

# What a case wrote and how it ended, as its golden file has it: output, messages, status.
told() {
	rounded "$work/out"
	[ ! -s "$work/err" ] || {
		echo '---- messages'
		cat "$work/err"
	}
	[ "$1" -eq 0 ] || echo "---- status $1"
}

# case NAME ARGUMENTS...: run, and compare with golden/NAME; a case that says nothing and ends
# with 0 has no such file.
case_() {
	name=$1
	shift
	ran=$((ran + 1))
	"$ringtrue" --date '2026-05-09 18:00' "$@" >"$work/out" 2>"$work/err"
	told $? >"$work/told"
	if [ "${UPDATE:-}" = 1 ]; then
		rm -f "$golden/$name"
		[ ! -s "$work/told" ] || cp "$work/told" "$golden/$name"
	elif [ -s "$work/told" ] || [ -e "$golden/$name" ]; then
		diff -u "$golden/$name" "$work/told" || fail "$name"
	fi
}

# quiet STATUS ARGUMENTS...: run without comparing what is written.
quiet() {
	want=$1
	shift
	ran=$((ran + 1))
	"$ringtrue" --date '2026-05-09 18:00' "$@" >"$work/out" 2>"$work/err"
	got=$?
	[ $got -eq "$want" ] || {
		fail "$*: status $got, not $want"
		cat "$work/err"
	}
}

# typed NAME LINES ARGUMENTS...: a case that is typed to.
typed() {
	printf '%b' "$2" >"$work/in"
	name=$1
	shift 2
	case_ "$name" "$@" <"$work/in"
}

# A bad file made of the lines given, in the working folder.
bad() {
	file=$1
	shift
	printf '%s\n' "$@" >"$file"
}

cp "$here"/../share/demo/*.csv "$work"
cd "$work" || exit 1

# ---- usage ----
case_ help help
case_ help-ring-check help ring check
quiet 0 mark import --help
quiet 0 --version
case_ help-ring ring --help
case_ help-entry help entry
case_ help-nonsense help resluts
quiet 0 -h
quiet 0 ring -h
quiet 0 mark import -h
quiet 0 -- ring kinds
quiet 2 --
case_ no-command
case_ unknown-command resluts 1
case_ unknown-by-last-word sheets 1
case_ unknown-by-first-word teams
case_ too-many-longer times nonsense
case_ unknown-second-word ring chekc x.csv
case_ second-word-wanted ring
case_ unknown-option turns --knd driven-40x80 --level training
case_ global-option-too-late ring kinds --format json
case_ unknown-global --fromat json ring kinds
case_ unknown-format --format jsn ring kinds
case_ option-twice turns --kind a --kind b --level c
case_ option-needed turns --kind driven-40x80
case_ too-many-arguments ring kinds now please
case_ bad-date --date 2026-02-30 ring kinds
case_ no-show-given show

# ---- rings ----
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

# ---- turns ----
case_ turns-training turns --kind driven-40x80 --level training
case_ turns-feet --feet turns --kind driven-40x80 --level advanced
case_ turns-json --format json turns --kind driven-40x80 --level intermediate
case_ turns-pony turns --kind driven-40x80 --level training --height 12.2hh
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

# ---- a show ----
s=demo.show
case_ create create $s --title 'Larkfold Spring Driving Day' --date 2026-05-09
case_ create-again create $s --title 'Another' --date 2026-05-09
case_ create-no-name create '' --title 'Another' --date 2026-05-09
case_ create-no-title create other.show --title ' ' --date 2026-05-09
case_ create-long-title create other.show --title "$(printf '%0201d' 0)" --date 2026-05-09
case_ create-bad-date create other.show --title 'Another' --date 2026-06-31
case_ ring-add --show $s ring add 'Oak ring' --kind driven-40x80
quiet 0 --show $s ring add 'Mill ring' --kind driven-40x80
case_ ring-add-twice --show $s ring add 'Mill ring' --kind driven-40x80
case_ ring-add-alike --show $s ring add 'mîll  RING' --kind driven-40x80
case_ ring-add-empty --show $s ring add '' --kind driven-40x80
case_ ring-add-control --show $s ring add "$(printf 'Elm\033[2J')" --kind driven-40x80
case_ ring-add-latin --show $s ring add "$(printf '\304sch')" --kind driven-40x80
case_ ring-list --show $s ring list
case_ check-ring --show $s ring check 'Oak ring' readings-oak.csv
cp $s ring.show
case_ certificate-refused --show ring.show sheet certificate 'Oak ring' --out oak.pdf
[ ! -e oak.pdf ] || fail "a certificate of a ring that is not true"
case_ history-none --show ring.show ring check 'Mill ring' --history
case_ certificate-unchecked --show ring.show sheet certificate 'Mill ring' --out oak.pdf
case_ footing-none --show ring.show ring footing 'Oak ring'
quiet 0 --show ring.show ring footing 'Oak ring' heights-oak.csv --by 'Åsa Lind'
case_ footing-kept --show ring.show ring footing 'Oak ring'
case_ footing-kept-other --show ring.show ring footing 'Oak ring' --across 0.1
case_ check-again --show ring.show ring check 'Oak ring' readings-oak-again.csv --by 'Åsa Lind'
case_ advice-kept --show ring.show ring advice 'Oak ring' --tape 30
case_ advice-never-checked --show ring.show ring advice 'Mill ring'
case_ check-by --show ring.show ring check 'Oak ring' readings-oak.csv --by "$(printf 'a\tb')"
case_ history --show ring.show ring check 'Oak ring' --history
case_ history-json --show ring.show --format json ring check 'Oak ring' --history
case_ again --show ring.show ring check 'Oak ring' --again 1
case_ again-unknown --show ring.show ring check 'Oak ring' --again 4
case_ again-file --show ring.show ring check 'Oak ring' readings-oak.csv --again 1
case_ again-tolerance --show ring.show ring check 'Oak ring' --again 1 --tolerance 0.2
case_ sheet-check-fit --show ring.show sheet check 'Oak ring' --fit all --out oak.pdf
case_ check-no-file --show ring.show ring check 'Oak ring'
case_ certificate --show ring.show sheet certificate 'Oak ring' --out oak.svg
case_ sheet-check --show ring.show sheet check 'Oak ring' --out oak.svg --seen-from B
case_ sheet-check-first --show ring.show sheet check 'Oak ring' --check 1 --out oak.pdf
case_ sheet-check-heights --show ring.show sheet check 'Oak ring' --check 2 --out oak.pdf
case_ sheet-check-files sheet check --kind driven-40x80 readings-oak.csv heights-oak.csv \
	--out oak.pdf --tolerance 0.2
case_ sheet-check-no-files sheet check --kind driven-40x80 --out oak.pdf
case_ sheet-check-both --show ring.show sheet check 'Oak ring' readings-oak.csv --out oak.pdf
cp oak.pdf first
quiet 1 sheet check --kind driven-40x80 readings-oak.csv heights-oak.csv --out oak.pdf \
	--tolerance 0.2
cmp -s first oak.pdf || fail "the same check and date give two sheets"
case_ check-unknown-ring --show $s ring check 'Oak rinf' readings-oak.csv
case_ test-import --show $s test import tests.csv movements.csv
case_ test-import-again --show $s test import tests.csv movements.csv
case_ test-list --show $s test list
quiet 0 --show $s class import classes.csv
case_ class-list --show $s class list
quiet 0 --show $s entry import entries.csv
case_ entry-list --show $s entry list 3
bad entries3.csv class,number,driver,horses,height_cm,turnout,groom,club '1,11,Somebody,Else,,,,'
case_ entry-differs --show $s entry import entries3.csv
case_ entry-list-unknown --show $s entry list 77
case_ status-why --show $s entry status 1 18 withdrawn --why "$(printf 'lame\non the morning')"
quiet 0 --show $s entry status 1 18 withdrawn --why 'lame on the morning'
quiet 0 --show $s entry status 2 38 did-not-start
case_ unknown-status --show $s entry status 2 38 elimnated
case_ unknown-entry --show $s entry status 2 99 eliminated
cp $s desk.show # before any mark
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
case_ unknown-class --show $s results 9
case_ judging --show $s judging 2
case_ judging-json --show $s --format json judging 4 --gap 2.5 --apart 6
case_ judging-bad-gap --show $s judging 2 --gap wide

# ---- papers of the office ----
case_ sheet-results --show $s sheet results 1 --out results.pdf
case_ sheet-results-nothing --show $s sheet results 9 --out results.pdf
case_ sheet-results-ending --show $s sheet results 1 --out results.doc
case_ sheet-marking --show $s sheet marking 1 --judge C --out marking.pdf
case_ sheet-marking-figures --show $s sheet marking 4 --number 51 --figures --out marking.svg
case_ sheet-marking-judge --show $s sheet marking 1 --judge Q --out marking.pdf
case_ sheet-marking-number --show $s sheet marking 1 --number 99 --out marking.pdf
cp $s timed.show
quiet 0 --show timed.show draw 1 --seed 7
quiet 0 --show timed.show draw 2 --seed 7
quiet 0 --show timed.show times import plan.csv
"$ringtrue" --show timed.show times plan --seed 7 >/dev/null || [ $? -eq 1 ] || fail "no plan"
for list in ring driver gate announcer steward; do
	case_ sheet-times-$list --show timed.show sheet times --list $list --out $list.pdf
done
case_ sheet-times-one --show timed.show sheet times --driver wroblew --out one.svg
case_ sheet-times-nobody --show timed.show sheet times --driver nobody --out one.svg
case_ sheet-times-list --show timed.show sheet times --list judges --out one.svg
case_ sheet-times-none --show $s sheet times --out none.pdf
case_ sheet-driver --show $s sheet driver 2 34 --out driver.pdf
case_ sheet-driver-nobody --show $s sheet driver 2 99 --out driver.pdf

# ---- championships, teams, prize money ----
case_ championship-import --show $s championship import championships.csv
case_ championship-again --show $s championship import championships.csv
case_ championship-list --show $s championship list
case_ championship --show $s championship results shield
case_ championship-json --show $s --format json championship results shield
case_ championship-unknown --show $s championship results sheild
cp $s cups.show
printf '%s\n' championship,title,classes,count,of,by,ties,dropped \
	'mixed,Two kinds of score,1; 2,sum,score,driver,equal,0' >mixed.csv
case_ championship-mixed-import --show cups.show championship import mixed.csv
case_ championship-mixed --show cups.show championship results mixed
printf '%s\n' championship,title,classes,count,of,by,ties,dropped \
	'bad,Bad,1; 9; 1,total,score,driver,equal,3' ',None,;,sum,score,driver,equal,0' \
	'shield,Other,1; 2,sum,percent,driver,best,1' >badcups.csv
case_ championship-bad --show $s championship import badcups.csv
case_ team-import --show $s team import teams.csv
case_ team-list --show $s team list
case_ team-results --show $s team results --of percent
case_ team-results-class --show $s team results 1 --count 2
case_ team-mixed --show $s team results
case_ team-none --show $s team results 9
printf '%s\n' team,class,number A,1,11 A,1,99 B,1,11 B,7,1 >badteams.csv
case_ team-bad --show $s team import badteams.csv
printf '%s\n' team,class,number A,1,11 A,1,99 >badteams.csv
case_ team-taken --show $s team import badteams.csv
case_ prize-import --show $s prize import prizes.csv
case_ prize-list --show $s prize list
case_ prize-payee --show $s prize payee 13 'Cwm Derwen Stables' --by Nia
case_ prize-payee-nobody --show $s prize payee 4711 Nobody
case_ prize-money --show $s prize money 1 --scale larkfold
case_ prize-money-2 --show $s prize money 4 --scale larkfold --rosettes-least 1
case_ sheet-prizes --show $s sheet prizes 1 --scale larkfold --out prizes.pdf
case_ prize-scale-unknown --show $s prize money 1 --scale larkfeld
printf '%s\n' scale,starters,place,amount n,0,1,5 n,3,1,5.005 n,3,1,-1 n,3,1,5 n,3,1,6 >badprizes.csv
case_ prize-bad --show $s prize import badprizes.csv
# ---- articles, judges who were away, missing marks, ties, posting: on a copy ----
cp $s kept.show
RINGTRUE_SHOW=kept.show
export RINGTRUE_SHOW
case_ rule-list rule list
case_ rule-list-json --format json rule list
case_ articles penalty articles 1
case_ article-unknown penalty add 1 14 --article 'groom dismonts'
case_ article-official penalty add 1 14 --article 'late at A'
case_ article-once penalty add 1 14 --article 'Groom Dismounts'
case_ article-twice penalty add 1 14 --article 'groom dismounts' --by Steward
quiet 0 penalty add 1 14 --points -10 --article 'groom dismounts'
quiet 0 penalty add 1 14 --article 'groom dismounts'
case_ article-thrice penalty add 1 14 --article 'groom dismounts'
quiet 0 penalty add 1 12 --article 'no whip'
case_ article-costs-once penalty add 1 12 --article 'no whip'
bad articles.csv applies_to,article,what,amount_1,amount_2,amount_3,source \
	'driven,late at A,,5,10,eliminated,own' 'driven-percent,boots,,3,,,own'
case_ article-import article import articles.csv
case_ article-own penalty add 1 12 --article 'boots'
bad articles2.csv applies_to,article,what,amount_1,amount_2,amount_3,source 'drivn,x,,1,,2,' ',y,,z,,,' \
	'driven,a,,1,,,' 'driven,a,,eliminated,1,,'
case_ articles-bad article import articles2.csv

case_ missing-has-mark mark missing 2 31 --judge C --item 3 --by Office --why 'page torn'
case_ missing-no-item mark missing 2 31 --judge C --item 99 --by Office --why 'page torn'
case_ missing-no-judge mark missing 2 31 --judge Q --item 3 --by Office --why 'page torn'
case_ missing-not-said mark missing 2 31 --judge C --item 3 --by Office --why 'found' --undo
case_ missing-no-why mark missing 2 31 --judge C --item 3 --by Office
bad rules2.csv "$(head -n 1 "$here/../share/rules.csv")" \
	'driven-combined,penalties,lowest,160,-1,2,2,score,5,10,eliminated,judge:B:3,refuse,,,own'
quiet 0 rule import rules2.csv
case_ missing-refused mark missing 2 31 --judge C --item 3 --by Office --why 'page torn'
bad rules3.csv "$(head -n 1 "$here/../share/rules.csv")" \
	'bad,penalties,lowest,160,-1,2,2,score,5,10,eliminated,judge,average,5,2,own' \
	'worse,percent,highest,0,-1,2,2,score,5,10,eliminated,judge:B,mean,5,7,own'
case_ rules-bad rule import rules3.csv

case_ away-how judge away 1 B --by Office --why ill
case_ away-nobody judge away 1 B --number 15,99 --by Office --why ill
case_ away-some judge away 1 B --number 15,16 --by Office --why 'called away'
case_ away-from judge away 1 B --from 19 --by Office --why 'called away'
case_ away-again judge away 1 B --number 16 --by Office --why 'called away'
case_ away-back judge away 1 B --number 19 --by Office --why 'was there' --undo
case_ judge-list-away judge list 1
case_ results-away results 1
case_ away-nobody-left judge away 1 C --number 15,19 --by Office --why 'called away'
quiet 0 judge away 1 C --number 15,19 --by Office --why 'was there' --undo
case_ post-no-name post 1 --by ''
case_ post-not-yet post 3 --by Office
case_ post post 1 --by Office
case_ post-again post 1 --by Office --objections 30
case_ results-posted results 1
# each change to a class that was posted says so, and what changes nothing does not
cp kept.show posted.show
RINGTRUE_SHOW=posted.show
case_ posted-penalty penalty add 1 11 --points 20
case_ posted-status entry status 1 12 retired --why 'lame'
case_ posted-status-again entry status 1 12 retired --why 'lame' --by Steward
case_ posted-entry-add entry add 1 --driver 'Ann Ashby' --horses Fen
case_ posted-entry-change entry change 1 13 --club 'Larkfold'
case_ posted-away judge away 1 B --number 13 --by Office --why 'called away'
case_ posted-class class change 1 --division pairs
case_ posted-fix mark fix 1 14 3 --judge C --item 1 --by Bob --why 'read 8 for 3'
case_ posted-fix-same mark fix 1 14 3 --judge C --item 1 --by Bob --why 'read 8 for 3'
case_ posted-total mark total 1 14 50 --judge C --by Eve
typed posted-enter 'b\nb\n7\n' mark enter 1 14 --judge C --by Ann --keying 1
printf 'class,number,judge,item,mark\n1,14,C,1,7\n2,31,C,1,3\n' >again.csv
case_ posted-import mark import again.csv
bad entries5.csv class,number,driver,horses,height_cm,turnout,groom,club '1,71,Una Ash,Fen,,,,' \
	'2,72,Una Ash,Moss,,,,'
case_ posted-entry-import entry import entries5.csv
case_ posted-entry-import-again entry import entries5.csv
RINGTRUE_SHOW=kept.show
quiet 0 penalty add 1 11 --points 20 --why 'outside help'
case_ results-changed results 1
case_ results-changed-json --format json results 1
case_ verify-changed verify
case_ post-corrected post 1 --by Office --objections 30
case_ post-history post history 1
case_ post-history-none post history 2
case_ post-unknown post 77 --by Office
case_ results-clock-back --date '2026-05-09 17:00' results 1
case_ results-final --date '2026-05-10' --format json results 1
case_ verify verify
case_ backup backup copy.show
quiet 0 backup copy.show
quiet 0 --show copy.show verify
case_ backup-itself backup ./kept.show --replace
echo 'something else' >letter.txt
case_ backup-other backup letter.txt
quiet 0 backup letter.txt --replace
case_ backup-no-folder backup nowhere/copy.show
case_ create-no-folder create nowhere/copy.show --title 'Another' --date 2026-05-09
[ "$(sqlite3 letter.txt 'PRAGMA journal_mode')" = delete ] || fail "a copy that does not stand alone"
for left in copy.show?* letter.txt?*; do
	[ ! -e "$left" ] || fail "a backup left $left"
done

# marks for a class whose entries are equal and a box of which is empty
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
quiet 0 mark import marks4.csv --keying 2 --by ann --force
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

# a file that somebody changed with another program
sqlite3 kept.show 'DROP TRIGGER mark_no_update' "UPDATE mark SET mark_x10 = 63 WHERE entry = 1 AND item = 1"
case_ verify-trigger verify
sqlite3 kept.show "CREATE TRIGGER mark_no_update BEFORE UPDATE ON mark BEGIN
	SELECT RAISE(ABORT, 'mark is a history: add a row, change none'); END"
case_ verify-steps verify
sqlite3 kept.show 'DROP TRIGGER pass_no_delete' 'DELETE FROM pass WHERE id = 1' \
	"CREATE TRIGGER pass_no_delete BEFORE DELETE ON pass BEGIN
	SELECT RAISE(ABORT, 'pass is a history: add a row, change none'); END"
"$ringtrue" verify >"$work/out" 2>"$work/err"
[ $? -eq 1 ] || fail "rows without their pass are not told"
head -c 20000 kept.show >cut.show
quiet 3 --show cut.show verify
printf 'x' | dd of=kept.show bs=1 seek=40000 count=4096 conv=notrunc 2>/dev/null
head -c 4096 /dev/zero | dd of=kept.show bs=4096 seek=12 conv=notrunc 2>/dev/null
"$ringtrue" verify >"$work/out" 2>"$work/err"
got=$?
[ $got -eq 1 ] || [ $got -eq 3 ] || fail "a damaged file: status $got"
printf 'not a database' >plain.txt
quiet 3 --show plain.txt verify
unset RINGTRUE_SHOW

# ---- the draw and start times ----
t=times.show
cp $s $t
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
case_ away-as-drawn --show $t judge away 1 B --from 14 --by Office --why 'called away'
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
case_ times-plan-json --show $t --format json times plan 3 --why 'as before'
case_ times --show $t times
case_ times-list --show $t times list --ring 'mill RING' --driver llew
case_ times-csv --show $t --format csv times --class 4
case_ times-list-unknown --show $t times --ring 'Mall ring'
case_ times-check --show $t times check
case_ draw-again --show $t draw 3
case_ draw-again-meant --show $t draw 3 --again --seed 3 --why 'number 48 was left out'
case_ times-late --show $t times late 'Oak ring' 20 --from 9:30 --why 'thunder'
case_ times-late-nothing --show $t times late 'Oak ring' 20 --from 19:00
case_ times-late-midnight --show $t times late 'Oak ring' 600 --from 9:00 --day 3
case_ times-move --show $t times move 1 20 9:00
case_ times-move-inside --show $t times move 1 20 9:10
case_ times-move-midnight --show $t times move 1 20 23:58
case_ times-move-time --show $t times move 1 20 9.02
bad shared.csv class,number,driver,horses,height_cm,turnout,groom,club \
	'1,61,Two Rings,Alpha,,,,' '4,62,Two Rings,Beta,,,,'
quiet 0 --show $t entry import shared.csv
case_ times-untimed --show $t times check
quiet 0 --show $t times move 1 61 14:00
case_ times-collide --show $t times move 4 62 14:10 --ring 'Oak ring'
case_ away-as-timed --show $t judge away 1 B --from 14 --by Office --why 'called away'
case_ times-history --show $t times history
bad tight.csv class,first,interval_s 1,9:00,600 2,9:30,600
case_ times-overlap --show $t times import tight.csv --by
quiet 0 --show $t times import tight.csv
case_ times-overlap-plan --show $t times plan
case_ times-hours --show $t times plan --hours 18:00-8:00
case_ times-outside-day --show $t times plan --hours 9:10-18:00
bad tight.csv class,interval_s 1,600 2,600
quiet 0 --show $t times import tight.csv
bad wishes.csv about,name,class,over_by 'driver,Myfanwy Llewellin,,8:20' 'entry,31,2,8:05'
quiet 0 --show $t times import tight.csv wishes.csv
case_ times-cannot --show $t times plan --seed 4

# ---- what the README and the help show is run ----
# examples FOLDER: the lines on standard input, one after another, where the demo's files are.
examples() {
	mkdir "$1"
	cp "$here"/../share/demo/*.csv "$1"
	cp "$here"/../share/demo/readings-oak.csv "$1/readings.csv"
	(
		cd "$1" || exit 1
		# shellcheck disable=SC2317 # by the lines that are run
		ringtrue() {
			"$ringtrue" "$@"
		}
		lines=0
		while read -r line; do
			lines=$((lines + 1))
			eval "$line" >"$work/out" 2>"$work/err" </dev/null || [ $? -eq 1 ] || {
				echo "$line"
				cat "$work/err"
				exit 1
			}
		done
		[ $lines -gt 12 ]
	) || fail "the examples of $1"
}
sed -n 's/^    \(ringtrue .*\|export .*\)/\1/p' "$here/../README.md" | sed 's/  *#.*//' >"$work/lines"
examples README <"$work/lines"
"$ringtrue" help | sed -n 's/^  \([a-z][a-z ]*[a-z]\)  .*/\1/p' | while read -r command; do
	# shellcheck disable=SC2086 # one word a part of the name
	"$ringtrue" help $command | sed -n 's/^Example: //p'
done | sed "/ create /a\\
ringtrue --show spring.show ring add 'Oak ring' --kind driven-40x80
/ draw 3 /a\\
ringtrue --show spring.show entry add 3 --driver Late --horses Dash --number 8
/ class add 9 /a\\
ringtrue --show spring.show entry add 9 --driver Nobody --horses Torn --number 7" >"$work/lines"
examples help <"$work/lines"

# ---- bad input: every fault by file, line and column, and nothing changed ----
cp $s before.show
bad marks.csv class,number,judge,item,mark '1,11,C,1,6.3' '1,11,C,1,11' '1,11,Z,1,6' '1,99,C,1,6' \
	'9,11,C,1,6' '1,11,C,77,6' '1,11,C,1,six' '1,11,C' '1,11,B,errors,x'
case_ bad-marks --show $s mark import marks.csv
bad doubled.csv class,number,judge,item,mark 1,11,C,1,6 1,11,C,1,6
case_ doubled-mark --show $s mark import doubled.csv --keying 2
bad columns.csv class,number,number,judge,itm 1,11,11,C,1
case_ bad-columns --show $s mark import columns.csv
printf 'class,number,judge,item,mark,remark\n1,11,C,1,6,sch\366n\n' >latin.csv
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
cmp -s $s before.show || fail "bad input changed the show file"

# ---- a show's own rows, and what they change ----
cp $s own.show
RINGTRUE_SHOW=own.show
export RINGTRUE_SHOW
{
	head -n 1 "$here/../share/rings.csv"
	printf 'driven-40x80,driven,40,82,%s\n' A,a,20 C,c,20 K,left,10
	printf 'paddock,ridden,20,40,%s\n' A,a,10 C,c,10
} >kinds.csv
case_ kinds-import ring kinds import kinds.csv
bad no-c.csv "$(head -n 1 kinds.csv)" paddock,ridden,20,40,A,a,10
case_ kinds-without-c ring kinds import no-c.csv
sed -n '1p;/^driven-percent/p' "$here/../share/rules.csv" >rules.csv
case_ rule-import rule import rules.csv
bad gaits.csv gait,speed_m_per_s,stride_m,source amble,2.2,1.9,own
case_ gait-import gait import gaits.csv
head -n 3 "$here/../share/levels.csv" >levels.csv
case_ level-import level import levels.csv
quiet 0 turnout import "$here/../share/turnouts.csv"
bad tests2.csv test,title,kind,level,rule,multiplier Aspen,Aspen,ridden-20x60,,driven-combined,0.64
bad movements2.csv test,item,letters,movement,figure,gait,coefficient,group 'Aspen,1,,Enter,,,24,movement'
case_ odd-multiplier test import tests2.csv movements2.csv
bad classes3.csv class,title,test,level,ring,rule,judges 9,Nine,Aspen,,'Oak ring',,C
case_ class-in-other-ring class import classes3.csv
case_ results-nobody results 9
unset RINGTRUE_SHOW

# ---- at the desk ----
RINGTRUE_SHOW=desk.show
export RINGTRUE_SHOW
sevens='7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n7\n' # all boxes but two
case_ sheet-in mark sheet 1 11 in --judge C --by Tove
case_ sheet-state mark sheet 1 11 keyed --judge C
case_ sheet-why mark sheet 1 11 queried --judge C
typed enter '65\n8 late at E\n66\n6 5\nb\n75\n?\np\n' mark enter 1 11 --judge C --by Ann
typed enter-resumed '7\n75\n' mark enter 1 11 --judge C --by Åsa
typed enter-boxes "$sevens"'7\n7\n' mark enter 1 12 --judge C --by Ann
typed enter-lines '1\n126.5\nb\n126\n\n' mark enter 1 12 --judge C --by Ann
printf 'class,number,judge,item,mark\n1,12,C,1,7\n1,12,C,2,7\n1,13,C,1,6\n' >own.csv
case_ import-same-person mark import own.csv --keying 2 --by ann
typed enter-total-off 'b\n127\n\n' mark enter 1 12 --judge C --by Ann --keying 1
typed enter-total-right 'b\n126\n\n' mark enter 1 12 --judge C --by Ann --keying 1
typed enter-same-person '' mark enter 1 12 --judge C --by ' ANN'
typed enter-forced '7\n7\n' mark enter 1 12 --judge C --by Ann --force
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
case_ sheet-total-only mark sheet 1 17 queried --judge B --why 'where is it?'
case_ sheet-returned-unkeyed mark sheet 1 17 returned --judge C
case_ sheet-returned mark sheet 1 12 returned --judge C --by Tove
cp desk.show left.show
printf 'class,number,judge,item,mark\n2,31,C,1,7\n' >left.csv
quiet 0 --show left.show mark import left.csv
quiet 0 --show left.show entry status 2 31 eliminated
case_ results-left-only --show left.show results 2
case_ sheet-queried mark sheet 1 16 queried --judge C --by Tove --why 'is 3 a 5 or a 6?'
case_ sheets mark sheets 1
case_ sheets-waiting mark sheets 1 --waiting
case_ sheets-json --format json mark sheets 4
case_ results-by-total results 1
# ---- entries and people ----
cp $s desk.show
RINGTRUE_SHOW=desk.show
export RINGTRUE_SHOW
case_ entry-import-again entry import entries.csv
case_ class-add class add 9 --title 'Open pairs' --test Hornbeam --ring 'Mill ring' --judges 'C B' \
	--judge-names 'Una Alder; '
case_ class-add-again class add 9 --title 'Open pairs' --test Hornbeam --judges 'C B'
case_ class-add-test class add 10 --title T --test Horbneam --judges C
case_ class-add-ring class add 10 --title T --test Larch --judges C --ring 'Mil ring'
case_ class-add-rule class add 10 --title T --test Larch --judges C --rule driven-percnt
case_ class-add-level class add 10 --title T --test Larch --judges C --level advnced
case_ class-add-judges class add 10 --title T --test Larch --judges 'C B C'
case_ class-add-names class add 10 --title T --test Larch --judges 'C B' --judge-names Una
case_ class-add-no-title class add 10 --title ' ' --test Larch --judges C
case_ class-change class change 9 --judges 'B E*' --division pairs --why 'as announced' --by Kim
case_ class-change-again class change 9 --judges 'B E*' --division pairs
case_ class-change-earlier class change 9 --division '' --by Ida
case_ class-change-marked class change 3 --judges 'C B'
case_ class-change-test class change 3 --test Larch
case_ class-change-president class change 3 --judges 'C E*'
cp desk.show positions.show
case_ class-add-position --show positions.show class add 10 --title T --test Larch --judges 'C Q'
bad classes6.csv class,title,test,level,ring,rule,judges '11,Eleven,Larch,,,,C T' '12,Twelve,Larch,,,,C B'
case_ class-import-position --show positions.show class import classes6.csv
case_ class-change-nothing class change 3 --why 'as announced'
case_ class-change-unknown class change 99 --division ''
case_ class-history class history 9
case_ judge-name judge name 9 E 'Una Alder' --scribe 'Per Ask' --why 'Olle is ill' --by Kim
case_ judge-name-twice judge name 9 B 'Una Alder'
case_ judge-name-again judge name 9 B ' Una Alder'
case_ judge-name-away judge name 9 B ''
case_ judge-name-nowhere judge name 9 C 'Una Alder'
case_ judge-name-control judge name 9 B "$(printf 'Una\tAlder')"
case_ judge-list judge list
case_ judge-list-history judge list 9 --history
case_ judge-list-history-of judge list --history
case_ entry-add entry add 9 --driver 'Söphie Ash' --horses 'Fen ;Moss' --late --height 13.2hh \
	--groom 'Ivar Öst' --turnout 'pair and phaeton'
case_ entry-add-again entry add 9 --driver 'sophie  ASH' --horses 'Moss;Fen'
case_ entry-add-kept --format json entry add 4 --rider 'Sophie Ash' --horses 'Moss;Fen' \
	--hors-concours
case_ entry-add-other-horses entry add 9 --driver 'Söphie Ash' --horses Tern
case_ entry-add-number entry add 9 --driver 'Ida Moss' --horses Heron --number 11
case_ entry-add-shared-horse entry add 9 --driver 'Per Ask' --horses 'Curlew; FEN' --number 12
bad entries6.csv class,number,driver,horses,height_cm,turnout,groom,club '9,13,Kim Oak,Curlew,,,,' \
	'9,14,Jo Oak,Plover;Knot,,,,' '9,15,Al Oak,Knot,,,,'
cp desk.show shared.show
case_ entry-import-shared-horse --show shared.show entry import entries6.csv
case_ entry-add-taken entry add 9 --driver 'Ida Moss' --horses Curlew --number 11
case_ entry-add-no-class entry add 77 --driver 'Ida Moss' --horses Curlew
case_ entry-add-no-driver entry add 9 --horses Curlew
case_ entry-add-two-drivers entry add 9 --driver A --rider B --horses Curlew
case_ entry-add-no-horse entry add 9 --driver 'Ida Moss' --horses ' ; '
case_ entry-add-control entry add 9 --driver "$(printf 'Ida\033[2J')" --horses Curlew
case_ entry-add-long entry add 9 --driver "$(printf '%0201d' 0)" --horses Curlew
case_ entry-add-height entry add 9 --driver 'Ida Moss' --horses Curlew --height 13.4hh
case_ entry-add-zero entry add 9 --driver 'Ida Moss' --horses Curlew --number 0
case_ entry-change entry change 9 56 --horses 'Fen; Heron' --groom '' --hors-concours yes \
	--why 'Moss is lame' --by Kim
case_ entry-change-earlier entry change 9 56 --horses 'Fen; Tern' --by Ida
case_ entry-change-again entry change 9 56 --horses 'Fen; Tern' --by Ida
case_ entry-change-seen entry change 9 56 --groom 'Per Ask' --seen 3
case_ entry-change-yes entry change 9 56 --late maybe
case_ entry-change-taken entry change 9 56 --number 11
case_ entry-change-number entry change 9 56 --number 60 --all-classes
case_ entry-change-gone entry change 9 56 --groom 'Per Ask'
case_ entry-change-marked entry change 3 47 --horses 'Bramble; Brier'
case_ entry-change-spelling entry change 3 47 --horses 'Bramble; Brier' --spelling
case_ entry-change-number-marked entry change 3 47 --number 61
case_ entry-changed-import entry import entries.csv
case_ entry-status-at entry status 9 60 retired --at 14:05 --why 'lame' --by 'judge at C'
case_ entry-status-again entry status 9 60 eliminated --at '2026-05-10 09:00'
case_ entry-status-at-bad entry status 9 60 retired --at 24:05
case_ entry-history entry history 9 60
case_ entry-history-none entry history 9 61
case_ entry-find entry find sophie fen
case_ entry-find-number entry find 41
case_ entry-find-letters entry find SOREN kjaersgard
case_ entry-find-none entry find nobody
case_ entry-find-empty entry find ' '
case_ entry-list-driver entry list 4 --by driver
case_ entry-list-arrival entry list 9 --by arrival
case_ entry-list-number --format csv entry list --by number
case_ entry-list-status entry list --status eliminated
case_ entry-list-by entry list --by horse
case_ entry-numbers entry numbers
case_ entry-numbers-set entry numbers --first 201 --last 208 --keep driver
case_ entry-numbers-none entry numbers --first 300 --last 299
case_ entry-numbers-keep entry numbers --keep horse
quiet 0 prize payee 41 'Brookmead Stables'
case_ entry-change-payee entry change 9 57 --number 41
# eight desks at once: eight numbers
for desk in 1 2 3 4 5 6 7 8; do
	"$ringtrue" entry add 9 --driver "Desk $desk" --horses Wren >/dev/null 2>"desk$desk.err" &
done
wait
cat desk?.err
[ "$(sqlite3 desk.show "SELECT count(*), min(number), max(number) FROM entry
	WHERE driver LIKE 'Desk %'")" = '8|201|208' ] || fail "desks that meet get one number"
case_ entry-numbers-used entry numbers
case_ entry-add-none-left entry add 9 --driver 'Desk 9' --horses Wren
unset RINGTRUE_SHOW

# ---- files that are no show files ----
printf 'not a database, whatever the name says' >plain.show
case_ not-a-show --show plain.show show
cp $s newer.show
sqlite3 newer.show 'pragma user_version = 99'
cp newer.show newer.copy
case_ newer-version --show newer.show show
case_ newer-version-writing --show newer.show ring add X --kind driven-40x80
cmp -s newer.show newer.copy || fail "a newer show file was changed"
case_ no-such-show --show nowhere.show show

# ---- outputs ----
"$ringtrue" ring kinds >/dev/full 2>"$work/err"
[ $? -eq 3 ] || fail "a full disk is not told"
quiet 0 --show $s workbook one.xlsx
quiet 0 --show $s workbook two.xlsx
cmp -s one.xlsx two.xlsx || fail "the same show and date give two workbooks"
cp one.xlsx keep.xlsx
quiet 3 --show $s workbook nowhere/one.xlsx
case_ workbook-name --show $s workbook one.txt
quiet 3 --show $s workbook /dev/full
[ -c /dev/full ] || fail "a device was written over"
for out in 'workbook full.xlsx' 'sheet results 4 --out full.pdf' 'backup full.show'; do
	(
		ulimit -f 4
		# shellcheck disable=SC2086 # a command and its arguments
		exec "$ringtrue" --show $s $out >"$work/out" 2>"$work/err"
	)
	[ $? -eq 3 ] || fail "no room for $out is not told"
	for left in full.*; do
		[ ! -e "$left" ] || fail "$out leaves $left behind where there is no room"
	done
done
for locale in de_DE.UTF-8 C; do
	LC_ALL=$locale "$ringtrue" --date '2026-05-09 18:00' --show $s --format json results 4 \
		>"$work/$locale.json"
	LC_ALL=$locale "$ringtrue" --date '2026-05-09 18:00' --show $s workbook three.xlsx >/dev/null
	cmp -s one.xlsx three.xlsx || fail "the workbook follows the locale $locale"
	LC_ALL=$locale "$ringtrue" --date '2026-05-09 18:00' --show $s results 4 >"$work/text"
	cmp -s "$work/text" "$golden/results-4" || fail "text follows the locale $locale"
done
cmp -s "$work/de_DE.UTF-8.json" "$work/C.json" || fail "JSON follows the locale"

# ---- marks through a pipe, which can be read only once ----
mkfifo pipe.csv
cat marks-keying2.csv >pipe.csv &
quiet 0 --show $s mark import pipe.csv --keying 2
wait

echo "commands: $ran cases, $failed failed"
[ $failed -eq 0 ]
