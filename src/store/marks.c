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
	return rt__int_in(r, column, 0, rt_mark_most(kind));
}

/* The box of a sheet, or the line below the boxes, as the first parameters of its statements. */
struct box {
	struct rt__cell entry, judge, which;
	enum rt__sql insert, latest;
	enum rt_mark_kind kind;
};

struct value {
	int64_t value;
	const char *remark;
};

/* What a box says now. */
struct latest {
	int64_t version, value;
};

static struct box box_of(int64_t entry, int64_t judge, int64_t item, enum rt_mark_kind kind)
{
#define RT_WORDS(code, words) words,
	static const char *const words[] = {RT_MARK_KINDS(RT_WORDS)};
#undef RT_WORDS
	struct box box = {.entry = rt__int(entry), .judge = rt__int(judge), .kind = kind};

	if (kind == RT_MARK_ITEM) {
		box.which = rt__int(item);
		box.insert = RT__SQL_MARK_INSERT;
		box.latest = RT__SQL_MARK_LATEST;
	} else {
		box.which = rt__text(words[kind]);
		box.insert = RT__SQL_SHEET_LINE_INSERT;
		box.latest = RT__SQL_SHEET_LINE_LATEST;
	}
	return box;
}

enum rt_err rt_store_pass_begin(struct rt_store *s, const struct rt_pass *pass,
				struct rt_error *err)
{
	enum rt_err rc = rt__need_transaction(s, err);

	if (!rc)
		rc = rt__run(s, RT__SQL_PASS_INSERT,
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
static enum rt_err insert(struct rt_store *s, const struct box *box, int64_t version,
			  const struct value *value, bool *added, struct rt_error *err)
{
	enum rt_err rc = rt__run(s, box->insert,
				 RT__CELLS(box->entry, box->judge, box->which, rt__int(s->keying),
					   rt__int(version), rt__int(value->value),
					   rt__int(s->pass), rt__given(value->remark)),
				 err);

	*added = !rc && sqlite3_changes(s->db) > 0;
	return rc;
}

static enum rt_err look_up(struct rt_store *s, const struct box *box, struct latest *out,
			   struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(
		s, box->latest, RT__CELLS(box->entry, box->judge, box->which, rt__int(s->keying)),
		NULL, err);

	if (rt__next(&rows)) {
		out->version = rt__int_in(&rows, 0, 1, RT__VERSION_MOST);
		out->value = rt__mark_at(&rows, 1, box->kind);
		rt__close_rows(&rows);
	} else if (!rows.rc) {
		rt__rows_damaged(&rows); /* it could not be inserted, so it is there */
	}
	return rows.rc;
}

/* Put a value into a box that is not empty. */
static enum rt_err put_again(struct rt_store *s, const struct box *box, const struct value *value,
			     enum rt_mark_put *what, struct rt_error *err)
{
	struct latest latest = {0};
	bool added;
	enum rt_err rc = look_up(s, box, &latest, err);

	if (rc)
		return rc;
	*what = latest.value == value->value ? RT_MARK_SAME : RT_MARK_CHANGED;
	if (*what == RT_MARK_SAME)
		return RT_OK;
	return insert(s, box, latest.version + 1, value, &added, err);
}

enum rt_err rt_store_sheets_keyed(struct rt_store *s, const char *class_name,
				  size_t keyed[RT_KEYINGS], struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (int k = 0; k < RT_KEYINGS && !rc; k++) {
		int64_t n = 0;

		rc = rt__get_int(s, RT__SQL_SHEETS_KEYED,
				 RT__CELLS(rt__text(class_name), rt__int(k + 1)), &n, NULL, err);
		keyed[k] = (size_t)n;
	}
	return rc;
}

enum rt_err rt_store_mark_put(struct rt_store *s, int64_t entry, int64_t judge, int64_t item,
			      enum rt_mark_kind kind, int64_t value, const char *remark,
			      enum rt_mark_put *what, struct rt_error *err)
{
	const struct box box = box_of(entry, judge, item, kind);
	const struct value said = {value, remark};
	bool added;
	enum rt_err rc;

	if (!s->pass)
		return rt_fail(err, RT_E_USAGE, "begin a pass before marks are put");
	*what = RT_MARK_NEW;
	rc = insert(s, &box, 1, &said, &added, err);
	return rc || added ? rc : put_again(s, &box, &said, what, err);
}

enum rt_err rt_store_mark_put_after(struct rt_store *s, int64_t entry, int64_t judge, int64_t item,
				    enum rt_mark_kind kind, int64_t value, const char *remark,
				    int64_t seen, bool *put, struct rt_error *err)
{
	const struct box box = box_of(entry, judge, item, kind);
	const struct value said = {value, remark};

	*put = false;
	if (!s->pass)
		return rt_fail(err, RT_E_USAGE, "begin a pass before marks are put");
	/* Versions have no gaps: this one is free only while the one seen is the latest. */
	return insert(s, &box, seen + 1, &said, put, err);
}

enum rt_err rt_store_class_marked(struct rt_store *s, const char *class_name, bool *marked,
				  struct rt_error *err)
{
	int64_t any = 0;
	enum rt_err rc = rt__get_int(s, RT__SQL_CLASS_MARKED, RT__CELLS(rt__text(class_name)), &any,
				     NULL, err);

	*marked = any != 0;
	return rc;
}

enum rt_err rt_store_entry_marked(struct rt_store *s, int64_t entry, bool *marked,
				  struct rt_error *err)
{
	int64_t any = 0;
	enum rt_err rc = rt__get_int(s, RT__SQL_ENTRY_MARKED, RT__CELLS(rt__int(entry)), &any, NULL,
				     err);

	*marked = any != 0;
	return rc;
}
