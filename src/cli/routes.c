/* What the commands of a route share: a test of the show or a file of movements, as a route.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>
#include <unistd.h>

static enum rt_err read_options(struct cli *c, const struct cli_call *call, struct cli_route *in)
{
	const char *height = cli_option(call, "height");

	in->kind_name = cli_option(call, "kind");
	in->level_name = cli_option(call, "level");
	in->test = cli_option(call, "test");
	if (height && !rt_parse_height(height, &in->options.height_cm))
		return rt_fail(&c->err, RT_E_USAGE, "--height: \"%s\": %s", height,
			       RT_HEIGHT_ACCEPTED);
	return cli_real_option(c, call, "track", 0.0, 10.0, &in->options.track_m);
}

/* A file of movements ends in .csv, names a folder, or, where there is no show, is there; anything
 * else is a test of the show. */
static bool is_file(const struct cli *c, const char *arg)
{
	size_t n = strlen(arg);

	return strchr(arg, '/') || (n > 4 && strcmp(arg + n - 4, ".csv") == 0) ||
	       (!c->show_path && access(arg, F_OK) == 0);
}

/* The test of that name, whose ring and level hold where none are asked for. */
static enum rt_err show_test(struct cli *c, const char *name, struct cli_route *in)
{
	const struct rt_test *test;
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	if (!e)
		e = rt_store_tests(c->store, &in->tests, &c->err);
	if (e)
		return e;
	test = cli_test_named(&in->tests, name);
	if (!test)
		return rt_fail(&c->err, RT_E_NOTFOUND,
			       "the show has no test \"%s\": `test list` shows those it has", name);
	in->test = test->name;
	in->title = test->title;
	if (!in->kind_name)
		in->kind_name = test->kind;
	if (!in->level_name)
		in->level_name = test->level;
	return rt_store_items(c->store, name, &in->items, &c->err);
}

static enum rt_err file_of_movements(struct cli *c, const char *path, struct cli_route *in)
{
	const struct rt_roster roster = {.gaits = &in->rows.gaits};
	enum rt_err e = rt_read_items(&in->items, path, NULL, &roster, &c->faults, &c->err);

	return e ? e : rt_faults_result(&c->faults, &c->err);
}

/* The one test of the items, where none is named. */
static enum rt_err only_test(struct cli *c, struct cli_route *in)
{
	for (size_t i = 0; i < in->items.n; i++) {
		const char *test = in->items.at[i].test;

		if (in->test && strcmp(in->test, test) != 0)
			return rt_fail(&c->err, RT_E_USAGE,
				       "which test? The file holds %s, %s and perhaps more: "
				       "--test %s",
				       in->test, test, in->test);
		in->test = test;
	}
	return RT_OK;
}

/* Nothing to drive: a test that is not there, or one of general impression only. */
static enum rt_err no_movements(struct cli *c, const struct cli_route *in)
{
	const char *nearest = NULL;

	for (size_t i = 0; i < in->items.n; i++) {
		if (in->test && strcmp(in->items.at[i].test, in->test) == 0)
			return rt_fail(&c->err, RT_E_INPUT, "test %s has no movement to drive",
				       in->test);
		if (in->test && !nearest)
			nearest = rt_nearest(in->test, &in->items.at[i].test, 1);
	}
	return rt_fail(&c->err, RT_E_NOTFOUND, "no movement of a test \"%s\"%s%s%s",
		       in->test ? in->test : "", nearest ? ": did you mean \"" : "",
		       nearest ? nearest : "", nearest ? "\"?" : "");
}

static enum rt_err take_movements(struct cli *c, struct cli_route *in)
{
	enum rt_err e = in->test ? RT_OK : only_test(c, in);

	if (e)
		return e;
	for (size_t i = 0; i < in->items.n; i++) {
		const struct rt_item *item = &in->items.at[i];
		struct rt_movement_figure *movement;

		if (item->general || strcmp(item->test, in->test) != 0)
			continue;
		movement = RT_LIST_ADD(&in->movements);
		if (!movement)
			return rt_fail_nomem(&c->err);
		*movement = (struct rt_movement_figure){item->name, item->figure, item->gait,
							item->file, item->line};
	}
	if (in->movements.n == 0)
		return no_movements(c, in);
	return RT_OK;
}

/* The ring and the level by their names. */
static enum rt_err take_ring(struct cli *c, struct cli_route *in)
{
	enum rt_err e;

	if (!in->kind_name || !in->level_name)
		return rt_fail(&c->err, RT_E_USAGE, "%s is needed: the %s does not tell it",
			       in->kind_name ? "--level" : "--kind", in->tests.n ? "test" : "file");
	e = rt_ring_kind_named(&in->kind, &in->rows.kinds, in->kind_name, &c->err);
	return e ? e
		 : cli_level_named(c, &in->rows.levels, in->level_name, in->kind->discipline,
				   &in->level);
}

/* The turnout of --turnout, and where its track lies unless that was said. */
static enum rt_err take_turnout(struct cli *c, const struct cli_call *call, struct cli_route *in)
{
	const char *name = cli_option(call, "turnout"), *file = cli_option(call, "turnouts");
	enum rt_err e;

	if (!name)
		return file ? rt_fail(&c->err, RT_E_USAGE, "--turnouts wants --turnout NAME")
			    : RT_OK;
	e = cli_turnout(c, &in->rows, name, file, &in->turnout);
	if (!e && !cli_option(call, "track"))
		in->options.track_m = rt_turnout_track(&in->turnout);
	return e;
}

enum rt_err cli_route_read(struct cli *c, const struct cli_call *call, struct cli_route *in)
{
	enum rt_err e = read_options(c, call, in);

	if (!e)
		e = CLI_OLD(c, cli_rows(c, &in->rows));
	if (!e)
		e = is_file(c, call->arg[0]) ? file_of_movements(c, call->arg[0], in)
					     : show_test(c, call->arg[0], in);
	if (!e)
		e = take_movements(c, in);
	if (!e)
		e = take_ring(c, in);
	return e ? e : take_turnout(c, call, in);
}

enum rt_err cli_route_make(struct cli *c, struct cli_route *in)
{
	return rt_route_make(&in->route, in->kind, in->level, &in->rows.gaits, &in->movements,
			     &in->options, &c->err);
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
