/* The lines of a movement: the piece of the route it drives, and the line that maps draw.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <math.h>

/* Maps draw circles, half circles and loops of serpentines round, anything less as a corner. */
#define ROUND_DEG 150.0
/* An arc of so little leaves or meets its line at a letter: there maps have their corner. */
#define LEAVE_DEG (RT__LEAVE_ANGLE * RT__DEGREES)
#define SAME_M	  1e-6

/* ---- as it is driven ------------------------------------------------------------------------- */

enum rt_err rt_path_cut(struct rt_path *out, const struct rt_path *path, double from_m, double to_m,
			struct rt_error *err)
{
	double s = 0.0;

	for (size_t i = 0; i < path->n; i++) {
		const struct rt_piece *piece = &path->at[i];
		double begin = fmax(from_m - s, 0.0), end = fmin(to_m - s, piece->length_m);
		struct rt_pose pose = rt_piece_at(piece, begin);

		s += piece->length_m;
		if (end - begin > RT__NO_LENGTH &&
		    !rt__path_add(out, &pose, end - begin, piece->curvature_per_m))
			return rt_fail_nomem(err);
	}
	return RT_OK;
}

/* ---- as maps draw it ------------------------------------------------------------------------- */

/* A map's line as far as it has come. */
struct map_line {
	struct rt_path *out;
	bool begun, nomem;
	struct rt_vec at;
};

static void line_to(struct map_line *m, struct rt_vec to)
{
	double far = rt__distance(m->at, to);

	if (m->begun && far > RT__EQUAL_M) {
		struct rt_pose pose = {m->at, rt__toward(m->at, to)};

		m->nomem = m->nomem || !rt__path_add(m->out, &pose, far, 0.0);
	}
	m->begun = true;
	m->at = to;
}

static struct rt_vec path_point(const struct rt_route *route, double s_m)
{
	return rt_path_at(&route->path, s_m, NULL).at;
}

/* Whether a place is a letter itself. */
static bool at_letter(const struct rt_place *place)
{
	return !place->line && fabs(place->past_m) <= RT__EQUAL_M &&
	       fabs(place->in_m) <= RT__EQUAL_M;
}

/* The corner that a map has in place of an arc; how far along the route it counts. */
static struct rt_vec corner(const struct rt_turn *turn, double *s_m)
{
	bool little = turn->angle_deg <= LEAVE_DEG;

	*s_m = turn->from_m + turn->arc_m / 2.0;
	if (little && at_letter(&turn->begin)) {
		*s_m = turn->from_m;
		return (struct rt_vec){turn->begin_x_m, turn->begin_y_m};
	}
	if (little && at_letter(&turn->finish)) {
		*s_m = turn->from_m + turn->arc_m;
		return (struct rt_vec){turn->finish_x_m, turn->finish_y_m};
	}
	return rt_turn_corner(turn);
}

/* An arc that maps draw round, as far as the movement drives it. */
static enum rt_err add_round(struct map_line *m, const struct rt_route *route, double from_m,
			     double to_m, struct rt_error *err)
{
	enum rt_err e;

	if (to_m - from_m <= RT__NO_LENGTH)
		return RT_OK;
	line_to(m, path_point(route, from_m));
	e = rt_path_cut(m->out, &route->path, from_m, to_m, err);
	m->at = path_point(route, to_m);
	return e;
}

enum rt_err rt_route_map_line(struct rt_path *out, const struct rt_route *route, size_t leg,
			      struct rt_error *err)
{
	const double from = route->legs.at[leg].from_m, to = route->legs.at[leg].to_m;
	struct map_line m = {.out = out};
	enum rt_err e = RT_OK;
	double last = -INFINITY; /* where the last corner counts */

	for (size_t i = 0; i < route->turns.n && !e; i++) {
		const struct rt_turn *turn = &route->turns.at[i];
		bool round = turn->angle_deg > ROUND_DEG;
		double s = turn->from_m;
		struct rt_vec at = {0};

		if (!round)
			at = corner(turn, &s);
		if (s + (round ? turn->arc_m : 0.0) < from - SAME_M || s > to + SAME_M)
			continue;
		if (!m.begun && s > from + SAME_M)
			line_to(&m, path_point(route, from));
		if (round) {
			e = add_round(&m, route, fmax(s, from), fmin(s + turn->arc_m, to), err);
		} else {
			line_to(&m, at);
			last = s;
		}
	}
	if (!m.begun)
		line_to(&m, path_point(route, from));
	if (!(fabs(last - to) <= SAME_M))
		line_to(&m, path_point(route, to));
	if (!e && m.nomem)
		e = rt_fail_nomem(err);
	return e;
}
