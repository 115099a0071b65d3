/* Is every point fixed by the readings, before anything is measured?
 *
 * In the common case one covariance at the start says yes: no standard error over RT_SE_FIXED_M,
 * so no direction is free.  Otherwise the largest set of points that hold each other is looked for,
 * and the others are named with the readings that would tie them to it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define MIRROR_M 1.0	/* a mirror place nearer than this could be meant */
#define LOOSE_M	 1000.0 /* how far a point that nothing holds may stray */
#define HEAVY	 1e-6	/* sigma of a datum row: against 1e-4 of a reading */

static enum rt_err survey_make(struct rt__survey *s, struct rt__network *net, struct rt_error *err)
{
	size_t n = net->places + 3 * net->frames, rows = net->edges + n + 3;

	s->net = net;
	s->x = rt_arena_take(&s->room, n * sizeof *s->x);
	s->covariance = rt_arena_take(&s->room, n * n * sizeof *s->covariance);
	s->sigma = rt_arena_take(&s->room, rows * sizeof *s->sigma);
	s->worst = rt_arena_take(&s->room, net->points * sizeof *s->worst);
	s->held = rt_arena_take(&s->room, net->points * sizeof *s->held);
	s->mirror = rt_arena_take(&s->room, net->points * sizeof *s->mirror);
	s->mirrored = rt_arena_take(&s->room, 2 * net->points * sizeof *s->mirrored);
	s->set = rt_arena_take(&s->room, net->points * sizeof *s->set);
	s->core = rt_arena_take(&s->room, net->points * sizeof *s->core);
	s->best = rt_arena_take(&s->room, net->points * sizeof *s->best);
	if (!s->x || !s->covariance || !s->sigma || !s->worst || !s->held || !s->mirror ||
	    !s->mirrored || !s->set || !s->core || !s->best)
		return rt_fail_nomem(err);
	return RT_OK;
}

/* Standard error of a point in the direction it is known worst. */
static double worst_of(const struct rt__network *net, const double *covariance, size_t p)
{
	size_t i = net->column[p], n = net->unknowns;

	if (i == RT__FIXED)
		return 0;
	return rt__worst_error(covariance[i * n + i], covariance[i * n + i + 1],
			       covariance[(i + 1) * n + i + 1]);
}

bool rt__network_holds(const struct rt__network *net)
{
	for (size_t p = 0; p < net->points; p++) {
		if (!(worst_of(net, net->covariance, p) * net->scale <= RT_SE_FIXED_M))
			return false;
	}
	return true;
}

/* Mark the points whose standard error is small enough; count them. */
static size_t mark_held(const struct rt__survey *s, bool *held)
{
	const struct rt__network *net = s->net;
	size_t count = 0;

	for (size_t p = 0; p < net->points; p++) {
		s->worst[p] = worst_of(net, s->covariance, p);
		held[p] = s->worst[p] * net->scale <= RT_SE_FIXED_M;
		count += held[p];
	}
	return count;
}

/* ---- mirror places ---- */

/* Does what p's frame tells hang on p alone, or on one other point with it?  Then it would tell
 * the same of any other place. */
static bool frame_follows(const struct rt__network *net, const struct rt__edge *e)
{
	size_t other = RT__NONE;

	if (e->frame == RT__NONE)
		return false;
	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *f = &net->edge[i];

		if (f->frame != e->frame || f->at == e->at || !f->used)
			continue;
		if (other != RT__NONE && f->at != other)
			return false;
		other = f->at;
	}
	return true;
}

/* Would the readings of p fit as well if it stood at `there`: is the misfit no more than one
 * reading's may be? */
static bool fits_as_well(const struct rt__network *net, size_t p, const double there[2])
{
	const double *here = net->start + 2 * p;
	double misfit = 0;

	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];
		double more;

		if (!rt__edge_counts(net, e) || (e->from != p && e->to != p && e->at != p) ||
		    frame_follows(net, e))
			continue;
		more = rt__edge_less(e, rt__edge_moved(net, e, p, there),
				     rt__edge_moved(net, e, p, here)) /
		       e->sigma;
		misfit += more * more;
	}
	return misfit <= RT_W_CRITICAL * RT_W_CRITICAL;
}

/* The other end of edge i where it is a used distance and has p at one end, else NULL. */
static const double *neighbour(const struct rt__network *net, size_t i, size_t p)
{
	const struct rt__edge *e = &net->edge[i];

	if (!e->used || e->kind != RT_READ_DISTANCE || (e->from != p && e->to != p))
		return NULL;
	return net->start + 2 * (e->from == p ? e->to : e->from);
}

/* Where p would stand on the other side of the line from a to b; false for no line. */
static bool reflect(const double here[2], const double *a, const double *b, double there[2])
{
	double length = hypot(b[0] - a[0], b[1] - a[1]), nx, ny, off;

	if (!(length > 0))
		return false;
	nx = -(b[1] - a[1]) / length;
	ny = (b[0] - a[0]) / length;
	off = (here[0] - a[0]) * nx + (here[1] - a[1]) * ny;
	there[0] = here[0] - 2 * off * nx;
	there[1] = here[1] - 2 * off * ny;
	return true;
}

/* Could p as well stand on the other side of a line through two pegs it is taped from, less
 * than MIRROR_M away?  A mirror place within the standard error is no other place. */
