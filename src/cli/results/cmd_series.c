/* championship import, list and results; team import, list and results.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

#define TEAM_COUNTS 3 /* members, unless --count says otherwise (common practice, no source) */

/* ---- standings ------------------------------------------------------------------------------- */

/* Classes that are not posted, or not as they are counted. */
struct standing_on {
	struct cli_names provisional, changed;
};

/* Score a class of the show, and add it. */
static void add_class(struct cli *c, struct rt_standings *standings, const char *name,
		      struct standing_on *on)
{
	struct cli_shown in = {.posting = {0}};

	cli_shown_read(c, name, true, &in);
	CLI_DO(c, rt_standings_add(standings, &in.results, &c->err));
	if (!c->err.code && !in.shown.posted)
		cli_name(&on->provisional, "%s", name);
	if (in.shown.changes.n)
		cli_name(&on->changed, "%s", name);
	cli_shown_free(&in);
}

static void tell_of(struct cli *c, const struct standing_on *on)
{
	if (on->provisional.n)
		rt_report_note(&c->report, "Provisional: class%s %s %s not posted.",
			       on->provisional.n == 1 ? "" : "es", on->provisional.text,
			       on->provisional.n == 1 ? "is" : "are");
	else if (!on->changed.n)
		rt_report_note(&c->report, "Every class is posted.");
	if (on->changed.n)
		rt_report_note(&c->report,
			       "Counted as it is now, and changed since it was posted: class%s %s. "
			       "Post again what is right.",
			       on->changed.n == 1 ? "" : "es", on->changed.text);
	c->report.needs_person |= on->changed.n > 0;
}

static void add_classes(struct cli *c, struct rt_standings *standings,
			const struct rt_strings *names)
{
	struct standing_on on = {.provisional = {.n = 0}};

	for (size_t i = 0; i < names->n && !c->err.code; i++)
		add_class(c, standings, names->at[i], &on);
	CLI_DO(c, rt_standings_end(standings, &c->err));
	if (c->err.code)
		return;
	rt_standings_report(&c->report, standings);
	tell_of(c, &on);
}

/* ---- championships --------------------------------------------------------------------------- */

