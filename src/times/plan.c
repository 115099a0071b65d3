/* The plan: what is asked is looked at, a plan searched for, and what it misses told.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Tries: so many starts are placed in all, within these limits; fewer to see what a drop brings. */
#define STARTS_PLACED 7000000
#define TRIES_LEAST   1000
#define TRIES_MOST    150000
#define DROP_SHARE    24
#define DROPS_MOST    24

#define CAUSE_BYTES (RT_NAME_MOST * 8 + 80) /* who stands in the way, in a sentence */

/* ---- what cannot be planned ---- */

static enum rt_err check_settings(const struct rt_time_settings *s, struct rt_error *err)
{
	if (s->days < 1 || s->days > RT_DAYS_MOST)
		return rt_fail(err, RT_E_INPUT, "a show of %lld days: 1 to %d", (long long)s->days,
			       RT_DAYS_MOST);
	if (s->open_s < 0 || s->close_s > RT_DAY_S || s->open_s >= s->close_s)
		return rt_fail(err, RT_E_INPUT,
			       "the day's hours: from an earlier to a later time of one day");
	for (int i = 0; i < RT_SHARED_COUNT; i++)
		if (s->gap_s[i] > RT_DAY_S)
			return rt_fail(err, RT_E_INPUT, "the gap of a %s: at most a day",
				       rt_shared_words((enum rt_shared)i));
	if (s->seed < 1 || s->seed > RT_SEED_MOST)
		return rt_fail(err, RT_E_INPUT, "the seed %lld: a whole number from 1 to %lld",
			       (long long)s->seed, (long long)RT_SEED_MOST);
	return RT_OK;
}

static enum rt_err check_class(const struct rt_times_ask *ask, const struct rt_time_class *k,
			       struct rt_error *err)
{
	const char *name = k->class_->name;
	char open[16], close[16], first[16];

	if (!k->rings)
		return rt_fail(err, RT_E_INPUT, "class %s has no ring that it could be in", name);
	if (k->interval_s <= 0)
		return rt_fail(err, RT_E_INPUT,
			       "class %s has no interval: interval_s in the plan, or a test with "
			       "figures and gaits",
			       name);
	if (k->day < 0 || k->day > ask->settings->days)
		return rt_fail(err, RT_E_INPUT,
			       "class %s is asked for on day %lld: the show has %lld", name,
			       (long long)k->day, (long long)ask->settings->days);
	if (k->first_s < 0 || (k->first_s >= ask->settings->open_s &&
			       k->first_s + k->interval_s <= ask->settings->close_s))
		return RT_OK;
	rt_time_words(k->first_s, 1, first, sizeof first);
	rt_time_words(ask->settings->open_s, 1, open, sizeof open);
	rt_time_words(ask->settings->close_s, 1, close, sizeof close);
	return rt_fail(err, RT_E_INPUT,
		       "class %s is asked for at %s, outside the day: it is from %s to %s", name,
		       first, open, close);
}

static enum rt_err check_ask(const struct rt_times_ask *ask, struct rt_error *err)
{
	enum rt_err rc = check_settings(ask->settings, err);

	if (!rc && ask->rings->n > RT_RINGS_MOST)
		rc = rt_fail(err, RT_E_INPUT, "%zu rings: at most %d in one plan", ask->rings->n,
			     RT_RINGS_MOST);
	for (size_t i = 0; i < ask->classes->n && !rc; i++)
		rc = check_class(ask, &ask->classes->at[i], err);
	return rc;
}

/* Where a class has to be: ring and day, or false where it can choose. */
static bool is_nailed(const struct rt__planner *p, size_t run, uint64_t *ring, int64_t *day)
{
	const struct rt_time_class *k = p->run[run].ask;

	*ring = k->rings;
	*day = p->days == 1 ? 1 : k->day;
	return k->first_s >= 0 && *day && (k->rings & (k->rings - 1)) == 0;
}

static enum rt_err two_overlap(const struct rt__planner *p, size_t a, size_t b,
			       struct rt_error *err)
{
	const struct rt_time_class *ka = p->run[a].ask, *kb = p->run[b].ask;
	int64_t end = ka->first_s + p->run[a].least_s;
	char from[16], to[16], other[16];

