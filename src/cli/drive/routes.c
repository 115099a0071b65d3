/* Turns of a level, and a test as a route: what the commands that drive share.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>
#include <unistd.h>

/* ---- levels and turnouts ------------------------------------------------------------------ */

enum rt_err cli_level_named(struct cli *c, const struct rt_levels *levels, const char *name,
			    enum rt_discipline discipline, const struct rt_level **out)
{
	const char *names[64];
	size_t n = 0;

	*out = rt_level_find(levels, name, discipline);
	if (*out)
		return RT_OK;
	for (size_t i = 0; i < levels->n && n < sizeof names / sizeof *names; i++)
		if (levels->at[i].discipline == discipline)
			names[n++] = levels->at[i].name;
	return rt_fail_unknown(&c->err, name, names, n, NULL, "unknown %s level \"%s\"",
			       rt_discipline_words(discipline), name);
}

void cli_turnout(struct cli *c, struct rt_shipped *rows, const char *name, const char *file,
		 struct rt_turnout_parts *out)
{
	if (file && !name)
		CLI_FAIL(c, RT_E_USAGE, "--turnouts wants --turnout NAME");
	if (file) {
		RT_LIST_FREE(&rows->turnouts);
		CLI_DO(c, rt_read_turnouts(&rows->turnouts, file, &c->faults, &c->err));
		CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	}
	if (name)
		CLI_DO(c, rt_turnout_named(out, &rows->turnouts, name, &c->err));
}

void cli_turns_make(struct cli *c, const struct cli_turns_asked *asked, struct cli_ring *ring,
		    const struct rt_level **level, struct rt_turns *turns)
{
	CLI_DO(c,
	       cli_level_named(c, &ring->rows.levels, asked->level, ring->kind->discipline, level));
	CLI_DO(c, rt_turns_make(turns, ring->kind, *level, &ring->rows.gaits, &asked->options,
				&c->err));
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
	const struct rt_test *test;

	cli_store(c, false);
	CLI_DO(c, rt_store_tests(c->store, &in->tests, &c->err));
	test = cli_test_named(&in->tests, asked->test);
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
	const struct rt_roster roster = {.gaits = &in->rows.gaits};

	CLI_DO(c, rt_read_items(&in->items, path, NULL, &roster, &c->faults, &c->err));
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

/* Nothing to drive: a test that is not there, or one of general impression only. */
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

		if (!item->general && strcmp(item->test, in->test) == 0)
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
	struct cli_route_asked o = *asked;

	in->test = o.only_test;
	in->options = o.options;
	cli_rows(c, &in->rows);
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
			 o.kind ? "--level" : "--kind", in->tests.n ? "test" : "file");
	CLI_DO(c, rt_ring_kind_named(&in->kind, &in->rows.kinds, o.kind, &c->err));
	CLI_DO(c, cli_level_named(c, &in->rows.levels, o.level, in->kind->discipline, &in->level));
	cli_turnout(c, &in->rows, o.turnout, o.turnouts, &in->turnout);
	if (in->turnout.n && !cli_given(c, &asked->options.track_m))
		in->options.track_m = rt_turnout_track(&in->turnout);
	CLI_DO(c, rt_route_make(&in->route, in->kind, in->level, &in->rows.gaits, &in->movements,
				&in->options, &c->err));
}

void cli_route_free(struct cli_route *in)
{
	rt_route_free(&in->route);
	RT_LIST_FREE(&in->turnout);
	RT_LIST_FREE(&in->movements);
	RT_LIST_FREE(&in->items);
	RT_LIST_FREE(&in->tests);
	rt_shipped_free(&in->rows);
}
