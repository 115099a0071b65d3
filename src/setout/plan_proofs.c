/* The distance that proves a step: to something that stands already and was not used to put it,
 * within the tape, and across the directions in which it was put.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "internal.h"

#define LEAST_M 2.0 /* a shorter distance proves little */

/* The sine and cosine of the angle between two directions. */
static void angle(const double u[2], const double v[2], double *sine, double *cosine)
{
	*sine = fabs(u[0] * v[1] - u[1] * v[0]);
	*cosine = fabs(u[0] * v[0] + u[1] * v[1]);
}

/* How well a distance from `by` proves a step: 0 to 1.  A running distance is proved along its
 * line and across it; a crossing by a direction that is neither tape's; a stake by any. */
static double worth(const struct rt_setout_plan *plan, const struct rt_setout_step *s, size_t by)
{
	double u[2], v[2], sine, cosine, other_sine, d = rt__plan_distance(plan, by, s->point);
	double reach = plan->options.tape_m;

	if (by == s->from || by == s->second || d < LEAST_M || d > reach + 1e-9)
		return 0;
	rt__plan_toward(plan, by, s->point, v);
	if (s->kind == RT_SETOUT_STAKE)
		return d / reach;
	rt__plan_toward(plan, s->from, s->point, u);
	angle(u, v, &sine, &cosine);
	if (s->kind == RT_SETOUT_RUN) /* one along the line still proves the distance */
		return 0.1 * cosine * d / reach + fmin(sine, cosine);
	rt__plan_toward(plan, s->second, s->point, u);
	angle(u, v, &other_sine, &cosine);
	return fmin(sine, other_sine);
}

static void prove(struct rt_setout_plan *plan, struct rt_setout_step *s, const bool *stands)
{
	double best = 0;

	for (size_t i = 0; i < plan->points; i++) {
		double w = stands[i] && i != s->point ? worth(plan, s, i) : 0;

		if (w <= best + 1e-9)
			continue;
		best = w;
		s->proof_from = (struct rt_setout_mark){.peg = plan->point[i].name};
		s->proof_to = (struct rt_setout_mark){.peg = plan->point[s->point].name};
		s->proof_m = rt__plan_distance(plan, i, s->point);
	}
}

void rt__plan_proofs(struct rt_setout_plan *plan)
{
	bool *stands = rt_arena_take(&plan->text, plan->points * sizeof *stands + 1);

	if (!stands) {
		plan->nomem = true;
		return;
	}
	for (size_t i = 0; i < plan->points; i++)
		stands[i] = plan->point[i].held;
	for (size_t i = 0; i < plan->steps; i++) {
		struct rt_setout_step *s = &plan->step[i];

		if ((s->kind == RT_SETOUT_RUN || s->kind == RT_SETOUT_CROSS ||
		     s->kind == RT_SETOUT_STAKE) &&
		    !s->proof_from.peg)
			prove(plan, s, stands);
		/* the pole stands somewhere on its line only */
		if (s->point != RT_NO_POINT && s->kind != RT_SETOUT_SIGHT)
			stands[s->point] = true;
	}
}
