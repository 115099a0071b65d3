/* What papers show of a class: the posting in force, and what has changed since.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#define NUMBER_SIZE 32

/* ---- changes ---- */

static const struct rt_field change_fields[] = {
	{"number", .head = "No.", RT_AT(struct rt_posted_change, number), .type = RT_INT},
	{"what", .head = "What", RT_AT(struct rt_posted_change, what)},
	{"was", .head = "Posted", RT_AT(struct rt_posted_change, was)},
	{"now", .head = "Now", RT_AT(struct rt_posted_change, now)},
};

const struct rt_record rt__changes_table = RT_TABLE("changes", "Changed since it was posted",
						    change_fields, struct rt_posted_change);

/* What is compared, and whether memory was out. */
struct comparison {
	const struct rt_posting *before, *after;
	struct rt_posted_changes *changes;
	bool nomem;
};

static const char *kept(struct comparison *c, const char *words)
{
	const char *copy = words ? rt_arena_string(&c->changes->text, words) : NULL;

	c->nomem |= words && !copy;
	return copy;
}

static void tell(struct comparison *c, int64_t number, const char *what, const char *was,
		 const char *now)
{
	struct rt_posted_change *change;

	if (!was && !now)
		return;
	if (was && now && strcmp(was, now) == 0)
		return;
	change = RT_LIST_ADD(c->changes);
	c->nomem |= !change;
	if (change)
		*change = (struct rt_posted_change){number, kept(c, what), kept(c, was),
						    kept(c, now)};
}

/* The words of a place, or NULL for none. */
static const char *place_words(size_t place, char out[NUMBER_SIZE])
{
	snprintf(out, NUMBER_SIZE, "%zu", place);
	return place ? out : NULL;
}

/* The sheet of an entry at a position; NULL: none was in. */
static const struct rt_posted_sheet *sheet_at(const struct rt_posting *posting, int64_t entry,
					      const char *position)
{
	for (size_t i = 0; i < posting->sheets.n; i++)
		if (posting->sheets.at[i].entry == entry &&
		    strcmp(posting->sheets.at[i].position, position) == 0)
			return &posting->sheets.at[i];
	return NULL;
}

static void tell_sheet(struct comparison *c, int64_t number, const char *position,
		       const struct rt_posted_sheet *was, const struct rt_posted_sheet *now)
{
	char what[RT_NAME_MOST];

	snprintf(what, sizeof what, "points of %s", position);
	tell(c, number, what, was ? was->points : NULL, now ? now->points : NULL);
}

/* The points of each judge, of one posting against the other; a judge whom the other has not too
 * is told in the second round. */
static void tell_sheets(struct comparison *c, const struct rt_posted *entry)
{
	for (size_t i = 0; i < c->after->sheets.n; i++) {
		const struct rt_posted_sheet *now = &c->after->sheets.at[i];

		if (now->entry == entry->entry)
			tell_sheet(c, entry->number, now->position,
				   sheet_at(c->before, now->entry, now->position), now);
	}
	for (size_t i = 0; i < c->before->sheets.n; i++) {
		const struct rt_posted_sheet *was = &c->before->sheets.at[i];

		if (was->entry == entry->entry && !sheet_at(c->after, was->entry, was->position))
			tell_sheet(c, entry->number, was->position, was, NULL);
	}
}

static void tell_entry(struct comparison *c, const struct rt_posted *was,
		       const struct rt_posted *now)
{
	char before[NUMBER_SIZE], after[NUMBER_SIZE];

	tell(c, now->number, "place", place_words(was->place, before),
	     place_words(now->place, after));
	tell(c, now->number, "status", was->status, now->status);
	tell(c, now->number, "why", was->why, now->why);
	tell(c, now->number, "division", was->division, now->division);
	tell(c, now->number, "score", was->score, now->score);
	tell(c, now->number, "percent", was->percent, now->percent);
	tell(c, now->number, "penalties", was->added, now->added);
	tell(c, now->number, "points off", was->off, now->off);
	tell_sheets(c, now);
}

