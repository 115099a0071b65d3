/* The draw, what is asked of the times, and start times with their versions.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>

/* Starts that run late go beyond the last day, but not for ever. */
#define LATEST_DAY (10 * RT_DAYS_MOST)

/* ---- draws ----------------------------------------------------------------------------------- */

static enum rt_err put_draw(struct rt_store *s, const struct rt_stored_draw *d,
			    const struct rt_draw_places *places, struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_DRAW_INSERT,
				 RT__CELLS(rt__text(d->class_name), rt__text(d->what),
					   rt__int(d->seed), rt__int(d->apart), rt__given(d->why),
					   rt__given(d->who), rt__given(d->when)),
				 err);
	int64_t id = sqlite3_last_insert_rowid(s->db);

	for (size_t i = 0; i < places->n && !rc; i++)
		rc = rt__run(s, RT__SQL_DRAW_PLACE_INSERT,
			     RT__CELLS(rt__int(id), rt__int(places->at[i].place),
				       rt__int(places->at[i].entry), rt__bool(places->at[i].fixed)),
			     err);
	return rc;
}

enum rt_err rt_store_draw_put(struct rt_store *s, const struct rt_stored_draw *draw,
			      const struct rt_draw_places *places, struct rt_error *err)
{
	bool own;
	enum rt_err rc = rt__together(s, true, &own, err);

	return rc ? rc : rt__together_end(s, own, put_draw(s, draw, places, err), err);
}

enum rt_err rt_store_draws(struct rt_store *s, const char *class_name, struct rt_stored_draws *out,
			   struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_DRAW_LIST, RT__CELLS(rt__text(class_name)),
					     &out->text, err);
	struct rt_stored_draw *d;

	while ((d = RT__NEXT(&rows, out))) {
		d->id = rt__int_at(&rows, 0);
		d->class_name = rt__name_at(&rows, 1);
		d->what = rt__name_at(&rows, 2);
		d->seed = rt__int_in(&rows, 3, 1, RT_SEED_MOST);
		d->apart = rt__int_in(&rows, 4, 0, RT_NUMBER_MOST);
		d->why = rt__text_at(&rows, 5);
		d->who = rt__text_at(&rows, 6);
		d->when = rt__text_at(&rows, 7);
	}
	return rows.rc;
}

enum rt_err rt_store_draw_places(struct rt_store *s, const char *class_name,
				 struct rt_draw_places *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_DRAW_PLACE_LIST,
					     RT__CELLS(rt__text(class_name)), &out->text, err);
	struct rt_draw_place *p;

	while ((p = RT__NEXT(&rows, out)))
		*p = (struct rt_draw_place){rt__int_at(&rows, 0),
					    rt__int_in(&rows, 1, 1, RT_NUMBER_MOST),
					    rt__bool_at(&rows, 2)};
	return rows.rc;
}

static enum rt_err get_bool(struct rt_store *s, enum rt__sql sql, struct rt__cell cell, bool *out,
			    struct rt_error *err)
{
	int64_t v = 0;
	enum rt_err rc = rt__get_int(s, sql, &cell, 1, &v, NULL, err);

	*out = v != 0;
	return rc;
}

enum rt_err rt_store_class_timed(struct rt_store *s, const char *class_name, bool *out,
				 struct rt_error *err)
{
	return get_bool(s, RT__SQL_TIMES_OF_CLASS, rt__text(class_name), out, err);
}

/* ---- plan files and wishes ------------------------------------------------------------------- */

static enum rt_err put_file(struct rt_store *s, const char *what, const struct rt_times_note *note,
			    int64_t *id, struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_TIMES_FILE_INSERT,
				 RT__CELLS(rt__text(what), rt__given(note->words),
					   rt__given(note->who), rt__given(note->when)),
				 err);

	*id = sqlite3_last_insert_rowid(s->db);
	return rc;
}

static enum rt_err put_plan_rows(struct rt_store *s, const struct rt_plan_rows *rows,
				 const struct rt_times_note *note, struct rt_error *err)
{
	int64_t file;
	enum rt_err rc = put_file(s, "plan", note, &file, err);

	for (size_t i = 0; i < rows->n && !rc; i++)
		rc = rt__run_row(s, RT__SQL_PLAN_ROW_INSERT, &rt_plan_row_record, &rows->at[i],
				 RT__CELLS(rt__int(file), rt__int((int64_t)i + 1)), err);
	return rc;
}

enum rt_err rt_store_plan_rows_put(struct rt_store *s, const struct rt_plan_rows *rows,
				   const struct rt_times_note *note, struct rt_error *err)
{
	bool own;
	enum rt_err rc = rt__together(s, true, &own, err);

	return rc ? rc : rt__together_end(s, own, put_plan_rows(s, rows, note, err), err);
}

enum rt_err rt_store_plan_rows(struct rt_store *s, struct rt_plan_rows *out, struct rt_error *err)
{
	enum rt_err rc = RT__LOAD(s, RT__SQL_PLAN_ROW_LIST, RT__NO_CELLS, &rt_plan_row_record, out,
				  err);

