/* times move, late, back and undo: changes on the day, with the lists that change.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <stdlib.h>
#include <string.h>

/* A change on the day.  Start it zeroed. */
struct day_change {
	struct cli_times in;
	struct rt_starts after;
	struct rt_clashes clashes_before, clashes_after, clashes_new;
	struct rt_time_settings settings; /* of a version that comes back, with its plan's */
	int64_t *gone;			  /* entries that have no start any more */
	size_t gone_n;
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
		const struct rt_start *was = cli_start_of(&d->in.starts, now->entry);
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

/* Keep what was changed and tell all of it; new collisions only.  settings: of a version that
 * comes back; NULL: they stay. */
static void keep_change(struct cli *c, struct day_change *d, struct rt_times_note note,
			const struct rt_time_settings *settings)
{
	int64_t version = 0;

	note.words = d->words;
	note.when = c->when;
	cli_clashes(c, &d->in, &d->in.starts, &d->clashes_before);
	cli_clashes(c, &d->in, &d->after, &d->clashes_after);
	CLI_DO(c, rt_clashes_new(&d->clashes_new, &d->clashes_before, &d->clashes_after, &c->err));
	CLI_DO(c, rt_store_times_put(c->store, &note, settings, &d->after, d->gone, d->gone_n,
				     &version, &c->err));
	report_moved(c, d);
	rt_clashes_report(&c->report, &d->clashes_new);
	rt_report_note(&c->report, "%s: version %lld of the times.", d->words, (long long)version);
	if (d->clashes_new.n < d->clashes_after.n)
		rt_report_note(&c->report,
			       "Collisions that were there before: %zu (`times check`).",
			       d->clashes_after.n - d->clashes_new.n);
	cli_report_lists(c, "Lists that change", &(struct cli_narrowing){0}, version);
}

#define DAY_OPTION(type_)                                                                          \
	{                                                                                          \
		"day", RT_AT(type_, day), .head = "N", .type = RT_INT, .low = 1,                   \
					  .high = RT_DAYS_MOST, .help = "the day of the show"      \
	}

/* ---- move -------------------------------------------------------------------------------- */

static const struct rt_field times_move_options[] = {
	CLI_CLASS(struct cli_times_move, class_name),
	CLI_NUMBER(struct cli_times_move, number),
	{"time", RT_AT(struct cli_times_move, at_s), CLI_TIME, .is = RT_ARGUMENT | RT_REQUIRED},
	DAY_OPTION(struct cli_times_move),
	{"ring", RT_AT(struct cli_times_move, ring), .head = "NAME", .type = RT_NAME,
	 .help = "the ring"},
	CLI_WHY(struct cli_times_move, why, 0),
	CLI_BY(struct cli_times_move, by, 0),
};

/* The ring and the day of the start as it is, or else of its class's other starts; typed ones
 * before them. */
static void find_place(struct cli *c, struct cli_times_move *o, const struct cli_times *in,
		       const struct rt_entry *entry)
{
	const struct rt_start *was = cli_start_of(&in->starts, entry);

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

static void move(struct cli *c, struct cli_times_move *o, struct day_change *d)
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

void cli_times_move(struct cli *c, const struct cli_times_move *asked)
{
	struct cli_times_move o = *asked;
	struct day_change d = {0};

	move(c, &o, &d);
	keep_change(c, &d, (struct rt_times_note){.what = "move", .why = o.why, .who = o.by}, NULL);
	day_change_free(&d);
}

static void times_move(struct cli *c, const void *typed)
{
	cli_times_move(c, typed);
}

const struct cli_command cmd_times_move = {
	.name = "times move",
	.summary = "Give one entry another start time, or a late one its first.",
	.details =
		"Who has that time, and those behind in the ring, move only as far as they must;\n"
		"nobody starts earlier than before. Told are who moved, new collisions, and the\n"
		"lists that change. The day and the ring stay, unless they are given.",
	.example = "--show spring.show times move 1 12 14:30",
	CLI_OPTIONS(struct cli_times_move, times_move_options),
	.table = {&moved_table, &cli_lists_table},
	.run = times_move,
	.lists = true,
};

/* ---- late -------------------------------------------------------------------------------- */

/* The day that --date says it is, as a day of the show; any other has to be told. */
static int64_t today(struct cli *c, const struct cli_times *in)
{
	struct cli_now now = cli_show_now(c, in);
	char last[RT_DAY_SIZE];

	if (!now.day && !c->err.code) {
		rt_day_after(now.first_day, now.days - 1, last);
		CLI_FAIL(c, RT_E_INPUT,
			 "%.10s is no day of the show, which is from %s (day 1) to %s (day %lld): "
			 "--day says which one is meant",
			 c->when, now.first_day, last, (long long)now.days);
	}
	return now.day;
}

#define LATE_TWICE_S 600

/* Seconds from one moment to another, YYYY-MM-DD HH:MM:SS; many where there is no such moment. */
static int64_t seconds_between(const char *from, const char *to)
{
	int64_t from_s = 0, to_s = 0;

	if (!from || strlen(from) < 12 || !rt_time_read(from + 11, &from_s) ||
	    !rt_time_read(to + 11, &to_s))
		return INT64_MAX;
	return (rt_day_number(to) - rt_day_number(from)) * RT_DAY_S + to_s - from_s;
}

/* Two desks that hear of one delay say it twice.  What was taken back since can be said again. */
static void refuse_twice(struct cli *c, const char *ring)
{
	struct rt_times_notes notes = {0};

	CLI_DO(c, rt_store_times_changes(c->store, &notes, &c->err));
	for (size_t i = notes.n; i-- > 0 && !c->err.code;) {
		const struct rt_times_note *n = &notes.at[i];

		if (strcmp(n->what, "back") == 0)
			break;
		if (n->ring && strcmp(n->ring, ring) == 0 &&
		    llabs(seconds_between(n->when, c->when)) <= LATE_TWICE_S)
			CLI_FAIL(c, RT_E_INPUT,
				 "that was said already, at %.5s%s%s: %s (version %lld); --more "
				 "makes it later still",
				 n->when + 11, n->who ? " by " : "", n->who ? n->who : "", n->words,
				 (long long)n->version);
	}
	RT_LIST_FREE(&notes);
}

struct times_late {
	const char *ring, *why, *by;
	int64_t minutes, from_s, day;
	bool more;
};

static const struct rt_field times_late_options[] = {
	{"ring", RT_AT(struct times_late, ring), .type = RT_NAME, .is = RT_ARGUMENT | RT_REQUIRED},
	{"minutes", RT_AT(struct times_late, minutes), .type = RT_INT, .low = 1, .high = 600,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	{"from", RT_AT(struct times_late, from_s), CLI_TIME,
	 .help = "the first start that moves (default: the day's first)"},
	DAY_OPTION(struct times_late),
	{"more", RT_AT(struct times_late, more), .type = RT_BOOL,
	 .help = "later still than was said within the last ten minutes"},
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
	day = o->day ? o->day : today(c, &d.in);
	if (!o->more && !c->err.code)
		refuse_twice(c, ring);
	rt_time_words(o->from_s, 1, at, sizeof at);
	snprintf(d.words, sizeof d.words, "%s is %lld minutes late on day %lld%s%s", ring,
		 (long long)o->minutes, (long long)day, from ? " from " : "", from ? at : "");
	CLI_DO(c, rt_times_late(&d.after, ring, (day - 1) * RT_DAY_S + o->from_s, o->minutes * 60,
				d.in.settings.change_s, &c->err));
	keep_change(
		c, &d,
		(struct rt_times_note){.what = "late", .ring = ring, .why = o->why, .who = o->by},
		NULL);
	day_change_free(&d);
}

const struct cli_command cmd_times_late = {
	.name = "times late",
	.summary = "Say that a ring is late: what must move moves.",
	.details =
		"The next start at or after --from moves by so much, those behind it only as far as\n"
		"they must: waits and time to spare between classes take lateness up, breaks do not.\n"
		"The day is --day, else the one that --date says it is. Other rings stay as they are:\n"
		"new collisions with them are told. What was said of the ring within ten minutes is\n"
		"refused, as two desks may have heard the same: --more moves it once more.",
	.example =
		"--show spring.show times late \"Oak ring\" 20 --day 1 --from 9:30 --why \"thunder\"",
	CLI_OPTIONS(struct times_late, times_late_options),
	.table = {&moved_table, &cli_lists_table},
	.run = times_late,
	.lists = true,
};

/* ---- back to an earlier version ---------------------------------------------------------- */

/* A start that is just as it is now is not kept again. */
static void mark_returned(struct day_change *d)
{
	for (size_t i = 0; i < d->after.n; i++) {
		struct rt_start *then = &d->after.at[i];
		const struct rt_start *now = cli_start_of(&d->in.starts, then->entry);

		if (!now || now->version != then->version)
			then->version = 0;
	}
}

static void find_gone(struct cli *c, struct day_change *d)
{
	d->gone = cli_array(c, d->in.starts.n, sizeof *d->gone);
	for (size_t i = 0; d->gone && i < d->in.starts.n; i++)
		if (!cli_start_of(&d->after, d->in.starts.at[i].entry))
			d->gone[d->gone_n++] = d->in.starts.at[i].entry->id;
}

/* The latest version, or 0. */
static int64_t last_version(struct cli *c)
{
	struct rt_times_notes notes = {0};
	int64_t last = 0;

	CLI_DO(c, rt_store_times_changes(c->store, &notes, &c->err));
	if (notes.n)
		last = notes.at[notes.n - 1].version;
	RT_LIST_FREE(&notes);
	return last;
}

/* Back to a version; 0: to the last but one. */
static void go_back(struct cli *c, int64_t version, const char *why, const char *by)
{
	const struct rt_entries *entries;
	struct day_change d = {0};
	bool planned = false;
	int64_t last;

	cli_times_read(c, true, &d.in);
	entries = cli_entries(c);
	last = last_version(c);
	version = version ? version : last - 1;
	if (version < 1 || version >= last)
		CLI_FAIL(c, RT_E_INPUT,
			 last > 1 ? "the times stand at version %lld: 1 to %lld are before it"
				  : "the times have no version before this one",
			 (long long)last, (long long)last - 1);
	CLI_DO(c, rt_store_times_of(c->store, version, entries, &d.after, &c->err));
	CLI_DO(c, rt_store_time_settings(c->store, version, &d.settings, &planned, &c->err));
	mark_returned(&d);
	find_gone(c, &d);
	snprintf(d.words, sizeof d.words, "Back to version %lld", (long long)version);
	keep_change(c, &d, (struct rt_times_note){.what = "back", .why = why, .who = by},
		    planned ? &d.settings : NULL);
	if (d.gone_n)
		rt_report_note(&c->report, "%zu entries have no start time any more.", d.gone_n);
	day_change_free(&d);
}

struct times_back {
	int64_t version;
	const char *why, *by;
};

static const struct rt_field times_back_options[] = {
	{"version", RT_AT(struct times_back, version), .type = RT_INT, .low = 1, .high = INT32_MAX,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	CLI_WHY(struct times_back, why, 0),
	CLI_BY(struct times_back, by, 0),
};

static void times_back(struct cli *c, const void *typed)
{
	const struct times_back *o = typed;

	go_back(c, o->version, o->why, o->by);
}

const struct cli_command cmd_times_back = {
	.name = "times back",
	.summary = "Bring an earlier version of the start times back.",
	.details = "As a new version: nothing is lost, and `times history` lists them all. Who\n"
		   "withdrew since stays withdrawn.",
	.example = "--show spring.show times back 1 --why \"the ring is dry again\"",
	CLI_OPTIONS(struct times_back, times_back_options),
	.table = {&moved_table, &cli_lists_table},
	.run = times_back,
	.lists = true,
};

static const struct rt_field times_undo_options[] = {
	CLI_WHY(struct times_back, why, 0),
	CLI_BY(struct times_back, by, 0),
};

const struct cli_command cmd_times_undo = {
	.name = "times undo",
	.summary = "Take the last change of the start times back.",
	.details =
		"The version before it comes back as a new one, so that a second undo brings the\n"
		"change back.",
	.example = "--show spring.show times undo --why \"said twice\"",
	CLI_OPTIONS(struct times_back, times_undo_options),
	.table = {&moved_table, &cli_lists_table},
	.run = times_back,
	.lists = true,
};
