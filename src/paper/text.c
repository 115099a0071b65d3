/* A report as aligned text: what fits the width is decided here, libsmartcols aligns it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <libsmartcols.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"

#define WIDTH	    80
#define GAP	    2 /* cells between two columns; 1 where that makes a line fit */
#define BAND_INDENT 4 /* of the further lines of a row that is too wide for one */
#define NOTE_INDENT 2

/* A column as it is laid out. */
struct lane {
	size_t from; /* its place among the table's columns */
	bool right;  /* numbers: against the right edge, never broken */
	/* how wide it is, and how far it may give way: at first its head between words, then its
	 * values too */
	size_t width, least, narrowest;
};

/* The cells of a table as text, the heads as row 0. */
struct grid {
	size_t rows, lanes;
	struct lane *lane;
	const char **cell;
	struct rt_arena *text; /* all of it */
};

/* Lanes that stand side by side: all of them, or as many as the width has room for. */
struct band {
	size_t first, end; /* lanes */
	size_t gap, columns, indent;
	size_t *tall;	  /* lines of each row */
	char *made;	  /* all lines */
	const char *next; /* the next that is to be put */
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

static size_t larger(size_t a, size_t b)
{
	return a > b ? a : b;
}

/* How wide each lane would be, and how far it may give way. */
static void measure_lanes(struct grid *g)
{
	for (size_t i = 0; i < g->lanes; i++) {
		const char *head = *cell_at(g, 0, i);
		struct lane *l = &g->lane[i];
		size_t whole = 0, word = rt__widest_word(head);

		l->least = word;
		for (size_t row = 1; row < g->rows; row++) {
			const char *s = *cell_at(g, row, i);

			whole = larger(whole, rt_width(s));
			word = larger(word, l->right ? rt_width(s) : rt__widest_word(s));
		}
		l->width = larger(rt_width(head), whole);
		l->least = larger(l->least, whole);
		l->narrowest = word;
	}
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
	measure_lanes(g);
	return true;
}

/* ---- widths ------------------------------------------------------------------------------ */

static size_t line_width(const struct grid *g, const struct band *b)
{
	size_t sum = (b->end - b->first - 1) * b->gap;

	for (size_t i = b->first; i < b->end; i++)
		sum += g->lane[i].width;
	return sum;
}

/* How many more lines the rows take when a lane is a cell narrower; `narrow` notes them. */
static size_t narrowing(const struct grid *g, struct band *b, size_t lane, bool narrow)
{
	size_t more = 0;

	for (size_t row = 0; row < g->rows; row++) {
		size_t n = rt__count_lines(*cell_at(g, row, lane), g->lane[lane].width - 1);

		if (n <= b->tall[row])
			continue;
		more += n - b->tall[row];
		if (narrow)
			b->tall[row] = n;
	}
	return more;
}

/* Take cells from lanes that are above their least, each from where it makes the table the
 * least longer (of several the widest), until the line fits. */
static void shrink(const struct grid *g, struct band *b)
{
	for (size_t over = line_width(g, b); over > b->columns; over--) {
		size_t best = b->end, least_more = SIZE_MAX;

		for (size_t i = b->first; i < b->end; i++) {
			const struct lane *l = &g->lane[i];
			size_t more = l->width > l->least ? narrowing(g, b, i, false) : SIZE_MAX;

			if (more < least_more || (more < SIZE_MAX && more == least_more &&
						  l->width > g->lane[best].width)) {
				best = i;
				least_more = more;
			}
		}
		if (best == b->end)
			return;
		(void)narrowing(g, b, best, true);
		g->lane[best].width--;
	}
}

/* The band that begins with a lane: heads give way first, between their words; then the gaps;
 * then values between words.  No word is ever broken: lanes that have no room go to the next
 * band, and a word wider than the line goes beyond it. */
static bool band_make(struct grid *g, struct band *b, size_t first, size_t columns)
{
	size_t taken = g->lane[first].narrowest;

	b->first = first;
	b->indent = first ? BAND_INDENT : 0;
	b->columns = columns > b->indent ? columns - b->indent : 1;
	for (b->end = first + 1; b->end < g->lanes; b->end++) {
		taken += 1 + g->lane[b->end].narrowest;
		if (taken > b->columns)
			break;
	}
	b->tall = rt_arena_take(&g->text, g->rows * sizeof *b->tall);
	if (!b->tall)
		return false;
	for (size_t row = 0; row < g->rows; row++)
		b->tall[row] = 1;
	b->gap = GAP;
	shrink(g, b);
	if (line_width(g, b) > b->columns)
		b->gap = 1;
	for (size_t i = b->first; i < b->end; i++)
		g->lane[i].least = g->lane[i].narrowest;
	shrink(g, b);
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

/* The next line of *s, which moves behind it; NULL where that is empty. */
static const char *next_line(struct rt_arena **text, const char **s)
{
	size_t n = strcspn(*s, "\n");
	const char *line = n ? rt_arena_copy(text, *s, n) : NULL;

	*s += n + ((*s)[n] == '\n');
	return line;
}

/* Give a row of a band to the printer as so many lines as its tallest cell has; heads stand at
 * the bottom of theirs. */
static bool add_row(struct libscols_table *tb, struct grid *g, struct band *b, size_t row)
{
	size_t tall = 1;

	for (size_t i = b->first; i < b->end; i++) {
		const char **s = cell_at(g, row, i);

		*s = rt__wrap(&g->text, *s, g->lane[i].width, 0);
		if (!*s)
			return false;
		tall = larger(tall, count_lines(*s));
	}
	b->tall[row] = tall;
	for (size_t line = 0; line < tall; line++) {
		struct libscols_line *ln = scols_table_new_line(tb, NULL);

		if (!ln)
			return false;
		for (size_t i = b->first; i < b->end; i++) {
			const char **s = cell_at(g, row, i);
			bool over = row == 0 && line + count_lines(*s) < tall;
			const char *part = over ? NULL : next_line(&g->text, s);

			if (part && scols_line_set_data(ln, i - b->first, part))
				return false;
		}
	}
	return true;
}

/* A line of dashes under the heads. */
static bool add_rule(struct libscols_table *tb, struct grid *g, const struct band *b)
{
	struct libscols_line *ln = scols_table_new_line(tb, NULL);

	for (size_t i = b->first; ln && i < b->end; i++) {
		char *dashes = rt_arena_take(&g->text, g->lane[i].width + 1);

		if (!dashes)
			return false;
		memset(dashes, '-', g->lane[i].width);
		if (scols_line_set_data(ln, i - b->first, dashes))
			return false;
	}
	return ln != NULL;
}

/* The band as one text from libsmartcols. */
static bool align(struct grid *g, struct band *b)
{
	struct libscols_table *tb = scols_new_table();
	bool made = false;

	if (!tb)
		return false;
	scols_table_enable_noheadings(tb, 1);
	scols_table_set_termforce(tb, SCOLS_TERMFORCE_NEVER);
	if (scols_table_set_column_separator(tb, b->gap == 1 ? " " : "  "))
		goto done;
	for (size_t i = b->first; i < b->end; i++)
		if (!scols_table_new_column(tb, "", 0, g->lane[i].right ? SCOLS_FL_RIGHT : 0))
			goto done;
	for (size_t row = 0; row < g->rows; row++)
		if (!add_row(tb, g, b, row) || (row == 0 && !add_rule(tb, g, b)))
			goto done;
	made = scols_print_table_to_string(tb, &b->made) == 0;
	b->next = b->made;
done:
	scols_unref_table(tb);
	return made;
}

/* Print the next n lines of a band without the spaces at their ends; of a further band not those
 * where nothing stands. */
static void put_lines(FILE *out, struct band *b, size_t n)
{
	for (; n && *b->next; n--) {
		size_t length = strcspn(b->next, "\n"), shown = length;

		while (shown > 0 && b->next[shown - 1] == ' ')
			shown--;
		if (shown || !b->indent)
			fprintf(out, "%*s%.*s\n", shown ? (int)b->indent : 0, "", (int)shown,
				b->next);
		b->next += length + (b->next[length] == '\n');
	}
}

/* All bands, row by row, the rule under the heads. */
static void put_rows(FILE *out, const struct grid *g, struct band *band, size_t bands)
{
	for (size_t row = 0; row < g->rows; row++) {
		for (size_t i = 0; i < bands; i++)
			put_lines(out, &band[i], band[i].tall[row]);
		for (size_t i = 0; row == 0 && i < bands; i++)
			put_lines(out, &band[i], 1);
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
	struct band *band = NULL;
	size_t bands = 0;
	enum rt_err rc = RT_OK;

	if (t->title)
		rc = put_wrapped(out, t->title, columns, err);
	if (rc)
		return rc;
	if (rt_table_rows(t) == 0) {
		fputs("(none)\n", out);
		return RT_OK;
	}
	if (grid_make(&g, t, feet))
		band = rt_arena_take(&g.text, g.lanes * sizeof *band);
	if (!band)
		rc = rt_fail_nomem(err);
	for (size_t lane = 0; !rc && lane < g.lanes; lane = band[bands++].end)
		if (!band_make(&g, &band[bands], lane, columns) || !align(&g, &band[bands]))
			rc = rt_fail_nomem(err);
	if (!rc)
		put_rows(out, &g, band, bands);
	for (size_t i = 0; i < bands; i++)
		free(band[i].made);
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
