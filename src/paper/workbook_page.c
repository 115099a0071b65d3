/* A page of the workbook made from a report: its tables one below the other, then its notes.
 * Columns that are left out of text stand to the right of what is printed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "workbook_internal.h"

#define FROZEN_MOST 15 /* rows; more would leave no room on a screen */

/* A page as it grows. */
struct page {
	struct rt__sheet *sheet;
	lxw_row_t row;	 /* the next one */
	lxw_col_t shown; /* columns that are printed; the wide ones follow */
};

static bool is_number(const struct rt_field *c)
{
	enum rt_type type = rt_type_shown(c->type);

	return type == RT_INT || type == RT_REAL || type == RT_DECIMAL;
}

static void write_head(struct page *p, lxw_col_t col, const struct rt_field *c)
{
	const char *head = c->head ? c->head : c->name, *unit = rt__unit_beside(c, false);

	rt__put_head(p->sheet, p->row, col,
		     unit ? rt__say(p->sheet->book, "%s (%s)", head, unit) : head,
		     is_number(c) ? RT__LOOK_HEAD_OVER : RT__LOOK_HEAD);
}

static void write_value(struct page *p, lxw_col_t col, const struct rt_field *c,
			const struct rt_value *v)
{
	if (v->null)
		return;
	switch (rt_type_shown(c->type)) {
	default:
		rt__put(p->sheet, p->row, col, v->as.text, RT__LOOK_PLAIN);
		break;
	case RT_INT:
		rt__put_number(p->sheet, p->row, col, (double)v->as.whole, 0, RT__LOOK_PLAIN);
		break;
	case RT_REAL:
		rt__put_number(p->sheet, p->row, col, v->as.real, c->decimals, RT__LOOK_PLAIN);
		break;
	case RT_DECIMAL:
		rt__put_number(p->sheet, p->row, col, rt__number(v->as.whole, v->digits), v->digits,
			       RT__LOOK_PLAIN);
		break;
	case RT_BOOL:
		rt__put(p->sheet, p->row, col, v->as.truth ? "yes" : "no", RT__LOOK_PLAIN);
		break;
	}
}

/* Where the next column of a table goes: one that is printed, or a wide one. */
static lxw_col_t next_column(const struct rt_field *c, lxw_col_t *shown, lxw_col_t *wide)
{
	lxw_col_t *next = c->wide ? wide : shown;

	return (*next)++;
}

static void write_heads(struct page *p, const struct rt_table *t)
{
	lxw_col_t shown = 0, wide = p->shown;

	p->sheet->height = 0;
	for (size_t i = 0; i < t->columns; i++)
		write_head(p, next_column(&t->column[i], &shown, &wide), &t->column[i]);
	p->row++;
}

static void write_row(struct page *p, const struct rt_table *t, size_t row)
{
	lxw_col_t shown = 0, wide = p->shown;

	for (size_t i = 0; i < t->columns; i++)
		write_value(p, next_column(&t->column[i], &shown, &wide), &t->column[i],
			    rt_table_cell(t, row, i));
	p->row++;
}

/* Write a table and an empty row; returns the row of its heads. */
static lxw_row_t write_table(struct page *p, const struct rt_table *t)
{
	lxw_row_t heads;

	if (t->title)
		rt__put_loose(p->sheet, p->row++, 0, t->title, RT__LOOK_STRONG);
	heads = p->row;
	write_heads(p, t);
	for (size_t row = 0; row < rt_table_rows(t); row++)
		write_row(p, t, row);
	p->row++;
	return heads;
}

static size_t shown_columns(const struct rt_table *t)
{
	size_t n = 0;

	for (size_t i = 0; i < t->columns; i++)
		n += !t->column[i].wide;
	return n;
}

static lxw_col_t most_shown(const struct rt_report *report)
{
	size_t most = 1;

	for (size_t i = 0; i < report->tables; i++)
		if (shown_columns(report->table[i]) > most)
			most = shown_columns(report->table[i]);
	return (lxw_col_t)most;
}

/* Whether no other table of the report has more rows. */
static bool is_longest(const struct rt_report *report, size_t table)
{
	for (size_t i = 0; i < report->tables; i++)
		if (rt_table_rows(report->table[i]) > rt_table_rows(report->table[table]))
			return false;
	return true;
}

void rt__write_page(struct rt__sheet *sheet, const struct rt_workbook_page *page)
{
	const struct rt_report *report = page->report;
	struct page p = {.sheet = sheet, .row = 2, .shown = most_shown(report)};
	lxw_row_t heads = 0;

	rt__put_loose(sheet, 0, 0, page->title, RT__LOOK_TITLE);
	for (size_t i = 0; i < report->tables; i++)
		heads = write_table(&p, report->table[i]);
	for (size_t i = 0; i < report->notes; i++)
		rt__put_across(sheet, p.row++, 0, (lxw_col_t)(p.shown - 1), report->note[i]);
	/* the heads of the longest table go with it when nothing comes after it, on the screen only
	 * when they stand near the top: everything above them stays in sight too */
	if (report->tables > 0 && is_longest(report, report->tables - 1))
		rt__sheet_repeat(sheet, heads, heads);
	else
		heads = 0;
	rt__sheet_freeze(sheet, heads < FROZEN_MOST ? heads + 1 : 1, 0);
	rt__check(sheet->book,
		  worksheet_print_area(sheet->at, 0, 0, p.row, (lxw_col_t)(p.shown - 1)));
	rt__sheet_end(sheet);
	rt__said(sheet->book);
}
