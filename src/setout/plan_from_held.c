/* The plan of a crew that begins from points which stand already.
 *
 * Of all pegs that can be put from what stands, by a running distance or by two tapes, the one
 * comes next that is put with the least error; errors of what it was put from are carried along,
 * with their covariances.  What a peg's best way is changes only by what was put since, so each
 * peg keeps its best.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "internal.h"

#define CROSSING_LEAST 0.26 /* sine: under 15 degrees two tapes fix nothing */
#define CROSS_EFFORT   2.0  /* two tapes must halve the variance of a running distance */
#define LEAST_M	       0.5
#define SAME_M	       1e-6

/* A way to put a point. */
struct way {
	bool run;
	size_t from, second; /* run: the line is from `from` through `second`, or back */
	double by[2][4];     /* its x and y by x, y of from and x, y of second */
	double noise[2][2];  /* covariance of what is measured */
	double cost;
};

struct search {
	struct rt_setout_plan *plan;
	size_t n;	    /* points */
	double *covariance; /* 2n x 2n */
	struct way *best;   /* of each point; cost INFINITY: none */
};

static double tape_variance(double d)
{
	return rt__tape_sigma(d) * rt__tape_sigma(d);
}

/* Coordinate k of the two points of a way, among all. */
static size_t place(const struct way *w, size_t k)
{
	return k < 2 ? 2 * w->from + k : 2 * w->second + k - 2;
}

/* What coordinate c has in common with x (or y) of a point that is put so. */
static double carried(const struct search *s, const struct way *w, size_t axis, size_t c)
{
	double sum = 0;

	for (size_t k = 0; k < 4; k++)
		sum += w->by[axis][k] * s->covariance[place(w, k) * 2 * s->n + c];
	return sum;
}

/* Variance of x and of y together of a point that is put so. */
static double cost(const struct search *s, const struct way *w)
{
	double sum = w->noise[0][0] + w->noise[1][1];

	for (size_t axis = 0; axis < 2; axis++)
		for (size_t k = 0; k < 4; k++)
			sum += w->by[axis][k] * carried(s, w, axis, place(w, k));
	return sum;
}

/* ---- the two ways ---- */

/* Along the line through both: the zero is held at `from`. */
static bool by_run(const struct search *s, size_t point, size_t from, size_t second, struct way *w)
{
	double u[2], v[2], n[2], base = rt__plan_toward(s->plan, from, second, u);
	double d = rt__plan_toward(s->plan, from, point, v), part;
	double tape = tape_variance(d), sight = RT__SIGHT_SIGMA_M * RT__SIGHT_SIGMA_M;

	if (d > s->plan->options.tape_m + SAME_M || d < LEAST_M || base < LEAST_M ||
	    fabs(u[0] * v[1] - u[1] * v[0]) * d > SAME_M)
		return false;
	n[0] = -u[1];
	n[1] = u[0];
	part = (u[0] * v[0] + u[1] * v[1]) * d / base;
	*w = (struct way){.run = true, .from = from, .second = second};
	for (int i = 0; i < 2; i++)
		for (int k = 0; k < 2; k++) {
			double across = part * n[i] * n[k];

			w->by[i][k] = (i == k) - across;
			w->by[i][2 + k] = across;
			w->noise[i][k] = tape * u[i] * u[k] + sight * n[i] * n[k];
		}
	w->cost = cost(s, w);
	return true;
}

/* Where the tapes from both cross: u1.dt = e1 + u1.dp1, u2.dt = e2 + u2.dp2. */
static bool by_cross(const struct search *s, size_t point, size_t from, size_t second,
		     struct way *w)
{
	double u[2], v[2], a = rt__plan_toward(s->plan, from, point, u),
			   b = rt__plan_toward(s->plan, second, point, v);
	double sine = u[0] * v[1] - u[1] * v[0], reach = s->plan->options.tape_m + SAME_M;
	double by_a[2] = {v[1] / sine, -v[0] / sine}, by_b[2] = {-u[1] / sine, u[0] / sine};

