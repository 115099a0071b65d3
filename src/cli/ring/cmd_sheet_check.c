/* sheet check, sheet certificate: papers of a ring check.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

struct check_asked {
	struct rt_strings words; /* the ring's name, or files with --kind */
	const char *kind;
	int64_t check; /* 0: the latest with readings */
	struct cli_check_asked asked;
	struct cli_sheet sheet;
};

static const struct check_asked blank = {.asked = CLI_CHECK_ASKED};

/* What a paper is made from. */
struct check_paper {
	struct rt_sheet_options options;
	struct cli_ring ring;
	struct rt_stored_check typed;	/* from files */
	struct rt_stored_checks checks; /* of a ring of the show */
	struct cli_check pegs,
		footing; /* footing: of a check with heights, where that is another */
	struct rt_check_paper paper;
	struct rt_sheet sheet;
};

static void check_paper_free(struct check_paper *p)
{
	cli_check_free(&p->pegs);
	cli_check_free(&p->footing);
	rt_stored_check_free(&p->typed);
	rt_stored_checks_free(&p->checks);
}

/* ---- where the check comes from -------------------------------------------------------------- */

/* From files of a kind. */
static void check_of_files(struct cli *c, const struct check_asked *o, struct check_paper *p)
{
	cli_check_begin(c, &o->asked, p->ring.kind, &p->typed);
	if (!o->words.n)
		CLI_FAIL(c, RT_E_USAGE, "--kind KIND wants files of readings");
	cli_read_readings(c, &o->words, 0, p->ring.kind, NULL, &p->typed.readings,
			  &p->typed.heights);
	if (!p->typed.readings.n)
		CLI_FAIL(c, RT_E_INPUT, "heights only: a check wants readings");
	CLI_DO(c, cli_check_make(&p->pegs, p->ring.kind, &p->typed, &c->err));
	p->paper.who = p->typed.who;
	if (p->pegs.has_footing)
		p->paper.footing = &p->pegs.footing;
}

/* The latest heights of the first n checks. */
static void footing_before(struct cli *c, struct check_paper *p, size_t n)
{
	struct rt_stored_check of_heights;

	while (n && !p->checks.at[n - 1].heights.n)
		n--;
	if (!n)
		return;
	of_heights = p->checks.at[n - 1];
	of_heights.readings.n = 0;
	CLI_DO(c, cli_check_make(&p->footing, p->ring.kind, &of_heights, &c->err));
	p->paper.footing = &p->footing.footing;
	p->paper.footing_measured = of_heights.when;
}

/* The check of the ring that --check tells, or the latest with readings; the footing with it is
 * the latest known then, for the latest check the latest of all. */
static void check_of_ring(struct cli *c, const struct check_asked *o, struct check_paper *p)
{
	const struct rt_stored_checks *checks = &p->checks;
	size_t which, known;

	CLI_DO(c, rt_store_checks(c->store, p->ring.name, &p->checks, &c->err));
	which = known = checks->n;
	if (o->check) {
		which = cli_check_numbered(c, checks, o->check);
		known = which + 1;
	} else {
		while (which-- && !checks->at[which].readings.n)
			;
	}
	if (!c->err.code && which >= checks->n)
		CLI_FAIL(c, RT_E_INPUT, "%s: no readings are kept: `ring check` keeps them",
			 p->ring.name);
	if (!c->err.code && !checks->at[which].readings.n)
		CLI_FAIL(c, RT_E_INPUT, "--check %lld: only heights were taken then",
			 (long long)o->check);
	if (c->err.code)
		return;
	p->paper.measured = checks->at[which].when;
	p->paper.who = checks->at[which].who;
	p->paper.number = (int64_t)which + 1;
	CLI_DO(c, cli_check_make(&p->pegs, p->ring.kind, &checks->at[which], &c->err));
	footing_before(c, p, known);
}

static void take_check(struct cli *c, const struct check_asked *o, struct check_paper *p)
{
	if (o->kind && o->check)
		CLI_FAIL(c, RT_E_USAGE, "--check belongs to a ring of the show");
	if (!o->kind && o->words.n > 1)
		CLI_FAIL(c, RT_E_USAGE,
			 "a ring of the show without files (`ring check` keeps "
			 "them), or --kind KIND with files");
	if (!o->kind)
		cli_check_not_asked(c, &o->asked);
	p->ring = cli_ring_find(c, o->kind || !o->words.n ? NULL : o->words.at[0], o->kind, false);
	if (!c->err.code && o->kind)
		check_of_files(c, o, p);
	else if (!c->err.code)
		check_of_ring(c, o, p);
	p->options = cli_sheet_options(c, &o->sheet);
	p->paper.ring = p->ring.name;
	p->paper.check = &p->pegs.pegs;
}

