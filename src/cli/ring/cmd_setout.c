/* ring setout, sheet setout: how a crew sets a ring out.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

#define TAPE_M	 30.0 /* what most crews have */
#define FARTHEST 1e8  /* a coordinate of any frame */

/* What is typed for both. */
struct setout_asked {
	const char *ring, *kind;
	double tape_m, bearing_deg, opening_m, lane_m;
	int tapes;
	bool receiver, form;
	struct rt_strings hold;
	struct cli_sheet sheet;
};

static const struct setout_asked blank = {
	.tape_m = TAPE_M, .bearing_deg = NAN, .opening_m = NAN, .lane_m = NAN, .tapes = 1};

#define SETOUT_OPTIONS                                                                             \
	{"ring", RT_AT(struct setout_asked, ring), .type = RT_NAME, .is = RT_ARGUMENT},            \
		CLI_KIND(struct setout_asked, kind, 0),                                            \
		{"tape", RT_AT(struct setout_asked, tape_m),                                       \
		 CLI_METRES(RT_TAPE_LEAST_M, RT_TAPE_MOST_M), .is = RT_USUAL,                      \
		 .help = "how long the tapes are"},                                                \
		{"tapes",	 RT_AT(struct setout_asked, tapes),                                \
		 .head = "N",	 .type = RT_SMALL,                                                 \
		 .low = 1,	 .high = 2,                                                        \
		 .is = RT_USUAL, .help = "how many there are"},                                    \
		{"receiver", RT_AT(struct setout_asked, receiver), .type = RT_BOOL,                \
		 .help = "stake coordinates by a receiver"},                                       \
		{"bearing",                                                                        \
		 RT_AT(struct setout_asked, bearing_deg),                                          \
		 .head = "DEG",                                                                    \
		 .type = RT_REAL,                                                                  \
		 .low = -360,                                                                      \
		 .high = 360,                                                                      \
		 .help = "of the line from A to C, for a receiver"},                               \
		{"hold",                                                                           \
		 RT_AT(struct setout_asked, hold),                                                 \
		 .head = "NAME[=X,Y]",                                                             \
		 .type = RT_NAME,                                                                  \
		 .is = RT_MANY,                                                                    \
		 .help = "what stands already"},                                                   \
		{"opening", RT_AT(struct setout_asked, opening_m), CLI_METRES(1, 20),              \
		 .help = "how wide the opening at A is"},                                          \
		{"lane", RT_AT(struct setout_asked, lane_m), CLI_METRES(0, 50),                    \
		 .help = "how wide the lane round the ring is"},                                   \
	{                                                                                          \
		"form", RT_AT(struct setout_asked, form), .type = RT_BOOL,                         \
							  .help = "the empty reading form only"    \
	}

#define SETOUT_DETAILS                                                                             \
	"--hold says what stands already: a peg (--hold AK --hold HC), pegs with coordinates of\n" \
	"any frame (--hold A=312.40,87.15 --hold C=371.02,141.58: the ring is laid on them), or\n" \
	"other points with coordinates in the ring (--hold gate=-25.3,-48: x to the right and y\n" \
	"towards C, from X).\n"

/* Everything that both commands work from. */
struct setout {
	struct cli_ring ring;
	struct rt_setout_hold hold[RT_HOLDS_MOST];
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
}

/* NAME, or NAME=X,Y. */
static struct rt_setout_hold read_hold(struct cli *c, const char *typed)
{
	const char *equals = strchr(typed, '='), *comma = equals ? strchr(equals, ',') : NULL;
	size_t length = equals ? (size_t)(equals - typed) : strlen(typed);
	struct rt_setout_hold hold = {rt_arena_copy(&c->text, typed, length), NAN, NAN};
	const char *x = comma ? rt_arena_copy(&c->text, equals + 1, (size_t)(comma - equals - 1))
			      : "";

	if (!hold.name || !x)
		CLI_DO(c, rt_fail_nomem(&c->err));
	else if (equals &&
		 (!length || !rt_parse_real(x, &hold.x_m) || !rt_parse_real(comma + 1, &hold.y_m) ||
		  fabs(hold.x_m) > FARTHEST || fabs(hold.y_m) > FARTHEST))
		CLI_FAIL(c, RT_E_USAGE,
			 "--hold: \"%s\": NAME=X,Y in metres (A=0,-40), or the name "
			 "of a peg that stands in its place",
			 typed);
	return hold;
}

