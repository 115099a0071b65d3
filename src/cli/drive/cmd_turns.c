/* turns, sheet turns: the true turns of a level by the letters of a ring.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

struct turns {
	const char *ring, *turnout, *turnouts;
	struct cli_turns_asked asked;
	struct cli_sheet sheet;
};

#define TURN_OPTIONS                                                                               \
	{"ring", RT_AT(struct turns, ring), .type = RT_NAME, .is = RT_ARGUMENT},                   \
		CLI_KIND(struct turns, asked.kind, 0),                                             \
		CLI_LEVEL(struct turns, asked.level, RT_REQUIRED),                                 \
		CLI_HEIGHT(struct turns, asked.options.height_cm),                                 \
		CLI_DIAMETER(struct turns, asked.options.diameter_m),                              \
		CLI_TRACK(struct turns, asked.options.track_m)

/* ---- turns ----------------------------------------------------------------------------------- */

static const struct rt_field turns_options[] = {
	TURN_OPTIONS,
	CLI_TURNOUT(struct turns, turnout, 0),
	CLI_TURNOUTS(struct turns, turnouts),
};

static void turns(struct cli *c, const void *typed)
{
	const struct turns *o = typed;
	struct cli_turns_asked asked = o->asked;
	struct rt_turnout_parts turnout = {0};
	struct cli_ring ring = cli_ring_find(c, o->ring, asked.kind, false);
	struct rt_turns result = {0};
	const struct rt_level *level;

	cli_turnout(c, o->turnout, o->turnouts, &turnout);
	if (turnout.n && !cli_given(c, &o->asked.options.track_m))
		asked.options.track_m = rt_turnout_track(&turnout);
	cli_turns_make(c, &asked, ring.kind, &level, &result);
	CLI_DO(c, rt_turns_report(&c->report, &result, cli_text_in_feet(c), &c->err));
	if (turnout.n) {
		const struct rt_sweep_options options = {.level = level,
							 .speed_m_per_s = result.speed_m_per_s};

		CLI_DO(c, rt_turns_sweep_report(&c->report, &result, level, &turnout, &options,
						&c->err));
	}
	rt_turns_free(&result);
	RT_LIST_FREE(&turnout);
}

const struct cli_command cmd_turns = {
	.name = "turns",
	.args = "(RING | --kind KIND) --level LEVEL",
	.summary = "Where the true turns of a level begin and finish, by the letters.",
	.details = "A turn that does not fit is said so, with the largest diameter that does.",
	.example = "turns --kind driven-40x80 --level intermediate --height 13.2hh",
	CLI_OPTIONS(struct turns, turns_options),
	.run = turns,
};

/* ---- sheet turns ----------------------------------------------------------------------------- */

static const struct rt_field sheet_options[] = {
	TURN_OPTIONS,
	CLI_OUT(struct turns, sheet),
	CLI_VIEW(struct turns, sheet),
};

static void sheet_turns(struct cli *c, const void *typed)
{
	const struct turns *o = typed;
	struct rt_sheet_options options;
	struct cli_ring ring = cli_ring_find(c, o->ring, o->asked.kind, false);
	struct rt_turns result = {0};
	struct rt_sheet sheet = {0};
	const struct rt_level *level;

	cli_turns_make(c, &o->asked, ring.kind, &level, &result);
	options = cli_sheet_options(c, &o->sheet);
	CLI_DO(c, rt_sheet_turns(&sheet, &result, ring.kind, &options, &c->err));
	cli_write_sheet(c, &o->sheet, &sheet);
	rt_turns_free(&result);
}

const struct cli_command cmd_sheet_turns = {
	.name = "sheet turns",
	.args = "(RING | --kind KIND) --level LEVEL --out FILE",
	.summary = "A page with the true turns of a level, drawn and by the letters.",
	.details = "The ring to scale with every turn that fits as an arc, where it begins and "
		   "finishes\n"
		   "measured from the letters, and the table beside it. The same --date gives the "
		   "same file.\n" CLI_OUTPUT_STANDARD,
	.example = "sheet turns --kind driven-40x80 --level intermediate --seen-from C --out "
		   "turns.pdf",
	CLI_OPTIONS(struct turns, sheet_options),
	.run = sheet_turns,
};
