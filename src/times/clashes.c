/* What is wrong with a list of starts: every pair is looked at, by the rules alone.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

/* A class in a ring on a day. */
struct held {
	const struct rt_class *class_; /* NULL: not given */
	const struct rt_start *first, *last;
	int64_t begin, end;
	size_t use_from, use_n; /* judges */
};

struct helds RT_LIST(struct held);

/* A check under way. */
struct check {
	const struct rt_starts *starts;
	const struct rt_classes *classes;
	const struct rt_time_settings *settings;
	struct rt__sharers sharers;
	struct rt__uses uses;
	size_t *use_from; /* of a start, and of the one behind the last */
	struct helds helds;
	struct rt_clashes *out;
	bool nomem;
};

static void add_clash(struct check *c, struct rt_clash clash)
{
	struct rt_clash *kept = RT_LIST_ADD(c->out);

	if (!kept) {
		c->nomem = true;
		return;
	}
	*kept = clash;
	kept->who = rt_arena_string(&c->out->text, clash.who);
	c->nomem |= clash.who && !kept->who;
}

/* Nothing of what [begin, end) and [then, until) have in common may be nearer than asked. */
static void check_gap(struct check *c, const struct rt_start *a, const struct rt_start *b,
		      int64_t gap, const struct rt__use *use, enum rt_shared as)
{
	int64_t asked = rt__gap(c->settings, use->as, as);

	if (asked < 0 || gap >= asked)
		return;
	add_clash(c, (struct rt_clash){.kind = gap < 0 ? RT_CLASH_TWO_PLACES : RT_CLASH_SHARED,
				       .a = a,
				       .b = b,
				       .shared = rt__shared_of(use->as, as),
				       .who = c->sharers.names.at[use->sharer],
				       .gap_s = gap,
				       .asked_s = asked});
}

/* How long between two times; negative where they overlap. */
static int64_t gap_between(int64_t begin_a, int64_t end_a, int64_t begin_b, int64_t end_b)
{
	return begin_a <= begin_b ? begin_b - end_a : begin_a - end_b;
}

/* ---- starts ---- */

static void check_pair(struct check *c, size_t i, size_t j)
{
	const struct rt_start *a = &c->starts->at[i], *b = &c->starts->at[j];
	int64_t gap = gap_between(a->at_s, a->at_s + a->slot_s, b->at_s, b->at_s + b->slot_s);

	if (a->entry == b->entry) {
		add_clash(c,
			  (struct rt_clash){.kind = RT_CLASH_TWICE, .a = a, .b = b, .gap_s = gap});
		return;
	}
	if (gap < 0 && strcmp(a->ring, b->ring) == 0)
		add_clash(c, (struct rt_clash){.kind = RT_CLASH_RING,
					       .a = a,
					       .b = b,
					       .who = a->ring,
					       .gap_s = gap});
	for (size_t u = c->use_from[i]; u < c->use_from[i + 1]; u++)
		for (size_t v = c->use_from[j]; v < c->use_from[j + 1]; v++)
			if (c->uses.at[u].sharer == c->uses.at[v].sharer)
				check_gap(c, a, b, gap, &c->uses.at[u], c->uses.at[v].as);
}

static void check_hours(struct check *c, const struct rt_start *s)
{
	int64_t midnight = (rt_day_of(s->at_s) - 1) * RT_DAY_S;
	int64_t early = midnight + c->settings->open_s - s->at_s;
	int64_t over = s->at_s + s->slot_s - midnight - c->settings->close_s;

	if (early > 0 || over > 0)
		add_clash(c, (struct rt_clash){.kind = RT_CLASH_HOURS,
					       .a = s,
					       .gap_s = early > over ? -early : -over});
}

/* ---- classes and their judges ---- */

static const struct rt_class *class_named(const struct rt_classes *classes, const char *name)
{
	for (size_t i = 0; classes && i < classes->n; i++)
		if (strcmp(classes->at[i].name, name) == 0)
			return &classes->at[i];
	return NULL;
}

static struct held *held_with(struct check *c, const struct rt_start *s)
{
	struct held *h;

	for (size_t i = 0; i < c->helds.n; i++) {
		h = &c->helds.at[i];
		if (strcmp(h->first->entry->class_name, s->entry->class_name) == 0 &&
		    strcmp(h->first->ring, s->ring) == 0 &&
		    rt_day_of(h->first->at_s) == rt_day_of(s->at_s))
			return h;
	}
	h = RT_LIST_ADD(&c->helds);
	if (h)
		*h = (struct held){.class_ = class_named(c->classes, s->entry->class_name),
				   .first = s,
				   .begin = s->at_s,
				   .use_from = c->uses.n};
	if (h && h->class_)
		rt__uses_of_class(&c->uses, &c->sharers, h->class_);
	if (h)
		h->use_n = c->uses.n - h->use_from;
	return h;
}

/* Starts come in order of time. */
static void find_held(struct check *c)
{
	for (size_t i = 0; i < c->starts->n && !c->nomem; i++) {
		const struct rt_start *s = &c->starts->at[i];
		struct held *h = s->entry->status == RT_ENTERED ? held_with(c, s) : NULL;

		c->nomem |= !h && s->entry->status == RT_ENTERED;
		if (!h)
			continue;
		h->last = s;
		h->end = s->at_s + s->slot_s > h->end ? s->at_s + s->slot_s : h->end;
	}
}

