/* The edges of the ground that a turnout sweeps, beside its path.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>
#include <string.h>

#include "sweep_internal.h"

/* The path, and the leg of it that each axle is beside. */
struct laying {
	struct rt_band *out;
	struct rt__line line;
	double step_m;
	size_t leg[RT_TURNOUT_PARTS_MOST][2]; /* by part, and whether its shafts are stiff */
};

/* How far along its leg a point beside it is. */
static double along(const struct rt__leg *leg, double x, double y)
{
	const struct rt_pose *b = &leg->begin;
	double left = leg->curvature_per_m > 0.0 ? 1.0 : -1.0, from_x, from_y, at_x, at_y, angle;

	if (leg->curvature_per_m == 0.0)
		return b->toward_x * (x - b->x_m) + b->toward_y * (y - b->y_m);
	from_x = b->x_m - leg->centre_x_m;
	from_y = b->y_m - leg->centre_y_m;
	at_x = x - leg->centre_x_m;
	at_y = y - leg->centre_y_m;
	angle = atan2(from_x * at_y - from_y * at_x, from_x * at_x + from_y * at_y);
	return left * angle * leg->radius_m;
}

/* An end of an axle widens the band where it is. */
static void widen(struct laying *l, size_t leg, size_t most, double x, double y)
{
	double off = rt__line_follow(&l->line, &leg, most, x, y);
	const struct rt__leg *at = &l->line.legs.at[leg];
	double s = at->s_m + along(at, x, y);
	double index = round(s / l->step_m);
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
	const struct rt_pose *a = &pose->axle;
	size_t *leg = &l->leg[pose->part][pose->stiff];

	rt__line_follow(&l->line, leg, most, a->x_m, a->y_m);
	for (int side = -1; side <= 1; side += 2)
		widen(l, *leg, most, a->x_m - side * half_width * a->toward_y,
		      a->y_m + side * half_width * a->toward_x);
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
	struct rt__point last = {NAN, NAN};

	for (size_t i = 0; i < band->n; i++) {
		const struct rt_band_point *point = &band->at[i];
		struct rt_piece *piece;
		struct rt_pose pose;
		struct rt__point at, toward;
		double off = side == RT_LEFT ? point->left_m : -point->right_m;

		if (point->s_m < from_m || point->s_m > to_m)
			continue;
		pose = rt_path_at(path, point->s_m, NULL);
		at = (struct rt__point){pose.x_m - off * pose.toward_y,
					pose.y_m + off * pose.toward_x};
		if (rt__distance(last, at) > RT__NO_LENGTH) {
			toward = rt__toward(last, at);
			piece = RT_LIST_ADD(out);
			if (!piece)
				return rt_fail_nomem(err);
			*piece = (struct rt_piece){
				{last.x, last.y, toward.x, toward.y}, rt__distance(last, at), 0.0};
		}
		last = at;
	}
	return RT_OK;
}
