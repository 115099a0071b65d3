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

/* The place of the item with this id.  Marks come in the order of ids and items nearly always
 * stand so, so the search goes on where the last one ended; items->n when there is none. */
static size_t item_place(const struct rt_items *items, int64_t id, size_t last)
{
	for (size_t k = 0; k < items->n; k++) {
		size_t i = last + k < items->n ? last + k : last + k - items->n;

		if (items->at[i].id == id)
			return i;
	}
	return items->n;
}

static size_t judge_place(const struct rt_judges *judges, int64_t id)
{
	size_t i;

	for (i = 0; i < judges->n && judges->at[i].id != id; i++)
		;
	return i;
}

/* The marks of an entry; a later version comes after the earlier ones and stays. */
static enum rt_err load_marks(struct rt_store *s, struct rt_class_marks *m, size_t entry,
			      struct rt_error *err)
{
	const struct rt_judges *judges = &m->class_->judges;
	struct rt__rows rows = rt__open_rows(
		s, RT__SQL_MARK_LIST, RT__CELLS(rt__int(m->entries->at[entry].id)), NULL, err);
	size_t item = 0;

	while (rt__next(&rows)) {
		size_t judge = judge_place(judges, rt__int_at(&rows, 0));
		int64_t keying = rt__int_in(&rows, 2, 1, RT_KEYINGS);

		item = item_place(m->items, rt__int_at(&rows, 1), item);
		if (judge == judges->n || item == m->items->n) {
			rt__rows_damaged(&rows);
			continue;
		}
		rt_class_marks_box(m, entry, judge, item)->keyed_x10[keying - 1] = rt__mark_at(
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
		size_t judge = judge_place(judges, rt__int_at(&rows, 0));
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
			lines->total_x10000[keying - 1] = value;
	}
	return rows.rc;
}

static bool has_total(const struct rt_sheet_lines *lines, size_t n)
{
	for (size_t i = 0; i < n; i++)
		for (int k = 0; k < RT_KEYINGS; k++)
			if (lines[i].total_x10000[k] >= 0)
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
		size_t judge = judge_place(&m->class_->judges, rt__int_at(&rows, 1));
		size_t item = item_place(m->items, rt__int_at(&rows, 2), 0);

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
		size_t judge = judge_place(&m->class_->judges, rt__int_at(&rows, 1));

		if (entry == m->entries->n || judge == m->class_->judges.n)
			rt__rows_damaged(&rows);
		else
			m->lines[entry * m->class_->judges.n + judge].away = true;
	}
	return rows.rc;
}

/* ---- the book -------------------------------------------------------------------------------- */

static enum rt_err load_book(struct rt_store *s, const char *class_name, struct rt_class_book *book,
			     struct rt_error *err)
{
	struct rt_class_marks *m = &book->marks;
	enum rt_err rc = rt__load_class(s, class_name, &book->classes, err);

	if (!rc)
		rc = rt__load_test(s, book->classes.at->test, &book->tests, err);
	if (!rc && book->tests.n == 0)
		rc = rt__damaged(s, err);
	if (!rc)
		rc = find_rule(s, book, err);
	if (!rc)
		rc = rt_store_items(s, book->tests.at->name, &book->items, err);
	if (!rc)
		rc = rt_store_entries(s, class_name, &book->entries, err);
	if (!rc)
		rc = rt__load_penalties(s, class_name, &book->penalties, err);
	if (!rc)
		rc = rt__load_decisions(s, class_name, &book->decisions, err);
	if (rc)
		return rc;
	m->class_ = book->classes.at;
	m->test = book->tests.at;
	m->items = &book->items;
	m->entries = &book->entries;
	m->penalties = &book->penalties;
	m->decisions = &book->decisions;
	rc = rt_class_marks_make(m, err);
	for (size_t i = 0; i < book->entries.n && !rc; i++) {
		rc = load_marks(s, m, i, err);
		if (!rc)
			rc = load_lines(s, m, i, err);
	}
	if (!rc)
		rc = load_total_hands(s, m, err);
	if (!rc)
		rc = load_missing(s, m, err);
	return rc ? rc : load_away(s, m, err);
}

enum rt_err rt_store_class_book(struct rt_store *s, const char *class_name,
				struct rt_class_book *out, struct rt_error *err)
{
	bool own;
	enum rt_err rc = rt__together(s, false, &own, err);

	if (rc)
		return rc;
	rc = rt__together_end(s, own, load_book(s, class_name, out, err), err);
	if (rc)
		rt_class_book_free(out);
	return rc;
}

void rt_class_book_free(struct rt_class_book *book)
{
	rt_class_marks_free(&book->marks);
	RT_LIST_FREE(&book->penalties);
	RT_LIST_FREE(&book->decisions);
	RT_LIST_FREE(&book->entries);
	RT_LIST_FREE(&book->items);
	RT_LIST_FREE(&book->rules);
	RT_LIST_FREE(&book->tests);
	rt_classes_free(&book->classes);
	*book = (struct rt_class_book){0};
}
