/* The page of all names in JSON and CSV, made from the tables themselves.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "cli.h"

#include <string.h>

static const struct rt_record *const *const rooms[] = {
	rt_ring_tables,	 rt_survey_tables, rt_check_tables,   rt_setout_tables, rt_footing_tables,
	rt_drive_tables, rt_keying_tables, rt_scoring_tables, rt_series_tables, rt_times_tables,
};

struct tables RT_LIST(const struct rt_record *);

/* A column of a table, as the page has it. */
struct name {
	const char *table, *name, *type, *unit, *what;
};

struct names RT_LIST(struct name);

static const struct rt_field name_fields[] = {
	{"table", RT_AT(struct name, table), .type = RT_TEXT},
	{"name", RT_AT(struct name, name), .type = RT_TEXT},
	{"type", RT_AT(struct name, type), .type = RT_TEXT},
	{"unit", RT_AT(struct name, unit), .type = RT_TEXT},
	{"what", RT_AT(struct name, what), .type = RT_TEXT},
};

static const struct rt_record name_table = RT_TABLE("names", "The names in JSON and CSV",
						    name_fields, struct name);

static const char *type_words(const struct rt_field *f)
{
	if (f->type == RT_NAMES || f->type == RT_LETTERS)
		return "list of texts";
	switch (rt_type_shown(f->type)) {
	case RT_BOOL:
		return "true or false";
	case RT_TEXT:
		return "text";
	default:
		return "number";
	}
}

static const char *unit_words(enum rt_unit unit)
{
	switch (unit) {
	case RT_METRE:
	case RT_TAPED:
		return "m";
	case RT_SECOND:
		return "s";
	case RT_DEGREE:
		return "degree";
	case RT_PERCENT:
	case RT_PART:
		return "per cent";
	case RT_NO_UNIT:
		break;
	}
	return NULL;
}

static void add_table(struct cli *c, struct tables *tables, const struct rt_record *record)
{
	for (size_t i = 0; i < tables->n; i++)
		if (tables->at[i] == record)
			return;
	CLI_ADD(c, tables, record);
}

/* Tables of one name stand together, as they were added. */
static void add_names(struct cli *c, struct names *names, const struct rt_record *record)
{
	for (size_t i = 0; i < record->fields; i++) {
		const struct rt_field *f = &record->field[i];
		bool there = f->is & RT_UNSEEN;
		char head[64];

		for (size_t k = 0; k < names->n; k++)
			there |= strcmp(names->at[k].table, record->many) == 0 &&
				 strcmp(names->at[k].name, f->name) == 0 &&
				 strcmp(names->at[k].type, type_words(f)) == 0;
		if (!there)
			CLI_ADD(c, names,
				(struct name){record->many, f->name, type_words(f),
					      unit_words(f->unit),
					      f->help ? f->help
						      : rt_report_textf(&c->report, "%s",
									rt_field_head(f, head))});
	}
}

void cli_help_json(struct cli *c)
{
	struct tables tables = {0};
	struct names names = {0};

	for (size_t i = 0; i < sizeof rooms / sizeof *rooms; i++)
		for (const struct rt_record *const *record = rooms[i]; *record; record++)
			add_table(c, &tables, *record);
	for (size_t i = 0; i < cli_command_count; i++)
		for (size_t k = 0; k < CLI_TABLES_MOST && cli_commands[i]->table[k]; k++)
			add_table(c, &tables, cli_commands[i]->table[k]);
	add_table(c, &tables, &name_table);
	for (size_t i = 0; i < tables.n; i++)
		for (size_t k = i; k < tables.n; k++)
			if (strcmp(tables.at[k]->many, tables.at[i]->many) == 0)
				add_names(c, &names, tables.at[k]);
	rt_report_list(&c->report, &name_table, names.at, names.n);
	rt_report_note(
		&c->report,
		"JSON is one object: format (\"" RT_JSON_FORMAT
		"\"), each table as an array of objects with these names, and notes, an array "
		"of texts. What is not there is null, or an empty list. One name has one type "
		"wherever it stands.");
	RT_LIST_FREE(&tables);
	RT_LIST_FREE(&names);
}
