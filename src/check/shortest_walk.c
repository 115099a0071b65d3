/* The order in which to walk to a few places: from a start, to each once, and no way back.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "internal.h"

#define SHORTER 1e-9 /* metres: for rounding */

/* Distances: place 0 is the start, the others are 1 to n. */
struct tour {
	size_t n;
	double *apart; /* (n + 1) x (n + 1) */
};

static double apart(const struct tour *t, size_t a, size_t b)
{
	return t->apart[a * (t->n + 1) + b];
}

/* ---- few: all orders, by what is left of each subset ---- */

/* The shortest way through every subset of the places that ends at each of them (M. Held and R.
 * M. Karp, 1962). */
static enum rt_err shortest(const struct tour *t, struct rt_arena **room, size_t *order,
			    struct rt_error *err)
{
	size_t n = t->n, sets = (size_t)1 << n, last = 0;
	double *way = rt_arena_take(room, sets * n * sizeof *way);
	size_t *before = rt_arena_take(room, sets * n * sizeof *before);

	if (!way || !before)
		return rt_fail_nomem(err);
	for (size_t set = 1; set < sets; set++) {
		for (size_t end = 0; end < n; end++) {
			size_t rest = set & ~((size_t)1 << end);
			double *best = &way[set * n + end];

			*best = rest ? INFINITY : apart(t, 0, end + 1);
			for (size_t k = 0; (set >> end & 1) && k < n; k++) {
				double via = way[rest * n + k] + apart(t, k + 1, end + 1);

				if ((rest >> k & 1) && via < *best) {
					*best = via;
					before[set * n + end] = k;
				}
			}
		}
	}
	for (size_t end = 1; end < n; end++) {
		if (way[(sets - 1) * n + end] < way[(sets - 1) * n + last])
			last = end;
	}
	for (size_t set = sets - 1, at = n; at > 0; at--) {
		size_t next = before[set * n + last];

		order[at - 1] = last;
		set &= ~((size_t)1 << last);
		last = next;
	}
	return RT_OK;
}

/* ---- many: the nearest first, then turned about while that shortens it ---- */

static void nearest_first(const struct tour *t, size_t *order)
{
	for (size_t i = 0; i < t->n; i++)
		order[i] = i;
	for (size_t i = 0; i < t->n; i++) {
		size_t from = i ? order[i - 1] + 1 : 0, best = i, swap;

		for (size_t k = i + 1; k < t->n; k++) {
			if (apart(t, from, order[k] + 1) < apart(t, from, order[best] + 1))
				best = k;
		}
		swap = order[i];
		order[i] = order[best];
		order[best] = swap;
	}
}

static double way_of(const struct tour *t, const size_t *order)
{
	double way = 0;

	for (size_t i = 0; i < t->n; i++)
		way += apart(t, i ? order[i - 1] + 1 : 0, order[i] + 1);
	return way;
}

static void reverse(size_t *order, size_t from, size_t to)
{
	for (; from < to; from++, to--) {
		size_t swap = order[from];

		order[from] = order[to];
		order[to] = swap;
	}
}

/* Take the place at `from` out and put it in at `to`. */
static void transfer(size_t *order, size_t from, size_t to)
{
	size_t place = order[from];

	if (from < to)
		memmove(order + from, order + from + 1, (to - from) * sizeof *order);
	else
		memmove(order + to + 1, order + to, (from - to) * sizeof *order);
	order[to] = place;
}

/* One change that shortens the way, if there is any. */
static bool shorten(const struct tour *t, size_t *order)
{
	double now = way_of(t, order) - SHORTER;

	for (size_t i = 0; i < t->n; i++) {
		for (size_t k = 0; k < t->n; k++) {
			if (i < k) {
				reverse(order, i, k);
				if (way_of(t, order) < now)
					return true;
				reverse(order, i, k);
			}
			transfer(order, i, k);
			if (way_of(t, order) < now)
				return true;
			transfer(order, k, i);
		}
	}
	return false;
}

enum rt_err rt__tour(const double *at, size_t n, const double start[2], size_t *order,
		     struct rt_error *err)
{
	struct rt_arena *room = NULL;
	struct tour t = {.n = n};
	enum rt_err e = RT_OK;

	t.apart = rt_arena_take(&room, (n + 1) * (n + 1) * sizeof *t.apart);
	if (!t.apart)
		return rt_fail_nomem(err);
	for (size_t i = 0; i <= n; i++) {
		const double *a = i ? at + 2 * (i - 1) : start;

		for (size_t k = 0; k <= n; k++) {
			const double *b = k ? at + 2 * (k - 1) : start;

			t.apart[i * (n + 1) + k] = hypot(a[0] - b[0], a[1] - b[1]);
		}
	}
	if (n > 0 && n <= RT__TOUR_EXACT) {
		e = shortest(&t, &room, order, err);
	} else {
		nearest_first(&t, order);
		while (shorten(&t, order))
			;
	}
	rt_arena_free(room);
	return e;
}