/* ---- sheet check ----------------------------------------------------------------------------- */

static const struct rt_field check_options[] = {
	{"words", RT_AT(struct check_asked, words), .type = RT_TEXT, .is = RT_ARGUMENT | RT_MANY},
	CLI_OUT(struct check_asked, sheet),
	CLI_CHECK_NUMBER(struct check_asked, check),
	CLI_KIND(struct check_asked, kind, 0),
	CLI_TOLERANCE(struct check_asked, asked.tolerance_m),
	CLI_FIT(struct check_asked, asked.fit),
	CLI_BY(struct check_asked, asked.by, 0),
	CLI_FOOTING(struct check_asked, asked),
	CLI_VIEW(struct check_asked, sheet),
};

static void sheet_check(struct cli *c, const void *typed)
{
	const struct check_asked *o = typed;
	struct check_paper p = {0};
	char verdict[80];

	take_check(c, o, &p);
	CLI_DO(c, rt_sheet_check(&p.sheet, &p.paper, &p.options, &c->err));
	cli_write_sheet(c, &o->sheet, &p.sheet);
	if (!c->err.code) {
		rt_ring_check_words(&p.pegs.pegs, verdict, sizeof verdict);
		rt_report_note(&c->report, "Verdict of the check: %s.", verdict);
		c->report.needs_person = p.pegs.pegs.verdict != RT_RING_TRUE;
	}
	check_paper_free(&p);
}

const struct cli_command cmd_sheet_check = {
	.name = "sheet check",
	.args = "(RING [--check N] | --kind KIND READINGS.csv...) --out FILE",
	.summary = "A page with the pegs as found, arrows where to move them, boxes to tick.",
	.details =
		"Of a ring of the show the latest check that is kept, or check N; else of files, as\n"
		"`ring check` reads them. Arrows, error ellipses and tolerance circles are drawn larger\n"
		"than the ring by a round factor, which the page tells.\n"
		"Exit status 1 when the ring is not true.\n" CLI_OUTPUT_STANDARD,
	.example = "sheet check --kind driven-40x80 readings-oak.csv --out oak.pdf",
	CLI_OPTIONS(struct check_asked, check_options),
	.blank = &blank,
	.run = sheet_check,
};

/* ---- sheet certificate ----------------------------------------------------------------------- */

static const struct rt_field certificate_options[] = {
	{"ring", RT_AT(struct check_asked, words), .type = RT_TEXT,
	 .is = RT_ARGUMENT | RT_REQUIRED | RT_MANY},
	CLI_OUT(struct check_asked, sheet),
};

static void sheet_certificate(struct cli *c, const void *typed)
{
	const struct check_asked *o = typed;
	struct check_paper p = {0};
	char verdict[80];

	take_check(c, o, &p);
	if (!c->err.code && p.pegs.pegs.verdict != RT_RING_TRUE) {
		rt_ring_check_words(&p.pegs.pegs, verdict, sizeof verdict);
		rt_report_note(&c->report,
			       "No certificate was written: the latest check of %s (check %lld, "
			       "%.16s) says: %s. `sheet check` draws what to do.",
			       p.ring.name, (long long)p.paper.number,
			       p.paper.measured ? p.paper.measured : "", verdict);
		c->report.needs_person = true;
	} else {
		CLI_DO(c, rt_sheet_certificate(&p.sheet, &p.paper, &p.options, &c->err));
		cli_write_sheet(c, &o->sheet, &p.sheet);
	}
	check_paper_free(&p);
}

const struct cli_command cmd_sheet_certificate = {
	.name = "sheet certificate",
	.args = "RING --out FILE",
	.summary = "A page to pin up: how true the ring is, measured when, by whom, how surely.",
	.details =
		"Of the latest check that is kept of a ring of the show. Where that does not say\n"
		"that the ring is true, nothing is written, and why is told (exit status 1).\n" CLI_OUTPUT_STANDARD,
	.example = "--show spring.show sheet certificate \"Oak ring\" --out oak.pdf",
	CLI_OPTIONS(struct check_asked, certificate_options),
	.blank = &blank,
	.run = sheet_certificate,
};