	if (kb->first_s >= end || kb->first_s < ka->first_s)
		return RT_OK;
	rt_time_words(ka->first_s, 1, from, sizeof from);
	rt_time_words(end, 1, to, sizeof to);
	rt_time_words(kb->first_s, 1, other, sizeof other);
	return rt_fail(err, RT_E_INPUT,
		       "classes %s and %s overlap: class %s takes the ring from %s to %s, and "
		       "class %s is asked for there at %s",
		       ka->class_->name, kb->class_->name, ka->class_->name, from, to,
		       kb->class_->name, other);
}

/* Classes whose ring, day and first start are all given must not overlap. */
static enum rt_err check_overlaps(const struct rt__planner *p, struct rt_error *err)
{
	uint64_t ring_a, ring_b;
	int64_t day_a, day_b;
	enum rt_err rc = RT_OK;

	for (size_t a = 0; a < p->runs && !rc; a++)
		for (size_t b = 0; b < p->runs && !rc; b++)
			if (a != b && is_nailed(p, a, &ring_a, &day_a) &&
			    is_nailed(p, b, &ring_b, &day_b) && ring_a == ring_b && day_a == day_b)
				rc = two_overlap(p, a, b, err);
	return rc;
}

static enum rt_err check_midnight(const struct rt__planner *p, const struct rt__choice *c,
				  const struct rt__placed *placed, struct rt_error *err)
{
	char begin[16], end[16];

	for (size_t r = 0; r < p->runs; r++) {
		if (placed->end[r] <= c->day[r] * RT_DAY_S)
			continue;
		rt_time_words(placed->begin[r], c->day[r], begin, sizeof begin);
		rt_time_words(placed->end[r], c->day[r], end, sizeof end);
		return rt_fail(err, RT_E_INPUT,
			       "class %s would run over midnight: on day %lld from %s to %s; give "
			       "it another day, a shorter interval or a second ring",
			       p->run[r].ask->class_->name, (long long)c->day[r], begin, end);
	}
	return RT_OK;
}

/* ---- what is missed, and what to drop ---- */

static const char *keep_words(struct rt_times *out, const char *words)
{
	return rt_arena_string(&out->wishes.text, words);
}

static bool tell(struct rt_times *out, const struct rt_wish *wish, const struct rt_time_class *k,
		 const char *words, int64_t missed_s)
{
	struct rt_wish_told *t = RT_LIST_ADD(&out->wishes);

	if (!t)
		return false;
	*t = (struct rt_wish_told){
		.wish = wish, .class_ = k, .words = keep_words(out, words), .missed_s = missed_s};
	if (missed_s && (!wish || !wish->weight))
		out->quality.missed++;
	else if (missed_s)
		out->quality.soft_missed++;
	return t->words != NULL;
}

/* Who keeps the run from being as much earlier as the wish told last misses, up to a start. */
static bool tell_cause(struct rt_times *out, const struct rt__planner *p,
		       const struct rt__choice *c, const struct rt__placed *placed, size_t run,
		       int64_t by_s, int64_t last)
{
	struct rt_wish_told *t = &out->wishes.at[out->wishes.n - 1];
	char words[CAUSE_BYTES];

	if (by_s <= 0 || !rt__cause(p, c, placed, run, by_s, last, words, sizeof words))
		return true;
	t->because = keep_words(out, words);
	return t->because != NULL;
}

static bool tell_class(struct rt_times *out, const struct rt__planner *p,
		       const struct rt__choice *c, const struct rt__placed *placed, size_t r)
{
	const struct rt_time_class *k = p->run[r].ask;
	int64_t over = rt__over(p, c, placed, r), late;
	char words[RT_NAME_MOST * 4 + 60], at[16];
	bool good = true;

	if (k->first_s >= 0) {
		rt_time_words(k->first_s, 1, at, sizeof at);
		snprintf(words, sizeof words, "class %s begins at %s", k->class_->name, at);
		late = rt__first_missed(p, c, placed, r);
		good = tell(out, NULL, k, words, late) &&
		       tell_cause(out, p, c, placed, r, late, placed->begin[r]);
	}
	if (over) {
		rt_time_words(p->ask->settings->close_s, 1, at, sizeof at);
		snprintf(words, sizeof words, "class %s is over by %s, the end of the day",
			 k->class_->name, at);
		good = good && tell(out, NULL, k, words, over) &&
		       tell_cause(out, p, c, placed, r, over, placed->end[r]);
		out->quality.over_s += over;
	}
	return good;
}

