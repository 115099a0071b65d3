/* Choices that cost less: a first one, longest classes first where they end soonest, then small
 * changes, each kept when it costs no more than the choice of some steps before.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner.h"

#include <stdlib.h>
#include <string.h>

/* A change is kept when it costs no more than the choice of so many steps before (late acceptance
 * hill climbing: E. K. Burke and Y. Bykov, European Journal of Operational Research 258, 2017). */
#define MEMORY 100

/* Two starts that have somebody or something in common, and the gap they keep. */
struct pair {
	size_t a, b;
	int64_t gap;
};

struct pairs RT_LIST(struct pair);

struct search {
	struct rt__planner *p;
	struct rt__random random;
	struct rt__choice now, next;
	struct rt__placed placed, placed_next;
	struct pairs pairs;
	struct rt__cost cost, held[MEMORY];
	size_t fixed; /* so many runs with a first start asked for stand in front of the order */
	size_t free_runs, *free_run; /* with free order and more than one runner */
	struct rt_arena *room;	     /* of all arrays */
};

/* ---- the first choice ---- */

struct ranked {
	int64_t first, length;
	size_t run;
};

/* Those with a first start by it, then the others, the longest first. */
static int compare_ranked(const void *left, const void *right)
{
	const struct ranked *a = left, *b = right;

	if ((a->first < 0) != (b->first < 0))
		return a->first < 0 ? 1 : -1;
	if (a->first != b->first)
		return a->first < b->first ? -1 : 1;
	if (a->length != b->length)
		return a->length > b->length ? -1 : 1;
	return (a->run > b->run) - (a->run < b->run);
}

static bool first_order(struct search *s)
{
	const struct rt__planner *p = s->p;
	struct ranked *ranked = rt_arena_take(&s->room, p->runs * sizeof *ranked);

	if (!ranked)
		return false;
	for (size_t r = 0; r < p->runs; r++)
		ranked[r] = (struct ranked){rt__first_of(p, r), p->run[r].least_s, r};
	qsort(ranked, p->runs, sizeof *ranked, compare_ranked);
	for (size_t i = 0; i < p->runs; i++) {
		s->now.order[i] = ranked[i].run;
		s->fixed += ranked[i].first >= 0;
	}
	for (size_t i = 0; i < p->runners; i++)
		s->now.sequence[i] = i;
	return true;
}

/* Put the run where it ends soonest by the time of day, without running over where it can. */
static void place_best(struct search *s, size_t run)
{
	struct rt__planner *p = s->p;
	struct rt__choice *c = &s->now;
	int64_t best = INT64_MAX, best_day = 1;
	size_t best_ring = 0;

	for (int64_t day = 1; day <= p->days; day++)
		for (size_t ring = 0; ring < p->rings; ring++) {
			int64_t cost;

			if (!rt__may_be(p, run, day, ring))
				continue;
			c->day[run] = day;
			c->ring[run] = ring;
			rt__place_run(p, c, run, &s->placed);
			cost = s->placed.end[run] - (day - 1) * RT_DAY_S +
			       RT_DAY_S * rt__first_missed(p, c, &s->placed, run);
			rt__unplace_run(p, c, run);
			if (cost < best) {
				best = cost;
				best_day = day;
				best_ring = ring;
			}
		}
	c->day[run] = best_day;
	c->ring[run] = best_ring;
	rt__place_run(p, c, run, &s->placed);
}

/* ---- changes ---- */

static void swap(size_t *a, size_t *b)
{
	size_t held = *a;

	*a = *b;
	*b = held;
}

/* Any run, or now and then the one that ends its day latest. */
static size_t any_run(struct search *s)
{
	size_t latest = 0;

	if (rt__random_below(&s->random, 3))
		return rt__random_below(&s->random, s->p->runs);
	for (size_t r = 1; r < s->p->runs; r++)
		if (s->placed.end[r] % RT_DAY_S > s->placed.end[latest] % RT_DAY_S)
			latest = r;
	return latest;
}

/* A place in the order, and another of the same part of it (fixed first or not). */
static size_t any_place(struct search *s, size_t *other)
{
	size_t n = s->p->runs, run = any_run(s), i = 0, from, to;

	while (s->next.order[i] != run)
		i++;
	from = i < s->fixed ? 0 : s->fixed;
	to = i < s->fixed ? s->fixed : n;
	*other = from + rt__random_below(&s->random, to - from);
	return i;
}

static void swap_order(struct search *s)
{
	size_t j, i = any_place(s, &j);

	swap(&s->next.order[i], &s->next.order[j]);
}

static void move_order(struct search *s)
{
	size_t j, i = any_place(s, &j), *order = s->next.order, run = order[i];

	if (i < j)
		memmove(order + i, order + i + 1, (j - i) * sizeof *order);
	else
		memmove(order + j + 1, order + j, (i - j) * sizeof *order);
	order[j] = run;
}

static void move_run(struct search *s)
{
	size_t run = any_run(s);
	int64_t day = 1 + (int64_t)rt__random_below(&s->random, (size_t)s->p->days);
	size_t ring = rt__random_below(&s->random, s->p->rings);

	if (!rt__may_be(s->p, run, day, ring))
		return;
	s->next.day[run] = day;
	s->next.ring[run] = ring;
}

static void swap_runs(struct search *s)
{
	size_t a = any_run(s), b = rt__random_below(&s->random, s->p->runs);
	int64_t day = s->next.day[a];

	if (!rt__may_be(s->p, a, s->next.day[b], s->next.ring[b]) ||
	    !rt__may_be(s->p, b, day, s->next.ring[a]))
		return;
	s->next.day[a] = s->next.day[b];
	s->next.day[b] = day;
	swap(&s->next.ring[a], &s->next.ring[b]);
}

