/* The edges of the ground that a turnout sweeps, beside its path.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep_internal.h"

#include <math.h>

/* The path, and the leg of it that each axle is beside. */
struct laying {
	struct rt_band *out;
	struct rt__line line;
	double step_m;
	size_t leg[RT_TURNOUT_PARTS_MOST][2]; /* by part, and whether its shafts are stiff */
};

/* How far along its leg a point beside it is. */
static double along(const struct rt__leg *leg, struct rt_vec at)
{
	if (leg->curvature_per_m == 0.0)
		return rt__ahead(&leg->begin, at);
	return rt__angle_to(rt__from_to(leg->centre, leg->begin.at), rt__from_to(leg->centre, at)) /
	       leg->curvature_per_m;
}

/* An end of an axle widens the band where it is. */
static void widen(struct laying *l, size_t leg, size_t most, struct rt_vec end)
{
	double off = rt__line_follow(&l->line, &leg, most, end);
	const struct rt__leg *at = &l->line.legs.at[leg];
	double index = round((at->s_m + along(at, end)) / l->step_m);
	struct rt_band_point *point;

	if (!(index >= 0.0 && index < (double)l->out->n))
		return;
	point = &l->out->at[(size_t)index];
	point->left_m = fmax(point->left_m, off);
	point->right_m = fmax(point->right_m, -off);
}

static void lay_pose(struct laying *l, const struct rt_swept_pose *pose, double half_width,
		     size_t most)
{
	struct rt_vec at = pose->axle.at, left = rt__left(pose->axle.toward);
	size_t *leg = &l->leg[pose->part][pose->stiff];

	rt__line_follow(&l->line, leg, most, at);
	widen(l, *leg, most, rt__go(at, left, -half_width));
	widen(l, *leg, most, rt__go(at, left, half_width));
}

/* Points every step of the path, as wide as what keeps to it. */
static enum rt_err begin(struct laying *l, const struct rt_path *path, double half_width,
			 struct rt_error *err)
{
	double length = rt_path_length(path);

	for (size_t i = 0; (double)i * l->step_m <= length; i++) {
		struct rt_band_point *point = RT_LIST_ADD(l->out);

		if (!point)
			return rt_fail_nomem(err);
		*point = (struct rt_band_point){
			.s_m = (double)i * l->step_m, .left_m = half_width, .right_m = half_width};
	}
	return RT_OK;
}

enum rt_err rt_sweep_band(struct rt_band *out, const struct rt_sweep *sweep,
			  const struct rt_path *path, const struct rt_turnout_parts *turnout,
			  double step_m, struct rt_error *err)
{
	struct laying l = {.out = out, .step_m = step_m};
	size_t most = 0;
	enum rt_err e;

	if (!(step_m > 0.0) || sweep->trace.n == 0)
		return rt_fail(err, RT_E_USAGE, "a band wants a step over 0 and a trace");
	e = rt__line_make(&l.line, path, 0.0, err);
	if (!e)
		e = begin(&l, path, turnout->at[0].width_m / 2.0, err);
	for (size_t i = 0; i < sweep->trace.n && !e; i++) {
		const struct rt_swept_pose *pose = &sweep->trace.at[i];
		const struct rt__leg *leg = &l.line.legs.at[most];

		while (most + 1 < l.line.legs.n && leg->s_m + leg->length_m < pose->s_m)
			leg = &l.line.legs.at[++most];
		lay_pose(&l, pose, turnout->at[pose->part].width_m / 2.0, most);
	}
	rt__line_free(&l.line);
	return e;
}

enum rt_err rt_band_edge(struct rt_path *out, const struct rt_band *band,
			 const struct rt_path *path, enum rt_side side, double from_m, double to_m,
			 struct rt_error *err)
{
	struct rt_vec last = {NAN, NAN};

	for (size_t i = 0; i < band->n; i++) {
		const struct rt_band_point *point = &band->at[i];
		const struct rt_pose pose = rt_path_at(path, point->s_m, NULL);
		double off = side == RT_LEFT ? point->left_m : -point->right_m;
		struct rt_vec at = rt__go(pose.at, rt__left(pose.toward), off);
		struct rt_pose from = {last, rt__toward(last, at)};

		if (point->s_m < from_m || point->s_m > to_m)
			continue;
		if (rt__distance(last, at) > RT__NO_LENGTH &&
		    !rt__path_add(out, &from, rt__distance(last, at), 0.0))
			return rt_fail_nomem(err);
		last = at;
	}
	return RT_OK;
}
