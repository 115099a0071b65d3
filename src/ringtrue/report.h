/* report: what every command returns: tables of typed cells, and notes.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef RINGTRUE_REPORT_H
#define RINGTRUE_REPORT_H

#include <ringtrue/record.h>

#ifdef __cplusplus
extern "C" {
#endif

struct rt_table {
	const char *name;		/* the key in JSON */
	const char *title;		/* over the table in text */
	const struct rt_record *record; /* of its rows */
	struct rt_field *column;
	size_t columns;
	struct rt_value *cell; /* rows x columns, row by row */
	size_t cells, cap;
	bool main; /* what the report is about, where that is not its first table */
	struct rt_report *report;
};

/* Tables in order, then notes.  needs_person: something was done and needs a person (exit 1). */
struct rt_report {
	struct rt_table **table;
	size_t tables, table_cap;
	const char **note;
	size_t notes, note_cap;
	bool needs_person;
	bool nomem; /* sticky: a table, cell or note could not be kept */
	struct rt_arena *text;
};

/* A new table at the end, of a kind of row, which must outlive the report: its columns are those
 * fields that a report shows, in their order.  Never fails visibly: when memory is out the report's
 * nomem is set and a table that swallows its rows is returned (never NULL). */
RT_API struct rt_table *rt_report_rows(struct rt_report *r, const struct rt_record *record);
/* Append a row of the table's record; texts are copied, a NaN or infinite real is a null. */
RT_API void rt_put_row(struct rt_table *t, const void *row);
/* A new table with every row of a list (n of the record's size). */
RT_API struct rt_table *rt_report_list(struct rt_report *r, const struct rt_record *record,
				       const void *rows, size_t n);
/* Whether text at 80 columns shows a column of this table. */
RT_API void rt_table_show(struct rt_table *t, const char *column, bool shown);
/* Mark the table as what the report is about. */
RT_API void rt_table_main(struct rt_table *t);
/* The table that is marked so, or the first; NULL: there is none. */
RT_API const struct rt_table *rt_report_main(const struct rt_report *r);
/* The table of that name; NULL: there is none. */
RT_API const struct rt_table *rt_report_named(const struct rt_report *r, const char *name);
/* Another head over such a column (a constant text), and another title (copied). */
RT_API void rt_table_head(struct rt_table *t, const char *column, const char *head);
RT_API void rt_table_title(struct rt_table *t, const char *title);

/* A text for a row, kept with the report; NULL (and nomem) when memory is out. */
RT_API const char *rt_report_textf(struct rt_report *r, const char *fmt, ...) RT_PRINTF(2, 3);

/* How many rows it has. */
RT_API size_t rt_table_rows(const struct rt_table *t);
/* The cell at row, column; the caller keeps inside the table. */
RT_API const struct rt_value *rt_table_cell(const struct rt_table *t, size_t row, size_t column);
/* The words of a value as text and papers show it, lengths in feet and inches where they are asked
 * for: the value's own, or in out; "" for a null. */
RT_API const char *rt_value_words(const struct rt_field *column, const struct rt_value *value,
				  bool feet, char *out, size_t size);
/* A sentence under the tables; one that stands there already is not said again. */
RT_API void rt_report_note(struct rt_report *r, const char *fmt, ...) RT_PRINTF(2, 3);
/* RT_OK; RT_E_NOMEM if anything was lost on the way. */
RT_API enum rt_err rt_report_result(const struct rt_report *r, struct rt_error *err);
RT_API void rt_report_free(struct rt_report *r);

#ifdef __cplusplus
}
#endif
#endif
