/* Who or what stands in the way of what a plan misses.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner.h"

#include <stdio.h>
#include <string.h>

/* A search for what keeps a class from being earlier. */
struct cause {
	const struct rt__planner *p;
	const struct rt__choice *c;
	const struct rt__placed *placed;
	size_t run;
	int64_t until; /* of what is in the way longest; 0: nothing was found */
	char *out;
	size_t size;
};

/* The run in which somebody or something is taken then; RT__NONE: a class that is kept. */
static size_t run_then(const struct cause *c, size_t sharer, const struct rt__taken *t)
{
	const struct rt__planner *p = c->p;

	for (size_t r = 0; r < p->runs && t->as == RT_SHARED_JUDGE; r++)
		if (c->placed->begin[r] == t->begin &&
		    rt__uses_hold(p, p->run[r].use_from, p->run[r].use_n, sharer, t->as))
			return r;
	for (size_t i = 0; i < p->runners; i++)
		if (c->placed->at[i] == t->begin &&
		    rt__uses_hold(p, p->runner[i].use_from, p->runner[i].use_n, sharer, t->as))
			return p->runner[i].run;
	return RT__NONE;
}

static const char *class_name(const struct cause *c, size_t run)
{
	return c->p->run[run].ask->class_->name;
}

/* "judge Una Alder is in class 2 from 08:00 to 09:10" */
static void tell_sharer(const struct cause *c, size_t sharer, const struct rt__taken *t, size_t run)
{
	int64_t day = rt_day_of(t->begin);
	char from[16], to[16];

	rt_time_words(t->begin, day, from, sizeof from);
	rt_time_words(t->end, day, to, sizeof to);
	snprintf(c->out, c->size, "%s %s is %s%s from %s to %s", rt_shared_words(t->as),
		 c->p->sharers.names.at[sharer], run == RT__NONE ? "taken" : "in class ",
		 run == RT__NONE ? "" : class_name(c, run), from, to);
}

/* Look who is taken so that the use cannot be in [begin, begin + length). */
static void look_at_use(struct cause *c, size_t u, int64_t begin, int64_t length, bool own_class)
{
	const struct rt__planner *p = c->p;
	const struct rt__use *use = &p->uses.at[u];
	size_t from = p->taken_from[use->sharer];

	for (size_t i = from; i < from + p->taken_n[use->sharer]; i++) {
		const struct rt__taken *t = &p->taken[i];
		int64_t gap = rt__gap(p->ask->settings, use->as, t->as);
		size_t run;

		if (i == p->taken_of_use[u] || gap < 0 || begin >= t->end + gap ||
		    t->begin >= begin + length + gap || t->end + gap <= c->until)
			continue;
		run = run_then(c, use->sharer, t);
		if ((run == c->run) != own_class)
			continue;
		c->until = t->end + gap;
		tell_sharer(c, use->sharer, t, run);
	}
}

static void look_at_uses(struct cause *c, size_t from, size_t n, int64_t begin, int64_t length,
			 bool own_class)
{
	for (size_t u = from; u < from + n; u++)
		look_at_use(c, u, begin, length, own_class);
}

/* The class that holds the ring then. */
static const char *holder(const struct cause *c, const struct rt__block *block)
{
	const struct rt__planner *p = c->p;

	for (size_t r = 0; r < p->runs; r++)
		if (c->placed->begin[r] == block->begin && c->c->ring[r] == c->c->ring[c->run])
			return class_name(c, r);
	for (size_t i = 0; i < p->kept.n; i++)
		if (p->kept.at[i].begin == block->begin && p->kept.at[i].ring == c->c->ring[c->run])
			return p->kept.at[i].class_name;
	return "";
}

static void look_at_ring(struct cause *c, int64_t begin, int64_t length)
{
	const struct rt__planner *p = c->p;
	size_t ring = c->c->ring[c->run];
	size_t where = (size_t)(c->c->day[c->run] - 1) * p->rings + ring;
	int64_t change = p->ask->settings->change_s;

	for (size_t i = 0; i < p->block_n[where]; i++) {
		const struct rt__block *b = &p->block[where * p->block_room + i];
		char to[16];

		if (b->begin == c->placed->begin[c->run] || begin >= b->end + change ||
		    b->begin >= begin + length + change || b->end + change <= c->until)
			continue;
		c->until = b->end + change;
		rt_time_words(b->end, rt_day_of(b->begin), to, sizeof to);
		snprintf(c->out, c->size, "class %s is in %s until %s", holder(c, b),
			 p->ask->rings->at[ring], to);
	}
}

/* Those who would be in two places if the class were so much earlier, up to a time. */
static void look_earlier(struct cause *c, int64_t by_s, int64_t last)
{
	const struct rt__planner *p = c->p;
	const struct rt__run *r = &p->run[c->run];
	int64_t begin = c->placed->begin[c->run];
	int64_t length = c->placed->end[c->run] - begin;

	look_at_uses(c, r->use_from, r->use_n, begin - by_s, length, false);
	for (size_t i = r->from; i < r->from + r->n; i++)
		if (c->placed->at[i] <= last)
			look_at_uses(c, p->runner[i].use_from, p->runner[i].use_n,
				     c->placed->at[i] - by_s, r->ask->interval_s, false);
	look_at_ring(c, begin - by_s, length);
}

/* Those for whom the class itself has to wait, up to a time. */
static void look_at_waits(struct cause *c, int64_t last)
{
	const struct rt__planner *p = c->p;
	const struct rt__run *r = &p->run[c->run];
	const size_t *sequence = c->placed->sequence + r->from;
	int64_t slot = r->ask->interval_s;

	for (size_t i = 1; i < r->n && c->placed->at[sequence[i]] <= last; i++) {
		const struct rt__runner *runner = &p->runner[sequence[i]];
		int64_t could = c->placed->at[sequence[i - 1]] + slot +
				rt__pause_behind(r->ask, i - 1, r->n, NULL);

		if (c->placed->at[sequence[i]] > could)
			look_at_uses(c, runner->use_from, runner->use_n, could, slot, true);
	}
}

bool rt__cause(const struct rt__planner *p, const struct rt__choice *c,
	       const struct rt__placed *placed, size_t run, int64_t by_s, int64_t last, char *out,
	       size_t size)
{
	struct cause cause = {
		.p = p, .c = c, .placed = placed, .run = run, .out = out, .size = size};

	look_earlier(&cause, by_s, last);
	if (!cause.until)
		look_at_waits(&cause, last);
	return cause.until > 0;
}