/* The start of a class that is under way at a time, or the last before. */
static const struct rt_start *under_way(const struct check *c, const struct held *h, int64_t at)
{
	const struct rt_start *found = h->first;

	for (size_t i = 0; i < c->starts->n; i++) {
		const struct rt_start *s = &c->starts->at[i];

		if (s->at_s <= at && s->entry->status == RT_ENTERED && s->at_s >= h->begin &&
		    s->at_s <= h->last->at_s && strcmp(s->ring, h->first->ring) == 0 &&
		    strcmp(s->entry->class_name, h->first->entry->class_name) == 0)
			found = s;
	}
	return found;
}

static void check_judges(struct check *c, const struct held *a, const struct held *b)
{
	const struct held *early = a->begin <= b->begin ? a : b, *late = early == a ? b : a;
	int64_t gap = late->begin - early->end;

	if (strcmp(a->first->ring, b->first->ring) == 0)
		return;
	for (size_t u = a->use_from; u < a->use_from + a->use_n; u++)
		for (size_t v = b->use_from; v < b->use_from + b->use_n; v++)
			if (c->uses.at[u].sharer == c->uses.at[v].sharer)
				check_gap(c, under_way(c, early, late->begin), late->first, gap,
					  &c->uses.at[u], RT_SHARED_JUDGE);
}

/* A judge who drives. */
static void check_judge_starts(struct check *c, const struct held *h, size_t i)
{
	const struct rt_start *s = &c->starts->at[i];
	const struct rt_start *judged = under_way(c, h, s->at_s);
	int64_t gap = gap_between(h->begin, h->end, s->at_s, s->at_s + s->slot_s);
	bool first = judged->at_s <= s->at_s;

	for (size_t u = h->use_from; u < h->use_from + h->use_n; u++)
		for (size_t v = c->use_from[i]; v < c->use_from[i + 1]; v++)
			if (c->uses.at[u].sharer == c->uses.at[v].sharer)
				check_gap(c, first ? judged : s, first ? s : judged, gap,
					  &c->uses.at[u], c->uses.at[v].as);
}

/* ---- all of it ---- */

static enum rt_err set_up(struct check *c, struct rt_error *err)
{
	c->use_from = calloc(c->starts->n + 1, sizeof *c->use_from);
	if (!c->use_from)
		return rt_fail_nomem(err);
	for (size_t i = 0; i < c->starts->n; i++) {
		const struct rt_entry *entry = c->starts->at[i].entry;

		c->use_from[i] = c->uses.n;
		if (entry->status == RT_ENTERED)
			rt__uses_of_entry(&c->uses, &c->sharers, entry);
	}
	c->use_from[c->starts->n] = c->uses.n;
	find_held(c);
	return c->nomem || c->sharers.nomem ? rt_fail_nomem(err) : RT_OK;
}

static void check_all(struct check *c)
{
	const struct rt_starts *starts = c->starts;

	for (size_t i = 0; i < starts->n; i++) {
		if (starts->at[i].entry->status != RT_ENTERED)
			continue;
		check_hours(c, &starts->at[i]);
		for (size_t j = i + 1; j < starts->n; j++)
			if (starts->at[j].entry->status == RT_ENTERED)
				check_pair(c, i, j);
		for (size_t k = 0; k < c->helds.n; k++)
			if (c->helds.at[k].use_n)
				check_judge_starts(c, &c->helds.at[k], i);
	}
	for (size_t i = 0; i < c->helds.n; i++)
		for (size_t j = i + 1; j < c->helds.n; j++)
			check_judges(c, &c->helds.at[i], &c->helds.at[j]);
}

enum rt_err rt_times_clashes(struct rt_clashes *out, const struct rt_starts *starts,
			     const struct rt_classes *classes,
			     const struct rt_time_settings *settings, struct rt_error *err)
{
	struct check c = {.starts = starts, .classes = classes, .settings = settings, .out = out};
	enum rt_err rc = set_up(&c, err);

	if (!rc) {
		check_all(&c);
		rc = c.nomem ? rt_fail_nomem(err) : RT_OK;
	}
	free(c.use_from);
	RT_LIST_FREE(&c.helds);
	RT_LIST_FREE(&c.uses);
	rt__sharers_free(&c.sharers);
	return rc;
}

/* Whether it is one entry, of one list or of a show that was read twice. */
static bool same_entry(const struct rt_start *a, const struct rt_start *b)
{
	if (!a || !b)
		return !a && !b;
	return a->entry == b->entry || (a->entry->id && a->entry->id == b->entry->id);
}

static bool same_clash(const struct rt_clash *a, const struct rt_clash *b)
{
	return a->kind == b->kind && a->shared == b->shared && same_entry(a->a, b->a) &&
	       same_entry(a->b, b->b) && strcmp(a->who ? a->who : "", b->who ? b->who : "") == 0;
}

enum rt_err rt_clashes_new(struct rt_clashes *out, const struct rt_clashes *before,
			   const struct rt_clashes *after, struct rt_error *err)
{
	for (size_t i = 0; i < after->n; i++) {
		const struct rt_clash *clash = &after->at[i];
		struct rt_clash *kept;
		size_t j = 0;

		while (j < before->n &&
		       !(same_clash(clash, &before->at[j]) && before->at[j].gap_s <= clash->gap_s))
			j++;
		if (j < before->n)
			continue;
		kept = RT_LIST_ADD(out);
		if (!kept)
			return rt_fail_nomem(err);
		*kept = *clash;
	}
	return RT_OK;
}
