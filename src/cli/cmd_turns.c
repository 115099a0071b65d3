/* turns: the true turns of a level by the letters of a ring.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

enum rt_err cli_turn_options(struct cli *c, const struct cli_call *call,
			     struct rt_turn_options *options)
{
	const char *height = cli_option(call, "height");
	enum rt_err e;

	if (height && !rt_parse_height(height, &options->height_cm))
		return rt_fail(&c->err, RT_E_USAGE, "--height: \"%s\": %s", height,
			       RT_HEIGHT_ACCEPTED);
	e = cli_real_option(c, call, "diameter", 1.0, 100.0, &options->diameter_m);
	return e ? e : cli_real_option(c, call, "track", 0.0, 10.0, &options->track_m);
}

enum rt_err cli_level_named(struct cli *c, const struct rt_levels *levels, const char *name,
			    enum rt_discipline discipline, const struct rt_level **out)
{
	const char *names[64], *nearest;
	char listed[320] = "";
	size_t n = 0;

	*out = rt_level_find(levels, name, discipline);
	if (*out)
		return RT_OK;
	for (size_t i = 0; i < levels->n && n < sizeof names / sizeof *names; i++)
		if (levels->at[i].discipline == discipline)
			names[n++] = levels->at[i].name;
	nearest = rt_nearest(name, names, n);
	if (nearest)
		return rt_fail(&c->err, RT_E_NOTFOUND,
			       "unknown %s level \"%s\": did you mean \"%s\"?",
			       rt_discipline_words(discipline), name, nearest);
	for (size_t i = 0; i < n; i++)
		snprintf(listed + strlen(listed), sizeof listed - strlen(listed), "%s%s",
			 i ? ", " : "", names[i]);
	return rt_fail(&c->err, RT_E_NOTFOUND, "unknown %s level \"%s\": %s",
		       rt_discipline_words(discipline), name, listed);
}

/* What a turnout adds; nothing where none is asked for. */
static enum rt_err report_turnout(struct cli *c, const struct rt_turns *turns,
				  const struct rt_level *level,
				  const struct rt_turnout_parts *turnout)
{
	const struct rt_sweep_options options = {.level = level,
						 .speed_m_per_s = turns->speed_m_per_s};

	if (!turnout->n)
		return RT_OK;
	return rt_turns_sweep_report(&c->report, turns, level, turnout, &options, &c->err);
}

static enum rt_err turns(struct cli *c, const struct cli_call *call)
{
	const char *name = cli_option(call, "turnout");
	struct rt_turn_options options = {0};
	struct rt_turnout_parts turnout = {0};
	struct rt_shipped rows = {0};
	struct rt_turns result = {0};
	const struct rt_ring_kind *kind;
	const struct rt_level *level;
	enum rt_err e = cli_turn_options(c, call, &options);

	if (!e)
		e = CLI_OLD(c, cli_rows(c, &rows));
	if (!e)
		e = rt_ring_kind_named(&kind, &rows.kinds, cli_option(call, "kind"), &c->err);
	if (!e)
		e = cli_level_named(c, &rows.levels, cli_option(call, "level"), kind->discipline,
				    &level);
	if (!e && name)
		e = cli_turnout(c, &rows, name, cli_option(call, "turnouts"), &turnout);
	if (!e && name && !cli_option(call, "track"))
		options.track_m = rt_turnout_track(&turnout);
	if (!e)
		e = rt_turns_make(&result, kind, level, &rows.gaits, &options, &c->err);
	if (!e)
		e = rt_turns_report(&c->report, &result, c->feet && c->format == CLI_TEXT, &c->err);
	if (!e)
		e = report_turnout(c, &result, level, &turnout);
	rt_turns_free(&result);
	RT_LIST_FREE(&turnout);
	rt_shipped_free(&rows);
	return e;
}

const struct cli_command cmd_turns = {
	.group = "Turns",
	.name = "turns",
	.args = "--kind KIND --level LEVEL",
	.summary = "Where the true turns of a level begin and finish, by the letters.",
	.details = "A turn that does not fit is said so, with the largest diameter that does.",
	.example = "turns --kind driven-40x80 --level intermediate --height 13.2hh",
	.old_option = {{"kind", "KIND", "a kind of ring", true},
		       {"level", "LEVEL", "a level; the ring kind says ridden or driven", true},
		       {"height", "H", "the animal's height: 132cm, 1.32m or 13.2hh", false},
		       {"diameter", "M", "a diameter instead of the level's", false},
		       {"track", "M",
			"how far the track lies inside the boards; 0 unless given, with\n"
			"                          a turnout half its width and 0.25 m",
			false},
		       {"turnout", "NAME", "a turnout: how far it cuts in, turn by turn", false},
		       {"turnouts", "FILE.csv", "turnouts of your own instead of the shipped",
			false}},
	.old_run = turns,
};
