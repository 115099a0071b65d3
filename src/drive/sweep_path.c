/* The path of a sweep in short legs, and where a point is beside it.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep_internal.h"

#include <math.h>

#define RIGHT_ANGLE 1.5707963267948966

struct rt_pose rt__leg_at(const struct rt__leg *leg, double s)
{
	const struct rt_pose *b = &leg->begin;
	double turned = leg->curvature_per_m * s, c = cos(turned), n = sin(turned);
	struct rt_pose pose = {
		.toward_x = c * b->toward_x - n * b->toward_y,
		.toward_y = c * b->toward_y + n * b->toward_x,
	};

	if (leg->curvature_per_m == 0.0) {
		pose.x_m = b->x_m + s * b->toward_x;
		pose.y_m = b->y_m + s * b->toward_y;
	} else {
		pose.x_m = leg->centre_x_m + pose.toward_y / leg->curvature_per_m;
		pose.y_m = leg->centre_y_m - pose.toward_x / leg->curvature_per_m;
	}
	return pose;
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
		leg->centre_x_m = leg->begin.x_m - leg->begin.toward_y / leg->curvature_per_m;
		leg->centre_y_m = leg->begin.y_m + leg->begin.toward_x / leg->curvature_per_m;
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
	lead.begin.x_m -= lead_m * lead.begin.toward_x;
	lead.begin.y_m -= lead_m * lead.begin.toward_y;
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

/* How far ahead of a pose a point is, along its direction. */
static double ahead(const struct rt_pose *pose, double x, double y)
{
	return pose->toward_x * (x - pose->x_m) + pose->toward_y * (y - pose->y_m);
}

double rt__line_cut_across(const struct rt__line *line, size_t *leg, size_t most, double x,
			   double y, double off)
{
	for (size_t i = *leg + 1; i <= most; i++) {
		const struct rt__leg *next = &line->legs.at[i];
		double there;

		if (ahead(&next->begin, x, y) < 0.0 || ahead(&next->end, x, y) > 0.0)
			continue;
		there = rt__leg_off(next, x, y);
		if (fabs(there) < fabs(off)) {
			off = there;
			*leg = i;
		}
	}
	return off;
}

size_t rt__line_arc_beside(const struct rt__line *line, size_t leg, double x, double y, double left)
{
	const struct rt__leg *at = &line->legs.at[leg], *leg_at = line->legs.at;
	size_t near = at->before, far = at->after;

	if (ahead(&at->begin, x, y) > at->middle_m) {
		near = at->after;
		far = at->before;
	}
	if (near != RT__NONE && far != RT__NONE && leg_at[near].curvature_per_m * left < 0.0 &&
	    leg_at[far].curvature_per_m * left > 0.0)
		return far;
	return near;
}
