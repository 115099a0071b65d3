/* From the ask to a planner: who starts in which class, who and what they share, what stays.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner.h"

#include <stdlib.h>
#include <string.h>

/* ---- runs and runners ---- */

static int compare_runners(const void *left, const void *right)
{
	const struct rt__runner *a = left, *b = right;
	/* Those without a place come after the others, by number. */
	uint64_t place_a = (uint64_t)a->place - 1, place_b = (uint64_t)b->place - 1;

	if (place_a != place_b)
		return place_a < place_b ? -1 : 1;
	return (a->entry->number > b->entry->number) - (a->entry->number < b->entry->number);
}

static bool is_of(const struct rt_entry *entry, const struct rt_time_class *k)
{
	return entry->status == RT_ENTERED && strcmp(entry->class_name, k->class_->name) == 0;
}

static int64_t least_of(const struct rt__run *run)
{
	int64_t s = (int64_t)run->n * run->ask->interval_s;

	for (size_t i = 0; i < run->n; i++)
		s += rt__pause_behind(run->ask, i, run->n, NULL);
	return s;
}

/* A run for each class that anybody starts in. */
static void find_runners(struct rt__planner *p)
{
	const struct rt_time_classes *classes = p->ask->classes;
	const struct rt_entries *entries = p->ask->entries;

	for (size_t k = 0; k < classes->n; k++) {
		struct rt__run *run = &p->run[p->runs];

		*run = (struct rt__run){.ask = &classes->at[k], .from = p->runners};
		for (size_t i = 0; i < entries->n; i++)
			if (is_of(&entries->at[i], run->ask))
				p->runner[p->runners++] = (struct rt__runner){
					.entry = &entries->at[i],
					.place = p->ask->place ? p->ask->place[i] : 0,
					.run = p->runs};
		run->n = p->runners - run->from;
		if (!run->n)
			continue;
		qsort(p->runner + run->from, run->n, sizeof *p->runner, compare_runners);
		run->least_s = least_of(run);
		p->runs++;
	}
}

static void find_uses(struct rt__planner *p)
{
	for (size_t i = 0; i < p->runners; i++) {
		p->runner[i].use_from = p->uses.n;
		rt__uses_of_entry(&p->uses, &p->sharers, p->runner[i].entry);
		p->runner[i].use_n = p->uses.n - p->runner[i].use_from;
	}
	for (size_t r = 0; r < p->runs; r++) {
		p->run[r].use_from = p->uses.n;
		rt__uses_of_class(&p->uses, &p->sharers, p->run[r].ask->class_);
		p->run[r].use_n = p->uses.n - p->run[r].use_from;
	}
}

int64_t rt__gap_of_pair(const struct rt__planner *p, size_t a, size_t b)
{
	const struct rt__runner *x = &p->runner[a], *y = &p->runner[b];
	int64_t most = -1;

	for (size_t u = x->use_from; u < x->use_from + x->use_n; u++)
		for (size_t v = y->use_from; v < y->use_from + y->use_n; v++) {
			const struct rt__use *i = &p->uses.at[u], *j = &p->uses.at[v];
			int64_t gap = i->sharer == j->sharer
					      ? rt__gap(p->ask->settings, i->as, j->as)
					      : -1;

			most = gap > most ? gap : most;
		}
	return most;
}

/* The least time from one start of a class to a later one. */
static int64_t least_between(const struct rt__planner *p, const struct rt__run *run, size_t a,
			     size_t b)
{
	int64_t gap = rt__gap_of_pair(p, run->from + a, run->from + b);
	int64_t pause = a + 1 == b ? rt__pause_behind(run->ask, a, run->n, NULL) : 0;

	return run->ask->interval_s + (gap > pause ? gap : pause);
}

/* How early each start of a class can be when only those of the class are looked at: drawn order
 * makes those wait who start twice in it. */
