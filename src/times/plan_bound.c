/* A time of day that the longest day of no plan ends before: by the load of rings, by the starts
 * of one person or horse, by the classes of one judge, by what must not begin earlier.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner.h"

#include <stdlib.h>

/* Pieces of work that are done one after another in one of `lanes` lanes, with at least gap_s
 * between: pieces that nobody can shorten. */
struct work {
	int64_t *piece; /* lengths */
	size_t n;
	size_t lanes;
	int64_t gap_s;
};

static int longest_first(const void *left, const void *right)
{
	int64_t a = *(const int64_t *)left, b = *(const int64_t *)right;

	return (a < b) - (a > b);
}

/* How long the fullest lane is at least: some lane has the mean, a gap between each two of its
 * pieces; the longest piece is somewhere; of the k * lanes + 1 longest pieces some lane has k + 1,
 * which are no shorter than the k + 1 shortest of them. */
static int64_t fullest(struct work *w)
{
	int64_t sum = 0, most, lanes = (int64_t)w->lanes;

	if (!w->n || !w->lanes)
		return 0;
	qsort(w->piece, w->n, sizeof *w->piece, longest_first);
	for (size_t i = 0; i < w->n; i++)
		sum += w->piece[i] + w->gap_s;
	most = (sum + lanes - 1) / lanes - w->gap_s;
	for (size_t k = 0; k * w->lanes < w->n; k++) {
		int64_t together = (int64_t)k * w->gap_s;

		for (size_t i = 0; i <= k; i++)
			together += w->piece[k * w->lanes - i];
		most = together > most ? together : most;
	}
	return most;
}

/* ---- rings ---- */

/* Whether the run has to be in one of the lanes: a ring (RT__NONE: any), a day (0: any). */
static bool must_be_in(const struct rt__planner *p, size_t run, size_t ring, int64_t day)
{
	for (int64_t d = 1; d <= p->days; d++)
		for (size_t r = 0; r < p->rings; r++)
			if (rt__may_be(p, run, d, r) &&
			    ((ring != RT__NONE && r != ring) || (day && d != day)))
				return false;
	return true;
}

static int64_t ring_load(const struct rt__planner *p, size_t ring, int64_t day, int64_t *piece)
{
	struct work w = {.piece = piece,
			 .lanes = (ring == RT__NONE ? p->rings : 1) * (day ? 1 : (size_t)p->days),
			 .gap_s = p->ask->settings->change_s};

	for (size_t r = 0; r < p->runs; r++)
		if (must_be_in(p, r, ring, day))
			piece[w.n++] = p->run[r].alone_s;
	return fullest(&w);
}

static int64_t ring_loads(const struct rt__planner *p, int64_t *piece)
{
	int64_t most = 0;

	for (int64_t day = 0; day <= p->days; day++)
		for (size_t ring = 0; ring <= p->rings; ring++) {
			int64_t load = ring_load(p, ring < p->rings ? ring : RT__NONE, day, piece);

			most = load > most ? load : most;
		}
	return most;
}

/* ---- people, horses, carriages ---- */

/* The day that a run must be on, or 0. */
static int64_t only_day(const struct rt__planner *p, size_t run)
{
	for (int64_t d = 1; d <= p->days; d++)
		if (must_be_in(p, run, RT__NONE, d))
			return d;
	return 0;
}

/* The gap that any two of a sharer's uses have at least; -1: none is asked for. */
static int64_t least_gap(const struct rt__planner *p, size_t sharer, bool judges)
{
	int64_t least = INT64_MAX;

	for (size_t u = 0; u < p->uses.n; u++) {
		const struct rt__use *use = &p->uses.at[u];
		int64_t gap = rt__gap(p->ask->settings, use->as, use->as);

		if (use->sharer == sharer && (use->as == RT_SHARED_JUDGE) == judges && gap < least)
			least = gap;
	}
	return least == INT64_MAX ? -1 : least;
}

struct chain {
	int64_t head, tail; /* the least before its first and behind its last start */
	size_t n;
};

static void chain_add(const struct rt__planner *p, const struct rt__runner *r, struct chain *chain,
		      int64_t *piece)
{
	chain->head = r->head_s < chain->head ? r->head_s : chain->head;
	chain->tail = r->tail_s < chain->tail ? r->tail_s : chain->tail;
	piece[chain->n++] = p->run[r->run].ask->interval_s;
}

static bool takes_part(const struct rt__planner *p, size_t from, size_t n, size_t sharer,
		       bool judge)
{
	for (size_t u = from; u < from + n; u++)
		if (p->uses.at[u].sharer == sharer &&
		    (p->uses.at[u].as == RT_SHARED_JUDGE) == judge)
			return true;
	return false;
}

/* All starts of a sharer that must be on that day (0: wherever they are). */
static int64_t start_chain(const struct rt__planner *p, size_t sharer, int64_t day,
			   const int64_t *day_of, int64_t *piece)
{
	struct chain chain = {INT64_MAX, INT64_MAX, 0};
	int64_t gap = least_gap(p, sharer, false);
	struct work w = {.piece = piece, .lanes = day ? 1 : (size_t)p->days, .gap_s = gap};

	if (gap < 0)
		return 0;
	for (size_t i = 0; i < p->runners; i++) {
		const struct rt__runner *r = &p->runner[i];

		if ((!day || day_of[r->run] == day) &&
		    takes_part(p, r->use_from, r->use_n, sharer, false))
			chain_add(p, r, &chain, piece);
	}
	w.n = chain.n;
	return chain.n ? chain.head + fullest(&w) + chain.tail : 0;
}

