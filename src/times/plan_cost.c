/* What a plan misses of what was asked, and what it costs.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "planner.h"

#include <string.h>

#define WRONG_DAY_S 3600 /* a day missed weighs as an hour */
#define SOFT_MISS_S 600	 /* a soft wish that is missed at all, beside by how much */

/* ---- whom a wish is about ---- */

static size_t run_named(const struct rt__planner *p, const char *name)
{
	for (size_t r = 0; name && r < p->runs; r++)
		if (strcmp(p->run[r].ask->class_->name, name) == 0)
			return r;
	return RT__NONE;
}

static enum rt_shared shared_of(enum rt_wish_about about)
{
	switch (about) {
	case RT_WISH_HORSE:
		return RT_SHARED_HORSE;
	case RT_WISH_GROOM:
		return RT_SHARED_GROOM;
	case RT_WISH_CARRIAGE:
		return RT_SHARED_CARRIAGE;
	case RT_WISH_JUDGE:
		return RT_SHARED_JUDGE;
	case RT_WISH_CLASS:
	case RT_WISH_ENTRY:
	case RT_WISH_DRIVER:
		break;
	}
	return RT_SHARED_DRIVER;
}

bool rt__uses_hold(const struct rt__planner *p, size_t from, size_t n, size_t sharer,
		   enum rt_shared as)
{
	for (size_t u = from; u < from + n; u++)
		if (p->uses.at[u].sharer == sharer && p->uses.at[u].as == as)
			return true;
	return false;
}

/* Whether a wish about somebody or something looks at the runner, or at the run. */
static bool looks_at(const struct rt__planner *p, const struct rt_wish *w, size_t sharer, bool runs,
		     size_t t)
{
	const struct rt_entry *entry = runs ? NULL : p->runner[t].entry;
	const char *class_name = runs ? p->run[t].ask->class_->name : entry->class_name;
	int64_t number;

	if (w->class_name && strcmp(class_name, w->class_name) != 0)
		return false;
	if (w->about == RT_WISH_ENTRY)
		return rt_parse_int(w->name, &number) && number == entry->number;
	return runs ? rt__uses_hold(p, p->run[t].use_from, p->run[t].use_n, sharer, RT_SHARED_JUDGE)
		    : rt__uses_hold(p, p->runner[t].use_from, p->runner[t].use_n, sharer,
				    shared_of(w->about));
}

static void add_target(struct rt__planner *p, struct rt__aim *aim, size_t t)
{
	size_t *target = RT_LIST_ADD(&p->targets);

	if (target)
		*target = t;
	p->sharers.nomem |= !target;
	aim->n++;
}

static int64_t kept_end(const struct rt__planner *p, const char *class_name)
{
	int64_t end = -1;

	for (size_t i = 0; class_name && i < p->kept.n; i++)
		if (strcmp(p->kept.at[i].class_name, class_name) == 0 && p->kept.at[i].end > end)
			end = p->kept.at[i].end;
	return end;
}

static void make_aim(struct rt__planner *p, const struct rt_wish *w, struct rt__aim *aim)
{
	size_t run = w->about == RT_WISH_CLASS ? run_named(p, w->name) : RT__NONE, sharer;

	*aim = (struct rt__aim){.from = p->targets.n,
				.runs = w->about == RT_WISH_CLASS || w->about == RT_WISH_JUDGE,
				.after_run = run_named(p, w->after),
				.after_end = kept_end(p, w->after)};
	if (run != RT__NONE)
		add_target(p, aim, run);
	if (w->about == RT_WISH_CLASS)
		return;
	sharer = w->about == RT_WISH_ENTRY
			 ? RT_MAP_NONE
			 : rt__sharer_find(&p->sharers, shared_of(w->about), w->name);
	for (size_t t = 0; t < (aim->runs ? p->runs : p->runners); t++)
		if (looks_at(p, w, sharer, aim->runs, t))
			add_target(p, aim, t);
}