/* Of what is to be over by a time: the target that misses it first. */
static bool tell_wish_cause(struct rt_times *out, const struct rt__planner *p,
			    const struct rt__choice *c, const struct rt__placed *placed, size_t i)
{
	const struct rt_wish *w = &p->ask->wishes->at[i];
	const struct rt__aim *aim = &p->aim[i];
	bool good = true;

	for (size_t k = 0; k < aim->n && good && !out->wishes.at[out->wishes.n - 1].because; k++) {
		size_t t = p->targets.at[aim->from + k], run = aim->runs ? t : p->runner[t].run;
		int64_t due = (c->day[run] - 1) * RT_DAY_S + w->not_after_s;
		int64_t last = aim->runs ? placed->end[t] : placed->at[t];
		int64_t end = aim->runs ? last : last + p->run[run].ask->interval_s;

		if (!w->day || w->day == c->day[run])
			good = tell_cause(out, p, c, placed, run, end - due, last);
	}
	return good;
}

static bool tell_wish(struct rt_times *out, const struct rt__planner *p, const struct rt__choice *c,
		      const struct rt__placed *placed, size_t i)
{
	const struct rt_wish *w = &p->ask->wishes->at[i];
	char words[RT_NAME_MOST * 12 + 120];

	rt_wish_words(w, words, sizeof words);
	return tell(out, w, NULL, words, rt__missed(p, c, placed, i)) &&
	       (w->not_after_s < 0 || tell_wish_cause(out, p, c, placed, i));
}

/* Something asked for that could be dropped: a must, or a setting of a class. */
struct drop {
	bool *flag;
	const struct rt_wish *wish;
	size_t run;
	const char *what; /* of a class */
};

struct drops RT_LIST(struct drop);

static bool add_drop(struct drops *drops, bool *flag, const struct rt_wish *wish, size_t run,
		     const char *what)
{
	struct drop *d = RT_LIST_ADD(drops);

	if (d)
		*d = (struct drop){flag, wish, run, what};
	return d != NULL;
}

/* Those that are missed first, then the other musts, then what the plan says of classes. */
static bool find_drops(struct drops *drops, struct rt__planner *p, const struct rt__choice *c,
		       const struct rt__placed *placed)
{
	size_t wishes = p->ask->wishes ? p->ask->wishes->n : 0;
	bool good = true;

	for (int missed = 1; missed >= 0; missed--)
		for (size_t i = 0; i < wishes; i++)
			if (!p->ask->wishes->at[i].weight && p->aim[i].n &&
			    (rt__missed(p, c, placed, i) > 0) == (missed > 0))
				good = good && add_drop(drops, &p->aim[i].dropped,
							&p->ask->wishes->at[i], RT__NONE, NULL);
	for (size_t r = 0; r < p->runs; r++) {
		const struct rt_time_class *k = p->run[r].ask;

		if (k->first_s >= 0)
			good = good && add_drop(drops, &p->drops.first[r], NULL, r, "first start");
		if (k->day && p->days > 1)
			good = good && add_drop(drops, &p->drops.day[r], NULL, r, "day");
		if (k->otherwise != k->rings)
			good = good && add_drop(drops, &p->drops.ring[r], NULL, r, "ring");
	}
	return good;
}

static bool tell_drop(struct rt_times *out, const struct rt__planner *p, const struct drop *d)
{
	char words[RT_NAME_MOST * 4 + 60];

	out->drops++;
	for (size_t i = 0; i < out->wishes.n && d->wish; i++)
		if (out->wishes.at[i].wish == d->wish)
			out->wishes.at[i].drop = true;
	if (d->wish)
		return true;
	for (size_t i = 0; i < out->wishes.n; i++)
		if (strcmp(d->what, "first start") == 0 && !out->wishes.at[i].wish &&
		    out->wishes.at[i].class_ == p->run[d->run].ask &&
		    strstr(out->wishes.at[i].words, " begins at ")) {
			out->wishes.at[i].drop = true;
			return true;
		}
	snprintf(words, sizeof words, "class %s has the %s that is asked for",
		 p->run[d->run].ask->class_->name, d->what);
	if (!tell(out, NULL, p->run[d->run].ask, words, 0))
		return false;
	out->wishes.at[out->wishes.n - 1].drop = true;
	return true;
}

