/* Rows of an import: put, or compared with what the show has already.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define SAID_SIZE 120

struct rt__origin rt__origin(const char *file, long line, const char *fmt, ...)
{
	struct rt__origin from = {.file = file ? file : "", .line = line};
	va_list args;

	va_start(args, fmt);
	vsnprintf(from.what, sizeof from.what, fmt, args);
	va_end(args);
	return from;
}

void rt__import_fault(struct rt__import *in, const struct rt__origin *from, const char *column,
		      const char *fmt, ...)
{
	char text[480];
	va_list args;

	va_start(args, fmt);
	vsnprintf(text, sizeof text, fmt, args);
	va_end(args);
	rt_fault(in->faults, from->file, from->line, column, "%s", text);
}

void rt__import_differs(struct rt__import *in, const struct rt__origin *from, const char *column,
			const char *fmt, ...)
{
	char how[200];
	va_list args;

	va_start(args, fmt);
	vsnprintf(how, sizeof how, fmt, args);
	va_end(args);
	rt__import_fault(in, from, column,
			 "%s is in the show already and differs, %s: what is in the show stays; "
			 "give %s, or make the show file anew",
			 from->what, how, in->rename);
}

/* ---- what is there --------------------------------------------------------------------------- */

static bool is_same(struct rt__rows *rows, int column, const struct rt__cell *cell)
{
	if (cell->null || rt__is_null_at(rows, column))
		return cell->null && rt__is_null_at(rows, column);
	switch (cell->type) {
	case RT__TEXT:
		return strcmp(rt__words_at(rows, column), cell->as.text) == 0;
	case RT__REAL:
		return rt__real_in(rows, column, -INFINITY, INFINITY) == cell->as.real;
	case RT__INT:
	case RT__BOOL:
		break;
	}
	return rt__int_at(rows, column) == cell->as.whole;
}

/* What the show has in a column, for a person. */
static void say(struct rt__rows *rows, int column, const struct rt__cell *cell, char out[SAID_SIZE])
{
	if (rt__is_null_at(rows, column)) {
		snprintf(out, SAID_SIZE, "empty");
		return;
	}
	switch (cell->type) {
	case RT__TEXT:
		snprintf(out, SAID_SIZE, "\"%s\"", rt__words_at(rows, column));
		break;
	case RT__REAL:
		rt_format_real(rt__real_in(rows, column, -INFINITY, INFINITY), 2, out, SAID_SIZE);
		break;
	case RT__INT:
		rt_format_decimal(rt__int_at(rows, column), cell->digits, out, SAID_SIZE);
		break;
	case RT__BOOL:
		snprintf(out, SAID_SIZE, "%s", rt__int_at(rows, column) ? "yes" : "no");
		break;
	}
}

enum rt_err rt__import_compare(struct rt__import *in, enum rt__sql there,
			       const struct rt__origin *from, size_t keys,
			       const struct rt__cell *cell, size_t n, enum rt__outcome *outcome)
{
	struct rt__rows rows = rt__open_rows(in->s, there, cell, keys, NULL, in->err);
	char said[SAID_SIZE];

	*outcome = RT__DIFFERS;
	if (!rt__next(&rows)) {
		if (!rows.rc)
			rt__import_differs(in, from, NULL, "not there");
		return rows.rc;
	}
	for (size_t i = keys; i < n; i++) {
		int column = (int)(i - keys);

		if (is_same(&rows, column, &cell[i]))
			continue;
		say(&rows, column, &cell[i], said);
		rt__import_differs(in, from, sqlite3_column_name(rows.q, column), "%s there is %s",
				   sqlite3_column_name(rows.q, column), said);
		goto done;
	}
	*outcome = RT__THERE;
done:
	rt__close_rows(&rows);
	return rows.rc;
}

enum rt_err rt__import_row(struct rt__import *in, enum rt__sql insert, enum rt__sql there,
			   const struct rt__origin *from, size_t keys, const struct rt__cell *cell,
			   size_t n, enum rt__outcome *outcome)
{
	enum rt_err rc = rt__run(in->s, insert, cell, n, in->err);

	*outcome = RT__ADDED;
	if (rc || sqlite3_changes(in->s->db) > 0)
		return rc;
	return rt__import_compare(in, there, from, keys, cell, n, outcome);
}

enum rt_err rt__import_name(struct rt__import *in, enum rt__sql known,
			    const struct rt__origin *from, const char *column, const char *name,
			    bool *missing)
{
	int64_t there = 1;
	enum rt_err rc;

	if (!name || !*name)
		return RT_OK;
	rc = rt__get_int(in->s, known, RT__CELLS(rt__text(name)), &there, NULL, in->err);
	if (rc || there)
		return rc;
	*missing = true;
	rt__import_fault(in, from, column, "there is no %s %s in the show: add it first", column,
			 name);
	return RT_OK;
}
