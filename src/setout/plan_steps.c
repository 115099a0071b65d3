/* The plan of a crew: its points and steps.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

RT__ENUM_WORDS(setout_kind, "kind", RT_SETOUT_KINDS)

/* ---- points ---- */

size_t rt__plan_find(const struct rt_setout_plan *plan, const char *name)
{
	for (size_t i = 0; i < plan->points; i++)
		if (strcmp(plan->point[i].name, name) == 0)
			return i;
	return RT_NO_POINT;
}

size_t rt__plan_mark(struct rt_setout_plan *plan, const char *name, double x_m, double y_m)
{
	struct rt_setout_point *p;
	char number[32];
	int marks = 0;

	do
		snprintf(number, sizeof number, "mark %d", ++marks);
	while (!name && rt__plan_find(plan, number) != RT_NO_POINT);
	name = rt_arena_string(&plan->text, name ? name : number);
	p = name ? rt_list_add(&plan->point, &plan->points, &plan->point_cap, sizeof *p) : NULL;
	if (!p) {
		plan->nomem = true;
		return 0;
	}
	*p = (struct rt_setout_point){.name = name, .x_m = x_m, .y_m = y_m};
	return plan->points - 1;
}

bool rt__plan_on(const struct rt_setout_plan *plan, size_t point, enum rt_side side)
{
	const struct rt_setout_point *p = &plan->point[point];

	return p->peg ? rt__on_side(plan->kind, p->peg->x_m, p->peg->y_m, side)
		      : rt__on_side(plan->kind, p->x_m, p->y_m, side);
}

double rt__plan_toward(const struct rt_setout_plan *plan, size_t from, size_t to, double u[2])
{
	const struct rt_setout_point *a = &plan->point[from], *b = &plan->point[to];
	double d = hypot(b->x_m - a->x_m, b->y_m - a->y_m);

	u[0] = (b->x_m - a->x_m) / d;
	u[1] = (b->y_m - a->y_m) / d;
	return d;
}

double rt__plan_distance(const struct rt_setout_plan *plan, size_t a, size_t b)
{
	double u[2];

	return rt__plan_toward(plan, a, b, u);
}

/* ---- steps ---- */

struct rt_setout_step rt__plan_step(enum rt_setout_kind kind, const char *stage, size_t point)
{
	return (struct rt_setout_step){
		.kind = kind,
		.stage = stage,
		.point = point,
		.other = RT_NO_POINT,
		.from = RT_NO_POINT,
		.from_m = NAN,
		.second = RT_NO_POINT,
		.second_m = NAN,
		.line_from = RT_NO_POINT,
		.line_to = RT_NO_POINT,
		.crossing_deg = NAN,
		.proof_m = NAN,
	};
}

void rt__plan_put(struct rt_setout_plan *plan, struct rt_setout_step step)
{
	struct rt_setout_step *s = rt_list_add(&plan->step, &plan->steps, &plan->step_cap,
					       sizeof *plan->step);

	if (s)
		*s = step;
	else
		plan->nomem = true;
	if (step.point != RT_NO_POINT)
		plan->point[step.point].stands = true;
}

void rt__plan_run(struct rt_setout_plan *plan, const char *stage, size_t line_from, size_t line_to,
		  size_t from, size_t point)
{
	struct rt_setout_step s = rt__plan_step(RT_SETOUT_RUN, stage, point);

	s.from = from;
	s.from_m = rt__plan_distance(plan, from, point);
	s.line_from = line_from;
	s.line_to = line_to;
	rt__plan_put(plan, s);
}

void rt__plan_cross(struct rt_setout_plan *plan, const char *stage, size_t from, size_t second,
		    size_t point)
{
	struct rt_setout_step s = rt__plan_step(RT_SETOUT_CROSS, stage, point);
	double u[2], v[2], sine;

	s.from = from;
	s.from_m = rt__plan_toward(plan, point, from, u);
	s.second = second;
	s.second_m = rt__plan_toward(plan, point, second, v);
	s.bent = plan->options.tapes == 1 && s.from_m + s.second_m <= plan->options.tape_m;
	sine = u[0] * v[1] - u[1] * v[0];
	/* turning from `from` to `second` anticlockwise round the point: it lies to the left */
	s.hand = sine > 0 ? RT_LEFT : RT_RIGHT;
	s.crossing_deg = atan2(fabs(sine), u[0] * v[0] + u[1] * v[1]) * (180 / acos(-1));
	rt__plan_put(plan, s);
}

void rt__plan_prove(struct rt_setout_plan *plan, const char *stage, const char *from,
		    const char *to)
{
	struct rt_setout_step s = rt__plan_step(RT_SETOUT_PROVE, stage, RT_NO_POINT);

	s.proof_from.peg = from;
	s.proof_to.peg = to;
	s.proof_m = rt__plan_distance(plan, rt__plan_find(plan, from), rt__plan_find(plan, to));
	rt__plan_put(plan, s);
}

double rt__triangle_part(double most_m)
{
	double step = most_m >= 5 ? 5 : most_m >= 1 ? 1 : 0.5;

	return floor(most_m / step + 1e-9) * step;
}
