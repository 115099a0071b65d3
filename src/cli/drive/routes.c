/* Turns of a level, and a test as a route: what the commands that drive share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>
#include <unistd.h>

/* ---- levels and turnouts ------------------------------------------------------------------ */

const struct rt_level *cli_level(struct cli *c, const char *name, enum rt_discipline discipline)
{
	const struct rt_levels *levels = &cli_rows(c)->levels;
	const struct rt_level *level = rt_level_find(levels, name, discipline);
	struct rt_strings names = {0};

	for (size_t i = 0; i < levels->n && !level; i++)
		if (levels->at[i].discipline == discipline)
			CLI_ADD(c, &names, levels->at[i].name);
	if (!level)
		CLI_DO(c, rt_fail_unknown(&c->err, name, names.at, names.n, NULL,
					  "unknown %s level \"%s\"",
					  rt_discipline_words(discipline), name));
	RT_LIST_FREE(&names);
	return level;
}

void cli_turnout(struct cli *c, const char *name, const char *file, struct rt_turnout_parts *out)
{
	const struct rt_turnout_parts *all = &cli_rows(c)->turnouts;

	if (file && !name)
		CLI_FAIL(c, RT_E_USAGE, "--turnouts wants --turnout NAME");
	if (file) {
		RT_LIST_FREE(&c->rows.turnouts);
		CLI_DO(c, rt_read_turnouts(&c->rows.turnouts, CLI_SOURCE(c, file), &c->faults,
					   &c->err));
		CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	}
	if (name)
		CLI_DO(c, rt_turnout_named(out, all, name, &c->err));
}

void cli_turns_make(struct cli *c, const struct cli_turns_asked *asked,
		    const struct rt_ring_kind *kind, const struct rt_level **level,
		    struct rt_turns *turns)
{
	const struct rt_gaits *gaits = &cli_rows(c)->gaits;

	*level = c->err.code ? NULL : cli_level(c, asked->level, kind->discipline);
	CLI_DO(c, rt_turns_make(turns, kind, *level, gaits, &asked->options, &c->err));
}

/* ---- the movements of a test --------------------------------------------------------------- */

/* A file of movements ends in .csv, names a folder, is standard input, or, where there is no show,
 * is there; anything else is a test of the show. */
static bool is_file(const struct cli *c, const char *arg)
{
	size_t n = strlen(arg);

	return strchr(arg, '/') || strcmp(arg, "-") == 0 ||
	       (n > 4 && strcmp(arg + n - 4, ".csv") == 0) ||
	       (!c->show_path && access(arg, F_OK) == 0);
}

/* The test of that name, whose ring and level hold where none are asked for. */
static void show_test(struct cli *c, struct cli_route_asked *asked, struct cli_route *in)
{
	const struct rt_test *test = cli_test(c, asked->test);

	if (!test) {
		CLI_FAIL(c, RT_E_NOTFOUND,
			 "the show has no test \"%s\": `test list` shows those it has",
			 asked->test);
		return;
	}
	in->test = test->name;
	in->title = test->title;
	asked->kind = asked->kind ? asked->kind : test->kind;
	asked->level = asked->level ? asked->level : test->level;
	CLI_DO(c, rt_store_items(c->store, test->name, &in->items, &c->err));
}

static void file_of_movements(struct cli *c, const char *path, struct cli_route *in)
{
	const struct rt_roster roster = {.gaits = &cli_rows(c)->gaits};

	CLI_DO(c,
	       rt_read_items(&in->items, CLI_SOURCE(c, path), NULL, &roster, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
}

/* The one test of the items, where none is named. */
static void only_test(struct cli *c, struct cli_route *in)
{
	for (size_t i = 0; i < in->items.n; i++) {
		const char *test = in->items.at[i].test;

		if (in->test && strcmp(in->test, test) != 0)
			CLI_FAIL(c, RT_E_USAGE,
				 "which test? The file holds %s, %s and perhaps more: --test %s",
				 in->test, test, in->test);
		in->test = test;
	}
}

/* Nothing to drive: a test that is not there, or one without movements. */
static void no_movements(struct cli *c, const struct cli_route *in)
{
	const char *nearest = NULL;

	for (size_t i = 0; i < in->items.n; i++) {
		if (in->test && strcmp(in->items.at[i].test, in->test) == 0)
			CLI_FAIL(c, RT_E_INPUT, "test %s has no movement to drive", in->test);
		if (in->test && !nearest)
			nearest = rt_nearest(in->test, &in->items.at[i].test, 1);
	}
	CLI_FAIL(c, RT_E_NOTFOUND, "no movement of a test \"%s\"%s%s%s", in->test ? in->test : "",
		 nearest ? ": did you mean \"" : "", nearest ? nearest : "", nearest ? "\"?" : "");
}

static void take_movements(struct cli *c, struct cli_route *in)
{
	if (!in->test)
		only_test(c, in);
	for (size_t i = 0; i < in->items.n && !c->err.code; i++) {
		const struct rt_item *item = &in->items.at[i];

		if (item->group == RT_GROUP_MOVEMENT && strcmp(item->test, in->test) == 0)
			CLI_ADD(c, &in->movements,
				(struct rt_movement_figure){item->name, item->figure, item->gait,
							    item->file, item->line});
	}
	if (!in->movements.n)
		no_movements(c, in);
}

/* ---- the route ----------------------------------------------------------------------------- */

void cli_route_make(struct cli *c, const struct cli_route_asked *asked, struct cli_route *in)
{
	const struct rt_shipped *rows = cli_rows(c);
	struct cli_route_asked o = *asked;

	in->test = o.only_test;
	in->options = o.options;
	if (c->err.code)
		return;
	if (is_file(c, o.test))
		file_of_movements(c, o.test, in);
	else
		show_test(c, &o, in);
	if (!c->err.code)
		take_movements(c, in);
	if (!o.kind || !o.level)
		CLI_FAIL(c, RT_E_USAGE, "%s is needed: the %s does not tell it",
			 o.kind ? "--level" : "--kind", in->title ? "test" : "file");
	CLI_DO(c, rt_ring_kind_named(&in->kind, &rows->kinds, o.kind, &c->err));
	if (!c->err.code)
		in->level = cli_level(c, o.level, in->kind->discipline);
	cli_turnout(c, o.turnout, o.turnouts, &in->turnout);
	if (in->turnout.n && !cli_given(c, &asked->options.track_m))
		in->options.track_m = rt_turnout_track(&in->turnout);
	CLI_DO(c, rt_route_make(&in->route, in->kind, in->level, &rows->gaits, &in->movements,
				&in->options, &c->err));
}

void cli_route_free(struct cli_route *in)
{
	rt_route_free(&in->route);
	RT_LIST_FREE(&in->turnout);
	RT_LIST_FREE(&in->movements);
	RT_LIST_FREE(&in->items);
}
