/* sheet route, sheet cones: a test's movements, and the cones to practise them with.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

/* How finely the swept band is drawn, and the turnout looked at for it: a pen's line is wider. */
#define BAND_STEP_M  0.5
#define SWEEP_STEP_M 0.02

/* What is typed for a sheet of a test or of a level's turns. */
struct route_sheet {
	struct cli_route_asked route;
	struct cli_sheet sheet;
	bool compare, turns;
	double tape_m;
};

/* ---- sheet route ---------------------------------------------------------------------------- */

/* The wording of the movements, in the order of the route. */
static const struct rt_movement_words *take_words(struct cli *c, const struct cli_route *in)
{
	struct rt_movement_words *words = cli_array(c, in->movements.n, sizeof *words);
	size_t n = 0;

	for (size_t i = 0; words && i < in->items.n; i++) {
		const struct rt_item *item = &in->items.at[i];

		if (item->group == RT_GROUP_MOVEMENT && strcmp(item->test, in->test) == 0)
			words[n++] = (struct rt_movement_words){item->letters, item->movement};
	}
	return words;
}

/* Drive the turnout along the route. */
static void take_band(struct cli *c, const struct cli_route *in, struct rt_band *band)
{
	const struct rt_sweep_options options = {.trace_m = BAND_STEP_M / 2.0,
						 .step_m = SWEEP_STEP_M};
	struct rt_sweep sweep = {0};

	CLI_DO(c, rt_sweep_make(&sweep, &in->route.path, &in->turnout, &options, &c->err));
	CLI_DO(c, rt_sweep_band(band, &sweep, &in->route.path, &in->turnout, BAND_STEP_M, &c->err));
	rt_sweep_free(&sweep);
}

/* What keeps the route from being driven, beside the sheet that tells it too. */
static void tell_problems(struct cli *c, const struct rt_route *route)
{
	for (size_t i = 0; i < route->problems.n; i++) {
		char words[400];

		rt_route_problem_words(&route->problems.at[i], c->feet, words, sizeof words);
		rt_report_note(&c->report, "Movement %s cannot be driven so: %s",
			       route->legs.at[route->problems.at[i].leg].movement, words);
	}
	c->report.needs_person = c->report.needs_person || route->problems.n > 0;
}

static void sheet_route(struct cli *c, const void *typed)
{
	const struct route_sheet *o = typed;
	struct rt_route_sheet what = {.compare = o->compare};
	struct rt_sheet_options options;
	struct cli_route in = {0};
	struct rt_band band = {0};
	struct rt_sheet sheet = {0};

	cli_route_make(c, &o->route, &in);
	options = cli_sheet_options(c, &o->sheet);
	if (!c->err.code) {
		what.words = take_words(c, &in);
		what.title = in.title ? in.title : in.test;
	}
	if (in.turnout.n) {
		what.turnout = in.turnout.at[0].turnout;
		what.turnout_track_m = rt_turnout_track(&in.turnout);
	}
	if (in.turnout.n && in.route.whole) {
		take_band(c, &in, &band);
		what.band = &band;
	}
	CLI_DO(c, rt_sheet_route(&sheet, &in.route, in.kind, &what, &options, &c->err));
	cli_write_sheet(c, &o->sheet, &sheet);
	if (!c->err.code)
		tell_problems(c, &in.route);
	RT_LIST_FREE(&band);
	cli_route_free(&in);
}

