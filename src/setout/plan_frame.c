/* What stands already, and the frame of its coordinates.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "internal.h"

#define APART_M 1.0 /* two points nearer than that hold no ring */

/* ---- judging ---- */

static enum rt_err judge_hold(const struct rt_setout_plan *plan, size_t i, struct rt_error *err)
{
	const struct rt_setout_hold *h = &plan->options.hold[i], *first = plan->options.hold;
	size_t point = rt__plan_find(plan, h->name);

	if (isnan(h->x_m) && !rt_peg_find(&plan->pegs, h->name))
		return rt__no_such_peg(&plan->pegs, h->name, err);
	if (point != RT_NO_POINT && plan->point[point].held)
		return rt_fail(err, RT_E_INPUT, "%s is held twice: a point stands once", h->name);
	if (isnan(h->x_m) != isnan(first->x_m))
		return rt_fail(err, RT_E_INPUT,
			       "%s has coordinates and %s has none: give them for all points that "
			       "are held, or for none",
			       isnan(h->x_m) ? first->name : h->name,
			       isnan(h->x_m) ? h->name : first->name);
	return RT_OK;
}

/* Put a hold where it should stand, or without a peg nowhere yet. */
static enum rt_err add_hold(struct rt_setout_plan *plan, size_t i, struct rt_error *err)
{
	const struct rt_setout_hold *h = &plan->options.hold[i];
	size_t point;
	enum rt_err e = judge_hold(plan, i, err);

	if (e)
		return e;
	point = rt__plan_find(plan, h->name);
	if (point == RT_NO_POINT)
		point = rt__plan_mark(plan, h->name, NAN, NAN);
	if (plan->nomem)
		return rt_fail_nomem(err);
	plan->point[point].held = plan->point[point].stands = true;
	return RT_OK;
}

/* ---- the frame ---- */

/* Is it a peg with coordinates, by which the ring is laid? */
static bool lays(const struct rt_setout_plan *plan, size_t hold)
{
	const struct rt_setout_hold *h = &plan->options.hold[hold];

	return !isnan(h->x_m) && rt_peg_find(&plan->pegs, h->name);
}

/* By a bearing: the peg held (NULL: AK, at 0, 0) keeps its coordinates. */
static void by_bearing(struct rt_setout_plan *plan, const struct rt_peg *peg, double x, double y)
{
	double b = isnan(plan->options.bearing_deg) ? 0
						    : plan->options.bearing_deg * (acos(-1) / 180);

	if (!peg)
		peg = rt_peg_find(&plan->pegs, "AK");
	plan->cosine = cos(b);
	plan->sine = -sin(b);
	plan->shift_x_m = x - (plan->cosine * peg->x_m - plan->sine * peg->y_m);
	plan->shift_y_m = y - (plan->sine * peg->x_m + plan->cosine * peg->y_m);
	plan->framed = true;
}

/* The ring laid on all its pegs that are held. */
static void by_pegs(struct rt_setout_plan *plan)
{
	double p[2 * RT_HOLDS_MOST], q[2 * RT_HOLDS_MOST];
	struct rt__placement t;
	size_t n = 0;

	for (size_t i = 0; i < plan->options.holds; i++) {
		const struct rt_setout_hold *h = &plan->options.hold[i];
		const struct rt_peg *peg = rt_peg_find(&plan->pegs, h->name);

		if (!peg)
			continue;
		p[2 * n] = peg->x_m;
		p[2 * n + 1] = peg->y_m;
		q[2 * n] = h->x_m;
		q[2 * n++ + 1] = h->y_m;
	}
	t = rt__place(p, q, n, NULL);
	plan->cosine = t.cosine;
	plan->sine = t.sine;
	plan->shift_x_m = t.shift_x;
	plan->shift_y_m = t.shift_y;
	plan->framed = true;
}

static enum rt_err find_frame(struct rt_setout_plan *plan, struct rt_error *err)
{
	const struct rt_setout_options *o = &plan->options;
	size_t pegs = 0, last = 0;
	bool bearing = !isnan(o->bearing_deg);

	for (size_t i = 0; i < o->holds; i++)
		if (lays(plan, i)) {
			pegs++;
			last = i;
		}
	if (bearing && !o->receiver)
		return rt_fail(err, RT_E_INPUT, "a bearing is for a receiver");
	if (bearing && pegs > 1)
		return rt_fail(
			err, RT_E_INPUT,
			"two pegs with coordinates give the direction: leave the bearing out");
	if (pegs == 1 && !bearing)
		return rt_fail(err, RT_E_INPUT,
			       "%s alone gives no direction: hold a second peg of the ring%s",
			       o->hold[last].name, o->receiver ? ", or give a bearing" : "");
	if (pegs > 1)
		by_pegs(plan);
	else if (pegs)
		by_bearing(plan, rt_peg_find(&plan->pegs, o->hold[last].name), o->hold[last].x_m,
			   o->hold[last].y_m);
	else if (o->receiver)
		by_bearing(plan, NULL, 0, 0);
	return RT_OK;
}

/* ---- where they stand in the ring frame ---- */

static enum rt_err put_holds(struct rt_setout_plan *plan, struct rt_error *err)
{
	const struct rt_setout_options *o = &plan->options;
	bool in_frame = false;

	for (size_t i = 0; i < o->holds; i++)
		in_frame |= lays(plan, i);
	for (size_t i = 0; i < o->holds; i++) {
		size_t k = rt__plan_find(plan, o->hold[i].name);
		double x = o->hold[i].x_m, y = o->hold[i].y_m;

		if (isnan(x))
			continue;
		if (in_frame) {
			x -= plan->shift_x_m;
			y -= plan->shift_y_m;
		}
		plan->point[k].x_m = in_frame ? plan->cosine * x + plan->sine * y : x;
		plan->point[k].y_m = in_frame ? plan->cosine * y - plan->sine * x : y;
	}
	for (size_t i = 0; i < o->holds; i++)
		for (size_t k = 0; k < i; k++)
			if (rt__plan_distance(plan, rt__plan_find(plan, o->hold[i].name),
					      rt__plan_find(plan, o->hold[k].name)) < APART_M)
				return rt_fail(err, RT_E_INPUT,
					       "%s and %s stand less than a metre apart: hold "
					       "points that are far from each other",
					       o->hold[k].name, o->hold[i].name);
	return RT_OK;
}

enum rt_err rt__plan_frame(struct rt_setout_plan *plan, struct rt_error *err)
{
	const struct rt_setout_options *o = &plan->options;
	enum rt_err e = RT_OK;

	if (!o->receiver && o->holds == 1)
		return rt_fail(err, RT_E_INPUT,
			       "%s alone holds no ring: give two points that stand, or none",
			       o->hold[0].name);
	for (size_t i = 0; !e && i < o->holds; i++)
		e = add_hold(plan, i, err);
	if (!e)
		e = find_frame(plan, err);
	return e ? e : put_holds(plan, err);
}

void rt_setout_frame(const struct rt_setout_plan *plan, double x_m, double y_m, double *frame_x_m,
		     double *frame_y_m)
{
	*frame_x_m = plan->shift_x_m + plan->cosine * x_m - plan->sine * y_m;
	*frame_y_m = plan->shift_y_m + plan->sine * x_m + plan->cosine * y_m;
}

double rt_setout_hold_off(const struct rt_setout_plan *plan, size_t hold)
{
	const struct rt_setout_point *p =
		&plan->point[rt__plan_find(plan, plan->options.hold[hold].name)];

	return p->peg ? hypot(p->x_m - p->peg->x_m, p->y_m - p->peg->y_m) : NAN;
}
