/* The plan of a crew, whole: judged, framed, planned by what the crew has, proved.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "internal.h"

static enum rt_err judge_options(const struct rt_setout_options *o, struct rt_error *err)
{
	if (!(o->tape_m >= RT_TAPE_LEAST_M && o->tape_m <= RT_TAPE_MOST_M))
		return rt_fail(err, RT_E_INPUT, "a tape of 10 to 200 m sets out a ring");
	if (o->tapes != 1 && o->tapes != 2)
		return rt_fail(err, RT_E_INPUT, "one tape or two");
	if (o->holds > RT_HOLDS_MOST)
		return rt_fail(err, RT_E_INPUT, "at most %d points are held", RT_HOLDS_MOST);
	return RT_OK;
}

static enum rt_err take_pegs(struct rt_setout_plan *plan, struct rt_error *err)
{
	enum rt_err e = rt_ring_pegs(&plan->pegs, plan->kind, err);

	for (size_t i = 0; !e && i < plan->pegs.n; i++) {
		const struct rt_peg *peg = &plan->pegs.at[i];
		size_t point = rt__plan_mark(plan, peg->name, peg->x_m, peg->y_m);

		if (plan->nomem)
			return rt_fail_nomem(err);
		plan->point[point].peg = peg;
	}
	return e;
}

enum rt_err rt_setout_plan(struct rt_setout_plan *out, const struct rt_ring_kind *kind,
			   const struct rt_setout_options *options, struct rt_error *err)
{
	enum rt_err e = rt_ring_size_check(kind, err);

	if (!e)
		e = judge_options(options, err);
	if (e)
		return e;
	out->kind = kind;
	out->options = *options;
	out->cosine = 1;
	e = take_pegs(out, err);
	if (!e)
		e = rt__plan_frame(out, err);
	if (e)
		return e;
	if (options->receiver)
		rt__plan_stake(out);
	else if (options->holds)
		e = rt__plan_hold(out, err);
	else
		rt__plan_crew(out);
	if (e)
		return e;
	rt__plan_proofs(out);
	return out->nomem ? rt_fail_nomem(err) : rt__walk_judge(out, err);
}

void rt_setout_plan_free(struct rt_setout_plan *plan)
{
	rt_list_clear(&plan->point, &plan->points, &plan->point_cap, &plan->text);
	rt_list_clear(&plan->step, &plan->steps, &plan->step_cap, &plan->text);
	rt_pegs_free(&plan->pegs);
	memset(plan, 0, sizeof *plan);
}
