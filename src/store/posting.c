/* Results as they were posted: each posting is a version of its own, with what it said.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

/* A moment to the second, as postings have it: it is compared as text, and its time cut out. */
static enum rt_err read_moment(const struct rt_field *f, void *member, const char *s,
			       struct rt_arena **text, struct rt_error *err)
{
	if (strlen(s) != strlen("2026-05-09 18:00:00") || !rt_parse_when(s))
		return rt_refuse(err, s, "is no moment", "as 2026-05-09 18:00:00");
	return rt_member_read(f, member, s, text, err);
}

#define MOMENT .type = RT_TEXT, .read = read_moment

static const struct rt_field posting_fields[] = {
	{"id", RT_AT(struct rt_posting, id), .type = RT_INT},
	{"version", RT_AT(struct rt_posting, version), .type = RT_INT, .low = 1,
	 .high = RT__VERSION_MOST},
	{"who", RT_AT(struct rt_posting, who), .type = RT_TEXT},
	{"at", RT_AT(struct rt_posting, at), MOMENT},
	{"until", RT_AT(struct rt_posting, until), MOMENT},
};

static const struct rt_record posting_record = {RT_FIELDS(posting_fields),
						.size = sizeof(struct rt_posting)};

static const struct rt_field posted_fields[] = {
	{"number", RT_AT(struct rt_posted, number), .type = RT_INT, .low = 1,
	 .high = RT_NUMBER_MOST},
	{"place", RT_AT(struct rt_posted, place), .type = RT_SIZE, .is = RT_EMPTY, .low = 1,
	 .high = RT_NUMBER_MOST},
	{"status", RT_AT(struct rt_posted, status), .type = RT_TEXT},
	{"score", RT_AT(struct rt_posted, score), .type = RT_TEXT, .is = RT_EMPTY},
	{"percent", RT_AT(struct rt_posted, percent), .type = RT_TEXT, .is = RT_EMPTY},
};

static const struct rt_record posted_record = {RT_FIELDS(posted_fields),
					       .size = sizeof(struct rt_posted)};

enum rt_err rt_store_postings(struct rt_store *s, const char *class_name, struct rt_postings *out,
			      struct rt_error *err)
{
	enum rt_err rc = rt__need_class(s, class_name, err);

	return rc ? rc
		  : RT__LOAD(s, RT__SQL_POSTING_LIST, RT__CELLS(rt__text(class_name)),
			     &posting_record, out, err);
}

enum rt_err rt_store_posting_latest(struct rt_store *s, const char *class_name,
				    struct rt_posting *out, bool *found, struct rt_error *err)
{
	struct rt_arena *text = NULL;
	struct rt__rows rows = rt__open_rows(s, RT__SQL_POSTING_LATEST,
					     RT__CELLS(rt__text(class_name)), &text, err);

	*found = rt__next(&rows);
	if (!*found)
		return rows.rc;
	rt__read_row(&rows, &posting_record, out);
	out->places.text = text;
	rt__close_rows(&rows);
	if (rows.rc)
		return rows.rc;
	return RT__LOAD(s, RT__SQL_POSTED_PLACE_LIST, RT__CELLS(rt__int(out->id)), &posted_record,
			&out->places, err);
}

enum rt_err rt_store_posting_followed(struct rt_store *s, const char *class_name,
				      const struct rt_posting *posting, bool *followed,
				      struct rt_error *err)
{
	struct rt__rows rows =
		rt__open_rows(s, RT__SQL_POSTING_FOLLOWED,
			      RT__CELLS(rt__text(class_name), rt__text(posting->at)), NULL, err);

	*followed = rt__next(&rows) && rt__int_in(&rows, 0, 0, 1) == 1;
	rt__close_rows(&rows);
	return rows.rc;
}

static enum rt_err put_place(struct rt_store *s, int64_t posting, const struct rt_results *r,
			     const struct rt_result *result, struct rt_error *err)
{
	struct rt_arena *text = NULL;
	struct rt_posted p;
	enum rt_err rc = rt_posted_make(&p, r, result, &text, err);

	if (!rc)
		rc = rt__run_row(s, RT__SQL_POSTED_PLACE_INSERT, &posted_record, &p,
				 RT__CELLS(rt__int(posting), rt__int(result->entry->id)), err);
	rt_arena_free(text);
	return rc;
}

enum rt_err rt_store_posting_put(struct rt_store *s, const struct rt_results *r, const char *who,
				 const char *when, int64_t minutes, struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_POSTING_INSERT,
				 RT__CELLS(rt__text(r->of->class_->name), rt__given(who),
					   rt__text(when), rt__int(minutes)),
				 err);
	int64_t posting = sqlite3_last_insert_rowid(s->db);

	for (size_t i = 0; i < r->n && !rc; i++)
		rc = put_place(s, posting, r, &r->at[i], err);
	return rc;
}
