/* ring kinds import, level import, gait import, rule import, turnout import, article import: a
 * show's own rows. SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

/* ---- what a change of rows changes ------------------------------------------------------- */

/* What a ring of the old kind no longer is under the new one. */
static void note_kind_change(struct cli *c, const struct rt_ring_kind *old,
			     const struct rt_ring_kind *now, const char *rings)
{
	struct cli_names lost = {0};
	char width[24], length[24];

	for (size_t i = 0; i < old->letters.n; i++)
		if (!rt_ring_has_letter(now, old->letters.at[i].name))
			cli_name(&lost, "%s", old->letters.at[i].name);
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

static void warn_of_kinds(struct cli *c, const struct rt_ring_kinds *kinds)
{
	const struct rt_rings *all = cli_rings(c);

	for (size_t k = 0; k < kinds->n; k++) {
		const struct rt_ring_kind *now = &kinds->at[k];
		const struct rt_ring_kind *old = rt_ring_kind_find(&cli_rows(c)->kinds, now->name);
		struct cli_names rings = {0};

		for (size_t i = 0; i < all->n; i++)
			if (strcmp(all->at[i].kind, now->name) == 0)
				cli_name(&rings, "%s", all->at[i].name);
		if (rings.n && old)
			note_kind_change(c, old, now, rings.text);
	}
}

static void warn_of_rules(struct cli *c, const struct rt_rules *rules)
{
	const struct rt_classes *all = cli_classes(c);
	struct cli_names classes = {0};

	for (size_t i = 0; i < all->n; i++) {
		const struct rt_class *class_ = &all->at[i];
		const char *rule = cli_rule_of(c, class_);

		if (rule && rt_rule_find(rules, rule))
			cli_name(&classes, "%s", class_->name);
	}
	if (classes.n)
		rt_report_note(&c->report,
			       "Class%s %s: scored by a rule of this file from now on; see the "
			       "results anew.",
			       classes.n == 1 ? "" : "es", classes.text);
}

/* ---- importing ------------------------------------------------------------------------------- */

/* Read a file of the kind that the command takes into its list. */
static void read_rows(struct cli *c, const struct cli_import *how, struct rt_shipped *rows)
{
	const struct rt_record *record = c->call.command->files[0];
	const struct rt_roster *roster = cli_roster(c, true);
	const struct rt_source *source = cli_source(c, how, how->file);
	struct rt_faults *faults = &c->faults;

	if (record == &rt_ring_row_record)
		CLI_DO(c, rt_read_ring_kinds(&rows->kinds, source, faults, &c->err));
	else if (record == &rt_level_record)
		CLI_DO(c, rt_read_levels(&rows->levels, source, roster, faults, &c->err));
	else if (record == &rt_gait_record)
		CLI_DO(c, rt_read_gaits(&rows->gaits, source, faults, &c->err));
	else if (record == &rt_rule_record)
		CLI_DO(c, rt_read_rules(&rows->rules, source, faults, &c->err));
	else if (record == &rt_turnout_part_record)
		CLI_DO(c, rt_read_turnouts(&rows->turnouts, source, faults, &c->err));
	else
		CLI_DO(c, rt_read_articles(&rows->articles, source, roster, faults, &c->err));
	CLI_DO(c, rt_faults_result(faults, &c->err));
}

/* The names of the rows, of the one kind that the file has. */
static void names_of(struct cli *c, const struct rt_shipped *rows, const struct rt_shipped *file,
		     struct rt_strings *names)
{
	for (size_t i = 0; file->kinds.n && i < rows->kinds.n; i++)
		CLI_ADD(c, names, rows->kinds.at[i].name);
	for (size_t i = 0; file->levels.n && i < rows->levels.n; i++) {
		const struct rt_level *level = &rows->levels.at[i];
		const char *name = rt_report_textf(
			&c->report, "%s %s", rt_discipline_words(level->discipline), level->name);

		if (name)
			CLI_ADD(c, names, name);
	}
	for (size_t i = 0; file->gaits.n && i < rows->gaits.n; i++)
		CLI_ADD(c, names, rows->gaits.at[i].name);
	for (size_t i = 0; file->rules.n && i < rows->rules.n; i++)
		CLI_ADD(c, names, rows->rules.at[i].name);
	for (size_t i = 0; file->turnouts.n && i < rows->turnouts.n; i++)
		CLI_ADD(c, names, rows->turnouts.at[i].turnout);
	for (size_t i = 0; file->articles.n && i < rows->articles.n; i++)
		CLI_ADD(c, names, rows->articles.at[i].name);
}

/* Tell which of the names were in the show before. */
static void note_replaced(struct cli *c, const struct rt_strings *names,
			  const struct rt_strings *shown)
{
	struct cli_names replaced = {0};
	struct rt_map *before = NULL, *told = NULL;
	bool nomem = false;

	for (size_t i = 0; i < shown->n; i++)
		rt_map_put(&before, shown->at[i], i, &nomem);
	for (size_t i = 0; i < names->n; i++)
		if (rt_map_get(before, names->at[i]) != RT_MAP_NONE &&
		    rt_map_put(&told, names->at[i], i, &nomem) == RT_MAP_NONE)
			cli_name(&replaced, "%s", names->at[i]);
	rt_map_free(before);
	rt_map_free(told);
	if (replaced.n)
		rt_report_note(&c->report, "In the show already, and replaced by this file: %s.",
			       replaced.text);
	if (nomem)
		CLI_DO(c, rt_fail_nomem(&c->err));
}

struct imported {
	const char *what;
	size_t rows;
};

static const struct rt_field imported_fields[] = {
	{"what", RT_AT(struct imported, what), .type = RT_TEXT},
	{"rows", RT_AT(struct imported, rows), .type = RT_SIZE},
};
static const struct rt_record imported_table = RT_TABLE("imported", "Imported", imported_fields,
							struct imported);

static void import_rows(struct cli *c, const void *typed)
{
	struct rt_shipped rows = {0};
	struct rt_strings names = {0}, shown = {0};
	const char *what = rt_report_textf(&c->report, "%ss", c->call.command->files[0]->name);

	read_rows(c, typed, &rows);
	names_of(c, &rows, &rows, &names);
	names_of(c, cli_rows(c), &rows, &shown);
	CLI_DO(c, rt_store_rows_put(c->store, &rows, &c->err));
	if (!c->err.code) {
		rt_report_list(&c->report, &imported_table, &(struct imported){what, names.n}, 1);
		note_replaced(c, &names, &shown);
		warn_of_kinds(c, &rows.kinds);
		warn_of_rules(c, &rows.rules);
	}
	RT_LIST_FREE(&names);
	RT_LIST_FREE(&shown);
	rt_shipped_free(&rows);
}

/* ---- the commands ------------------------------------------------------------------------ */

#define IMPORTS_ROWS                                                                               \
	CLI_OPTIONS(struct cli_import, cli_import_options), .table = {&imported_table},            \
							    .run = import_rows

const struct cli_command cmd_ring_kinds_import = {
	.name = "ring kinds import",
	.summary = "Add kinds of ring to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_ring_row_record, NULL},
	IMPORTS_ROWS,
};

const struct cli_command cmd_level_import = {
	.name = "level import",
	.summary = "Add levels to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_level_record, NULL},
	IMPORTS_ROWS,
};

const struct cli_command cmd_gait_import = {
	.name = "gait import",
	.summary = "Add gaits to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_gait_record, NULL},
	IMPORTS_ROWS,
};

const struct cli_command cmd_rule_import = {
	.name = "rule import",
	.summary = "Add rules to the show, or change them.",
	.details =
		"Results are always computed anew: those of classes under a changed rule change with\n"
		"it.",
	.files = (const struct rt_record *const[]){&rt_rule_record, NULL},
	IMPORTS_ROWS,
};

const struct cli_command cmd_turnout_import = {
	.name = "turnout import",
	.summary = "Add turnouts to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_turnout_part_record, NULL},
	IMPORTS_ROWS,
};

const struct cli_command cmd_article_import = {
	.name = "article import",
	.summary = "Add articles (what a penalty costs) to the show, or change them.",
	.details =
		"A time beyond the last amount costs the last one, and an article without amounts is left\n"
		"to an official.",
	.files = (const struct rt_record *const[]){&rt_article_record, NULL},
	IMPORTS_ROWS,
};
