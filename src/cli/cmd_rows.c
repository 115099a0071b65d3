/* ring kinds import, level import, gait import, rule import, turnout import: a show's own rows.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

/* One kind of rows: how it is called, read and named; before its rows take the place of others,
 * `warn` (NULL: nothing to say) tells what that changes. */
struct row_kind {
	const char *what;
	enum rt_err (*read)(struct rt_shipped *rows, const char *path,
			    const struct rt_roster *roster, struct rt_faults *faults,
			    struct rt_error *err);
	size_t (*count)(const struct rt_shipped *rows);
	/* The name of row i, in out where it is made of two. */
	const char *(*name)(const struct rt_shipped *rows, size_t i, char out[static 128]);
	void (*warn)(struct cli *c, const struct rt_shipped *rows, const struct cli_roster *before);
};

struct rows_import {
	struct rt_shipped rows;
	struct cli_roster roster;
};

/* Tell which of the names were in the show before. */
static enum rt_err note_replaced(struct cli *c, const struct row_kind *kind,
				 const struct rows_import *in)
{
	struct cli_names replaced = {0};
	struct rt_map *before = NULL, *told = NULL;
	char name[128];
	bool nomem = false;

	for (size_t i = 0; i < kind->count(&in->roster.rows); i++)
		rt_map_put(&before, kind->name(&in->roster.rows, i, name), i, &nomem);
	for (size_t i = 0; i < kind->count(&in->rows); i++) {
		const char *of = kind->name(&in->rows, i, name);

		if (rt_map_get(before, of) != RT_MAP_NONE &&
		    rt_map_put(&told, of, i, &nomem) == RT_MAP_NONE)
			cli_name(&replaced, of);
	}
	rt_map_free(before);
	rt_map_free(told);
	if (replaced.n)
		rt_report_note(&c->report, "In the show already, and replaced by this file: %s.",
			       replaced.text);
	return nomem ? rt_fail_nomem(&c->err) : RT_OK;
}

struct imported_row {
	const char *what;
	size_t rows;
};

static const struct rt_field imported_fields[] = {
	{"what", RT_AT(struct imported_row, what)},
	{"rows", RT_AT(struct imported_row, rows), .type = RT_SIZE},
};

static const struct rt_record imported_table = RT_TABLE("imported", "Imported", imported_fields,
							struct imported_row);

static enum rt_err report_rows(struct cli *c, const struct row_kind *kind,
			       const struct rows_import *in)
{
	const struct imported_row row = {kind->what, kind->count(&in->rows)};
	enum rt_err e;

	rt_report_list(&c->report, &imported_table, &row, 1);
	e = note_replaced(c, kind, in);
	if (!e && kind->warn)
		kind->warn(c, &in->rows, &in->roster);
	return e;
}

static enum rt_err import_rows(struct cli *c, const struct cli_call *call,
			       const struct row_kind *kind)
{
	struct rows_import in = {0};
	enum rt_err e = CLI_OLD(c, cli_store(c, true));

	if (!e)
		e = CLI_OLD(c, cli_roster(c, &in.roster));
	if (!e)
		e = kind->read(&in.rows, call->arg[0], &in.roster.roster, &c->faults, &c->err);
	if (!e)
		e = rt_faults_result(&c->faults, &c->err);
	if (!e)
		e = rt_store_rows_put(c->store, &in.rows, &c->err);
	if (!e)
		e = report_rows(c, kind, &in);
	rt_shipped_free(&in.rows);
	cli_roster_free(&in.roster);
	return e;
}

/* The count and the plain names of one list of struct rt_shipped. */
#define COUNT_AND_NAME(list, field)                                                                \
	static size_t count_##list(const struct rt_shipped *rows)                                  \
	{                                                                                          \
		return rows->list.n;                                                               \
	}                                                                                          \
                                                                                                   \
	static const char *name_##list(const struct rt_shipped *rows, size_t i,                    \
				       char out[static 128])                                       \
	{                                                                                          \
		(void)out;                                                                         \
		return rows->list.at[i].field;                                                     \
	}