/* A search under way for what to drop. */
struct advice {
	struct rt__planner *p;
	struct rt_times *out;
	struct drops *drops;
	size_t tries;
	struct rt__choice choice;
	struct rt__placed placed;
};

/* Whether all else is met without those that are dropped now. */
static enum rt_err can_without(struct advice *a, bool *can, struct rt_error *err)
{
	struct rt__cost cost = {0};
	enum rt_err rc;

	rt__planner_musts(a->p);
	rc = rt__search(a->p, a->tries, &a->choice, &a->placed, &cost, err);
	a->out->quality.tried += a->tries;
	*can = !rc && cost.hard == 0;
	return rc;
}

/* Each alone; the first one without which all else is met stays dropped. */
static enum rt_err drop_one(struct advice *a, bool *can, struct rt_error *err)
{
	enum rt_err rc = RT_OK;

	*can = false;
	for (size_t i = 0; i < a->drops->n && i < DROPS_MOST && !rc && !*can; i++) {
		*a->drops->at[i].flag = true;
		rc = can_without(a, can, err);
		*a->drops->at[i].flag = *can;
	}
	return rc;
}

/* All together, then each of them back where all else can still be met. */
static enum rt_err drop_several(struct advice *a, bool *can, struct rt_error *err)
{
	size_t n = a->drops->n < DROPS_MOST ? a->drops->n : DROPS_MOST;
	enum rt_err rc;

	for (size_t i = 0; i < n; i++)
		*a->drops->at[i].flag = true;
	rc = can_without(a, can, err);
	for (size_t i = n; i-- > 0 && *can && !rc;) {
		bool without = false;

		*a->drops->at[i].flag = false;
		rc = can_without(a, &without, err);
		*a->drops->at[i].flag = !without;
	}
	return rc;
}

static enum rt_err advise_drop(struct rt_times *out, struct rt__planner *p, struct drops *drops,
			       size_t tries, struct rt_error *err)
{
	struct advice a = {.p = p, .out = out, .drops = drops, .tries = tries / DROP_SHARE};
	enum rt_err rc = RT_OK;
	bool can = false;

	if (!rt__choice_make(&a.choice, p, &p->room) || !rt__placed_make(&a.placed, p, &p->room))
		rc = rt_fail_nomem(err);
	if (!rc)
		rc = drop_one(&a, &can, err);
	if (!rc && !can)
		rc = drop_several(&a, &can, err);
	for (size_t i = 0; i < drops->n; i++) {
		if (can && *drops->at[i].flag && !tell_drop(out, p, &drops->at[i]) && !rc)
			rc = rt_fail_nomem(err);
		*drops->at[i].flag = false;
	}
	rt__planner_musts(p);
	return rc;
}

static enum rt_err tell_missed(struct rt_times *out, struct rt__planner *p,
			       const struct rt__choice *c, const struct rt__placed *placed,
			       size_t tries, struct rt_error *err)
{
	struct drops drops = {0};
	size_t wishes = p->ask->wishes ? p->ask->wishes->n : 0;
	bool good = true;
	enum rt_err rc = RT_OK;

	for (size_t r = 0; r < p->runs; r++)
		good = good && tell_class(out, p, c, placed, r);
	for (size_t i = 0; i < wishes; i++)
		good = good && tell_wish(out, p, c, placed, i);
	if (good && out->quality.missed)
		good = find_drops(&drops, p, c, placed);
	if (!good)
		rc = rt_fail_nomem(err);
	else if (out->quality.missed)
		rc = advise_drop(out, p, &drops, tries, err);
	RT_LIST_FREE(&drops);
	return rc;
}

/* ---- the plan that was found ---- */

