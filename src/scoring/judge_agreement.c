/* How the judges of a class agreed.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* ---- one judge beside another ---------------------------------------------------------------- */

/* Room for the percentages of a judge and of those it is held against, and for their ranks. */
struct views {
	const struct rt_results *r;
	double *own, *other, *ranks;
	size_t n;
};

double rt__judge_percent(const struct rt_results *r, const struct rt_result *result, size_t judge)
{
	return (double)result->judge[judge].percent /
	       (double)rt_power_of_ten(r->judge_percent_digits);
}

/* Entries that left or were sent out have unfinished sheets, which say nothing. */
static bool counts(const struct rt_result *result, size_t judge)
{
	return result->status == RT_ENTERED && result->judge[judge].in;
}

/* The mean percentage of the judges but one; false where no other sheet is in.  Whole units are
 * added and divided once, so that means that are equal are equal numbers. */
static bool others_mean(const struct rt_results *r, const struct rt_result *result, size_t judge,
			double *mean)
{
	int64_t sum = 0, n = 0;

	for (size_t j = 0; j < r->of->class_->judges.n; j++) {
		if (j == judge || !counts(result, j) || r->part[j] != r->part[judge])
			continue;
		sum += result->judge[j].percent;
		n++;
	}
	*mean = n ? (double)sum / (double)(n * rt_power_of_ten(r->judge_percent_digits)) : 0;
	return n > 0;
}

static void gather_others(struct views *v, size_t judge)
{
	v->n = 0;
	for (size_t i = 0; i < v->r->n; i++) {
		const struct rt_result *result = &v->r->at[i];

		if (!counts(result, judge) || !others_mean(v->r, result, judge, &v->other[v->n]))
			continue;
		v->own[v->n++] = rt__judge_percent(v->r, result, judge);
	}
}

static void gather_pair(struct views *v, size_t a, size_t b)
{
	v->n = 0;
	for (size_t i = 0; i < v->r->n; i++) {
		const struct rt_result *result = &v->r->at[i];

		if (!counts(result, a) || !counts(result, b) || v->r->part[a] != v->r->part[b])
			continue;
		v->own[v->n] = rt__judge_percent(v->r, result, a);
		v->other[v->n++] = rt__judge_percent(v->r, result, b);
	}
}

static double mean_of(const double *x, size_t n)
{
	double sum = 0;

	for (size_t i = 0; i < n; i++)
		sum += x[i];
	return n ? sum / (double)n : NAN;
}

/* Standard deviation with n - 1; NAN of fewer than two. */
static double spread_of(const double *x, size_t n)
{
	double mean = mean_of(x, n), sum = 0;

	for (size_t i = 0; i < n; i++)
		sum += (x[i] - mean) * (x[i] - mean);
	return n > 1 ? sqrt(sum / (double)(n - 1)) : NAN;
}

static void compare(const struct views *v, struct rt_judge_view *out)
{
	out->sheets = v->n;
	out->mean_percent = mean_of(v->own, v->n);
	out->spread_percent = spread_of(v->own, v->n);
	out->above_percent = out->mean_percent - mean_of(v->other, v->n);
	out->spearman = rt__spearman(v->own, v->other, v->n, v->ranks);
	out->kendall = rt__kendall(v->own, v->other, v->n);
	out->widest_percent = v->n ? 0 : NAN;
	for (size_t i = 0; i < v->n; i++)
		out->widest_percent = fmax(out->widest_percent, fabs(v->own[i] - v->other[i]));
}

static enum rt_err compare_all(struct rt_judging *out, struct rt_error *err)
{
	const struct rt_results *r = out->of;
	const struct rt_judge *judge = r->of->class_->judges.at;
	size_t judges = r->of->class_->judges.n, pair = 0;
	struct views v = {.r = r};

	v.own = rt_arena_take(&out->text, 4 * (r->n + 1) * sizeof *v.own);
	out->judge = rt_arena_take(&out->text, judges * sizeof *out->judge);
	out->pair = rt_arena_take(&out->text, (judges * judges / 2 + 1) * sizeof *out->pair);
	if (!v.own || !out->judge || !out->pair)
		return rt_fail_nomem(err);
	v.other = v.own + r->n;
	v.ranks = v.other + r->n;
	for (size_t j = 0; j < judges; j++) {
		out->judge[j].judge = out->judge[j].other = &judge[j];
		gather_others(&v, j);
		compare(&v, &out->judge[j]);
		for (size_t k = j + 1; k < judges; k++) {
			struct rt_judge_view *p = &out->pair[pair++];

			p->judge = &judge[j];
			p->other = &judge[k];
			gather_pair(&v, j, k);
			compare(&v, p);
		}
	}
	out->judges = judges;
	out->pairs = pair;
	return RT_OK;
}

/* ---- mark by mark ---------------------------------------------------------------------------- */

/* The lowest and highest mark of a movement of an entry; false where fewer than two judges gave
 * one. */
