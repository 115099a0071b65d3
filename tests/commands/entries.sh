#!/bin/sh
# Entries, classes, people and numbers.
#   usage: entries.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

marked desk.show
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
case_ class-change-ring --show positions.show class change 3 --ring 'oak RING'
case_ class-change-names class change 9 --judge-names 'Una Alder; Olle'
case_ class-change-empty class change 9 --title ''
case_ class-change-unknown class change 99 --division ''
case_ class-history class history 9
case_ judge-name judge name 9 E 'Una Alder' --scribe 'Per Ask' --why 'Olle is ill' --by Kim
case_ judge-name-twice judge name 9 B 'Una Alder'
case_ judge-name-again judge name 9 B ' Una Alder'
case_ judge-name-away judge name 9 B ''
case_ judge-name-case judge name 9 e 'Una Alder'
case_ judge-name-nowhere judge name 9 C 'Una Alder'
case_ judge-name-control judge name 9 B "$(printf 'Una\tAlder')"
cp desk.show replaced.show
case_ judge-name-from --show replaced.show judge name 3 C 'Bo Birk' --from 45 --why 'called away' --by Kim
case_ judge-name-from-so --show replaced.show judge name 3 C 'Bo Birk' --from 45
case_ judge-name-from-time --show replaced.show judge name 3 B 'Bo Birk' --from 11:20
case_ judge-name-from-nobody --show replaced.show judge name 3 C 'Bo Birk' --from 99
case_ judge-name-from-word --show replaced.show judge name 3 C 'Bo Birk' --from noon
case_ judge-list-from --show replaced.show judge list 3
case_ judge-history-from --show replaced.show judge history 3
case_ judge-name-all --show replaced.show judge name 3 C 'Bo Birk'
case_ judge-list judge list
case_ judge-history judge history 9
case_ judge-history-of judge history
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
quiet 0 create first.show --title First --day 2026-05-09
quiet 0 --show first.show test import tests.csv movements.csv
quiet 0 --show first.show class add 9 --title 'Open pairs' --test Hornbeam --judges C
case_ entry-import-first --show first.show entry import entries6.csv
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
cp desk.show number.show
case_ entry-change-number-marked --show number.show entry change 3 47 --number 61
quiet 0 --show number.show --format csv mark list 3
grep -q '^3,61,' "$work/out" || fail 'marks stayed behind with the old number'
case_ entry-change-not-started --show number.show entry change 9 11 --driver 'Kim Oak'
case_ entry-changed-import entry import entries.csv
case_ entry-status-at entry status 9 60 retired --at 14:05 --why 'lame' --by 'judge at C'
case_ entry-status-again entry status 9 60 eliminated --at '2026-05-10 09:00'
case_ entry-status-at-bad entry status 9 60 retired --at 24:05
case_ entry-status-at-short entry status 9 60 retired --at 9:05
case_ entry-list-scratched entry list --status Scratched
case_ entry-history entry history 9 60
case_ entry-history-none entry history 9 61
case_ entry-find entry find sophie fen
case_ entry-find-number entry find 41
case_ entry-find-letters entry find SOREN kjaersgard
case_ entry-find-none entry find nobody
case_ entry-find-empty entry find ' '
case_ entry-list-driver entry list 4 --order driver
case_ entry-list-arrival entry list 9 --order arrival
case_ entry-list-number --format csv entry list --order Number
case_ entry-list-status entry list --status eliminated
case_ entry-list-order entry list --order horse
case_ entry-numbers entry numbers
case_ entry-numbers-set entry numbers --lowest 201 --highest 208 --keep driver
case_ entry-numbers-none entry numbers --lowest 300 --highest 299
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

