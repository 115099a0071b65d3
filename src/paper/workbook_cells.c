/* Cells of the workbook: formats, text, numbers, formulas, and references to them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "workbook_internal.h"

#define FREE_SPACE    "_-" /* in a number format: the breadth of a dash stays free */
#define TURNED_POINTS 6.2  /* the height a character of a turned head takes */
#define TURNED_SPACE  8.0  /* and what stays free above and below */

void rt__check(struct rt__book *book, lxw_error failed)
{
	if (!book->failed)
		book->failed = failed;
}

void *rt__take(struct rt__book *book, size_t size)
{
	void *bytes = rt_arena_take(&book->text, size);

	if (!bytes)
		rt__check(book, LXW_ERROR_MEMORY_MALLOC_FAILED);
	return bytes;
}

const char *rt__say(struct rt__book *book, const char *fmt, ...)
{
	char most[256]; /* as long as most are */
	va_list args, again;
	char *s = NULL;
	int n;

	va_start(args, fmt);
	va_copy(again, args);
	n = vsnprintf(most, sizeof most, fmt, again);
	va_end(again);
	if (n >= 0)
		s = rt_arena_take(&book->said, (size_t)n + 1);
	if (!s)
		rt__check(book, LXW_ERROR_MEMORY_MALLOC_FAILED);
	else if ((size_t)n < sizeof most)
		memcpy(s, most, (size_t)n);
	else
		vsnprintf(s, (size_t)n + 1, fmt, args);
	va_end(args);
	return s ? s : "";
}

void rt__said(struct rt__book *book)
{
	rt_arena_free(book->said);
	book->said = NULL;
}

size_t rt__cut(const char *s, size_t units)
{
	size_t n = 0;

	while (s[n]) {
		size_t took = (unsigned char)s[n] >= 0xF0 ? 2 : 1, bytes = 1;

		if (took > units)
			break;
		units -= took;
		while (((unsigned char)s[n + bytes] & 0xC0) == 0x80)
			bytes++;
		n += bytes;
	}
	while (n > 0 && s[n - 1] == ' ')
		n--;
	return n;
}

const char *rt__legible(struct rt__book *book, const char *s)
{
	const char *clean = rt_clean(&book->said, s);

	if (clean && strlen(clean) > RT__CELL_TEXT)
		clean = rt_arena_copy(&book->said, clean, rt__cut(clean, RT__CELL_TEXT));
	if (!clean)
		rt__check(book, LXW_ERROR_MEMORY_MALLOC_FAILED);
	return clean ? clean : "";
}

/* ---- formats ---- */

static void set_look(lxw_format *f, enum rt__look look, bool number)
{
	switch (look) {
	case RT__LOOK_PLAIN:
	case RT__LOOKS:
		format_set_align(f, number ? LXW_ALIGN_RIGHT : LXW_ALIGN_LEFT);
		break;
	case RT__LOOK_WRAP:
		format_set_text_wrap(f);
		break;
	case RT__LOOK_TITLE:
		format_set_bold(f);
		format_set_font_size(f, 14);
		return;
	case RT__LOOK_OVER:
	case RT__LOOK_STRONG:
		format_set_bold(f);
		format_set_align(f, number || look == RT__LOOK_OVER ? LXW_ALIGN_RIGHT
								    : LXW_ALIGN_LEFT);
		break;
	case RT__LOOK_TURNED:
		format_set_rotation(f, 90);
		/* fall through */
	case RT__LOOK_HEAD:
	case RT__LOOK_HEAD_OVER:
	case RT__LOOK_HEAD_BOX:
		format_set_bold(f);
		format_set_text_wrap(f);
		format_set_align(f, look == RT__LOOK_HEAD	 ? LXW_ALIGN_LEFT
				    : look == RT__LOOK_HEAD_OVER ? LXW_ALIGN_RIGHT
								 : LXW_ALIGN_CENTER);
		format_set_align(f, LXW_ALIGN_VERTICAL_BOTTOM);
		format_set_bottom(f, LXW_BORDER_MEDIUM);
		return;
	case RT__LOOK_BOX:
		format_set_align(f, LXW_ALIGN_CENTER);
		/* fall through */
	case RT__LOOK_BOX_TEXT:
		format_set_border(f, LXW_BORDER_THIN);
		break;
	}
	format_set_align(f, LXW_ALIGN_VERTICAL_TOP);
}

/* So many decimals.  Outside of boxes there is some space to the right, so that a number keeps
 * off the text in the next column. */
