/* times move and times late: changes on the day, with the lists that change.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <string.h>

/* A change on the day.  Start it zeroed. */
struct day_change {
	struct cli_times in;
	struct rt_starts after;
	struct rt_clashes clashes_before, clashes_after, clashes_new;
	char words[RT_NAME_MOST * 4 + 200];
};

static void day_change_free(struct day_change *d)
{
	RT_LIST_FREE(&d->clashes_new);
	RT_LIST_FREE(&d->clashes_before);
	RT_LIST_FREE(&d->clashes_after);
	RT_LIST_FREE(&d->after);
	cli_times_free(&d->in);
}

/* Read the show, and the times as they stand to be changed. */
static void read_times(struct cli *c, struct day_change *d)
{
	cli_times_read(c, true, &d->in);
	for (size_t i = 0; i < d->in.starts.n; i++)
		CLI_ADD(c, &d->after, d->in.starts.at[i]);
}

/* ---- what moved -------------------------------------------------------------------------- */

static const struct rt_start *start_of(const struct rt_starts *starts, const struct rt_entry *entry)
{
	for (size_t i = 0; i < starts->n; i++)
		if (starts->at[i].entry == entry)
			return &starts->at[i];
	return NULL;
}

static bool has_moved(const struct rt_start *was, const struct rt_start *now)
{
	return !was || was->at_s != now->at_s || strcmp(was->ring, now->ring) != 0;
}

struct moved_row {
	const struct rt_start *start;
	const struct rt_entry *entry;
	const char *was_ring;
	int64_t day, was_day;
	char at[16], was[16];
};

#define MOVED(member) RT_AT(struct moved_row, member)
#define ENTRY(member) RT_IN(struct moved_row, entry, struct rt_entry, member)

static const struct rt_field moved_fields[] = {
	{"day", MOVED(day), .type = RT_INT},
	{"ring", RT_IN(struct moved_row, start, struct rt_start, ring)},
	{"class", ENTRY(class_name)},
	{"number", .head = "no.", ENTRY(number), .type = RT_INT},
	{"driver", ENTRY(driver)},
	{"was", MOVED(was), .type = RT_CHARS},
	{"start", MOVED(at), .type = RT_CHARS},
	{"was_ring", .head = "was in", MOVED(was_ring), .wide = true},
	{"was_day", .head = "was on day", MOVED(was_day), .type = RT_INT, .is = RT_EMPTY,
	 .wide = true},
};

static const struct rt_record moved_table = RT_TABLE("moved", "Moved", moved_fields,
						     struct moved_row);

static void report_moved(struct cli *c, const struct day_change *d)
{
	struct rt_table *t = rt_report_rows(&c->report, &moved_table);

	for (size_t i = 0; i < d->after.n; i++) {
		const struct rt_start *now = &d->after.at[i];
		const struct rt_start *was = start_of(&d->in.starts, now->entry);
		struct moved_row row = {
			.start = now, .entry = now->entry, .day = rt_day_of(now->at_s)};

		if (!has_moved(was, now))
			continue;
		rt_time_words(now->at_s, row.day, row.at, sizeof row.at);
		if (was) {
			row.was_ring = was->ring;
			row.was_day = rt_day_of(was->at_s);
			rt_time_words(was->at_s, row.was_day, row.was, sizeof row.was);
		}
		rt_put_row(t, &row);
	}
}

/* Printed lists, looked at with the times as they are now. */
static void report_stale(struct cli *c, struct day_change *d)
{
	struct rt_starts before = d->in.starts;

	d->in.starts = d->after;
	cli_report_stale(c, &d->in);
	d->in.starts = before;
}

/* Keep what was changed and tell all of it; new collisions only. */
static void keep_change(struct cli *c, struct day_change *d, struct rt_times_note note)
{
	int64_t version = 0;

	note.words = d->words;
	note.when = c->when;
	cli_clashes(c, &d->in, &d->in.starts, &d->clashes_before);
	cli_clashes(c, &d->in, &d->after, &d->clashes_after);
	CLI_DO(c, rt_clashes_new(&d->clashes_new, &d->clashes_before, &d->clashes_after, &c->err));
	CLI_DO(c, rt_store_times_put(c->store, &note, NULL, &d->after, NULL, 0, &version, &c->err));
	report_moved(c, d);
	rt_clashes_report(&c->report, &d->clashes_new);
	rt_report_note(&c->report, "%s: version %lld of the times.", d->words, (long long)version);
	if (d->clashes_new.n < d->clashes_after.n)
		rt_report_note(&c->report,
			       "Collisions that were there before: %zu (`times check`).",
			       d->clashes_after.n - d->clashes_new.n);
	cli_report_lists(c, "Lists that change", &(struct cli_narrowing){0}, version);
	report_stale(c, d);
}

#define DAY_OPTION(type_)                                                                          \
	{                                                                                          \
		"day", RT_AT(type_, day), .head = "N", .type = RT_INT, .low = 1,                   \
					  .high = RT_DAYS_MOST, .help = "the day of the show"      \
	}

/* ---- move -------------------------------------------------------------------------------- */

struct times_move {
	const char *class_name, *ring, *why, *by;
	int64_t number, at_s, day;
};

static const struct rt_field times_move_options[] = {
	CLI_CLASS(struct times_move, class_name),
	CLI_NUMBER(struct times_move, number),
	{"time", RT_AT(struct times_move, at_s), CLI_TIME, .is = RT_ARGUMENT | RT_REQUIRED},
	DAY_OPTION(struct times_move),
	{"ring", RT_AT(struct times_move, ring), .head = "NAME", .type = RT_NAME,
	 .help = "the ring"},
	CLI_WHY(struct times_move, why, 0),
	CLI_BY(struct times_move, by, 0),
};

