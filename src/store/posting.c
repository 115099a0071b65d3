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
	{"unit", RT_AT(struct rt_posting, unit), .type = RT_TEXT},
};

static const struct rt_record posting_record = {RT_FIELDS(posting_fields),
						.size = sizeof(struct rt_posting)};

#define POSTED(member) RT_AT(struct rt_posted, member)

static const struct rt_field posted_fields[] = {
	{"entry", POSTED(entry), .type = RT_INT},
	{"number", POSTED(number), .type = RT_INT, .low = 1, .high = RT_NUMBER_MOST},
	{"driver", POSTED(driver), .type = RT_TEXT},
	{"horses", POSTED(horses), .type = RT_TEXT},
	{"club", POSTED(club), .type = RT_TEXT, .is = RT_EMPTY},
	{"division", POSTED(division), .type = RT_TEXT, .is = RT_EMPTY},
	{"place", POSTED(place), .type = RT_SIZE, .is = RT_EMPTY, .low = 1, .high = RT_NUMBER_MOST},
	{"status", POSTED(status), .type = RT_TEXT},
	{"why", POSTED(why), .type = RT_TEXT, .is = RT_EMPTY},
	{"starter", POSTED(starter), .type = RT_BOOL},
	{"score", POSTED(score), .type = RT_TEXT, .is = RT_EMPTY},
	{"percent", POSTED(percent), .type = RT_TEXT, .is = RT_EMPTY},
	{"technical", POSTED(technical), .type = RT_TEXT, .is = RT_EMPTY},
	{"artistic", POSTED(artistic), .type = RT_TEXT, .is = RT_EMPTY},
	{"added", POSTED(added), .type = RT_TEXT, .is = RT_EMPTY},
	{"off", POSTED(off), .type = RT_TEXT, .is = RT_EMPTY},
	{"parted_by", POSTED(parted_by), .type = RT_TEXT, .is = RT_EMPTY},
};

static const struct rt_record posted_record = {RT_FIELDS(posted_fields),
					       .size = sizeof(struct rt_posted)};

#define SHEET(member) RT_AT(struct rt_posted_sheet, member)

static const struct rt_field sheet_fields[] = {
	{"entry", SHEET(entry), .type = RT_INT},
	{"position", SHEET(position), .type = RT_TEXT},
	{"points", SHEET(points), .type = RT_TEXT},
	{"percent", SHEET(percent), .type = RT_TEXT},
	{"place", SHEET(place), .type = RT_SIZE, .is = RT_EMPTY, .low = 1, .high = RT_NUMBER_MOST},
};

static const struct rt_record sheet_record = {RT_FIELDS(sheet_fields),
					      .size = sizeof(struct rt_posted_sheet)};

enum rt_err rt_store_postings(struct rt_store *s, const char *class_name, struct rt_postings *out,
			      struct rt_error *err)
{
	enum rt_err rc = rt__need_class(s, class_name, err);

	return rc ? rc
		  : RT__LOAD(s, RT__SQL_POSTING_LIST, RT__CELLS(rt__text(class_name)),
			     &posting_record, out, err);
}

static enum rt_err load_posted(struct rt_store *s, struct rt_posting *out, struct rt_error *err)
{
	const struct rt__cell id = rt__int(out->id);
	enum rt_err rc = RT__LOAD(s, RT__SQL_POSTED_PLACE_LIST, RT__CELLS(id), &posted_record,
				  &out->places, err);

	if (!rc)
		rc = RT__LOAD(s, RT__SQL_POSTED_JUDGE_LIST, RT__CELLS(id), &sheet_record,
			      &out->sheets, err);
	if (!rc)
		rc = rt__load_names(s, RT__SQL_POSTED_NOTE_LIST, RT__CELLS(id), &out->notes, err);
	return rc;
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
	return load_posted(s, out, err);
}

enum rt_err rt_store_posting_followed(struct rt_store *s, const char *class_name,
				      const struct rt_posting *posting, bool *followed,
				      struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_POSTING_FOLLOWED,
					     RT__CELLS(rt__text(class_name), rt__text(posting->at)),
					     NULL, err);

	*followed = rt__next(&rows) && rt__int_in(&rows, 0, 0, 1) == 1;
	rt__close_rows(&rows);
	return rows.rc;
}

static enum rt_err put_notes(struct rt_store *s, struct rt__cell posting,
			     const struct rt_strings *notes, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < notes->n && !rc; i++)
		rc = rt__run(s, RT__SQL_POSTED_NOTE_INSERT,
			     RT__CELLS(posting, rt__int((int64_t)i + 1), rt__text(notes->at[i])),
			     err);
	return rc;
}

static enum rt_err put_posted(struct rt_store *s, const struct rt_posting *p, struct rt_error *err)
{
	const struct rt__cell id = rt__int(sqlite3_last_insert_rowid(s->db));
	enum rt_err rc = rt__run_list(s, RT__SQL_POSTED_PLACE_INSERT, &posted_record, p->places.at,
				      p->places.n, id, err);

	if (!rc)
		rc = rt__run_list(s, RT__SQL_POSTED_JUDGE_INSERT, &sheet_record, p->sheets.at,
				  p->sheets.n, id, err);
	return rc ? rc : put_notes(s, id, &p->notes, err);
}

enum rt_err rt_store_posting_put(struct rt_store *s, const struct rt_results *r, const char *who,
				 const char *when, int64_t minutes, struct rt_error *err)
{
	struct rt_posting p = {0};
	enum rt_err rc = rt_posting_make(&p, r, err);

	if (!rc)
		rc = rt__run(s, RT__SQL_POSTING_INSERT,
			     RT__CELLS(rt__text(r->of->class_->name), rt__given(who),
				       rt__text(when), rt__int(minutes), rt__text(p.unit)),
			     err);
	if (!rc)
		rc = put_posted(s, &p, err);
	rt_posting_free(&p);
	return rc;
}
