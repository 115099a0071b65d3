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
	const struct rt_setout_point *a = &plan->point[l->from], *b = &plan->point[l->to];
	double length = rt__plan_distance(plan, l->from, l->to);
	double x = plan->point[from].x_m + along_m * (b->x_m - a->x_m) / length;
	double y = plan->point[from].y_m + along_m * (b->y_m - a->y_m) / length;

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

/* Put points, in the order of the tape, each from the last zero that reaches it: the tape's zero
 * moves to the last one that stands, or to a mark where there is none in reach.  zero stands. */
static enum rt_err chain(struct rt_setout_plan *plan, const struct sighted *l, size_t zero,
			 const size_t *target, size_t targets, struct rt_error *err)
{
	double tape = plan->options.tape_m;
	size_t last = zero;
	enum rt_err e = RT_OK;

	for (size_t i = 0; !e && i < targets; i++) {
		while (!e && rt__plan_distance(plan, zero, target[i]) > tape + SAME_M) {
			if (last == zero) {
				double d = rt__plan_distance(plan, zero, target[i]);

				last = mark_on(plan, l, zero, pull_length(plan, d));
				if (last == RT_NO_POINT)
					return rt_fail_nomem(err);
				if (!plan->point[last].stands)
					e = rt__plan_run(plan, l->stage, l->from, l->to, zero, last,
							 err);
			}
			zero = last;
		}
		if (!e && !plan->point[target[i]].stands)
			e = rt__plan_run(plan, l->stage, l->from, l->to, zero, target[i], err);
		last = target[i];
	}
	return e;
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
static enum rt_err from_both_ends(struct rt_setout_plan *plan, enum rt_side side,
				  const struct sighted *l, struct rt_error *err)
{
	const struct sighted back = {l->stage, l->to, l->from};
	double half = rt__plan_distance(plan, l->from, l->to) / 2 + SAME_M;
	size_t peg[RT_RING_LETTERS_MOST + 4], n = pegs_of(plan, side, l->from, peg), near = 0;
	enum rt_err e;

	while (near < n && rt__plan_distance(plan, l->from, peg[near]) <= half)
		near++;
	e = chain(plan, l, l->from, peg, near, err);
	n = e ? 0 : pegs_of(plan, side, l->to, peg);
	return e ? e : chain(plan, &back, l->to, peg, n, err);
}

/* ---- base line ---- */

static enum rt_err base_line(struct rt_setout_plan *plan, size_t near, size_t far,
			     struct rt_error *err)
{
	struct sighted line = {"base line", near, RT_NO_POINT};
	size_t peg[RT_RING_LETTERS_MOST + 4], n;
	struct rt_setout_step *s = rt__plan_step(plan, RT_SETOUT_STAND, line.stage);

	if (!s)
		return rt_fail_nomem(err);
	s->point = near;
	plan->point[near].stands = true;
	line.to = rt__plan_mark(plan, "pole", plan->point[far].x_m,
				plan->point[far].y_m + POLE_BEYOND_M);
	s = line.to == RT_NO_POINT ? NULL : rt__plan_step(plan, RT_SETOUT_SIGHT, line.stage);
	if (!s)
		return rt_fail_nomem(err);
	s->point = line.to;
	s->from = near;
	plan->point[line.to].stands = true;
	n = pegs_of(plan, RT_LEFT, near, peg);
	return chain(plan, &line, near, peg, n, err);
}

/* ---- corners ---- */

/* The last step's proof: the right angle by a triangle of that part, marked on both sides. */
static void prove_angle(struct rt_setout_plan *plan, size_t corner, size_t along, size_t across,
			double along_m, double across_m)
{
	struct rt_setout_step *s = &plan->step[plan->steps - 1];

	s->proof_from = (struct rt_setout_mark){plan->point[corner].name, along_m,
						plan->point[along].name};
	s->proof_to = (struct rt_setout_mark){plan->point[corner].name, across_m,
					      plan->point[across].name};
	s->proof_m = hypot(along_m, across_m);
}

/* Put `across` at the right angle to the base line at `corner`, whose other end is `along`: 4
 * parts along the base line, 3 across; then on along the line that this gives.  Proved by the
 * triangle laid the other way round. */
static enum rt_err right_angle(struct rt_setout_plan *plan, const char *stage, size_t corner,
			       size_t along, size_t across, struct rt_error *err)
{
	const struct rt_ring_kind *kind = plan->kind;
	double tape = plan->options.tape_m, reach = tape / (plan->options.tapes == 1 ? 8 : 5);
	double ring = fmin(kind->width_m / 3, kind->length_m / 4), proof;
	double part = rt__triangle_part(fmin(reach, ring));
	struct sighted base = {stage, corner, along}, side = {stage, corner, across};
	size_t mark = mark_on(plan, &base, corner, 4 * part), square;
	enum rt_err e = RT_OK;

	if (mark == RT_NO_POINT)
		return rt_fail_nomem(err);
	if (!plan->point[mark].stands)
		e = chain(plan, &base, corner, &mark, 1, err);
	square = e ? RT_NO_POINT : mark_on(plan, &side, corner, 3 * part);
	if (e || square == RT_NO_POINT)
		return e ? e : rt_fail_nomem(err);
	e = rt__plan_cross(plan, stage, corner, mark, square, err);
	if (e || square == across)
		return e;
	side.to = square;
	e = chain(plan, &side, corner, (size_t[]){square, across}, 2, err);
	proof = rt__triangle_part(fmin(tape / 5, fmin(kind->width_m / 4, kind->length_m / 3)));
	if (!e)
		prove_angle(plan, corner, along, across, 3 * proof, 4 * proof);
	return e;
}

/* Both far corners by the ring's own diagonal, which the tape reaches. */
static enum rt_err by_diagonals(struct rt_setout_plan *plan, const size_t corner[4],
				struct rt_error *err)
{
	double part = rt__triangle_part(fmin(plan->kind->width_m / 3, plan->kind->length_m / 4));
	enum rt_err e = rt__plan_cross(plan, "first right angle", corner[0], corner[1], corner[3],
				       err);

	if (e)
		return e;
	prove_angle(plan, corner[0], corner[1], corner[3], 4 * part, 3 * part);
	e = rt__plan_cross(plan, "far corner", corner[1], corner[0], corner[2], err);
	if (!e)
		prove_angle(plan, corner[1], corner[0], corner[2], 4 * part, 3 * part);
	return e;
}

/* Move the far corners along their side: first to its length, then to equal diagonals. */
static enum rt_err true_corners(struct rt_setout_plan *plan, const size_t corner[4],
				struct rt_error *err)
{
	for (int i = 0; i < 2; i++) {
		struct rt_setout_step *s = rt__plan_step(
			plan, i ? RT_SETOUT_DIAGONALS : RT_SETOUT_LENGTH, "far corners");

		if (!s)
			return rt_fail_nomem(err);
		s->point = corner[3];
		s->other = corner[2];
		s->from_m = rt__plan_distance(plan, corner[3], corner[2]);
		s->proof_from.peg = plan->point[corner[3]].name;
		s->proof_to.peg = plan->point[corner[2]].name;
		if (i) {
			s->from = corner[0];
			s->second = corner[1];
			s->from_m = s->second_m = rt__plan_distance(plan, corner[0], corner[2]);
		}
		s->proof_m = rt__plan_distance(plan, corner[3], corner[2]);
	}
	return RT_OK;
}

/* ---- letters ---- */

/* The point in the middle of a short side: a letter, or a mark where there is none. */
static enum rt_err middle_of(struct rt_setout_plan *plan, const char *stage, size_t left,
			     size_t right, size_t *out, struct rt_error *err)
{
	struct sighted l = {stage, left, right};
	double half = rt__plan_distance(plan, left, right) / 2;

	*out = mark_on(plan, &l, left, half);
	if (*out == RT_NO_POINT)
		return rt_fail_nomem(err);
	return plan->point[*out].stands ? RT_OK : chain(plan, &l, left, out, 1, err);
}

static enum rt_err letters(struct rt_setout_plan *plan, const size_t corner[4],
			   struct rt_error *err)
{
	const struct sighted right = {"right side", corner[3], corner[2]};
	const struct sighted a = {"A side", corner[0], corner[3]};
	const struct sighted c = {"C side", corner[1], corner[2]};
	struct sighted centre = {"centreline", 0, 0};
	enum rt_err e = from_both_ends(plan, RT_RIGHT, &right, err);
	bool any = false;

	if (!e)
		e = from_both_ends(plan, RT_SIDE_A, &a, err);
	if (!e)
		e = from_both_ends(plan, RT_SIDE_C, &c, err);
	for (size_t i = 0; i < plan->pegs.n; i++)
		any |= plan->pegs.at[i].side == RT_CENTRE;
	if (e || !any)
		return e;
	e = middle_of(plan, centre.stage, corner[0], corner[3], &centre.from, err);
	if (!e)
		e = middle_of(plan, centre.stage, corner[1], corner[2], &centre.to, err);
	return e ? e : from_both_ends(plan, RT_CENTRE, &centre, err);
}

enum rt_err rt__plan_crew(struct rt_setout_plan *plan, struct rt_error *err)
{
	/* clockwise from A, so the two of the base line first */
	const size_t corner[4] = {rt__plan_find(plan, "AK"), rt__plan_find(plan, "HC"),
				  rt__plan_find(plan, "CM"), rt__plan_find(plan, "FA")};
	double diagonal = hypot(plan->kind->width_m, plan->kind->length_m);
	double needed = diagonal + (plan->options.tapes == 1 ? plan->kind->width_m : 0);
	enum rt_err e = base_line(plan, corner[0], corner[1], err);

	if (!e && needed <= plan->options.tape_m)
		e = by_diagonals(plan, corner, err);
	else if (!e) {
		e = right_angle(plan, "first right angle", corner[0], corner[1], corner[3], err);
		if (!e)
			e = right_angle(plan, "second right angle", corner[1], corner[0], corner[2],
					err);
	}
	if (!e)
		e = true_corners(plan, corner, err);
	if (!e)
		e = letters(plan, corner, err);
	if (!e)
		e = rt__plan_prove(plan, "last proof", "AK", "CM", err);
	return e ? e : rt__plan_prove(plan, "last proof", "FA", "HC", err);
}
