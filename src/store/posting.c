/* Results as they were posted: each posting is a version of its own, with what it said.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

/* A moment to the second, as postings have it: it is compared as text, and its time cut out. */
static const char *moment_at(struct rt__rows *rows, int column)
{
	const char *moment = rt__name_at(rows, column);

	if (strlen(moment) != strlen("2026-05-09 18:00:00") || !rt_parse_when(moment))
		rt__rows_damaged(rows);
	return moment;
}

static void read_posting(struct rt__rows *rows, struct rt_posting *out)
{
	out->id = rt__int_at(rows, 0);
	out->version = rt__int_in(rows, 1, 1, RT__VERSION_MOST);
	out->who = rt__name_at(rows, 2);
	out->at = moment_at(rows, 3);
	out->until = moment_at(rows, 4);
}

enum rt_err rt_store_postings(struct rt_store *s, const char *class_name, struct rt_postings *out,
			      struct rt_error *err)
{
	struct rt__rows rows;
	int64_t known = 0;
	enum rt_err rc = rt__get_int(s, RT__SQL_CLASS_KNOWN, RT__CELLS(rt__text(class_name)),
				     &known, NULL, err);
	struct rt_posting *posting;

	if (rc || !known)
		return rc ? rc : rt__no_class(s, class_name, err);
	rows = rt__open_rows(s, RT__SQL_POSTING_LIST, RT__CELLS(rt__text(class_name)), &out->text,
			     err);
	while ((posting = RT__NEXT(&rows, out)))
		read_posting(&rows, posting);
	return rows.rc;
}

static enum rt_err load_places(struct rt_store *s, struct rt_posting *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_POSTED_PLACE_LIST,
					     RT__CELLS(rt__int(out->id)), &out->places.text, err);
	struct rt_posted *p;

	while ((p = RT__NEXT(&rows, &out->places))) {
		p->number = rt__int_in(&rows, 0, 0, RT_NUMBER_MOST);
		p->place = (size_t)rt__int_in_or(&rows, 1, 1, RT_NUMBER_MOST, 0);
		p->status = rt__name_at(&rows, 2);
		p->score = rt__text_at(&rows, 3);
		p->percent = rt__text_at(&rows, 4);
	}
	return rows.rc;
}

enum rt_err rt_store_posting_latest(struct rt_store *s, const char *class_name,
				    struct rt_posting *out, bool *found, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(
		s, RT__SQL_POSTING_LATEST, RT__CELLS(rt__text(class_name)), &out->places.text, err);

	*found = rt__next(&rows);
	if (!*found)
		return rows.rc;
	read_posting(&rows, out);
	rt__close_rows(&rows);
	return rows.rc ? rows.rc : load_places(s, out, err);
}

static enum rt_err put_place(struct rt_store *s, int64_t posting, const struct rt_results *r,
			     const struct rt_result *result, struct rt_error *err)
{
	struct rt_arena *text = NULL;
	struct rt_posted p;
	enum rt_err rc = rt_posted_make(&p, r, result, &text, err);

	if (!rc)
		rc = rt__run(s, RT__SQL_POSTED_PLACE_INSERT,
			     RT__CELLS(rt__int(posting), rt__int(result->entry->id),
				       rt__int_unless((int64_t)p.place, 0), rt__text(p.status),
				       rt__text(p.score), rt__text(p.percent)),
			     err);
	rt_arena_free(text);
	return rc;
}

enum rt_err rt_store_posting_put(struct rt_store *s, const struct rt_results *r, const char *who,
				 const char *when, int64_t minutes, struct rt_error *err)
{
	enum rt_err rc = rt__need_transaction(s, err);
	int64_t posting;

	if (!rc)
		rc = rt__run(s, RT__SQL_POSTING_INSERT,
			     RT__CELLS(rt__text(r->of->class_->name), rt__given(who),
				       rt__text(when), rt__int(minutes)),
			     err);
	posting = sqlite3_last_insert_rowid(s->db);
	for (size_t i = 0; i < r->n && !rc; i++)
		rc = put_place(s, posting, r, &r->at[i], err);
	return rc;
}
