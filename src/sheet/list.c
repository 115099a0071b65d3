/* Papers that are lists: tables with their heads on every page, rows never parted, headings never
 * left alone at the foot.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define GAP_MM	    2.5 /* between columns */
#define ROW_GAP_MM  1.4 /* under a row, its rule in the middle */
#define BOX_MM	    7.0 /* a row with boxes is as high */
#define BAR_MM	    2.5 /* from a bar in the margin to the row beside it */
#define COLUMNS_MAX 16
#define WORD_BYTES  512

static const struct rt_pen bar = {.width_mm = 1.0, .stroke = RT_INK_BLACK};

/* A table as it is set: which cells its columns take, and where they stand. */
struct set {
	struct rt_sheet *sheet;
	const struct rt_table *table;
	const struct rt__list_view *view;
	struct rt_area room;
	size_t columns;
	const struct rt__list_column *below, *whole; /* NULL: none */
	struct rt__list_said said;
	const struct rt__list_column *column[COLUMNS_MAX];
	size_t cell[COLUMNS_MAX]; /* in the table; SIZE_MAX: a box */
	double left[COLUMNS_MAX], width[COLUMNS_MAX];
	double top; /* of what comes next */
	bool feet;
};

/* ---- cells ----------------------------------------------------------------------------------- */

size_t rt__column_named(const struct rt_table *t, const char *name)
{
	for (size_t i = 0; i < t->columns; i++)
		if (strcmp(t->column[i].name, name) == 0)
			return i;
	return SIZE_MAX;
}

/* "K 23.45 m 76 ft 11 in", which is to break between the two lengths. */
static const char *tape_words(const char *letter, const struct rt_value *length,
			      char buf[RT__COLUMN_BYTES])
{
	static const char no_break[] = "\302\240";
	char feet[32];

	if (length->null)
		return "out of reach";
	rt_format_feet(length->as.real, feet, sizeof feet);
	*buf = '\0';
	rt__add_words(buf, RT__COLUMN_BYTES, "%s%s%s%sm ", letter, no_break,
		      rt_show_real(length->as.real, 2).text, no_break);
	for (const char *c = feet; *c; c++)
		rt__add_words(buf, RT__COLUMN_BYTES, "%.*s", *c == ' ' ? 2 : 1,
			      *c == ' ' ? no_break : c);
	return buf;
}

const char *rt__column_words(const struct rt_table *t, size_t row, const char *name, bool feet,
			     char out[RT__COLUMN_BYTES])
{
	size_t cell = name ? rt__column_named(t, name) : SIZE_MAX;

	if (cell == SIZE_MAX)
		return "";
	return rt_value_words(&t->column[cell], rt_table_cell(t, row, cell), feet, out,
			      RT__COLUMN_BYTES);
}

/* The words of a column in a row: the table's, or in buf. */
static const char *cell_words(const struct set *s, size_t row, size_t i, char buf[RT__COLUMN_BYTES])
{
	const struct rt__list_column *column = s->column[i];
	const struct rt_table *t = s->table;
	const char *words;
	char other[RT__COLUMN_BYTES];

	if (column->counted) {
		snprintf(buf, RT__COLUMN_BYTES, "%zu", row + 1);
		return buf;
	}
	if (column->letter)
		return tape_words(
			rt_table_cell(t, row, rt__column_named(t, column->letter))->as.text,
			rt_table_cell(t, row, s->cell[i]), buf);
	words = rt__column_words(s->table, row, column->name, s->feet, buf);
	if (column->unless &&
	    strcmp(words, rt__column_words(s->table, row, column->unless, s->feet, other)) == 0)
		return "";
	return words;
}

static bool is_empty(const struct set *s, size_t i)
{
	char buf[RT__COLUMN_BYTES];

	for (size_t row = 0; row < rt_table_rows(s->table); row++)
		if (*cell_words(s, row, i, buf))
			return false;
	return true;
}

/* Take the columns that are there; one that is empty in every row is left out where it may be. */
static void take_columns(struct set *s)
{
	for (size_t i = 0; i < s->view->columns && s->columns < COLUMNS_MAX; i++) {
		const struct rt__list_column *column = &s->view->column[i];

		if (column->below)
			s->below = column;
		if (column->whole)
			s->whole = column;
		if (column->below || column->whole)
			continue;
		s->column[s->columns] = column;
		s->cell[s->columns] = column->name ? rt__column_named(s->table, column->name)
						   : SIZE_MAX;
		if (column->if_any && is_empty(s, s->columns))
			continue;
		s->columns++;
	}
}

