#!/bin/sh
# Files as offices have them: their columns, their separators, their encodings, their sheets.
#   usage: files.sh RINGTRUE
# SPDX-License-Identifier: GPL-3.0-or-later
# shellcheck source=tests/commands/shared.sh
. "$(dirname "$0")/shared.sh"

unmarked files.show
RINGTRUE_SHOW=files.show
export RINGTRUE_SHOW
columns='Startnummer=number; Fahrer=driver;Pferde = horses'

# ---- columns that are called otherwise, and a trial that keeps nothing
bad theirs.csv Class,Startnummer,FAHRER,Pferde,height-cm,Turnout,Groom,club \
	'1,81,Una Alder,Fen,,,,' '1,82,Bo Birch,Moss,tall,,,'
case_ files-columns-fault entry import theirs.csv --columns "$columns"
sed -i 's/tall//' theirs.csv
case_ files-columns-try entry import theirs.csv --columns "$columns" --try
case_ files-try-kept-nothing entry find Birch
case_ files-columns-forgotten entry import theirs.csv
case_ files-columns entry import theirs.csv --columns "$columns"
case_ files-columns-remembered entry import theirs.csv
case_ files-columns-kept entry find Birch
case_ files-columns-unknown entry import theirs.csv --columns 'Fahrer=whip'
case_ files-columns-no-pair entry import theirs.csv --columns 'Fahrer'
case_ files-no-sheet entry import theirs.csv --sheet Nennungen

# ---- what a spreadsheet saves
printf 'Class;Startnummer;Fahrer;Pferde;height-cm;Turnout;Groom;Club;Bemerkung;;\r\n' >latin.csv
printf '1;83;J\374rg Ahorn;Stern;"152";;;;frei;;\r\n;;;;;;;;;;\r\n' >>latin.csv
case_ files-semicolons entry import latin.csv --columns "$columns"
case_ files-semicolons-kept entry find Ahorn
case_ files-no-workbook entry import files.show

finish