static void time_alone(const struct rt__planner *p, struct rt__run *run)
{
	struct rt__runner *runner = p->runner + run->from;

	for (size_t i = 1; i < run->n; i++)
		for (size_t k = 0; k < i; k++) {
			int64_t s = runner[k].head_s + least_between(p, run, k, i);

			runner[i].head_s = s > runner[i].head_s ? s : runner[i].head_s;
		}
	for (size_t i = run->n - 1; i-- > 0;)
		for (size_t k = i + 1; k < run->n; k++) {
			int64_t s = runner[k].tail_s + least_between(p, run, i, k);

			runner[i].tail_s = s > runner[i].tail_s ? s : runner[i].tail_s;
		}
	run->alone_s = runner[run->n - 1].head_s + run->ask->interval_s;
}

/* ---- what stays ---- */

static size_t ring_number(const struct rt__planner *p, const char *ring)
{
	for (size_t i = 0; i < p->rings; i++)
		if (strcmp(p->ask->rings->at[i], ring) == 0)
			return i;
	return RT__NONE;
}

/* Note the time of all kept uses that have none yet. */
static void time_kept(struct rt__planner *p, int64_t begin, int64_t end)
{
	while (p->kept_times.n < p->kept_uses.n && !p->sharers.nomem) {
		struct rt__taken *t = RT_LIST_ADD(&p->kept_times);

		if (t)
			*t = (struct rt__taken){begin, end,
						p->kept_uses.at[p->kept_times.n - 1].as};
		p->sharers.nomem |= !t;
	}
}

/* The class of a kept start, in its ring on its day, grows to hold it. */
static void grow_kept(struct rt__planner *p, const struct rt_start *s)
{
	int64_t day = rt_day_of(s->at_s), end = s->at_s + s->slot_s;
	size_t ring = ring_number(p, s->ring);
	struct rt__kept *k;

	for (size_t i = 0; i < p->kept.n; i++) {
		k = &p->kept.at[i];
		if (k->ring != ring || k->day != day ||
		    strcmp(k->class_name, s->entry->class_name) != 0)
			continue;
		k->begin = s->at_s < k->begin ? s->at_s : k->begin;
		k->end = end > k->end ? end : k->end;
		return;
	}
	k = RT_LIST_ADD(&p->kept);
	if (k)
		*k = (struct rt__kept){s->entry->class_name, ring, day, s->at_s, end};
	p->sharers.nomem |= !k;
}

static void find_kept(struct rt__planner *p)
{
	const struct rt_starts *starts = p->ask->kept;
	const struct rt_classes *classes = p->ask->kept_classes;

	for (size_t i = 0; starts && i < starts->n; i++) {
		const struct rt_start *s = &starts->at[i];

		if (s->entry->status != RT_ENTERED)
			continue;
		rt__uses_of_entry(&p->kept_uses, &p->sharers, s->entry);
		time_kept(p, s->at_s, s->at_s + s->slot_s);
		grow_kept(p, s);
	}
	for (size_t i = 0; i < p->kept.n; i++) {
		const struct rt__kept *k = &p->kept.at[i];
		int64_t of_day = k->end - (k->day - 1) * RT_DAY_S;

		p->kept_last = of_day > p->kept_last ? of_day : p->kept_last;
		for (size_t j = 0; classes && j < classes->n; j++)
			if (strcmp(classes->at[j].name, k->class_name) == 0)
				rt__uses_of_class(&p->kept_uses, &p->sharers, &classes->at[j]);
		time_kept(p, k->begin, k->end);
	}
}

/* ---- room for all that is taken ---- */

/* Room for n and one more; sharers notes when memory is out. */
static void *take_room(struct rt__planner *p, size_t n, size_t size)
{
	void *room = rt_arena_take(&p->room, (n + 1) * size);

	p->sharers.nomem |= !room;
	return room;
}

static void make_taken(struct rt__planner *p)
{
	size_t sharers = p->sharers.names.n, uses = p->uses.n + p->kept_uses.n, from = 0;

	p->taken = take_room(p, uses, sizeof *p->taken);
	p->taken_of_use = take_room(p, uses, sizeof *p->taken_of_use);
	p->taken_from = take_room(p, sharers, sizeof *p->taken_from);
	p->taken_n = take_room(p, sharers, sizeof *p->taken_n);
	p->taken_kept = take_room(p, sharers, sizeof *p->taken_kept);
	if (p->sharers.nomem)
		return;
	for (size_t i = 0; i < p->uses.n; i++)
		p->taken_n[p->uses.at[i].sharer]++;
	for (size_t i = 0; i < p->kept_uses.n; i++)
		p->taken_n[p->kept_uses.at[i].sharer]++;
	for (size_t i = 0; i < sharers; i++) {
		p->taken_from[i] = from;
		from += p->taken_n[i];
	}
	for (size_t i = 0; i < p->kept_uses.n; i++) {
		size_t sharer = p->kept_uses.at[i].sharer;

		p->taken[p->taken_from[sharer] + p->taken_kept[sharer]++] = p->kept_times.at[i];
	}
}