/* All classes of a judge that must be on that day; in one ring they may follow each other as
 * classes do. */
static int64_t judge_chain(const struct rt__planner *p, size_t sharer, int64_t day,
			   const int64_t *day_of, int64_t *piece)
{
	int64_t gap = least_gap(p, sharer, true), change = p->ask->settings->change_s;
	struct work w = {.piece = piece,
			 .lanes = day ? 1 : (size_t)p->days,
			 .gap_s = gap < change ? gap : change};

	if (gap < 0)
		return 0;
	for (size_t r = 0; r < p->runs; r++)
		if ((!day || day_of[r] == day) &&
		    takes_part(p, p->run[r].use_from, p->run[r].use_n, sharer, true))
			piece[w.n++] = p->run[r].alone_s;
	return fullest(&w);
}

static int64_t chains(const struct rt__planner *p, int64_t *piece, int64_t *day_of)
{
	int64_t most = 0;

	for (size_t r = 0; r < p->runs; r++)
		day_of[r] = p->days > 1 ? only_day(p, r) : 1;
	for (size_t s = 0; s < p->sharers.names.n; s++)
		for (int64_t day = 0; day <= p->days; day++) {
			int64_t starts = start_chain(p, s, day, day_of, piece);
			int64_t classes = judge_chain(p, s, day, day_of, piece);

			most = starts > most ? starts : most;
			most = classes > most ? classes : most;
		}
	return most;
}

/* ---- what must not begin earlier ---- */

/* When the class ends at the earliest that begins then: somebody may have to wait. */
static int64_t end_with_waits(const struct rt__planner *p, size_t run, int64_t day, int64_t begin)
{
	const struct rt__run *r = &p->run[run];
	int64_t end = begin + r->alone_s;

	for (size_t i = r->from; i < r->from + r->n; i++) {
		int64_t at = p->release[(size_t)(day - 1) * p->runners + i] - (day - 1) * RT_DAY_S;

		if (at + r->ask->interval_s + p->runner[i].tail_s > end)
			end = at + r->ask->interval_s + p->runner[i].tail_s;
	}
	return end;
}

/* The earliest end of a class that begins no earlier than it must on any day it may be on. */
static int64_t earliest_end(const struct rt__planner *p, size_t run)
{
	int64_t best = INT64_MAX, first = rt__first_of(p, run);

	for (int64_t day = 1; day <= p->days; day++) {
		int64_t midnight = (day - 1) * RT_DAY_S;
		int64_t begin = p->run_release[(size_t)(day - 1) * p->runs + run] - midnight;
		bool may = false;

		for (size_t ring = 0; ring < p->rings; ring++)
			may |= rt__may_be(p, run, day, ring);
		begin = begin > p->ask->settings->open_s ? begin : p->ask->settings->open_s;
		begin = first >= 0 ? first : begin;
		if (midnight + begin < p->ask->not_before_s)
			begin = p->ask->not_before_s - midnight;
		if (may && end_with_waits(p, run, day, begin) < best)
			best = end_with_waits(p, run, day, begin);
	}
	return best;
}

/* A class that is after another ends no earlier than that and itself; of one day only, as the other
 * may be on the day before. */
static int64_t after_other(const struct rt__planner *p, size_t wish)
{
	const struct rt__aim *aim = &p->aim[wish];
	const struct rt_wish *w = &p->ask->wishes->at[wish];

	if (p->days > 1 || w->weight || aim->dropped || aim->after_run == RT__NONE || !aim->n)
		return 0;
	return earliest_end(p, aim->after_run) + p->run[p->targets.at[aim->from]].alone_s;
}

/* With a first start before the day opens the bounds by load do not hold. */
static int64_t opens(const struct rt__planner *p)
{
	int64_t open = p->ask->settings->open_s;

	for (size_t r = 0; r < p->runs; r++) {
		int64_t first = rt__first_of(p, r);

		open = first >= 0 && first < open ? first : open;
	}
	return open;
}

enum rt_err rt__bound(const struct rt__planner *p, int64_t *out, struct rt_error *err)
{
	struct rt_arena *room = NULL;
	int64_t *piece = rt_arena_take(&room, (p->runs + p->runners) * sizeof *piece), load;
	int64_t *day_of = rt_arena_take(&room, p->runs * sizeof *day_of), open = opens(p);

	*out = p->kept_last;
	if (!piece || !day_of) {
		rt_arena_free(room);
		return rt_fail_nomem(err);
	}
	load = open + ring_loads(p, piece);
	*out = load > *out && p->runs ? load : *out;
	load = open + chains(p, piece, day_of);
	*out = load > *out && p->runs ? load : *out;
	for (size_t r = 0; r < p->runs; r++) {
		load = earliest_end(p, r);
		*out = load > *out ? load : *out;
	}
	for (size_t i = 0; p->ask->wishes && i < p->ask->wishes->n; i++) {
		load = after_other(p, i);
		*out = load > *out ? load : *out;
	}
	rt_arena_free(room);
	return RT_OK;
}