	for (size_t i = 0; i < out->n; i++)
		out->at[i].file = "";
	return rc;
}

static enum rt_err put_wishes(struct rt_store *s, const struct rt_wishes *wishes,
			      const struct rt_times_note *note, struct rt_error *err)
{
	int64_t file;
	enum rt_err rc = put_file(s, "wishes", note, &file, err);

	for (size_t i = 0; i < wishes->n && !rc; i++)
		rc = rt__run_row(s, RT__SQL_WISH_INSERT, &rt_wish_record, &wishes->at[i],
				 RT__CELLS(rt__int(file), rt__int((int64_t)i + 1)), err);
	return rc;
}

enum rt_err rt_store_wishes_put(struct rt_store *s, const struct rt_wishes *wishes,
				const struct rt_times_note *note, struct rt_error *err)
{
	bool own;
	enum rt_err rc = rt__together(s, true, &own, err);

	return rc ? rc : rt__together_end(s, own, put_wishes(s, wishes, note, err), err);
}

enum rt_err rt_store_wishes(struct rt_store *s, struct rt_wishes *out, struct rt_error *err)
{
	enum rt_err rc = RT__LOAD(s, RT__SQL_WISH_LIST, RT__NO_CELLS, &rt_wish_record, out, err);

	for (size_t i = 0; i < out->n; i++)
		out->at[i].file = "";
	return rc;
}

/* ---- start times ----------------------------------------------------------------------------- */

static enum rt_err put_settings(struct rt_store *s, const struct rt_time_settings *t,
				int64_t version, struct rt_error *err)
{
	return rt__run(s, RT__SQL_TIMES_SETTING_INSERT,
		       RT__CELLS(rt__int(version), rt__int(t->days), rt__int(t->open_s),
				 rt__int(t->close_s),
				 rt__int_unless(t->gap_s[RT_SHARED_DRIVER], -1),
				 rt__int_unless(t->gap_s[RT_SHARED_HORSE], -1),
				 rt__int_unless(t->gap_s[RT_SHARED_GROOM], -1),
				 rt__int_unless(t->gap_s[RT_SHARED_CARRIAGE], -1),
				 rt__int_unless(t->gap_s[RT_SHARED_JUDGE], -1),
				 rt__int(t->change_s), rt__int(t->seed)),
		       err);
}

static enum rt_err put_start(struct rt_store *s, const struct rt_start *start, int64_t version,
			     struct rt_error *err)
{
	return rt__run(s, RT__SQL_START_TIME_INSERT,
		       RT__CELLS(rt__int(start->entry->id), rt__int(version), rt__text(start->ring),
				 rt__int(start->at_s), rt__int(start->slot_s),
				 rt__int(start->pause_s), rt__text(rt_pause_words(start->pause))),
		       err);
}

static enum rt_err put_change(struct rt_store *s, const struct rt_times_note *note,
			      const struct rt_time_settings *settings, struct rt_starts *starts,
			      const int64_t *gone, size_t gone_n, int64_t *version,
			      struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_TIMES_CHANGE_INSERT,
				 RT__CELLS(rt__text(note->what), rt__text(note->words),
					   rt__given(note->why), rt__given(note->who),
					   rt__given(note->when)),
				 err);

	*version = sqlite3_last_insert_rowid(s->db);
	if (!rc && settings)
		rc = put_settings(s, settings, *version, err);
	for (size_t i = 0; i < starts->n && !rc; i++) {
		if (starts->at[i].version)
			continue;
		rc = put_start(s, &starts->at[i], *version, err);
		starts->at[i].version = *version;
	}
	for (size_t i = 0; i < gone_n && !rc; i++)
		rc = rt__run(s, RT__SQL_START_TIME_INSERT,
			     RT__CELLS(rt__int(gone[i]), rt__int(*version), rt__text(NULL),
				       rt__int_unless(0, 0), rt__int_unless(0, 0),
				       rt__int_unless(0, 0), rt__text(NULL)),
			     err);
	return rc;
}

enum rt_err rt_store_times_put(struct rt_store *s, const struct rt_times_note *note,
			       const struct rt_time_settings *settings, struct rt_starts *starts,
			       const int64_t *gone, size_t gone_n, int64_t *version,
			       struct rt_error *err)
{
	bool own;
	enum rt_err rc = rt__together(s, true, &own, err);

	if (rc)
		return rc;
	rc = put_change(s, note, settings, starts, gone, gone_n, version, err);
	return rt__together_end(s, own, rc, err);
}

static int compare_ids(const void *left, const void *right)
{
	const struct rt_entry *a = *(const struct rt_entry *const *)left;
	const struct rt_entry *b = *(const struct rt_entry *const *)right;

	return (a->id > b->id) - (a->id < b->id);
}

