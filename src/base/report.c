/* The report: tables of typed cells, and notes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/report.h>

#include <assert.h>
#include <inttypes.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Where cells go when the report has no memory left for a table. */
static struct rt_table *lost_table(struct rt_report *r)
{
	static struct rt_table lost;

	r->nomem = true;
	return &lost;
}

struct rt_table *rt_report_table(struct rt_report *r, const char *name, const char *title,
				 const struct rt_field *column, size_t columns)
{
	struct rt_table **at = rt_list_add(&r->table, &r->tables, &r->table_cap, sizeof *r->table);
	struct rt_table *t = at ? rt_arena_take(&r->text, sizeof *t) : NULL;

	if (!t) {
		r->tables -= at != NULL;
		return lost_table(r);
	}
	*at = t;
	t->name = rt_arena_string(&r->text, name);
	t->title = rt_arena_string(&r->text, title);
	t->column = column;
	t->columns = columns;
	t->report = r;
	if (!t->name || (title && !t->title))
		r->nomem = true;
	return t;
}

struct rt_table *rt_report_rows(struct rt_report *r, const struct rt_record *record)
{
	/* columns of its own: rt_table_show changes them */
	struct rt_field *column = rt_arena_take(&r->text, record->fields * sizeof *column);
	struct rt_table *t;
	size_t n = 0;

	if (!column)
		return lost_table(r);
	for (size_t i = 0; i < record->fields; i++) {
		char head[64];

		if (record->field[i].is & RT_UNSEEN)
			continue;
		column[n] = record->field[i];
		column[n].head = rt_arena_string(&r->text, rt_field_head(&column[n], head));
		if (!column[n++].head)
			return lost_table(r);
	}
	t = rt_report_table(r, record->many, record->title, column, n);
	t->record = record;
	return t;
}

struct rt_table *rt_report_list(struct rt_report *r, const struct rt_record *record,
				const void *rows, size_t n)
{
	struct rt_table *t = rt_report_rows(r, record);

	for (size_t i = 0; i < n; i++)
		rt_put_row(t, (const char *)rows + i * record->size);
	return t;
}

/* The column of that name, to be changed: made in rt_report_rows.  NULL where there is none. */
static struct rt_field *own_column(struct rt_table *t, const char *name)
{
	size_t i = 0;

	if (!t->report)
		return NULL;
	while (i < t->columns && strcmp(t->column[i].name, name) != 0)
		i++;
	assert(t->record && i < t->columns);
	if (t->record && i < t->columns)
		return (struct rt_field *)&t->column[i];
	t->misused = true;
	return NULL;
}

void rt_table_show(struct rt_table *t, const char *column, bool shown)
{
	struct rt_field *own = own_column(t, column);

	if (own)
		own->wide = !shown;
}

void rt_table_head(struct rt_table *t, const char *column, const char *head)
{
	struct rt_field *own = own_column(t, column);

	if (own)
		own->head = head;
}

void rt_table_title(struct rt_table *t, const char *title)
{
	if (!t->report)
		return;
	t->title = rt_arena_string(&t->report->text, title);
	t->report->nomem |= !t->title;
}

void rt_table_main(struct rt_table *t)
{
	t->main = t->report != NULL;
}

const struct rt_table *rt_report_main(const struct rt_report *r)
{
	for (size_t i = 0; i < r->tables; i++)
		if (r->table[i]->main)
			return r->table[i];
	return r->tables ? r->table[0] : NULL;
}

const struct rt_table *rt_report_named(const struct rt_report *r, const char *name)
{
	for (size_t i = 0; i < r->tables; i++)
		if (strcmp(r->table[i]->name, name) == 0)
			return r->table[i];
	return NULL;
}

/* The type of the next cell. */
static enum rt_type next_type(const struct rt_table *t)
{
	return t->columns ? rt_type_shown(t->column[t->cells % t->columns].type) : RT_TEXT;
}

/* The next cell, for a value of that type, or NULL when it is lost. */
static struct rt_value *next_cell(struct rt_table *t, enum rt_type type)
{
	struct rt_value *v;

	if (!t->report || t->report->nomem) /* what is lost already is lost whole */
		return NULL;
	assert(next_type(t) == type);
	if (next_type(t) != type) {
		t->misused = true;
		return NULL;
	}
	v = rt_list_add(&t->cell, &t->cells, &t->cap, sizeof *t->cell);
	if (!v)
		t->report->nomem = true;
	return v;
}

void rt_put_text(struct rt_table *t, const char *s)
{
	struct rt_value *v = next_cell(t, RT_TEXT);

	if (!v)
		return;
	v->null = !s;
	v->as.text = rt_arena_string(&t->report->text, s);
	if (s && !v->as.text)
		t->report->nomem = v->null = true;
}

