/* A report as one JSON object.  jansson writes the strings; numbers are the digits themselves,
 * as it has no number of exact decimals.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include <jansson.h>
#include <string.h>

#include "internal.h"

static enum rt_err put_string(FILE *out, const char *s, struct rt_error *err)
{
	struct rt_arena *text = NULL;
	const char *clean = rt_clean(&text, s);
	json_t *j = clean ? json_string(clean) : NULL;
	/* a stream that fails is told at its end */
	bool put = j && (json_dumpf(j, out, JSON_ENCODE_ANY) == 0 || ferror(out));

	json_decref(j);
	rt_arena_free(text);
	return put ? RT_OK : rt_fail_nomem(err);
}

/* The next of a list of letters, n bytes; *letters moves behind it.  NULL: there are no more. */
static const char *next_letter(const char **letters, size_t *n)
{
	const char *s = *letters + strspn(*letters, " ");

	*n = strcspn(s, " ");
	*letters = s + *n;
	return *n ? s : NULL;
}

/* A joined list as an array. */
static enum rt_err put_list(FILE *out, const char *list,
			    const char *(*next)(const char **, size_t *), struct rt_error *err)
{
	struct rt_arena *text = NULL;
	enum rt_err rc = RT_OK;
	const char *s, *between = "";
	size_t n;

	fputc('[', out);
	while (!rc && (s = next(&list, &n))) {
		fputs(between, out);
		between = ", ";
		s = rt_arena_copy(&text, s, n);
		rc = s ? put_string(out, s, err) : rt_fail_nomem(err);
	}
	fputc(']', out);
	rt_arena_free(text);
	return rc;
}

static enum rt_err put_value(FILE *out, const struct rt_field *c, const struct rt_value *v,
			     struct rt_error *err)
{
	char words[64];

	if (c->type == RT_NAMES || c->type == RT_LETTERS)
		return put_list(out, v->null ? "" : v->as.text,
				c->type == RT_NAMES ? rt_name_next : next_letter, err);
	if (v->null)
		fputs("null", out);
	else if (rt_type_shown(c->type) == RT_TEXT)
		return put_string(out, v->as.text, err);
	else if (c->type == RT_BOOL)
		fputs(v->as.truth ? "true" : "false", out);
	else
		fputs(rt_value_text(c, v, words, sizeof words), out);
	return RT_OK;
}

static enum rt_err put_row(FILE *out, const struct rt_table *t, size_t row, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	fputc('{', out);
	for (size_t i = 0; i < t->columns && !rc; i++) {
		if (i > 0)
			fputs(", ", out);
		rc = put_string(out, t->column[i].name, err);
		fputs(": ", out);
		if (!rc)
			rc = put_value(out, &t->column[i], rt_table_cell(t, row, i), err);
	}
	fputc('}', out);
	return rc;
}

/* The key and its array, a row a line. */
static enum rt_err put_table(FILE *out, const struct rt_table *t, struct rt_error *err)
{
	enum rt_err rc = put_string(out, t->name, err);

	fputs(": [", out);
	for (size_t row = 0; row < rt_table_rows(t) && !rc; row++) {
		fputs(row > 0 ? ",\n" : "\n", out);
		rc = put_row(out, t, row, err);
	}
	fputs("\n],\n", out);
	return rc;
}

enum rt_err rt_paper_json(FILE *out, const struct rt_report *report, struct rt_error *err)
{
	struct rt__locale locale;
	enum rt_err rc = rt_report_result(report, err);

	if (!rc)
		rc = rt__locale_numbers(&locale, err);
	if (rc)
		return rc;
	fputs("{\n\"format\": \"" RT_JSON_FORMAT "\",\n", out);
	for (size_t i = 0; i < report->tables && !rc; i++)
		rc = put_table(out, report->table[i], err);
	fputs("\"notes\": [", out);
	for (size_t i = 0; i < report->notes && !rc; i++) {
		fputs(i > 0 ? ",\n" : "\n", out);
		rc = put_string(out, report->note[i], err);
	}
	fputs("\n]\n}\n", out);
	rt__locale_leave(&locale);
	return rc ? rc : rt__stream_result(out, err);
}

/* What is wrong, and where: as far as it is known. */
static enum rt_err put_fault(FILE *out, const char *file, long line, const char *column,
			     const char *text, struct rt_error *err)
{
	const char *const name[] = {"file", "column", "text"};
	const char *const value[] = {file, column, text};
	enum rt_err rc = RT_OK;

	fputs("{\"line\": ", out);
	if (line > 0)
		fprintf(out, "%ld", line);
	else
		fputs("null", out);
	for (size_t i = 0; i < 3 && !rc; i++) {
		fprintf(out, ", \"%s\": ", name[i]);
		if (value[i] && *value[i])
			rc = put_string(out, value[i], err);
		else
			fputs("null", out);
	}
	fputs("}", out);
	return rc;
}

enum rt_err rt_paper_json_error(FILE *out, const struct rt_error *failed,
				const struct rt_faults *faults, struct rt_error *err)
{
	enum rt_err rc;

	fputs("{\n\"format\": \"" RT_JSON_FORMAT "\",\n\"error\": ", out);
	rc = put_fault(out, failed->file, failed->line, failed->column, failed->text, err);
	fprintf(out, ",\n\"fault_count\": %zu,\n\"faults\": [", faults->total);
	for (size_t i = 0; i < faults->n && !rc; i++) {
		const struct rt_fault *f = &faults->at[i];

		fputs(i > 0 ? ",\n" : "\n", out);
		rc = put_fault(out, f->file, f->line, f->column, f->text, err);
	}
	fputs("\n]\n}\n", out);
	return rc;
}
