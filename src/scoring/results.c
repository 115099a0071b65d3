/* The results of a class: every entry scored, placed, and told about.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

/* A name, or NULL where it is empty. */
static const char *named(const char *name)
{
	return name && *name ? name : NULL;
}

static enum rt_err start_result(struct rt_results *r, size_t i, struct rt_error *err)
{
	const struct rt_class *class_ = r->of->class_;
	struct rt_result *result = &r->at[i];
	size_t judges = class_->judges.n;

	result->entry = &r->of->entries->at[i];
	result->division = named(result->entry->division);
	if (!result->division)
		result->division = named(class_->division);
	result->status = result->entry->status;
	result->status_why = result->entry->status_why;
	result->judge = rt_arena_take(&r->text, judges * sizeof *result->judge);
	return result->judge ? RT_OK : rt_fail_nomem(err);
}

/* What is wanting in the sheets of those who may still be placed. */
static void look_for_gaps(struct rt_results *r)
{
	for (size_t i = 0; i < r->n; i++) {
		const struct rt_result *result = &r->at[i];

		if (result->status != RT_ENTERED)
			continue;
		r->missing |= result->empty > 0 || result->sheets < result->expected ||
			      result->expected == 0;
		r->single_keying |= result->single > 0;
		r->differ |= result->differing > 0;
	}
	r->complete = r->n > 0 && !r->missing && !r->single_keying && !r->differ;
	r->state = r->complete ? "added up" : "running";
}

/* Boxes keyed once do not want a second keying where a hand total is the second check. */
static void accept_totals(const struct rt_results *r, struct rt_result *result)
{
	size_t entry = rt__entry_index(r, result);

	for (size_t j = 0; j < r->of->class_->judges.n; j++)
		if (rt__total_checks(r->of, entry, j)) /* never of a judge who was away */
			result->single -= rt__boxes_keyed_once(r->of, entry, j);
}

static enum rt_err score_class(struct rt_results *r, struct rt_error *err)
{
	for (size_t i = 0; i < r->n; i++) {
		enum rt_err e = start_result(r, i, err);

		if (!e)
			e = rt__score(r, &r->at[i], err);
		if (e)
			return e;
		accept_totals(r, &r->at[i]);
	}
	return RT_OK;
}

enum rt_err rt_results_make(struct rt_results *out, const struct rt_class_marks *m,
			    struct rt_error *err)
{
	enum rt_err e;

	memset(out, 0, sizeof *out);
	out->of = m;
	for (size_t i = 0; i < m->items->n; i++)
		out->halves |= m->items->at[i].group == RT_GROUP_ARTISTIC;
	e = rt__parts_find(out, err);
	if (!e)
		e = rt__class_check(out, err);
	if (e) {
		rt_results_free(out);
		return e;
	}
	out->judge_percent_digits = m->rule->judge_decimals == RT__POINTS_ADDED
					    ? m->rule->percent_decimals
					    : m->rule->judge_decimals;
	out->n = m->entries->n;
	out->at = calloc(out->n + 1, sizeof *out->at);
	e = out->at ? score_class(out, err) : rt_fail_nomem(err);
	if (!e)
		e = rt__place_entries(out, err);
	if (!e) {
		look_for_gaps(out);
		e = rt__notes(out, err);
	}
	if (e)
		rt_results_free(out);
	return e;
}

void rt_results_free(struct rt_results *r)
{
	free(r->at);
	RT_LIST_FREE(&r->notes);
	rt_arena_free(r->text);
	memset(r, 0, sizeof *r);
}
