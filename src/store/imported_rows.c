/* Rows of an import: put, or compared with what the show has already.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#define TOLD_SIZE 120

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

/* What the show has in a field, for a person. */
static void tell_value(const struct rt_record *record, const struct rt_field *f, const void *row,
		       char out[TOLD_SIZE])
{
	char own[RT_OWN_SIZE], words[64];
	struct rt_value v = rt_field_value(record, f, row, own);
	enum rt_type shown = rt_type_shown(f->type);

	if (v.null)
		snprintf(out, TOLD_SIZE, "empty");
	else if (shown == RT_TEXT)
		snprintf(out, TOLD_SIZE, "\"%s\"", v.as.text);
	else if (shown == RT_REAL)
		rt_format_real(v.as.real, 2, out, TOLD_SIZE);
	else
		snprintf(out, TOLD_SIZE, "%s", rt_value_text(f, &v, words, sizeof words));
}

/* The first field of a statement's columns that a file has too and that differs, or NULL. */
static const struct rt_field *first_difference(const struct rt__statement *st, const void *row,
					       const void *has)
{
	for (int i = 0; i < sqlite3_column_count(st->q); i++) {
		const struct rt_field *f = st->column[i];

		if (f && rt_field_in_file(f) && !rt_field_same(st->record, f, row, has))
			return f;
	}
	return NULL;
}

enum rt_err rt__import_compare(struct rt__import *in, enum rt__sql there,
			       const struct rt__origin *from, const struct rt_record *record,
			       const void *row, const struct rt__cell *cell, size_t n,
			       enum rt__outcome *outcome)
{
	struct rt_arena *text = NULL;
	struct rt__rows rows = rt__open_rows_of(in->s, there, record, row, cell, n, &text, in->err);
	const struct rt_field *other;
	char told[TOLD_SIZE];
	void *has = malloc(record->size);

	*outcome = RT__DIFFERS;
	if (!has)
		rt__rows_nomem(&rows);
	if (rt__next(&rows)) {
		rt__read_row(&rows, record, has);
		rt__close_rows(&rows);
		other = rows.rc ? NULL : first_difference(rows.statement, row, has);
		if (other) {
			tell_value(record, other, has, told);
			rt__import_differs(in, from, other->name, "%s there is %s", other->name,
					   told);
		} else {
			*outcome = RT__THERE;
		}
	} else if (!rows.rc) {
		rt__import_differs(in, from, NULL, "not there");
	}
	free(has);
	rt_arena_free(text);
	return rows.rc;
}

enum rt_err rt__import_row(struct rt__import *in, enum rt__sql insert, enum rt__sql there,
			   const struct rt__origin *from, const struct rt_record *record,
			   const void *row, const struct rt__cell *cell, size_t n,
			   enum rt__outcome *outcome)
{
	enum rt_err rc = rt__run_row(in->s, insert, record, row, cell, n, in->err);

	*outcome = RT__ADDED;
	if (rc || sqlite3_changes(in->s->db) > 0)
		return rc;
	return rt__import_compare(in, there, from, record, row, cell, n, outcome);
}

enum rt_err rt__import_name(struct rt__import *in, enum rt__sql known,
			    const struct rt__origin *from, const char *column, const char *name,
			    bool *missing)
{
	bool there;
	enum rt_err rc;

	if (!name || !*name)
		return RT_OK;
	rc = rt__ask(in->s, known, RT__CELLS(rt__text(name)), &there, in->err);
	if (rc || there)
		return rc;
	*missing = true;
	rt__import_fault(in, from, column, "there is no %s %s in the show: add it first", column,
			 name);
	return RT_OK;
}
