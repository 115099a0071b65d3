/* What command files share: the show file, the shipped rows, the roster of names.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

const struct rt_field cli_class_argument[] = {
	{"class", .type = RT_NAME, .is = RT_ARGUMENT | RT_REQUIRED},
};
const struct rt_field cli_class_if_any[] = {{"class", .type = RT_NAME, .is = RT_ARGUMENT}};
struct import_alone {
	struct cli_import in;
};
const struct rt_field cli_import_options[] = {CLI_IMPORT(struct import_alone, in)};

void *cli_array(struct cli *c, size_t n, size_t size)
{
	void *array = rt_arena_take(&c->text, (n + 1) * size);

	if (!array)
		CLI_DO(c, rt_fail_nomem(&c->err));
	return array;
}

void cli_name(struct cli_names *names, const char *fmt, ...)
{
	size_t used = strlen(names->text), room = sizeof names->text - used;
	const char *comma = used ? ", " : "";
	char name[sizeof names->text];
	va_list args;

	va_start(args, fmt);
	vsnprintf(name, sizeof name, fmt, args);
	va_end(args);
	names->n++;
	if (names->cut)
		return;
	names->cut = strlen(name) + sizeof ", , ..." > room;
	snprintf(names->text + used, room, "%s%s", comma, names->cut ? "..." : name);
}

void cli_show_path(struct cli *c)
{
	if (!c->show_path)
		CLI_FAIL(c, RT_E_USAGE, "which show? Give --show FILE, or set RINGTRUE_SHOW");
}

void cli_store_open(struct cli *c, bool writing)
{
	cli_show_path(c);
	if (!c->store)
		CLI_DO(c, rt_store_open(&c->store, c->show_path, writing, &c->err));
}

void cli_begin(struct cli *c)
{
	CLI_DO(c, rt_store_begin(c->store, &c->err));
	c->writing = !c->err.code;
}

void cli_store(struct cli *c, bool writing)
{
	if (c->store || c->err.code)
		return;
	cli_store_open(c, writing);
	if (writing && !c->err.code)
		cli_begin(c);
	else
		CLI_DO(c, rt_store_begin_reading(c->store, &c->err));
}

void cli_end(struct cli *c)
{
	if (c->writing && !c->trying)
		CLI_DO(c, rt_store_commit(c->store, &c->err));
	if (c->store && (c->err.code || !c->writing || c->trying))
		rt_store_rollback(c->store);
	c->writing = false;
}

/* Where the shipped rows lie: the folder that was asked for, or the installed one. */
static const char *data_folder(void)
{
	const char *asked = getenv("RINGTRUE_DATA");

	return asked && *asked ? asked : RT_DATA_FOLDER;
}

/* The path of a shipped file, written into path. */
static const char *data_file(char path[static 4096], const char *name)
{
	snprintf(path, 4096, "%s/%s", data_folder(), name);
	return path;
}

void cli_data_rows(struct cli *c, struct rt_shipped *out)
{
	const struct rt_roster roster = {.gaits = &out->gaits, .rules = &out->rules};
	struct rt_faults *faults = &c->faults;
	char path[4096];

	memset(out, 0, sizeof *out);
	CLI_DO(c, rt_read_ring_kinds(&out->kinds, RT_FILE(data_file(path, "rings.csv")), faults,
				     &c->err));
	CLI_DO(c,
	       rt_read_gaits(&out->gaits, RT_FILE(data_file(path, "gaits.csv")), faults, &c->err));
	CLI_DO(c, rt_read_levels(&out->levels, RT_FILE(data_file(path, "levels.csv")), &roster,
				 faults, &c->err));
	CLI_DO(c,
	       rt_read_rules(&out->rules, RT_FILE(data_file(path, "rules.csv")), faults, &c->err));
	CLI_DO(c, rt_read_articles(&out->articles, RT_FILE(data_file(path, "articles.csv")),
				   &roster, faults, &c->err));
	CLI_DO(c, rt_read_turnouts(&out->turnouts, RT_FILE(data_file(path, "turnouts.csv")), faults,
				   &c->err));
	CLI_DO(c, rt_faults_result(faults, &c->err));
}

