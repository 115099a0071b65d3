/* ring check, ring footing, ring history: readings and heights of a ring, and the checks before.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

/* ---- a new check ------------------------------------------------------------------------- */

struct ring_check {
	struct rt_strings words; /* the ring's name, unless --kind; files */
	const char *kind;
	struct cli_check_asked asked;
};

static const struct ring_check blank = {.asked = CLI_CHECK_ASKED};

/* Judge the files from the first on; keep them for a ring of the show. */
static void check_files(struct cli *c, const struct ring_check *o, const char *name)
{
	bool footing = c->call.command == &cmd_ring_footing;
	struct rt_stored_check check = {.when = c->when};
	struct cli_ring ring = cli_ring_find(c, name, o->kind, true);

	if (!c->err.code)
		cli_check_begin(c, &o->asked, ring.kind, &check);
	cli_read_readings(c, &o->words, name != NULL, ring.kind, NULL, &check.readings,
			  &check.heights);
	if (footing && !check.heights.n)
		CLI_FAIL(c, RT_E_INPUT, "no heights: columns point,height_m[,sigma_m]");
	if (!footing && !check.readings.n)
		CLI_FAIL(c, RT_E_INPUT, "heights only: `ring footing` judges those");
	if (footing)
		RT_LIST_FREE(&check.readings); /* of a receiver that gives heights too */
	cli_check_report(c, &c->report, ring.kind, &check, cli_text_in_feet(c));
	check.ring = ring.name;
	if (ring.name)
		CLI_DO(c, rt_store_check_put(c->store, &check, &c->err));
	rt_stored_check_free(&check);
}

static const struct rt_field check_options[] = {
	{"words", RT_AT(struct ring_check, words), .head = "READINGS.csv", .type = RT_TEXT,
	 .is = RT_ARGUMENT | RT_REQUIRED | RT_MANY},
	CLI_KIND(struct ring_check, kind, 0),
	CLI_TOLERANCE(struct ring_check, asked.tolerance_m),
	CLI_FIT(struct ring_check, asked.fit),
	CLI_BY(struct ring_check, asked.by, 0),
	CLI_FOOTING(struct ring_check, asked),
};

static void ring_check(struct cli *c, const void *typed)
{
	const struct ring_check *o = typed;

	if (!o->kind && o->words.n == 1 && c->show_path)
		CLI_FAIL(c, RT_E_USAGE,
			 "a ring and files of readings; `ring history` shows the checks before");
	check_files(c, o, o->kind || o->words.n < 2 ? NULL : o->words.at[0]);
}

const struct cli_command cmd_ring_check = {
	.name = "ring check",
	.args = "(NAME | --kind KIND) READINGS.csv...",
	.summary = "Prove a ring by readings: each peg good, or where to move it.",
	.details = CLI_READING_FILES
	"Points are letters or corners (AK, HC, CM, FA). The check of a ring of the show is\n"
	"kept in the show file; `ring history` shows the ring becoming true. Heights are judged as\n"
	"`ring footing` does. Distances cannot tell left from right: a ring whose left and\n"
	"right letters are swapped as a whole passes. Look from A once.\n"
	"A reading is a blunder when chance makes one stand out so much once in 1,000; what a\n"
	"reading could hide is the mistake that this finds 4 times in 5 (W. Baarda, 1968).\n"
	"Exit status 1 when a peg is to move, a reading is wrong or the footing too steep.",
	.example = "--show spring.show ring check \"Oak ring\" readings-oak.csv heights-oak.csv",
	.files = CLI_READINGS,
	CLI_OPTIONS(struct ring_check, check_options),
	.blank = &blank,
	.run = ring_check,
};

/* ---- footing ----------------------------------------------------------------------------- */

static void note_when(struct cli *c, const char *what, const struct rt_stored_check *check)
{
	if (!c->err.code)
		rt_report_note(&c->report, "%s %s%s%s.", what,
			       check->when ? check->when : "day unknown", check->who ? ", by " : "",
			       check->who ? check->who : "");
}

/* The latest heights that are kept of a ring, against their own limits or those that are asked
 * for. */
static void footing_kept(struct cli *c, const struct ring_check *o)
{
	const struct cli_check_asked *a = &o->asked;
	bool other = a->footing || a->footings || !isnan(a->along_m) || !isnan(a->across_m);
	struct rt_stored_checks checks = {0};
	struct rt_stored_check asked = {0}, kept;
	struct cli_ring ring = cli_ring_find(c, o->words.at[0], NULL, false);
	size_t n;

	CLI_DO(c, rt_store_checks(c->store, ring.name, &checks, &c->err));
	for (n = checks.n; n && !checks.at[n - 1].heights.n;)
		n--;
	if (!n)
		CLI_FAIL(c, RT_E_INPUT, "no heights of %s are kept: give a file of heights",
			 ring.name);
	if (!c->err.code) {
		cli_check_begin(c, a, ring.kind, &asked);
		kept = checks.at[n - 1]; /* borrows */
		kept.readings.n = 0;
		if (other)
			kept.limits = asked.limits;
		cli_check_report(c, &c->report, ring.kind, &kept, cli_text_in_feet(c));
		note_when(c, "Heights of", &kept);
	}
	rt_stored_check_free(&asked);
	rt_stored_checks_free(&checks);
}

