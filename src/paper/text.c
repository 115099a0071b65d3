/* A report as aligned text: what fits the width is decided here, libsmartcols aligns it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <libsmartcols.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"

#define WIDTH	    80
#define GAP	    2 /* cells between two columns; 1 where that makes a line fit */
#define NARROWEST   6 /* no column of text is broken narrower than this */
#define NOTE_INDENT 2

/* A column as it is laid out. */
struct lane {
	size_t from;	     /* its place among the table's columns */
	bool right;	     /* numbers: against the right edge, never broken */
	size_t width, least; /* least: how far it may give way */
};

/* The cells of a table as text, the heads as row 0. */
struct grid {
	size_t rows, lanes, gap;
	size_t *tall; /* lines of each row */
	struct lane *lane;
	const char **cell;
	struct rt_arena *text; /* all of it */
};

static const char **cell_at(const struct grid *g, size_t row, size_t lane)
{
	return &g->cell[row * g->lanes + lane];
}

static const char *head_text(const struct rt_field *c, bool feet, char *buf, size_t size)
{
	const char *head = c->head ? c->head : c->name;
	const char *unit = rt__unit_beside(c, feet);

	if (!unit)
		return head;
	snprintf(buf, size, "%s (%s)", head, unit);
	return buf;
}

static bool fill_row(struct grid *g, const struct rt_table *t, size_t row, bool feet)
{
	char buf[512];

	for (size_t i = 0; i < g->lanes; i++) {
		const struct rt_field *c = &t->column[g->lane[i].from];
		const char *s = row == 0
					? head_text(c, feet, buf, sizeof buf)
					: rt_value_words(c,
							 rt_table_cell(t, row - 1, g->lane[i].from),
							 feet, buf, sizeof buf);

		/* wide enough for any line: one line, white space made plain */
		*cell_at(g, row, i) = rt__wrap(&g->text, s, SIZE_MAX, 0);
		if (!*cell_at(g, row, i))
			return false;
	}
	return true;
}

static bool grid_make(struct grid *g, const struct rt_table *t, bool feet)
{
	g->rows = rt_table_rows(t) + 1;
	g->lane = rt_arena_take(&g->text, (t->columns + 1) * sizeof *g->lane);
	if (!g->lane)
		return false;
	for (size_t i = 0; i < t->columns; i++) {
		enum rt_type type = rt_type_shown(t->column[i].type);

		if (t->column[i].wide)
			continue;
		g->lane[g->lanes].from = i;
		g->lane[g->lanes++].right = type != RT_TEXT && type != RT_BOOL;
	}
	g->cell = rt_arena_take(&g->text, (g->rows * g->lanes + 1) * sizeof *g->cell);
	if (!g->cell)
		return false;
	for (size_t row = 0; row < g->rows; row++)
		if (!fill_row(g, t, row, feet))
			return false;
	return true;
}

/* ---- widths ------------------------------------------------------------------------------ */

static size_t larger(size_t a, size_t b)
{
	return a > b ? a : b;
}

/* The cells of the widest value of a lane, and of what it can shrink to without breaking a word
 * (numbers are one word). */
static size_t widest_value(const struct grid *g, size_t lane, bool broken)
{
	size_t widest = 0;

	for (size_t row = 1; row < g->rows; row++) {
		const char *s = *cell_at(g, row, lane);

		widest = larger(widest,
				broken && !g->lane[lane].right ? rt__widest_word(s) : rt_width(s));
	}
	return widest;
}

static size_t line_width(const struct grid *g)
{
	size_t sum = (g->lanes - 1) * g->gap;

	for (size_t i = 0; i < g->lanes; i++)
		sum += g->lane[i].width;
	return sum;
}

/* How many more lines the rows take when a lane is a cell narrower; `narrow` notes them. */
static size_t narrowing(struct grid *g, size_t lane, bool narrow)
{
	size_t more = 0;

	for (size_t row = 0; row < g->rows; row++) {
		size_t n = rt__count_lines(*cell_at(g, row, lane), g->lane[lane].width - 1);

		if (n <= g->tall[row])
			continue;
		more += n - g->tall[row];
		if (narrow)
			g->tall[row] = n;
	}
	return more;
}

