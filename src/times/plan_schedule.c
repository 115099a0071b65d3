/* Classes put where they fit: each in turn on its day in its ring, its starts one interval after
 * the other, each waiting until everybody and everything of it is free.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner.h"

#include <string.h>

int64_t rt__pause_behind(const struct rt_time_class *k, size_t i, size_t n, enum rt_pause *what)
{
	int64_t started = (int64_t)i + 1;
	bool last = i + 1 == n;
	bool rest = !last && k->break_every && started % k->break_every == 0;
	bool harrow = !last && k->harrow_every && started % k->harrow_every == 0;
	int64_t rest_s = rest ? k->break_s : 0, harrow_s = harrow ? k->harrow_s : 0;

	if (what)
		*what = rest && harrow ? RT_PAUSE_BOTH
			: rest	       ? RT_PAUSE_BREAK
			: harrow       ? RT_PAUSE_HARROW
				       : RT_PAUSE_NONE;
	return rest_s > harrow_s ? rest_s : harrow_s; /* the judges rest while it is harrowed */
}

int64_t rt__first_of(const struct rt__planner *p, size_t run)
{
	return p->drops.first[run] ? -1 : p->run[run].ask->first_s;
}

bool rt__may_be(const struct rt__planner *p, size_t run, int64_t day, size_t ring)
{
	const struct rt_time_class *k = p->run[run].ask;
	uint64_t rings = p->drops.ring[run] ? k->otherwise : k->rings;
	uint32_t days = p->drops.day[run] ? UINT32_MAX : p->run[run].days;

	return days >> (day - 1) & 1 && rings >> ring & 1;
}

/* ---- who is taken when ---- */

/* The earliest time from `at` on, in steps, that [at, at + length) keeps its gap to all that the
 * sharer of the use is taken for. */
static int64_t free_from(const struct rt__planner *p, const struct rt__use *use, int64_t at,
			 int64_t length, int64_t step)
{
	const struct rt__taken *taken = p->taken + p->taken_from[use->sharer];
	size_t n = p->taken_n[use->sharer];
	int64_t before;

	do { /* until none of them pushes it on */
		before = at;
		for (size_t i = 0; i < n; i++) {
			int64_t gap = rt__gap(p->ask->settings, use->as, taken[i].as);

			if (gap >= 0 && at < taken[i].end + gap &&
			    taken[i].begin < at + length + gap)
				at = rt__step_up(taken[i].end + gap, step);
		}
	} while (at != before);
	return at;
}

/* The same for all uses at once. */
static int64_t all_free_from(const struct rt__planner *p, size_t from, size_t n, int64_t at,
			     int64_t length, int64_t step)
{
	int64_t before;

	do {
		before = at;
		for (size_t u = from; u < from + n; u++)
			at = free_from(p, &p->uses.at[u], at, length, step);
	} while (at != before);
	return at;
}

static void take(struct rt__planner *p, size_t from, size_t n, int64_t begin, int64_t end)
{
	for (size_t u = from; u < from + n; u++) {
		const struct rt__use *use = &p->uses.at[u];

		p->taken_of_use[u] = p->taken_from[use->sharer] + p->taken_n[use->sharer]++;
		p->taken[p->taken_of_use[u]] = (struct rt__taken){begin, end, use->as};
	}
}

static void give_back(struct rt__planner *p, size_t from, size_t n)
{
	for (size_t u = from; u < from + n; u++)
		p->taken_n[p->uses.at[u].sharer]--;
}

static void give_back_runners(struct rt__planner *p, const struct rt__run *run)
{
	for (size_t i = 0; i < run->n; i++) {
		const struct rt__runner *r = &p->runner[run->from + i];

		give_back(p, r->use_from, r->use_n);
	}
}

/* ---- rings ---- */

static size_t ring_day(const struct rt__planner *p, int64_t day, size_t ring)
{
	return (size_t)(day - 1) * p->rings + ring;
}

/* The earliest time from `at` on that a class of that length has the ring to itself. */
static int64_t ring_free_from(const struct rt__planner *p, size_t where, int64_t at, int64_t length,
			      int64_t step)
{
	const struct rt__block *block = p->block + where * p->block_room;
	int64_t change = p->ask->settings->change_s;
	int64_t before;

	do {
		before = at;
		for (size_t i = 0; i < p->block_n[where]; i++)
			if (at < block[i].end + change && block[i].begin < at + length + change)
				at = rt__step_up(block[i].end + change, step);
	} while (at != before);
	return at;
}

/* ---- the starts of a class ---- */

