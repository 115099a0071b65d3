/* championship import, list and results; team import, list and results.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

#define TEAM_COUNTS 3 /* members, unless --count says otherwise (common practice, no source) */

/* ---- standings ------------------------------------------------------------------------------- */

/* Score a class of the show, and add it. */
static enum rt_err add_class(struct cli *c, struct rt_standings *standings, const char *name)
{
	struct rt_class_book book = {0};
	struct rt_results results = {0};
	enum rt_err e = rt_store_class_book(c->store, name, &book, &c->err);

	if (!e)
		e = rt_results_make(&results, &book.marks, &c->err);
	if (!e)
		e = rt_standings_add(standings, &results, &c->err);
	rt_results_free(&results);
	rt_class_book_free(&book);
	return e;
}

static enum rt_err add_classes(struct cli *c, struct rt_standings *standings,
			       const struct rt_strings *names)
{
	enum rt_err e = RT_OK;

	for (size_t i = 0; i < names->n && !e; i++)
		e = add_class(c, standings, names->at[i]);
	if (!e)
		e = rt_standings_end(standings, &c->err);
	if (!e)
		rt_standings_report(&c->report, standings);
	return e;
}

/* ---- championships --------------------------------------------------------------------------- */

struct championship_import {
	struct cli_roster roster;
	struct rt_championships list;
	struct rt_import_count count;
};

static enum rt_err championship_import(struct cli *c, const struct cli_call *call)
{
	struct championship_import in = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, true));

	if (!e)
		e = CLI_OLD(c, cli_roster(c, &in.roster));
	if (!e)
		e = rt_read_championships(&in.list, call->arg[0], &in.roster.roster, &c->faults,
					  &c->err);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	if (!e)
		e = rt_store_championships_put(c->store, &in.list, &in.count, &c->faults, &c->err);
	if (!e)
		cli_report_import(c, "championships", &in.count);
	RT_LIST_FREE(&in.list);
	cli_roster_free(&in.roster);
	return e;
}

const struct cli_command cmd_championship_import = {
	.group = "Results",
	.name = "championship import",
	.args = "FILE.csv",
	.summary = "Put championships over several classes into the show.",
	.example = "--show spring.show championship import championships.csv",
	.files = (const struct rt_record *const[]){&rt_championship_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = championship_import,
};

static enum rt_err championship_list(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"championship", "championship", RT_TEXT, RT_NO_UNIT, 0, false},
		{"title", "title", RT_TEXT, RT_NO_UNIT, 0, false},
		{"classes", "classes", RT_TEXT, RT_NO_UNIT, 0, false},
		{"count", "count", RT_TEXT, RT_NO_UNIT, 0, false},
		{"of", "of", RT_TEXT, RT_NO_UNIT, 0, false},
		{"by", "by", RT_TEXT, RT_NO_UNIT, 0, false},
		{"ties", "ties", RT_TEXT, RT_NO_UNIT, 0, true},
		{"dropped", "dropped", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_championships list = {0};
	struct rt_table *t = rt_report_table(&c->report, "championships", "Championships", columns,
					     8);
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	(void)call;
	if (!e)
		e = rt_store_championships(c->store, &list, &c->err);
	for (size_t i = 0; !e && i < list.n; i++) {
		const struct rt_championship *k = &list.at[i];

		rt_put_text(t, k->name);
		rt_put_text(t, k->title);
		rt_put_text(t, k->classes);
		rt_put_text(t, rt_tally_words(k->tally));
		rt_put_text(t, rt_tally_of_words(k->of));
		rt_put_text(t, rt_tally_by_words(k->by));
		rt_put_text(t, rt_tally_ties_words(k->ties));
		rt_put_int(t, k->dropped);
	}
	RT_LIST_FREE(&list);
	return e;
}

const struct cli_command cmd_championship_list = {
	.group = "Results",
	.name = "championship list",
	.args = "",
	.summary = "List the championships of the show.",
	.example = "--show spring.show championship list",
	.old_run = championship_list,
};

static enum rt_err championship_named(struct cli *c, const struct rt_championships *list,
				      const char *name, const struct rt_championship **out)
{
	const char *names[64], *nearest;
	size_t n = 0;

	for (size_t i = 0; i < list->n; i++) {
		if (strcmp(list->at[i].name, name) == 0) {
			*out = &list->at[i];
			return RT_OK;
		}
		if (n < sizeof names / sizeof *names)
			names[n++] = list->at[i].name;
	}
	nearest = rt_nearest(name, names, n);
	return rt_fail(&c->err, RT_E_NOTFOUND, "no championship \"%s\" in this show: %s%s%s", name,
		       nearest ? "did you mean \"" : "`championship list` lists them",
		       nearest ? nearest : "", nearest ? "\"?" : "");
}

static enum rt_err championship_results(struct cli *c, const struct cli_call *call)
{
	struct rt_championships list = {0};
	const struct rt_championship *championship = NULL;
	struct rt_strings names = {0};
	struct rt_standings standings = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	if (!e)
		e = rt_store_championships(c->store, &list, &c->err);
	if (!e)
		e = championship_named(c, &list, call->arg[0], &championship);
	if (!e)
		e = rt_names_split(&names, championship->classes, &c->err);
	if (!e) {
		rt_standings_of_championship(&standings, championship, names.n);
		e = add_classes(c, &standings, &names);
	}
	rt_standings_free(&standings);
	RT_LIST_FREE(&names);
	RT_LIST_FREE(&list);
	return e;
}

const struct cli_command cmd_championship_results = {
	.group = "Results",
	.name = "championship results",
	.args = "NAME",
	.summary = "Add up and place a championship.",
	.details =
		"Results in brackets do not count. Who has fewer results than must count is not placed.\n"
		"Names that differ in case and accents only are one person's.",
	.example = "--show spring.show championship results shield",
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = championship_results,
};

/* ---- teams ----------------------------------------------------------------------------------- */

struct team_import {
	struct cli_roster roster;
	struct rt_team_members members;
	struct rt_import_count count;
};

static enum rt_err team_import(struct cli *c, const struct cli_call *call)
{
	struct team_import in = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, true));

	if (!e)
		e = CLI_OLD(c, cli_roster(c, &in.roster));
	if (!e)
		e = rt_read_team_members(&in.members, call->arg[0], &in.roster.roster, &c->faults,
					 &c->err);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	if (!e)
		e = rt_store_team_members_put(c->store, &in.members, &in.count, &c->faults,
					      &c->err);
	if (!e)
		cli_report_import(c, "team members", &in.count);
	RT_LIST_FREE(&in.members);
	cli_roster_free(&in.roster);
	return e;
}

