/* ring kinds, add, list; adjust.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

/* ---- kinds, add, list -------------------------------------------------------------------- */

static enum rt_err ring_kinds(struct cli *c, const struct cli_call *call)
{
	struct rt_shipped rows;
	enum rt_err e = CLI_OLD(c, cli_rows(c, &rows));

	(void)call;
	if (!e)
		e = rt_ring_kinds_report(&c->report, &rows.kinds, &c->err);
	rt_shipped_free(&rows);
	return e;
}

const struct cli_command cmd_ring_kinds = {
	.group = "Ring",
	.name = "ring kinds",
	.args = "",
	.summary = "List the kinds of ring: of the show, else the shipped ones.",
	.example = "ring kinds",
	.old_run = ring_kinds,
};

static enum rt_err ring_add(struct cli *c, const struct cli_call *call)
{
	const struct rt_ring ring = {call->arg[0], cli_option(call, "kind")};
	const struct rt_ring_kind *kind;
	struct rt_shipped rows = {0};
	enum rt_err e = cli_text(c, "the ring's name", ring.name, RT_NAME_MOST, true);

	if (!e)
		e = CLI_OLD(c, cli_store(c, true));
	if (!e)
		e = CLI_OLD(c, cli_rows(c, &rows));
	if (!e)
		e = rt_ring_kind_named(&kind, &rows.kinds, ring.kind, &c->err);
	if (!e)
		e = rt_store_ring_add(c->store, &ring, &c->err);
	if (!e)
		rt_table_title(rt_report_list(&c->report, &rt_ring_record, &ring, 1), "Ring added");
	rt_shipped_free(&rows);
	return e;
}

const struct cli_command cmd_ring_add = {
	.group = "Ring",
	.name = "ring add",
	.args = "NAME --kind KIND",
	.summary = "Add a ring to the show.",
	.example = "--show spring.show ring add \"Mill ring\" --kind driven-40x80",
	.old_option = {{"kind", "KIND", "a kind that `ring kinds` lists", true}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = ring_add,
};

static enum rt_err ring_list(struct cli *c, const struct cli_call *call)
{
	struct rt_rings rings = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, false));

	(void)call;
	if (!e)
		e = rt_store_rings(c->store, &rings, &c->err);
	if (!e)
		rt_report_list(&c->report, &rt_ring_record, rings.at, rings.n);
	RT_LIST_FREE(&rings);
	return e;
}

const struct cli_command cmd_ring_list = {
	.group = "Ring",
	.name = "ring list",
	.args = "",
	.summary = "List the rings of the show.",
	.example = "--show spring.show ring list",
	.old_run = ring_list,
};

/* ---- adjust ------------------------------------------------------------------------------ */

static enum rt_err adjust(struct cli *c, const struct cli_call *call)
{
	struct rt_points points = {0};
	struct rt_readings readings = {0};
	struct rt_heights heights = {0};
	struct rt_adjustment result = {0};
	enum rt_err e = rt_read_points(&points, call->arg[0], &c->faults, &c->err);

	/* Points with faults are not held against the readings too. */
	if (!e)
		e = cli_read_readings(c, call, 1, NULL, c->faults.total ? NULL : &points, &readings,
				      &heights);
	if (!e)
		e = rt_adjust(&result, &points, &readings, &c->err);
	if (!e)
		e = rt_adjustment_report(&c->report, &result, cli_text_in_feet(c), &c->err);
	rt_adjustment_free(&result);
	RT_LIST_FREE(&points);
	RT_LIST_FREE(&readings);
	RT_LIST_FREE(&heights);
	return e;
}

const struct cli_command cmd_adjust = {
	.group = "Ring",
	.name = "adjust",
	.args = "POINTS.csv READINGS.csv...",
	.summary = "Adjust readings between any points by least squares.",
	.details = "With no point fixed the datum is free.\n" CLI_READING_FILES
		   "Coordinates x_m,y_m are in the frame of the points here.",
	.example = "adjust points-oak.csv readings-oak.csv",
	.files = cli_adjust_files,
	.old_min_args = 2,
	.old_max_args = CLI_ARGS_MAX,
	.old_run = adjust,
};
