/* Checks of rings, as they are computed, limited and kept.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <math.h>
#include <string.h>

/* ---- computing ------------------------------------------------------------------------------- */

enum rt_err cli_check_make(struct cli *c, struct cli_check *out, const struct rt_ring_kind *kind,
			   const struct rt_stored_check *stored)
{
	enum rt_fit fit = RT_FIT_FEWEST;
	enum rt_err e = RT_OK;

	rt_fit_read(stored->fit, &fit);
	out->has_pegs = stored->readings.n > 0;
	out->has_footing = stored->heights.n > 0;
	if (out->has_pegs)
		e = rt_ring_check(&out->pegs, kind, &stored->readings, stored->tolerance_m, fit,
				  &c->err);
	if (!e && out->has_footing)
		e = rt_footing_make(&out->footing, kind, &stored->heights, &stored->limits,
				    &c->err);
	return e;
}

void cli_check_free(struct cli_check *check)
{
	rt_ring_check_free(&check->pegs);
	rt_footing_free(&check->footing);
}

enum rt_err cli_check_report(struct cli *c, struct rt_report *report,
			     const struct rt_ring_kind *kind, const struct rt_stored_check *check,
			     bool feet)
{
	struct cli_check result = {0};
	enum rt_err e = cli_check_make(c, &result, kind, check);

	if (!e && result.has_pegs)
		e = rt_ring_check_report(report, &result.pegs, feet, &c->err);
	if (!e && result.has_footing)
		e = rt_footing_report(report, &result.footing, feet, &c->err);
	cli_check_free(&result);
	return e;
}

/* ---- options --------------------------------------------------------------------------------- */

/* The limits that a check of that kind goes by: of a rule, and what was asked for instead. */
static enum rt_err read_limits(struct cli *c, const struct cli_call *call,
			       const struct rt_ring_kind *kind, struct rt_stored_check *check)
{
	double along = NAN, across = NAN;
	const struct rt_footing_rule *rule;
	struct rt_footing_rules rules = {0};
	enum rt_err e = cli_real_option(c, call, "along", 0.01, 20.0, &along);

	if (!e)
		e = cli_real_option(c, call, "across", 0.01, 20.0, &across);
	if (!e)
		e = CLI_OLD(c, cli_footing_rules(c, cli_option(call, "footings"), &rules));
	if (!e)
		e = rt_footing_rule_named(&rule, &rules, cli_option(call, "footing"),
					  kind->discipline, &c->err);
	if (!e) {
		check->limits = rt_footing_limits_of(rule, kind);
		check->limits.source = !isnan(along) && !isnan(across) ? "as asked for"
				       : isnan(along) && isnan(across)
					       ? rt_arena_string(&check->text, rule->source)
					       : "one as asked for, one of the usual rule";
		if (!isnan(along))
			check->limits.along_m = along;
		if (!isnan(across))
			check->limits.across_m = across;
	}
	RT_LIST_FREE(&rules);
	return e;
}

enum rt_err cli_check_no_options(struct cli *c, const struct cli_call *call)
{
	static const char *const option[] = {"tolerance", "fit",   "by",    "footing",
					     "footings",  "along", "across"};

	for (size_t i = 0; i < sizeof option / sizeof *option; i++)
		if (cli_option(call, option[i]))
			return rt_fail(&c->err, RT_E_USAGE,
				       "--%s belongs to files: a check that is kept stays as it "
				       "was made",
				       option[i]);
	return RT_OK;
}

enum rt_err cli_check_options(struct cli *c, const struct cli_call *call,
			      const struct rt_ring_kind *kind, struct rt_stored_check *check)
{
	const char *fit = cli_option(call, "fit");
	enum rt_fit read;
	enum rt_err e = cli_reasons(c, call);

	check->who = cli_option(call, "by");
	check->fit = fit ? fit : rt_fit_words(RT_FIT_FEWEST);
	check->tolerance_m = rt_ring_tolerance(kind->discipline);
	if (!e && !rt_fit_read(check->fit, &read))
		return rt_fail(&c->err, RT_E_USAGE, "--fit: \"%s\": fewest, all or corners", fit);
	if (!e)
		e = cli_real_option(c, call, "tolerance", 0.005, 5.0, &check->tolerance_m);
	return e ? e : read_limits(c, call, kind, check);
}

/* ---- which one ------------------------------------------------------------------------------- */

enum rt_err cli_check_numbered(struct cli *c, const struct rt_stored_checks *checks,
			       const char *what, const char *typed, size_t *out)
{
	int64_t number = 0;
	enum rt_err e = cli_whole(c, what, typed, 1, INT32_MAX, &number);

	if (!e && (size_t)number > checks->n)
		e = rt_fail(&c->err, RT_E_INPUT, "%s %s: this ring was checked %zu time%s", what,
			    typed, checks->n, checks->n == 1 ? "" : "s");
	*out = (size_t)number - 1;
	return e;
}
