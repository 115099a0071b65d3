/* Places: by the rounded score, then by the rule's tie-breaks; and the order of reading out.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

/* Where a result stands within its division.  The statuses other than entered come after
 * these, in their own order. */
enum group { PLACED, HORS_CONCOURS, UNMARKED };

/* A result as it is sorted; worth is larger for the better. */
struct rank {
	const char *division;
	int group;
	int64_t worth;
	struct rt_result *result;
};

static int compare_divisions(const char *a, const char *b)
{
	return strcmp(a ? a : "", b ? b : "");
}

static int compare_ranks(const void *left, const void *right)
{
	const struct rank *a = left, *b = right;
	int64_t number_a = a->result->entry->number, number_b = b->result->entry->number;
	int by_division = compare_divisions(a->division, b->division);

	if (by_division)
		return by_division;
	if (a->group != b->group)
		return a->group < b->group ? -1 : 1;
	if (a->worth != b->worth)
		return a->worth > b->worth ? -1 : 1;
	return (number_a > number_b) - (number_a < number_b);
}

static void sort(struct rank *at, size_t n)
{
	qsort(at, n, sizeof *at, compare_ranks);
}

/* How many of at[0..n) are equal to the first but for the number. */
static size_t equal_run(const struct rank *at, size_t n)
{
	size_t run = 1;

	while (run < n && at[run].worth == at[0].worth && at[run].group == at[0].group &&
	       compare_divisions(at[run].division, at[0].division) == 0)
		run++;
	return run;
}

/* ---- tie-breaks ---- */

static int compare_numbers(const void *left, const void *right)
{
	int64_t a = *(const int64_t *)left, b = *(const int64_t *)right;

	return (a > b) - (a < b);
}

/* Twice the median of the judges' percentages: the middle one twice, or the middle two. */
static int64_t twice_median(const struct rt_result *result, size_t judges)
{
	int64_t percent[RT__JUDGES_MOST];
	size_t n = 0;

	for (size_t j = 0; j < judges; j++)
		if (result->judge[j].in)
			percent[n++] = result->judge[j].percent;
	qsort(percent, n, sizeof *percent, compare_numbers);
	return percent[(n - 1) / 2] + percent[n / 2];
}

/* What a tie-break looks at; a president whose sheet is not in comes last. */
static int64_t tie_worth(const struct rt_results *r, const struct rt_result *result,
			 enum rt_tie_break by)
{
	const struct rt_judges *judges = &r->of->class_->judges;
	const struct rt_judge_result *president = &result->judge[rt__president(judges)];

	switch (by) {
	case RT_TIE_GENERAL:
		return result->general_x10000;
	case RT_TIE_MEDIAN:
		return twice_median(result, judges->n);
	case RT_TIE_PRESIDENT:
		return president->in ? president->percent : INT64_MIN;
	}
	return 0;
}

static void place_equal(const struct rt_results *r, struct rank *at, size_t n, size_t place,
			size_t step);

/* Sort n equal ones at `place` by one tie-break, and place what is still equal by the next. */
static void part(const struct rt_results *r, struct rank *at, size_t n, size_t place, size_t step)
{
	enum rt_tie_break by = r->of->rule->tie[step].by;
	size_t run;

	for (size_t i = 0; i < n; i++)
		at[i].worth = tie_worth(r, at[i].result, by);
	sort(at, n);
	for (size_t i = 0; i < n; i += run) {
		run = equal_run(at + i, n - i);
		for (size_t k = i; k < i + run && run < n; k++)
			at[k].result->parted_by = rt_tie_break_words(by);
		place_equal(r, at + i, run, place + i, step + 1);
	}
}

/* Place n equal ones, the best of them at `place`, by the tie-breaks from `step` on. */
static void place_equal(const struct rt_results *r, struct rank *at, size_t n, size_t place,
			size_t step)
{
	const struct rt_rule *rule = r->of->rule;

	while (step < rule->tie_steps && rule->tie[step].places &&
	       place > (size_t)rule->tie[step].places)
		step++;
	if (n > 1 && step < rule->tie_steps) {
		part(r, at, n, place, step);
		return;
	}
	for (size_t i = 0; i < n; i++)
		at[i].result->place = place;
}

/* ---- a class ---- */

static enum group group_of(const struct rt_result *result)
{
	if (!result->scored)
		return UNMARKED;
	return result->entry->hors_concours ? HORS_CONCOURS : PLACED;
}

static int group_in_order(const struct rt_result *result)
{
	return (int)group_of(result) + (int)result->status;
}

/* Walk the sorted ranks of one group: place(..., n equal ones, their place). */
static void place_class(const struct rt_results *r, struct rank *at)
{
	size_t first = 0, run;

	for (size_t i = 0; i < r->n; i += run) {
		if (compare_divisions(at[i].division, at[first].division) != 0)
			first = i;
		run = equal_run(at + i, r->n - i);
		if (at[i].group == PLACED)
			place_equal(r, at + i, run, i - first + 1, 0);
	}
}

/* The places by one judge alone: by the exact percentage, which is points less what the rule
 * takes off the sheet or the percentage. */
static void place_by_judge(const struct rt_results *r, size_t j, struct rank *at)
{
	bool percent = r->of->rule->taken == RT_TAKEN_PERCENT;
	size_t first = 0, run;

	for (size_t i = 0; i < r->n; i++) {
		const struct rt_judge_result *sheet = &at[i].result->judge[j];
		int64_t off_x100 = percent ? at[i].result->error_x100 : 0;

		at[i].group = group_of(at[i].result) != PLACED || !sheet->in;
		at[i].worth = sheet->points_x10000 * 10000 - off_x100 * r->maximum_x10000;
	}
	sort(at, r->n);
	for (size_t i = 0; i < r->n; i += run) {
		if (compare_divisions(at[i].division, at[first].division) != 0)
			first = i;
		run = equal_run(at + i, r->n - i);
		for (size_t k = i; k < i + run && at[i].group == PLACED; k++)
			at[k].result->judge[j].place = i - first + 1;
	}
}

static void rank_class(const struct rt_results *r, struct rank *at)
{
	bool highest = r->of->rule->wins == RT_HIGHEST_WINS;

	for (size_t i = 0; i < r->n; i++) {
		struct rt_result *result = &r->at[i];

		at[i].division = result->division;
		at[i].group = group_in_order(result);
		at[i].worth = highest ? result->score : -result->score;
		at[i].result = result;
	}
}

enum rt_err rt__place_entries(struct rt_results *r, struct rt_error *err)
{
	struct rank *at = calloc(r->n + 1, sizeof *at);
	struct rt_result *sorted = calloc(r->n + 1, sizeof *sorted);
	enum rt_err e = RT_OK;

	if (!at || !sorted) {
		e = rt_fail_nomem(err);
		goto done;
	}
	rank_class(r, at);
	for (size_t j = 0; j < r->of->class_->judges.n; j++)
		place_by_judge(r, j, at);
	rank_class(r, at);
	sort(at, r->n);
	place_class(r, at);
	for (size_t i = 0; i < r->n; i++)
		sorted[i] = *at[i].result;
	free(r->at);
	r->at = sorted;
	sorted = NULL;
done:
	free(at);
	free(sorted);
	return e;
}
