#!/bin/sh
# What the office rules: articles, missing marks, judges who were away, posting.
#   usage: rulings.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

s=kept.show
marked $s
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
bad rules2.csv "$(head -n 1 "$share/rules.csv")" \
	'driven-combined,penalties,lowest,160,-1,2,2,score,5,10,eliminated,,judge:B:3,refuse,,,,own'
quiet 0 rule import rules2.csv
case_ missing-refused mark missing 2 31 --judge C --item 3 --by Office --why 'page torn'
bad rules3.csv "$(head -n 1 "$share/rules.csv")" \
	'bad,penalties,lowest,160,-1,2,2,score,5,10,eliminated,,judge,average,5,2,,own' \
	'worse,percent,highest,0,-1,2,2,score,5,10,eliminated,,judge:B,mean,5,7,,own'
case_ rules-bad rule import rules3.csv

case_ away-how judge away 1 B --by Office --why ill
case_ away-nobody judge away 1 B --number 15,99 --by Office --why ill
case_ away-some judge away 1 B --number 15,16 --by Office --why 'called away'
case_ away-from judge away 1 B --since 19 --by Office --why 'called away'
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
typed posted-enter 'b\nb\n7\n\n' mark enter 1 14 --judge C --by Ann --keying 1
printf 'class,number,judge,item,mark\n1,14,C,1,7\n2,31,C,1,3\n' >again.csv
case_ posted-import mark import again.csv --by Eve --why 'read anew'
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
at='2026-05-09 17:00'
case_ results-clock-back results 1
at=2026-05-10
case_ results-final --format json results 1
at=
case_ verify verify
case_ backup backup copy.show
quiet 0 backup copy.show
quiet 0 --show copy.show verify
[ "$(sqlite3 copy.show 'PRAGMA journal_mode')" = delete ] || fail "a copy that does not stand alone"
case_ backup-itself backup ./kept.show --replace
echo 'something else' >letter.txt
case_ backup-other-kind backup letter.txt --replace
quiet 0 create other.show --title 'Another' --day 2026-05-09
case_ backup-other backup other.show
quiet 0 backup other.show --replace
case_ backup-standard backup -
case_ backup-no-folder backup nowhere/copy.show
case_ create-no-folder create nowhere/copy.show --title 'Another' --day 2026-05-09
for left in copy.show?* other.show?* letter.txt?* .ringtrue-*; do
	[ ! -e "$left" ] || fail "a backup left $left"
done


finish
