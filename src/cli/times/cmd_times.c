/* times, times list, check and history: the start times as they stand.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "times.h"

/* ---- lists ------------------------------------------------------------------------------- */

static void times_list(struct cli *c, const void *typed)
{
	struct cli_narrowing only = *(const struct cli_narrowing *)typed;
	struct cli_times in = {0};
	struct rt_starts wanted = {0};
	struct rt_clashes clashes = {0};
	struct rt_judge_sheets judged = {0};
	const struct rt_classes *classes;
	const struct rt_tests *tests;

	cli_times_read(c, false, &in);
	classes = cli_classes(c);
	tests = cli_tests(c);
	cli_judged(c, classes, &judged);
	cli_narrowing_find(c, &only);
	cli_narrow(c, &in.starts, &only, &wanted);
	cli_clashes(c, &in, &in.starts, &clashes);
	rt_times_report(&c->report, &wanted);
	if (wanted.n && !only.driver) /* whose first start begins no class */
		rt_times_classes_report(&c->report, &wanted, classes, tests, &judged);
	rt_clashes_report(&c->report, &clashes);
	cli_report_lists(c, "Lists", &only, 0);
	cli_note_untimed(c, &in.starts, only.class_name);
	if (!in.starts.n)
		rt_report_note(&c->report, "No start times yet: `times plan` makes them.");
	RT_LIST_FREE(&clashes);
	RT_LIST_FREE(&judged);
	RT_LIST_FREE(&wanted);
	cli_times_free(&in);
}

#define LIST_DETAILS                                                                                 \
	"Collisions are those of the whole show: two in one ring, or a driver, horse, groom,\n"      \
	"carriage or judge in two places or without the gap asked for. Each list has the version\n"  \
	"of the times that it last changed in. Lists that were printed and say something else now\n" \
	"are told."

const struct cli_command cmd_times = {
	.name = "times",
	.summary = "Show the start times, and what collides.",
	.details = LIST_DETAILS,
	.example = "--show spring.show times",
	CLI_OPTIONS(struct cli_narrowing, cli_narrowing_options),
	.table = {&cli_lists_table},
	.run = times_list,
	.lists = true,
};

const struct cli_command cmd_times_list = {
	.name = "times list",
	.summary = "The same as times.",
	.details = LIST_DETAILS,
	.example = "--show spring.show times list --day 1",
	CLI_OPTIONS(struct cli_narrowing, cli_narrowing_options),
	.run = times_list,
	.lists = true,
};

/* ---- check ------------------------------------------------------------------------------- */

struct check_row {
	size_t starts, collisions;
	const char *verdict;
};

static const struct rt_field check_fields[] = {
	{"starts", RT_AT(struct check_row, starts), .type = RT_SIZE},
	{"collisions", RT_AT(struct check_row, collisions), .type = RT_SIZE},
	{"verdict", RT_AT(struct check_row, verdict)},
};

static const struct rt_record check_table = RT_TABLE("check", "Start times looked at", check_fields,
						     struct check_row);

static void times_check(struct cli *c, const void *typed)
{
	struct cli_times in = {0};
	struct rt_clashes clashes = {0};

	(void)typed;
	cli_times_read(c, false, &in);
	cli_clashes(c, &in, &in.starts, &clashes);
	rt_report_list(&c->report, &check_table,
		       &(struct check_row){in.starts.n, clashes.n, clashes.n ? "collides" : "good"},
		       1);
	rt_clashes_report(&c->report, &clashes);
	cli_note_untimed(c, &in.starts, NULL);
	RT_LIST_FREE(&clashes);
	cli_times_free(&in);
}

const struct cli_command cmd_times_check = {
	.name = "times check",
	.summary = "Look at every pair of starts for collisions.",
	.details = "By the rules alone, without any of the means that the plan was made with.",
	.example = "--show spring.show times check",
	.table = {&check_table},
	.run = times_check,
};

/* ---- history ----------------------------------------------------------------------------- */

#define NOTE(member) RT_AT(struct rt_times_note, member)

static const struct rt_field note_fields[] = {
	{"version", NOTE(version), .type = RT_INT},
	{"at", NOTE(when)},
	{"what", NOTE(what), .wide = true},
	{"change", NOTE(words)},
	{"by", NOTE(who)},
	{"why", NOTE(why)},
};

static const struct rt_record changes_table = RT_TABLE("changes", "Changes of the times",
						       note_fields, struct rt_times_note);

static void times_history(struct cli *c, const void *typed)
{
	struct rt_times_notes notes = {0};

	(void)typed;
	cli_store(c, false);
	CLI_DO(c, rt_store_times_changes(c->store, &notes, &c->err));
	rt_report_list(&c->report, &changes_table, notes.at, notes.n);
	RT_LIST_FREE(&notes);
}

const struct cli_command cmd_times_history = {
	.name = "times history",
	.summary = "List every version of the start times.",
	.example = "--show spring.show times history",
	.table = {&changes_table},
	.run = times_history,
};
