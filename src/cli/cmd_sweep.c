/* sweep: what follows the fore feet of a turnout through one turn.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

/* The pace unless another is asked for. */
#define GAIT "trot"

struct sweep_call {
	struct rt_sweep_options options;
	double diameter_m, angle_deg;
};

static enum rt_err read_sweep(struct cli *c, const struct cli_call *call, struct sweep_call *out)
{
	enum rt_err e = cli_real_option(c, call, "diameter", 1.0, 200.0, &out->diameter_m);

	if (!e)
		e = cli_real_option(c, call, "angle", 1.0, 720.0, &out->angle_deg);
	if (!e)
		e = cli_real_option(c, call, "slope", -30.0, 30.0, &out->options.slope_deg);
	out->options.two_track = cli_option(call, "two-track") != NULL;
	return e;
}

static enum rt_err speed_of(struct cli *c, const struct rt_gaits *gaits, const char *name,
			    double *speed)
{
	const struct rt_gait *gait = rt_gait_find(gaits, name ? name : GAIT);
	const char *names[64], *nearest;
	size_t n = 0;

	if (gait) {
		*speed = gait->speed_m_per_s;
		return RT_OK;
	}
	if (!name)
		return RT_OK;
	for (; n < gaits->n && n < sizeof names / sizeof *names; n++)
		names[n] = gaits->at[n].name;
	nearest = rt_nearest(name, names, n);
	if (!nearest)
		nearest = GAIT;
	return rt_fail(&c->err, RT_E_NOTFOUND, "unknown gait \"%s\": did you mean \"%s\"?", name,
		       nearest);
}

enum rt_err cli_turnout(struct cli *c, struct rt_shipped *rows, const char *name, const char *file,
			struct rt_turnout_parts *out)
{
	enum rt_err e = RT_OK;

	if (file) {
		RT_LIST_FREE(&rows->turnouts);
		e = rt_read_turnouts(&rows->turnouts, file, &c->faults, &c->err);
		if (!e)
			e = rt_faults_result(&c->faults, &c->err);
	}
	return e ? e : rt_turnout_named(out, &rows->turnouts, name, &c->err);
}

static enum rt_err sweep(struct cli *c, const struct cli_call *call)
{
	struct sweep_call asked = {0};
	struct rt_shipped rows = {0};
	struct rt_turnout_parts turnout = {0};
	struct rt_path path = {0};
	struct rt_sweep result = {0};
	enum rt_err e = read_sweep(c, call, &asked);

	if (!e)
		e = CLI_OLD(c, cli_rows(c, &rows));
	if (!e)
		e = cli_turnout(c, &rows, cli_option(call, "turnout"), cli_option(call, "turnouts"),
				&turnout);
	if (!e)
		e = speed_of(c, &rows.gaits, cli_option(call, "gait"),
			     &asked.options.speed_m_per_s);
	if (!e)
		e = rt_sweep_turn(&path, asked.diameter_m, asked.angle_deg, &c->err);
	if (!e)
		e = rt_sweep_make(&result, &path, &turnout, &asked.options, &c->err);
	if (!e)
		e = rt_sweep_report(&c->report, &result, &c->err);
	rt_sweep_free(&result);
	rt_path_free(&path);
	RT_LIST_FREE(&turnout);
	rt_shipped_free(&rows);
	return e;
}

const struct cli_command cmd_sweep = {
	.group = "Turns",
	.name = "sweep",
	.args = "--turnout NAME --diameter M --angle DEG",
	.summary = "How far each part of a turnout runs inside its horse's path in a turn.",
	.details = "40 m straight, all in line; the arc; 40 m straight.",
	.example = "sweep --turnout 'horse and gig' --diameter 20 --angle 90",
	.old_option = {{"turnout", "NAME", "a turnout", true},
		       {"diameter", "M", "of the turn, 1 to 200 m", true},
		       {"angle", "DEG", "that the turn goes round, 1 to 720", true},
		       {"turnouts", "FILE.csv", "turnouts of your own instead of the shipped",
			false},
		       {"two-track", NULL,
			"the first animal bends: its hind feet follow the fore feet", false},
		       {"gait", "GAIT", "the pace, for lean and overturning; trot unless given",
			false},
		       {"slope", "DEG", "how steeply the ground falls away from the turn's centre",
			false}},
	.old_run = sweep,
};