const char *rt_report_textf(struct rt_report *r, const char *fmt, ...)
{
	const char *s;
	va_list args;

	va_start(args, fmt);
	s = rt_arena_vtextf(&r->text, fmt, args);
	va_end(args);
	r->nomem |= !s;
	return s;
}

void rt_put_textf(struct rt_table *t, const char *fmt, ...)
{
	struct rt_value *v = next_cell(t, RT_TEXT);
	va_list args;

	if (!v)
		return;
	va_start(args, fmt);
	v->as.text = rt_arena_vtextf(&t->report->text, fmt, args);
	va_end(args);
	if (!v->as.text)
		t->report->nomem = v->null = true;
}

void rt_put_int(struct rt_table *t, int64_t whole)
{
	struct rt_value *v = next_cell(t, RT_INT);

	if (v)
		v->as.whole = whole;
}

void rt_put_real(struct rt_table *t, double real)
{
	struct rt_value *v = next_cell(t, RT_REAL);

	if (!v)
		return;
	v->null = !isfinite(real);
	v->as.real = real;
}

void rt_put_decimal(struct rt_table *t, int64_t units, int digits)
{
	struct rt_value *v = next_cell(t, RT_DECIMAL);

	if (!v)
		return;
	v->as.whole = units;
	v->digits = digits;
}

void rt_put_bool(struct rt_table *t, bool truth)
{
	struct rt_value *v = next_cell(t, RT_BOOL);

	if (v)
		v->as.truth = truth;
}

void rt_put_null(struct rt_table *t)
{
	struct rt_value *v = next_cell(t, next_type(t));

	if (v)
		v->null = true;
}

void rt_put_row(struct rt_table *t, const void *row)
{
	char words[RT_OWN_SIZE];

	if (!t->report || t->report->nomem)
		return;
	assert(t->record && t->cells % t->columns == 0);
	t->misused |= !t->record;
	if (!t->record)
		return;
	for (size_t i = 0; i < t->columns; i++) {
		struct rt_value value = rt_field_value(t->record, &t->column[i], row, words);
		struct rt_value *v = next_cell(t, rt_type_shown(t->column[i].type));

		if (!v)
			return;
		*v = value;
		if (value.null || rt_type_shown(t->column[i].type) != RT_TEXT)
			continue;
		v->as.text = rt_arena_string(&t->report->text, value.as.text);
		if (!v->as.text)
			t->report->nomem = v->null = true;
	}
}

size_t rt_table_rows(const struct rt_table *t)
{
	return t->columns ? t->cells / t->columns : 0;
}

const struct rt_value *rt_table_cell(const struct rt_table *t, size_t row, size_t column)
{
	return &t->cell[row * t->columns + column];
}

void rt_report_note(struct rt_report *r, const char *fmt, ...)
{
	const char *note, **at;
	va_list args;

	va_start(args, fmt);
	note = rt_arena_vtextf(&r->text, fmt, args);
	va_end(args);
	for (size_t i = 0; note && i < r->notes; i++)
		if (strcmp(r->note[i], note) == 0)
			return;
	at = note ? rt_list_add(&r->note, &r->notes, &r->note_cap, sizeof *r->note) : NULL;
	if (at)
		*at = note;
	else
		r->nomem = true;
}

enum rt_err rt_report_result(const struct rt_report *r, struct rt_error *err)
{
	if (r->nomem)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < r->tables; i++) {
		const struct rt_table *t = r->table[i];
		bool whole = t->columns ? t->cells % t->columns == 0 : !t->cells;

		assert(whole);
		if (!whole || t->misused)
			return rt_fail(err, RT_E_USAGE, "table %s is not whole", t->name);
	}
	return RT_OK;
}

void rt_report_free(struct rt_report *r)
{
	for (size_t i = 0; i < r->tables; i++)
		free(r->table[i]->cell);
	free(r->table);
	free(r->note);
	rt_arena_free(r->text);
	memset(r, 0, sizeof *r);
}

const char *rt_value_words(const struct rt_field *column, const struct rt_value *value, bool feet,
			   char *out, size_t size)
{
	if (!value->null && rt_type_shown(column->type) == RT_REAL) {
		if (feet && column->unit == RT_METRE)
			rt_format_feet(value->as.real, out, size);
		else if (feet && column->unit == RT_TAPED)
			snprintf(out, size, "%s", rt_show_taped(value->as.real, true).text);
		else
			rt_format_real(value->as.real, column->decimals, out, size);
		return out;
	}
	return rt_value_text(column, value, out, size);
}
