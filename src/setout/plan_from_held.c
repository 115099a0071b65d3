/* The plan of a crew that begins from points which stand already.
 *
 * Of all pegs that can be put from what stands, by a running distance or by two tapes, the one
 * comes next that is put with the least error; errors of what it was put from are carried along,
 * with their covariances.  What a peg's best way is changes only by what was put since, so each
 * peg keeps its best.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "internal.h"

#define CROSSING_LEAST 0.26 /* sine: under 15 degrees two tapes fix nothing */
#define CROSS_EFFORT   2.0  /* two tapes must halve the variance of a running distance */
#define LEAST_M	       0.5
#define SAME_M	       1e-6

/* A way to put a point, in its derivatives by the two points it is put from. */
struct way {
	bool run;
	size_t from, second; /* run: the line is from `from` through `second`, or back */
	double by_from[4], by_second[4], noise[3]; /* xx, xy, yy */
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
	const struct rt_reading r = {.value = d, .sigma = NAN};
	double sigma = rt_reading_sigma(&r);

	return sigma * sigma;
}

static double block(const struct search *s, size_t a, int i, size_t b, int k)
{
	return s->covariance[(2 * a + (size_t)i) * 2 * s->n + 2 * b + (size_t)k];
}

/* Variance of x and of y together of a point that is put so. */
static double cost(const struct search *s, const struct way *w)
{
	const size_t point[2] = {w->from, w->second};
	const double *by[2] = {w->by_from, w->by_second};
	double sum = w->noise[0] + w->noise[2];

	for (int a = 0; a < 2; a++)
		for (int b = 0; b < 2; b++)
			for (int axis = 0; axis < 2; axis++)
				for (int i = 0; i < 2; i++)
					for (int k = 0; k < 2; k++)
						sum += by[a][2 * axis + i] * by[b][2 * axis + k] *
						       block(s, point[a], i, point[b], k);
	return sum;
}

static double toward(const struct rt_setout_plan *plan, size_t from, size_t to, double u[2])
{
	double d = rt__plan_distance(plan, from, to);

	u[0] = (plan->point[to].x_m - plan->point[from].x_m) / d;
	u[1] = (plan->point[to].y_m - plan->point[from].y_m) / d;
	return d;
}

/* ---- the two ways ---- */

/* Along the line through both: the zero is held at `from`. */
static bool by_run(const struct search *s, size_t point, size_t from, size_t second, struct way *w)
{
	double u[2], v[2], n[2], base = toward(s->plan, from, second, u);
	double d = toward(s->plan, from, point, v), part;
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
			w->by_second[2 * i + k] = part * n[i] * n[k];
			w->by_from[2 * i + k] = (i == k) - part * n[i] * n[k];
		}
	for (int i = 0; i < 3; i++) {
		int a = i / 2, b = (i + 1) / 2;

		w->noise[i] = tape * u[a] * u[b] + sight * n[a] * n[b];
	}
	w->cost = cost(s, w);
	return true;
}

/* Where the tapes from both cross: u1.dt = e1 + u1.dp1, u2.dt = e2 + u2.dp2. */
static bool by_cross(const struct search *s, size_t point, size_t from, size_t second,
		     struct way *w)
{
	double u[2], v[2], a = toward(s->plan, from, point, u),
			   b = toward(s->plan, second, point, v);
	double sine = u[0] * v[1] - u[1] * v[0], reach = s->plan->options.tape_m + SAME_M;
	double by_a[2], by_b[2];

