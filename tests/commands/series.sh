#!/bin/sh
# Championships, teams, prize money.
#   usage: series.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

s=demo.show
marked $s

case_ championship-import --show $s championship import championships.csv
case_ championship-again --show $s championship import championships.csv
case_ championship-list --show $s championship list
case_ championship --show $s championship results shield
cp $s posted.show
for class in 1 2 4; do
	quiet 0 --show posted.show post $class --by Nia
done
quiet 0 --show posted.show penalty add 1 11 --points 20 --why 'late' --by Steward
case_ championship-changed --show posted.show championship results shield
case_ championship-json --show $s --format json championship results shield
case_ championship-unknown --show $s championship results sheild
cp $s cups.show
printf '%s\n' championship,title,classes,tally,of,competitor,ties,dropped \
	'mixed,Two kinds of score,1; 2,sum,score,driver,equal,0' >mixed.csv
case_ championship-mixed-import --show cups.show championship import mixed.csv
case_ championship-mixed --show cups.show championship results mixed
printf '%s\n' championship,title,classes,tally,of,competitor,ties,dropped \
	'bad,Bad,1; 9; 1,total,score,driver,equal,3' ',None,;,sum,score,driver,equal,0' \
	'shield,Other,1; 2,sum,percent,driver,best,1' >badcups.csv
case_ championship-bad --show $s championship import badcups.csv
case_ team-import --show $s team import teams.csv
case_ team-list --show $s team list
case_ team-results --show $s team results --of percent
case_ team-results-class --show $s team results 1 --count 2
case_ team-results-mean --show $s team results --as mean --of percent
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
case_ prize-rosettes-part --show $s prize money 1 --scale larkfold --rosette-per 2.99
case_ sheet-prizes --show $s sheet prizes 1 --scale larkfold --out prizes.pdf
case_ prize-scale-unknown --show $s prize money 1 --scale larkfeld
printf '%s\n' scale,starters,place,amount n,0,1,5 n,3,1,5.005 n,3,1,-1 n,3,1,5 n,3,1,6 >badprizes.csv
case_ prize-bad --show $s prize import badprizes.csv

finish