/* When the runner may start, from `at` on. */
static int64_t may_start(const struct rt__planner *p, const struct rt__choice *c, size_t runner,
			 int64_t day, int64_t at, int64_t slot)
{
	const struct rt__runner *r = &p->runner[runner];
	int64_t release = p->release[(size_t)(day - 1) * p->runners + runner];
	int64_t step = p->run[r->run].ask->step_s;
	int64_t hold = rt__step_up((day - 1) * RT_DAY_S + c->hold[runner], step);

	at = at < release ? release : at;
	return all_free_from(p, r->use_from, r->use_n, at < hold ? hold : at, slot, step);
}

/* The place in sequence[i..n) of who can start first; the first of them where several can. */
static size_t who_next(const struct rt__planner *p, const struct rt__choice *c,
		       const size_t *sequence, size_t i, size_t n, int64_t day, int64_t at,
		       int64_t slot)
{
	int64_t soonest = RT__NEVER;
	size_t best = i;

	for (size_t k = i; k < n && soonest > at; k++) {
		int64_t then = may_start(p, c, sequence[k], day, at, slot);

		if (then < soonest) {
			soonest = then;
			best = k;
		}
	}
	return best;
}

/* Time the starts from `at` on; returns the end of the last. */
static int64_t time_starts(struct rt__planner *p, const struct rt__choice *c, size_t run,
			   int64_t at, struct rt__placed *out)
{
	const struct rt__run *r = &p->run[run];
	size_t *sequence = out->sequence + r->from;
	int64_t slot = r->ask->interval_s, day = c->day[run];

	memcpy(sequence, c->sequence + r->from, r->n * sizeof *sequence);
	for (size_t i = 0; i < r->n; i++) {
		size_t next = r->ask->free_order ? who_next(p, c, sequence, i, r->n, day, at, slot)
						 : i;
		size_t runner = sequence[next];

		memmove(sequence + i + 1, sequence + i, (next - i) * sizeof *sequence);
		sequence[i] = runner;
		at = may_start(p, c, runner, day, at, slot);
		out->at[runner] = at;
		take(p, p->runner[runner].use_from, p->runner[runner].use_n, at, at + slot);
		at += slot;
		if (i + 1 < r->n)
			at += rt__pause_behind(r->ask, i, r->n, NULL);
	}
	return at;
}

/* ---- waits moved to the front ---- */

/* Down to a multiple of the step, below 0 too. */
static int64_t step_down(int64_t s, int64_t step)
{
	return s - (s % step + step) % step;
}

/* The latest time up to `at` that the use keeps its gaps to all others but its own. */
static int64_t free_until(const struct rt__planner *p, size_t u, int64_t at, int64_t length,
			  int64_t step)
{
	const struct rt__use *use = &p->uses.at[u];
	size_t from = p->taken_from[use->sharer], end = from + p->taken_n[use->sharer];
	int64_t before;

	do {
		before = at;
		for (size_t i = from; i < end; i++) {
			const struct rt__taken *t = &p->taken[i];
			int64_t gap = rt__gap(p->ask->settings, use->as, t->as);

			if (i == p->taken_of_use[u] || gap < 0 || at >= t->end + gap ||
			    t->begin >= at + length + gap)
				continue;
			at = step_down(t->begin - gap - length, step);
		}
	} while (at != before);
	return at;
}

/* The latest time in [now, at] that a runner can start, who can start now. */
static int64_t latest_start(const struct rt__planner *p, size_t runner, int64_t day, int64_t now,
			    int64_t at, int64_t slot)
{
	const struct rt__runner *r = &p->runner[runner];
	int64_t due = p->due[(size_t)(day - 1) * p->runners + runner], before;
	int64_t step = p->run[r->run].ask->step_s;

	if (at > due - slot)
		at = step_down(due - slot, step);
	do {
		before = at;
		for (size_t u = r->use_from; u < r->use_from + r->use_n; u++)
			at = free_until(p, u, at, slot, step);
	} while (at != before && at > now);
	return at > now ? at : now;
}

/* Where somebody has to wait, let those before start later instead: the last end stays, and the
 * judges wait before the class rather than in it. */
static void wait_before(struct rt__planner *p, const struct rt__choice *c, size_t run,
			struct rt__placed *out)
{
	const struct rt__run *r = &p->run[run];
	const size_t *sequence = out->sequence + r->from;
	int64_t slot = r->ask->interval_s;