/* ---- widths ---------------------------------------------------------------------------------- */

static double words_width(const struct set *s, const char *words)
{
	return rt_sheet_measure(s->sheet, words, &rt__type).width_mm;
}

/* How wide the longest word is. */
static double longest_word(const struct set *s, const char *words)
{
	double most = 0.0;
	char word[WORD_BYTES];

	while (*words) {
		size_t n = strcspn(words, " ");

		n = n < sizeof word ? n : sizeof word - 1;
		memcpy(word, words, n);
		word[n] = '\0';
		most = fmax(most, words_width(s, word));
		words += n;
		words += strspn(words, " ");
	}
	return most;
}

/* What a column would take on one line, and what it needs at least. */
static void want(const struct set *s, size_t i, double *natural, double *least)
{
	char buf[RT__COLUMN_BYTES];

	*least = longest_word(s, s->column[i]->head);
	*natural = *least;
	if (s->cell[i] == SIZE_MAX && !s->column[i]->counted) {
		*natural = *least = fmax(*least, s->column[i]->box_mm);
		return;
	}
	for (size_t row = 0; row < rt_table_rows(s->table); row++) {
		const char *words = cell_words(s, row, i, buf);

		*natural = fmax(*natural, words_width(s, words));
		*least = fmax(*least, s->column[i]->anchor == RT_ANCHOR_RIGHT
					      ? words_width(s, words)
					      : longest_word(s, words));
	}
	if (s->column[i]->most_mm > 0.0)
		*natural = fmax(*least, fmin(*natural, s->column[i]->most_mm));
}

static double sum_of(const double *x, size_t n)
{
	double sum = 0.0;

	for (size_t i = 0; i < n; i++)
		sum += x[i];
	return sum;
}

/* Widths under a common limit, but never less than each needs; the limit is found by halving. */
static void level_out(struct set *s, const double *natural, const double *least, double have)
{
	double low = 0.0, high = have;

	for (int i = 0; i < 40; i++) {
		double limit = (low + high) / 2.0;

		for (size_t k = 0; k < s->columns; k++)
			s->width[k] = fmin(natural[k], fmax(least[k], limit));
		if (sum_of(s->width, s->columns) > have)
			high = limit;
		else
			low = limit;
	}
}

static void place_columns(struct set *s)
{
	static const double nothing[COLUMNS_MAX];
	double natural[COLUMNS_MAX], least[COLUMNS_MAX], left = s->room.left_mm;
	double have = s->room.right_mm - left - GAP_MM * (double)(s->columns - 1);

	for (size_t i = 0; i < s->columns; i++)
		want(s, i, &natural[i], &least[i]);
	/* where words are too long for the page, the widest columns give way, and the setter of
	 * lines cuts the words */
	if (sum_of(least, s->columns) > have)
		level_out(s, least, nothing, have);
	else
		level_out(s, natural, least, have);
	for (size_t i = 0; i < s->columns; i++) {
		s->left[i] = left;
		left += s->width[i] + GAP_MM;
	}
}

/* ---- rows ------------------------------------------------------------------------------------ */

static double set_cell(const struct set *s, size_t i, const char *role, const char *words,
		       double top, bool draw)
{
	struct rt_lettering lettering = rt__type;
	double left = s->left[i];

	lettering.anchor = s->column[i]->anchor;
	if (lettering.anchor == RT_ANCHOR_RIGHT)
		left += s->width[i];
	else if (lettering.anchor == RT_ANCHOR_MIDDLE)
		left += s->width[i] / 2.0;
	/* a hair more than measured, so that what fits is not broken by rounding */
	return rt__set_lines(s->sheet, role, words, left, top, s->width[i] + 0.01, &lettering,
			     draw);
}

/* Has the row a box in this column? */
static bool has_box(const struct set *s, size_t row, size_t i)
{
	const char *with = s->column[i]->with;
	size_t beside = with ? rt__column_named(s->table, with) : SIZE_MAX;

	if (s->cell[i] != SIZE_MAX || s->column[i]->counted)
		return false;
	return beside == SIZE_MAX || !rt_table_cell(s->table, row, beside)->null;
}

