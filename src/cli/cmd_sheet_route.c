/* sheet route, sheet cones: a test's movements, and the cones to practise them with.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <math.h>
#include <string.h>

/* How finely the swept band is drawn, and the turnout looked at for it: a pen's line is wider. */
#define BAND_STEP_M  0.5
#define SWEEP_STEP_M 0.02

/* ---- sheet route ---------------------------------------------------------------------------- */

struct sheet_call {
	struct cli_route route;
	struct rt_sheet_options options;
	struct rt_band band;
	struct rt_show show;
	struct rt_sheet sheet;
	struct rt_route_sheet what;
	struct rt_arena *text; /* of the movements' words */
};

static void sheet_call_free(struct sheet_call *s)
{
	rt_sheet_free(&s->sheet);
	rt_show_free(&s->show);
	RT_LIST_FREE(&s->band);
	rt_arena_free(s->text);
	cli_route_free(&s->route);
}

/* The wording of the movements, in the order of the route. */
static enum rt_err take_words(struct cli *c, struct sheet_call *s)
{
	struct rt_movement_words *words;
	const struct cli_route *in = &s->route;
	size_t n = 0;

	words = rt_arena_take(&s->text, in->movements.n * sizeof *words);
	if (!words)
		return rt_fail_nomem(&c->err);
	for (size_t i = 0; i < in->items.n; i++) {
		const struct rt_item *item = &in->items.at[i];

		if (!item->general && strcmp(item->test, in->test) == 0)
			words[n++] = (struct rt_movement_words){item->letters, item->movement};
	}
	s->what.words = words;
	s->what.title = in->title ? in->title : in->test;
	return RT_OK;
}

/* Drive the turnout along the route, where that is one line. */
static enum rt_err take_band(struct cli *c, struct sheet_call *s)
{
	const struct rt_sweep_options options = {.trace_m = BAND_STEP_M / 2.0,
						 .step_m = SWEEP_STEP_M};
	struct rt_sweep sweep = {0};
	enum rt_err e;

	if (!s->route.turnout.n)
		return RT_OK;
	s->what.turnout = s->route.turnout.at[0].turnout;
	s->what.turnout_track_m = rt_turnout_track(&s->route.turnout);
	if (!s->route.route.whole)
		return RT_OK;
	e = rt_sweep_make(&sweep, &s->route.route.path, &s->route.turnout, &options, &c->err);
	if (!e)
		e = rt_sweep_band(&s->band, &sweep, &s->route.route.path, &s->route.turnout,
				  BAND_STEP_M, &c->err);
	rt_sweep_free(&sweep);
	s->what.band = &s->band;
	return e;
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

static enum rt_err sheet_route(struct cli *c, const struct cli_call *call)
{
	struct sheet_call s = {0};
	enum rt_err e = cli_sheet_options(c, call, &s.options);

