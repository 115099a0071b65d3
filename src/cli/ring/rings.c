/* The ring that a command is about: of the show by its name, or of a kind; its readings and its
 * checks.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

bool cli_text_in_feet(const struct cli *c)
{
	return c->feet && c->format == CLI_TEXT;
}

/* ---- which ring --------------------------------------------------------------------------------
 */

const struct rt_ring *cli_ring_called(struct cli *c, const char *name)
{
	const struct rt_rings *rings = cli_rings(c);

	for (size_t i = 0; i < rings->n; i++)
		if (rt_same_name(rings->at[i].name, name))
			return &rings->at[i];
	return NULL;
}

static const struct rt_ring *ring_of_show(struct cli *c, const char *name)
{
	const struct rt_rings *rings = cli_rings(c);
	const struct rt_ring *ring = cli_ring_called(c, name);

	if (!ring)
		cli_unknown(c, &rt_ring_record, rings->at, rings->n, name,
			    "`ring list` lists them, `ring add` adds one",
			    "no ring \"%s\" in this show", name);
	return ring;
}

struct cli_ring cli_ring_find(struct cli *c, const char *name, const char *kind, bool writing)
{
	const struct rt_ring_kinds *kinds;
	const struct rt_ring *ring = NULL;
	struct cli_ring out = {0};

	if (!name == !kind)
		CLI_FAIL(c, RT_E_USAGE, "%s wants a ring of the show, or --kind KIND: one of them",
			 c->call.command->name);
	if (name)
		cli_store(c, writing);
	if (name)
		ring = ring_of_show(c, name);
	if (ring) {
		out.name = ring->name;
		kind = ring->kind;
	}
	kinds = &cli_rows(c)->kinds;
	CLI_DO(c, rt_ring_kind_named(&out.kind, kinds, kind, &c->err));
	return out;
}

/* ---- readings ----------------------------------------------------------------------------------
 */

void cli_read_readings(struct cli *c, const struct rt_strings *files, size_t first,
		       const struct rt_ring_kind *kind, const struct rt_points *points,
		       struct rt_readings *readings, struct rt_heights *heights)
{
	for (size_t i = first; i < files->n; i++)
		CLI_DO(c, rt_read_readings(readings, heights, CLI_SOURCE(c, files->at[i]), kind,
					   points, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
}

/* ---- checks ------------------------------------------------------------------------------------
 */

enum rt_err cli_check_make(struct cli_check *out, const struct rt_ring_kind *kind,
			   const struct rt_stored_check *stored, struct rt_error *err)
{
	enum rt_fit fit = RT_FIT_FEWEST;
	enum rt_err e = RT_OK;

	rt_fit_read(stored->fit, &fit);
	out->has_pegs = stored->readings.n > 0;
	out->has_footing = stored->heights.n > 0;
	if (out->has_pegs)
		e = rt_ring_check(&out->pegs, kind, &stored->readings, stored->tolerance_m, fit,
				  err);
	if (!e && out->has_footing)
		e = rt_footing_make(&out->footing, kind, &stored->heights, &stored->limits, err);
	return e;
}

void cli_check_free(struct cli_check *check)
{
	rt_ring_check_free(&check->pegs);
	rt_footing_free(&check->footing);
}

void cli_check_report(struct cli *c, struct rt_report *report, const struct rt_ring_kind *kind,
		      const struct rt_stored_check *check, bool feet)
{
	struct cli_check result = {0};

	CLI_DO(c, cli_check_make(&result, kind, check, &c->err));
	if (result.has_pegs)
		CLI_DO(c, rt_ring_check_report(report, &result.pegs, feet, &c->err));
	if (result.has_footing)
		CLI_DO(c, rt_footing_report(report, &result.footing, feet, &c->err));
	cli_check_free(&result);
}

void cli_check_begin(struct cli *c, const struct cli_check_asked *asked,
		     const struct rt_ring_kind *kind, struct rt_stored_check *check)
{
	bool along = !isnan(asked->along_m), across = !isnan(asked->across_m);
	const struct rt_footing_rule *rule;
	struct rt_footing_rules rules = {0};

	cli_footing_rules(c, asked->footings, &rules);
	CLI_DO(c, rt_footing_rule_named(&rule, &rules, asked->footing, kind->discipline, &c->err));
	if (!c->err.code) {
		check->who = asked->by;
		check->fit = rt_fit_words(asked->fit);
		check->tolerance_m = isnan(asked->tolerance_m) ? rt_ring_tolerance(kind->discipline)
							       : asked->tolerance_m;
		check->limits = rt_footing_limits_of(rule, kind);
		check->limits.source = along && across ? "as asked for"
				       : along || across
					       ? "one as asked for, one of the usual rule"
					       : rt_arena_string(&check->text, rule->source);
		if (along)
			check->limits.along_m = asked->along_m;
		if (across)
			check->limits.across_m = asked->across_m;
	}
	RT_LIST_FREE(&rules);
}

void cli_check_not_asked(struct cli *c, const struct cli_check_asked *asked)
{
	const char *given = !isnan(asked->tolerance_m)	  ? "tolerance"
			    : asked->fit != RT_FIT_FEWEST ? "fit"
			    : asked->by			  ? "by"
			    : asked->footing		  ? "footing"
			    : asked->footings		  ? "footings"
			    : !isnan(asked->along_m)	  ? "along"
			    : !isnan(asked->across_m)	  ? "across"
							  : NULL;

	if (given)
		CLI_FAIL(c, RT_E_USAGE,
			 "--%s belongs to files: a check that is kept stays as it was made", given);
}

size_t cli_check_numbered(struct cli *c, const struct rt_stored_checks *checks, int64_t number)
{
	if ((size_t)number > checks->n)
		CLI_FAIL(c, RT_E_INPUT, "--check %lld: this ring was checked %zu time%s",
			 (long long)number, checks->n, checks->n == 1 ? "" : "s");
	return (size_t)number - 1;
}
