/* ring check, ring footing: readings and heights of a ring, and the checks before.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <stdio.h>

/* ---- a new check ------------------------------------------------------------------------- */

static void check_free(struct rt_stored_check *check)
{
	RT_LIST_FREE(&check->readings);
	RT_LIST_FREE(&check->heights);
	rt_arena_free(check->text);
}

/* Judge the files from arg[first] on; keep them for a ring of the show. */
static enum rt_err check_files(struct cli *c, const struct cli_call *call, const char *name)
{
	bool footing = call->command == &cmd_ring_footing;
	struct rt_stored_check check = {.ring = name, .when = c->when};
	struct cli_meant m = {0};
	enum rt_err e = cli_meant_find(c, call, name, true, &m);

	if (!e)
		e = cli_check_options(c, call, m.kind, &check);
	if (!e)
		e = cli_read_readings(c, call, name != NULL, m.kind, NULL, &check.readings,
				      &check.heights);
	if (!e && footing && !check.heights.n)
		e = rt_fail(&c->err, RT_E_INPUT, "no heights: columns point,height_m[,sigma_m]");
	if (!e && !footing && !check.readings.n)
		e = rt_fail(&c->err, RT_E_INPUT, "heights only: `ring footing` judges those");
	if (!e && footing)
		RT_LIST_FREE(&check.readings); /* of a receiver that gives heights too */
	if (!e)
		e = cli_check_report(c, &c->report, m.kind, &check, cli_text_in_feet(c));
	if (!e && name)
		e = rt_store_check_put(c->store, &check, &c->err);
	check_free(&check);
	cli_meant_free(&m);
	return e;
}

/* ---- checks before ----------------------------------------------------------------------- */

/* Each check computed again from its readings; one that cannot be is told in its row. */
static enum rt_err tell_history(struct cli *c, const struct rt_ring_kind *kind,
				const struct rt_stored_checks *checks)
{
	struct rt_arena *text = NULL;
	struct rt_past_check *past = rt_arena_take(&text, (checks->n + 1) * sizeof *past);
	struct cli_check *made = rt_arena_take(&text, (checks->n + 1) * sizeof *made);
	enum rt_err e = past && made ? RT_OK : rt_fail_nomem(&c->err);
	size_t n = 0;

	for (; !e && n < checks->n; n++) {
		const struct rt_stored_check *stored = &checks->at[n];
		enum rt_err one = cli_check_make(c, &made[n], kind, stored);

		past[n] = (struct rt_past_check){.when = stored->when,
						 .who = stored->who,
						 .readings = stored->readings.n,
						 .heights = stored->heights.n};
		if (one == RT_E_NOMEM)
			e = one;
		else if (one)
			past[n].trouble = rt_arena_string(&text, c->err.text);
		else if (made[n].has_pegs)
			past[n].check = &made[n].pegs;
	}
	if (!e)
		e = rt_ring_history_report(&c->report, kind, past, n, cli_text_in_feet(c), &c->err);
	for (size_t i = 0; i < n; i++)
		cli_check_free(&made[i]);
	rt_arena_free(text);
	return e;
}

static void note_when(struct cli *c, const char *what, const struct rt_stored_check *check)
{
	rt_report_note(&c->report, "%s %s%s%s.", what, check->when ? check->when : "day unknown",
		       check->who ? ", by " : "", check->who ? check->who : "");
}

/* --history or --again N of a ring of the show. */
static enum rt_err look_back(struct cli *c, const struct cli_call *call)
{
	const char *again = cli_option(call, "again");
	struct rt_stored_checks checks = {0};
	struct cli_meant m = {0};
	size_t which = 0;
	char what[64];
	enum rt_err e;

	if (call->args != 1 || cli_option(call, "kind") || (again && cli_option(call, "history")))
		return rt_fail(&c->err, RT_E_USAGE,
			       "--history or --again N wants a ring of the show, and no file");
	e = cli_check_no_options(c, call);
	if (!e)
		e = cli_meant_find(c, call, call->arg[0], false, &m);
	if (!e)
		e = rt_store_checks(c->store, m.name, &checks, &c->err);
	if (!e && !again)
		e = tell_history(c, m.kind, &checks);
	if (!e && again)
		e = cli_check_numbered(c, &checks, "--again", again, &which);
	if (!e && again) {
		e = cli_check_report(c, &c->report, m.kind, &checks.at[which], cli_text_in_feet(c));
		snprintf(what, sizeof what, "Check %zu of %zu,", which + 1, checks.n);
		note_when(c, what, &checks.at[which]);
	}
	rt_stored_checks_free(&checks);
	cli_meant_free(&m);
	return e;
}

static enum rt_err ring_check(struct cli *c, const struct cli_call *call)
{
	bool kind = cli_option(call, "kind") != NULL;

