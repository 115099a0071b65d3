/* Everything that is scored in one class, as it stands at one moment.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <string.h>

/* ---- rows of a class ------------------------------------------------------------------------- */

/* The class's rule, or else its test's. */
static enum rt_err find_rule(struct rt_store *s, struct rt_class_book *book, struct rt_error *err)
{
	const struct rt_class *c = book->classes.at;
	const char *name = c->rule ? c->rule : book->tests.at->rule;
	enum rt_err rc;

	if (!name)
		return rt_fail(err, RT_E_INPUT,
			       "neither class %s nor its test %s names a rule: the column rule of "
			       "either says how the class is scored",
			       c->name, c->test);
	rc = rt__load_rules(s, &book->rules, err);
	if (rc)
		return rc;
	book->marks.rule = rt_rule_find(&book->rules, name);
	return book->marks.rule ? RT_OK : rt__damaged(s, err);
}

/* ---- marks ----------------------------------------------------------------------------------- */

/* The marks of an entry; a later version comes after the earlier ones and stays. */
static enum rt_err load_marks(struct rt_store *s, struct rt_class_marks *m, size_t entry,
			      struct rt_error *err)
{
	const struct rt_judges *judges = &m->class_->judges;
	struct rt__rows rows = rt__open_rows(
		s, RT__SQL_MARK_LIST, RT__CELLS(rt__int(m->entries->at[entry].id)), NULL, err);
	size_t item = 0;

	while (rt__next(&rows)) {
		size_t judge = RT__PLACE_BY_ID(struct rt_judge, judges, rt__int_at(&rows, 0), 0);
		int64_t keying = rt__int_in(&rows, 2, 1, RT_KEYINGS);

		item = RT__PLACE_BY_ID(struct rt_item, m->items, rt__int_at(&rows, 1), item);
		if (judge == judges->n || item == m->items->n) {
			rt__rows_damaged(&rows);
			continue;
		}
		rt_class_marks_box(m, entry, judge, item)->keyed_x100[keying - 1] = rt__mark_at(
			&rows, 3, RT_MARK_ITEM);
	}
	return rows.rc;
}

static enum rt_err load_lines(struct rt_store *s, struct rt_class_marks *m, size_t entry,
			      struct rt_error *err)
{
	const struct rt_judges *judges = &m->class_->judges;
	struct rt__rows rows = rt__open_rows(s, RT__SQL_SHEET_LINE_LIST,
					     RT__CELLS(rt__int(m->entries->at[entry].id)), NULL,
					     err);

	while (rt__next(&rows)) {
		size_t judge = RT__PLACE_BY_ID(struct rt_judge, judges, rt__int_at(&rows, 0), 0);
		enum rt_mark_kind kind = rt__mark_kind_at(&rows, 1);
		int64_t value = rt__mark_at(&rows, 3, kind);
		int64_t keying = rt__int_in(&rows, 2, 1, RT_KEYINGS);
		struct rt_sheet_lines *lines;

		if (judge == judges->n || kind == RT_MARK_ITEM) {
			rt__rows_damaged(&rows);
			continue;
		}
		lines = &m->lines[entry * judges->n + judge];
		if (kind == RT_MARK_ERRORS)
			lines->errors[keying - 1] = value;
		else
			lines->total_x100000[keying - 1] = value;
	}
	return rows.rc;
}

static bool has_total(const struct rt_sheet_lines *lines, size_t n)
{
	for (size_t i = 0; i < n; i++)
		for (int k = 0; k < RT_KEYINGS; k++)
			if (lines[i].total_x100000[k] >= 0)
				return true;
	return false;
}

/* Who said the hand totals: looked up only where there are any. */
static enum rt_err load_total_hands(struct rt_store *s, struct rt_class_marks *m,
				    struct rt_error *err)
{
	struct rt_mark_versions versions = {0};
	enum rt_err rc;

