/* Which reading to make next.
 *
 * With Q the covariance of the coordinates and a the row of a new reading of standard error s,
 * Q becomes Q - Q a a' Q / (s^2 + a' Q a): a change of rank one (J. Sherman and W. J. Morrison,
 * 1950).  What is wanted is the standard error of each peg as the layout is laid on: R Q R', so
 * R Q is kept and changed along.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define ALIKE 1e-9 /* two standard errors that differ by less, in metres, are one */

/* What is known, and what it would be with one reading more. */
struct knowing {
	const struct rt_ring_check *check;
	size_t n; /* 2 pegs */
	double factor;
	double *cov;			      /* Q */
	double *carry;			      /* R Q */
	double *offsets;		      /* of each peg xx, xy, yy of R Q R' */
	double *row, *by_places, *by_offsets; /* a, Q a, R Q a */
	double value;			      /* what the reading should show */
	double noise;			      /* s^2 + a' Q a */
	struct rt_reading *could;	      /* the candidates */
	size_t candidates;
	bool *made;
	struct rt_arena *room;
};

/* How good it is: less is better. */
struct worth {
	double largest, mean_square;
	size_t worst; /* peg */
};

static bool better(const struct worth *a, const struct worth *b)
{
	if (fabs(a->largest - b->largest) > ALIKE)
		return a->largest < b->largest;
	return a->mean_square < b->mean_square;
}

/* Take a reading for the one that is tried. */
static void try_reading(struct knowing *k, const struct rt_reading *reading)
{
	const struct rt_adjustment *a = &k->check->adjustment;
	const struct rt_reading line = {
		.kind = RT_READ_DISTANCE, .from = reading->from, .to = reading->to};
	double sigma, q = 0;

	sigma = rt__sigma_over(reading, rt__gradient(a, &line, k->row));
	k->value = rt__gradient(a, reading, k->row);
	memset(k->by_places, 0, k->n * sizeof *k->by_places);
	memset(k->by_offsets, 0, k->n * sizeof *k->by_offsets);
	for (size_t i = 0; i < k->n; i++) {
		for (size_t j = 0; k->row[i] != 0 && j < k->n; j++) {
			k->by_places[j] += k->cov[j * k->n + i] * k->row[i];
			k->by_offsets[j] += k->carry[j * k->n + i] * k->row[i];
		}
	}
	for (size_t i = 0; i < k->n; i++)
		q += k->row[i] * k->by_places[i];
	k->noise = sigma * sigma + fmax(q, 0);
}

/* Of all pegs, with the reading that is tried, or without. */
static struct worth worth_of(const struct knowing *k, bool with)
{
	struct worth w = {0};

	for (size_t p = 0; p < k->n / 2; p++) {
		const double *now = k->offsets + 3 * p, *u = k->by_offsets + 2 * p;
		double less = with ? 1 / k->noise : 0;
		double xx = now[0] - less * u[0] * u[0], yy = now[2] - less * u[1] * u[1];
		double se = k->factor * rt__worst_error(xx, now[1] - less * u[0] * u[1], yy);

		if (se > w.largest) {
			w.largest = se;
			w.worst = p;
		}
		w.mean_square += (xx + yy) / (double)k->n;
	}
	return w;
}

/* Keep the reading that is tried. */
static void keep_reading(struct knowing *k)
{
	for (size_t i = 0; i < k->n; i++) {
		for (size_t j = 0; j < k->n; j++) {
			k->cov[i * k->n + j] -= k->by_places[i] * k->by_places[j] / k->noise;
			k->carry[i * k->n + j] -= k->by_offsets[i] * k->by_places[j] / k->noise;
		}
	}
	for (size_t p = 0; p < k->n / 2; p++) {
		const double *u = k->by_offsets + 2 * p;

		k->offsets[3 * p] -= u[0] * u[0] / k->noise;
		k->offsets[3 * p + 1] -= u[0] * u[1] / k->noise;
		k->offsets[3 * p + 2] -= u[1] * u[1] / k->noise;
	}
}

/* ---- candidates ---- */

static bool joins(const struct rt_reading *r, const char *a, const char *b)
{
	return (strcmp(r->from, a) == 0 && strcmp(r->to, b) == 0) ||
	       (strcmp(r->from, b) == 0 && strcmp(r->to, a) == 0);
}

/* Is there such a reading among those that were kept? */
static bool made(const struct rt_ring_check *check, const struct rt_reading *reading)
{
	const struct rt_adjustment *a = &check->adjustment;

	for (size_t i = 0; i < a->readings; i++) {
		const struct rt_reading *r = a->reading[i].reading;

		if (r->kind == reading->kind && a->reading[i].verdict != RT_READING_BLUNDER &&
		    joins(r, reading->from, reading->to) &&
		    (!r->at || strcmp(r->at, reading->at) == 0))
			return true;
	}
	return false;
}

static void add_candidate(struct knowing *k, struct rt_reading reading)
{
	reading.sigma = NAN;
	if (!made(k->check, &reading))
		k->could[k->candidates++] = reading;
}

/* A string along the side shows how far a peg stands off it. */
static void add_offset(struct knowing *k, const struct rt_peg *peg)
{
	static const char *const ends[][2] = {
		[RT_LEFT] = {"AK", "HC"},
		[RT_RIGHT] = {"CM", "FA"},
		[RT_SIDE_A] = {"FA", "AK"},
		[RT_SIDE_C] = {"HC", "CM"},
	};

	if (peg->corner || peg->side == RT_CENTRE ||
	    !rt__checked_peg(k->check, ends[peg->side][0]) ||
	    !rt__checked_peg(k->check, ends[peg->side][1]))
		return;
	add_candidate(k, (struct rt_reading){.kind = RT_READ_OFFSET,
					     .from = ends[peg->side][0],
					     .to = ends[peg->side][1],
					     .at = peg->name});
}

