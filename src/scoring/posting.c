/* Results as they are posted: all that a paper tells of them.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

void rt_posting_free(struct rt_posting *posting)
{
	RT_LIST_FREE(&posting->places);
	RT_LIST_FREE(&posting->sheets);
	RT_LIST_FREE(&posting->notes);
	*posting = (struct rt_posting){0};
}

const struct rt_posted *rt_posted_of(const struct rt_posting *posting, int64_t entry)
{
	for (size_t i = 0; i < posting->places.n; i++)
		if (posting->places.at[i].entry == entry)
			return &posting->places.at[i];
	return NULL;
}

bool rt_posted_together(const struct rt_posted *a, const struct rt_posted *b)
{
	return a->division && b->division ? strcmp(a->division, b->division) == 0
					  : a->division == b->division;
}

/* ---- made of results ---- */

static const char *decimal(struct rt_arena **text, int64_t units, int digits)
{
	char number[32];

	rt_format_decimal(units, digits, number, sizeof number);
	return rt_arena_string(text, number);
}

/* With no more decimals than it needs; *kept stays NULL for 0.  False when memory is out. */
static bool keep_short(const char **kept, struct rt_arena **text, int64_t units_x100)
{
	char number[32];

	if (!units_x100)
		return true;
	rt_format_short(units_x100, 2, 0, number, sizeof number);
	*kept = rt_arena_string(text, number);
	return *kept != NULL;
}

static bool keep_score(struct rt_posted *p, struct rt_arena **text, const struct rt_rule *rule,
		       const struct rt_result *result)
{
	p->score = decimal(text, result->score, rule->score_decimals);
	p->percent = decimal(text, result->percent, rule->percent_decimals);
	return p->score && p->percent;
}

static bool keep_halves(struct rt_posted *p, struct rt_arena **text, const struct rt_rule *rule,
			const struct rt_result *result)
{
	p->technical = decimal(text, result->technical, rule->percent_decimals);
	p->artistic = decimal(text, result->artistic, rule->percent_decimals);
	return p->technical && p->artistic;
}

static bool put_place(struct rt_posting *out, const struct rt_results *r,
		      const struct rt_result *result)
{
	const struct rt_rule *rule = r->of->rule;
	const struct rt_entry *entry = result->entry;
	struct rt_posted *p = RT_LIST_ADD(&out->places);
	struct rt_arena **text = &out->places.text;

	if (!p)
		return false;
	*p = (struct rt_posted){
		.entry = entry->id,
		.number = entry->number,
		.driver = entry->driver,
		.horses = entry->horses,
		.club = entry->club,
		.division = result->division,
		.place = result->place,
		.status = rt_result_words(result),
		.why = result->status_why && *result->status_why ? result->status_why : NULL,
		.starter = rt__started(result->status) && !entry->hors_concours,
		.parted_by = result->parted_by,
	};
	return (!result->scored || keep_score(p, text, rule, result)) &&
	       (!result->scored || !r->halves || keep_halves(p, text, rule, result)) &&
	       keep_short(&p->added, text, rt__penalty_in_unit(rule, result)) &&
	       keep_short(&p->off, text, rule->taken == RT_TAKEN_PERCENT ? result->points_x100 : 0);
}

static bool put_sheet(struct rt_posting *out, const struct rt_results *r,
		      const struct rt_result *result, size_t judge)
{
	const struct rt_judge_result *sheet = &result->judge[judge];
	struct rt_posted_sheet *p = RT_LIST_ADD(&out->sheets);
	struct rt_arena **text = &out->sheets.text;
	char points[32];

	if (!p)
		return false;
	rt__format_points(sheet->points_x100000, points, sizeof points);
	*p = (struct rt_posted_sheet){
		.entry = result->entry->id,
		.position = rt__position(r, judge),
		.points = rt_arena_string(text, points),
		.percent = decimal(text, sheet->percent, r->judge_percent_digits),
		.place = sheet->place,
	};
	return p->points && p->percent;
}

static bool put_result(struct rt_posting *out, const struct rt_results *r,
		       const struct rt_result *result)
{
	bool ok = put_place(out, r, result);

	for (size_t j = 0; j < r->of->class_->judges.n && ok; j++)
		ok = !result->judge[j].in || put_sheet(out, r, result, j);
	return ok;
}

static bool put_note(struct rt_posting *out, const char *words)
{
	const char **note = RT_LIST_ADD(&out->notes);

	if (note)
		*note = rt_arena_string(&out->notes.text, words);
	return note && *note;
}

enum rt_err rt_posting_make(struct rt_posting *out, const struct rt_results *r,
			    struct rt_error *err)
{
	static const char *const units[] = {[RT_PERCENT_SCALE] = "%",
					    [RT_PENALTY_SCALE] = "penalties",
					    [RT_POINT_SCALE] = "points",
					    [RT_TEN_SCALE] = "of 10"};
	bool ok = true;

	*out = (struct rt_posting){.unit = units[r->of->rule->scale]};
	for (size_t i = 0; i < r->n && ok; i++)
		ok = put_result(out, r, &r->at[i]);
	for (size_t i = 0; i < r->notes.n && ok; i++)
		ok = put_note(out, r->notes.at[i]);
	if (ok)
		return RT_OK;
	rt_posting_free(out);
	return rt_fail_nomem(err);
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
