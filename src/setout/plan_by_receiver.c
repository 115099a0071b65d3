/* The plan of a crew with a receiver: coordinates to stake, then proofs by tape.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

static void stake(struct rt_setout_plan *plan, const char *stage, size_t point)
{
	if (!plan->point[point].stands)
		rt__plan_put(plan, rt__plan_step(RT_SETOUT_STAKE, stage, point));
}

void rt__plan_stake(struct rt_setout_plan *plan)
{
	static const char stage[] = "corners";
	const char *const *corner = rt__corner;

	for (size_t i = 0; i < 4; i++)
		stake(plan, stage, rt__plan_find(plan, corner[i]));
	for (size_t i = 0; i < 4; i++)
		rt__plan_prove(plan, stage, corner[i], corner[(i + 1) % 4]);
	for (size_t i = 0; i < 2; i++)
		rt__plan_prove(plan, stage, corner[i], corner[i + 2]);
	for (size_t i = 0; i < plan->pegs.n; i++)
		stake(plan,
		      plan->pegs.at[i].side == RT_CENTRE ? "centreline" : "letters, once round", i);
}