const struct cli_command cmd_team_import = {
	.group = "Results",
	.name = "team import",
	.args = "FILE.csv",
	.summary = "Put teams into the show: which entries belong together.",
	.details = "Members may be in several classes.",
	.example = "--show spring.show team import teams.csv",
	.files = (const struct rt_record *const[]){&rt_team_member_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = team_import,
};

static enum rt_err team_list(struct cli *c, const struct cli_call *call)
{
	static const struct rt_field columns[] = {
		{"team", "team", RT_TEXT, RT_NO_UNIT, 0, false},
		{"class", "class", RT_TEXT, RT_NO_UNIT, 0, false},
		{"number", "no.", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_team_members members = {0};
	struct rt_table *t = rt_report_table(&c->report, "members", "Teams", columns, 3);
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	(void)call;
	if (!e)
		e = rt_store_team_members(c->store, &members, &c->err);
	for (size_t i = 0; !e && i < members.n; i++) {
		rt_put_text(t, members.at[i].team);
		rt_put_text(t, members.at[i].class_name);
		rt_put_int(t, members.at[i].number);
	}
	RT_LIST_FREE(&members);
	return e;
}

const struct cli_command cmd_team_list = {
	.group = "Results",
	.name = "team list",
	.args = "",
	.summary = "List the teams of the show.",
	.example = "--show spring.show team list",
	.old_run = team_list,
};

/* The classes of the members, each once; of one class only where it is given. */
static enum rt_err classes_of(struct cli *c, const struct rt_team_members *members,
			      const char *only, struct rt_strings *names)
{
	struct rt_map *seen = NULL;
	bool nomem = false;

	for (size_t i = 0; i < members->n && !nomem; i++) {
		const char **name, *of = members->at[i].class_name;

		if ((only && strcmp(of, only) != 0) ||
		    rt_map_put(&seen, of, i, &nomem) != RT_MAP_NONE)
			continue;
		name = RT_LIST_ADD(names);
		if (name)
			*name = of;
		nomem |= !name;
	}
	rt_map_free(seen);
	if (nomem)
		return rt_fail_nomem(&c->err);
	if (names->n == 0)
		return rt_fail(&c->err, RT_E_NOTFOUND, "no team has a member in %s%s: %s",
			       only ? "class " : "this show", only ? only : "",
			       "`team import` puts teams in, `team list` lists them");
	return RT_OK;
}

static enum rt_err team_options(struct cli *c, const struct cli_call *call, int64_t *count,
				enum rt_tally_of *of)
{
	const char *words = cli_option(call, "of"), *typed = cli_option(call, "count");

	if (words && !rt_tally_of_read(words, of))
		return rt_fail(&c->err, RT_E_USAGE, "--of: \"%s\": score or percent", words);
	return typed ? cli_whole(c, "--count", typed, 1, 100, count) : RT_OK;
}

static enum rt_err team_results(struct cli *c, const struct cli_call *call)
{
	struct rt_team_members members = {0};
	struct rt_strings names = {0};
	struct rt_standings standings = {0};
	enum rt_tally_of of = RT_OF_SCORE;
	int64_t count = TEAM_COUNTS;
	enum rt_err e = team_options(c, call, &count, &of);

	if (!e)
		e = CLI_OLD(c, cli_store(c, false));
	if (!e)
		e = rt_store_team_members(c->store, &members, &c->err);
	if (!e)
		e = classes_of(c, &members, call->args ? call->arg[0] : NULL, &names);
	if (!e) {
		rt_standings_of_teams(&standings, &members, (size_t)count, of);
		e = add_classes(c, &standings, &names);
	}
	rt_standings_free(&standings);
	RT_LIST_FREE(&names);
	RT_LIST_FREE(&members);
	return e;
}

const struct cli_command cmd_team_results = {
	.group = "Results",
	.name = "team results",
	.args = "[CLASS]",
	.summary = "Add up and place the teams, of a class or of all.",
	.details =
		"The best members of each team count, three unless --count says otherwise. A team\n"
		"with fewer results is not placed.",
	.example = "--show spring.show team results --of percent",
	.old_option = {{"count", "N", "how many members count; 3", false},
		       {"of", "WHAT", "score or percent; score unless given", false}},
	.old_max_args = 1,
	.old_run = team_results,
};
