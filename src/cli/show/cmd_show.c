/* create and show: the show file as a whole.
 * SPDX-License-Identifier: GPL-3.0-or-later */
#include <config.h>

#include "../cli.h"

struct create {
	const char *file, *title, *day;
};

static enum rt_err read_day(const struct rt_field *f, void *member, const char *s,
			    struct rt_arena **text, struct rt_error *err)
{
	(void)text;
	if (!rt_parse_day(s))
		return rt_refuse(err, s, "is no day", f->accepted);
	*(const char **)member = s;
	return RT_OK;
}

static const struct rt_field create_options[] = {
	{"file", RT_AT(struct create, file), .type = RT_TEXT, .is = RT_ARGUMENT | RT_REQUIRED},
	{"title", RT_AT(struct create, title), .head = "T", .type = RT_NAME, .is = RT_REQUIRED,
	 .help = "the show's title"},
	{"day", RT_AT(struct create, day), .head = "YYYY-MM-DD", .type = RT_TEXT, .read = read_day,
	 .accepted = "a day that exists, YYYY-MM-DD",
	 .help = "the show's day, or its first one; the day of --date unless given"},
};

static const struct rt_field created_fields[] = {
	{"file", RT_AT(struct create, file)},
	{"title", RT_AT(struct create, title)},
	{"date", RT_AT(struct create, day)},
};

static const struct rt_record created_table = RT_TABLE("created", "Show file made", created_fields,
						       struct create);

static void create(struct cli *c, const void *typed)
{
	struct create o = *(const struct create *)typed;
	char today[sizeof c->when];
	struct rt_shipped rows = {0};

	snprintf(today, sizeof today, "%.10s", c->when);
	o.day = o.day ? o.day : today;
	cli_data_rows(c, &rows);
	CLI_DO(c, rt_store_create(o.file,
				  &(const struct rt_show){
					  .title = o.title, .day = o.day, .created = c->when},
				  &rows, &c->err));
	rt_shipped_free(&rows);
	rt_report_list(&c->report, &created_table, &o, 1);
}

const struct cli_command cmd_create = {
	.name = "create",
	.summary = "Make a new show file.",
	.details =
		"The shipped ring kinds, levels, gaits, rules and turnouts are copied into it. A file\n"
		"that is there already is never touched.",
	.example = "create spring.show --title \"Spring driving day\" --day 2026-05-09",
	CLI_OPTIONS(struct create, create_options),
	.table = {&created_table},
	.run = create,
};

/* ---- show -------------------------------------------------------------------------------- */

struct show_row {
	const struct rt_show *show;
	size_t rings, tests;
};

#define SHOW(member) RT_IN(struct show_row, show, struct rt_show, member)

static const struct rt_field show_fields[] = {
	{"title", SHOW(title)},
	{"date", SHOW(day)},
	{"rings", RT_AT(struct show_row, rings), .type = RT_SIZE},
	{"tests", RT_AT(struct show_row, tests), .type = RT_SIZE},
	{"created_at", .head = "made", SHOW(created), .wide = true},
};

static const struct rt_record show_table = RT_TABLE("show", "Show", show_fields, struct show_row);

/* A class, and what is keyed of it so far. */
struct class_row {
	const struct rt_class *of;
	size_t entries, out, keyed[RT_KEYINGS];
};

#define CLASS(member) RT_IN(struct class_row, of, struct rt_class, member)
#define ROW(member)   RT_AT(struct class_row, member)

static const struct rt_field class_fields[] = {
	{"class", CLASS(name)},
	{"title", CLASS(title)},
	{"test", CLASS(test)},
	{"level", CLASS(level_used), .wide = true},
	{"rule", CLASS(rule_used), .wide = true},
	{"entries", ROW(entries), .type = RT_SIZE},
	{"not_starting", ROW(out), .type = RT_SIZE},
	{"judges", CLASS(positions), .type = RT_LETTERS},
	{"sheets_keyed_1", .head = "keying 1 sheets", ROW(keyed[0]), .type = RT_SIZE},
	{"sheets_keyed_2", .head = "keying 2 sheets", ROW(keyed[1]), .type = RT_SIZE},
};

static const struct rt_record class_table = RT_TABLE("classes", "Classes", class_fields,
						     struct class_row);

static void put_class(struct cli *c, struct rt_table *t, const struct rt_class *class_)
{
	struct class_row row = {.of = class_};
	struct rt_entries entries = {0};

	CLI_DO(c, rt_store_entries(c->store, class_->name, &entries, &c->err));
	row.entries = entries.n;
	for (size_t k = 0; k < entries.n; k++)
		row.out += entries.at[k].status == RT_WITHDRAWN ||
			   entries.at[k].status == RT_DID_NOT_START;
	RT_LIST_FREE(&entries);
	CLI_DO(c, rt_store_sheets_keyed(c->store, class_->name, row.keyed, &c->err));
	rt_put_row(t, &row);
}

static void show(struct cli *c, const void *typed)
{
	const struct rt_classes *classes = cli_classes(c);
	struct rt_table *t;

	(void)typed;
	CLI_DO(c, rt_store_show(c->store, &c->show, &c->err));
	rt_report_list(&c->report, &show_table,
		       &(const struct show_row){&c->show, cli_rings(c)->n, cli_tests(c)->n}, 1);
	t = rt_report_rows(&c->report, &class_table);
	for (size_t i = 0; i < classes->n; i++)
		put_class(c, t, &classes->at[i]);
}

const struct cli_command cmd_show = {
	.name = "show",
	.summary = "Tell what is in the show file.",
	.example = "--show spring.show show",
	.table = {&show_table, &class_table},
	.run = show,
};
