/* What a crew needs to set a ring out.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define TRIANGLE_MOST 5.0 /* 15, 20 and 25 m: a 30 m tape reaches */
#define TRIANGLE_STEP 0.5 /* so that the triangle's sides are easy to read off a tape */

/* Room for the rows: each peg once on its side, a corner on two, and the diagonals and
 * corners. */
static enum rt_err take_room(struct rt_ring_setout *out, struct rt_error *err)
{
	size_t most = out->pegs.n + 4 + 2 + 4;

	out->check = rt_arena_take(&out->text, most * sizeof *out->check);
	return out->check ? RT_OK : rt_fail_nomem(err);
}

static void add_check(struct rt_ring_setout *out, const char *from, const char *to,
		      double distance_m, const char *what)
{
	out->check[out->checks++] = (struct rt_setout_check){
		.from.peg = from, .to.peg = to, .distance_m = distance_m, .what = what};
}

/* ---- running distances ---- */

struct tape_line {
	enum rt_side side;
	const char *zero; /* the peg where the tape begins */
	const char *what;
};

/* Of the centreline without its ends: they are on the short sides. */
static bool on_line(const struct rt_ring_setout *out, const struct rt_peg *p,
		    const struct tape_line *l)
{
	return l->side == RT_CENTRE ? p->side == RT_CENTRE
				    : rt__on_side(out->kind, p->x_m, p->y_m, l->side);
}

static double run(const struct rt_peg *p, const struct rt_peg *zero)
{
	return hypot(p->x_m - zero->x_m, p->y_m - zero->y_m);
}

/* The pegs of a line in the order of the tape. */
static void add_line(struct rt_ring_setout *out, const struct tape_line *line)
{
	const struct rt_peg *zero = rt_peg_find(&out->pegs, line->zero);
	double reached = 0;

	for (;;) {
		const struct rt_peg *next = NULL;

		for (size_t i = 0; zero && i < out->pegs.n; i++) {
			const struct rt_peg *p = &out->pegs.at[i];
			double at = run(p, zero);

			if (on_line(out, p, line) && at > reached &&
			    (!next || at < run(next, zero)))
				next = p;
		}
		if (!next)
			return;
		reached = run(next, zero);
		add_check(out, zero->name, next->name, reached, line->what);
	}
}

static void add_lines(struct rt_ring_setout *out)
{
	static const struct tape_line lines[] = {
		{RT_LEFT, "AK", "along the left side"},
		{RT_RIGHT, "FA", "along the right side"},
		{RT_SIDE_A, "AK", "along the A side"},
		{RT_SIDE_C, "HC", "along the C side"},
	};
	struct tape_line centre = {RT_CENTRE, NULL, "along the centreline"};

	for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
		add_line(out, &lines[i]);
	/* the centreline's tape begins at whatever peg stands in the middle of side a */
	for (size_t i = 0; i < out->pegs.n; i++) {
		if (out->pegs.at[i].side == RT_SIDE_A && fabs(out->pegs.at[i].x_m) < 1e-9)
			centre.zero = out->pegs.at[i].name;
	}
	if (centre.zero)
		add_line(out, &centre);
}

/* ---- corners ---- */

/* A point on a side of the corner, told by the corner at the side's other end: the tape runs past
 * every letter between. */
static struct rt_setout_mark mark_on_side(const struct rt_ring_setout *out,
					  const struct rt_peg *corner, bool along_y, double past_m)
{
	struct rt_setout_mark mark = {.peg = corner->name, .past_m = past_m};

	for (size_t i = 0; i < out->pegs.n; i++) {
		const struct rt_peg *p = &out->pegs.at[i];

		if (p->corner && p != corner &&
		    (along_y ? p->x_m == corner->x_m : p->y_m == corner->y_m))
			mark.towards = p->name;
	}
	return mark;
}

/* A part of the 3-4-5 triangle that fits both sides of the corner. */
static double triangle_part(const struct rt_ring_kind *kind)
{
	double part = fmin(kind->width_m / 3, kind->length_m / 4);

	return fmin(TRIANGLE_MOST, floor(part / TRIANGLE_STEP) * TRIANGLE_STEP);
}

static enum rt_err add_corners(struct rt_ring_setout *out, struct rt_error *err)
{
	double part = triangle_part(out->kind);

	for (size_t i = 0; i < out->pegs.n; i++) {
		const struct rt_peg *corner = &out->pegs.at[i];

		if (!corner->corner)
			continue;
		out->check[out->checks] = (struct rt_setout_check){
			.from = mark_on_side(out, corner, false, 3 * part),
			.to = mark_on_side(out, corner, true, 4 * part),
			.distance_m = 5 * part,
			.what = rt_arena_textf(&out->text, "right angle at %s", corner->name)};
		if (!out->check[out->checks++].what)
			return rt_fail_nomem(err);
	}
	return RT_OK;
}

/* ---- boards and tape ---- */

int64_t rt__boards(double length_m)
{
	return (int64_t)ceil(length_m / RT_BOARD_M - 1e-9);
}

static void add_sides(struct rt_ring_setout *out)
{
	static const enum rt_side order[] = {RT_LEFT, RT_RIGHT, RT_SIDE_A, RT_SIDE_C};

	for (size_t i = 0; i < 4; i++) {
		double length = i < 2 ? out->kind->length_m : out->kind->width_m;

		out->side[i] = (struct rt_setout_side){
			.side = order[i],
			.length_m = length,
			.boards = rt__boards(length),
		};
		out->boards += out->side[i].boards;
	}
}

enum rt_err rt_ring_setout(struct rt_ring_setout *out, const struct rt_ring_kind *kind,
			   struct rt_error *err)
{
	enum rt_err e = rt_ring_size_check(kind, err);

	if (e)
		return e;
	out->kind = kind;
	out->tape_m = hypot(kind->width_m, kind->length_m);
	e = rt_ring_pegs(&out->pegs, kind, err);
	if (!e)
		e = take_room(out, err);
	if (e)
		return e;
	add_lines(out);
	add_check(out, "AK", "CM", out->tape_m, "diagonal");
	add_check(out, "FA", "HC", out->tape_m, "diagonal");
	add_sides(out);
	return add_corners(out, err);
}

void rt_ring_setout_free(struct rt_ring_setout *setout)
{
	rt_pegs_free(&setout->pegs);
	rt_arena_free(setout->text);
	memset(setout, 0, sizeof *setout);
}
