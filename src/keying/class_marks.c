/* The boxes and lines of every sheet of a class, and what counts in them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>

/* a * b, or SIZE_MAX when that is more than there can be. */
static size_t times(size_t a, size_t b)
{
	return b && a > SIZE_MAX / b ? SIZE_MAX : a * b;
}

/* n elements, at least one so that NULL always means out of memory. */
static void *take(size_t n, size_t size)
{
	return n > SIZE_MAX / size ? NULL : malloc((n ? n : 1) * size);
}

enum rt_err rt_class_marks_make(struct rt_class_marks *m, struct rt_error *err)
{
	size_t sheets = times(m->entries->n, m->class_->judges.n);
	size_t boxes = times(sheets, m->items->n);

	m->lines = take(sheets, sizeof *m->lines);
	m->box = take(boxes, sizeof *m->box);
	if (!m->lines || !m->box) {
		rt_class_marks_free(m);
		return rt_fail_nomem(err);
	}
	for (size_t i = 0; i < sheets; i++)
		m->lines[i] = (struct rt_sheet_lines){.errors = {RT_NO_MARK, RT_NO_MARK},
						      .total_x100000 = {RT_NO_MARK, RT_NO_MARK}};
	for (size_t i = 0; i < boxes; i++)
		m->box[i] = (struct rt_box){{RT_NO_MARK, RT_NO_MARK}, false};
	return RT_OK;
}

void rt_class_marks_free(struct rt_class_marks *m)
{
	free(m->lines);
	free(m->box);
	m->lines = NULL;
	m->box = NULL;
}

struct rt_box *rt_class_marks_box(const struct rt_class_marks *m, size_t entry, size_t judge,
				  size_t item)
{
	return &m->box[(entry * m->class_->judges.n + judge) * m->items->n + item];
}

bool rt_class_marks_asked(const struct rt_class_marks *m, size_t judge, size_t item)
{
	return rt_item_marked_at(&m->items->at[item], m->class_->judges.at[judge].position);
}

size_t rt__boxes(const struct rt_class_marks *m, size_t judge)
{
	size_t boxes = 0;

	for (size_t i = 0; i < m->items->n; i++)
		boxes += rt_class_marks_asked(m, judge, i);
	return boxes;
}

const struct rt_sheet_lines *rt__lines(const struct rt_class_marks *m, size_t entry, size_t judge)
{
	return &m->lines[entry * m->class_->judges.n + judge];
}

enum rt__keyed rt__settle(const int64_t keyed[RT_KEYINGS], int64_t *value)
{
	*value = RT_NO_MARK;
	if (keyed[0] < 0 && keyed[1] < 0)
		return RT__EMPTY;
	if (keyed[0] >= 0 && keyed[1] >= 0) {
		if (keyed[0] != keyed[1])
			return RT__DIFFERING;
		*value = keyed[0];
		return RT__AGREED;
	}
	*value = keyed[0] >= 0 ? keyed[0] : keyed[1];
	return RT__SINGLE;
}

int rt_box_mark_x100(const struct rt_box *box, bool *differ)
{
	int64_t mark;
	enum rt__keyed keyed = rt__settle(box->keyed_x100, &mark);

	if (differ)
		*differ = keyed == RT__DIFFERING;
	return (int)mark;
}

struct rt_exact rt__mark_exact(enum rt_mark_kind kind, int64_t value)
{
	static const struct {
		int digits, least;
	} shown[] = {[RT_MARK_ITEM] = {2, 1}, [RT_MARK_ERRORS] = {0, 0}, [RT_MARK_TOTAL] = {5, 1}};

	if (value == RT_NO_MARK)
		return (struct rt_exact){.there = false};
	return rt_exact_short(value, shown[kind].digits, shown[kind].least);
}

void rt__format_points(int64_t points_x100000, char *out, size_t size)
{
	rt_format_short(points_x100000, 5, 1, out, size);
}
