/* template: an empty file of a kind, or one with two rows to go by.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

#include <strings.h>

struct template
{
	const char *kind;
	bool example;
};

static const struct rt_field options[] = {
	{"kind", RT_AT(struct template, kind), .type = RT_NAME, .is = RT_ARGUMENT,
	 .help = "entries, classes, ...; without it the kinds are listed"},
	{"example", RT_AT(struct template, example), .type = RT_BOOL,
	 .help = "with two rows, which are invented and fit those of the other kinds"},
};

struct kind_row {
	const char *kind, *taken_by, *help;
};

static const struct rt_field kind_fields[] = {
	{"kind", RT_AT(struct kind_row, kind), .type = RT_NAME},
	{"read_by", RT_AT(struct kind_row, taken_by), .type = RT_TEXT},
	{"help", .head = "a row", RT_AT(struct kind_row, help), .type = RT_TEXT},
};

static const struct rt_record kind_record = {
	"template",
	"templates",
	"Kinds of file",
	RT_FIELDS(kind_fields),
	.size = sizeof(struct kind_row),
};

static void list_kinds(struct cli *c)
{
	struct rt_table *t = rt_report_rows(&c->report, &kind_record);

	for (size_t i = 0; i < cli_file_count; i++)
		rt_put_row(t, &(struct kind_row){cli_files[i].name, cli_files[i].taken_by,
						 cli_files[i].record->help});
}

/* The kind of that name, or of its record's: "entries", "entry". */
static const struct rt_record *find_kind(struct cli *c, const char *name)
{
	const char *names[64];
	size_t n = 0;

	for (; n < cli_file_count; n++) {
		const struct rt_record *r = cli_files[n].record;

		if (strcasecmp(cli_files[n].name, name) == 0 || strcasecmp(r->name, name) == 0 ||
		    strcasecmp(r->many, name) == 0)
			return r;
		names[n] = cli_files[n].name;
	}
	cli_unknown_word(c, "kind of file", name, names, n, "", "`template` lists them");
	return NULL;
}

/* Its columns as texts, as an import wants them: no apostrophe before a number under zero. */
static void print_template(struct cli *c, const struct rt_record *r, bool example)
{
	struct rt_arena **text = &c->report.text;
	struct rt_field *column = rt_arena_take(text, r->fields * sizeof *column);
	const char **row = rt_arena_take(text, r->fields * sizeof *row);
	struct rt_record *texts = rt_arena_take(text, sizeof *texts);
	struct rt_table *t;

	if (!column || !row || !texts) {
		CLI_DO(c, rt_fail_nomem(&c->err));
		return;
	}
	*texts = (struct rt_record){.many = r->many, .title = r->title, .field = column};
	for (size_t i = 0; i < r->fields; i++)
		if (rt_field_in_file(&r->field[i]))
			column[texts->fields++] = (struct rt_field){r->field[i].name,
								    .head = r->field[i].name,
								    .offset = i * sizeof *row};
	t = rt_report_rows(&c->report, texts);
	for (size_t k = 0; k < 2 && example; k++) {
		for (size_t i = 0; i < r->fields; i++)
			row[i] = r->field[i].example[k];
		rt_put_row(t, row);
	}
	c->format = CLI_CSV;
	c->raw = true;
}

static void template_run(struct cli *c, const void *typed)
{
	const struct template *o = typed;
	const struct rt_record *r = o->kind ? find_kind(c, o->kind) : NULL;

	if (r && c->format == CLI_JSON)
		CLI_FAIL(c, RT_E_USAGE, "a template is a CSV file: no --format json");
	else if (r)
		print_template(c, r, o->example);
	else if (!o->kind)
		list_kinds(c);
}

const struct cli_command cmd_template = {
	.name = "template",
	.summary = "Print an empty CSV file of a kind, to be filled in.",
	.details = "A spreadsheet opens it; the import of that kind reads it.",
	.example = "template entries --example",
	.table = {&kind_record},
	CLI_OPTIONS(struct template, options),
	.run = template_run,
};