	if (a > reach || b > reach || a < LEAST_M || b < LEAST_M || fabs(sine) < CROSSING_LEAST)
		return false;
	*w = (struct way){.from = from, .second = second};
	for (int i = 0; i < 2; i++)
		for (int k = 0; k < 2; k++) {
			w->by[i][k] = by_a[i] * u[k];
			w->by[i][2 + k] = by_b[i] * v[k];
			w->noise[i][k] = tape_variance(a) * by_a[i] * by_a[k] +
					 tape_variance(b) * by_b[i] * by_b[k];
		}
	w->cost = CROSS_EFFORT * cost(s, w);
	return true;
}

static void keep_better(struct search *s, size_t point, const struct way *w)
{
	if (w->cost < s->best[point].cost * (1 - 1e-9))
		s->best[point] = *w;
}

/* Whether three points lie on one line that is sighted in this ring: a side, the centreline. */
static bool one_line(const struct rt_setout_plan *plan, size_t a, size_t b, size_t c)
{
	static const enum rt_side side[] = {RT_LEFT, RT_RIGHT, RT_SIDE_A, RT_SIDE_C, RT_CENTRE};

	for (size_t i = 0; i < sizeof side / sizeof *side; i++)
		if (rt__plan_on(plan, a, side[i]) && rt__plan_on(plan, b, side[i]) &&
		    rt__plan_on(plan, c, side[i]))
			return true;
	return false;
}

/* The ways to put a point with the help of one that stands since lately. */
static void look(struct search *s, size_t point, size_t fresh)
{
	struct way w;

	for (size_t i = 0; i < s->n; i++) {
		if (!s->plan->point[i].stands || i == fresh)
			continue;
		if (by_cross(s, point, fresh, i, &w))
			keep_better(s, point, &w);
		if (!one_line(s->plan, point, fresh, i))
			continue;
		if (by_run(s, point, fresh, i, &w))
			keep_better(s, point, &w);
		if (by_run(s, point, i, fresh, &w))
			keep_better(s, point, &w);
	}
}

/* ---- putting one ---- */

/* The covariances of a point that was put so, with itself and all others. */
static void carry(struct search *s, size_t point, const struct way *w)
{
	size_t row = 2 * s->n;

	for (size_t axis = 0; axis < 2; axis++) {
		size_t own = 2 * point + axis;

		for (size_t c = 0; c < row; c++)
			if (c / 2 != point)
				s->covariance[own * row + c] = s->covariance[c * row + own] =
					carried(s, w, axis, c);
	}
	for (size_t i = 0; i < 2; i++)
		for (size_t k = 0; k < 2; k++)
			s->covariance[(2 * point + i) * row + 2 * point + k] =
				w->noise[i][k] + carried(s, w, i, 2 * point + k);
}

static void put(struct search *s, size_t point)
{
	static const char stage[] = "pegs from what stands";
	const struct way *w = &s->best[point];
	struct rt_setout_plan *plan = s->plan;
	double u[2], v[2];
	bool ahead;

	carry(s, point, w);
	if (!w->run) {
		rt__plan_cross(plan, stage, w->from, w->second, point);
		return;
	}
	rt__plan_toward(plan, w->from, w->second, u);
	rt__plan_toward(plan, w->from, point, v);
	ahead = u[0] * v[0] + u[1] * v[1] > 0;
	rt__plan_run(plan, stage, ahead ? w->from : w->second, ahead ? w->second : w->from, w->from,
		     point);
}

/* ---- the whole ---- */

static enum rt_err out_of_reach(const struct search *s, struct rt_error *err)
{
	const struct rt_setout_plan *plan = s->plan;
	double least = INFINITY;
	struct rt__told names = {0};
	size_t which = 0;

	for (size_t i = 0; i < plan->pegs.n; i++) {
		double near[2] = {INFINITY, INFINITY};

		for (size_t k = 0; k < s->n; k++) {
			double d = rt__plan_distance(plan, i, k);

			if (!plan->point[k].stands || plan->point[i].stands)
				continue;
			near[1] = fmin(near[1], fmax(d, near[0]));
			near[0] = fmin(near[0], d);
		}
		if (near[1] < least) {
			least = near[1];
			which = i;
		}
	}
	for (size_t i = 0; i < plan->options.holds; i++)
		rt__told_add(&names, plan->options.hold[i].name);
	return rt_fail(
		err, RT_E_INPUT,
		"from %.160s a tape of %.0f m does not reach the rest of the ring: the nearest "
		"peg, %s, takes one of %.0f m; or hold more points, or points farther from "
		"the pegs' own line",
		names.text, plan->options.tape_m, plan->point[which].name, ceil(least));
}

