/* Is the ring square, as long and as wide as it should be, and straight?
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define SURE	2.0 /* standard errors */
#define RADIANS 0.017453292519943295
#define CORNERS 4

/* Clockwise, each after the corner of the same number. */
static const enum rt_side side_after[CORNERS] = {RT_LEFT, RT_SIDE_C, RT_RIGHT, RT_SIDE_A};

struct shaping {
	const struct rt_ring_check *check;
	struct rt_ring_shape *out;
	double *row; /* of a reading over the pegs */
};

static double gap(const struct rt_peg *a, const struct rt_peg *b)
{
	return hypot(a->x_m - b->x_m, a->y_m - b->y_m);
}

/* The measured peg of a side that stands farthest from `from`; NULL: none. */
static const struct rt_checked_peg *farthest(const struct rt_ring_check *check, enum rt_side side,
					     const struct rt_peg *from)
{
	const struct rt_checked_peg *found = NULL;

	for (size_t i = 0; i < check->pegs; i++) {
		const struct rt_checked_peg *p = &check->peg[i];

		if (rt__on_side(check->kind, p->peg.x_m, p->peg.y_m, side) &&
		    gap(&p->peg, from) > 0 &&
		    (!found || gap(&p->peg, from) > gap(&found->peg, from)))
			found = p;
	}
	return found;
}

/* The value of such a reading between the pegs as adjusted, and its standard error. */
static double value_of(const struct shaping *s, const struct rt_reading *reading, double *se)
{
	const struct rt_adjustment *a = &s->check->adjustment;
	double value = rt__gradient(a, reading, s->row);

	*se = fmax(1, a->sigma0) *
	      sqrt(fmax(rt__quadratic(a->covariance_m2, s->row, s->row, 2 * a->points), 0));
	return value;
}

enum rt_shape_verdict rt__shape_verdict(const struct rt_ring_check *check, double over, double se)
{
	if (over < -SURE * se)
		return RT_SHAPE_GOOD;
	if (over > SURE * se && !rt__in_doubt(&check->adjustment))
		return RT_SHAPE_OFF;
	return RT_SHAPE_UNSURE;
}

/* Judge a row, and add it. */
static void add_row(struct shaping *s, struct rt_shape_row r)
{
	r.verdict = rt__shape_verdict(s->check, fabs(r.off_m) - r.allowed_m, r.se_m);
	s->out->row[s->out->rows++] = r;
}

/* Add a row of a length: metres as they are. */
static void add_length(struct shaping *s, struct rt_shape_row r)
{
	r.off = r.measured - r.should;
	r.off_m = r.off;
	r.se_m = r.se;
	r.arm_m = NAN;
	r.allowed_m = 2 * s->check->tolerance_m;
	add_row(s, r);
}

/* ---- corners ---- */

/* Pegs off by the tolerance turn each arm by twice that over its length. */
static void add_corner(struct shaping *s, size_t at)
{
	const struct rt_checked_peg *peg = rt__checked_peg(s->check, rt__corner[at]);
	const struct rt_checked_peg *before, *after;
	struct rt_shape_row r = {.shape = RT_SHAPE_CORNER, .should = 90};
	struct rt_reading angle = {.kind = RT_READ_ANGLE};
	double shorter;

	if (!peg)
		return;
	before = farthest(s->check, side_after[(at + CORNERS - 1) % CORNERS], &peg->peg);
	after = farthest(s->check, side_after[at], &peg->peg);
	if (!before || !after)
		return;
	r.from = angle.from = after->peg.name;
	r.at = angle.at = peg->peg.name;
	r.to = angle.to = before->peg.name;
	r.measured = value_of(s, &angle, &r.se);
	r.off = r.measured - r.should;
	r.arm_m = fmax(gap(&before->peg, &peg->peg), gap(&after->peg, &peg->peg));
	shorter = fmin(gap(&before->peg, &peg->peg), gap(&after->peg, &peg->peg));
	r.off_m = r.off * RADIANS * r.arm_m;
	r.se_m = r.se * RADIANS * r.arm_m;
	r.allowed_m = 2 * s->check->tolerance_m * (1 + r.arm_m / shorter);
	add_row(s, r);
}

