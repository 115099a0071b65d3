/* sweep: what follows the fore feet of a turnout through one turn.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

struct sweep {
	const char *turnout, *turnouts, *gait;
	double diameter_m, angle_deg, slope_deg;
	bool two_track;
};

static const struct rt_field options[] = {
	CLI_TURNOUT(struct sweep, turnout, RT_REQUIRED),
	{"diameter", RT_AT(struct sweep, diameter_m), CLI_METRES(1, 200), .is = RT_REQUIRED,
	 .help = "of the turn"},
	{"angle", RT_AT(struct sweep, angle_deg), .head = "DEG", .type = RT_REAL, .low = 1,
	 .high = 720, .is = RT_REQUIRED, .help = "that the turn goes round"},
	CLI_TURNOUTS(struct sweep, turnouts),
	{"two-track", RT_AT(struct sweep, two_track), .type = RT_BOOL,
	 .help = "the first animal bends: its hind feet follow the fore feet"},
	{"gait", RT_AT(struct sweep, gait), .type = RT_NAME, .is = RT_USUAL,
	 .help = "the pace, for lean and overturning"},
	{"slope", RT_AT(struct sweep, slope_deg), .head = "DEG", .type = RT_REAL, .low = -30,
	 .high = 30, .help = "how steeply the ground falls away from the turn's centre"},
};

/* A gait that is not there is told only to who asked for it. */
static double speed_of(struct cli *c, const struct rt_gaits *gaits, const struct sweep *o)
{
	const struct rt_gait *gait = rt_gait_find(gaits, o->gait);

	if (!gait && cli_given(c, &o->gait))
		cli_unknown(c, &rt_gait_record, gaits->at, gaits->n, o->gait, NULL,
			    "unknown gait \"%s\"", o->gait);
	return gait ? gait->speed_m_per_s : 0.0;
}

static void sweep(struct cli *c, const void *typed)
{
	const struct sweep *o = typed;
	struct rt_sweep_options asked = {.slope_deg = o->slope_deg, .two_track = o->two_track};
	struct rt_turnout_parts turnout = {0};
	struct rt_path path = {0};
	struct rt_sweep result = {0};

	cli_turnout(c, o->turnout, o->turnouts, &turnout);
	asked.speed_m_per_s = speed_of(c, &cli_rows(c)->gaits, o);
	CLI_DO(c, rt_sweep_turn(&path, o->diameter_m, o->angle_deg, &c->err));
	CLI_DO(c, rt_sweep_make(&result, &path, &turnout, &asked, &c->err));
	CLI_DO(c, rt_sweep_report(&c->report, &result, &c->err));
	rt_sweep_free(&result);
	rt_path_free(&path);
	RT_LIST_FREE(&turnout);
}

const struct cli_command cmd_sweep = {
	.name = "sweep",
	.summary = "How far each part of a turnout runs inside its horse's path in a turn.",
	.details = "40 m straight, all in line; the arc; 40 m straight.",
	.example = "sweep --turnout 'horse and gig' --diameter 20 --angle 90",
	CLI_OPTIONS(struct sweep, options),
	.blank = &(const struct sweep){.gait = "trot"},
	.run = sweep,
};