	if (!has_total(m->lines, m->entries->n * m->class_->judges.n))
		return RT_OK;
	rc = rt_store_mark_versions(s, m->class_->name, -1, &versions, err);
	if (!rc)
		rt_totals_by_others(m, &versions);
	RT_LIST_FREE(&versions);
	return rc;
}

/* ---- what is said of boxes and judges ---------------------------------------------------------
 */

/* Which boxes nobody can be asked about, or whose judges were away. */
static enum rt_err load_said(struct rt_store *s, struct rt_class_marks *m, enum rt__sql sql,
			     struct rt_error *err)
{
	const struct rt_judges *judges = &m->class_->judges;
	struct rt__rows rows = rt__open_rows(s, sql, RT__CELLS(rt__text(m->class_->name)), NULL,
					     err);
	bool of_boxes = sql == RT__SQL_MISSING_MARK_LIST;
	size_t entry = 0, item = 0;

	while (rt__next(&rows)) {
		size_t judge = RT__PLACE_BY_ID(struct rt_judge, judges, rt__int_at(&rows, 1), 0);

		entry = RT__PLACE_BY_ID(struct rt_entry, m->entries, rt__int_at(&rows, 0), entry);
		if (of_boxes)
			item = RT__PLACE_BY_ID(struct rt_item, m->items, rt__int_at(&rows, 2),
					       item);
		if (entry == m->entries->n || judge == judges->n ||
		    (of_boxes && item == m->items->n))
			rt__rows_damaged(&rows);
		else if (of_boxes)
			rt_class_marks_box(m, entry, judge, item)->missing = true;
		else
			m->lines[entry * judges->n + judge].away = true;
	}
	return rows.rc;
}

/* ---- the book -------------------------------------------------------------------------------- */

enum rt_err rt_store_class_book(struct rt_store *s, const char *class_name,
				struct rt_class_book *out, struct rt_error *err)
{
	struct rt_class_marks *m = &out->marks;
	enum rt_err rc = rt__need_transaction(s, err);

	if (!rc)
		rc = rt__load_class(s, class_name, &out->classes, err);
	if (!rc)
		rc = rt__load_test(s, out->classes.at->test, &out->tests, err);
	if (!rc && out->tests.n == 0)
		rc = rt__damaged(s, err);
	if (!rc)
		rc = find_rule(s, out, err);
	if (!rc)
		rc = rt_store_items(s, out->tests.at->name, &out->items, err);
	if (!rc)
		rc = rt_store_entries(s, class_name, &out->entries, err);
	if (!rc)
		rc = rt__load_penalties(s, class_name, &out->penalties, err);
	if (!rc)
		rc = rt__load_decisions(s, class_name, &out->decisions, err);
	if (!rc)
		rc = rt_store_judged(s, class_name, &out->judged, err);
	if (rc)
		return rc;
	m->class_ = out->classes.at;
	m->test = out->tests.at;
	m->items = &out->items;
	m->entries = &out->entries;
	m->penalties = &out->penalties;
	m->decisions = &out->decisions;
	m->judged = &out->judged;
	rc = rt_class_marks_make(m, err);
	for (size_t i = 0; i < out->entries.n && !rc; i++) {
		rc = load_marks(s, m, i, err);
		if (!rc)
			rc = load_lines(s, m, i, err);
	}
	if (!rc)
		rc = load_total_hands(s, m, err);
	if (!rc)
		rc = load_said(s, m, RT__SQL_MISSING_MARK_LIST, err);
	return rc ? rc : load_said(s, m, RT__SQL_JUDGE_AWAY_LIST, err);
}

void rt_class_book_free(struct rt_class_book *book)
{
	rt_class_marks_free(&book->marks);
	RT_LIST_FREE(&book->penalties);
	RT_LIST_FREE(&book->decisions);
	RT_LIST_FREE(&book->judged);
	RT_LIST_FREE(&book->entries);
	RT_LIST_FREE(&book->items);
	RT_LIST_FREE(&book->rules);
	RT_LIST_FREE(&book->tests);
	rt_classes_free(&book->classes);
	*book = (struct rt_class_book){0};
}