/* Take cells from lanes that are above their least, each from where it makes the table the
 * least longer (of several the widest), until the line fits. */
static void shrink(struct grid *g, size_t columns)
{
	for (size_t over = line_width(g); over > columns; over--) {
		size_t best = g->lanes, least_more = SIZE_MAX;

		for (size_t i = 0; i < g->lanes; i++) {
			const struct lane *l = &g->lane[i];
			size_t more = l->width > l->least ? narrowing(g, i, false) : SIZE_MAX;

			if (more < least_more || (more < SIZE_MAX && more == least_more &&
						  l->width > g->lane[best].width)) {
				best = i;
				least_more = more;
			}
		}
		if (best == g->lanes)
			return;
		(void)narrowing(g, best, true);
		g->lane[best].width--;
	}
}

/* Heads give way first, between their words; then the gaps; then values between words; only a
 * line that is still too wide breaks long words of text. */
static bool set_widths(struct grid *g, size_t columns)
{
	g->tall = rt_arena_take(&g->text, g->rows * sizeof *g->tall);
	if (!g->tall)
		return false;
	for (size_t row = 0; row < g->rows; row++)
		g->tall[row] = 1;
	for (size_t i = 0; i < g->lanes; i++) {
		const char *head = *cell_at(g, 0, i);
		struct lane *l = &g->lane[i];

		l->width = larger(rt_width(head), widest_value(g, i, false));
		l->least = larger(rt__widest_word(head), widest_value(g, i, false));
	}
	g->gap = GAP;
	shrink(g, columns);
	if (line_width(g) > columns)
		g->gap = 1;
	for (size_t i = 0; i < g->lanes; i++)
		g->lane[i].least = larger(rt__widest_word(*cell_at(g, 0, i)),
					  widest_value(g, i, true));
	shrink(g, columns);
	for (size_t i = 0; i < g->lanes; i++)
		if (!g->lane[i].right && g->lane[i].least > NARROWEST)
			g->lane[i].least = NARROWEST;
	shrink(g, columns);
	return true;
}

/* ---- lines ------------------------------------------------------------------------------- */

static size_t count_lines(const char *s)
{
	size_t n = 1;

	while ((s = strchr(s, '\n'))) {
		n++;
		s++;
	}
	return n;
}

/* The line of that number within s, or NULL when there is none. */
static const char *line_of(struct rt_arena **text, const char *s, size_t line)
{
	while (line > 0 && s) {
		s = strchr(s, '\n');
		if (s)
			s++;
		line--;
	}
	return s ? rt_arena_copy(text, s, strcspn(s, "\n")) : NULL;
}

/* Give a row of the grid to the printer as so many lines as its tallest cell has; heads stand
 * at the bottom of theirs. */
static bool add_row(struct libscols_table *tb, struct grid *g, size_t row)
{
	size_t tall = 1;

	for (size_t i = 0; i < g->lanes; i++) {
		const char **s = cell_at(g, row, i);

		*s = rt__wrap(&g->text, *s, g->lane[i].width, 0);
		if (!*s)
			return false;
		tall = larger(tall, count_lines(*s));
	}
	for (size_t line = 0; line < tall; line++) {
		struct libscols_line *ln = scols_table_new_line(tb, NULL);

		if (!ln)
			return false;
		for (size_t i = 0; i < g->lanes; i++) {
			const char *s = *cell_at(g, row, i);
			size_t skip = row == 0 ? tall - count_lines(s) : 0;
			const char *part = line < skip ? NULL : line_of(&g->text, s, line - skip);

			if (part && scols_line_set_data(ln, i, part))
				return false;
		}
	}
	return true;
}

/* A line of dashes under the heads. */
static bool add_rule(struct libscols_table *tb, const struct grid *g)
{
	struct libscols_line *ln = scols_table_new_line(tb, NULL);

	if (!ln)
		return false;
	for (size_t i = 0; i < g->lanes; i++) {
		char *dashes = malloc(g->lane[i].width + 1);
		bool kept;

		if (!dashes)
			return false;
		memset(dashes, '-', g->lane[i].width);
		dashes[g->lane[i].width] = '\0';
		kept = scols_line_set_data(ln, i, dashes) == 0;
		free(dashes);
		if (!kept)
			return false;
	}
	return true;
}