	if (cli_option(call, "history") || cli_option(call, "again"))
		return look_back(c, call);
	if (!kind && call->args == 1 && c->show_path)
		return rt_fail(&c->err, RT_E_USAGE,
			       "a ring and files of readings, or a ring and --history");
	return check_files(c, call, kind || call->args < 2 ? NULL : call->arg[0]);
}

const struct cli_command cmd_ring_check = {
	.group = "Ring",
	.name = "ring check",
	.args = "(NAME | --kind KIND) READINGS.csv... | NAME (--history | --again N)",
	.summary = "Prove a ring by readings: each peg good, or where to move it.",
	.details = CLI_READING_FILES
	"Points are letters or corners (AK, HC, CM, FA). The check of a ring of the show is\n"
	"kept in the show file; --history shows the ring becoming true. Heights are judged as\n"
	"`ring footing` does. Distances cannot tell left from right: a ring whose left and\n"
	"right letters are swapped as a whole passes. Look from A once.\n"
	"A reading is a blunder when chance makes one stand out so much once in 1,000; what a\n"
	"reading could hide is the mistake that this finds 4 times in 5 (W. Baarda, 1968).\n"
	"Exit status 1 when a peg is to move, a reading is wrong or the footing too steep.",
	.example = "--show spring.show ring check \"Oak ring\" readings-oak.csv heights-oak.csv",
	.files = CLI_READINGS,
	.old_option = {{"kind", "KIND", "a kind of ring, instead of a ring of the show", false},
		       {"tolerance", "M", "how far a peg may be off; 0.10 driven, 0.05 ridden",
			false},
		       {"fit", "HOW", "fewest (moves), all or corners; fewest unless given", false},
		       {"by", "WHO", "who measured, kept with the check", false},
		       CLI_FOOTING_OPTIONS,
		       {"history", NULL, "all checks of the ring, the first one first", false},
		       {"again", "N", "show check N of the ring again", false}},
	.old_min_args = 1,
	.old_max_args = CLI_ARGS_MAX,
	.old_run = ring_check,
};

/* ---- footing ----------------------------------------------------------------------------- */

/* The latest heights that are kept of a ring, against their own limits or those that are asked
 * for. */
static enum rt_err footing_kept(struct cli *c, const struct cli_call *call)
{
	bool other = cli_option(call, "footing") || cli_option(call, "footings") ||
		     cli_option(call, "along") || cli_option(call, "across");
	struct rt_stored_checks checks = {0};
	struct rt_stored_check asked = {0}, kept;
	struct cli_meant m = {0};
	enum rt_err e = cli_meant_find(c, call, call->arg[0], false, &m);
	size_t n = 0;

	if (!e)
		e = rt_store_checks(c->store, m.name, &checks, &c->err);
	for (n = checks.n; !e && n && !checks.at[n - 1].heights.n;)
		n--;
	if (!e && !n)
		e = rt_fail(&c->err, RT_E_INPUT,
			    "no heights of %s are kept: give a file of heights", m.name);
	if (!e)
		e = cli_check_options(c, call, m.kind, &asked);
	if (!e) {
		kept = checks.at[n - 1]; /* borrows */
		kept.readings.n = 0;
		if (other)
			kept.limits = asked.limits;
		e = cli_check_report(c, &c->report, m.kind, &kept, cli_text_in_feet(c));
		note_when(c, "Heights of", &kept);
	}
	check_free(&asked);
	rt_stored_checks_free(&checks);
	cli_meant_free(&m);
	return e;
}

static enum rt_err ring_footing(struct cli *c, const struct cli_call *call)
{
	bool kind = cli_option(call, "kind") != NULL;

	if (!kind && call->args == 1 && cli_option(call, "by"))
		return rt_fail(&c->err, RT_E_USAGE, "--by belongs to a file of heights");
	if (!kind && call->args == 1)
		return footing_kept(c, call);
	return check_files(c, call, kind ? NULL : call->arg[0]);
}

const struct cli_command cmd_ring_footing = {
	.group = "Ring",
	.name = "ring footing",
	.args = "(NAME | --kind KIND) HEIGHTS.csv | NAME",
	.summary = "Judge the footing from heights: falls, which way water runs, hollows.",
	.details =
		"HEIGHTS.csv: points are letters or corners; usual sigma 5 mm. Heights of a ring of the show\n"
		"are kept; without a file the latest ones are told. A line falls from its highest peg to its\n"
		"lowest. The first footing rule of the ring's discipline is taken.\n"
		"Exit status 1 when a line is too steep, or may be.",
	.example = "ring footing --kind driven-40x80 heights-oak.csv",
	.old_option = {{"kind", "KIND", "a kind of ring, instead of a ring of the show", false},
		       CLI_FOOTING_OPTIONS,
		       {"by", "WHO", "who measured, kept with the heights", false}},
	.files = (const struct rt_record *const[]){&rt_height_record, &rt_footing_rule_record,
						   NULL},
	.old_min_args = 1,
	.old_max_args = 2,
	.old_run = ring_footing,
};