static void championship_import(struct cli *c, const void *typed)
{
	const struct cli_import *how = typed;
	const struct rt_roster *roster = cli_roster(c, true);
	const struct rt_source *source = cli_source(c, how, how->file);
	struct rt_championships list = {0};
	struct rt_import_count count = {0};

	CLI_DO(c, rt_read_championships(&list, source, roster, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	CLI_DO(c, rt_store_championships_put(c->store, &list, &count, &c->faults, &c->err));
	cli_report_import(c, "championships", &count);
	RT_LIST_FREE(&list);
}

const struct cli_command cmd_championship_import = {
	.name = "championship import",
	.summary = "Put championships over several classes into the show.",
	.example = "--show spring.show championship import championships.csv",
	.files = (const struct rt_record *const[]){&rt_championship_record, NULL},
	CLI_OPTIONS(struct cli_import, cli_import_options),
	.run = championship_import,
};

static void championship_list(struct cli *c, const void *typed)
{
	struct rt_championships list = {0};

	(void)typed;
	cli_store(c, false);
	CLI_DO(c, rt_store_championships(c->store, &list, &c->err));
	rt_report_list(&c->report, &rt_championship_record, list.at, list.n);
	RT_LIST_FREE(&list);
}

const struct cli_command cmd_championship_list = {
	.name = "championship list",
	.summary = "List the championships of the show.",
	.example = "--show spring.show championship list",
	.table = {&rt_championship_record},
	.run = championship_list,
};

static const struct rt_championship *
championship_named(struct cli *c, const struct rt_championships *list, const char *name)
{
	for (size_t i = 0; i < list->n; i++)
		if (strcmp(list->at[i].name, name) == 0)
			return &list->at[i];
	cli_unknown(c, &rt_championship_record, list->at, list->n, name,
		    "`championship list` lists them", "no championship \"%s\" in this show", name);
	return NULL;
}

static const struct rt_field championship_argument[] = {
	{"name", .type = RT_NAME, .is = RT_ARGUMENT | RT_REQUIRED},
};

static void championship_results(struct cli *c, const void *typed)
{
	struct rt_championships list = {0};
	const struct rt_championship *championship;
	struct rt_strings names = {0};
	struct rt_standings standings = {0};

	cli_store(c, false);
	CLI_DO(c, rt_store_championships(c->store, &list, &c->err));
	championship = championship_named(c, &list, CLI_TYPED(typed));
	if (championship) {
		CLI_DO(c, rt_names_split(&names, championship->classes, &c->err));
		rt_standings_of_championship(&standings, championship, names.n);
		add_classes(c, &standings, &names);
	}
	rt_standings_free(&standings);
	RT_LIST_FREE(&names);
	RT_LIST_FREE(&list);
}

const struct cli_command cmd_championship_results = {
	.name = "championship results",
	.summary = "Add up and place a championship.",
	.details =
		"Results in brackets do not count. Who has fewer results than must count is not placed.\n"
		"Names that differ in case and accents only are one person's. Classes count as they are\n"
		"now; those that are not posted are named, and those that have changed since: exit\n"
		"status 1.",
	.example = "--show spring.show championship results shield",
	CLI_OPTIONS(const char *, championship_argument),
	.run = championship_results,
};

/* ---- teams ----------------------------------------------------------------------------------- */

static void team_import(struct cli *c, const void *typed)
{
	const struct cli_import *how = typed;
	const struct rt_roster *roster = cli_roster(c, true);
	const struct rt_source *source = cli_source(c, how, how->file);
	struct rt_team_members members = {0};
	struct rt_import_count count = {0};

	CLI_DO(c, rt_read_team_members(&members, source, roster, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	CLI_DO(c, rt_store_team_members_put(c->store, &members, &count, &c->faults, &c->err));
	cli_report_import(c, "team members", &count);
	RT_LIST_FREE(&members);
}

const struct cli_command cmd_team_import = {
	.name = "team import",
	.summary = "Put teams into the show: which entries belong together.",
	.details = "Members may be in several classes.",
	.example = "--show spring.show team import teams.csv",
	.files = (const struct rt_record *const[]){&rt_team_member_record, NULL},
	CLI_OPTIONS(struct cli_import, cli_import_options),
	.run = team_import,
};

static void team_list(struct cli *c, const void *typed)
{
	struct rt_team_members members = {0};

	(void)typed;
	cli_store(c, false);
	CLI_DO(c, rt_store_team_members(c->store, &members, &c->err));
	rt_report_list(&c->report, &rt_team_member_record, members.at, members.n);
	RT_LIST_FREE(&members);
}

const struct cli_command cmd_team_list = {
	.name = "team list",
	.summary = "List the teams of the show.",
	.example = "--show spring.show team list",
	.table = {&rt_team_member_record},
	.run = team_list,
};

struct team_results {
	const char *class_name;
	int64_t count;
	enum rt_tally as;
	enum rt_tally_of of;
};

static const struct rt_field team_results_options[] = {
	{"class", RT_AT(struct team_results, class_name), .type = RT_NAME, .is = RT_ARGUMENT},
	{"count", RT_AT(struct team_results, count), .head = "N", .type = RT_INT, .low = 1,
	 .high = 100, .is = RT_USUAL, .help = "how many members count"},
	{"as", RT_AT(struct team_results, as), .head = "WHAT", .type = RT_WORD,
	 .words = &rt_words_of_tally, .is = RT_USUAL, .help = "what their results come to"},
	{"of", RT_AT(struct team_results, of), .head = "WHAT", .type = RT_WORD,
	 .words = &rt_words_of_tally_of, .is = RT_USUAL, .help = "what of a class counts"},
};

/* The classes of the members, each once; of one class only where it is given. */
static void classes_of(struct cli *c, const struct rt_team_members *members, const char *only,
		       struct rt_strings *names)
{
	struct rt_map *seen = NULL;
	bool nomem = false;

	for (size_t i = 0; i < members->n && !nomem; i++) {
		const char *of = members->at[i].class_name;

		if ((!only || strcmp(of, only) == 0) &&
		    rt_map_put(&seen, of, i, &nomem) == RT_MAP_NONE)
			CLI_ADD(c, names, of);
	}
	rt_map_free(seen);
	if (nomem)
		CLI_DO(c, rt_fail_nomem(&c->err));
	if (names->n == 0)
		CLI_FAIL(c, RT_E_NOTFOUND, "no team has a member in %s%s: %s",
			 only ? "class " : "this show", only ? only : "",
			 "`team import` puts teams in, `team list` lists them");
}

static void team_results(struct cli *c, const void *typed)
{
	const struct team_results *o = typed;
	struct rt_team_members members = {0};
	struct rt_strings names = {0};
	struct rt_standings standings = {0};

	cli_store(c, false);
	CLI_DO(c, rt_store_team_members(c->store, &members, &c->err));
	if (!c->err.code)
		classes_of(c, &members, o->class_name, &names);
	rt_standings_of_teams(&standings, &members, (size_t)o->count, o->as, o->of);
	if (!c->err.code)
		add_classes(c, &standings, &names);
	rt_standings_free(&standings);
	RT_LIST_FREE(&names);
	RT_LIST_FREE(&members);
}

const struct cli_command cmd_team_results = {
	.name = "team results",
	.summary = "Add up and place the teams, of a class or of all.",
	.details =
		"The best members of each team count. A team with fewer results is not placed. Classes\n"
		"count as of `championship results`.",
	.example = "--show spring.show team results --of percent",
	CLI_OPTIONS(struct team_results, team_results_options),
	.blank = &(const struct team_results){.count = TEAM_COUNTS, .of = RT_OF_SCORE},
	.run = team_results,
};
