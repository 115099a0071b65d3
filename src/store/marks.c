/* Marks as they are keyed.  A row is never changed: what is keyed anew is a new version.
 *
 * A show has a hundred thousand marks and nearly all go into an empty box, so that is one
 * statement; only where the box is taken is it looked into.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

enum rt_mark_kind rt__mark_kind_at(struct rt__rows *r, int column)
{
	enum rt_mark_kind kind = RT_MARK_ITEM;

	if (!rt_mark_kind_read(rt__words_at(r, column), &kind))
		rt__rows_damaged(r);
	return kind;
}

int64_t rt__mark_at(struct rt__rows *r, int column, enum rt_mark_kind kind)
{
	return rt__int_in(r, column, RT_NO_MARK, rt_mark_most(kind));
}

/* What is put into a box of a sheet, or the line below the boxes. */
struct put {
	struct rt__cell entry, judge, which;
	enum rt__sql insert, latest;
	enum rt_mark_kind kind;
	int64_t value;
	const char *remark;
};

static struct put put_of(int64_t entry, int64_t judge, int64_t item, enum rt_mark_kind kind,
			 int64_t value, const char *remark)
{
	struct put put = {.entry = rt__int(entry),
			  .judge = rt__int(judge),
			  .which = rt__int(item),
			  .insert = RT__SQL_MARK_INSERT,
			  .latest = RT__SQL_MARK_LATEST,
			  .kind = kind,
			  .value = value,
			  .remark = remark};

	if (kind != RT_MARK_ITEM) {
		put.which = rt__text(rt_mark_kind_words(kind));
		put.insert = RT__SQL_SHEET_LINE_INSERT;
		put.latest = RT__SQL_SHEET_LINE_LATEST;
	}
	return put;
}

enum rt_err rt_store_pass_begin(struct rt_store *s, const struct rt_pass *pass,
				struct rt_error *err)
{
	enum rt_err rc = rt__run(s, RT__SQL_PASS_INSERT,
				 RT__CELLS(rt__int(pass->keying), rt__given(pass->who),
					   rt__given(pass->when), rt__given(pass->source),
					   rt__given(pass->why)),
				 err);

	if (rc)
		return rc;
	s->pass = sqlite3_last_insert_rowid(s->db);
	s->keying = pass->keying;
	return RT_OK;
}

/* Insert a version of the box; *added is false when it has that version already. */
static enum rt_err insert(struct rt_store *s, const struct put *put, int64_t version, bool *added,
			  struct rt_error *err)
{
	enum rt_err rc;

	*added = false;
	if (!s->pass)
		return rt_fail(err, RT_E_USAGE, "begin a pass before marks are put");
	rc = rt__run(s, put->insert,
		     RT__CELLS(put->entry, put->judge, put->which, rt__int(s->keying),
			       rt__int(version), rt__int(put->value), rt__int(s->pass),
			       rt__given(put->remark)),
		     err);
	*added = !rc && sqlite3_changes(s->db) > 0;
	return rc;
}

/* Put a value into a box that is not empty. */
static enum rt_err put_again(struct rt_store *s, const struct put *put, enum rt_mark_put *what,
			     struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(
		s, put->latest, RT__CELLS(put->entry, put->judge, put->which, rt__int(s->keying)),
		NULL, err);
	int64_t version = 0, value = 0;
	bool added;

	if (rt__next(&rows)) {
		version = rt__int_in(&rows, 0, 1, RT__VERSION_MOST);
		value = rt__mark_at(&rows, 1, put->kind);
		rt__close_rows(&rows);
	} else if (!rows.rc) {
		rt__rows_damaged(&rows); /* it could not be inserted, so it is there */
	}
	*what = value == put->value ? RT_MARK_SAME : value < 0 ? RT_MARK_NEW : RT_MARK_CHANGED;
	if (rows.rc || *what == RT_MARK_SAME)
		return rows.rc;
	return insert(s, put, version + 1, &added, err);
}

enum rt_err rt_store_sheets_keyed(struct rt_store *s, const char *class_name,
				  size_t keyed[RT_KEYINGS], struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (int k = 0; k < RT_KEYINGS && !rc; k++) {
		int64_t n = 0;

		rc = rt__get_int(s, RT__SQL_SHEETS_KEYED,
				 RT__CELLS(rt__text(class_name), rt__int(k + 1)), &n, err);
		keyed[k] = (size_t)n;
	}
	return rc;
}

enum rt_err rt_store_mark_put(struct rt_store *s, int64_t entry, int64_t judge, int64_t item,
			      enum rt_mark_kind kind, int64_t value, const char *remark,
			      enum rt_mark_put *what, struct rt_error *err)
{
	const struct put put = put_of(entry, judge, item, kind, value, remark);
	bool added;
	enum rt_err rc;

	*what = RT_MARK_NEW;
	if (value < 0)
		return rt_fail(err, RT_E_INPUT,
			       "the show file refuses this: a mark, errors or a total below 0");
	rc = insert(s, &put, 1, &added, err);
	return rc || added ? rc : put_again(s, &put, what, err);
}

enum rt_err rt_store_mark_put_after(struct rt_store *s, int64_t entry, int64_t judge, int64_t item,
				    enum rt_mark_kind kind, int64_t value, const char *remark,
				    int64_t seen, bool *added, struct rt_error *err)
{
	const struct put put = put_of(entry, judge, item, kind, value, remark);

	/* Versions have no gaps: this one is free only while the one seen is the latest. */
	return insert(s, &put, seen + 1, added, err);
}

enum rt_err rt_store_class_marked(struct rt_store *s, const char *class_name, bool *marked,
				  struct rt_error *err)
{
	return rt__ask(s, RT__SQL_CLASS_MARKED, RT__CELLS(rt__text(class_name)), marked, err);
}

enum rt_err rt_store_entry_marked(struct rt_store *s, int64_t entry, bool *marked,
				  struct rt_error *err)
{
	return rt__ask(s, RT__SQL_ENTRY_MARKED, RT__CELLS(rt__int(entry)), marked, err);
}
