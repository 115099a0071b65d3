/* Does the tape read long or short, as a receiver's coordinates of the same pegs show?
 *
 * Taped lengths l are (1 + s) times what they should be: one unknown more, whose column is l in
 * their rows and 0 in all others.  With v the residuals without it, P the weights, A the design
 * and Q its cofactors, s = -l'Pv / D and its standard error is 1 / sqrt(D), D = l'Pl - l'PA Q A'Pl
 * (a model error tested by W. Baarda's method, 1968).  Angles and tapes alone say nothing of s:
 * then D is 0.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define ROUNDS	 4    /* to settle s and the blunders; it does in two */
#define SEEN	 1e-6 /* D against l'Pl: less is rounding */
#define PART_MAX 0.2  /* no tape is worse: the units are mixed */

struct tape {
	struct rt__network net;
	double *column; /* A'Pl */
	double part, se;
};

static bool taped(const struct rt_reading *r)
{
	return r->kind == RT_READ_DISTANCE || r->kind == RT_READ_OFFSET;
}

static bool comparable(const struct rt_readings *readings)
{
	bool tape = false, receiver = false;

	for (size_t i = 0; i < readings->n; i++) {
		tape |= readings->at[i].kind == RT_READ_DISTANCE;
		receiver |= readings->at[i].kind == RT_READ_X;
	}
	return tape && receiver;
}

/* s of the network as adjusted, and its standard error for sigma0 = 1; se is INFINITY where
 * nothing shows s. */
static void estimate(struct tape *t, double *part)
{
	const struct rt__network *net = &t->net;
	double lengths = 0, misfit = 0, seen;

	memset(t->column, 0, net->unknowns * sizeof *t->column);
	for (size_t i = 0; i < net->edges; i++) {
		const struct rt__edge *e = &net->edge[i];
		double weighted = e->value / (e->sigma * e->sigma);
		struct rt__row row;

		if (!taped(e->reading) || !rt__edge_counts(net, e))
			continue;
		row = rt__edge_row(net, e, net->at);
		for (size_t k = 0; k < row.n; k++)
			t->column[row.column[k]] += weighted * row.by[k];
		lengths += weighted * e->value;
		misfit += weighted * rt__edge_residual(net, e);
	}
	seen = lengths - rt__quadratic(net->covariance, t->column, t->column, net->unknowns);
	*part = 0;
	t->se = INFINITY;
	if (!(seen > SEEN * lengths))
		return;
	*part = -misfit / seen;
	t->se = 1 / sqrt(seen);
}

/* The readings as a true tape would have read them. */
static void correct(const struct rt_readings *readings, double part, struct rt_reading *out)
{
	for (size_t i = 0; i < readings->n; i++) {
		out[i] = readings->at[i];
		if (taped(&out[i]))
			out[i].value /= 1 + part;
	}
}

/* Adjust all edges but those that `without` set aside (NULL: none) of corrected readings, and
 * improve s. */
static enum rt_err improve(struct tape *t, const struct rt_points *points,
			   const struct rt_readings *corrected, const struct rt_adjustment *without,
			   struct rt_error *err)
{
	double more = 0;
	enum rt_err e;

	rt__network_free(&t->net);
	e = rt__network_build(&t->net, points, corrected, err);
	for (size_t i = 0; !e && without && i < without->readings; i++) {
		if (without->reading[i].verdict == RT_READING_BLUNDER)
			rt__edge_use(&t->net, i, false);
	}
	if (!e)
		e = rt__network_adjust(&t->net, err);
	if (!e)
		estimate(t, &more);
	t->part += more * (1 + t->part);
	return e;
}

/* The adjustment of the readings divided by 1 + s, with s settled.  RT_E_NUMERIC, RT_E_NOFIX:
 * there is none. */
static enum rt_err settle(struct tape *t, struct rt_adjustment *out, const struct rt_points *points,
			  const struct rt_readings *readings, struct rt_reading *room,
			  struct rt_error *err)
{
	struct rt_readings corrected = {.at = room, .n = readings->n};
	enum rt_err e;

	correct(readings, 0, room);
	e = improve(t, points, &corrected, NULL, err);
	for (int round = 0; !e && round < ROUNDS && fabs(t->part) < PART_MAX; round++) {
		rt_adjustment_free(out);
		correct(readings, t->part, room);
		e = rt_adjust(out, points, &corrected, err);
		if (!e && round + 1 < ROUNDS)
			e = improve(t, points, &corrected, out, err);
	}
	return e;
}

/* Is the tape wrong beyond chance, and are the readings no worse for setting it right? */
static bool proven(const struct tape *t, const struct rt_adjustment *as_read,
		   const struct rt_adjustment *corrected)
{
	if (!corrected->reading || fabs(t->part) >= PART_MAX ||
	    fabs(t->part) <= RT_W_CRITICAL * t->se * fmax(1, corrected->sigma0))
		return false;
	if (corrected->end == RT_SEARCH_CLEAR && as_read->end != RT_SEARCH_CLEAR)
		return true;
	return corrected->blunders <= as_read->blunders;
}

/* Judge by the corrected readings from here on, told as they were read. */
static void take_over(struct rt_ring_check *check, struct rt_adjustment *corrected,
		      const struct rt_readings *readings)
{
	struct rt_adjustment as_read = check->adjustment;

	check->adjustment = *corrected;
	*corrected = as_read;
	for (size_t i = 0; i < readings->n; i++)
		check->adjustment.reading[i].reading = &readings->at[i];
	check->tape_corrected = true;
}

enum rt_err rt__check_tape(struct rt_ring_check *check, const struct rt_points *points,
			   const struct rt_readings *readings, struct rt_error *err)
{
	struct tape t = {.se = INFINITY};
	struct rt_adjustment corrected = {0};
	struct rt_arena *room = NULL;
	struct rt_error why;
	struct rt_reading *copy;
	enum rt_err e;

	check->tape = check->tape_se = NAN;
	if (!comparable(readings))
		return RT_OK;
	copy = rt_arena_take(&room, readings->n * sizeof *copy);
	/* two unknowns a point, three a frame */
	t.column = rt_arena_take(&room, (2 * points->n + 3 * readings->n) * sizeof *t.column);
	e = copy && t.column ? settle(&t, &corrected, points, readings, copy, &why)
			     : rt_fail_nomem(&why);
	if (!e && isfinite(t.se)) {
		check->tape = t.part;
		check->tape_se = t.se * fmax(1, corrected.sigma0);
		if (proven(&t, &check->adjustment, &corrected))
			take_over(check, &corrected, readings);
	}
	rt__network_free(&t.net);
	rt_adjustment_free(&corrected);
	rt_arena_free(room);
	return e == RT_E_NOMEM ? rt_fail_nomem(err) : RT_OK;
}
