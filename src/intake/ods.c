/* A sheet of an .ods workbook as lines of CSV.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "sheet_xml.h"

#include <stdlib.h>
#include <string.h>

#define OFFICE "opendocument:xmlns:office"
#define TABLE  "opendocument:xmlns:table"
#define TEXT   "opendocument:xmlns:text"

struct ods {
	struct rt_strings sheets; /* their names, in the arena */
	struct rt_arena *arena;
	bool found;  /* the sheet was there */
	bool inside; /* it is open */
	long row, row_times;
	size_t column, column_times;
	int beside; /* how many elements are open of a note on a cell */
	bool in_cell, formula, error;
	char type[16], value[RT__CELL_SIZE];
	bool has_text; /* a paragraph ended in the cell */
};

static long times_of(const char **attributes, const char *name, long most)
{
	const char *times = rt__attribute(attributes, TABLE, name);
	long n = times ? strtol(times, NULL, 10) : 1;

	return n < 1 ? 1 : n > most ? most : n;
}

static void open_table(struct rt__book *b, struct ods *o, const char **attributes)
{
	const char *sheet = rt__attribute(attributes, TABLE, "name");
	const char *kept = rt_arena_string(&o->arena, sheet ? sheet : "");
	const char **slot = RT_LIST_ADD(&o->sheets);

	b->nomem |= !kept || !slot;
	if (slot)
		*slot = kept;
	o->inside = kept && !o->found && rt__is_wanted(b, kept, o->sheets.n - 1);
	o->found |= o->inside;
}

static void open_cell(struct rt__book *b, struct ods *o, const char **attributes)
{
	static const char *const kept[] = {"value", "date-value", "time-value", "boolean-value"};
	const char *type = rt__attribute(attributes, OFFICE, "value-type");
	const char *wrong = rt__attribute(attributes, "calcext", "value-type");

	o->in_cell = true;
	o->has_text = false;
	o->column_times = (size_t)times_of(attributes, "number-columns-repeated",
					   RT__SHEET_COLUMNS);
	o->formula = rt__attribute(attributes, TABLE, "formula");
	o->error = wrong && strcmp(wrong, "error") == 0;
	snprintf(o->type, sizeof o->type, "%s", type ? type : "");
	*o->value = '\0';
	for (size_t i = 0; i < RT__COUNT(kept); i++) {
		const char *value = rt__attribute(attributes, OFFICE, kept[i]);

		if (value)
			snprintf(o->value, sizeof o->value, "%s", value);
	}
	b->text.n = 0;
}

/* Spaces, tabs and line ends inside a paragraph are elements. */
static void open_in_text(struct rt__book *b, const char *name, const char **attributes)
{
	bool spaces = strcmp(name, "s") == 0;

	if (spaces || strcmp(name, "tab") == 0 || strcmp(name, "line-break") == 0)
		for (long n = spaces ? times_of(attributes, "c", 80) : 1; n > 0; n--)
			rt__text_add(b, &b->text, " ", 1);
}

static void open_element(struct rt__book *b, const char *space, const char *name,
			 const char **attributes)
{
	struct ods *o = b->self;

	if (o->beside || (o->in_cell && strcmp(name, "annotation") == 0)) {
		o->beside++;
		b->keep_text = false;
	} else if (strstr(space, TABLE) && strcmp(name, "table") == 0) {
		open_table(b, o, attributes);
	} else if (!o->inside) {
		return;
	} else if (strcmp(name, "table-row") == 0) {
		o->row_times = times_of(attributes, "number-rows-repeated", RT__SHEET_ROWS);
		o->column = 0;
	} else if (strcmp(name, "table-cell") == 0 || strcmp(name, "covered-table-cell") == 0) {
		open_cell(b, o, attributes);
	} else if (o->in_cell && strstr(space, TEXT) && strcmp(name, "p") == 0) {
		if (o->has_text)
			rt__text_add(b, &b->text, " ", 1);
		b->keep_text = true;
	} else if (o->in_cell && b->keep_text) {
		open_in_text(b, name, attributes);
	}
}

/* Hours of PT33H30M00S, and what follows them, as a part of a day. */
static double days_of_time(const char *s)
{
	double days = 0;
	char *end;

	for (s += strspn(s, "PT"); *s; s = end + (*end != '\0')) {
		double v = strtod(s, &end);

		if (end == s)
			break;
		days += v / (*end == 'H' ? 24 : *end == 'M' ? 1440 : *end == 'S' ? RT_DAY_S : 1);
	}
	return days;
}

/* "2026-05-09T09:30:00" as a day and a time, without seconds and midnight that are not meant. */
static void date_text(const char *s, char out[RT__CELL_SIZE])
{
	snprintf(out, RT__CELL_SIZE, "%.19s", s);
	if (strlen(out) < 19)
		return;
	out[10] = ' ';
	if (strcmp(out + 11, "00:00:00") == 0)
		out[10] = '\0';
	else if (strcmp(out + 16, ":00") == 0)
		out[16] = '\0';
}

static const char *text_of_cell(const struct rt__book *b, const struct ods *o,
				char out[RT__CELL_SIZE])
{
	bool percent = strcmp(o->type, "percentage") == 0;
	double v;

	if (strcmp(o->type, "date") == 0)
		date_text(o->value, out);
	else if (strcmp(o->type, "time") == 0)
		rt__moment_text(days_of_time(o->value), false, out);
	else if (strcmp(o->type, "boolean") == 0)
		return strcmp(o->value, "true") == 0 ? "yes" : "no";
	else if (*o->value && rt_parse_real(o->value, &v))
		rt__number_text(percent ? v * 100 : v, out);
	else
		return rt__text_of(&b->text);
	return out;
}

static void close_cell(struct rt__book *b, struct ods *o)
{
	char made[RT__CELL_SIZE];
	const char *s = text_of_cell(b, o, made);

	if (o->error)
		rt__cell_fault(b, o->row + 1, o->column, "its formula ends in an error: a value");
	else if (o->formula && !*o->type)
		rt__cell_fault(b, o->row + 1, o->column,
			       "a formula whose value was not kept: open and save it in a "
			       "spreadsheet, or type the value");
	else if (*s)
		for (size_t i = 0; i < o->column_times; i++)
			rt__put_cell(b, o->column + i, s);
	o->column += o->column_times;
	o->in_cell = false;
}

static void close_element(struct rt__book *b, const char *name)
{
	struct ods *o = b->self;

	if (o->beside) {
		o->beside--;
	} else if (strcmp(name, "table") == 0) {
		o->inside = false;
	} else if (o->inside && strcmp(name, "table-row") == 0) {
		rt__end_row(b, o->row + 1, o->row_times);
		o->row += o->row_times;
	} else if (o->in_cell && strcmp(name, "p") == 0) {
		b->keep_text = false;
		o->has_text = true;
	} else if (o->in_cell &&
		   (strcmp(name, "table-cell") == 0 || strcmp(name, "covered-table-cell") == 0)) {
		close_cell(b, o);
	}
}

bool rt__ods_lines(struct rt__book *b, char names[RT_LISTED_SIZE], size_t *sheets)
{
	struct ods o = {.row = 0};
	bool found;

	rt__part_read(b, "content.xml", &(struct rt__part){open_element, close_element}, &o);
	rt_list_names(o.sheets.at, o.sheets.n, names);
	*sheets = o.sheets.n;
	found = o.found;
	RT_LIST_FREE(&o.sheets);
	rt_arena_free(o.arena);
	return found;
}