/* The grid as one text from libsmartcols, free() it; NULL when memory is out. */
static char *align(struct grid *g)
{
	struct libscols_table *tb = scols_new_table();
	char *made = NULL;

	if (!tb)
		return NULL;
	scols_table_enable_noheadings(tb, 1);
	scols_table_set_termforce(tb, SCOLS_TERMFORCE_NEVER);
	if (scols_table_set_column_separator(tb, g->gap == 1 ? " " : "  "))
		goto done;
	for (size_t i = 0; i < g->lanes; i++)
		if (!scols_table_new_column(tb, "", 0, g->lane[i].right ? SCOLS_FL_RIGHT : 0))
			goto done;
	for (size_t row = 0; row < g->rows; row++)
		if (!add_row(tb, g, row) || (row == 0 && !add_rule(tb, g)))
			goto done;
	if (scols_print_table_to_string(tb, &made))
		made = NULL;
done:
	scols_unref_table(tb);
	return made;
}

/* Print lines without the spaces at their ends. */
static void put_lines(FILE *out, const char *s)
{
	while (*s) {
		size_t n = strcspn(s, "\n"), shown = n;

		while (shown > 0 && s[shown - 1] == ' ')
			shown--;
		fwrite(s, 1, shown, out);
		fputc('\n', out);
		s += n + (s[n] == '\n');
	}
}

static enum rt_err put_wrapped(FILE *out, const char *s, size_t columns, struct rt_error *err)
{
	struct rt_arena *text = NULL;
	const char *lines = rt__wrap(&text, s, columns, NOTE_INDENT);

	if (lines) {
		fputs(lines, out);
		fputc('\n', out);
	}
	rt_arena_free(text);
	return lines ? RT_OK : rt_fail_nomem(err);
}

static enum rt_err put_table(FILE *out, const struct rt_table *t, size_t columns, bool feet,
			     struct rt_error *err)
{
	struct grid g = {0};
	char *lines = NULL;
	enum rt_err rc = RT_OK;

	if (t->title)
		rc = put_wrapped(out, t->title, columns, err);
	if (rc)
		return rc;
	if (rt_table_rows(t) == 0) {
		fputs("(none)\n", out);
		return RT_OK;
	}
	if (!grid_make(&g, t, feet))
		rc = rt_fail_nomem(err);
	if (!rc && g.lanes > 0) {
		lines = set_widths(&g, columns) ? align(&g) : NULL;
		if (lines)
			put_lines(out, lines);
		else
			rc = rt_fail_nomem(err);
	}
	free(lines);
	rt_arena_free(g.text);
	return rc;
}

/* A table of wide columns only is for CSV and JSON. */
static bool shown(const struct rt_table *t)
{
	for (size_t i = 0; i < t->columns; i++) {
		if (!t->column[i].wide)
			return true;
	}
	return false;
}

enum rt_err rt_paper_text(FILE *out, const struct rt_report *report, unsigned columns, bool feet,
			  struct rt_error *err)
{
	struct rt__locale locale;
	enum rt_err rc = rt_report_result(report, err);
	size_t put = 0;

	if (!columns)
		columns = WIDTH;
	if (!rc)
		rc = rt__locale_text(&locale, err);
	if (rc)
		return rc;
	for (size_t i = 0; i < report->tables && !rc; i++) {
		if (!shown(report->table[i]))
			continue;
		if (put++ > 0)
			fputc('\n', out);
		rc = put_table(out, report->table[i], columns, feet, err);
	}
	for (size_t i = 0; i < report->notes && !rc; i++) {
		if (i == 0 && put > 0)
			fputc('\n', out);
		rc = put_wrapped(out, report->note[i], columns, err);
	}
	rt__locale_leave(&locale);
	return rc ? rc : rt__stream_result(out, err);
}
