/* How near a turnout comes to the boards and letters of a ring, and its way in at A.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep_internal.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What is half a metre off is then found within a millimetre; a wheel that comes along the boards
 * on an arc changes its distance more slowly still. */
#define LETTERS_EVERY_M 0.05
#define BOARDS_EVERY_M	0.10

/* A path that begins or ends so near the A end is on its track there: it comes in or goes out. */
#define AT_A_M 3.0

static const struct {
	enum rt_side side;
	const char *words;
} boards[] = {
	{RT_LEFT, "boards on the left"},
	{RT_RIGHT, "boards on the right"},
	{RT_SIDE_A, "boards at the A end"},
	{RT_SIDE_C, "boards at the C end"},
};

#define BOARDS (sizeof boards / sizeof *boards)

static void add_obstacle(struct rt__watch *w, enum rt_side side, const struct rt_peg *peg,
			 const char *words)
{
	w->obstacle[w->obstacles++] = (struct rt__obstacle){
		.side = side,
		.peg = peg,
		.near = {.what = words, .boards = !peg, .distance_m = INFINITY},
	};
}

static bool stands_at_a(const struct rt__watch *w, const struct rt_pose *pose, double toward)
{
	return fabs(pose->at.x) < w->half_width && pose->at.y <= AT_A_M - w->half_length &&
	       pose->toward.y * toward > 0.0;
}

/* The straights by which a path comes in and goes out at A. */
static void find_opening(struct rt__watch *w, const struct rt__line *line)
{
	const struct rt__leg *leg = line->legs.at;
	size_t n = line->legs.n;

	w->exit_leg = n;
	if (stands_at_a(w, &leg[0].end, 1.0))
		while (w->entry_legs < n && leg[w->entry_legs].arc == RT__NONE)
			w->entry_legs++;
	for (size_t i = 0; i < RT__LINKS_MOST + 1; i++)
		w->axle[i].outside = w->entry_legs > 0;
	if (stands_at_a(w, &leg[n - 1].end, -1.0))
		while (w->exit_leg > 0 && leg[w->exit_leg - 1].arc == RT__NONE)
			w->exit_leg--;
}

enum rt_err rt__watch_make(struct rt__watch *out, const struct rt_ring_kind *kind,
			   const struct rt__line *line, struct rt_error *err)
{
	enum rt_err e;

	memset(out, 0, sizeof *out);
	out->entry_left = out->entry_right = NAN;
	if (!kind)
		return RT_OK;
	out->half_width = kind->width_m / 2.0;
	out->half_length = kind->length_m / 2.0;
	e = rt_ring_pegs(&out->pegs, kind, err);
	if (e)
		return e;
	out->obstacle = calloc(BOARDS + out->pegs.n, sizeof *out->obstacle);
	if (!out->obstacle)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < BOARDS; i++)
		add_obstacle(out, boards[i].side, NULL, boards[i].words);
	for (size_t i = 0; i < out->pegs.n; i++)
		if (!out->pegs.at[i].corner && out->pegs.at[i].side != RT_CENTRE)
			add_obstacle(out, out->pegs.at[i].side, &out->pegs.at[i],
				     out->pegs.at[i].name);
	out->due = calloc(out->obstacles * (RT__LINKS_MOST + 1), sizeof *out->due);
	find_opening(out, line);
	return out->due ? RT_OK : rt_fail_nomem(err);
}

static double distance(const struct rt__watch *w, const struct rt__obstacle *o, struct rt_vec at)
{
	if (o->peg)
		return rt__distance(at, rt__peg_point(o->peg));
	switch (o->side) {
	case RT_LEFT:
		return w->half_width + at.x;
	case RT_RIGHT:
		return w->half_width - at.x;
	case RT_SIDE_A:
		return w->half_length + at.y;
	case RT_SIDE_C:
		return w->half_length - at.y;
	case RT_CENTRE:
		break;
	}
	return INFINITY;
}

/* Note how near an obstacle is to the ends of an axle, left and right; returns how much nearer
 * anything has been. */
