/* ring kinds, add, list; adjust.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

/* ---- kinds, add, list -------------------------------------------------------------------- */

static void ring_kinds(struct cli *c, const void *typed)
{
	const struct rt_ring_kinds *kinds = &cli_rows(c)->kinds;

	(void)typed;
	CLI_DO(c, rt_ring_kinds_report(&c->report, kinds, &c->err));
}

const struct cli_command cmd_ring_kinds = {
	.name = "ring kinds",
	.summary = "List the kinds of ring: of the show, else the shipped ones.",
	.example = "ring kinds",
	.run = ring_kinds,
};

static const struct rt_field ring_options[] = {
	{"name", RT_AT(struct rt_ring, name), .type = RT_NAME, .is = RT_ARGUMENT | RT_REQUIRED},
	CLI_KIND(struct rt_ring, kind, RT_REQUIRED),
};

static void ring_add(struct cli *c, const void *typed)
{
	struct rt_ring ring = *(const struct rt_ring *)typed;
	const struct rt_ring_kinds *kinds;
	const struct rt_ring_kind *kind;

	cli_store(c, true);
	kinds = &cli_rows(c)->kinds;
	CLI_DO(c, rt_ring_kind_named(&kind, kinds, ring.kind, &c->err));
	if (!c->err.code)
		ring.kind = kind->name;
	CLI_DO(c, rt_store_ring_add(c->store, &ring, &c->err));
	rt_table_title(rt_report_list(&c->report, &rt_ring_record, &ring, 1), "Ring added");
}

const struct cli_command cmd_ring_add = {
	.name = "ring add",
	.summary = "Add a ring to the show.",
	.example = "--show spring.show ring add \"Mill ring\" --kind driven-40x80",
	CLI_OPTIONS(struct rt_ring, ring_options),
	.run = ring_add,
};

static void ring_list(struct cli *c, const void *typed)
{
	const struct rt_rings *rings = cli_rings(c);

	(void)typed;
	rt_report_list(&c->report, &rt_ring_record, rings->at, rings->n);
}

const struct cli_command cmd_ring_list = {
	.name = "ring list",
	.summary = "List the rings of the show.",
	.example = "--show spring.show ring list",
	.run = ring_list,
};

/* ---- adjust ------------------------------------------------------------------------------ */

struct adjust {
	const char *points;
	struct rt_strings readings;
};

static const struct rt_field adjust_options[] = {
	{"points", RT_AT(struct adjust, points), .head = "POINTS.csv", .type = RT_TEXT,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	{"readings", RT_AT(struct adjust, readings), .head = "READINGS.csv", .type = RT_TEXT,
	 .is = RT_ARGUMENT | RT_REQUIRED | RT_MANY},
};

static void adjust(struct cli *c, const void *typed)
{
	const struct adjust *o = typed;
	struct rt_points points = {0};
	struct rt_readings readings = {0};
	struct rt_heights heights = {0};
	struct rt_adjustment result = {0};

	CLI_DO(c, rt_read_points(&points, CLI_SOURCE(c, o->points), &c->faults, &c->err));
	/* Points with faults are not held against the readings too. */
	cli_read_readings(c, &o->readings, 0, NULL, c->faults.total ? NULL : &points, &readings,
			  &heights);
	CLI_DO(c, rt_adjust(&result, &points, &readings, &c->err));
	CLI_DO(c, rt_adjustment_report(&c->report, &result, cli_text_in_feet(c), &c->err));
	rt_adjustment_free(&result);
	RT_LIST_FREE(&points);
	RT_LIST_FREE(&readings);
	RT_LIST_FREE(&heights);
}

const struct cli_command cmd_adjust = {
	.name = "adjust",
	.summary = "Adjust readings between any points by least squares.",
	.details = "With no point fixed the datum is free.\n" CLI_READING_FILES
		   "Coordinates x_m,y_m are in the frame of the points here.",
	.files = cli_adjust_files,
	.example = "adjust points-oak.csv readings-oak.csv",
	CLI_OPTIONS(struct adjust, adjust_options),
	.run = adjust,
};
