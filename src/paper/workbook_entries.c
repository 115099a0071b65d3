/* The sheet of entries: who is in which class, and how they stand.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <ctype.h>
#include <math.h>
#include <string.h>

#include "workbook_internal.h"

#define HEAD_ROW     2
#define HELD_COLUMNS 3 /* stay in sight: class, number, driver */
#define HEAD_BYTES   80

/* The columns are those of the entries file, and the status. */
static bool is_column(const struct rt_field *f)
{
	return rt_field_in_file(f) || strcmp(f->name, "status") == 0;
}

static bool is_number(const struct rt_field *f)
{
	enum rt_type type = rt_type_shown(f->type);

	return type == RT_INT || type == RT_REAL;
}

/* "Driver or rider" */
static const char *head_of(const struct rt_field *f, char out[static HEAD_BYTES])
{
	char made[64];

	snprintf(out, HEAD_BYTES, "%s%s%s", rt_field_head(f, made), f->also ? " or " : "",
		 f->also ? f->also : "");
	*out = (char)toupper((unsigned char)*out);
	return out;
}

static lxw_col_t write_heads(struct rt__sheet *sheet)
{
	const struct rt_workbook *of = sheet->book->of;
	const struct rt_record *r = &rt_entry_record;
	char head[HEAD_BYTES];
	lxw_col_t col = 0;

	rt__put_loose(sheet, 0, 0, of->title, RT__LOOK_TITLE);
	rt__put_loose(sheet, 1, 0,
		      rt__say(sheet->book,
			      "%s. Entries. Division, hors concours and status follow "
			      "the sheet of the class.",
			      of->day ? of->day : ""),
		      RT__LOOK_PLAIN);
	for (size_t i = 0; i < r->fields; i++)
		if (is_column(&r->field[i]))
			rt__put_head(sheet, HEAD_ROW, col++, head_of(&r->field[i], head),
				     is_number(&r->field[i]) ? RT__LOOK_HEAD_OVER : RT__LOOK_HEAD);
	return col;
}

static void write_entry(struct rt__sheet *sheet, lxw_row_t row, const struct rt__marks *m, size_t i)
{
	const struct rt_record *r = &rt_entry_record;
	const struct rt_result *result = m->result[i];
	const struct rt_entry *entry = result->entry;
	const struct {
		const char *field;
		lxw_col_t from;
		const char *value;
	} follows[] = {
		{"division", m->division, result->division},
		{"hors_concours", m->hors_concours, entry->hors_concours ? "yes" : NULL},
		{"status", m->outcome, rt_result_words(result)},
	};
	lxw_col_t col = 0;

	for (size_t k = 0; k < r->fields; k++) {
		const struct rt_field *f = &r->field[k];
		struct rt_value v = rt_field_value(r, f, entry, NULL);
		size_t which = 0;

		if (!is_column(f))
			continue;
		while (which < 3 && strcmp(follows[which].field, f->name) != 0)
			which++;
		if (which < 3)
			rt__follow_words(sheet, row, col, m, rt__marks_row(m, i),
					 follows[which].from, follows[which].value);
		else if (!is_number(f))
			rt__put(sheet, row, col, v.as.text, RT__LOOK_PLAIN);
		else if (f->type == RT_INT)
			rt__put_number(sheet, row, col, (double)v.as.whole, 0, RT__LOOK_PLAIN);
		else if (!v.null)
			rt__put_number(sheet, row, col, v.as.real,
				       fmod(v.as.real, 1) == 0 ? 0 : f->decimals, RT__LOOK_PLAIN);
		col++;
	}
	rt__said(sheet->book);
}

void rt__write_entries(struct rt__sheet *sheet, const struct rt__marks *marks, size_t n)
{
	lxw_row_t row = HEAD_ROW;
	lxw_col_t columns = write_heads(sheet);

	for (size_t c = 0; c < n; c++)
		for (size_t i = 0; i < marks[c].entries; i++)
			write_entry(sheet, ++row, &marks[c], i);
	rt__check(sheet->book,
		  worksheet_autofilter(sheet->at, HEAD_ROW, 0, row, (lxw_col_t)(columns - 1)));
	rt__sheet_freeze(sheet, HEAD_ROW + 1, HELD_COLUMNS);
	rt__sheet_repeat(sheet, HEAD_ROW, HEAD_ROW);
	rt__sheet_end(sheet);
}