/* What stands below the others of its row, from the first column of words on. */
static double set_below(const struct set *s, const char *role, const char *words, double top,
			bool draw)
{
	size_t i = 0;

	while (i + 1 < s->columns && s->column[i]->anchor == RT_ANCHOR_RIGHT)
		i++;
	return rt__set_lines(s->sheet, role, words, s->left[i], top, s->room.right_mm - s->left[i],
			     &rt__type, draw);
}

static void draw_box(const struct set *s, size_t i, double top, double height)
{
	const struct rt_area box = {s->left[i], top, s->left[i] + s->width[i], top + height};

	rt_sheet_rectangle(s->sheet, "box", &rt__thin, &box);
}

static double set_cells(const struct set *s, size_t row, bool draw)
{
	double height = RT__LINE_MM;
	char buf[RT__COLUMN_BYTES];

	for (size_t i = 0; i < s->columns; i++) {
		height = fmax(height,
			      set_cell(s, i, "cell", cell_words(s, row, i, buf), s->top, draw));
		if (has_box(s, row, i))
			height = fmax(height, BOX_MM);
	}
	if (s->below)
		height += set_below(s, "cell",
				    rt__column_words(s->table, row, s->below->name, s->feet, buf),
				    s->top + height, draw);
	for (size_t i = 0; draw && i < s->columns; i++)
		if (has_box(s, row, i))
			draw_box(s, i, s->top, height);
	return height;
}

/* A row at s->top; the height it takes. */
static double set_row(const struct set *s, size_t row, bool draw)
{
	char buf[RT__COLUMN_BYTES];
	const char *whole = s->whole ? rt__column_words(s->table, row, s->whole->name, s->feet, buf)
				     : "";
	double left = s->room.left_mm, rule, height;

	if (*whole)
		height = rt__set_lines(s->sheet, "cell", whole, left, s->top,
				       s->room.right_mm - left, &rt__type, draw);
	else
		height = set_cells(s, row, draw);
	rule = s->top + height + ROW_GAP_MM / 2.0;
	if (draw)
		rt_sheet_segment(s->sheet, "rule", &rt__thin, left, rule, s->room.right_mm, rule);
	if (draw && s->said.marked && s->said.marked[row])
		rt_sheet_segment(s->sheet, "bar", &bar, left - BAR_MM, s->top, left - BAR_MM,
				 s->top + height);
	return height + ROW_GAP_MM;
}

/* The heads of the columns at s->top; the height they take. */
static double set_heads(const struct set *s, bool draw)
{
	double height = 0.0;

	for (size_t i = 0; i < s->columns; i++)
		height = fmax(height, set_cell(s, i, "head", s->column[i]->head, s->top, draw));
	if (s->below)
		height += set_below(s, "head", s->below->head, s->top + height, draw);
	height += 0.6;
	if (draw)
		rt_sheet_segment(s->sheet, "rule", &rt__thick, s->room.left_mm, s->top + height,
				 s->room.right_mm, s->top + height);
	return height + 1.0;
}

static double set_heading(const struct set *s, const char *more, bool draw)
{
	char words[WORD_BYTES];

	if (s->view->untitled)
		return 0.0;
	snprintf(words, sizeof words, "%s%s", s->table->title, more);
	return rt__set_lines(s->sheet, "heading", words, s->room.left_mm, s->top,
			     s->room.right_mm - s->room.left_mm, &rt__head_type, draw) +
	       1.0;
}

/* What stands between the heading and the rows. */
static double set_lead(const struct set *s, bool draw)
{
	if (!s->said.lead)
		return 0.0;
	return rt__set_lines(s->sheet, "note", s->said.lead, s->room.left_mm, s->top,
			     s->room.right_mm - s->room.left_mm, &rt__type, draw) +
	       1.0;
}

static void new_page(struct set *s)
{
	rt_sheet_page(s->sheet);
	s->top = s->room.top_mm;
}

/* Heading and heads at the top of a new page. */
static void next_page(struct set *s)
{
	new_page(s);
	s->top += set_heading(s, ", continued", true);
	s->top += set_heads(s, true);
}

