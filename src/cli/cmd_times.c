/* times, times list, check and history: the start times as they stand.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

#include <stdlib.h>
#include <string.h>

/* ---- lists ------------------------------------------------------------------------------- */

/* Entries that start but have no time, in classes that have times. */
static void note_untimed(struct cli *c, const struct cli_times *in,
			 const struct cli_narrowing *only)
{
	for (size_t k = 0; k < in->roster.classes.n; k++) {
		const char *name = in->roster.classes.at[k].name;
		struct cli_names numbers = {0};
		bool timed = false;

		for (size_t i = 0; i < in->starts.n; i++)
			timed |= strcmp(in->starts.at[i].entry->class_name, name) == 0;
		if (only->class_name && strcmp(only->class_name, name) != 0)
			continue;
		for (size_t i = 0; i < in->entries.n && timed; i++) {
			const struct rt_entry *e = &in->entries.at[i];
			char number[24];
			size_t s = 0;

			if (e->status != RT_ENTERED || strcmp(e->class_name, name) != 0)
				continue;
			while (s < in->starts.n && in->starts.at[s].entry != e)
				s++;
			snprintf(number, sizeof number, "%lld", (long long)e->number);
			if (s == in->starts.n)
				cli_name(&numbers, number);
		}
		if (numbers.n)
			rt_report_note(&c->report, "Class %s: no start time yet for %s.", name,
				       numbers.text);
	}
}

static enum rt_err report_versions(struct cli *c, const struct cli_narrowing *only)
{
	static const struct rt_field columns[] = {
		{"list", "list", RT_TEXT, RT_NO_UNIT, 0, false},
		{"day", "day", RT_INT, RT_NO_UNIT, 0, false},
		{"version", "version", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_list_versions versions = {0};
	struct rt_table *t = rt_report_table(&c->report, "lists", "Lists", columns, 3);
	enum rt_err e = rt_store_list_versions(c->store, &versions, &c->err);

	for (size_t i = 0; i < versions.n && !e; i++) {
		const struct rt_list_version *v = &versions.at[i];

		if ((v->ring && only->ring && strcmp(v->ring, only->ring) != 0) ||
		    (v->day && only->day && v->day != only->day) ||
		    (v->class_name && only->class_name &&
		     strcmp(v->class_name, only->class_name) != 0))
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

static enum rt_err times_list(struct cli *c, const struct cli_call *call)
{
	struct cli_times in = {0};
	struct cli_narrowing only = {0};
	struct rt_starts wanted = {0};
	struct rt_clashes clashes = {0};
	enum rt_err e = cli_times_read(c, false, &in);

	if (!e)
		e = cli_read_narrowing(c, call, &in, &only);
	if (!e)
		e = cli_narrow(c, &in.starts, &only, &wanted);
	if (!e)
		e = cli_clashes(c, &in, &in.starts, &clashes);
	if (!e) {
		rt_times_report(&c->report, &wanted);
		rt_clashes_report(&c->report, &clashes);
		e = report_versions(c, &only);
		note_untimed(c, &in, &only);
		if (!in.starts.n)
			rt_report_note(&c->report, "No start times yet: `times plan` makes them.");
	}
	RT_LIST_FREE(&clashes);
	RT_LIST_FREE(&wanted);
	cli_times_free(&in);
	return e;
}

#define LIST_OPTIONS                                                                               \
	{                                                                                          \
		{"ring", "NAME", "only of this ring", false},                                      \
			{"class", "CLASS", "only of this class", false},                           \
			{"day", "N", "only of this day of the show", false},                       \
		{                                                                                  \
			"driver", "NAME", "only of a driver or groom, by any part of the name",    \
				false                                                              \
		}                                                                                  \
	}

#define LIST_DETAILS                                                                                \
	"Collisions are those of the whole show: two in one ring, or a driver, horse, groom,\n"     \
	"carriage or judge in two places or without the gap asked for. Each list has the version\n" \
	"of the times that it last changed in."

const struct cli_command cmd_times = {
	.group = "Times",
	.name = "times",
	.args = "",
	.summary = "Show the start times, and what collides.",
	.details = LIST_DETAILS,
	.example = "--show spring.show times",
	.old_option = LIST_OPTIONS,
	.old_run = times_list,
};

const struct cli_command cmd_times_list = {
	.group = "Times",
	.name = "times list",
	.args = "",
	.summary = "The same as times.",
	.details = LIST_DETAILS,
	.example = "--show spring.show times list --day 1",
	.old_option = LIST_OPTIONS,
	.old_run = times_list,
};

/* ---- check ------------------------------------------------------------------------------- */

static enum rt_err times_check(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"starts", "starts", RT_INT, RT_NO_UNIT, 0, false},
		{"collisions", "collisions", RT_INT, RT_NO_UNIT, 0, false},
		{"verdict", "verdict", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct cli_times in = {0};
	struct cli_narrowing all = {0};
	struct rt_clashes clashes = {0};
	struct rt_table *t;
	enum rt_err e = cli_times_read(c, false, &in);

	(void)call;
	if (!e)
		e = cli_clashes(c, &in, &in.starts, &clashes);
	if (!e) {
		t = rt_report_table(&c->report, "check", "Start times looked at", columns, 3);
		rt_put_int(t, (int64_t)in.starts.n);
		rt_put_int(t, (int64_t)clashes.n);
		rt_put_text(t, clashes.n ? "collides" : "good");
		rt_clashes_report(&c->report, &clashes);
		note_untimed(c, &in, &all);
	}
	RT_LIST_FREE(&clashes);
	cli_times_free(&in);
	return e;
}

const struct cli_command cmd_times_check = {
	.group = "Times",
	.name = "times check",
	.args = "",
	.summary = "Look at every pair of starts for collisions.",
	.details = "By the rules alone, without any of the means that the plan was made with.",
	.example = "--show spring.show times check",
	.old_run = times_check,
};

/* ---- history ----------------------------------------------------------------------------- */

static enum rt_err times_history(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"version", "version", RT_INT, RT_NO_UNIT, 0, false},
		{"at", "at", RT_TEXT, RT_NO_UNIT, 0, false},
		{"what", "what", RT_TEXT, RT_NO_UNIT, 0, true},
		{"change", "change", RT_TEXT, RT_NO_UNIT, 0, false},
		{"by", "by", RT_TEXT, RT_NO_UNIT, 0, false},
		{"why", "why", RT_TEXT, RT_NO_UNIT, 0, false},
	};
	struct rt_times_notes notes = {0};
	struct rt_table *t;
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	(void)call;
	if (!e)
		e = rt_store_times_changes(c->store, &notes, &c->err);
	t = rt_report_table(&c->report, "changes", "Changes of the times", columns, 6);
	for (size_t i = 0; i < notes.n && !e; i++) {
		rt_put_int(t, notes.at[i].version);
		rt_put_text(t, notes.at[i].when);
		rt_put_text(t, notes.at[i].what);
		rt_put_text(t, notes.at[i].words);
		rt_put_text(t, notes.at[i].who);
		rt_put_text(t, notes.at[i].why);
	}
	RT_LIST_FREE(&notes);
	return e;
}

const struct cli_command cmd_times_history = {
	.group = "Times",
	.name = "times history",
	.args = "",
	.summary = "List every version of the start times.",
	.example = "--show spring.show times history",
	.old_run = times_history,
};
