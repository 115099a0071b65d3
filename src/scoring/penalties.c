/* Errors of course and penalties: how many count for an entry, and what they cost.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>

static int64_t larger(int64_t a, int64_t b)
{
	return a > b ? a : b;
}

/* The office's latest announced number of errors, or -1. */
static int64_t announced(const struct rt_class_marks *m, int64_t number)
{
	int64_t errors = -1;

	for (size_t i = 0; m->penalties && i < m->penalties->n; i++)
		if (m->penalties->at[i].number == number && m->penalties->at[i].errors >= 0)
			errors = m->penalties->at[i].errors;
	return errors;
}

void rt__errors_of(const struct rt_class_marks *m, size_t entry, struct rt__errors *out)
{
	const struct rt_judges *judges = &m->class_->judges;
	size_t president = rt__president(judges);

	out->president = out->least = out->most = -1;
	for (size_t j = 0; j < judges->n; j++) {
		const struct rt_sheet_lines *lines = rt__lines(m, entry, j);
		int64_t errors;

		rt__settle(lines->errors, &errors);
		if (errors < 0 || lines->away)
			continue;
		if (j == president)
			out->president = errors;
		if (out->least < 0 || errors < out->least)
			out->least = errors;
		out->most = larger(out->most, errors);
	}
	out->sheets = out->president >= 0 ? out->president : out->most;
	out->announced = announced(m, m->entries->at[entry].number);
	out->counts = larger(larger(out->sheets, out->announced), 0);
}

/* The sum of the office's penalties; false when it is beyond what can be meant. */
static bool add_penalties(const struct rt_class_marks *m, int64_t number, int64_t *points_x100)
{
	const int64_t most = RT__PENALTY_MOST_X100;

	*points_x100 = 0;
	for (size_t i = 0; m->penalties && i < m->penalties->n; i++) {
		const struct rt_penalty *p = &m->penalties->at[i];

		if (p->number != number || p->errors >= 0)
			continue;
		if (p->points_x100 < -most || p->points_x100 > most)
			return false;
		*points_x100 += p->points_x100;
	}
	return *points_x100 >= -most && *points_x100 <= most;
}

/* What so many errors cost together: a step each, the last one for all beyond. */
static int64_t cost_of(const struct rt_rule *rule, int64_t errors)
{
	int64_t steps = (int64_t)rule->error_steps, cost = 0;

	for (int64_t i = 0; i < errors && i < steps; i++)
		cost += rule->error[i].amount_x100;
	if (steps > 0 && errors > steps)
		cost += (errors - steps) * rule->error[steps - 1].amount_x100;
	return cost;
}

/* The words of the error that eliminates, or NULL when there were not so many. */
static const char *eliminated_by(const struct rt_rule *rule, int64_t errors)
{
	static const char *const words[RT_ERROR_STEPS] = {
		"first error of course", "second error of course", "third error of course",
		"fourth error of course"};

	for (size_t i = 0; i < rule->error_steps && (int64_t)i < errors; i++)
		if (rule->error[i].eliminated)
			return words[i];
	return NULL;
}

enum rt_err rt__take_errors(const struct rt_class_marks *m, size_t entry, struct rt_result *result,
			    struct rt_error *err)
{
	int64_t number = result->entry->number;
	struct rt__errors errors;
	const char *why;

	rt__errors_of(m, entry, &errors);
	if (errors.counts > RT__ERRORS_MOST)
		return rt_fail(err, RT_E_INPUT,
			       "number %" PRId64 ": %" PRId64 " errors of course: at most %d",
			       number, errors.counts, RT__ERRORS_MOST);
	result->errors = errors.counts;
	result->error_x100 = cost_of(m->rule, errors.counts);
	if (!add_penalties(m, number, &result->points_x100) ||
	    result->error_x100 + result->points_x100 > RT__PENALTY_MOST_X100)
		return rt_fail(err, RT_E_INPUT,
			       "number %" PRId64 ": the penalties add up to more than %d", number,
			       RT__PENALTY_MOST_X100 / 100);
	result->penalty_x100 = result->error_x100 + result->points_x100;
	why = eliminated_by(m->rule, errors.counts);
	if (why && result->status == RT_ENTERED) {
		result->status = RT_ELIMINATED;
		result->status_why = why;
	}
	return RT_OK;
}
