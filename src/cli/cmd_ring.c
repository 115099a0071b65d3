/* ring kinds, add, list, setout, check; adjust.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <math.h>
#include <string.h>

/* Words follow --feet only where numbers do: in text. */
static bool text_in_feet(const struct cli *c)
{
	return c->feet && c->format == CLI_TEXT;
}

/* The usual sigmas are those of rt_reading_sigma. */
#define READING_FILES                                                                               \
	"Files of readings, as many as there are; the columns tell the kind of each:\n"             \
	"  from,to,distance_m[,sigma_m][,note]         tape\n"                                      \
	"  point,from,to,offset_m[,sigma_m][,note]     offset of point from a string: to the\n"     \
	"                                              right of somebody at from facing to\n"       \
	"  point,from,to,angle_deg[,sigma_deg][,note]  angle at point, from from clockwise to to\n" \
	"  point,x_m,y_m[,sigma_m]                     receiver, metres\n"                          \
	"  point,lat_deg,lon_deg[,height_m][,sigma_m]  receiver, WGS84 degrees\n"                   \
	"  point,height_m[,sigma_m]                    heights\n"                                   \
	"Usual sigma: tape 10 mm + 0.2 mm a metre; offset 10 mm + 0.2 mm a metre of string;\n"      \
	"angle 0.05 degrees; receiver 20 mm each way (common practice, no source).\n"

/* ---- kinds, add, list -------------------------------------------------------------------- */

static enum rt_err ring_kinds(struct cli *c, const struct cli_call *call)
{
	struct rt_shipped rows;
	enum rt_err e = cli_rows(c, &rows);

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
	.run = ring_kinds,
};

static enum rt_err ring_add(struct cli *c, const struct cli_call *call)
{
	const struct rt_ring ring = {call->arg[0], cli_option(call, "kind")};
	const struct rt_ring_kind *kind;
	struct rt_rings added = {0};
	struct rt_ring *row;
	struct rt_shipped rows = {0};
	enum rt_err e = cli_text(c, "the ring's name", ring.name, RT_NAME_MOST, true);

	if (!e)
		e = cli_store(c, true);
	if (!e)
		e = cli_rows(c, &rows);
	if (!e)
		e = rt_ring_kind_named(&kind, &rows.kinds, ring.kind, &c->err);
	if (!e)
		e = rt_store_ring_add(c->store, &ring, &c->err);
	row = e ? NULL : RT_LIST_ADD(&added);
	if (row) {
		*row = ring;
		e = rt_rings_report(&c->report, &added, &c->err);
	} else if (!e) {
		e = rt_fail_nomem(&c->err);
	}
	RT_LIST_FREE(&added);
	rt_shipped_free(&rows);
	return e;
}

const struct cli_command cmd_ring_add = {
	.group = "Ring",
	.name = "ring add",
	.args = "NAME --kind KIND",
	.summary = "Add a ring to the show.",
	.example = "--show spring.show ring add \"Mill ring\" --kind driven-40x80",
	.option = {{"kind", "KIND", "a kind that `ring kinds` lists", true}},
	.min_args = 1,
	.max_args = 1,
	.run = ring_add,
};

static enum rt_err ring_list(struct cli *c, const struct cli_call *call)
{
	struct rt_rings rings = {0};
	enum rt_err e = cli_store(c, false);

	(void)call;
	if (!e)
		e = rt_store_rings(c->store, &rings, &c->err);
	if (!e)
		e = rt_rings_report(&c->report, &rings, &c->err);
	RT_LIST_FREE(&rings);
	return e;
}

const struct cli_command cmd_ring_list = {
	.group = "Ring",
	.name = "ring list",
	.args = "",
	.summary = "List the rings of the show.",
	.example = "--show spring.show ring list",
	.run = ring_list,
};

/* ---- the ring that is meant: a ring of the show by name, or a kind ----------------------- */

/* A ring's kind, and where it comes from. */
struct meant {
	struct rt_shipped rows;
	struct rt_rings rings;
	const char *name; /* NULL: a kind only */
	const struct rt_ring_kind *kind;
};

static void meant_free(struct meant *m)
{
	rt_shipped_free(&m->rows);
	RT_LIST_FREE(&m->rings);
}

static enum rt_err ring_named(struct cli *c, const struct rt_rings *rings, const char *name,
			      const char **kind)
{
	const char *names[64], *nearest;
	size_t n = 0;

	for (size_t i = 0; i < rings->n; i++) {
		if (strcmp(rings->at[i].name, name) == 0) {
			*kind = rings->at[i].kind;
			return RT_OK;
		}
		if (n < sizeof names / sizeof *names)
			names[n++] = rings->at[i].name;
	}
	nearest = rt_nearest(name, names, n);
	return rt_fail(&c->err, RT_E_NOTFOUND, "no ring \"%s\" in this show: %s%s%s", name,
		       nearest ? "did you mean \"" : "`ring list` lists them, `ring add` adds one",
		       nearest ? nearest : "", nearest ? "\"?" : "");
}

/* name (NULL: none) or --kind; exactly one of them. */
static enum rt_err find_meant(struct cli *c, const struct cli_call *call, const char *name,
			      bool writing, struct meant *m)
{
	const char *kind = cli_option(call, "kind");
	enum rt_err e = RT_OK;

	if ((name != NULL) == (kind != NULL))
		return rt_fail(&c->err, RT_E_USAGE,
			       "%s wants a ring of the show, or --kind KIND: one of them",
			       call->command->name);
	if (name)
		e = cli_store(c, writing);
	if (!e)
		e = cli_rows(c, &m->rows);
	if (!e && name)
		e = rt_store_rings(c->store, &m->rings, &c->err);
	if (!e && name)
		e = ring_named(c, &m->rings, name, &kind);
	if (!e)
		e = rt_ring_kind_named(&m->kind, &m->rows.kinds, kind, &c->err);
	m->name = name;
	return e;
}

