/* The report: tables of typed cells, and notes.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <ringtrue/report.h>

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct rt_table *rt_report_rows(struct rt_report *r, const struct rt_record *record)
{
	static struct rt_table lost; /* where rows go when memory is out */
	struct rt_table *t = rt_arena_take(&r->text, sizeof *t), **at = NULL;
	/* columns of its own: rt_table_show changes them */
	struct rt_field *column = rt_arena_take(&r->text, record->fields * sizeof *column);

	if (t && column)
		at = rt_list_add(&r->table, &r->tables, &r->table_cap, sizeof *r->table);
	if (!at) {
		r->nomem = true;
		return &lost;
	}
	*at = t;
	*t = (struct rt_table){.name = record->many,
			       .title = record->title,
			       .record = record,
			       .column = column,
			       .report = r};
	for (size_t i = 0; i < record->fields; i++) {
		char head[64];

		if (record->field[i].is & RT_UNSEEN)
			continue;
		*column = record->field[i];
		column->head = rt_arena_string(&r->text, rt_field_head(column, head));
		r->nomem |= !column->head;
		column++;
		t->columns++;
	}
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

/* The column of that name, to be changed; NULL in a lost table, which has none. */
static struct rt_field *own_column(struct rt_table *t, const char *name)
{
	for (size_t i = 0; i < t->columns; i++)
		if (strcmp(t->column[i].name, name) == 0)
			return &t->column[i];
	assert(!t->report);
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

void rt_put_row(struct rt_table *t, const void *row)
{
	char words[RT_OWN_SIZE];

	for (size_t i = 0; i < t->columns && !t->report->nomem; i++) {
		struct rt_value *v = rt_list_add(&t->cell, &t->cells, &t->cap, sizeof *t->cell);

		t->report->nomem = !v;
		if (v)
			*v = rt_field_value(t->record, &t->column[i], row, words);
		if (!v || v->null || rt_type_shown(t->column[i].type) != RT_TEXT)
			continue;
		v->as.text = rt_arena_string(&t->report->text, v->as.text);
		t->report->nomem = !v->as.text;
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
	return r->nomem ? rt_fail_nomem(err) : RT_OK;
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
