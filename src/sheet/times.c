/* Lists of start times: by ring and by driver, for the gate, the announcer and the steward.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include "../base/enum_words.h"

#include <stdlib.h>
#include <string.h>

#define WORDS_BYTES (4 * RT_NAME_MOST + 100)

RT__ENUM_WORDS(start_list, "list", RT_START_LISTS)

/* ---- what each list shows -------------------------------------------------------------------- */

#define TIME_NUMBER                                                                                \
	{.name = "time", .head = "Time", .anchor = RT_ANCHOR_RIGHT},                               \
	{                                                                                          \
		.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT                         \
	}

static const struct rt__list_column ring_columns[] = {
	TIME_NUMBER,
	{.name = "class", .head = "Class"},
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "club", .head = "Club", .if_any = true},
};

static const struct rt__list_column driver_columns[] = {
	{.name = "driver", .head = "Driver or rider"},
	{.name = "time", .head = "Time", .anchor = RT_ANCHOR_RIGHT},
	{.name = "ring", .head = "Ring"},
	{.name = "class", .head = "Class"},
	{.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT},
	{.name = "horses", .head = "Horses"},
};

static const struct rt__list_column gate_columns[] = {
	TIME_NUMBER,
	{.name = "driver", .head = "Driver or rider"},
	{.name = "turnout", .head = "Turnout", .if_any = true},
	{.head = "Called", .box_mm = 14.0, .with = "number"},
	{.head = "In", .box_mm = 14.0, .with = "number"},
	{.head = "Out", .box_mm = 14.0, .with = "number"},
};

static const struct rt__list_column announcer_columns[] = {
	TIME_NUMBER,
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "groom", .head = "Groom", .if_any = true},
	{.name = "club", .head = "Club", .if_any = true},
	{.name = "class", .head = "Class"},
};

static const struct rt__list_column steward_columns[] = {
	TIME_NUMBER,
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "groom", .head = "Groom", .if_any = true},
	{.head = "Before", .box_mm = 12.0, .with = "number"},
	{.head = "After", .box_mm = 12.0, .with = "number"},
	{.head = "Remarks", .box_mm = 22.0, .with = "number"},
};

static const struct {
	const char *title;
	struct rt__list_view view;
	const char *signature;
} lists[] = {
	[RT_START_LIST_RING] = {"Start list by ring", {RT__LIST_VIEW("starts", ring_columns)}},
	[RT_START_LIST_DRIVER] = {"Start times by driver or rider",
				  {RT__LIST_VIEW("starts", driver_columns)}},
	[RT_START_LIST_GATE] = {"Gate list", {RT__LIST_VIEW("starts", gate_columns)}},
	[RT_START_LIST_ANNOUNCER] = {"Announcer's list",
				     {RT__LIST_VIEW("starts", announcer_columns)}},
	[RT_START_LIST_STEWARD] = {"Steward's list",
				   {RT__LIST_VIEW("starts", steward_columns)},
				   "Steward:"},
};

/* ---- tables ---------------------------------------------------------------------------------- */

/* A start; or a pause, which is of no entry. */
struct line {
	const char *time, *ring, *who;
	const struct rt_entry *entry;
};

#define ENTRY(member) RT_IN(struct line, entry, struct rt_entry, member)

static const struct rt_field line_fields[] = {
	{"time", RT_AT(struct line, time)}, {"number", ENTRY(number), .type = RT_INT},
	{"class", ENTRY(class_name)},	    {"driver", RT_AT(struct line, who)},
	{"horses", ENTRY(horses)},	    {"club", ENTRY(club)},
	{"ring", RT_AT(struct line, ring)}, {"groom", ENTRY(groom)},
	{"turnout", ENTRY(turnout)},
};

static const struct rt_record line_record = {
	.many = "starts", RT_FIELDS(line_fields), .size = sizeof(struct line)};

/* Who left is told beside the name, so that nobody waits at the gate. */
static void put_start(struct rt_table *t, const struct rt_start *start)
{
	const struct rt_entry *entry = start->entry;
	char time[32], who[WORDS_BYTES];

	rt_time_words(start->at_s, rt_day_of(start->at_s), time, sizeof time);
	snprintf(who, sizeof who, "%s (%s)", entry->driver, rt_status_words(entry->status));
	rt_put_row(t, &(struct line){time, start->ring,
				     entry->status == RT_ENTERED ? entry->driver : who, entry});
}

/* "break, 10 min" as a row of its own. */
static void put_pause(struct rt_table *t, const struct rt_start *start)
{
	int64_t at = start->at_s + start->slot_s;
	char time[32], what[80];

	rt_time_words(at, rt_day_of(start->at_s), time, sizeof time);
	snprintf(what, sizeof what, "%s, %lld min", rt_pause_words(start->pause),
		 (long long)((start->pause_s + 59) / 60));
	rt_put_row(t, &(struct line){.time = time, .who = what});
}