static double look_at(const struct rt__watch *w, struct rt__obstacle *o, size_t part,
		      const struct rt_vec end[2])
{
	double left = distance(w, o, end[0]), right = distance(w, o, end[1]);
	size_t nearer = right < left;
	double d = nearer ? right : left, spare = d - o->near.distance_m;

	if (spare < 0.0) {
		o->near.distance_m = d;
		o->near.x_m = end[nearer].x;
		o->near.y_m = end[nearer].y;
		o->part = part;
	}
	return spare;
}

/* Look at everything that the axle may have come nearer to than any did before.  Whatever is
 * farther away than its nearest so far by some way need not be looked at before the ends of the
 * axle have travelled that way. */
static void look(struct rt__watch *w, const struct rt__axle *axle, const struct rt_vec end[2])
{
	struct rt__watched *watched = &w->axle[axle->index];
	double *due = w->due + axle->index * w->obstacles, next = INFINITY;
	bool open = axle->leg < w->entry_legs || axle->leg >= w->exit_leg;

	for (size_t i = 0; i < w->obstacles; i++) {
		struct rt__obstacle *o = &w->obstacle[i];
		double wait = o->peg ? LETTERS_EVERY_M : BOARDS_EVERY_M;

		if (due[i] <= watched->travelled) {
			if (!open || o->side != RT_SIDE_A)
				wait = fmax(wait, 0.99 * look_at(w, o, axle->part, end));
			due[i] = watched->travelled + wait;
		}
		if (due[i] < next)
			next = due[i];
	}
	watched->next = next;
}

void rt__watch_all(struct rt__watch *w)
{
	for (size_t i = 0; i < RT__LINKS_MOST + 1; i++)
		w->axle[i].next = 0.0;
	for (size_t i = 0; i < w->obstacles * (RT__LINKS_MOST + 1); i++)
		w->due[i] = 0.0;
}

/* Where the ends of an axle cross the line of the boards at A on their way in. */
static void look_at_entry(struct rt__watch *w, struct rt__watched *watched,
			  const struct rt_vec end[2])
{
	watched->outside = false;
	for (size_t i = 0; i < 2; i++) {
		if (end[i].y < -w->half_length) {
			watched->outside = true;
		} else if (watched->y[i] < -w->half_length) {
			w->entry_left = fmax(w->entry_left, -end[i].x);
			w->entry_right = fmax(w->entry_right, end[i].x);
		}
		watched->y[i] = end[i].y;
	}
}

void rt__watch_look(struct rt__watch *w, const struct rt__axle *axle)
{
	const struct rt_vec left = rt__left(axle->pose.toward), at = axle->pose.at;
	const struct rt_vec end[] = {rt__go(at, left, axle->half_width),
				     rt__go(at, left, -axle->half_width)};
	struct rt__watched *watched = &w->axle[axle->index];

	if (watched->outside)
		look_at_entry(w, watched, end);
	if (watched->travelled >= watched->next)
		look(w, axle, end);
}

enum rt_err rt__watch_results(struct rt_sweep *out, const struct rt__watch *w, struct rt_error *err)
{
	out->entry_left_m = w->entry_left;
	out->entry_right_m = w->entry_right;
	out->opening_m = 2.0 * fmax(w->entry_left, w->entry_right);
	for (size_t i = 0; i < w->obstacles; i++) {
		const struct rt__obstacle *o = &w->obstacle[i];
		struct rt_near *near;

		if (isinf(o->near.distance_m))
			continue; /* A alone, while nothing but the way in was driven */
		near = RT_LIST_ADD(&out->near);
		if (!near)
			return rt_fail_nomem(err);
		*near = o->near;
		near->part = out->parts.at[o->part].part;
		near->what = rt_arena_string(&out->parts.text, near->what);
		if (!near->what)
			return rt_fail_nomem(err);
	}
	return RT_OK;
}

void rt__watch_free(struct rt__watch *w)
{
	rt_pegs_free(&w->pegs);
	free(w->obstacle);
	free(w->due);
}
