/* ring setout, sheet setout: how a crew sets a ring out.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define TAPE_M 30.0 /* what most crews have */

/* Everything that both commands work from. */
struct setout {
	struct cli_meant meant;
	struct rt_setout_options options;
	struct rt_setout_hold hold[RT_HOLDS_MOST];
	struct rt_arena *text;
	double opening_m, lane_m;
	struct rt_ring_setout pegs;
	struct rt_setout_plan plan;
	struct rt_setout_form form;
	struct rt_setout_room room;
};

static void setout_free(struct setout *s)
{
	rt_setout_form_free(&s->form);
	rt_setout_plan_free(&s->plan);
	rt_ring_setout_free(&s->pegs);
	cli_meant_free(&s->meant);
	rt_arena_free(s->text);
}

/* NAME, or NAME=X,Y. */
static enum rt_err read_hold(struct cli *c, struct setout *s, const char *typed,
			     struct rt_setout_hold *out)
{
	const char *equals = strchr(typed, '='), *comma = equals ? strchr(equals, ',') : NULL;
	size_t length = equals ? (size_t)(equals - typed) : strlen(typed);
	const char *x;

	*out = (struct rt_setout_hold){rt_arena_copy(&s->text, typed, length), NAN, NAN};
	if (!out->name)
		return rt_fail_nomem(&c->err);
	if (!equals)
		return cli_text(c, "--hold", out->name, RT_NAME_MOST, true);
	x = comma ? rt_arena_copy(&s->text, equals + 1, (size_t)(comma - equals - 1)) : "";
	if (!x)
		return rt_fail_nomem(&c->err);
	if (!length || !rt_parse_real(x, &out->x_m) || !rt_parse_real(comma + 1, &out->y_m) ||
	    fabs(out->x_m) > 1e8 || fabs(out->y_m) > 1e8)
		return rt_fail(&c->err, RT_E_USAGE,
			       "--hold: \"%s\": NAME=X,Y in metres (A=0,-40), or the name of a peg "
			       "that stands in its place",
			       typed);
	return cli_text(c, "--hold", out->name, RT_NAME_MOST, true);
}

static enum rt_err read_options(struct cli *c, const struct cli_call *call, struct setout *s)
{
	const char *tapes = cli_option(call, "tapes");
	int64_t count = 1;
	enum rt_err e = cli_real_option(c, call, "tape", RT_TAPE_LEAST_M, RT_TAPE_MOST_M,
					&s->options.tape_m);

	if (!e && tapes)
		e = cli_whole(c, "--tapes", tapes, 1, 2, &count);
	if (!e)
		e = cli_real_option(c, call, "bearing", -360, 360, &s->options.bearing_deg);
	if (!e)
		e = cli_real_option(c, call, "opening", 1, 20, &s->opening_m);
	if (!e)
		e = cli_real_option(c, call, "lane", 0, 50, &s->lane_m);
	for (size_t i = 0; !e && i < call->manys; i++)
		e = read_hold(c, s, call->many[i], &s->hold[i]);
	s->options.tapes = (int)count;
	s->options.receiver = cli_option(call, "receiver") != NULL;
	s->options.hold = s->hold;
	s->options.holds = call->manys;
	return e;
}

/* Read what was typed, and plan. */
static enum rt_err make_setout(struct cli *c, const struct cli_call *call, struct setout *s)
{
	enum rt_err e;

	s->options.tape_m = TAPE_M;
	s->options.bearing_deg = s->opening_m = s->lane_m = NAN;
	e = read_options(c, call, s);
	if (!e)
		e = cli_meant_find(c, call, call->args ? call->arg[0] : NULL, false, &s->meant);
	if (!e)
		e = rt_ring_setout(&s->pegs, s->meant.kind, &c->err);
	if (!e)
		e = rt_setout_plan(&s->plan, s->meant.kind, &s->options, &c->err);
	if (!e)
		e = rt_setout_form(&s->form, s->meant.kind, s->options.tape_m, &c->err);
	if (!e)
		rt_setout_room(&s->room, s->meant.kind, s->opening_m, s->lane_m);
	return e;
}

