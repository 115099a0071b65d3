/* Draw, start times, what clashes and how good a plan is, as tables of a report.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include <stdio.h>
#include <string.h>

#define COLUMNS(columns) (sizeof(columns) / sizeof *(columns))

static void put_time(struct rt_table *t, int64_t at_s, int64_t day)
{
	char words[16];

	rt_time_words(at_s, day, words, sizeof words);
	rt_put_text(t, words);
}

static void put_if(struct rt_table *t, bool there, int64_t v)
{
	if (there)
		rt_put_int(t, v);
	else
		rt_put_null(t);
}

/* ---- start list ---- */

/* In text a column that says the same in every row is left out. */
#define TIME_COLUMNS(no_then, no_status)                                                           \
	{                                                                                          \
		{"day", "Day", RT_INT, RT_NO_UNIT, 0, false},                                      \
			{"start", "Start", RT_TEXT, RT_NO_UNIT, 0, false},                         \
			{"ring", "Ring", RT_TEXT, RT_NO_UNIT, 0, false},                           \
			{"class", "Class", RT_TEXT, RT_NO_UNIT, 0, false},                         \
			{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},                           \
			{"driver", "Driver", RT_TEXT, RT_NO_UNIT, 0, false},                       \
			{"horses", "Horses", RT_TEXT, RT_NO_UNIT, 0, false},                       \
			{"status", "Status", RT_TEXT, RT_NO_UNIT, 0, no_status},                   \
			{"then", "Then", RT_TEXT, RT_NO_UNIT, 0, no_then},                         \
			{"place", "Drawn", RT_INT, RT_NO_UNIT, 0, true},                           \
			{"groom", "Groom", RT_TEXT, RT_NO_UNIT, 0, true},                          \
			{"turnout", "Turnout", RT_TEXT, RT_NO_UNIT, 0, true},                      \
			{"club", "Club", RT_TEXT, RT_NO_UNIT, 0, true},                            \
			{"start_s", "From midnight", RT_INT, RT_SECOND, 0, true},                  \
			{"interval_s", "Interval", RT_INT, RT_SECOND, 0, true},                    \
			{"pause_s", "Pause behind", RT_INT, RT_SECOND, 0, true},                   \
			{"version", "Version", RT_INT, RT_NO_UNIT, 0, true},                       \
	}

static const struct rt_field time_columns[][2][17] = {
	{TIME_COLUMNS(false, false), TIME_COLUMNS(false, true)},
	{TIME_COLUMNS(true, false), TIME_COLUMNS(true, true)},
};

/* "break 15 min" */
static void put_then(struct rt_table *t, const struct rt_start *s)
{
	if (s->pause == RT_PAUSE_NONE)
		rt_put_null(t);
	else if (s->pause_s % 60)
		rt_put_textf(t, "%s %lld s", rt_pause_words(s->pause), (long long)s->pause_s);
	else
		rt_put_textf(t, "%s %lld min", rt_pause_words(s->pause),
			     (long long)(s->pause_s / 60));
}

static void put_start(struct rt_table *t, const struct rt_start *s)
{
	int64_t day = rt_day_of(s->at_s);

	rt_put_int(t, day);
	put_time(t, s->at_s, day);
	rt_put_text(t, s->ring);
	rt_put_text(t, s->entry->class_name);
	rt_put_int(t, s->entry->number);
	rt_put_text(t, s->entry->driver);
	rt_put_text(t, s->entry->horses);
	rt_put_text(t, rt_status_words(s->entry->status));
	put_then(t, s);
	put_if(t, s->place > 0, s->place);
	rt_put_text(t, s->entry->groom);
	rt_put_text(t, s->entry->turnout);
	rt_put_text(t, s->entry->club);
	rt_put_int(t, s->at_s - (day - 1) * RT_DAY_S);
	rt_put_int(t, s->slot_s);
	rt_put_int(t, s->pause_s);
	put_if(t, s->version > 0, s->version);
}