COUNT_AND_NAME(kinds, name)
COUNT_AND_NAME(gaits, name)
COUNT_AND_NAME(rules, name)
COUNT_AND_NAME(turnouts, turnout)
COUNT_AND_NAME(articles, name)

/* ---- kinds of ring ----------------------------------------------------------------------- */

static enum rt_err read_kinds(struct rt_shipped *rows, const char *path,
			      const struct rt_roster *roster, struct rt_faults *faults,
			      struct rt_error *err)
{
	(void)roster;
	return rt_read_ring_kinds(&rows->kinds, path, faults, err);
}

/* What a ring of the old kind no longer is under the new one. */
static void note_kind_change(struct cli *c, const struct rt_ring_kind *old,
			     const struct rt_ring_kind *now, const char *rings)
{
	struct cli_names lost = {0};
	char width[24], length[24];

	for (size_t i = 0; i < old->letters.n; i++)
		if (!rt_ring_has_letter(now, old->letters.at[i].name))
			cli_name(&lost, old->letters.at[i].name);
	if (lost.n)
		rt_report_note(&c->report, "Kind %s has no %s any more: that concerns %s.",
			       old->name, lost.text, rings);
	if (now->width_m >= old->width_m && now->width_m <= old->width_m &&
	    now->length_m >= old->length_m && now->length_m <= old->length_m)
		return;
	rt_format_real(old->width_m, 2, width, sizeof width);
	rt_format_real(old->length_m, 2, length, sizeof length);
	rt_report_note(&c->report,
		       "Kind %s has another size now, it was %s x %s m: %s must be set out anew.",
		       old->name, width, length, rings);
}

static void warn_of_kinds(struct cli *c, const struct rt_shipped *rows,
			  const struct cli_roster *before)
{
	for (size_t k = 0; k < rows->kinds.n; k++) {
		const struct rt_ring_kind *now = &rows->kinds.at[k], *old;
		struct cli_names rings = {0};

		for (size_t i = 0; i < before->rings.n; i++)
			if (strcmp(before->rings.at[i].kind, now->name) == 0)
				cli_name(&rings, before->rings.at[i].name);
		if (rings.n && !rt_ring_kind_named(&old, &before->rows.kinds, now->name, NULL))
			note_kind_change(c, old, now, rings.text);
	}
}

static enum rt_err import_kinds(struct cli *c, const struct cli_call *call)
{
	static const struct row_kind kind = {"ring kinds", read_kinds, count_kinds, name_kinds,
					     warn_of_kinds};

	return import_rows(c, call, &kind);
}

/* ---- rules ------------------------------------------------------------------------------- */

static enum rt_err read_rules(struct rt_shipped *rows, const char *path,
			      const struct rt_roster *roster, struct rt_faults *faults,
			      struct rt_error *err)
{
	(void)roster;
	return rt_read_rules(&rows->rules, path, faults, err);
}

static void warn_of_rules(struct cli *c, const struct rt_shipped *rows,
			  const struct cli_roster *before)
{
	struct cli_names classes = {0};

	for (size_t i = 0; i < before->classes.n; i++) {
		const struct rt_class *class_ = &before->classes.at[i];
		const char *rule = cli_rule_of(class_, &before->tests);

		if (rule && rt_rule_find(&rows->rules, rule))
			cli_name(&classes, class_->name);
	}
	if (classes.n)
		rt_report_note(&c->report,
			       "Class%s %s: scored by a rule of this file from now on; see the "
			       "results anew.",
			       classes.n == 1 ? "" : "es", classes.text);
}

static enum rt_err import_rules(struct cli *c, const struct cli_call *call)
{
	static const struct row_kind kind = {"rules", read_rules, count_rules, name_rules,
					     warn_of_rules};

	return import_rows(c, call, &kind);
}

/* ---- levels, gaits, turnouts ------------------------------------------------------------- */

static enum rt_err read_levels(struct rt_shipped *rows, const char *path,
			       const struct rt_roster *roster, struct rt_faults *faults,
			       struct rt_error *err)
{
	return rt_read_levels(&rows->levels, path, roster, faults, err);
}