static enum rt_err set_rows(struct set *s, struct rt_error *err)
{
	for (size_t row = 0; row < rt_table_rows(s->table); row++) {
		if (s->top + set_row(s, row, false) > s->room.bottom_mm)
			next_page(s);
		if (s->top + set_row(s, row, false) > s->room.bottom_mm)
			return rt_fail(err, RT_E_INPUT, "a row of \"%s\" fills more than a page",
				       s->table->title);
		s->top += set_row(s, row, true);
	}
	return RT_OK;
}

/* ---- tables and what is said under them ------------------------------------------------------ */

/* Go on at the top of a new page unless so much room is left, or this one is empty yet. */
static void need(struct set *s, double height)
{
	if (s->top + height > s->room.bottom_mm && s->top > s->room.top_mm)
		new_page(s);
}

/* Words over the whole width, kept together. */
static void set_words(struct set *s, const char *words)
{
	double width = s->room.right_mm - s->room.left_mm;

	need(s, rt__set_lines(s->sheet, "note", words, 0.0, 0.0, width, &rt__type, false));
	s->top += rt__set_lines(s->sheet, "note", words, s->room.left_mm, s->top, width, &rt__type,
				true);
}

/* A heading stands with its heads and two rows at least, else on the next page. */
static void begin_table(struct set *s)
{
	double least = set_heading(s, "", false) + set_lead(s, false) + set_heads(s, false);

	for (size_t row = 0; row < 2 && row < rt_table_rows(s->table); row++)
		least += set_row(s, row, false);
	need(s, least);
	s->top += set_heading(s, "", true);
	s->top += set_lead(s, true);
	if (rt_table_rows(s->table))
		s->top += set_heads(s, true);
}

static enum rt_err set_table(struct set *s, struct rt_error *err)
{
	enum rt_err e;

	s->columns = 0;
	s->below = s->whole = NULL;
	take_columns(s);
	place_columns(s);
	begin_table(s);
	e = set_rows(s, err);
	s->top += RT__LINE_MM;
	return e;
}

static void set_signature(struct set *s, const char *words)
{
	double line = s->room.left_mm + 90.0;

	need(s, 3.0 * RT__LINE_MM);
	s->top += 1.6 * RT__LINE_MM;
	rt_sheet_segment(s->sheet, "signature", &rt__thin, line, s->top + RT__LINE_MM,
			 s->room.right_mm, s->top + RT__LINE_MM);
	rt__set_lines(s->sheet, "signature", words, s->room.left_mm, s->top + 0.2 * RT__LINE_MM,
		      88.0, &rt__type, true);
}

/* How a table of that name is shown; NULL: not at all. */
static const struct rt__list_view *view_of(const struct rt__list_paper *paper, const char *table)
{
	for (size_t i = 0; i < paper->views; i++)
		if (strcmp(paper->view[i].table, table) == 0)
			return &paper->view[i];
	return NULL;
}

enum rt_err rt__list_pages(struct rt_sheet *sheet, const struct rt_area *room,
			   const struct rt__list_paper *paper, bool feet, struct rt_error *err)
{
	const struct rt_report *report = paper->report;
	struct set s = {.sheet = sheet, .room = *room, .feet = feet};
	enum rt_err e = rt_report_result(report, err);

	new_page(&s);
	for (size_t i = 0; i < report->tables && !e; i++) {
		s.table = report->table[i];
		s.view = view_of(paper, s.table->name);
		if (paper->said)
			s.said = paper->said[i];
		if (paper->new_pages)
			need(&s, INFINITY);
		if (s.view)
			e = set_table(&s, err);
	}
	for (size_t i = 0; i < report->notes && !e; i++)
		set_words(&s, report->note[i]);
	if (!e && paper->signature)
		set_signature(&s, paper->signature);
	return e;
}

enum rt_err rt__list(struct rt_sheet *out, const struct rt__list_paper *paper,
		     const struct rt_sheet_options *options, struct rt_error *err)
{
	struct rt__furniture furniture = {.band = paper->band,
					  .title = paper->title,
					  .line = {paper->line[0], paper->line[1], paper->line[2]}};
	int first = out->pages + 1;
	struct rt_area room;
	enum rt_err e = rt_sheet_begin(out, options->paper, paper->title, options->when, err);

	if (e)
		return e;
	room = rt__furniture_room(out, &furniture);
	e = rt__list_pages(out, &room, paper, options->feet, err);
	rt__furniture_draw(out, &furniture, first);
	return e ? e : rt_sheet_result(out, err);
}
