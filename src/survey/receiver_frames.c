/* The frames of a receiver's files: which readings are of which, and how each starts.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "internal.h"

#define STRAY_PART   3.0 /* a point of a frame so many times further off than most strays */
#define STRAY_ROUNDS 5

static struct rt__frame *find_frame(struct rt__network *net, int number)
{
	size_t i = 0;

	while (i < net->frames && net->frame[i].number != number)
		i++;
	if (i == net->frames)
		net->frame[net->frames++] = (struct rt__frame){.number = number};
	return &net->frame[i];
}

/* The coordinates of a frame less their middle; in the frame of the points less theirs. */
static void centre_frames(struct rt__network *net)
{
	for (size_t f = 0; f < net->frames; f++) {
		struct rt__frame *frame = &net->frame[f];
		double n[2] = {0, 0}, sum[2] = {0, 0};

		for (size_t i = 0; i < net->edges; i++) {
			const struct rt__edge *e = &net->edge[i];

			if (e->frame == f) {
				n[e->kind == RT_READ_Y]++;
				sum[e->kind == RT_READ_Y] += e->reading->value;
			}
		}
		frame->middle_x = n[0] > 0 ? sum[0] / n[0] : 0;
		frame->middle_y = n[1] > 0 ? sum[1] / n[1] : 0;
	}
	for (size_t i = 0; i < net->edges; i++) {
		struct rt__edge *e = &net->edge[i];
		const struct rt__frame *frame = e->frame == RT__NONE ? NULL : &net->frame[e->frame];

		if (e->kind == RT_READ_X)
			e->value = (e->reading->value - (frame ? frame->middle_x : net->middle_x)) /
				   net->scale;
		if (e->kind == RT_READ_Y)
			e->value = (e->reading->value - (frame ? frame->middle_y : net->middle_y)) /
				   net->scale;
	}
}

static int by_size(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return (*x > *y) - (*x < *y);
}

/* Lay q on p but for the points that stray, far further off than the one in the middle: leave
 * those out and lay the rest again, until they are the same ones.  off and sorted have room for
 * n, in comes marked for all. */
static struct rt__placement place_most(const double *p, const double *q, size_t n, double *off,
				       double *sorted, bool *in)
{
	struct rt__placement t = rt__place(p, q, n, in);
	bool changed = n > 0;

	for (int round = 0; round < STRAY_ROUNDS && changed; round++) {
		size_t left = 0;

		for (size_t i = 0; i < n; i++) {
			double d[2];

			rt__offset(&t, p, q, i, d);
			off[i] = sorted[i] = hypot(d[0], d[1]);
		}
		qsort(sorted, n, sizeof *sorted, by_size);
		changed = false;
		for (size_t i = 0; i < n; i++) {
			bool stays = off[i] <= STRAY_PART * sorted[n / 2];

			changed |= stays != in[i];
			in[i] = stays;
			left += stays;
		}
		changed &= left >= 2;
		if (changed)
			t = rt__place(p, q, n, in);
	}
	return t;
}

/* The turn and shift that a frame starts with: its fixes laid on where the points start. */
static enum rt_err start_frame(struct rt__network *net, size_t f, struct rt_error *err)
{
	struct rt_arena *room = NULL;
	double *p = rt_arena_take(&room, 2 * net->edges * sizeof *p);
	double *q = rt_arena_take(&room, 2 * net->edges * sizeof *q);
	double *off = rt_arena_take(&room, 2 * net->edges * sizeof *off);
	bool *in = rt_arena_take(&room, net->edges * sizeof *in);
	struct rt__frame *frame = &net->frame[f];
	struct rt__placement t;
	size_t n = 0;

	if (!p || !q || !off || !in) {
		rt_arena_free(room);
		return rt_fail_nomem(err);
	}
	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];

		if (e->frame != f || e->kind != RT_READ_X || e->mate == RT__NONE)
			continue;
		memcpy(p + 2 * n, net->start + 2 * e->at, 2 * sizeof *p);
		q[2 * n] = e->value;
		q[2 * n + 1] = net->edge[e->mate].value;
		in[n++] = true;
	}
	t = place_most(p, q, n, off, off + net->edges, in);
	frame->turn = atan2(t.sine, t.cosine);
	frame->shift_x = t.shift_x;
	frame->shift_y = t.shift_y;
	rt_arena_free(room);
	return RT_OK;
}

enum rt_err rt__frames_build(struct rt__network *net, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	for (size_t i = 0; i < net->edges; i++) {
		struct rt__edge *e = &net->edge[i];

		if (e->kind != RT_READ_X && e->kind != RT_READ_Y)
			continue;
		if (e->reading->frame != 0)
			e->frame = (size_t)(find_frame(net, e->reading->frame) - net->frame);
		if (i && rt__one_fix(e[-1].reading, e->reading)) {
			e->mate = i - 1;
			e[-1].mate = i;
		}
	}
	centre_frames(net);
	for (size_t f = 0; !rc && f < net->frames; f++)
		rc = start_frame(net, f, err);
	return rc;
}
