/* What is said of the judges of a class and of its ties: boxes that nobody can be asked about,
 * judges who were away, decisions between equal entries.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* ---- put ------------------------------------------------------------------------------------- */

enum rt_err rt_store_missing_put(struct rt_store *s, int64_t entry, int64_t judge, int64_t item,
				 bool missing, const struct rt_reason *said, struct rt_error *err)
{
	enum rt_err rc = rt__need_transaction(s, err);

	return rc ? rc
		  : rt__run(s, RT__SQL_MISSING_MARK_INSERT,
			    RT__CELLS(rt__int(entry), rt__int(judge), rt__int(item),
				      rt__bool(missing), rt__given(said->why), rt__given(said->who),
				      rt__given(said->when)),
			    err);
}

enum rt_err rt_store_away_put(struct rt_store *s, int64_t entry, int64_t judge, bool away,
			      const struct rt_reason *said, struct rt_error *err)
{
	enum rt_err rc = rt__need_transaction(s, err);

	return rc ? rc
		  : rt__run(s, RT__SQL_JUDGE_AWAY_INSERT,
			    RT__CELLS(rt__int(entry), rt__int(judge), rt__bool(away),
				      rt__given(said->why), rt__given(said->who),
				      rt__given(said->when)),
			    err);
}

enum rt_err rt_store_decision_put(struct rt_store *s, const char *class_name, const int64_t *entry,
				  size_t n, const struct rt_reason *said, struct rt_error *err)
{
	enum rt_err rc = rt__need_transaction(s, err);
	int64_t decision;

	if (!rc)
		rc = rt__run(s, RT__SQL_DECISION_INSERT,
			     RT__CELLS(rt__text(class_name), rt__given(said->why),
				       rt__given(said->who), rt__given(said->when)),
			     err);
	decision = sqlite3_last_insert_rowid(s->db);
	for (size_t i = 0; i < n && !rc; i++)
		rc = rt__run(
			s, RT__SQL_DECISION_PLACE_INSERT,
			RT__CELLS(rt__int(decision), rt__int((int64_t)i + 1), rt__int(entry[i])),
			err);
	return rc;
}

/* ---- load ------------------------------------------------------------------------------------ */

enum rt_err rt__load_decisions(struct rt_store *s, const char *class_name, struct rt_decisions *out,
			       struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_DECISION_LIST,
					     RT__CELLS(rt__text(class_name)), &out->text, err);
	struct rt_decision *d;

	while ((d = RT__NEXT(&rows, out))) {
		d->decision = rt__int_at(&rows, 0);
		d->number = rt__int_in(&rows, 1, 0, RT_NUMBER_MOST);
		d->rank = rt__int_in(&rows, 2, 1, RT_NUMBER_MOST);
		d->who = rt__name_at(&rows, 3);
		d->why = rt__name_at(&rows, 4);
		d->when = rt__text_at(&rows, 5);
	}
	return rows.rc;
}

static size_t entry_place(const struct rt_entries *entries, int64_t id)
{
	size_t i;

	for (i = 0; i < entries->n && entries->at[i].id != id; i++)
		;
	return i;
}

static enum rt_err load_missing(struct rt_store *s, struct rt_class_marks *m, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_MISSING_MARK_LIST,
					     RT__CELLS(rt__text(m->class_->name)), NULL, err);

	while (rt__next(&rows)) {
		size_t entry = entry_place(m->entries, rt__int_at(&rows, 0));
		size_t judge = rt__judge_place(&m->class_->judges, rt__int_at(&rows, 1));
		size_t item = rt__item_place(m->items, rt__int_at(&rows, 2), 0);

		if (entry == m->entries->n || judge == m->class_->judges.n || item == m->items->n)
			rt__rows_damaged(&rows);
		else
			rt_class_marks_box(m, entry, judge, item)->missing = true;
	}
	return rows.rc;
}

static enum rt_err load_away(struct rt_store *s, struct rt_class_marks *m, struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_JUDGE_AWAY_LIST,
					     RT__CELLS(rt__text(m->class_->name)), NULL, err);

	while (rt__next(&rows)) {
		size_t entry = entry_place(m->entries, rt__int_at(&rows, 0));
		size_t judge = rt__judge_place(&m->class_->judges, rt__int_at(&rows, 1));

		if (entry == m->entries->n || judge == m->class_->judges.n)
			rt__rows_damaged(&rows);
		else
			m->lines[entry * m->class_->judges.n + judge].away = true;
	}
	return rows.rc;
}

enum rt_err rt_store_away(struct rt_store *s, const char *class_name, struct rt_away_sheets *out,
			  struct rt_error *err)
{
	struct rt__rows rows = rt__open_rows(s, RT__SQL_JUDGE_AWAY_LIST,
					     RT__CELLS(rt__text(class_name)), NULL, err);
	struct rt_away_sheet *away;

	while ((away = RT__NEXT(&rows, out)))
		*away = (struct rt_away_sheet){rt__int_at(&rows, 1), rt__int_at(&rows, 2)};
	return rows.rc;
}

enum rt_err rt__load_said(struct rt_store *s, struct rt_class_marks *m, struct rt_error *err)
{
	enum rt_err rc = load_missing(s, m, err);

	return rc ? rc : load_away(s, m, err);
}