static const struct rt_field route_options[] = {
	{"test", RT_AT(struct route_sheet, route.test), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	CLI_OUT(struct route_sheet, sheet),
	CLI_KIND(struct route_sheet, route.kind, 0),
	CLI_LEVEL(struct route_sheet, route.level, 0),
	CLI_ONLY_TEST(struct route_sheet, route.only_test),
	CLI_HEIGHT(struct route_sheet, route.options.height_cm),
	CLI_TRACK(struct route_sheet, route.options.track_m),
	{"compare", RT_AT(struct route_sheet, compare), .type = RT_BOOL,
	 .help = "the right-angled line of maps under it"},
	CLI_TURNOUT(struct route_sheet, route.turnout, 0),
	CLI_TURNOUTS(struct route_sheet, route.turnouts),
	CLI_VIEW(struct route_sheet, sheet),
};

const struct cli_command cmd_sheet_route = {
	.name = "sheet route",
	.args = "(TEST or MOVEMENTS.csv) --out FILE",
	.summary = "A test's movements, each a small ring with the line that is driven.",
	.details =
		"A test of the show brings its own ring and level; a file of movements needs\n"
		"--kind and --level. --turnout draws the edges of the ground it sweeps. What cannot\n"
		"be driven as asked is told on the sheet (exit status 1).\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet route Larch --compare --out larch.pdf",
	CLI_OPTIONS(struct route_sheet, route_options),
	.run = sheet_route,
};

/* ---- sheet cones ---------------------------------------------------------------------------- */

/* Draw and write the cones, and tell them. */
static void write_cones(struct cli *c, const struct route_sheet *o, const struct rt_cones *cones,
			const struct rt_ring_kind *kind, const char *title)
{
	struct rt_sheet_options options = cli_sheet_options(c, &o->sheet);
	struct rt_sheet sheet = {0};

	CLI_DO(c, rt_sheet_cones(&sheet, cones, kind, title, &options, &c->err));
	cli_write_sheet(c, &o->sheet, &sheet);
	CLI_DO(c, rt_cones_report(&c->report, cones, &c->err));
}

/* The cones of a test. */
static void test_cones(struct cli *c, const struct route_sheet *o, struct rt_cones *cones)
{
	struct cli_route in = {0};
	char title[256];

	cli_route_make(c, &o->route, &in);
	CLI_DO(c, rt_cones_make(cones, &in.route.turns, in.kind, o->tape_m, &c->err));
	if (!c->err.code) {
		snprintf(title, sizeof title, "%s, %s, %s", in.title ? in.title : in.test,
			 in.level->name, in.kind->name);
		write_cones(c, o, cones, in.kind, title);
	}
	if (!c->err.code)
		tell_problems(c, &in.route);
	cli_route_free(&in);
}

/* The cones of a level's turns. */
static void level_cones(struct cli *c, const struct route_sheet *o, struct rt_cones *cones)
{
	const struct cli_turns_asked asked = {o->route.kind, o->route.level, o->route.options};
	const struct rt_level *level;
	struct cli_ring ring;
	struct rt_turns turns = {0};
	char title[256];

	if (!asked.kind || !asked.level)
		CLI_FAIL(c, RT_E_USAGE, "--turns wants --%s %s", asked.kind ? "level" : "kind",
			 asked.kind ? "LEVEL" : "KIND");
	ring = cli_ring_find(c, NULL, asked.kind, false);
	cli_turns_make(c, &asked, ring.kind, &level, &turns);
	CLI_DO(c, rt_cones_make(cones, &turns.list, ring.kind, o->tape_m, &c->err));
	if (!c->err.code) {
		snprintf(title, sizeof title, "turns, %s, %s", level->name, ring.kind->name);
		write_cones(c, o, cones, ring.kind, title);
	}
	rt_turns_free(&turns);
}

static void sheet_cones(struct cli *c, const void *typed)
{
	const struct route_sheet *o = typed;
	struct rt_cones cones = {0};

	if (o->turns == (o->route.test != NULL))
		CLI_FAIL(c, RT_E_USAGE, "a test, a file of movements or --turns: one of them");
	if (o->turns && o->route.only_test)
		CLI_FAIL(c, RT_E_USAGE, "--test belongs to a file of movements");
	if (!o->turns && cli_given(c, &o->route.options.diameter_m))
		CLI_FAIL(c, RT_E_USAGE, "--diameter belongs to --turns");
	if (o->turns)
		level_cones(c, o, &cones);
	else
		test_cones(c, o, &cones);
	rt_cones_free(&cones);
}

static const struct rt_field cones_options[] = {
	{"test", RT_AT(struct route_sheet, route.test), .type = RT_NAME, .is = RT_ARGUMENT},
	CLI_OUT(struct route_sheet, sheet),
	{"turns", RT_AT(struct route_sheet, turns), .type = RT_BOOL,
	 .help = "all turns of a level instead of a test"},
	CLI_KIND(struct route_sheet, route.kind, 0),
	CLI_LEVEL(struct route_sheet, route.level, 0),
	CLI_ONLY_TEST(struct route_sheet, route.only_test),
	CLI_HEIGHT(struct route_sheet, route.options.height_cm),
	CLI_DIAMETER(struct route_sheet, route.options.diameter_m),
	CLI_TRACK(struct route_sheet, route.options.track_m),
	{"tape", RT_AT(struct route_sheet, tape_m), CLI_METRES(5, 200), .is = RT_USUAL,
	 .help = "how long the tape is"},
	CLI_VIEW(struct route_sheet, sheet),
};

const struct cli_command cmd_sheet_cones = {
	.name = "sheet cones",
	.args = "(TEST, MOVEMENTS.csv or --turns) --out FILE",
	.summary = "Cones that set out the true arcs at home, each by two tapes from letters.",
	.details =
		"A cone at the begin, the middle and the finish of every arc of a test, or with\n"
		"--turns of all turns of a level; the table of tapes is told here too. A test of\n"
		"the show brings its own ring and level; anything else needs --kind and --level.\n" CLI_OUTPUT_STANDARD,
	.example = "sheet cones --turns --kind driven-40x80 --level intermediate --out cones.pdf",
	CLI_OPTIONS(struct route_sheet, cones_options),
	.blank = &(const struct route_sheet){.tape_m = RT_TAPE_M},
	.run = sheet_cones,
};
