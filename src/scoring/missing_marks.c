/* Boxes whose judge cannot be asked any more, filled as the rule says, and the parts of a unit
 * that a mean makes.
 *
 * A mean of n marks is a ratio, so points become whole ten thousandths and a part of one more.
 * Rounding needs no more than that: floor((x + t) / d) is floor((x + floor(t)) / d) for whole x
 * and d, so only the whole units in a multiple of the part are ever looked at.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>

/* ---- parts ---- */

static int64_t greatest_divisor(int64_t a, int64_t b)
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
	common = greatest_divisor(rest, den);
	rest /= common;
	den /= common;
	common = own / greatest_divisor(own, den);
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

int64_t rt__part_times(const struct rt_part *part, int64_t k, struct rt_part *rest)
{
	int64_t den = den_of(part), units = k * part->num / den, left = k * part->num % den;

	if (left < 0) {
		left += den;
		units--;
	}
	if (rest)
		*rest = (struct rt_part){left, den};
	return units;
}

int64_t rt__round_with_part(int64_t num, int64_t k, const struct rt_part *part, int64_t den)
{
	int64_t whole = num / den, rest = num % den;

	/* twice everything, as a half is looked for */
	rest = 2 * rest + rt__part_times(part, 2 * k, NULL) + den;
	whole += rest / (2 * den);
	return whole - (rest % (2 * den) < 0);
}

/* ---- boxes ---- */

bool rt__fills(const struct rt_rule *rule, const struct rt__gaps *gaps)
{
	return rule->missing != RT_MISSING_REFUSE && gaps->marks > 0;
}

enum rt_err rt__fill(const struct rt_rule *rule, const struct rt__gaps *gaps,
		     struct rt_result *result, size_t judge, struct rt_error *err)
{
	struct rt_judge_result *sheet = &result->judge[judge];
	int64_t sum_x10 = gaps->sum_x10, marks = gaps->marks;

	if (rule->missing == RT_MISSING_MEAN_WHOLE) {
		sum_x10 = 10 * rt_round_half_up(sum_x10, 10 * marks);
		marks = 1;
	}
	sheet->filled = (size_t)gaps->boxes;
	result->filled += sheet->filled;
	if (rt__part_add(&sheet->raw_x10000, &sheet->part, gaps->coefficients_x1000 * sum_x10,
			 marks) &&
	    rt__part_add(&result->general_x10000, &result->general_part,
			 gaps->general_x1000 * sum_x10, marks))
		return RT_OK;
	return rt_fail(err, RT_E_INPUT,
		       "number %" PRId64 ": boxes are missing on too many sheets for an exact mean",
		       result->entry->number);
}