/* Marks along the line of the first two holds where the tape does not span them: more to tape
 * from. */
static void marks_between(struct rt_setout_plan *plan)
{
	size_t a = rt__plan_find(plan, plan->options.hold[0].name);
	size_t b = rt__plan_find(plan, plan->options.hold[1].name), from = a;
	double u[2], length = rt__plan_toward(plan, a, b, u);
	double step = floor(plan->options.tape_m / 5) * 5;

	for (double d = step; d < length - LEAST_M; d += step) {
		size_t mark = rt__plan_mark(plan, NULL, plan->point[a].x_m + d * u[0],
					    plan->point[a].y_m + d * u[1]);

		rt__plan_run(plan, "line of the points held", a, b, from, mark);
		from = mark;
	}
}

static enum rt_err begin(struct search *s, struct rt_setout_plan *plan, struct rt_error *err)
{
	size_t squares;

	s->plan = plan;
	s->n = plan->points;
	squares = 4 * s->n * s->n;
	s->covariance = rt_arena_take(&plan->text, squares * sizeof *s->covariance);
	s->best = rt_arena_take(&plan->text, s->n * sizeof *s->best);
	if (!s->covariance || !s->best)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < s->n; i++)
		s->best[i].cost = INFINITY;
	/* the marks' errors: of one pull each and of sight, which is enough to rank by */
	for (size_t i = plan->pegs.n; i < s->n; i++)
		for (size_t k = 2 * i; k < 2 * i + 2; k++)
			if (!plan->point[i].held)
				s->covariance[k * 2 * s->n + k] = tape_variance(
					plan->options.tape_m);
	return RT_OK;
}

/* Look at every peg from every point that stands; whether one of them has a way. */
static bool look_at_all(struct search *s)
{
	bool any = false;

	for (size_t i = 0; i < s->plan->pegs.n; i++) {
		if (s->plan->point[i].stands)
			continue;
		for (size_t k = 0; k < s->n; k++)
			if (s->plan->point[k].stands)
				look(s, i, k);
		any |= isfinite(s->best[i].cost);
	}
	return any;
}

/* The peg that is put next; RT_NO_POINT: none has a way.  *left: one is still to be put. */
static size_t next_peg(const struct search *s, bool *left)
{
	double least = INFINITY;
	size_t next = RT_NO_POINT;

	*left = false;
	for (size_t i = 0; i < s->plan->pegs.n; i++) {
		if (s->plan->point[i].stands)
			continue;
		*left = true;
		if (s->best[i].cost < least) {
			least = s->best[i].cost;
			next = i;
		}
	}
	return next;
}

static enum rt_err put_all(struct search *s, struct rt_error *err)
{
	bool left;

	for (size_t next = next_peg(s, &left); left; next = next_peg(s, &left)) {
		if (next == RT_NO_POINT)
			return out_of_reach(s, err);
		put(s, next);
		for (size_t i = 0; i < s->plan->pegs.n; i++)
			if (!s->plan->point[i].stands)
				look(s, i, next);
	}
	return RT_OK;
}

enum rt_err rt__plan_hold(struct rt_setout_plan *plan, struct rt_error *err)
{
	struct search s = {0};
	enum rt_err e;

	for (size_t i = 1; i < plan->options.holds; i++)
		rt__plan_prove(plan, "what stands", plan->options.hold[0].name,
			       plan->options.hold[i].name);
	e = begin(&s, plan, err);
	if (!e && !look_at_all(&s)) {
		marks_between(plan);
		e = begin(&s, plan, err);
		if (!e)
			look_at_all(&s);
	}
	if (!e)
		e = put_all(&s, err);
	rt__plan_prove(plan, "last proof", "AK", "CM");
	rt__plan_prove(plan, "last proof", "FA", "HC");
	return e;
}