static bool mark_gap(const struct rt_results *r, const struct rt_result *result, size_t item,
		     struct rt_mark_gap *out)
{
	const struct rt_judges *judges = &r->of->class_->judges;
	size_t entry = rt__entry_index(r, result), n = 0;

	*out = (struct rt_mark_gap){.entry = result->entry, .item = &r->of->items->at[item]};
	for (size_t j = 0; j < judges->n; j++) {
		int mark = rt_box_mark_x100(rt_class_marks_box(r->of, entry, j, item), NULL);

		if (mark == RT_NO_MARK || !counts(result, j))
			continue;
		if (n == 0 || mark < out->low_x100) {
			out->low_x100 = mark;
			out->low = &judges->at[j];
		}
		if (n == 0 || mark > out->high_x100) {
			out->high_x100 = mark;
			out->high = &judges->at[j];
		}
		out->sum_x100 += mark;
		n++;
	}
	out->gap_x100 = out->high_x100 - out->low_x100;
	out->marks = n;
	return n > 1;
}

static enum rt_err look_at_marks(struct rt_judging *out, struct rt_error *err)
{
	const struct rt_results *r = out->of;

	out->item = rt_arena_take(&out->text, r->of->items->n * sizeof *out->item);
	if (!out->item)
		return rt_fail_nomem(err);
	out->items = r->of->items->n;
	for (size_t i = 0; i < out->items * r->n; i++) {
		struct rt_item_view *item = &out->item[i / r->n];
		struct rt_mark_gap gap, *kept;

		item->item = &r->of->items->at[i / r->n];
		if (!mark_gap(r, &r->at[i % r->n], i / r->n, &gap))
			continue;
		item->entries++;
		item->mean_mark += (double)gap.sum_x100 / (double)gap.marks / 100;
		item->mean_gap += (double)gap.gap_x100 / 100;
		if (gap.gap_x100 > item->widest_x100)
			item->widest_x100 = gap.gap_x100;
		if (gap.gap_x100 <= out->gap_x100)
			continue;
		kept = RT_LIST_ADD(&out->gaps);
		if (!kept)
			return rt_fail_nomem(err);
		*kept = gap;
	}
	for (size_t i = 0; i < out->items; i++) {
		double n = (double)out->item[i].entries;

		out->item[i].mean_mark = n > 0 ? out->item[i].mean_mark / n : NAN;
		out->item[i].mean_gap = n > 0 ? out->item[i].mean_gap / n : NAN;
	}
	return RT_OK;
}

/* Widest first, then by number, then in the order of the sheet. */
static int by_gap(const void *a, const void *b)
{
	const struct rt_mark_gap *x = a, *y = b;

	if (x->gap_x100 != y->gap_x100)
		return x->gap_x100 > y->gap_x100 ? -1 : 1;
	if (x->entry->number != y->entry->number)
		return x->entry->number < y->entry->number ? -1 : 1;
	return (x->item > y->item) - (x->item < y->item);
}

/* ---- sheet by sheet -------------------------------------------------------------------------- */

static enum rt_err look_at_sheets(struct rt_judging *out, struct rt_error *err)
{
	const struct rt_results *r = out->of;

	for (size_t i = 0; i < r->n; i++) {
		for (size_t j = 0; j < out->judges; j++) {
			const struct rt_result *result = &r->at[i];
			struct rt_sheet_apart *apart;
			double others, own;

			if (!counts(result, j) || !others_mean(r, result, j, &others))
				continue;
			own = rt__judge_percent(r, result, j);
			if (fabs(own - others) < out->apart_percent)
				continue;
			apart = RT_LIST_ADD(&out->apart);
			if (!apart)
				return rt_fail_nomem(err);
			*apart = (struct rt_sheet_apart){
				.entry = result->entry,
				.judge = &r->of->class_->judges.at[j],
				.percent = own,
				.others_percent = others,
				.above_percent = own - others,
			};
		}
	}
	return RT_OK;
}

enum rt_err rt_judging_make(struct rt_judging *out, const struct rt_results *r, int gap_x100,
			    double apart_percent, struct rt_error *err)
{
	enum rt_err e;

	memset(out, 0, sizeof *out);
	out->of = r;
	out->gap_x100 = gap_x100;
	out->apart_percent = apart_percent;
	e = compare_all(out, err);
	if (!e)
		e = look_at_marks(out, err);
	if (!e)
		e = look_at_sheets(out, err);
	if (e)
		rt_judging_free(out);
	else if (out->gaps.n)
		qsort(out->gaps.at, out->gaps.n, sizeof *out->gaps.at, by_gap);
	return e;
}

void rt_judging_free(struct rt_judging *j)
{
	RT_LIST_FREE(&j->gaps);
	RT_LIST_FREE(&j->apart);
	rt_arena_free(j->text);
	memset(j, 0, sizeof *j);
}
