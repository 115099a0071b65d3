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
	struct rt_part part; /* of one more */
	struct rt_result *result;
	size_t *place; /* where it goes */
};

static int compare_divisions(const char *a, const char *b)
{
	return strcmp(a ? a : "", b ? b : "");
}

bool rt_same_division(const struct rt_result *a, const struct rt_result *b)
{
	return compare_divisions(a->division, b->division) == 0;
}

static int compare_worths(const struct rank *a, const struct rank *b)
{
	if (a->worth != b->worth)
		return a->worth < b->worth ? -1 : 1;
	return rt__part_compare(&a->part, &b->part);
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
	if (compare_worths(a, b) != 0)
		return compare_worths(b, a);
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

	while (run < n && compare_worths(&at[run], &at[0]) == 0 && at[run].group == at[0].group &&
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
			percent[n++] = result->judge[j].counted;
	qsort(percent, n, sizeof *percent, compare_numbers);
	return percent[(n - 1) / 2] + percent[n / 2];
}

size_t rt__tie_judge(const struct rt_judges *judges, const struct rt_rule *rule, size_t step)
{
	size_t j = 0;

	if (rule->tie[step].by == RT_TIE_PRESIDENT)
		return rt__president(judges);
	while (j < judges->n && (rule->tie[step].by != RT_TIE_JUDGE ||
				 strcmp(judges->at[j].position, rule->tie[step].name) != 0))
		j++;
	return j;
}

size_t rt__tie_item(const struct rt_items *items, const struct rt_rule *rule, size_t step)
{
	size_t i = 0;

	while (i < items->n && (rule->tie[step].by != RT_TIE_ITEM ||
				strcmp(items->at[i].name, rule->tie[step].name) != 0))
		i++;
	return i;
}

/* The points of one item over all judges; 0 where the test has no such item. */
static struct rt_sum item_points(const struct rt_results *r, const struct rt_result *result,
				    size_t item)
{
	size_t entry = rt__entry_index(r, result);
	struct rt_sum points = {0, {0, 0}};

	if (item == r->of->items->n)
		return points;
	for (size_t j = 0; j < r->of->class_->judges.n; j++) {
		int64_t coefficient = r->of->items->at[item].coefficient_x1000, sum_x100, marks;
		int mark = rt_box_mark_x100(rt_class_marks_box(r->of, entry, j, item), NULL);

		if (result->judge[j].away)
			continue;
		points.x100000 += mark > 0 ? mark * coefficient : 0;
		if (!rt__is_filled(r->of, result, j, item))
			continue;
		rt__filling_mean(r->of, entry, j, &sum_x100, &marks);
		/* the sum of the whole sheet had room for it */
		rt__part_add(&points.x100000, &points.part, coefficient * sum_x100, marks);
	}
	return points;
}

int64_t rt__tie_worth(const struct rt_results *r, const struct rt_result *result, size_t step,
		      struct rt_part *part)
{
	const struct rt_judges *judges = &r->of->class_->judges;
	size_t judge = rt__tie_judge(judges, r->of->rule, step);
	struct rt_sum points = {0, {0, 0}};

	switch (r->of->rule->tie[step].by) {
	case RT_TIE_GENERAL:
		points = result->group[RT_GROUP_GENERAL];
		break;
	case RT_TIE_ARTISTIC:
		points = result->group[RT_GROUP_ARTISTIC];
		break;
	case RT_TIE_ITEM:
		points = item_points(r, result, rt__tie_item(r->of->items, r->of->rule, step));
		break;
	case RT_TIE_MEDIAN:
		points.x100000 = twice_median(result, judges->n);
		break;
	case RT_TIE_DECISION:
		points.x100000 = result->decided;
		break;
	case RT_TIE_PRESIDENT:
	case RT_TIE_JUDGE:
		if (judge < judges->n)
			points.x100000 = result->judge[judge].in ? result->judge[judge].percent
								 : INT64_MIN;
		break;
	}
	*part = points.part;
	return points.x100000;
}

/* ---- decisions ---- */

/* The rank of an entry in a decision; 0: it is not of it. */
static int64_t rank_in(const struct rt_decisions *all, int64_t decision, int64_t number)
{
	for (size_t i = 0; i < all->n; i++)
		if (all->at[i].decision == decision && all->at[i].number == number)
			return all->at[i].rank;
	return 0;
}

/* Whether a decision is about each of n equal entries. */
static bool decides(const struct rt_decisions *all, int64_t decision, const struct rank *at,
		    size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (!rank_in(all, decision, at[i].result->entry->number))
			return false;
	return true;
}

/* Take the latest decision that is about all of n equal entries: it was made between others
 * where one of them is not of it. */
static void take_decision(const struct rt_results *r, struct rank *at, size_t n)
{
	const struct rt_decisions *all = r->of->decisions;
	int64_t latest = 0;

	for (size_t i = 0; all && i < all->n; i++)
		if (all->at[i].decision > latest && decides(all, all->at[i].decision, at, n))
			latest = all->at[i].decision;
	for (size_t i = 0; latest && i < n; i++) {
		int64_t own = rank_in(all, latest, at[i].result->entry->number);

		at[i].result->decided = 1;
		for (size_t k = 0; k < n; k++)
			at[i].result->decided += rank_in(all, latest, at[k].result->entry->number) >
						 own;
	}
}

/* ---- ties ---- */

static void place_equal(const struct rt_results *r, struct rank *at, size_t n, size_t place,
			size_t step);

/* Sort n equal ones at `place` by one tie-break, and place what is still equal by the next. */
static void part(const struct rt_results *r, struct rank *at, size_t n, size_t place, size_t step)
{
	enum rt_tie_break by = r->of->rule->tie[step].by;
	size_t run;

	if (by == RT_TIE_DECISION)
		take_decision(r, at, n);
	for (size_t i = 0; i < n; i++)
		at[i].worth = rt__tie_worth(r, at[i].result, step, &at[i].part);
	sort(at, n);
	for (size_t i = 0; i < n; i += run) {
		run = equal_run(at + i, n - i);
		for (size_t k = i; k < i + run && run < n; k++) {
			at[k].result->parted_by = rt_tie_break_words(by);
			at[k].result->parted_at = step;
		}
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
		*at[i].place = place;
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

/* Sort the ranks, and place those of each division by the tie-breaks from `step` on. */
static void place_class(const struct rt_results *r, struct rank *at, size_t step)
{
	size_t first = 0, run;

	sort(at, r->n);
	for (size_t i = 0; i < r->n; i += run) {
		if (compare_divisions(at[i].division, at[first].division) != 0)
			first = i;
		run = equal_run(at + i, r->n - i);
		if (at[i].group == PLACED)
			place_equal(r, at + i, run, i - first + 1, step);
	}
}

/* The places by one judge alone: by the exact percentage, which is points less what the rule
 * takes off the sheet or the percentage. */
static void place_by_judge(const struct rt_results *r, size_t j, struct rank *at)
{
	bool percent = r->of->rule->taken == RT_TAKEN_PERCENT;

	for (size_t i = 0; i < r->n; i++) {
		struct rt_judge_result *sheet = &at[i].result->judge[j];
		int64_t off_x100 = percent ? at[i].result->error_x100 : 0;

		at[i].group = group_of(at[i].result) != PLACED || !sheet->in;
		at[i].worth = sheet->points_x100000 * 10000 - off_x100 * sheet->maximum_x100000 +
			      (int64_t)rt__part_times(&sheet->part, 10000, &at[i].part);
		at[i].place = &sheet->place;
	}
	place_class(r, at, r->of->rule->tie_steps);
}

static void rank_class(const struct rt_results *r, struct rank *at)
{
	bool highest = r->of->rule->wins == RT_HIGHEST_WINS;

	for (size_t i = 0; i < r->n; i++) {
		struct rt_result *result = &r->at[i];

		at[i].division = result->division;
		at[i].group = group_in_order(result);
		at[i].worth = highest ? result->score : -result->score;
		at[i].part = (struct rt_part){0, 0};
		at[i].result = result;
		at[i].place = &result->place;
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
	place_class(r, at, 0);
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