static void make_blocks(struct rt__planner *p)
{
	size_t wheres = (size_t)p->days * p->rings;

	p->block_room = p->runs + p->kept.n + 1;
	p->block = take_room(p, wheres * p->block_room, sizeof *p->block);
	p->block_n = take_room(p, wheres, sizeof *p->block_n);
	p->block_kept = take_room(p, wheres, sizeof *p->block_kept);
	p->is_placed = take_room(p, p->runs, sizeof *p->is_placed);
	for (size_t i = 0; i < p->kept.n && !p->sharers.nomem; i++) {
		const struct rt__kept *k = &p->kept.at[i];
		size_t where = (size_t)(k->day - 1) * p->rings + k->ring;

		if (k->ring != RT__NONE && k->day <= p->days)
			p->block[where * p->block_room + p->block_kept[where]++] =
				(struct rt__block){k->begin, k->end};
	}
}

static void make_musts(struct rt__planner *p)
{
	size_t days = (size_t)p->days;

	p->release = take_room(p, days * p->runners, sizeof *p->release);
	p->due = take_room(p, days * p->runners, sizeof *p->due);
	p->run_release = take_room(p, days * p->runs, sizeof *p->run_release);
	p->drops.first = take_room(p, p->runs, sizeof *p->drops.first);
	p->drops.day = take_room(p, p->runs, sizeof *p->drops.day);
	p->drops.ring = take_room(p, p->runs, sizeof *p->drops.ring);
}

enum rt_err rt__planner_make(struct rt__planner *p, const struct rt_times_ask *ask,
			     struct rt_error *err)
{
	memset(p, 0, sizeof *p);
	p->ask = ask;
	p->days = ask->settings->days;
	p->rings = ask->rings->n;
	p->run = take_room(p, ask->classes->n, sizeof *p->run);
	p->runner = take_room(p, ask->entries->n, sizeof *p->runner);
	if (p->sharers.nomem)
		return rt_fail_nomem(err);
	find_runners(p);
	find_uses(p);
	for (size_t r = 0; r < p->runs; r++) {
		p->run[r].alone_s = p->run[r].least_s;
		if (!p->run[r].ask->free_order)
			time_alone(p, &p->run[r]);
	}
	find_kept(p);
	if (p->sharers.nomem)
		return rt_fail_nomem(err);
	make_taken(p);
	make_blocks(p);
	make_musts(p);
	if (p->sharers.nomem || !rt__aims_make(p))
		return rt_fail_nomem(err);
	rt__planner_musts(p);
	return RT_OK;
}

void rt__planner_free(struct rt__planner *p)
{
	rt__sharers_free(&p->sharers);
	RT_LIST_FREE(&p->uses);
	RT_LIST_FREE(&p->kept_uses);
	RT_LIST_FREE(&p->kept_times);
	RT_LIST_FREE(&p->kept);
	RT_LIST_FREE(&p->targets);
	rt_arena_free(p->room);
	memset(p, 0, sizeof *p);
}

/* ---- musts that placing keeps to ---- */

/* Whether a wish says of a class on which day it must be, and nothing else. */
static bool is_day_alone(const struct rt_wish *w, int64_t days)
{
	return w->about == RT_WISH_CLASS && !w->weight && w->day && w->day <= days &&
	       w->not_before_s < 0 && w->not_after_s < 0 && !w->after;
}