static void set_decimals(lxw_format *f, int decimals, bool boxed)
{
	char format[32];

	rt_format_real(0, decimals, format, sizeof format);
	if (!boxed)
		memcpy(format + strlen(format), FREE_SPACE, sizeof FREE_SPACE);
	format_set_num_format(f, format);
}

static lxw_format *new_format(struct rt__book *book, enum rt__look look, bool number)
{
	lxw_format *f = workbook_add_format(book->file);

	if (!f) {
		rt__check(book, LXW_ERROR_MEMORY_MALLOC_FAILED);
		return NULL;
	}
	set_look(f, look, number);
	if (look == RT__LOOK_HEAD_OVER || look == RT__LOOK_OVER)
		format_set_num_format(f, "@" FREE_SPACE); /* stands over its numbers */
	return f;
}

lxw_format *rt__format(struct rt__book *book, enum rt__look look, int decimals)
{
	lxw_format **f;

	if (decimals < 0) {
		f = &book->words[look];
		if (!*f)
			*f = new_format(book, look, false);
		return *f;
	}
	if (decimals >= RT__DECIMALS)
		decimals = RT__DECIMALS - 1;
	f = &book->number[look][decimals];
	if (!*f) {
		*f = new_format(book, look, true);
		if (*f)
			set_decimals(*f, decimals, look == RT__LOOK_BOX);
	}
	return *f;
}

/* ---- text and numbers ---- */

size_t rt__tally_text(const char *s, size_t n)
{
	size_t count = 0;

	for (size_t i = 0; i < n; i++)
		count += (unsigned char)s[i] > ' ';
	return count;
}

/* So many cells are put that hold so much text in all. */
static void tally(struct rt__sheet *sheet, size_t cells, const char *text)
{
	struct rt__tallies *put = &sheet->book->put;

	if (sheet->number == put->n) /* memory was out */
		return;
	put->at[sheet->number].cells += cells;
	put->at[sheet->number].text += rt__tally_text(text, strlen(text));
}

void rt__sheet_widen(struct rt__sheet *sheet, lxw_col_t col, size_t cells)
{
	if (cells > RT__WIDEST)
		cells = RT__WIDEST;
	if (col < RT__WIDTHS && sheet->width[col] < cells)
		sheet->width[col] = cells;
}

void rt__put_loose(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *s,
		   enum rt__look look)
{
	lxw_format *f = rt__format(sheet->book, look, RT__TEXT_LOOK);

	s = s ? rt__legible(sheet->book, s) : NULL;
	tally(sheet, 1, s ? s : "");
	if (s)
		rt__check(sheet->book, worksheet_write_string(sheet->at, row, col, s, f));
	else
		rt__check(sheet->book, worksheet_write_blank(sheet->at, row, col, f));
}

void rt__put(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *s,
	     enum rt__look look)
{
	size_t cells = s ? rt_width(s) : 0;

	rt__sheet_widen(sheet, col, cells);
	if (look == RT__LOOK_PLAIN && cells > RT__WIDEST)
		look = RT__LOOK_WRAP;
	rt__put_loose(sheet, row, col, s, look);
}

/* How wide a number is with so many decimals. */
static size_t number_cells(double v, int decimals)
{
	int cells = 1 + (v < 0) + (decimals > 0) + decimals;

	for (v = fabs(v); v >= 10; v /= 10)
		cells++;
	return (size_t)cells;
}

void rt__put_number(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, double v, int decimals,
		    enum rt__look look)
{
	rt__sheet_widen(sheet, col, number_cells(v, decimals));
	tally(sheet, 1, "");
	rt__check(sheet->book, worksheet_write_number(sheet->at, row, col, v,
						      rt__format(sheet->book, look, decimals)));
}

/* How many lines s needs in so many cells. */
static size_t lines_of(struct rt__book *book, const char *s, size_t cells)
{
	const char *wrapped = rt__wrap(&book->text, s, cells, 0);
	size_t n = 1;

	if (!wrapped) {
		rt__check(book, LXW_ERROR_MEMORY_MALLOC_FAILED);
		return n;
	}
	while ((wrapped = strchr(wrapped, '\n'))) {
		wrapped++;
		n++;
	}
	return n;
}

/* Make the row of heads as tall as its tallest. */
static void raise(struct rt__sheet *sheet, lxw_row_t row, double height)
{
	if (height <= sheet->height)
		return;
	sheet->height = height;
	rt__check(sheet->book, worksheet_set_row(sheet->at, row, height, NULL));
}