#define SETOUT_OPTIONS                                                                             \
	{"kind", "KIND", "a kind of ring, instead of a ring of the show", false},                  \
		{"tape", "M", "how long the tapes are; 30 unless given", false},                   \
		{"tapes", "N", "1 or 2; 1 unless given", false},                                   \
		{"receiver", NULL, "stake coordinates by a receiver", false},                      \
		{"bearing", "DEG", "of the line from A to C, for a receiver", false},              \
		{"hold", "NAME[=X,Y]", "what stands already; as often as there is something",      \
		 false},                                                                           \
		{"opening", "M", "how wide the opening at A is", false},                           \
	{                                                                                          \
		"lane", "M", "how wide the lane round the ring is", false                          \
	}

#define SETOUT_DETAILS                                                                             \
	"--hold says what stands already: a peg (--hold AK --hold HC), pegs with coordinates of\n" \
	"any frame (--hold A=312.40,87.15 --hold C=371.02,141.58: the ring is laid on them), or\n" \
	"other points with coordinates in the ring (--hold gate=-25.3,-48: x to the right and y\n" \
	"towards C, from X).\n"

/* ---- ring setout ----------------------------------------------------------------------------- */

static enum rt_err report(struct cli *c, const struct cli_call *call, const struct setout *s)
{
	bool feet = cli_text_in_feet(c);
	enum rt_err e;

	if (cli_option(call, "form"))
		return rt_setout_form_report(&c->report, &s->form, c->format == CLI_CSV, &c->err);
	e = rt_ring_setout_report(&c->report, &s->pegs, feet, &c->err);
	if (!e)
		e = rt_setout_plan_report(&c->report, &s->plan, feet, &c->err);
	return e ? e : rt_setout_room_report(&c->report, &s->plan, &s->room, feet, &c->err);
}

static enum rt_err ring_setout(struct cli *c, const struct cli_call *call)
{
	struct setout s = {0};
	enum rt_err e = make_setout(c, call, &s);

	if (!e)
		e = report(c, call, &s);
	setout_free(&s);
	return e;
}

const struct cli_command cmd_ring_setout = {
	.group = "Ring",
	.name = "ring setout",
	.args = "(NAME | --kind KIND)",
	.summary = "How a crew sets a ring out: pegs, steps, checks, room, things to carry.",
	.details = SETOUT_DETAILS
	"--form gives the empty reading form instead: with --format csv, a\n"
	"file of readings to fill in.",
	.example = "ring setout --kind driven-40x80 --tape 50",
	.old_option = {SETOUT_OPTIONS, {"form", NULL, "the empty reading form", false}},
	.old_many = "hold",
	.old_max_args = 1,
	.old_run = ring_setout,
};

/* ---- sheet setout ---------------------------------------------------------------------------- */

static enum rt_err sheet_setout(struct cli *c, const struct cli_call *call)
{
	struct rt_sheet_options options;
	struct rt_sheet sheet = {0};
	struct rt_show show = {0};
	struct setout s = {0};
	struct rt_setout_sheet what;
	enum rt_err e = cli_sheet_options(c, call, &options);

	if (!e)
		e = make_setout(c, call, &s);
	if (!e && c->store)
		e = rt_store_show(c->store, &show, &c->err);
	options.show = show.title;
	what = (struct rt_setout_sheet){
		.ring = s.meant.name,
		.plan = &s.plan,
		.form = &s.form,
		.room = &s.room,
		.form_only = cli_option(call, "form") != NULL,
	};
	if (!e)
		e = rt_sheet_setout(&sheet, &what, &options, &c->err);
	if (!e)
		e = cli_write_sheet(c, call, &sheet);
	rt_sheet_free(&sheet);
	rt_show_free(&show);
	setout_free(&s);
	return e;
}

const struct cli_command cmd_sheet_setout = {
	.group = "Papers",
	.name = "sheet setout",
	.args = "(NAME | --kind KIND) --out FILE.pdf|.svg",
	.summary = "Pages for the ring crew: drawing, steps to tick, things to carry, form.",
	.details = SETOUT_DETAILS "\n" CLI_OUTPUT_STANDARD,
	.example = "sheet setout --kind driven-40x80 --tape 50 --out setout.pdf",
	.old_option = {SETOUT_OPTIONS,
		       CLI_OUT_OPTIONS,
		       {"form", NULL, "the reading form only", false},
		       {"paper", "SIZE", "a4 (unless given) or letter", false}},
	.old_many = "hold",
	.old_max_args = 1,
	.old_run = sheet_setout,
};
