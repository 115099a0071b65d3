/* The moves that make a ring true, and the way to walk.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define WALK_ALIKE_M 1.0 /* nobody minds */

/* Where a peg stands, in the frame of the fit. */
static void stands(const struct rt_checked_peg *p, double at[2])
{
	at[0] = p->peg.x_m + p->dx_m;
	at[1] = p->peg.y_m + p->dy_m;
}

static enum rt_err lay_walk(struct rt_ring_walk *out, struct rt_error *err)
{
	const struct rt_ring_check *check = &out->check;
	size_t most = check->pegs + 1, *order = rt_arena_take(&out->text, most * sizeof *order);
	const struct rt_checked_peg **peg = rt_arena_take(&out->text, most * sizeof *peg);
	double *at = rt_arena_take(&out->text, 2 * most * sizeof *at);
	double from[2] = {0, -check->kind->length_m / 2};
	enum rt_err e;

	out->step = rt_arena_take(&out->text, most * sizeof *out->step);
	if (!order || !peg || !at || !out->step)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < check->pegs; i++) {
		if (check->peg[i].verdict != RT_PEG_MOVE)
			continue;
		stands(&check->peg[i], at + 2 * out->steps);
		peg[out->steps++] = &check->peg[i];
	}
	e = rt__tour(at, out->steps, from, order, err);
	for (size_t i = 0; !e && i < out->steps; i++) {
		const double *to = at + 2 * order[i];

		out->step[i].peg = peg[order[i]];
		out->step[i].walk_m = hypot(to[0] - from[0], to[1] - from[1]);
		out->walk_m += out->step[i].walk_m;
		out->move_m += out->step[i].peg->off_m;
		memcpy(from, to, sizeof from);
	}
	return e;
}

/* The ring checked with one fit, and its walk. */
static enum rt_err walk_with(struct rt_ring_walk *out, const struct rt_ring_kind *kind,
			     const struct rt_readings *readings, double tolerance_m,
			     enum rt_fit fit, struct rt_error *err)
{
	enum rt_err e = rt_ring_check(&out->check, kind, readings, tolerance_m, fit, err);

	return e ? e : lay_walk(out, err);
}

static size_t not_good(const struct rt_ring_check *check)
{
	return check->to_move + check->unsure;
}

/* Fewer pegs to move, then fewer to measure again, then less to walk by more than WALK_ALIKE_M; the
 * fit that was tried first where all that is alike. */
static bool better(const struct rt_ring_walk *a, const struct rt_ring_walk *b)
{
	if (a->steps != b->steps)
		return a->steps < b->steps;
	if (not_good(&a->check) != not_good(&b->check))
		return not_good(&a->check) < not_good(&b->check);
	return a->walk_m < b->walk_m - WALK_ALIKE_M;
}

static size_t corners_measured(const struct rt_ring_check *check)
{
	size_t n = 0;

	for (size_t i = 0; i < check->pegs; i++)
		n += check->peg[i].peg.corner;
	return n;
}

enum rt_err rt_ring_walk(struct rt_ring_walk *out, const struct rt_ring_kind *kind,
			 const struct rt_readings *readings, double tolerance_m,
			 struct rt_error *err)
{
	static const enum rt_fit others[] = {RT_FIT_ALL, RT_FIT_CORNERS};
	enum rt_err e = walk_with(out, kind, readings, tolerance_m, RT_FIT_FEWEST, err);

	for (size_t i = 0; !e && i < sizeof others / sizeof *others; i++) {
		struct rt_ring_walk other = {0};

		if (others[i] == RT_FIT_CORNERS && corners_measured(&out->check) < 2)
			continue;
		e = walk_with(&other, kind, readings, tolerance_m, others[i], err);
		if (!e && better(&other, out)) {
			struct rt_ring_walk worse = *out;

			*out = other;
			other = worse;
		}
		rt_ring_walk_free(&other);
	}
	return e;
}

void rt_ring_walk_free(struct rt_ring_walk *walk)
{
	rt_ring_check_free(&walk->check);
	rt_arena_free(walk->text);
	memset(walk, 0, sizeof *walk);
}
