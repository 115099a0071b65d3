/* ring kinds import, level import, gait import, rule import, turnout import: a show's own rows.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

/* Read one kind of rows from a file. */
typedef enum rt_err read_rows(struct rt_shipped *rows, const char *path,
			      const struct rt_roster *roster, struct rt_faults *faults,
			      struct rt_error *err);

struct rows_import {
	struct rt_shipped rows;
	struct cli_roster roster;
};

static enum rt_err put_rows(struct cli *c, void *data)
{
	return rt_store_rows_put(c->store, data, &c->err);
}

static void report_rows(struct cli *c, const char *what, size_t n)
{
	static const struct rt_column columns[] = {
		{"what", "what", RT_TEXT, RT_NO_UNIT, 0, false},
		{"rows", "rows", RT_INT, RT_NO_UNIT, 0, false},
	};
	struct rt_table *t = rt_report_table(&c->report, "imported", "Imported", columns, 2);

	rt_put_text(t, what);
	rt_put_int(t, (int64_t)n);
	rt_report_note(&c->report, "A row whose name was there already has taken its place.");
}

static enum rt_err import_rows(struct cli *c, const struct cli_call *call, read_rows *read)
{
	struct rows_import in = {0};
	const struct rt_shipped *r = &in.rows;
	enum rt_err e = cli_store(c, true);

	if (!e)
		e = cli_roster(c, &in.roster);
	if (!e)
		e = read(&in.rows, call->arg[0], &in.roster.roster, &c->faults, &c->err);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	if (!e)
		e = cli_transaction(c, put_rows, &in.rows);
	if (!e)
		report_rows(c, call->command->name,
			    r->kinds.n + r->levels.n + r->gaits.n + r->rules.n + r->turnouts.n);
	rt_shipped_free(&in.rows);
	cli_roster_free(&in.roster);
	return e;
}

static enum rt_err read_kinds(struct rt_shipped *rows, const char *path,
			      const struct rt_roster *roster, struct rt_faults *faults,
			      struct rt_error *err)
{
	(void)roster;
	return rt_read_ring_kinds(&rows->kinds, path, faults, err);
}

static enum rt_err read_levels(struct rt_shipped *rows, const char *path,
			       const struct rt_roster *roster, struct rt_faults *faults,
			       struct rt_error *err)
{
	return rt_read_levels(&rows->levels, path, roster, faults, err);
}

static enum rt_err read_gaits(struct rt_shipped *rows, const char *path,
			      const struct rt_roster *roster, struct rt_faults *faults,
			      struct rt_error *err)
{
	(void)roster;
	return rt_read_gaits(&rows->gaits, path, faults, err);
}

static enum rt_err read_rules(struct rt_shipped *rows, const char *path,
			      const struct rt_roster *roster, struct rt_faults *faults,
			      struct rt_error *err)
{
	(void)roster;
	return rt_read_rules(&rows->rules, path, faults, err);
}

static enum rt_err read_turnouts(struct rt_shipped *rows, const char *path,
				 const struct rt_roster *roster, struct rt_faults *faults,
				 struct rt_error *err)
{
	(void)roster;
	return rt_read_turnouts(&rows->turnouts, path, faults, err);
}

static enum rt_err import_kinds(struct cli *c, const struct cli_call *call)
{
	return import_rows(c, call, read_kinds);
}

static enum rt_err import_levels(struct cli *c, const struct cli_call *call)
{
	return import_rows(c, call, read_levels);
}

static enum rt_err import_gaits(struct cli *c, const struct cli_call *call)
{
	return import_rows(c, call, read_gaits);
}

static enum rt_err import_rules(struct cli *c, const struct cli_call *call)
{
	return import_rows(c, call, read_rules);
}

static enum rt_err import_turnouts(struct cli *c, const struct cli_call *call)
{
	return import_rows(c, call, read_turnouts);
}

const struct cli_command cmd_ring_kinds_import = {
	.group = "Rows of this show",
	.name = "ring kinds import",
	.args = "FILE.csv",
	.summary = "Add kinds of ring to the show, or change them.",
	.details =
		"Columns: kind,discipline,width_m,length_m,peg,side,offset_m; a row a letter. side is\n"
		"left, right, a, c or centre; the offset is from the A end, on sides a and c from the\n"
		"left end.",
	.min_args = 1,
	.max_args = 1,
	.run = import_kinds,
};

const struct cli_command cmd_level_import = {
	.group = "Rows of this show",
	.name = "level import",
	.args = "FILE.csv",
	.summary = "Add levels to the show, or change them.",
	.details = "Columns: level,discipline,turn_diameter_m,reference_height_cm,gait.",
	.min_args = 1,
	.max_args = 1,
	.run = import_levels,
};

const struct cli_command cmd_gait_import = {
	.group = "Rows of this show",
	.name = "gait import",
	.args = "FILE.csv",
	.summary = "Add gaits to the show, or change them.",
	.details = "Columns: gait,speed_m_per_s,stride_m,source.",
	.min_args = 1,
	.max_args = 1,
	.run = import_gaits,
};

const struct cli_command cmd_rule_import = {
	.group = "Rows of this show",
	.name = "rule import",
	.args = "FILE.csv",
	.summary = "Add rules to the show, or change them.",
	.details =
		"Columns: rule,scale,wins,base,judge_decimals,percent_decimals,score_decimals,taken,\n"
		"error_1,error_2,error_3,ties,source; as in the shipped rules.csv. Results are always\n"
		"computed anew: those of classes under a changed rule change with it.",
	.min_args = 1,
	.max_args = 1,
	.run = import_rules,
};

const struct cli_command cmd_turnout_import = {
	.group = "Rows of this show",
	.name = "turnout import",
	.args = "FILE.csv",
	.summary = "Add turnouts to the show, or change them.",
	.details =
		"Columns: turnout,part,hitch_m,length_m,width_m[,track_m][,cog_m]; parts from front\n"
		"to back.",
	.min_args = 1,
	.max_args = 1,
	.run = import_turnouts,
};