/* The ring and the day of the start as it is, or else of its class's other starts; typed ones
 * before them. */
static void find_place(struct cli *c, struct times_move *o, const struct cli_times *in,
		       const struct rt_entry *entry)
{
	const struct rt_start *was = start_of(&in->starts, entry);

	for (size_t i = 0; i < in->starts.n && !was; i++)
		if (strcmp(in->starts.at[i].entry->class_name, entry->class_name) == 0)
			was = &in->starts.at[i];
	if (!o->day)
		o->day = was ? rt_day_of(was->at_s) : 1;
	if (o->ring)
		cli_ring_named(c, o->ring, &o->ring);
	else if (was)
		o->ring = was->ring;
	else
		CLI_FAIL(c, RT_E_INPUT, "class %s has no start times yet: `times plan` makes them",
			 entry->class_name);
}

static void move(struct cli *c, struct times_move *o, struct day_change *d)
{
	const struct rt_entry *entry = NULL;
	char at[16];

	read_times(c, d);
	cli_class(c, o->class_name);
	cli_find_entry(c, cli_entries(c), o->class_name, o->number, &entry);
	if (c->err.code)
		return;
	if (entry->status != RT_ENTERED)
		CLI_FAIL(c, RT_E_INPUT, "number %lld of class %s is %s", (long long)entry->number,
			 entry->class_name, rt_status_words(entry->status));
	find_place(c, o, &d->in, entry);
	if (c->err.code)
		return;
	rt_time_words(o->at_s, 1, at, sizeof at);
	snprintf(d->words, sizeof d->words,
		 "Number %lld of class %s starts at %s in %s on day %lld", (long long)entry->number,
		 entry->class_name, at, o->ring, (long long)o->day);
	CLI_DO(c, rt_times_move(&d->after, entry, o->ring, (o->day - 1) * RT_DAY_S + o->at_s, 0,
				d->in.settings.change_s, &c->err));
}

static void times_move(struct cli *c, const void *typed)
{
	struct times_move o = *(const struct times_move *)typed;
	struct day_change d = {0};

	move(c, &o, &d);
	keep_change(c, &d, (struct rt_times_note){.what = "move", .why = o.why, .who = o.by});
	day_change_free(&d);
}

const struct cli_command cmd_times_move = {
	.name = "times move",
	.summary = "Give one entry another start time, or a late one its first.",
	.details =
		"Who has that time, and those behind in the ring, move only as far as they must;\n"
		"nobody starts earlier than before. Told are who moved, new collisions, and the\n"
		"lists that change. The day and the ring stay, unless they are given.",
	.example = "--show spring.show times move 1 12 14:30",
	CLI_OPTIONS(struct times_move, times_move_options),
	.table = {&moved_table, &cli_lists_table, &cli_stale_table},
	.run = times_move,
};

/* ---- late -------------------------------------------------------------------------------- */

/* The day that --date says it is, as a day of the show; 1 where it is none of them. */
static int64_t today(struct cli *c)
{
	struct rt_show show = {0};
	int64_t day = 0;

	CLI_DO(c, rt_store_show(c->store, &show, &c->err));
	if (!c->err.code)
		day = rt_day_number(c->when) - rt_day_number(show.day) + 1;
	rt_show_free(&show);
	return day >= 1 && day <= RT_DAYS_MOST ? day : 1;
}

struct times_late {
	const char *ring, *why, *by;
	int64_t minutes, from_s, day;
};

static const struct rt_field times_late_options[] = {
	{"ring", RT_AT(struct times_late, ring), .type = RT_NAME, .is = RT_ARGUMENT | RT_REQUIRED},
	{"minutes", RT_AT(struct times_late, minutes), .type = RT_INT, .low = 1, .high = 600,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	{"from", RT_AT(struct times_late, from_s), CLI_TIME,
	 .help = "the first start that moves (default: the day's first)"},
	DAY_OPTION(struct times_late),
	CLI_WHY(struct times_late, why, 0),
	CLI_BY(struct times_late, by, 0),
};

static void times_late(struct cli *c, const void *typed)
{
	const struct times_late *o = typed;
	struct day_change d = {0};
	const char *ring = o->ring;
	bool from = cli_given(c, &o->from_s);
	int64_t day;
	char at[16];

	read_times(c, &d);
	cli_ring_named(c, o->ring, &ring);
	day = o->day ? o->day : today(c);
	rt_time_words(o->from_s, 1, at, sizeof at);
	snprintf(d.words, sizeof d.words, "%s is %lld minutes late on day %lld%s%s", ring,
		 (long long)o->minutes, (long long)day, from ? " from " : "", from ? at : "");
	CLI_DO(c, rt_times_late(&d.after, ring, (day - 1) * RT_DAY_S + o->from_s, o->minutes * 60,
				d.in.settings.change_s, &c->err));
	keep_change(c, &d, (struct rt_times_note){.what = "late", .why = o->why, .who = o->by});
	day_change_free(&d);
}

const struct cli_command cmd_times_late = {
	.name = "times late",
	.summary = "Say that a ring is late: what must move moves.",
	.details =
		"The next start at or after --from moves by so much, those behind it only as far as\n"
		"they must: waits and time to spare between classes take lateness up, breaks do not.\n"
		"The day is --day, else the one that --date says it is. Other rings stay as they are:\n"
		"new collisions with them are told.",
	.example = "--show spring.show times late \"Oak ring\" 20 --from 9:30 --why \"thunder\"",
	CLI_OPTIONS(struct times_late, times_late_options),
	.table = {&moved_table, &cli_lists_table, &cli_stale_table},
	.run = times_late,
};
