/* sheet check, sheet certificate: papers of a ring check.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

struct check_call {
	struct rt_sheet_options options;
	struct cli_meant meant;
	struct rt_stored_check typed;	/* from files */
	struct rt_stored_checks checks; /* of a ring of the show */
	struct cli_check pegs,
		footing; /* footing: of a check with heights, where that is another */
	struct rt_check_paper paper;
	struct rt_show show;
	struct rt_sheet sheet;
};

static void check_call_free(struct check_call *s)
{
	rt_sheet_free(&s->sheet);
	rt_show_free(&s->show);
	cli_check_free(&s->pegs);
	cli_check_free(&s->footing);
	RT_LIST_FREE(&s->typed.readings);
	RT_LIST_FREE(&s->typed.heights);
	rt_arena_free(s->typed.text);
	rt_stored_checks_free(&s->checks);
	cli_meant_free(&s->meant);
}

/* ---- where the check comes from -------------------------------------------------------------- */

/* From files of a kind. */
static enum rt_err check_of_files(struct cli *c, const struct cli_call *call, struct check_call *s)
{
	enum rt_err e = cli_check_options(c, call, s->meant.kind, &s->typed);

	if (!e && !call->args)
		e = rt_fail(&c->err, RT_E_USAGE, "--kind KIND wants files of readings");
	if (!e)
		e = cli_read_readings(c, call, 0, s->meant.kind, NULL, &s->typed.readings,
				      &s->typed.heights);
	if (!e && !s->typed.readings.n)
		e = rt_fail(&c->err, RT_E_INPUT, "heights only: a check wants readings");
	if (!e)
		e = cli_check_make(c, &s->pegs, s->meant.kind, &s->typed);
	s->paper.who = s->typed.who;
	if (!e && s->pegs.has_footing)
		s->paper.footing = &s->pegs.footing;
	return e;
}

/* The latest heights of the first n checks. */
static enum rt_err footing_before(struct cli *c, struct check_call *s, size_t n)
{
	struct rt_stored_check of_heights;
	enum rt_err e;

	while (n && !s->checks.at[n - 1].heights.n)
		n--;
	if (!n)
		return RT_OK;
	of_heights = s->checks.at[n - 1];
	of_heights.readings.n = 0;
	e = cli_check_make(c, &s->footing, s->meant.kind, &of_heights);
	s->paper.footing = &s->footing.footing;
	s->paper.footing_measured = of_heights.when;
	return e;
}

/* The check of the ring that --check tells, or the latest with readings; the footing with it is
 * the latest known then, for the latest check the latest of all. */
static enum rt_err check_of_ring(struct cli *c, const struct cli_call *call, struct check_call *s)
{
	const char *asked = cli_option(call, "check");
	size_t which = 0, known;
	enum rt_err e = rt_store_checks(c->store, s->meant.name, &s->checks, &c->err);

	known = s->checks.n;
	if (!e && asked) {
		e = cli_check_numbered(c, &s->checks, "--check", asked, &which);
		known = which + 1;
	} else if (!e) {
		which = s->checks.n;
		while (which-- && !s->checks.at[which].readings.n)
			;
	}
	if (!e && asked && !s->checks.at[which].readings.n)
		e = rt_fail(&c->err, RT_E_INPUT, "--check %s: only heights were taken then", asked);
	else if (!e && which >= s->checks.n)
		e = rt_fail(&c->err, RT_E_INPUT,
			    "%s: no readings are kept: `ring check` keeps them", s->meant.name);
	if (e)
		return e;
	s->paper.measured = s->checks.at[which].when;
	s->paper.who = s->checks.at[which].who;
	s->paper.number = (int64_t)which + 1;
	e = cli_check_make(c, &s->pegs, s->meant.kind, &s->checks.at[which]);
	return e ? e : footing_before(c, s, known);
}

static enum rt_err take_check(struct cli *c, const struct cli_call *call, struct check_call *s)
{
	bool kind = cli_option(call, "kind") != NULL;
	enum rt_err e = cli_sheet_options(c, call, &s->options);