static void make_setout(struct cli *c, const struct setout_asked *o, struct setout *s)
{
	const struct rt_setout_options options = {.tape_m = o->tape_m,
						  .tapes = o->tapes,
						  .bearing_deg = o->bearing_deg,
						  .receiver = o->receiver,
						  .hold = s->hold,
						  .holds = o->hold.n};

	if (o->hold.n > RT_HOLDS_MOST)
		CLI_FAIL(c, RT_E_USAGE, "--hold is given more than %d times", RT_HOLDS_MOST);
	for (size_t i = 0; i < o->hold.n && !c->err.code; i++)
		s->hold[i] = read_hold(c, o->hold.at[i]);
	s->ring = cli_ring_find(c, o->ring, o->kind, false);
	CLI_DO(c, rt_ring_setout(&s->pegs, s->ring.kind, &c->err));
	CLI_DO(c, rt_setout_plan(&s->plan, s->ring.kind, &options, &c->err));
	CLI_DO(c, rt_setout_form(&s->form, s->ring.kind, o->tape_m, &c->err));
	if (!c->err.code)
		rt_setout_room(&s->room, s->ring.kind, o->opening_m, o->lane_m);
}

/* ---- ring setout ----------------------------------------------------------------------------- */

static const struct rt_field ring_options[] = {SETOUT_OPTIONS};

static void ring_setout(struct cli *c, const void *typed)
{
	const struct setout_asked *o = typed;
	bool feet = cli_text_in_feet(c);
	struct setout s = {0};

	make_setout(c, o, &s);
	if (o->form) {
		CLI_DO(c,
		       rt_setout_form_report(&c->report, &s.form, c->format == CLI_CSV, &c->err));
	} else {
		CLI_DO(c, rt_ring_setout_report(&c->report, &s.pegs, feet, &c->err));
		CLI_DO(c, rt_setout_plan_report(&c->report, &s.plan, feet, &c->err));
		CLI_DO(c, rt_setout_room_report(&c->report, &s.plan, &s.room, feet, &c->err));
	}
	setout_free(&s);
}

const struct cli_command cmd_ring_setout = {
	.name = "ring setout",
	.args = "(RING | --kind KIND)",
	.summary = "How a crew sets a ring out: pegs, steps, checks, room, things to carry.",
	.details = SETOUT_DETAILS
	"--form gives the empty reading form instead: with --format csv, a\n"
	"file of readings to fill in.",
	.example = "ring setout --kind driven-40x80 --tape 50",
	CLI_OPTIONS(struct setout_asked, ring_options),
	.blank = &blank,
	.run = ring_setout,
};

/* ---- sheet setout ---------------------------------------------------------------------------- */

static const struct rt_field sheet_options[] = {
	SETOUT_OPTIONS,
	CLI_OUT(struct setout_asked, sheet),
};

static void sheet_setout(struct cli *c, const void *typed)
{
	const struct setout_asked *o = typed;
	struct rt_sheet_options options;
	struct rt_sheet sheet = {0};
	struct setout s = {0};
	struct rt_setout_sheet what = {
		.plan = &s.plan, .form = &s.form, .room = &s.room, .form_only = o->form};

	make_setout(c, o, &s);
	options = cli_sheet_options(c, &o->sheet);
	what.ring = s.ring.name;
	CLI_DO(c, rt_sheet_setout(&sheet, &what, &options, &c->err));
	cli_write_sheet(c, &o->sheet, &sheet);
	setout_free(&s);
}

const struct cli_command cmd_sheet_setout = {
	.name = "sheet setout",
	.args = "(RING | --kind KIND) --out FILE",
	.summary = "Pages for the ring crew: drawing, steps to tick, things to carry, form.",
	.details = SETOUT_DETAILS "\n" CLI_OUTPUT_STANDARD,
	.example = "sheet setout --kind driven-40x80 --tape 50 --out setout.pdf",
	CLI_OPTIONS(struct setout_asked, sheet_options),
	.blank = &blank,
	.run = sheet_setout,
};