	for (size_t i = r->n - 1; i-- > 0;) {
		size_t runner = sequence[i];
		int64_t limit = out->at[sequence[i + 1]] - slot -
				rt__pause_behind(r->ask, i, r->n, NULL);
		int64_t at = latest_start(p, runner, c->day[run], out->at[runner], limit, slot);

		out->at[runner] = at;
		for (size_t u = 0; u < p->runner[runner].use_n; u++) {
			struct rt__taken *t =
				&p->taken[p->taken_of_use[p->runner[runner].use_from + u]];

			*t = (struct rt__taken){at, at + slot, t->as};
		}
	}
}

/* ---- a class ---- */

/* When the class can begin that would begin at `at` and last so long: ring and judges. */
static int64_t can_begin(const struct rt__planner *p, size_t run, size_t where, int64_t at,
			 int64_t length)
{
	const struct rt__run *r = &p->run[run];

	for (;;) {
		int64_t then = ring_free_from(p, where, at, length, r->ask->step_s);

		then = all_free_from(p, r->use_from, r->use_n, then, length, r->ask->step_s);
		if (then == at)
			return at;
		at = then;
	}
}

/* The end of the classes that must be over before the run begins, as far as they are placed. */
static int64_t after_others(const struct rt__planner *p, size_t run, const struct rt__placed *out)
{
	size_t wishes = p->ask->wishes ? p->ask->wishes->n : 0;
	int64_t at = 0;

	for (size_t i = 0; i < wishes; i++) {
		const struct rt__aim *aim = &p->aim[i];
		int64_t end = aim->after_end;

		if (!p->ask->wishes->at[i].after || p->ask->wishes->at[i].weight || aim->dropped ||
		    !aim->n || p->targets.at[aim->from] != run)
			continue;
		if (aim->after_run != RT__NONE)
			end = p->is_placed[aim->after_run] ? out->end[aim->after_run] : 0;
		at = end > at ? end : at;
	}
	return at;
}

static int64_t begin_from(const struct rt__planner *p, size_t run, int64_t day,
			  const struct rt__placed *out)
{
	int64_t first = rt__first_of(p, run), midnight = (day - 1) * RT_DAY_S;
	int64_t at = p->run_release[(size_t)(day - 1) * p->runs + run];
	int64_t open = midnight + p->ask->settings->open_s, after = after_others(p, run, out);

	at = at > open ? at : open;
	at = at > after ? at : after;
	at = first >= 0 ? midnight + first : at;
	return at > p->ask->not_before_s
		       ? at
		       : rt__step_up(p->ask->not_before_s, p->run[run].ask->step_s);
}

void rt__place_run(struct rt__planner *p, const struct rt__choice *c, size_t run,
		   struct rt__placed *out)
{
	const struct rt__run *r = &p->run[run];
	size_t where = ring_day(p, c->day[run], c->ring[run]);
	int64_t at = begin_from(p, run, c->day[run], out), begin, end, then;

	for (;;) {
		at = can_begin(p, run, where, at, r->least_s);
		end = time_starts(p, c, run, at, out);
		if (end - at > r->least_s && rt__first_of(p, run) < 0 && !c->loose[run])
			wait_before(p, c, run, out);
		begin = out->at[out->sequence[r->from]];
		/* With waits it lasts longer than was looked for. */
		give_back_runners(p, r);
		then = can_begin(p, run, where, begin, end - begin);
		if (then == begin)
			break;
		at = then;
	}
	for (size_t i = 0; i < r->n; i++) {
		const struct rt__runner *runner = &p->runner[r->from + i];
		int64_t start = out->at[r->from + i];

		take(p, runner->use_from, runner->use_n, start, start + r->ask->interval_s);
	}
	take(p, r->use_from, r->use_n, begin, end);
	p->block[where * p->block_room + p->block_n[where]++] = (struct rt__block){begin, end};
	out->begin[run] = begin;
	out->end[run] = end;
	p->is_placed[run] = true;
}

void rt__unplace_run(struct rt__planner *p, const struct rt__choice *c, size_t run)
{
	give_back(p, p->run[run].use_from, p->run[run].use_n);
	give_back_runners(p, &p->run[run]);
	p->is_placed[run] = false;
	p->block_n[ring_day(p, c->day[run], c->ring[run])]--;
}

void rt__place_none(struct rt__planner *p)
{
	size_t wheres = (size_t)p->days * p->rings;

	memcpy(p->taken_n, p->taken_kept, p->sharers.names.n * sizeof *p->taken_n);
	memcpy(p->block_n, p->block_kept, wheres * sizeof *p->block_n);
	memset(p->is_placed, 0, p->runs * sizeof *p->is_placed);
}

void rt__place_all(struct rt__planner *p, const struct rt__choice *c, struct rt__placed *out)
{
	rt__place_none(p);
	for (size_t i = 0; i < p->runs; i++)
		rt__place_run(p, c, c->order[i], out);
}
