/* A report as CSV.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <inttypes.h>
#include <string.h>

#include "internal.h"

/* Quoted only where it must be: RFC 4180, section 2, which has no control characters either. */
static void put_text(FILE *out, const char *s)
{
	bool quoted = s[strcspn(s, ",\"\r\n")];

	if (quoted)
		fputc('"', out);
	while (*s) {
		size_t n;
		const char *c = rt__clean_next(&s, RT__CLEAN_CONTROLS, &n);

		if (*c == '"')
			fputc('"', out);
		fwrite(c, 1, n, out);
	}
	if (quoted)
		fputc('"', out);
}

static void put_value(FILE *out, const struct rt_field *c, const struct rt_value *v)
{
	char buf[64];

	if (v->null)
		return;
	switch (rt_type_shown(c->type)) {
	default:
		put_text(out, v->as.text);
		return;
	case RT_INT:
		fprintf(out, "%" PRId64, v->as.whole);
		return;
	case RT_REAL:
		rt_format_shortest(v->as.real, buf, sizeof buf);
		break;
	case RT_DECIMAL:
		rt_format_decimal(v->as.whole, v->digits, buf, sizeof buf);
		break;
	case RT_BOOL:
		snprintf(buf, sizeof buf, "%s", v->as.truth ? "yes" : "no");
		break;
	}
	fputs(buf, out);
}

static bool is_empty(const struct rt_field *c, const struct rt_value *v)
{
	return v->null || (rt_type_shown(c->type) == RT_TEXT && !*v->as.text);
}

static void put_table(FILE *out, const struct rt_table *t)
{
	for (size_t i = 0; i < t->columns; i++) {
		if (i > 0)
			fputc(',', out);
		put_text(out, t->column[i].name);
	}
	fputc('\n', out);
	for (size_t row = 0; row < rt_table_rows(t); row++) {
		/* a lone empty cell must not look like the empty line between two tables */
		if (t->columns == 1 && is_empty(t->column, rt_table_cell(t, row, 0)))
			fputs("\"\"", out);
		for (size_t i = 0; i < t->columns; i++) {
			if (i > 0)
				fputc(',', out);
			put_value(out, &t->column[i], rt_table_cell(t, row, i));
		}
		fputc('\n', out);
	}
}

enum rt_err rt_paper_csv(FILE *out, const struct rt_report *report, struct rt_error *err)
{
	struct rt__locale locale;
	enum rt_err rc = rt_report_result(report, err);

	if (!rc)
		rc = rt__locale_numbers(&locale, err);
	if (rc)
		return rc;
	for (size_t i = 0; i < report->tables; i++) {
		if (i > 0)
			fputc('\n', out);
		put_table(out, report->table[i]);
	}
	if (report->notes > 0)
		fputs(report->tables > 0 ? "\nnote\n" : "note\n", out);
	for (size_t i = 0; i < report->notes; i++) {
		if (!*report->note[i])
			fputs("\"\"", out);
		put_text(out, report->note[i]);
		fputc('\n', out);
	}
	rt__locale_leave(&locale);
	return rt__stream_result(out, err);
}
