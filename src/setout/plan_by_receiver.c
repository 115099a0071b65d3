/* The plan of a crew with a receiver: coordinates to stake, then proofs by tape.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

static enum rt_err stake(struct rt_setout_plan *plan, const char *stage, size_t point,
			 struct rt_error *err)
{
	struct rt_setout_step *s;

	if (plan->point[point].stands)
		return RT_OK;
	s = rt__plan_step(plan, RT_SETOUT_STAKE, stage);
	if (!s)
		return rt_fail_nomem(err);
	s->point = point;
	plan->point[point].stands = true;
	return RT_OK;
}

enum rt_err rt__plan_stake(struct rt_setout_plan *plan, struct rt_error *err)
{
	static const char *const corner[] = {"AK", "HC", "CM", "FA"};
	enum rt_err e = RT_OK;

	for (size_t i = 0; !e && i < 4; i++)
		e = stake(plan, "corners", rt__plan_find(plan, corner[i]), err);
	for (size_t i = 0; !e && i < 4; i++)
		e = rt__plan_prove(plan, "corners", corner[i], corner[(i + 1) % 4], err);
	for (size_t i = 0; !e && i < 2; i++)
		e = rt__plan_prove(plan, "corners", corner[i], corner[i + 2], err);
	for (size_t i = 0; !e && i < plan->pegs.n; i++)
		e = stake(plan,
			  plan->pegs.at[i].side == RT_CENTRE ? "centreline" : "letters, once round",
			  i, err);
	return e;
}