bool rt__aims_make(struct rt__planner *p)
{
	size_t n = p->ask->wishes ? p->ask->wishes->n : 0;

	p->aim = rt_arena_take(&p->room, n * sizeof *p->aim);
	for (size_t i = 0; p->aim && i < n; i++)
		make_aim(p, &p->ask->wishes->at[i], &p->aim[i]);
	return p->aim && !p->sharers.nomem;
}

/* ---- by how much ---- */

static int64_t positive(int64_t s)
{
	return s > 0 ? s : 0;
}

/* By how much [begin, end) on that day misses the wish. */
static int64_t window_missed(const struct rt_wish *w, int64_t day, int64_t begin, int64_t end)
{
	int64_t midnight = (day - 1) * RT_DAY_S, missed = 0;
	bool times = w->not_before_s >= 0 || w->not_after_s >= 0;

	if (w->day && w->day != day)
		return times || w->after ? 0 : WRONG_DAY_S;
	if (w->not_before_s >= 0)
		missed += positive(midnight + w->not_before_s - begin);
	if (w->not_after_s >= 0)
		missed += positive(end - midnight - w->not_after_s);
	return missed;
}

int64_t rt__missed(const struct rt__planner *p, const struct rt__choice *c,
		   const struct rt__placed *placed, size_t wish)
{
	const struct rt_wish *w = &p->ask->wishes->at[wish];
	const struct rt__aim *aim = &p->aim[wish];
	int64_t missed = 0;

	for (size_t i = 0; i < aim->n; i++) {
		size_t t = p->targets.at[aim->from + i], run = aim->runs ? t : p->runner[t].run;
		int64_t begin = aim->runs ? placed->begin[t] : placed->at[t];
		int64_t end = aim->runs ? placed->end[t] : begin + p->run[run].ask->interval_s;

		missed += window_missed(w, c->day[run], begin, end);
		if (aim->after_run != RT__NONE)
			missed += positive(placed->end[aim->after_run] - begin);
		else if (aim->after_end >= 0)
			missed += positive(aim->after_end - begin);
	}
	return missed;
}

int64_t rt__first_missed(const struct rt__planner *p, const struct rt__choice *c,
			 const struct rt__placed *placed, size_t run)
{
	int64_t first = rt__first_of(p, run);

	if (first < 0)
		return 0;
	return placed->begin[run] - (c->day[run] - 1) * RT_DAY_S - first;
}

int64_t rt__over(const struct rt__planner *p, const struct rt__choice *c,
		 const struct rt__placed *placed, size_t run)
{
	return positive(placed->end[run] - (c->day[run] - 1) * RT_DAY_S -
			p->ask->settings->close_s);
}

struct rt__cost rt__cost(const struct rt__planner *p, const struct rt__choice *c,
			 const struct rt__placed *placed)
{
	struct rt__cost cost = {.last = p->kept_last};

	for (size_t r = 0; r < p->runs; r++) {
		int64_t end = placed->end[r] - (c->day[r] - 1) * RT_DAY_S;
		int64_t waits = placed->end[r] - placed->begin[r] - p->run[r].least_s;

		cost.hard += rt__over(p, c, placed, r) + rt__first_missed(p, c, placed, r);
		cost.last = end > cost.last ? end : cost.last;
		cost.rest += end + 4 * waits;
	}
	for (size_t i = 0; p->ask->wishes && i < p->ask->wishes->n; i++) {
		int64_t weight = p->ask->wishes->at[i].weight;
		int64_t missed = p->aim[i].dropped ? 0 : rt__missed(p, c, placed, i);

		if (!weight)
			cost.hard += missed;
		else if (missed)
			cost.soft += weight * (SOFT_MISS_S + missed);
	}
	return cost;
}

static int compare(int64_t a, int64_t b)
{
	return (a > b) - (a < b);
}

int rt__cost_compare(const struct rt__cost *a, const struct rt__cost *b)
{
	int order = compare(a->hard, b->hard);

	if (!order)
		order = compare(a->soft, b->soft);
	if (!order)
		order = compare(a->last, b->last);
	return order ? order : compare(a->rest, b->rest);
}