static size_t count_levels(const struct rt_shipped *rows)
{
	return rows->levels.n;
}

static const char *name_levels(const struct rt_shipped *rows, size_t i, char out[static 128])
{
	const struct rt_level *level = &rows->levels.at[i];

	snprintf(out, 128, "%s %.90s", rt_discipline_words(level->discipline), level->name);
	return out;
}

static enum rt_err import_levels(struct cli *c, const struct cli_call *call)
{
	static const struct row_kind kind = {"levels", read_levels, count_levels, name_levels,
					     NULL};

	return import_rows(c, call, &kind);
}

static enum rt_err read_gaits(struct rt_shipped *rows, const char *path,
			      const struct rt_roster *roster, struct rt_faults *faults,
			      struct rt_error *err)
{
	(void)roster;
	return rt_read_gaits(&rows->gaits, path, faults, err);
}

static enum rt_err import_gaits(struct cli *c, const struct cli_call *call)
{
	static const struct row_kind kind = {"gaits", read_gaits, count_gaits, name_gaits, NULL};

	return import_rows(c, call, &kind);
}

static enum rt_err read_turnouts(struct rt_shipped *rows, const char *path,
				 const struct rt_roster *roster, struct rt_faults *faults,
				 struct rt_error *err)
{
	(void)roster;
	return rt_read_turnouts(&rows->turnouts, path, faults, err);
}

static enum rt_err import_turnouts(struct cli *c, const struct cli_call *call)
{
	static const struct row_kind kind = {"turnouts", read_turnouts, count_turnouts,
					     name_turnouts, NULL};

	return import_rows(c, call, &kind);
}

static enum rt_err read_articles(struct rt_shipped *rows, const char *path,
				 const struct rt_roster *roster, struct rt_faults *faults,
				 struct rt_error *err)
{
	return rt_read_articles(&rows->articles, path, roster, faults, err);
}

static enum rt_err import_articles(struct cli *c, const struct cli_call *call)
{
	static const struct row_kind kind = {"articles", read_articles, count_articles,
					     name_articles, NULL};

	return import_rows(c, call, &kind);
}

/* ---- the commands ------------------------------------------------------------------------ */

const struct cli_command cmd_ring_kinds_import = {
	.group = "Rows",
	.name = "ring kinds import",
	.args = "FILE.csv",
	.summary = "Add kinds of ring to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_ring_row_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.table = {&imported_table},
	.old_run = import_kinds,
};

const struct cli_command cmd_level_import = {
	.group = "Rows",
	.name = "level import",
	.args = "FILE.csv",
	.summary = "Add levels to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_level_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.table = {&imported_table},
	.old_run = import_levels,
};

const struct cli_command cmd_gait_import = {
	.group = "Rows",
	.name = "gait import",
	.args = "FILE.csv",
	.summary = "Add gaits to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_gait_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.table = {&imported_table},
	.old_run = import_gaits,
};

const struct cli_command cmd_rule_import = {
	.group = "Rows",
	.name = "rule import",
	.args = "FILE.csv",
	.summary = "Add rules to the show, or change them.",
	.details =
		"Results are always computed anew: those of classes under a changed rule change with\n"
		"it.",
	.files = (const struct rt_record *const[]){&rt_rule_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.table = {&imported_table},
	.old_run = import_rules,
};

const struct cli_command cmd_turnout_import = {
	.group = "Rows",
	.name = "turnout import",
	.args = "FILE.csv",
	.summary = "Add turnouts to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_turnout_part_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.table = {&imported_table},
	.old_run = import_turnouts,
};

const struct cli_command cmd_article_import = {
	.group = "Rows",
	.name = "article import",
	.args = "FILE.csv",
	.summary = "Add articles (what a penalty costs) to the show, or change them.",
	.details =
		"A time beyond the last amount costs the last one, and an article without amounts is left\n"
		"to an official.",
	.files = (const struct rt_record *const[]){&rt_article_record, NULL},
	.old_min_args = 1,
	.old_max_args = 1,
	.table = {&imported_table},
	.old_run = import_articles,
};
