/* The path of a sweep in short legs, and where a point is beside it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep_internal.h"

#include <math.h>

#define RIGHT_ANGLE 1.5707963267948966

struct rt_pose rt__leg_at(const struct rt__leg *leg, double s)
{
	return rt_piece_at(&(struct rt_piece){leg->begin, leg->length_m, leg->curvature_per_m}, s);
}

/* ---- making --------------------------------------------------------------------------------- */

static enum rt_err add_leg(struct rt__line *line, const struct rt__leg *from, struct rt_error *err)
{
	struct rt__leg *leg = RT_LIST_ADD(&line->legs);

	if (!leg)
		return rt_fail_nomem(err);
	*leg = *from;
	if (leg->curvature_per_m != 0.0) {
		leg->radius_m = fabs(1.0 / leg->curvature_per_m);
		leg->centre = rt__go(leg->begin.at, rt__left(leg->begin.toward),
				     1.0 / leg->curvature_per_m);
		line->tightest_m = fmin(line->tightest_m, leg->radius_m);
	} else {
		leg->radius_m = INFINITY;
	}
	leg->end = rt__leg_at(leg, leg->length_m);
	return RT_OK;
}

/* The legs of a piece. */
static enum rt_err add_piece(struct rt__line *line, const struct rt_piece *piece, size_t index,
			     struct rt_error *err)
{
	double legs = fmax(
		1.0, ceil(piece->length_m * fabs(piece->curvature_per_m) / RIGHT_ANGLE - 1e-9));
	struct rt__leg leg = {
		.begin = piece->begin,
		.length_m = piece->length_m / legs,
		.curvature_per_m = piece->curvature_per_m,
		.s_m = line->length_m,
		.piece = index,
		.arc = piece->curvature_per_m != 0.0 ? line->arcs++ : RT__NONE,
		.before = RT__NONE,
		.after = RT__NONE,
	};
	enum rt_err e = RT_OK;

	for (double i = 0.0; !e && i < legs; i++) {
		e = add_leg(line, &leg, err);
		if (!e)
			leg.begin = line->legs.at[line->legs.n - 1].end;
		leg.s_m += leg.length_m;
	}
	line->length_m += piece->length_m;
	return e;
}

/* Tell straights the arcs beside them. */
static void name_neighbours(struct rt__line *line)
{
	size_t before = RT__NONE, after = RT__NONE;

	for (size_t i = 0; i < line->legs.n; i++) {
		line->legs.at[i].before = before;
		if (line->legs.at[i].arc != RT__NONE)
			before = i;
	}
	for (size_t i = line->legs.n; i-- > 0;) {
		line->legs.at[i].after = after;
		if (line->legs.at[i].arc != RT__NONE)
			after = i;
	}
	for (size_t i = 0; i < line->legs.n; i++) {
		struct rt__leg *at = &line->legs.at[i];
		const struct rt__leg *b = &line->legs.at[at->before == RT__NONE ? i : at->before];
		const struct rt__leg *a = &line->legs.at[at->after == RT__NONE ? i : at->after];

		at->smallest_m = fmin(at->radius_m, fmin(b->radius_m, a->radius_m));
		at->middle_m = (b->s_m + b->length_m + a->s_m) / 2.0 - at->s_m;
		if (at->before == RT__NONE)
			at->middle_m = -INFINITY;
		else if (at->after == RT__NONE)
			at->middle_m = INFINITY;
	}
}

enum rt_err rt__line_make(struct rt__line *out, const struct rt_path *path, double lead_m,
			  struct rt_error *err)
{
	struct rt__leg lead = {.length_m = lead_m, .s_m = -lead_m, .arc = RT__NONE};
	enum rt_err e;

	*out = (struct rt__line){.tightest_m = INFINITY};
	if (path->n == 0)
		return rt_fail(err, RT_E_INPUT, "a path without a piece");
	lead.begin = path->at[0].begin;
	lead.begin.at = rt__go(lead.begin.at, lead.begin.toward, -lead_m);
	e = add_leg(out, &lead, err);
	for (size_t i = 0; !e && i < path->n; i++)
		e = add_piece(out, &path->at[i], i, err);
	name_neighbours(out);
	return e;
}

void rt__line_free(struct rt__line *line)
{
	RT_LIST_FREE(&line->legs);
}

/* ---- beside it ------------------------------------------------------------------------------ */

double rt__line_cut_across(const struct rt__line *line, size_t *leg, size_t most, struct rt_vec at,
			   double off)
{
	for (size_t i = *leg + 1; i <= most; i++) {
		const struct rt__leg *next = &line->legs.at[i];
		double there;

		if (rt__ahead(&next->begin, at) < 0.0 || rt__ahead(&next->end, at) > 0.0)
			continue;
		there = rt__leg_off(next, at);
		if (fabs(there) < fabs(off)) {
			off = there;
			*leg = i;
		}
	}
	return off;
}

size_t rt__line_arc_beside(const struct rt__line *line, size_t index, struct rt_vec at, double left)
{
	const struct rt__leg *leg = &line->legs.at[index], *leg_at = line->legs.at;
	size_t near = leg->before, far = leg->after;

	if (rt__ahead(&leg->begin, at) > leg->middle_m) {
		near = leg->after;
		far = leg->before;
	}
	if (near != RT__NONE && far != RT__NONE && leg_at[near].curvature_per_m * left < 0.0 &&
	    leg_at[far].curvature_per_m * left > 0.0)
		return far;
	return near;
}
