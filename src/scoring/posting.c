/* Results as they were posted, and what has changed since.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#define NUMBER_SIZE 32

void rt_posting_free(struct rt_posting *posting)
{
	RT_LIST_FREE(&posting->places);
	*posting = (struct rt_posting){0};
}

static const char *decimal(struct rt_arena **text, int64_t units, int digits)
{
	char number[NUMBER_SIZE];

	rt_format_decimal(units, digits, number, sizeof number);
	return rt_arena_string(text, number);
}

enum rt_err rt_posted_make(struct rt_posted *out, const struct rt_results *r,
			   const struct rt_result *result, struct rt_arena **text,
			   struct rt_error *err)
{
	const struct rt_rule *rule = r->of->rule;

	*out = (struct rt_posted){.number = result->entry->number,
				  .place = result->place,
				  .status = rt_result_words(result)};
	if (!result->scored)
		return RT_OK;
	out->score = decimal(text, result->score, rule->score_decimals);
	out->percent = decimal(text, result->percent, rule->percent_decimals);
	return out->score && out->percent ? RT_OK : rt_fail_nomem(err);
}

/* ---- changes ---- */

struct change_row {
	int64_t number;
	const char *what, *was, *now;
};

static const struct rt_field change_fields[] = {
	{"number", .head = "No.", RT_AT(struct change_row, number), .type = RT_INT},
	{"what", .head = "What", RT_AT(struct change_row, what)},
	{"was", .head = "Posted", RT_AT(struct change_row, was)},
	{"now", .head = "Now", RT_AT(struct change_row, now)},
};

const struct rt_record rt__changes_table = RT_TABLE("changes", "Changed since it was posted",
						    change_fields, struct change_row);

/* The changes that are told so far. */
struct changes {
	struct rt_report *report;
	struct rt_table *table;
	size_t n;
};

static void tell(struct changes *c, int64_t number, const char *what, const char *was,
		 const char *now)
{
	if (!was && !now)
		return;
	if (was && now && strcmp(was, now) == 0)
		return;
	if (!c->table)
		c->table = rt_report_rows(c->report, &rt__changes_table);
	rt_put_row(c->table, &(struct change_row){number, what, was, now});
	c->n++;
}

/* The words of a place, or NULL for none. */
static const char *place_words(size_t place, char out[NUMBER_SIZE])
{
	snprintf(out, NUMBER_SIZE, "%zu", place);
	return place ? out : NULL;
}

static void tell_entry(struct changes *c, const struct rt_posted *was, const struct rt_posted *now)
{
	char before[NUMBER_SIZE], after[NUMBER_SIZE];

	tell(c, now->number, "place", place_words(was->place, before),
	     place_words(now->place, after));
	tell(c, now->number, "status", was->status, now->status);
	tell(c, now->number, "score", was->score, now->score);
	tell(c, now->number, "percent", was->percent, now->percent);
}

static const struct rt_posted *posted_of(const struct rt_posting *posting, int64_t number)
{
	for (size_t i = 0; i < posting->places.n; i++)
		if (posting->places.at[i].number == number)
			return &posting->places.at[i];
	return NULL;
}

static bool is_entered(const struct rt_results *r, int64_t number)
{
	for (size_t i = 0; i < r->n; i++)
		if (r->at[i].entry->number == number)
			return true;
	return false;
}

enum rt_err rt_posting_changes(struct rt_report *report, const struct rt_posting *posting,
			       const struct rt_results *r, size_t *changes, struct rt_error *err)
{
	struct changes c = {.report = report};
	struct rt_arena *text = NULL;
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < r->n && !e; i++) {
		const struct rt_posted *was = posted_of(posting, r->at[i].entry->number);
		struct rt_posted now;

		e = rt_posted_make(&now, r, &r->at[i], &text, err);
		if (!e && was)
			tell_entry(&c, was, &now);
		else if (!e)
			tell(&c, now.number, "entry", NULL, now.status);
	}
	for (size_t i = 0; i < posting->places.n && !e; i++)
		if (!is_entered(r, posting->places.at[i].number))
			tell(&c, posting->places.at[i].number, "entry",
			     posting->places.at[i].status, NULL);
	rt_arena_free(text);
	*changes = c.n;
	return e;
}

/* ---- how it stands ---- */

#define DAY_LENGTH 10 /* of YYYY-MM-DD */

void rt_posting_state(const struct rt_posting *posting, const char *when, char *out, size_t size)
{
	bool same_day = strncmp(posting->until, when, DAY_LENGTH) == 0;
	const char *until = posting->until + (same_day ? DAY_LENGTH + 1 : 0);

	if (strcmp(when, posting->until) >= 0)
		snprintf(out, size, "final");
	else /* without the seconds */
		snprintf(out, size, "provisional until %.*s", (int)strlen(until) - 3, until);
}

struct posting_row {
	const struct rt_posting *posting;
	const char *state;
};

#define POSTING(member) RT_IN(struct posting_row, posting, struct rt_posting, member)

static const struct rt_field posting_fields[] = {
	{"version", .head = "Version", POSTING(version), .type = RT_INT},
	{"by", .head = "Posted by", POSTING(who)},
	{"at", .head = "At", POSTING(at)},
	{"until", .head = "Objections until", POSTING(until)},
	{"state", .head = "State", RT_AT(struct posting_row, state)},
};

const struct rt_record rt__posting_table = RT_TABLE("posting", "Posted", posting_fields,
						    struct posting_row);

void rt_posting_report(struct rt_report *report, const struct rt_posting *posting, const char *when)
{
	char state[80];
	struct posting_row row = {.posting = posting};

	rt_posting_state(posting, when, state, sizeof state);
	row.state = rt_report_textf(report, "%s%s", posting->version > 1 ? "corrected, " : "",
				    state);
	rt_report_list(report, &rt__posting_table, &row, 1);
	if (strcmp(when, posting->at) < 0)
		rt_report_note(
			report,
			"Posted at %s, which is later than now, %s: see that the clock is right.",
			posting->at, when);
}
