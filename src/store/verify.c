/* The file looked at as a whole.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

#define SCHEMA_PREFIX "SCHEMA_" /* of the names of the statements that make it */

static void add_fault(struct rt__rows *rows, struct rt_file_faults *out, const char *check,
		      const char *where, const char *what)
{
	struct rt_file_fault *fault = RT_LIST_ADD(out);

	if (fault)
		*fault = (struct rt_file_fault){check, where, what};
	else
		rt__rows_nomem(rows);
}

/* SQLite's own look at its pages, tables and indexes: "ok", or a row a fault.  Through a handle
 * that could write, where there can be one: SQLite reads no CHECK of a file that it opened for
 * reading only, and so would pass over values that they refuse. */
static enum rt_err verify_integrity(struct rt_store *s, struct rt_file_faults *out,
				    struct rt_error *err)
{
	struct rt_store *able = NULL;
	struct rt__rows rows;

	if (!s->writing)
		(void)rt__handle_open(&able, s->path, s->path, true, NULL);
	rows = rt__open_rows(able ? able : s, RT__SQL_VERIFY_INTEGRITY, RT__NO_CELLS, &out->text,
			     err);
	while (rt__next(&rows)) {
		const char *said = rt__name_at(&rows, 0);

		if (!rows.rc && strcmp(said, "ok") != 0)
			add_fault(&rows, out, "the file is whole", NULL, said);
	}
	rt__handle_close(able);
	return rows.rc;
}

/* Whether the statement that makes the schema makes the thing of this name. */
static bool makes(const struct rt__sql_text *sql, const char *name)
{
	return strcmp(sql->group, "schema") == 0 &&
	       sqlite3_stricmp(sql->name + sizeof SCHEMA_PREFIX - 1, name) == 0;
}

/* What the statement of the schema makes, as the file calls it; NULL when memory is out. */
static const char *made_by(const struct rt__sql_text *sql, struct rt_arena **text)
{
	const char *name = sql->name + sizeof SCHEMA_PREFIX - 1;
	size_t n = strlen(name);
	char *lower = rt_arena_take(text, n + 1);

	for (size_t i = 0; lower && i < n; i++)
		lower[i] = (char)(name[i] >= 'A' && name[i] <= 'Z' ? name[i] + 'a' - 'A' : name[i]);
	return lower;
}

/* The statements of the schema whose table, index or trigger is not there. */
static enum rt_err verify_schema(struct rt_store *s, struct rt_file_faults *out,
				 struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_VERIFY_SCHEMA, RT__NO_CELLS, &out->text,
					     err);
	bool there[RT__SQL_COUNT] = {
		[RT__SQL_SCHEMA_IDENTITY] = true, [RT__SQL_SCHEMA_VERSION] = true};

	while (rt__next(&rows))
		for (int i = 0; i < RT__SQL_COUNT; i++)
			there[i] |= makes(&rt__sql_text[i], rt__words_at(&rows, 0));
	for (int i = 0; i < RT__SQL_COUNT && !rows.rc; i++)
		if (!there[i] && strcmp(rt__sql_text[i].group, "schema") == 0)
			add_fault(&rows, out, "tables and their guards",
				  made_by(&rt__sql_text[i], &out->text),
				  "is not there: somebody changed the file with another program");
	return rows.rc;
}

static enum rt_err verify_rows(struct rt_store *s, enum rt__sql sql, const char *check,
			       struct rt_file_faults *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, sql, RT__NO_CELLS, &out->text, err);

	while (rt__next(&rows)) {
		const char *where = rt__text_at(&rows, 0), *what = rt__text_at(&rows, 1);

		if (!rows.rc)
			add_fault(&rows, out, check, where, what);
	}
	return rows.rc;
}

static enum rt_err count(struct rt_store *s, struct rt_file_counts *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_VERIFY_COUNTS, RT__NO_CELLS, NULL, err);

	if (!rt__next(&rows))
		return rows.rc;
	out->classes = rt__int_at(&rows, 0);
	out->entries = rt__int_at(&rows, 1);
	out->marks = rt__int_at(&rows, 2);
	out->postings = rt__int_at(&rows, 3);
	rt__close_rows(&rows);
	return rows.rc;
}

enum rt_err rt_store_verify(struct rt_store *s, struct rt_file_faults *out,
			    struct rt_file_counts *counts, struct rt_error *err)
{
	static const struct {
		enum rt__sql sql;
		const char *check;
	} look[] = {
		{RT__SQL_VERIFY_REFERENCES, "rows name what is there"},
		{RT__SQL_VERIFY_HISTORY_ROWS, "histories are unbroken"},
		{RT__SQL_VERIFY_MARK_VERSIONS, "histories are unbroken"},
		{RT__SQL_VERIFY_LINE_VERSIONS, "histories are unbroken"},
		{RT__SQL_VERIFY_POSTING_VERSIONS, "histories are unbroken"},
		{RT__SQL_VERIFY_MARK_SHEETS, "marks belong to their sheets"},
		{RT__SQL_VERIFY_MARK_STEPS, "marks in steps"},
	};
	enum rt_err rc = verify_integrity(s, out, err);

	if (!rc)
		rc = verify_schema(s, out, err);
	/* What follows reads tables: of a file that is not whole it would say nothing. */
	if (rc || out->n)
		return rc;
	for (size_t i = 0; i < sizeof look / sizeof *look && !rc; i++)
		rc = verify_rows(s, look[i].sql, look[i].check, out, err);
	return rc ? rc : count(s, counts, err);
}