static bool has_mirror(const struct rt__survey *s, size_t p)
{
	const struct rt__network *net = s->net;
	const double *here = net->start + 2 * p, *a, *b;
	double *there = s->mirrored + 2 * p;

	for (size_t i = 0; i < net->edges; i++) {
		a = neighbour(net, i, p);
		for (size_t k = 0; a && k < i; k++) {
			double away;

			b = neighbour(net, k, p);
			if (!b || !reflect(here, a, b, there))
				continue;
			away = hypot(there[0] - here[0], there[1] - here[1]);
			if (away * net->scale <= MIRROR_M && away > RT_W_CRITICAL * s->worst[p] &&
			    fits_as_well(net, p, there))
				return true;
		}
	}
	return false;
}

/* Mark the points with a mirror place; says whether there are any. */
static bool mark_mirrors(const struct rt__survey *s)
{
	bool any = false;

	for (size_t p = 0; p < s->net->points; p++) {
		s->mirror[p] = s->net->column[p] != RT__FIXED && has_mirror(s, p);
		any |= s->mirror[p];
	}
	return any;
}

/* ---- the largest set of points that hold each other ---- */

/* The readings, then a weak pull of every unknown to its start, then the datum over the core:
 * with that, what nothing holds has a large standard error instead of none. */
static void loose_model(const void *data, const double *x, double *residual, double *jacobian)
{
	const struct rt__survey *s = data;
	const struct rt__network *net = s->net;
	struct rt__problem readings = rt__network_problem(s->net);
	size_t n = net->unknowns, rows = readings.rows + n + net->datums;

	memset(residual, 0, rows * sizeof *residual);
	readings.model(net, x, residual, jacobian);
	if (!jacobian)
		return;
	jacobian += readings.rows * n;
	memset(jacobian, 0, n * n * sizeof *jacobian);
	for (size_t i = 0; i < n; i++)
		jacobian[i * n + i] = 1;
	rt__network_datum(net, x, s->core, jacobian + n * n);
}

/* Standard errors with the core as datum. */
static enum rt_err loose_covariance(struct rt__survey *s, struct rt_error *err)
{
	struct rt__network *net = s->net;
	struct rt__problem readings = rt__network_problem(net);
	struct rt__problem p = {.rows = readings.rows + net->unknowns + net->datums,
				.unknowns = net->unknowns,
				.sigma = s->sigma,
				.places = net->places,
				.model = loose_model,
				.data = s};
	size_t row = readings.rows;

	memcpy(s->sigma, net->sigma, readings.rows * sizeof *s->sigma);
	for (size_t i = 0; i < net->unknowns; i++)
		s->sigma[row++] = LOOSE_M / net->scale;
	for (size_t i = 0; i < net->datums; i++)
		s->sigma[row++] = HEAVY;
	return rt__covariance(&p, s->x, s->covariance, err);
}

/* Let the core grow from its first points until no more are held; *count of them in s->core. */
static enum rt_err grow_core(struct rt__survey *s, size_t *count, struct rt_error *err)
{
	size_t before;

	*count = 0;
	do {
		enum rt_err e = loose_covariance(s, err);

		if (e)
			return e;
		before = *count;
		*count = mark_held(s, s->core);
	} while (*count > before && *count < s->net->points);
	return RT_OK;
}

/* Mark what a reading joins as the core: its points, or all of its frame; false where they were
 * found in one set already, and would grow to it again. */
static bool seed_core(const struct rt__survey *s, const struct rt__edge *e)
{
	const struct rt__network *net = s->net;
	size_t point[3], n = rt__edge_points(net, e, point);
	bool grown = true;

	memset(s->core, 0, net->points * sizeof *s->core);
	for (size_t i = 0; i < n; i++)
		s->core[point[i]] = true;
	for (size_t i = 0; e->frame != RT__NONE && i < net->edges; i++) {
		if (net->edge[i].frame == e->frame && net->edge[i].used)
			s->core[net->edge[i].at] = true;
	}
	for (size_t p = 0; p < net->points; p++)
		grown &= !s->core[p] || (s->set[p] && s->set[p] == s->set[point[0]]);
	return !grown;
}

/* Mark the largest set that a reading and its points grow to. */
static enum rt_err find_core(struct rt__survey *s, struct rt_error *err)
{
	const struct rt__network *net = s->net;
	size_t most = 0, count;

	for (size_t i = 0; i < net->edges && most < net->points; i++) {
		enum rt_err e;

		if (!rt__edge_counts(net, &net->edge[i]) || !seed_core(s, &net->edge[i]))
			continue;
		e = grow_core(s, &count, err);
		if (e)
			return e;
		for (size_t p = 0; p < net->points; p++)
			s->set[p] = s->core[p] ? i + 1 : s->set[p];
		if (count > most) {
			most = count;
			memcpy(s->best, s->core, net->points * sizeof *s->best);
		}
		if (net->datums == 0)
			break; /* the fixed points are the core, whichever reading it was */
	}
	memcpy(s->core, s->best, net->points * sizeof *s->core);
	return loose_covariance(s, err);
}

static enum rt_err survey(struct rt__survey *s, struct rt_error *err)
{
	struct rt__network *net = s->net;
	struct rt__problem p = rt__network_problem(net);
	enum rt_err e;

	rt__network_start(net, s->x);
	e = rt__covariance(&p, s->x, s->covariance, err);
	if (!e && mark_held(s, s->held) == net->points && !mark_mirrors(s))
		return RT_OK;
	if (e && e != RT_E_NUMERIC)
		return e;
	e = find_core(s, err);
	if (e)
		return e;
	mark_held(s, s->held);
	mark_mirrors(s);
	return rt__tell_unfixed(s, err);
}

enum rt_err rt__network_fixed(struct rt__network *net, struct rt_error *err)
{
	struct rt__survey s = {0};
	enum rt_err e = survey_make(&s, net, err);

	if (!e)
		e = survey(&s, err);
	rt_arena_free(s.room);
	return e;
}
