/* Changes on the day: one start moved, a ring that is late; only what must move moves.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdlib.h>
#include <string.h>

static int compare_starts(const void *left, const void *right)
{
	const struct rt_start *a = left, *b = right;
	int by_ring;

	if (a->at_s != b->at_s)
		return a->at_s < b->at_s ? -1 : 1;
	by_ring = strcmp(a->ring, b->ring);
	if (by_ring)
		return by_ring;
	return (a->entry->number > b->entry->number) - (a->entry->number < b->entry->number);
}

void rt_starts_sort(struct rt_starts *starts)
{
	if (starts->n)
		qsort(starts->at, starts->n, sizeof *starts->at, compare_starts);
}

/* Whether the start takes its ring, on that day. */
static bool is_there(const struct rt_start *s, const char *ring, int64_t day)
{
	return s->entry->status == RT_ENTERED && rt_day_of(s->at_s) == day &&
	       strcmp(s->ring, ring) == 0;
}

static bool same_class(const struct rt_start *a, const struct rt_start *b)
{
	return strcmp(a->entry->class_name, b->entry->class_name) == 0;
}

static int64_t end_of(const struct rt_start *s)
{
	return s->at_s + s->slot_s + s->pause_s;
}

/* The start next before, or behind, starts->at[i] in its ring on its day; NULL: none. */
static struct rt_start *neighbour(const struct rt_starts *starts, size_t i, bool behind)
{
	const struct rt_start *of = &starts->at[i];

	for (size_t k = i; behind ? ++k < starts->n : k-- > 0;)
		if (is_there(&starts->at[k], of->ring, rt_day_of(of->at_s)))
			return &starts->at[k];
	return NULL;
}

/* Two breaks that come together are one, as long as the longer. */
static void add_pause(struct rt_start *s, enum rt_pause what, int64_t pause_s)
{
	s->pause = s->pause == RT_PAUSE_NONE || s->pause == what ? what : RT_PAUSE_BOTH;
	s->pause_s = pause_s > s->pause_s ? pause_s : s->pause_s;
	s->version = 0;
}

/* The break behind one that left is behind who starts before it. */
static void hand_over_pauses(struct rt_starts *starts)
{
	for (size_t i = 0; i < starts->n; i++) {
		struct rt_start *s = &starts->at[i], *before;

		if (s->entry->status == RT_ENTERED || s->pause == RT_PAUSE_NONE)
			continue;
		before = neighbour(starts, i, false);
		if (before && same_class(before, s))
			add_pause(before, s->pause, s->pause_s);
		s->pause = RT_PAUSE_NONE;
		s->pause_s = 0;
		s->version = 0;
	}
}

static enum rt_err over_midnight(const struct rt_start *s, int64_t day, struct rt_error *err)
{
	char from[16], to[16];

	rt_time_words(s->at_s, day, from, sizeof from);
	rt_time_words(s->at_s + s->slot_s, day, to, sizeof to);
	return rt_fail(err, RT_E_INPUT,
		       "number %lld of class %s would run over midnight, from %s to %s on day %lld",
		       (long long)s->entry->number, s->entry->class_name, from, to, (long long)day);
}

/* Push those that stand behind starts->at[i] in the list, which has moved and ended at `ended`
 * before (with its pause), until one need not move.  Classes keep change_s between them, or as
 * much less as they had. */
static enum rt_err push(struct rt_starts *starts, size_t i, int64_t ended, int64_t change_s,
			struct rt_error *err)
{
	const struct rt_start *mover = &starts->at[i];
	int64_t day = rt_day_of(mover->at_s);

	if (mover->at_s + mover->slot_s > day * RT_DAY_S)
		return over_midnight(mover, day, err);
	for (size_t k = i + 1; k < starts->n; k++) {
		struct rt_start *s = &starts->at[k];
		int64_t had = s->at_s - ended, least;

		if (!is_there(s, mover->ring, day))
			continue;
		least = same_class(s, mover) ? 0 : had >= 0 && had < change_s ? had : change_s;
		if (s->at_s >= end_of(mover) + least)
			break;
		ended = end_of(s);
		s->at_s = end_of(mover) + least;
		s->version = 0;
		if (s->at_s + s->slot_s > day * RT_DAY_S)
			return over_midnight(s, day, err);
		mover = s;
	}
	rt_starts_sort(starts);
	return RT_OK;
}

/* ---- one start ---- */

static size_t place_of(const struct rt_starts *starts, const struct rt_entry *entry)
{
	size_t i = 0;

	while (i < starts->n && starts->at[i].entry != entry)
		i++;
	return i;
}

/* A start that is taken out of the order, and who of its class stood beside it; NULL: nobody. */
struct taken_out {
	struct rt_start start;
	const struct rt_entry *before, *behind;
};

static struct taken_out take_out(const struct rt_starts *starts, size_t i)
{
	struct taken_out t = {.start = starts->at[i]};
	const struct rt_start *before = neighbour(starts, i, false);
	const struct rt_start *behind = neighbour(starts, i, true);

	if (before && same_class(before, &t.start))
		t.before = before->entry;
	if (behind && same_class(behind, &t.start))
		t.behind = behind->entry;
	return t;
}