	s.what.compare = cli_option(call, "compare") != NULL;
	if (!e)
		e = cli_route_read(c, call, &s.route);
	if (!e)
		e = cli_route_make(c, &s.route);
	if (!e)
		e = take_words(c, &s);
	if (!e)
		e = take_band(c, &s);
	if (!e && c->store)
		e = rt_store_show(c->store, &s.show, &c->err);
	s.options.show = s.show.title;
	if (!e)
		e = rt_sheet_route(&s.sheet, &s.route.route, s.route.kind, &s.what, &s.options,
				   &c->err);
	if (!e)
		e = cli_write_sheet(c, call, &s.sheet);
	if (!e)
		tell_problems(c, &s.route.route);
	sheet_call_free(&s);
	return e;
}

const struct cli_command cmd_sheet_route = {
	.group = "Papers",
	.name = "sheet route",
	.args = "(TEST or MOVEMENTS.csv) --out FILE.pdf|.svg",
	.summary = "A test's movements, each a small ring with the line that is driven.",
	.details =
		"A test of the show brings its own ring and level; a file of movements needs\n"
		"--kind and --level. --compare draws the right-angled line of maps under the\n"
		"driven one, --turnout the edges of the ground it sweeps. What cannot be driven\n"
		"as asked is told on the sheet (exit status 1).\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet route Larch --compare --out larch.pdf",
	.old_option = {CLI_OUT_OPTIONS,
		       {"kind", "KIND", "a kind of ring", false},
		       {"level", "LEVEL", "a level; the ring kind says ridden or driven", false},
		       {"test", "NAME", "which test, where the file holds several", false},
		       {"height", "H", "the animal's height: 132cm, 1.32m or 13.2hh", false},
		       {"track", "M",
			"how far the track lies inside the boards; 0 unless given,\n"
			"                          with a turnout half its width and 0.25 m",
			false},
		       {"compare", NULL, "the right-angled line of maps under it", false},
		       {"turnout", "NAME", "draw what this turnout sweeps", false},
		       {"turnouts", "FILE.csv", "turnouts of your own instead of the shipped",
			false},
		       {"paper", "SIZE", "a4 (unless given) or letter", false},
		       {"seen-from", "SEAT", "drawn as seen from C, B, E or A", false},
		       {"up", "LETTER", "C (unless given) or A at the top", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = sheet_route,
};

/* ---- sheet cones ---------------------------------------------------------------------------- */

struct cones_call {
	struct rt_sheet_options options;
	double tape_m;
	char title[256];
	struct rt_cones cones;
	struct rt_show show;
	struct rt_sheet sheet;
};

/* Draw and write the cones, and tell them. */
static enum rt_err write_cones(struct cli *c, const struct cli_call *call, struct cones_call *s,
			       const struct rt_ring_kind *kind)
{
	enum rt_err e = c->store ? rt_store_show(c->store, &s->show, &c->err) : RT_OK;

	s->options.show = s->show.title;
	if (!e)
		e = rt_sheet_cones(&s->sheet, &s->cones, kind, s->title, &s->options, &c->err);
	if (!e)
		e = cli_write_sheet(c, call, &s->sheet);
	return e ? e : rt_cones_report(&c->report, &s->cones, &c->err);
}

/* The cones of a test. */
static enum rt_err test_cones(struct cli *c, const struct cli_call *call, struct cones_call *s)
{
	struct cli_route in = {0};
	enum rt_err e = cli_route_read(c, call, &in);

	if (!e)
		e = cli_route_make(c, &in);
	if (!e)
		e = rt_cones_of_route(&s->cones, &in.route, in.kind, s->tape_m, &c->err);
	if (!e) {
		snprintf(s->title, sizeof s->title, "%s, %s, %s", in.title ? in.title : in.test,
			 in.level->name, in.kind->name);
		e = write_cones(c, call, s, in.kind);
	}
	if (!e)
		tell_problems(c, &in.route);
	cli_route_free(&in);
	return e;
}

/* The cones of a level's turns. */
static enum rt_err level_cones(struct cli *c, const struct cli_call *call, struct cones_call *s)
{
	const char *kind_name = cli_option(call, "kind"), *level_name = cli_option(call, "level");
	struct rt_turn_options options = {0};
	const struct rt_ring_kind *kind;
	const struct rt_level *level;
	struct rt_shipped rows = {0};
	struct rt_turns turns = {0};
	enum rt_err e = cli_turn_options(c, call, &options);

	if (!e && (!kind_name || !level_name))
		return rt_fail(&c->err, RT_E_USAGE, "--turns wants --%s %s",
			       kind_name ? "level" : "kind", kind_name ? "LEVEL" : "KIND");
	if (!e)
		e = CLI_OLD(c, cli_rows(c, &rows));
	if (!e)
		e = rt_ring_kind_named(&kind, &rows.kinds, kind_name, &c->err);
	if (!e)
		e = cli_level_named(c, &rows.levels, level_name, kind->discipline, &level);
	if (!e)
		e = rt_turns_make(&turns, kind, level, &rows.gaits, &options, &c->err);
	if (!e)
		e = rt_cones_of_turns(&s->cones, &turns, kind, s->tape_m, &c->err);
	if (!e) {
		snprintf(s->title, sizeof s->title, "turns, %s, %s", level->name, kind->name);
		e = write_cones(c, call, s, kind);
	}
	rt_turns_free(&turns);
	rt_shipped_free(&rows);
	return e;
}

static enum rt_err sheet_cones(struct cli *c, const struct cli_call *call)
{
	bool turns = cli_option(call, "turns") != NULL;
	struct cones_call s = {.tape_m = RT_TAPE_M};
	enum rt_err e = cli_sheet_options(c, call, &s.options);

	if (!e && turns == (call->args == 1))
		e = rt_fail(&c->err, RT_E_USAGE,
			    "a test, a file of movements or --turns: one of them");
	if (!e && turns && cli_option(call, "test"))
		e = rt_fail(&c->err, RT_E_USAGE, "--test belongs to a file of movements");
	if (!e && !turns && cli_option(call, "diameter"))
		e = rt_fail(&c->err, RT_E_USAGE, "--diameter belongs to --turns");
	if (!e)
		e = cli_real_option(c, call, "tape", 5.0, 200.0, &s.tape_m);
	if (!e)
		e = turns ? level_cones(c, call, &s) : test_cones(c, call, &s);
	rt_sheet_free(&s.sheet);
	rt_show_free(&s.show);
	rt_cones_free(&s.cones);
	return e;
}

const struct cli_command cmd_sheet_cones = {
	.group = "Papers",
	.name = "sheet cones",
	.args = "(TEST, MOVEMENTS.csv or --turns) --out FILE.pdf|.svg",
	.summary = "Cones that set out the true arcs at home, each by two tapes from letters.",
	.details =
		"A cone at the begin, the middle and the finish of every arc of a test, or with\n"
		"--turns of all turns of a level; the table of tapes is told here too. A test of\n"
		"the show brings its own ring and level; anything else needs --kind and --level.\n" CLI_OUTPUT_STANDARD,
	.example = "sheet cones --turns --kind driven-40x80 --level intermediate --out cones.pdf",
	.old_option = {CLI_OUT_OPTIONS,
		       {"turns", NULL, "all turns of a level instead of a test", false},
		       {"kind", "KIND", "a kind of ring", false},
		       {"level", "LEVEL", "a level; the ring kind says ridden or driven", false},
		       {"test", "NAME", "which test, where the file holds several", false},
		       {"height", "H", "the animal's height: 132cm, 1.32m or 13.2hh", false},
		       {"diameter", "M", "with --turns: a diameter instead of the level's", false},
		       {"track", "M", "how far the track lies inside the boards; 0 unless given",
			false},
		       {"tape", "M", "how long the tape is; 50 unless given", false},
		       {"paper", "SIZE", "a4 (unless given) or letter", false},
		       {"seen-from", "SEAT", "drawn as seen from C, B, E or A", false},
		       {"up", "LETTER", "C (unless given) or A at the top", false}},
	.old_min_args = 0,
	.old_max_args = 1,
	.old_run = sheet_cones,
};