/* The entries by id; NULL when memory is out. */
static const struct rt_entry **entries_by_id(const struct rt_entries *entries)
{
	const struct rt_entry **by_id = calloc(entries->n + 1, sizeof *by_id);

	for (size_t i = 0; by_id && i < entries->n; i++)
		by_id[i] = &entries->at[i];
	if (by_id)
		qsort(by_id, entries->n, sizeof *by_id, compare_ids);
	return by_id;
}

static const struct rt_entry *entry_of(const struct rt_entry **by_id, size_t n, int64_t id)
{
	const struct rt_entry key = {.id = id}, *wanted = &key;
	const struct rt_entry **found = bsearch(&wanted, by_id, n, sizeof *by_id, compare_ids);

	return found ? *found : NULL;
}

static void read_start(struct rt__rows *rows, const struct rt_entry *entry, struct rt_start *start)
{
	start->entry = entry;
	start->ring = rt__name_at(rows, 1);
	start->at_s = rt__int_in(rows, 2, 0, LATEST_DAY * RT_DAY_S - 1);
	start->slot_s = rt__int_in(rows, 3, 1, RT_DAY_S);
	start->pause_s = rt__int_in(rows, 4, 0, RT_DAY_S);
	if (!rt_pause_read(rt__words_at(rows, 5), &start->pause))
		rt__rows_damaged(rows);
	start->version = rt__int_at(rows, 6);
	start->place = rt__int_in(rows, 7, 0, RT_NUMBER_MOST);
}

enum rt_err rt_store_times(struct rt_store *s, const struct rt_entries *entries,
			   struct rt_starts *out, struct rt_error *err)
{
	const struct rt_entry **by_id = entries_by_id(entries);
	struct rt__rows rows;

	if (!by_id)
		return rt_fail_nomem(err);
	rows = rt__open_rows(s, RT__SQL_START_TIME_LIST, RT__NO_CELLS, &out->text, err);
	while (rt__next(&rows)) {
		const struct rt_entry *entry = entry_of(by_id, entries->n, rt__int_at(&rows, 0));
		struct rt_start *start = entry ? RT_LIST_ADD(out) : NULL;

		if (start)
			read_start(&rows, entry, start);
		else if (entry)
			rt__rows_nomem(&rows);
	}
	free(by_id);
	rt_starts_sort(out);
	return rows.rc;
}

enum rt_err rt_store_time_settings(struct rt_store *s, struct rt_time_settings *out, bool *found,
				   struct rt_error *err)
{
	struct rt_arena *text = NULL;
	struct rt__rows rows = rt__open_rows(s, RT__SQL_TIMES_SETTING_LATEST, RT__NO_CELLS, &text,
					     err);

	*found = rt__next(&rows);
	if (*found) {
		out->days = rt__int_in(&rows, 0, 1, RT_DAYS_MOST);
		out->open_s = rt__int_in(&rows, 1, 0, RT_DAY_S);
		out->close_s = rt__int_in(&rows, 2, out->open_s, RT_DAY_S);
		for (int i = 0; i < RT_SHARED_COUNT; i++)
			out->gap_s[i] = rt__int_in_or(&rows, 3 + i, 0, RT_DAY_S, -1);
		out->change_s = rt__int_in(&rows, 8, 0, RT_DAY_S);
		out->seed = rt__int_in(&rows, 9, 1, RT_SEED_MOST);
		rt__close_rows(&rows);
	}
	rt_arena_free(text);
	return rows.rc;
}

enum rt_err rt_store_times_changes(struct rt_store *s, struct rt_times_notes *out,
				   struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_TIMES_CHANGE_LIST, RT__NO_CELLS, &out->text,
					     err);
	struct rt_times_note *note;

	while ((note = RT__NEXT(&rows, out))) {
		note->version = rt__int_at(&rows, 0);
		note->what = rt__name_at(&rows, 1);
		note->words = rt__name_at(&rows, 2);
		note->why = rt__text_at(&rows, 3);
		note->who = rt__text_at(&rows, 4);
		note->when = rt__text_at(&rows, 5);
	}
	return rows.rc;
}

enum rt_err rt_store_list_versions(struct rt_store *s, struct rt_list_versions *out,
				   struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_TIMES_LIST_VERSION, RT__NO_CELLS,
					     &out->text, err);
	struct rt_list_version *v;

	while ((v = RT__NEXT(&rows, out)))
		*v = (struct rt_list_version){rt__name_at(&rows, 0), NULL,
					      rt__int_in(&rows, 1, 1, LATEST_DAY),
					      rt__int_at(&rows, 2)};
	if (rows.rc)
		return rows.rc;
	rows = rt__open_rows(s, RT__SQL_TIMES_CLASS_VERSION, RT__NO_CELLS, &out->text, err);
	while ((v = RT__NEXT(&rows, out)))
		*v = (struct rt_list_version){NULL, rt__name_at(&rows, 0), 0, rt__int_at(&rows, 1)};
	return rows.rc;
}
