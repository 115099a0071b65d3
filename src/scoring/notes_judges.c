/* What a person should know of the judges of a class: boxes that the rule filled, judges who were
 * away or too far from the others, and what an official decided.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#define MARK_DECIMALS 3 /* of a mean that fills a box, as told */

/* ---- away ---- */

static bool note_away(struct rt_results *r, size_t j)
{
	struct rt__listing list = {.cases = 0};
	char head[120];

	for (size_t i = 0; i < r->n; i++)
		if (r->at[i].status == RT_ENTERED && r->at[i].judge[j].away)
			rt__list_case(&list, "%" PRId64, r->at[i].entry->number);
	if (!list.cases)
		return true;
	snprintf(
		head, sizeof head,
		"The judge at %.20s was away and the other judges' sheets alone count, for number%s",
		rt__position(r, j), list.cases == 1 ? "" : "s");
	return rt__note_cases(r, head, &list);
}

/* ---- filled boxes ---- */

static void list_filled(const struct rt_results *r, const struct rt_result *result, size_t j,
			struct rt__listing *list)
{
	int64_t sum_x100, marks;
	char mark[24];

	rt__filling_mean(r->of, rt__entry_index(r, result), j, &sum_x100, &marks);
	rt_format_short(rt_round_half_up(sum_x100 * rt_power_of_ten(MARK_DECIMALS - 2), marks),
			MARK_DECIMALS, 1, mark, sizeof mark);
	for (size_t i = 0; i < r->of->items->n; i++)
		if (rt__is_filled(r->of, result, j, i))
			rt__list_case(list, "%" PRId64 " %s item %s (%s)", result->entry->number,
				      rt__position(r, j), r->of->items->at[i].name, mark);
}

static bool note_filled(struct rt_results *r)
{
	bool whole = r->of->rule->missing == RT_MISSING_MEAN_WHOLE;
	struct rt__listing list = {.cases = 0};
	char head[160];

	for (size_t i = 0; i < r->n; i++)
		for (size_t j = 0; j < r->of->class_->judges.n; j++)
			if (r->at[i].status == RT_ENTERED && r->at[i].judge[j].filled)
				list_filled(r, &r->at[i], j, &list);
	if (!list.cases)
		return true;
	snprintf(head, sizeof head,
		 "Filled with the mean of the sheet's other marks%s, as the judge cannot be asked",
		 whole ? ", to a whole mark" : "");
	return rt__note_cases(r, head, &list);
}

/* ---- too far apart ---- */

static bool note_apart(struct rt_results *r, const struct rt_result *result, size_t j)
{
	const struct rt_rule *rule = r->of->rule;
	int digits = r->judge_percent_digits;
	int side = rt__judge_apart(rule, result, r->of->class_->judges.n, j, digits);
	char own[24], limit[24], counted[24];

	if (!side || !result->scored)
		return true;
	rt_format_decimal(result->judge[j].percent, digits, own, sizeof own);
	rt_format_decimal(result->judge[j].counted, digits, counted, sizeof counted);
	rt_format_decimal(rule->apart_x100, 2, limit, sizeof limit);
	if (result->judge[j].counted == result->judge[j].percent)
		return rt__note(r,
				"Number %" PRId64
				": %s %% of the judge at %s is %s per cent points "
				"or more %s the mean of the others; it counts as it is.",
				result->entry->number, own, rt__position(r, j), limit,
				side < 0 ? "below" : "above");
	return rt__note(r,
			"Number %" PRId64
			": %s %% of the judge at %s is %s per cent points or more "
			"%s the mean of the others and counts as the next score, %s.",
			result->entry->number, own, rt__position(r, j), limit,
			side < 0 ? "below" : "above", counted);
}

/* ---- decisions ---- */

/* The latest decision that an entry stands in, or NULL. */
static const struct rt_decision *decision_of(const struct rt_class_marks *m, int64_t number)
{
	const struct rt_decision *latest = NULL;

	for (size_t i = 0; m->decisions && i < m->decisions->n; i++) {
		const struct rt_decision *d = &m->decisions->at[i];

		if (d->number == number && (!latest || d->decision > latest->decision))
			latest = d;
	}
	return latest;
}

static bool note_decided(struct rt_results *r, const struct rt_result *result)
{
	const struct rt_decision *d = decision_of(r->of, result->entry->number);

	if (!d)
		return true;
	if (!result->decided)
		return rt__note(r,
				"Number %" PRId64
				": the decision of %s between equal entries is of "
				"no effect, as they are not equal, or others are equal too.",
				result->entry->number, d->who ? d->who : "an official");
	return rt__note(r, "Number %" PRId64 " has place %zu of equal ones by decision of %s%s%s.",
			result->entry->number, result->place, d->who ? d->who : "an official",
			d->why ? ": " : "", d->why ? d->why : "");
}

bool rt__notes_of_judges(struct rt_results *r)
{
	size_t judges = r->of->class_->judges.n;
	bool ok = note_filled(r);

	for (size_t j = 0; ok && j < judges; j++)
		ok = note_away(r, j);
	for (size_t i = 0; ok && i < r->n; i++) {
		for (size_t j = 0; ok && j < judges; j++)
			ok = note_apart(r, &r->at[i], j);
		ok = ok && note_decided(r, &r->at[i]);
	}
	return ok;
}
