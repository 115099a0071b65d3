/* A table of a report as CSV.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <string.h>

#include "internal.h"

#define NAMES_MOST 64 /* that a message names */

/* Quoted only where it must be: RFC 4180, section 2, which has no control characters either. */
static void put_text(FILE *out, const char *s)
{
	bool quoted = s[strcspn(s, ",\"\r\n")];

	if (quoted)
		fputc('"', out);
	while (*s) {
		size_t n;
		const char *c = rt_clean_next(&s, &n);

		if (*c == '"')
			fputc('"', out);
		fwrite(c, 1, n, out);
	}
	if (quoted)
		fputc('"', out);
}

/* A number that is held as text is no formula. */
static void put_guarded(FILE *out, const char *s, bool raw)
{
	double number;

	if (!raw && rt_is_formula(s) && !rt_parse_real(s, &number))
		fputc('\'', out);
	put_text(out, s);
}

static bool is_empty(const struct rt_field *c, const struct rt_value *v)
{
	return v->null || (rt_type_shown(c->type) == RT_TEXT && !*v->as.text);
}

static void put_table(FILE *out, const struct rt_table *t, bool raw)
{
	char words[64];

	for (size_t i = 0; i < t->columns; i++) {
		if (i > 0)
			fputc(',', out);
		put_text(out, t->column[i].name);
	}
	fputc('\n', out);
	for (size_t row = 0; row < rt_table_rows(t); row++) {
		/* a lone empty cell must not look like an empty line */
		if (t->columns == 1 && is_empty(t->column, rt_table_cell(t, row, 0)))
			fputs("\"\"", out);
		for (size_t i = 0; i < t->columns; i++) {
			const struct rt_field *c = &t->column[i];
			const char *s = rt_value_text(c, rt_table_cell(t, row, i), words,
						      sizeof words);

			if (i > 0)
				fputc(',', out);
			put_guarded(out, s, raw || rt_type_shown(c->type) != RT_TEXT);
		}
		fputc('\n', out);
	}
}

static void put_notes(FILE *out, const struct rt_report *report, bool raw)
{
	fputs("note\n", out);
	for (size_t i = 0; i < report->notes; i++) {
		if (!*report->note[i])
			fputs("\"\"", out);
		put_guarded(out, report->note[i], raw);
		fputc('\n', out);
	}
}

/* The table that is meant; NULL: the notes. */
static const struct rt_table *find_table(const struct rt_report *report, const char *name)
{
	return name ? rt_report_named(report, name) : rt_report_main(report);
}

/* The names of all but one table (NULL: none is left out), and of the notes. */
static void list_others(const struct rt_report *report, const struct rt_table *but, bool notes,
			char out[RT_LISTED_SIZE])
{
	const char *names[NAMES_MOST];
	size_t n = 0;

	for (size_t i = 0; i < report->tables && n + 1 < NAMES_MOST; i++)
		if (report->table[i] != but)
			names[n++] = report->table[i]->name;
	if (notes && report->notes)
		names[n++] = RT_CSV_NOTES;
	*out = '\0';
	if (n)
		rt_list_names(names, n, out);
}

void rt_paper_csv_others(const struct rt_report *report, const char *table,
			 char out[RT_LISTED_SIZE])
{
	const struct rt_table *t = find_table(report, table);

	list_others(report, t, t != NULL, out);
}

enum rt_err rt_paper_csv(FILE *out, const struct rt_report *report, const char *table, bool raw,
			 struct rt_error *err)
{
	const struct rt_table *t = find_table(report, table);
	enum rt_err rc = rt_report_result(report, err);
	struct rt__locale locale;
	char names[RT_LISTED_SIZE];

	if (!rc && table && !t && strcmp(table, RT_CSV_NOTES) != 0) {
		list_others(report, NULL, true, names);
		rc = rt_fail(err, RT_E_USAGE, "no table %s: %s", rt_show(table).text,
			     *names ? names : "there is none");
	}
	if (!rc)
		rc = rt__locale_numbers(&locale, err);
	if (rc)
		return rc;
	if (t)
		put_table(out, t, raw);
	else
		put_notes(out, report, raw);
	rt__locale_leave(&locale);
	return rt__stream_result(out, err);
}
