/* Sheets of the workbook: their names, their set-up for screen and paper.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <stdlib.h>
#include <string.h>

#include "workbook_internal.h"

#define HEAD_CHARACTERS 60 /* of each part of a page head: twice as many with && stay below 255 */
#define PAPER_A4	9
#define LONG_INCHES	11.69 /* its sides */
#define SHORT_INCHES	8.27
#define SIDE_INCHES	0.5 /* margins */
#define TOP_INCHES	0.8
#define FOOT_INCHES	0.7
#define INCH		72.0 /* points */
#define FREE_CELLS	1.2  /* beside what a column's cells need */

/* ---- names ---- */

/* Whether a formula may not need quotes around it. */
static bool is_plain(const char *name)
{
	return name[strspn(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
				 "0123456789_.")] == '\0';
}

/* The name without what the format forbids, behind the prefix where it needs that. */
static const char *allowed(struct rt__book *book, const char *prefix, const char *name)
{
	char *s;
	size_t n;

	if (!name || !*name)
		name = "Sheet";
	name = rt__legible(book, name);
	n = strlen(name);
	s = rt__take(book, n + 1);
	if (!s)
		return "Sheet";
	for (size_t i = 0; i < n; i++) {
		bool edge = i == 0 || i == n - 1;
		bool bad = strchr("[]:*?/\\", name[i]) || (unsigned char)name[i] < ' ' ||
			   (edge && name[i] == '\'');

		s[i] = bad ? '-' : name[i];
	}
	return prefix && is_plain(s) ? rt__say(book, "%s%s", prefix, s) : s;
}

/* Whether nobody has this name; then it is taken. */
static bool take_name(struct rt__book *book, const char *name)
{
	bool nomem = false, free_so_far;
	char *folded = rt_fold(name);

	if (!folded) {
		rt__check(book, LXW_ERROR_MEMORY_MALLOC_FAILED);
		return true;
	}
	free_so_far = rt_map_put(&book->names, folded, 0, &nomem) == RT_MAP_NONE;
	free(folded);
	if (nomem)
		rt__check(book, LXW_ERROR_MEMORY_MALLOC_FAILED);
	return free_so_far;
}

/* The name itself, or with " 2", " 3"... behind. */
static void choose_name(struct rt__sheet *sheet, const char *name)
{
	char number[24] = "";

	for (size_t i = 2;; i++) {
		size_t n = rt__cut(name, RT__SHEET_NAME - strlen(number));

		snprintf(sheet->name, sizeof sheet->name, "%.*s%s", (int)n, name, number);
		if (take_name(sheet->book, sheet->name))
			break;
		snprintf(number, sizeof number, " %zu", i);
	}
}

/* The name as a formula writes it: 'It''s P1'! */
static void quote_name(struct rt__sheet *sheet)
{
	char *out = sheet->quoted;

	*out++ = '\'';
	for (const char *s = sheet->name; *s; s++) {
		if (*s == '\'')
			*out++ = '\'';
		*out++ = *s;
	}
	memcpy(out, "'!", sizeof "'!");
}

/* ---- paper ---- */

/* A part of a page's head or foot: & begins a code there, and the length is limited. */
static void add_part(struct rt__book *book, char *out, size_t size, const char *code, const char *s)
{
	size_t at = strlen(out), n;

	s = rt__legible(book, s);
	n = rt__cut(s, HEAD_CHARACTERS);
	at += (size_t)snprintf(out + at, size - at, "%s", code);
	for (size_t i = 0; i < n && at + 3 < size; i++) {
		if (s[i] == '&')
			out[at++] = '&';
		out[at++] = (unsigned char)s[i] < ' ' ? ' ' : s[i];
	}
	out[at] = '\0';
}

static void set_page(struct rt__sheet *sheet, const char *right)
{
	struct rt__book *book = sheet->book;
	const struct rt_workbook *of = book->of;
	char head[HEAD_CHARACTERS * 16] = "", foot[HEAD_CHARACTERS * 16] = "";

	add_part(book, head, sizeof head, "&L", of->title ? of->title : "");
	add_part(book, head, sizeof head, "&R", right ? right : sheet->name);
	add_part(book, foot, sizeof foot, "&LMade ", of->when ? of->when : "");
	add_part(book, foot, sizeof foot, "&RPage &P of &N", "");
	worksheet_set_landscape(sheet->at);
	worksheet_set_paper(sheet->at, PAPER_A4);
	worksheet_fit_to_pages(sheet->at, 1, 0);
	worksheet_set_margins(sheet->at, SIDE_INCHES, SIDE_INCHES, TOP_INCHES, FOOT_INCHES);
	rt__check(book, worksheet_set_header(sheet->at, head));
	rt__check(book, worksheet_set_footer(sheet->at, foot));
}

/* ---- sheets ---- */

void rt__sheet_add(struct rt__sheet *sheet, struct rt__book *book, const char *prefix,
		   const char *name, const char *right)
{
	memset(sheet, 0, sizeof *sheet);
	sheet->book = book;
	sheet->number = book->put.n;
	if (!RT_LIST_ADD(&book->put))
		rt__check(book, LXW_ERROR_MEMORY_MALLOC_FAILED);
	choose_name(sheet, allowed(book, prefix, name));
	quote_name(sheet);
	sheet->at = workbook_add_worksheet(book->file, sheet->name);
	if (sheet->at)
		set_page(sheet, right);
	else
		rt__check(book, LXW_ERROR_SHEETNAME_ALREADY_USED);
}

void rt__sheet_freeze(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col)
{
	worksheet_freeze_panes(sheet->at, row, col);
}

void rt__sheet_repeat(struct rt__sheet *sheet, lxw_row_t first, lxw_row_t last)
{
	rt__check(sheet->book, worksheet_repeat_rows(sheet->at, first, last));
}

double rt__sheet_page_height(const struct rt__sheet *sheet)
{
	double height = (SHORT_INCHES - TOP_INCHES - FOOT_INCHES) * INCH, breadth = 0, room;

	/* a cell of the usual font has 7 pixels, a column 5 more; a pixel is 3/4 point */
	for (lxw_col_t col = 0; col < RT__WIDTHS; col++)
		if (sheet->width[col] > 0)
			breadth += (7 * ((double)sheet->width[col] + FREE_CELLS) + 5) * 0.75;
	room = (LONG_INCHES - 2 * SIDE_INCHES) * INCH;
	return breadth > room ? height * breadth / room : height;
}

void rt__sheet_end(struct rt__sheet *sheet)
{
	for (lxw_col_t col = 0; col < RT__WIDTHS; col++)
		if (sheet->width[col] > 0)
			rt__check(sheet->book,
				  worksheet_set_column(sheet->at, col, col,
						       (double)sheet->width[col] + FREE_CELLS,
						       NULL));
}