void cli_footing_rules(struct cli *c, const char *file, struct rt_footing_rules *out)
{
	char path[4096];

	CLI_DO(c, rt_read_footing_rules(out, RT_FILE(file ? file : data_file(path, "footing.csv")),
					&c->faults, &c->err));
	CLI_DO(c, rt_faults_result(&c->faults, &c->err));
}

/* ---- what the show has ----------------------------------------------------------------- */

const struct rt_shipped *cli_rows(struct cli *c)
{
	if (c->rows_read)
		return &c->rows;
	c->rows_read = true;
	if (c->show_path)
		cli_store(c, false);
	if (c->show_path)
		CLI_DO(c, rt_store_shipped(c->store, &c->rows, &c->err));
	else
		cli_data_rows(c, &c->rows);
	return &c->rows;
}

/* Whether a list is asked for for the first time; the show is open then. */
static bool is_to_be_read(struct cli *c, bool *read)
{
	bool first = !*read;

	cli_store(c, false);
	*read = true;
	return first;
}

const struct rt_rings *cli_rings(struct cli *c)
{
	if (is_to_be_read(c, &c->rings_read))
		CLI_DO(c, rt_store_rings(c->store, &c->rings, &c->err));
	return &c->rings;
}

const struct rt_tests *cli_tests(struct cli *c)
{
	if (is_to_be_read(c, &c->tests_read))
		CLI_DO(c, rt_store_tests(c->store, &c->tests, &c->err));
	return &c->tests;
}

const struct rt_classes *cli_classes(struct cli *c)
{
	if (is_to_be_read(c, &c->classes_read))
		CLI_DO(c, rt_store_classes(c->store, &c->classes, &c->err));
	return &c->classes;
}

const struct rt_entries *cli_entries(struct cli *c)
{
	if (is_to_be_read(c, &c->entries_read))
		CLI_DO(c, rt_store_entries(c->store, NULL, &c->entries, &c->err));
	return &c->entries;
}

const struct rt_roster *cli_roster(struct cli *c, bool writing)
{
	const struct rt_shipped *rows;

	cli_store(c, writing);
	rows = cli_rows(c);
	c->roster = (struct rt_roster){
		.kinds = &rows->kinds,
		.levels = &rows->levels,
		.gaits = &rows->gaits,
		.rules = &rows->rules,
		.rings = cli_rings(c),
		.tests = cli_tests(c),
		.classes = cli_classes(c),
	};
	return &c->roster;
}

void cli_unknown(struct cli *c, const struct rt_record *r, const void *rows, size_t n,
		 const char *name, const char *otherwise, const char *fmt, ...)
{
	size_t offset = rt_record_field(r, r->name)->offset;
	struct rt_strings names = {0};
	char said[200];
	va_list args;

	for (size_t i = 0; i < n && !c->err.code; i++)
		CLI_ADD(c, &names,
			*(const char *const *)((const char *)rows + i * r->size + offset));
	va_start(args, fmt);
	vsnprintf(said, sizeof said, fmt, args);
	va_end(args);
	CLI_DO(c, rt_fail_unknown(&c->err, name, names.at, names.n, otherwise, "%s", said));
	RT_LIST_FREE(&names);
}

void cli_show_free(struct cli *c)
{
	rt_show_free(&c->show);
	rt_shipped_free(&c->rows);
	RT_LIST_FREE(&c->rings);
	RT_LIST_FREE(&c->tests);
	rt_classes_free(&c->classes);
	RT_LIST_FREE(&c->entries);
}

/* ---- files that are imported ----------------------------------------------------------- */

/* Every pair of --columns is a name and a column that one of the command's files has. */
static void check_columns(struct cli *c, const char *columns)
{
	const struct rt_record *const *files = c->call.command->files;
	char theirs[RT_COLUMN_SIZE], ours[RT_COLUMN_SIZE];

	while (rt_next_column(&columns, theirs, ours) && !c->err.code) {
		char known[600] = "";
		bool found = false;

		for (size_t i = 0; files[i] && !found; i++) {
			const struct rt_field *f = rt_record_field(files[i], ours);
			size_t used = strlen(known);

			found = f && rt_field_in_file(f);
			snprintf(known + used, sizeof known - used, "%s", used ? "; " : "");
			used = strlen(known);
			rt_record_columns(files[i], known + used, sizeof known - used);
		}
		if (!*theirs || !*ours)
			CLI_FAIL(c, RT_E_USAGE,
				 "--columns: pairs such as \"Reiter=driver\", the name in the file "
				 "and then ours, semicolons between");
		else if (!found)
			CLI_FAIL(c, RT_E_USAGE, "--columns: %s is no column here: %s",
				 rt_show(ours).text, known);
	}
}

