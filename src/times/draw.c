/* The draw: who starts when in a class, by a seed, with places kept and drivers kept apart.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

#define NONE SIZE_MAX

/* A driver with several turnouts. */
struct group {
	size_t turnouts, apart;
	size_t left; /* neither started nor fixed */
	size_t last; /* the place of the latest start, counted from 1; 0: none yet */
};

/* A draw under way; entries are counted among those that are drawn. */
struct drawing {
	const struct rt_draw_ask *ask;
	size_t n;
	size_t *entry;	       /* its place in the ask's list */
	size_t *group;	       /* of an entry; NONE: its driver starts once */
	size_t *fixed_at;      /* the entry fixed at a place, or NONE */
	size_t *pool;	       /* entries that are neither started nor fixed */
	size_t pooled, single; /* single: those of them without a group */
	struct group *groups, *trial;
	size_t group_count;
	struct rt_arena *room; /* of all arrays */
};

/* ---- setting up ---- */

static bool make_arrays(struct drawing *d)
{
	size_t n = d->ask->entries->n;

	d->entry = rt_arena_take(&d->room, n * sizeof *d->entry);
	d->group = rt_arena_take(&d->room, n * sizeof *d->group);
	d->fixed_at = rt_arena_take(&d->room, n * sizeof *d->fixed_at);
	d->pool = rt_arena_take(&d->room, n * sizeof *d->pool);
	d->groups = rt_arena_take(&d->room, n * sizeof *d->groups);
	d->trial = rt_arena_take(&d->room, n * sizeof *d->trial);
	return d->entry && d->group && d->fixed_at && d->pool && d->groups && d->trial;
}

/* Number the drivers that start more than once; d->groups first counts all drivers. */
static enum rt_err find_groups(struct drawing *d, struct rt_error *err)
{
	struct rt__sharers drivers = {0};
	size_t kept = 0;

	for (size_t i = 0; i < d->n && !drivers.nomem; i++) {
		const struct rt_entry *e = &d->ask->entries->at[d->entry[i]];

		d->group[i] = rt__sharer(&drivers, RT_SHARED_DRIVER, e->driver);
		if (!drivers.nomem)
			d->groups[d->group[i]].turnouts++;
	}
	for (size_t g = 0; g < drivers.names.n && !drivers.nomem; g++) {
		size_t turnouts = d->groups[g].turnouts, now = turnouts > 1 ? kept++ : NONE;

		for (size_t i = 0; i < d->n; i++)
			if (d->group[i] == g)
				d->trial[i].last = now;
		if (now != NONE)
			d->groups[now] = (struct group){.turnouts = turnouts, .left = turnouts};
	}
	for (size_t i = 0; i < d->n && !drivers.nomem; i++)
		d->group[i] = d->trial[i].last;
	d->group_count = kept;
	rt__sharers_free(&drivers);
	return drivers.nomem ? rt_fail_nomem(err) : RT_OK;
}

static enum rt_err fix(struct drawing *d, size_t i, int64_t place, struct rt_error *err)
{
	const struct rt_entry *entries = d->ask->entries->at;
	long long number = entries[d->entry[i]].number;
	int64_t at = place < 0 ? (int64_t)d->n + place : place - 1;

	if (at < 0 || at >= (int64_t)d->n)
		return rt_fail(err, RT_E_INPUT,
			       "number %lld cannot have place %lld: %zu are drawn, places 1 to %zu",
			       number, (long long)(at + 1), d->n, d->n);
	if (d->fixed_at[at] != NONE)
		return rt_fail(err, RT_E_INPUT, "numbers %lld and %lld cannot both have place %lld",
			       (long long)entries[d->entry[d->fixed_at[at]]].number, number,
			       (long long)(at + 1));
	d->fixed_at[at] = i;
	if (d->group[i] != NONE)
		d->groups[d->group[i]].left--;
	return RT_OK;
}

static enum rt_err set_up(struct drawing *d, struct rt_error *err)
{
	const struct rt_entries *entries = d->ask->entries;
	enum rt_err rc;

	if (!make_arrays(d))
		return rt_fail_nomem(err);
	for (size_t i = 0; i < entries->n; i++) {
		d->fixed_at[i] = NONE;
		if (entries->at[i].status == RT_ENTERED)
			d->entry[d->n++] = i;
	}
	rc = find_groups(d, err);
	for (size_t i = 0; i < d->n && !rc; i++) {
		int64_t place = d->ask->place ? d->ask->place[d->entry[i]] : 0;

		if (place) {
			rc = fix(d, i, place, err);
			continue;
		}
		d->pool[d->pooled++] = i;
		d->single += d->group[i] == NONE;
	}
	return rc;
}

/* ---- keeping drivers apart ---- */

/* Whether a driver's start at `place` (from 1) is far enough from the one before it, and from
 * one that is fixed behind it. */
static bool far_enough(const struct drawing *d, const struct group *groups, size_t g, size_t place)
{
	const struct group *group = &groups[g];

	if (group->last && place - group->last < group->apart)
		return false;
	for (size_t p = place + 1; p <= d->n && p < place + group->apart; p++)
		if (d->fixed_at[p - 1] != NONE && d->group[d->fixed_at[p - 1]] == g)
			return false;
	return true;
}

/* The driver that must start soonest of those that may start at place, or NONE. */
static size_t most_pressed(const struct drawing *d, size_t place)
{
	size_t best = NONE, least = 0;

	for (size_t g = 0; g < d->group_count; g++) {
		const struct group *group = &d->trial[g];
		/* What its starts to come need, from the first to the last. */
		size_t need = group->left ? (group->left - 1) * group->apart : 0;

		if (group->left && (best == NONE || need > least) &&
		    far_enough(d, d->trial, g, place)) {
			best = g;
			least = need;
		}
	}
	return best;
}