void rt__put_head(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *s,
		  enum rt__look look)
{
	size_t cells = rt__widest_word(s) + 1; /* bold is wider */

	rt__sheet_widen(sheet, col, cells);
	raise(sheet, row, RT__ROW_POINTS * (double)lines_of(sheet->book, s, cells));
	rt__put_loose(sheet, row, col, s, look);
}

void rt__put_turned(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *s)
{
	raise(sheet, row, TURNED_POINTS * (double)rt_width(s) + TURNED_SPACE);
	rt__put_loose(sheet, row, col, s, RT__LOOK_TURNED);
}

void rt__put_across(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t first, lxw_col_t last,
		    const char *s)
{
	lxw_format *f = rt__format(sheet->book, RT__LOOK_WRAP, RT__TEXT_LOOK);
	size_t cells = 0;

	s = rt__legible(sheet->book, s);
	for (lxw_col_t col = first; col <= last && col < RT__WIDTHS; col++)
		cells += sheet->width[col] + 1;
	rt__check(sheet->book,
		  worksheet_set_row(sheet->at, row,
				    RT__ROW_POINTS * (double)lines_of(sheet->book, s, cells),
				    NULL));
	tally(sheet, (size_t)(last - first) + 1, s);
	if (last == first) {
		rt__check(sheet->book, worksheet_write_string(sheet->at, row, first, s, f));
		return;
	}
	if (sheet->number < sheet->book->put.n)
		sheet->book->put.at[sheet->number].merged++;
	rt__check(sheet->book, worksheet_merge_range(sheet->at, row, first, row, last, s, f));
}

/* ---- formulas ---- */

void rt__put_formula(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *formula,
		     double value, int decimals, enum rt__look look)
{
	rt__sheet_widen(sheet, col, number_cells(value, decimals));
	tally(sheet, 1, formula + 1); /* the equals sign is not written */
	rt__check(sheet->book,
		  worksheet_write_formula_num(sheet->at, row, col, formula,
					      rt__format(sheet->book, look, decimals), value));
}

void rt__put_formula_text(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col,
			  const char *formula, const char *value, int decimals, enum rt__look look)
{
	rt__sheet_widen(sheet, col, rt_width(value));
	value = rt__legible(sheet->book, value);
	tally(sheet, 1, formula + 1);
	tally(sheet, 0, value);
	rt__check(sheet->book,
		  worksheet_write_formula_str(sheet->at, row, col, formula,
					      rt__format(sheet->book, look, decimals), value));
}

void rt__put_formula_if(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col, const char *formula,
			bool there, double value, int decimals, enum rt__look look)
{
	if (there)
		rt__put_formula(sheet, row, col, formula, value, decimals, look);
	else
		rt__put_formula_text(sheet, row, col, formula, "", decimals, look);
}

double rt__number(int64_t units, int decimals)
{
	return (double)units / (double)rt_power_of_ten(decimals);
}

double rt__points(int64_t x100000, const struct rt_part *part)
{
	return ((double)x100000 + (part->den > 1 ? (double)part->num / (double)part->den : 0)) /
	       100000;
}

struct rt__ref rt__ref(lxw_row_t row, lxw_col_t col)
{
	struct rt__ref ref;

	lxw_rowcol_to_cell(ref.s, row, col);
	return ref;
}

struct rt__ref rt__ref_fixed(lxw_row_t row, lxw_col_t col)
{
	struct rt__ref ref;

	lxw_rowcol_to_cell_abs(ref.s, row, col, 1, 1);
	return ref;
}

struct rt__ref rt__ref_range(lxw_row_t row, lxw_col_t col, lxw_row_t last_row, lxw_col_t last_col)
{
	struct rt__ref ref;

	lxw_rowcol_to_range_abs(ref.s, row, col, last_row, last_col);
	return ref;
}

void rt__follow_words(struct rt__sheet *sheet, lxw_row_t row, lxw_col_t col,
		      const struct rt__marks *m, lxw_row_t from_row, lxw_col_t from,
		      const char *value)
{
	const char *formula = rt__say(sheet->book, "=%s%s&\"\"", m->sheet.quoted,
				      rt__ref_fixed(from_row, from).s);

	rt__put_formula_text(sheet, row, col, formula, value ? value : "", RT__TEXT_LOOK,
			     RT__LOOK_PLAIN);
}