static const struct rt_field footing_options[] = {
	{"words", RT_AT(struct ring_check, words), .head = "HEIGHTS.csv", .type = RT_TEXT,
	 .is = RT_ARGUMENT | RT_REQUIRED | RT_MANY},
	CLI_KIND(struct ring_check, kind, 0),
	CLI_BY(struct ring_check, asked.by, 0),
	CLI_FOOTING(struct ring_check, asked),
};

static void ring_footing(struct cli *c, const void *typed)
{
	const struct ring_check *o = typed;
	bool kept = !o->kind && o->words.n == 1;

	if (kept && o->asked.by)
		CLI_FAIL(c, RT_E_USAGE, "--by belongs to a file of heights");
	if (kept)
		footing_kept(c, o);
	else
		check_files(c, o, o->kind ? NULL : o->words.at[0]);
}

const struct cli_command cmd_ring_footing = {
	.name = "ring footing",
	.args = "(NAME | --kind KIND) HEIGHTS.csv... | NAME",
	.summary = "Judge the footing from heights: falls, which way water runs, hollows.",
	.details =
		"HEIGHTS.csv: points are letters or corners; usual sigma 5 mm. Heights of a ring of "
		"the show are kept; without a file the latest ones are told. A line falls from its "
		"highest peg to its lowest. The first footing rule of the ring's discipline is "
		"taken.\n"
		"Exit status 1 when a line is too steep, or may be.",
	.files = (const struct rt_record *const[]){&rt_height_record, &rt_footing_rule_record,
						   NULL},
	.example = "ring footing --kind driven-40x80 heights-oak.csv",
	CLI_OPTIONS(struct ring_check, footing_options),
	.blank = &blank,
	.run = ring_footing,
};

/* ---- checks before ----------------------------------------------------------------------- */

/* Each check computed again from its readings; one that cannot be is told in its row. */
static void tell_history(struct cli *c, const struct rt_ring_kind *kind,
			 const struct rt_stored_checks *checks)
{
	struct rt_past_check *past = cli_array(c, checks->n, sizeof *past);
	struct cli_check *made = cli_array(c, checks->n, sizeof *made);
	size_t n = 0;

	for (; n < checks->n && !c->err.code; n++) {
		const struct rt_stored_check *stored = &checks->at[n];
		struct rt_error why = {0};
		enum rt_err one = cli_check_make(&made[n], kind, stored, &why);

		past[n] = (struct rt_past_check){.when = stored->when,
						 .who = stored->who,
						 .readings = stored->readings.n,
						 .heights = stored->heights.n};
		if (one == RT_E_NOMEM)
			CLI_DO(c, rt_fail_nomem(&c->err));
		else if (one)
			past[n].trouble = rt_arena_string(&c->text, why.text);
		else if (made[n].has_pegs)
			past[n].check = &made[n].pegs;
	}
	CLI_DO(c, rt_ring_history_report(&c->report, kind, past, n, cli_text_in_feet(c), &c->err));
	for (size_t i = 0; i < n; i++)
		cli_check_free(&made[i]);
}

struct ring_history {
	const char *name;
	int64_t check; /* 0: all of them */
};

static const struct rt_field history_options[] = {
	{"name", RT_AT(struct ring_history, name), .type = RT_NAME,
	 .is = RT_ARGUMENT | RT_REQUIRED},
	CLI_CHECK_NUMBER(struct ring_history, check),
};

static void ring_history(struct cli *c, const void *typed)
{
	const struct ring_history *o = typed;
	struct rt_stored_checks checks = {0};
	struct cli_ring ring = cli_ring_find(c, o->name, NULL, false);
	char what[64];
	size_t which;

	CLI_DO(c, rt_store_checks(c->store, ring.name, &checks, &c->err));
	which = o->check ? cli_check_numbered(c, &checks, o->check) : 0;
	if (!o->check) {
		tell_history(c, ring.kind, &checks);
	} else if (!c->err.code) {
		cli_check_report(c, &c->report, ring.kind, &checks.at[which], cli_text_in_feet(c));
		snprintf(what, sizeof what, "Check %zu of %zu,", which + 1, checks.n);
		note_when(c, what, &checks.at[which]);
	}
	rt_stored_checks_free(&checks);
}

const struct cli_command cmd_ring_history = {
	.name = "ring history",
	.summary = "All checks of a ring that are kept, the first one first.",
	.details = "--check N tells check N again as it was told then.",
	.example = "--show spring.show ring history \"Oak ring\"",
	CLI_OPTIONS(struct ring_history, history_options),
	.run = ring_history,
};