	if (a > reach || b > reach || a < LEAST_M || b < LEAST_M || fabs(sine) < CROSSING_LEAST)
		return false;
	by_a[0] = v[1] / sine;
	by_a[1] = -v[0] / sine;
	by_b[0] = -u[1] / sine;
	by_b[1] = u[0] / sine;
	*w = (struct way){.from = from, .second = second};
	for (int i = 0; i < 2; i++)
		for (int k = 0; k < 2; k++) {
			w->by_from[2 * i + k] = by_a[i] * u[k];
			w->by_second[2 * i + k] = by_b[i] * v[k];
		}
	for (int i = 0; i < 3; i++) {
		int k = i / 2, l = (i + 1) / 2;

		w->noise[i] = tape_variance(a) * by_a[k] * by_a[l] +
			      tape_variance(b) * by_b[k] * by_b[l];
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

	for (size_t c = 0; c < row; c++) {
		if (c / 2 == point)
			continue;
		for (size_t i = 0; i < 2; i++) {
			double sum = 0;

			for (size_t k = 0; k < 2; k++)
				sum += w->by_from[2 * i + k] *
					       s->covariance[(2 * w->from + k) * row + c] +
				       w->by_second[2 * i + k] *
					       s->covariance[(2 * w->second + k) * row + c];
			s->covariance[(2 * point + i) * row + c] = sum;
			s->covariance[c * row + 2 * point + i] = sum;
		}
	}
	for (size_t i = 0; i < 2; i++)
		for (size_t l = 0; l < 2; l++) {
			double sum = w->noise[i + l];

			for (size_t k = 0; k < 2; k++)
				sum += w->by_from[2 * i + k] *
					       s->covariance[(2 * w->from + k) * row + 2 * point +
							     l] +
				       w->by_second[2 * i + k] *
					       s->covariance[(2 * w->second + k) * row + 2 * point +
							     l];
			s->covariance[(2 * point + i) * row + 2 * point + l] = sum;
		}
}

static enum rt_err put(struct search *s, size_t point, struct rt_error *err)
{
	static const char stage[] = "pegs from what stands";
	const struct way *w = &s->best[point];
	struct rt_setout_plan *plan = s->plan;
	double u[2], v[2];
	bool ahead;

	carry(s, point, w);
	if (!w->run)
		return rt__plan_cross(plan, stage, w->from, w->second, point, err);
	toward(plan, w->from, w->second, u);
	toward(plan, w->from, point, v);
	ahead = u[0] * v[0] + u[1] * v[1] > 0;
	return rt__plan_run(plan, stage, ahead ? w->from : w->second, ahead ? w->second : w->from,
			    w->from, point, err);
}

/* ---- the whole ---- */

static enum rt_err out_of_reach(const struct search *s, struct rt_error *err)
{
	const struct rt_setout_plan *plan = s->plan;
	double least = INFINITY;
	size_t which = 0;
	char names[200] = "";

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
	for (size_t i = 0; i < plan->options.holds && strlen(names) < 100; i++)
		snprintf(names + strlen(names), sizeof names - strlen(names), "%s%.60s",
			 i ? ", " : "", plan->options.hold[i].name);
	return rt_fail(err, RT_E_INPUT,
		       "from %s a tape of %.0f m does not reach the rest of the ring: the nearest "
		       "peg, %s, takes one of %.0f m; or hold more points, or points farther from "
		       "the pegs' own line",
		       names, plan->options.tape_m, plan->point[which].name, ceil(least));
}

/* Marks along the line of the first two holds where the tape does not span them: more to tape
 * from. */
static enum rt_err marks_between(struct rt_setout_plan *plan, struct rt_error *err)
{
	size_t a = rt__plan_find(plan, plan->options.hold[0].name);
	size_t b = rt__plan_find(plan, plan->options.hold[1].name), from = a;
	double u[2], length = toward(plan, a, b, u), step = floor(plan->options.tape_m / 5) * 5;
	enum rt_err e = RT_OK;

	for (double d = step; !e && d < length - LEAST_M; d += step) {
		size_t mark = rt__plan_mark(plan, NULL, plan->point[a].x_m + d * u[0],
					    plan->point[a].y_m + d * u[1]);

		if (mark == RT_NO_POINT)
			return rt_fail_nomem(err);
		e = rt__plan_run(plan, "line of the points held", a, b, from, mark, err);
		from = mark;
	}
	return e;
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
	enum rt_err e = RT_OK;

	while (!e) {
		bool left;
		size_t next = next_peg(s, &left);

		if (!left)
			break;
		e = next == RT_NO_POINT ? out_of_reach(s, err) : put(s, next, err);
		for (size_t i = 0; !e && i < s->plan->pegs.n; i++)
			if (!s->plan->point[i].stands)
				look(s, i, next);
	}
	return e;
}

enum rt_err rt__plan_hold(struct rt_setout_plan *plan, struct rt_error *err)
{
	struct search s = {0};
	enum rt_err e = RT_OK;

	for (size_t i = 1; !e && i < plan->options.holds; i++)
		e = rt__plan_prove(plan, "what stands", plan->options.hold[0].name,
				   plan->options.hold[i].name, err);
	if (!e)
		e = begin(&s, plan, err);
	if (!e && !look_at_all(&s)) {
		e = marks_between(plan, err);
		if (!e)
			e = begin(&s, plan, err);
		if (!e)
			look_at_all(&s);
	}
	if (!e)
		e = put_all(&s, err);
	if (!e)
		e = rt__plan_prove(plan, "last proof", "AK", "CM", err);
	return e ? e : rt__plan_prove(plan, "last proof", "FA", "HC", err);
}