	if (!e && kind && cli_option(call, "check"))
		e = rt_fail(&c->err, RT_E_USAGE, "--check belongs to a ring of the show");
	if (!e && !kind && call->args > 1)
		e = rt_fail(&c->err, RT_E_USAGE,
			    "a ring of the show without files (`ring check` keeps them), or --kind "
			    "KIND with files");
	if (!e && !kind)
		e = cli_check_no_options(c, call);
	if (!e)
		e = cli_meant_find(c, call, kind || !call->args ? NULL : call->arg[0], false,
				   &s->meant);
	if (!e)
		e = kind ? check_of_files(c, call, s) : check_of_ring(c, call, s);
	if (!e && c->store)
		e = rt_store_show(c->store, &s->show, &c->err);
	s->options.show = s->show.title;
	s->paper.ring = s->meant.name;
	s->paper.check = &s->pegs.pegs;
	return e;
}

/* ---- sheet check ----------------------------------------------------------------------------- */

static enum rt_err sheet_check(struct cli *c, const struct cli_call *call)
{
	struct check_call s = {0};
	char verdict[80];
	enum rt_err e = take_check(c, call, &s);

	if (!e)
		e = rt_sheet_check(&s.sheet, &s.paper, &s.options, &c->err);
	if (!e)
		e = cli_write_sheet(c, call, &s.sheet);
	if (!e) {
		rt_ring_check_words(&s.pegs.pegs, verdict, sizeof verdict);
		rt_report_note(&c->report, "Verdict of the check: %s.", verdict);
		c->report.needs_person = s.pegs.pegs.verdict != RT_RING_TRUE;
	}
	check_call_free(&s);
	return e;
}

const struct cli_command cmd_sheet_check = {
	.group = "Papers",
	.name = "sheet check",
	.args = "(NAME [--check N] | --kind KIND READINGS.csv...) --out FILE.pdf|.svg",
	.summary = "A page with the pegs as found, arrows where to move them, boxes to tick.",
	.details =
		"Of a ring of the show the latest check that is kept, or check N; else of files, as\n"
		"`ring check` reads them. Arrows, error ellipses and tolerance circles are drawn larger\n"
		"than the ring by a round factor, which the page tells.\n"
		"Exit status 1 when the ring is not true.\n" CLI_OUTPUT_STANDARD,
	.example = "sheet check --kind driven-40x80 readings-oak.csv --out oak.pdf",
	.old_option = {CLI_OUT_OPTIONS,
		       {"check", "N", "check N of the ring; the latest unless given", false},
		       {"kind", "KIND", "a kind of ring, instead of a ring of the show", false},
		       {"tolerance", "M", "of files: as in `ring check`", false},
		       {"fit", "HOW", "of files: as in `ring check`", false},
		       {"by", "WHO", "of files: who measured", false},
		       CLI_FOOTING_OPTIONS,
		       {"paper", "SIZE", "a4 (unless given) or letter", false},
		       {"seen-from", "SEAT", "drawn as seen from C, B, E or A", false},
		       {"up", "LETTER", "C (unless given) or A at the top", false}},
	.old_min_args = 0,
	.old_max_args = CLI_ARGS_MAX,
	.old_run = sheet_check,
};

/* ---- sheet certificate ----------------------------------------------------------------------- */

static enum rt_err sheet_certificate(struct cli *c, const struct cli_call *call)
{
	struct check_call s = {0};
	char verdict[80];
	enum rt_err e = take_check(c, call, &s);

	if (!e && s.pegs.pegs.verdict != RT_RING_TRUE) {
		rt_ring_check_words(&s.pegs.pegs, verdict, sizeof verdict);
		rt_report_note(&c->report,
			       "No certificate was written: the latest check of %s (check %lld, "
			       "%.16s) says: %s. `sheet check` draws what to do.",
			       s.meant.name, (long long)s.paper.number,
			       s.paper.measured ? s.paper.measured : "", verdict);
		c->report.needs_person = true;
	} else if (!e) {
		e = rt_sheet_certificate(&s.sheet, &s.paper, &s.options, &c->err);
		if (!e)
			e = cli_write_sheet(c, call, &s.sheet);
	}
	check_call_free(&s);
	return e;
}

const struct cli_command cmd_sheet_certificate = {
	.group = "Papers",
	.name = "sheet certificate",
	.args = "NAME --out FILE.pdf|.svg",
	.summary = "A page to pin up: how true the ring is, measured when, by whom, how surely.",
	.details =
		"Of the latest check that is kept of a ring of the show. Where that does not say\n"
		"that the ring is true, nothing is written, and why is told (exit status 1).\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet certificate \"Oak ring\" --out oak.pdf",
	.old_option = {CLI_OUT_OPTIONS, {"paper", "SIZE", "a4 (unless given) or letter", false}},
	.old_min_args = 1,
	.old_max_args = 1,
	.old_run = sheet_certificate,
};
