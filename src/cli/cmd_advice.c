/* ring advice: what to measure next, what to move in which order.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <math.h>
#include <string.h>

/* ---- from two diagonals ---------------------------------------------------------------------- */

static enum rt_err read_diagonals(struct cli *c, const char *typed, double d[2])
{
	const char *comma = strchr(typed, ',');
	char first[32] = "";

	if (comma && (size_t)(comma - typed) < sizeof first)
		memcpy(first, typed, (size_t)(comma - typed));
	if (comma && rt_parse_real(first, &d[0]) && rt_parse_real(comma + 1, &d[1]))
		return RT_OK;
	return rt_fail(&c->err, RT_E_USAGE,
		       "--diagonals: \"%s\": two lengths in metres, AK to CM and FA to HC, as in "
		       "89.39,89.49",
		       typed);
}

static enum rt_err advise_diagonals(struct cli *c, const struct cli_call *call, const char *typed)
{
	struct rt_diagonals result;
	struct cli_meant m = {0};
	double d[2];
	enum rt_err e = read_diagonals(c, typed, d);

	if (!e && call->args > 1)
		return rt_fail(&c->err, RT_E_USAGE, "--diagonals wants no files of readings");
	if (!e)
		e = cli_meant_find(c, call, call->args ? call->arg[0] : NULL, false, &m);
	if (!e)
		e = rt_diagonals(&result, m.kind, d[0], d[1], &c->err);
	if (!e)
		e = rt_diagonals_report(&c->report, &result, cli_text_in_feet(c), &c->err);
	cli_meant_free(&m);
	return e;
}

/* ---- from readings --------------------------------------------------------------------------- */

static size_t corners_measured(const struct rt_ring_check *check)
{
	size_t n = 0;

	for (size_t i = 0; i < check->pegs; i++)
		n += check->peg[i].peg.corner;
	return n;
}

static enum rt_err advise_letters(struct cli *c, const struct rt_ring_walk *walk,
				  const struct rt_readings *readings)
{
	struct rt_ring_check check = {0};
	struct rt_letters_only letters = {0};
	enum rt_err e;

	if (corners_measured(&walk->check) < 2)
		return RT_OK;
	e = rt_ring_check(&check, walk->check.kind, readings, walk->check.tolerance_m,
			  RT_FIT_CORNERS, &c->err);
	if (!e)
		e = rt_letters_only(&letters, &check, &c->err);
	if (!e)
		e = rt_letters_only_report(&c->report, &letters, &c->err);
	rt_letters_only_free(&letters);
	rt_ring_check_free(&check);
	return e;
}

static enum rt_err advise(struct cli *c, const struct rt_ring_kind *kind,
			  const struct rt_readings *readings, double tolerance_m, double tape_m)
{
	struct rt_ring_walk walk = {0};
	struct rt_next_readings next;
	bool feet = cli_text_in_feet(c);
	enum rt_err e = rt_ring_walk(&walk, kind, readings, tolerance_m, &c->err);

	if (!e)
		e = rt_ring_walk_report(&c->report, &walk, feet, &c->err);
	if (!e)
		e = advise_letters(c, &walk, readings);
	if (!e)
		e = rt_ring_next(&next, &walk.check, tape_m, &c->err);
	if (!e)
		e = rt_ring_next_report(&c->report, &next, feet, &c->err);
	rt_ring_walk_free(&walk);
	return e;
}

/* The readings of the files, or of the latest check of the ring. */
static enum rt_err gather(struct cli *c, const struct cli_call *call, const struct cli_meant *m,
			  struct rt_stored_check *out)
{
	struct rt_heights heights = {0}; /* of a receiver: not asked for here */
	int first = m->name != NULL;
	bool found;
	enum rt_err e;

	if (call->args > first) {
		e = cli_read_readings(c, call, first, m->kind, NULL, &out->readings, &heights);
		RT_LIST_FREE(&heights);
		if (!e && !out->readings.n)
			e = rt_fail(&c->err, RT_E_INPUT,
				    "heights only: `ring footing` judges those");
		return e;
	}
	if (!m->name)
		return rt_fail(&c->err, RT_E_USAGE, "ring advice wants files of readings");
	e = rt_store_check_latest(c->store, m->name, out, &found, &c->err);
	if (!e && !found)
		e = rt_fail(&c->err, RT_E_NOTFOUND, "%s was never checked: give files of readings",
			    m->name);
	if (!e)
		rt_report_note(&c->report, "From the check of %s.", out->when);
	return e;
}

static enum rt_err ring_advice(struct cli *c, const struct cli_call *call)
{
	const char *diagonals = cli_option(call, "diagonals");
	bool kind = cli_option(call, "kind") != NULL;
	struct rt_stored_check of = {0};
	struct cli_meant m = {0};
	double tape_m = INFINITY, tolerance_m = NAN;
	enum rt_err e = RT_OK;

	if (diagonals)
		return advise_diagonals(c, call, diagonals);
	e = cli_real_option(c, call, "tape", 1, 500, &tape_m);
	if (!e)
		e = cli_real_option(c, call, "tolerance", 0.005, 5.0, &tolerance_m);
	if (!e)
		e = cli_meant_find(c, call, kind || !call->args ? NULL : call->arg[0], false, &m);
	if (!e)
		e = gather(c, call, &m, &of);
	if (!e && isnan(tolerance_m))
		tolerance_m = rt_ring_tolerance(m.kind->discipline);
	if (!e)
		e = advise(c, m.kind, &of.readings, tolerance_m, tape_m);
	rt_stored_check_free(&of);
	cli_meant_free(&m);
	return e;
}

const struct cli_command cmd_ring_advice = {
	.group = "Ring",
	.name = "ring advice",
	.args = "(NAME | --kind KIND) [READINGS.csv...]",
	.summary = "What to move in which order, and what to measure next.",
	.details =
		"Reads the same files as `ring check`; a ring of the show needs none: then its latest\n"
		"check is taken. Told are the moves with the fewest pegs and the least walking; what\n"
		"setting only the letters anew would do, the corners left as they stand; and the next\n"
		"readings that help most, each by itself and one after another.\n"
		"--diagonals takes two lengths instead, AK to CM and FA to HC in metres, and tells how\n"
		"far to slide the far pegs.\n"
		"Exit status 1 when something is to move or unsure.",
	.example = "ring advice --kind driven-40x80 --diagonals 89.39,89.49",
	.old_option = {{"kind", "KIND", "a kind of ring, instead of a ring of the show", false},
		       {"tolerance", "M", "how far a peg may be off; 0.10 driven, 0.05 ridden",
			false},
		       {"tape", "M", "how long the tape is; any length unless given", false},
		       {"diagonals", "D,D", "both diagonals in metres, AK-CM then FA-HC", false}},
	.old_max_args = CLI_ARGS_MAX,
	.old_run = ring_advice,
};