/* ---- sides and diagonals ---- */

static void add_distance(struct shaping *s, enum rt_shape shape, const char *from, const char *to)
{
	const struct rt_checked_peg *p = rt__checked_peg(s->check, from),
				    *q = rt__checked_peg(s->check, to);
	const struct rt_reading distance = {.kind = RT_READ_DISTANCE, .from = from, .to = to};
	struct rt_shape_row r = {.shape = shape, .from = from, .to = to};

	if (!p || !q)
		return;
	r.should = gap(&p->peg, &q->peg);
	r.measured = value_of(s, &distance, &r.se);
	add_length(s, r);
}

/* ---- bows ---- */

/* Where a corner should stand. */
static struct rt_peg corner_of(const struct rt_ring_kind *kind, size_t at)
{
	return (struct rt_peg){.x_m = at < 2 ? -kind->width_m / 2 : kind->width_m / 2,
			       .y_m = at % 3 == 0 ? -kind->length_m / 2 : kind->length_m / 2};
}

/* The ring lies to the right of the sides clockwise. */
static void add_bow(struct shaping *s, size_t at)
{
	const struct rt_ring_check *check = s->check;
	const struct rt_peg first = corner_of(check->kind, at);
	const struct rt_peg last = corner_of(check->kind, (at + 1) % CORNERS);
	const struct rt_checked_peg *from = farthest(check, side_after[at], &last);
	const struct rt_checked_peg *to = farthest(check, side_after[at], &first);
	struct rt_shape_row worst = {0};

	for (size_t i = 0; from && to && from != to && i < check->pegs; i++) {
		const struct rt_checked_peg *p = &check->peg[i];
		struct rt_reading offset = {.kind = RT_READ_OFFSET, .at = p->peg.name};
		double se, bow;

		if (p == from || p == to ||
		    !rt__on_side(check->kind, p->peg.x_m, p->peg.y_m, side_after[at]))
			continue;
		offset.from = from->peg.name;
		offset.to = to->peg.name;
		bow = -value_of(s, &offset, &se);
		if (!worst.at || fabs(bow) > fabs(worst.measured))
			worst = (struct rt_shape_row){.shape = RT_SHAPE_BOW,
						      .from = offset.from,
						      .at = offset.at,
						      .to = offset.to,
						      .measured = bow,
						      .se = se};
	}
	if (worst.at)
		add_length(s, worst);
}

enum rt_err rt_ring_shape(struct rt_ring_shape *out, const struct rt_ring_check *check,
			  struct rt_error *err)
{
	struct rt_arena *room = NULL;
	struct shaping s = {.check = check, .out = out};

	out->row = rt_arena_take(&out->text, (3 * CORNERS + 2) * sizeof *out->row);
	s.row = rt_arena_take(&room, 2 * (check->pegs + 1) * sizeof *s.row);
	if (!out->row || !s.row) {
		rt_arena_free(room);
		return rt_fail_nomem(err);
	}
	for (size_t i = 0; i < CORNERS; i++)
		add_corner(&s, i);
	for (size_t i = 0; i < CORNERS; i++)
		add_distance(&s, RT_SHAPE_SIDE, rt__corner[i], rt__corner[(i + 1) % CORNERS]);
	add_distance(&s, RT_SHAPE_DIAGONAL, "AK", "CM");
	add_distance(&s, RT_SHAPE_DIAGONAL, "FA", "HC");
	for (size_t i = 0; i < CORNERS; i++)
		add_bow(&s, i);
	rt_arena_free(room);
	return RT_OK;
}

void rt_ring_shape_free(struct rt_ring_shape *shape)
{
	rt_arena_free(shape->text);
	memset(shape, 0, sizeof *shape);
}
