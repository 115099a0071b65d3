/* The sheet of entries: who is in which class, and how they stand.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <math.h>

#include "workbook_internal.h"

enum column {
	CLASS,
	NUMBER,
	DRIVER,
	HORSES,
	HEIGHT,
	TURNOUT,
	GROOM,
	CLUB,
	DIVISION,
	HORS_CONCOURS,
	STATUS,
	COLUMNS
};

#define HEAD_ROW 2

static void write_heads(struct rt__sheet *sheet)
{
	static const char *const heads[COLUMNS] = {
		"Class", "No.",	 "Driver or rider", "Horses",	     "Height (cm)", "Turnout",
		"Groom", "Club", "Division",	    "Hors concours", "Status",
	};
	const struct rt_workbook *of = sheet->book->of;

	rt__put_loose(sheet, 0, 0, of->title, RT__LOOK_TITLE);
	rt__put_loose(sheet, 1, 0,
		      rt__say(sheet->book,
			      "%s. Entries. Division, hors concours and status follow "
			      "the sheet of the class.",
			      of->day ? of->day : ""),
		      RT__LOOK_PLAIN);
	for (lxw_col_t i = 0; i < (lxw_col_t)COLUMNS; i++)
		rt__put_head(sheet, HEAD_ROW, i, heads[i],
			     i == NUMBER || i == HEIGHT ? RT__LOOK_HEAD_OVER : RT__LOOK_HEAD);
}

/* What stands in a column of the class's sheet for this entry; an empty cell there is an empty
 * text here. */
static void put_from(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col,
		     const struct rt__marks *m, size_t entry, lxw_col_t from, const char *value)
{
	const char *formula = rt__say(sheet->book, "=%s%s&\"\"", m->sheet.quoted,
				      rt__ref_fixed(rt__marks_row(m, entry), from).s);

	rt__put_formula_text(sheet, row, col, formula, value ? value : "", RT__TEXT_LOOK,
			     RT__LOOK_PLAIN);
}

static void write_entry(struct rt__sheet *sheet, lxw_row_t row, const struct rt__marks *m, size_t i)
{
	const struct rt_result *result = m->result[i];
	const struct rt_entry *entry = result->entry;

	rt__put(sheet, row, CLASS, m->of->class_->name, RT__LOOK_PLAIN);
	rt__put_number(sheet, row, NUMBER, (double)entry->number, 0, RT__LOOK_PLAIN);
	rt__put(sheet, row, DRIVER, entry->driver, RT__LOOK_PLAIN);
	rt__put(sheet, row, HORSES, entry->horses, RT__LOOK_PLAIN);
	if (!isnan(entry->height_cm))
		rt__put_number(sheet, row, HEIGHT, entry->height_cm,
			       fmod(entry->height_cm, 1) == 0 ? 0 : 1, RT__LOOK_PLAIN);
	rt__put(sheet, row, TURNOUT, entry->turnout, RT__LOOK_PLAIN);
	rt__put(sheet, row, GROOM, entry->groom, RT__LOOK_PLAIN);
	rt__put(sheet, row, CLUB, entry->club, RT__LOOK_PLAIN);
	put_from(sheet, row, DIVISION, m, i, m->division, result->division);
	put_from(sheet, row, HORS_CONCOURS, m, i, m->hors_concours,
		 entry->hors_concours ? "yes" : NULL);
	put_from(sheet, row, STATUS, m, i, m->outcome, rt_result_words(result));
	rt__said(sheet->book);
}

void rt__write_entries(struct rt__sheet *sheet, const struct rt__marks *marks, size_t n)
{
	lxw_row_t row = HEAD_ROW;

	write_heads(sheet);
	for (size_t c = 0; c < n; c++)
		for (size_t i = 0; i < marks[c].entries; i++)
			write_entry(sheet, ++row, &marks[c], i);
	rt__check(sheet->book, worksheet_autofilter(sheet->at, HEAD_ROW, 0, row, COLUMNS - 1));
	rt__sheet_freeze(sheet, HEAD_ROW + 1, HORSES);
	rt__sheet_repeat(sheet, HEAD_ROW, HEAD_ROW);
	rt__sheet_end(sheet);
}
