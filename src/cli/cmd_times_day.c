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
	int64_t version;
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

static enum rt_err copy_starts(struct cli *c, const struct rt_starts *from, struct rt_starts *to)
{
	for (size_t i = 0; i < from->n; i++) {
		struct rt_start *s = RT_LIST_ADD(to);

		if (!s)
			return rt_fail_nomem(&c->err);
		*s = from->at[i];
	}
	return RT_OK;
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

static void put_time(struct rt_table *t, const struct rt_start *s)
{
	char words[16];

	if (!s) {
		rt_put_null(t);
		return;
	}
	rt_time_words(s->at_s, rt_day_of(s->at_s), words, sizeof words);
	rt_put_text(t, words);
}

static void report_moved(struct cli *c, const struct day_change *d)
{
	static const struct rt_field columns[] = {
		{"day", "day", RT_INT, RT_NO_UNIT, 0, false},
		{"ring", "ring", RT_TEXT, RT_NO_UNIT, 0, false},
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
		{"driver", "driver", RT_TEXT, RT_NO_UNIT, 0, false},
		{"was", "was", RT_TEXT, RT_NO_UNIT, 0, false},
		{"start", "start", RT_TEXT, RT_NO_UNIT, 0, false},
		{"was_ring", "was in", RT_TEXT, RT_NO_UNIT, 0, true},
		{"was_day", "was on day", RT_INT, RT_NO_UNIT, 0, true},
	};
	struct rt_table *t = rt_report_table(&c->report, "moved", "Moved", columns, 9);

	for (size_t i = 0; i < d->after.n; i++) {
		const struct rt_start *now = &d->after.at[i];
		const struct rt_start *was = start_of(&d->in.starts, now->entry);

		if (!has_moved(was, now))
			continue;
		rt_put_int(t, rt_day_of(now->at_s));
		rt_put_text(t, now->ring);
		rt_put_text(t, now->entry->class_name);
		rt_put_int(t, now->entry->number);
		rt_put_text(t, now->entry->driver);
		put_time(t, was);
		put_time(t, now);
		rt_put_text(t, was ? was->ring : NULL);
		if (was)
			rt_put_int(t, rt_day_of(was->at_s));
		else
			rt_put_null(t);
	}
}

/* The lists to print again. */
static enum rt_err report_lists(struct cli *c, const struct day_change *d)
{
	static const struct rt_field columns[] = {
		{"list", "list", RT_TEXT, RT_NO_UNIT, 0, false},
		{"day", "day", RT_INT, RT_NO_UNIT, 0, false},
		{"version", "version", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_list_versions versions = {0};
	struct rt_table *t = rt_report_table(&c->report, "lists", "Lists that change", columns, 3);
	enum rt_err e = rt_store_list_versions(c->store, &versions, &c->err);

	for (size_t i = 0; i < versions.n && !e; i++) {
		const struct rt_list_version *v = &versions.at[i];

		if (v->version != d->version)
			continue;
		rt_put_textf(t, "%s%s", v->ring ? "" : "class ", v->ring ? v->ring : v->class_name);
		if (v->day)
			rt_put_int(t, v->day);
		else
			rt_put_null(t);
		rt_put_int(t, v->version);
	}
	RT_LIST_FREE(&versions);
	return e;
}

/* Keep what was changed and tell all of it; new collisions only. */
static enum rt_err keep_change(struct cli *c, const struct cli_call *call, const char *what,
			       struct day_change *d)
{
	const struct rt_times_note note = {.what = what,
					   .words = d->words,
					   .why = cli_option(call, "why"),
					   .who = cli_option(call, "by"),
					   .when = c->when};
	enum rt_err e = cli_clashes(c, &d->in, &d->in.starts, &d->clashes_before);

	if (!e)
		e = cli_clashes(c, &d->in, &d->after, &d->clashes_after);
	if (!e)
		e = rt_clashes_new(&d->clashes_new, &d->clashes_before, &d->clashes_after, &c->err);
	if (!e)
		e = rt_store_times_put(c->store, &note, NULL, &d->after, NULL, 0, &d->version,
				       &c->err);
	if (e)
		return e;
	report_moved(c, d);
	rt_clashes_report(&c->report, &d->clashes_new);
	e = report_lists(c, d);
	rt_report_note(&c->report, "%s: version %lld of the times.", d->words,
		       (long long)d->version);
	if (d->clashes_new.n < d->clashes_after.n)
		rt_report_note(&c->report,
			       "Collisions that were there before: %zu (`times check`).",
			       d->clashes_after.n - d->clashes_new.n);
	return e;
}

static enum rt_err read_day(struct cli *c, const struct cli_call *call, int64_t *day)
{
	const char *typed = cli_option(call, "day");

	return typed ? cli_whole(c, "--day", typed, 1, RT_DAYS_MOST, day) : RT_OK;
}

/* ---- move -------------------------------------------------------------------------------- */

/* The ring of the start as it is, else that of --ring, else that of its class's other starts. */
static enum rt_err ring_for(struct cli *c, const struct cli_call *call, const struct cli_times *in,
			    const struct rt_entry *entry, const char **ring, int64_t *day)
{
	const struct rt_start *was = start_of(&in->starts, entry);
	const char *typed = cli_option(call, "ring");

	for (size_t i = 0; i < in->starts.n && !was; i++)
		if (strcmp(in->starts.at[i].entry->class_name, entry->class_name) == 0)
			was = &in->starts.at[i];
	if (was) {
		*ring = was->ring;
		*day = rt_day_of(was->at_s);
	}
	if (typed)
		return cli_ring_named(c, &in->roster.rings, typed, ring);
	if (was)
		return RT_OK;
	return rt_fail(&c->err, RT_E_INPUT,
		       "class %s has no start times yet: `times plan` makes them",
		       entry->class_name);
}

/* Change the times as they stand, and keep what came of it; `what` names the change. */
static enum rt_err change_day(struct cli *c, const struct cli_call *call, const char *what,
			      enum rt_err (*change)(struct cli *c, const struct cli_call *call,
						    struct day_change *d))
{
	struct day_change d = {0};
	enum rt_err e = cli_reasons(c, call);

	if (!e)
		e = cli_times_read(c, true, &d.in);
	if (!e)
		e = copy_starts(c, &d.in.starts, &d.after);
	if (!e)
		e = change(c, call, &d);
	if (!e)
		e = keep_change(c, call, what, &d);
	day_change_free(&d);
	return e;
}

static enum rt_err move(struct cli *c, const struct cli_call *call, struct day_change *d)
{
	const struct rt_entry *entry;
	const char *ring = NULL;
	int64_t day = 1, at_s = 0;
	char at[16];
	enum rt_err e = cli_time_typed(c, "TIME", call->arg[2], &at_s);

	if (!e)
		e = cli_entry_typed(c, &d->in.entries, &d->in.roster.classes, call->arg[0],
				    call->arg[1], &entry);
	if (!e && entry->status != RT_ENTERED)
		e = rt_fail(&c->err, RT_E_INPUT, "number %lld of class %s is %s",
			    (long long)entry->number, entry->class_name,
			    rt_status_words(entry->status));
	if (!e)
		e = ring_for(c, call, &d->in, entry, &ring, &day);
	if (!e)
		e = read_day(c, call, &day);
	if (e)
		return e;
	rt_time_words(at_s, 1, at, sizeof at);
	snprintf(d->words, sizeof d->words,
		 "Number %lld of class %s starts at %s in %s on day %lld", (long long)entry->number,
		 entry->class_name, at, ring, (long long)day);
	return rt_times_move(&d->after, entry, ring, (day - 1) * RT_DAY_S + at_s, 0,
			     d->in.settings.change_s, &c->err);
}

static enum rt_err times_move(struct cli *c, const struct cli_call *call)
{
	return change_day(c, call, "move", move);
}

const struct cli_command cmd_times_move = {
	.group = "Times",
	.name = "times move",
	.args = "CLASS NUMBER TIME",
	.summary = "Give one entry another start time, or a late one its first.",
	.details =
		"Who has that time, and those behind in the ring, move only as far as they must;\n"
		"nobody starts earlier than before. Told are who moved, new collisions, and the\n"
		"lists that change. The day and the ring stay, unless they are given.",
	.example = "--show spring.show times move 1 12 14:30",
	.old_option = {{"day", "N", "the day of the show", false},
		       {"ring", "NAME", "the ring", false},
		       {"why", "TEXT", "the reason", false},
		       {"by", "WHO", "who said so", false}},
	.old_min_args = 3,
	.old_max_args = 3,
	.old_run = times_move,
};

/* ---- late -------------------------------------------------------------------------------- */

/* The number of a day YYYY-MM-DD, counted from some day (Fliegel and Van Flandern, Communications
 * of the ACM 11, 1968, for a year that begins in March). */
static int64_t day_number(const char *day)
{
	int64_t year = (day[0] - '0') * 1000 + (day[1] - '0') * 100 + (day[2] - '0') * 10 +
		       (day[3] - '0');
	int64_t month = (day[5] - '0') * 10 + (day[6] - '0');
	int64_t early = month < 3 ? 1 : 0, y = year - early, m = month + 12 * early - 3;

	return 365 * y + y / 4 - y / 100 + y / 400 + (153 * m + 2) / 5 + (day[8] - '0') * 10 +
	       (day[9] - '0');
}

/* The day that --date says it is, as a day of the show; 1 where it is none of them. */
static enum rt_err today(struct cli *c, int64_t *day)
{
	struct rt_show show = {0};
	enum rt_err e = rt_store_show(c->store, &show, &c->err);

	if (!e)
		*day = day_number(c->when) - day_number(show.day) + 1;
	if (*day < 1 || *day > RT_DAYS_MOST)
		*day = 1;
	rt_show_free(&show);
	return e;
}

static enum rt_err late(struct cli *c, const struct cli_call *call, struct day_change *d)
{
	const char *from = cli_option(call, "from"), *ring;
	int64_t minutes, day = 1, from_s = 0;
	char words[16];
	enum rt_err e = cli_ring_named(c, &d->in.roster.rings, call->arg[0], &ring);

	if (!e)
		e = cli_whole(c, "MINUTES", call->arg[1], 1, 600, &minutes);
	if (!e)
		e = cli_time_typed(c, "--from", from, &from_s);
	if (!e)
		e = today(c, &day);
	if (!e)
		e = read_day(c, call, &day);
	if (e)
		return e;
	rt_time_words(from_s, 1, words, sizeof words);
	snprintf(d->words, sizeof d->words, "%s is %lld minutes late on day %lld%s%s", ring,
		 (long long)minutes, (long long)day, from ? " from " : "", from ? words : "");
	return rt_times_late(&d->after, ring, (day - 1) * RT_DAY_S + from_s, minutes * 60,
			     d->in.settings.change_s, &c->err);
}

static enum rt_err times_late(struct cli *c, const struct cli_call *call)
{
	return change_day(c, call, "late", late);
}

const struct cli_command cmd_times_late = {
	.group = "Times",
	.name = "times late",
	.args = "RING MINUTES",
	.summary = "Say that a ring is late: what must move moves.",
	.details =
		"The next start at or after --from moves by so much, those behind it only as far as\n"
		"they must: waits and time to spare between classes take lateness up, breaks do not.\n"
		"The day is --day, else the one that --date says it is. Other rings stay as they are:\n"
		"new collisions with them are told.",
	.example = "--show spring.show times late \"Oak ring\" 20 --from 9:30 --why \"thunder\"",
	.old_option = {{"from", "TIME", "the first start that moves (default: the day's first)",
			false},
		       {"day", "N", "the day of the show", false},
		       {"why", "TEXT", "the reason", false},
		       {"by", "WHO", "who said so", false}},
	.old_min_args = 2,
	.old_max_args = 2,
	.old_run = times_late,
};
