/* Do all distances come out longer or shorter by one part, as with a stretched tape?
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define SIGNIFICANT 4.0 /* standard errors */
#define OFF_LEAST   3	/* pegs off: fewer need no stretch to explain them */
#define ROUNDS	    4	/* to settle which pegs agree; it does in two */

struct stretch {
	const double *should, *stands; /* 2 a peg */
	double *longer;		       /* should, stretched */
	double *row;		       /* of the stretch over the coordinates of all pegs */
	bool *in;		       /* the pegs that agree when stretched */
	double part;		       /* 0.01: 1 % longer */
	size_t agree;
};

/* Least squares over the pegs in `in`: for a similarity, the derivative of the scale is the peg's
 * arm in the layout, turned as the layout lies, over the sum of squares of the arms. */
static void estimate(struct stretch *s, size_t n)
{
	struct rt__placement t = rt__place(s->should, s->stands, n, s->in);
	double c[2], square = 0, along = 0;

	rt__middle(s->should, n, s->in, c);
	for (size_t i = 0; i < n; i++) {
		double x = s->should[2 * i] - c[0], y = s->should[2 * i + 1] - c[1];

		s->row[2 * i] = s->in[i] ? t.cosine * x - t.sine * y : 0;
		s->row[2 * i + 1] = s->in[i] ? t.sine * x + t.cosine * y : 0;
		square += s->in[i] ? x * x + y * y : 0;
	}
	for (size_t i = 0; i < 2 * n; i++) {
		s->row[i] /= square;
		along += s->row[i] * s->stands[i];
	}
	s->part = along - 1;
}

/* Where the outermost peg stands if all is stretched so, less where it should. */
static double carries_off(const struct stretch *s, size_t n)
{
	double c[2], arm = 0;

	rt__middle(s->should, n, NULL, c);
	for (size_t i = 0; i < n; i++)
		arm = fmax(arm, hypot(s->should[2 * i] - c[0], s->should[2 * i + 1] - c[1]));
	return fabs(s->part) * arm;
}

/* The part that most pegs agree on: first of all pegs, then of those that agree with it. */
static enum rt_err settle(struct stretch *s, size_t n, double tolerance, struct rt_error *err)
{
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < n; i++)
		s->in[i] = true;
	for (int round = 0; !e && round < ROUNDS; round++) {
		estimate(s, n);
		for (size_t i = 0; i < 2 * n; i++)
			s->longer[i] = (1 + s->part) * s->should[i];
		e = rt__fewest(s->longer, s->stands, n, tolerance, s->in, &s->agree, err);
		if (s->agree < 2)
			break;
	}
	return e;
}

enum rt_err rt__find_stretch(struct rt_ring_check *check, const double *should,
			     const double *stands, struct rt_error *err)
{
	size_t n = check->pegs, off = 0;
	struct stretch s = {.should = should, .stands = stands};
	struct rt_arena *room = NULL;
	double factor = fmax(1, check->adjustment.sigma0), se;
	enum rt_err e;

	for (size_t i = 0; i < n; i++)
		off += check->peg[i].off_m > check->tolerance_m;
	if (off < OFF_LEAST)
		return RT_OK;
	s.longer = rt_arena_take(&room, 2 * n * sizeof *s.longer);
	s.row = rt_arena_take(&room, 2 * n * sizeof *s.row);
	s.in = rt_arena_take(&room, n * sizeof *s.in);
	e = s.longer && s.row && s.in ? settle(&s, n, check->tolerance_m, err) : rt_fail_nomem(err);
	if (!e && 3 * (n - s.agree) <= off) {
		se = sqrt(rt__quadratic(check->adjustment.covariance_m2, s.row, s.row, 2 * n));
		if (fabs(s.part) > SIGNIFICANT * factor * se &&
		    carries_off(&s, n) > check->tolerance_m) {
			check->stretch = s.part;
			check->stretch_se = factor * se;
		}
	}
	rt_arena_free(room);
	return e;
}
