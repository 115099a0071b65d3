/* Boxes whose judge cannot be asked any more, filled as the rule says, and the parts of a unit
 * that a mean makes.
 *
 * A mean of n marks is a ratio, so points become whole hundred thousandths and a part of one more.
 * Rounding needs no more than that: floor((x + t) / d) is floor((x + floor(t)) / d) for whole x
 * and d, so only the whole units in a multiple of the part are ever looked at.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>

/* ---- parts ---- */

int64_t rt__greatest_divisor(int64_t a, int64_t b)
{
	while (b) {
		int64_t rest = a % b;

		a = b;
		b = rest;
	}
	return a;
}

static int64_t den_of(const struct rt_part *part)
{
	return part->den ? part->den : 1;
}

bool rt__part_add(int64_t *units, struct rt_part *part, int64_t num, int64_t den)
{
	int64_t own = den_of(part), common, rest = num % den;

	*units += num / den;
	common = rt__greatest_divisor(rest, den);
	rest /= common;
	den /= common;
	common = own / rt__greatest_divisor(own, den);
	if (common > RT__PARTS_MOST / den)
		return false;
	common *= den;
	part->num = part->num * (common / own) + rest * (common / den);
	part->den = common;
	*units += part->num / common;
	part->num %= common;
	return true;
}

int rt__part_compare(const struct rt_part *a, const struct rt_part *b)
{
	int64_t left = a->num * den_of(b), right = b->num * den_of(a);

	return (left > right) - (left < right);
}

/* num / den, den > 0, rounded down; *rest is what is left. */
static rt__wide divide_down(rt__wide num, rt__wide den, rt__wide *rest)
{
	rt__wide whole = num / den;

	*rest = num % den;
	if (*rest < 0) {
		*rest += den;
		whole--;
	}
	return whole;
}

rt__wide rt__part_times(const struct rt_part *part, rt__wide k, struct rt_part *rest)
{
	int64_t den = den_of(part);
	rt__wide left, units = divide_down(k * part->num, den, &left);

	if (rest)
		*rest = (struct rt_part){(int64_t)left, den};
	return units;
}

/* The whole number nearest to (num + k x part) / den on the side of 0. */
static int64_t cut(rt__wide num, rt__wide k, const struct rt_part *part, rt__wide den)
{
	rt__wide units = num + rt__part_times(part, k, NULL), rest;

	if (units >= 0)
		return (int64_t)divide_down(units, den, &rest);
	return -(int64_t)divide_down(-num + rt__part_times(part, -k, NULL), den, &rest);
}

int64_t rt__round_with_part(enum rt_rounding how, rt__wide num, rt__wide k,
			    const struct rt_part *part, rt__wide den)
{
	rt__wide rest;

	if (how == RT_CUT)
		return cut(num, k, part, den);
	/* twice everything, as a half is looked for */
	num = 2 * num + rt__part_times(part, 2 * k, NULL) + den;
	return (int64_t)divide_down(num, 2 * den, &rest);
}

/* ---- boxes ---- */

enum rt_err rt__fail_inexact(const struct rt_result *result, struct rt_error *err)
{
	return rt_fail(err, RT_E_INPUT,
		       "number %" PRId64 ": boxes are missing on too many sheets for an exact mean",
		       result->entry->number);
}

void rt__filling_mean(const struct rt_class_marks *m, size_t entry, size_t judge, int64_t *sum_x100,
		      int64_t *marks)
{
	*sum_x100 = *marks = 0;
	for (size_t i = 0; i < m->items->n; i++) {
		int mark = rt_box_mark_x100(rt_class_marks_box(m, entry, judge, i), NULL);

		*sum_x100 += mark >= 0 ? mark : 0;
		*marks += mark >= 0;
	}
	if (*marks && m->rule->missing == RT_MISSING_MEAN_WHOLE) {
		*sum_x100 = 100 * rt_round_half_up(*sum_x100, 100 * *marks);
		*marks = 1;
	}
}

enum rt_err rt__fill(const struct rt_class_marks *m, const struct rt__gaps *gaps,
		     struct rt_result *result, size_t judge, struct rt_error *err)
{
	struct rt_judge_result *sheet = &result->judge[judge];
	int64_t sum_x100, marks;
	bool exact;

	if (m->rule->missing == RT_MISSING_REFUSE)
		return RT_OK;
	rt__filling_mean(m, (size_t)(result->entry - m->entries->at), judge, &sum_x100, &marks);
	if (!marks)
		return RT_OK;
	sheet->filled = gaps->boxes;
	result->filled += sheet->filled;
	exact = rt__part_add(&sheet->raw_x100000, &sheet->part, gaps->coefficients_x1000 * sum_x100,
			     marks);
	for (size_t g = 0; g < RT_ITEM_GROUP_COUNT; g++)
		exact &= rt__part_add(&result->group[g].x100000, &result->group[g].part,
				      gaps->group_x1000[g] * sum_x100, marks);
	return exact ? RT_OK : rt__fail_inexact(result, err);
}

bool rt__is_filled(const struct rt_class_marks *m, const struct rt_result *result, size_t judge,
		   size_t item)
{
	size_t entry = (size_t)(result->entry - m->entries->at);
	const struct rt_box *box = rt_class_marks_box(m, entry, judge, item);
	int64_t mark;

	return box->missing && result->judge[judge].filled &&
	       rt__settle(box->keyed_x100, &mark) == RT__EMPTY;
}