void rt_times_report(struct rt_report *report, const struct rt_starts *starts)
{
	bool pauses = false, left = false;
	struct rt_table *t;

	for (size_t i = 0; i < starts->n; i++) {
		pauses |= starts->at[i].pause != RT_PAUSE_NONE;
		left |= starts->at[i].entry->status != RT_ENTERED;
	}
	t = rt_report_table(report, "times", "Start times", time_columns[!pauses][!left],
			    COLUMNS(time_columns[0][0]));
	for (size_t i = 0; i < starts->n; i++)
		put_start(t, &starts->at[i]);
}

/* ---- clashes ---- */

static const struct rt_field clash_columns[] = {
	{"what", "What", RT_TEXT, RT_NO_UNIT, 0, false},
	{"shared", "Shared", RT_TEXT, RT_NO_UNIT, 0, false},
	{"who", "Who or where", RT_TEXT, RT_NO_UNIT, 0, false},
	{"day", "Day", RT_INT, RT_NO_UNIT, 0, false},
	{"start", "Start", RT_TEXT, RT_NO_UNIT, 0, false},
	{"class", "Class", RT_TEXT, RT_NO_UNIT, 0, false},
	{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
	{"other_start", "And", RT_TEXT, RT_NO_UNIT, 0, false},
	{"other_class", "Class", RT_TEXT, RT_NO_UNIT, 0, false},
	{"other_number", "No.", RT_INT, RT_NO_UNIT, 0, false},
	{"gap_min", "Gap min", RT_REAL, RT_NO_UNIT, 1, false},
	{"asked_min", "Asked min", RT_REAL, RT_NO_UNIT, 1, true},
	{"ring", "Ring", RT_TEXT, RT_NO_UNIT, 0, true},
	{"other_ring", "Other ring", RT_TEXT, RT_NO_UNIT, 0, true},
};

static void put_clash(struct rt_table *t, const struct rt_clash *c)
{
	int64_t day = rt_day_of(c->a->at_s);
	bool shared = c->kind == RT_CLASH_SHARED || c->kind == RT_CLASH_TWO_PLACES;

	rt_put_text(t, rt_clash_words(c->kind));
	rt_put_text(t, shared ? rt_shared_words(c->shared) : NULL);
	rt_put_text(t, c->who);
	rt_put_int(t, day);
	put_time(t, c->a->at_s, day);
	rt_put_text(t, c->a->entry->class_name);
	rt_put_int(t, c->a->entry->number);
	if (c->b)
		put_time(t, c->b->at_s, day);
	else
		rt_put_null(t);
	rt_put_text(t, c->b ? c->b->entry->class_name : NULL);
	put_if(t, c->b != NULL, c->b ? c->b->entry->number : 0);
	rt_put_real(t, (double)c->gap_s / 60);
	if (shared)
		rt_put_real(t, (double)c->asked_s / 60);
	else
		rt_put_null(t);
	rt_put_text(t, c->a->ring);
	rt_put_text(t, c->b ? c->b->ring : NULL);
}

void rt_clashes_report(struct rt_report *report, const struct rt_clashes *clashes)
{
	struct rt_table *t = rt_report_table(report, "collisions", "Collisions", clash_columns,
					     COLUMNS(clash_columns));

	for (size_t i = 0; i < clashes->n; i++)
		put_clash(t, &clashes->at[i]);
	report->needs_person |= clashes->n > 0;
}

/* ---- how good a plan is ---- */

static const struct rt_field plan_columns[] = {
	{"starts", "Starts", RT_INT, RT_NO_UNIT, 0, false},
	{"last_finish", "Last finish", RT_TEXT, RT_NO_UNIT, 0, false},
	{"bound", "No plan before", RT_TEXT, RT_NO_UNIT, 0, false},
	{"above_bound_min", "Above it min", RT_REAL, RT_NO_UNIT, 1, false},
	{"smallest_gap_min", "Smallest gap min", RT_REAL, RT_NO_UNIT, 1, false},
	{"whose", "Whose", RT_TEXT, RT_NO_UNIT, 0, false},
	{"waits_min", "Waits min", RT_REAL, RT_NO_UNIT, 1, false},
	{"missed", "Musts missed", RT_INT, RT_NO_UNIT, 0, true},
	{"wishes_missed", "Wishes missed", RT_INT, RT_NO_UNIT, 0, true},
	{"over_min", "Over the day min", RT_REAL, RT_NO_UNIT, 1, true},
	{"seed", "Seed", RT_INT, RT_NO_UNIT, 0, false},
	{"plans_tried", "Plans tried", RT_INT, RT_NO_UNIT, 0, true},
	{"last_finish_s", "Last finish s", RT_INT, RT_SECOND, 0, true},
	{"bound_s", "No plan before s", RT_INT, RT_SECOND, 0, true},
};

static void report_quality(struct rt_report *report, const struct rt_times *times,
			   const struct rt_time_settings *settings)
{
	const struct rt_time_quality *q = &times->quality;
	struct rt_table *t = rt_report_table(report, "plan", "How good the plan is", plan_columns,
					     COLUMNS(plan_columns));

	rt_put_int(t, (int64_t)times->starts.n);
	put_time(t, q->last_s, 1);
	put_time(t, q->bound_s, 1);
	rt_put_real(t, (double)(q->last_s - q->bound_s) / 60);
	if (q->gap_s < 0) {
		rt_put_null(t);
		rt_put_null(t);
	} else {
		rt_put_real(t, (double)q->gap_s / 60);
		rt_put_textf(t, "%s %s", rt_shared_words(q->gap_shared), q->gap_who);
	}
	rt_put_real(t, (double)q->waits_s / 60);
	rt_put_int(t, (int64_t)q->missed);
	rt_put_int(t, (int64_t)q->soft_missed);
	rt_put_real(t, (double)q->over_s / 60);
	rt_put_int(t, settings->seed);
	rt_put_int(t, (int64_t)q->tried);
	rt_put_int(t, q->last_s);
	rt_put_int(t, q->bound_s);
}

/* ---- rings ---- */

static const struct rt_field block_columns[] = {
	{"day", "Day", RT_INT, RT_NO_UNIT, 0, false},
	{"ring", "Ring", RT_TEXT, RT_NO_UNIT, 0, false},
	{"class", "Class", RT_TEXT, RT_NO_UNIT, 0, false},
	{"starts", "Starts", RT_INT, RT_NO_UNIT, 0, false},
	{"first", "First start", RT_TEXT, RT_NO_UNIT, 0, false},
	{"finish", "Finish", RT_TEXT, RT_NO_UNIT, 0, false},
	{"interval_s", "Interval", RT_INT, RT_SECOND, 0, false},
};

/* Whether an earlier start in the list is of the same class, ring and day. */
static bool told_before(const struct rt_starts *starts, size_t i)
{
	const struct rt_start *s = &starts->at[i];

	for (size_t k = 0; k < i; k++)
		if (strcmp(starts->at[k].ring, s->ring) == 0 &&
		    rt_day_of(starts->at[k].at_s) == rt_day_of(s->at_s) &&
		    strcmp(starts->at[k].entry->class_name, s->entry->class_name) == 0)
			return true;
	return false;
}

static void put_block(struct rt_table *t, const struct rt_starts *starts, size_t i)
{
	const struct rt_start *first = &starts->at[i];
	int64_t day = rt_day_of(first->at_s), end = 0, n = 0;

	for (size_t k = i; k < starts->n; k++) {
		const struct rt_start *s = &starts->at[k];

		if (strcmp(s->ring, first->ring) != 0 || rt_day_of(s->at_s) != day ||
		    strcmp(s->entry->class_name, first->entry->class_name) != 0)
			continue;
		n++;
		end = s->at_s + s->slot_s;
	}
	rt_put_int(t, day);
	rt_put_text(t, first->ring);
	rt_put_text(t, first->entry->class_name);
	rt_put_int(t, n);
	put_time(t, first->at_s, day);
	put_time(t, end, day);
	rt_put_int(t, first->slot_s);
}

static void report_blocks(struct rt_report *report, const struct rt_starts *starts)
{
	struct rt_table *t = rt_report_table(report, "classes", "Classes in the rings",
					     block_columns, COLUMNS(block_columns));

	for (size_t i = 0; i < starts->n; i++)
		if (!told_before(starts, i))
			put_block(t, starts, i);
}

/* ---- wishes ---- */

static const struct rt_field wish_columns[] = {
	{"wish", "Wish", RT_TEXT, RT_NO_UNIT, 0, false},
	{"weight", "Weight", RT_TEXT, RT_NO_UNIT, 0, false},
	{"met", "Met", RT_BOOL, RT_NO_UNIT, 0, false},
	{"missed_min", "By min", RT_REAL, RT_NO_UNIT, 1, false},
	{"drop", "Drop it", RT_BOOL, RT_NO_UNIT, 0, false},
};

static void put_wish(struct rt_table *t, const struct rt_wish_told *told)
{
	rt_put_text(t, told->words);
	if (told->wish && told->wish->weight)
		rt_put_textf(t, "%lld", (long long)told->wish->weight);
	else
		rt_put_text(t, "must");
	rt_put_bool(t, told->missed_s == 0);
	if (told->missed_s)
		rt_put_real(t, (double)told->missed_s / 60);
	else
		rt_put_null(t);
	rt_put_bool(t, told->drop);
}

static void report_wishes(struct rt_report *report, const struct rt_times *times)
{
	struct rt_table *t;

	if (!times->wishes.n)
		return;
	t = rt_report_table(report, "wishes", "Wishes", wish_columns, COLUMNS(wish_columns));
	for (size_t i = 0; i < times->wishes.n; i++) {
		const struct rt_wish_told *told = &times->wishes.at[i];

		put_wish(t, told);
		if (told->drop)
			rt_report_note(report, "All else that must be can be met without%s: %s.",
				       times->drops > 1 ? " these together" : "", told->words);
	}
	if (times->quality.missed && !times->drops)
		rt_report_note(report, "Not everything that must be can be met, and nothing was "
				       "found to drop: the day is too short.");
}

void rt_plan_report(struct rt_report *report, const struct rt_times *times,
		    const struct rt_time_settings *settings)
{
	report_quality(report, times, settings);
	report_blocks(report, &times->starts);
	report_wishes(report, times);
	report->needs_person |= times->quality.missed > 0;
}

/* ---- draw ---- */

static const struct rt_field draw_columns[] = {
	{"place", "Place", RT_INT, RT_NO_UNIT, 0, false},
	{"number", "No.", RT_INT, RT_NO_UNIT, 0, false},
	{"driver", "Driver", RT_TEXT, RT_NO_UNIT, 0, false},
	{"horses", "Horses", RT_TEXT, RT_NO_UNIT, 0, false},
};

static const struct rt_field spread_columns[] = {
	{"driver", "Driver", RT_TEXT, RT_NO_UNIT, 0, false},
	{"turnouts", "Turnouts", RT_INT, RT_NO_UNIT, 0, false},
	{"apart", "Places apart", RT_INT, RT_NO_UNIT, 0, false},
};

void rt_draw_report(struct rt_report *report, const struct rt_draw *draw,
		    const struct rt_entries *entries)
{
	struct rt_table *t = rt_report_table(report, "draw", "Draw", draw_columns,
					     COLUMNS(draw_columns));

	for (size_t i = 0; i < draw->n; i++) {
		const struct rt_entry *e = &entries->at[draw->order[i]];

		rt_put_int(t, (int64_t)i + 1);
		rt_put_int(t, e->number);
		rt_put_text(t, e->driver);
		rt_put_text(t, e->horses);
	}
	if (!draw->spreads.n)
		return;
	t = rt_report_table(report, "spread", "Drivers with several turnouts", spread_columns,
			    COLUMNS(spread_columns));
	for (size_t i = 0; i < draw->spreads.n; i++) {
		rt_put_text(t, draw->spreads.at[i].driver);
		rt_put_int(t, draw->spreads.at[i].turnouts);
		rt_put_int(t, draw->spreads.at[i].apart);
	}
}