static void remove_at(struct rt_starts *starts, size_t i)
{
	memmove(starts->at + i, starts->at + i + 1, (starts->n - i - 1) * sizeof *starts->at);
	starts->n--;
}

static int64_t interval_of_class(const struct rt_starts *starts, const char *class_name)
{
	for (size_t i = 0; i < starts->n; i++)
		if (strcmp(starts->at[i].entry->class_name, class_name) == 0)
			return starts->at[i].slot_s;
	return 0;
}

/* A time inside another start is refused, with the times before and behind it. */
static enum rt_err refuse_inside(const struct rt_starts *starts, const char *ring, int64_t at_s,
				 struct rt_error *err)
{
	char at[16], from[16], to[16];
	int64_t day = rt_day_of(at_s);

	for (size_t i = 0; i < starts->n; i++) {
		const struct rt_start *s = &starts->at[i];

		if (!is_there(s, ring, day) || at_s <= s->at_s || at_s >= s->at_s + s->slot_s)
			continue;
		rt_time_words(at_s, day, at, sizeof at);
		rt_time_words(s->at_s, day, from, sizeof from);
		rt_time_words(s->at_s + s->slot_s, day, to, sizeof to);
		return rt_fail(
			err, RT_E_INPUT,
			"%s lies inside the start of number %lld of class %s, from %s to %s: "
			"%s is before it, %s behind it",
			at, (long long)s->entry->number, s->entry->class_name, from, to, from, to);
	}
	return RT_OK;
}

/* Put the start in front of the first that is no earlier. */
static enum rt_err insert(struct rt_starts *starts, const struct rt_start *start, size_t *where,
			  struct rt_error *err)
{
	size_t i = 0;

	if (!RT_LIST_ADD(starts))
		return rt_fail_nomem(err);
	while (i + 1 < starts->n && starts->at[i].at_s < start->at_s)
		i++;
	memmove(starts->at + i + 1, starts->at + i, (starts->n - i - 1) * sizeof *starts->at);
	starts->at[i] = *start;
	*where = i;
	return RT_OK;
}

/* The break that was behind one that moved stays where it was in the order: behind it where the
 * same starts next, else behind who started before it. */
static void leave_pause(struct rt_starts *starts, size_t where, const struct taken_out *was)
{
	const struct rt_start *next = neighbour(starts, where, true);
	size_t before = was->before ? place_of(starts, was->before) : starts->n;

	if (was->start.pause == RT_PAUSE_NONE)
		return;
	if (next && next->entry == was->behind)
		add_pause(&starts->at[where], was->start.pause, was->start.pause_s);
	else if (before < starts->n)
		add_pause(&starts->at[before], was->start.pause, was->start.pause_s);
}

/* Who is put into a break has it behind. */
static void pass_pause(struct rt_starts *starts, size_t where)
{
	struct rt_start *before = neighbour(starts, where, false);

	if (!before || starts->at[where].at_s >= end_of(before))
		return;
	add_pause(&starts->at[where], before->pause, before->pause_s);
	before->pause = RT_PAUSE_NONE;
	before->pause_s = 0;
	before->version = 0;
}

enum rt_err rt_times_move(struct rt_starts *starts, const struct rt_entry *entry, const char *ring,
			  int64_t at_s, int64_t slot_s, int64_t change_s, struct rt_error *err)
{
	struct rt_start start = {.entry = entry, .ring = ring, .at_s = at_s};
	size_t i = place_of(starts, entry), where = 0;
	struct taken_out was = {0};
	enum rt_err rc;

	hand_over_pauses(starts);
	if (i < starts->n) {
		start.place = starts->at[i].place;
		start.slot_s = starts->at[i].slot_s;
		was = take_out(starts, i);
		remove_at(starts, i);
	} else {
		start.slot_s = interval_of_class(starts, entry->class_name);
	}
	if (slot_s)
		start.slot_s = slot_s;
	if (!start.slot_s)
		return rt_fail(err, RT_E_INPUT,
			       "class %s has no start yet that would tell how long one takes",
			       entry->class_name);
	rc = refuse_inside(starts, ring, at_s, err);
	if (!rc)
		rc = insert(starts, &start, &where, err);
	if (rc)
		return rc;
	leave_pause(starts, where, &was);
	pass_pause(starts, where);
	return push(starts, where, at_s, change_s, err);
}

/* ---- a ring that is late ---- */

enum rt_err rt_times_late(struct rt_starts *starts, const char *ring, int64_t from_s,
			  int64_t late_s, int64_t change_s, struct rt_error *err)
{
	int64_t day = rt_day_of(from_s), ended;
	char from[16];
	size_t i = 0;

	while (i < starts->n &&
	       !(is_there(&starts->at[i], ring, day) && starts->at[i].at_s >= from_s))
		i++;
	if (i == starts->n) {
		rt_time_words(from_s, day, from, sizeof from);
		return rt_fail(err, RT_E_INPUT, "nothing starts in %s at or after %s on day %lld",
			       ring, from, (long long)day);
	}
	hand_over_pauses(starts);
	ended = end_of(&starts->at[i]);
	starts->at[i].at_s += late_s;
	starts->at[i].version = 0;
	return push(starts, i, ended, change_s, err);
}