static enum rt_err ring_setout(struct cli *c, const struct cli_call *call)
{
	struct meant m = {0};
	struct rt_ring_setout setout = {0};
	enum rt_err e = find_meant(c, call, call->args ? call->arg[0] : NULL, false, &m);

	if (!e)
		e = rt_ring_setout(&setout, m.kind, &c->err);
	if (!e)
		e = rt_ring_setout_report(&c->report, &setout, text_in_feet(c), &c->err);
	rt_ring_setout_free(&setout);
	meant_free(&m);
	return e;
}

const struct cli_command cmd_ring_setout = {
	.group = "Ring",
	.name = "ring setout",
	.args = "(NAME | --kind KIND)",
	.summary = "What a crew needs to set a ring out: pegs, distances, checks.",
	.example = "ring setout --kind driven-40x80",
	.option = {{"kind", "KIND", "a kind of ring, instead of a ring of the show", false}},
	.max_args = 1,
	.run = ring_setout,
};

/* ---- check ------------------------------------------------------------------------------- */

enum rt_err cli_check_report(struct cli *c, struct rt_report *report,
			     const struct rt_ring_kind *kind, const struct rt_stored_check *check,
			     bool feet)
{
	struct rt_ring_check result = {0};
	enum rt_fit fit = RT_FIT_FEWEST;
	enum rt_err e;

	rt_fit_read(check->fit, &fit);
	e = rt_ring_check(&result, kind, &check->readings, check->tolerance_m, fit, &c->err);
	if (!e)
		e = rt_ring_check_report(report, &result, feet, &c->err);
	rt_ring_check_free(&result);
	return e;
}

static enum rt_err keep_check(struct cli *c, void *data)
{
	return rt_store_check_put(c->store, data, &c->err);
}

static enum rt_err read_check_options(struct cli *c, const struct cli_call *call,
				      struct rt_stored_check *check)
{
	const char *fit = cli_option(call, "fit");
	enum rt_fit read;

	check->fit = fit ? fit : rt_fit_words(RT_FIT_FEWEST);
	if (!rt_fit_read(check->fit, &read))
		return rt_fail(&c->err, RT_E_USAGE, "--fit: \"%s\": fewest, all or corners", fit);
	return cli_real_option(c, call, "tolerance", 0.005, 5.0, &check->tolerance_m);
}

/* Every file of readings from arg[first] on. */
static enum rt_err read_all(struct cli *c, const struct cli_call *call, int first,
			    const struct rt_ring_kind *kind, const struct rt_points *points,
			    struct rt_readings *readings, struct rt_heights *heights)
{
	enum rt_err e = RT_OK;

	for (int i = first; !e && i < call->args; i++)
		e = rt_read_readings(readings, heights, call->arg[i], kind, points, &c->faults,
				     &c->err);
	return e ? e : rt_faults_result(&c->faults, &c->err);
}

static enum rt_err ring_check(struct cli *c, const struct cli_call *call)
{
	const char *name = call->args > 1 && !cli_option(call, "kind") ? call->arg[0] : NULL;
	struct rt_heights heights = {0};
	struct rt_stored_check check = {.ring = name, .when = c->when, .tolerance_m = NAN};
	struct meant m = {0};
	enum rt_err e = read_check_options(c, call, &check);

	if (!e)
		e = find_meant(c, call, name, true, &m);
	if (!e && isnan(check.tolerance_m))
		check.tolerance_m = rt_ring_tolerance(m.kind->discipline);
	if (!e)
		e = read_all(c, call, name != NULL, m.kind, NULL, &check.readings, &heights);
	if (!e)
		e = cli_check_report(c, &c->report, m.kind, &check, text_in_feet(c));
	if (!e && name)
		e = cli_transaction(c, keep_check, &check);
	RT_LIST_FREE(&check.readings);
	RT_LIST_FREE(&heights);
	meant_free(&m);
	return e;
}

const struct cli_command cmd_ring_check = {
	.group = "Ring",
	.name = "ring check",
	.args = "(NAME | --kind KIND) READINGS.csv...",
	.summary = "Prove a ring by readings: each peg good, or where to move it.",
	.details = READING_FILES
	"Points are letters or corners (AK, HC, CM, FA). The check of a ring of the show is\n"
	"kept in the show file. Distances cannot tell left from right: a ring whose left and\n"
	"right letters are swapped as a whole passes. Look from A once.\n"
	"Exit status 1 when a peg is to move or a reading is wrong.",
	.example = "ring check --kind driven-40x80 readings-oak.csv",
	.option = {{"kind", "KIND", "a kind of ring, instead of a ring of the show", false},
		   {"tolerance", "M", "how far a peg may be off; 0.10 driven, 0.05 ridden", false},
		   {"fit", "HOW", "fewest (moves), all or corners; fewest unless given", false}},
	.min_args = 1,
	.max_args = CLI_ARGS_MAX,
	.run = ring_check,
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
		e = read_all(c, call, 1, NULL, c->faults.total ? NULL : &points, &readings,
			     &heights);
	if (!e)
		e = rt_adjust(&result, &points, &readings, &c->err);
	if (!e)
		e = rt_adjustment_report(&c->report, &result, text_in_feet(c), &c->err);
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
	.details =
		"Columns of POINTS.csv: point,x_m,y_m,fixed (yes or no); with none fixed the datum is\n"
		"free.\n" READING_FILES "Coordinates x_m,y_m are in the frame of the points here.",
	.min_args = 2,
	.max_args = CLI_ARGS_MAX,
	.run = adjust,
};
