/* Marks as they were keyed: who keyed what, and the hand total as the second check.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

/* ---- the rows of a sheet ---- */

static bool before(const struct rt_mark_version *v, int64_t entry, int64_t judge)
{
	return v->entry < entry || (v->entry == entry && v->judge < judge);
}

const struct rt_mark_version *rt__sheet_rows(const struct rt_mark_versions *versions, int64_t entry,
					     int64_t judge, size_t *n)
{
	size_t low = 0, high = versions->n;

	while (low < high) {
		size_t middle = low + (high - low) / 2;

		if (before(&versions->at[middle], entry, judge))
			low = middle + 1;
		else
			high = middle;
	}
	for (*n = 0; low + *n < versions->n && versions->at[low + *n].entry == entry &&
		     versions->at[low + *n].judge == judge;)
		++*n;
	return versions->n ? versions->at + low : NULL;
}

/* The row of the latest version, also one that emptied the box. */
static const struct rt_mark_version *latest_row(const struct rt_mark_versions *versions,
						int64_t entry, int64_t judge,
						enum rt_mark_kind kind, int64_t item, int keying)
{
	size_t n;
	const struct rt_mark_version *row = rt__sheet_rows(versions, entry, judge, &n);
	const struct rt_mark_version *latest = NULL;

	for (size_t i = 0; i < n; i++)
		if (row[i].kind == kind && row[i].item == item && row[i].keying == keying)
			latest = &row[i];
	return latest;
}

const struct rt_mark_version *rt_mark_latest(const struct rt_mark_versions *versions, int64_t entry,
					     int64_t judge, enum rt_mark_kind kind, int64_t item,
					     int keying)
{
	const struct rt_mark_version *row = latest_row(versions, entry, judge, kind, item, keying);

	return row && row->value != RT_NO_MARK ? row : NULL;
}

int64_t rt_mark_seen(const struct rt_mark_versions *versions, int64_t entry, int64_t judge,
		     enum rt_mark_kind kind, int64_t item, int keying)
{
	const struct rt_mark_version *row = latest_row(versions, entry, judge, kind, item, keying);

	return row ? row->version : 0;
}

/* Whether the box of a row was emptied by it or since, so that nobody's keying is left there. */
static bool is_emptied(const struct rt_mark_version *row, size_t n)
{
	for (size_t i = 0; i < n && row[i].item == row->item && row[i].kind == row->kind &&
			   row[i].keying == row->keying;
	     i++)
		if (row[i].value == RT_NO_MARK)
			return true;
	return false;
}

/* Whether a row is of a box, and keyed from the sheet rather than fixed at the desk. */
static bool is_keyed(const struct rt_mark_version *v)
{
	return v->kind == RT_MARK_ITEM && !(v->source && strcmp(v->source, RT_SOURCE_FIX) == 0);
}

const struct rt_mark_version *rt_keyed_by(const struct rt_mark_versions *versions, int64_t entry,
					  int64_t judge, int keying, const char *who)
{
	size_t n;
	const struct rt_mark_version *row = rt__sheet_rows(versions, entry, judge, &n);
	int64_t compared = 0; /* rows of one pass have one name: look at it once */

	for (size_t i = 0; i < n; i++) {
		if ((keying && row[i].keying != keying) || !is_keyed(&row[i]) ||
		    row[i].pass == compared || is_emptied(&row[i], n - i))
			continue;
		compared = row[i].pass;
		if (rt_same_name(row[i].who, who))
			return &row[i];
	}
	return NULL;
}

/* ---- hand totals ---- */

/* Whether it is known of every box who keyed it. */
static bool all_known(const struct rt_mark_versions *versions, int64_t entry, int64_t judge)
{
	size_t n;
	const struct rt_mark_version *row = rt__sheet_rows(versions, entry, judge, &n);

	for (size_t i = 0; i < n; i++)
		if (is_keyed(&row[i]) && !row[i].who && !is_emptied(&row[i], n - i))
			return false;
	return true;
}

static bool by_other(const struct rt_mark_versions *versions, int64_t entry, int64_t judge,
		     int keying)
{
	const struct rt_mark_version *total = rt_mark_latest(versions, entry, judge, RT_MARK_TOTAL,
							     0, keying);

	return total && total->who && all_known(versions, entry, judge) &&
	       !rt_keyed_by(versions, entry, judge, 0, total->who);
}

void rt_totals_by_others(struct rt_class_marks *m, const struct rt_mark_versions *versions)
{
	size_t judges = m->class_->judges.n;

	for (size_t e = 0; e < m->entries->n; e++)
		for (size_t j = 0; j < judges; j++) {
			struct rt_sheet_lines *lines = &m->lines[e * judges + j];

			for (int k = 0; k < RT_KEYINGS; k++)
				if (lines->total_x100000[k] >= 0)
					lines->total_by_other[k] = by_other(
						versions, m->entries->at[e].id,
						m->class_->judges.at[j].id, k + 1);
		}
}

bool rt__sheet_sum(const struct rt_class_marks *m, size_t entry, size_t judge,
		   int64_t *points_x100000)
{
	*points_x100000 = 0;
	for (size_t i = 0; i < m->items->n; i++) {
		int mark = rt_box_mark_x100(rt_class_marks_box(m, entry, judge, i), NULL);

		if (!rt_class_marks_asked(m, judge, i))
			continue;
		if (mark < 0)
			return false;
		*points_x100000 += mark * m->items->at[i].coefficient_x1000;
	}
	return true;
}

size_t rt__boxes_keyed_once(const struct rt_class_marks *m, size_t entry, size_t judge)
{
	size_t once = 0;
	int64_t mark;

	for (size_t i = 0; i < m->items->n; i++)
		once += rt__settle(rt_class_marks_box(m, entry, judge, i)->keyed_x100, &mark) ==
			RT__SINGLE;
	return once;
}

bool rt__total_checks(const struct rt_class_marks *m, size_t entry, size_t judge)
{
	const struct rt_sheet_lines *lines = rt__lines(m, entry, judge);
	int64_t total, sum;

	rt__settle(lines->total_x100000, &total);
	if (lines->away || total < 0 || !rt__sheet_sum(m, entry, judge, &sum) || total != sum)
		return false;
	for (int k = 0; k < RT_KEYINGS; k++)
		if (lines->total_x100000[k] >= 0 && lines->total_by_other[k])
			return true;
	return false;
}
