/* A path of straights and arcs: making it, where it is at any distance, and its box.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

#define TWO_PI	6.283185307179586
#define QUARTER 1.5707963267948966

struct rt_pose rt_piece_at(const struct rt_piece *piece, double s)
{
	struct rt_vec b = piece->begin.toward;
	double ahead = s, left = 0.0, turned = piece->curvature_per_m * s;
	double c = cos(turned), n = sin(turned), half = sin(turned / 2.0);

	if (piece->curvature_per_m != 0.0) {
		ahead = n / piece->curvature_per_m;
		left = 2.0 * half * half / piece->curvature_per_m; /* 1 - cos, without its loss */
	}
	return (struct rt_pose){
		.at = rt__go(rt__go(piece->begin.at, b, ahead), rt__left(b), left),
		.toward = {c * b.x - n * b.y, c * b.y + n * b.x},
	};
}

static struct rt_pose straight_on(struct rt_pose pose, double m)
{
	pose.at = rt__go(pose.at, pose.toward, m);
	return pose;
}

static struct rt_pose path_end(const struct rt_path *path)
{
	const struct rt_piece *last = &path->at[path->n - 1];

	return rt_piece_at(last, last->length_m);
}

double rt_path_length(const struct rt_path *path)
{
	double m = 0.0;

	for (size_t i = 0; i < path->n; i++)
		m += path->at[i].length_m;
	return m;
}

struct rt_pose rt_path_at(const struct rt_path *path, double s_m, double *curvature_per_m)
{
	double flat;

	if (!curvature_per_m)
		curvature_per_m = &flat;
	*curvature_per_m = 0.0;
	if (path->n == 0)
		return straight_on((struct rt_pose){.toward = {1.0, 0.0}}, s_m);
	if (s_m < 0.0)
		return straight_on(path->at[0].begin, s_m);
	for (size_t i = 0; i < path->n; i++) {
		const struct rt_piece *piece = &path->at[i];

		if (s_m < piece->length_m) {
			*curvature_per_m = piece->curvature_per_m;
			return rt_piece_at(piece, s_m);
		}
		s_m -= piece->length_m;
	}
	return straight_on(path_end(path), s_m);
}

/* ---- the box -------------------------------------------------------------------------------- */

static void hold(struct rt_path_extent *box, struct rt_vec at)
{
	box->x_min_m = fmin(box->x_min_m, at.x);
	box->x_max_m = fmax(box->x_max_m, at.x);
	box->y_min_m = fmin(box->y_min_m, at.y);
	box->y_max_m = fmax(box->y_max_m, at.y);
}

/* An arc lies farthest out where its radius points along an axis. */
static void hold_arc(struct rt_path_extent *box, const struct rt_piece *piece)
{
	static const struct rt_vec axis[] = {{1.0, 0.0}, {0.0, 1.0}, {-1.0, 0.0}, {0.0, -1.0}};
	double radius = 1.0 / piece->curvature_per_m; /* negative: the centre lies to the right */
	struct rt_vec begin = piece->begin.at;
	struct rt_vec centre = rt__go(begin, rt__left(piece->begin.toward), radius);
	double start = atan2(begin.y - centre.y, begin.x - centre.x);
	double turned = piece->length_m * fabs(piece->curvature_per_m);

	for (int quarter = 0; quarter < 4; quarter++) {
		double on = copysign(1.0, radius) * (quarter * QUARTER - start);

		on -= TWO_PI * floor(on / TWO_PI);
		if (on <= turned)
			hold(box, rt__go(centre, axis[quarter], fabs(radius)));
	}
}

struct rt_path_extent rt_path_box(const struct rt_path *path)
{
	struct rt_vec start = rt_path_at(path, 0.0, NULL).at;
	struct rt_path_extent box = {start.x, start.x, start.y, start.y};

	for (size_t i = 0; i < path->n; i++) {
		const struct rt_piece *piece = &path->at[i];

		hold(&box, rt_piece_at(piece, piece->length_m).at);
		if (piece->curvature_per_m != 0.0)
			hold_arc(&box, piece);
	}
	return box;
}

/* ---- making it ------------------------------------------------------------------------------ */

bool rt__path_add(struct rt_path *path, const struct rt_pose *begin, double length_m,
		  double curvature_per_m)
{
	struct rt_piece *piece = RT_LIST_ADD(path);

	if (piece)
		*piece = (struct rt_piece){*begin, length_m, curvature_per_m};
	return piece;
}

static enum rt_err append(struct rt_path *path, const struct rt_pose *start, double length_m,
			  double curvature_per_m, struct rt_error *err)
{
	struct rt_pose begin = path->n ? path_end(path) : *start;

	if (!(length_m > 0.0) || rt__path_add(path, &begin, length_m, curvature_per_m))
		return RT_OK;
	return rt_fail_nomem(err);
}

enum rt_err rt_path_straight(struct rt_path *path, const struct rt_pose *start, double length_m,
			     struct rt_error *err)
{
	return append(path, start, length_m, 0.0, err);
}

enum rt_err rt_path_arc(struct rt_path *path, const struct rt_pose *start, double radius_m,
			double angle_rad, struct rt_error *err)
{
	return append(path, start, radius_m * fabs(angle_rad), copysign(1.0 / radius_m, angle_rad),
		      err);
}

void rt_path_free(struct rt_path *path)
{
	RT_LIST_FREE(path);
}