/* What the columns of such a file are called: as --columns says, which the show keeps for the next
 * file of its kind, else as it said last. */
static const char *headings(struct cli *c, const char *given)
{
	const char *file = c->call.command->files[0]->name, *last = NULL;

	if (!c->store)
		return given;
	if (given)
		CLI_DO(c, rt_store_headings_put(c->store, file, given, &c->err));
	else
		CLI_DO(c, rt_store_headings(c->store, file, &last, &c->text, &c->err));
	return given ? given : last;
}

const struct rt_source *cli_source(struct cli *c, const struct cli_import *how, const char *path)
{
	struct rt_source *source = cli_array(c, 1, sizeof *source);

	c->trying |= how->try;
	check_columns(c, how->columns);
	if (c->store && !c->show.title)
		CLI_DO(c, rt_store_show(c->store, &c->show, &c->err));
	if (source)
		*source = (struct rt_source){
			.path = path,
			.sheet = how->sheet,
			.columns = headings(c, how->columns),
			.first_day = c->show.day,
			.notes = &c->report,
		};
	return source;
}

/* ---- what commands say ------------------------------------------------------------------ */

struct imported_row {
	const char *what;
	struct rt_import_count count;
};

static const struct rt_field imported_fields[] = {
	{"what", RT_AT(struct imported_row, what)},
	{"added", RT_AT(struct imported_row, count.added), .type = RT_SIZE},
	{"same", .head = "there already", RT_AT(struct imported_row, count.same), .type = RT_SIZE},
	{"changed", RT_AT(struct imported_row, count.changed), .type = RT_SIZE, .wide = true},
};

static const struct rt_record imported_table = RT_TABLE("imported", "Imported", imported_fields,
							struct imported_row);

const struct rt_record *const cli_shared_tables[] = {&imported_table, &cli_sheet_table,
						     &cli_stale_table, NULL};

void cli_report_import(struct cli *c, const char *what, const struct rt_import_count *count)
{
	rt_table_show(rt_report_list(&c->report, &imported_table,
				     &(struct imported_row){what, *count}, 1),
		      "changed", count->changed);
	if (!c->err.code && !count->added && !count->changed)
		rt_report_note(&c->report, "Nothing was added: all of it is in the show already.");
}

int64_t cli_number(struct cli *c, const char *what, const char *word)
{
	static const struct rt_field field = {"number", .type = RT_INT, .low = 1,
					      .high = RT_NUMBER_MOST};
	struct rt_error why = {0};
	int64_t number = 0;

	if (rt_member_read(&field, &number, word, NULL, &why))
		CLI_FAIL(c, RT_E_USAGE, "%s: %s", what, why.text);
	return number;
}

void cli_note_posted(struct cli *c, const char *class_name)
{
	struct rt_posting latest = {0};
	bool found = false;

	CLI_DO(c, rt_store_posting_latest(c->store, class_name, &latest, &found, &c->err));
	if (found)
		rt_report_note(&c->report,
			       "Class %s was posted: look at its results, and post it again.",
			       class_name);
	rt_posting_free(&latest);
}

const struct rt_test *cli_test(struct cli *c, const char *name)
{
	const struct rt_tests *tests = cli_tests(c);

	for (size_t i = 0; i < tests->n; i++)
		if (strcmp(tests->at[i].name, name) == 0)
			return &tests->at[i];
	return NULL;
}

const struct rt_ring_kind *cli_kind_of(struct cli *c, const struct rt_class *class_)
{
	const char *name = rt_class_ring_kind(class_, cli_rings(c), cli_tests(c));

	return name ? rt_ring_kind_find(&cli_rows(c)->kinds, name) : NULL;
}

const char *cli_level_of(struct cli *c, const struct rt_class *class_)
{
	const struct rt_test *test = cli_test(c, class_->test);

	return class_->level || !test ? class_->level : test->level;
}

const char *cli_rule_of(struct cli *c, const struct rt_class *class_)
{
	const struct rt_test *test = cli_test(c, class_->test);

	return class_->rule || !test ? class_->rule : test->rule;
}