# what a spreadsheet would run goes out behind an apostrophe, and comes in again as it was
unmarked runs.show
quiet 0 --show runs.show entry add 1 --number 99 --driver '=SUM(A1)' --horses '-Fen;=Moss' --club "'@home"
quiet 0 --show runs.show --format csv entry list 1
{ sed -n 1p "$work/out"; sed -n 's/^1,99,/1,98,/p' "$work/out"; } >guarded.csv
grep -q "^1,98,'=SUM(A1),'-Fen; =Moss,.*,''@home," guarded.csv || fail "what would run: $(cat guarded.csv)"
quiet 0 --show runs.show entry import guarded.csv
quiet 0 --show runs.show --format csv --raw entry list 1
[ "$(sed -n 's/^1,9[89],\(.*@home\).*/\1/p' "$work/out" | uniq -c | awk '{ print $1 }')" = 2 ] ||
	fail "what would run came in otherwise: $(grep @home "$work/out")"

# a file that is newer than the show
unmarked sync.show
quiet 0 --show sync.show times plan --seed 1
sed -e 's/Tove Hallbäck/Tove Elm/' -e '/^1,12,/d' -e '1s/$/,status/' -e '2,$s/$/,/' \
	-e 's/^\(1,13,.*\),$/\1,withdrawn/' entries.csv >newer.csv
echo '1,21,Kim Oak,"Fern, Szellő / Flax & Moss+Fen",,,,,,,scratched' >>newer.csv
case_ entry-import-differs --show sync.show entry import newer.csv
case_ entry-import-missing-alone --show sync.show entry import newer.csv --withdraw-missing
case_ entry-import-try --show sync.show entry import newer.csv --update --try
case_ entry-import-update --show sync.show entry import newer.csv --update --by Kim --why 'new list'
case_ entry-import-update-again --show sync.show entry import newer.csv --update
case_ entry-import-withdraws --show sync.show entry import newer.csv --update --withdraw-missing \
	--by Kim
case_ entry-import-update-history --show sync.show entry history 1 11
case_ entry-import-status-history --show sync.show entry history 1 12
quiet 0 --show sync.show --format csv entry list
cp "$work/out" listed.csv
case_ entry-import-listed --show sync.show entry import listed.csv
quiet 0 create listed.show --title Listed --day 2026-05-09
quiet 0 --show listed.show test import tests.csv movements.csv
sed 's/Oak ring//;s/Mill ring//' classes.csv >ringless.csv
quiet 0 --show listed.show class import ringless.csv
quiet 0 --show listed.show entry import listed.csv
quiet 0 --show listed.show --format csv entry list
cut -d, -f1-12 listed.csv >listed.cut
cut -d, -f1-12 "$work/out" | diff listed.cut - || fail 'statuses did not come in again'
sed '/^1,13,/d' entries.csv | grep '^[c1]' >first.csv
quiet 0 --show sync.show entry import first.csv --update --withdraw-missing
case_ entry-import-one-class --show sync.show --format csv entry list --status withdrawn
marked keyed.show
sed 's/Brisbläsan/Comet/' entries.csv >other.csv
case_ entry-import-started --show keyed.show entry import other.csv --update
sed '/^1,11,/d' entries.csv >fewer.csv
case_ entry-import-marked-missing --show keyed.show entry import fewer.csv --update \
	--withdraw-missing

# many at once
unmarked many.show
case_ entry-status-many --show many.show entry status 1 11 13-15 17 withdrawn --why rain --by Kim
case_ entry-status-some --show many.show entry status 1 11-12 withdrawn --by Kim
case_ entry-status-no-range --show many.show entry status 1 12 90-95 entered
case_ entry-status-backwards --show many.show entry status 1 15-13 entered
case_ entry-status-no-number --show many.show entry status 1 entered
case_ entry-status-none-there --show many.show entry status 1 12 99 entered
case_ entry-status-untouched --show many.show --format csv entry history 1 12
case_ entry-find-why --show many.show entry find hallb 11
case_ entry-find-groom --show many.show entry find tove

# what collides is told at once
unmarked near.show
for class in 1 2 3 4; do quiet 0 --show near.show draw $class --seed 1; done
quiet 0 --show near.show times import plan.csv
quiet 0 --show near.show times plan --seed 1
at='2026-05-09 08:00'
case_ entry-add-near --show near.show entry add 3 --driver 'Kim Oak' --horses 'Ash, Brisbläsan' \
	--turnout 'horse and gig' --groom 'käthe rößler'
