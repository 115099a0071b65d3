/* test route: the line that is driven through a whole test.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

struct test_route {
	struct cli_route_asked route;
	double signal_s, writing_s;
};

static const struct rt_field options[] = {
	{"test", RT_AT(struct test_route, route.test), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	CLI_KIND(struct test_route, route.kind, 0),
	CLI_LEVEL(struct test_route, route.level, 0),
	CLI_HEIGHT(struct test_route, route.options.height_cm),
	CLI_TRACK(struct test_route, route.options.track_m),
	CLI_TURNOUT(struct test_route, route.turnout, 0),
	CLI_TURNOUTS(struct test_route, route.turnouts),
	CLI_ONLY_TEST(struct test_route, route.only_test),
	{"signal", RT_AT(struct test_route, signal_s), .head = "S", .type = RT_REAL, .low = 0,
	 .high = 3600, .is = RT_USUAL, .help = "seconds allowed after the signal"},
	{"writing", RT_AT(struct test_route, writing_s), .head = "S", .type = RT_REAL, .low = 0,
	 .high = 3600, .is = RT_USUAL, .help = "seconds for the judge to write"},
};

/* What the turnout sweeps along the route, where there is one and the route is one line. */
static void report_sweep(struct cli *c, const struct cli_route *in)
{
	const struct rt_gait *gait = rt_gait_find(&cli_rows(c)->gaits, in->level->gait);
	const struct rt_sweep_options of = {
		.kind = in->kind,
		.level = in->level,
		.speed_m_per_s = gait ? rt_gait_speed(gait, in->options.height_cm) : 0.0};
	struct rt_sweep sweep = {0};

	if (!in->route.whole) {
		rt_report_note(&c->report,
			       "The turnout was not swept along it: a problem left a gap. "
			       "--track 0 drives along the boards.");
		return;
	}
	CLI_DO(c, rt_sweep_make(&sweep, &in->route.path, &in->turnout, &of, &c->err));
	CLI_DO(c, rt_sweep_report(&c->report, &sweep, &c->err));
	rt_sweep_free(&sweep);
}

static void test_route(struct cli *c, const void *typed)
{
	const struct test_route *o = typed;
	struct cli_route in = {0};

	cli_route_make(c, &o->route, &in);
	CLI_DO(c, rt_route_report(&c->report, &in.route, o->signal_s, o->writing_s,
				  cli_text_in_feet(c), &c->err));
	if (!c->err.code && in.turnout.n)
		report_sweep(c, &in);
	cli_route_free(&in);
}

const struct cli_command cmd_test_route = {
	.name = "test route",
	.args = "(TEST or MOVEMENTS.csv) --kind KIND --level LEVEL",
	.summary = "The line driven through a test: lengths, times, turns, what does not fit.",
	.details =
		"A test of the show brings its own ring and level; a file of movements needs both\n"
		"options. What cannot be driven as asked is a row of problems, with the largest\n"
		"diameter that fits (exit status 1). Steps of a figure: M or M/15 (a letter, its\n"
		"turn of 15 m), halt:10, back:3, circle:20:left, half:10:right, loop:5,\n"
		"serpentine:3:left or serpentine:3:left:20.",
	.example = "--show spring.show test route Larch",
	CLI_OPTIONS(struct test_route, options),
	.blank = &(const struct test_route){.signal_s = RT_SIGNAL_SECONDS,
					    .writing_s = RT_WRITING_SECONDS},
	.run = test_route,
};