static int64_t version_of(const struct rt_times_paper *of, const struct rt_start *start)
{
	int64_t version = start->version;

	for (size_t i = 0; i < of->versions; i++)
		if (of->version[i].day == rt_day_of(start->at_s) &&
		    strcmp(of->version[i].ring, start->ring) == 0)
			version = of->version[i].version;
	return version;
}

/* A start, and what its list is ordered by on a day: its ring, or its driver's name folded. */
struct listed {
	const struct rt_start *start;
	const char *by;
	char *folded; /* NULL: by ring */
};

static int compare(int64_t a, int64_t b)
{
	return (a > b) - (a < b);
}

static int by_order(const void *left, const void *right)
{
	const struct listed *a = left, *b = right;
	int order = compare(rt_day_of(a->start->at_s), rt_day_of(b->start->at_s));

	if (!order)
		order = strcmp(a->by, b->by);
	if (!order)
		order = compare(a->start->at_s, b->start->at_s);
	return order ? order : compare(a->start->entry->number, b->start->entry->number);
}

/* Drivers of a day stand in one table, rings in one each. */
static bool same_table(const struct listed *a, const struct listed *b)
{
	return rt_day_of(a->start->at_s) == rt_day_of(b->start->at_s) &&
	       (a->folded || strcmp(a->by, b->by) == 0);
}

static struct rt_table *add_table(struct rt_report *report, const struct rt_times_paper *of,
				  const struct listed *first)
{
	struct rt_table *t = rt_report_rows(report, &line_record);
	int64_t day = rt_day_of(first->start->at_s);
	char heading[WORDS_BYTES] = "", date[RT_DAY_SIZE];

	rt_day_after(of->first_day, day - 1, date);
	if (!first->folded)
		rt__add_words(heading, sizeof heading, "%s, ", first->by);
	rt__add_words(heading, sizeof heading, "%s (day %lld)", date, (long long)day);
	if (!first->folded)
		rt__add_words(heading, sizeof heading, ", version %lld",
			      (long long)version_of(of, first->start));
	rt_table_title(t, heading);
	return t;
}

static void add_tables(struct rt_report *report, const struct rt_times_paper *of,
		       const struct listed *listed, size_t n)
{
	struct rt_table *t = NULL;

	for (size_t i = 0; i < n; i++) {
		bool last = i + 1 == n || !same_table(&listed[i], &listed[i + 1]);

		if (i == 0 || !same_table(&listed[i], &listed[i - 1]))
			t = add_table(report, of, &listed[i]);
		put_start(t, listed[i].start);
		if (listed[i].start->pause != RT_PAUSE_NONE && !listed[i].folded && !last)
			put_pause(t, listed[i].start);
	}
}

static enum rt_err list_starts(struct rt_report *report, const struct rt_times_paper *of,
			       struct rt_error *err)
{
	size_t n = of->starts->n;
	struct listed *listed = calloc(n + 1, sizeof *listed);
	enum rt_err e = listed ? RT_OK : rt_fail_nomem(err);

	for (size_t i = 0; i < n && !e; i++) {
		const struct rt_start *start = &of->starts->at[i];

		listed[i] = (struct listed){.start = start, .by = start->ring};
		if (of->list == RT_START_LIST_DRIVER)
			listed[i].by = listed[i].folded = rt_fold(start->entry->driver);
		if (!listed[i].by)
			e = rt_fail_nomem(err);
	}
	if (!e) {
		qsort(listed, n, sizeof *listed, by_order);
		add_tables(report, of, listed, n);
	}
	for (size_t i = 0; listed && i < n; i++)
		free(listed[i].folded);
	free(listed);
	return e;
}

/* ---- the paper ------------------------------------------------------------------------------- */

enum rt_err rt_sheet_times(struct rt_sheet *out, const struct rt_times_paper *of,
			   const struct rt_sheet_options *options, struct rt_error *err)
{
	static const char *const last = "The list put up last holds: compare the version.";
	struct rt_report report = {0};
	const struct rt__list_paper paper = {.title = lists[of->list].title,
					     .line = {options->show, of->about, last},
					     .report = &report,
					     .view = &lists[of->list].view,
					     .views = 1,
					     .new_pages = of->list != RT_START_LIST_DRIVER,
					     .signature = lists[of->list].signature};
	enum rt_err e = list_starts(&report, of, err);

	if (!e)
		e = rt__list(out, &paper, options, err);
	rt_report_free(&report);
	return e;
}