case_ entry-change-near --show near.show entry change 3 47 --driver 'Thomas Quillfeather'
case_ entry-change-not-past --show near.show entry change 1 15 --horses Yew --turnout 'pony and gig'
at='2026-05-09 16:00'
case_ entry-change-past --show near.show entry change 1 14 --horses Ash/Elm
at=

# to another class
unmarked moves.show
case_ entry-move --show moves.show entry move 1 12 --to 2 --why 'wrong class' --by Kim
case_ entry-move-gone --show moves.show --format csv entry list 1
case_ entry-move-history --show moves.show entry history 2 12
case_ entry-move-same --show moves.show entry move 2 12 --to 2
case_ entry-move-taken --show moves.show entry move 2 12 --to 1 --number 13
case_ entry-move-number --show moves.show entry move 2 31 --to 1 --number 12
quiet 0 --show moves.show draw 1 --seed 1
quiet 0 --show moves.show class add 5 --title More --test Larch --judges 'C B'
case_ entry-move-drawn --show moves.show entry move 1 12 --to 5
case_ entry-move-number-taken --show moves.show entry move 1 13 --to 5
quiet 0 --show moves.show entry add 5 --number 14 --driver 'Kim Oak' --horses Ash
case_ entry-move-number-given --show moves.show entry move 1 14 --to 5
marked kept.show
quiet 0 --show kept.show class add 5 --title More --test Larch --judges 'C B'
quiet 0 --show kept.show penalty add 1 11 --points 3 --article 'groom speaks' --by Kim
quiet 0 --show kept.show penalty add 1 11 --errors 1 --by Kim
quiet 0 --show kept.show penalty undo 1 11 --by Kim --why 'number 12'
case_ entry-move-marks --show kept.show entry move 1 11 --to 5 --by Kim
quiet 0 --show kept.show --format csv mark list 5
grep -q '^5,11,' "$work/out" || fail 'marks did not go along'
! grep -q '^5,11,E,' "$work/out" || fail 'marks of a judge who is not there went along'
case_ entry-move-penalties --show kept.show penalty list 5
case_ entry-move-marks-stay --show kept.show entry move 1 12 --to 2
quiet 0 --show kept.show verify

# classes that go, come together and come apart
marked parts.show
quiet 0 --show parts.show class add 8 --title Eight --test Rowan --judges 'C B'
quiet 0 --show parts.show entry move 2 31 --to 8
case_ class-remove-marked --show parts.show class remove 2
case_ class-merge-other-test --show parts.show class merge 2 --into 1
case_ class-merge --show parts.show class merge 2 --into 8 --by Kim --why 'too few'
case_ class-merge-history --show parts.show class history 2
case_ class-merge-gone --show parts.show results 2
case_ class-split-neither --show parts.show class split 1
case_ class-split-both --show parts.show class split 1 --by division --into 2
case_ class-split-no-division --show parts.show class split 8 --by division
case_ class-split-names --show parts.show class split 8 --into 3 --names 'x; y'
case_ class-split-taken --show parts.show class split 8 --into 2 --names 'x; 3'
case_ class-split-too-many --show parts.show class split 8 --into 26
case_ class-split --show parts.show class split 1 --by division --who Kim
case_ class-split-into --show parts.show class split 8 --into 2 --names 'x; y' --by Kim
case_ class-split-results --show parts.show results 1a
quiet 0 --show parts.show class add 9 --title Nine --test Larch --judges C
quiet 0 --show parts.show entry add 9 --number 99 --driver 'Kim Oak' --horses Ash
case_ class-remove-entries --show parts.show class remove 9
quiet 0 --show parts.show entry status 9 99 withdrawn
case_ class-split-one-division --show parts.show class split 1a --by division
case_ class-remove --show parts.show class remove 9 --why 'nobody entered' --by Kim
case_ class-remove-name --show parts.show class add 9 --title Nine --test Larch --judges C
case_ class-remove-again --show parts.show class remove 9
case_ class-parts-list --show parts.show class list
quiet 0 --show parts.show verify

finish