static enum rt_err tell_starts(struct rt_times *out, const struct rt__planner *p,
			       const struct rt__choice *c, const struct rt__placed *placed,
			       struct rt_error *err)
{
	for (size_t r = 0; r < p->runs; r++) {
		const struct rt__run *run = &p->run[r];

		for (size_t i = 0; i < run->n; i++) {
			size_t runner = placed->sequence[run->from + i];
			struct rt_start *s = RT_LIST_ADD(&out->starts);

			if (!s)
				return rt_fail_nomem(err);
			*s = (struct rt_start){.entry = p->runner[runner].entry,
					       .ring = p->ask->rings->at[c->ring[r]],
					       .at_s = placed->at[runner],
					       .slot_s = run->ask->interval_s,
					       .place = p->runner[runner].place};
			s->pause_s = rt__pause_behind(run->ask, i, run->n, &s->pause);
		}
	}
	rt_starts_sort(&out->starts);
	return RT_OK;
}

static int compare_taken(const void *left, const void *right)
{
	const struct rt__taken *a = left, *b = right;

	return (a->begin > b->begin) - (a->begin < b->begin);
}

/* The smallest gap between two starts of one sharer, or of a judge's classes and a start. */
static bool tell_gap(struct rt_times *out, struct rt__planner *p)
{
	struct rt_time_quality *q = &out->quality;

	q->gap_s = -1;
	for (size_t s = 0; s < p->sharers.names.n; s++) {
		struct rt__taken *taken = p->taken + p->taken_from[s];

		qsort(taken, p->taken_n[s], sizeof *taken, compare_taken);
		for (size_t i = 0; i + 1 < p->taken_n[s]; i++) {
			int64_t gap = taken[i + 1].begin - taken[i].end;

			if (taken[i].as == RT_SHARED_JUDGE && taken[i + 1].as == RT_SHARED_JUDGE)
				continue; /* of the ring rather than of the judge */
			if (q->gap_s >= 0 && gap >= q->gap_s)
				continue;
			q->gap_s = gap > 0 ? gap : 0;
			q->gap_who = keep_words(out, p->sharers.names.at[s]);
			q->gap_shared = rt__shared_of(taken[i].as, taken[i + 1].as);
		}
	}
	return q->gap_s < 0 || q->gap_who;
}

static enum rt_err tell_quality(struct rt_times *out, struct rt__planner *p,
				const struct rt__placed *placed, const struct rt__cost *cost,
				struct rt_error *err)
{
	out->quality.last_s = cost->last;
	for (size_t r = 0; r < p->runs; r++)
		out->quality.waits_s += placed->end[r] - placed->begin[r] - p->run[r].least_s;
	if (!tell_gap(out, p))
		return rt_fail_nomem(err);
	return rt__bound(p, &out->quality.bound_s, err);
}

static size_t tries_for(const struct rt__planner *p)
{
	size_t tries = STARTS_PLACED / (p->runners + 1);

	if (p->runs <= 1 && p->days * (int64_t)p->rings <= 1)
		return TRIES_LEAST;
	return tries < TRIES_LEAST ? TRIES_LEAST : tries > TRIES_MOST ? TRIES_MOST : tries;
}

enum rt_err rt_times_plan(struct rt_times *out, const struct rt_times_ask *ask,
			  struct rt_error *err)
{
	struct rt__planner p = {0};
	struct rt__choice c;
	struct rt__placed placed;
	struct rt__cost cost;
	enum rt_err rc = check_ask(ask, err);

	memset(out, 0, sizeof *out);
	if (!rc)
		rc = rt__planner_make(&p, ask, err);
	if (!rc)
		rc = check_overlaps(&p, err);
	if (!rc && (!rt__choice_make(&c, &p, &p.room) || !rt__placed_make(&placed, &p, &p.room)))
		rc = rt_fail_nomem(err);
	if (rc)
		goto out;
	out->quality.tried = tries_for(&p);
	rc = rt__search(&p, out->quality.tried, &c, &placed, &cost, err);
	if (!rc)
		rc = check_midnight(&p, &c, &placed, err);
	if (!rc)
		rc = tell_starts(out, &p, &c, &placed, err);
	if (!rc)
		rc = tell_missed(out, &p, &c, &placed, out->quality.tried, err);
	if (!rc) {
		rt__place_all(&p, &c, &placed); /* the last that was looked at may be another */
		rc = tell_quality(out, &p, &placed, &cost, err);
	}
out:
	rt__planner_free(&p);
	if (rc)
		rt_times_free(out);
	return rc;
}

void rt_times_free(struct rt_times *times)
{
	RT_LIST_FREE(&times->starts);
	RT_LIST_FREE(&times->wishes);
	*times = (struct rt_times){0};
}
