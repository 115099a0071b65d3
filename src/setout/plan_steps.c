/* The plan of a crew: its points and steps.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define SAME_M 1e-6

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
	if (!p)
		return RT_NO_POINT;
	*p = (struct rt_setout_point){.name = name, .x_m = x_m, .y_m = y_m};
	return plan->points - 1;
}

bool rt__plan_on(const struct rt_setout_plan *plan, size_t point, enum rt_side side)
{
	const struct rt_setout_point *p = &plan->point[point];
	double half_width = plan->kind->width_m / 2, half_length = plan->kind->length_m / 2;
	double x = p->peg ? p->peg->x_m : p->x_m, y = p->peg ? p->peg->y_m : p->y_m;

	switch (side) {
	case RT_LEFT:
		return fabs(x + half_width) < SAME_M;
	case RT_RIGHT:
		return fabs(x - half_width) < SAME_M;
	case RT_SIDE_A:
		return fabs(y + half_length) < SAME_M;
	case RT_SIDE_C:
		return fabs(y - half_length) < SAME_M;
	case RT_CENTRE:
		return fabs(x) < SAME_M;
	}
	return false;
}

double rt__plan_distance(const struct rt_setout_plan *plan, size_t a, size_t b)
{
	return hypot(plan->point[a].x_m - plan->point[b].x_m,
		     plan->point[a].y_m - plan->point[b].y_m);
}

/* ---- steps ---- */

struct rt_setout_step *rt__plan_step(struct rt_setout_plan *plan, enum rt_setout_kind kind,
				     const char *stage)
{
	struct rt_setout_step *s = rt_list_add(&plan->step, &plan->steps, &plan->step_cap,
					       sizeof *plan->step);

	if (s)
		*s = (struct rt_setout_step){
			.kind = kind,
			.stage = stage,
			.point = RT_NO_POINT,
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
	return s;
}

enum rt_err rt__plan_run(struct rt_setout_plan *plan, const char *stage, size_t line_from,
			 size_t line_to, size_t from, size_t point, struct rt_error *err)
{
	struct rt_setout_step *s = rt__plan_step(plan, RT_SETOUT_RUN, stage);

	if (!s)
		return rt_fail_nomem(err);
	s->point = point;
	s->from = from;
	s->from_m = rt__plan_distance(plan, from, point);
	s->line_from = line_from;
	s->line_to = line_to;
	plan->point[point].stands = true;
	return RT_OK;
}

enum rt_err rt__plan_cross(struct rt_setout_plan *plan, const char *stage, size_t from,
			   size_t second, size_t point, struct rt_error *err)
{
	struct rt_setout_step *s = rt__plan_step(plan, RT_SETOUT_CROSS, stage);
	const struct rt_setout_point *p = plan->point;
	double ax, ay, bx, by;

	if (!s)
		return rt_fail_nomem(err);
	s->point = point;
	s->from = from;
	s->from_m = rt__plan_distance(plan, from, point);
	s->second = second;
	s->second_m = rt__plan_distance(plan, second, point);
	s->bent = plan->options.tapes == 1 && s->from_m + s->second_m <= plan->options.tape_m;
	ax = p[from].x_m - p[point].x_m;
	ay = p[from].y_m - p[point].y_m;
	bx = p[second].x_m - p[point].x_m;
	by = p[second].y_m - p[point].y_m;
	/* turning from `from` to `second` anticlockwise round the point: it lies to the left */
	s->hand = ax * by - ay * bx > 0 ? RT_LEFT : RT_RIGHT;
	s->crossing_deg = atan2(fabs(ax * by - ay * bx), ax * bx + ay * by) * (180 / acos(-1));
	plan->point[point].stands = true;
	return RT_OK;
}

enum rt_err rt__plan_prove(struct rt_setout_plan *plan, const char *stage, const char *from,
			   const char *to, struct rt_error *err)
{
	size_t a = rt__plan_find(plan, from), b = rt__plan_find(plan, to);
	struct rt_setout_step *s = rt__plan_step(plan, RT_SETOUT_PROVE, stage);

	if (!s)
		return rt_fail_nomem(err);
	s->proof_from.peg = from;
	s->proof_to.peg = to;
	s->proof_m = rt__plan_distance(plan, a, b);
	return RT_OK;
}

double rt__triangle_part(double most_m)
{
	double step = most_m >= 5 ? 5 : most_m >= 1 ? 1 : 0.5;

	return floor(most_m / step + 1e-9) * step;
}