/* Whether everybody who is left can be placed from `place` on: place by place, the driver that
 * is most pressed. */
static bool can_finish(const struct drawing *d, size_t place, size_t single)
{
	for (; place <= d->n; place++) {
		size_t fixed = d->fixed_at[place - 1], g;

		if (fixed != NONE) {
			g = d->group[fixed];
			if (g != NONE && !far_enough(d, d->trial, g, place))
				return false;
		} else {
			g = most_pressed(d, place);
			if (g != NONE)
				d->trial[g].left--;
			else if (single-- == 0)
				return false;
		}
		if (g != NONE)
			d->trial[g].last = place;
	}
	return true;
}

static bool can_be(const struct drawing *d)
{
	memcpy(d->trial, d->groups, d->group_count * sizeof *d->trial);
	return can_finish(d, 1, d->single);
}

/* The most that all can have alike, then as much more as each can. */
static void set_apart(struct drawing *d)
{
	size_t common = d->n;

	for (size_t g = 0; g < d->group_count; g++) {
		size_t most = (d->n - 1) / (d->groups[g].turnouts - 1);

		common = most < common ? most : common;
	}
	if (d->ask->apart > 0 && (size_t)d->ask->apart < common)
		common = (size_t)d->ask->apart;
	for (;; common--) {
		for (size_t g = 0; g < d->group_count; g++)
			d->groups[g].apart = common;
		if (common <= 1 || can_be(d))
			break;
	}
	for (size_t g = 0; g < d->group_count && !d->ask->apart; g++) {
		do
			d->groups[g].apart++;
		while (d->groups[g].apart <= d->n && can_be(d));
		d->groups[g].apart--;
	}
}

/* ---- drawing ---- */

/* Whether the entry may start at place (from 1). */
static bool may_start(struct drawing *d, size_t i, size_t place)
{
	size_t g = d->group[i];

	if (!d->group_count)
		return true;
	if (g != NONE && !far_enough(d, d->groups, g, place))
		return false;
	memcpy(d->trial, d->groups, d->group_count * sizeof *d->trial);
	if (g == NONE)
		return can_finish(d, place + 1, d->single - 1);
	d->trial[g].left--;
	d->trial[g].last = place;
	return can_finish(d, place + 1, d->single);
}

/* Draw from the pool; those that may not start here go behind the others for this place. */
static size_t draw_one(struct drawing *d, struct rt__random *random, size_t place)
{
	size_t may = d->pooled;

	for (;;) {
		size_t k = rt__random_below(random, may), i = d->pool[k];

		if (may == 1 || may_start(d, i, place)) {
			d->pool[k] = d->pool[--d->pooled];
			return i;
		}
		d->pool[k] = d->pool[--may];
		d->pool[may] = i;
	}
}

static void draw_all(struct drawing *d, struct rt_draw *out)
{
	struct rt__random random = rt__random(d->ask->seed);

	for (size_t p = 0; p < d->n; p++) {
		bool fixed = d->fixed_at[p] != NONE;
		size_t i = fixed ? d->fixed_at[p] : draw_one(d, &random, p + 1), g = d->group[i];

		out->order[p] = d->entry[i];
		if (g != NONE) {
			d->groups[g].last = p + 1;
			d->groups[g].left -= !fixed;
		} else {
			d->single -= !fixed;
		}
	}
	out->n = d->n;
}

/* How far apart the starts of each driver came to be. */
static enum rt_err tell_spreads(const struct drawing *d, struct rt_draw *out, struct rt_error *err)
{
	for (size_t g = 0; g < d->group_count; g++) {
		struct rt_draw_spread *s = RT_LIST_ADD(&out->spreads);
		size_t last = NONE;

		if (!s)
			return rt_fail_nomem(err);
		s->turnouts = (int64_t)d->groups[g].turnouts;
		s->apart = (int64_t)d->n;
		for (size_t p = 0; p < d->n; p++) {
			size_t i = 0;

			while (d->entry[i] != out->order[p])
				i++;
			if (d->group[i] != g)
				continue;
			s->driver = d->ask->entries->at[out->order[p]].driver;
			if (last != NONE && (int64_t)(p - last) < s->apart)
				s->apart = (int64_t)(p - last);
			last = p;
		}
	}
	return RT_OK;
}

enum rt_err rt_draw_make(struct rt_draw *out, const struct rt_draw_ask *ask, struct rt_error *err)
{
	struct drawing d = {.ask = ask};
	enum rt_err rc;

	memset(out, 0, sizeof *out);
	if (ask->seed < 1 || ask->seed > RT_SEED_MOST)
		return rt_fail(err, RT_E_INPUT, "the seed %lld: a whole number from 1 to %lld",
			       (long long)ask->seed, (long long)RT_SEED_MOST);
	out->order = calloc(ask->entries->n + 1, sizeof *out->order);
	rc = out->order ? set_up(&d, err) : rt_fail_nomem(err);
	if (!rc) {
		set_apart(&d);
		draw_all(&d, out);
		rc = tell_spreads(&d, out, err);
	}
	rt_arena_free(d.room);
	if (rc)
		rt_draw_free(out);
	return rc;
}

void rt_draw_free(struct rt_draw *draw)
{
	free(draw->order);
	RT_LIST_FREE(&draw->spreads);
	*draw = (struct rt_draw){0};
}

int64_t rt_draw_late(size_t n, size_t driven, bool front, int64_t seed)
{
	struct rt__random random = rt__random(seed);

	return (int64_t)(driven + 1 + (front ? 0 : rt__random_below(&random, n - driven + 1)));
}
