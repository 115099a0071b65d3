/* Results as they were posted: each posting is a version of its own, with what it said.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

static void read_posting(struct rt__rows *rows, struct rt_posting *out)
{
	out->id = rt__int_at(rows, 0);
	out->version = rt__int_at(rows, 1);
	out->who = rt__text_at(rows, 2);
	out->at = rt__text_at(rows, 3);
	out->until = rt__text_at(rows, 4);
}

enum rt_err rt_store_postings(struct rt_store *s, const char *class_name, struct rt_postings *out,
			      struct rt_error *err)
{
	struct rt__rows rows;
	int64_t known = 0;
	enum rt_err rc = rt__get_int(s, RT__SQL_CLASS_KNOWN, RT__CELLS(rt__text(class_name)),
				     &known, NULL, err);

	if (rc || !known)
		return rc ? rc : rt__no_class(s, class_name, err);
	rows = rt__open_rows(s, RT__SQL_POSTING_LIST, RT__CELLS(rt__text(class_name)), &out->text,
			     err);
	while (rt__next(&rows)) {
		struct rt_posting *posting = RT_LIST_ADD(out);

		if (posting)
			read_posting(&rows, posting);
		else
			rt__rows_nomem(&rows);
	}
	return rows.rc;
}

static enum rt_err load_places(struct rt_store *s, struct rt_posting *out, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_POSTED_PLACE_LIST,
					     RT__CELLS(rt__int(out->id)), &out->places.text, err);

	while (rt__next(&rows)) {
		struct rt_posted *p = RT_LIST_ADD(&out->places);

		if (!p) {
			rt__rows_nomem(&rows);
			continue;
		}
		p->number = rt__int_at(&rows, 0);
		p->place = (size_t)rt__int_at(&rows, 1);
		p->status = rt__text_at(&rows, 2);
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
