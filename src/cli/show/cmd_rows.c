/* ring kinds import, level import, gait import, rule import, turnout import, article import: a
 * show's own rows. SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <string.h>

struct rows_file {
	const char *file;
};

static const struct rt_field file_options[] = {CLI_FILE(struct rows_file, file, "file")};

/* ---- what a change of rows changes ------------------------------------------------------- */

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

/* ---- each kind of rows --------------------------------------------------------------------- */

/* How a kind of rows is called, counted and named (in out where the name is made of two); before
 * its rows take the place of others, `warn` (NULL: nothing to say) tells what that changes. */
struct row_kind {
	const char *command, *what;
	size_t (*count)(const struct rt_shipped *rows);
	const char *(*name)(const struct rt_shipped *rows, size_t i, char out[static 128]);
	void (*warn)(struct cli *c, const struct rt_shipped *rows, const struct cli_roster *before);
	enum rt_err (*read)(struct rt_shipped *rows, const char *path,
			    const struct rt_roster *roster, struct rt_faults *faults,
			    struct rt_error *err);
};

#define ROW_KIND(list, row_name, reading)                                                          \
	static size_t count_##list(const struct rt_shipped *rows)                                  \
	{                                                                                          \
		return rows->list.n;                                                               \
	}                                                                                          \
                                                                                                   \
	static const char *name_##list(const struct rt_shipped *rows, size_t i,                    \
				       char out[static 128])                                       \
	{                                                                                          \
		(void)out;                                                                         \
		return row_name;                                                                   \
	}                                                                                          \
                                                                                                   \
	static enum rt_err read_##list(struct rt_shipped *rows, const char *path,                  \
				       const struct rt_roster *roster, struct rt_faults *faults,   \
				       struct rt_error *err)                                       \
	{                                                                                          \
		(void)roster;                                                                      \
		return reading;                                                                    \
	}

static const char *name_level(const struct rt_level *level, char out[static 128])
{
	snprintf(out, 128, "%s %.90s", rt_discipline_words(level->discipline), level->name);
	return out;
}

ROW_KIND(kinds, rows->kinds.at[i].name, rt_read_ring_kinds(&rows->kinds, path, faults, err))
ROW_KIND(levels, name_level(&rows->levels.at[i], out),
	 rt_read_levels(&rows->levels, path, roster, faults, err))
ROW_KIND(gaits, rows->gaits.at[i].name, rt_read_gaits(&rows->gaits, path, faults, err))
ROW_KIND(rules, rows->rules.at[i].name, rt_read_rules(&rows->rules, path, faults, err))
ROW_KIND(turnouts, rows->turnouts.at[i].turnout,
	 rt_read_turnouts(&rows->turnouts, path, faults, err))
ROW_KIND(articles, rows->articles.at[i].name,
	 rt_read_articles(&rows->articles, path, roster, faults, err))

static const struct row_kind row_kinds[] = {
	{"ring kinds import", "ring kinds", count_kinds, name_kinds, warn_of_kinds, read_kinds},
	{"level import", "levels", count_levels, name_levels, NULL, read_levels},
	{"gait import", "gaits", count_gaits, name_gaits, NULL, read_gaits},
	{"rule import", "rules", count_rules, name_rules, warn_of_rules, read_rules},
	{"turnout import", "turnouts", count_turnouts, name_turnouts, NULL, read_turnouts},
	{"article import", "articles", count_articles, name_articles, NULL, read_articles},
};

/* ---- importing ------------------------------------------------------------------------------- */

struct imported {
	const char *what;
	size_t rows;
};

