/* The plan of a crew that begins on an empty field.
 *
 * The left side is the base line.  A right angle stands at both its ends, so that an error of
 * either acts over the width of the ring only, not over its length; the far corners are then
 * trued by the length of their side and by both diagonals, which a triangle of 15 m at the end of
 * a side of 80 m alone would not do.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "internal.h"

#define POLE_BEYOND_M 5.0 /* behind the far corner: the corner's peg must not hide it */
#define SAME_M	      1e-6

/* A line that is sighted. */
struct sighted {
	const char *stage;
	size_t from, to;
};

/* ---- running distances no longer than the tape ---- */

/* A mark on the line, so far from `from` towards the line's end: what stands there already, a
 * corner that is to stand there, or a new one. */
static size_t mark_on(struct rt_setout_plan *plan, const struct sighted *l, size_t from,
		      double along_m)
{
	double u[2], x, y;

	rt__plan_toward(plan, l->from, l->to, u);
	x = plan->point[from].x_m + along_m * u[0];
	y = plan->point[from].y_m + along_m * u[1];
	for (size_t i = 0; i < plan->points; i++) {
		const struct rt_setout_point *p = &plan->point[i];

		if ((p->stands || (p->peg && p->peg->corner)) &&
		    hypot(p->x_m - x, p->y_m - y) < SAME_M)
			return i;
	}
	return rt__plan_mark(plan, NULL, x, y);
}

/* How far to the next mark when a point is so far off: in pulls that are much alike, of whole
 * fives of metres. */
static double pull_length(const struct rt_setout_plan *plan, double distance_m)
{
	double pulls = ceil(distance_m / plan->options.tape_m - SAME_M);
	double most = floor(plan->options.tape_m / 5) * 5;

	return fmin(most, ceil(distance_m / pulls / 5 - SAME_M) * 5);
}

static bool in_reach(const struct rt_setout_plan *plan, size_t zero, size_t point)
{
	return rt__plan_distance(plan, zero, point) <= plan->options.tape_m + SAME_M;
}

/* Put a point of the line, unless it stands. */
static void run_to(struct rt_setout_plan *plan, const struct sighted *l, size_t zero, size_t point)
{
	if (!plan->point[point].stands)
		rt__plan_run(plan, l->stage, l->from, l->to, zero, point);
}

/* Put points, in the order of the tape, each from the last zero that reaches it: the tape's zero
 * moves to the last one that stands, or to a mark where there is none in reach.  zero stands. */
static void chain(struct rt_setout_plan *plan, const struct sighted *l, size_t zero,
		  const size_t *target, size_t targets)
{
	size_t last = zero;

	for (size_t i = 0; i < targets; i++) {
		while (!plan->nomem && !in_reach(plan, zero, target[i])) {
			if (last == zero) {
				double d = rt__plan_distance(plan, zero, target[i]);

				last = mark_on(plan, l, zero, pull_length(plan, d));
				run_to(plan, l, zero, last);
			}
			zero = last;
		}
		run_to(plan, l, zero, target[i]);
		last = target[i];
	}
}

/* The pegs of a side that do not stand yet, by their distance from `from`; how many. */
static size_t pegs_of(const struct rt_setout_plan *plan, enum rt_side side, size_t from,
		      size_t *out)
{
	size_t n = 0;

	for (size_t i = 0; i < plan->pegs.n; i++) {
		size_t k = n;

		if (plan->point[i].stands || !rt__plan_on(plan, i, side))
			continue;
		for (; k > 0 &&
		       rt__plan_distance(plan, from, out[k - 1]) > rt__plan_distance(plan, from, i);
		     k--)
			out[k] = out[k - 1];
		out[k] = i;
		n++;
	}
	return n;
}

/* Put the pegs between two ends that stand, each from the nearer end: what is left in the middle
 * proves them. */
static void from_both_ends(struct rt_setout_plan *plan, enum rt_side side, struct sighted l)
{
	const struct sighted back = {l.stage, l.to, l.from};
	double half = rt__plan_distance(plan, l.from, l.to) / 2 + SAME_M;
	size_t peg[RT_RING_LETTERS_MOST + 4], n = pegs_of(plan, side, l.from, peg), near = 0;

	while (near < n && rt__plan_distance(plan, l.from, peg[near]) <= half)
		near++;
	chain(plan, &l, l.from, peg, near);
	n = pegs_of(plan, side, l.to, peg);
	chain(plan, &back, l.to, peg, n);
}

/* ---- base line ---- */

static void base_line(struct rt_setout_plan *plan, size_t near, size_t far)
{
	static const char stage[] = "base line";
	size_t pole = rt__plan_mark(plan, "pole", plan->point[far].x_m,
				    plan->point[far].y_m + POLE_BEYOND_M);
	const struct sighted line = {stage, near, pole};
	struct rt_setout_step sight = rt__plan_step(RT_SETOUT_SIGHT, stage, pole);
	size_t peg[RT_RING_LETTERS_MOST + 4], n;

	sight.from = near;
	rt__plan_put(plan, rt__plan_step(RT_SETOUT_STAND, stage, near));
	rt__plan_put(plan, sight);
	n = pegs_of(plan, RT_LEFT, near, peg);
	chain(plan, &line, near, peg, n);
}

/* ---- corners ---- */