/* Classes that are to be on one day. */
static void must_days(struct rt__planner *p)
{
	uint32_t all = p->days < 32 ? (UINT32_C(1) << p->days) - 1 : UINT32_MAX;
	size_t wishes = p->ask->wishes ? p->ask->wishes->n : 0;

	for (size_t r = 0; r < p->runs; r++)
		p->run[r].days = p->run[r].ask->day ? UINT32_C(1) << (p->run[r].ask->day - 1) : all;
	for (size_t i = 0; i < wishes; i++) {
		const struct rt_wish *w = &p->ask->wishes->at[i];
		struct rt__run *run;

		if (p->aim[i].dropped || !p->aim[i].n || !is_day_alone(w, p->days))
			continue;
		run = &p->run[p->targets.at[p->aim[i].from]];
		if (run->days >> (w->day - 1) & 1)
			run->days = UINT32_C(1) << (w->day - 1);
	}
}

/* The window of a must, on one day, into the times of its targets. */
static void must_window(struct rt__planner *p, const struct rt_wish *w, const struct rt__aim *aim,
			int64_t day)
{
	int64_t midnight = (day - 1) * RT_DAY_S;
	size_t base = (size_t)(day - 1) * (aim->runs ? p->runs : p->runners);
	int64_t *release = (aim->runs ? p->run_release : p->release) + base;

	for (size_t i = 0; i < aim->n; i++) {
		size_t t = p->targets.at[aim->from + i], run = aim->runs ? t : p->runner[t].run;
		int64_t early = rt__step_up(w->not_before_s, p->run[run].ask->step_s);

		if (w->not_before_s >= 0 && release[t] < midnight + early)
			release[t] = midnight + early;
		if (w->not_after_s >= 0 && !aim->runs &&
		    p->due[base + t] > midnight + w->not_after_s)
			p->due[base + t] = midnight + w->not_after_s;
	}
}

void rt__planner_musts(struct rt__planner *p)
{
	size_t wishes = p->ask->wishes ? p->ask->wishes->n : 0, days = (size_t)p->days;

	memset(p->release, 0, days * p->runners * sizeof *p->release);
	memset(p->run_release, 0, days * p->runs * sizeof *p->run_release);
	for (size_t i = 0; i < days * p->runners; i++)
		p->due[i] = RT__NEVER;
	must_days(p);
	for (size_t i = 0; i < wishes; i++) {
		const struct rt_wish *w = &p->ask->wishes->at[i];

		if (w->weight || p->aim[i].dropped)
			continue;
		for (int64_t day = 1; day <= p->days; day++)
			if (!w->day || w->day == day)
				must_window(p, w, &p->aim[i], day);
	}
}

/* ---- choices and what they come to ---- */

bool rt__choice_make(struct rt__choice *c, const struct rt__planner *p, struct rt_arena **room)
{
	c->order = rt_arena_take(room, p->runs * sizeof *c->order);
	c->ring = rt_arena_take(room, p->runs * sizeof *c->ring);
	c->day = rt_arena_take(room, p->runs * sizeof *c->day);
	c->sequence = rt_arena_take(room, p->runners * sizeof *c->sequence);
	c->hold = rt_arena_take(room, p->runners * sizeof *c->hold);
	c->loose = rt_arena_take(room, p->runs * sizeof *c->loose);
	return c->order && c->ring && c->day && c->sequence && c->hold && c->loose;
}

bool rt__placed_make(struct rt__placed *placed, const struct rt__planner *p, struct rt_arena **room)
{
	placed->at = rt_arena_take(room, p->runners * sizeof *placed->at);
	placed->begin = rt_arena_take(room, p->runs * sizeof *placed->begin);
	placed->end = rt_arena_take(room, p->runs * sizeof *placed->end);
	placed->sequence = rt_arena_take(room, p->runners * sizeof *placed->sequence);
	return placed->at && placed->begin && placed->end && placed->sequence;
}

void rt__choice_copy(struct rt__choice *to, const struct rt__choice *from,
		     const struct rt__planner *p)
{
	memcpy(to->order, from->order, p->runs * sizeof *to->order);
	memcpy(to->ring, from->ring, p->runs * sizeof *to->ring);
	memcpy(to->day, from->day, p->runs * sizeof *to->day);
	memcpy(to->sequence, from->sequence, p->runners * sizeof *to->sequence);
	memcpy(to->hold, from->hold, p->runners * sizeof *to->hold);
	memcpy(to->loose, from->loose, p->runs * sizeof *to->loose);
}
