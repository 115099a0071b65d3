/* The parts of the work that the judges of a class judge: one, unless some items are marked by some
 * judges and others by others.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

/* Make all judges of one part judges of another. */
static void join(size_t *part, size_t judges, size_t from, size_t to)
{
	for (size_t j = 0; j < judges; j++)
		if (part[j] == from)
			part[j] = to;
}

/* Those who mark an item judge one part: that of the first of them. */
static void join_item(const struct rt_class_marks *m, size_t *part, size_t item)
{
	size_t judges = m->class_->judges.n, first = 0;

	while (first < judges && !rt_class_marks_asked(m, first, item))
		first++;
	for (size_t j = first; j < judges; j++) {
		size_t own = part[j], other = part[first];

		if (own != other && rt_class_marks_asked(m, j, item))
			join(part, judges, own < other ? other : own, own < other ? own : other);
	}
}

enum rt_err rt__parts_find(struct rt_results *r, struct rt_error *err)
{
	size_t judges = r->of->class_->judges.n;
	size_t *part = rt_arena_take(&r->text, (judges + 1) * sizeof *part);

	if (!part)
		return rt_fail_nomem(err);
	for (size_t j = 0; j < judges; j++)
		part[j] = j;
	for (size_t i = 0; i < r->of->items->n; i++)
		join_item(r->of, part, i);
	for (size_t j = 0; j < judges; j++)
		r->parts += part[j] == j;
	r->part = part;
	return RT_OK;
}
