/* Lists of start times: by ring and by driver, for the gate, the announcer and the steward.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include "internal.h"

#include "../base/enum_words.h"

#include <stdlib.h>
#include <string.h>

#define WORDS_BYTES (4 * RT_NAME_MOST + 100)

#define COUNT(array) (sizeof(array) / sizeof *(array))

RT__ENUM_WORDS(start_list, "list", RT_START_LISTS)

static const char *const list_titles[] = {
	[RT_START_LIST_RING] = "Start list by ring",
	[RT_START_LIST_DRIVER] = "Start times by driver or rider",
	[RT_START_LIST_GATE] = "Gate list",
	[RT_START_LIST_ANNOUNCER] = "Announcer's list",
	[RT_START_LIST_STEWARD] = "Steward's list",
};

/* ---- what each list shows -------------------------------------------------------------------- */

#define TIME_NUMBER                                                                                \
	{.name = "time", .head = "Time", .anchor = RT_ANCHOR_RIGHT},                               \
	{                                                                                          \
		.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT                         \
	}

static const struct rt_list_column ring_columns[] = {
	TIME_NUMBER,
	{.name = "class", .head = "Class"},
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "club", .head = "Club", .if_any = true},
};

static const struct rt_list_column driver_columns[] = {
	{.name = "driver", .head = "Driver or rider"},
	{.name = "time", .head = "Time", .anchor = RT_ANCHOR_RIGHT},
	{.name = "ring", .head = "Ring"},
	{.name = "class", .head = "Class"},
	{.name = "number", .head = "No.", .anchor = RT_ANCHOR_RIGHT},
	{.name = "horses", .head = "Horses"},
};

static const struct rt_list_column gate_columns[] = {
	TIME_NUMBER,
	{.name = "driver", .head = "Driver or rider"},
	{.name = "turnout", .head = "Turnout", .if_any = true},
	{.head = "Called", .box_mm = 14.0, .with = "number"},
	{.head = "In", .box_mm = 14.0, .with = "number"},
	{.head = "Out", .box_mm = 14.0, .with = "number"},
};

static const struct rt_list_column announcer_columns[] = {
	TIME_NUMBER,
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "groom", .head = "Groom", .if_any = true},
	{.name = "club", .head = "Club", .if_any = true},
	{.name = "class", .head = "Class"},
};

static const struct rt_list_column steward_columns[] = {
	TIME_NUMBER,
	{.name = "driver", .head = "Driver or rider"},
	{.name = "horses", .head = "Horses"},
	{.name = "groom", .head = "Groom", .if_any = true},
	{.head = "Before", .box_mm = 12.0, .with = "number"},
	{.head = "After", .box_mm = 12.0, .with = "number"},
	{.head = "Remarks", .box_mm = 22.0, .with = "number"},
};