/* The last step's proof: the right angle by a triangle of that part, marked on both sides. */
static void prove_angle(struct rt_setout_plan *plan, size_t corner, size_t along, size_t across,
			double along_m, double across_m)
{
	const char *peg = plan->point[corner].name;
	struct rt_setout_step *s;

	if (plan->nomem)
		return;
	s = &plan->step[plan->steps - 1];
	s->proof_from = (struct rt_setout_mark){peg, along_m, plan->point[along].name};
	s->proof_to = (struct rt_setout_mark){peg, across_m, plan->point[across].name};
	s->proof_m = hypot(along_m, across_m);
}

/* Put `across` at the right angle to the base line at `corner`, whose other end is `along`: 4
 * parts along the base line, 3 across; then on along the line that this gives.  Proved by the
 * triangle laid the other way round. */
static void right_angle(struct rt_setout_plan *plan, const char *stage, size_t corner, size_t along,
			size_t across)
{
	const struct rt_ring_kind *kind = plan->kind;
	double tape = plan->options.tape_m, reach = tape / (plan->options.tapes == 1 ? 8 : 5);
	double ring = fmin(kind->width_m / 3, kind->length_m / 4), proof;
	double part = rt__triangle_part(fmin(reach, ring));
	const struct sighted base = {stage, corner, along};
	struct sighted side = {stage, corner, across};
	size_t mark = mark_on(plan, &base, corner, 4 * part), square;

	if (!plan->point[mark].stands)
		chain(plan, &base, corner, &mark, 1);
	square = mark_on(plan, &side, corner, 3 * part);
	rt__plan_cross(plan, stage, corner, mark, square);
	if (square == across)
		return;
	side.to = square;
	chain(plan, &side, corner, (size_t[]){square, across}, 2);
	proof = rt__triangle_part(fmin(tape / 5, fmin(kind->width_m / 4, kind->length_m / 3)));
	prove_angle(plan, corner, along, across, 3 * proof, 4 * proof);
}

/* Both far corners by the ring's own diagonal, which the tape reaches. */
static void by_diagonals(struct rt_setout_plan *plan, const size_t corner[4])
{
	double part = rt__triangle_part(fmin(plan->kind->width_m / 3, plan->kind->length_m / 4));

	rt__plan_cross(plan, "first right angle", corner[0], corner[1], corner[3]);
	prove_angle(plan, corner[0], corner[1], corner[3], 4 * part, 3 * part);
	rt__plan_cross(plan, "far corner", corner[1], corner[0], corner[2]);
	prove_angle(plan, corner[1], corner[0], corner[2], 4 * part, 3 * part);
}

/* Move the far corners along their side: first to its length, then to equal diagonals. */
static void true_corners(struct rt_setout_plan *plan, const size_t corner[4])
{
	struct rt_setout_step s = rt__plan_step(RT_SETOUT_LENGTH, "far corners", corner[3]);

	s.other = corner[2];
	s.from_m = s.proof_m = rt__plan_distance(plan, corner[3], corner[2]);
	s.proof_from.peg = plan->point[corner[3]].name;
	s.proof_to.peg = plan->point[corner[2]].name;
	rt__plan_put(plan, s);
	s.kind = RT_SETOUT_DIAGONALS;
	s.from = corner[0];
	s.second = corner[1];
	s.from_m = s.second_m = rt__plan_distance(plan, corner[0], corner[2]);
	rt__plan_put(plan, s);
}

/* ---- letters ---- */

/* The point in the middle of a short side: a letter, or a mark where there is none. */
static size_t middle_of(struct rt_setout_plan *plan, const char *stage, size_t left, size_t right)
{
	const struct sighted l = {stage, left, right};
	size_t middle = mark_on(plan, &l, left, rt__plan_distance(plan, left, right) / 2);

	if (!plan->point[middle].stands)
		chain(plan, &l, left, &middle, 1);
	return middle;
}

static void letters(struct rt_setout_plan *plan, const size_t corner[4])
{
	struct sighted centre = {"centreline", 0, 0};
	bool any = false;

	from_both_ends(plan, RT_RIGHT, (struct sighted){"right side", corner[3], corner[2]});
	from_both_ends(plan, RT_SIDE_A, (struct sighted){"A side", corner[0], corner[3]});
	from_both_ends(plan, RT_SIDE_C, (struct sighted){"C side", corner[1], corner[2]});
	for (size_t i = 0; i < plan->pegs.n; i++)
		any |= plan->pegs.at[i].side == RT_CENTRE;
	if (!any)
		return;
	centre.from = middle_of(plan, centre.stage, corner[0], corner[3]);
	centre.to = middle_of(plan, centre.stage, corner[1], corner[2]);
	from_both_ends(plan, RT_CENTRE, centre);
}

void rt__plan_crew(struct rt_setout_plan *plan)
{
	double diagonal = hypot(plan->kind->width_m, plan->kind->length_m);
	double needed = diagonal + (plan->options.tapes == 1 ? plan->kind->width_m : 0);
	size_t corner[4]; /* clockwise from A, so the two of the base line first */

	for (size_t i = 0; i < 4; i++)
		corner[i] = rt__plan_find(plan, rt__corner[i]);
	base_line(plan, corner[0], corner[1]);
	if (needed <= plan->options.tape_m) {
		by_diagonals(plan, corner);
	} else {
		right_angle(plan, "first right angle", corner[0], corner[1], corner[3]);
		right_angle(plan, "second right angle", corner[1], corner[0], corner[2]);
	}
	true_corners(plan, corner);
	letters(plan, corner);
	rt__plan_prove(plan, "last proof", "AK", "CM");
	rt__plan_prove(plan, "last proof", "FA", "HC");
}