static enum rt_err compare(struct rt_results_shown *shown, struct rt_error *err)
{
	struct comparison c = {shown->posted, &shown->now, &shown->changes, false};

	for (size_t i = 0; i < c.after->places.n; i++) {
		const struct rt_posted *now = &c.after->places.at[i];
		const struct rt_posted *was = rt_posted_of(c.before, now->entry);

		if (was)
			tell_entry(&c, was, now);
		else
			tell(&c, now->number, "entry", NULL, now->status);
	}
	for (size_t i = 0; i < c.before->places.n; i++) {
		const struct rt_posted *was = &c.before->places.at[i];

		if (!rt_posted_of(c.after, was->entry))
			tell(&c, was->number, "entry", was->status, NULL);
	}
	return c.nomem ? rt_fail_nomem(err) : RT_OK;
}

/* ---- what is shown ---- */

enum rt_err rt_shown_make(struct rt_results_shown *out, const struct rt_results *results,
			  const struct rt_posting *posted, bool as_now, struct rt_error *err)
{
	enum rt_err e;

	*out = (struct rt_results_shown){.results = results, .posted = posted, .as_now = as_now};
	e = rt_posting_make(&out->now, results, err);
	if (!e && posted)
		e = compare(out, err);
	if (e)
		rt_shown_free(out);
	return e;
}

void rt_shown_free(struct rt_results_shown *shown)
{
	rt_posting_free(&shown->now);
	RT_LIST_FREE(&shown->changes);
	*shown = (struct rt_results_shown){0};
}

const struct rt_posting *rt_shown_posting(const struct rt_results_shown *shown)
{
	return shown->posted && !shown->as_now ? shown->posted : &shown->now;
}

const char *rt_shown_band(const struct rt_results_shown *shown, char *out, size_t size)
{
	bool changed = shown->changes.n > 0;

	if (!shown->posted) {
		snprintf(out, size, "These results are provisional, not posted");
		return out;
	}
	if (!changed && !shown->as_now)
		return NULL;
	snprintf(out, size,
		 !shown->as_now ? "These results are posted, but changed since version %" PRId64
		 : changed	? "As it is now, not posted; changed since version %" PRId64
				: "As it is now, not posted anew; the same as version %" PRId64,
		 shown->posted->version);
	return out;
}

/* "number 16 (place 2, now 1)", of the changes of one entry, from *next on, which moves past them.
 */
static void entry_words(const struct rt_posted_changes *changes, size_t *next, char *out,
			size_t size)
{
	int64_t number = changes->at[*next].number;
	bool first = true;

	snprintf(out, size, "number %" PRId64, number);
	for (; *next < changes->n && changes->at[*next].number == number; ++*next) {
		const struct rt_posted_change *x = &changes->at[*next];

		rt_append(out, size, "%s%s %s, now %s", first ? " (" : "; ", x->what,
			  x->was ? x->was : "none", x->now ? x->now : "none");
		first = false;
	}
	rt_append(out, size, ")");
}

void rt_shown_note(struct rt_report *report, const struct rt_results_shown *shown)
{
	const char *class_name = shown->results->of->class_->name;
	struct rt__listing list = {.cases = 0};
	char words[300], rest[40];

	if (!shown->posted)
		rt_report_note(report, "Provisional: class %s is not %s.", class_name,
			       shown->results->complete ? "posted" : "added up");
	for (size_t i = 0; i < shown->changes.n;) {
		entry_words(&shown->changes, &i, words, sizeof words);
		rt__list_case(&list, "%s", words);
	}
	if (!list.cases)
		return;
	rt_report_note(report,
		       "Class %s has changed since version %" PRId64 " was posted: %s%s. Post it "
		       "again when its results are right.",
		       class_name, shown->posted->version, list.text,
		       rt__more(&list, rest, sizeof rest));
	report->needs_person = true;
}

void rt_shown_changes(struct rt_report *report, const struct rt_results_shown *shown)
{
	if (shown->changes.n)
		rt_report_list(report, &rt__changes_table, shown->changes.at, shown->changes.n);
}