static void swap_starts(struct search *s)
{
	const struct rt__run *run;
	size_t *sequence;

	if (!s->free_runs)
		return;
	run = &s->p->run[s->free_run[rt__random_below(&s->random, s->free_runs)]];
	sequence = s->next.sequence + run->from;
	swap(&sequence[rt__random_below(&s->random, run->n)],
	     &sequence[rt__random_below(&s->random, run->n)]);
}

/* Hold one of two starts back until the other is over, as they lie now: a class that is placed
 * before another lets some of its starts go first. */
static void hold(struct search *s)
{
	const struct pair *pair;
	size_t one, other, run;

	if (!s->pairs.n)
		return;
	pair = &s->pairs.at[rt__random_below(&s->random, s->pairs.n)];
	one = rt__random_below(&s->random, 2) ? pair->a : pair->b;
	other = one == pair->a ? pair->b : pair->a;
	run = s->p->runner[other].run;
	s->next.hold[one] = (s->placed.at[other] + s->p->run[run].ask->interval_s + pair->gap) %
			    RT_DAY_S;
}

static void let_go(struct search *s)
{
	const struct pair *pair;

	if (!s->pairs.n)
		return;
	pair = &s->pairs.at[rt__random_below(&s->random, s->pairs.n)];
	s->next.hold[pair->a] = s->next.hold[pair->b] = 0;
}

static void loosen(struct search *s)
{
	size_t run = rt__random_below(&s->random, s->p->runs);

	s->next.loose[run] = !s->next.loose[run];
}

static void change(struct search *s)
{
	switch (rt__random_below(&s->random, s->free_runs ? 9 : 7)) {
	case 0:
		swap_order(s);
		break;
	case 1:
		move_order(s);
		break;
	case 2:
		move_run(s);
		break;
	case 3:
		swap_runs(s);
		break;
	case 4:
		hold(s);
		break;
	case 5:
		let_go(s);
		break;
	case 6:
		loosen(s);
		break;
	default:
		swap_starts(s);
		break;
	}
}

static void keep_next(struct search *s)
{
	struct rt__choice now = s->now;
	struct rt__placed placed = s->placed;

	s->now = s->next;
	s->next = now;
	s->placed = s->placed_next;
	s->placed_next = placed;
}

static void climb(struct search *s, size_t tries, struct rt__choice *best,
		  struct rt__cost *best_cost)
{
	for (size_t i = 0; i < MEMORY; i++)
		s->held[i] = s->cost;
	for (size_t i = 0; i < tries; i++) {
		struct rt__cost cost, *held = &s->held[i % MEMORY];

		rt__choice_copy(&s->next, &s->now, s->p);
		for (size_t k = 1 + rt__random_below(&s->random, 2); k > 0; k--)
			change(s);
		rt__place_all(s->p, &s->next, &s->placed_next);
		cost = rt__cost(s->p, &s->next, &s->placed_next);
		if (rt__cost_compare(&cost, held) <= 0 || rt__cost_compare(&cost, &s->cost) <= 0) {
			keep_next(s);
			s->cost = cost;
		}
		if (rt__cost_compare(&s->cost, best_cost) < 0) {
			rt__choice_copy(best, &s->now, s->p);
			*best_cost = s->cost;
		}
		if (rt__cost_compare(&s->cost, held) < 0)
			*held = s->cost;
	}
}

static bool find_pairs(struct search *s)
{
	const struct rt__planner *p = s->p;

	for (size_t i = 0; i < p->runners; i++)
		for (size_t j = i + 1; j < p->runners; j++) {
			int64_t gap = rt__gap_of_pair(p, i, j);
			struct pair *pair = gap < 0 ? NULL : RT_LIST_ADD(&s->pairs);

			if (pair)
				*pair = (struct pair){i, j, gap};
			else if (gap >= 0)
				return false;
		}
	return true;
}

static bool set_up(struct search *s)
{
	const struct rt__planner *p = s->p;

	s->free_run = rt_arena_take(&s->room, p->runs * sizeof *s->free_run);
	if (!s->free_run || !rt__choice_make(&s->now, p, &s->room) ||
	    !rt__choice_make(&s->next, p, &s->room) || !rt__placed_make(&s->placed, p, &s->room) ||
	    !rt__placed_make(&s->placed_next, p, &s->room) || !find_pairs(s) || !first_order(s))
		return false;
	for (size_t r = 0; r < p->runs; r++)
		if (p->run[r].ask->free_order && p->run[r].n > 1)
			s->free_run[s->free_runs++] = r;
	return true;
}

enum rt_err rt__search(struct rt__planner *p, size_t tries, struct rt__choice *best,
		       struct rt__placed *placed, struct rt__cost *cost, struct rt_error *err)
{
	struct search s = {.p = p, .random = rt__random(p->ask->settings->seed)};
	enum rt_err rc = RT_OK;

	if (!set_up(&s)) {
		rc = rt_fail_nomem(err);
		goto out;
	}
	rt__place_none(p);
	for (size_t i = 0; i < p->runs; i++)
		place_best(&s, s.now.order[i]);
	s.cost = *cost = rt__cost(p, &s.now, &s.placed);
	rt__choice_copy(best, &s.now, p);
	if (p->runs)
		climb(&s, tries, best, cost);
	rt__place_all(p, best, placed);
out:
	rt_arena_free(s.room);
	RT_LIST_FREE(&s.pairs);
	return rc;
}