static const struct {
	const struct rt_list_column *column;
	size_t columns;
} shown[] = {
	[RT_START_LIST_RING] = {ring_columns, COUNT(ring_columns)},
	[RT_START_LIST_DRIVER] = {driver_columns, COUNT(driver_columns)},
	[RT_START_LIST_GATE] = {gate_columns, COUNT(gate_columns)},
	[RT_START_LIST_ANNOUNCER] = {announcer_columns, COUNT(announcer_columns)},
	[RT_START_LIST_STEWARD] = {steward_columns, COUNT(steward_columns)},
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

/* A table of lines under a heading. */
static struct rt_table *add_table(struct rt_report *report, const char *heading)
{
	struct rt_table *t = rt_report_rows(report, &line_record);

	rt_table_title(t, heading);
	return t;
}

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

static bool same_list(const struct rt_start *a, const struct rt_start *b)
{
	return rt_day_of(a->at_s) == rt_day_of(b->at_s) && strcmp(a->ring, b->ring) == 0;
}

/* The starts by day and ring, in the order of time inside. */
static int by_ring(const void *left, const void *right)
{
	const struct rt_start *a = *(const struct rt_start *const *)left;
	const struct rt_start *b = *(const struct rt_start *const *)right;
	int64_t day_a = rt_day_of(a->at_s), day_b = rt_day_of(b->at_s);
	int ring = strcmp(a->ring, b->ring);

	if (day_a != day_b)
		return day_a < day_b ? -1 : 1;
	if (ring)
		return ring;
	if (a->at_s != b->at_s)
		return a->at_s < b->at_s ? -1 : 1;
	return (a->entry->number > b->entry->number) - (a->entry->number < b->entry->number);
}

static void ring_tables(struct rt_report *report, const struct rt_times_paper *of,
			const struct rt_start *const *start, size_t n)
{
	struct rt_table *t = NULL;
	char heading[WORDS_BYTES], date[RT_DAY_SIZE];

	for (size_t i = 0; i < n; i++) {
		bool last = i + 1 == n || !same_list(start[i], start[i + 1]);

		if (i == 0 || !same_list(start[i], start[i - 1])) {
			*heading = '\0';
			rt_day_after(of->first_day, rt_day_of(start[i]->at_s) - 1, date);
			rt__add_words(heading, sizeof heading, "%s, %s (day %lld), version %lld",
				      start[i]->ring, date, (long long)rt_day_of(start[i]->at_s),
				      (long long)version_of(of, start[i]));
			t = add_table(report, heading);
		}
		put_start(t, start[i]);
		if (start[i]->pause != RT_PAUSE_NONE && !last)
			put_pause(t, start[i]);
	}
}

/* A start with the driver's name folded, for order. */
struct named {
	const struct rt_start *start;
	char *name;
};

static int by_name(const void *left, const void *right)
{
	const struct named *a = left, *b = right;
	int64_t day_a = rt_day_of(a->start->at_s), day_b = rt_day_of(b->start->at_s);
	int name = strcmp(a->name, b->name);

	if (day_a != day_b)
		return day_a < day_b ? -1 : 1;
	return name ? name : (a->start->at_s > b->start->at_s) - (a->start->at_s < b->start->at_s);
}

static enum rt_err driver_tables(struct rt_report *report, const struct rt_times_paper *of,
				 const struct rt_start *const *start, size_t n,
				 struct rt_error *err)
{
	struct named *named = calloc(n + 1, sizeof *named);
	enum rt_err e = named ? RT_OK : rt_fail_nomem(err);
	struct rt_table *t = NULL;

	for (size_t i = 0; i < n && !e; i++) {
		named[i] = (struct named){start[i], rt_fold(start[i]->entry->driver)};
		if (!named[i].name)
			e = rt_fail_nomem(err);
	}
	if (!e)
		qsort(named, n, sizeof *named, by_name);
	for (size_t i = 0; i < n && !e; i++) {
		int64_t day = rt_day_of(named[i].start->at_s);
		char heading[80], date[RT_DAY_SIZE];

		rt_day_after(of->first_day, day - 1, date);
		snprintf(heading, sizeof heading, "%s (day %lld)", date, (long long)day);
		if (i == 0 || day != rt_day_of(named[i - 1].start->at_s))
			t = add_table(report, heading);
		put_start(t, named[i].start);
	}
	for (size_t i = 0; named && i < n; i++)
		free(named[i].name);
	free(named);
	return e;
}

/* ---- the paper ------------------------------------------------------------------------------- */

static enum rt_err write_list(struct rt_sheet *out, const struct rt_times_paper *of,
			      const struct rt_report *report,
			      const struct rt_sheet_options *options, struct rt_error *err)
{
	static const char *const last = "The list put up last holds: compare the version.";
	struct rt_list_section *section = calloc(report->tables + 1, sizeof *section);
	struct rt_list_paper paper = {.title = list_titles[of->list],
				      .line = {options->show, of->about, last},
				      .section = section,
				      .sections = report->tables};
	enum rt_err e;

	if (!section)
		return rt_fail_nomem(err);
	if (of->list == RT_START_LIST_STEWARD)
		paper.signature = "Steward:";
	for (size_t i = 0; i < report->tables; i++)
		section[i] = (struct rt_list_section){.heading = report->table[i]->title,
						      .table = report->table[i],
						      .column = shown[of->list].column,
						      .columns = shown[of->list].columns,
						      .new_page = of->list != RT_START_LIST_DRIVER};
	e = rt_sheet_list(out, &paper, options, err);
	free(section);
	return e;
}

enum rt_err rt_sheet_times(struct rt_sheet *out, const struct rt_times_paper *of,
			   const struct rt_sheet_options *options, struct rt_error *err)
{
	size_t n = of->starts->n;
	const struct rt_start **start = calloc(n + 1, sizeof(void *));
	struct rt_report report = {0};
	enum rt_err e = start ? RT_OK : rt_fail_nomem(err);

	for (size_t i = 0; i < n && !e; i++)
		start[i] = &of->starts->at[i];
	if (!e && of->list == RT_START_LIST_DRIVER) {
		e = driver_tables(&report, of, start, n, err);
	} else if (!e) {
		qsort(start, n, sizeof(void *), by_ring);
		ring_tables(&report, of, start, n);
	}
	if (!e)
		e = rt_report_result(&report, err);
	if (!e)
		e = write_list(out, of, &report, options, err);
	rt_report_free(&report);
	free(start);
	return e;
}