static void add_candidates(struct knowing *k, double tape_m)
{
	const struct rt_ring_check *check = k->check;

	for (size_t i = 0; i < check->pegs; i++) {
		for (size_t j = i + 1; j < check->pegs; j++) {
			const struct rt_adjusted_point *p = &check->adjustment.point[i];
			const struct rt_adjusted_point *q = &check->adjustment.point[j];

			if (hypot(p->x_m - q->x_m, p->y_m - q->y_m) <= tape_m)
				add_candidate(k, (struct rt_reading){.kind = RT_READ_DISTANCE,
								     .from = p->name,
								     .to = q->name});
		}
		add_offset(k, &check->peg[i].peg);
	}
}

static enum rt_err knowing_make(struct knowing *k, const struct rt_ring_check *check, double tape_m,
				struct rt_error *err)
{
	size_t n = 2 * check->pegs, most = check->pegs * (check->pegs + 1) / 2;

	k->check = check;
	k->n = n;
	k->factor = fmax(1, check->adjustment.sigma0);
	k->cov = rt_arena_take(&k->room, n * n * sizeof *k->cov);
	k->carry = rt__carried(&k->room, check);
	k->offsets = rt_arena_take(&k->room, 3 * check->pegs * sizeof *k->offsets);
	k->row = rt_arena_take(&k->room, n * sizeof *k->row);
	k->by_places = rt_arena_take(&k->room, n * sizeof *k->by_places);
	k->by_offsets = rt_arena_take(&k->room, n * sizeof *k->by_offsets);
	k->could = rt_arena_take(&k->room, most * sizeof *k->could);
	k->made = rt_arena_take(&k->room, most * sizeof *k->made);
	if (!k->cov || !k->carry || !k->offsets || !k->row || !k->by_places || !k->by_offsets ||
	    !k->could || !k->made)
		return rt_fail_nomem(err);
	memcpy(k->cov, check->adjustment.covariance_m2, n * n * sizeof *k->cov);
	for (size_t p = 0; p < check->pegs; p++) {
		const struct rt_checked_peg *peg = &check->peg[p];
		double square = k->factor * k->factor, *offset = k->offsets + 3 * p;

		offset[0] = peg->cov_xx_m2 / square;
		offset[1] = peg->cov_xy_m2 / square;
		offset[2] = peg->cov_yy_m2 / square;
	}
	add_candidates(k, tape_m);
	return RT_OK;
}

/* ---- ranking ---- */

static void put_next(struct rt_next *out, const struct knowing *k, const struct rt_reading *reading,
		     const struct worth *before, const struct worth *after)
{
	out->reading = *reading;
	out->reading.value = k->value;
	out->largest_se_m = after->largest;
	out->gain_m = before->largest - after->largest;
}

/* Insert each candidate among the best so far. */
static void rank_singles(struct rt_next_readings *out, struct knowing *k)
{
	struct worth now = worth_of(k, false), best[RT_NEXT_MOST];

	for (size_t i = 0; i < k->candidates; i++) {
		struct worth w;
		size_t at = out->singles;

		try_reading(k, &k->could[i]);
		w = worth_of(k, true);
		while (at > 0 && better(&w, &best[at - 1]))
			at--;
		if (at == RT_NEXT_MOST)
			continue;
		out->singles += out->singles < RT_NEXT_MOST;
		memmove(best + at + 1, best + at, (out->singles - at - 1) * sizeof *best);
		memmove(out->single + at + 1, out->single + at,
			(out->singles - at - 1) * sizeof *out->single);
		best[at] = w;
		put_next(&out->single[at], k, &k->could[i], &now, &w);
	}
}

/* The best candidate not made yet; k->candidates when there is none. */
static size_t best_next(struct knowing *k)
{
	size_t best = k->candidates;
	struct worth least = {.largest = INFINITY};

	for (size_t i = 0; i < k->candidates; i++) {
		struct worth w;

		if (k->made[i])
			continue;
		try_reading(k, &k->could[i]);
		w = worth_of(k, true);
		if (better(&w, &least)) {
			best = i;
			least = w;
		}
	}
	return best;
}

static void lay_course(struct rt_next_readings *out, struct knowing *k)
{
	while (out->courses < RT_NEXT_MOST) {
		struct worth before = worth_of(k, false), after;
		size_t i = best_next(k);

		if (i == k->candidates)
			return;
		try_reading(k, &k->could[i]);
		after = worth_of(k, true);
		put_next(&out->course[out->courses++], k, &k->could[i], &before, &after);
		keep_reading(k);
		k->made[i] = true;
	}
}

enum rt_err rt_ring_next(struct rt_next_readings *out, const struct rt_ring_check *check,
			 double tape_m, struct rt_error *err)
{
	struct knowing k = {0};
	struct worth now;
	enum rt_err e;

	memset(out, 0, sizeof *out);
	if (!(tape_m > 0))
		return rt_fail(err, RT_E_INPUT, "the tape must be over 0 m long");
	e = knowing_make(&k, check, tape_m, err);
	if (!e) {
		now = worth_of(&k, false);
		out->largest_se_m = now.largest;
		out->worst = check->peg[now.worst].peg.name;
		rank_singles(out, &k);
		lay_course(out, &k);
	}
	rt_arena_free(k.room);
	return e;
}