/* Tell which of the names were in the show before. */
static void note_replaced(struct cli *c, const struct row_kind *kind, const struct rt_shipped *rows,
			  const struct rt_shipped *shown)
{
	struct cli_names replaced = {0};
	struct rt_map *before = NULL, *told = NULL;
	char name[128];
	bool nomem = false;

	for (size_t i = 0; i < kind->count(shown); i++)
		rt_map_put(&before, kind->name(shown, i, name), i, &nomem);
	for (size_t i = 0; i < kind->count(rows); i++) {
		const char *of = kind->name(rows, i, name);

		if (rt_map_get(before, of) != RT_MAP_NONE &&
		    rt_map_put(&told, of, i, &nomem) == RT_MAP_NONE)
			cli_name(&replaced, of);
	}
	rt_map_free(before);
	rt_map_free(told);
	if (replaced.n)
		rt_report_note(&c->report, "In the show already, and replaced by this file: %s.",
			       replaced.text);
	if (nomem)
		CLI_DO(c, rt_fail_nomem(&c->err));
}

static const struct rt_field imported_fields[] = {
	{"what", RT_AT(struct imported, what), .type = RT_TEXT},
	{"rows", RT_AT(struct imported, rows), .type = RT_SIZE},
};
static const struct rt_record imported_table = RT_TABLE("imported", "Imported", imported_fields,
							struct imported);

static void import_rows(struct cli *c, const void *typed)
{
	const struct rows_file *o = typed;
	const struct row_kind *kind = row_kinds;
	struct rt_shipped rows = {0};
	struct cli_roster before = {0};

	while (strcmp(kind->command, c->call.command->name) != 0)
		kind++;
	cli_store(c, true);
	cli_roster(c, &before);
	CLI_DO(c, kind->read(&rows, o->file, &before.roster, &c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
	CLI_DO(c, rt_store_rows_put(c->store, &rows, &c->err));
	if (!c->err.code) {
		const struct imported row = {kind->what, kind->count(&rows)};

		rt_report_list(&c->report, &imported_table, &row, 1);
		note_replaced(c, kind, &rows, &before.rows);
		if (kind->warn)
			kind->warn(c, &rows, &before);
	}
	rt_shipped_free(&rows);
	cli_roster_free(&before);
}

/* ---- the commands ------------------------------------------------------------------------ */

const struct cli_command cmd_ring_kinds_import = {
	.group = "Rows",
	.name = "ring kinds import",
	.summary = "Add kinds of ring to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_ring_row_record, NULL},
	.table = {&imported_table},
	CLI_OPTIONS(struct rows_file, file_options),
	.run = import_rows,
};

const struct cli_command cmd_level_import = {
	.group = "Rows",
	.name = "level import",
	.summary = "Add levels to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_level_record, NULL},
	.table = {&imported_table},
	CLI_OPTIONS(struct rows_file, file_options),
	.run = import_rows,
};

const struct cli_command cmd_gait_import = {
	.group = "Rows",
	.name = "gait import",
	.summary = "Add gaits to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_gait_record, NULL},
	.table = {&imported_table},
	CLI_OPTIONS(struct rows_file, file_options),
	.run = import_rows,
};

const struct cli_command cmd_rule_import = {
	.group = "Rows",
	.name = "rule import",
	.summary = "Add rules to the show, or change them.",
	.details =
		"Results are always computed anew: those of classes under a changed rule change with\n"
		"it.",
	.files = (const struct rt_record *const[]){&rt_rule_record, NULL},
	.table = {&imported_table},
	CLI_OPTIONS(struct rows_file, file_options),
	.run = import_rows,
};

const struct cli_command cmd_turnout_import = {
	.group = "Rows",
	.name = "turnout import",
	.summary = "Add turnouts to the show, or change them.",
	.files = (const struct rt_record *const[]){&rt_turnout_part_record, NULL},
	.table = {&imported_table},
	CLI_OPTIONS(struct rows_file, file_options),
	.run = import_rows,
};

const struct cli_command cmd_article_import = {
	.group = "Rows",
	.name = "article import",
	.summary = "Add articles (what a penalty costs) to the show, or change them.",
	.details =
		"A time beyond the last amount costs the last one, and an article without amounts is left\n"
		"to an official.",
	.files = (const struct rt_record *const[]){&rt_article_record, NULL},
	.table = {&imported_table},
	CLI_OPTIONS(struct rows_file, file_options),
	.run = import_rows,
};
