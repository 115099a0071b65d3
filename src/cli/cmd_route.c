/* test route: the line that is driven through a whole test.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

/* What the turnout sweeps along the route, where there is one and the route is one line. */
static enum rt_err report_sweep(struct cli *c, const struct cli_route *in)
{
	const struct rt_gait *gait = rt_gait_find(&in->rows.gaits, in->level->gait);
	const struct rt_sweep_options options = {
		.kind = in->kind,
		.level = in->level,
		.speed_m_per_s = gait ? rt_gait_speed(gait, in->options.height_cm) : 0.0};
	struct rt_sweep sweep = {0};
	enum rt_err e;

	if (!in->turnout.n)
		return RT_OK;
	if (!in->route.whole) {
		rt_report_note(&c->report,
			       "The turnout was not swept along it: a problem left a gap. "
			       "--track 0 drives along the boards.");
		return RT_OK;
	}
	e = rt_sweep_make(&sweep, &in->route.path, &in->turnout, &options, &c->err);
	if (!e)
		e = rt_sweep_report(&c->report, &sweep, &c->err);
	rt_sweep_free(&sweep);
	return e;
}

static enum rt_err test_route(struct cli *c, const struct cli_call *call)
{
	double signal_s = RT_SIGNAL_SECONDS, writing_s = RT_WRITING_SECONDS;
	struct cli_route in = {0};
	enum rt_err e = cli_real_option(c, call, "signal", 0.0, 3600.0, &signal_s);

	if (!e)
		e = cli_real_option(c, call, "writing", 0.0, 3600.0, &writing_s);
	if (!e)
		e = cli_route_read(c, call, &in);
	if (!e)
		e = cli_route_make(c, &in);
	if (!e)
		e = rt_route_report(&c->report, &in.route, signal_s, writing_s,
				    c->feet && c->format == CLI_TEXT, &c->err);
	if (!e)
		e = report_sweep(c, &in);
	cli_route_free(&in);
	return e;
}

const struct cli_command cmd_test_route = {
	.group = "Tests",
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
	.old_option = {{"kind", "KIND", "a kind of ring", false},
		       {"level", "LEVEL", "a level; the ring kind says ridden or driven", false},
		       {"height", "H", "the animal's height: 132cm, 1.32m or 13.2hh", false},
		       {"track", "M",
			"how far the track lies inside the boards; 0 unless given,\n"
			"                          with a turnout half its width and 0.25 m",
			false},
		       {"turnout", "NAME", "a turnout: how far it cuts in, how near it comes",
			false},
		       {"turnouts", "FILE.csv", "turnouts of your own instead of the shipped",
			false},
		       {"test", "NAME", "which test, where the file holds several", false},
		       {"signal", "S", "seconds allowed after the signal; 90 unless given", false},
		       {"writing", "S", "seconds for the judge to write; 30 unless given", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = test_route,
};
