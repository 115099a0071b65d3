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

/* A number that is held as text is no formula.  alone: it is all of its line, which must not look
 * empty. */
static void put_cell(FILE *out, const char *s, bool raw, bool alone)
{
	double number;

	if (alone && !*s)
		fputs("\"\"", out);
	if (!raw && rt_is_formula(s) && !rt_parse_real(s, &number))
		fputc('\'', out);
	put_text(out, s);
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
	for (size_t i = 0; i < rt_table_rows(t) * t->columns; i++) {
		const struct rt_field *c = &t->column[i % t->columns];
		const char *s = rt_value_text(c, &t->cell[i], words, sizeof words);

		put_cell(out, s, raw || rt_type_shown(c->type) != RT_TEXT, t->columns == 1);
		fputc((i + 1) % t->columns ? ',' : '\n', out);
	}
}

static void put_notes(FILE *out, const struct rt_report *report, bool raw)
{
	fputs("note\n", out);
	for (size_t i = 0; i < report->notes; i++) {
		put_cell(out, report->note[i], raw, true);
		fputc('\n', out);
	}
}

/* The name of what is written: that which was asked for, or the main one. */
static const char *name_of(const struct rt_report *report, const char *table)
{
	const struct rt_table *about = rt_report_main(report);

	return table ? table : about ? about->name : RT_CSV_NOTES;
}

void rt_paper_csv_others(const struct rt_report *report, const char *table,
			 char out[RT_LISTED_SIZE])
{
	const char *names[NAMES_MOST], *but = name_of(report, table);
	size_t n = 0;

	for (size_t i = 0; i < report->tables && n + 1 < NAMES_MOST; i++)
		if (strcmp(report->table[i]->name, but) != 0)
			names[n++] = report->table[i]->name;
	if (report->notes && strcmp(but, RT_CSV_NOTES) != 0)
		names[n++] = RT_CSV_NOTES;
	*out = '\0';
	if (n)
		rt_list_names(names, n, out);
}

enum rt_err rt_paper_csv(FILE *out, const struct rt_report *report, const char *table, bool raw,
			 struct rt_error *err)
{
	const char *name = name_of(report, table);
	const struct rt_table *t = rt_report_named(report, name);
	enum rt_err rc = rt_report_result(report, err);
	struct rt__locale locale;
	char names[RT_LISTED_SIZE];

	if (!rc && !t && strcmp(name, RT_CSV_NOTES) != 0) {
		rt_paper_csv_others(report, table, names);
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
